/* SPDX-License-Identifier: GPL-3.0-or-later */

/* Surface burner: orifice, venturi, and burner head with ports.  The orifice draws in primary air.
 * The mixture fills the head in about a third of a second and comes out at the tip of the
 * electrode.  There a pulse lights it if the mixture is within its limits and the spark has enough
 * energy for that mixture and gap; in a stream that is 1 to 1.4 times the least energy, pulse by
 * pulse.  Unlit gas rises into the room:
 *
 *   dm/dt = q − m/τ − what burns
 *
 * There are two makes.  They share everything but this:
 *
 *   sealed   a cap on a base; the electrode is at its ports, and the spark jumps to the cap.  The
 *            venturi is fixed: nothing about its air can be set.
 *   open     the cooktop is open around the head.  An air shutter sets the primary air.  The
 *            electrode is at the far end of a flash tube.  Charge ports feed the tube with a
 *            share z of the mixture, and the spark lights what has arrived there:
 *
 *              x_tube = x_head·(1 − exp (−t·z·open·stream/V_tube))
 *
 *            The flame's way back through the tube takes some tenths of a second and is left out.
 *
 * What has gathered around the burner goes off at a pulse, a match or any other flame in the same
 * place, whether gas still flows or not; without a stream that a ring of ports can hold, no flame
 * stays.  A flame beside it reaches only what has gathered, never the stream at the ports: a burner
 * without a spark lights late off its neighbor, and one that is turned off doesn't light at all.
 *
 * Single pulses matter only while an unlit mixture that can burn surrounds the tip; only then
 * are they waited for one by one.  Figures invented for a believable appliance: 0.0520 in.
 * gives 9,500 Btu/h of natural gas at 5 in. w.c. */

#include "parts/burner-top.h"
#include "parts/pulse.h"

enum { GATHERED };
enum { G_OUT, G_FLASHES, G_FLOWS, G_STOPS, G_WAITS, G_LEAVES, G_PULSE, G_PUFFED, G_STEP, G_MATCH,
       G_BESIDE, N_GUARDS };

#define TIP_AWAY 3.0  /* times that dilution more at offset 1 */
#define CHARGE 0.05   /* z; invented, as is the tube: 1/2 in. wide and 5 in. long */
#define CLOG_NEAR 2.0 /* air for each part of mixture that a clogged port adds at its edge … */
#define CLOG_FAR 4.0  /* … and at the tip: both invented */
#define STREAM 0.4    /* share by which a stream may need more than the least energy */
#define STREAM_COUNT (1 << 22) /* first count of the hash of what a pulse meets */
#define AROUND 10e-3 /* m³ around the burner in which gas gathers */
#define AS_IN 15e-3  /* m³ of a compartment in which as much gas lights as hard */
#define MOST_BURST HOB_BURST_WHOOSH /* in the open nothing holds the pressure */
#define AIRED_IN 10.0          /* s, τ: unlit gas rises into the room */
#define STEP 0.04               /* share of its height by which a flame must change to be noticed */
#define AT_ONCE 2.0            /* s within which changes are seen as one */
#define SEEN_FOR 5.0           /* s for which a flame that sank counts as just sunk */
#define LIGHTS_RING 0.30       /* of the open ports: on fewer no flame lights */
#define HEARD_FOR 5.0          /* s for which a pop counts as just heard */
#define OUT_FOR 10.0           /* s for which a flame that went out counts as just gone */
#define FLAME_ABOVE 1200.0     /* K of the flame above the room */
#define FLAME_TALL 3e-3        /* m of flame for each W/mm² at its ports; invented */
#define GRAVITY 9.81           /* m/s² */

static const HobPortDef ports[] = {
  { .name = "in", .words = N_ ("gas from the burner's valve"), .required = TRUE, .way = HOB_WAY_IN,
    .x = -40 },
};

/* What the makes share.  A setting that only the other one has is here a condition that no fault
 * changes. */
