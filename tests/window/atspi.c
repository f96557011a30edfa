/* SPDX-License-Identifier: GPL-3.0-or-later */

/* The real program from outside, by role and name: what assistive tools get. */

#include <atspi/atspi.h>
#include <gio/gio.h>
#include <signal.h>
#include <stdlib.h>
#include <string.h>

G_DEFINE_AUTOPTR_CLEANUP_FUNC (AtspiAccessible, g_object_unref)
G_DEFINE_AUTOPTR_CLEANUP_FUNC (AtspiAction, g_object_unref)
G_DEFINE_AUTOPTR_CLEANUP_FUNC (AtspiValue, g_object_unref)
G_DEFINE_AUTOPTR_CLEANUP_FUNC (AtspiStateSet, g_object_unref)

#define PATIENCE 1200 /* naps: a minute, for slow builds on loaded machines */

static const char *program;

static gboolean
on_awake (gpointer user)
{
  *(gboolean *)user = TRUE;
  return G_SOURCE_REMOVE;
}

/* Waits and dispatches: libatspi refreshes its cache from signals in the main context. */
static void
nap (void)
{
  gboolean awake = FALSE;

  g_timeout_add (50, on_awake, &awake);
  while (!awake)
    g_main_context_iteration (NULL, TRUE);
}

static AtspiAccessible *
application_of (guint pid)
{
  g_autoptr (AtspiAccessible) desktop = atspi_get_desktop (0);
  int n;

  atspi_accessible_clear_cache (desktop);
  n = atspi_accessible_get_child_count (desktop, NULL);
  for (int i = 0; i < n; i++)
    {
      AtspiAccessible *one = atspi_accessible_get_child_at_index (desktop, i, NULL);

      if (one != NULL)
        atspi_accessible_clear_cache (one);
      if (one != NULL && atspi_accessible_get_process_id (one, NULL) == pid
          && atspi_accessible_get_child_count (one, NULL) > 0)
        return one;
      g_clear_object (&one);
    }
  return NULL;
}

static AtspiAccessible *
find (AtspiAccessible *node, AtspiRole role, const char *name)
{
  g_autofree char *has = NULL;
  int n;

  atspi_accessible_clear_cache (node);
  has = atspi_accessible_get_name (node, NULL);
  if (atspi_accessible_get_role (node, NULL) == role && g_strcmp0 (has, name) == 0)
    return g_object_ref (node);
  n = atspi_accessible_get_child_count (node, NULL);
  for (int i = 0; i < n; i++)
    {
      g_autoptr (AtspiAccessible) child = atspi_accessible_get_child_at_index (node, i, NULL);
      AtspiAccessible *found = child != NULL ? find (child, role, name) : NULL;

      if (found != NULL)
        return found;
    }
  return NULL;
}

static AtspiAccessible *
wait_find (AtspiAccessible *root, AtspiRole role, const char *name)
{
  for (int i = 0; i < PATIENCE; i++)
    {
      AtspiAccessible *found = find (root, role, name);

      if (found != NULL)
        return found;
      nap ();
    }
  g_error ("no '%s' within a minute", name);
}

static void
do_action (AtspiAccessible *node, const char *name)
{
  g_autoptr (AtspiAction) action = atspi_accessible_get_action_iface (node);
  int n;

  g_assert_nonnull (action);
  n = atspi_action_get_n_actions (action, NULL);
  for (int i = 0; i < n; i++)
    {
      g_autofree char *has = atspi_action_get_action_name (action, i, NULL);

      if (g_strcmp0 (has, name) == 0)
        {
          g_assert_true (atspi_action_do_action (action, i, NULL));
          return;
        }
    }
  g_error ("no action '%s'", name);
}

/* ---- The program ---- */

typedef struct
{
  GSubprocess *process;
  AtspiAccessible *root;
} Program;

static Program
start (const char *const *argv)
{
  g_autoptr (GError) error = NULL;
  Program p = { g_subprocess_newv (argv, G_SUBPROCESS_FLAGS_NONE, &error), NULL };
  guint pid;

  g_assert_no_error (error);
  pid = (guint)atoi (g_subprocess_get_identifier (p.process));
  for (int i = 0; i < PATIENCE && p.root == NULL; i++)
    {
      p.root = application_of (pid);
      if (p.root == NULL)
        nap ();
    }
  g_assert_nonnull (p.root);
  return p;
}

/* Presses every button that says so: the bar's, if it is there, and the title bar's.  The window's
 * own actions are not asked for: listing them leaks in the toolkit. */
static void
press_all (AtspiAccessible *node, const char *name)
{
  g_autofree char *has = atspi_accessible_get_name (node, NULL);
  int n = atspi_accessible_get_child_count (node, NULL);

  if (atspi_accessible_get_role (node, NULL) == ATSPI_ROLE_PUSH_BUTTON
      && g_strcmp0 (has, name) == 0)
    do_action (node, "click");
  for (int i = 0; i < n; i++)
    {
      g_autoptr (AtspiAccessible) child = atspi_accessible_get_child_at_index (node, i, NULL);

      if (child != NULL)
        press_all (child, name);
    }
}

