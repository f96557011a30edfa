/* SPDX-License-Identifier: GPL-3.0-or-later */

/* The step of a run: apply the act that is due, or integrate to the first guard; flip what is due
 * until nothing is; watch; record. */

#include "run/record.h"
#include "base/errors.h"
#include "base/i18n.h"
#include <math.h>
#include <string.h>

#define GUARD_TIME 1e-6     /* s, how closely a guard is located */
#define MOST_PASSES 32      /* over all guards, at one instant */
#define MOST_FLIPS 200      /* of one mode in one simulated second */
#define LONGEST_STEP 60.0   /* s */
#define WORST_DEFECT 0.5    /* of what a step may err: the rest errs too */
#define MOST_RETAKES 3
#define LEAST_FOLLOWED 1e-6 /* s, of a step that is cut where another run's ends */
#define STEP_AFTER_EVENT 0.5 /* s, at most */
#define FIRST_STEP 0.05     /* s */
#define MOST_BYTES (48u << 20) /* of a record */

/* ---- Telling ---- */

void
hob_run_emit (HobRun *run, double t, HobEventClass what, int part, int index, double value)
{
  HobTold told = { { t, what, part, index, value },
                   run->records->len > 0 ? hob_run_last (run)->ordinal + 1 : 0 };
  guint at = run->events->len;

  /* A watch finds some moments only afterwards: keep the order of time. What is set or added at
   * time 0 was so all along; it is listed before what it causes. */
  while (at > 0
         && (hob_run_event (run, at - 1)->t > t
             || (t <= 0 && what == HOB_EVENT_ACT
                 && hob_run_event (run, at - 1)->what != HOB_EVENT_ACT)))
    at--;
  g_array_insert_val (run->events, at, told);
  run->counters.events++;
}

static void
tell_mode_changes (HobRun *run, HobMoment *m, int part)
{
  const HobKind *kind = m->plan->range->parts[part].kind;
  const double *mode = m->part[part].mode, *before = m->before + m->plan->mode0[part];

  for (int k = 0; m == run->tip && k < kind->n_modes; k++)
    if (mode[k] != before[k] && kind->modes[k].words != NULL)
      hob_run_emit (run, m->t, HOB_EVENT_CHANGE, part, k, mode[k]);
}

/* Counted for a second, or since the last act: a hand may turn a knob as often as it likes. */
static gboolean
chatters (HobMoment *m, int part)
{
  const HobKind *kind = m->plan->range->parts[part].kind;
  int first = m->plan->mode0[part];

  if (fabs (m->t - m->flip_second) >= 1)
    hob_moment_forget_flips (m);
  for (int k = 0; k < kind->n_modes; k++)
    if (m->mode[first + k] != m->before[first + k] && ++m->flips[first + k] > MOST_FLIPS)
      return TRUE;
  return FALSE;
}

static gboolean
give_up (HobRun *run, HobMoment *m, const GArray *parts, const char *what)
{
  g_autoptr (GString) names = g_string_new (NULL);

  if (m != run->tip)
    return FALSE;
  for (guint k = 0; parts != NULL && k < parts->len; k++)
    {
      const char *id = m->plan->range->parts[g_array_index (parts, int, k)].id;
      if (strstr (names->str, id) == NULL)
        g_string_append_printf (names, "%s%s", names->len > 0 ? ", " : "", id);
    }
  g_free (run->trouble);
  /* Translators: time in seconds, what happens, names of parts. */
  run->trouble = g_strdup_printf (_ ("the run reached an impossible state at %.3f s: %s%s%s"), m->t,
                                  what, names->len > 0 ? ": " : "", names->str);
  return FALSE;
}

/* Names the parts whose flow is another one when it is looked for again, beside the one that moves
 * most. */
static gboolean
no_pressures (HobRun *run, HobMoment *m)
{
  const HobPlan *plan = m->plan;
  g_autoptr (GArray) parts = g_array_new (FALSE, FALSE, sizeof (int));
  g_autofree double *q = g_memdup2 (m->q, sizeof (double) * (gsize) MAX (plan->n_gas_branches, 1));
  double most = 0;

  hob_gas_solve (plan->gas, m->duct, m->house.fuel, m->p, m->q, m->gas_work);
  for (int d = 0; d < plan->n_ducts; d++)
    most = fmax (most, fabs (m->q[d] - q[d]));
  for (int p = 0; p < plan->range->n_parts; p++)
    for (int d = plan->duct0[p]; d < plan->duct0[p + 1]; d++)
      if (!(fabs (m->q[d] - q[d]) <= 0.01 * most))
        {
          g_array_append_val (parts, p);
          break;
        }
  return give_up (run, m, parts, _ ("the gas pressures can't be calculated"));
}

