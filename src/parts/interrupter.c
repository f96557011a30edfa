/* SPDX-License-Identifier: GPL-3.0-or-later */

/* GFCI: it compares the current that goes out with the current that comes back.  UL 943: from
 * its threshold up (4 to 6 mA) it trips within (20/I)^1.43 s, I in mA.  That is the most; those
 * in use trip within a tenth of a second at 5 mA and in 25 ms from 20 mA on (from memory).
 *
 * A second coil induces a few millivolts in both conductors alike.  They drive nothing unless
 * neutral touches ground on the load side too: then a current I = V/(R_pinch + R_loop) flows round
 * through neutral and ground and trips it with everything off.  At 4 Ω it must (from memory): with
 * the third of an ohm of the wires, 26.2 mV give 6 mA there, the most that a unit may need.  Its
 * own frequency is drawn here as a quadrature to the line's.
 *
 * It is trip-free: a button held down closes it, and does not keep it from tripping again. */

#include "base/i18n.h"
#include "parts/symbol.h"
#include "parts/trip.h"
#include "physics/material.h"

#include <math.h>

enum { LINE_IN, LINE, NEUTRAL_IN, NEUTRAL };
enum { THRESHOLD, SENSITIVE };
enum { MEASURED };
enum { RESET };
enum { HELD = HOB_TRIPPED + 1 };
enum { G_RELEASED = HOB_TRIP_N_GUARDS, N_GUARDS };
enum { Q_LEAKAGE, Q_TRIPPED };

#define SCATTER 0.6e-3 /* A, a specimen's own threshold; clamped to 4…6 mA */
#define FORGETS 2.0    /* s */
#define INDUCED 26.2e-3 /* V, by the second coil */
#define USUAL 0.5e-3    /* A s, usual time to trip times current … */
#define LEAST 0.025     /* s … and the least */

static const HobTerminalDef terminals[] = {
  { .name = "line-in", .words = N_ ("hot, line side"), .required = TRUE, .x = -40, .y = -20 },
  { .name = "line", .mark = NC_ ("terminal", "line"),
    .words = N_ ("hot, load side"), .required = TRUE, .x = 40, .y = -20,
    .conductor = HOB_CONDUCTOR_LINE },
  { .name = "neutral-in", .words = N_ ("neutral, line side"), .required = TRUE, .x = -40,
    .y = 20 },
  { .name = "neutral", .mark = NC_ ("terminal", "neutral"),
    .words = N_ ("neutral, load side"), .required = TRUE, .x = 40, .y = 20,
    .conductor = HOB_CONDUCTOR_NEUTRAL },
};
static const HobSettingDef settings[] = {
  { .name = "threshold", .words = N_ ("Leakage current that trips the GFCI."),
    .dim = HOB_DIM_CURRENT, .normal = 5e-3, .low = 4e-3, .high = 6e-3 },
  { .name = "sensitive", .words = "How far it trips below its threshold, 0 to 1.", .high = 0.995,
    .condition = TRUE },
};
static const HobFaultDef faults[] = {
  {
    .id = "sensitive",
    .words = N_ ("GFCI trips too easily"),
    .severity_words = N_ ("trips %s below its rated level"),
    .prior = 2,
    .basis = "old ones trip on the sparks of an igniter",
    .proof = N_ ("Put a leakage clamp meter around hot and neutral together. The GFCI trips at "
                 "less than 4 mA. A new GFCI doesn't trip."),
    .confirm = HOB_MEANS (AMPS) | HOB_MEANS (SWAP),
    .hazards = HOB_HAZARD (GAS_GATHERED),
    HOB_EFFECTS ({ .setting = SENSITIVE, .at1 = 0.994 }),
  },
};
static const HobStateDef states[] = {
  { .name = "measured", .words = "share of the way to its trip", .tolerance = 1e-3 },
};
static const HobModeDef modes[] = {
  HOB_TRIP_MODE,
  { .name = "held" },
};
static const HobPosition positions[] = {
  { .name = "set", .words = N_ ("RELEASED"), .value = 0 },
  { .name = "reset", .words = N_ ("PRESSED"), .value = 1 },
  { NULL },
};
static const HobControlDef controls[] = {
  { .name = "", .words = N_ ("Reset button"), .dim = HOB_DIM_CHOICE, .positions = positions,
    .high = 1, .role = HOB_CONTROL_BUTTON },
};
static const HobElementDef elements[] = {
  { .name = "line", .a = LINE_IN, .b = LINE },
  { .name = "neutral", .a = NEUTRAL, .b = NEUTRAL_IN },
};
static const HobQuantityDef quantities[] = {
  { .name = "leakage", .words = N_ ("leakage current to ground"), .dim = HOB_DIM_CURRENT,
    .says = N_ ("The leakage current to ground is %s."),
    .least = 0.5e-3 },
  { .name = "tripped", .words = N_ ("tripped"), .values = hob_no_yes, .sense = HOB_SENSE_EYE },
};