#define JET_SETTINGS                                                                              \
  { .name = "orifice", .words = N_ ("Orifice diameter."), .dim = HOB_DIM_LENGTH,                  \
    .normal = 0.0520 * 0.0254, .low = 0.2e-3, .high = 6e-3 },                                     \
  { .name = "ports", .words = N_ ("Total area of the burner ports, given as the diameter of a "   \
                                  "single hole with the same area."),                             \
    .dim = HOB_DIM_LENGTH, .normal = 0.7463 * 0.0254, .low = 2e-3, .high = 80e-3 }
#define HEAD_SETTINGS                                                                             \
  { .name = "discharge", .words = N_ ("Discharge coefficient of the orifice."), .normal = 0.90,   \
    .low = 0.5, .high = 1 },                                                                      \
  { .name = "head", .words = N_ ("Volume of the venturi and burner head."),                       \
    .dim = HOB_DIM_VOLUME, .normal = 0.15e-3, .low = 1e-5, .high = 5e-3 },                        \
  { .name = "cap-away",                                                                           \
    .words = "How much further its cap is from the electrode's tip than it should be.",           \
    .dim = HOB_DIM_LENGTH, .low = -5e-3, .high = INFINITY, .condition = TRUE,                     \
    .visible = 0.5e-3 },                                                                          \
  { .name = "cap-lift",                                                                           \
    .words = "How far one side of its cap is off the seat; +inf: there is no cap.",               \
    .dim = HOB_DIM_LENGTH, .high = INFINITY, .condition = TRUE, .visible = 0.5e-3 },              \
  { .name = "cap-film",                                                                           \
    .words = "Thickness of the dirt baked on to its cap where the spark lands.",                  \
    .dim = HOB_DIM_LENGTH, .high = 5e-3, .condition = TRUE, .visible = 0.1e-3 },                  \
  { .name = "port-clogged",                                                                       \
    .words = "How far the ports at the electrode are clogged, 0 to 1.", .high = 1,                \
    .condition = TRUE, .visible = 0.25 },                                                         \
  { .name = "blocked", .words = "Share of the ring of ports that is blocked.", .high = 0.95,      \
    .condition = TRUE, .visible = 0.15 }
#define TUBE_SETTINGS                                                                             \
  { .name = "tube-open", .words = "Share of the flash tube that is open.", .normal = 1,           \
    .low = 0.01, .high = 1, .condition = TRUE, .visible = 0.25 },                                 \
  { .name = "tube-away", .words = "How far the flash tube is off the charge ports, 0 to 1.",      \
    .high = 1, .condition = TRUE, .visible = 0.2 }

static const HobSettingDef sealed_settings[] = {
  JET_SETTINGS,
  { .name = "venturi", .words = N_ ("Primary air that the venturi draws in, compared with what a "
                                    "clean one draws in."),
    .normal = 1, .high = 2, .visible = 0.25 },
  HEAD_SETTINGS,
  { .name = "tube", .words = "No flash tube: the electrode is at the ports.",
    .dim = HOB_DIM_VOLUME, .high = 1e-3, .condition = TRUE },
  TUBE_SETTINGS,
};

static const HobSettingDef open_settings[] = {
  JET_SETTINGS,
  { .name = "shutter",
    .words = N_ ("Air shutter opening, compared with the correct opening."), .normal = 1,
    .high = 2, .visible = 0.25 },
  HEAD_SETTINGS,
  { .name = "tube", .words = N_ ("Volume of the flash tube."), .dim = HOB_DIM_VOLUME,
    .normal = 16e-6, .low = 1e-7, .high = 1e-3 },
  TUBE_SETTINGS,
};

static const HobStateDef states[] = {
  { .name = "gathered", .words = "unburned gas round the burner, kg", .tolerance = 1e-7,
    .amount = TRUE },
};


static const char *const inside_words[]
    = { N_ ("flame in the venturi goes out"), N_ ("flame flashes back into the venturi"),
        NULL };

