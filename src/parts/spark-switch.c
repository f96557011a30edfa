/* SPDX-License-Identifier: GPL-3.0-or-later */

/* Spark switch on the stem of a surface burner's valve: closed from 20° to 70° of the stem's
 * 270°, on the way on and on the way back.  With a reignition module it is closed in every
 * position but OFF.
 *
 * A spill leaves a film between its contacts that conducts:
 *
 *   1/R = m^1.5 · w(t)/R_film + 1/R_residue
 *   dm/dt = −k·(a·p_sat(T_s) − RH·p_sat(T_room)),   a = m/(m + s),   T_s = T_room + θ·h·V²/R
 *
 * m is the water left (1: just spilled), w a factor that wanders (log-normal, σ 0.4, a knot
 * every 3 s, from the seed), so that the sparks are uneven.  k lets it dry in about 3½ h at 22
 * °C and 50%.  s is the sugar or salt that stays, as a share of the water it came in.
 * Dissolved, it lowers the water's vapor pressure to the share a (Raoult's law), so the film
 * comes to rest at m = s·RH/(1 − RH), and damp air brings back what dry air took.  V is the share
 * of the line's frequency in the drop; what a module takes comes in the peaks of every other half
 * wave, which heat h = 3 times as much (2.9 to 3.3 by the cell's own course).  A film can
 * also reach the stem, which is grounded to the chassis.  Figures invented for a believable
 * appliance. */

#include "base/hash.h"
#include "base/i18n.h"
#include "parts/symbol.h"
#include "physics/material.h"

#include <math.h>

enum { A, B };
enum { STUCK, OPEN, WET, FILM_OHMS, RESIDUE_OHMS, RESIDUE, STEM_OHMS, CLOSED };
enum { AT_LIGHT, AT_ON };
enum { E_CONTACT, E_STEM };
enum { WATER };
enum { CONTACT, WETTED };
enum { G_CONTACT, G_WETTED, N_GUARDS };
enum { Q_CONTACT, Q_WATER, Q_FILM };

#define TRAVEL 270.0               /* degrees of the stem at 100% */
#define CLOSES (100 * 20 / TRAVEL) /* % */
#define OPENS (100 * 70 / TRAVEL)  /* % */
#define DRYING 5.5e-8              /* k, 1/(s Pa) */
#define WARMING 60.0               /* θ, K/W */
#define PEAKS 3.0                  /* h */
#define LAST_WATER 0.01            /* the last of it clings */
#define BOILS 75.0                 /* K above the room at most: there it boils off */
#define WANDER 0.4                 /* σ of the log of w */
#define KNOT 3.0                   /* s */
#define WANDER_COUNT (1 << 20)     /* first hash number of the knots */

static const HobTerminalDef terminals[] = {
  { .name = "a", .words = N_ ("line side"), .required = TRUE, .x = -40 },
  { .name = "b", .words = N_ ("module side"), .required = TRUE, .x = 40 },
};

static const char *const closed_where[] = { "light", "on", NULL };

static const HobSettingDef settings[] = {
  { .name = "stuck", .words = "1: the contact stays closed.", .high = 1, .condition = TRUE },
  { .name = "open", .words = "1: the contact never closes.", .high = 1, .condition = TRUE },
  { .name = "wet", .words = "1: something was spilt into it.", .high = 1, .condition = TRUE },
  { .name = "film-ohms", .words = "Resistance of the film of a spill, just spilt.",
    .dim = HOB_DIM_RESISTANCE, .normal = 30e3, .low = 1e3, .high = 1e7, .condition = TRUE },
  { .name = "residue-ohms", .words = "Resistance of what a spill leaves when it is dry.",
    .dim = HOB_DIM_RESISTANCE, .normal = INFINITY, .low = 1e4, .high = INFINITY,
    .condition = TRUE },
  { .name = "residue",
    .words = "Sugar or salt left in it, as a share of a whole spill's water.", .high = 1,
    .condition = TRUE },
  { .name = "stem-ohms",
    .words = "Resistance of the film from its line side to the stem, just spilt.",
    .dim = HOB_DIM_RESISTANCE, .normal = INFINITY, .low = 1e3, .high = INFINITY,
    .condition = TRUE },
  { .name = "closed",
    .words = N_ ("Where the spark switch is closed: near LIGHT, or in every position except OFF."),
    .dim = HOB_DIM_CHOICE, .normal = AT_LIGHT, .high = 1, .choices = closed_where },
};

