/* SPDX-License-Identifier: GPL-3.0-or-later */

/* Supply cord with its plug. */

#include "base/i18n.h"
#include "parts/symbol.h"
#include "physics/material.h"

enum { LINE, NEUTRAL, GROUND, PLUG_LINE, PLUG_NEUTRAL, PLUG_GROUND };
enum { LENGTH, WIDTH };
enum { PLUG };

static const HobTerminalDef terminals[] = {
  { "line", N_ ("line, range side"), TRUE, 40, -40 },
  { "neutral", N_ ("neutral, range side"), TRUE, 40, 0 },
  { "ground", N_ ("ground, range side"), FALSE, 40, 40 },
  { "plug-line", N_ ("narrow blade"), TRUE, -40, -40 },
  { "plug-neutral", N_ ("wide blade"), TRUE, -40, 0 },
  { "plug-ground", N_ ("round pin"), FALSE, -40, 40 },
};
static const HobSettingDef settings[] = {
  { "length", N_ ("Length of the cord."), HOB_DIM_LENGTH, 1.9, 0.3, 60 },
  { "gauge", N_ ("Gauge of its conductors."), HOB_DIM_LENGTH, 1.0237e-3, 0.3e-3, 4e-3 },
};
static const HobPosition positions[]
    = { { "out", N_ ("OUT"), 0 }, { "in", N_ ("IN"), 1 }, { NULL } };
static const HobControlDef controls[] = {
  { "plug", N_ ("Plug"), HOB_DIM_CHOICE, positions, 0, 1, 1, HOB_EXERCISE_UNPLUG },
};
static const HobElementDef elements[] = {
  { "line", PLUG_LINE, LINE },
  { "neutral", NEUTRAL, PLUG_NEUTRAL },
  { "ground", GROUND, PLUG_GROUND },
};

static void
conduct (const HobPartContext *c)
{
  double ohms = HOB_CONTACT_OHMS
                + hob_wire_resistance (c->set[WIDTH], c->set[LENGTH], c->house->temperature);

  if (c->ctl[PLUG] > 0)
    for (int k = 0; k < 3; k++)
      c->g[k] = hob_siemens (ohms);
}

static void
draw (HobPen *pen, const HobPartView *view)
{
  if (view->layer == HOB_LAYER_STATE)
    {
      double tip = view->ctl[PLUG] > 0 ? -40 : -26; /* pulled out, the blades end in the open */

      for (int y = -40; y <= 40; y += 40)
        pen_rect (pen, tip, y - 3, -12 - tip, 6);
      pen_fill (pen, HOB_ROLE_INK);
      return;
    }
  pen_rect (pen, -12, -56, 28, 112);
  pen_fill_stroke (pen, HOB_ROLE_PANEL, HOB_ROLE_INK, HOB_OUTLINE);
  for (int y = -40; y <= 40; y += 40)
    pen_segment (pen, 16, y, 40, y);
  pen_stroke (pen, HOB_ROLE_INK, HOB_OUTLINE);
}

const HobKind hob_kind_cord = {
  .name = "cord",
  .label = N_ ("cord"),
  .about = N_ ("Three conductors and a plug; out is the only sure off."),
  HOB_TABLE (terminals, terminals),
  HOB_TABLE (settings, settings),
  HOB_TABLE (controls, controls),
  HOB_TABLE (elements, elements),
  .symbol = { [HOB_SHEET_WIRING] = { 80, 120 } },
  .figure = -1,
  .conduct = conduct,
  .draw = draw,
};
