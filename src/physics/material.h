/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

/* Laws of materials and of protective devices: pure functions, all in SI units. The equation of
 * each one and the source of its constants are above the code in material.c. */

#include <glib.h>

G_BEGIN_DECLS

/* Ω of a copper wire: diameter and length in m, temperature in K. */
double hob_wire_resistance (double diameter, double length, double kelvin);

/* Ω of a platinum element that has r0 Ω at 0 °C. */
double hob_platinum_resistance (double r0, double kelvin);
/* The inverse, in K; NaN for a resistance outside 60 to 1,000 K. */
double hob_platinum_temperature (double r0, double ohms);

/* Ω of a silicon carbide igniter; r_hot and r_cold in Ω, @factor multiplies both. */
double hob_igniter_resistance (double factor, double r_hot, double r_cold, double kelvin);
/* W that a surface loses to air and walls of the temperature @air: area in m², h in W/m²K.
 * Negative where it is the colder one. */
double hob_surface_loss (double area, double emissivity, double h, double kelvin, double air);

/* Color of a glowing body, each of red, green and blue from 0 to 1. FALSE, and black, where no
 * eye sees a glow. */
gboolean hob_glow_colour (double kelvin, double rgb[3]);
/* That color in words, N_(); NULL where there is no glow. */
const char *hob_glow_word (double kelvin);

/* The longest time in s that a GFCI may take to trip at a current difference of @ampere A. */
double hob_interrupter_time (double ampere);
/* How fast a breaker of @rating A comes nearer to its trip at @ampere A, per second: it trips
 * when the sum over time reaches 1. 0 at its rating and below. */
double hob_breaker_rate (double rating, double ampere);

/* Pressure in Pa of saturated water vapor over water. */
double hob_vapour_pressure (double kelvin);

G_END_DECLS
