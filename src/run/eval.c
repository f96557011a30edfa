/* SPDX-License-Identifier: GPL-3.0-or-later */

/* A moment: every part's view of one time, and its evaluation in the fixed order
 * shafts → places → circuit → gas → leads → rates. */

#include "run/follow.h"
#include <math.h>
#include <string.h>

/* ---- Layout ---- */

static void
bind_part (HobMoment *m, int p)
{
  const HobPlan *plan = m->plan;
  const HobPart *part = &plan->range->parts[p];
  HobPartContext *c = &m->part[p];
  int within = plan->place0[part->in >= 0 ? part->in : plan->house];

  c->index = p;
  c->house = &m->house;
  c->t = &m->t;
  c->set = m->set + plan->set0[p];
  c->filed = part->set;
  c->ctl = m->ctl + plan->ctl0[p];
  c->y = m->y + plan->y0[p];
  c->dy = m->dy + plan->y0[p];
  c->mode = m->mode + plan->mode0[p];
  c->g = m->g + plan->elem0[p];
  c->emf = m->emf + plan->elem0[p];
  c->v = m->v + plan->term0[p];
  c->i = m->i + plan->elem0[p];
  c->duct = m->duct + plan->duct0[p];
  c->p = m->p + plan->port0[p];
  c->q = m->q + plan->duct0[p];
  c->lead = m->lead_at + plan->term0[p];
  c->place = plan->place0[p] >= 0 ? m->place + HOB_N_PLACE * plan->place0[p] : NULL;
  c->within = m->place + HOB_N_PLACE * within;
  c->ledger = m->ledger_rate;
  c->engine = m;
}

/* Thévenin source at element k of part c, the element itself taken away: the network's impedance by
 * a probe of 1 A with every source absent, then the element's own admittance subtracted. */
static void
source_at (const HobPartContext *c, int element, HobComplex *volts, double *ohms)
{
  HobMoment *m = c->engine;
  const HobPlan *plan = m->plan;
  int k = plan->elem0[c->index] + element;
  HobBranch branch = plan->branches[k];
  HobComplex z, v, y, yz;
  double d;

  z = hob_circuit_probe_again (plan->circuit, m->g, plan->n_elems, branch.a, branch.b,
                               m->circuit_work);
#define AT(array, node) ((node) < 0 ? (HobComplex){ 0, 0 } : (array)[node])
  v.re = AT (m->v, branch.a).re - AT (m->v, branch.b).re;
  v.im = AT (m->v, branch.a).im - AT (m->v, branch.b).im;
#undef AT
  /* open-circuit volts = v / (1 − y·z), source impedance = z / (1 − y·z) */
  y = m->g[k];
  yz = (HobComplex){ 1 - (y.re * z.re - y.im * z.im), -(y.re * z.im + y.im * z.re) };
  d = fmax (hob_complex_abs2 (yz), 1e-30);
  volts->re = (v.re * yz.re + v.im * yz.im) / d;
  volts->im = (v.im * yz.re - v.re * yz.im) / d;
  *ohms = hob_complex_abs (z) / sqrt (d);
}

#define NO_WAY 1e-13 /* S in place of a stray, so that what hangs on nothing reads as far as that */

/* Resistance between two terminals of part c for direct current: a probe of 1 A, every source
 * absent, conductances alone. */
static double
dc_ohms_between (const HobPartContext *c, int a, int b)
{
  HobMoment *m = c->engine;
  const HobPlan *plan = m->plan;
  int na = plan->term0[c->index] + a, nb = plan->term0[c->index] + b;

  for (int k = 0; k < plan->n_branches; k++)
    m->probe_g[k] = (HobComplex){ k < plan->stray0 ? m->g[k].re : NO_WAY, 0 };
  return hob_circuit_probe_again (plan->circuit, m->probe_g, plan->n_branches, na, nb,
                                  m->probe_work)
      .re;
}

static void
bind_leads (HobMoment *m)
{
  for (int k = 0; k < m->plan->range->n_leads; k++)
    for (int e = 0; e < 2; e++)
      m->lead_at[m->plan->lead_end[2 * k + e]] = &m->leads[k];
}

static gsize
at_least_one (int n)
{
  return (gsize) MAX (n, 1);
}

/* ---- Room for everything that one moment knows ---- */

