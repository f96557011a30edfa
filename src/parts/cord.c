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
  { .name = "line", .mark = NC_ ("terminal", "line"),
    .words = N_ ("line, range side"), .required = TRUE, .x = 40, .y = -40,
    .conductor = HOB_CONDUCTOR_LINE },
  { .name = "neutral", .mark = NC_ ("terminal", "neutral"),
    .words = N_ ("neutral, range side"), .required = TRUE, .x = 40,
    .conductor = HOB_CONDUCTOR_NEUTRAL },
  { .name = "ground", .mark = NC_ ("terminal", "ground"),
    .words = N_ ("ground, range side"), .x = 40, .y = 40,
    .conductor = HOB_CONDUCTOR_GROUND },
  { .name = "plug-line", .words = N_ ("narrow blade"), .required = TRUE, .x = -40, .y = -40 },
  { .name = "plug-neutral", .words = N_ ("wide blade"), .required = TRUE, .x = -40 },
  { .name = "plug-ground", .words = N_ ("round pin"), .x = -40, .y = 40 },
};
static const HobSettingDef settings[] = {
  { .name = "length", .words = N_ ("Length of the cord."), .dim = HOB_DIM_LENGTH, .normal = 1.9,
    .low = 0.3, .high = 60 },
  { .name = "gauge", .words = N_ ("Wire gauge."), .dim = HOB_DIM_LENGTH,
    .normal = 1.0237e-3, .low = 0.3e-3, .high = 4e-3 },
  { .name = "ground-open", .words = "1: its ground is broken.", .high = 1, .condition = TRUE },
  { .name = "neutral-pinched", .words = "1: its neutral touches the metal it passes through.",
    .high = 1, .condition = TRUE },
};

static const HobFaultDef faults[] = {
  {
    .id = "thin-extension",
    .words = N_ ("long, thin extension cord"),
    .severity_words = N_ ("%s of extra cord"),
    .typical = 0.7,
    .prior = 1,
    .proof = N_ ("Read the volts at the range terminals under load. Compare them with the volts "
                 "at the receptacle."),
    .confirm = HOB_MEANS (LIVE_VOLTS),
    HOB_EFFECTS ({ .setting = LENGTH, .how = HOB_EFFECT_ADD, .at1 = 30 }),
  },
  {
    .id = "ground-open",
    .words = N_ ("ground pin or ground wire open"),
    .prior = 2,
    .basis = "pins are cut off",
    .proof = N_ ("Unplug the range. Read ohms from the round pin to the chassis. It reads OL; "
                 "it should be almost 0 Ω."),
    .confirm = HOB_MEANS (OHMS),
    .hazards = HOB_HAZARD (GAS_JOINT) | HOB_HAZARD_IF_GROUND_OPEN,
    .needs = HOB_NEEDS (PLUG_GROUND),
    HOB_EFFECTS ({ .setting = GROUND_OPEN, .at1 = 1 }),
  },
  {
    .id = "neutral-pinched",
    .words = N_ ("neutral wire pinched against the chassis"),
    .prior = 1,
    .basis = "after a repair",
    .proof = N_ ("Unplug the range. Read ohms from the wide blade to the chassis. There is a "
                 "reading; it should be OL."),
    .confirm = HOB_MEANS (OHMS),
    .needs = HOB_NEEDS (GROUND),
    HOB_EFFECTS ({ .setting = PINCHED, .at1 = 1 }),
  },
};
static const HobPosition positions[] = {
  { .name = "out", .words = N_ ("OUT"), .value = 0 },
  { .name = "in", .words = N_ ("IN"), .value = 1 },
  { NULL },
};
static const HobControlDef controls[] = {
  { .name = "plug", .words = N_ ("Plug"), .dim = HOB_DIM_CHOICE, .positions = positions, .high = 1,
    .start = 1, .exercise = HOB_EXERCISE_UNPLUG, .role = HOB_CONTROL_PLUG },
};
static const HobElementDef elements[] = {
  { .name = "line", .a = PLUG_LINE, .b = LINE },
  { .name = "neutral", .a = NEUTRAL, .b = PLUG_NEUTRAL },
  { .name = "ground", .a = GROUND, .b = PLUG_GROUND },
  { .name = "neutral pinched", .a = NEUTRAL, .b = GROUND },
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
  .label = N_ ("power cord"),
  .about = N_ ("Three conductors and a plug. Unplug the range to be sure the power is off."),
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
