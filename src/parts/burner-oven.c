/* SPDX-License-Identifier: GPL-3.0-or-later */

/* Oven burner in its compartment.  The orifice draws in primary air, the mixture fills the tube
 * and meets the igniter.  It lights as soon as it is within its flammable limits there and the
 * igniter is hotter than it needs.  Until then gas gathers in the compartment.  The stream
 * pushes as much out into the cavity, and a slow draft carries off a little more, so the
 * compartment is never richer than what the tube sends:
 *
 *   dm/dt = q − m·(draft + stream)/V − what burns
 *   draft = 0.05 + 0.95·√((T_air − T_room)/150 K) L/s
 *
 * Between the ports and the igniter the mixture takes in air from the compartment, more with
 * distance (law of a free jet: Ricou and Spalding, J. Fluid Mech. 11 (1961) 21) and with a
 * weaker stream from clogged ports.  That air holds the gas that has gathered, so an igniter
 * out of place lights late, from the compartment:
 *
 *   x = w·x_tube + (1 − w)·x_box,   w = (1 − offset)·(1 − clogged)/1.7
 *
 * The gathered gas burns within a third of a second of lighting: its energy is the whoosh or
 * the bang.  It needs no stream for that: what has gathered to within its limits goes off at an
 * igniter that is hot enough for it, be the valve long closed.  Where the orifice has too little
 * pressure for a flame, none stays.  Tube, compartment and draft are invented for a believable
 * appliance. */

#include "parts/burner.h"
#include "parts/symbol.h"

enum { IN };
enum { TUBE = HOB_BURNER_N_SETTINGS, BOX, HEATS, CLOGGED, JET_CLOGGED };
enum { FROM_BELOW, FROM_ABOVE };
enum { GATHERED };
enum
{
  PUFF = HOB_BURNER_N_MODES,
  OUT_AT = PUFF + HOB_PUFF_N_MODES, /* s, when it last went out; 0: it never burned */
  DARK                              /* s without a flame before it last lit */
};
enum { G_LIGHT, G_OUT, G_FLOWS, G_STOPS, G_PUFFED, N_GUARDS };
enum { Q_FLAME, Q_HEAT, Q_GAS, Q_GATHERED, Q_LIGHT_ENERGY, Q_BURST, Q_NEARBY, Q_UNLIT, Q_YELLOW,
       Q_LIFT, Q_GLOW, Q_LOADING, Q_HEIGHT, Q_ORANGE, Q_SINCE, Q_DARK, Q_ROLLED };

#define NEVER 1e6 /* s: there has been no flame so far */
#define LIGHTS_ABOVE 30.0     /* Pa at the orifice, below which no flame lights … */
#define DIES_BELOW 15.0       /* … or keeps burning */
#define DIES_OXYGEN 0.156     /* vol/vol: the glowing igniter holds a flame a little longer */
#define STILL_DRAFT 0.05e-3 /* m³/s */
#define WARM_DRAFT 0.95e-3  /* m³/s more at 150 K above the room */

static const HobPortDef ports[] = {
  { .name = "in", .words = N_ ("gas from the burner's valve"), .required = TRUE, .way = HOB_WAY_IN,
    .x = -80 },
};

static const char *const from_where[] = { "from-below", "from-above", NULL };

static const HobSettingDef settings[] = {
  { .name = "orifice", .words = N_ ("Orifice diameter."), .dim = HOB_DIM_LENGTH,
    .normal = 0.0715 * 0.0254, .low = 0.2e-3, .high = 6e-3 },
  { .name = "ports", .words = N_ ("Total area of the burner ports, given as the diameter of a "
                                  "single hole with the same area."),
    .dim = HOB_DIM_LENGTH, .normal = 1.0262 * 0.0254, .low = 5e-3, .high = 80e-3 },
  { .name = "shutter", .words = N_ ("Air shutter opening, compared with the correct opening."),
    .normal = 1, .high = 2, .visible = 0.25 },
  { .name = "discharge", .words = N_ ("Discharge coefficient of the orifice."), .normal = 0.90,
    .low = 0.5, .high = 1 },
  { .name = "tube",
    .words = N_ ("Volume of the burner tube."), .dim = HOB_DIM_VOLUME, .normal = 0.35e-3,
    .low = 1e-5, .high = 1e-2 },
  { .name = "box",
    .words = N_ ("Volume of the burner compartment."), .dim = HOB_DIM_VOLUME, .normal = 15e-3,
    .low = 1e-3, .high = 0.2 },
  { .name = "heats", .words = N_ ("Whether the burner heats the oven from below or from above."),
    .dim = HOB_DIM_CHOICE, .normal = FROM_BELOW, .high = 1, .choices = from_where },
  { .name = "clogged", .words = "Share of the ports near the igniter that is closed.",
    .high = 1, .condition = TRUE, .visible = 0.25 },
  { .name = "orifice-clogged", .words = "Share of the jet that is closed.", .high = 1,
    .condition = TRUE },
};

