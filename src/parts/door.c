/* SPDX-License-Identifier: GPL-3.0-or-later */

/* Oven door with its gasket. */

#include "base/i18n.h"
#include "parts/symbol.h"

enum { POSITION };
enum { GASKET };

static const HobSettingDef settings[] = {
  { .name = "gasket", .words = "What a worn gasket leaves open, as a share of an open door.",
    .high = 1, .condition = TRUE, .visible = 0.05 },
};
static const HobControlDef controls[] = {
  { .name = "", .words = N_ ("Oven door"), .dim = HOB_DIM_CHOICE, .positions = hob_closed_open,
    .high = 1, .exercise = HOB_EXERCISE_TRY, .role = HOB_CONTROL_DOOR, .front = HOB_FRONT_DOOR },
};
static const HobFaultDef faults[] = {
  {
    .id = "gasket-torn",
    .words = N_ ("door gasket torn or missing"),
    .severity_words = N_ ("leaks %s as much as an open door"),
    .typical = 0.5,
    .prior = 3,
    .proof = N_ ("Look at the gasket. Part of it is torn or missing. Close the door on a strip of "
                 "paper at that spot. The paper pulls out without drag; it should drag."),
    .confirm = HOB_MEANS (INSPECT),
    HOB_EFFECTS ({ .setting = GASKET, .at1 = 0.3 }),
  },
};

static double
turn (const HobPartContext *c)
{
  return c->ctl[POSITION];
}

static void
rates (const HobPartContext *c)
{
  c->within[HOB_PLACE_OPEN] += c->ctl[POSITION] > 0 ? 1 : c->set[GASKET];
}

/* The cut through it: closed it is upright at the oven's front, open it lies level on its hinge. */
static void
draw (HobPen *pen, const HobPartView *view)
{
  const double hinge = 176;

  if (view->layer == HOB_LAYER_PAPER)
    return;
  if (view->ctl[POSITION] > 0)
    {
      pen_rect (pen, -84, hinge - 14, 200, 14);
      pen_fill_stroke (pen, HOB_ROLE_METAL, HOB_ROLE_INK, HOB_OUTLINE);
    }
  else
    {
      pen_rect (pen, 116, -178, 40, hinge + 178);
      pen_fill_stroke (pen, HOB_ROLE_METAL, HOB_ROLE_INK, HOB_OUTLINE);
    }
  pen_circle (pen, 122, hinge - 4, 4);
  pen_fill (pen, HOB_ROLE_INK);
}

const HobKind hob_kind_door = {
  .name = "door",
  .label = N_ ("oven door"),
  .about = N_ ("Keeps the heat in. An open door lets the oven cool."),
  HOB_TABLE (settings, settings),
  HOB_TABLE (controls, controls),
  HOB_TABLE (faults, faults),
  .symbol = { [HOB_SHEET_CUTAWAY] = { 320, 360 } },
  .figure = -1,
  .turn = turn,
  .rates = rates,
  .draw = draw,
};
