/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "base/i18n.h"
#include "parts/air.h"
#include "physics/flame.h"

#include <math.h>

/* What surface and oven burners share: an orifice, a flame or none, gas that flows or not, and the
 * puff in which gas that has gathered burns off. */

G_BEGIN_DECLS

#define HOB_BURNER_FLOWS 0.10   /* Pa at the orifice: gas flows … */
#define HOB_BURNER_STOPS 0.05   /* … and has stopped */
#define HOB_BURNER_DILUTION 0.7 /* of the primary mixture on its way to what lights it, in place */
#define HOB_PUFF_TIME 0.3       /* s in which gathered gas burns */
#define HOB_PUFF_HEARD 5.0      /* s for which the sound of lighting counts as the last one */

/* The settings and modes that a burner begins with. */
enum
{
  HOB_BURNER_ORIFICE,
  HOB_BURNER_PORTS,
  HOB_BURNER_SHUTTER,
  HOB_BURNER_DISCHARGE,
  HOB_BURNER_N_SETTINGS
};
enum
{
  HOB_BURNER_FLAME,       /* 0 or 1 */
  HOB_BURNER_FLOWING,     /* 0 or 1: gas comes out of the orifice */
  HOB_BURNER_SINCE,       /* s, when it began to */
  HOB_BURNER_UNLIT_SINCE, /* s, when it began to without a flame */
  HOB_BURNER_N_MODES
};

/* The three modes of a puff, in this order; the kind says where. */
enum
{
  HOB_PUFF_BURNS, /* 0 or 1 */
  HOB_PUFF_GAS,   /* kg that had gathered */
  HOB_PUFF_AT,    /* s, when it was lit */
  HOB_PUFF_N_MODES
};

/* What the flame yields is read by these quantities. */
#define HOB_BURNER_MODES(heat, yellow, lift)                                                      \
  { .name = "flame", .words = hob_flame_words,                                                    \
    .yields = { 1 + (heat), 1 + (yellow), 1 + (lift) } },                                         \
  { .name = "flowing", .words = hob_flow_words },                                                 \
  { .name = "since" },                                                                            \
  { .name = "unlit-since" }
#define HOB_PUFF_MODES { .name = "puffing" }, { .name = "puff" }, { .name = "lit-at" }

extern const char *const hob_flame_words[], *const hob_flow_words[]; /* in kind.c */

/* ---- Flame and gas ---- */

static inline gboolean
hob_burner_lit (const HobPartContext *c)
{
  return c->mode[HOB_BURNER_FLAME] > 0;
}

/* W */
static inline double
hob_burner_heat (const HobPartContext *c)
{
  return hob_burner_lit (c) ? c->q[0] * c->house->fuel->heat : 0;
}

/* W per mm² of ports: the height of a flame goes with it. */
static inline double
hob_burner_loading (const HobPartContext *c)
{
  double width = c->set[HOB_BURNER_PORTS] * 1000;

  return hob_burner_heat (c) / (G_PI / 4 * width * width);
}

/* The same on this range while nothing is wrong with it, as its file says: a jet of width d and
 * ports of width D, fed with the manifold's pressure p of the data plate's fuel.
 *
 *   l = C·(d/D)²·√(2·ρ·p)·heat */
static inline double
hob_burner_normal_loading (const HobPartContext *c)
{
  const HobFuel *plate = c->house->plate;
  double ratio = c->filed[HOB_BURNER_ORIFICE] / c->filed[HOB_BURNER_PORTS];

  return c->filed[HOB_BURNER_DISCHARGE] * ratio * ratio
         * sqrt (2 * plate->density * c->house->manifold) * plate->heat * 1e-6;
}

/* A flame of @loading W/mm² compared with that, in percent. */
static inline double
hob_burner_height (const HobPartContext *c, double loading)
{
  if (!(loading > 0))
    return 0;
  return 100 * (c->house->manifold > 0 ? loading / hob_burner_normal_loading (c) : 1);
}

/* s */
static inline double
hob_burner_unlit (const HobPartContext *c)
{
  return c->mode[HOB_BURNER_FLOWING] > 0 && !hob_burner_lit (c)
           ? *c->t - c->mode[HOB_BURNER_UNLIT_SINCE]
           : 0;
}

/* Share of a room of @volume m³ that the mixture, with @air volumes to one of gas, has filled since
 * the gas came:  1 − exp (−t·stream/V). */
static inline double
hob_burner_fill (const HobPartContext *c, double air, double volume)
{
  double stream = c->q[0] / c->house->fuel->density * (1 + air);

  return c->mode[HOB_BURNER_FLOWING] > 0
           ? 1 - exp (-(*c->t - c->mode[HOB_BURNER_SINCE]) * stream / volume)
           : 0;
}

/* An orifice of @width m. */
static inline HobDuct
hob_burner_jet (const HobPartContext *c, double width)
{
  return (HobDuct){ .law = HOB_DUCT_ORIFICE,
                    .area = c->set[HOB_BURNER_DISCHARGE] * G_PI / 4 * width * width };
}