static const HobStateDef states[] = {
  { .name = "gathered", .words = "unburned gas in the burner box, kg", .tolerance = 1e-6,
    .amount = TRUE },
};


static const HobModeDef modes[] = {
  HOB_BURNER_MODES (Q_HEAT, Q_YELLOW, Q_LIFT),
  HOB_PUFF_MODES,
  { .name = "out-at" },
  { .name = "waited" },
};

static const HobDuctDef ducts[] = {
  { .name = "jet", .a = IN, .b = -1 },
};

static const HobQuantityDef quantities[] = {
  { .name = "flame", .words = N_ ("flame"), .values = hob_no_yes, .sense = HOB_SENSE_EYE },
  { .name = "heat", .words = N_ ("heat output"), .dim = HOB_DIM_POWER, .sense = HOB_SENSE_EYE,
    .trace = 3,
    .says = N_ ("The burner puts out %s.") },
  { .name = "gas", .words = N_ ("gas flow"), .dim = HOB_DIM_MASS_FLOW },
  { .name = "gathered", .words = N_ ("unburned gas in the burner compartment"),
    .dim = HOB_DIM_MASS },
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
    .say = HOB_SAY_SHARE, .sense = HOB_SENSE_NOSE, .reads = HOB_READS_NOTHING },
  { .name = "unlit", .words = N_ ("how long gas has flowed without a flame"), .dim = HOB_DIM_TIME,
    .sense = HOB_SENSE_NOSE,
    .says = N_ ("Gas has flowed without a flame for %s.") },
  { .name = "yellow", .words = N_ ("yellow in the flame"),
    .say = HOB_SAY_SHARE, .sense = HOB_SENSE_EYE,
    .says = N_ ("%s of the flame is yellow.") },
  { .name = "lift", .words = N_ ("flame lifting"), .say = HOB_SAY_SHARE, .sense = HOB_SENSE_EYE,
    .says = N_ ("%s of the flame lifts off the ports.") },
  { .name = "glow", .words = N_ ("glow of the igniter beside this burner"),
    .dim = HOB_DIM_TEMPERATURE,
    .say = HOB_SAY_GLOW, .sense = HOB_SENSE_EYE, .reads = HOB_READS_STATES_WITHIN },
  { .name = "loading", .words = N_ ("port loading in W/mm² (1 W/mm² = 2,200 Btu/h per sq. in.)"),
    .sense = HOB_SENSE_EYE },
  { .name = "flame-height", .words = N_ ("flame height, compared with normal"),
    .say = HOB_SAY_PERCENT, .sense = HOB_SENSE_EYE, .reads = HOB_READS_GAS,
    .says = N_ ("The flame is at %s of its normal height.") },
  { .name = "orange", .words = N_ ("orange in the flame"), .say = HOB_SAY_SHARE,
    .sense = HOB_SENSE_EYE },
  { .name = "since-flame", .words = N_ ("time since the last flame"), .dim = HOB_DIM_TIME,
    .sense = HOB_SENSE_EYE, .never = NEVER },
  { .name = "waited",
    .words = N_ ("time from one flame to the next, or from the start to the first"),
    .dim = HOB_DIM_TIME, .sense = HOB_SENSE_EYE,
    .brief = TRUE,
    .remark = N_ ("reading held for 5 s after it happens"),
    .says = N_ ("The burner lit after %s with no flame.") },
  { .name = "rolled-out",
    .words = N_ ("heat output of the flames that roll out of the burner compartment"),
    .dim = HOB_DIM_POWER, .sense = HOB_SENSE_EYE,
    .says = N_ ("Flames with a heat output of %s roll out of the burner compartment.") },
};

