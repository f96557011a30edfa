/* SPDX-License-Identifier: GPL-3.0-or-later */

/* How much of the ring of a surface burner burns.
 *
 * What comes out of the head is shared among its open ports and the gap under a cap that is off
 * its seat.  At the angle φ from the electrode, an opening gets
 *
 *   l(φ) = l·(1 + s·cos φ),   l = heat/(A_ports·(1 − blocked) + A_gap)
 *
 * W/mm².  The spread s is that of normal ports and grows with the share g of the gap, which lies on
 * the side of the electrode:  s = 0.25 + 0.7·g.  The metal of a port takes the heat of a flame that
 * is too small: it holds from l(φ) = l0 on, and so from cos φ0 = (l0/l − 1)/s,
 *
 *   ring = (1 − blocked)·φ0/π,   gas that burns = (φ0 + s·sin φ0)/π
 *
 * l0 is 0.35 W/mm² in fresh air; in air that has lost oxygen, as much more as the flame burns
 * slower.  A cap of the diameter D that is lifted by h at one side opens A_gap = π·D·h/2.  All
 * figures are this project's: a normal burner at LOW has 0.68 to 2.2 W/mm². */

#include "parts/burner-top.h"

#define SPREAD 0.25      /* of normal ports */
#define TILT 0.7         /* more where all comes out of the gap */
#define HOLDS_FROM 0.35  /* W/mm² */
#define CAP_OF_PORTS 4.2 /* D over the width of the hole that has the ports' area */
#define MOST_LIFT 12e-3  /* m: beyond that, the base is open */
#define SMOTHERED 0.5    /* share by which the air fails that a wide gap's flame should get */

static double
gap_area (const HobPartContext *c)
{
  double lift = fmin (c->set[HOB_TOP_CAP_LIFT], MOST_LIFT);

  return G_PI / 2 * CAP_OF_PORTS * c->set[HOB_BURNER_PORTS] * lift;
}

static double
port_area (const HobPartContext *c)
{
  double width = c->set[HOB_BURNER_PORTS];

  return G_PI / 4 * width * width * (1 - c->set[HOB_TOP_BLOCKED]);
}

static double
gap_share (const HobPartContext *c)
{
  double gap = gap_area (c);

  return gap / (gap + port_area (c));
}

/* Blocked ports hold the jet back.  A gap doesn't help it: the throat of the venturi is made for
 * the ports alone. */
double
hob_ring_primary_air (const HobPartContext *c)
{
  double ratio = c->set[HOB_BURNER_PORTS] / c->set[HOB_BURNER_ORIFICE];
  double open = 1 - c->set[HOB_TOP_BLOCKED];

  return hob_primary_air (c->house->fuel, ratio * ratio * open, 1) * c->set[HOB_BURNER_SHUTTER];
}

double
hob_ring_aeration (const HobPartContext *c)
{
  double air = hob_flame_aeration (c->house->fuel, hob_ring_primary_air (c),
                                   c->within[HOB_PLACE_OXYGEN]);

  return air * (1 - SMOTHERED * gap_share (c));
}

double
hob_ring_loading (const HobPartContext *c)
{
  return c->q[0] * c->house->fuel->heat / ((port_area (c) + gap_area (c)) * 1e6);
}

static double
spread (const HobPartContext *c)
{
  return SPREAD + TILT * gap_share (c);
}

/* l0, W/mm² */
static double
holds_from (const HobPartContext *c)
{
  return HOLDS_FROM / hob_flame_slowed (c->within[HOB_PLACE_OXYGEN]);
}

/* φ0 */
static double
angle (const HobPartContext *c)
{
  double loading = hob_ring_loading (c);
  double cosine = loading > 0 ? (holds_from (c) / loading - 1) / spread (c) : 1;

  return cosine <= -1 ? G_PI : cosine >= 1 ? 0 : acos (cosine);
}

double
hob_ring_holds (const HobPartContext *c)
{
  return angle (c) / G_PI;
}

double
hob_ring_share (const HobPartContext *c)
{
  return hob_ring_holds (c) * (1 - c->set[HOB_TOP_BLOCKED]);
}

double
hob_ring_burns (const HobPartContext *c)
{
  double phi = angle (c);

  return phi < G_PI ? (phi + spread (c) * sin (phi)) / G_PI : 1;
}

/* m/s at @loading W/mm². */
static double
stream (const HobPartContext *c, double loading)
{
  const HobFuel *fuel = c->house->fuel;

  return loading * 1e6 / (fuel->heat * fuel->density) * (1 + hob_ring_primary_air (c));
}

static double
flame_speed (const HobPartContext *c)
{
  double slowed = hob_flame_slowed (c->within[HOB_PLACE_OXYGEN]);

  return slowed * hob_burning_velocity (hob_aeration (c->house->fuel, hob_ring_primary_air (c)));
}

double
hob_ring_flashes (const HobPartContext *c)
{
  return flame_speed (c) - stream (c, hob_ring_loading (c));
}

/* The stream then passes through the loading at which the last flames go out. */
gboolean
hob_ring_pops (const HobPartContext *c)
{
  double last = holds_from (c) / (1 + spread (c) * cos (G_PI * HOB_RING_LEAST));

  return flame_speed (c) > stream (c, last);
}
