/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "physics/material.h"

#include "base/i18n.h"

#include "physics/integrate.h"

#include <math.h>

static const double zero_celsius = 273.15;             /* K */
static const double stefan_boltzmann = 5.670374419e-8; /* W/m²K⁴, CODATA 2018 */

/* ---- Copper ----
 *
 *   R = ρ·l/A,   A = π/4·d²,   ρ = ρ20·(1 + α20·(t − 20 °C))
 *
 * ρ20 = 1/58 Ω·mm²/m and α20 = 0.00393/K for annealed copper: NBS Handbook 100. */
double
hob_wire_resistance (double diameter, double length, double kelvin)
{
  const double rho20 = 1e-6 / 58; /* Ω·m */
  const double alpha20 = 0.00393; /* 1/K */
  double area = G_PI / 4 * diameter * diameter;

  return rho20 * length / area * (1 + alpha20 * (kelvin - zero_celsius - 20));
}

/* ---- Platinum ----
 *
 * Callendar and Van Dusen, coefficients of IEC 60751:2008; t in °C:
 *
 *   R = R0·(1 + A·t + B·t²)                        from 0 °C up
 *   R = R0·(1 + A·t + B·t² + C·(t − 100)·t³)       below 0 °C */
static const double platinum_a = 3.9083e-3, platinum_b = -5.775e-7, platinum_c = -4.183e-12;

/* The span of the inverse, K. IEC 60751 ends at 73 and 1,123 K; no oven gets near either. */
static const double platinum_low = 60, platinum_high = 1000;

double
hob_platinum_resistance (double r0, double kelvin)
{
  double t = kelvin - zero_celsius;
  double cold = t < 0 ? platinum_c * (t - 100) * t * t * t : 0;

  return r0 * (1 + platinum_a * t + platinum_b * t * t + cold);
}

typedef struct
{
  double r0, ohms;
} Element;

static double
ohms_missing (double kelvin, gpointer user)
{
  const Element *element = user;

  return hob_platinum_resistance (element->r0, kelvin) - element->ohms;
}

/* From 0 °C up, the root of the quadratic:  t = (√(A² − 4·B·(1 − R/R0)) − A)/(2·B).  Below 0 °C
 * the equation is of the fourth degree and is solved numerically. */
double
hob_platinum_temperature (double r0, double ohms)
{
  Element element = { r0, ohms };

  if (!(ohms >= hob_platinum_resistance (r0, platinum_low)
        && ohms <= hob_platinum_resistance (r0, platinum_high)))
    return NAN;
  if (ohms < r0)
    return hob_locate (ohms_missing, &element, platinum_low, zero_celsius, 1e-9);

  double root = sqrt (platinum_a * platinum_a - 4 * platinum_b * (1 - ohms / r0));
  return MIN (zero_celsius + (root - platinum_a) / (2 * platinum_b), platinum_high);
}

/* ---- Silicon carbide ----
 *
 *   R(T) = s·(R_hot·(1 + 1.2e-4/K·max(T − 1073 K, 0)) + (R_cold − R_hot)·exp(−(T − 293 K)/170 K))
 *
 * Cold, few charge carriers conduct; each degree frees more of them, until the lattice's own
 * motion takes over and the resistance rises slowly: its minimum is near 800 °C, between the 600
 * and 900 °C that are published for silicon carbide. s is the igniter's resistance factor, which
 * age raises. The shape and its constants are this project's invention for a believable igniter. */
double
hob_igniter_resistance (double factor, double r_hot, double r_cold, double kelvin)
{
  double rise = 1 + 1.2e-4 * MAX (kelvin - 1073, 0);

  return factor * (r_hot * rise + (r_cold - r_hot) * exp (-(kelvin - 293) / 170));
}

/* ---- Heat from a hot surface ----
 *
 *   P = A·(ε·σ·(T⁴ − T_a⁴) + h·(T − T_a))
 *
 * Radiation to walls at the temperature of the air, and convection to the air. */
double
hob_surface_loss (double area, double emissivity, double h, double kelvin, double air)
{
  double t2 = kelvin * kelvin, a2 = air * air;

  return area * (emissivity * stefan_boltzmann * (t2 * t2 - a2 * a2) + h * (kelvin - air));
}