static void
finish (Program *p)
{
  g_autoptr (AtspiAccessible) frame = atspi_accessible_get_child_at_index (p->root, 0, NULL);

  press_all (frame, "Close");
  g_assert_true (g_subprocess_wait_check (p->process, NULL, NULL));
  g_clear_object (&p->process);
  g_clear_object (&p->root);
}

/* ---- Tests ---- */

static void
a_knob_is_a_slider_that_can_be_set (void)
{
  const char *const argv[] = { program, "dial-four", NULL };
  Program p = start (argv);
  g_autoptr (AtspiAccessible) knob = wait_find (p.root, ATSPI_ROLE_SLIDER, "Left front knob");
  g_autoptr (AtspiValue) value = atspi_accessible_get_value_iface (knob);

  g_assert_nonnull (value);
  g_assert_cmpfloat (atspi_value_get_current_value (value, NULL), ==, 0);
  g_assert_cmpfloat (atspi_value_get_maximum_value (value, NULL), ==, 100);
  g_assert_true (atspi_value_set_current_value (value, 20, NULL));
  g_object_unref (wait_find (p.root, ATSPI_ROLE_LABEL, "light"));
  finish (&p);
}

static void
run_and_pause_by_words (void)
{
  const char *const argv[] = { program, "dial-four", NULL };
  Program p = start (argv);
  g_autoptr (AtspiAccessible) pause = wait_find (p.root, ATSPI_ROLE_PUSH_BUTTON, "Pause");
  g_autoptr (AtspiAccessible) run = NULL;

  do_action (pause, "click");
  run = wait_find (p.root, ATSPI_ROLE_PUSH_BUTTON, "Run");
  do_action (run, "click");
  g_object_unref (wait_find (p.root, ATSPI_ROLE_PUSH_BUTTON, "Pause"));
  finish (&p);
}

static void
the_case_on_the_command_line_is_shown (void)
{
  const char *const argv[] = { program, "dial-four",         "--fault",   "igniter-bake:aged",
                               "--do",  "0s oven.mode=bake", "--setting", "receptacle.volts=118",
                               NULL };
  Program p = start (argv);

  g_object_unref (wait_find (p.root, ATSPI_ROLE_LABEL, "bake"));
  g_object_unref (wait_find (p.root, ATSPI_ROLE_IMAGE, "Wiring sheet, Four-burner dial range"));
  finish (&p);
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
  const char *const argv[] = { program, file, NULL };
  Program p = start (argv);

  g_object_unref (wait_find (p.root, ATSPI_ROLE_PUSH_BUTTON, "Check Again"));
  for (int line = 6; line <= 10; line++)
    {
      g_autofree char *prefix = g_strdup_printf ("bad-ids.xml:%d: ", line);

      g_assert_cmpint (count_rows (p.root, prefix), >=, 1);
    }
  g_object_unref (wait_find (p.root, ATSPI_ROLE_IMAGE, "Wiring sheet, Four-burner dial range"));
  finish (&p);
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
  const char *const argv[] = { program, "dial-four", NULL };
  Program p = start (argv);
  int n = 0;

  g_object_unref (wait_find (p.root, ATSPI_ROLE_SLIDER, "Left front knob"));
  g_assert_cmpint (count_nameless (p.root, &n), ==, 0);
  g_assert_cmpint (n, >, 25);
  finish (&p);
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
  const char *const missing[] = { program, "no-such-range", NULL };
  const char *const no_control[] = { program, "dial-four", "--do", "0s knob-xx=light", NULL };
  const char *const no_seed[] = { program, "dial-four", "--seed", "many", NULL };

  expect_refusal (missing, 2);
  expect_refusal (no_control, 1);
  expect_refusal (no_seed, 2);
}

int
main (int argc, char **argv)
{
  int result;

  g_test_init (&argc, &argv, NULL);
  /* libatspi warns while a program is still registering. */
  g_log_set_always_fatal (G_LOG_LEVEL_ERROR | G_LOG_LEVEL_CRITICAL);
  program = g_getenv ("HOB_WINDOW_PROGRAM");
  g_assert_nonnull (program);
  atspi_init ();
  g_test_add_func ("/window/atspi/a-knob-is-a-slider-that-can-be-set",
                   a_knob_is_a_slider_that_can_be_set);
  g_test_add_func ("/window/atspi/run-and-pause-by-words", run_and_pause_by_words);
  g_test_add_func ("/window/atspi/the-case-on-the-command-line-is-shown",
                   the_case_on_the_command_line_is_shown);
  g_test_add_func ("/window/atspi/a-broken-file-on-the-command-line-is-a-list",
                   a_broken_file_on_the_command_line_is_a_list);
  g_test_add_func ("/window/atspi/whatever-takes-focus-has-a-name",
                   whatever_takes_focus_has_a_name);
  g_test_add_func ("/window/atspi/wrong-words-are-refused-in-one-line",
                   wrong_words_are_refused_in_one_line);
  result = g_test_run ();
  atspi_exit ();
  return result;
}
