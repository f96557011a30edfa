/* SPDX-License-Identifier: GPL-3.0-or-later */

/* A gas net without a solution ends the run, and the run says where.  A circuit that its own loads
 * pull down has one: the control drops out and comes back, again and again. */

#include "config.h"
#include "base/errors.h"
#include "run/run.h"
#include <string.h>

/* Two regulators in a row, and round them a way from the first one's inlet to the second one's
 * outlet, which its spring wants higher than the supply: it opens and shuts in vain.  No file may
 * say so: the pipe that closes the loop is laid afterwards. */
static const char file[]
    = "<range format=\"1\" id=\"loop\" name=\"Loop\" plate=\"natural-gas\">"
      "<part id=\"h\" kind=\"house\"><set name=\"gas-pressure\" value=\"3417 Pa\"/></part>"
      "<part id=\"m\" kind=\"manifold\"/><part id=\"n\" kind=\"manifold\"/><part id=\"end\" "
      "kind=\"manifold\"/>"
      "<part id=\"first\" kind=\"regulator\"><set name=\"set-pressure\" value=\"491 Pa\"/>"
      "<set name=\"area\" value=\"6.7e-06\"/><set name=\"lockup\" value=\"0.006\"/></part>"
      "<part id=\"second\" kind=\"regulator\"><set name=\"set-pressure\" value=\"4193 Pa\"/>"
      "<set name=\"area\" value=\"1.5e-06\"/><set name=\"lockup\" value=\"0.036\"/></part>"
      "<part id=\"k\" kind=\"connector\"/><part id=\"l\" kind=\"light\"/><part id=\"c\" "
      "kind=\"chassis\"/>"
      "<part id=\"elsewhere\" kind=\"manifold\"/>"
      "<wire id=\"w1\" from=\"h.line\" to=\"l.a\" colour=\"BK\" gauge=\"14 AWG\" length=\"1 m\"/>"
      "<wire id=\"w2\" from=\"h.neutral\" to=\"l.b\" colour=\"WH\" gauge=\"14 AWG\" length=\"1 "
      "m\"/>"
      "<wire id=\"w3\" from=\"h.earth\" to=\"c.body\" colour=\"GN\" gauge=\"14 AWG\" length=\"1 "
      "m\"/>"
      "<pipe id=\"p1\" from=\"h.gas\" to=\"m.in\" bore=\"15 mm\" length=\"0.1 m\"/>"
      "<pipe id=\"p2\" from=\"m.lf\" to=\"first.in\" bore=\"15 mm\" length=\"0.1 m\"/>"
      "<pipe id=\"p3\" from=\"first.out\" to=\"second.in\" bore=\"15 mm\" length=\"0.1 m\"/>"
      "<pipe id=\"p4\" from=\"second.out\" to=\"elsewhere.in\" bore=\"15 mm\" length=\"0.1 m\"/>"
      "<pipe id=\"p5\" from=\"m.lr\" to=\"n.in\" bore=\"1.3 mm\" length=\"0.14 m\"/>"
      "<pipe id=\"p6\" from=\"n.oven\" to=\"k.in\" bore=\"15 mm\" length=\"0.1 m\"/>"
      "<pipe id=\"p7\" from=\"k.out\" to=\"end.in\" bore=\"15 mm\" length=\"0.1 m\"/>"
      "</range>";

static HobRange *
loop (gboolean closed)
{
  g_autoptr (GError) error = NULL;
  HobRange *range = hob_range_load_memory (file, sizeof file - 1, "loop.xml", NULL, &error);
  int n;

  g_assert_no_error (error);
  n = hob_range_part (range, "n");
  for (int p = 0; p < range->n_pipes && closed; p++)
    if (strcmp (range->pipes[p].id, "p4") == 0)
      ((HobLine *) range->pipes)[p].to = (HobEnd){ n, hob_kind_port (range->parts[n].kind, "lf") };
  return range;
}

static HobRunStatus
run_it (gboolean closed, GError **error)
{
  g_autoptr (HobRange) range = loop (closed);
  g_autoptr (HobPlan) plan = hob_plan_new (range);
  g_autoptr (HobCase) nothing = hob_case_new (range);
  g_autoptr (HobRun) run = hob_run_new (plan, nothing, NULL);

  return hob_run_advance (run, 1, error);
}

static void
a_net_without_a_solution_ends_the_run (void)
{
  g_autoptr (GError) error = NULL;
  g_auto (GStrv) names = NULL;
  const char *list;

  g_assert_cmpint (run_it (TRUE, &error), ==, HOB_RUN_IMPOSSIBLE);
  g_assert_error (error, HOB_ERROR, HOB_ERROR_IMPOSSIBLE);
  g_test_message ("%s", error->message);
  list = strrchr (error->message, ':');
  g_assert_nonnull (list);
  names = g_strsplit (list + 2, ", ", -1);
  g_assert_true (g_strv_contains ((const char *const *) names, "first"));
  g_assert_true (g_strv_contains ((const char *const *) names, "second"));
  g_assert_false (g_strv_contains ((const char *const *) names, "k"));
  g_assert_false (g_strv_contains ((const char *const *) names, "h"));
}