static const HobStateDef states[] = {
  { .name = "water", .words = "water left in it, 1: just spilt", .tolerance = 1e-4 },
};

static const char *const contact_words[] = { N_ ("contact opens"), N_ ("contact closes"), NULL };
static const HobModeDef modes[] = {
  { .name = "contact", .words = contact_words },
  { .name = "wetted" },
};

static const HobElementDef elements[] = {
  { .name = "contact", .a = A, .b = B },
  { .name = "film to the stem", .a = A, .b = HOB_BODY },
};

static const HobQuantityDef quantities[] = {
  { .name = "contact", .words = N_ ("contact closed"), .values = hob_no_yes },
  { .name = "water", .words = N_ ("water left from the spill"), .say = HOB_SAY_SHARE },
  { .name = "film-ohms", .words = N_ ("resistance of the spill across the contacts"),
    .dim = HOB_DIM_RESISTANCE,
    .says = N_ ("The resistance of the spill across the contacts is %s.") },
};

static const HobLinkDef links[] = {
  { .from = Q_WATER, .to = Q_FILM,
    .words = N_ ("%s of the spilled water is still in the switch.") },
};

static const HobFaultDef faults[] = {
  {
    .id = "stuck-closed",
    .words = N_ ("spark switch stuck closed"),
    .prior = 8,
    .proof = N_ ("Unplug the range, disconnect one spark switch, tape its loose wires, and plug "
                 "the range back in. Repeat with the next switch until the clicking stops. Unplug "
                 "the range and read ohms across the switch that you disconnected last. It has "
                 "continuity at OFF, even when dry."),
    .confirm = HOB_MEANS (LOOK) | HOB_MEANS (HAND),
    HOB_EFFECTS ({ .setting = STUCK, .at1 = 1 }),
  },
  {
    .id = "wet",
    .words = N_ ("spark switch wet from a spill"),
    .severity_words = N_ ("%s of resistance across the switch"),
    .typical = 0.5,
    .prior = 20,
    .basis = "spills and cleaning are the most frequent cause of ticking",
    .proof = N_ ("Unplug the range, pull the knobs, and let the switches dry for a few hours. Plug "
                 "the range back in. The clicking has stopped. If it comes back even though this "
                 "spark switch is dry, the switch is bad."),
    .confirm = HOB_MEANS (HAND),
    HOB_EFFECTS ({ .setting = WET, .at0 = 1, .at1 = 1 },
                 { .setting = FILM_OHMS, .at0 = 60e3, .at1 = 15e3, .geometric = TRUE },
                 { .setting = RESIDUE_OHMS, .at0 = 100e6, .at1 = 250e3, .geometric = TRUE },
                 { .setting = RESIDUE, .at0 = 1e-5, .at1 = 0.1, .geometric = TRUE }),
  },
  {
    .id = "residue",
    .words = N_ ("dried spill in the spark switch"),
    .severity_words = N_ ("%s of the spill left as residue"),
    .typical = 0.5,
    .prior = 6,
    .basis = "what is left where a spill was only let dry",
    .proof = N_ ("The range clicks on damp days or when a lot of water is boiling. Unplug it and "
                 "take out the spark switch. There is spill residue on it. Clean or replace the "
                 "switch. Plug the range back in; the clicking doesn't come back."),
    .confirm = HOB_MEANS (HAND),
    HOB_EFFECTS ({ .setting = RESIDUE, .at0 = 0.02, .at1 = 0.12 }),
  },
  {
    .id = "wet-to-stem",
    .words = N_ ("spill bridging the hot side of the spark switch to the valve stem"),
    .severity_words = N_ ("%s of resistance from the hot side to the valve stem"),
    .typical = 0.7,
    .prior = 3,
    .proof = N_ ("The GFCI trips with all the knobs at OFF. Unplug the range. Read ohms from the "
                 "plug's line blade to the chassis while you disconnect the switches one by one. "
                 "The meter reads OL once the bad one is disconnected."),
    .confirm = HOB_MEANS (LEAKAGE),
    .hazards = HOB_HAZARD (STOP_USING) | HOB_HAZARD (GAS_GATHERED),
    HOB_EFFECTS ({ .setting = WET, .at0 = 1, .at1 = 1 },
                 { .setting = STEM_OHMS, .at0 = 200e3, .at1 = 4e3, .geometric = TRUE }),
  },
  {
    .id = "open",
    .words = N_ ("spark switch open"),
    .prior = 8,
    .proof = N_ ("This burner sparks only when another knob is at LIGHT. Unplug the range and shut "
                 "off the gas. Take one wire off this burner's spark switch, turn the knob to "
                 "LIGHT, and read ohms across the switch. The meter reads OL; it should show "
                 "continuity."),
    .confirm = HOB_MEANS (LOOK) | HOB_MEANS (CONTINUITY),
    .hazards = HOB_HAZARD (GAS_GATHERED),
    HOB_EFFECTS ({ .setting = OPEN, .at1 = 1 }),
  },
};