static const HobFaultDef faults[] = {
  {
    .id = "ports-clogged",
    .words = N_ ("burner ports near the igniter clogged"),
    .severity_words = N_ ("%s of the ports near the igniter clogged"),
    .typical = 0.95,
    .prior = 4,
    .basis = "spills and rust",
    .proof = N_ ("The igniter's amp draw is normal, and gas flows, but the burner lights late. "
                 "Unplug the range and let the igniter cool. The ports near the igniter are "
                 "blocked. Clear them and plug the range back in. Now the burner lights on time."),
    .confirm = HOB_MEANS (INSPECT_INSIDE) | HOB_MEANS (AMPS) | HOB_MEANS (HAND),
    .hazards = HOB_HAZARD (GAS_GATHERED) | HOB_HAZARD (STOP_USING),
    HOB_EFFECTS ({ .setting = CLOGGED, .how = HOB_EFFECT_ADD, .at1 = 1 }),
  },
  {
    .id = "orifice-clogged",
    .words = N_ ("orifice clogged"),
    .severity_words = N_ ("%s of the orifice clogged"),
    .typical = 0.5,
    .prior = 2,
    .basis = "dust, an insect's nest",
    .proof = N_ ("Read the manifold pressure with the burner on. It's normal, but the flame is "
                 "low. Shut off the gas, take the orifice out, and look through it. The hole is "
                 "partly blocked; it should be clear."),
    .confirm = HOB_MEANS (PRESSURE) | HOB_MEANS (OPEN_GAS),
    .hazards = HOB_HAZARD (CO_FLAME),
    HOB_EFFECTS ({ .setting = JET_CLOGGED, .how = HOB_EFFECT_ADD, .at1 = 1 }),
  },
  {
    .id = "shutter-closed",
    .words = N_ ("air shutter closed too far"),
    .severity_words = N_ ("air shutter opening %s too small"),
    .typical = 0.7,
    .prior = 2,
    .basis = "slipped or badly set",
    .proof = N_ ("Look for a lazy, yellow flame. Open the air shutter and tighten its screw. Now "
                 "the flame is blue."),
    .confirm = HOB_MEANS (INSPECT_INSIDE),
    .hazards = HOB_HAZARD (CO_FLAME),
    HOB_EFFECTS ({ .setting = HOB_BURNER_SHUTTER, .how = HOB_EFFECT_MULTIPLY, .at0 = 1, .at1 = 0 }),
  },
  {
    .id = "shutter-open",
    .words = N_ ("air shutter open too far"),
    .severity_words = N_ ("air shutter opening %s too large"),
    .prior = 1,
    .basis = "badly set",
    .proof = N_ ("Look for a flame that lifts off the burner ports. Close the air shutter partway "
                 "and tighten its screw. Now the flame doesn't lift."),
    .confirm = HOB_MEANS (INSPECT_INSIDE),
    .hazards = HOB_HAZARD (CO_FLAME),
    HOB_EFFECTS ({ .setting = HOB_BURNER_SHUTTER, .how = HOB_EFFECT_MULTIPLY, .at0 = 1,
                   .at1 = 1.6 }),
  },
  {
    .id = "orifice-for-lp",
    .words = N_ ("LP orifice on natural gas, conversion not finished"),
    .prior = 1,
    .basis = "a conversion half done",
    .proof = N_ ("Compare the number on the orifice with the tech sheet. It's an LP orifice, but "
                 "the range is on natural gas. Turn off every other gas appliance and burner, and "
                 "clock the gas meter with this burner on. The burner's input is far below its "
                 "Btu/h rating."),
    .confirm = HOB_MEANS (OPEN_GAS) | HOB_MEANS (METER_CLOCK),
    .hazards = HOB_HAZARD (CO_FLAME),
    .plate = HOB_PLATE (HOB_FUEL_NATURAL),
    HOB_EFFECTS ({ .setting = HOB_BURNER_ORIFICE, .how = HOB_EFFECT_MULTIPLY, .at0 = 1,
                   .at1 = 0.0488 / 0.0715 }),
  },
  {
    .id = "orifice-for-natural",
    .words = N_ ("natural gas orifice on LP, conversion not finished"),
    .prior = 1,
    .basis = "a conversion half done",
    .proof = N_ ("Compare the number on the orifice with the tech sheet. It's a natural gas "
                 "orifice, but the range is on LP. The manifold pressure is normal for LP, but the "
                 "flame is much too big."),
    .confirm = HOB_MEANS (OPEN_GAS) | HOB_MEANS (PRESSURE),
    .hazards = HOB_HAZARD (CO_FLAME),
    .plate = HOB_PLATE (HOB_FUEL_LP),
    HOB_EFFECTS ({ .setting = HOB_BURNER_ORIFICE, .how = HOB_EFFECT_MULTIPLY, .at0 = 1,
                   .at1 = 0.0715 / 0.0488 }),
  },
};

