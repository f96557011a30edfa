/* SPDX-License-Identifier: GPL-3.0-or-later */

/* Oven door with its gasket. */

#include "base/i18n.h"
#include "parts/symbol.h"

enum { POSITION };
enum { GASKET };

static const HobSettingDef settings[] = {
  { "gasket", N_ ("What a worn gasket leaves open, as a share of an open door."), HOB_DIM_NUMBER, 0,
    0, 1, NULL, TRUE },
};
static const HobPosition positions[]
    = { { "closed", N_ ("CLOSED"), 0 }, { "open", N_ ("OPEN"), 1 }, { NULL } };
static const HobControlDef controls[] = {
  { "", N_ ("Oven door"), HOB_DIM_CHOICE, positions, 0, 1, 0, HOB_EXERCISE_TRY },
};
static const HobFaultDef faults[] = {
  { "gasket-gone",
    N_ ("door gasket gone"),
    N_ ("share of an open door that leaks"),
    0.5,
    3,
    N_ ("assumption"),
    N_ ("A strip of paper shut in the door pulls out without a drag; heat comes out at the edge."),
    NULL,
    -1,
    1,
    { { GASKET, HOB_EFFECT_SET, 0, 0.3 } } },
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

/* Shut it stands; open it hangs from its hinge at the foot. */
static void
draw (HobPen *pen, const HobPartView *view)
{
  gboolean open = view->ctl[POSITION] > 0;

  if (view->layer == HOB_LAYER_PAPER)
    {
      pen_circle (pen, -10, 174, 4);
      pen_fill (pen, HOB_ROLE_INK);
      return;
    }
  pen_move (pen, -16, 174);
  pen_line (pen, open ? 8 : -16, open ? -60 : -176);
  pen_line (pen, open ? 18 : -4, open ? -58 : -176);
  pen_line (pen, -4, 174);
  pen_close (pen);
  pen_fill_stroke (pen, HOB_ROLE_METAL, HOB_ROLE_INK, HOB_OUTLINE);
  if (open)
    return;
  pen_rect (pen, -4, -140, 10, 12); /* the handle */
  pen_fill_stroke (pen, HOB_ROLE_METAL, HOB_ROLE_INK, HOB_DETAIL);
}

const HobKind hob_kind_door = {
  .name = "door",
  .label = N_ ("oven door"),
  .about = N_ ("Keeps the heat in; open, the oven airs out."),
  .flags = HOB_KIND_FRONT,
  HOB_TABLE (settings, settings),
  HOB_TABLE (controls, controls),
  HOB_TABLE (faults, faults),
  .symbol = { [HOB_SHEET_CUTAWAY] = { 40, 360 } },
  .figure = -1,
  .turn = turn,
  .rates = rates,
  .draw = draw,
};
