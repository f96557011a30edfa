/* SPDX-License-Identifier: GPL-3.0-or-later */

/* From a run to a scene: the only file of this folder that reads runs for a sheet.  What comes out
 * are copies, compared with what should be there at the same time, and already without what the
 * senses could not get where only these are asked for. */

#include "sheet/scene.h"
#include "parts/pulse.h"
#include "sheet/differences.h"
#include <math.h>
#include <string.h>

#define LIVE_VOLTS 50.0      /* V to earth: above the limit of touch voltage */
#define STEADY_SPEED 4.0     /* simulated s per wall s above which sparks are one steady sign */
#define SPARK_SHOWN 0.08     /* wall s */
#define UNLIT_SHARE 0.1      /* of a burner's gas: less is what every flame loses */

struct _HobSceneReader
{
  /*< owned >*/
  HobComparison *comparison;
  HobMoment *rest; /* nothing done, nothing wrong; NULL until somebody asks for it */
};

HobSceneReader *
hob_scene_reader_new (const HobPlan *plan)
{
  HobSceneReader *reader = g_new0 (HobSceneReader, 1);

  reader->comparison = hob_comparison_new (plan);
  return reader;
}

void
hob_scene_reader_free (HobSceneReader *reader)
{
  if (reader == NULL)
    return;
  hob_comparison_free (reader->comparison);
  hob_moment_free (reader->rest);
  g_free (reader);
}

/* ---- Lines ---- */

/* Real power runs from line through the load to neutral: with the supply's voltage at phase 0, the
 * way the current's real part goes; on the neutral side, where the voltage is nearly nothing,
 * alike. */
static int
way (HobComplex current)
{
  return current.re > 0 ? 1 : current.re < 0 ? -1 : 0;
}

static void
fill_wire (HobWireScene *w, const HobComparison *c, HobEnd from, int wire)
{
  const HobMoment *now = hob_comparison_now (c);
  HobComplex current = hob_moment_wire_current (now, wire);

  w->volts = hob_complex_abs (hob_moment_volts (now, from));
  w->current = hob_complex_abs (current);
  w->flow = way (current);
  w->live = w->volts > LIVE_VOLTS;
  w->differs = hob_comparison_current (c, wire, &w->should_be);
  w->volts_differ = hob_comparison_volts (c, from, &w->volts_should_be);
}

static void
fill_pipe (HobPipeScene *p, const HobComparison *c, const HobLine *line, int pipe)
{
  const HobMoment *now = hob_comparison_now (c);

  p->pressure = hob_moment_pressure (now, line->from);
  p->arrives = hob_moment_pressure (now, line->to);
  p->flow = hob_moment_pipe_flow (now, pipe);
  p->power = fabs (p->flow) * hob_moment_house (now)->fuel->heat;
  p->differs = hob_comparison_power (c, pipe, &p->should_be);
  p->pressure_differs = hob_comparison_pressure (c, line->from, &p->pressure_should_be);
}

/* How fresh the last pulse is that did fire: pulse k stands at phase k. */
static double
freshness (const HobScene *scene, const HobLead *lead)
{
  double k = floor (lead->phase), wall = (lead->phase - k) / lead->rate / fmax (scene->speed, 1e-9);
  gboolean fired = k >= 1 && hob_pulse_fires (scene->seed, lead->key, k, lead->miss);

  return fired ? CLAMP (1 - wall / SPARK_SHOWN, 0, 1) : 0;
}

static void
fill_lead (HobScene *scene, int index, const HobLead *lead)
{
  const double tip = scene->range->leads[index].to.part + 1;
  HobLeadScene *l = &scene->leads[index];

  l->sparking = lead->rate > 0 && lead->whole && lead->volts >= lead->breakdown;
  l->rate = l->sparking ? lead->rate * (1 - lead->miss) : 0;
  l->at_cap = lead->at_cap >= 0.5;
  if (l->sparking && !scene->still && scene->speed <= STEADY_SPEED)
    l->at_cap = hob_pulse_at_cap (scene->seed, tip, floor (lead->phase), lead->at_cap);
  if (!l->sparking)
    l->fresh = 0;
  else if (scene->still || scene->speed > STEADY_SPEED)
    l->fresh = 1;
  else
    l->fresh = freshness (scene, lead);
}

/* ---- Parts ---- */

static void
copy (const double *into, const double *from, int n)
{
  if (from != NULL && n > 0)
    memcpy ((gpointer) into, from, sizeof (double) * (gsize) n);
}