static gboolean
should_close (const HobPartContext *c)
{
  gboolean by_stem = c->moved >= CLOSES && (c->moved <= OPENS || c->set[CLOSED] == AT_ON);

  return c->set[OPEN] == 0 && (by_stem || c->set[STUCK] > 0);
}

/* w(t): standard normals at the knots, blended so that the variance is the same between them. */
static double
wander (const HobPartContext *c)
{
  double knot = floor (*c->t / KNOT), u = *c->t / KNOT - knot;
  double s = u * u * (3 - 2 * u);
  double z0 = hob_hash_normal (c->seed, (guint64)c->index, WANDER_COUNT + (guint64)knot);
  double z1 = hob_hash_normal (c->seed, (guint64)c->index, WANDER_COUNT + (guint64)knot + 1);

  return exp (WANDER * (z0 * (1 - s) + z1 * s) / sqrt (s * s + (1 - s) * (1 - s)));
}

/* S of a film with @ohms when just spilled. */
static double
wetted (const HobPartContext *c, double ohms)
{
  if (!(c->y[WATER] > 0))
    return 0;

  double m = MIN (c->y[WATER], 1);
  return isfinite (ohms) ? m * sqrt (m) * wander (c) / ohms : 0;
}

/* S, between the open contacts. */
static double
film (const HobPartContext *c)
{
  return wetted (c, c->set[FILM_OHMS])
         + (c->set[WET] > 0 ? hob_siemens (c->set[RESIDUE_OHMS]).re : 0);
}

/* Vapor pressure over the spill as a share of pure water's. */
static double
activity (const HobPartContext *c, double m)
{
  return m > 0 ? m / (m + c->set[RESIDUE]) : 0;
}

/* Water that the residue holds in the room's air. */
static double
at_rest (const HobPartContext *c)
{
  double damp = fmin (c->house->humidity, 0.99);

  return fmin (c->set[RESIDUE] * damp / (1 - damp), 1);
}

static void
start (const HobPartContext *c, double *y)
{
  c->mode[CONTACT] = should_close (c);
  c->mode[WETTED] = c->set[WET] > 0;
  y[WATER] = c->mode[WETTED] > 0 ? 1 : at_rest (c);
}

static void
conduct (const HobPartContext *c)
{
  c->g[E_CONTACT].re = film (c) + (c->mode[CONTACT] > 0 ? 1 / HOB_CONTACT_OHMS : 0);
  c->g[E_STEM].re = wetted (c, c->set[STEM_OHMS]);
}

