/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "run/tests.h"

#include <math.h>

typedef struct
{
  const HobRange *range;
  GPtrArray *all;
} List;

void
hob_listed_test_free (HobListedTest *listed)
{
  hob_test_free (listed->test);
  g_free (listed);
}

/* @test as a whole: its names are set, its acts are not. */
static void
list (const List *l, HobTest test)
{
  HobListedTest *listed = g_new0 (HobListedTest, 1);

  test.acts = hob_case_new (l->range);
  test.symptom = g_strdup (test.symptom);
  listed->test = g_memdup2 (&test, sizeof test);
  listed->dim = hob_test_dimension (&test);
  listed->means = &hob_means[hob_test_means (l->range, &test)];
  listed->hazards = hob_test_hazards (l->range, &test);
  g_ptr_array_add (l->all, listed);
}

static HobTest
blank (HobTestWhat what)
{
  const HobEnd none = { -1, -1 };

  return (HobTest){
    .what = what, .a = none, .b = none, .wire = -1, .part = -1, .quantity = -1, .time = NAN
  };
}

static void
list_between (const List *l, HobTestWhat what, HobEnd a, HobEnd b)
{
  HobTest test = blank (what);

  test.a = a;
  test.b = b;
  list (l, test);
}

static void
list_lead_off (const List *l, HobEnd a, HobEnd b)
{
  HobTest test = blank (HOB_TEST_OHMS);

  test.a = a;
  test.b = b;
  test.lead_off = TRUE;
  list (l, test);
}

/* The utility's side of the panel has power whatever is turned off or unplugged. */
static gboolean
is_in_panel (const HobKind *kind)
{
  for (int k = 0; k < kind->n_controls; k++)
    if (kind->controls[k].role == HOB_CONTROL_BREAKER)
      return TRUE;
  return (kind->flags & HOB_KIND_SUPPLY_LINE) != 0;
}

/* A part with one way through: a meter across it, a clamp round it. */
static void
list_two_terminals (const List *l, int part)
{
  const HobEnd a = { part, 0 }, b = { part, 1 };
  HobTest amps = blank (HOB_TEST_AMPS);

  list_between (l, HOB_TEST_VOLTS, a, b);
  if (!is_in_panel (l->range->parts[part].kind))
    {
      list_between (l, HOB_TEST_OHMS, a, b);
      list_lead_off (l, a, b);
    }
  amps.part = part;
  list (l, amps);
}

/* A part with many: volts between the house's conductors, a clamp at each terminal. */
static void
list_many_terminals (const List *l, int part)
{
  const HobKind *kind = l->range->parts[part].kind;

  for (int a = 0; a < kind->n_terminals; a++)
    for (int b = a + 1; b < kind->n_terminals; b++)
      if (kind->terminals[a].conductor != HOB_CONDUCTOR_NONE
          && kind->terminals[b].conductor != HOB_CONDUCTOR_NONE)
        list_between (l, HOB_TEST_VOLTS, (HobEnd){ part, a }, (HobEnd){ part, b });
  for (int a = 0; a < kind->n_terminals; a++)
    if (!kind->terminals[a].high_voltage && !kind->terminals[a].inner)
      {
        HobTest amps = blank (HOB_TEST_AMPS);

        amps.a = (HobEnd){ part, a };
        list (l, amps);
      }
}

static gboolean
is_inner (const HobKind *kind, int terminal)
{
  return terminal >= 0 && kind->terminals[terminal].inner;
}

/* Across what is in series inside a part: a plug, a blade, a screw. */
static void
list_inside (const List *l, int part)
{
  const HobKind *kind = l->range->parts[part].kind;

  for (int k = 0; k < kind->n_elements; k++)
    {
      int a = kind->elements[k].a, b = kind->elements[k].b;

      if (a < 0 || b < 0 || (!is_inner (kind, a) && !is_inner (kind, b)) || is_in_panel (kind))
        continue;
      list_between (l, HOB_TEST_VOLTS, (HobEnd){ part, a }, (HobEnd){ part, b });
      if (!hob_terminals_are_mates (kind->terminals, a, b)) /* apart while the range is unplugged */
        list_between (l, HOB_TEST_OHMS, (HobEnd){ part, a }, (HobEnd){ part, b });
    }
}

