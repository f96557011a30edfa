/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "window/app.h"

#include "base/errors.h"
#include "base/i18n.h"
#include "run/case-options.h"
#include "window/kept-look.h"
#include "window/keys.h"
#include "window/window.h"

#include <locale.h>

#define DEFAULT_RANGE "dial-four"

struct _HobApp
{
  GtkApplication parent_instance;

  /*< owned >*/
  HobStyle *style;
  HobCaseOptions *of_case;
};

G_DEFINE_FINAL_TYPE (HobApp, hob_app, GTK_TYPE_APPLICATION)

/* ---- The words of the command ---- */

static const GOptionEntry options[] = {
  { "version", 0, 0, G_OPTION_ARG_NONE, NULL, N_ ("Show the version"), NULL },
  { G_OPTION_REMAINING, 0, 0, G_OPTION_ARG_FILENAME_ARRAY, NULL, NULL, N_ ("[RANGE]") },
  { NULL },
};

static gboolean
range_word (GVariantDict *given, const char **word, GError **error)
{
  g_autofree const char **words = NULL;

  *word = DEFAULT_RANGE;
  if (!g_variant_dict_lookup (given, G_OPTION_REMAINING, "^a&ay", &words) || words[0] == NULL)
    return TRUE;
  *word = words[0];
  if (words[1] == NULL)
    return TRUE;
  g_set_error (error, HOB_ERROR, HOB_ERROR_USAGE, _ ("'%s' is a second range; name only one"),
               words[1]);
  return FALSE;
}

static HobCase *
case_of (HobApp *self, const HobCaseFile *c, GError **error)
{
  g_autoptr (HobCase) acts = hob_case_copy (c->acts);

  return hob_case_options_apply (self->of_case, acts, error) ? g_steal_pointer (&acts) : NULL;
}

/* ---- Opening windows ---- */

/* A window on what was read.  Where that is broken, the shipped range is behind the list of what is
 * wrong.  @acts: NULL where it is those of @opening. */
static gboolean
open_window (HobApp *self, const HobOpening *opening, const HobCase *acts, GError **error)
{
  g_autoptr (HobSession) session = hob_session_new (error);
  g_autofree char *file = hob_range_locate (DEFAULT_RANGE);
  g_autoptr (HobRange) range = NULL;
  HobWindow *window;

  if (session == NULL)
    return FALSE;
  range = opening->range != NULL ? hob_range_ref (opening->range)
                                 : hob_range_load (file, NULL, error);
  if (range == NULL)
    return FALSE;
  if (acts == NULL && opening->c != NULL)
    acts = opening->c->acts;
  hob_session_open (session, range, acts);
  window = hob_window_new (GTK_APPLICATION (self), session, self->style);
  hob_window_show_opening (window, opening);
  hob_window_offer_left (window);
  hob_window_restore_look (window);
  g_signal_connect (window, "unrealize", G_CALLBACK (hob_window_keep_look), NULL);
  gtk_window_present (GTK_WINDOW (window));
  return TRUE;
}

/* A file that is there opens a window, whatever is wrong with it; a name that means nothing is an
 * error of the command's words. */
static gboolean
open_words (HobApp *self, GVariantDict *given, GError **error)
{
  g_autofree char *file = NULL;
  g_autoptr (HobOpening) opening = NULL;
  g_autoptr (HobCase) acts = NULL;
  const char *word;

  if (!range_word (given, &word, error))
    return FALSE;
  file = hob_range_locate (word);
  if (!g_file_test (file, G_FILE_TEST_EXISTS))
    {
      G_GNUC_UNUSED g_autoptr (HobRange) none = hob_range_load (file, NULL, error);
      return FALSE;
    }
  opening = hob_opening_new (file);
  if (opening->c != NULL && (acts = case_of (self, opening->c, error)) == NULL)
    return FALSE;
  return open_window (self, opening, acts, error);
}

HobStyle *
hob_app_style (HobApp *self)
{
  return self->style;
}

static int
hob_app_command_line (GApplication *application, GApplicationCommandLine *line)
{
  HobApp *self = HOB_APP (application);
  g_autoptr (GError) error = NULL;

  if (open_words (self, g_application_command_line_get_options_dict (line), &error))
    return 0;
  g_application_command_line_printerr (line, "hobwright: %s\n", error->message);
  return hob_error_exit_status (error);
}

/* A file manager's way in. */
static void
hob_app_open (GApplication *application, GFile **files, int n_files, const char *hint)
{
  for (int i = 0; i < n_files; i++)
    {
      g_autoptr (HobOpening) opening = NULL;
      g_autoptr (GError) error = NULL;
      g_autofree char *path = g_file_get_path (files[i]);

      if (path == NULL)
        continue;
      opening = hob_opening_new (path);
      if (!open_window (HOB_APP (application), opening, NULL, &error))
        g_printerr ("hobwright: %s\n", error->message);
    }
}

/* Wrong words end with the status that hob gives them. */
static gboolean
hob_app_local_command_line (GApplication *application, char ***words, int *status)
{
  HobApp *self = HOB_APP (application);
  gboolean done
      = G_APPLICATION_CLASS (hob_app_parent_class)->local_command_line (application, words, status);

  if (hob_case_options_refused (self->of_case))
    *status = 2;
  return done;
}