static void
make_parts (HobMoment *m, const HobPlan *plan, const HobRange *range)
{
  m->part = g_new0 (HobPartContext, at_least_one (range->n_parts));
  m->set = g_new0 (double, at_least_one (plan->n_sets));
  m->ctl = g_new0 (double, at_least_one (plan->n_ctls));
  m->mode = g_new0 (double, at_least_one (plan->n_modes));
  m->turned = g_new0 (double, at_least_one (range->n_parts));
  m->place = g_new0 (double, at_least_one (HOB_N_PLACE * plan->n_places));
  m->block = g_new0 (double, at_least_one (plan->b_watch));
  m->guard = g_new0 (double, at_least_one (plan->n_guards));
  m->guard_start = g_new0 (double, at_least_one (plan->n_guards));
  m->before = g_new0 (double, at_least_one (plan->n_modes));
  m->flips = (guint8 *) g_new0 (double, at_least_one (hob_plan_flip_doubles (plan)));
}

static void
make_faults (HobMoment *m, const HobRange *range)
{
  m->fault0 = g_new0 (int, range->n_parts + 1);
  for (int p = 0; p < range->n_parts; p++)
    m->fault0[p + 1] = m->fault0[p] + range->parts[p].kind->n_faults;
  m->n_faults = m->fault0[range->n_parts];
  m->fault = g_new (double, at_least_one (m->n_faults));
  m->fault_order = g_new (int, at_least_one (m->n_faults));
}

static void
make_states (HobMoment *m, const HobPlan *plan)
{
  int n = plan->n_y + HOB_N_LEDGER;

  m->y = g_new0 (double, n);
  m->dy = g_new0 (double, n);
  m->ledger_rate = m->dy + plan->n_y;
  m->step.memory = g_new0 (double, hob_ode_memory_size (n));
  m->span_y = g_new0 (double, n);
}

static void
make_circuit (HobMoment *m, const HobPlan *plan, const HobRange *range)
{
  m->g = g_new0 (HobComplex, at_least_one (plan->n_branches));
  m->emf = g_new0 (HobComplex, at_least_one (plan->n_branches));
  m->i = g_new0 (HobComplex, at_least_one (plan->n_elems));
  m->i_fine = g_new0 (HobComplex, at_least_one (plan->n_branches));
  m->v = g_new0 (HobComplex, at_least_one (plan->n_terms));
  m->probe_g = g_new0 (HobComplex, at_least_one (plan->n_branches));
  m->circuit_work = g_new0 (double, hob_circuit_work_size (plan->circuit) + 1);
  m->probe_work = g_new0 (double, hob_circuit_work_size (plan->circuit) + 1);
  m->leads = g_new0 (HobLead, at_least_one (range->n_leads));
  m->lead_at = g_new0 (HobLead *, at_least_one (plan->n_terms));
}

static void
make_gas (HobMoment *m, const HobPlan *plan)
{
  m->duct = g_new0 (HobDuct, at_least_one (plan->n_gas_branches));
  m->duct_start = g_new0 (HobDuct, at_least_one (plan->n_gas_branches));
  m->p = g_new0 (double, at_least_one (plan->n_ports));
  m->p_start = g_new0 (double, at_least_one (plan->n_ports));
  m->p_known = g_new0 (double, at_least_one (plan->n_ports));
  m->q = g_new0 (double, at_least_one (plan->n_gas_branches));
  m->q_known = g_new0 (double, at_least_one (plan->n_gas_branches));
  m->gas_work = g_new0 (double, hob_gas_work_size (plan->gas) + 1);
  for (int k = 0; k < HOB_GAS_ANSWERS; k++)
    m->answer[k] = (HobGasAnswer){ .duct = g_new0 (HobDuct, at_least_one (plan->n_ducts)),
                                   .start = g_new0 (double, at_least_one (plan->n_ports)),
                                   .p = g_new0 (double, at_least_one (plan->n_ports)),
                                   .q = g_new0 (double, at_least_one (plan->n_gas_branches)) };
}

/* Wires and pipes are the same in every run of the plan. */
static void
set_lines (HobMoment *m, const HobPlan *plan, const HobRange *range)
{
  for (int k = 0; k < range->n_wires + plan->n_terms; k++)
    m->g[plan->wire0 + k] = plan->fixed[k];
  for (int k = 0; k < range->n_pipes; k++)
    m->duct[plan->pipe0 + k] = (HobDuct){ .law = HOB_DUCT_PIPE, .bore = range->pipes[k].diameter,
                                          .length = fmax (range->pipes[k].length, 0.01) };
}