static const HobModeDef modes[] = {
  HOB_BURNER_MODES (HOB_TOP_Q_HEAT, HOB_TOP_Q_YELLOW, HOB_TOP_Q_LIFT),
  { .name = "waiting" },
  { .name = "next-pulse" },
  HOB_PUFF_MODES,
  { .name = "stood" },
  { .name = "step-at" },
  { .name = "step-from" },
  { .name = "inside", .words = inside_words },
  { .name = "pop-at" },
  { .name = "out-at" },
};

static const HobDuctDef ducts[] = {
  { .name = "jet", .a = HOB_TOP_IN, .b = -1 },
};

static const HobQuantityDef quantities[] = {
  { .name = "flame", .words = N_ ("flame"), .values = hob_no_yes, .sense = HOB_SENSE_EYE },
  { .name = "heat", .words = N_ ("heat output"), .dim = HOB_DIM_POWER,
    .sense = HOB_SENSE_EYE,
    .says = N_ ("The burner puts out %s.") },
  { .name = "gas", .words = N_ ("gas flow"), .dim = HOB_DIM_MASS_FLOW },
  { .name = "gathered", .words = N_ ("unburned gas around the burner"), .dim = HOB_DIM_MASS },
  { .name = "light-energy",
    .words = N_ ("energy of the last delayed ignition"),
    .dim = HOB_DIM_ENERGY, .sense = HOB_SENSE_EAR,
    .brief = TRUE,
    .remark = N_ ("reading held for 5 s after it happens") },
  { .name = "burst", .words = N_ ("strength of the last delayed ignition"),
    .values = hob_bursts, .sense = HOB_SENSE_EAR,
    .brief = TRUE,
    .remark = N_ ("reading held for 5 s after it happens") },
  { .name = "nearby",
    .words = N_ ("unburned gas around the burner, as a fraction of its lower explosive limit "
                 "(LEL)"),
    .say = HOB_SAY_SHARE, .sense = HOB_SENSE_NOSE },
  { .name = "unlit", .words = N_ ("how long gas has flowed without a flame"), .dim = HOB_DIM_TIME,
    .sense = HOB_SENSE_NOSE,
    .says = N_ ("Gas has flowed without a flame for %s.") },
  { .name = "unburned", .words = N_ ("unburned gas leaving the burner"), .dim = HOB_DIM_MASS_FLOW,
    .sense = HOB_SENSE_NOSE,
    .says = N_ ("Unburned gas leaves the burner at %s.") },
  { .name = "yellow", .words = N_ ("yellow in the flame"),
    .say = HOB_SAY_SHARE, .sense = HOB_SENSE_EYE,
    .says = N_ ("%s of the flame is yellow.") },
  { .name = "lift", .words = N_ ("flame lifting"), .say = HOB_SAY_SHARE, .sense = HOB_SENSE_EYE,
    .says = N_ ("%s of the flame lifts off the ports.") },
  { .name = "loading", .words = N_ ("port loading in W/mm² (1 W/mm² = 2,200 Btu/h per sq. in.)"),
    .sense = HOB_SENSE_EYE },
  { .name = "flame-height", .words = N_ ("flame height, compared with normal"),
    .say = HOB_SAY_PERCENT, .sense = HOB_SENSE_EYE,
    .says = N_ ("The flame is at %s of its normal height.") },
  { .name = "lean", .words = N_ ("how far the flames lean in a draft"), .say = HOB_SAY_SHARE,
    .sense = HOB_SENSE_EYE },
  { .name = "sank",
    .words = N_ ("how much the flame just dropped"), .say = HOB_SAY_SHARE,
    .sense = HOB_SENSE_EYE,
    .brief = TRUE,
    .remark = N_ ("reading held for 5 s after it happens"),
    .says = N_ ("The flame just dropped by %s.") },
  { .name = "ring", .words = N_ ("how much of the ring of burner ports is lit"),
    .say = HOB_SAY_SHARE, .sense = HOB_SENSE_EYE,
    .says = N_ ("%s of the burner ports are lit.") },
  { .name = "pop", .words = N_ ("pop inside the burner"), .values = hob_no_yes,
    .sense = HOB_SENSE_EAR,
    .brief = TRUE,
    .remark = N_ ("reading held for 5 s after it happens") },
  { .name = "inside", .words = N_ ("flame roars in the venturi"), .values = hob_no_yes,
    .sense = HOB_SENSE_EAR },
  { .name = "went-out", .words = N_ ("flame just went out with the gas on"),
    .values = hob_no_yes, .sense = HOB_SENSE_EYE,
    .brief = TRUE,
    .remark = N_ ("reading held for 10 s after it happens") },
  { .name = "orange", .words = N_ ("orange in the flame"), .say = HOB_SAY_SHARE,
    .sense = HOB_SENSE_EYE },
  { .name = "capped", .words = N_ ("burner cap in place"), .values = hob_no_yes },
  { .name = "cap", .words = N_ ("how far the burner cap is out of place"),
    .dim = HOB_DIM_LENGTH },
  { .name = "dirt", .words = N_ ("thickness of the dirt on the burner cap"),
    .dim = HOB_DIM_LENGTH },
  { .name = "clogged", .words = N_ ("share of the ports at the electrode that are clogged"),
    .say = HOB_SAY_SHARE,
    .says = N_ ("%s of the ports at the electrode are clogged.") },
};

