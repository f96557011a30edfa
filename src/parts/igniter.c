/* SPDX-License-Identifier: GPL-3.0-or-later */

/* Silicon carbide igniter, in series with the bimetal heater of its safety valve.
 *
 *   C dT/dt = i²R(T) − εσA(T⁴ − Tₐ⁴) − hA(T − Tₐ)
 *   R(T)    = s·R_min·(1 + 1.2e-4·max(T − 1073 K, 0)) + s·(R_cold − R_min)·exp(−(T − 293 K)/170 K)
 *
 * s is the resistance factor, which age raises.  Units differ from one another: R_cold by a
 * log-normal factor (σ 0.4) that has nothing to do with age, so cold ohms find an open igniter and
 * never a weak one; C by σ 0.1, since the bars differ in thickness; and s by σ 0.01 around 1, but
 * never by more than 0.7% upward, since an igniter that draws too little on its first test is not
 * shipped, and another takes its place.
 *
 * Its leads end in a harness plug (plug.h), on the line side.  A lead can chafe through to the
 * chassis: before the element it shorts the line, behind it the element gets the whole voltage and
 * the valve none.  Above 3,000 °F the element cracks and is open from then on: the film of silica
 * that protects it melts a little above that (3,110 °F, from memory).  It takes some 170 V.  The
 * figures are this project's invention for a believable appliance, from common practice; no
 * published source.
 */

#include "base/i18n.h"
#include "parts/plug.h"
#include "parts/symbol.h"
#include "physics/material.h"

#include <math.h>

enum { A, B, BEHIND_PLUG };
enum { RESISTANCE_FACTOR, R_HOT, R_COLD, HEAT_CAPACITY, AREA, OFFSET, BROKEN, CHAFED_A, CHAFED_B,
       PLUG };
enum { TEMPERATURE, JOINT, CHAFED_JOINT = JOINT + HOB_JOINT_N_STATES,
       BROWN = CHAFED_JOINT + HOB_JOINT_N_STATES };
enum { E_ELEMENT, E_PLUG, E_CHAFED_A, E_CHAFED_B };
enum { Q_CURRENT, Q_TEMPERATURE, Q_VOLTS, Q_GLOW, Q_JOINT };

#define EMISSIVITY 0.9
#define CONVECTION 15.0 /* W/m²K */
#define COLD_SCATTER 0.4
#define CAPACITY_SCATTER 0.1
#define FACTOR_SCATTER 0.01
#define FACTOR_MOST 0.007 /* upward */
#define CRACKS HOB_DEGF (3000)
#define PLUG_SHARE 0.25 /* of the way from the air behind the oven to that in it; invented */

/* Counts for hob_specimen_normal. */
enum { COLD_CHANCE, CAPACITY_CHANCE, FACTOR_CHANCE };

static const HobTerminalDef terminals[] = {
  { .name = "a", .words = N_ ("line side"), .required = TRUE, .x = -60 },
  { .name = "b", .words = N_ ("valve side"), .required = TRUE, .x = 60 },
  { .name = "lead", .inner = TRUE, .words = N_ ("igniter side of the harness plug"),
    .x = -60 },
};

static const HobElementDef elements[] = {
  [E_ELEMENT] = { .name = "element", .a = BEHIND_PLUG, .b = B, .varies = TRUE },
  [E_PLUG] = { .name = "plug", .a = A, .b = BEHIND_PLUG },
  [E_CHAFED_A] = { .name = "chafed, line side", .a = BEHIND_PLUG, .b = HOB_BODY },
  [E_CHAFED_B] = { .name = "chafed, valve side", .a = B, .b = HOB_BODY },
};

/* Where the line lead touches the chassis. */
static const HobJoint chafed
    = { .ohms = CHAFED_A, .states = CHAFED_JOINT, .brown = BROWN, .contact = TRUE, .bare = TRUE };
static const HobPlug plug = {
  .settings = PLUG,
  .joint = { .ohms = PLUG, .states = JOINT, .brown = BROWN, .burned = TRUE },
};

