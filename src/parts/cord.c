/* SPDX-License-Identifier: GPL-3.0-or-later */

/* Supply cord with its plug. */

#include "base/i18n.h"
#include "parts/symbol.h"
#include "physics/material.h"

enum { LINE, NEUTRAL, GROUND, PLUG_LINE, PLUG_NEUTRAL, PLUG_GROUND };
enum { LENGTH, WIDTH, GROUND_OPEN, PINCHED };
enum { E_LINE, E_NEUTRAL, E_GROUND, E_PINCHED };
enum { PLUG };

#define PINCH_OHMS 0.05 /* copper on painted steel, invented */

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
  { "ground-open", N_ ("1: its ground is broken."), HOB_DIM_NUMBER, 0, 0, 1, NULL, TRUE },
  { "neutral-pinched", N_ ("1: its neutral touches the metal it passes through."), HOB_DIM_NUMBER,
    0, 0, 1, NULL, TRUE },
};

#define DEAD_FIRST N_ ("Off is not dead: unplug and prove dead before reaching in.")

static const HobFaultDef faults[] = {
  { "thin-extension",
    N_ ("a long thin cord between wall and range"),
    N_ ("30 m · severity more"),
    0.7,
    1,
    N_ ("assumption"),
    N_ ("Volts at the range's own terminals under load, against those at the receptacle."),
    N_ ("A cord that grows warm is a fire risk: the range belongs into its own receptacle."),
    -1,
    1,
    { { LENGTH, HOB_EFFECT_ADD, 0, 30 } } },
  { "ground-open",
    N_ ("ground pin or ground wire broken"),
    NULL,
    1,
    2,
    N_ ("assumption: pins are cut off"),
    N_ ("Unplugged: ohms from the round pin to the range's metal."),
    N_ ("With a metal gas pipe fault current takes the flexible connector: never open a gas joint "
        "before the supply is "
        "proven dead."),
    PLUG_GROUND,
    1,
    { { GROUND_OPEN, HOB_EFFECT_SET, 0, 1 } } },
  { "neutral-pinched",
    N_ ("neutral pinched against the range's metal"),
    NULL,
    1,
    1,
    N_ ("assumption: after a repair"),
    N_ ("Unplugged: ohms from the wide blade to the range's metal: there should be none."),
    DEAD_FIRST,
    GROUND,
    1,
    { { PINCHED, HOB_EFFECT_SET, 0, 1 } } },
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
  { "neutral pinched", NEUTRAL, GROUND },
};

static void
conduct (const HobPartContext *c)
{
  double ohms = HOB_CONTACT_OHMS
                + hob_wire_resistance (c->set[WIDTH], c->set[LENGTH], c->house->temperature);

  if (c->ctl[PLUG] > 0)
    c->g[E_LINE] = c->g[E_NEUTRAL] = c->g[E_GROUND] = hob_siemens (ohms);
  if (c->set[GROUND_OPEN] > 0)
    c->g[E_GROUND] = (HobComplex){ 0, 0 };
  if (c->set[PINCHED] > 0)
    c->g[E_PINCHED] = hob_siemens (PINCH_OHMS);
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
  HOB_TABLE (faults, faults),
  .symbol = { [HOB_SHEET_WIRING] = { 80, 120 } },
  .figure = -1,
  .conduct = conduct,
  .draw = draw,
};
