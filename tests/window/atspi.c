/* SPDX-License-Identifier: GPL-3.0-or-later */

/* The real program from outside, by role and name: what assistive tools get. */

#include "outside.h"

#include <string.h>

#define DIAL_FOUR_SHEET "Wiring sheet, Four-burner range with dial thermostat"

/* ---- Tests ---- */

static void
a_knob_is_a_slider_that_can_be_set (void)
{
  const char *const argv[] = { outside_program, "dial-four", NULL };
  Outside p = outside_start (argv);
  g_autoptr (AtspiAccessible) knob
      = outside_wait_find (p.root, ATSPI_ROLE_SLIDER, "Left front knob");
  g_autoptr (AtspiValue) value = atspi_accessible_get_value_iface (knob);

  g_assert_nonnull (value);
  g_assert_cmpfloat (atspi_value_get_current_value (value, NULL), ==, 0);
  g_assert_cmpfloat (atspi_value_get_maximum_value (value, NULL), ==, 100);
  g_assert_true (atspi_value_set_current_value (value, 20, NULL));
  g_object_unref (outside_wait_find (p.root, ATSPI_ROLE_LABEL, "LIGHT"));
  outside_finish (&p);
}

static void
run_and_pause_by_words (void)
{
  const char *const argv[] = { outside_program, "dial-four", NULL };
  Outside p = outside_start (argv);
  g_autoptr (AtspiAccessible) pause = outside_wait_find (p.root, ATSPI_ROLE_PUSH_BUTTON, "Pause");
  g_autoptr (AtspiAccessible) run = NULL;

  outside_do_action (pause, "click");
  run = outside_wait_find (p.root, ATSPI_ROLE_PUSH_BUTTON, "Run");
  outside_do_action (run, "click");
  g_object_unref (outside_wait_find (p.root, ATSPI_ROLE_PUSH_BUTTON, "Pause"));
  outside_finish (&p);
}

static void
the_case_on_the_command_line_is_shown (void)
{
  const char *const argv[] = {
    outside_program, "dial-four",         "--fault",   "igniter-bake:aged",
    "--do",          "0s oven.mode=bake", "--setting", "receptacle.volts=118",
    NULL,
  };
  Outside p = outside_start (argv);

  g_object_unref (outside_wait_find (p.root, ATSPI_ROLE_LABEL, "BAKE"));
  g_object_unref (outside_wait_find (p.root, ATSPI_ROLE_IMAGE, DIAL_FOUR_SHEET));
  outside_finish (&p);
}

static void
without_words_there_is_a_range (void)
{
  const char *const argv[] = { outside_program, NULL };
  Outside p = outside_start (argv);

  g_object_unref (outside_wait_find (p.root, ATSPI_ROLE_IMAGE, DIAL_FOUR_SHEET));
  outside_finish (&p);
}

static void
a_case_file_on_the_command_line_is_shown (void)
{
  g_autofree char *folder = g_dir_make_tmp ("hob-case-XXXXXX", NULL);
  g_autofree char *file = g_build_filename (folder, "mine.xml", NULL);
  const char *const argv[] = { outside_program, file, NULL };
  Outside p;

  g_assert_true (g_file_set_contents (file,
                                      "<case format=\"1\" range=\"dial-four\">"
                                      "<do value=\"0 s oven.mode=bake\"/></case>",
                                      -1, NULL));
  p = outside_start (argv);
  g_object_unref (outside_wait_find (p.root, ATSPI_ROLE_LABEL, "BAKE"));
  outside_finish (&p);
}

