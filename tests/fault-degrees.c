/* SPDX-License-Identifier: GPL-3.0-or-later */

/* Every fault with a severity, by degree: the one reading that shows it moves one way in 11 steps,
 * no step is more than a third of the way, and the last tenth still moves it.  Where the part
 * itself snaps, no reading can, and the reason is given.  Which faults there are the kinds say. */

#include "faulty.h"

#define ALL_ON                                                                                     \
  "0s knob-lf=light", "0s knob-lr=light", "0s knob-rf=light", "0s knob-rr=light",                  \
      "10s knob-lf=high", "10s knob-lr=high", "10s knob-rf=high", "10s knob-rr=high"
#define HIGH_THEN_LOW "1s knob-lf=light", "8s knob-lf=high", "20s knob-lf=low"
#define SPARKING "0s shutoff=closed", "1s knob-lf=light"
#define BAKE "0s oven.mode=bake"
#define UNPLUGGED "0s cord.plug=out"

/* What a fault with a severity moves: a quantity, or a test with a blank in it. */
typedef struct
{
  const char *range, *fault;
  const char *acts[9];
  const char *reading;
  double t;
  int from;         /* the first tenth at which there is something to read, or 1 where the mildest
                     * of it is a step of its own away from normal */
  gboolean decades; /* resistances that run over decades are compared by their logarithms */
  int to;           /* the last tenth; 0: all ten */
} Degree;

