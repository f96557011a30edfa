/* SPDX-License-Identifier: GPL-3.0-or-later */

/* Spark electrode: a pointed wire in a ceramic tube, some 3 mm from the grounded burner cap.  The
 * pulse takes the easier of two ways: the gap to the cap, or a crack in the ceramic to the metal
 * that holds it.  In flame the gap breaks down at a quarter (physics/spark.h).
 *
 * Sparks at the cap are counted exactly from the module's phase: those of earlier stretches, and of
 * this stretch the pulses (first, ⌊φ⌋] that fire. */

#include "base/i18n.h"
#include "parts/symbol.h"
#include "parts/pulse.h"
#include "physics/spark.h"

#include <math.h>

enum { LEAD };
enum { GAP, CRACK, OFFSET };
enum { JUMPS, COUNT, FIRST, MISS };
enum { G_CHANGE, G_LONG, N_GUARDS };
enum { Q_SPARKS, Q_RATE, Q_TICKING, Q_MISSED };

#define STRETCH 256.0  /* pulses after which a stretch with missing ones is added up */
#define FLAME_HOT 500. /* K above the room: the tip stands in flame */

static const HobTerminalDef terminals[] = { { "lead", N_ ("spark lead"), TRUE, 0, 40, TRUE } };

static const HobSettingDef settings[] = {
  { "gap", N_ ("From the tip to the burner cap."), HOB_DIM_LENGTH, 3e-3, 0.2e-3, 30e-3 },
  { "crack", N_ ("Way through a crack in its ceramic to metal; 0: sound."), HOB_DIM_LENGTH, 0, 0,
    20e-3, NULL, TRUE },
  { "offset", N_ ("How far it stands from its proper place at the burner, 0 to 1."), HOB_DIM_NUMBER,
    0, 0, 1, NULL, TRUE },
};

static const HobModeDef modes[]
    = { { "jumps", NULL }, { "count", NULL }, { "first", NULL }, { "miss", NULL } };

static const HobQuantityDef quantities[] = {
  { "sparks", N_ ("sparks so far at the burner cap"), HOB_DIM_NUMBER, HOB_SENSE_EYE },
  { "rate", N_ ("sparks per second at the burner cap"), HOB_DIM_RATE, HOB_SENSE_EYE },
  { "ticking", N_ ("sparks per second, heard wherever they jump"), HOB_DIM_RATE, HOB_SENSE_EAR },
  { "missed", N_ ("share of the beats that stay out while it sparks"), HOB_DIM_NUMBER,
    HOB_SENSE_EAR },
};

static const HobFaultDef faults[] = {
  { "cracked",
    N_ ("electrode's ceramic cracked"),
    N_ ("way through the crack to metal, 2 mm to 0.5 mm"),
    0.5,
    6,
    N_ ("assumption"),
    N_ ("Ticking without a spark at the cap; in the dark a spark is seen at the ceramic. With the "
        "electrode exchanged for "
        "a neighbour's, the fault goes with it."),
    N_ ("Never a meter on a spark lead; knob off and unplugged before it is touched."),
    -1,
    1,
    { { CRACK, HOB_EFFECT_SET, 2e-3, 0.5e-3 } } },
  { "gap-wide",
    N_ ("electrode bent away from the cap"),
    N_ ("gap from tip to cap, 6 mm to 14 mm"),
    0.6,
    5,
    N_ ("assumption"),
    N_ ("No spark at this cap, others spark. A gauge in the gap: about 3 mm (1/8 in) is right."),
    N_ ("Ceramic is brittle: bend the wire, not the tube; knob off and unplugged."),
    -1,
    1,
    { { GAP, HOB_EFFECT_SET, 6e-3, 14e-3 } } },
};

static double
in_flame (const HobPartContext *c)
{
  return CLAMP ((c->within[HOB_PLACE_AIR] - c->house->temperature) / FLAME_HOT, 0, 1);
}

static void
give (const HobPartContext *c)
{
  HobLead *lead = c->lead[LEAD];
  double at_cap = hob_breakdown_point (c->set[GAP], in_flame (c));
  double at_crack = c->set[CRACK] > 0 ? hob_breakdown_point (c->set[CRACK], 0) : INFINITY;

  if (lead == NULL)
    return;
  lead->at_cap = at_cap <= at_crack;
  lead->breakdown = fmin (at_cap, at_crack);
}

static gboolean
breaks_down (const HobPartContext *c)
{
  const HobLead *lead = c->lead[LEAD];

  return lead != NULL && lead->volts > 0 && lead->volts >= lead->breakdown;
}

static gboolean
jumps_at_cap (const HobPartContext *c)
{
  return breaks_down (c) && c->lead[LEAD]->at_cap;
}

static void
rates (const HobPartContext *c)
{
  const HobLead *lead = c->lead[LEAD];

  if (!jumps_at_cap (c) || lead->rate <= c->within[HOB_PLACE_SPARK_RATE])
    return;
  c->within[HOB_PLACE_SPARK_RATE] = lead->rate;
  c->within[HOB_PLACE_SPARK_PHASE] = lead->phase;
  c->within[HOB_PLACE_SPARK_KEY] = lead->key;
  c->within[HOB_PLACE_SPARK_MISS] = lead->miss;
  c->within[HOB_PLACE_SPARK_ENERGY] = lead->energy;
  c->within[HOB_PLACE_SPARK_GAP] = c->set[GAP];
  c->within[HOB_PLACE_SPARK_OFFSET] = fmax (c->within[HOB_PLACE_SPARK_OFFSET], c->set[OFFSET]);
}

