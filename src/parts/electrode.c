/* SPDX-License-Identifier: GPL-3.0-or-later */

/* Spark electrode: a pointed wire in a ceramic insulator, about 3 mm (1/8 in.) from the
 * grounded burner cap.  A pulse has three paths: the gap to the cap, a crack in the ceramic to
 * the metal that holds it, and worn insulation of its lead.  In flame the gap breaks down at a
 * quarter of its voltage (physics/spark.h).
 *
 * On a steep front no path breaks down at its own voltage at once: by chance each needs from 1
 * to L times as much, evenly spread (its statistical lag), and the first one to break down gets
 * the pulse.  With L = 1.35 a crack of 2 mm always wins against a gap of 3 mm; one of 2.5 mm
 * leaves it one pulse in eight.
 *
 * The spark breaks through dirt baked on to the cap in series with the gap; their burning
 * voltages share the energy:
 *
 *   E_gap = E·V_gap/(V_gap + V_film)
 *
 * Sparks at the cap are counted exactly, from the module's phase: those of earlier stretches,
 * and of this stretch the pulses (first, ⌊φ⌋] that fire and jump at the cap. */

#include "base/i18n.h"
#include "parts/symbol.h"
#include "parts/pulse.h"
#include "physics/spark.h"

#include <math.h>

enum { LEAD };
enum { GAP, CRACK, OFFSET, CHAFED, BROKEN, FOULING };
enum { JUMPS, COUNT, FIRST, MISS, CHANCE };
enum { G_CHANGE, G_LONG, N_GUARDS };
enum { Q_SPARKS, Q_RATE, Q_TICKING, Q_MISSED, Q_ENERGY, Q_OFFSET, Q_GAP };

#define STRETCH 256.0   /* pulses after which those counted one by one are added up */
#define FLAME_HOT 500.  /* K above the room: the tip is in flame */
#define LAG 1.35        /* L; this project's figure */
#define FILM_FIELD 12e6 /* V/m through baked-on grease; invented, near that of varnish */
#define FLAME_OHMS 20e6 /* of a flame around a tip; this project's figure */
#define REACH 0.5       /* offset from which the tip is no longer in the flame */

static const HobTerminalDef terminals[] = {
  { .name = "lead", .words = N_ ("spark lead"), .required = TRUE, .y = 40, .high_voltage = TRUE },
};

static const HobSettingDef settings[] = {
  { .name = "gap", .words = N_ ("Gap from the electrode tip to the burner."), .dim = HOB_DIM_LENGTH,
    .normal = 3e-3, .low = 0.2e-3, .high = 30e-3, .visible = 0.8e-3 },
  { .name = "crack", .words = "Way through a crack in its ceramic to metal; 0: sound.",
    .dim = HOB_DIM_LENGTH, .high = 20e-3, .condition = TRUE },
  { .name = "offset",
    .words = "How far it stands from its proper place at the burner, 0 to 1.", .high = 1,
    .condition = TRUE, .visible = 0.2 },
  { .name = "chafed",
    .words = "Way from its lead's wire to metal where the insulation is worn; 0: sound.",
    .dim = HOB_DIM_LENGTH, .high = 20e-3, .condition = TRUE, .visible = 1e-5 },
  { .name = "lead-open", .words = "1: its lead is broken.", .high = 1, .condition = TRUE },
  { .name = "fouling", .words = "Resistance of the dirt on its tip.",
    .dim = HOB_DIM_RESISTANCE, .high = 1e10, .condition = TRUE, .visible = 1e3 },
};

static const HobModeDef modes[] = {
  { .name = "jumps" },
  { .name = "count" },
  { .name = "first" },
  { .name = "miss" },
  { .name = "chance" },
};

static const HobQuantityDef quantities[] = {
  { .name = "sparks", .words = N_ ("sparks at the burner so far"), .sense = HOB_SENSE_EYE,
    .counts = TRUE },
  { .name = "rate", .words = N_ ("sparks per second at the burner"), .dim = HOB_DIM_RATE,
    .sense = HOB_SENSE_EYE, .reads = HOB_READS_LEADS },
  { .name = "ticking", .words = N_ ("clicks per second"),
    .dim = HOB_DIM_RATE, .sense = HOB_SENSE_EAR, .reads = HOB_READS_LEADS },
  { .name = "missed", .words = N_ ("sparks that missed the burner"), .say = HOB_SAY_SHARE,
    .sense = HOB_SENSE_EAR },
  { .name = "energy", .words = N_ ("energy of one spark at the burner"),
    .dim = HOB_DIM_ENERGY },
  { .name = "off-place", .words = N_ ("how far the tip is out of the gas stream"),
    .say = HOB_SAY_SHARE, .sense = HOB_SENSE_EYE },
  { .name = "gap", .words = N_ ("gap from the tip to the burner"), .dim = HOB_DIM_LENGTH },
};