/* The real program, the real signal. */
static void
a_killed_program_offers_what_was_done (void)
{
  const char *const argv[] = { outside_program, "dial-four", NULL };
  const char *const other[] = { outside_program, "board-five", NULL };
  Outside p = outside_start (argv);
  g_autoptr (AtspiAccessible) knob
      = outside_wait_find (p.root, ATSPI_ROLE_SLIDER, "Left front knob");
  g_autoptr (AtspiValue) value = atspi_accessible_get_value_iface (knob);
  g_autoptr (AtspiAccessible) restore = NULL;

  g_assert_true (atspi_value_set_current_value (value, 20, NULL));
  for (int i = 0; i < 20; i++) /* a second */
    outside_nap ();
  g_subprocess_force_exit (p.process);
  g_assert_false (g_subprocess_wait_check (p.process, NULL, NULL));
  g_clear_object (&p.process);
  g_clear_object (&p.root);

  p = outside_start (other);
  restore = outside_wait_find (p.root, ATSPI_ROLE_PUSH_BUTTON, "Restore");
  outside_do_action (restore, "click");
  g_object_unref (outside_wait_find (p.root, ATSPI_ROLE_IMAGE, DIAL_FOUR_SHEET));
  g_object_unref (outside_wait_find (p.root, ATSPI_ROLE_LABEL, "LIGHT"));
  outside_finish (&p);

  p = outside_start (other); /* nothing is left to offer */
  g_object_unref (outside_wait_find (p.root, ATSPI_ROLE_PUSH_BUTTON, "Pause"));
  g_assert_null (outside_find (p.root, ATSPI_ROLE_PUSH_BUTTON, "Restore"));
  outside_finish (&p);
}

/* Rows of a list whose name begins so. */
static int
count_rows (AtspiAccessible *node, const char *prefix)
{
  g_autofree char *name = atspi_accessible_get_name (node, NULL);
  int n = atspi_accessible_get_child_count (node, NULL),
      rows = atspi_accessible_get_role (node, NULL) == ATSPI_ROLE_LIST_ITEM && name != NULL
             && g_str_has_prefix (name, prefix);

  for (int i = 0; i < n; i++)
    {
      g_autoptr (AtspiAccessible) child = atspi_accessible_get_child_at_index (node, i, NULL);

      if (child != NULL)
        rows += count_rows (child, prefix);
    }
  return rows;
}

/* Five mistakes at lines 6 to 10; the shipped range is behind the list. */
static void
a_broken_file_on_the_command_line_is_a_list (void)
{
  g_autofree char *file = g_test_build_filename (G_TEST_DIST, "hostile", "bad-ids.xml", NULL);
  const char *const argv[] = { outside_program, file, NULL };
  Outside p = outside_start (argv);

  g_object_unref (outside_wait_find (p.root, ATSPI_ROLE_PUSH_BUTTON, "Check Again"));
  for (int line = 6; line <= 10; line++)
    {
      g_autofree char *prefix = g_strdup_printf ("bad-ids.xml:%d: ", line);

      g_assert_cmpint (count_rows (p.root, prefix), >=, 1);
    }
  g_object_unref (outside_wait_find (p.root, ATSPI_ROLE_IMAGE, DIAL_FOUR_SHEET));
  outside_finish (&p);
}

/* GTK names what has no name by its type; "Hob…" would be ours. */
static int
count_nameless (AtspiAccessible *node, int *n)
{
  g_autofree char *name = atspi_accessible_get_name (node, NULL);
  g_autoptr (AtspiStateSet) states = atspi_accessible_get_state_set (node);
  int nameless = 0, children = atspi_accessible_get_child_count (node, NULL);

  if (states != NULL && atspi_state_set_contains (states, ATSPI_STATE_FOCUSABLE)
      && atspi_state_set_contains (states, ATSPI_STATE_VISIBLE))
    {
      (*n)++;
      if (name == NULL || *name == '\0' || g_str_has_prefix (name, "Gtk")
          || g_str_has_prefix (name, "Hob"))
        {
          g_autofree char *role = atspi_accessible_get_role_name (node, NULL);

          g_test_message ("no name: %s '%s'", role, name);
          nameless++;
        }
    }
  for (int i = 0; i < children; i++)
    {
      g_autoptr (AtspiAccessible) child = atspi_accessible_get_child_at_index (node, i, NULL);

      if (child != NULL)
        nameless += count_nameless (child, n);
    }
  return nameless;
}