/* ---- Instant changes ---- */

static gboolean
flip (HobRun *run, HobMoment *m, HobGuardRef ref)
{
  const HobKind *kind = m->plan->range->parts[ref.part].kind;
  int first = m->plan->mode0[ref.part];

  memcpy (m->before + first, m->mode + first, sizeof (double) * (gsize) kind->n_modes);
  if (m->inert != NULL)
    hob_inert_flip (m->inert, m, ref.part, ref.k);
  kind->flip (&m->part[ref.part], ref.k, m->y + m->plan->y0[ref.part]);
  m->t_last = NAN;
  tell_mode_changes (run, m, ref.part);
  return !chatters (m, ref.part);
}

/* Flips the guards that are due, in file order, and looks again, until none is.  Those due at the
 * same look flip together: none sees the circuit that another of them makes before all have had
 * their turn. */
gboolean
hob_run_settle (HobRun *run, HobMoment *m, gboolean *changed)
{
  g_autoptr (GArray) busy = g_array_new (FALSE, FALSE, sizeof (int));

  for (int pass = 0; pass < MOST_PASSES; pass++)
    {
      gboolean flipped = FALSE;

      hob_moment_evaluate (m, m->t, NULL);
      if (m->gas_failed)
        return no_pressures (run, m);
      const double *values = hob_moment_guards (m);
      for (int g = 0, n = m->plan->n_guards; g < n; g++)
        {
          if (!((flipped ? hob_moment_guard (m, g) : values[g]) > 0))
            continue;
          HobGuardRef ref = m->plan->guards[g];
          flipped = *changed = TRUE;
          if (pass >= MOST_PASSES / 2)
            g_array_append_val (busy, ref.part);
          if (flip (run, m, ref))
            continue;
          g_array_append_val (busy, ref.part);
          return give_up (run, m, busy, _ ("a part changes state more than 200 times in one "
                                           "second"));
        }
      if (!flipped)
        return TRUE;
    }
  return give_up (run, m, busy, _ ("parts keep switching each other on and off"));
}

const HobAct *
hob_run_next_act (const HobRun *run, const HobMoment *m)
{
  guint next = (guint) m->block[B_ACTS];

  return next < run->acts->acts->len ? &g_array_index (run->acts->acts, HobAct, next) : NULL;
}

static void
apply_act (HobRun *run, HobMoment *m, const HobAct *act)
{
  if (act->what == HOB_ACT_CONTROL)
    m->ctl[m->plan->ctl0[act->part] + act->index] = act->value;
  if (act->jumps && m->inert != NULL)
    hob_inert_end (m->inert, m, act->part);
  if (act->jumps)
    m->plan->range->parts[act->part].kind->jump (&m->part[act->part]);
  if (m == run->tip)
    hob_run_emit (run, m->t, HOB_EVENT_ACT, act->part, (int) m->block[B_ACTS], act->value);
  hob_moment_apply_acts (m, run->acts, (int) m->block[B_ACTS] + 1);
  hob_moment_forget_flips (m);
  m->t_last = NAN;
  hob_moment_forget_gas (m);
}

/* ---- One step ---- */

static HobOde
ode_of (const HobRun *run, HobMoment *m)
{
  return (HobOde){
    m->plan->n_y + HOB_N_LEDGER, run->rtol, run->atol, LONGEST_STEP, hob_moment_rates, m
  };
}

/* @again: from where the last one was taken. */
static gboolean
take_step (const HobRun *run, HobMoment *m, double h, gboolean again)
{
  HobOde ode = ode_of (run, m);

  if (run->follow != NULL && !hob_follow_open (run->follow, m->block[B_TIME]))
    return FALSE;
  m->step.same_rates = again;
  memcpy (m->span_y, m->block + m->plan->b_y, sizeof (double) * (gsize) ode.n);
  return hob_ode_step (&ode, m->block[B_TIME], m->span_y, h, INFINITY, &m->step) == HOB_STEP_OK;
}

