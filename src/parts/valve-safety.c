/* SPDX-License-Identifier: GPL-3.0-or-later */

/* Oven safety valves: a bimetal arm and its heater, in series with the igniter.
 *
 *   C dT/dt = i²R − G(T − T_c),   opening = clamp ((T − 298 K − rise)/4 K, 0, 1)
 *
 * T_c is the air of the compartment around it.  The heater alone would hold the arm just open
 * at i = √(G·rise/R): 2.85 A for the flat igniter's valve, 2.20 A for the round one's.  Both arms
 * open at the same 8.1 W; the round one's heater is wound for less current.  An
 * arm that opened at less would be half way there in a hot compartment, before its igniter is hot
 * enough.  Units differ in C (log-normal, σ 0.1).  A dual oven safety valve has both burners'
 * valves in one body, with one inlet.  An arm that sticks stays up until it has cooled that much
 * more.  A heater that gets far more than an igniter lets through melts: the arm then is at 900 K,
 * and the ribbon, which heats it, far hotter.  That takes some 1,200 J, two tenths of a second at
 * 7 kW, and no steady current under 6 A does it.  All figures are invented for a believable
 * appliance. */

#include "base/i18n.h"
#include "parts/symbol.h"

#include <math.h>

enum { A, B };
enum { IN, OUT };
enum { HEATER_OHMS, OPENS, FULL_LIFT, HEAT_CAPACITY, CONDUCTANCE, BORE, BROKEN, STUCK, LEAK,
       STICK };
enum { ARM };
enum { Q_OPENING, Q_VOLTS, Q_CURRENT, Q_ARM, Q_FLOW };

#define CAPACITY_SCATTER 0.1 /* of the heat capacity, from unit to unit */
#define REFERENCE 298.0 /* K, at which the arm's rise is counted from 0 */
#define DISCHARGE 0.7   /* of the open seat */
#define MELTS 900.0     /* K of the arm */

static const HobTerminalDef terminals[] = {
  { .name = "a", .words = N_ ("igniter side"), .required = TRUE, .x = -60 },
  { .name = "b", .words = N_ ("neutral side"), .required = TRUE, .x = 60 },
};

static const HobPortDef ports[] = {
  { .name = "in", .words = N_ ("gas from the manifold"), .required = TRUE, .way = HOB_WAY_IN,
    .x = -60 },
  { .name = "out", .words = N_ ("gas to the burner"), .required = TRUE, .way = HOB_WAY_OUT,
    .x = 60 },
};

/* Heater ohms of the valve that goes with each igniter: G·RISE/R = (2.85 A)² and (2.20 A)². */
#define FLAT_OHMS 1.0
#define ROUND_OHMS 1.68
/* J/K: a round igniter takes longer to get hot, and the longer winding of its valve to heat up. */
#define FLAT_HOLDS 2.0
#define ROUND_HOLDS 2.2
#define RISE 135.4 /* K from the reference to opening */

#define SETTINGS(ohms, holds)                                                                      \
  {                                                                                                \
    { .name = "heater-ohms", .words = N_ ("Resistance of the bimetal heater."),                    \
      .dim = HOB_DIM_RESISTANCE, .normal = ohms, .low = 0.1, .high = 50 },                         \
    { .name = "opens", .words = N_ ("How far above 77 °F the bimetal must be before the valve "    \
                                    "starts to open."),                                            \
      .dim = HOB_DIM_DIFFERENCE, .normal = RISE, .low = 20, .high = 400 },                         \
    { .name = "full-lift",                                                                         \
      .words = N_ ("Temperature rise of the bimetal from where the valve starts to open to where " \
                   "it's fully open."),                                                            \
      .dim = HOB_DIM_DIFFERENCE, .normal = 4, .low = 0.5, .high = 50 },                            \
    { .name = "heat-capacity",                                                                     \
      .words = N_ ("Heat capacity of the bimetal and its heater, in J/K."),                        \
      .normal = holds, .low = 0.1, .high = 50 },                                                   \
    { .name = "conductance", .words = N_ ("Heat loss of the bimetal, in W/K."), .normal = 0.060,   \
      .low = 0.005, .high = 1 },                                                                   \
    { .name = "bore", .words = N_ ("Diameter of the opening at the valve seat when the valve is "  \
                                   "open."), .dim = HOB_DIM_LENGTH,                                \
      .normal = 6e-3, .low = 1e-3, .high = 30e-3 },                                                \
    { .name = "broken", .words = "1: the bimetal heater is open.", .high = 1,                      \
      .condition = TRUE },                                                                         \
    { .name = "stuck", .words = "1: the valve is stuck closed.", .high = 1,                        \
      .condition = TRUE },                                                                         \
    { .name = "leak", .words = "Part of the seat that never closes, 0 to 1.", .high = 1,           \
      .condition = TRUE },                                                                         \
    { .name = "stick", .words = N_ ("How much further than normal the bimetal must cool before "   \
                                    "the valve closes."),                                          \
      .dim = HOB_DIM_DIFFERENCE, .high = 200, .condition = TRUE },                                 \
  }

