/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "base/i18n.h"
#include "parts/kind.h"
#include "physics/spark.h"

#include <math.h>

/* What the kinds of spark module share: their outputs, and how one discharge goes through what is
 * in series on a winding. */

#define HOB_OUT_YIELD 0.25     /* of the capacitor's energy, into the gaps */
#define HOB_OUT_VOLTS 15e3     /* peak, of an open winding */
#define HOB_OUT_STRAY 15e-12   /* F, a lead to the metal along it */
#define HOB_OUT_TURNS 64.0     /* pulses after which a phase begins anew: its error stays small */
#define HOB_OUT_BEGINS 0.20    /* 1/s from which it is said to spark … */
#define HOB_OUT_ENDS 0.05      /* … and no longer, after … */
#define HOB_OUT_LULL 60.0      /* s, while something comes in still, as through a wet switch */
#define HOB_OUT_LEAST_LINE 12. /* V under which nothing comes in */
#define HOB_OUT_NO_CELL 0.8    /* of the trigger's crest: a cell that fires has more at its input */

/* One way of a pulse: from the lead through its gap to the metal, and from there back to the
 * winding through something that takes @other volts (0: nothing; +inf: it is open).
 *
 * The lead's stray and that of the other side share the winding's voltage alike, so the easier of
 * the two sees half of it; once that has broken down, the other sees all.  Where both conduct,
 * their burning voltages share the @energy.  Where only this gap breaks down, nothing but its
 * lead's charge jumps:  ½·C·V². */
static inline void
hob_winding_offer (HobLead *lead, double other, double volts, double energy)
{
  double own = lead->breakdown, share = own / (own + other);
  double needed = other <= 0 ? own : fmax (2 * fmin (own, other), fmax (own, other));

  lead->whole = volts >= needed;
  lead->volts = lead->whole ? volts : volts / 2;
  lead->energy = lead->whole ? energy * share : 0.5 * HOB_OUT_STRAY * own * own;
}

/* The seven outputs, in the order of their terminals and of their settings `dead-…`. */
enum { HOB_OUT_LF, HOB_OUT_LR, HOB_OUT_CF, HOB_OUT_CR, HOB_OUT_RF, HOB_OUT_RR, HOB_OUT_C };

#define HOB_OUT_TERMINAL(out, text, at, row)                                                       \
  { .name = "out-" out, .words = text, .x = at, .y = row, .high_voltage = TRUE }

#define HOB_OUT_TERMINALS(row)                                                                     \
  HOB_OUT_TERMINAL ("lf", N_ ("to the left front electrode"), -120, row),                          \
  HOB_OUT_TERMINAL ("lr", N_ ("to the left rear electrode"), -80, row),                            \
  HOB_OUT_TERMINAL ("cf", N_ ("to the center front electrode"), -40, row),                         \
  HOB_OUT_TERMINAL ("cr", N_ ("to the center rear electrode"), 40, row),                           \
  HOB_OUT_TERMINAL ("rf", N_ ("to the right front electrode"), 80, row),                           \
  HOB_OUT_TERMINAL ("rr", N_ ("to the right rear electrode"), 120, row)

#define HOB_OUT_SETTING(out)                                                                       \
  {                                                                                                \
    .name = "dead-" out, .words = "1: this output gives nothing.", .high = 1,                      \
    .condition = TRUE                                                                              \
  }

#define HOB_OUT_SETTINGS                                                                           \
  HOB_OUT_SETTING ("lf"), HOB_OUT_SETTING ("lr"), HOB_OUT_SETTING ("cf"), HOB_OUT_SETTING ("cr"),  \
  HOB_OUT_SETTING ("rf"), HOB_OUT_SETTING ("rr")

/* Settings, states, modes and guards that every module begins with. */
enum
{
  HOB_MODULE_DEAD,
  HOB_MODULE_MISSED,
  HOB_MODULE_TRIGGER,
  HOB_MODULE_CAPACITY,
  HOB_MODULE_LUG,
  HOB_MODULE_N_SETTINGS
};
enum { HOB_MODULE_PHASE, HOB_MODULE_DRAW, HOB_MODULE_N_STATES };
enum { HOB_MODULE_SPARKING, HOB_MODULE_WHOLE, HOB_MODULE_LULL, HOB_MODULE_N_MODES };
enum
{
  HOB_MODULE_BEGINS,
  HOB_MODULE_ENDS,
  HOB_MODULE_TURNS,
  HOB_MODULE_LULLS,
  HOB_MODULE_N_GUARDS
};

extern const HobStateDef hob_module_states[HOB_MODULE_N_STATES];
extern const guint8 hob_module_guard_reads[HOB_MODULE_N_GUARDS]; /* HobReads */
extern const char *const hob_sparking_words[];

