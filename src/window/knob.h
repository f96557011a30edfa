/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "parts/kind.h"
#include <gtk/gtk.h>

G_BEGIN_DECLS

/* A control that turns, drawn flat: a disc with one notch, the printed words round it.  Stems of
 * valves (HOB_DIM_NUMBER, percent of travel) turn to the left as on the range, dials and selectors
 * to the right.  Drag, wheel, click on a word, keys.  What has focus, role and value is a scale
 * inside, so that every tool reads and sets it. Signals: "turn-begin", "turned" (double value),
 * "turn-end". */
#define HOB_TYPE_KNOB (hob_knob_get_type ())
G_DECLARE_FINAL_TYPE (HobKnob, hob_knob, HOB, KNOB, GtkWidget)

/* @control is borrowed from its kind. */
GtkWidget *hob_knob_new (const HobControlDef *control, const char *name);
double hob_knob_value (HobKnob *self);
void hob_knob_set_value (HobKnob *self, double value); /* says nothing */
/* The point of the disc's edge where the notch is at @value, from the widget's corner. */
void hob_knob_point (HobKnob *self, double value, double r, double *x, double *y);

#define HOB_KNOB_RADIUS 32.0 /* px */

G_END_DECLS
