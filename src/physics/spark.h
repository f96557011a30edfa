/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

/* The cell of a spark module, and how far a spark jumps. The equations are above the code in
 * spark.c. */

#include <glib.h>

G_BEGIN_DECLS

/* A capacitor, charged from the line through a diode and a resistor, that a trigger discharges. */
typedef struct
{
  double capacitance; /* F */
  double resistance;  /* Ω, in series with the diode */
  double bleed;       /* Ω, across the capacitor */
  double trigger;     /* V at which it discharges */
} HobSparkCell;

/* Discharges per second on a line of @volts V rms with @source_ohms Ω in series; 0 if the
 * capacitor never reaches the trigger voltage. */
double hob_spark_cell_rate (const HobSparkCell *cell, double volts, double source_ohms);
/* J in the capacitor at the trigger voltage. */
double hob_spark_cell_energy (const HobSparkCell *cell);

/* Crest volts at which a gap of @gap m in air at 20 °C and 101.3 kPa breaks down between
 * spheres… */
double hob_breakdown_sphere (double gap);
/* …and between a point and a rounded edge. @hot: 0 in cold air, 1 in a flame. */
double hob_breakdown_point (double gap, double hot);

G_END_DECLS
