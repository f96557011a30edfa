/* SPDX-License-Identifier: GPL-3.0-or-later */

/* What is to be minded where a test is made: what its means asks for, and the parts that it
 * touches. */
#include "run/reading.h"

/* The usual means of each test, and that of parts whose kind has a way of its own. */
static const struct { HobMeans usual, own; } means[] = {
  [HOB_TEST_VOLTS] = { HOB_MEANS_LIVE_VOLTS, HOB_MEANS_RECEPTACLE },
  [HOB_TEST_OHMS] = { HOB_MEANS_OHMS, HOB_MEANS_SENSOR_OHMS },
  [HOB_TEST_AMPS] = { HOB_MEANS_AMPS, HOB_MEANS_AMPS },
  [HOB_TEST_PRESSURE] = { HOB_MEANS_PRESSURE, HOB_MEANS_PRESSURE },
  [HOB_TEST_TEMP] = { HOB_MEANS_SURFACE, HOB_MEANS_THERMOMETER },
  [HOB_TEST_LOOK] = { HOB_MEANS_LOOK, HOB_MEANS_LOOK },
  [HOB_TEST_INSPECT] = { HOB_MEANS_INSPECT, HOB_MEANS_INSPECT_INSIDE },
  [HOB_TEST_BUBBLES] = { HOB_MEANS_LEAK_CHECK, HOB_MEANS_LEAK_CHECK },
};

/* Whether the part at which @test is made is tested by @own. */
static gboolean
has_own (const HobRange *range, const HobTest *test, HobMeans own)
{
  int part = test->a.part >= 0 ? test->a.part : test->part;

  return part >= 0 && (range->parts[part].kind->means & HOB_MEANS_BIT (own));
}

static gboolean
is_chassis (const HobRange *range, HobEnd end)
{
  return end.part >= 0 && (range->parts[end.part].kind->flags & HOB_KIND_CHASSIS);
}

/* Are leads exchanged before it? */
static gboolean
exchanges (const HobRange *range, const HobTest *test)
{
  for (guint k = 0; test->acts != NULL && k < test->acts->acts->len; k++)
    {
      const HobAct *act = &g_array_index (test->acts->acts, HobAct, k);

      if (act->what == HOB_ACT_CONTROL
          && range->parts[act->part].kind->controls[act->index].exercise == HOB_EXERCISE_EXCHANGE)
        return TRUE;
    }
  return FALSE;
}

HobMeans
hob_test_means (const HobRange *range, const HobTest *test)
{
  HobMeans own = means[test->what].own;

  if (test->what == HOB_TEST_LOOK && exchanges (range, test))
    return HOB_MEANS_SWAP;
  if (test->what == HOB_TEST_OHMS && !test->lead_off)
    return HOB_MEANS_OHMS_IN_CIRCUIT;
  if (test->what == HOB_TEST_OHMS && is_chassis (range, test->b))
    return HOB_MEANS_LEAKAGE;
  return has_own (range, test, own) ? own : means[test->what].usual;
}

static HobHazards
of_part (const HobRange *range, int part)
{
  return part >= 0 ? range->parts[part].kind->hazards : 0;
}

HobHazards
hob_test_hazards (const HobRange *range, const HobTest *test)
{
  HobHazards parts = 0;

  g_return_val_if_fail (range != NULL && test != NULL, 0);

  if (test->what != HOB_TEST_LOOK)
    parts = of_part (range, test->a.part) | of_part (range, test->b.part)
            | of_part (range, test->part);
  return parts | hob_means[hob_test_means (range, test)].hazards;
}
