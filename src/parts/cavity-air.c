/* SPDX-License-Identifier: GPL-3.0-or-later */

/* What fills the oven, the burner compartment below its bottom, and the drawer.
 *
 *   ṁ = vent·√(|b_flue|·T_v/T_flue) + door·√|b|
 *   b = (T_center − T_room + T_room·x·(1 − SG))/150 K,   T_v = T_room + 150 K
 *   b_flue = b + r/150 K,   T_flue = T_center + r,   dr/dt = (250 K·P/5,275 W − r)/30 s
 *
 * b is the buoyancy of what fills the oven: a share x of gas of specific gravity SG makes it as
 * much lighter as so much heat would.  In the flue a flame of P makes it hotter yet, by r, as the
 * flue warms up; its pull goes with the difference in density.  The draft passes two openings, the
 * slots in the oven bottom and the vent.  It loses a tenth of its pressure at the slots while both
 * are free, and so comes to
 *
 *   vent = 4.0 g/s/√(0.9/a_vent² + 0.1/a_slots²)
 *
 * with the shares a that are open.  Where b < 0, as with propane in a cold oven, it sinks: out
 * through the oven bottom into the drawer, where it stays.
 *
 * A flame takes its air from the burner compartment.  Some of the oven's own products come down
 * into that, through the slots, and more with the vent covered.  Foil on the oven bottom keeps them
 * up there, but it keeps the flame's products below: what cannot rise in time runs back along the
 * bottom and feeds the flame again.  So with d that which is missing of the oxygen in the oven, and
 * b of that in what leaves the compartment, the flame's air is short of
 *
 *   0.12·(1 − foil)·d + 0.14·covered·d + 0.36·foil·b
 *
 * The compartment is small: 15 L, replaced in seconds.  What passes the slots is the flue's draft,
 * or what the flames lift by themselves if that is more; the rest of it is air that comes down from
 * the oven:
 *
 *   ṁ_slots = max (ṁ_vent, 4.0 g/s·√(r_now/2/150 K·T_v/T_flue)·a_slots/√0.1)
 *   db/dt   = (min ((burnt + (ṁ_slots − ṁ_vent)·d)/ṁ_slots, fresh) − b)/5 s
 *
 * where r_now is what r tends to: there is no flue that must warm up first.  Burning on, with the
 * door closed, b and d come to the same.  An open door thins the oven alone.  Without foil b feeds
 * nothing, and is left at 0.
 *
 * Where too little oxygen is left over, part of the flame rolls out at the front of the burner
 * compartment and burns in the kitchen.  So a starved oven keeps a small flame and does not fill
 * with gas: its igniter glows, and what can burn in there does.
 *
 * Unburned gas above its lean limit goes off at a flame, or at an igniter that is hot enough for
 * it, as much of it as there is oxygen for, unless it is above the rich limit.  The pressure opens
 * the door: nine tenths of the energy and all of what the oven held go out there.  So it is with
 * the drawer, whose flame burns in the kitchen: its air is from there. */

#include "parts/cavity.h"
#include "physics/flame.h"

/* kg/s. */
#define VENT 4.0e-3       /* with what is 150 K above the room, or sinks as much */
#define DOOR_FLOW 30e-3   /* through the open door, at 150 K above the room */
#define COVERS 0.9        /* share of the draft that a covered vent stops: seams leak the rest */
#define FOIL_COVERS 0.7   /* the same of the slots in the oven bottom: foil leaves its edges free */
#define AT_SLOTS 0.1      /* share of the draft's pressure that the free slots take */
#define FLUE_RISE 250.0   /* K by which a flame of FLUE_POWER heats what rises in the flue … */
#define FLUE_POWER 5275.0 /* W: 18,000 Btu/h */
#define FLUE_LAG 30.0     /* s … once the flue is warm */
/* Share of the warm flue's pull that the compartment has by itself: 0.15 m of a flame's gases a
 * thousand kelvin hotter against 0.5 m of 250 K. */
#define BELOW_PULLS 0.5
#define BELOW_LAG 5.0 /* s in which 15 L of the compartment are replaced */