HobMoment *
hob_moment_new (const HobPlan *plan)
{
  HobMoment *m = g_new0 (HobMoment, 1);
  const HobRange *range = plan->range;

  m->plan = hob_plan_ref ((HobPlan *) plan);
  m->t_last = NAN;
  make_parts (m, plan, range);
  make_faults (m, range);
  make_states (m, plan);
  make_circuit (m, plan, range);
  make_gas (m, plan);
  for (int slot = HOB_PLACE_HEAT; slot < HOB_N_PLACE; slot++)
    m->place_start[slot - HOB_PLACE_HEAT] = hob_places[slot].start;
  bind_leads (m);
  for (int p = 0; p < range->n_parts; p++)
    {
      bind_part (m, p);
      m->part[p].source = source_at;
      m->part[p].dc_ohms = dc_ohms_between;
    }
  set_lines (m, plan, range);
  return m;
}

void
hob_moment_free (HobMoment *m)
{
  if (m == NULL)
    return;
  void *owned[] = {
    m->part, m->set, m->ctl, m->y, m->dy, m->mode, m->turned, m->g, m->emf, m->i, m->i_fine,
    m->v, m->probe_g, m->duct, m->duct_start, m->p, m->p_start,
    m->p_known, m->q, m->q_known, m->place, m->leads, m->lead_at, m->circuit_work, m->probe_work,
    m->gas_work, m->fault0, m->fault, m->fault_order, m->step.memory, m->span_y, m->block,
    m->guard, m->guard_start, m->before, m->flips,
  };
  for (guint k = 0; k < G_N_ELEMENTS (owned); k++)
    g_free (owned[k]);
  for (int k = 0; k < HOB_GAS_ANSWERS; k++)
    {
      g_free (m->answer[k].duct);
      g_free (m->answer[k].start);
      g_free (m->answer[k].p);
      g_free (m->answer[k].q);
    }
  hob_plan_unref (m->plan);
  g_free (m);
}

/* ---- Parameters: file, overrides, faults ---- */

static double
effect_value (const HobEffect *e, double severity)
{
  if (e->geometric)
    return e->at0 * pow (e->at1 / e->at0, severity);
  return e->at0 + (e->at1 - e->at0) * severity;
}

static void
apply_fault (double *set, const HobFaultDef *fault, double severity)
{
  for (int k = 0; k < fault->n_effects; k++)
    {
      const HobEffect *e = &fault->effects[k];
      double value = effect_value (e, severity);

      switch (e->how)
        {
        case HOB_EFFECT_SET: set[e->setting] = value; break;
        case HOB_EFFECT_MULTIPLY: set[e->setting] *= value; break;
        case HOB_EFFECT_ADD: set[e->setting] += value; break;
        }
    }
}

void
hob_moment_faulty_settings (const HobMoment *m, int part, int fault, double severity, double *set)
{
  const HobKind *kind = m->plan->range->parts[part].kind;

  memcpy (set, m->part[part].set, sizeof (double) * (gsize) kind->n_settings);
  apply_fault (set, &kind->faults[fault], severity);
}

static void
hang (HobMoment *m, int flat, double severity)
{
  int n = 0;

  for (int k = 0; k < m->n_hung; k++)
    if (m->fault_order[k] != flat)
      m->fault_order[n++] = m->fault_order[k];
  if (!isnan (severity))
    m->fault_order[n++] = flat;
  m->n_hung = n;
  m->fault[flat] = severity;
}