static const HobLinkDef links[] = {
  { .from = Q_GAP, .to = Q_ENERGY, .words = N_ ("The spark gap is %s.") },
  { .from = Q_GAP, .to = Q_RATE, .words = N_ ("The spark gap is %s.") },
  { .from = Q_TICKING, .to = Q_RATE, .words = N_ ("The clicking rate is %s.") },
  { .from = Q_RATE, .to = Q_SPARKS, .words = N_ ("Sparks reach the burner at a rate of %s.") },
};

static const HobFaultDef faults[] = {
  {
    .id = "cracked",
    .words = N_ ("ceramic insulator cracked"),
    .severity_words = N_ ("crack %s from the chassis"),
    .typical = 0.5,
    .prior = 6,
    .proof = N_ ("Shut off the gas. In the dark, turn the knob to LIGHT and watch the electrode. "
                 "The spark arcs at the ceramic insulator, not at the burner. Unplug the range, "
                 "swap this electrode with another burner's, and plug the range back in. The fault "
                 "moves with the electrode."),
    .confirm = HOB_MEANS (LOOK) | HOB_MEANS (SWAP),
    .hazards = HOB_HAZARD (GAS_GATHERED),
    HOB_EFFECTS ({ .setting = CRACK, .at0 = 2e-3, .at1 = 0.5e-3 }),
  },
  {
    .id = "gap-wide",
    .words = N_ ("electrode bent away from the burner"),
    .severity_words = N_ ("spark gap of %s"),
    .typical = 0.6,
    .prior = 5,
    .proof = N_ ("Measure the spark gap. It should be about 1/8 in., but it's much wider. This "
                 "burner doesn't spark, but the others do."),
    .confirm = HOB_MEANS (INSPECT) | HOB_MEANS (HAND),
    .hazards = HOB_HAZARD (GAS_GATHERED),
    HOB_EFFECTS ({ .setting = GAP, .at0 = 6e-3, .at1 = 14e-3 }),
  },
  {
    .id = "gap-narrow",
    .words = N_ ("electrode bent too close to the burner"),
    .severity_words = N_ ("spark gap of %s"),
    .typical = 0.2,
    .prior = 3,
    .proof = N_ ("Measure the spark gap. It should be about 1/8 in., but it's much narrower. This "
                 "burner sparks well but lights late or not at all."),
    .confirm = HOB_MEANS (INSPECT) | HOB_MEANS (HAND),
    .hazards = HOB_HAZARD (GAS_GATHERED),
    HOB_EFFECTS ({ .setting = GAP, .at0 = 1.9e-3, .at1 = 0.9e-3 }),
  },
  {
    .id = "cracked-deep",
    .words = N_ ("ceramic insulator cracked near the base"),
    .severity_words = N_ ("crack %s from the chassis"),
    .typical = 0.8,
    .prior = 3,
    .proof = N_ ("Shut off the gas. In the dark, turn the knob to LIGHT and watch the electrode. "
                 "Some sparks miss the burner and arc at the ceramic insulator. The clicking is "
                 "steady."),
    .confirm = HOB_MEANS (LOOK),
    .hazards = HOB_HAZARD (GAS_GATHERED),
    HOB_EFFECTS ({ .setting = CRACK, .at0 = 4.5e-3, .at1 = 2e-3 }),
  },
  {
    .id = "off-place",
    .words = N_ ("electrode tip too far from the ignition port"),
    .severity_words = N_ ("tip %s of the way out of the gas stream"),
    .typical = 0.8,
    .prior = 3,
    .proof = N_ ("Compare this electrode with one at another burner. This one's tip is farther "
                 "from the ignition port. It sparks well, but the burner lights late or not at "
                 "all."),
    .confirm = HOB_MEANS (INSPECT),
    .hazards = HOB_HAZARD (GAS_GATHERED),
    HOB_EFFECTS ({ .setting = OFFSET, .at0 = 0.2, .at1 = 1 }),
  },
  {
    .id = "lead-open",
    .words = N_ ("spark lead open or disconnected"),
    .prior = 3,
    .proof = N_ ("Unplug the range and trace the spark lead from the module to the electrode. If "
                 "it's disconnected, that's the fault. If it's connected, swap it with another "
                 "burner's lead. Plug the range back in. The fault moves with the lead."),
    .confirm = HOB_MEANS (LOOK) | HOB_MEANS (HAND) | HOB_MEANS (SWAP),
    .hazards = HOB_HAZARD (GAS_GATHERED),
    HOB_EFFECTS ({ .setting = BROKEN, .at1 = 1 }),
  },
  {
    .id = "lead-chafed",
    .words = N_ ("spark lead chafed bare near metal"),
    .severity_words = N_ ("bare wire %s from metal"),
    .typical = 0.6,
    .prior = 3,
    .proof = N_ ("Unplug the range, shut off the gas, and lift the cooktop. Plug the range back in "
                 "and keep your hands clear. In the dark, turn the knob to LIGHT and watch the "
                 "spark lead. You hear clicking, and a spark jumps from the lead to metal. No "
                 "spark jumps at the burner."),
    .confirm = HOB_MEANS (INSPECT),
    .hazards = HOB_HAZARD (GAS_GATHERED),
    HOB_EFFECTS ({ .setting = CHAFED, .at0 = 4e-3, .at1 = 0.2e-3 }),
  },
  {
    .id = "fouled",
    .words = N_ ("electrode tip dirty"),
    .severity_words = N_ ("%s of resistance from dirt on the tip"),
    .typical = 0.74,
    .prior = 3,
    .proof = N_ ("Unplug the range and let the burner cool. Clean the electrode tip, plug the "
                 "range back in, and light the burner. Now the spark is strong. If the range has a "
                 "reignition module, the sparking stops once the burner lights."),
    .confirm = HOB_MEANS (INSPECT) | HOB_MEANS (HAND),
    HOB_EFFECTS ({ .setting = FOULING, .at0 = 30e6, .at1 = 300e6, .geometric = TRUE }),
  },
};