static double
jet_width (const HobPartContext *c)
{
  return c->set[HOB_BURNER_ORIFICE] * sqrt (1 - c->set[JET_CLOGGED]);
}

static double
primary_air (const HobPartContext *c)
{
  double width = jet_width (c);
  double ratio = width > 0 ? c->set[HOB_BURNER_PORTS] / width : G_MAXDOUBLE;

  return hob_primary_air (c->house->fuel, MIN (ratio * ratio, 1e6), 1)
         * c->set[HOB_BURNER_SHUTTER];
}

static double
aeration (const HobPartContext *c)
{
  return hob_flame_aeration (c->house->fuel, primary_air (c), c->within[HOB_PLACE_OXYGEN]);
}

static double
yellow (const HobPartContext *c)
{
  return hob_burner_lit (c) ? hob_flame_yellow (c->house->fuel, aeration (c)) : 0;
}

static double
lift (const HobPartContext *c)
{
  return hob_burner_lit (c) ? hob_flame_lift (c->house->fuel, aeration (c)) : 0;
}

/* m³/s of mixture out of the tube. */
static double
stream (const HobPartContext *c)
{
  return c->q[0] / c->house->fuel->density * (1 + primary_air (c));
}

/* Fuel in what has gathered in the compartment, vol/vol. */
static double
in_box (const HobPartContext *c)
{
  return MIN (c->y[GATHERED] / c->house->fuel->density / c->set[BOX], 1);
}

/* Fuel in the mixture at the igniter while gas flows, vol/vol. */
static double
mixture (const HobPartContext *c)
{
  double offset = CLAMP (c->place[HOB_PLACE_SPARK_OFFSET], 0, 1);
  double w = (1 - offset) * (1 - c->set[CLOGGED]) / (1 + HOB_BURNER_DILUTION);
  double fill = hob_burner_fill (c, primary_air (c), c->set[TUBE]);

  return w * fill * hob_primary_mixture (primary_air (c)) + (1 - w) * in_box (c);
}

static double
draft (const HobPartContext *c)
{
  double rise = MAX (c->place[HOB_PLACE_AIR] - c->house->temperature, 0);

  return STILL_DRAFT + WARM_DRAFT * sqrt (rise / 150);
}

static void
give (const HobPartContext *c)
{
  hob_burner_give (c);
}

static void
flow (const HobPartContext *c)
{
  double width = jet_width (c);

  if (width > 0)
    c->duct[0] = hob_burner_jet (c, width);
}

/* kg/s */
static double
steady (const HobPartContext *c)
{
  return hob_burner_lit (c) ? c->q[0] * c->within[HOB_PLACE_BURNABLE] : 0;
}

/* kg/s that find no oxygen in the compartment: that part of the flame rolls out at the front and
 * burns in the kitchen's air. */
static double
rolls (const HobPartContext *c)
{
  return hob_burner_lit (c) ? c->q[0] * (1 - c->within[HOB_PLACE_BURNABLE]) : 0;
}