static void
derive_settings (HobMoment *m, const HobCase *acts, int n)
{
  const HobRange *range = m->plan->range;

  for (int p = 0; p < range->n_parts; p++)
    for (int k = 0; k < range->parts[p].kind->n_settings; k++)
      m->set[m->plan->set0[p] + k] = range->parts[p].set[k];
  m->n_hung = 0;
  for (int k = 0; k < m->n_faults; k++)
    m->fault[k] = NAN;
  for (int k = 0; k < n; k++)
    {
      const HobAct *act = &g_array_index (acts->acts, HobAct, k);
      if (act->what == HOB_ACT_SETTING)
        m->set[m->plan->set0[act->part] + act->index] = act->value;
      else if (act->what == HOB_ACT_FAULT)
        hang (m, m->fault0[act->part] + act->index, act->value);
      else if (act->what == HOB_ACT_LIFT)
        hang (m, m->fault0[act->part] + act->index, NAN);
    }
  for (int k = 0; k < m->n_hung; k++)
    for (int p = 0; p < range->n_parts; p++)
      if (m->fault_order[k] >= m->fault0[p] && m->fault_order[k] < m->fault0[p + 1])
        apply_fault (m->set + m->plan->set0[p],
                     &range->parts[p].kind->faults[m->fault_order[k] - m->fault0[p]],
                     m->fault[m->fault_order[k]]);
}

/* Settings that are not controls never change between acts: derive them only when the number
 * applied changes. What is set or added at time 0 was so before the run: all begins at rest with
 * it. */
void
hob_moment_apply_acts (HobMoment *m, const HobCase *acts, int n)
{
  const HobRange *range = m->plan->range;

  while (n < (int) acts->acts->len && g_array_index (acts->acts, HobAct, n).ms <= 0)
    n++;
  if (m->case_serial == acts->serial && m->n_acts == n && m->seed == acts->seed)
    return;
  m->case_serial = acts->serial;
  m->n_acts = n;
  m->seed = acts->seed;
  m->t_last = NAN;
  for (int k = 0; k < HOB_GAS_ANSWERS; k++)
    m->answer[k].known = FALSE;
  derive_settings (m, acts, n);
  m->house = (HobHouse){ 298.15, 0.5, 101325, .fuel = &hob_fuels[range->plate],
                         .plate = &hob_fuels[range->plate], .manifold = m->plan->manifold };
  for (int p = 0; p < range->n_parts; p++)
    m->part[p].seed = acts->seed;
  range->parts[m->plan->house].kind->house (&m->part[m->plan->house], &m->house);
}

/* ---- Evaluation ---- */

/* Every part's function of one kind; @clamp comes after that of the part that acts as elsewhere. */
static inline void
call_each (HobMoment *m, const HobPartList *list, void (*clamp) (HobMoment *m, int part))
{
  const HobPartContext *part = m->part;
  int n = list->n;

  for (int k = 0; k < n; k++)
    {
      int p = list->part[k];

      list->function[k] (&part[p]);
      if (hob_is_clamped (m, p))
        clamp (m, p);
    }
}

static void
clear_puts (HobMoment *m)
{
  for (int k = 0; k < m->plan->n_places; k++)
    memcpy (m->place + k * HOB_N_PLACE + HOB_PLACE_HEAT, m->place_start,
            sizeof m->place_start);
}

static void
turn_shafts (HobMoment *m)
{
  const HobRange *range = m->plan->range;

  for (int k = 0; k < m->plan->movers.n; k++)
    {
      int p = m->plan->movers.part[k];
      if (range->parts[p].moved_by >= 0)
        m->part[p].moved = m->turned[range->parts[p].moved_by];
      m->turned[p] = range->parts[p].kind->turn (&m->part[p]);
      if (hob_is_clamped (m, p))
        m->turned[p] = m->as->turned[p];
    }
  for (int k = 0; k < m->plan->n_moved; k++)
    {
      int p = m->plan->moved[k];

      m->part[p].moved = m->turned[range->parts[p].moved_by];
    }
}

static void
solve_circuit (HobMoment *m)
{
  const HobPlan *plan = m->plan;

  memset (m->g, 0, sizeof (HobComplex) * (gsize) plan->n_elems);
  memset (m->emf, 0, sizeof (HobComplex) * (gsize) plan->n_elems);
  call_each (m, &plan->conduct, hob_clamp_conduct);
  hob_circuit_solve_again (plan->circuit, m->g, m->emf, plan->n_elems, NULL, m->v,
                           m->circuit_work);
  hob_circuit_currents (plan->circuit, plan->n_elems, m->i, m->circuit_work);
}