static const HobSettingDef flat_settings[] = SETTINGS (FLAT_OHMS, FLAT_HOLDS);
static const HobSettingDef round_settings[] = SETTINGS (ROUND_OHMS, ROUND_HOLDS);

static const HobStateDef states[] = {
  { .name = "arm", .words = "temperature of the arm", .dim = HOB_DIM_TEMPERATURE,
    .tolerance = 0.1 },
};

static const char *const lift_words[] = { N_ ("valve closes"), N_ ("valve starts to open"), NULL };

static const char *const burned_words[]
    = { N_ ("bimetal heater works again"), N_ ("bimetal heater burns open"), NULL };

static const HobModeDef modes[] = {
  { .name = "lifted", .words = lift_words },
  { .name = "wide" },
  { .name = "burned", .words = burned_words },
};
enum { LIFTED, WIDE, BURNED, N_MODES };

static const HobElementDef elements[] = {
  { .name = "heater", .a = A, .b = B },
};
static const HobDuctDef ducts[] = {
  { .name = "seat", .a = IN, .b = OUT },
};

static const HobQuantityDef quantities[] = {
  { .name = "opening", .words = N_ ("how far the valve is open"), .say = HOB_SAY_SHARE },
  { .name = "volts", .words = N_ ("voltage across the valve terminals"), .dim = HOB_DIM_VOLTAGE },
  { .name = "current", .words = N_ ("current"), .dim = HOB_DIM_CURRENT },
  { .name = "arm", .words = N_ ("temperature of the bimetal"), .dim = HOB_DIM_TEMPERATURE,
    .out_of_reach = TRUE },
  { .name = "flow", .words = N_ ("gas flow through the valve"), .dim = HOB_DIM_MASS_FLOW,
    .says = N_ ("The gas flow through the valve is %s.") },
};

/* All but the last one, which is the other igniter's valve put in instead. */
#define SHARED_FAULTS                                                                              \
  {                                                                                                \
    .id = "heater-open",                                                                           \
    .words = N_ ("safety valve bimetal heater open"),                                              \
    .prior = 3,                                                                                    \
    .basis = "seldom against a weak igniter",                                                      \
    .proof = N_ ("With the oven calling for heat, read the volts across the valve terminals. "     \
                 "There is line voltage, but the igniter doesn't glow. Unplug the range, take "    \
                 "one wire off the valve, and read ohms across the bimetal heater. The meter "     \
                 "reads OL."),                                                                     \
    .confirm = HOB_MEANS (LIVE_VOLTS) | HOB_MEANS (OHMS),                                          \
    HOB_EFFECTS ({ .setting = BROKEN, .at1 = 1 }),                                                 \
  },                                                                                               \
  {                                                                                                \
    .id = "stuck-closed",                                                                          \
    .words = N_ ("safety valve stuck closed"),                                                     \
    .prior = 2,                                                                                    \
    .proof = N_ ("Read the igniter amps. The igniter draws full current for several minutes. "     \
                 "The oven shutoff lever is open and there is pressure at the valve inlet, but "   \
                 "no gas reaches the burner."),                                                    \
    .confirm = HOB_MEANS (AMPS) | HOB_MEANS (PRESSURE),                                            \
    HOB_EFFECTS ({ .setting = STUCK, .at1 = 1 }),                                                  \
  },                                                                                               \
  {                                                                                                \
    .id = "stuck-open",                                                                            \
    .words = N_ ("safety valve stuck open"),                                                       \
    .severity_words = N_ ("valve stays %s open"),                                                  \
    .typical = 0.5,                                                                                \
    .prior = 1,                                                                                    \
    .proof = N_ ("Turn the oven off, close the oven shutoff lever, and let the oven cool with "    \
                 "the door open. Put leak-detection solution on the burner orifice and open the "  \
                 "lever. The solution bubbles, or you smell gas. Close the lever right away."),    \
    .confirm = HOB_MEANS (LEAK_CHECK),                                                             \
    .hazards = HOB_HAZARD (GAS_STRONG),                                                            \
    HOB_EFFECTS ({ .setting = LEAK, .how = HOB_EFFECT_ADD, .at1 = 1 }),                            \
  },                                                                                               \
  {                                                                                                \
    .id = "slow-to-close",                                                                         \
    .words = N_ ("safety valve slow to close"),                                                    \
    .severity_words = N_ ("bimetal must cool %s more than normal before the valve closes"),        \
    .typical = 0.7,                                                                                \
    .prior = 1,                                                                                    \
    .proof = N_ ("Time the flame after the control turns the igniter off. The flame keeps "        \
                 "burning too long."),                                                             \
    .confirm = HOB_MEANS (LOOK),                                                                   \
    .hazards = HOB_HAZARD (STOP_USING),                                                            \
    HOB_EFFECTS ({ .setting = STICK, .how = HOB_EFFECT_ADD, .at1 = 140 }),                         \
  }