static const Degree degrees[] = {
  /* Gas and air. */
  { "dial-four", "burner-lf:cap-not-seated@12", { HIGH_THEN_LOW }, "burner-lf.ring", 31, 1 },
  { "dial-four", "burner-lf:cap-small@12", { HIGH_THEN_LOW }, "burner-lf.loading", 19, 0 },
  { "dial-four", "burner-lf:cap-large@12", { HIGH_THEN_LOW }, "burner-lf.loading", 19, 0 },
  { "dial-four", "burner-lf:ports-blocked", { HIGH_THEN_LOW }, "burner-lf.ring", 19, 0 },
  { "dial-four", "burner-lf:orifice-clogged@12", { HIGH_THEN_LOW }, "burner-lf.heat", 19, 0 },
  { "round-dial", "burner-lf:ports-blocked", { HIGH_THEN_LOW }, "burner-lf.ring", 19, 0 },
  { "round-dial", "burner-lf:orifice-clogged@12", { HIGH_THEN_LOW }, "burner-lf.heat", 19, 0 },
  { "round-dial", "burner-lf:shutter-closed", { HIGH_THEN_LOW }, "burner-lf.yellow", 19, 1 },
  { "round-dial", "burner-lf:shutter-open", { HIGH_THEN_LOW }, "burner-lf.lift", 19, 1 },
  { "dial-four", "valve-lf:stiff", { HIGH_THEN_LOW }, "burner-lf.heat", 19, 0 },
  { "dial-four", "valve-lf:low-too-low", { HIGH_THEN_LOW }, "burner-lf.gas", 31, 1 },
  { "dial-four", "valve-lf:leaks", { NULL }, "burner-lf.gas", 20, 0 },
  { "dial-four", "burner-bake:orifice-clogged@100", { BAKE }, "burner-bake.heat", 110, 0 },
  { "dial-four", "regulator:set-low@12", { HIGH_THEN_LOW }, "pressure manifold.in", 19, 0 },
  { "dial-four", "regulator:set-high", { "house.gas-pressure=3000 Pa", HIGH_THEN_LOW },
    "pressure manifold.in", 19, 0 },
  { "dial-four", "regulator:sticks", { "house.gas-pressure=3000 Pa" }, "pressure manifold.in", 19,
    0 },
  { "dial-four", "regulator:clogged", { ALL_ON }, "pressure manifold.in", 30, 0 },
  { "dial-four", "connector:leaks", { NULL }, "connector.leak", 20, 0 },
  { "dial-four", "house:gas-low", { NULL }, "pressure regulator.in", 20, 0 },
  { "dial-four", "house:gas-starved", { ALL_ON }, "pressure regulator.in", 30, 0 },
  { "round-dial", "supply:undersized", { ALL_ON }, "supply.loss", 30, 1 },
  { "dial-four", "cavity:vent-covered", { BAKE }, "cavity.vent", 100, 0 },
  { "dial-four", "cavity:bottom-covered", { BAKE }, "cavity.floor", 400, 0 },
  { "dial-four", "door:gasket-torn", { BAKE }, "cavity.edge", 500, 0 },

  /* Connections, from the panel to the igniter and back. */
  { "dial-four", "cord:line-blade-burned", { BAKE }, "volts receptacle.line cord.plug-line", 60 },
  { "dial-four", "cord:neutral-blade-burned", { BAKE },
    "volts cord.plug-neutral receptacle.neutral", 60 },
  { "dial-four", "cord:line-strands-broken", { BAKE }, "volts cord.plug-line cord.lug-line", 60 },
  { "dial-four", "cord:neutral-strands-broken", { BAKE },
    "volts cord.lug-neutral cord.plug-neutral", 60 },
  { "dial-four", "cord:line-screw-loose", { BAKE }, "volts cord.lug-line cord.line", 60 },
  { "dial-four", "cord:neutral-screw-loose", { BAKE }, "volts cord.neutral cord.lug-neutral", 60 },
  { "dial-four", "neutral:burned", { BAKE }, "volts neutral.at neutral.supply", 60 },
  { "dial-four", "oven:contact-burned", { BAKE }, "volts oven.line oven.mid", 60 },
  { "board-five", "oven:relay-burned", { BAKE }, "volts oven.line oven.bake", 60 },
  { "round-dial", "splice-bake:burned", { BAKE }, "volts splice-bake.a splice-bake.b", 60 },
  { "dial-four", "igniter-bake:plug-burned", { BAKE }, "volts igniter-bake.a igniter-bake.lead",
    60 },
  { "round-dial", "igniter-bake:plug-burned", { BAKE }, "volts igniter-bake.a igniter-bake.lead",
    60 },
  { "dial-four", "igniter-bake:line-lead-chafed", { UNPLUGGED },
    "ohms igniter-bake.lead chassis.body", 5, 1, TRUE },
  { "round-dial", "igniter-bake:line-lead-chafed", { UNPLUGGED },
    "ohms igniter-bake.lead chassis.body", 5, 1, TRUE },
  { "dial-four", "igniter-bake:valve-lead-chafed", { BAKE }, "volts valve-bake.a valve-bake.b",
    60 },
  { "round-dial", "igniter-bake:valve-lead-chafed", { BAKE }, "volts valve-bake.a valve-bake.b",
    60 },
  { "dial-four", "cord:neutral-pinched", { UNPLUGGED }, "ohms cord.plug-neutral chassis.body", 5, 1,
    TRUE },
  { "dial-four", "cord:line-pinched", { UNPLUGGED }, "ohms cord.plug-line chassis.body", 5, 1,
    TRUE },
  { "dial-four", "cord:thin-extension", { BAKE }, "volts cord.plug-line cord.lug-line", 60 },

  /* The house. */
  { "dial-four", "receptacle:neutral-resistance", { BAKE },
    "volts receptacle.neutral receptacle.ground", 60 },
  { "dial-four", "receptacle:weak-branch", { BAKE }, "volts receptacle.neutral receptacle.ground",
    60 },
  { "dial-four", "receptacle:low-volts", { BAKE }, "volts receptacle.line receptacle.neutral", 5 },
  { "dial-four", "house:neutral-open", { UNPLUGGED }, "volts receptacle.line receptacle.neutral",
    5 },

  /* Igniters, and what senses the oven. */
  { "dial-four", "igniter-bake:aged", { BAKE }, "amps igniter-bake", 300 },
  { "round-dial", "igniter-bake:aged", { BAKE }, "amps igniter-bake", 300 },
  { "dial-four", "bulb:on-bottom", { BAKE }, "bulb.sensed", 300 },
  { "dial-four", "bulb:near-door", { BAKE }, "bulb.sensed", 300 },
  { "dial-four", "bulb:charge-lost", { BAKE }, "bulb.reads", 300 },
  { "dial-four", "oven:calibration-high", { BAKE }, "cavity.middle", 7200 },
  { "dial-four", "oven:calibration-low", { BAKE }, "cavity.middle", 7200 },
  { "board-five", "oven:reads-high", { BAKE }, "oven.ohms", 60 },
  { "board-five", "oven:reads-low", { BAKE }, "oven.ohms", 60 },
  { "board-five", "sensor:plug-corroded", { UNPLUGGED }, "ohms sensor.a sensor.own", 5 },
  { "board-five", "sensor:drifted", { UNPLUGGED }, "ohms sensor.own sensor.b", 5 },

  /* Sparks. */
  { "dial-four", "knob-lf:slips", { "1s knob-lf=high" }, "knob-lf.stem", 10, 1 },
  { "dial-four", "electrode-lf:gap-wide", { NULL }, "electrode-lf.gap", 5, 1 },
  { "dial-four", "electrode-lf:gap-narrow", { NULL }, "electrode-lf.gap", 5, 1 },
  { "dial-four", "electrode-lf:off-place", { NULL }, "electrode-lf.off-place", 5, 1 },
  { "reignite-six", "electrode-lf:fouled", { "1s knob-lf=high" }, "module.flame-current", 30, 1 },
  { "dial-four", "module:irregular", { SPARKING }, "electrode-lf.sparks", 120, 1 },
  { "pair-spark-four", "module:irregular", { SPARKING }, "electrode-lf.sparks", 120, 1 },
  { "reignite-six", "module:irregular", { SPARKING }, "electrode-lf.sparks", 120, 1 },
  { "dial-four", "module:slow", { SPARKING }, "module.rate", 20, 1 },
  { "pair-spark-four", "module:slow", { SPARKING }, "module.rate", 20, 1 },
  { "reignite-six", "module:slow", { SPARKING }, "module.rate", 20, 1 },
  { "dial-four", "module:faded", { SPARKING }, "electrode-lf.energy", 20, 1 },
  { "pair-spark-four", "module:faded", { SPARKING }, "electrode-lf.energy", 20, 1 },
  { "reignite-six", "module:faded", { SPARKING }, "electrode-lf.energy", 20, 1 },
  /* Half a millimeter more than at 0.9, and no spark jumps the lug any longer. */
  { "dial-four", "module:ground-loose", { SPARKING }, "electrode-lf.energy", 20, 1,
    .to = 9 },
  { "reignite-six", "module:ground-loose", { SPARKING }, "electrode-lf.energy", 20, 1,
    .to = 9 },
  { "dial-four", "switch-lf:wet", { UNPLUGGED }, "ohms switch-lf.a switch-lf.b", 5, 1, TRUE },
  { "dial-four", "switch-lf:residue", { "house.humidity=90 %", UNPLUGGED },
    "ohms switch-lf.a switch-lf.b", 5, 1, TRUE },
  { "dial-four", "switch-lf:wet-to-stem", { UNPLUGGED }, "ohms switch-lf.a chassis.body", 5, 1,
    TRUE },
};