/* Shares of what feeds a flame that are products: those of the oven, and with foil its own. */
#define OWN_PRODUCTS 0.12
#define OWN_BY_FOIL 0.36  /* with all slots covered */
#define OWN_BY_VENT 0.14  /* more with the vent covered */
#define OXYGEN_LEFT 0.01  /* share of oxygen left over below which some gas finds none */
#define ROLLED_WARM 400.0 /* K above the room of what a flame that rolls out licks */

/* m³/s of what diffuses out of a cold oven, and through its open door, and out of the drawer: from
 * a pan of the depth d that is open above, π²·D·V/4d², with D 11 mm²/s for propane in air (from
 * memory) and d 0.2 m. */
#define STILL 0.02e-3
#define STILL_DOOR 2e-3
#define STILL_DRAWER 0.03e-3
#define FALLS 0.5       /* share of a heavy gas let out cold that falls into the drawer … */
#define FALLS_LESS 30.0 /* K by which warmer air lets a third of that fall */
#define BLOWN_OUT 10.0  /* 1/s by which a blast replaces what the oven holds */
#define BLAST_TIME 0.3  /* s */

/* Volume of gas in the oven, vol/vol. */
static double
gas_volume (const HobPartContext *c)
{
  return MAX (c->y[HOB_CAVITY_GAS], 0) / c->house->fuel->density / c->set[HOB_CAVITY_VOLUME];
}

/* b: > 0 what fills the oven rises, < 0 it sinks. */
static double
buoyancy (const HobPartContext *c)
{
  double lighter = 1 - c->house->fuel->specific_gravity;

  return (hob_cavity_centre (c) - hob_cavity_kitchen (c)
          + hob_cavity_kitchen (c) * gas_volume (c) * lighter)
         / 150;
}

/* b_flue */
static double
draft (const HobPartContext *c)
{
  return buoyancy (c) + c->y[HOB_CAVITY_RISE] / 150;
}

/* a_slots */
static double
slots (const HobPartContext *c)
{
  return 1 - FOIL_COVERS * CLAMP (c->set[HOB_CAVITY_FOIL], 0, 1);
}

/* What holds back the draft that passes the slots and the vent, as a share of the vent. */
static double
holds (const HobPartContext *c)
{
  double a_vent = 1 - COVERS * CLAMP (c->set[HOB_CAVITY_BLOCKED], 0, 1), a_slots = slots (c);

  return (1 - AT_SLOTS) / (a_vent * a_vent) + AT_SLOTS / (a_slots * a_slots);
}

/* T_v/T_flue */
static double
thins (const HobPartContext *c)
{
  return (hob_cavity_kitchen (c) + 150) / (hob_cavity_centre (c) + c->y[HOB_CAVITY_RISE]);
}

/* kg/s through the vent, up or down. */
static double
flue (const HobPartContext *c)
{
  double rises = draft (c) > 0 ? thins (c) : 1;

  return VENT * sqrt (fabs (draft (c)) * rises / holds (c));
}

/* kg/s of warm air out of the vent. */
static double
warm_air (const HobPartContext *c)
{
  return draft (c) > 0 ? flue (c) : 0;
}

/* Share of that which finds the vent covered and leaves by the seams around the door instead. */
static double
by_seams (const HobPartContext *c)
{
  double blocked = CLAMP (c->set[HOB_CAVITY_BLOCKED], 0, 1);

  return (1 - COVERS) * blocked / (1 - COVERS * blocked);
}

/* kg/s of room air through the cavity. */
double
hob_cavity_vent (const HobPartContext *c)
{
  return flue (c) + DOOR_FLOW * sqrt (fabs (buoyancy (c))) * hob_cavity_door_open (c);
}

/* kg/s that leak past the gasket of a closed door, and by its seams. */
static double
edge (const HobPartContext *c)
{
  double pull = sqrt (MAX (buoyancy (c), 0)), open = hob_cavity_door_open (c);

  return open < 1 ? DOOR_FLOW * pull * open + warm_air (c) * by_seams (c) : 0;
}

/* ---- Blasts ---- */

/* 1/s by which what goes off leaves where it was, burned or thrown out. */
static double
blast_speed (const HobPartContext *c)
{
  return c->mode[HOB_CAVITY_BLASTING] > 0 ? HOB_AIR_GOES / BLAST_TIME : 0;
}

