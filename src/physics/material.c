/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "physics/material.h"

#include "base/i18n.h"

#include <math.h>

static const double zero_celsius = 273.15;       /* K */
static const double stefan_boltzmann = 5.670374419e-8; /* W/m²K⁴, CODATA 2018 */

double
hob_wire_resistance (double diameter, double length, double kelvin)
{
  const double rho20 = 1e-6 / 58; /* Ω·m, annealed copper at 20 °C (NBS Handbook 100) */
  const double alpha20 = 0.00393; /* 1/K */
  double area = G_PI / 4 * diameter * diameter;

  return rho20 * length / area * (1 + alpha20 * (kelvin - zero_celsius - 20));
}

/* IEC 60751:2008, 5: coefficients of the Callendar–Van Dusen equation. */
static const double platinum_a = 3.9083e-3, platinum_b = -5.775e-7, platinum_c = -4.183e-12;

double
hob_platinum_resistance (double r0, double kelvin)
{
  double t = kelvin - zero_celsius;
  double cold = t < 0 ? platinum_c * (t - 100) * t * t * t : 0;

  return r0 * (1 + platinum_a * t + platinum_b * t * t + cold);
}

/* Slope dR/dT of the same, Ω/K. */
static double
platinum_slope (double r0, double kelvin)
{
  double t = kelvin - zero_celsius;
  double cold = t < 0 ? platinum_c * (4 * t - 300) * t * t : 0;

  return r0 * (platinum_a + 2 * platinum_b * t + cold);
}

/* Above 0 °C the quadratic's root; below it that root starts a Newton iteration, which the tiny C
 * term ends in three steps. */
double
hob_platinum_temperature (double r0, double ohms)
{
  const double low = 60, high = 1000; /* K */

  if (!(ohms >= hob_platinum_resistance (r0, low) && ohms <= hob_platinum_resistance (r0, high)))
    return NAN;

  double under = platinum_a * platinum_a - 4 * platinum_b * (1 - ohms / r0);
  double kelvin = zero_celsius + (sqrt (under) - platinum_a) / (2 * platinum_b);
  for (int k = 0; k < 6 && ohms < r0; k++)
    kelvin -= (hob_platinum_resistance (r0, kelvin) - ohms) / platinum_slope (r0, kelvin);

  return CLAMP (kelvin, low, high);
}

double
hob_igniter_resistance (double factor, double r_hot, double r_cold, double kelvin)
{
  double rise = 1 + 2e-5 * MAX (kelvin - 1250, 0);

  return factor * (r_hot * rise + (r_cold - r_hot) * exp (-(kelvin - 293) / 260));
}

double
hob_surface_loss (double area, double emissivity, double h, double kelvin, double air)
{
  double t2 = kelvin * kelvin, a2 = air * air;

  return area * (emissivity * stefan_boltzmann * (t2 * t2 - a2 * a2) + h * (kelvin - air));
}

/* S. Timoshenko, J. Opt. Soc. Am. 11 (1925) 233: m = t1/t2, n = E1/E2, h = t1 + t2. */
double
hob_bimetal_curvature (double t1, double t2, double e1, double e2, double alpha1, double alpha2,
                       double rise)
{
  double h = t1 + t2, m = t1 / t2, n = e1 / e2;
  double square = (1 + m) * (1 + m);

  return 6 * (alpha2 - alpha1) * rise * square
         / (h * (3 * square + (1 + m * n) * (m * m + 1 / (m * n))));
}

double
hob_bimetal_tip (double curvature, double length)
{
  return curvature * length * length / 2;
}

/* Heat colours in °C: first visible red 798 K (Draper 1847), then the classic workshop table;
 * above 1,100 °C the sources disagree and the words are bands only. */
static const struct
{
  double celsius;
  guint8 rgb[3];
  const char *word;
} glow_table[] = {
  { 524.85, { 0x4a, 0x12, 0x0a }, N_ ("first red") },
  { 700, { 0x8a, 0x1a, 0x0a }, N_ ("dark red") },
  { 800, { 0xb5, 0x24, 0x0c }, N_ ("dull cherry") },
  { 900, { 0xd6, 0x3c, 0x10 }, N_ ("cherry") },
  { 1000, { 0xec, 0x5a, 0x1c }, N_ ("bright cherry") },
  { 1100, { 0xf9, 0x80, 0x28 }, N_ ("orange-red") },
  { 1200, { 0xff, 0xa9, 0x4a }, N_ ("yellow") },
  { 1300, { 0xff, 0xd5, 0x83 }, N_ ("bright yellow") },
  { 1400, { 0xff, 0xf0, 0xcc }, N_ ("white") },
};

/* Last row of the table at or below the temperature, −1 below the first. */
static int
glow_row (double celsius)
{
  int row = -1;

  while (row + 1 < (int) G_N_ELEMENTS (glow_table) && celsius >= glow_table[row + 1].celsius)
    row++;

  return row;
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

const char *
hob_glow_word (double kelvin)
{
  double celsius = kelvin - zero_celsius;
  int row = glow_row (celsius);

  if (row < 0)
    return NULL;

  /* The nearest word, so that 990 °C is bright cherry and not cherry. */
  if (row + 1 < (int) G_N_ELEMENTS (glow_table)
      && glow_table[row + 1].celsius - celsius < celsius - glow_table[row].celsius)
    row++;
  return glow_table[row].word;
}

double
hob_interrupter_time (double ampere)
{
  return pow (20 / (ampere * 1e3), 1.43);
}

/* Heat in the strip grows with the square of the current; 180 s at √2 × the rating sets both
 * points of UL 489 with room (219 s of 1 h at 135 %, 60 s of 2 min at 200 %). */
double
hob_breaker_rate (double rating, double ampere)
{
  const double heating = 180;      /* s */
  const double magnetic = 8;       /* times the rating */
  const double magnetic_time = 0.02; /* s */
  double load = fabs (ampere) / rating;

  if (load > magnetic)
    return 1 / magnetic_time;
  if (!(load > 1))
    return 0;
  return (load * load - 1) / heating;
}

double
hob_thermostat_on_time (double tau, double hot, double low, double high)
{
  return tau * log ((hot - low) / (hot - high));
}

double
hob_thermostat_off_time (double tau, double ambient, double low, double high)
{
  return tau * log ((high - ambient) / (low - ambient));
}

/* Magnus, with the constants of the WMO guide to instruments (CIMO), over water. */
double
hob_vapour_pressure (double kelvin)
{
  double t = kelvin - zero_celsius;

  return 611.2 * exp (17.62 * t / (243.12 + t));
}