static double
degree_read (const Degree *d, double severity)
{
  g_auto (GStrv) halves = g_strsplit (d->fault, "@", 2);
  g_autofree char *fault = g_strdup_printf ("%s=%.2f%s%s", halves[0], severity,
                                            halves[1] != NULL ? "@" : "",
                                            halves[1] != NULL ? halves[1] : "");
  g_auto (Faulty) f = SHIPPED (d->range, fault);
  double value;

  for (guint k = 0; k < G_N_ELEMENTS (d->acts) && d->acts[k] != NULL; k++)
    faulty_add (&f, WORDS (d->acts[k]));
  value = strchr (d->reading, ' ') != NULL ? meter (&f, d->t, d->reading)
                                           : at (&f, d->t, d->reading);
  return d->decades ? log (value) : value;
}

static void
each_fault_moves_its_reading_by_degree (void)
{
  for (guint k = 0; k < G_N_ELEMENTS (degrees); k++)
    {
      const Degree *d = &degrees[k];
      int to = d->to > 0 ? d->to : 10;
      double value[11] = { 0 }, way;

      for (int s = d->from; s <= to; s++)
        value[s] = degree_read (d, s / 10.0);
      way = value[to] - value[d->from];
      g_test_message ("%s, %s: %g to %g", d->fault, d->reading, value[d->from], value[to]);
      g_assert_cmpfloat (fabs (way), >, 0);
      for (int s = d->from + 1; s <= to; s++)
        {
          double step = (value[s] - value[s - 1]) / way;

          g_test_message ("  %.1f: %g (%.3f)", s / 10.0, value[s], step);
          if (!(step > 0.002 && step < 1 / 3.0))
            {
              g_test_message ("^ %s, %s", d->fault,
                              step > 0.002 ? "a jump" : "stands still or turns back");
              g_test_fail ();
            }
        }
    }
}