/* Share of it that burns; 0: nothing goes off there. */
static double
burnt_share (const HobPartContext *c, int blast, int of)
{
  return c->mode[blast] > 0 ? c->mode[blast] / c->mode[of] : 0;
}

/* kg/s that burn in the oven, and of the drawer's gas. */
static double
blast_rate (const HobPartContext *c)
{
  return blast_speed (c) * burnt_share (c, HOB_CAVITY_BLAST, HOB_CAVITY_BLAST_OF)
         * c->y[HOB_CAVITY_GAS];
}

static double
drawer_blast_rate (const HobPartContext *c)
{
  return blast_speed (c) * burnt_share (c, HOB_CAVITY_DRAWER_BLAST, HOB_CAVITY_DRAWER_OF)
         * c->y[HOB_CAVITY_DRAWER];
}

double
hob_cavity_blast (const HobPartContext *c)
{
  return blast_rate (c) + drawer_blast_rate (c);
}

/* ---- What fills the oven ---- */

static HobAir
there (const HobPartContext *c)
{
  return (HobAir){ .gas = c->y[HOB_CAVITY_GAS],
                   .oxygen = c->y[HOB_CAVITY_OXYGEN],
                   .burnt = c->y[HOB_CAVITY_BURNT],
                   .co = c->y[HOB_CAVITY_CO] };
}

static double
moles (const HobPartContext *c)
{
  return hob_air_moles (c->house, c->set[HOB_CAVITY_VOLUME], hob_cavity_centre (c));
}

/* Share of the unburned gas that falls into the drawer before it gets into the oven. */
static double
share_falls (const HobPartContext *c)
{
  double warm = MAX (hob_cavity_centre (c) - hob_cavity_kitchen (c), 0);

  return c->house->fuel->specific_gravity > 1 ? FALLS * exp (-warm / FALLS_LESS) : 0;
}

/* kg/s of it. */
static double
falls (const HobPartContext *c)
{
  return share_falls (c) * c->place[HOB_PLACE_UNBURNT];
}

/* m³/s that fall there: that gas in the air which its jet drew in. */
static double
falling (const HobPartContext *c)
{
  const HobFuel *fuel = c->house->fuel;
  double drawn = c->place[HOB_PLACE_DRAWN] * hob_fuel_mole (fuel);

  return c->place[HOB_PLACE_UNBURNT] > 0
             ? share_falls (c) * (c->place[HOB_PLACE_UNBURNT] + drawn) / fuel->density
             : 0;
}

/* How what fills the oven is replaced. */
typedef struct
{
  double n;     /* mol in it */
  double in;    /* mol/s of room air */
  double share; /* 1/s, what leaves … */
  double gas;   /* 1/s … and of the gas … */
  double down;  /* 1/s … and the part of that which sinks into the drawer */
  double made;  /* mol/s of fuel burnt */
} Turnover;

/* With its air warming by @warming K/s. */
static Turnover
turnover (const HobPartContext *c, double warming)
{
  const HobFuel *fuel = c->house->fuel;
  Turnover t = { .n = moles (c) };
  double still = (STILL + STILL_DOOR * hob_cavity_door_open (c)) / c->set[HOB_CAVITY_VOLUME];
  double goes_off = blast_speed (c) * (c->mode[HOB_CAVITY_BLAST] > 0);
  double blown = goes_off > 0 ? BLOWN_OUT : 0;
  double gas = (c->place[HOB_PLACE_UNBURNT] - falls (c)) / hob_fuel_mole (fuel);

  t.made = (c->place[HOB_PLACE_BURNT] + blast_rate (c)) / hob_fuel_mole (fuel);
  t.in = hob_cavity_vent (c) / HOB_AIR_MOLE + c->place[HOB_PLACE_DRAWN] + (still + blown) * t.n;
  t.share = hob_air_out (fuel, &t.in, gas, t.made, -t.n * warming / hob_cavity_centre (c)) / t.n;
  t.gas = goes_off > 0 ? goes_off * (1 - burnt_share (c, HOB_CAVITY_BLAST, HOB_CAVITY_BLAST_OF))
                       : t.share;
  t.down = warm_air (c) > 0 ? 0 : MIN (t.gas, flue (c) / HOB_AIR_MOLE / t.n);
  return t;
}

