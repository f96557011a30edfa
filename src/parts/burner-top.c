/* SPDX-License-Identifier: GPL-3.0-or-later */

/* Surface burner: orifice, venturi, burner head with ports, and cap.  The orifice draws in
 * primary air.  The mixture fills the head in about a third of a second and comes out at the
 * tip of the electrode.  There a pulse lights it if the mixture is within its limits and the
 * spark has enough energy for that mixture and gap; in a stream that is 1 to 1.4 times the
 * least energy, pulse by pulse.  The spark jumps to the cap.  Unlit gas rises into the room:
 *
 *   dm/dt = q − m/τ − what burns
 *
 * Single pulses matter only while an unlit mixture that can burn surrounds the tip; only then
 * are they waited for one by one.  Figures invented for a believable appliance: 0.0520 in.
 * gives 9,500 Btu/h of natural gas at 5 in. w.c. */

#include "parts/burner.h"
#include "parts/symbol.h"
#include "parts/pulse.h"

enum { IN };
enum { HEAD = HOB_BURNER_N_SETTINGS, CAP_AWAY, CAP_FILM, CLOGGED };
enum { GATHERED };
enum
{
  WAITING = HOB_BURNER_N_MODES, /* 0 or 1: single pulses matter */
  NEXT_PULSE,                   /* the pulse that is waited for */
  PUFF,
  STOOD = PUFF + HOB_PUFF_N_MODES, /* height of the flame before it last changed, W/mm² */
  STEP_AT,                         /* s, when it did */
  STEP_FROM                        /* W/mm², height before the changes that are seen as one */
};
enum { G_OUT, G_FLOWS, G_STOPS, G_WAITS, G_LEAVES, G_PULSE, G_PUFFED, G_STEP, N_GUARDS };
enum
{
  Q_FLAME,
  Q_HEAT,
  Q_GAS,
  Q_GATHERED,
  Q_LIGHT_ENERGY,
  Q_BURST,
  Q_NEARBY,
  Q_UNLIT,
  Q_UNBURNT,
  Q_YELLOW,
  Q_LIFT,
  Q_LOADING,
  Q_SANK
};

#define LIGHTS_ABOVE 10.0 /* Pa at the orifice, below which no flame lights … */
#define DIES_BELOW 5.0    /* … or keeps burning */
#define TIP_AWAY 3.0  /* times that dilution more at offset 1 */
#define CLOG_NEAR 2.0 /* air for each part of mixture that a clogged port adds at its edge … */
#define CLOG_FAR 4.0  /* … and at the tip: both invented */
#define STREAM 0.4    /* share by which a stream may need more than the least energy */
#define STREAM_COUNT (1 << 22) /* first count of the hash of what a pulse meets */
#define AROUND 10e-3 /* m³ around the burner in which gas gathers */
#define AS_IN 15e-3  /* m³ of a compartment in which as much gas lights as hard */
#define MOST_BURST HOB_BURST_WHOOSH /* in the open nothing holds the pressure */
#define AIRED_IN 10.0          /* s, τ: unlit gas rises into the room */
#define STEP 0.04               /* share of its height by which a flame must change to be noticed */
#define SEEN_FOR 5.0           /* s for which a flame that sank counts as just sunk */
#define LARGE_BURNER 4400.0    /* W whose flame is drawn at full height */
#define FLAME_ABOVE 1200.0     /* K of the flame above the room */

static const HobPortDef ports[] = {
  { .name = "in", .words = N_ ("gas from its valve"), .required = TRUE, .way = HOB_WAY_IN,
    .x = -40 },
};