static const HobFaultDef flat_faults[] = {
  SHARED_FAULTS,
  {
    .id = "wrong-kind",
    .words = N_ ("round-igniter valve installed in place of a flat-igniter valve"),
    .prior = 1,
    .basis = "after a repair elsewhere",
    .proof = N_ ("Check the valve's part number. It's for a round igniter, but the range has a "
                 "flat one. Read the igniter's amps and the volts across the valve. The two "
                 "readings don't match the tech sheet."),
    .confirm = HOB_MEANS (LOOK) | HOB_MEANS (LIVE_VOLTS),
    HOB_EFFECTS ({ .setting = HEATER_OHMS, .at1 = ROUND_OHMS }),
  },
};

static const HobFaultDef round_faults[] = {
  SHARED_FAULTS,
  {
    .id = "wrong-kind",
    .words = N_ ("flat-igniter valve installed in place of a round-igniter valve"),
    .prior = 1,
    .basis = "after a repair elsewhere",
    .proof = N_ ("Check the valve's part number. It's for a flat igniter, but the range has a "
                 "round one. Read the igniter's amps and the volts across the valve. The two "
                 "readings don't match the tech sheet."),
    .confirm = HOB_MEANS (LOOK) | HOB_MEANS (LIVE_VOLTS),
    HOB_EFFECTS ({ .setting = HEATER_OHMS, .at1 = FLAT_OHMS }),
  },
};

/* J/K. */
static double
capacity (const HobPartContext *c)
{
  return c->set[HEAT_CAPACITY] * hob_specimen_factor (c, CAPACITY_SCATTER, 0);
}

static gboolean
heater_open (const double *set, const double *mode)
{
  return set[BROKEN] > 0 || mode[BURNED] > 0;
}

static double
power (const HobPartContext *c)
{
  return heater_open (c->set, c->mode) ? 0 : hob_complex_abs2 (c->i[0]) * c->set[HEATER_OHMS];
}

/* How far the arm is beyond the point at which it opens, in full lifts; below 0: closed.  Once
 * open, it sticks. */
static double
lift (const HobPartContext *c)
{
  double stick = c->mode[LIFTED] > 0 ? c->set[STICK] : 0;

  return (c->y[ARM] - REFERENCE - c->set[OPENS] + stick) / c->set[FULL_LIFT];
}

static double
opening (const HobPartContext *c)
{
  double lifted = c->set[STUCK] > 0 ? 0 : CLAMP (lift (c), 0, 1);

  return MAX (lifted, c->set[LEAK]);
}

static void
start (const HobPartContext *c, double *y)
{
  y[ARM] = c->house->temperature;
}

static void
conduct (const HobPartContext *c)
{
  c->g[0] = hob_siemens (heater_open (c->set, c->mode) ? INFINITY : c->set[HEATER_OHMS]);
}

static void
flow (const HobPartContext *c)
{
  double seat = DISCHARGE * G_PI / 4 * c->set[BORE] * c->set[BORE];
  double open = opening (c);

  /* Only after the change: a step that looks past the moment of opening must see no gas yet. */
  if (!(c->mode[LIFTED] > 0))
    open = c->set[LEAK];
  if (open > 0)
    c->duct[0] = (HobDuct){ .law = HOB_DUCT_ORIFICE, .area = seat * open };
}

static void
rates (const HobPartContext *c)
{
  double in = power (c);
  double out = c->set[CONDUCTANCE] * (c->y[ARM] - c->within[HOB_PLACE_COMPARTMENT]);

  c->dy[ARM] = (in - out) / capacity (c);
  c->ledger[HOB_LEDGER_HEAT_IN] += in;
  c->ledger[HOB_LEDGER_HEAT_OUT] += out;
}

/* The events "begins to open" and "shuts" are a twentieth of the full lift apart; a valve that
 * is stuck closed has neither.  WIDE has no effect of its own.  The burner's orifice is far
 * narrower than the seat, so the flow falls steeply within the last tenths of the lift; a step
 * must begin there rather than pass over them. */