gboolean
hob_run_open_step (const HobRun *run, HobMoment *m, double h)
{
  return take_step (run, m, h, FALSE);
}

/* A guard on its way over the step, its values at both ends known. */
typedef struct
{
  HobMoment *m;
  int guard;
  double start, end, at_start, at_end;
} GuardAt;

/* Anywhere in the step: all of the moment is evaluated, or what one guard reads. */
static void
move_within (HobMoment *m, double t)
{
  hob_ode_dense (&m->step, m->plan->n_y + HOB_N_LEDGER, t, m->span_y);
  hob_moment_evaluate (m, t, m->span_y);
}

static double
guard_at (double t, gpointer user)
{
  GuardAt *at = user;

  if (t == at->start)
    return at->at_start;
  if (t == at->end)
    return at->at_end;
  hob_ode_dense (&at->m->step, at->m->plan->n_y + HOB_N_LEDGER, t, at->m->span_y);
  hob_moment_evaluate_for_guard (at->m, t, at->m->span_y, at->guard);
  return hob_moment_guard (at->m, at->guard);
}

/* Of the guards that are due the one that by the straight line from the step's start became so
 * first; FALSE: none is. */
static gboolean
due_guard (HobMoment *m, GuardAt *at)
{
  const double *values = hob_moment_guards (m);
  double first = INFINITY;

  for (int g = 0; g < m->plan->n_guards; g++)
    {
      double value = values[g], from = m->guard_start[g];

      if (!(value > 0))
        continue;
      double share = from <= 0 && isfinite (value - from) ? -from / (value - from) : 0.5;
      if (share >= first)
        continue;
      first = share;
      *at = (GuardAt){ m, g, m->step.t0, m->t, from, value };
    }
  return isfinite (first);
}

static gboolean
another_is_due (HobMoment *m, int guard)
{
  const double *values = hob_moment_guards (m);

  for (int g = 0; g < m->plan->n_guards; g++)
    if (g != guard && values[g] > 0)
      return TRUE;
  return FALSE;
}

/* The first moment in the step at which any guard is due; its end if none is.  Leaves the moment
 * there.  One guard is located; only if another is due there too, and was so before it, is there
 * more to do, however many are due together. */
static double
first_guard (HobMoment *m)
{
  double end = m->step.t0 + m->step.h, probe = end;
  GuardAt at;

  move_within (m, probe);
  while (due_guard (m, &at))
    {
      end = hob_locate (guard_at, &at, m->step.t0, probe, GUARD_TIME);
      probe = end - GUARD_TIME;
      move_within (m, end);
      if (probe <= m->step.t0 || !another_is_due (m, at.guard))
        return end;
      move_within (m, probe);
    }
  move_within (m, end);
  return end;
}

/* The step from the moment's block up to its first guard, s; NaN: no step is possible.  A guard
 * cuts it on the dense output, which past a kink of the rates is worse than the step's own end:
 * where the defect says so the step is taken again, only as far as the cut. */
static double
step_to_guard (HobRun *run, HobMoment *m)
{
  HobOde ode = ode_of (run, m);
  double h = m->block[B_STEP], end;

  if (run->follow != NULL)
    h = MIN (h, MAX (hob_follow_end (run->follow) - m->block[B_TIME], LEAST_FOLLOWED));
  hob_moment_evaluate (m, m->block[B_TIME], NULL);
  memcpy (m->guard_start, hob_moment_guards (m), sizeof (double) * (gsize) m->plan->n_guards);
  for (int k = 0; k <= MOST_RETAKES; k++)
    {
      if (!take_step (run, m, h, k > 0))
        return NAN;
      end = first_guard (m);
      h = end - m->step.t0;
      if (h >= m->step.h || hob_ode_defect (&ode, &m->step, end, m->dy) <= WORST_DEFECT)
        break;
    }
  return end;
}

static void
watch_span (HobRun *run, HobMoment *m, const HobOdeStep *step, double start, double end)
{
  HobSpan span = { m, step, start, end, m->span_y };

  if (run->watch != NULL && m == run->tip
      && run->watch->step (run->watch->user, run, &span, run->next_block + m->plan->b_watch,
                           run->notes))
    run->remembered = TRUE;
}