static const HobSettingDef settings[] = {
  { .name = "orifice", .words = N_ ("Orifice diameter."), .dim = HOB_DIM_LENGTH,
    .normal = 0.0520 * 0.0254, .low = 0.2e-3, .high = 6e-3 },
  { .name = "ports", .words = N_ ("Total area of the burner ports, given as the diameter of one "
                                  "hole."),
    .dim = HOB_DIM_LENGTH, .normal = 0.7463 * 0.0254, .low = 2e-3, .high = 80e-3 },
  { .name = "shutter",
    .words = N_ ("Air shutter opening, compared with the correct opening."), .normal = 1,
    .high = 2 },
  { .name = "discharge", .words = N_ ("Discharge coefficient of the orifice."), .normal = 0.90,
    .low = 0.5, .high = 1 },
  { .name = "head", .words = N_ ("Volume of the venturi and burner head."),
    .dim = HOB_DIM_VOLUME, .normal = 0.15e-3, .low = 1e-5, .high = 5e-3 },
  { .name = "cap-away",
    .words = "How much further its cap is from the electrode's tip than it should be.",
    .dim = HOB_DIM_LENGTH, .low = -5e-3, .high = INFINITY, .condition = TRUE },
  { .name = "cap-film",
    .words = "Thickness of the dirt baked on to its cap where the spark lands.",
    .dim = HOB_DIM_LENGTH, .high = 5e-3, .condition = TRUE },
  { .name = "port-clogged", .words = "How far the ports at the electrode are clogged, 0 to 1.",
    .high = 1, .condition = TRUE },
};