/* A burner is surrounded by what surrounds its place. */
static inline void
hob_burner_give (const HobPartContext *c)
{
  for (int k = HOB_PLACE_AIR; k <= HOB_PLACE_STIR; k++)
    c->place[k] = c->within[k];
  c->place[HOB_PLACE_OXYGEN] = c->within[HOB_PLACE_OXYGEN];
  c->place[HOB_PLACE_BURNABLE] = c->within[HOB_PLACE_BURNABLE];
}

/* ---- What burning makes of the air ---- */

#define HOB_BURNER_LOADED 10.0 /* W/mm² of ports that a burner is made for, at most */

/* mol/s of carbon monoxide from @burns kg/s at @loading W/mm² of the openings that its gas comes
 * out of; @warm as in hob_flame_co (). */
static inline double
hob_burner_co (const HobPartContext *c, double burns, double loading, double soot, double lift,
               double warm)
{
  const HobFuel *fuel = c->house->fuel;
  double over = loading / HOB_BURNER_LOADED;

  if (burns == 0)
    return 0;
  return burns / hob_fuel_mole (fuel) * fuel->carbon
         * hob_flame_co (c->within[HOB_PLACE_OXYGEN], soot, lift, over, warm);
}

/* > 0: gas begins to flow from port @in; > 0: it has stopped. */
static inline double
hob_burner_flows (const HobPartContext *c, int in)
{
  return c->mode[HOB_BURNER_FLOWING] > 0 ? -1 : c->p[in] / HOB_BURNER_FLOWS - 1;
}
static inline double
hob_burner_stops (const HobPartContext *c, int in)
{
  return c->mode[HOB_BURNER_FLOWING] > 0 ? 1 - c->p[in] / HOB_BURNER_STOPS : -1;
}

static inline void
hob_burner_begin_flow (const HobPartContext *c)
{
  c->mode[HOB_BURNER_FLOWING] = 1;
  c->mode[HOB_BURNER_SINCE] = c->mode[HOB_BURNER_UNLIT_SINCE] = *c->t;
}

static inline void
hob_burner_go_out (const HobPartContext *c)
{
  c->mode[HOB_BURNER_FLAME] = 0;
  c->mode[HOB_BURNER_UNLIT_SINCE] = *c->t;
}

/* ---- The puff; its modes begin at @puff ---- */

/* The flame lights, and with it the @gathered kg. */
static inline void
hob_puff_light (const HobPartContext *c, int puff, double gathered)
{
  c->mode[HOB_BURNER_FLAME] = 1;
  c->mode[puff + HOB_PUFF_AT] = *c->t;
  c->mode[puff + HOB_PUFF_GAS] = gathered;
  c->mode[puff + HOB_PUFF_BURNS] = gathered > 0;
}

/* Does it burn now? */
static inline gboolean
hob_puff_burns (const HobPartContext *c, int puff)
{
  return c->mode[puff + HOB_PUFF_BURNS] > 0;
}

/* kg/s */
static inline double
hob_puff_rate (const HobPartContext *c, int puff)
{
  return hob_puff_burns (c, puff) ? c->mode[puff + HOB_PUFF_GAS] / HOB_PUFF_TIME : 0;
}

/* It has burned off, and has left nothing that rounding made. */
static inline void
hob_puff_end (const HobPartContext *c, int puff, double *gathered)
{
  c->mode[puff + HOB_PUFF_BURNS] = 0;
  *gathered = MAX (*gathered, 0);
}

/* > 0: it has burned off. */
static inline double
hob_puff_ends (const HobPartContext *c, int puff)
{
  return c->mode[puff + HOB_PUFF_BURNS] > 0 ? *c->t - c->mode[puff + HOB_PUFF_AT] - HOB_PUFF_TIME
                                            : -1;
}

/* J that went off with the last lighting, for some seconds. */
static inline double
hob_puff_energy (const HobPartContext *c, int puff)
{
  double at = c->mode[puff + HOB_PUFF_AT];
  gboolean heard = at > 0 && *c->t - at < HOB_PUFF_HEARD;

  return heard ? c->mode[puff + HOB_PUFF_GAS] * c->house->fuel->heat : 0;
}

/* How hard @gas kg went off in an enclosure of @volume m³, by its share of what that holds of the
 * best mixture.  Under 0.16 nobody minds: a normal lighting.  These bounds are this project's: with
 * 18,000 Btu/h into 15 L they are 1.7, 2.6 and 5 s of gas, 10 s fill it. */
static inline HobBurst
hob_burst_of (const HobFuel *fuel, double gas, double volume)
{
  double share = gas / (fuel->density * volume / (1 + fuel->air));

  return share < 0.16   ? HOB_BURST_NONE
         : share < 0.25 ? HOB_BURST_PUFF
         : share < 0.5  ? HOB_BURST_WHOOSH
                        : HOB_BURST_BANG;
}

/* @gas kg in @volume m³ as a share of the leanest mixture that burns. */
static inline double
hob_gas_share (const HobFuel *fuel, double gas, double volume)
{
  return gas / fuel->density / volume / fuel->lean;
}

/* That of the last lighting, for some seconds. */
static inline HobBurst
hob_puff_burst (const HobPartContext *c, int puff, double volume)
{
  return hob_puff_energy (c, puff) > 0
             ? hob_burst_of (c->house->fuel, c->mode[puff + HOB_PUFF_GAS], volume)
             : HOB_BURST_NONE;
}

G_END_DECLS