/* Of each element: ohms hot and cold, J/K, m². */
#define FLAT_HOT 31.0
#define FLAT_COLD 95.0
#define FLAT_CAPACITY 5.5
#define FLAT_AREA 10.5e-4
#define ROUND_HOT 39.9
#define ROUND_COLD 150.0
#define ROUND_CAPACITY 4.8
#define ROUND_AREA 8.3e-4

#define CHAFED(id)                                                                                 \
  {                                                                                                \
    .name = id, .words = "Resistance from this lead to the chassis.", .dim = HOB_DIM_RESISTANCE,   \
    .normal = INFINITY, .high = INFINITY, .condition = TRUE                                        \
  }

#define SETTINGS(hot, cold, capacity, area)                                                        \
  {                                                                                                \
    { .name = "resistance-factor",                                                                 \
      .words = N_ ("Igniter resistance compared with a new igniter's. It rises with age."),        \
      .normal = 1.0,                                                                               \
      .low = 0.5, .high = 10.0 },                                                                  \
    { .name = "hot-ohms", .words = N_ ("Resistance of a new igniter when hot."),                   \
      .dim = HOB_DIM_RESISTANCE, .normal = hot, .low = 5, .high = 500 },                           \
    { .name = "cold-ohms", .words = N_ ("Resistance of a typical igniter at 68 °F."),              \
      .dim = HOB_DIM_RESISTANCE, .normal = cold, .low = 10, .high = 2000 },                        \
    { .name = "heat-capacity", .words = N_ ("Heat capacity of the part, in J/K."),                 \
      .normal = capacity,                                                                          \
      .low = 0.5, .high = 100 },                                                                   \
    { .name = "surface", .words = N_ ("Surface area that radiates heat, in m²."),                  \
      .normal = area, .low = 1e-5,                                                                 \
      .high = 0.1, .visible = 1e-4 }, /* a bar, or a spiral */                                     \
    { .name = "offset",                                                                            \
      .words = N_ ("How far the igniter is out of place at the burner, from 0 (in place) to 1 "    \
                   "(completely out)."),                                                           \
      .high = 1, .condition = TRUE, .visible = 0.2 },                                              \
    { .name = "broken", .words = N_ ("Enter 1 if the igniter element is open."), .high = 1,        \
      .condition = TRUE },                                                                         \
    CHAFED ("line-side-to-chassis"), CHAFED ("valve-side-to-chassis"), HOB_PLUG_SETTINGS,          \
  }

static const HobSettingDef flat_settings[]
    = SETTINGS (FLAT_HOT, FLAT_COLD, FLAT_CAPACITY, FLAT_AREA);
static const HobSettingDef round_settings[]
    = SETTINGS (ROUND_HOT, ROUND_COLD, ROUND_CAPACITY, ROUND_AREA);

static const HobStateDef states[] = {
  { .name = "temperature", .words = "temperature", .dim = HOB_DIM_TEMPERATURE,
    .tolerance = 0.5 },
  HOB_JOINT_STATES,
  HOB_JOINT_STATES,
  HOB_JOINT_BROWN_STATE,
};

static const char *const cracked_words[]
    = { N_ ("igniter element works again"), N_ ("igniter element cracks"), NULL };

static const HobModeDef modes[] = {
  HOB_PLUG_MODES,
  { .name = "cracked", .words = cracked_words },
};
enum { CRACKED = HOB_PLUG_N_MODES };
enum { G_CRACKS = HOB_PLUG_N_GUARDS, N_GUARDS };

static const HobQuantityDef quantities[] = {
  { .name = "current", .words = N_ ("current"), .dim = HOB_DIM_CURRENT, .trace = 2 },
  { .name = "temperature", .words = N_ ("temperature"), .dim = HOB_DIM_TEMPERATURE,
    .out_of_reach = TRUE,
    .says = N_ ("The igniter is at %s.") },
  { .name = "volts", .words = N_ ("voltage across the igniter"), .dim = HOB_DIM_VOLTAGE },
  { .name = "glow", .words = N_ ("glow"), .dim = HOB_DIM_TEMPERATURE,
    .say = HOB_SAY_GLOW, .sense = HOB_SENSE_EYE },
  HOB_JOINT_QUANTITIES,
};