static const HobFaultDef faults[] = {
  {
    .id = "cap-not-seated",
    .words = N_ ("burner cap not seated"),
    .severity_words = N_ ("cap %s too far from the electrode"),
    .typical = 0.7,
    .prior = 8,
    .proof = N_ ("Reseat the burner cap. It must not rock."),
    .confirm = HOB_MEANS (HAND),
    .hazards = HOB_HAZARD (GAS_GATHERED),
    HOB_EFFECTS ({ .setting = CAP_AWAY, .at0 = 2e-3, .at1 = 9e-3 }),
  },
  {
    .id = "cap-missing",
    .words = N_ ("burner cap missing"),
    .prior = 1,
    .proof = N_ ("Look at the burner. Its cap is missing."),
    .confirm = HOB_MEANS (LOOK),
    .hazards = HOB_HAZARD (GAS_GATHERED),
    HOB_EFFECTS ({ .setting = CAP_AWAY, .at1 = INFINITY }),
  },
  {
    .id = "cap-dirty",
    .words = N_ ("dirt baked onto the burner cap"),
    .severity_words = N_ ("%s of baked-on dirt"),
    .typical = 0.5,
    .prior = 6,
    .proof = N_ ("Scrape the burner cap to bare metal where the spark jumps. The spark is "
                 "strong again."),
    .confirm = HOB_MEANS (LOOK) | HOB_MEANS (HAND),
    .hazards = HOB_HAZARD (GAS_GATHERED),
    HOB_EFFECTS ({ .setting = CAP_FILM, .at0 = 0.1e-3, .at1 = 1e-3 }),
  },
  {
    .id = "cap-small",
    .words = N_ ("burner cap from a smaller burner"),
    .severity_words = N_ ("cap %s too far from the electrode"),
    .typical = 0.7,
    .prior = 2,
    .proof = N_ ("Swap the caps of the two burners. Both burners started acting up at the same "
                 "time, after cleaning."),
    .confirm = HOB_MEANS (SWAP),
    .hazards = HOB_HAZARD (GAS_GATHERED),
    HOB_EFFECTS ({ .setting = CAP_AWAY, .at0 = 2e-3, .at1 = 7e-3 },
                 { .setting = HOB_BURNER_PORTS, .how = HOB_EFFECT_MULTIPLY, .at0 = 1, .at1 = 1.3 }),
  },
  {
    .id = "cap-large",
    .words = N_ ("burner cap from a larger burner"),
    .severity_words = N_ ("cap %s too close to the electrode"),
    .typical = 0.5,
    .prior = 2,
    .proof = N_ ("Swap the caps of the two burners. Both burners started acting up at the same "
                 "time, after cleaning."),
    .confirm = HOB_MEANS (SWAP),
    .hazards = HOB_HAZARD (CO_FLAME) | HOB_HAZARD (GAS_GATHERED),
    HOB_EFFECTS ({ .setting = CAP_AWAY, .at0 = -1e-3, .at1 = -2e-3 },
                 { .setting = HOB_BURNER_PORTS, .how = HOB_EFFECT_MULTIPLY, .at0 = 1, .at1 = 0.6 }),
  },
  {
    .id = "port-clogged",
    .words = N_ ("burner ports at the electrode clogged"),
    .severity_words = N_ ("%s of the ports at the electrode clogged"),
    .typical = 0.8,
    .prior = 8,
    .proof = N_ ("Clear the ports at the electrode with a needle. The burner sparked well but "
                 "lit late or only from the next burner. Now it lights right away."),
    .confirm = HOB_MEANS (LOOK) | HOB_MEANS (HAND),
    .hazards = HOB_HAZARD (GAS_GATHERED),
    HOB_EFFECTS ({ .setting = CLOGGED, .at1 = 1 }),
  },
  {
    .id = "orifice-clogged",
    .words = N_ ("orifice clogged"),
    .severity_words = N_ ("orifice %s narrower"),
    .typical = 0.6,
    .prior = 2,
    .proof = N_ ("Read the manifold pressure. It's normal, and the other burners are fine. Take "
                 "the orifice out and look through it."),
    .confirm = HOB_MEANS (LOOK) | HOB_MEANS (PRESSURE) | HOB_MEANS (OPEN_GAS),
    .hazards = HOB_HAZARD (CO_FLAME),
    HOB_EFFECTS ({ .setting = HOB_BURNER_ORIFICE, .how = HOB_EFFECT_MULTIPLY, .at0 = 1,
                   .at1 = 0.35 }),
  },
  {
    .id = "venturi-blocked",
    .words = N_ ("venturi blocked by an insect nest or a spill"),
    .severity_words = N_ ("%s of the air blocked"),
    .typical = 0.6,
    .prior = 2,
    .proof = N_ ("Look for a tall, yellow flame even with the right pressure and orifice. Run a "
                 "brush through the venturi."),
    .confirm = HOB_MEANS (LOOK) | HOB_MEANS (PRESSURE) | HOB_MEANS (OPEN_GAS),
    .hazards = HOB_HAZARD (CO_FLAME),
    HOB_EFFECTS ({ .setting = HOB_BURNER_SHUTTER, .how = HOB_EFFECT_MULTIPLY, .at0 = 0.8,
                   .at1 = 0.1 }),
  },
  {
    .id = "shutter-closed",
    .words = N_ ("air shutter closed too far"),
    .severity_words = N_ ("air shutter at %s of its proper opening"),
    .typical = 0.6,
    .prior = 2,
    .proof = N_ ("Open the air shutter until the flame is blue and doesn't lift."),
    .confirm = HOB_MEANS (LOOK),
    .hazards = HOB_HAZARD (CO_FLAME),
    HOB_EFFECTS ({ .setting = HOB_BURNER_SHUTTER, .at0 = 0.7, .at1 = 0.2 }),
  },
  {
    .id = "shutter-open",
    .words = N_ ("air shutter open too far"),
    .severity_words = N_ ("air shutter at %s of its proper opening"),
    .typical = 0.6,
    .prior = 1,
    .proof = N_ ("Close the air shutter until the flame no longer lifts or hisses."),
    .confirm = HOB_MEANS (LOOK),
    .hazards = HOB_HAZARD (CO_FLAME),
    HOB_EFFECTS ({ .setting = HOB_BURNER_SHUTTER, .at0 = 1.2, .at1 = 1.8 }),
  },
  {
    .id = "orifice-for-lp",
    .words = N_ ("LP orifice on natural gas, conversion not finished"),
    .prior = 1,
    .proof = N_ ("Compare the number on the orifice with the tech sheet. Clock the gas meter to "
                 "find the burner's Btu/h."),
    .confirm = HOB_MEANS (OPEN_GAS) | HOB_MEANS (METER_CLOCK),
    .hazards = HOB_HAZARD (CO_FLAME),
    HOB_EFFECTS ({ .setting = HOB_BURNER_ORIFICE, .how = HOB_EFFECT_MULTIPLY, .at0 = 1,
                   .at1 = 0.681 }),
  },
  {
    .id = "orifice-for-natural",
    .words = N_ ("natural gas orifice on LP, conversion not finished"),
    .prior = 1,
    .proof = N_ ("Compare the number on the orifice with the tech sheet. Clock the gas meter to "
                 "find the burner's Btu/h."),
    .confirm = HOB_MEANS (OPEN_GAS) | HOB_MEANS (METER_CLOCK),
    .hazards = HOB_HAZARD (CO_FLAME) | HOB_HAZARD (GAS_GATHERED),
    HOB_EFFECTS ({ .setting = HOB_BURNER_ORIFICE, .how = HOB_EFFECT_MULTIPLY, .at0 = 1,
                   .at1 = 1.469 }),
  },
};

