/* SPDX-License-Identifier: GPL-3.0-or-later */

/* The light with its own door switch, in a range that has little else. */

#include "oven-run.h"
#include "symptoms-at.h"
#include "symptoms/symptoms.h"

static const char bare[]
    = "<range format='1' id='bare' name='Bare' plate='natural-gas'>"
      "<part id='house' kind='house'/><part id='chassis' kind='chassis'/>"
      "<part id='cavity' kind='cavity'/><part id='door' kind='door' in='cavity'/>"
      "<part id='light' kind='door-light' in='cavity' moved-by='door'/>"
      "<wire id='w1' from='house.line' to='light.a' colour='BK' gauge='18 AWG' length='1 m'/>"
      "<wire id='w2' from='light.b' to='house.neutral' colour='WH' gauge='18 AWG' length='1 m'/>"
      "<wire id='w3' from='house.pipe' to='chassis.body' colour='GN' gauge='18 AWG' length='1 m'/>"
      "</range>";

/* @quantity of the light before the door opens, while it is open, and after it was shut. */
static void
assert_course (const char *fault, const char *quantity, double before, double open, double after)
{
  const double times[] = { 9, 19, 29 }, wanted[] = { before, open, after };
  g_autofree char *settings = g_strconcat ("10s door=open|20s door=closed", fault, NULL);
  Oven o;

  oven_open_plan (&o, plan_of_text (bare), settings);
  oven_run (&o, 30);
  for (guint k = 0; k < G_N_ELEMENTS (times); k++)
    g_assert_cmpfloat (fabs (oven_at (&o, times[k], quantity) - wanted[k]), <=, 0.002 * wanted[k]);
  oven_close (&o);
}

static void
test_door (void)
{
  assert_course ("", "light.shines", 0, 1, 0);
  assert_course ("", "light.current", 0, 120.0 / 360, 0);
  assert_course ("|light.ohms=576 ohm", "light.current", 0, 120.0 / 576, 0);
}

static void
test_burnt_out (void)
{
  assert_course ("|light:open", "light.shines", 0, 0, 0);
  assert_course ("|light:open", "light.closed", 0, 1, 0);
}

static void
test_stuck (void)
{
  assert_course ("|light:stuck-in", "light.shines", 0, 0, 0);
  assert_course ("|light:stuck-in", "light.closed", 0, 0, 0);
  assert_course ("|light:stuck-out", "light.shines", 1, 1, 1);
}

static void
replace (GString *text, const char *find, const char *by)
{
  g_assert_cmpuint (g_string_replace (text, find, by, 0), ==, 1);
}

/* Board five with this light straight on the line in place of the one that its board works. */
static HobPlan *
plan_of_board_five (void)
{
  g_autofree char *file = g_build_filename (HOB_SOURCE_DIR, "diagrams", "board-five.xml", NULL);
  g_autoptr (GString) text = g_string_new (NULL);
  g_autofree char *shipped = NULL;

  g_assert_true (g_file_get_contents (file, &shipped, NULL, NULL));
  g_string_assign (text, shipped);
  replace (text, "kind=\"light\"", "kind=\"door-light\" moved-by=\"door\"");
  replace (text, "from=\"oven.light\"", "from=\"oven.line\"");
  return plan_of_text (text->str);
}

/* What a person notices 9 s after the door was opened and 9 s after it was shut, each id after a
 * blank. */
static void
assert_noticed (const char *fault, const char *open, const char *shut)
{
  const double times[] = { 19, 29 };
  const char *const wanted[] = { open, shut };
  g_autofree char *settings = g_strconcat ("10s door=open|20s door=closed", fault, NULL);
  g_autoptr (GError) error = NULL;
  g_autoptr (HobSymptomBook) book = hob_symptom_book_load (NULL, &error);
  Oven o;

  g_assert_no_error (error);
  oven_open_plan (&o, plan_of_board_five (), settings);
  g_autoptr (HobSymptomWatch) watch = hob_symptom_watch_new (book, o.plan);
  o.run = hob_run_new (o.plan, o.acts, hob_symptom_watch_get (watch));
  hob_run_set_checked (o.run);
  oven_run (&o, 30);
  for (guint i = 0; i < G_N_ELEMENTS (times); i++)
    {
      g_autoptr (GArray) present = symptoms_at (o.run, times[i]);
      g_autoptr (GString) seen = g_string_new (NULL);

      for (guint k = 0; k < present->len; k++)
        {
          const HobEvent *e = hob_run_event (o.run, g_array_index (present, guint, k));

          g_string_append_printf (seen, " %s", hob_symptom_book_get (book, e->index)->id);
        }
      g_assert_cmpstr (seen->str, ==, wanted[i]);
    }
  oven_close (&o);
}

static void
test_noticed (void)
{
  assert_noticed ("", "", "");
  assert_noticed ("|light:open", " light-dark", "");
  assert_noticed ("|light:stuck-in", " light-dark", "");
  assert_noticed ("|light:stuck-out", "", " light-stays-on");
}

/* It shines with the 3.4th power of its volts; at 200 V it is out within the hour, at 132 V it is
 * not. */
static void
test_too_much (void)
{
  Oven much, some;

  oven_open_plan (&much, plan_of_text (bare),
                  "light:stuck-out|house:neutral-open|house.other-leg-watts=6000");
  oven_open_plan (&some, plan_of_text (bare),
                  "light:stuck-out|house:neutral-open|house.other-leg-watts=600");
  oven_run (&much, 3600);
  oven_run (&some, 3600);
  double volts = oven_at (&some, 60, "house.volts");
  g_test_message ("%.1f V and %.1f V", oven_at (&much, 60, "house.volts"), volts);
  g_assert_cmpfloat (oven_at (&much, 60, "light.shines"), >, 5);
  g_assert_cmpfloat (oven_at (&much, 3600, "light.shines"), ==, 0);
  g_assert_cmpfloat (oven_at (&much, 3600, "light.current"), ==, 0);
  g_assert_cmpfloat (volts, >, 125);
  g_assert_cmpfloat (volts, <, 140);
  g_assert_cmpfloat_with_epsilon (oven_at (&some, 3600, "light.shines"), pow (volts / 120, 3.4),
                                  0.01);
  oven_close (&much);
  oven_close (&some);
}

/* A 40 W bulb for a quarter of an hour, the door shut; oven_run asks that heat balances. */
static void
test_warms (void)
{
  Oven dark, lit;

  oven_open_plan (&dark, plan_of_text (bare), NULL);
  oven_open_plan (&lit, plan_of_text (bare), "light:stuck-out");
  oven_run (&dark, 900);
  oven_run (&lit, 900);
  g_assert_cmpfloat (oven_at (&lit, 900, "cavity.air"), >, oven_at (&dark, 900, "cavity.air") + 1);
  oven_close (&dark);
  oven_close (&lit);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/parts-door-light/it shines while the door is open, with its rated current",
                   test_door);
  g_test_add_func ("/parts-door-light/burnt out it is dark though its contact closes",
                   test_burnt_out);
  g_test_add_func ("/parts-door-light/a stuck plunger: always dark, or lit behind a closed door",
                   test_stuck);
  g_test_add_func (
      "/parts-door-light/each fault is noticed by what the light does, a sound one not",
      test_noticed);
  g_test_add_func ("/parts-door-light/too many volts make it bright, and burn it out",
                   test_too_much);
  g_test_add_func ("/parts-door-light/what it turns into heat warms the oven", test_warms);
  return g_test_run ();
}