static double
observed (const HobMoment *m, const HobKind *kind, int part, int quantity)
{
  return kind->observe != NULL ? hob_moment_quantity (m, part, quantity) : NAN;
}

static void
fill_view (HobPartScene *p, const HobMoment *now, int part)
{
  const HobPartContext *c = hob_moment_part (now, part);
  const HobKind *kind = p->view.kind;
  double *quantity = (double *) p->view.quantity;

  copy (p->view.set, c->set, kind->n_settings);
  copy (p->view.ctl, c->ctl, kind->n_controls);
  copy (p->view.y, c->y, kind->n_states);
  copy (p->view.mode, c->mode, kind->n_modes);
  copy ((const double *) p->view.v, (const double *) c->v, 2 * kind->n_terminals);
  copy ((const double *) p->view.i, (const double *) c->i, 2 * kind->n_elements);
  copy (p->view.p, c->p, kind->n_ports);
  copy (p->view.q, c->q, kind->n_ducts);
  for (int k = 0; k < kind->n_quantities; k++)
    quantity[k] = observed (now, kind, part, k);
  p->view.moved = c->moved;
  p->view.air = c->within != NULL ? c->within[HOB_PLACE_AIR] : 298.15;
}

/* What flows into the room, but for what burns there: where a part's figure is its heat. */
static double
unlit (const HobPartScene *p, double joule_per_kg)
{
  const HobKind *kind = p->view.kind;
  double out = 0, burns = 0;

  for (int k = 0; k < kind->n_ducts; k++)
    if (kind->ducts[k].b < 0)
      out += fmax (0, p->view.q[k]) * joule_per_kg;
  if (kind->figure >= 0 && kind->quantities[kind->figure].dim == HOB_DIM_POWER)
    burns = p->view.quantity[kind->figure];
  return out - burns > UNLIT_SHARE * out ? out - burns : 0;
}

static void
fill_gas (HobPartScene *p, const HobMoment *now, int part)
{
  const HobKind *kind = p->view.kind;
  double joule_per_kg = hob_moment_house (now)->fuel->heat;

  p->unlit = unlit (p, joule_per_kg);
  p->gathered = kind->stored_gas != NULL
                    ? kind->stored_gas (hob_moment_part (now, part)) * joule_per_kg : 0;
}

static void
fill_fault (HobPartScene *p, const HobMoment *now, int part)
{
  p->fault = -1;
  for (int k = p->view.kind->n_faults - 1; k >= 0; k--)
    {
      double severity = hob_moment_fault (now, part, k);

      if (isnan (severity))
        continue;
      p->fault = k;
      p->severity = severity;
    }
}

static void
fill_figure (HobPartScene *p, const HobComparison *c, int part)
{
  const HobKind *kind = p->view.kind;

  p->differs = FALSE;
  p->figure = p->should_be = NAN;
  if (kind->figure < 0 || kind->observe == NULL)
    return;
  p->figure = p->view.quantity[kind->figure];
  p->differs = hob_comparison_quantity (c, part, kind->figure, &p->should_be);
}

/* What a part does otherwise of which its figure says nothing. */
static void
fill_note (HobPartScene *p, const HobComparison *c, int part, gboolean shows)
{
  const HobKind *kind = p->view.kind;

  p->noted = -1;
  if (kind->observe != NULL && shows && !p->differs)
    p->noted = hob_difference_next (c, kind, part, !p->culprit, &p->note_should_be);
  p->opening_differs
      = kind->opening > 0
        && hob_comparison_quantity (c, part, kind->opening - 1, &p->opening_should_be);
}

static gboolean
is_on_a_sheet (const HobPart *part)
{
  for (int sheet = 0; sheet < HOB_N_SHEETS; sheet++)
    if (part->at[sheet].placed)
      return TRUE;
  return FALSE;
}

/* A part that is on no sheet is ringed where its shaft goes: a knob at its valve and its switch. */
static gboolean
hidden_mover_misbehaves (HobComparison *c, const HobRange *range, int part)
{
  int mover = range->parts[part].moved_by;

  return mover >= 0 && !is_on_a_sheet (&range->parts[mover])
         && hob_comparison_culprit (c, mover, NULL);
}

static void
fill_part (HobPartScene *p, HobComparison *c, const HobRange *range, int part, gboolean shows)
{
  fill_view (p, hob_comparison_now (c), part);
  fill_gas (p, hob_comparison_now (c), part);
  fill_fault (p, hob_comparison_now (c), part);
  fill_figure (p, c, part);
  p->culprit = shows
               && (hob_comparison_culprit (c, part, &p->blamed)
                   || hidden_mover_misbehaves (c, range, part));
  fill_note (p, c, part, shows);
  p->view.spark = 0;
}