static const HobStateDef states[] = {
  { .name = "gathered", .words = "unburned gas round the burner, kg", .tolerance = 1e-7 },
};


static const HobModeDef modes[] = {
  HOB_BURNER_MODES,
  { .name = "waiting" },
  { .name = "next-pulse" },
  HOB_PUFF_MODES,
  { .name = "stood" },
  { .name = "step-at" },
  { .name = "step-from" },
};

static const HobDuctDef ducts[] = {
  { .name = "jet", .a = IN, .b = -1 },
};

static const HobQuantityDef quantities[] = {
  { .name = "flame", .words = N_ ("flame"), .values = hob_no_yes, .sense = HOB_SENSE_EYE },
  { .name = "heat", .words = N_ ("heat output"), .dim = HOB_DIM_POWER,
    .sense = HOB_SENSE_EYE },
  { .name = "gas", .words = N_ ("gas flow"), .dim = HOB_DIM_MASS_FLOW },
  { .name = "gathered", .words = N_ ("unburned gas around the burner"), .dim = HOB_DIM_MASS },
  { .name = "light-energy",
    .words = N_ ("energy of the last delayed ignition, shown for 5 s"),
    .dim = HOB_DIM_ENERGY, .sense = HOB_SENSE_EAR },
  { .name = "burst", .words = N_ ("strength of the last delayed ignition, shown for 5 s"),
    .values = hob_bursts, .sense = HOB_SENSE_EAR },
  { .name = "nearby",
    .words = N_ ("unburned gas around the burner, compared with its lower explosive limit (LEL)"),
    .say = HOB_SAY_SHARE },
  { .name = "unlit", .words = N_ ("how long gas has flowed without a flame"), .dim = HOB_DIM_TIME,
    .sense = HOB_SENSE_NOSE },
  { .name = "unburned", .words = N_ ("unburned gas from the burner"), .dim = HOB_DIM_MASS_FLOW,
    .sense = HOB_SENSE_NOSE },
  { .name = "yellow", .words = N_ ("yellow in the flame"),
    .say = HOB_SAY_SHARE, .sense = HOB_SENSE_EYE },
  { .name = "lift", .words = N_ ("flame lifting"), .say = HOB_SAY_SHARE, .sense = HOB_SENSE_EYE },
  { .name = "loading", .words = N_ ("flame height, as W of heat per mm² of port area"),
    .sense = HOB_SENSE_EYE },
  { .name = "sank",
    .words = N_ ("how much the flame just dropped, shown for 5 s"), .say = HOB_SAY_SHARE,
    .sense = HOB_SENSE_EYE },
};

static double
primary_air (const HobPartContext *c)
{
  double ratio = c->set[HOB_BURNER_PORTS] / c->set[HOB_BURNER_ORIFICE];

  return hob_primary_air (c->house->fuel, ratio * ratio, 1) * c->set[HOB_BURNER_SHUTTER];
}

static double
yellow (const HobPartContext *c)
{
  const HobFuel *fuel = c->house->fuel;
  double air = hob_flame_aeration (fuel, primary_air (c), c->within[HOB_PLACE_OXYGEN]);

  return hob_burner_lit (c) ? hob_flame_yellow (fuel, air) : 0;
}

static double
lift (const HobPartContext *c)
{
  const HobFuel *fuel = c->house->fuel;

  return hob_burner_lit (c) ? hob_flame_lift (fuel, hob_aeration (fuel, primary_air (c))) : 0;
}

