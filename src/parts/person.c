/* SPDX-License-Identifier: GPL-3.0-or-later */

/* A hand on bare metal, and the way from there to the soil: dry shoes 200 kΩ, bare feet on dry tile
 * 20 kΩ, damp 2 kΩ, the other hand on a grounded sink 1 kΩ (orders of magnitude, from memory; those
 * of a body alone are IEC 60479's, from memory too). */

#include "base/i18n.h"
#include "parts/symbol.h"

enum { HAND };
enum { TOUCH };
enum { PATH, OHMS };
enum { Q_TINGLE };

static const HobTerminalDef terminals[] = {
  { .name = "hand", .words = N_ ("hand"), .x = 20 },
};

static const char *const paths[] = { "dry-shoes", "dry-tile", "damp", "sink", NULL };
static const double path_ohms[] = { 200e3, 20e3, 2e3, 1e3 };
enum { DAMP = 2 };

static const HobSettingDef settings[] = {
  { .name = "path",
    .words = N_ ("Path from hand to ground: dry shoes, bare feet (dry tile or damp floor), or the "
                 "other hand (on a sink)."),
    .dim = HOB_DIM_CHOICE, .normal = DAMP, .high = 3, .choices = paths },
  { .name = "ohms", .words = N_ ("Resistance from hand to ground. Enter 0 to use the usual "
                                 "resistance of the chosen path."),
    .dim = HOB_DIM_RESISTANCE, .high = 1e6 },
};
static const HobPosition positions[] = {
  { .name = "away", .words = N_ ("AWAY"), .value = 0 },
  { .name = "chassis", .words = N_ ("HAND ON RANGE"), .value = 1 },
  { NULL },
};
static const HobControlDef controls[] = {
  { .name = "", .words = N_ ("Hand on the range"), .dim = HOB_DIM_CHOICE, .positions = positions,
    .high = 1, .exercise = HOB_EXERCISE_TRY, .role = HOB_CONTROL_PERSON },
};
static const HobElementDef elements[] = {
  { .name = "body", .a = HAND, .b = -1 },
};
static const HobQuantityDef quantities[] = {
  { .name = "felt", .words = N_ ("current through the person"), .dim = HOB_DIM_CURRENT,
    .sense = HOB_SENSE_HAND,
    .says = N_ ("The current through the person is %s."),
    .least = 0.2e-3 },
};

static void
conduct (const HobPartContext *c)
{
  if (c->ctl[TOUCH] > 0)
    c->g[0] = hob_siemens (c->set[OHMS] > 0 ? c->set[OHMS] : path_ohms[(int)c->set[PATH]]);
}

static double
observe (const HobPartContext *c, int quantity)
{
  return hob_complex_abs (c->i[0]);
}

static void
draw (HobPen *pen, const HobPartView *view)
{
  if (view->layer == HOB_LAYER_STATE)
    {
      gboolean touches = view->ctl[TOUCH] > 0;

      pen_segment (pen, -4, -12, touches ? 20 : 8, touches ? 0 : 8);
      pen_stroke (pen, HOB_ROLE_INK, HOB_OUTLINE);
      return;
    }
  pen_circle (pen, -4, -26, 8);
  pen_segment (pen, -4, -18, -4, 10);
  pen_segment (pen, -4, 10, -12, 34);
  pen_segment (pen, -4, 10, 4, 34);
  pen_segment (pen, -16, 36, 12, 36);
  pen_stroke (pen, HOB_ROLE_INK, HOB_OUTLINE);
}

const HobKind hob_kind_person = {
  .name = "person",
  .label = N_ ("person"),
  .about = N_ ("A person touching the range. Half a milliamp can be felt."),
  .flags = HOB_KIND_LIVES,
  HOB_TABLE (terminals, terminals),
  HOB_TABLE (settings, settings),
  HOB_TABLE (controls, controls),
  HOB_TABLE (elements, elements),
  HOB_TABLE (quantities, quantities),
  .symbol = { [HOB_SHEET_WIRING] = { 40, 80 } },
  .figure = -1,
  .conduct = conduct,
  .observe = observe,
  .draw = draw,
};