#define HOB_MODULE_MODES                                                                           \
  { .name = "sparking", .words = hob_sparking_words },                                             \
  { .name = "whole" }, /* pulses up to the last whole turn */                                      \
  { .name = "lull" } /* s, since when it is as good as silent; 0: it isn't */

#define HOB_MODULE_SETTINGS                                                                        \
  { .name = "dead", .words = "1: the module does nothing.", .high = 1, .condition = TRUE },        \
  { .name = "missed", .words = "Share of its discharges that give no spark.", .high = 1,           \
    .condition = TRUE },                                                                           \
  { .name = "trigger", .words = "Voltage at which its capacitor is discharged.",                   \
    .dim = HOB_DIM_VOLTAGE, .normal = 130, .low = 60, .high = 300, .condition = TRUE },            \
  { .name = "capacity", .words = "Share of its capacity that the capacitor has left.",             \
    .normal = 1, .low = 0.05, .high = 1, .condition = TRUE },                                      \
  { .name = "lug-gap", .words = "Gap at its ground lug; 0: tight.", .dim = HOB_DIM_LENGTH,         \
    .high = INFINITY, .condition = TRUE }

/* Faults of every module. */
#define HOB_MODULE_FAULTS                                                                          \
  {                                                                                                \
    .id = "dead",                                                                                  \
    .words = N_ ("spark module dead"),                                                             \
    .prior = 6,                                                                                    \
    .proof = N_ ("Shut off the gas. Read the volts at the module input with a knob at LIGHT. "     \
                 "There is line voltage, but none of the electrodes spark."),                      \
    .confirm = HOB_MEANS (LOOK) | HOB_MEANS (LIVE_VOLTS),                                          \
    .hazards = HOB_HAZARD (GAS_GATHERED),                                                          \
    HOB_EFFECTS ({ .setting = HOB_MODULE_DEAD, .at1 = 1 }),                                        \
  },                                                                                               \
  {                                                                                                \
    .id = "irregular",                                                                             \
    .words = N_ ("spark module sparks irregularly"),                                               \
    .severity_words = N_ ("%s of the sparks missing"),                                             \
    .typical = 0.5,                                                                                \
    .prior = 3,                                                                                    \
    .proof = N_ ("Shut off the gas. Read the volts at the module input with a knob at LIGHT. "     \
                 "There is line voltage, but sparking is irregular no matter which knob you "      \
                 "turn, even with dry switches."),                                                 \
    .confirm = HOB_MEANS (LOOK) | HOB_MEANS (LIVE_VOLTS),                                          \
    HOB_EFFECTS ({ .setting = HOB_MODULE_MISSED, .at0 = 0.2, .at1 = 0.8 }),                        \
  },                                                                                               \
  {                                                                                                \
    .id = "slow",                                                                                  \
    .words = N_ ("spark module sparks too slowly"),                                                \
    .severity_words = N_ ("capacitor must charge to %s before the module fires"),                  \
    .typical = 0.74,                                                                               \
    .prior = 2,                                                                                    \
    .proof = N_ ("Shut off the gas. Read the volts at the module input with a knob at LIGHT. "     \
                 "There is line voltage, but sparking is slow no matter which knob you turn, "     \
                 "even with dry switches."),                                                       \
    .confirm = HOB_MEANS (LOOK) | HOB_MEANS (LIVE_VOLTS),                                          \
    HOB_EFFECTS ({ .setting = HOB_MODULE_TRIGGER, .at0 = 140, .at1 = 159 }),                       \
  },                                                                                               \
  {                                                                                                \
    .id = "faded",                                                                                 \
    .words = N_ ("spark module weak"),                                                             \
    .severity_words = N_ ("capacitor has %s of its capacitance left"),                             \
    .typical = 0.6,                                                                                \
    .prior = 2,                                                                                    \
    .proof = N_ ("Unplug the range, swap in a new module, and plug the range back in. The "        \
                 "burners now light right away. Before, the sparks were frequent but weak, and "   \
                 "the burners lit late or not at all."),                                           \
    .confirm = HOB_MEANS (LOOK) | HOB_MEANS (SWAP),                                                \
    .hazards = HOB_HAZARD (GAS_GATHERED),                                                          \
    HOB_EFFECTS ({ .setting = HOB_MODULE_CAPACITY, .at0 = 0.8, .at1 = 0.3 }),                      \
  }

/* The quantity of every module that says how many outputs are alive. */
#define HOB_OUT_QUANTITY { .name = "outputs", .words = N_ ("number of outputs that spark") }