static double
in_flame (const HobPartContext *c)
{
  return c->within[HOB_PLACE_AIR] - c->house->temperature > FLAME_HOT;
}

static double
gap (const HobPartContext *c)
{
  return fmax (c->set[GAP] + c->within[HOB_PLACE_CAP_AWAY], 0.1e-3);
}

/* V peak that the gap needs, and that it needs with the dirt on the cap. */
static double
gap_volts (const HobPartContext *c)
{
  double d = gap (c);

  return isfinite (d) ? hob_breakdown_point (d, in_flame (c)) : INFINITY;
}

static double
cap_volts (const HobPartContext *c)
{
  return gap_volts (c) + FILM_FIELD * c->within[HOB_PLACE_CAP_FILM];
}

static double
stray_volts (const HobPartContext *c)
{
  double crack = c->set[CRACK] > 0 ? hob_breakdown_point (c->set[CRACK], 0) : INFINITY;
  double chafed = c->set[CHAFED] > 0 ? hob_breakdown_point (c->set[CHAFED], 0) : INFINITY;

  return fmin (crack, chafed);
}

/* Chance that x, evenly spread over a…La, is below y, evenly spread over b…Lb. */
static double
first_of (double a, double b)
{
  const double below[2] = { b, LAG * b };
  double width = (LAG - 1) * a, area[2];

  if (!isfinite (b))
    return 1;
  if (!isfinite (a))
    return 0;
  for (int k = 0; k < 2; k++)
    {
      double u = below[k] - a;

      area[k] = u <= 0 ? 0 : u < width ? u * u / (2 * width) : u - width / 2;
    }
  return CLAMP ((area[1] - area[0]) / (below[1] - below[0]), 0, 1);
}

static void
give (const HobPartContext *c)
{
  HobLead *lead = c->lead[LEAD];
  double cap = cap_volts (c), stray = stray_volts (c);
  gboolean touched = in_flame (c) > 0.5 && c->set[OFFSET] < REACH && isfinite (gap (c));
  gboolean open = c->set[BROKEN] > 0;

  lead->at_cap = isfinite (cap) || isfinite (stray) ? first_of (cap, stray) : 1;
  lead->breakdown = open ? INFINITY : fmin (cap, stray);
  lead->flame = open || !touched ? INFINITY : FLAME_OHMS + c->set[FOULING];
}

static gboolean
breaks_down (const HobPartContext *c)
{
  const HobLead *lead = c->lead[LEAD];

  return lead != NULL && lead->volts > 0 && lead->volts >= lead->breakdown;
}

/* A spark that can be seen and heard; a lead's charge alone cannot. */
static gboolean
snaps (const HobPartContext *c)
{
  return breaks_down (c) && c->lead[LEAD]->whole && c->lead[LEAD]->rate > 0;
}