static void
whatever_takes_focus_has_a_name (void)
{
  const char *const argv[] = { outside_program, "dial-four", NULL };
  Outside p = outside_start (argv);
  int n = 0;

  g_object_unref (outside_wait_find (p.root, ATSPI_ROLE_SLIDER, "Left front knob"));
  g_assert_cmpint (count_nameless (p.root, &n), ==, 0);
  g_assert_cmpint (n, >, 25);
  outside_finish (&p);
}

static void
expect_refusal (const char *const *argv, int status)
{
  g_autoptr (GSubprocess) process = g_subprocess_newv (argv, G_SUBPROCESS_FLAGS_STDERR_PIPE, NULL);
  g_autofree char *said = NULL;

  g_assert_true (g_subprocess_communicate_utf8 (process, NULL, NULL, NULL, &said, NULL));
  g_assert_cmpint (g_subprocess_get_exit_status (process), ==, status);
  g_assert_true (g_str_has_prefix (said, "hobwright: "));
  g_assert_true (strchr (said, '\n') == said + strlen (said) - 1);
}

static void
wrong_words_are_refused_in_one_line (void)
{
  const char *const missing[] = { outside_program, "no-such-range", NULL };
  const char *const no_control[]
      = { outside_program, "dial-four", "--do", "0s knob-xx=light", NULL };
  const char *const no_seed[] = { outside_program, "dial-four", "--seed", "many", NULL };

  expect_refusal (missing, 2);
  expect_refusal (no_control, 1);
  expect_refusal (no_seed, 2);
}

/* Which one it is; and what is more than one range, or a fault that the case's range has not. */
static void
more_words_are_answered_without_a_window (void)
{
  const char *const version[] = { outside_program, "--version", NULL };
  const char *const two[] = { outside_program, "dial-four", "board-five", NULL };
  const char *const no_fault[] = { outside_program, "dial-four", "--fault", "oven:gone", NULL };
  const char *const no_option[] = { outside_program, "dial-four", "--no-such-option", NULL };
  g_autoptr (GSubprocess) process
      = g_subprocess_newv (version, G_SUBPROCESS_FLAGS_STDOUT_PIPE, NULL);
  g_autofree char *said = NULL;

  g_assert_true (g_subprocess_communicate_utf8 (process, NULL, NULL, &said, NULL, NULL));
  g_assert_cmpint (g_subprocess_get_exit_status (process), ==, 0);
  g_assert_true (g_str_has_prefix (said, "hobwright 0.") && strchr (said, '\n') != NULL);
  expect_refusal (two, 2);
  expect_refusal (no_fault, 1);
  expect_refusal (no_option, 2);
}

int
main (int argc, char **argv)
{
  int result;

  outside_init (&argc, &argv);
  g_test_add_func ("/window/atspi/a-knob-is-a-slider-that-can-be-set",
                   a_knob_is_a_slider_that_can_be_set);
  g_test_add_func ("/window/atspi/run-and-pause-by-words", run_and_pause_by_words);
  g_test_add_func ("/window/atspi/the-case-on-the-command-line-is-shown",
                   the_case_on_the_command_line_is_shown);
  g_test_add_func ("/window/atspi/without-words-there-is-a-range", without_words_there_is_a_range);
  g_test_add_func ("/window/atspi/a-case-file-on-the-command-line-is-shown",
                   a_case_file_on_the_command_line_is_shown);
  g_test_add_func ("/window/atspi/a-killed-program-offers-what-was-done",
                   a_killed_program_offers_what_was_done);
  g_test_add_func ("/window/atspi/a-broken-file-on-the-command-line-is-a-list",
                   a_broken_file_on_the_command_line_is_a_list);
  g_test_add_func ("/window/atspi/whatever-takes-focus-has-a-name",
                   whatever_takes_focus_has_a_name);
  g_test_add_func ("/window/atspi/wrong-words-are-refused-in-one-line",
                   wrong_words_are_refused_in_one_line);
  g_test_add_func ("/window/atspi/more-words-are-answered-without-a-window",
                   more_words_are_answered_without_a_window);
  result = g_test_run ();
  atspi_exit ();
  return result;
}