static void
the_same_parts_without_the_loop_run (void)
{
  g_autoptr (GError) error = NULL;

  g_assert_cmpint (run_it (FALSE, &error), ==, HOB_RUN_OK);
  g_assert_no_error (error);
}

/* What was done to come there is taken back: the run goes on as if it had never been. */
static void
what_made_it_impossible_is_undone (void)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (HobRange) range = loop (TRUE);
  g_autoptr (HobPlan) plan = hob_plan_new (range);
  g_autoptr (HobCase) acts = hob_case_new (range);
  g_autoptr (HobRun) run = NULL;
  HobAct high = { .ms = 1000, .what = HOB_ACT_SETTING, .value = 3417 };

  high.part = hob_range_part (range, "h");
  high.index = hob_kind_setting (range->parts[high.part].kind, "gas-pressure");
  hob_case_add_argument (acts, HOB_ACT_SETTING, "h.gas-pressure=400 Pa", &error);
  g_assert_no_error (error);
  run = hob_run_new (plan, acts, NULL);
  hob_run_act (run, high);
  g_assert_cmpint (hob_run_advance (run, 2, &error), ==, HOB_RUN_IMPOSSIBLE);
  g_assert_cmpfloat (hob_run_reached (run), <=, 1);
  g_clear_error (&error);
  g_assert_true (hob_run_undo (run));
  g_assert_cmpint (hob_run_advance (run, 2, &error), ==, HOB_RUN_OK);
  g_assert_no_error (error);
}

/* ---- A weak circuit ---- */

static guint
n_power_ups (const char *range_id, const char *const *settings, const char *act, double until)
{
  g_autoptr (GError) error = NULL;
  g_autofree char *path = hob_range_locate (range_id);
  g_autoptr (HobRange) range = hob_range_load (path, NULL, &error);
  g_autoptr (HobPlan) plan = hob_plan_new (range);
  g_autoptr (HobCase) acts = hob_case_new (range);
  g_autoptr (HobRun) run = NULL;
  guint n = 0;

  for (; *settings != NULL; settings++)
    hob_case_add_argument (acts, HOB_ACT_SETTING, *settings, &error);
  hob_case_add_argument (acts, HOB_ACT_CONTROL, act, &error);
  g_assert_no_error (error);
  run = hob_run_new (plan, acts, NULL);
  g_assert_cmpint (hob_run_advance (run, until, &error), ==, HOB_RUN_OK);
  g_assert_no_error (error);
  for (guint i = 0, first, many = hob_run_events (run, -1, until, &first); i < many; i++)
    {
      g_autofree char *text = hob_event_text (run, hob_run_event (run, first + i));

      n += text != NULL && g_str_has_suffix (text, "control powers up");
    }
  return n;
}

/* The light that its door switch turns on takes more than a circuit of 20 ohms can give. */
static void
a_light_that_pulls_its_control_down_flickers (void)
{
  static const char *const weak[]
      = { "receptacle.source-ohms=20 ohm", "light.ohms=50 ohm", "receptacle.volts=90 V",
          "door-switch.closes-when=closed", NULL };
  static const char *const sound[] = { "door-switch.closes-when=closed", NULL };
  guint n = n_power_ups ("board-five", weak, "0s oven.mode=bake", 10);

  g_assert_cmpuint (n, >=, 10);
  g_assert_cmpuint (n, <=, 21); /* it needs half a second to come back */
  g_assert_cmpuint (n_power_ups ("board-five", sound, "0s oven.mode=bake", 10), ==, 1);
}

/* What the control reads of the door sinks with its own supply: a light that dims is no closed
 * door. */
static void
a_sagging_circuit_closes_no_door (void)
{
  static const char *const weak[] = { "receptacle.source-ohms=20 ohm", "light.ohms=50 ohm",
                                      "door-switch.closes-when=closed", NULL };

  g_assert_cmpuint (n_power_ups ("board-five", weak, "0s oven.mode=bake", 60), <=, 2);
  g_assert_cmpuint (n_power_ups ("convection-fan", weak, "0s oven.mode=bake", 60), <=, 2);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/impossible/a-light-that-pulls-its-control-down-flickers",
                   a_light_that_pulls_its_control_down_flickers);
  g_test_add_func ("/impossible/a-sagging-circuit-closes-no-door",
                   a_sagging_circuit_closes_no_door);
  g_test_add_func ("/impossible/a-net-without-a-solution-ends-the-run",
                   a_net_without_a_solution_ends_the_run);
  g_test_add_func ("/impossible/what-made-it-impossible-is-undone",
                   what_made_it_impossible_is_undone);
  g_test_add_func ("/impossible/the-same-parts-without-the-loop-run",
                   the_same_parts_without_the_loop_run);
  return g_test_run ();
}