static double
guard (const HobPartContext *c, int k)
{
  if (k == WIDE)
    return c->mode[WIDE] > 0 ? 0.6 - lift (c) : lift (c) - 0.65;
  if (k == BURNED)
    return c->mode[BURNED] > 0 ? -1 : c->y[ARM] - MELTS;
  if (c->set[STUCK] > 0)
    return c->mode[LIFTED] > 0 ? 1 : -1;
  return c->mode[LIFTED] > 0 ? -0.05 - lift (c) : lift (c);
}

static const guint8 guard_reads[N_MODES]
    = { HOB_READS_NOTHING, HOB_READS_NOTHING, HOB_READS_NOTHING };

static void
flip (const HobPartContext *c, int k, double *y)
{
  hob_mode_toggle (c, k);
}

/* K at which the arm begins to open. */
static double
opens_at (const HobPartContext *c)
{
  return REFERENCE + c->set[OPENS];
}

/* A that hold the arm there in the long run: i = √(G·(T − T_c)/R). */
static double
holds_at (const HobPartContext *c)
{
  double rise = opens_at (c) - c->within[HOB_PLACE_COMPARTMENT];

  return sqrt (MAX (rise, 0) * c->set[CONDUCTANCE] / c->set[HEATER_OHMS]);
}

static const HobLinkDef links[] = {
  { .from = Q_CURRENT, .to = Q_ARM, .words = N_ ("The current through the valve is %s.") },
  { .from = Q_ARM, .to = Q_OPENING, .words = N_ ("The bimetal is at %s."),
    .at = N_ ("valve opens at %s"), .limit = opens_at },
  { .from = Q_CURRENT, .to = HOB_LINK_MODE (LIFTED), .value = 1,
    .words = N_ ("The current through the valve is %s."), .at = N_ ("valve opens at %s"),
    .limit = holds_at },
  { .from = Q_OPENING, .to = Q_FLOW, .words = N_ ("The valve is %s open.") },
};

static double
observe (const HobPartContext *c, int quantity)
{
  switch (quantity)
    {
    case Q_OPENING: return opening (c);
    case Q_VOLTS: return hob_volts_across (c, A, B);
    case Q_CURRENT: return hob_complex_abs (c->i[0]);
    case Q_FLOW: return c->q[0];
    default: return c->y[ARM];
    }
}

/* Counted from the room's temperature: a cold valve fitted in its place brings no heat along. */
static double
stored_heat (const HobPartContext *c)
{
  return capacity (c) * (c->y[ARM] - c->house->temperature);
}

/* Angle of the arm, rad: 8° by the time it begins to open, 8° more to full lift. */
static double
arm_angle (const HobPartView *view)
{
  const double per_step = 8 * G_PI / 180;
  double warm = CLAMP ((view->y[ARM] - REFERENCE) / view->set[OPENS], 0, 1);

  return per_step * (warm + view->quantity[Q_OPENING]);
}

/* The arm of @reach px, fixed at x, y, and the mark that it passes as the valve begins to open. */
static void
draw_arm (HobPen *pen, const HobPartView *view, double x, double y, double reach, HobRole role)
{
  const double opens = 8 * G_PI / 180;

  if (view->layer == HOB_LAYER_PAPER)
    {
      double tip_x = x + reach + 4, tip_y = y - reach * sin (opens);

      pen_rect (pen, x - 4, y - 5, 8, 10);
      pen_fill (pen, role);
      pen_move (pen, tip_x, tip_y);
      pen_line (pen, tip_x + 8, tip_y - 4);
      pen_line (pen, tip_x + 8, tip_y + 4);
      pen_close (pen);
      pen_fill (pen, role);
      return;
    }
  double angle = arm_angle (view);

  pen_segment (pen, x, y, x + reach * cos (angle), y - reach * sin (angle));
  pen_stroke (pen, role, 3);
}

static void
draw_wiring (HobPen *pen, const HobPartView *view)
{
  if (view->layer == HOB_LAYER_PAPER)
    hob_symbol_resistor (pen, 64, 18, 60);
  else if (heater_open (view->set, view->mode))
    {
      pen_segment (pen, -6, 12, 6, -12);
      pen_stroke (pen, HOB_ROLE_INK, HOB_OUTLINE);
    }
  draw_arm (pen, view, -36, -18, 70, HOB_ROLE_INK);
}