static void
rates (const HobPartContext *c)
{
  double m = c->y[WATER], room = c->within[HOB_PLACE_AIR];

  if (m <= 0 && c->set[RESIDUE] <= 0) /* dry and clean, as most of them are: it stays so */
    return;

  double volts = hob_volts_across (c, A, B), to_stem = hob_complex_abs (c->i[E_STEM]);
  double g_stem = c->g[E_STEM].re;
  double heat = PEAKS * volts * volts * film (c) + (g_stem > 0 ? to_stem * to_stem / g_stem : 0);
  double warm = m > 0 ? fmin (WARMING * heat, BOILS) : 0;
  double drives = activity (c, m) * hob_vapour_pressure (room + warm)
                  - fmin (c->within[HOB_PLACE_VAPOR], hob_vapour_pressure (room));

  if (drives > 0)
    c->dy[WATER] = m > 0 ? -DRYING * drives * m / (m + LAST_WATER) : 0;
  else
    c->dy[WATER] = c->set[RESIDUE] > 0 && m < 1 ? -DRYING * drives : 0;
}

static double
guard (const HobPartContext *c, int k)
{
  gboolean due = k == G_CONTACT ? should_close (c) != (c->mode[CONTACT] > 0)
                                : (c->set[WET] > 0) != (c->mode[WETTED] > 0);

  return due ? 1 : -1;
}

static void
flip (const HobPartContext *c, int k, double *y)
{
  if (k == G_CONTACT)
    {
      c->mode[CONTACT] = should_close (c);
      return;
    }
  c->mode[WETTED] = c->set[WET] > 0;
  y[WATER] = c->mode[WETTED] > 0 ? 1 : at_rest (c);
}

static double
observe (const HobPartContext *c, int quantity)
{
  switch (quantity)
    {
    case Q_CONTACT:
      return c->mode[CONTACT];
    case Q_WATER:
      return CLAMP (c->y[WATER], 0, 1);
    default:
      return 1 / film (c);
    }
}

/* A contact that a cam on the stem closes, with a drop on it while it is wet. */
static void
draw (HobPen *pen, const HobPartView *view)
{
  if (view->layer == HOB_LAYER_PAPER)
    {
      hob_symbol_leads (pen, 20, 40);
      hob_symbol_contact (pen, -20, 20, 0);
      return;
    }
  hob_symbol_blade (pen, -20, 20, 0, view->mode[CONTACT] > 0);
  if (view->quantity[Q_WATER] < 0.01)
    return;
  pen_move (pen, 0, 5);
  pen_curve (pen, 2, 10, 5, 11, 5, 14);
  pen_curve (pen, 5, 20, -5, 20, -5, 14);
  pen_curve (pen, -5, 11, -2, 10, 0, 5);
  pen_close (pen);
  pen_fill_stroke (pen, HOB_ROLE_PANEL, HOB_ROLE_INK, HOB_DETAIL);
}

const HobKind hob_kind_spark_switch = {
  .name = "spark-switch",
  .label = N_ ("spark switch"),
  .about = N_ ("Closes at LIGHT or, on some ranges, whenever the knob is on. Where all spark "
               "switches are in parallel, any one of them makes all the electrodes spark."),
  HOB_TABLE (terminals, terminals),
  HOB_TABLE (settings, settings),
  HOB_TABLE (states, states),
  HOB_TABLE (modes, modes),
  HOB_TABLE (elements, elements),
  HOB_TABLE (faults, faults),
  HOB_TABLE (quantities, quantities),
  HOB_TABLE (links, links),
  .n_guards = N_GUARDS,
  .symbol = { [HOB_SHEET_WIRING] = { 80, 40 } },
  .figure = -1,
  .start = start,
  .conduct = conduct,
  .rates = rates,
  .guard = guard,
  .flip = flip,
  .observe = observe,
  .draw = draw,
};
