/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

/* The spark cell: half-wave charging of a capacitor through a resistor to a trigger voltage. */
typedef struct
{
  double capacitance; /* F, 1e-6 */
  double resistance;  /* ohm, 47e3 */
  double bleed;       /* ohm, 10e6 */
  double trigger;     /* V, 130 */
} HobSparkCell;

/* Discharges per second fed from volts (rms, open circuit) behind source_ohms. 0 where it never
 * gets there. The mean half-wave charging current over a mains cycle is integrated from 0 to the
 * trigger voltage. */
double hob_spark_cell_rate (const HobSparkCell *cell, double volts, double source_ohms);
/* DC-fed time to trigger, s: t = −RC ln(1 − Vb/V); +inf if never. */
double hob_spark_cell_dc_time (const HobSparkCell *cell, double volts);
/* J in the capacitor at the trigger voltage. */
double hob_spark_cell_energy (const HobSparkCell *cell);

/* Breakdown, V peak, of a gap of d m in air between spheres (uniform-ish field), and between a
 * pointed tip and a rounded edge (about half). hot: 1 in flame, 0 in cold air. */
double hob_breakdown_sphere (double gap);
double hob_breakdown_point (double gap, double hot);

G_END_DECLS