static void
count_step (HobRun *run, const HobMoment *m, guint evaluations, guint rejected)
{
  double ampere, largest, gas;

  if (m != run->tip)
    return;
  run->counters.evaluations += m->step.evaluations - evaluations;
  run->counters.rejected += m->step.rejected - rejected;
  run->counters.steps++;
  if (!run->checked)
    return;
  hob_moment_residuals (m, &ampere, &largest, &gas);
  run->counters.worst_residual = fmax (run->counters.worst_residual, ampere / fmax (largest, 0.1));
  run->counters.worst_gas = fmax (run->counters.worst_gas, gas);
}

/* When the step is cut, whatever happens in it. */
static double
next_cut (const HobRun *run, const HobMoment *m, const HobAct *act)
{
  double t = act != NULL ? (double) act->ms / 1000.0 : INFINITY;

  if (run->follow != NULL)
    t = fmin (t, hob_follow_end (run->follow));
  return m == run->tip && run->cut_at > m->block[B_TIME] ? fmin (t, run->cut_at) : t;
}

/* Where the run that it follows cannot go on, it cannot either. */
static gboolean
share_trouble (HobRun *run, const HobMoment *m)
{
  if (m == run->tip && run->trouble == NULL)
    run->trouble = g_strdup (hob_follow_run (run->follow)->trouble);
  return FALSE;
}

/* The follower's step ends where the other run's does, to the bit. */
static gboolean
meets_cut (const HobRun *run, double end)
{
  return run->follow != NULL && fabs (end - hob_follow_end (run->follow)) < 1e-9;
}

/* The flow of the step: integrate, find the first guard, watch, flip, watch again, store. */
gboolean
hob_run_step (HobRun *run, HobMoment *m, const double *block, double *next)
{
  const HobPlan *plan = m->plan;
  const HobAct *act = hob_run_next_act (run, m);
  gsize rates = sizeof (double) * (gsize) (plan->n_y + HOB_N_LEDGER);
  double t0 = m->block[B_TIME], h = m->block[B_STEP];
  gboolean changed = FALSE, acted = act != NULL && (double) act->ms / 1000.0 <= t0;

  if (run->follow != NULL)
    {
      if (!hob_follow_open (run->follow, t0))
        return share_trouble (run, m);
      m->t_last = NAN; /* the rates of what is followed are those after t0, not before it */
    }
  /* Where the tip stands at the end of its last step, @next has the watch's memory already. */
  if (run->watch != NULL && m == run->tip && !run->stands)
    {
      memcpy (next + plan->b_watch, block + plan->b_watch,
              sizeof (double) * (gsize) run->watch->n_memory);
      run->notes[0] = 0;
    }
  if (acted)
    {
      apply_act (run, m, act);
      changed = TRUE;
    }
  else
    {
      guint evaluations = m->step.evaluations, rejected = m->step.rejected;
      double end = step_to_guard (run, m);

      if (isnan (end))
        return m->gas_failed ? no_pressures (run, m)
                             : give_up (run, m, NULL,
                                        _ ("can't calculate the run because a value changes too "
                                           "fast; look for an extreme setting or fault"));
      /* An act cuts the step on its dense output: what came before never depends on what was to
       * come. */
      if (next_cut (run, m, act) < end || meets_cut (run, end))
        {
          end = next_cut (run, m, act);
          move_within (m, end);
        }
      h = m->step.h_next;
      count_step (run, m, evaluations, rejected);
      watch_span (run, m, &m->step, t0, end);
      move_within (m, end);
    }
  memcpy (m->span_y, m->dy, rates);
  if (!hob_run_settle (run, m, &changed))
    return FALSE;
  if (changed)
    watch_span (run, m, NULL, m->t, m->t);
  /* A change that bends no state's course is no reason for a short step. */
  if (acted || (changed && memcmp (m->span_y, m->dy, rates) != 0))
    h = fmin (h, STEP_AFTER_EVENT);
  hob_moment_store (m, next);
  next[B_STEP] = h;
  next[B_ACTS] = block[B_ACTS] + acted;
  return TRUE;
}