/* What has gathered around the burner, vol/vol. */
static double
around (const HobPartContext *c)
{
  return fmin (fmax (c->y[GATHERED], 0) / c->house->fuel->density / AROUND, 1);
}

/* A mixture of @primary after it has met @m volumes of the air around, which holds what has
 * gathered. */
static double
met (const HobPartContext *c, double primary, double m)
{
  return hob_tip_mixture (primary, m) + m / (1 + m) * around (c);
}

/* Fuel in the mixture that the spark crosses, vol/vol.  From the edge of the ports to the tip
 * it falls from the primary mixture to one diluted by 0.7; the pulse lights where it is nearest
 * to the best mixture.  A tip out of place begins farther out.  Where its ports are clogged,
 * the mixture comes from other ports and has met more air.  Gas that has gathered makes up for
 * that after a while: the burner lights late.  Where it burns by itself, it surrounds the tip. */
static double
mixture (const HobPartContext *c)
{
  double offset = CLAMP (c->place[HOB_PLACE_SPARK_OFFSET], 0, 1);
  double fill = hob_burner_fill (c, primary_air (c), c->set[HEAD]);
  double primary = fill * hob_primary_mixture (primary_air (c));
  double clogged = c->set[CLOGGED];
  double near = HOB_BURNER_DILUTION * TIP_AWAY * offset + CLOG_NEAR * clogged;
  double far = HOB_BURNER_DILUTION * (1 + TIP_AWAY * offset) + CLOG_FAR * clogged;
  double richest = met (c, primary, near), leanest = met (c, primary, far);
  double best = 1 / (1 + c->house->fuel->air), outside = around (c);

  if (outside >= c->house->fuel->lean)
    leanest = fmin (leanest, outside);
  return CLAMP (best, leanest, richest);
}

/* > 0: an unlit mixture that can burn surrounds a tip that sparks; the least margin as a share. */
static double
could_light (const HobPartContext *c)
{
  const HobFuel *fuel = c->house->fuel;
  double x = mixture (c);

  if (hob_burner_lit (c) || c->mode[HOB_BURNER_FLOWING] == 0 || c->place[HOB_PLACE_SPARK_RATE] <= 0)
    return -1;
  return fmin (fmin (x / fuel->lean - 1, 1 - x / fuel->rich), c->p[IN] / LIGHTS_ABOVE - 1);
}

static double
escapes (const HobPartContext *c)
{
  return c->mode[PUFF + HOB_PUFF_BURNS] > 0 ? 0 : c->y[GATHERED] / AIRED_IN;
}

/* > 0: the flame's height is not what it was. */
static double
steps (const HobPartContext *c)
{
  double now = hob_burner_loading (c), stood = c->mode[STOOD];

  return fabs (now - stood) - STEP * fmax (now, stood) - 1e-9;
}

/* Changes that follow one another count as one, from the height before the first. */
static void
step (const HobPartContext *c)
{
  if (c->t - c->mode[STEP_AT] >= SEEN_FOR)
    c->mode[STEP_FROM] = c->mode[STOOD];
  c->mode[STEP_AT] = c->t;
  c->mode[STOOD] = hob_burner_loading (c);
}

/* Share of its height that the flame has lost with its last changes; 1: it went out. */
static double
sank (const HobPartContext *c)
{
  gboolean seen = c->mode[STEP_FROM] > 0 && c->t - c->mode[STEP_AT] < SEEN_FOR;

  return seen ? fmax (1 - hob_burner_loading (c) / c->mode[STEP_FROM], 0) : 0;
}

static void
give (const HobPartContext *c)
{
  hob_burner_give (c);
  if (hob_burner_lit (c))
    c->place[HOB_PLACE_AIR] += FLAME_ABOVE;
  c->place[HOB_PLACE_CAP_AWAY] = c->set[CAP_AWAY];
  c->place[HOB_PLACE_CAP_FILM] = c->set[CAP_FILM];
}

static void
flow (const HobPartContext *c)
{
  c->duct[0] = hob_burner_jet (c, c->set[HOB_BURNER_ORIFICE]);
}

