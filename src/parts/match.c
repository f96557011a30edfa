/* SPDX-License-Identifier: GPL-3.0-or-later */

/* A lit match in a hand, held at a surface burner or at none.  What it lights is the burner's to
 * know.  It lasts until it is taken away. */

#include "base/i18n.h"
#include "parts/kind.h"

#include <math.h>

enum { WHERE };
enum { Q_HELD };

static const HobPosition positions[] = {
  /* Translators: where a lit match is: at no burner. */
  { .name = "away", .words = N_ ("AWAY"), .role = HOB_POSITION_OFF },
  { NULL },
};
static const HobControlDef controls[] = {
  { .name = "", .words = N_ ("Lit match"), .dim = HOB_DIM_CHOICE, .positions = positions,
    .role = HOB_CONTROL_MATCH, .at = HOB_ROOM_SURFACE_BURNER },
};
static const HobQuantityDef quantities[] = {
  { .name = "held", .words = N_ ("lit match held to a burner"), .values = hob_no_yes,
    .sense = HOB_SENSE_EYE },
};

static void
rates (const HobPartContext *c)
{
  c->within[HOB_PLACE_MATCH] = fmax (c->within[HOB_PLACE_MATCH], c->ctl[WHERE]);
}

static double
observe (const HobPartContext *c, int quantity G_GNUC_UNUSED)
{
  return c->ctl[WHERE] > 0;
}

const HobKind hob_kind_match = {
  .name = "match",
  .label = N_ ("match"),
  .about = N_ ("A lit match held to a surface burner. It lights the gas at the ports without a "
               "spark."),
  .hazards = HOB_HAZARD (MATCH),
  HOB_TABLE (controls, controls),
  HOB_TABLE (quantities, quantities),
  .figure = -1,
  .rates = rates,
  .observe = observe,
};