gboolean
hob_run_take_over (HobRun *run, const HobCase *acts)
{
  HobRecord *last = hob_run_last (run);
  HobMoment *m = run->tip;
  gboolean changed = TRUE;

  hob_case_free (run->acts);
  run->acts = hob_case_copy (acts);
  last->block[B_ACTS] = hob_case_place (acts, (gint64) ceil (last->t0 * 1000.0 - 1e-6) - 1);
  hob_run_load (run, m, last->block);
  hob_moment_forget_gas (m);
  hob_moment_forget_flips (m);
  memcpy (run->next_block, last->block, hob_run_block_size (run));
  run->notes[0] = 0;
  if (!hob_run_settle (run, m, &changed))
    return FALSE;
  watch_span (run, m, NULL, m->t, m->t);
  hob_moment_store (m, run->next_block);
  run->next_block[B_STEP] = fmin (last->block[B_STEP], STEP_AFTER_EVENT);
  memcpy (last->block, run->next_block, hob_run_block_size (run));
  return TRUE;
}

/* ---- Spans, for watches ---- */

double
hob_span_start (const HobSpan *span)
{
  return span->start;
}

double
hob_span_end (const HobSpan *span)
{
  return span->end;
}

const HobMoment *
hob_span_at (HobSpan *span, double t)
{
  if (span->step != NULL)
    move_within (span->moment, CLAMP (t, span->start, span->end));
  return span->moment;
}

const HobMoment *
hob_span_at_for (HobSpan *span, double t, int part, int quantity)
{
  HobMoment *m = span->moment;

  if (span->step == NULL)
    return m;
  t = CLAMP (t, span->start, span->end);
  hob_ode_dense (&m->step, m->plan->n_y + HOB_N_LEDGER, t, span->y);
  hob_moment_evaluate_for (m, t, span->y, part,
                           m->plan->range->parts[part].kind->quantities[quantity].reads);
  return m;
}

/* ---- A run ---- */

gsize
hob_run_block_size (const HobRun *run)
{
  return sizeof (double)
         * (gsize) hob_plan_block_doubles (run->plan,
                                           run->watch != NULL ? run->watch->n_memory : 0);
}

void
hob_run_load (const HobRun *run, HobMoment *m, const double *block)
{
  m->follow = run->follow;
  hob_moment_apply_acts (m, run->acts, (int) block[B_ACTS]);
  hob_moment_load (m, block);
}

void
hob_run_begin (HobRun *run)
{
  HobMoment *m = run->tip;
  gboolean changed = FALSE;

  if (run->follow != NULL)
    hob_follow_open (run->follow, 0);
  m->follow = run->follow;
  hob_moment_apply_acts (m, run->acts, 0);
  m->t = 0;
  hob_moment_start (m);
  memset (m->block, 0, sizeof (double) * (gsize) run->plan->b_watch);
  hob_moment_forget_gas (m);
  for (int k = 0; k < run->plan->n_ports; k++)
    m->p_start[k] = 0;
  if (m->inert != NULL)
    hob_inert_begin (m->inert, m);
  hob_moment_evaluate (m, 0, NULL);
  hob_moment_open_ledger (m);
  if (!hob_run_settle (run, m, &changed))
    changed = TRUE; /* the record begins all the same; it has a trouble and does not go on */
  hob_moment_store (m, run->next_block);
  run->next_block[B_STEP] = FIRST_STEP;
  run->next_block[B_ACTS] = 0;
  if (run->watch != NULL)
    run->watch->begin (run->watch->user, run, m, run->next_block + run->plan->b_watch);
  hob_run_push (run, 0);
}

HobRun *
hob_run_new (HobPlan *plan, const HobCase *acts, const HobWatch *watch)
{
  HobRun *run = g_new0 (HobRun, 1);
  int n = hob_plan_block_doubles (plan, watch != NULL ? watch->n_memory : 0);

  run->plan = hob_plan_ref (plan);
  run->acts = hob_case_copy (acts);
  run->watch = watch;
  run->atol = g_new (double, plan->n_y + HOB_N_LEDGER);
  run->serial = hob_serial_new ();
  run->counters.worst_residual = run->counters.worst_gas = NAN;
  run->limit = MOST_BYTES;
  run->gap = HOB_FIRST_GAP;
  run->tip = hob_moment_new (plan);
  run->records = g_array_new (FALSE, FALSE, sizeof (HobRecord));
  run->events = g_array_new (FALSE, FALSE, sizeof (HobTold));
  run->changes = g_array_new (FALSE, FALSE, sizeof (HobChange));
  run->next_block = g_new0 (double, n);
  run->notes = g_new0 (double, watch != NULL ? watch->n_notes + 1 : 1);
  hob_run_set_tolerance (run, HOB_RUN_TOLERANCE);
  return run;
}