static gboolean
inside (const HobPartContext *c)
{
  return hob_burner_lit (c) && c->mode[HOB_TOP_INSIDE] > 0;
}

static gboolean
at_ports (const HobPartContext *c)
{
  return hob_burner_lit (c) && !(c->mode[HOB_TOP_INSIDE] > 0);
}

static double
yellow (const HobPartContext *c)
{
  return at_ports (c) ? hob_flame_yellow (c->house->fuel, hob_ring_aeration (c)) : 0;
}

static double
soot (const HobPartContext *c)
{
  return at_ports (c) ? hob_flame_soot (c->house->fuel, hob_ring_aeration (c)) : 0;
}

static double
lift (const HobPartContext *c)
{
  const HobFuel *fuel = c->house->fuel;

  return at_ports (c) ? hob_flame_lift (fuel, hob_aeration (fuel, hob_ring_primary_air (c))) : 0;
}

/* kg/s.  What comes out where the ring holds no flame, or finds no oxygen, rises unburned; in the
 * venturi all that can burn does. */
static double
burns (const HobPartContext *c)
{
  double flame = at_ports (c) ? hob_ring_burns (c) : inside (c);

  return flame > 0 ? c->q[0] * flame * c->within[HOB_PLACE_BURNABLE] : 0;
}

/* W/mm² */
static double
height (const HobPartContext *c)
{
  return at_ports (c) ? hob_ring_loading (c) : 0;
}

/* How far a draft u pushes a flame over, the tangent of its angle, up to 1.  Its gases rise as fast
 * as hot air does from the height h of the flame:
 *
 *   u/w,   w = √(2·g·h·ΔT/T)
 */
