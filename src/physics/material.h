/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

/* Copper wire of diameter d m, length l m, at T K. (NBS Handbook 100: 1/58 Ω·mm²/m at 20 °C,
 * 0.00393 /K.) */
double hob_wire_resistance (double diameter, double length, double kelvin);

/* IEC 60751 platinum element of r0 ohm at 0 °C. */
double hob_platinum_resistance (double r0, double kelvin);
double hob_platinum_temperature (double r0, double ohms); /* inverse; NaN outside 60…1000 K */

/* Silicon carbide igniter: R(T) of physics; factor s scales all, r_hot and r_cold in ohm. */
double hob_igniter_resistance (double factor, double r_hot, double r_cold, double kelvin);
/* Loss to air and walls at T_air, W: εσA(T⁴ − Tₐ⁴) + hA(T − Tₐ). */
double hob_surface_loss (double area, double emissivity, double h, double kelvin, double air);

/* Timoshenko 1925: curvature 1/m of a bimetal strip (thicknesses m, moduli Pa, expansions 1/K,
 * rise K). */
double hob_bimetal_curvature (double t1, double t2, double e1, double e2, double alpha1, double alpha2,
                              double rise);
double hob_bimetal_tip (double curvature, double length); /* m */

/* Colour of glow, linear between the classic heat colours: 0…1 RGB; FALSE (black) below 798 K
 * (Draper). */
gboolean hob_glow_colour (double kelvin, double rgb[3]);
const char *hob_glow_word (double kelvin); /* untranslated N_() word: "dark red", "bright cherry" …; NULL: no glow */

/* Protection. Ground-fault interrupter: longest time to trip, s, at I A: (20/I[mA])^1.43 (UL 943). */
double hob_interrupter_time (double ampere);
/* Rate 1/s at which a breaker of rating A heats towards its trip (1 = trips) at I A; 0 at or below
 * rating. Inverse time: within 1 h at 135 %, within 2 min at 200 %; magnetic above 8 ×: 1/0.02 s. */
double hob_breaker_rate (double rating, double ampere);

/* Two-point thermostat, exact. */
double hob_thermostat_on_time (double tau, double hot, double low, double high);
double hob_thermostat_off_time (double tau, double ambient, double low, double high);

/* Saturated water vapour pressure, Pa (Magnus). */
double hob_vapour_pressure (double kelvin);

G_END_DECLS
