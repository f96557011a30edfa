/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

/* One run of a range, shipped or written in the test: what tests of ovens and their parts share. */

#include "config.h"
#include "case-words.h"
#include "run/reading.h"
#include "run/run.h"

#include <math.h>
#include <string.h>

#define TO_DEGF(k) ((k)*1.8 - 459.67)
#define BTU 1055.056 /* J */
#define CALL_AT 10.0 /* s: the board is awake by then */
/* A kitchen that no oven warms, as large and airy as can be: what is stated for one of 25 °C. */
#define KEPT_COOL "house.kitchen=500|house.air-changes=20"

typedef struct
{
  HobPlan *plan;
  HobCase *acts;
  HobRun *run;
  HobMoment *moment;
} Oven;

G_GNUC_UNUSED static HobPlan *
plan_of (const char *name)
{
  g_autoptr (GError) error = NULL;
  g_autofree char *file = g_strdup_printf ("%s/diagrams/%s.xml", HOB_SOURCE_DIR, name);
  g_autoptr (HobRange) range = hob_range_load (file, NULL, &error);

  g_assert_no_error (error);
  return hob_plan_new (range);
}

/* A range written in the test itself. */
G_GNUC_UNUSED static HobPlan *
plan_of_text (const char *xml)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (HobRange) range = hob_range_load_memory (xml, strlen (xml), "test.xml", NULL, &error);

  g_assert_no_error (error);
  return hob_plan_new (range);
}

/* @plan: taken over.  @settings: "PART.NAME=VALUE", "PART:FAULT" and "10s CONTROL=POSITION", with
 * '|' between them; NULL: none. */
G_GNUC_UNUSED static void
oven_open_plan (Oven *o, HobPlan *plan, const char *settings)
{
  o->plan = plan;
  o->acts = hob_case_new (hob_plan_range (o->plan));
  o->run = NULL;
  o->moment = hob_moment_new (o->plan);

  case_add_list (o->acts, settings);
}

G_GNUC_UNUSED static void
oven_open (Oven *o, const char *name, const char *settings)
{
  oven_open_plan (o, plan_of (name), settings);
}

G_GNUC_UNUSED static void
oven_close (Oven *o)
{
  hob_run_free (o->run);
  hob_moment_free (o->moment);
  hob_case_free (o->acts);
  hob_plan_unref (o->plan);
}

G_GNUC_UNUSED static void
oven_do (Oven *o, double t, const char *act)
{
  g_autoptr (GError) error = NULL;
  g_autofree char *text = g_strdup_printf ("%ds %s", (int)t, act);

  hob_case_do (o->acts, text, &error);
  g_assert_no_error (error);
}

/* Runs to t and asks that nothing was lost or made on the way: currents, gas, heat, atoms. */
G_GNUC_UNUSED static void
oven_run (Oven *o, double t)
{
  g_autoptr (GError) error = NULL;

  if (o->run == NULL)
    {
      o->run = hob_run_new (o->plan, o->acts, NULL);
      hob_run_set_checked (o->run);
    }
  hob_run_advance (o->run, t, &error);
  g_assert_no_error (error);

  double heat, turned, gas, gas_turned, oxygen, products, burnt;
  HobRunCounters counters = hob_run_counters (o->run);
  hob_run_read (o->run, t, o->moment);
  hob_moment_balance (o->moment, &heat, &turned, &gas, &gas_turned);
  g_assert_cmpfloat (counters.worst_residual, <, 1e-9);
  g_assert_cmpfloat (fabs (heat), <=, MAX (1, 1e-3 * turned));
  g_assert_cmpfloat (fabs (gas), <=, 1e-6 + 1e-4 * gas_turned);
  hob_moment_air_balance (o->moment, &oxygen, &products, &burnt);
  g_assert_cmpfloat (fabs (oxygen), <=, 1e-9 + 1e-6 * burnt);
  g_assert_cmpfloat (fabs (products), <=, 1e-9 + 1e-6 * burnt);
}

G_GNUC_UNUSED static double
oven_at (Oven *o, double t, const char *quantity)
{
  g_autoptr (GError) error = NULL;
  int part, index;

  hob_range_find_quantity (hob_plan_range (o->plan), quantity, &part, &index, &error);
  g_assert_no_error (error);
  hob_run_read (o->run, t, o->moment);
  return hob_moment_quantity (o->moment, part, index);
}

/* The first time after @from at which PART.MODE takes @value; +inf: not within the record. */
G_GNUC_UNUSED static double
oven_change (Oven *o, const char *part, const char *mode, double value, double from)
{
  const HobRange *range = hob_plan_range (o->plan);
  int p = hob_range_part (range, part), m = hob_kind_mode (range->parts[p].kind, mode);
  guint first, n = hob_run_events (o->run, from, hob_run_reached (o->run), &first);

  g_assert_cmpint (m, >=, 0);
  for (guint k = first; k < first + n; k++)
    {
      const HobEvent *e = hob_run_event (o->run, k);

      if (e->what == HOB_EVENT_CHANGE && e->part == p && e->index == m && e->value == value)
        return e->t;
    }
  return INFINITY;
}

G_GNUC_UNUSED static void
oven_bake (Oven *o, double t, int dial_degf, double until)
{
  g_autofree char *dial = g_strdup_printf ("oven.dial=%d degF", dial_degf);

  oven_do (o, t, dial);
  oven_do (o, t, "oven.mode=bake");
  oven_run (o, until);
}

/* A setting that changes at @t, as the house's voltage may. */
G_GNUC_UNUSED static void
oven_set (Oven *o, double t, const char *setting)
{
  g_autoptr (GError) error = NULL;
  g_autofree char *text = g_strdup_printf ("%s@%ds", setting, (int) t);

  hob_case_setting (o->acts, text, &error);
  g_assert_no_error (error);
}

/* What a meter shows at @t: "volts A B", "ohms A B", "amps A", "pressure PORT"; +inf: overload. */
G_GNUC_UNUSED static double
oven_meter (Oven *o, double t, const char *words)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (HobTest) test = hob_test_parse (hob_plan_range (o->plan), words, &error);

  g_assert_no_error (error);
  HobReading reading = hob_reading_take (o->run, test, t);
  g_assert_true (reading.answered);
  return isnan (reading.value) ? INFINITY : reading.value;
}