static double
lean (const HobPartContext *c)
{
  double tall = FLAME_TALL * height (c), lighter = FLAME_ABOVE / c->within[HOB_PLACE_AIR];
  double draft = c->within[HOB_PLACE_DRAFT];

  if (!(tall > 0 && draft > 0))
    return 0;
  return fmin (draft / sqrt (2 * GRAVITY * tall * lighter), 1);
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

/* Fuel in what comes out of the head, vol/vol. */
static double
in_head (const HobPartContext *c)
{
  double air = hob_ring_primary_air (c);

  return hob_burner_fill (c, air, c->set[HOB_TOP_HEAD]) * hob_primary_mixture (air);
}

/* Share of the way through the flash tube's air that the mixture has come. */
static double
tube_fill (const HobPartContext *c)
{
  double charge = CHARGE * c->set[HOB_TOP_TUBE_OPEN];

  return c->set[HOB_TOP_TUBE] > 0
             ? hob_burner_fill (c, hob_ring_primary_air (c), c->set[HOB_TOP_TUBE] / charge)
             : 1;
}

/* Fuel in the mixture that the spark crosses, vol/vol.  From the edge of the ports to the tip
 * it falls from the primary mixture to one diluted by 0.7; the pulse lights where it is nearest
 * to the best mixture.  A tip out of place begins farther out.  Where its ports are clogged
 * or its tube is off, the mixture comes from other ports and has met more air.  Gas that has
 * gathered makes up for that after a while: the burner lights late.  Where it burns by itself, it
 * surrounds the tip, and once no gas flows there is nothing else. */
static double
mixture (const HobPartContext *c)
{
  double offset = CLAMP (c->place[HOB_PLACE_SPARK_OFFSET], 0, 1);
  double primary = in_head (c) * tube_fill (c);
  double clogged = fmax (c->set[HOB_TOP_CLOGGED], c->set[HOB_TOP_TUBE_AWAY]);
  double near = HOB_BURNER_DILUTION * TIP_AWAY * offset + CLOG_NEAR * clogged;
  double far = HOB_BURNER_DILUTION * (1 + TIP_AWAY * offset) + CLOG_FAR * clogged;
  double richest = met (c, primary, near), leanest = met (c, primary, far);
  double best = 1 / (1 + c->house->fuel->air), outside = around (c);

  if (c->mode[HOB_BURNER_FLOWING] == 0)
    return outside;
  if (outside >= c->house->fuel->lean)
    leanest = fmin (leanest, outside);
  return CLAMP (best, leanest, richest);
}

/* > 0: fuel of @x vol/vol, not burning yet, can burn, and what flows can keep a flame; the least
 * margin as a share. */
static double
could_burn (const HobPartContext *c, double x)
{
  const HobFuel *fuel = c->house->fuel;
  double burnable = fmin (x / fuel->lean - 1, 1 - x / fuel->rich);

  if (hob_burner_lit (c) || hob_puff_burns (c, HOB_TOP_PUFF))
    return -1;
  if (c->mode[HOB_BURNER_FLOWING] == 0)
    return burnable;
  return fmin (burnable, hob_ring_holds (c) / LIGHTS_RING - 1);
}

/* > 0: a flame finds the oxygen to light. */
static double
breathes (const HobPartContext *c)
{
  return c->within[HOB_PLACE_OXYGEN] / HOB_FLAME_LIGHTS_OXYGEN - 1;
}

/* > 0: an unlit mixture that can burn surrounds a tip that sparks. */
static double
could_light (const HobPartContext *c)
{
  if (c->place[HOB_PLACE_SPARK_RATE] <= 0)
    return -1;
  return fmin (breathes (c), could_burn (c, mixture (c)));
}

/* > 0: a match is held at the burner, and what comes out of its ports or is around them can burn;
 * where the electrode is does not matter. */
static double
match_lights (const HobPartContext *c)
{
  double best = 1 / (1 + c->house->fuel->air);

  if (c->within[HOB_PLACE_MATCH] != HOB_AT (c->index))
    return -1;
  return could_burn (c, fmax (fmin (in_head (c), best), around (c)));
}

/* > 0: another flame burns in the same place, and what has gathered around this burner can burn.
 * Its own flame and its own puff are none of that: could_burn () waits for both to end. */
static double
beside_lights (const HobPartContext *c)
{
  if (!(c->within[HOB_PLACE_BURNT] > 0))
    return -1;
  return fmin (breathes (c), could_burn (c, around (c)));
}

static double
escapes (const HobPartContext *c)
{
  return hob_puff_burns (c, HOB_TOP_PUFF) ? 0 : c->y[GATHERED] / AIRED_IN;
}

/* > 0: the flame's height is not what it was. */
static double
steps (const HobPartContext *c)
{
  double now = height (c), stood = c->mode[HOB_TOP_STOOD];

  return fabs (now - stood) - STEP * fmax (now, stood) - 1e-9;
}

/* Changes within two seconds of the first one count as one, from the height before it.  What sinks
 * more slowly nobody sees sinking. */
static void
step (const HobPartContext *c)
{
  if (*c->t - c->mode[HOB_TOP_STEP_AT] >= AT_ONCE)
    {
      c->mode[HOB_TOP_STEP_FROM] = c->mode[HOB_TOP_STOOD];
      c->mode[HOB_TOP_STEP_AT] = *c->t;
    }
  c->mode[HOB_TOP_STOOD] = height (c);
}

/* Share of its height that the flame has lost with its last changes; 1: it went out. */
static double
sank (const HobPartContext *c)
{
  gboolean seen = c->mode[HOB_TOP_STEP_FROM] > 0 && *c->t - c->mode[HOB_TOP_STEP_AT] < SEEN_FOR;

  return seen ? fmax (1 - height (c) / c->mode[HOB_TOP_STEP_FROM], 0) : 0;
}

static void
give (const HobPartContext *c)
{
  hob_burner_give (c);
  if (at_ports (c))
    c->place[HOB_PLACE_AIR] += FLAME_ABOVE;
  c->place[HOB_PLACE_CAP_AWAY] = c->set[HOB_TOP_CAP_AWAY];
  c->place[HOB_PLACE_CAP_FILM] = c->set[HOB_TOP_CAP_FILM];
}

static void
flow (const HobPartContext *c)
{
  c->duct[0] = hob_burner_jet (c, c->set[HOB_BURNER_ORIFICE]);
}

static void
rates (const HobPartContext *c)
{
  double steady = burns (c);
  double puff = hob_puff_rate (c, HOB_TOP_PUFF), escaped = escapes (c);
  double heat = (steady + puff) * c->house->fuel->heat;

  c->dy[GATHERED] = c->q[0] - steady - puff - escaped;
  c->within[HOB_PLACE_HEAT] += heat;
  c->within[HOB_PLACE_UNBURNT] += escaped;
  c->within[HOB_PLACE_BURNT] += steady + puff;
  c->within[HOB_PLACE_CO] += hob_burner_co (c, steady, height (c), soot (c),
                                             fmax (lift (c), inside (c)), FLAME_ABOVE);
  c->ledger[HOB_LEDGER_HEAT_IN] += heat;
  c->ledger[HOB_LEDGER_GAS_IN] += c->q[0];
  c->ledger[HOB_LEDGER_GAS_BURNT] += steady + puff;
  c->ledger[HOB_LEDGER_GAS_ESCAPED] += escaped;
}

/* > 0: no gas, too little of it for the ports, or no oxygen for it. */
static double
goes_out (const HobPartContext *c)
{
  double breathless = 1 - c->within[HOB_PLACE_OXYGEN] / HOB_FLAME_DIES_OXYGEN;

  if (!hob_burner_lit (c))
    return -1;
  return fmax (breathless, inside (c) ? 1 - c->p[HOB_TOP_IN] / HOB_BURNER_STOPS
                                      : 1 - hob_ring_holds (c) / HOB_RING_LEAST);
}

static double
guard (const HobPartContext *c, int k)
{
  gboolean waiting = c->mode[HOB_TOP_WAITING] > 0;

  switch (k)
    {
    case G_OUT:
      return goes_out (c);
    case G_FLASHES:
      return at_ports (c) ? hob_ring_flashes (c) : -1;
    case G_FLOWS:
      return hob_burner_flows (c, HOB_TOP_IN);
    case G_STOPS:
      return hob_burner_stops (c, HOB_TOP_IN);
    case G_WAITS:
      return waiting ? -1 : could_light (c);
    case G_LEAVES:
      return waiting ? -could_light (c) - 1e-3 : -1;
    case G_PULSE:
      return waiting ? c->place[HOB_PLACE_SPARK_PHASE] - c->mode[HOB_TOP_NEXT_PULSE] : -1;
    case G_STEP:
      return steps (c);
    case G_MATCH:
      return match_lights (c);
    case G_BESIDE:
      return beside_lights (c);
    default:
      return hob_puff_ends (c, HOB_TOP_PUFF);
    }
}

static const guint8 guard_reads[N_GUARDS] = {
  [G_FLOWS] = HOB_READS_GAS,
  [G_STOPS] = HOB_READS_GAS,
  [G_PUFFED] = HOB_READS_NOTHING,
};

static gboolean
pulse_lights (const HobPartContext *c)
{
  double k = c->mode[HOB_TOP_NEXT_PULSE];
  double least
      = hob_spark_ignition (c->house->fuel, mixture (c), c->place[HOB_PLACE_SPARK_GAP]);
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
  hob_puff_light (c, HOB_TOP_PUFF, y[GATHERED]);
  c->mode[HOB_BURNER_FLAME] = c->mode[HOB_BURNER_FLOWING];
  c->mode[HOB_TOP_WAITING] = 0;
}

static void
flip (const HobPartContext *c, int k, double *y)
{
  switch (k)
    {
    case G_OUT:
      c->mode[HOB_TOP_OUT_AT] = *c->t;
      if (at_ports (c) && hob_ring_pops (c))
        c->mode[HOB_TOP_POP_AT] = *c->t;
      hob_burner_go_out (c);
      c->mode[HOB_TOP_INSIDE] = 0;
      break;
    case G_FLASHES:
      c->mode[HOB_TOP_INSIDE] = 1;
      c->mode[HOB_TOP_POP_AT] = *c->t;
      break;
    case G_FLOWS:
      hob_burner_begin_flow (c);
      break;
    case G_STOPS:
      c->mode[HOB_BURNER_FLOWING] = 0;
      break;
    case G_WAITS:
      c->mode[HOB_TOP_WAITING] = 1;
      c->mode[HOB_TOP_NEXT_PULSE] = floor (c->place[HOB_PLACE_SPARK_PHASE]) + 1;
      break;
    case G_LEAVES:
      c->mode[HOB_TOP_WAITING] = 0;
      break;
    case G_PULSE:
      if (pulse_lights (c))
        light (c, y);
      else
        c->mode[HOB_TOP_NEXT_PULSE] += 1;
      break;
    case G_STEP:
      step (c);
      break;
    case G_MATCH:
    case G_BESIDE:
      light (c, y);
      break;
    default:
      hob_puff_end (c, HOB_TOP_PUFF, &y[GATHERED]);
    }
}

static const HobLinkDef links[] = {
  { .from = HOB_TOP_Q_CAP, .to = HOB_TOP_Q_FLAME,
    .words = N_ ("The burner cap is %s out of place.") },
  { .from = HOB_TOP_Q_DIRT, .to = HOB_TOP_Q_FLAME,
    .words = N_ ("The dirt on the burner cap is %s thick.") },
  { .from = HOB_TOP_Q_GAS, .to = HOB_TOP_Q_HEAT, .words = N_ ("The gas flow is %s.") },
  { .from = HOB_TOP_Q_GAS, .to = HOB_LINK_MODE (HOB_BURNER_FLAME), .value = 1,
    .words = N_ ("The gas flow is %s.") },
};

static gboolean
just (const HobPartContext *c, int mode, double seconds)
{
  return c->mode[mode] > 0 && *c->t - c->mode[mode] < seconds;
}

static double
observe (const HobPartContext *c, int quantity)
{
  switch (quantity)
    {
    case HOB_TOP_Q_FLAME:
      return at_ports (c);
    case HOB_TOP_Q_HEAT:
      return burns (c) * c->house->fuel->heat;
    case HOB_TOP_Q_GAS:
      return c->q[0];
    case HOB_TOP_Q_GATHERED:
      return c->y[GATHERED];
    case HOB_TOP_Q_LIGHT_ENERGY:
      return hob_puff_energy (c, HOB_TOP_PUFF);
    case HOB_TOP_Q_BURST:
      return fmin (hob_puff_burst (c, HOB_TOP_PUFF, AS_IN), MOST_BURST);
    case HOB_TOP_Q_NEARBY:
      return hob_gas_share (c->house->fuel, c->y[GATHERED], AROUND);
    case HOB_TOP_Q_UNLIT:
      return hob_burner_unlit (c);
    case HOB_TOP_Q_UNBURNT:
      return escapes (c);
    case HOB_TOP_Q_YELLOW:
      return yellow (c);
    case HOB_TOP_Q_LOADING:
      return height (c);
    case HOB_TOP_Q_HEIGHT:
      return hob_burner_height (c, height (c));
    case HOB_TOP_Q_LEAN:
      return lean (c);
    case HOB_TOP_Q_SANK:
      return sank (c);
    case HOB_TOP_Q_RING:
      return at_ports (c) ? hob_ring_share (c) : 0;
    case HOB_TOP_Q_POP:
      return just (c, HOB_TOP_POP_AT, HEARD_FOR);
    case HOB_TOP_Q_INSIDE:
      return inside (c);
    case HOB_TOP_Q_ORANGE:
      return at_ports (c) ? c->house->minerals : 0;
    case HOB_TOP_Q_CAPPED:
      return isfinite (c->set[HOB_TOP_CAP_AWAY]);
    case HOB_TOP_Q_CAP:
      return isfinite (c->set[HOB_TOP_CAP_AWAY]) ? fabs (c->set[HOB_TOP_CAP_AWAY]) : 0;
    case HOB_TOP_Q_DIRT:
      return c->set[HOB_TOP_CAP_FILM];
    case HOB_TOP_Q_CLOGGED:
      return c->set[HOB_TOP_CLOGGED];
    case HOB_TOP_Q_WENT_OUT:
      return hob_burner_unlit (c) > 0 && just (c, HOB_TOP_OUT_AT, OUT_FOR);
    default:
      return lift (c);
    }
}

static double
stored_gas (const HobPartContext *c)
{
  return c->y[GATHERED];
}

/* All that the makes share. */
#define SURFACE_BURNER                                                                            \
  .flags = HOB_KIND_PLACE | HOB_KIND_BURNER,                                                      \
  .room = HOB_ROOM_SURFACE_BURNER,                                                                \
  .may_be_in = HOB_ROOM_KITCHEN,                                                                  \
  .means = HOB_MEANS (LEAK_CHECK),                                                                \
  HOB_TABLE (ports, ports),                                                                       \
  HOB_TABLE (states, states),                                                                     \
  HOB_TABLE (modes, modes),                                                                       \
  HOB_TABLE (ducts, ducts),                                                                       \
  HOB_TABLE (quantities, quantities),                                                             \
  HOB_TABLE (links, links),                                                                       \
  .n_guards = N_GUARDS,                                                                           \
  .symbol = { [HOB_SHEET_GAS] = { 80, 80 }, [HOB_SHEET_CUTAWAY] = { 120, 80 } },                  \
  .figure = HOB_TOP_Q_HEAT,                                                                       \
  .give = give,                                                                                   \
  .flow = flow,                                                                                   \
  .rates = rates,                                                                                 \
  .guard = guard,                                                                                 \
  .guard_reads = guard_reads,                                                                     \
  .flip = flip,                                                                                   \
  .observe = observe,                                                                             \
  .stored_gas = stored_gas

const HobKind hob_kind_burner_top = {
  .name = "burner-top",
  .label = N_ ("sealed surface burner"),
  .about = N_ ("Gas from the orifice flows through the venturi and draws air in with it. The "
               "mixture leaves through the ports under the burner cap, where the spark lights it. "
               "Spills stay on the cooktop."),
  SURFACE_BURNER,
  HOB_TABLE (settings, sealed_settings),
  HOB_TABLE (faults, hob_burner_top_faults),
  .draw = hob_burner_top_draw,
};

const HobKind hob_kind_burner_open = {
  .name = "burner-open",
  .label = N_ ("open surface burner"),
  .about = N_ ("Gas from the orifice draws air in through the air shutter. A little of the mixture "
               "flows along the flash tube to the electrode. The spark lights it there, and the "
               "flame runs back to the burner. Spills fall through the open cooktop."),
  SURFACE_BURNER,
  HOB_TABLE (settings, open_settings),
  HOB_TABLE (faults, hob_burner_open_faults),
  .draw = hob_burner_open_draw,
};