/* All but the last one, which is the other igniter fitted in place of this. */
#define SHARED_FAULTS                                                                              \
  {                                                                                                \
    .id = "aged",                                                                                  \
    .words = N_ ("weak igniter"),                                                                  \
    /* Translators: than a new igniter has. */                                                     \
    .severity_words = N_ ("%s more resistance"),                                                   \
    .typical = 0.5,                                                                                \
    .prior = 30,                                                                                   \
    .basis = "the most frequent oven failure",                                                     \
    .proof = N_ ("Put a clamp meter on one igniter wire and turn the oven on. Watch it for a "     \
                 "minute. The amps stay below what the valve needs to open, even with full line "  \
                 "voltage at the harness."),                                                       \
    .confirm = HOB_MEANS (AMPS) | HOB_MEANS (LIVE_VOLTS),                                          \
    HOB_EFFECTS ({ .setting = RESISTANCE_FACTOR, .how = HOB_EFFECT_MULTIPLY, .at0 = 1.0,           \
                   .at1 = 1.6 }),                                                                  \
  },                                                                                               \
  {                                                                                                \
    .id = "open",                                                                                  \
    .words = N_ ("igniter open"),                                                                  \
    .prior = 10,                                                                                   \
    .proof = N_ ("Read the volts across the igniter. There is line voltage, but no glow. Unplug "  \
                 "the range; the igniter reads OL."),                                              \
    .confirm = HOB_MEANS (LIVE_VOLTS) | HOB_MEANS (OHMS),                                          \
    HOB_EFFECTS ({ .setting = BROKEN, .at1 = 1 }),                                                 \
  },                                                                                               \
  {                                                                                                \
    .id = "out-of-place",                                                                          \
    .words = N_ ("igniter out of place"),                                                          \
    .severity_words = N_ ("igniter %s of the way out of the gas stream"),                          \
    .typical = 0.8,                                                                                \
    .prior = 3,                                                                                    \
    .basis = "after a bracket has broken or a part was changed",                                   \
    .proof = N_ ("Look at the igniter. It's too far from the first burner ports. It draws full "   \
                 "amps, and gas flows, but the burner lights late."),                              \
    .confirm = HOB_MEANS (INSPECT_INSIDE) | HOB_MEANS (AMPS),                                      \
    .hazards = HOB_HAZARD (GAS_GATHERED) | HOB_HAZARD (STOP_USING),                                \
    HOB_EFFECTS ({ .setting = OFFSET, .how = HOB_EFFECT_ADD, .at1 = 1 }),                          \
  },                                                                                               \
  {                                                                                                \
    .id = "plug-burned",                                                                           \
    .words = N_ ("igniter harness plug burned"),                                                   \
    .severity_words = N_ ("%s of resistance across the plug contact when hot"),                    \
    .typical = 0.08,                                                                               \
    .prior = 3,                                                                                    \
    .basis = "it carries 3 A for hours, near the heat",                                            \
    .proof = N_ ("With the igniter on, read the voltage drop across each contact of the igniter "  \
                 "harness plug. More than 1 V at 3 A is bad."),                                    \
    .confirm = HOB_MEANS (VOLTAGE_DROP),                                                           \
    .hazards = HOB_HAZARD (STOP_USING),                                                            \
    HOB_EFFECTS ({ .setting = PLUG + HOB_PLUG_OHMS, .how = HOB_EFFECT_ADD, .at1 = 14 }),           \
  },                                                                                               \
  {                                                                                                \
    .id = "plug-opens-hot",                                                                        \
    .words = N_ ("igniter harness plug loses contact when hot"),                                   \
    /* Translators: a temperature. */                                                              \
    .severity_words = N_ ("opens at %s"),                                                          \
    .typical = 0.5,                                                                                \
    .prior = 2,                                                                                    \
    .basis = "a terminal that has lost its spring",                                                \
    .proof = N_ ("With the range unplugged, clip the meter leads to the two sides of one "         \
                 "contact in the igniter harness plug. Plug the range in and turn the oven on. "   \
                 "The meter reads almost 0 V while the igniter glows. When the contact heats up "  \
                 "and opens, the igniter goes dark and the meter reads line voltage."),            \
    .confirm = HOB_MEANS (LIVE_VOLTS),                                                             \
    .hazards = HOB_HAZARD (STOP_USING),                                                            \
    HOB_EFFECTS ({ .setting = PLUG + HOB_PLUG_OPENS_AT, .at0 = 343, .at1 = 318 }),                 \
  },                                                                                               \
  {                                                                                                \
    .id = "plug-loose",                                                                            \
    .words = N_ ("igniter harness plug loose"),                                                    \
    /* Translators: how loose a harness plug is, as a percentage. */                               \
    .severity_words = N_ ("contacts have lost %s of their grip"),                                  \
    .typical = 0.5,                                                                                \
    .prior = 2,                                                                                    \
    .proof = N_ ("Unplug the range. Read ohms through the harness plug while you move its "        \
                 "wires. Continuity comes and goes; it should be steady."),                        \
    .confirm = HOB_MEANS (HAND) | HOB_MEANS (CONTINUITY),                                          \
    .hazards = HOB_HAZARD (GAS_GATHERED),                                                          \
    HOB_EFFECTS ({ .setting = PLUG + HOB_PLUG_LOOSE, .at0 = 0.1, .at1 = 1 }),                      \
  },                                                                                               \
  {                                                                                                \
    .id = "plug-opens-slammed",                                                                    \
    .words = N_ ("igniter harness plug loses contact when the door is slammed"),                   \
    .prior = 1,                                                                                    \
    .proof = N_ ("With the range unplugged, clip one meter lead to each side of the contact in "   \
                 "the igniter harness plug. Plug the range in and turn the oven on. Slam the "     \
                 "door while the igniter glows. The igniter goes dark, and the meter reads line "  \
                 "voltage."),                                                                      \
    .confirm = HOB_MEANS (LOOK) | HOB_MEANS (LIVE_VOLTS),                                          \
    .hazards = HOB_HAZARD (GAS_GATHERED),                                                          \
    HOB_EFFECTS ({ .setting = PLUG + HOB_PLUG_SLAMS, .at1 = 1 }),                                  \
  },                                                                                               \
  {                                                                                                \
    .id = "line-lead-chafed",                                                                      \
    .words = N_ ("igniter line lead chafed against the chassis"),                                  \
    .severity_words = N_ ("%s of resistance from the lead to the chassis"),                        \
    .prior = 1,                                                                                    \
    .basis = "a lead over a sheet metal edge",                                                     \
    .proof = N_ ("Unplug the range. Read ohms from the igniter's line lead to the chassis. The "   \
                 "meter shows a resistance; it should read OL."),                                  \
    .confirm = HOB_MEANS (OHMS) | HOB_MEANS (LEAKAGE),                                             \
    .hazards = HOB_HAZARD (STOP_USING) | HOB_HAZARD (GAS_GATHERED),                                \
    HOB_EFFECTS ({ .setting = CHAFED_A, .at0 = 20, .at1 = 0.05, .geometric = TRUE }),              \
  },                                                                                               \
  {                                                                                                \
    .id = "valve-lead-chafed",                                                                     \
    .words = N_ ("lead between igniter and valve chafed against the chassis"),                     \
    .severity_words = N_ ("%s of resistance from the lead to the chassis"),                        \
    .prior = 1,                                                                                    \
    .basis = "a lead over a sheet metal edge",                                                     \
    .proof = N_ ("Read the amps at the igniter and at the valve. They should be the same. Here "   \
                 "the igniter draws full amps, but the valve draws almost none."),                 \
    .confirm = HOB_MEANS (AMPS) | HOB_MEANS (LEAKAGE),                                             \
    .hazards = HOB_HAZARD (STOP_USING) | HOB_HAZARD (GAS_GATHERED),                                \
    HOB_EFFECTS ({ .setting = CHAFED_B, .at0 = 20, .at1 = 0.05, .geometric = TRUE }),              \
  }

