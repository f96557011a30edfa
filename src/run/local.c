/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "run/local.h"

#include "run/differ.h"
#include <math.h>
#include <string.h>

#define SHARE 0.03      /* as in run/differ.c */
#define LEAST_SIEMENS 1e-9
#define LEAST_AREA 1e-10 /* m² */

/* All that a part writes, and what it shows. */
typedef struct
{
  double *set;
  HobComplex *g, *emf;
  HobDuct *duct;
  double *dy, *quantity, *guard;
  double *place, *within, ledger[HOB_N_LEDGER];
  HobLead *lead, **lead_at;
  double turned;
  double *mode, *y;  /* after a start or a flip */
  HobPartContext c;  /* borrowed: what it was asked with */
} Answer;

struct _HobLocal
{
  const HobPlan *plan; /* borrowed */
  Answer now, normal;  /* owned, as the rest */
  Answer inner_now, inner_then; /* of a part within */
};

static void
answer_init (Answer *a, const HobPlan *plan)
{
  int n = 1;

  for (int p = 0; p < plan->range->n_parts; p++)
    {
      const HobKind *kind = plan->range->parts[p].kind;
      int most = MAX (MAX (MAX (kind->n_settings, kind->n_quantities),
                           MAX (kind->n_states, kind->n_guards)),
                      MAX (MAX (kind->n_elements, kind->n_ducts),
                          MAX (kind->n_terminals, kind->n_modes)));

      n = MAX (n, most);
    }
  a->set = g_new0 (double, n);
  a->g = g_new0 (HobComplex, n);
  a->emf = g_new0 (HobComplex, n);
  a->duct = g_new0 (HobDuct, n);
  a->dy = g_new0 (double, n);
  a->quantity = g_new0 (double, n);
  a->guard = g_new0 (double, n);
  a->place = g_new0 (double, HOB_N_PLACE);
  a->within = g_new0 (double, HOB_N_PLACE);
  a->lead = g_new0 (HobLead, n);
  a->lead_at = g_new0 (HobLead *, n);
  a->mode = g_new0 (double, n);
  a->y = g_new0 (double, n);
}

static void
answer_clear (Answer *a)
{
  gpointer owned[] = { a->set, a->g, a->emf, a->duct, a->dy, a->quantity, a->guard, a->place,
                       a->within, a->lead, a->lead_at, a->mode, a->y };

  for (guint k = 0; k < G_N_ELEMENTS (owned); k++)
    g_free (owned[k]);
}

HobLocal *
hob_local_new (const HobPlan *plan)
{
  HobLocal *local = g_new0 (HobLocal, 1);

  local->plan = plan;
  answer_init (&local->now, plan);
  answer_init (&local->normal, plan);
  answer_init (&local->inner_now, plan);
  answer_init (&local->inner_then, plan);
  return local;
}

void
hob_local_free (HobLocal *local)
{
  if (local == NULL)
    return;
  answer_clear (&local->now);
  answer_clear (&local->normal);
  answer_clear (&local->inner_now);
  answer_clear (&local->inner_then);
  g_free (local);
}

gboolean
hob_local_is_changed (const HobMoment *m, int part, const double *normal)
{
  return memcmp (m->part[part].set, normal,
                 sizeof (double) * (gsize) m->plan->range->parts[part].kind->n_settings) != 0;
}

/* ---- Asking ---- */

/* The part's view of the moment, but what it writes goes into the answer.  @given: what its place
 * is given; NULL: as it is. */
static HobPartContext
view_of (HobMoment *m, int part, const double *given, Answer *a)
{
  const HobKind *kind = m->plan->range->parts[part].kind;
  HobPartContext c = m->part[part];

  for (int k = 0; k < kind->n_terminals; k++)
    {
      a->lead_at[k] = NULL;
      if (c.lead[k] == NULL)
        continue;
      a->lead[k] = *c.lead[k];
      if (kind->offer != NULL) /* it offers anew */
        a->lead[k] = (HobLead){ .breakdown = c.lead[k]->breakdown, .at_cap = c.lead[k]->at_cap,
                                .flame = c.lead[k]->flame };
      a->lead_at[k] = &a->lead[k];
    }
  memcpy (a->within, given != NULL ? given : c.within, sizeof (double) * HOB_N_PLACE);
  for (int slot = HOB_PLACE_HEAT; slot < HOB_N_PLACE; slot++)
    a->within[slot] = hob_places[slot].start;
  if (c.place != NULL)
    memcpy (a->place, c.place, sizeof (double) * HOB_N_PLACE);
  memset (a->g, 0, sizeof (HobComplex) * (gsize) kind->n_elements);
  memset (a->emf, 0, sizeof (HobComplex) * (gsize) kind->n_elements);
  memset (a->duct, 0, sizeof (HobDuct) * (gsize) kind->n_ducts);
  memset (a->dy, 0, sizeof (double) * (gsize) kind->n_states);
  memset (a->ledger, 0, sizeof a->ledger);
  c.set = a->set;
  c.g = a->g;
  c.emf = a->emf;
  c.duct = a->duct;
  c.dy = a->dy;
  c.within = a->within;
  c.place = c.place != NULL ? a->place : NULL;
  c.ledger = a->ledger;
  c.lead = a->lead_at;
  return c;
}

