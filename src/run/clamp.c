/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "run/clamp.h"

#include "run/follow.h"
#include "run/record.h"
#include "run/step-twin.h"
#include <math.h>
#include <string.h>

HobRun *
hob_clamp_new (HobRun *run, HobRun *other, int part)
{
  g_autoptr (HobCase) acts = hob_case_without_wrongs (run->acts, part);
  HobRun *clamped;
  double t;

  if (hob_run_advance (other, 0, NULL) != HOB_RUN_OK || other->records->len == 0)
    return NULL;
  t = g_array_index (other->records, HobRecord, 0).t0;
  clamped = hob_run_fork (run, t > 0 ? nextafter (t, 0) : 0, acts, run->watch);
  if (clamped == NULL)
    return NULL;
  if (t > 0)
    hob_run_begin_at (clamped, t);
  clamped->follow = hob_follow_new_part (other, part);
  return clamped;
}

/* ---- At every evaluation ---- */

static const HobKind *
kind_of (const HobMoment *m, int part)
{
  return m->plan->range->parts[part].kind;
}

/* Its place, and what its leads need: the electrode's share of a lead. */
void
hob_clamp_give (HobMoment *m, int part)
{
  const HobPartContext *here = &m->part[part], *there = &m->as->part[part];

  if (here->place != NULL)
    memcpy (here->place, there->place, sizeof (double) * HOB_PLACE_HEAT);
  for (int k = 0; k < kind_of (m, part)->n_terminals; k++)
    if (here->lead[k] != NULL)
      {
        here->lead[k]->breakdown = there->lead[k]->breakdown;
        here->lead[k]->at_cap = there->lead[k]->at_cap;
        here->lead[k]->flame = there->lead[k]->flame;
      }
}

void
hob_clamp_conduct (HobMoment *m, int part)
{
  gsize size = sizeof (HobComplex) * (gsize) kind_of (m, part)->n_elements;

  memcpy (m->part[part].g, m->as->part[part].g, size);
  memcpy (m->part[part].emf, m->as->part[part].emf, size);
}

void
hob_clamp_flow (HobMoment *m, int part)
{
  memcpy (m->part[part].duct, m->as->part[part].duct,
          sizeof (HobDuct) * (gsize) kind_of (m, part)->n_ducts);
}

/* The module's beat.  What a pulse is worth depends on the gaps that it meets here. */
void
hob_clamp_offer (HobMoment *m, int part)
{
  const HobPartContext *here = &m->part[part], *there = &m->as->part[part];

  for (int k = 0; k < kind_of (m, part)->n_terminals; k++)
    if (here->lead[k] != NULL)
      {
        here->lead[k]->rate = there->lead[k]->rate;
        here->lead[k]->phase = there->lead[k]->phase;
        here->lead[k]->miss = there->lead[k]->miss;
        here->lead[k]->key = there->lead[k]->key;
      }
}

/* What @part puts into the place that it is in, and nothing else there. */
static void
ask_puts (HobMoment *m, int part, double *dy, double *puts)
{
  double ledger[HOB_N_LEDGER] = { 0 }, place[HOB_N_PLACE];
  HobPartContext c = m->part[part];

  memcpy (puts, c.within, sizeof (double) * HOB_N_PLACE);
  for (int slot = HOB_PLACE_HEAT; slot < HOB_N_PLACE; slot++)
    puts[slot] = hob_places[slot].start;
  if (c.place != NULL)
    c.place = memcpy (place, c.place, sizeof place);
  c.within = puts;
  c.dy = dy;
  c.ledger = ledger;
  kind_of (m, part)->rates (&c);
}

static void
merge (double *into, const double *puts)
{
  gboolean sparks = puts[HOB_PLACE_SPARK_RATE] > into[HOB_PLACE_SPARK_RATE];

  for (int slot = HOB_PLACE_HEAT; slot < HOB_N_PLACE; slot++)
    if (hob_places[slot].merge == HOB_MERGE_ADD)
      into[slot] += puts[slot];
    else if (hob_places[slot].merge == HOB_MERGE_MAX)
      into[slot] = fmax (into[slot], puts[slot]);
    else if (hob_places[slot].merge == HOB_MERGE_SPARK && sparks)
      into[slot] = puts[slot];
}

/* Its own states change as they do by themselves. */
void
hob_clamp_rates (HobMoment *m, int part)
{
  g_autofree double *dy = g_new0 (double, (gsize) kind_of (m, part)->n_states + 1);
  double own[HOB_N_PLACE], as[HOB_N_PLACE];

  ask_puts (m->as, part, dy, as);
  ask_puts (m, part, m->part[part].dy, own);
  for (int slot = HOB_PLACE_HEAT; slot < HOB_N_PLACE; slot++)
    if (!hob_places[slot].effect)
      own[slot] = as[slot];
  merge (m->part[part].within, own);
}