static const HobFaultDef flat_faults[] = {
  SHARED_FAULTS,
  {
    .id = "wrong-kind",
    .words = N_ ("round igniter installed in place of a flat one"),
    .prior = 2,
    .basis = "after a repair elsewhere",
    .proof = N_ ("Check the igniter's shape and part number. It's round, but the range needs a "
                 "flat one. The amp draw is that of a round igniter."),
    .confirm = HOB_MEANS (INSPECT_INSIDE) | HOB_MEANS (AMPS),
    HOB_EFFECTS ({ .setting = R_HOT, .at1 = ROUND_HOT }, { .setting = R_COLD, .at1 = ROUND_COLD },
                 { .setting = HEAT_CAPACITY, .at1 = ROUND_CAPACITY },
                 { .setting = AREA, .at1 = ROUND_AREA }),
  },
};

static const HobFaultDef round_faults[] = {
  SHARED_FAULTS,
  {
    .id = "wrong-kind",
    .words = N_ ("flat igniter installed in place of a round one"),
    .prior = 2,
    .basis = "after a repair elsewhere",
    .proof = N_ ("Check the igniter's shape and part number. It's flat, but the range needs a "
                 "round one. The amp draw is that of a flat igniter."),
    .confirm = HOB_MEANS (INSPECT_INSIDE) | HOB_MEANS (AMPS),
    HOB_EFFECTS ({ .setting = R_HOT, .at1 = FLAT_HOT }, { .setting = R_COLD, .at1 = FLAT_COLD },
                 { .setting = HEAT_CAPACITY, .at1 = FLAT_CAPACITY },
                 { .setting = AREA, .at1 = FLAT_AREA }),
  },
};