static gboolean
jumps_at_cap (const HobPartContext *c)
{
  return snaps (c) && c->lead[LEAD]->at_cap > 0;
}

/* J in the gap; the dirt on the cap takes its share. */
static double
energy_at_cap (const HobPartContext *c)
{
  return c->lead[LEAD]->energy * gap_volts (c) / cap_volts (c);
}

static void
rates (const HobPartContext *c)
{
  const HobLead *lead = c->lead[LEAD];

  if (!breaks_down (c) || lead->at_cap <= 0 || lead->rate <= c->within[HOB_PLACE_SPARK_RATE])
    return;
  c->within[HOB_PLACE_SPARK_RATE] = lead->rate;
  c->within[HOB_PLACE_SPARK_PHASE] = lead->phase;
  c->within[HOB_PLACE_SPARK_KEY] = lead->key;
  c->within[HOB_PLACE_SPARK_MISS] = lead->miss;
  c->within[HOB_PLACE_SPARK_TIP] = c->index + 1;
  c->within[HOB_PLACE_SPARK_CAP] = lead->at_cap;
  c->within[HOB_PLACE_SPARK_ENERGY] = energy_at_cap (c);
  c->within[HOB_PLACE_SPARK_GAP] = gap (c);
  c->within[HOB_PLACE_SPARK_OFFSET] = fmax (c->within[HOB_PLACE_SPARK_OFFSET], c->set[OFFSET]);
}

static double
count (const HobPartContext *c)
{
  const HobLead *lead = c->lead[LEAD];

  if (c->mode[JUMPS] == 0)
    return c->mode[COUNT];
  return c->mode[COUNT]
         + hob_pulses_at_cap (c->seed, lead->key, c->mode[MISS], c->index + 1, c->mode[CHANCE],
                              c->mode[FIRST], floor (lead->phase));
}

/* Until it jumps, nothing keeps a pulse from the cap. */
static void
start (const HobPartContext *c, double *y G_GNUC_UNUSED)
{
  c->mode[CHANCE] = 1;
}

static const guint8 guard_reads[] = { HOB_READS_LEADS, HOB_READS_LEADS };

static double
guard (const HobPartContext *c, int k)
{
  const HobLead *lead = c->lead[LEAD];
  gboolean jumps = c->mode[JUMPS] > 0;
  gboolean one_by_one = jumps && (c->mode[MISS] > 0 || c->mode[CHANCE] < 1);

  if (k == G_LONG)
    return one_by_one ? lead->phase - c->mode[FIRST] - STRETCH : -1;
  /* Chances matter while it jumps alone. */
  return jumps_at_cap (c) != jumps
                 || (jumps && (lead->miss != c->mode[MISS] || lead->at_cap != c->mode[CHANCE]))
             ? 1
             : -1;
}

static void
flip (const HobPartContext *c, int k, double *y)
{
  const HobLead *lead = c->lead[LEAD];

  c->mode[COUNT] = count (c);
  c->mode[FIRST] = floor (lead->phase);
  c->mode[JUMPS] = jumps_at_cap (c);
  c->mode[MISS] = lead->miss;
  c->mode[CHANCE] = lead->at_cap;
}

static double
observe (const HobPartContext *c, int quantity)
{
  const HobLead *lead = c->lead[LEAD];

  if (quantity == Q_SPARKS)
    return count (c);
  if (quantity == Q_OFFSET)
    return c->set[OFFSET];
  if (quantity == Q_GAP)
    return gap (c);
  if (quantity == Q_ENERGY)
    return breaks_down (c) && lead->rate > 0 && lead->at_cap > 0 ? energy_at_cap (c) : 0;
  if (!snaps (c))
    return 0;
  if (quantity == Q_MISSED)
    return lead->miss;
  return lead->rate * (1 - lead->miss) * (quantity == Q_RATE ? lead->at_cap : 1);
}

typedef enum { NOWHERE, AT_CAP, AT_CRACK, AT_LEAD } Jump;

/* Where the pulse of this moment jumps; of two ways past the cap the shorter gets it. */
static Jump
jumps_now (const HobPartView *view)
{
  double crack = view->set[CRACK] > 0 ? view->set[CRACK] : INFINITY,
         lead = view->set[CHAFED] > 0 ? view->set[CHAFED] : INFINITY;

  if (view->spark == 0)
    return NOWHERE;
  if (view->spark > 0 || (isinf (crack) && isinf (lead)))
    return AT_CAP;
  return crack <= lead ? AT_CRACK : AT_LEAD;
}

