/* SPDX-License-Identifier: GPL-3.0-or-later */

/* Copper wires of whole appliances: what they drop at the current they carry. */

#include "appliance.h"
#include "base/units.h"
#include "check.h"
#include "physics/material.h"

static const double thousand_feet = 304.8; /* m */

static const struct
{
  int gauge;
  double ohms; /* of 1,000 ft at 20 °C */
} handbook[] = { { 12, 1.588 }, { 14, 2.525 }, { 18, 6.385 } };

/* ±0.02% and half of the last digit. */
static void
gauges_have_the_published_resistance (void)
{
  for (guint k = 0; k < G_N_ELEMENTS (handbook); k++)
    check_near (PUBLISHED, "NBS Handbook 100, Ω/1000 ft at 20 °C",
                hob_wire_resistance (hob_awg_diameter (handbook[k].gauge), thousand_feet,
                                     celsius (20)),
                handbook[k].ohms, 0.0002 * handbook[k].ohms + 0.0005);
}

static double
published_ohms (const HobLine *wire)
{
  for (guint k = 0; k < G_N_ELEMENTS (handbook); k++)
    if (handbook[k].gauge == wire->gauge)
      return handbook[k].ohms * wire->length / thousand_feet;
  return 0;
}

/* Where a wire to @end lands: the wire to a blade comes from its slot, and the contact between them
 * is not the wire's. */
static HobEnd
landing (const HobRange *range, HobEnd end)
{
  const HobKind *kind = range->parts[end.part].kind;

  return (HobEnd){ end.part, hob_terminal_landing (kind->terminals, end.terminal) };
}

/* Wires are taken at 25 °C: 0.00393 for each kelvin more. Short ones carry stray currents beside
 * the igniter's, so that those of an ampere and more are looked at. */
static void
wires_drop_what_their_gauge_and_length_say (gconstpointer name)
{
  g_autoptr (HobRange) range = range_by_name (name);
  g_autoptr (HobRun) run = run_of (range, WORDS ("0s oven.mode=bake"), 60);
  g_autoptr (HobMoment) m = hob_moment_new (hob_run_plan (run));
  int looked_at = 0;

  hob_run_read (run, 60, m);
  for (int w = 0; w < range->n_wires; w++)
    {
      const HobLine *wire = &range->wires[w];
      HobComplex a = hob_moment_volts (m, landing (range, wire->from));
      HobComplex b = hob_moment_volts (m, landing (range, wire->to));
      double amps = hob_complex_abs (hob_moment_wire_current (m, w));
      double wanted = published_ohms (wire) * (1 + 5 * 0.00393);
      g_autofree char *source = g_strdup_printf ("NBS Handbook 100, wire %s, %d AWG, %g m, Ω",
                                                 wire->id, wire->gauge, wire->length);

      if (amps < 1 || !(wanted > 0))
        continue;
      check_near (DERIVED, source, hypot (a.re - b.re, a.im - b.im) / amps, wanted, 0.001 * wanted);
      looked_at++;
    }
  g_assert_cmpint (looked_at, >=, 3);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/outside/conductors/gauges-have-the-published-resistance",
                   gauges_have_the_published_resistance);
  add_for_each_range ("conductors", "wires-drop-what-their-gauge-and-length-say",
                      wires_drop_what_their_gauge_and_length_say);
  return g_test_run ();
}