static void
rates (const HobPartContext *c)
{
  double steady = hob_burner_lit (c) ? c->q[0] : 0;
  double puff = hob_puff_rate (c, PUFF), escaped = escapes (c);
  double heat = (steady + puff) * c->house->fuel->heat;

  c->dy[GATHERED] = c->q[0] - steady - puff - escaped;
  c->within[HOB_PLACE_HEAT] += heat;
  c->within[HOB_PLACE_UNBURNT] += escaped;
  c->within[HOB_PLACE_BURNT] += steady + puff;
  c->within[HOB_PLACE_CO] += hob_burner_co (c, steady, yellow (c), lift (c), FLAME_ABOVE);
  c->ledger[HOB_LEDGER_HEAT_IN] += heat;
  c->ledger[HOB_LEDGER_GAS_IN] += c->q[0];
  c->ledger[HOB_LEDGER_GAS_BURNT] += steady + puff;
  c->ledger[HOB_LEDGER_GAS_ESCAPED] += escaped;
}

static double
guard (const HobPartContext *c, int k)
{
  gboolean waiting = c->mode[WAITING] > 0;

  switch (k)
    {
    case G_OUT:
      return hob_burner_lit (c) ? 1 - c->p[IN] / DIES_BELOW : -1;
    case G_FLOWS:
      return hob_burner_flows (c, IN);
    case G_STOPS:
      return hob_burner_stops (c, IN);
    case G_WAITS:
      return waiting ? -1 : could_light (c);
    case G_LEAVES:
      return waiting ? -could_light (c) - 1e-3 : -1;
    case G_PULSE:
      return waiting ? c->place[HOB_PLACE_SPARK_PHASE] - c->mode[NEXT_PULSE] : -1;
    case G_STEP:
      return steps (c);
    default:
      return hob_puff_ends (c, PUFF);
    }
}

static gboolean
pulse_lights (const HobPartContext *c)
{
  double k = c->mode[NEXT_PULSE];
  double least = hob_spark_ignition (c->house->fuel, mixture (c), c->place[HOB_PLACE_SPARK_GAP]);
  double met = hob_hash_uniform (c->seed, (guint64)c->index, STREAM_COUNT + (guint64)k);

  return could_light (c) > 0 && c->place[HOB_PLACE_SPARK_ENERGY] >= least * (1 + STREAM * met)
         && hob_pulse_fires (c->seed, c->place[HOB_PLACE_SPARK_KEY], k,
                             c->place[HOB_PLACE_SPARK_MISS])
         && hob_pulse_at_cap (c->seed, c->place[HOB_PLACE_SPARK_TIP], k,
                              c->place[HOB_PLACE_SPARK_CAP]);
}

static void
light (const HobPartContext *c, const double *y)
{
  hob_puff_light (c, PUFF, y[GATHERED]);
  c->mode[WAITING] = 0;
}

static void
flip (const HobPartContext *c, int k, double *y)
{
  switch (k)
    {
    case G_OUT:
      hob_burner_go_out (c);
      break;
    case G_FLOWS:
      hob_burner_begin_flow (c);
      break;
    case G_STOPS:
      c->mode[HOB_BURNER_FLOWING] = 0;
      break;
    case G_WAITS:
      c->mode[WAITING] = 1;
      c->mode[NEXT_PULSE] = floor (c->place[HOB_PLACE_SPARK_PHASE]) + 1;
      break;
    case G_LEAVES:
      c->mode[WAITING] = 0;
      break;
    case G_PULSE:
      if (pulse_lights (c))
        light (c, y);
      else
        c->mode[NEXT_PULSE] += 1;
      break;
    case G_STEP:
      step (c);
      break;
    default:
      c->mode[PUFF + HOB_PUFF_BURNS] = 0;
    }
}

static const HobLinkDef links[] = {
  { .from = Q_GAS, .to = Q_HEAT, .words = N_ ("The gas flow is %s.") },
  { .from = Q_GAS, .to = HOB_LINK_MODE (HOB_BURNER_FLAME), .value = 1,
    .words = N_ ("The gas flow is %s.") },
};