/* Where its windings return through a ground lug. */
#define HOB_MODULE_LUG_FAULT                                                                       \
  {                                                                                                \
    .id = "ground-loose",                                                                          \
    .words = N_ ("spark module ground terminal loose"),                                            \
    .severity_words = N_ ("ground terminal loose, with a gap of %s"),                              \
    .typical = 0.5,                                                                                \
    .prior = 2,                                                                                    \
    .proof = N_ ("Shut off the gas. Turn a knob to LIGHT in a dark room. You can see a spark "     \
                 "jump at the module's ground terminal too. Turn the knob off, unplug the "        \
                 "range, and wiggle the ground terminal. It's loose under its screw."),            \
    .confirm = HOB_MEANS (LOOK) | HOB_MEANS (HAND),                                                \
    .hazards = HOB_HAZARD (GAS_GATHERED),                                                          \
    HOB_EFFECTS ({ .setting = HOB_MODULE_LUG, .at0 = 0.5e-3, .at1 = 12e-3,                         \
                   .geometric = TRUE }),                                                           \
  }

/* @terminal: the output's; @dead: its setting. */
#define HOB_OUT_FAULT(out, text, terminal, dead)                                                   \
  {                                                                                                \
    .id = "output-" out "-dead",                                                                   \
    .words = text,                                                                                 \
    .prior = 2,                                                                                    \
    .proof = N_ ("Unplug the range, shut off the gas, and swap this output's spark lead with "     \
                 "another one at the module. Plug the range back in and turn a knob to LIGHT. "    \
                 "The fault stays with the output: whichever electrode is connected to it "        \
                 "doesn't spark."),                                                                \
    .confirm = HOB_MEANS (SWAP),                                                                   \
    .hazards = HOB_HAZARD (GAS_GATHERED),                                                          \
    .needs = HOB_NEEDS (terminal),                                                                 \
    HOB_EFFECTS ({ .setting = dead, .at1 = 1 }),                                                   \
  }

/* @first: the left front output's terminal; @dead: its setting. */
#define HOB_OUT_FAULTS(first, dead)                                                                \
  HOB_OUT_FAULT ("lf", N_ ("left front output dead"), first, dead),                                \
  HOB_OUT_FAULT ("lr", N_ ("left rear output dead"), first + 1, dead + 1),                         \
  HOB_OUT_FAULT ("cf", N_ ("center front output dead"), first + 2, dead + 2),                      \
  HOB_OUT_FAULT ("cr", N_ ("center rear output dead"), first + 3, dead + 3),                       \
  HOB_OUT_FAULT ("rf", N_ ("right front output dead"), first + 4, dead + 4),                       \
  HOB_OUT_FAULT ("rr", N_ ("right rear output dead"), first + 5, dead + 5)

/* Outputs with a winding each, from terminal @first on, that all return through the ground lug:
 * its gap, @lug m, is in series with each.  Those of them in use share @energy. */
static inline void
hob_outputs_offer (const HobPartContext *c, int first, int n_outputs, const double *dead,
                   double lug, double energy)
{
  double at_lug = lug > 0 ? hob_breakdown_point (lug, 0) : 0;
  int n = 0;

  for (int k = 0; k < n_outputs; k++)
    n += c->lead[first + k] != NULL;
  for (int k = 0; k < n_outputs; k++)
    if (c->lead[first + k] != NULL && dead[k] == 0)
      hob_winding_offer (c->lead[first + k], at_lug, HOB_OUT_VOLTS, energy / n);
}

/* A cell of @capacity F as it is now, charged through @charging ohms against @bleed ohms. */
HobSparkCell hob_module_cell (const HobPartContext *c, double capacity, double charging,
                              double bleed);
/* Could @cell fire with @volts at its input?  Where it couldn't there is no need to ask the circuit
 * for its source. */
gboolean hob_module_may_fire (const HobSparkCell *cell, double volts);
/* S of its input. */
double hob_module_draws (const HobPartContext *c, const HobSparkCell *cell);
/* Rates of its states, at @rate 1/s with @volts at its input. */
void hob_module_rates (const HobPartContext *c, const HobSparkCell *cell, double rate,
                       double volts);
/* J of one discharge for the gaps. */
double hob_module_energy (const HobSparkCell *cell);
/* Puts the module's beat on its leads from terminal @first on. */
void hob_module_beat (const HobPartContext *c, int first, int n_outputs, double rate);
/* Its rate as `offer` put it on the leads, so that the source is asked once an evaluation; without
 * a lead it is @cell_rate (). */
double hob_module_rate (const HobPartContext *c, int first, int n_outputs,
                        double (*cell_rate) (const HobPartContext *c));
/* Of its outputs that have a lead, those that put voltage on it as the module sparks. */
double hob_module_outputs (const HobPartContext *c, int first, int n_outputs);
/* The guards and flips above, at @rate 1/s, with @volts at its input. */
double hob_module_guard (const HobPartContext *c, int k, double rate,
                         double (*volts) (const HobPartContext *c));
void hob_module_flip (const HobPartContext *c, int k, double *y);

/* Rectifier and resistor from @x to the right; a capacitor; a winding below its output at @y. */
void hob_module_draw_charging (HobPen *pen, double x, double y);
void hob_module_draw_capacitor (HobPen *pen, double x, double y1, double y2);
void hob_module_draw_winding (HobPen *pen, double x, double y);