/* kg/s out of the drawer.  It is a pan: what is heavier than what lies there fills it and pushes as
 * much out, but what is lighter passes over it and leaves as it came. */
static double
drawer_out (const HobPartContext *c, Turnover t)
{
  double lies = c->y[HOB_CAVITY_DRAWER] / c->set[HOB_CAVITY_DRAWER_VOLUME],
         sinks = c->y[HOB_CAVITY_GAS] / c->set[HOB_CAVITY_VOLUME];
  double burnt = burnt_share (c, HOB_CAVITY_DRAWER_BLAST, HOB_CAVITY_DRAWER_OF);
  double thrown = burnt > 0 ? blast_speed (c) * (1 - burnt) * c->y[HOB_CAVITY_DRAWER] : 0;

  return lies * (falling (c) + STILL_DRAWER)
         + MIN (lies, sinks) * t.down * c->set[HOB_CAVITY_VOLUME] + thrown;
}

/* kg/s into the drawer from the air at the floor, where a heavy gas lies: as much of that moves in
 * as moves out. */
static double
drawer_in (const HobPartContext *c)
{
  return c->within[HOB_PLACE_GAS_LOW] * STILL_DRAWER;
}

/* kg/s of unburned gas out to the kitchen. */
static double
escape (const HobPartContext *c, Turnover t)
{
  return c->y[HOB_CAVITY_GAS] * (t.gas - t.down) + drawer_out (c, t);
}

/* Flames that roll out burn in the kitchen, yellow. */
static void
roll_out (const HobPartContext *c)
{
  const HobFuel *fuel = c->house->fuel;
  double rolled = c->place[HOB_PLACE_ROLLED];

  if (rolled == 0)
    return;
  c->within[HOB_PLACE_HEAT] += rolled * fuel->heat;
  c->within[HOB_PLACE_BURNT] += rolled;
  c->within[HOB_PLACE_CO] += rolled / hob_fuel_mole (fuel) * fuel->carbon
                             * hob_flame_co (c->within[HOB_PLACE_OXYGEN], 1, 0, 1, ROLLED_WARM);
}

static void
fill_rates (const HobPartContext *c, double warming)
{
  const HobFuel *fuel = c->house->fuel;
  Turnover t = turnover (c, warming);
  double lost = escape (c, t), burnt = blast_rate (c), share = c->within[HOB_PLACE_OXYGEN];
  HobAir d = hob_air_rates (fuel, there (c), t.n, t.share * t.n, t.made, c->place[HOB_PLACE_CO]);

  c->dy[HOB_CAVITY_GAS]
      = c->place[HOB_PLACE_UNBURNT] - falls (c) - t.gas * c->y[HOB_CAVITY_GAS] - burnt;
  c->dy[HOB_CAVITY_DRAWER] = drawer_in (c) + falls (c) + t.down * c->y[HOB_CAVITY_GAS]
                             - drawer_out (c, t) - drawer_blast_rate (c);
  c->dy[HOB_CAVITY_OXYGEN] = d.oxygen + share * t.in;
  c->dy[HOB_CAVITY_BURNT] = d.burnt;
  c->dy[HOB_CAVITY_CO] = d.co;
  hob_air_carry (c->within, there (c), t.n, t.share * t.n);
  c->within[HOB_PLACE_CARRIED_OXYGEN] -= share * t.in;
  c->within[HOB_PLACE_UNBURNT] += lost;
  c->within[HOB_PLACE_CREEPS] += drawer_in (c);
  c->within[HOB_PLACE_BURNT] += drawer_blast_rate (c);
  c->ledger[HOB_LEDGER_GAS_BURNT] += burnt + drawer_blast_rate (c);
  c->ledger[HOB_LEDGER_GAS_ESCAPED] += lost;
  c->ledger[HOB_LEDGER_OXYGEN]
      += 2 * share * t.in - t.share * hob_air_oxygen_atoms (fuel, there (c));
  c->ledger[HOB_LEDGER_PRODUCTS_OUT] += t.share * c->y[HOB_CAVITY_BURNT];
}