/* @shown: the quantities that are asked for; NULL: all. */
static void
ask_within (HobMoment *m, int part, const double *set, const double *given, const guint8 *shown,
            Answer *a)
{
  const HobKind *kind = m->plan->range->parts[part].kind;
  HobPartContext c = view_of (m, part, given, a);

  memcpy (a->set, set, sizeof (double) * (gsize) kind->n_settings);
  a->turned = kind->turn != NULL ? kind->turn (&c) : 0;
  if (kind->give != NULL)
    kind->give (&c);
  if (kind->conduct != NULL)
    kind->conduct (&c);
  if (kind->flow != NULL)
    kind->flow (&c);
  if (kind->offer != NULL)
    kind->offer (&c);
  if (kind->rates != NULL)
    kind->rates (&c);
  for (int k = 0; k < kind->n_quantities; k++)
    if (shown == NULL || shown[k])
      a->quantity[k] = kind->observe != NULL ? kind->observe (&c, k) : 0;
  for (int k = 0; k < kind->n_guards; k++)
    a->guard[k] = kind->guard (&c, k);
  a->c = c;
}

static void
ask (HobMoment *m, int part, const double *set, Answer *a)
{
  ask_within (m, part, set, NULL, NULL, a);
}

/* ---- Comparing ---- */

static gboolean
apart (double a, double b, double least)
{
  double off = fabs (a - b);

  if (a == b || (isnan (a) && isnan (b)))
    return FALSE;
  return !(off <= least) && !(off <= SHARE * fmax (fabs (a), fabs (b)));
}

static gboolean
complex_apart (HobComplex a, HobComplex b, double least)
{
  HobComplex off = { a.re - b.re, a.im - b.im };

  return apart (hob_complex_abs (off) + hob_complex_abs (b), hob_complex_abs (b), least);
}

static gboolean
ducts_apart (const HobDuct *a, const HobDuct *b)
{
  return a->law != b->law || apart (a->area, b->area, LEAST_AREA) || apart (a->bore, b->bore, 1e-5)
         || apart (a->length, b->length, 0.01) || apart (a->set, b->set, 25)
         || apart (a->lockup, b->lockup, 0.02) || apart (a->leak, b->leak, LEAST_AREA);
}

static gboolean
leads_apart (const HobLead *a, const HobLead *b)
{
  return apart (a->breakdown, b->breakdown, 50) || apart (a->at_cap, b->at_cap, 0.05)
         || apart (a->flame, b->flame, 1000) || apart (a->volts, b->volts, 50)
         || apart (a->energy, b->energy, 1e-6) || apart (a->rate, b->rate, 0.15)
         || apart (a->miss, b->miss, 0.02) || a->whole != b->whole;
}

/* Branches and ducts that differ; *which: the last one. */
static int
branches_apart (const HobKind *kind, const Answer *a, const Answer *b, int *which)
{
  int n = 0;

  for (int k = 0; k < kind->n_elements; k++)
    if (complex_apart (a->g[k], b->g[k], LEAST_SIEMENS)
        || complex_apart (a->emf[k], b->emf[k], 0.1))
      n++, *which = k;
  for (int k = 0; k < kind->n_ducts; k++)
    if (ducts_apart (&a->duct[k], &b->duct[k]))
      n++, *which = kind->n_elements + k;
  return n;
}

static gboolean
places_apart (const double *a, const double *b)
{
  for (int slot = 0; slot < HOB_N_PLACE; slot++)
    if (hob_differs (a[slot], b[slot], hob_places[slot].dim))
      return TRUE;
  return FALSE;
}

/* What it does to others besides branches and ducts. */
static gboolean
effects_apart (const HobKind *kind, const HobPartContext *c, const Answer *a, const Answer *b)
{
  for (int k = 0; k < kind->n_terminals; k++)
    if (c->lead[k] != NULL && leads_apart (&a->lead[k], &b->lead[k]))
      return TRUE;
  if (places_apart (a->within, b->within))
    return TRUE;
  if (c->place != NULL && places_apart (a->place, b->place))
    return TRUE;
  return kind->turn != NULL && apart (a->turned, b->turned, 1);
}