static double
count (const HobPartContext *c)
{
  const HobLead *lead = c->lead[LEAD];

  if (lead == NULL || c->mode[JUMPS] == 0)
    return c->mode[COUNT];
  return c->mode[COUNT]
         + hob_pulses_fired (c->seed, lead->key, c->mode[FIRST], floor (lead->phase),
                             c->mode[MISS]);
}

static double
guard (const HobPartContext *c, int k)
{
  const HobLead *lead = c->lead[LEAD];

  if (lead == NULL)
    return -1;
  if (k == G_LONG)
    return c->mode[JUMPS] > 0 && c->mode[MISS] > 0 ? lead->phase - c->mode[FIRST] - STRETCH : -1;
  return jumps_at_cap (c) != (c->mode[JUMPS] > 0) || lead->miss != c->mode[MISS] ? 1 : -1;
}

static void
flip (const HobPartContext *c, int k, double *y)
{
  const HobLead *lead = c->lead[LEAD];

  c->mode[COUNT] = count (c);
  c->mode[FIRST] = floor (lead->phase);
  c->mode[JUMPS] = jumps_at_cap (c);
  c->mode[MISS] = lead->miss;
}

static double
observe (const HobPartContext *c, int quantity)
{
  const HobLead *lead = c->lead[LEAD];

  if (quantity == Q_SPARKS)
    return count (c);
  if (!breaks_down (c) || (quantity == Q_RATE && !lead->at_cap))
    return 0;
  return quantity == Q_MISSED ? lead->miss : lead->rate * (1 - lead->miss);
}

/* Where a pulse jumps just now: 1 at the cap, −1 at a crack, 0 nowhere. */
static int
jumps_now (const HobPartView *view)
{
  if (view->spark <= 0)
    return 0;
  return view->mode[JUMPS] > 0 ? 1 : view->set[CRACK] > 0 ? -1 : 0;
}

static void
draw_wiring (HobPen *pen, const HobPartView *view)
{
  if (view->layer == HOB_LAYER_STATE)
    {
      int place = jumps_now (view);

      if (place != 0)
        hob_symbol_spark (pen, HOB_ROLE_INK, place > 0 ? 0 : 4, place > 0 ? 6 : 26,
                          place > 0 ? 0 : 18, place > 0 ? -10 : 26);
      return;
    }
  pen_segment (pen, 0, 40, 0, 10);
  pen_segment (pen, 0, -12, 0, -26);
  pen_stroke (pen, HOB_ROLE_INK, HOB_OUTLINE);
  for (int up = -1; up <= 1; up += 2)
    {
      double tip = up > 0 ? 6 : -10;

      pen_move (pen, 0, tip);
      pen_line (pen, -6, tip + up * 10);
      pen_line (pen, 6, tip + up * 10);
      pen_close (pen);
    }
  pen_fill (pen, HOB_ROLE_INK);
  pen_rect (pen, -5, 18, 10, 16); /* its ceramic */
  pen_fill_stroke (pen, HOB_ROLE_PANEL, HOB_ROLE_INK, HOB_DETAIL);
  hob_symbol_frame (pen, 2, -26, FALSE);
}

/* Beside the burner: ceramic, wire, and the tip as far from the cap as its gap says. */
static void
draw_cutaway (HobPen *pen, const HobPartView *view)
{
  double tip = CLAMP (-18 + 8 * view->set[GAP] / 3e-3, -16, 4);
  int place = jumps_now (view);

  if (view->layer == HOB_LAYER_PAPER)
    {
      pen_rect (pen, -20, -20, 40, 40);
      pen_fill (pen, HOB_ROLE_CAVITY);
      return;
    }
  pen_move (pen, 8, 2);
  pen_line (pen, 8, -8);
  pen_line (pen, tip, -8);
  pen_stroke (pen, HOB_ROLE_CAVITY_INK, HOB_OUTLINE);
  pen_rect (pen, 4, 0, 8, 18);
  pen_fill_stroke (pen, HOB_ROLE_CAVITY, HOB_ROLE_CAVITY_INK, HOB_DETAIL);
  if (place > 0)
    hob_symbol_spark (pen, HOB_ROLE_CAVITY, tip, -8, -18, -8);
  else if (place < 0)
    hob_symbol_spark (pen, HOB_ROLE_CAVITY, 12, 10, 20, 12);
}

static void
draw (HobPen *pen, const HobPartView *view)
{
  if (view->sheet == HOB_SHEET_WIRING)
    draw_wiring (pen, view);
  else
    draw_cutaway (pen, view);
}

const HobKind hob_kind_electrode = {
  .name = "electrode",
  .label = N_ ("spark electrode"),
  .about = N_ ("Its tip stands about 3 mm from the grounded cap; the module's pulse jumps there "
               "and lights the gas."),
  HOB_TABLE (terminals, terminals),
  HOB_TABLE (settings, settings),
  HOB_TABLE (modes, modes),
  HOB_TABLE (faults, faults),
  HOB_TABLE (quantities, quantities),
  .n_guards = N_GUARDS,
  .symbol = { [HOB_SHEET_WIRING] = { 40, 80 }, [HOB_SHEET_CUTAWAY] = { 40, 40 } },
  .figure = Q_RATE,
  .give = give,
  .rates = rates,
  .guard = guard,
  .flip = flip,
  .observe = observe,
  .draw = draw,
};