/* Share of oxygen that the oven has less than the kitchen. */
static double
missing (const HobPartContext *c)
{
  return c->within[HOB_PLACE_OXYGEN] - MAX (c->y[HOB_CAVITY_OXYGEN], 0) / moles (c);
}

/* kg/s that burn below the oven bottom. */
static double
burns_below (const HobPartContext *c)
{
  double heat = c->place[HOB_PLACE_HEAT];
  double above = heat > 0 ? c->place[HOB_PLACE_HEAT_ABOVE] / heat : 0;

  return c->place[HOB_PLACE_BURNT] * (1 - above);
}

/* K by which what burns heats what rises in the flue, in the end. */
static double
heats_flue (const HobPartContext *c, double burns)
{
  return FLUE_RISE * burns * c->house->fuel->heat / FLUE_POWER;
}

/* kg/s up through the slots: the draft, or what flames that burn @burns kg/s lift by themselves. */
static double
through_slots (const HobPartContext *c, double burns)
{
  double pull = BELOW_PULLS * heats_flue (c, burns) / 150 * thins (c);

  return MAX (warm_air (c), VENT * sqrt (pull / AT_SLOTS) * slots (c));
}

/* What b tends to. */
static double
missing_below (const HobPartContext *c)
{
  const HobFuel *fuel = c->house->fuel;
  double gas = c->set[HOB_CAVITY_FOIL] > 0 ? burns_below (c) : 0;

  if (!(gas > 0))
    return 0;

  double through = through_slots (c, gas) / HOB_AIR_MOLE;
  double burns = gas / hob_fuel_mole (fuel) * hob_fuel_oxygen (fuel);
  double comes_down = through - warm_air (c) / HOB_AIR_MOLE;
  double gone = (burns + comes_down * MAX (missing (c), 0)) / through;

  return MIN (gone, c->within[HOB_PLACE_OXYGEN]);
}

/* What a flame's air has left of its oxygen, after it took in some of the oven's products. */
void
hob_cavity_give_oxygen (const HobPartContext *c)
{
  double fresh = c->within[HOB_PLACE_OXYGEN], foil = CLAMP (c->set[HOB_CAVITY_FOIL], 0, 1);
  double above = MIN (missing (c), fresh), below = MIN (c->y[HOB_CAVITY_BELOW], fresh);
  double left = fresh - MAX (above, below);
  double own
      = OWN_PRODUCTS * (1 - foil) + OWN_BY_VENT * CLAMP (c->set[HOB_CAVITY_BLOCKED], 0, 1);

  c->place[HOB_PLACE_OXYGEN] = fresh - own * above - OWN_BY_FOIL * foil * below;
  c->place[HOB_PLACE_BURNABLE]
      = fmin (left / OXYGEN_LEFT, 1) * hob_flame_share (c->place[HOB_PLACE_OXYGEN]);
}

void
hob_cavity_air_rates (const HobPartContext *c, double warming)
{
  fill_rates (c, warming);
  c->dy[HOB_CAVITY_RISE]
      = (heats_flue (c, c->place[HOB_PLACE_BURNT]) - c->y[HOB_CAVITY_RISE]) / FLUE_LAG;
  c->dy[HOB_CAVITY_BELOW] = (missing_below (c) - c->y[HOB_CAVITY_BELOW]) / BELOW_LAG;
  roll_out (c);
}

/* Volume of gas in the drawer, vol/vol. */
static double
drawer_volume (const HobPartContext *c)
{
  return c->y[HOB_CAVITY_DRAWER] / c->house->fuel->density / c->set[HOB_CAVITY_DRAWER_VOLUME];
}

/* > 0: something sets off what the oven holds, or the drawer. */
double
hob_cavity_sets_off (const HobPartContext *c)
{
  const HobFuel *fuel = c->house->fuel;
  double oven = hob_air_explosive (fuel, gas_volume (c));
  double drawer = hob_air_explosive (fuel, drawer_volume (c));

  if (c->place[HOB_PLACE_BURNT] > 0)
    return MAX (oven, drawer);
  if (oven <= 0)
    return oven;
  return MIN (oven, c->place[HOB_PLACE_HOT] / hob_hot_surface_ignition (fuel, gas_volume (c)) - 1);
}