static int
hob_app_handle_local_options (GApplication *application, GVariantDict *given)
{
  if (!g_variant_dict_contains (given, "version"))
    return -1;
  g_print ("hobwright %s\n", HOB_VERSION);
  return 0;
}

/* ---- Actions of the whole program ---- */

static void
on_quit (GSimpleAction *action, GVariant *parameter, gpointer user)
{
  g_autoptr (GList) windows = g_list_copy (gtk_application_get_windows (GTK_APPLICATION (user)));

  for (GList *l = windows; l != NULL; l = l->next)
    if (HOB_IS_WINDOW (l->data))
      gtk_window_close (l->data);
}

static void
on_about (GSimpleAction *action, GVariant *parameter, gpointer user)
{
  g_autofree char *always = hob_hazard_text (HOB_HAZARD_ALWAYS, 0);
  g_autofree char *comments = g_strdup_printf (
      "%s\n\n%s",
      _ ("Run a simulated gas range and watch its wiring and gas diagrams. Add a fault and see "
         "what happens."),
      always);

  gtk_show_about_dialog (gtk_application_get_active_window (GTK_APPLICATION (user)), "program-name",
                         "Hobwright", "version", HOB_VERSION, "license-type", GTK_LICENSE_GPL_3_0,
                         "logo-icon-name", HOB_APPLICATION_ID, "comments", comments, NULL);
}

static const char *const look_words[] = {
  [HOB_STYLE_SYSTEM] = "system",
  [HOB_STYLE_LIGHT] = "light",
  [HOB_STYLE_DARK] = "dark",
};

static void
on_look (GSimpleAction *action, GVariant *state, gpointer user)
{
  for (guint i = 0; i < G_N_ELEMENTS (look_words); i++)
    if (g_str_equal (g_variant_get_string (state, NULL), look_words[i]))
      {
        hob_style_choose (HOB_APP (user)->style, (HobStyleChoice)i);
        g_simple_action_set_state (action, state);
        hob_kept_look_set_theme (look_words[i]);
      }
}

static const GActionEntry entries[] = {
  { "quit", on_quit },
  { "about", on_about },
  { "look", NULL, "s", "'system'", on_look },
};

static void
hob_app_startup (GApplication *application)
{
  HobApp *self = HOB_APP (application);
  g_autofree char *theme = NULL;

  G_APPLICATION_CLASS (hob_app_parent_class)->startup (application);
  setlocale (LC_NUMERIC, "C"); /* GTK sets all of the person's locale; a number has a point */
  self->style = hob_style_new (gdk_display_get_default ());
  /* The name in About would look chosen. */
  g_object_set (gtk_settings_get_default (), "gtk-label-select-on-focus", FALSE, NULL);
  g_action_map_add_action_entries (G_ACTION_MAP (self), entries, G_N_ELEMENTS (entries), self);
  for (const HobKeys *k = hob_keys; k->action != NULL; k++)
    if (!k->plain) /* these come before what has focus */
      gtk_application_set_accels_for_action (GTK_APPLICATION (self), k->action, k->keys);
  theme = hob_kept_look_theme ();
  for (guint i = 0; theme != NULL && i < G_N_ELEMENTS (look_words); i++)
    if (g_str_equal (look_words[i], theme) && i != HOB_STYLE_SYSTEM)
      {
        GAction *look = g_action_map_lookup_action (G_ACTION_MAP (self), "look");

        hob_style_choose (self->style, (HobStyleChoice) i); /* kept already */
        g_simple_action_set_state (G_SIMPLE_ACTION (look), g_variant_new_string (theme));
      }
}

static void
hob_app_shutdown (GApplication *application)
{
  g_clear_object (&HOB_APP (application)->style);
  G_APPLICATION_CLASS (hob_app_parent_class)->shutdown (application);
}

static void
hob_app_finalize (GObject *object)
{
  hob_case_options_free (HOB_APP (object)->of_case);
  G_OBJECT_CLASS (hob_app_parent_class)->finalize (object);
}

static void
hob_app_class_init (HobAppClass *klass)
{
  GApplicationClass *application_class = G_APPLICATION_CLASS (klass);

  G_OBJECT_CLASS (klass)->finalize = hob_app_finalize;
  application_class->local_command_line = hob_app_local_command_line;
  application_class->startup = hob_app_startup;
  application_class->shutdown = hob_app_shutdown;
  application_class->command_line = hob_app_command_line;
  application_class->open = hob_app_open;
  application_class->handle_local_options = hob_app_handle_local_options;
}

static void
hob_app_init (HobApp *self)
{
  self->of_case = hob_case_options_new ();
  g_application_add_main_option_entries (G_APPLICATION (self), options);
  g_application_add_option_group (G_APPLICATION (self),
                                  hob_case_options_group (self->of_case, "hobwright"));
  g_application_set_option_context_summary (
      G_APPLICATION (self), _ ("Open a range in a window. If you leave out RANGE, dial-four "
                               "opens."));
}

HobApp *
hob_app_new (void)
{
  return g_object_new (HOB_TYPE_APP, "application-id", HOB_APPLICATION_ID, "flags",
                       G_APPLICATION_HANDLES_COMMAND_LINE | G_APPLICATION_HANDLES_OPEN
                           | G_APPLICATION_NON_UNIQUE,
                       "resource-base-path", "/org/hobwright/Hobwright", NULL);
}