/* What no reading follows by degree all the way, and why. */
static const struct
{
  const char *fault, *why;
} otherwise[] = {
  { "burner-top:cap-dirty", "the spark gets through or it does not" },
  { "burner-top:port-clogged", "it lights late or never, by single sparks" },
  { "burner-open:tube-blocked", "it lights late or never, by single sparks" },
  { "burner-open:tube-off", "it lights late or never, by single sparks" },
  { "burner-top:venturi-blocked", "with half the air all of the flame is yellow" },
  { "burner-open:venturi-blocked", "with half the air all of the flame is yellow" },
  { "burner-oven:ports-clogged", "it lights late or never, by what has gathered" },
  { "burner-oven:shutter-closed", "with half the air all of the flame is yellow" },
  { "burner-oven:shutter-open", "lifting ends where all of the flame has lifted" },
  { "regulator:creeps", "a closed manifold fills up to the inlet pressure through any hole" },
  { "shutoff:half-shut", "the regulator makes up for it until next to nothing is open" },
  { "connector:trips-early", "a valve that trips does so at once" },
  { "valve-inlet:clogged", "only the broil and bake burners together draw enough" },
  { "valve-safety:stuck-open", "from a tenth on, the orifice of the burner limits the flow" },
  { "valve-safety-round:stuck-open", "from a tenth on, the burner's orifice limits the flow" },
  { "valve-dual:stuck-open", "from a tenth on, the orifice of the burner limits the flow" },
  { "valve-safety:slow-to-close", "it is read in seconds: the valve's own tests" },
  { "valve-safety-round:slow-to-close", "it is read in seconds: the valve's own tests" },
  { "valve-dual:slow-to-close", "it is read in seconds: the valve's own tests" },
  { "breaker:weak", "it trips or it holds, by the load" },
  { "interrupter:sensitive", "it trips or it holds, by the leakage" },
  { "high-limit:weak", "a disc snaps at one temperature" },
  { "igniter-flat:out-of-place", "it lights late, by what has gathered" },
  { "igniter-round:out-of-place", "it lights late, by what has gathered" },
  { "igniter-flat:plug-opens-hot", "a contact opens at one temperature" },
  { "igniter-round:plug-opens-hot", "a contact opens at one temperature" },
  { "igniter-flat:plug-loose", "it makes contact or none, at random" },
  { "igniter-round:plug-loose", "it makes contact or none, at random" },
  { "electrode:cracked", "a spark jumps to the nearer of two places" },
  { "electrode:cracked-deep", "a spark jumps to the nearer of two places" },
  { "electrode:lead-chafed", "a spark jumps to the nearer of two places" },
};

static gboolean
moved_by_degree (const char *kind_fault)
{
  for (guint k = 0; k < G_N_ELEMENTS (degrees); k++)
    {
      g_autofree char *file = hob_range_locate (degrees[k].range);
      g_autoptr (HobRange) range = hob_range_load (file, NULL, NULL);
      g_auto (GStrv) halves = g_strsplit_set (degrees[k].fault, ":@", 3);
      int part = hob_range_part (range, halves[0]);
      g_autofree char *of
          = g_strdup_printf ("%s:%s", range->parts[part].kind->name, halves[1]);

      if (g_str_equal (of, kind_fault))
        return TRUE;
    }
  return FALSE;
}

/* It is in one of the two tables, and in one alone. */
static void
check_listed (const HobKind *kind, const HobFaultDef *fault)
{
  g_autofree char *name = g_strdup_printf ("%s:%s", kind->name, fault->id);
  int lists = moved_by_degree (name);

  for (guint o = 0; o < G_N_ELEMENTS (otherwise); o++)
    lists += g_str_equal (otherwise[o].fault, name);
  if (lists != 1)
    {
      g_test_message ("%s is in %d of the lists", name, lists);
      g_test_fail ();
    }
}

static void
no_fault_with_a_severity_is_left_out (void)
{
  for (int k = 0; hob_kinds[k] != NULL; k++)
    for (int f = 0; f < hob_kinds[k]->n_faults; f++)
      if (hob_kinds[k]->faults[f].severity_words != NULL)
        check_listed (hob_kinds[k], &hob_kinds[k]->faults[f]);
}

/* A name that no kind has any more hides nothing. */
static void
what_is_listed_is_a_fault_with_a_severity (void)
{
  for (guint o = 0; o < G_N_ELEMENTS (otherwise); o++)
    {
      g_auto (GStrv) halves = g_strsplit (otherwise[o].fault, ":", 2);
      const HobKind *kind = hob_kind_find (halves[0]);
      int fault;

      g_assert_nonnull (kind);
      fault = hob_kind_fault (kind, halves[1]);
      g_assert_cmpint (fault, >=, 0);
      g_assert_nonnull (kind->faults[fault].severity_words);
      g_assert_cmpuint (strlen (otherwise[o].why), >, 20);
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/fault-degrees/each-fault-moves-its-reading-by-degree",
                   each_fault_moves_its_reading_by_degree);
  g_test_add_func ("/fault-degrees/no-fault-with-a-severity-is-left-out",
                   no_fault_with_a_severity_is_left_out);
  g_test_add_func ("/fault-degrees/what-is-listed-is-a-fault-with-a-severity",
                   what_is_listed_is_a_fault_with_a_severity);
  return g_test_run ();
}