static double
observe (const HobPartContext *c, int quantity)
{
  switch (quantity)
    {
    case Q_FLAME:
      return c->mode[HOB_BURNER_FLAME];
    case Q_HEAT:
      return hob_burner_heat (c);
    case Q_GAS:
      return c->q[0];
    case Q_GATHERED:
      return c->y[GATHERED];
    case Q_LIGHT_ENERGY:
      return hob_puff_energy (c, PUFF);
    case Q_BURST:
      return fmin (hob_puff_burst (c, PUFF, AS_IN), MOST_BURST);
    case Q_NEARBY:
      return hob_gas_share (c->house->fuel, c->y[GATHERED], AROUND);
    case Q_UNLIT:
      return hob_burner_unlit (c);
    case Q_UNBURNT:
      return escapes (c);
    case Q_YELLOW:
      return yellow (c);
    case Q_LOADING:
      return hob_burner_loading (c);
    case Q_SANK:
      return sank (c);
    default:
      return lift (c);
    }
}

static double
stored_gas (const HobPartContext *c)
{
  return c->y[GATHERED];
}

/* Flames on @n ports from x0 to x1 at y; one that lacks air is tall and lazy. */
static void
draw_flames (HobPen *pen, const HobPartView *view, double x0, double x1, int n, double y,
             double full)
{
  double yellow = view->quantity[Q_YELLOW], lift = view->quantity[Q_LIFT];
  double blue = hob_symbol_flame_height (view->quantity[Q_HEAT], LARGE_BURNER, full);
  double height = fmin (blue * (1 + 0.3 * yellow), full);

  for (int k = 0; k < n && view->quantity[Q_FLAME] > 0; k++)
    hob_symbol_flame (pen, x0 + (x1 - x0) * k / (n - 1), y, height, yellow, lift);
}

/* An ellipse of half width a and half height b. */
static void
oval (HobPen *pen, double x, double y, double a, double b)
{
  const double k = 0.5523; /* of the half axes: a circle from four curves */

  pen_move (pen, x - a, y);
  pen_curve (pen, x - a, y - k * b, x - k * a, y - b, x, y - b);
  pen_curve (pen, x + k * a, y - b, x + a, y - k * b, x + a, y);
  pen_curve (pen, x + a, y + k * b, x + k * a, y + b, x, y + b);
  pen_curve (pen, x - k * a, y + b, x - a, y + k * b, x - a, y);
  pen_close (pen);
}

/* From the upper edge of one oval down the sides to the lower edge of the same oval @high below. */
static void
drum (HobPen *pen, double y, double a, double b, double high)
{
  const double k = 0.5523;

  pen_move (pen, -a, y);
  pen_line (pen, -a, y + high);
  pen_curve (pen, -a, y + high + k * b, -k * a, y + high + b, 0, y + high + b);
  pen_curve (pen, k * a, y + high + b, a, y + high + k * b, a, y + high);
  pen_line (pen, a, y);
  pen_curve (pen, a, y - k * b, k * a, y - b, 0, y - b);
  pen_curve (pen, -k * a, y - b, -a, y - k * b, -a, y);
  pen_close (pen);
}

/* Base, head with its ports, and cap, on the cooktop. */
static void
paper_on_cooktop (HobPen *pen)
{
  oval (pen, 0, 24, 52, 15);
  pen_fill_stroke (pen, HOB_ROLE_CAVITY, HOB_ROLE_CAVITY_INK, HOB_DETAIL);
  drum (pen, 8, 38, 11, 13);
  pen_fill_stroke (pen, HOB_ROLE_CAVITY, HOB_ROLE_CAVITY_INK, HOB_OUTLINE);
  for (int k = -3; k <= 3; k++)
    {
      double x = 37 * sin (k * G_PI / 8), y = 11 * cos (k * G_PI / 8);

      pen_segment (pen, x, 12 + y, x, 18 + y);
    }
  pen_stroke (pen, HOB_ROLE_CAVITY_INK, HOB_DETAIL);
  drum (pen, 1, 42, 12, 6);
  pen_fill_stroke (pen, HOB_ROLE_CAVITY, HOB_ROLE_CAVITY_INK, HOB_OUTLINE);
  oval (pen, 0, 0, 42, 12);
  pen_stroke (pen, HOB_ROLE_CAVITY_INK, HOB_DETAIL);
}