static void
keep_gas (HobMoment *m)
{
  const HobPlan *plan = m->plan;

  memcpy (m->duct_start, m->duct, sizeof (HobDuct) * (gsize) plan->n_gas_branches);
  memcpy (m->p_known, m->p, sizeof (double) * (gsize) plan->n_ports);
  memcpy (m->q_known, m->q, sizeof (double) * (gsize) plan->n_gas_branches);
  m->gas_known = TRUE;
  m->gas_given = FALSE;
}

/* Field by field: what fills the gaps between them belongs to nobody. */
static gboolean
same_duct (const HobDuct *a, const HobDuct *b)
{
  return a->law == b->law && a->area == b->area && a->bore == b->bore && a->length == b->length
         && a->set == b->set && a->lockup == b->lockup && a->leak == b->leak;
}

/* Are the parts' ducts as at the step's start?  The one that differed last is likely to differ. */
static gboolean
ducts_as_at_start (HobMoment *m)
{
  const HobDuct *a = m->duct, *b = m->duct_start;
  int n = m->plan->n_ducts, k = 0;

  if (!same_duct (&a[m->moved_duct], &b[m->moved_duct]))
    return FALSE;
  if (memcmp (a, b, sizeof (HobDuct) * (gsize) n) == 0)
    return TRUE;
  while (k < n && same_duct (&a[k], &b[k]))
    k++;
  if (k < n)
    m->moved_duct = k;
  return k == n;
}

/* The kept solution for these ducts and these pressures at the start; NULL.  One that is not found
 * because of what fills the gaps in the ducts is solved anew, to the same bits.  The duct that
 * moved last tells most of them apart. */
static const HobGasAnswer *
find_answer (const HobMoment *m)
{
  const HobPlan *plan = m->plan;
  gsize ports = sizeof (double) * (gsize) plan->n_ports;

  for (int k = 0; k < HOB_GAS_ANSWERS; k++)
    {
      const HobGasAnswer *a = &m->answer[k];

      if (a->known && same_duct (&m->duct[m->moved_duct], &a->duct[m->moved_duct])
          && memcmp (a->start, m->p_start, ports) == 0
          && memcmp (m->duct, a->duct, sizeof (HobDuct) * (gsize) plan->n_ducts) == 0)
        return a;
    }
  return NULL;
}

static void
keep_answer (HobMoment *m)
{
  const HobPlan *plan = m->plan;
  gsize ports = sizeof (double) * (gsize) plan->n_ports;
  HobGasAnswer *a = &m->answer[m->oldest_answer];

  m->oldest_answer = (m->oldest_answer + 1) % HOB_GAS_ANSWERS;
  a->known = TRUE;
  memcpy (a->duct, m->duct, sizeof (HobDuct) * (gsize) plan->n_ducts);
  memcpy (a->start, m->p_start, ports);
  memcpy (a->p, m->p, ports);
  memcpy (a->q, m->q, sizeof (double) * (gsize) plan->n_gas_branches);
}

/* From the pressures at the step's start. */
static void
solve_anew (HobMoment *m)
{
  const HobPlan *plan = m->plan;
  const HobGasAnswer *kept = find_answer (m);
  gsize ports = sizeof (double) * (gsize) plan->n_ports;

  memcpy (m->p, kept != NULL ? kept->p : m->p_start, ports);
  if (kept != NULL)
    memcpy (m->q, kept->q, sizeof (double) * (gsize) plan->n_gas_branches);
  else
    m->gas_failed
        = hob_gas_solve (plan->gas, m->duct, m->house.fuel, m->p, m->q, m->gas_work) < 0;
  if (kept == NULL && !m->gas_failed)
    keep_answer (m);
}

/* Pressures start from those at the step's beginning, whatever was asked in between, so that a step
 * gives the same bits whenever it is taken again; the solution for the beginning's openings is
 * kept. */
static void
solve_gas (HobMoment *m)
{
  const HobPlan *plan = m->plan;
  gsize ports = sizeof (double) * (gsize) plan->n_ports;
  gsize flows = sizeof (double) * (gsize) plan->n_gas_branches;

  memset (m->duct, 0, sizeof (HobDuct) * (gsize) plan->n_ducts);
  call_each (m, &plan->flow, hob_clamp_flow);
  if (m->gas_given)
    keep_gas (m);
  m->gas_failed = FALSE;
  if (m->gas_known && ducts_as_at_start (m))
    {
      memcpy (m->p, m->p_known, ports);
      memcpy (m->q, m->q_known, flows);
      return;
    }
  solve_anew (m);
  if (!m->gas_known && !m->gas_failed)
    keep_gas (m);
}