static gboolean
element_open (const double *set, const double *mode)
{
  return set[BROKEN] > 0 || mode[CRACKED] > 0;
}

static double
ohms (const HobPartContext *c)
{
  double r_cold = c->set[R_COLD] * hob_specimen_factor (c, COLD_SCATTER, COLD_CHANCE);
  double off = FACTOR_SCATTER * hob_specimen_normal (c, FACTOR_CHANCE);
  double unit = off != 0 ? exp (off > FACTOR_MOST ? -off : off) : 1;

  if (element_open (c->set, c->mode))
    return INFINITY;
  return hob_igniter_resistance (c->set[RESISTANCE_FACTOR] * unit, c->set[R_HOT], r_cold,
                                 c->y[TEMPERATURE]);
}

/* J/K. */
static double
capacity (const HobPartContext *c)
{
  return c->set[HEAT_CAPACITY] * hob_specimen_factor (c, CAPACITY_SCATTER, CAPACITY_CHANCE);
}

static double
power (const HobPartContext *c)
{
  return element_open (c->set, c->mode) ? 0 : hob_complex_abs2 (c->i[0]) * ohms (c);
}

static double
loss (const HobPartContext *c)
{
  return hob_surface_loss (c->set[AREA], EMISSIVITY, CONVECTION, c->y[TEMPERATURE],
                           c->within[HOB_PLACE_AIR]);
}

static void
start (const HobPartContext *c, double *y)
{
  y[TEMPERATURE] = c->house->temperature;
  hob_joint_start (c, &plug.joint, y);
  hob_joint_start (c, &chafed, y);
}

static void
conduct (const HobPartContext *c)
{
  c->g[E_ELEMENT] = hob_siemens (ohms (c));
  c->g[E_PLUG] = hob_siemens (hob_plug_ohms (c, &plug));
  c->g[E_CHAFED_A] = hob_siemens (hob_joint_ohms (c, &chafed));
  c->g[E_CHAFED_B] = hob_siemens (c->set[CHAFED_B]);
}

/* K around the plug: it lies behind the oven's wall, nearer to it than the valves. */
static double
at_plug (const HobPartContext *c)
{
  double behind = c->within[HOB_PLACE_COMPARTMENT];

  return behind + PLUG_SHARE * (c->within[HOB_PLACE_AIR] - behind);
}

