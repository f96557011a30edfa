/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "outside.h"

#include <stdlib.h>

const char *outside_program;

static gboolean
on_awake (gpointer user)
{
  *(gboolean *)user = TRUE;
  return G_SOURCE_REMOVE;
}

/* Waits and dispatches: libatspi refreshes its cache from signals in the main context. */
void
outside_nap (void)
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

AtspiAccessible *
outside_find (AtspiAccessible *node, AtspiRole role, const char *name)
{
  g_autofree char *has = NULL;
  int n;

  atspi_accessible_clear_cache (node);
  has = atspi_accessible_get_name (node, NULL);
  if (atspi_accessible_get_role (node, NULL) == role
      && (name == NULL || g_strcmp0 (has, name) == 0))
    return g_object_ref (node);
  n = atspi_accessible_get_child_count (node, NULL);
  for (int i = 0; i < n; i++)
    {
      g_autoptr (AtspiAccessible) child = atspi_accessible_get_child_at_index (node, i, NULL);
      AtspiAccessible *found = child != NULL ? outside_find (child, role, name) : NULL;

      if (found != NULL)
        return found;
    }
  return NULL;
}

/* The button of a dialog: its name has the words twice, once with the mnemonic's sign. */
static AtspiAccessible *
outside_find_button (AtspiAccessible *node, const char *words)
{
  g_autofree char *name = atspi_accessible_get_name (node, NULL);
  int n = atspi_accessible_get_child_count (node, NULL);

  if (atspi_accessible_get_role (node, NULL) == ATSPI_ROLE_PUSH_BUTTON && name != NULL
      && g_str_has_suffix (name, words))
    return g_object_ref (node);
  for (int i = 0; i < n; i++)
    {
      g_autoptr (AtspiAccessible) child = atspi_accessible_get_child_at_index (node, i, NULL);
      AtspiAccessible *found = child != NULL ? outside_find_button (child, words) : NULL;

      if (found != NULL)
        return found;
    }
  return NULL;
}

AtspiAccessible *
outside_wait_find (AtspiAccessible *root, AtspiRole role, const char *name)
{
  for (int i = 0; i < OUTSIDE_PATIENCE; i++)
    {
      AtspiAccessible *found = outside_find (root, role, name);

      if (found != NULL)
        return found;
      outside_nap ();
    }
  g_error ("no '%s' within a minute", name != NULL ? name : atspi_role_get_name (role));
}

void
outside_do_action (AtspiAccessible *node, const char *name)
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
          g_autoptr (GError) error = NULL;

          atspi_action_do_action (action, i, &error);
          g_assert_no_error (error);
          return;
        }
    }
  g_error ("no action '%s'", name);
}

/* ---- The program ---- */

Outside
outside_start (const char *const *argv)
{
  g_autoptr (GError) error = NULL;
  Outside p = { g_subprocess_newv (argv, G_SUBPROCESS_FLAGS_NONE, &error), NULL };
  guint pid;

  g_assert_no_error (error);
  pid = (guint)atoi (g_subprocess_get_identifier (p.process));
  for (int i = 0; i < OUTSIDE_PATIENCE && p.root == NULL; i++)
    {
      p.root = application_of (pid);
      if (p.root == NULL)
        outside_nap ();
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
    outside_do_action (node, "click");
  for (int i = 0; i < n; i++)
    {
      g_autoptr (AtspiAccessible) child = atspi_accessible_get_child_at_index (node, i, NULL);

      if (child != NULL)
        press_all (child, name);
    }
}

/* Where something was done, the program asks before it goes. */
static void
discard (Outside *p)
{
  for (int i = 0; i < OUTSIDE_PATIENCE && g_subprocess_get_identifier (p->process) != NULL; i++)
    {
      int n = atspi_accessible_get_child_count (p->root, NULL);

      atspi_accessible_clear_cache (p->root);
      for (int k = 0; k < n; k++)
        {
          g_autoptr (AtspiAccessible) window
              = atspi_accessible_get_child_at_index (p->root, k, NULL);
          g_autoptr (AtspiAccessible) button
              = window != NULL ? outside_find_button (window, "_Discard Discard") : NULL;

          if (button != NULL)
            outside_do_action (button, "click");
        }
      outside_nap ();
    }
}

void
outside_finish (Outside *p)
{
  g_autoptr (AtspiAccessible) frame = atspi_accessible_get_child_at_index (p->root, 0, NULL);

  press_all (frame, "Close");
  discard (p);
  g_assert_true (g_subprocess_wait_check (p->process, NULL, NULL));
  g_clear_object (&p->process);
  g_clear_object (&p->root);
}

void
outside_init (int *argc, char ***argv)
{
  g_test_init (argc, argv, NULL);
  /* libatspi warns while a program is still registering. */
  g_log_set_always_fatal (G_LOG_LEVEL_ERROR | G_LOG_LEVEL_CRITICAL);
  outside_program = g_getenv ("HOB_WINDOW_PROGRAM");
  g_assert_nonnull (outside_program);
  atspi_init ();
  /* Its own 0.8 s are too short where the program computes and the machine is loaded. */
  atspi_set_timeout (60000, 60000);
}