/* What it will do, and what it shows. */
static gboolean
course_apart (const HobKind *kind, const Answer *a, const Answer *b)
{
  for (int k = 0; k < kind->n_states; k++)
    if (apart (a->dy[k], b->dy[k], kind->states[k].tolerance))
      return TRUE;
  for (int k = 0; k < kind->n_guards; k++)
    if ((a->guard[k] > 0) != (b->guard[k] > 0))
      return TRUE;
  for (int k = 0; k < kind->n_quantities; k++)
    if (!kind->quantities[k].counts
        && hob_differs (a->quantity[k], b->quantity[k], kind->quantities[k].dim))
      return TRUE;
  return FALSE;
}

gboolean
hob_local_misbehaves (HobLocal *local, HobMoment *m, int part, const double *normal, int *element)
{
  const HobKind *kind = local->plan->range->parts[part].kind;
  const Answer *a = &local->now, *b = &local->normal;
  int which = -1, n;

  ask (m, part, m->part[part].set, &local->now);
  ask (m, part, normal, &local->normal);
  n = branches_apart (kind, a, b, &which);
  if (element != NULL)
    *element = n == 1 ? which : -1;
  return n > 0 || effects_apart (kind, &m->part[part], a, b) || course_apart (kind, a, b);
}

gboolean
hob_local_acts_apart (HobLocal *local, HobMoment *m, HobMoment *other, int part)
{
  const HobKind *kind = local->plan->range->parts[part].kind;
  const Answer *a = &local->now, *b = &local->normal;
  int which;

  ask (m, part, m->part[part].set, &local->now);
  ask (other, part, other->part[part].set, &local->normal);
  return branches_apart (kind, a, b, &which) > 0 || effects_apart (kind, &m->part[part], a, b);
}

/* ---- To the bit ---- */

#define SAME(a, b, n) (memcmp ((a), (b), sizeof *(a) * (gsize) (n)) == 0)

/* Nobody reads what a gap needs and gets while no pulse comes: an electrode acts and snaps only at
 * a rate above zero, and goes by its own chance at the cap in a guard, which is compared as such.
 * Nor what it needs while there is no voltage on its lead. */
static gboolean
same_lead (const HobLead *a, const HobLead *b)
{
  return a->flame == b->flame && a->rate == b->rate && a->phase == b->phase && a->key == b->key
         && (a->rate == 0
             || (a->miss == b->miss && a->volts == b->volts && a->energy == b->energy
                 && a->whole == b->whole
                 && (a->volts == 0
                     || (a->breakdown == b->breakdown && a->at_cap == b->at_cap))));
}

/* How narrow an open way is does not matter where nothing is pushed through it. */
static gboolean
same_duct (const HobMoment *m, int d, const HobDuct *a, const HobDuct *b)
{
  HobBranch ends = m->plan->gas_branches[d];
  gboolean rests = m->q[d] == 0 && (ends.a < 0 || m->p[ends.a] == 0)
                   && (ends.b < 0 || m->p[ends.b] == 0) && a->area > 0 && b->area > 0
                   && a->law == HOB_DUCT_ORIFICE;

  return a->law == b->law && (a->area == b->area || rests) && a->bore == b->bore
         && a->length == b->length && a->set == b->set && a->lockup == b->lockup
         && a->leak == b->leak;
}

static gboolean
same_ways (const HobMoment *m, int part, const Answer *a, const Answer *b)
{
  const HobKind *kind = m->plan->range->parts[part].kind;

  for (int k = 0; k < kind->n_ducts; k++)
    if (!same_duct (m, m->plan->duct0[part] + k, &a->duct[k], &b->duct[k]))
      return FALSE;
  for (int k = 0; k < kind->n_terminals; k++)
    if (m->part[part].lead[k] != NULL && !same_lead (&a->lead[k], &b->lead[k]))
      return FALSE;
  return SAME (a->g, b->g, kind->n_elements) && SAME (a->emf, b->emf, kind->n_elements);
}