static void
rates (const HobPartContext *c)
{
  double out = loss (c), in = power (c);

  c->dy[TEMPERATURE] = (in - out) / capacity (c);
  c->within[HOB_PLACE_HEAT] += out;
  c->within[HOB_PLACE_HOT] = fmax (c->within[HOB_PLACE_HOT], c->y[TEMPERATURE]);
  c->within[HOB_PLACE_GLOW_SHOWN] = fmax (c->within[HOB_PLACE_GLOW_SHOWN], c->y[TEMPERATURE]);
  c->within[HOB_PLACE_SPARK_OFFSET] = fmax (c->within[HOB_PLACE_SPARK_OFFSET], c->set[OFFSET]);
  c->ledger[HOB_LEDGER_HEAT_IN] += in;
  hob_joint_rates (c, &plug.joint, E_PLUG, at_plug (c));
  hob_joint_rates (c, &chafed, E_CHAFED_A, c->within[HOB_PLACE_COMPARTMENT]);
}

static double
guard (const HobPartContext *c, int k)
{
  if (k == G_CRACKS)
    return c->mode[CRACKED] > 0 ? -1 : c->y[TEMPERATURE] - CRACKS;
  return hob_plug_guard (c, &plug, k);
}

static void
flip (const HobPartContext *c, int k, double *y)
{
  if (k == G_CRACKS)
    c->mode[CRACKED] = 1;
  else
    hob_plug_flip (c, &plug, k);
}

static const HobLinkDef links[] = {
  { .from = Q_VOLTS, .to = Q_CURRENT, .words = N_ ("The voltage across the igniter is %s.") },
  { .from = Q_CURRENT, .to = Q_TEMPERATURE,
    .words = N_ ("The current through the igniter is %s.") },
  HOB_JOINT_LINKS (Q_JOINT),
};

/* What the worse of its two connections shows. */
static double
connection (const HobPartContext *c, int which)
{
  return MAX (hob_joint_observe (c, &plug.joint, E_PLUG, which),
              hob_joint_observe (c, &chafed, E_CHAFED_A, which));
}

static double
observe (const HobPartContext *c, int quantity)
{
  switch (quantity)
    {
    case Q_CURRENT: return hob_complex_abs (c->i[0]);
    case Q_VOLTS: return hob_volts_across (c, A, B);
    case Q_TEMPERATURE:
    case Q_GLOW: return c->y[TEMPERATURE];
    default: return connection (c, quantity - Q_JOINT);
    }
}

/* Counted from the room's temperature, so that another kind of igniter, put in cold, adds no
 * heat. */
static double
stored_heat (const HobPartContext *c)
{
  return capacity (c) * (c->y[TEMPERATURE] - c->house->temperature)
         + hob_joint_stored (c, &plug.joint) + hob_joint_stored (c, &chafed);
}

/* Wiring: a resistor's box that fills with the element's glow. */
static void
draw_wiring (HobPen *pen, const HobPartView *view)
{
  if (view->layer == HOB_LAYER_PAPER)
    {
      hob_symbol_resistor (pen, 84, 24, 60);
      return;
    }
  if (!element_open (view->set, view->mode))
    {
      pen_rect (pen, -40, -10, 80, 20);
      pen_glow (pen, view->y[TEMPERATURE]);
      return;
    }
  pen_segment (pen, -6, -16, 6, 16);
  pen_stroke (pen, HOB_ROLE_INK, HOB_OUTLINE);
}

/* Cutaway: the bar in its ceramic holder. */
static void
draw_cutaway (HobPen *pen, const HobPartView *view)
{
  if (view->layer == HOB_LAYER_PAPER)
    {
      pen_rect (pen, 20, -10, 20, 20);
      pen_fill_stroke (pen, HOB_ROLE_CAVITY, HOB_ROLE_CAVITY_INK, HOB_DETAIL);
    }
  pen_rect (pen, -38, -6, 58, 12);
  if (view->layer == HOB_LAYER_PAPER)
    pen_fill_stroke (pen, HOB_ROLE_CAVITY, HOB_ROLE_CAVITY_INK, HOB_DETAIL);
  else
    pen_glow (pen, view->y[TEMPERATURE]);
}