static void
offer_leads (HobMoment *m)
{
  for (int k = 0; k < m->plan->range->n_leads; k++)
    {
      HobLead *lead = &m->leads[k];
      *lead
          = (HobLead){ .breakdown = lead->breakdown, .at_cap = lead->at_cap, .flame = lead->flame };
    }
  call_each (m, &m->plan->offer, hob_clamp_offer);
}

/* Of the part that is k-th in the order. */
static inline void
rate_part (HobMoment *m, int k)
{
  int p = m->plan->rates.part[k];

  if (hob_is_clamped (m, p))
    hob_clamp_rates (m, p);
  else
    m->plan->rates.function[k] (&m->part[p]);
}

static void
sum_rates (HobMoment *m)
{
  const HobPlan *plan = m->plan;
  int n = plan->rates.n;

  memset (m->dy, 0, sizeof (double) * (gsize) (plan->n_y + HOB_N_LEDGER));
  for (int k = 0; k < n; k++)
    rate_part (m, k);
}

/* What comes before both nets are solved.  FALSE: it is all there, and all that comes after. */
static gboolean
move_to (HobMoment *m, double t, const double *y)
{
  gsize size = sizeof (double) * (gsize) (m->plan->n_y + HOB_N_LEDGER);

  if (y == NULL)
    y = m->y;
  if (t == m->t_last && (y == m->y || memcmp (y, m->y, size) == 0))
    return FALSE;
  if (y != m->y)
    memcpy (m->y, y, size);
  if (m->follow != NULL)
    hob_follow_states (m->follow, t, m->y);
  m->as = m->follow != NULL ? hob_follow_moment (m->follow, t) : NULL;
  m->t = m->t_last = t;
  m->evaluations++;
  m->fine = FALSE;
  clear_puts (m);
  turn_shafts (m);
  call_each (m, &m->plan->give, hob_clamp_give);
  return TRUE;
}

/* What the parts in a place put there by their states.  What they do by volts and flows is wrong,
 * and is not kept. */
static void
put_by_states (HobMoment *m, int place)
{
  const HobPlan *plan = m->plan;

  for (int k = 0; k < plan->rates.n; k++)
    if (plan->range->parts[plan->rates.part[k]].in == place)
      rate_part (m, k);
}

void
hob_moment_evaluate_for (HobMoment *m, double t, const double *y, int part, HobReads reads)
{
  if (reads == HOB_READS_ALL || m->inert != NULL)
    {
      hob_moment_evaluate (m, t, y);
      return;
    }
  if (!move_to (m, t, y))
    return;
  if (reads & (HOB_READS_CIRCUIT | HOB_READS_LEADS))
    solve_circuit (m);
  if (reads & HOB_READS_GAS)
    solve_gas (m);
  if (reads & HOB_READS_LEADS)
    offer_leads (m);
  if (reads & HOB_READS_STATES_WITHIN)
    put_by_states (m, part);
  m->t_last = NAN; /* the rest is missing */
}

void
hob_moment_evaluate_for_guard (HobMoment *m, double t, const double *y, int guard)
{
  HobGuardRef ref = m->plan->guards[guard];
  const guint8 *reads = m->plan->range->parts[ref.part].kind->guard_reads;

  hob_moment_evaluate_for (m, t, y, ref.part, reads != NULL ? reads[ref.k] : HOB_READS_ALL);
}

void
hob_moment_evaluate (HobMoment *m, double t, const double *y)
{
  if (!move_to (m, t, y))
    return;
  solve_circuit (m);
  solve_gas (m);
  offer_leads (m);
  sum_rates (m);
  if (m->follow != NULL)
    hob_follow_rates (m->follow, t, m->dy);
  if (m->inert != NULL)
    hob_inert_look (m->inert, m);
}

void
hob_moment_rates (double t, const double *y, double *dy, gpointer moment)
{
  HobMoment *m = moment;

  hob_moment_evaluate (m, t, y);
  memcpy (dy, m->dy, sizeof (double) * (gsize) (m->plan->n_y + HOB_N_LEDGER));
  /* Without pressures there are no rates: the step tries a smaller one. */
  if (m->gas_failed)
    dy[0] = NAN;
}