/* A flame at every port that is seen, round the front of the head. */
static void
flames_on_cooktop (HobPen *pen, const HobPartView *view)
{
  const double full = 40;
  double yellow = view->quantity[Q_YELLOW], lift = view->quantity[Q_LIFT];
  double height = fmin (hob_symbol_flame_height (view->quantity[Q_HEAT], LARGE_BURNER, full)
                            * (1 + 0.3 * yellow),
                        full + 6);

  for (int k = -4; k <= 4 && view->quantity[Q_FLAME] > 0; k++)
    hob_symbol_flame (pen, 46 * sin (k * G_PI / 8), 12 + 12 * cos (k * G_PI / 8), height, yellow,
                      lift);
}

static void
draw_cutaway (HobPen *pen, const HobPartView *view)
{
  if (view->layer == HOB_LAYER_PAPER)
    paper_on_cooktop (pen);
  else
    flames_on_cooktop (pen, view);
}

/* Orifice, venturi and head; a dark window above the head for the flame. */
static void
draw_gas (HobPen *pen, const HobPartView *view)
{
  if (view->layer == HOB_LAYER_STATE)
    {
      draw_flames (pen, view, 4, 32, 3, -6, 30);
      return;
    }
  hob_symbol_tube (pen, -40, -28, 0);
  pen_move (pen, -28, -8); /* the jet */
  pen_line (pen, -16, 0);
  pen_line (pen, -28, 8);
  pen_close (pen);
  pen_fill_stroke (pen, HOB_ROLE_PANEL, HOB_ROLE_INK, HOB_DETAIL);
  pen_move (pen, -12, -12); /* the venturi */
  pen_curve (pen, -4, -4, -4, -4, 4, 0);
  pen_move (pen, -12, 12);
  pen_curve (pen, -4, 8, -4, 8, 4, 8);
  pen_stroke (pen, HOB_ROLE_INK, HOB_DETAIL);
  pen_rect (pen, -4, -40, 44, 36);
  pen_fill_stroke (pen, HOB_ROLE_CAVITY, HOB_ROLE_INK, HOB_DETAIL);
  pen_rect (pen, -4, -4, 44, 18); /* the head */
  pen_fill_stroke (pen, HOB_ROLE_PANEL, HOB_ROLE_INK, HOB_OUTLINE);
}

static void
draw (HobPen *pen, const HobPartView *view)
{
  if (view->sheet == HOB_SHEET_GAS)
    draw_gas (pen, view);
  else
    draw_cutaway (pen, view);
}

const HobKind hob_kind_burner_top = {
  .name = "burner-top",
  .label = N_ ("surface burner"),
  .about = N_ ("Gas from the orifice flows through the venturi and draws air in with it. The "
               "mixture leaves through the burner ports, where the spark lights it."),
  .flags = HOB_KIND_PLACE | HOB_KIND_BURNER,
  .room = HOB_ROOM_SURFACE_BURNER,
  .may_be_in = HOB_ROOM_KITCHEN,
  HOB_TABLE (ports, ports),
  HOB_TABLE (settings, settings),
  HOB_TABLE (states, states),
  HOB_TABLE (modes, modes),
  HOB_TABLE (ducts, ducts),
  HOB_TABLE (faults, faults),
  HOB_TABLE (quantities, quantities),
  HOB_TABLE (links, links),
  .n_guards = N_GUARDS,
  .symbol = { [HOB_SHEET_GAS] = { 80, 80 }, [HOB_SHEET_CUTAWAY] = { 120, 80 } },
  .figure = Q_HEAT,
  .give = give,
  .flow = flow,
  .rates = rates,
  .guard = guard,
  .flip = flip,
  .observe = observe,
  .stored_gas = stored_gas,
  .draw = draw,
};