#define TURNS 6
#define PITCH 9.0 /* px from one turn of the spiral to the next */

/* Cutaway: a tube of silicon carbide, cut into a spiral, in the same holder. */
static void
draw_spiral (HobPen *pen, const HobPartView *view)
{
  if (view->layer == HOB_LAYER_PAPER)
    {
      pen_rect (pen, 20, -10, 20, 20);
      pen_fill_stroke (pen, HOB_ROLE_CAVITY, HOB_ROLE_CAVITY_INK, HOB_DETAIL);
    }
  pen_move (pen, 20, -9);
  pen_line (pen, -30, -9);
  pen_curve (pen, -41, -9, -41, 9, -30, 9);
  pen_line (pen, 20, 9);
  pen_close (pen);
  if (view->layer == HOB_LAYER_PAPER)
    pen_fill_stroke (pen, HOB_ROLE_CAVITY, HOB_ROLE_CAVITY_INK, HOB_DETAIL);
  else
    pen_glow (pen, view->y[TEMPERATURE]);
  for (int k = 0; k < TURNS; k++)
    pen_segment (pen, -32 + PITCH * k, 9, -26 + PITCH * k, -9);
  pen_stroke (pen, view->layer == HOB_LAYER_PAPER ? HOB_ROLE_CAVITY_INK : HOB_ROLE_CAVITY,
              HOB_DETAIL);
}

static void
draw_flat (HobPen *pen, const HobPartView *view)
{
  if (view->sheet == HOB_SHEET_WIRING)
    draw_wiring (pen, view);
  else
    draw_cutaway (pen, view);
}

static void
draw_round (HobPen *pen, const HobPartView *view)
{
  if (view->sheet == HOB_SHEET_WIRING)
    draw_wiring (pen, view);
  else
    draw_spiral (pen, view);
}

#define COMMON                                                                                     \
  .flags = HOB_KIND_IGNITER,                                                                       \
  .means = HOB_MEANS (INSPECT_INSIDE),                                                             \
  .may_be_in = HOB_ROOM_OVEN_BURNER | HOB_ROOM_KITCHEN,                                            \
  .hazards = HOB_HAZARD (HOT_IGNITER),                                                             \
  HOB_TABLE (terminals, terminals),                                                                \
  HOB_TABLE (states, states),                                                                      \
  HOB_TABLE (modes, modes),                                                                        \
  HOB_TABLE (elements, elements),                                                                  \
  HOB_TABLE (quantities, quantities),                                                              \
  HOB_TABLE (links, links),                                                                        \
  .symbol = { [HOB_SHEET_WIRING] = { 120, 40 }, [HOB_SHEET_CUTAWAY] = { 80, 40 } },                \
  .figure = Q_CURRENT,                                                                             \
  .start = start,                                                                                  \
  .n_guards = N_GUARDS,                                                                            \
  .conduct = conduct,                                                                              \
  .rates = rates,                                                                                  \
  .guard = guard,                                                                                  \
  .flip = flip,                                                                                    \
  .observe = observe,                                                                              \
  .stored_heat = stored_heat

const HobKind hob_kind_igniter_flat = {
  .name = "igniter-flat",
  .label = N_ ("flat igniter"),
  .about = N_ ("A bar of silicon carbide in series with the oven safety valve. As it heats up, "
               "it draws more current, and that opens the valve. The hot bar then lights the "
               "gas."),
  COMMON,
  HOB_TABLE (settings, flat_settings),
  HOB_TABLE (faults, flat_faults),
  .draw = draw_flat,
};

const HobKind hob_kind_igniter_round = {
  .name = "igniter-round",
  .label = N_ ("round igniter"),
  .about = N_ ("A spiral of silicon carbide. It works like a flat igniter but draws less "
               "current. It needs a valve that opens at a lower current."),
  COMMON,
  HOB_TABLE (settings, round_settings),
  HOB_TABLE (faults, round_faults),
  .draw = draw_round,
};
