/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "physics/gas.h"

#include <math.h>

/* The laws of ducts as the books have them, written down again: not the solver's code. */

/* Torricelli, with Cd in the area; bent into a straight line below a pascal or so:
 * q⁴·(Δp² + 1 Pa²) = (A²·2ρ)²·Δp⁴. */
static inline double
orifice_flow (double area, double dp, double density)
{
  return copysign (area * sqrt (2 * density) * fabs (dp) / pow (dp * dp + 1, 0.25), dp);
}

/* Darcy, Δp = f·(L/D)·ρv²/2. f is 64/Re below 2,000, Haaland (1983) for steel of 45 µm (Moody
 * 1944) above 4,000, and 3u² − 2u³ of one and the rest of the other between. */
static inline double
pipe_drop (const HobDuct *duct, const HobFuel *fuel, double q)
{
  double area = G_PI / 4 * duct->bore * duct->bore, v = fabs (q) / (fuel->density * area);
  double re = v * duct->bore * fuel->density / fuel->viscosity;
  double laminar, haaland, u, f;

  if (re <= 0)
    return 0;
  laminar = 64 / re;
  haaland = pow (-1.8 * log10 (pow (45e-6 / duct->bore / 3.7, 1.11) + 6.9 / re), -2);
  u = CLAMP ((re - 2000) / 2000, 0, 1);
  f = laminar + (haaland - laminar) * u * u * (3 - 2 * u);
  return copysign (f * duct->length / duct->bore * fuel->density * v * v / 2, q);
}
