/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "window/app.h"

#include "base/errors.h"
#include "base/i18n.h"
#include "window/window.h"

#define DEFAULT_RANGE "dial-four"

struct _HobApp
{
  GtkApplication parent_instance;

  HobStyle *style; /* owned */
};

G_DEFINE_FINAL_TYPE (HobApp, hob_app, GTK_TYPE_APPLICATION)

/* ---- The words of the command ---- */

static const GOptionEntry options[] = {
  { "do", 0, 0, G_OPTION_ARG_STRING_ARRAY, NULL, N_ ("What a hand does: \"60s oven.mode=bake\""),
    N_ ("\"TIME CONTROL=POSITION\"") },
  { "fault", 0, 0, G_OPTION_ARG_STRING_ARRAY, NULL, N_ ("Hang a fault"),
    N_ ("PART:FAULT[=SEVERITY][@TIME]") },
  { "setting", 0, 0, G_OPTION_ARG_STRING_ARRAY, NULL, N_ ("Change a setting"),
    N_ ("PART.NAME=VALUE") },
  { "seed", 0, 0, G_OPTION_ARG_STRING, NULL, N_ ("Other specimens, another chance"), N_ ("N") },
  { "version", 0, 0, G_OPTION_ARG_NONE, NULL, N_ ("Say the version"), NULL },
  { G_OPTION_REMAINING, 0, 0, G_OPTION_ARG_FILENAME_ARRAY, NULL, NULL, N_ ("[RANGE]") },
  { NULL },
};

typedef gboolean (*AddToCase) (HobCase *acts, const char *text, GError **error);

static gboolean
add_all (HobCase *acts, GVariantDict *given, const char *option, AddToCase add, GError **error)
{
  g_autofree const char **texts = NULL;

  if (!g_variant_dict_lookup (given, option, "^a&s", &texts))
    return TRUE;
  for (int i = 0; texts[i] != NULL; i++)
    if (!add (acts, texts[i], error))
      return FALSE;
  return TRUE;
}

static gboolean
add_seed (HobCase *acts, GVariantDict *given, GError **error)
{
  const char *text;

  if (!g_variant_dict_lookup (given, "seed", "&s", &text))
    return TRUE;
  if (g_ascii_string_to_unsigned (text, 10, 0, G_MAXUINT64, &acts->seed, NULL))
    return TRUE;
  g_set_error (error, HOB_ERROR, HOB_ERROR_USAGE,
               _ ("--seed '%s' is no whole number; write digits only"), text);
  return FALSE;
}

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
  g_set_error (error, HOB_ERROR, HOB_ERROR_USAGE, _ ("'%s' is one range too many; name one"),
               words[1]);
  return FALSE;
}

/* The session that the words ask for; NULL and @error where they are off. */
static HobSession *
open_session (GVariantDict *given, GError **error)
{
  g_autoptr (HobSession) session = NULL;
  g_autoptr (HobRange) range = NULL;
  g_autoptr (HobCase) acts = NULL;
  g_autofree char *file = NULL;
  const char *word;

  if (!range_word (given, &word, error))
    return NULL;
  file = hob_range_locate (word);
  range = hob_range_load (file, NULL, error);
  if (range == NULL)
    return NULL;
  acts = hob_case_new (range);
  if (!add_all (acts, given, "do", hob_case_do, error)
      || !add_all (acts, given, "fault", hob_case_fault, error)
      || !add_all (acts, given, "setting", hob_case_setting, error)
      || !add_seed (acts, given, error))
    return NULL;
  session = hob_session_new (error);
  if (session != NULL)
    hob_session_open (session, range, acts);
  return g_steal_pointer (&session);
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
  g_autoptr (HobSession) session
      = open_session (g_application_command_line_get_options_dict (line), &error);

  if (session == NULL)
    {
      g_application_command_line_printerr (line, "hobwright: %s\n", error->message);
      return hob_error_exit_status (error);
    }
  gtk_window_present (GTK_WINDOW (hob_window_new (GTK_APPLICATION (self), session, self->style)));
  return 0;
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
  GList *windows;

  while ((windows = gtk_application_get_windows (GTK_APPLICATION (user))) != NULL)
    gtk_window_destroy (windows->data);
}

static void
on_about (GSimpleAction *action, GVariant *parameter, gpointer user)
{
  gtk_show_about_dialog (gtk_application_get_active_window (GTK_APPLICATION (user)), "program-name",
                         "Hobwright", "version", HOB_VERSION, "license-type", GTK_LICENSE_GPL_3_0,
                         "comments",
                         _ ("A gas range, alive on its own sheets: see how it works, hang a fault, "
                            "learn what it shows."),
                         NULL);
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
      }
}

static const GActionEntry entries[] = {
  { "quit", on_quit },
  { "about", on_about },
  { "look", NULL, "s", "'system'", on_look },
};

/* Keys with Ctrl, Alt or F: they come before what has focus. */
static const struct
{
  const char *action;
  const char *keys[3];
} accels[] = {
  { "app.quit", { "<Ctrl>q" } },
  { "win.close", { "<Ctrl>w" } },
  { "win.open", { "<Ctrl>o" } },
  { "win.undo", { "<Ctrl>z" } },
  { "win.zoom-in", { "<Ctrl>plus", "<Ctrl>equal" } },
  { "win.zoom-out", { "<Ctrl>minus" } },
  { "win.zoom-fit", { "<Ctrl>0" } },
  { "win.sheet('wiring')", { "<Alt>1" } },
  { "win.sheet('gas')", { "<Alt>2" } },
  { "win.sheet('cutaway')", { "<Alt>3" } },
  { "win.front", { "F8" } },
  { "win.details", { "F9" } },
  { "win.keys", { "<Ctrl>question", "F1" } },
};

static void
hob_app_startup (GApplication *application)
{
  HobApp *self = HOB_APP (application);

  G_APPLICATION_CLASS (hob_app_parent_class)->startup (application);
  self->style = hob_style_new (gdk_display_get_default ());
  g_action_map_add_action_entries (G_ACTION_MAP (self), entries, G_N_ELEMENTS (entries), self);
  for (guint i = 0; i < G_N_ELEMENTS (accels); i++)
    gtk_application_set_accels_for_action (GTK_APPLICATION (self), accels[i].action,
                                           (const char *const *)accels[i].keys);
}

static void
hob_app_shutdown (GApplication *application)
{
  g_clear_object (&HOB_APP (application)->style);
  G_APPLICATION_CLASS (hob_app_parent_class)->shutdown (application);
}

static void
hob_app_class_init (HobAppClass *klass)
{
  GApplicationClass *application_class = G_APPLICATION_CLASS (klass);

  application_class->startup = hob_app_startup;
  application_class->shutdown = hob_app_shutdown;
  application_class->command_line = hob_app_command_line;
  application_class->handle_local_options = hob_app_handle_local_options;
}

static void
hob_app_init (HobApp *self)
{
  g_application_add_main_option_entries (G_APPLICATION (self), options);
  g_application_set_option_context_parameter_string (G_APPLICATION (self), _ ("[RANGE]"));
  g_application_set_option_context_summary (
      G_APPLICATION (self), _ ("Opens a range's window; without RANGE the shipped dial-four."));
}

HobApp *
hob_app_new (void)
{
  return g_object_new (HOB_TYPE_APP, "application-id", HOB_APPLICATION_ID, "flags",
                       G_APPLICATION_HANDLES_COMMAND_LINE | G_APPLICATION_NON_UNIQUE,
                       "resource-base-path", "/org/hobwright/Hobwright", NULL);
}