/* ---- Glow ----
 *
 * An eye sees the first red at 798 K (J. W. Draper, Philosophical Magazine 30 (1847) 345). The
 * colors up to 1,100 °C are those of the classic table by C. Pouillet (Comptes rendus 3 (1836)
 * 782; from memory). Above that tables disagree, and yellow and white are no more than bands.
 * Red, green and blue are this project's choice for a screen, interpolated between two rows. */
static const struct
{
  double celsius;
  guint8 rgb[3];
  const char *word;
} glow_table[] = {
  /* Translators: the glow of an igniter. */
  { 524.85, { 0x4a, 0x12, 0x0a }, N_ ("faint red") },
  { 700, { 0x8a, 0x1a, 0x0a }, N_ ("dark red") },
  { 800, { 0xb5, 0x24, 0x0c }, N_ ("dull cherry red") },
  { 900, { 0xd6, 0x3c, 0x10 }, N_ ("cherry red") },
  { 1000, { 0xec, 0x5a, 0x1c }, N_ ("bright cherry red") },
  { 1100, { 0xf9, 0x80, 0x28 }, N_ ("orange") },
  { 1200, { 0xff, 0xa9, 0x4a }, N_ ("yellow") },
  { 1300, { 0xff, 0xd5, 0x83 }, N_ ("bright yellow") },
  { 1400, { 0xff, 0xf0, 0xcc }, N_ ("white") },
};

/* The last row of the table at or below this temperature; −1 if it is below them all. */
static int
glow_row (double celsius)
{
  int row = -1;

  while (row + 1 < (int) G_N_ELEMENTS (glow_table) && celsius >= glow_table[row + 1].celsius)
    row++;

  return row;
}

const char *
hob_glow_word (double kelvin)
{
  int row = glow_row (kelvin - zero_celsius);

  return row >= 0 ? glow_table[row].word : NULL;
}

gboolean
hob_glow_colour (double kelvin, double rgb[3])
{
  double celsius = kelvin - zero_celsius;
  int low = glow_row (celsius);

  if (low < 0)
    {
      rgb[0] = rgb[1] = rgb[2] = 0;
      return FALSE;
    }

  int high = MIN (low + 1, (int) G_N_ELEMENTS (glow_table) - 1);
  double span = glow_table[high].celsius - glow_table[low].celsius;
  double part = span > 0 ? (celsius - glow_table[low].celsius) / span : 0;
  for (int k = 0; k < 3; k++)
    rgb[k] = (glow_table[low].rgb[k] + (glow_table[high].rgb[k] - glow_table[low].rgb[k]) * part)
             / 255;

  return TRUE;
}

/* ---- Protection ----
 *
 * UL 943 gives a GFCI at most  t = (20/I)^1.43 s,  I in mA. */
double
hob_interrupter_time (double ampere)
{
  return pow (20 / (ampere * 1e3), 1.43);
}

/* The strip of a thermal breaker heats with I² and, at its rating, loses as much as it gains:
 *
 *   dx/dt = ((I/I_r)² − 1)/τ,   it trips at x = 1.
 *
 * τ = 180 s is this project's figure. UL 489 wants a trip within 1 h at 135% and within 2 min at
 * 200%: here it takes 219 s and 60 s. Above 8 times the rating, a common setting without a
 * source, the magnet trips within one cycle or so. */
double
hob_breaker_rate (double rating, double ampere)
{
  const double tau = 180;            /* s */
  const double magnetic = 8;         /* multiples of the rating */
  const double magnetic_time = 0.02; /* s */
  double load = fabs (ampere) / rating;

  if (load > magnetic)
    return 1 / magnetic_time;
  if (!(load > 1))
    return 0;
  return (load * load - 1) / tau;
}

/* ---- Water vapor ----
 *
 * Magnus:  p = 611.2 Pa·exp(17.62·t/(243.12 °C + t)),  t in °C; constants for water from the WMO
 * Guide to Instruments and Methods of Observation (CIMO guide). */
double
hob_vapour_pressure (double kelvin)
{
  double t = kelvin - zero_celsius;

  return 611.2 * exp (17.62 * t / (243.12 + t));
}