/* ---- Eyes only: what is inside wires, pipes and parts is not there ---- */

/* What is hidden in a part arrives as the normal part's. */
static void
blind_part (HobPartScene *p, const HobMoment *normal, int part)
{
  const HobPartContext *c = hob_moment_part (normal, part);
  const HobKind *kind = p->view.kind;
  double *quantity = (double *) p->view.quantity;

  copy (p->view.set, c->set, kind->n_settings);
  copy (p->view.y, c->y, kind->n_states);
  copy (p->view.mode, c->mode, kind->n_modes);
  p->view.moved = c->moved;
  p->view.air = c->within != NULL ? c->within[HOB_PLACE_AIR] : 298.15;

  memset ((gpointer) p->view.v, 0, sizeof (HobComplex) * (gsize) kind->n_terminals);
  memset ((gpointer) p->view.i, 0, sizeof (HobComplex) * (gsize) kind->n_elements);
  memset ((gpointer) p->view.p, 0, sizeof (double) * (gsize) kind->n_ports);
  memset ((gpointer) p->view.q, 0, sizeof (double) * (gsize) kind->n_ducts);
  for (int k = 0; k < kind->n_quantities; k++)
    if (kind->quantities[k].sense == HOB_SENSE_NONE)
      quantity[k] = observed (normal, kind, part, k);
  if (kind->figure >= 0 && kind->quantities[kind->figure].sense == HOB_SENSE_NONE)
    p->figure = NAN;
  p->differs = p->culprit = p->opening_differs = FALSE;
  p->noted = -1;
  p->should_be = NAN;
  p->unlit = p->gathered = 0;
  p->fault = -1;
}

static void
blind (HobScene *scene, const HobMoment *normal)
{
  const HobRange *range = scene->range;

  memset (scene->wires, 0, sizeof (HobWireScene) * (gsize) range->n_wires);
  memset (scene->pipes, 0, sizeof (HobPipeScene) * (gsize) range->n_pipes);
  for (int k = 0; k < range->n_leads; k++)
    if (!scene->leads[k].at_cap)
      scene->leads[k] = (HobLeadScene){ 0 };
  for (int k = 0; k < range->n_parts; k++)
    blind_part (&scene->parts[k], normal, k);
}

/* The normal range at rest, where there is no twin to ask. */
static const HobMoment *
resting (HobSceneReader *reader, HobRun *run)
{
  HobPlan *plan = (HobPlan *) hob_run_plan (run);

  if (reader->rest == NULL)
    {
      g_autoptr (HobCase) nothing = hob_case_new ((HobRange *) hob_plan_range (plan));
      HobRun *idle = hob_run_new (plan, nothing, NULL);

      reader->rest = hob_moment_new (plan);
      hob_run_read (idle, 0, reader->rest);
      hob_run_free (idle);
    }
  return reader->rest;
}

void
hob_scene_read (HobSceneReader *reader, HobScene *scene, HobRun *run, HobRun *should_be,
                double t)
{
  const HobRange *range = scene->range;
  HobComparison *c = reader->comparison;
  gboolean shows;

  hob_comparison_read (c, run, should_be, t);
  shows = hob_comparison_has_shown (c);
  scene->t = t;
  scene->gas_sinks = hob_moment_house (hob_comparison_now (c))->fuel->specific_gravity > 1;
  scene->seed = hob_run_case (run)->seed;
  for (int k = 0; k < range->n_wires; k++)
    fill_wire (&scene->wires[k], c, range->wires[k].from, k);
  for (int k = 0; k < range->n_pipes; k++)
    fill_pipe (&scene->pipes[k], c, &range->pipes[k], k);
  for (int k = 0; k < range->n_parts; k++)
    fill_part (&scene->parts[k], c, range, k, shows);
  for (int k = 0; k < range->n_leads; k++)
    {
      fill_lead (scene, k, hob_moment_lead (hob_comparison_now (c), k));
      scene->parts[range->leads[k].to.part].view.spark
          = scene->leads[k].at_cap ? scene->leads[k].fresh : -scene->leads[k].fresh;
    }
  for (int k = 0; k < range->n_parts && scene->covered; k++)
    scene->parts[k].fault = -1;
  if (scene->eyes_only)
    blind (scene, should_be != NULL ? hob_comparison_normal (c) : resting (reader, run));
}