/* What the flame makes of the oven's air, and an unlit jet's of the room's. */
static void
air_rates (const HobPartContext *c)
{
  int metal = (int) c->set[HEATS] == FROM_ABOVE ? HOB_PLACE_WALL : HOB_PLACE_FLOOR;
  double warm = c->within[metal] - c->house->temperature;

  if (hob_burner_lit (c))
    {
      const HobFuel *fuel = c->house->fuel;
      double a = aeration (c);

      c->within[HOB_PLACE_CO]
          += hob_burner_co (c, steady (c), hob_burner_loading (c), hob_flame_soot (fuel, a),
                            hob_flame_lift (fuel, a), warm);
    }
  else
    c->within[HOB_PLACE_DRAWN] += c->q[0] / hob_fuel_mole (c->house->fuel) * primary_air (c);
}

static void
rates (const HobPartContext *c)
{
  double flame = steady (c), rolled = rolls (c);
  double puff = hob_puff_rate (c, PUFF);
  double pushed = hob_burner_lit (c) ? 0 : stream (c);
  double drained
      = hob_puff_burns (c, PUFF) ? 0 : c->y[GATHERED] / c->set[BOX] * (draft (c) + pushed);
  double heat = (flame + puff) * c->house->fuel->heat;

  c->dy[GATHERED] = c->q[0] - flame - rolled - puff - drained;
  c->within[HOB_PLACE_HEAT] += heat + c->place[HOB_PLACE_HEAT];
  if ((int) c->set[HEATS] == FROM_ABOVE)
    c->within[HOB_PLACE_HEAT_ABOVE] += heat + c->place[HOB_PLACE_HEAT];
  c->within[HOB_PLACE_UNBURNT] += drained + c->place[HOB_PLACE_UNBURNT];
  c->within[HOB_PLACE_ROLLED] += rolled;
  c->within[HOB_PLACE_BURNT] += flame + puff;
  c->within[HOB_PLACE_HOT] = MAX (c->within[HOB_PLACE_HOT], c->place[HOB_PLACE_HOT]);
  if (puff > 0)
    c->within[HOB_PLACE_BURST]
        = MAX (c->within[HOB_PLACE_BURST], hob_puff_burst (c, PUFF, c->set[BOX]));
  air_rates (c);
  c->ledger[HOB_LEDGER_HEAT_IN] += heat + rolled * c->house->fuel->heat;
  c->ledger[HOB_LEDGER_GAS_IN] += c->q[0];
  c->ledger[HOB_LEDGER_GAS_BURNT] += flame + puff + rolled;
}

/* How far each condition for fuel of @x vol/vol to light at the igniter is beyond its threshold, as
 * a share; the least decides. */
static double
ignites (const HobPartContext *c, double x)
{
  const HobFuel *fuel = c->house->fuel;
  double burnable = MIN (x / fuel->lean - 1, 1 - x / fuel->rich);

  if (burnable <= 0)
    return burnable;

  double hot = CLAMP (c->place[HOB_PLACE_HOT] / hob_hot_surface_ignition (fuel, x) - 1, -1, 1);
  double breathes = c->within[HOB_PLACE_OXYGEN] / HOB_FLAME_LIGHTS_OXYGEN - 1;

  return MIN (burnable, MIN (hot, breathes));
}

/* > 0: there is the pressure for a flame at the ports. */
static double
pressed (const HobPartContext *c)
{
  return c->mode[HOB_BURNER_FLOWING] > 0 ? CLAMP (c->p[IN] / LIGHTS_ABOVE - 1, -1, 1) : -1;
}

/* > 0: the stream lights, or what has gathered does. */
static double
lights (const HobPartContext *c)
{
  double stream = pressed (c), gathered = ignites (c, in_box (c));

  return stream > gathered ? MAX (MIN (stream, ignites (c, mixture (c))), gathered) : gathered;
}

/* A flame needs gas, oxygen, and a primary mixture that still burns with the air around it. */
static double
dies (const HobPartContext *c)
{
  double lean = hob_primary_mixture (primary_air (c)) / c->house->fuel->lean;

  double breathless = 1 - c->within[HOB_PLACE_OXYGEN] / DIES_OXYGEN;

  return MAX (MAX (1 - c->p[IN] / DIES_BELOW, 0.9 - lean), breathless);
}