/* kg of the oven's gas that there is oxygen for, and of the drawer's, where what is no gas is the
 * kitchen's air. */
static double
blasts (const HobPartContext *c)
{
  return hob_air_goes_off (c->house->fuel, gas_volume (c), c->y[HOB_CAVITY_GAS],
                           c->y[HOB_CAVITY_OXYGEN]);
}

static double
drawer_blasts (const HobPartContext *c)
{
  double x = drawer_volume (c);
  double n = hob_air_moles (c->house, c->set[HOB_CAVITY_DRAWER_VOLUME], hob_cavity_kitchen (c));

  return hob_air_goes_off (c->house->fuel, x, c->y[HOB_CAVITY_DRAWER],
                           c->within[HOB_PLACE_OXYGEN] * (1 - x) * n);
}

static double
charge (const HobPartContext *c, double volume)
{
  return volume * c->house->fuel->density / (1 + c->house->fuel->air);
}

/* The oven by itself bangs, the door thrown open, and so does the drawer; with most of the oven
 * full, or two of oven, drawer and burner compartment together, it explodes. */
static HobBurst
burst (const HobPartContext *c)
{
  double full = charge (c, c->set[HOB_CAVITY_VOLUME]);
  gboolean oven = blasts (c) >= 0.1 * full;
  gboolean drawer = drawer_blasts (c) >= 0.1 * charge (c, c->set[HOB_CAVITY_DRAWER_VOLUME]);
  gboolean box = c->place[HOB_PLACE_BURST] > 0;

  if (!oven && !drawer)
    return HOB_BURST_NONE;
  return blasts (c) > 0.5 * full || oven + drawer + box > 1 ? HOB_BURST_EXPLOSION : HOB_BURST_BANG;
}

void
hob_cavity_go_off (const HobPartContext *c)
{
  c->mode[HOB_CAVITY_BLASTING] = 1;
  c->mode[HOB_CAVITY_BLAST] = blasts (c);
  c->mode[HOB_CAVITY_BLAST_OF] = c->y[HOB_CAVITY_GAS];
  c->mode[HOB_CAVITY_DRAWER_BLAST] = drawer_blasts (c);
  c->mode[HOB_CAVITY_DRAWER_OF] = c->y[HOB_CAVITY_DRAWER];
  c->mode[HOB_CAVITY_BURST] = burst (c);
  c->mode[HOB_CAVITY_BLAST_AT] = *c->t;
}

double
hob_cavity_blast_ends (const HobPartContext *c)
{
  return c->mode[HOB_CAVITY_BLASTING] > 0 ? *c->t - c->mode[HOB_CAVITY_BLAST_AT] - BLAST_TIME : -1;
}

double
hob_cavity_observe_air (const HobPartContext *c, int quantity, double warming)
{
  const HobFuel *fuel = c->house->fuel;
  double dry = hob_air_dry (fuel, there (c), moles (c));

  switch (quantity)
    {
    case HOB_CAVITY_Q_VENT:
      return warm_air (c) * (1 - by_seams (c));
    case HOB_CAVITY_Q_EDGE:
      return edge (c);
    case HOB_CAVITY_Q_GAS:
      return gas_volume (c) / fuel->lean;
    case HOB_CAVITY_Q_SMELL:
      return escape (c, turnover (c, warming));
    case HOB_CAVITY_Q_DRAWER:
      return drawer_volume (c) / fuel->lean;
    case HOB_CAVITY_Q_OXYGEN:
      return c->y[HOB_CAVITY_OXYGEN] / dry;
    case HOB_CAVITY_Q_CO:
      return hob_air_co_air_free (fuel, there (c), moles (c));
    default:
      return c->y[HOB_CAVITY_CO] / dry;
    }
}

double
hob_cavity_stored_gas (const HobPartContext *c)
{
  return c->y[HOB_CAVITY_GAS] + c->y[HOB_CAVITY_DRAWER];
}

void
hob_cavity_stored_air (const HobPartContext *c, double *oxygen, double *burnt)
{
  *oxygen = hob_air_oxygen_atoms (c->house->fuel, there (c));
  *burnt = c->y[HOB_CAVITY_BURNT];
}