/* ISO 14617: two triangles tip to tip; the gate between them turns out of the way. */
static void
draw_gas (HobPen *pen, const HobPartView *view)
{
  if (view->layer == HOB_LAYER_PAPER)
    {
      hob_symbol_tube (pen, -60, -30, 0);
      hob_symbol_tube (pen, 30, 60, 0);
      pen_move (pen, -30, -16);
      pen_line (pen, 30, 16);
      pen_line (pen, 30, -16);
      pen_line (pen, -30, 16);
      pen_close (pen);
      pen_fill_stroke (pen, HOB_ROLE_PANEL, HOB_ROLE_INK, HOB_OUTLINE);
    }
  else
    {
      double angle = G_PI / 2 * (1 - view->quantity[Q_OPENING]);

      pen_segment (pen, -14 * cos (angle), 14 * sin (angle), 14 * cos (angle), -14 * sin (angle));
      pen_stroke (pen, view->quantity[Q_OPENING] > 0 ? HOB_ROLE_GAS : HOB_ROLE_INK, 3);
    }
  draw_arm (pen, view, -36, -26, 66, HOB_ROLE_INK);
}

static void
draw_cutaway (HobPen *pen, const HobPartView *view)
{
  if (view->layer == HOB_LAYER_PAPER)
    {
      pen_rect (pen, -58, -38, 116, 76);
      pen_fill_stroke (pen, HOB_ROLE_PANEL, HOB_ROLE_INK, HOB_OUTLINE);
      pen_rect (pen, -30, -2, 60, 12); /* the heater under the arm */
      pen_stroke (pen, HOB_ROLE_INK, HOB_DETAIL);
    }
  draw_arm (pen, view, -44, -10, 76, HOB_ROLE_INK);
}

static void
draw (HobPen *pen, const HobPartView *view)
{
  static void (*const of_sheet[HOB_N_SHEETS]) (HobPen *, const HobPartView *)
      = { [HOB_SHEET_WIRING] = draw_wiring,
          [HOB_SHEET_GAS] = draw_gas,
          [HOB_SHEET_CUTAWAY] = draw_cutaway };

  of_sheet[view->sheet](pen, view);
}

#define COMMON                                                                                     \
  .hazards = HOB_HAZARD (NO_BYPASS),                                                               \
  HOB_TABLE (terminals, terminals),                                                                \
  HOB_TABLE (ports, ports),                                                                        \
  HOB_TABLE (states, states),                                                                      \
  HOB_TABLE (modes, modes),                                                                        \
  HOB_TABLE (elements, elements),                                                                  \
  HOB_TABLE (ducts, ducts),                                                                        \
  HOB_TABLE (quantities, quantities),                                                              \
  HOB_TABLE (links, links),                                                                        \
  .n_guards = N_MODES,                                                                             \
  .guard_reads = guard_reads,                                                                      \
  .symbol = { [HOB_SHEET_WIRING] = { 120, 80 },                                                    \
              [HOB_SHEET_GAS] = { 120, 80 },                                                       \
              [HOB_SHEET_CUTAWAY] = { 120, 80 } },                                                 \
  .figure = Q_VOLTS,                                                                               \
  .opening = 1 + Q_OPENING,                                                                        \
  .start = start,                                                                                  \
  .conduct = conduct,                                                                              \
  .flow = flow,                                                                                    \
  .rates = rates,                                                                                  \
  .guard = guard,                                                                                  \
  .flip = flip,                                                                                    \
  .observe = observe,                                                                              \
  .stored_heat = stored_heat,                                                                      \
  .draw = draw

const HobKind hob_kind_valve_safety = {
  .name = "valve-safety",
  .label = N_ ("oven safety valve"),
  .about = N_ ("A bimetal holds the valve closed. The igniter's own current heats it, so only "
               "an igniter hot enough to light the gas opens the valve."),
  COMMON,
  HOB_TABLE (settings, flat_settings),
  HOB_TABLE (faults, flat_faults),
};

const HobKind hob_kind_valve_safety_round = {
  .name = "valve-safety-round",
  .label = N_ ("safety valve for a round igniter"),
  .about = N_ ("An oven safety valve made for a round igniter, which draws less current than a "
               "flat one. The valve opens at a lower amp draw than a flat igniter's valve."),
  COMMON,
  HOB_TABLE (settings, round_settings),
  HOB_TABLE (faults, round_faults),
};

const HobKind hob_kind_valve_dual = {
  .name = "valve-dual",
  .label = N_ ("one side of a dual oven safety valve"),
  .about = N_ ("Bake and broil each have their own bimetal and heater in one valve body. Both "
               "get gas from one inlet."),
  .flags = HOB_KIND_ONE_BODY,
  COMMON,
  HOB_TABLE (settings, flat_settings),
  HOB_TABLE (faults, flat_faults),
};