/* Whatever it gives to its place. */
static gboolean
same_but_place (const HobMoment *m, int part, const Answer *a, const Answer *b,
                const guint8 *shown)
{
  const HobKind *kind = m->plan->range->parts[part].kind;

  for (int k = 0; k < kind->n_quantities; k++)
    if (shown[k] && !SAME (a->quantity + k, b->quantity + k, 1))
      return FALSE;
  for (int k = 0; k < kind->n_guards; k++)
    if ((a->guard[k] > 0) != (b->guard[k] > 0))
      return FALSE;
  return kind->house == NULL && same_ways (m, part, a, b) && SAME (&a->turned, &b->turned, 1)
         && SAME (a->within, b->within, HOB_N_PLACE) && SAME (a->dy, b->dy, kind->n_states)
         && SAME (a->ledger, b->ledger, HOB_N_LEDGER);
}

/* What the part keeps after its start or after a flip. */
static void
keep (const HobMoment *m, int part, Answer *a, HobLocalQuestion question, int k)
{
  const HobKind *kind = m->plan->range->parts[part].kind;
  HobPartContext c = a->c;

  memset (a->mode, 0, sizeof (double) * (gsize) kind->n_modes);
  memset (a->y, 0, sizeof (double) * (gsize) kind->n_states);
  if (question == HOB_LOCAL_FLIPS)
    {
      memcpy (a->mode, c.mode, sizeof (double) * (gsize) kind->n_modes);
      memcpy (a->y, c.y, sizeof (double) * (gsize) kind->n_states);
    }
  c.mode = a->mode;
  c.y = a->y;
  if (question == HOB_LOCAL_FLIPS)
    kind->flip (&c, k, a->y);
  else if (kind->start != NULL)
    kind->start (&c, a->y);
}

/* What is stored is only read by the ledgers, which count from there. */
static gboolean
same_stores (const HobKind *kind, const Answer *a, const Answer *b)
{
  double x[4] = { 0 }, y[4] = { 0 };

  if (kind->stored_heat != NULL)
    x[0] = kind->stored_heat (&a->c), y[0] = kind->stored_heat (&b->c);
  if (kind->stored_gas != NULL)
    x[1] = kind->stored_gas (&a->c), y[1] = kind->stored_gas (&b->c);
  if (kind->stored_air != NULL)
    {
      kind->stored_air (&a->c, &x[2], &x[3]);
      kind->stored_air (&b->c, &y[2], &y[3]);
    }
  return SAME (x, y, 4);
}

void
hob_local_ask (HobLocal *local, HobMoment *m, int part, const guint8 *shown)
{
  ask_within (m, part, m->part[part].set, NULL, shown, &local->now);
}

static gboolean
same_place (const Answer *a, const Answer *b)
{
  return a->c.place == NULL || SAME (a->place, b->place, HOB_N_PLACE);
}

/* Would part @inner do the same in a place that is given other things?  What was put there is put
 * there all the same. */
static gboolean
same_within (HobLocal *local, HobMoment *m, int inner, const double *given, const guint8 *shown)
{
  Answer *now = &local->inner_now, *then = &local->inner_then;

  ask_within (m, inner, m->part[inner].set, NULL, shown, now);
  ask_within (m, inner, m->part[inner].set, given, shown, then);
  /* What it puts is compared, not what it was given. */
  memcpy (then->within, now->within, sizeof (double) * HOB_PLACE_HEAT);
  return same_but_place (m, inner, now, then, shown) && same_place (now, then);
}

/* A place that is given other things matters where a part in it does something else. */
static gboolean
same_in_place (HobLocal *local, HobMoment *m, int part, guint8 *const *shown)
{
  const HobRange *range = local->plan->range;

  if (same_place (&local->now, &local->normal))
    return TRUE;
  for (int p = 0; p < range->n_parts; p++)
    if (range->parts[p].in == part
        && !same_within (local, m, p, local->normal.place, shown[p]))
      return FALSE;
  return TRUE;
}

gboolean
hob_local_same (HobLocal *local, HobMoment *m, int part, const double *set, guint8 *const *shown,
                HobLocalQuestion question, int k)
{
  const HobKind *kind = local->plan->range->parts[part].kind;
  Answer *a = &local->now, *b = &local->normal;

  ask_within (m, part, set, NULL, shown[part], b);
  if (question == HOB_LOCAL_ACTS)
    return same_but_place (m, part, a, b, shown[part]) && same_in_place (local, m, part, shown);
  keep (m, part, a, question, k);
  keep (m, part, b, question, k);
  return SAME (a->mode, b->mode, kind->n_modes) && SAME (a->y, b->y, kind->n_states)
         && (question == HOB_LOCAL_FLIPS || same_stores (kind, a, b));
}

gboolean
hob_local_place_same (HobLocal *local, HobMoment *m, int part, const double *set)
{
  ask (m, part, set, &local->normal);
  return same_place (&local->now, &local->normal);
}