/* From where a part may leak to the metal that it is fixed to; and from the blades of a plug,
 * behind which everything is. */
static void
list_leaks (const List *l, int part)
{
  const HobKind *kind = l->range->parts[part].kind;

  for (int c = 0; c < l->range->n_parts; c++)
    {
      const HobEnd chassis = { c, 0 };

      if (!(l->range->parts[c].kind->flags & HOB_KIND_CHASSIS))
        continue;
      for (int k = 0; k < kind->n_elements; k++)
        if (kind->elements[k].b == HOB_BODY)
          list_lead_off (l, (HobEnd){ part, kind->elements[k].a }, chassis);
      for (int k = 0; k < kind->n_terminals; k++)
        if (hob_terminal_landing (kind->terminals, k) != k)
          list_between (l, HOB_TEST_OHMS, (HobEnd){ part, k }, chassis);
    }
}

static void
list_part (const List *l, int part)
{
  const HobKind *kind = l->range->parts[part].kind;
  HobTest pressure = blank (HOB_TEST_PRESSURE), temp = blank (HOB_TEST_TEMP),
          inspect = blank (HOB_TEST_INSPECT), bubbles = blank (HOB_TEST_BUBBLES);

  if (kind->flags & HOB_KIND_LIVES)
    return;
  if (hob_kind_is_two_terminal (kind) && !kind->terminals[0].high_voltage
      && !kind->terminals[1].high_voltage)
    list_two_terminals (l, part);
  else
    list_many_terminals (l, part);
  list_inside (l, part);
  list_leaks (l, part);
  for (int k = 0; k < kind->n_ports; k++)
    {
      pressure.a = (HobEnd){ part, k };
      list (l, pressure);
    }
  if (hob_test_inspects (l->range, part))
    {
      inspect.part = part;
      list (l, inspect);
    }
  if (hob_test_bubbles (l->range, part))
    {
      bubbles.part = part;
      list (l, bubbles);
    }
  temp.part = part;
  for (temp.quantity = 0; temp.quantity < kind->n_quantities; temp.quantity++)
    {
      const HobQuantityDef *quantity = &kind->quantities[temp.quantity];

      if (hob_test_takes (quantity) && quantity->sense != HOB_SENSE_EYE && !quantity->out_of_reach)
        list (l, temp);
    }
}

/* May an ohmmeter be put there once the range is unplugged?  The house stays live, a person is no
 * part, and of two halves one goes away. */
static gboolean
is_within_reach (const HobRange *range, HobEnd end)
{
  const HobKind *kind = range->parts[end.part].kind;

  return (kind->flags & (HOB_KIND_HOUSE | HOB_KIND_LIVES)) == 0
         && hob_terminal_landing (kind->terminals, end.terminal) == end.terminal;
}

GPtrArray *
hob_tests_of (const HobRange *range, const char *const *looks)
{
  List l = { range, g_ptr_array_new_with_free_func ((GDestroyNotify) hob_listed_test_free) };
  HobTest clamp = blank (HOB_TEST_AMPS), look = blank (HOB_TEST_LOOK);

  for (int p = 0; p < range->n_parts; p++)
    list_part (&l, p);
  for (clamp.wire = 0; clamp.wire < range->n_wires; clamp.wire++)
    list (&l, clamp);
  for (int w = 0; w < range->n_wires; w++)
    if (is_within_reach (range, range->wires[w].from)
        && is_within_reach (range, range->wires[w].to))
      list_between (&l, HOB_TEST_OHMS, range->wires[w].from, range->wires[w].to);
  for (int k = 0; looks != NULL && looks[k] != NULL; k++)
    {
      look.symptom = (char *) looks[k];
      list (&l, look);
    }
  return l.all;
}