static double
guard (const HobPartContext *c, int k)
{
  gboolean flame = hob_burner_lit (c), burns = flame || hob_puff_burns (c, PUFF);

  switch (k)
    {
    case G_LIGHT: return burns ? -1 : lights (c);
    case G_OUT: return flame ? dies (c) : -1;
    case G_FLOWS: return hob_burner_flows (c, IN);
    case G_STOPS: return hob_burner_stops (c, IN);
    default: return hob_puff_ends (c, PUFF);
    }
}

static const guint8 guard_reads[] = {
  [G_LIGHT] = HOB_READS_GAS | HOB_READS_STATES_WITHIN, /* the heat of the igniter */
  [G_OUT] = HOB_READS_GAS,
  [G_FLOWS] = HOB_READS_GAS,
  [G_STOPS] = HOB_READS_GAS,
  [G_PUFFED] = HOB_READS_NOTHING,
};

/* s since the last flame; without one so far, as long as can be. */
static double
dark (const HobPartContext *c)
{
  if (hob_burner_lit (c))
    return 0;
  return c->mode[OUT_AT] > 0 ? fmin (*c->t - c->mode[OUT_AT], NEVER) : NEVER;
}

static void
flip (const HobPartContext *c, int k, double *y)
{
  switch (k)
    {
    case G_LIGHT:
      c->mode[DARK] = *c->t - c->mode[OUT_AT]; /* the first time, since all began */
      hob_puff_light (c, PUFF, y[GATHERED]);
      c->mode[HOB_BURNER_FLAME] = pressed (c) > 0;
      break;
    case G_OUT:
      hob_burner_go_out (c);
      c->mode[OUT_AT] = *c->t;
      break;
    case G_FLOWS:
      hob_burner_begin_flow (c);
      break;
    case G_STOPS: c->mode[HOB_BURNER_FLOWING] = 0; break;
    default: hob_puff_end (c, PUFF, &y[GATHERED]);
    }
}

/* K at which the igniter lights the best mixture. */
static double
lights_at (const HobPartContext *c)
{
  const HobFuel *fuel = c->house->fuel;

  return hob_hot_surface_ignition (fuel, 1 / (1 + fuel->air));
}

static const HobLinkDef links[] = {
  { .from = Q_GLOW, .to = HOB_LINK_MODE (HOB_BURNER_FLAME), .value = 1,
    /* Translators: "… is at 1,500 °F. It should be 2,300 °F (lights gas at 1,900 °F)." */
    .words = N_ ("The igniter is at %s."), .at = N_ ("lights gas at %s"), .limit = lights_at },
  { .from = Q_GAS, .to = Q_HEAT, .words = N_ ("The gas flow is %s.") },
};

static double
observe (const HobPartContext *c, int quantity)
{
  switch (quantity)
    {
    case Q_FLAME: return c->mode[HOB_BURNER_FLAME];
    case Q_HEAT: return steady (c) * c->house->fuel->heat;
    case Q_GAS: return c->q[0];
    case Q_GATHERED: return c->y[GATHERED];
    case Q_LIGHT_ENERGY: return hob_puff_energy (c, PUFF);
    case Q_BURST: return hob_puff_burst (c, PUFF, c->set[BOX]);
    case Q_NEARBY: return hob_gas_share (c->house->fuel, c->y[GATHERED], c->set[BOX]);
    case Q_UNLIT: return hob_burner_unlit (c);
    case Q_YELLOW: return yellow (c);
    case Q_LIFT: return lift (c);
    case Q_LOADING: return hob_burner_loading (c);
    case Q_HEIGHT: return hob_burner_height (c, hob_burner_loading (c));
    case Q_ORANGE: return hob_burner_lit (c) ? c->house->minerals : 0;
    case Q_SINCE: return dark (c);
    case Q_ROLLED: return rolls (c) * c->house->fuel->heat;
    case Q_DARK: return hob_puff_energy (c, PUFF) > 0 ? c->mode[DARK] : 0;
    default: return MAX (c->place[HOB_PLACE_GLOW_SHOWN], c->place[HOB_PLACE_AIR]);
    }
}

static double
stored_gas (const HobPartContext *c)
{
  return c->y[GATHERED];
}

/* The bake burner lies under the oven bottom; the broil burner is in view. */
static gboolean
covered (const double *set)
{
  return (int) set[HEATS] == FROM_BELOW;
}