static const HobLinkDef links[] = {
  { .from = Q_LEAKAGE, .to = Q_TRIPPED, .words = N_ ("The leakage current to ground is %s.") },
};

/* A that its amplifier makes of the leakage: too many where it is too sensitive. */
static double
taken_for (const HobPartContext *c, double leaks)
{
  return leaks / (1 - c->set[SENSITIVE]);
}

static double
leakage (const HobPartContext *c)
{
  return hypot (c->i[0].re - c->i[1].re, c->i[0].im - c->i[1].im);
}

static double
threshold (const HobPartContext *c)
{
  return CLAMP (c->set[THRESHOLD] + SCATTER * hob_specimen_normal (c, 0), 4e-3, 6e-3);
}

/* s */
static double
trip_time (double leaks)
{
  return MIN (MAX (USUAL / leaks, LEAST), hob_interrupter_time (leaks));
}

static void
conduct (const HobPartContext *c)
{
  if (!(c->mode[HOB_TRIPPED] > 0))
    c->g[0] = c->g[1] = hob_siemens (HOB_CONTACT_OHMS);
  /* line runs in to out, neutral out to in: alike in space means against each other here */
  c->emf[0].im = INDUCED;
  c->emf[1].im = -INDUCED;
}

static void
rates (const HobPartContext *c)
{
  double i = taken_for (c, leakage (c));

  c->dy[MEASURED] = i >= threshold (c) ? 1 / trip_time (i) : -c->y[MEASURED] / FORGETS;
}

static double
guard (const HobPartContext *c, int k)
{
  gboolean pressed = c->ctl[RESET] > 0, held = c->mode[HELD] > 0;

  if (k == G_RELEASED)
    return held && !pressed ? 1 : -1;
  return hob_trip_guard (c, k, c->y[MEASURED] - 1, pressed && !held);
}

static void
flip (const HobPartContext *c, int k, double *y)
{
  c->mode[HELD] = k == HOB_TRIP_RESETS || (k == HOB_TRIP_TRIPS && c->ctl[RESET] > 0);
  if (k == G_RELEASED)
    return;
  hob_trip_flip (c, k);
  y[MEASURED] = 0;
}

static double
observe (const HobPartContext *c, int quantity)
{
  return quantity == Q_LEAKAGE ? leakage (c) : c->mode[HOB_TRIPPED];
}

static void
draw (HobPen *pen, const HobPartView *view)
{
  for (int y = -20; y <= 20; y += 40)
    {
      if (view->layer == HOB_LAYER_STATE)
        {
          hob_symbol_blade (pen, -24, 4, y, !(view->mode[HOB_TRIPPED] > 0));
          continue;
        }
      pen_segment (pen, -40, y, -24, y);
      pen_segment (pen, 4, y, 40, y);
      pen_stroke (pen, HOB_ROLE_INK, HOB_OUTLINE);
      hob_symbol_contact (pen, -24, 4, y);
    }
  if (view->layer != HOB_LAYER_PAPER)
    return;
  pen_move (pen, 22, -30); /* the ring core round both conductors */
  pen_curve (pen, 34, -30, 34, 30, 22, 30);
  pen_curve (pen, 10, 30, 10, -30, 22, -30);
  pen_close (pen);
  pen_stroke (pen, HOB_ROLE_INK, HOB_DETAIL);
  pen_dash (pen, 3, 3);
  pen_segment (pen, 13, 0, -10, 0);
  pen_segment (pen, -10, -26, -10, 14);
  pen_stroke (pen, HOB_ROLE_INK2, HOB_DETAIL);
}

const HobKind hob_kind_interrupter = {
  .name = "interrupter",
  .label = N_ ("GFCI"),
  .about = N_ ("Opens hot and neutral when a few milliamps leak to ground."),
  .hazards = HOB_HAZARD (BREAKER_GFCI) | HOB_HAZARD (NO_BYPASS),
  HOB_TABLE (terminals, terminals),
  HOB_TABLE (settings, settings),
  HOB_TABLE (states, states),
  HOB_TABLE (modes, modes),
  HOB_TABLE (controls, controls),
  HOB_TABLE (elements, elements),
  HOB_TABLE (faults, faults),
  HOB_TABLE (quantities, quantities),
  HOB_TABLE (links, links),
  .n_guards = N_GUARDS,
  .symbol = { [HOB_SHEET_WIRING] = { 80, 80 } },
  .figure = -1,
  .conduct = conduct,
  .rates = rates,
  .guard = guard,
  .flip = flip,
  .observe = observe,
  .draw = draw,
};