/* Dirt about the tip. */
static void
draw_dirt (HobPen *pen, const HobPartView *view, double x, double y, HobRole role)
{
  static const double specks[][2]
      = { { 0, -5 }, { 5, 4 }, { -4, 4 }, { 8, -4 }, { -1, 9 }, { 12, 3 }, { 3, -10 } };

  for (gsize k = 0; k < G_N_ELEMENTS (specks) && view->set[FOULING] > 0; k++)
    {
      pen_circle (pen, x + specks[k][0], y + specks[k][1], 2.2);
      pen_fill (pen, role);
    }
}

/* The tips, the ceramic with the bracket that holds it, and the lead. */
static void
wiring_paper (HobPen *pen)
{
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
  pen_rect (pen, -5, 18, 10, 16);
  pen_fill_stroke (pen, HOB_ROLE_PANEL, HOB_ROLE_INK, HOB_DETAIL);
  pen_segment (pen, 5, 26, 16, 26);
  pen_segment (pen, 16, 20, 16, 32);
  pen_stroke (pen, HOB_ROLE_INK, HOB_DETAIL);
  hob_symbol_frame (pen, 2, -26, FALSE);
}

static void
draw_wiring (HobPen *pen, const HobPartView *view)
{
  static const double ways[][4] = {
    [AT_CAP] = { 0, 8, 0, -12 }, [AT_CRACK] = { -4, 20, 17, 30 }, [AT_LEAD] = { 0, 38, -19, 32 },
  };
  Jump jump = view->layer == HOB_LAYER_STATE ? jumps_now (view) : NOWHERE;

  if (view->layer == HOB_LAYER_PAPER)
    wiring_paper (pen);
  else
    draw_dirt (pen, view, 0, 8, HOB_ROLE_INK);
  if (jump == NOWHERE)
    return;
  if (jump == AT_LEAD) /* the metal that it touches */
    {
      pen_segment (pen, -19, 24, -19, 40);
      pen_stroke (pen, HOB_ROLE_INK, HOB_OUTLINE);
    }
  hob_symbol_spark (pen, HOB_ROLE_INK, ways[jump][0], ways[jump][1], ways[jump][2], ways[jump][3]);
}

/* Beside the burner on the cooktop: ceramic, wire, and the tip as far from the cap as its gap. */
static void
draw_cutaway (HobPen *pen, const HobPartView *view)
{
  double tip = CLAMP (-18 + 8 * view->set[GAP] / 3e-3, -16, 4);
  Jump jump = jumps_now (view);

  if (view->layer == HOB_LAYER_PAPER)
    return;
  pen_move (pen, 8, 10);
  pen_line (pen, 8, 2);
  pen_line (pen, tip, 2);
  pen_stroke (pen, HOB_ROLE_CAVITY_INK, HOB_OUTLINE);
  pen_rect (pen, 4, 9, 8, 20);
  pen_fill_stroke (pen, HOB_ROLE_CAVITY, HOB_ROLE_CAVITY_INK, HOB_DETAIL);
  draw_dirt (pen, view, tip, 2, HOB_ROLE_CAVITY_INK);
  if (jump == AT_CAP)
    hob_symbol_spark (pen, HOB_ROLE_CAVITY_INK, tip, 2, -20, 2);
  else if (jump == AT_CRACK)
    hob_symbol_spark (pen, HOB_ROLE_CAVITY_INK, 2, 12, 20, 20);
  else if (jump == AT_LEAD)
    hob_symbol_spark (pen, HOB_ROLE_CAVITY_INK, 8, 38, 20, 26);
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
  .about = N_ ("The tip is about 1/8 in. from the grounded metal of the burner. The module's "
               "spark jumps this gap and lights the gas."),
  .may_be_in = HOB_ROOM_SURFACE_BURNER | HOB_ROOM_KITCHEN,
  .hazards = HOB_HAZARD (SPARK_LEAD),
  HOB_TABLE (terminals, terminals),
  HOB_TABLE (settings, settings),
  HOB_TABLE (modes, modes),
  HOB_TABLE (faults, faults),
  HOB_TABLE (quantities, quantities),
  HOB_TABLE (links, links),
  .n_guards = N_GUARDS,
  .symbol = { [HOB_SHEET_WIRING] = { 40, 80 }, [HOB_SHEET_CUTAWAY] = { 40, 80 } },
  .figure = Q_RATE,
  .start = start,
  .guard_reads = guard_reads,
  .give = give,
  .rates = rates,
  .guard = guard,
  .flip = flip,
  .observe = observe,
  .draw = draw,
};