/* n flames over a tube from −half to half, as tall as the heat makes them. */
static void
draw_flames (HobPen *pen, const HobPartView *view, double half, double y, int n, double full)
{
  const double full_watt = 5275; /* 18,000 Btu/h */
  HobSymbolFlame flame = {
    .height = hob_symbol_flame_height (view->quantity[Q_HEAT], full_watt, full),
    .most = full * 1.14,
    .yellow = view->quantity[Q_YELLOW],
    .lift = view->quantity[Q_LIFT],
  };

  for (int k = 0; k < n; flame.nth = ++k)
    hob_symbol_flame (pen, -half + 2 * half * (k + 0.5) / n, y, &flame);
}

/* The tube with its ports, its venturi and the orifice. */
static void
draw_tube (HobPen *pen, double left, double right, double y, int n, HobRole fill, HobRole ink)
{
  pen_rect (pen, left, y, right - left, 14);
  pen_fill_stroke (pen, fill, ink, HOB_OUTLINE);
  for (int k = 0; k < n; k++)
    {
      double x = left + (right - left) * (k + 0.5) / n;

      pen_segment (pen, x, y, x, y + 5);
    }
  pen_stroke (pen, ink, HOB_DETAIL);
}

static void
draw_gas (HobPen *pen, const HobPartView *view)
{
  const double left = -36, right = 72;

  if (view->layer == HOB_LAYER_STATE)
    {
      pen_push (pen, (left + right) / 2, 0, 0);
      draw_flames (pen, view, (right - left) / 2, -9, 9, 27);
      pen_pop (pen);
      return;
    }
  hob_symbol_tube (pen, -80, -64, 0);
  pen_move (pen, -64, -8); /* the jet */
  pen_line (pen, -54, -2);
  pen_line (pen, -54, 2);
  pen_line (pen, -64, 8);
  pen_close (pen);
  pen_fill_stroke (pen, HOB_ROLE_PANEL, HOB_ROLE_INK, HOB_OUTLINE);
  draw_tube (pen, left, right, -7, 9, HOB_ROLE_PANEL, HOB_ROLE_INK);
}

static void
draw_cutaway (HobPen *pen, const HobPartView *view)
{
  const double half = HOB_OVEN_TUBE_HALF, top = HOB_OVEN_TUBE_DOWN - 7;

  if (view->layer == HOB_LAYER_PAPER)
    draw_tube (pen, -half, half, top, 21, HOB_ROLE_CAVITY, HOB_ROLE_CAVITY_INK);
  else
    draw_flames (pen, view, half, top - 2, 21, 48);
}

static void
draw (HobPen *pen, const HobPartView *view)
{
  if (view->sheet == HOB_SHEET_GAS)
    draw_gas (pen, view);
  else
    draw_cutaway (pen, view);
}

const HobKind hob_kind_burner_oven = {
  .name = "burner-oven",
  .label = N_ ("oven burner"),
  .about = N_ ("A bake or broil burner, lit by an igniter at its first ports. If gas arrives "
               "before the igniter is hot enough, the gas collects and then lights all at once."),
  .flags = HOB_KIND_PLACE | HOB_KIND_BURNER,
  .means = HOB_MEANS (INSPECT_INSIDE) | HOB_MEANS (LEAK_CHECK),
  .room = HOB_ROOM_OVEN_BURNER,
  .may_be_in = HOB_ROOM_OVEN,
  HOB_TABLE (ports, ports),
  HOB_TABLE (settings, settings),
  HOB_TABLE (states, states),
  HOB_TABLE (modes, modes),
  HOB_TABLE (ducts, ducts),
  HOB_TABLE (faults, faults),
  HOB_TABLE (quantities, quantities),
  HOB_TABLE (links, links),
  .n_guards = N_GUARDS,
  .guard_reads = guard_reads,
  .symbol = { [HOB_SHEET_GAS] = { 160, 80 }, [HOB_SHEET_CUTAWAY] = { 320, 80 } },
  .figure = Q_HEAT,
  .give = give,
  .flow = flow,
  .rates = rates,
  .guard = guard,
  .flip = flip,
  .observe = observe,
  .stored_gas = stored_gas,
  .covered = covered,
  .draw = draw,
};