double
hob_moment_guard (HobMoment *m, int guard)
{
  HobGuardRef ref = m->plan->guards[guard];

  return ref.function (&m->part[ref.part], ref.k);
}

const double *
hob_moment_guards (HobMoment *m)
{
  const HobGuardRef *ref = m->plan->guards;
  const HobPartContext *part = m->part;
  double *values = m->guard;
  int n = m->plan->n_guards;

  if (isnan (m->t_last) || m->guards_of != m->evaluations)
    for (int g = 0; g < n; g++, ref++)
      values[g] = ref->function (&part[ref->part], ref->k);
  m->guards_of = m->evaluations;
  return values;
}

/* ---- Start, load, store ---- */

void
hob_moment_start (HobMoment *m)
{
  const HobRange *range = m->plan->range;

  memset (m->y, 0, sizeof (double) * (gsize) (m->plan->n_y + HOB_N_LEDGER));
  memset (m->mode, 0, sizeof (double) * (gsize) m->plan->n_modes);
  for (int p = 0; p < range->n_parts; p++)
    for (int k = 0; k < range->parts[p].kind->n_controls; k++)
      m->ctl[m->plan->ctl0[p] + k] = range->parts[p].kind->controls[k].start;
  for (int p = 0; p < range->n_parts; p++)
    if (range->parts[p].kind->start != NULL)
      range->parts[p].kind->start (&m->part[p], m->y + m->plan->y0[p]);
  hob_moment_forget_flips (m);
  m->t_last = NAN;
}

void
hob_moment_forget_flips (HobMoment *m)
{
  m->flip_second = m->t;
  memset (m->flips, 0, (gsize) m->plan->n_modes);
}

void
hob_moment_forget_gas (HobMoment *m)
{
  m->gas_known = m->gas_given = FALSE;
}

void
hob_moment_stay (HobMoment *m, const double *block)
{
  memcpy (m->p_start, m->p, sizeof (double) * (gsize) m->plan->n_ports);
  memcpy (m->block, block, sizeof (double) * (gsize) m->plan->b_watch);
  keep_gas (m);
}

/* The block's pressures and flows are the solution for the ducts that its state makes, which the
 * first evaluation, at that state, will find. */
void
hob_moment_load (HobMoment *m, const double *block)
{
  const HobPlan *plan = m->plan;

  memcpy (m->y, block + plan->b_y, sizeof (double) * (gsize) (plan->n_y + HOB_N_LEDGER));
  memcpy (m->mode, block + plan->b_mode, sizeof (double) * (gsize) plan->n_modes);
  memcpy (m->ctl, block + plan->b_ctl, sizeof (double) * (gsize) plan->n_ctls);
  memcpy (m->p_start, block + plan->b_p, sizeof (double) * (gsize) plan->n_ports);
  memcpy (m->p, block + plan->b_p, sizeof (double) * (gsize) plan->n_ports);
  memcpy (m->q, block + plan->b_q, sizeof (double) * (gsize) plan->n_gas_branches);
  memcpy (m->flips, block + plan->b_flips, (gsize) plan->n_modes);
  m->flip_second = block[B_FLIP_SECOND];
  if (block != m->block)
    memcpy (m->block, block, sizeof (double) * (gsize) plan->b_watch);
  m->gas_known = FALSE;
  m->gas_given = TRUE;
  m->t_last = NAN;
  m->t = block[B_TIME];
}

void
hob_moment_store (const HobMoment *m, double *block)
{
  const HobPlan *plan = m->plan;

  block[B_TIME] = m->t;
  memcpy (block + plan->b_y, m->y, sizeof (double) * (gsize) (plan->n_y + HOB_N_LEDGER));
  memcpy (block + plan->b_mode, m->mode, sizeof (double) * (gsize) plan->n_modes);
  memcpy (block + plan->b_ctl, m->ctl, sizeof (double) * (gsize) plan->n_ctls);
  memcpy (block + plan->b_p, m->p, sizeof (double) * (gsize) plan->n_ports);
  memcpy (block + plan->b_q, m->q, sizeof (double) * (gsize) plan->n_gas_branches);
  memcpy (block + plan->b_flips, m->flips, (gsize) plan->n_modes);
  block[B_FLIP_SECOND] = m->flip_second;
}
