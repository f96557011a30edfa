/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "run/run.h"

G_BEGIN_DECLS

/* The step twin answers "what should this read now?".  It is a run without faults and without
 * changed settings of the appliance, under the same acts, in the same house, of the same unit
 * (seed), and its oven is always as hot as the oven of the run that it follows: the states that a
 * kind marks as `stores` are that run's at every moment.  All else is its own: bulb and sensor,
 * contacts, igniters, valves, flames, trips, gathered gas, films and wear.
 *
 * So its thermostat switches where a normal one would in an oven this hot, and no figure is
 * compared across the phases of two thermostats; and no act makes it forget a failure, since it has
 * never had one.  For what is asked of the whole (how hot the oven should have been by now) there
 * is the long twin, run/twin.h. */

/* Is @act of @acts what a normal range would not have?  A setting of the appliance is its own; one
 * of the house a normal range would have had too. */
gboolean hob_act_is_wrong (const HobCase *acts, const HobAct *act);
/* s, of the first of @acts that a normal range would not have had; +∞: there is none. */
double hob_step_twin_since (const HobCase *acts);
/* The same acts but those that a normal range would not have had, at @part or, for −1, anywhere.
 * (transfer full) */
HobCase *hob_case_without_wrongs (const HobCase *acts, int part);
/* What the step twin of a run under @acts does. (transfer full) */
HobCase *hob_step_twin_case (const HobCase *acts);

/* The step twin of @run, which it follows from then on: as the twin is advanced, @run is, step by
 * step.  Read it like any run; before the first fault it is @run itself.  @run must outlive it.
 * (transfer full) NULL: nothing is wrong with @run so far, so that it is its own twin. */
HobRun *hob_step_twin_new (HobRun *run);
/* After a change of what is done to the run that it follows.  FALSE: it began too late for that;
 * make another one. */
gboolean hob_step_twin_keep_up (HobRun *twin);

/* From when on it is known that the run which @twin follows has shown something that a sense or an
 * instrument could find different, by time t; s, NaN: nothing so far.  The record is looked back on
 * once, whoever asks and however often, and a cut keeps what came before it; NaN too where @twin
 * follows none. */
double hob_step_twin_shown (HobRun *twin, double t);
guint hob_step_twin_looks (const HobRun *twin); /* made back so far: what that costs */

G_END_DECLS