void
hob_run_free (HobRun *run)
{
  if (run == NULL)
    return;
  for (guint k = 0; k < run->records->len; k++)
    g_free (g_array_index (run->records, HobRecord, k).block);
  g_array_unref (run->records);
  g_array_unref (run->events);
  g_array_unref (run->changes);
  g_free (run->next_block);
  g_free (run->notes);
  g_free (run->atol);
  g_free (run->trouble);
  g_free (run->again_block);
  g_free (run->again_next);
  hob_shown_free (run->shown);
  hob_follow_free (run->follow);
  hob_moment_free (run->again);
  hob_moment_free (run->tip);
  hob_case_free (run->acts);
  hob_plan_unref (run->plan);
  g_free (run);
}

void
hob_run_set_tolerance (HobRun *run, double rtol)
{
  g_return_if_fail (run->records->len == 0);
  run->rtol = rtol;
  for (int k = 0; k < run->plan->n_y + HOB_N_LEDGER; k++)
    run->atol[k] = run->plan->atol[k] * (rtol / 1e-4);
}

const HobPlan *
hob_run_plan (const HobRun *run)
{
  return run->plan;
}

const HobCase *
hob_run_case (const HobRun *run)
{
  return run->acts;
}

HobRunCounters
hob_run_counters (const HobRun *run)
{
  return run->counters;
}

void
hob_run_set_checked (HobRun *run)
{
  g_return_if_fail (run->records->len == 0);
  run->checked = TRUE;
  run->counters.worst_residual = run->counters.worst_gas = 0;
}

void
hob_run_set_limit (HobRun *run, gsize bytes)
{
  g_return_if_fail (run->records->len == 0);
  run->limit = bytes;
}

static gboolean
act_is_due (const HobRun *run, const HobRecord *last, double t)
{
  guint next = (guint) last->block[B_ACTS];

  return next < run->acts->acts->len
         && (double) g_array_index (run->acts->acts, HobAct, next).ms / 1000.0 <= t;
}

void
hob_run_go_on (HobRun *run)
{
  HobRecord *last = hob_run_last (run);
  gboolean instant;

  if (run->stands)
    hob_moment_stay (run->tip, last->block);
  else
    hob_run_load (run, run->tip, last->block);
  run->remembered = FALSE;
  run->stands = hob_run_step (run, run->tip, last->block, run->next_block);
  if (!run->stands)
    return;
  instant = run->next_block[B_TIME] <= last->t0;
  last->h = run->tip->step.h;
  last->end = run->next_block[B_TIME];
  hob_run_push (run, instant ? HOB_INSTANT_COST : HOB_STEP_COST);
}

HobRunStatus
hob_run_advance (HobRun *run, double t, GError **error)
{
  if (run->records->len == 0)
    hob_run_begin (run);
  while (run->trouble == NULL)
    {
      const HobRecord *last = hob_run_last (run);

      if (last->t0 >= t && !act_is_due (run, last, t))
        return HOB_RUN_OK;
      hob_run_go_on (run);
    }
  g_set_error_literal (error, HOB_ERROR, HOB_ERROR_IMPOSSIBLE, run->trouble);
  return HOB_RUN_IMPOSSIBLE;
}

const double *
hob_run_memory (const HobRun *run)
{
  return hob_run_last (run)->block + run->plan->b_watch;
}

double *
hob_run_notes (HobRun *run)
{
  return run->notes;
}

const double *
hob_run_guards (HobRun *run, int *n)
{
  g_assert (run->stands);
  *n = run->plan->n_guards;
  return hob_moment_guards (run->tip);
}

double
hob_run_begins (const HobRun *run)
{
  return run->records->len == 0 ? 0 : g_array_index (run->records, HobRecord, 0).t0;
}

double
hob_run_reached (const HobRun *run)
{
  return run->records->len == 0 ? 0 : hob_run_last (run)->t0;
}
