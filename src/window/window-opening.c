/* SPDX-License-Identifier: GPL-3.0-or-later */

/* How a window comes to another range or case: the shipped ones, recent files, a file dropped on
 * it, a file that changes on disk.  What is wrong with a file is a list over the sheet. */

#include "window/window-private.h"

#include "base/data.h"
#include "base/i18n.h"
#include "base/write-file.h"

#define RECENT_MAX 8
#define RANGE_TYPE "application/x-hobwright-range+xml"
#define CASE_TYPE "application/x-hobwright-case+xml"
#define RECENT_NAME "Hobwright"
#define RECENT_COMMAND "hobwright %f"

/* ---- The list of what is wrong ---- */

static void
show_list (HobWindow *self, const char *title, const char *note, const GPtrArray *lines,
           gboolean can_check)
{
  hob_finding_list_fill (self->findings, title, note, lines, can_check);
  hob_window_reveal (self->findings_bar, TRUE);
}

void
hob_window_hide_findings (HobWindow *self)
{
  hob_window_reveal (self->findings_bar, FALSE);
}

static void
show_lines (HobWindow *self, const HobOpening *opening)
{
  g_autofree char *title = hob_opening_title (opening), *note = NULL;

  if (opening->lines->len == 0)
    {
      hob_window_hide_findings (self);
      return;
    }
  if (opening->range == NULL)
    /* Translators: the range from before a file that can't be opened. */
    note = g_strdup_printf (_ ("%s stays open. Correct the file that didn't open, then choose "
                               "Check Again."),
                            hob_range_name (hob_session_range (self->session)));
  show_list (self, title, note, opening->lines, TRUE);
}

static void
show_left_out (HobWindow *self, const GPtrArray *left_out)
{
  g_autofree char *title = g_strdup_printf (
      ngettext ("%u action was left out.", "%u actions were left out.",
                left_out->len),
      left_out->len);

  show_list (self, title,
             ngettext ("It used a part or a control position that the range no longer has.",
                       "They used parts or control positions that the range no longer has.",
                       left_out->len),
             left_out, FALSE);
}

/* ---- A file that changes on disk ---- */

/* Looked at once a second: a monitor of files misses what another computer writes. */
#define LOOK_S 1

/* Of the file on disk: other bytes have another.  NULL: no file.  (transfer full) */
static char *
file_tag (GFile *file)
{
  g_autoptr (GFileInfo) info = g_file_query_info (file, G_FILE_ATTRIBUTE_ETAG_VALUE,
                                                  G_FILE_QUERY_INFO_NONE, NULL, NULL);

  return info != NULL ? g_strdup (g_file_info_get_etag (info)) : NULL;
}

static gboolean
is_as_read (const HobFollowed *followed)
{
  g_autofree char *tag = file_tag (followed->file);

  return g_strcmp0 (tag, followed->tag) == 0;
}

static void
take_look (HobWindow *self, GFile *file, GFileInfo *info)
{
  const char *tag = info != NULL ? g_file_info_get_etag (info) : NULL;
  g_autofree char *name = g_file_get_basename (file), *line = NULL;
  HobFollowed *followed = self->followed;

  while (followed->file != file)
    followed++;
  followed->is_asked = FALSE;
  if (tag == NULL || g_strcmp0 (tag, followed->tag) == 0 || g_strcmp0 (tag, followed->told) == 0)
    return;
  g_free (followed->told);
  followed->told = g_strdup (tag);
  line = g_strdup_printf (_ ("%s has changed on disk."), name);
  hob_window_say (self, line);
  gtk_widget_set_visible (self->reload_button, TRUE);
}

/* Once it is cancelled, there may be no window any longer. */
static void
on_looked (GObject *file, GAsyncResult *result, gpointer self)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (GFileInfo) info = g_file_query_info_finish (G_FILE (file), result, &error);

  if (!g_error_matches (error, G_IO_ERROR, G_IO_ERROR_CANCELLED))
    take_look (self, G_FILE (file), info);
}

/* One question at a time: a disk may be slow to answer. */
static gboolean
on_look (gpointer user)
{
  HobWindow *self = user;

  for (int k = 0; k < HOB_N_FOLLOWED; k++)
    {
      HobFollowed *followed = &self->followed[k];

      if (followed->file == NULL || followed->is_asked)
        continue;
      followed->is_asked = TRUE;
      g_file_query_info_async (followed->file, G_FILE_ATTRIBUTE_ETAG_VALUE, G_FILE_QUERY_INFO_NONE,
                               G_PRIORITY_DEFAULT, self->looking, on_looked, self);
    }
  return G_SOURCE_CONTINUE;
}

static void
unfollow (HobFollowed *followed)
{
  g_clear_object (&followed->file);
  g_clear_pointer (&followed->tag, g_free);
  g_clear_pointer (&followed->told, g_free);
  followed->is_asked = FALSE;
}

static void
follow (HobFollowed *followed, const char *path)
{
  followed->file = g_file_new_for_path (path);
  followed->tag = file_tag (followed->file);
}

void
hob_window_follow_file (HobWindow *self, const char *path, const HobRange *range)
{
  g_autofree char *asked = g_strdup (path); /* it may be the one that is followed now */

  hob_window_unfollow (self);
  follow (&self->followed[HOB_FOLLOWED_ASKED], asked);
  if (range != NULL && !hob_same_file (range->file, asked))
    follow (&self->followed[HOB_FOLLOWED_RANGE], range->file);
  self->looking = g_cancellable_new ();
  self->look_timer = g_timeout_add_seconds (LOOK_S, on_look, self);
}

void
hob_window_unfollow (HobWindow *self)
{
  g_clear_handle_id (&self->look_timer, g_source_remove);
  if (self->looking != NULL)
    g_cancellable_cancel (self->looking);
  g_clear_object (&self->looking);
  for (int k = 0; k < HOB_N_FOLLOWED; k++)
    unfollow (&self->followed[k]);
}

/* ---- Recent files ---- */

static gboolean
is_shipped (const char *file)
{
  g_autofree char *folder = g_path_get_dirname (file),
                  *shipped = hob_data_path (HOB_DATA_RANGES, NULL);

  return g_str_equal (folder, shipped);
}

static void
remember (const HobOpening *opening)
{
  g_autofree char *uri = g_filename_to_uri (opening->file, NULL, NULL);
  g_autofree char *base = g_path_get_basename (opening->file);
  g_autofree char *name = g_strdup_printf ("%s (%s)", hob_range_name (opening->range), base);
  GtkRecentData data = { .display_name = name,
                         .mime_type
                         = (char *) (hob_opening_is_case (opening) ? CASE_TYPE : RANGE_TYPE),
                         .app_name = (char *) RECENT_NAME,
                         .app_exec = (char *) RECENT_COMMAND };

  if (uri != NULL && !is_shipped (opening->file))
    gtk_recent_manager_add_full (gtk_recent_manager_get_default (), uri, &data);
}

static int
latest_first (gconstpointer a, gconstpointer b)
{
  return g_date_time_compare (gtk_recent_info_get_modified ((GtkRecentInfo *) b),
                              gtk_recent_info_get_modified ((GtkRecentInfo *) a));
}

/* The label of a menu takes '_' for a mnemonic. */
static void
add_file (GMenu *menu, const char *name, const char *file)
{
  g_auto (GStrv) pieces = g_strsplit (name, "_", -1);
  g_autofree char *label = g_strjoinv ("__", pieces);
  g_autoptr (GMenuItem) item = g_menu_item_new (label, NULL);

  g_menu_item_set_action_and_target (item, "win.open-file", "s", file);
  g_menu_append_item (menu, item);
}

static GMenu *
recent_menu (void)
{
  GMenu *menu = g_menu_new ();
  GList *items = gtk_recent_manager_get_items (gtk_recent_manager_get_default ());

  items = g_list_sort (items, latest_first);
  for (GList *l = items; l != NULL; l = l->next)
    {
      g_autofree char *file = g_filename_from_uri (gtk_recent_info_get_uri (l->data), NULL, NULL);

      if (file != NULL && gtk_recent_info_has_application (l->data, RECENT_NAME)
          && gtk_recent_info_exists (l->data)
          && g_menu_model_get_n_items (G_MENU_MODEL (menu)) < RECENT_MAX)
        add_file (menu, gtk_recent_info_get_display_name (l->data), file);
    }
  g_list_free_full (items, (GDestroyNotify) gtk_recent_info_unref);
  return menu;
}

static GMenu *
shipped_menu (void)
{
  GMenu *menu = g_menu_new ();
  g_autoptr (GPtrArray) ranges = hob_shipped_ranges ();

  for (guint i = 0; i < ranges->len; i++)
    {
      const HobShipped *shipped = ranges->pdata[i];

      add_file (menu, shipped->name, shipped->file);
    }
  return menu;
}

/* The last of the menu's first section, where there are any.  An open menu stays as it is. */
static void
follow_recent (HobWindow *self)
{
  g_autoptr (GMenu) recent = NULL;
  int n = g_menu_model_get_n_items (G_MENU_MODEL (self->open_section));

  if (gtk_widget_get_visible (GTK_WIDGET (gtk_menu_button_get_popover (self->menu_button))))
    return;
  recent = recent_menu ();
  if (self->lists_recent)
    g_menu_remove (self->open_section, n - 1);
  self->lists_recent = g_menu_model_get_n_items (G_MENU_MODEL (recent)) > 0;
  if (self->lists_recent)
    g_menu_append_submenu (self->open_section, _ ("Recent Files"), G_MENU_MODEL (recent));
}

/* ---- Opening ---- */

/* What the session holds may be more than the file: the command line's options. */
static void
take_opened (HobWindow *self, const HobOpening *opening)
{
  HobCaseFile c = *opening->c;

  c.acts = (HobCase *) hob_run_case (hob_session_bench (self->session)->run);
  hob_window_take_job (self,
                       hob_job_new (&c, hob_opening_is_case (opening) ? opening->file : NULL));
}

/* Of a case that can't be opened again, the range that it had is still followed: the mistake may be
 * there. */
static const HobRange *
range_of (HobWindow *self, const HobOpening *opening)
{
  const HobFollowed *asked = &self->followed[HOB_FOLLOWED_ASKED],
                    *range = &self->followed[HOB_FOLLOWED_RANGE];
  g_autoptr (GFile) file = g_file_new_for_path (opening->file);

  if (opening->range != NULL)
    return opening->range;
  return range->file != NULL && g_file_equal (asked->file, file) ? hob_session_range (self->session)
                                                                 : NULL;
}

void
hob_window_show_opening (HobWindow *self, const HobOpening *opening)
{
  hob_window_say (self, NULL);
  hob_window_follow_file (self, opening->file, range_of (self, opening));
  show_lines (self, opening);
  if (opening->c == NULL)
    return;
  remember (opening);
  take_opened (self, opening);
}

void
hob_window_open_now (HobWindow *self, const char *file)
{
  g_autoptr (HobOpening) opening = hob_opening_new (file);

  if (opening->c != NULL)
    hob_session_open (self->session, opening->range, opening->c->acts);
  hob_window_show_opening (self, opening);
}

void
hob_window_open_file (HobWindow *self, const char *file)
{
  hob_window_leave (self, HOB_THEN_OPEN, file);
}

/* The open range, changed on disk: what was done, seen and read goes along. */
static void
reload_range (HobWindow *self, const HobOpening *opening)
{
  g_autoptr (GPtrArray) left_out = g_ptr_array_new_with_free_func (g_free);
  gboolean saved = hob_window_is_saved (self);

  hob_suspect_column_save (self->suspects, opening->c);
  hob_session_replace (self->session, opening->range, left_out);
  hob_window_show_opening (self, opening);
  if (!saved)
    hob_window_take_job (self, hob_job_new_unsaved (opening->c, NULL));
  if (left_out->len > 0)
    show_left_out (self, left_out);
}

/* Whether only the range is another than before: it, or the range of a case that is as it was. */
static gboolean
is_of_open_range (HobWindow *self, const HobOpening *opening)
{
  return hob_same_file (opening->range->file, hob_session_range (self->session)->file)
         && (!hob_opening_is_case (opening)
             || is_as_read (&self->followed[HOB_FOLLOWED_ASKED]));
}

/* The file that was asked for last: the open one, or one that is broken. */
static void
reload (HobWindow *self)
{
  g_autofree char *file = g_file_get_path (self->followed[HOB_FOLLOWED_ASKED].file);
  g_autoptr (HobOpening) opening = hob_opening_new (file);

  if (opening->c == NULL)
    hob_window_show_opening (self, opening);
  else if (is_of_open_range (self, opening))
    reload_range (self, opening);
  else
    hob_window_open_file (self, file);
}

static void
open_gfile (HobWindow *self, GFile *file)
{
  g_autofree char *path = file != NULL ? g_file_get_path (file) : NULL;

  if (path != NULL)
    hob_window_open_file (self, path);
  else
    hob_window_say (self,
                    _ ("This file is not on this computer. Copy it here, then open the copy."));
}

static void
on_chosen_file (GtkNativeDialog *dialog, int response, HobWindow *self)
{
  g_autoptr (GFile) file = response == GTK_RESPONSE_ACCEPT
                               ? gtk_file_chooser_get_file (GTK_FILE_CHOOSER (dialog))
                               : NULL;

  gtk_native_dialog_destroy (dialog);
  g_clear_object (&self->chooser);
  if (response == GTK_RESPONSE_ACCEPT)
    open_gfile (self, file);
}

static void
on_open (GSimpleAction *action, GVariant *parameter, gpointer user)
{
  HobWindow *self = user;
  g_autoptr (GtkFileFilter) filter = gtk_file_filter_new ();

  if (self->chooser != NULL)
    return;
  gtk_file_filter_set_name (filter, _ ("Ranges and cases"));
  gtk_file_filter_add_pattern (filter, "*.xml");
  self->chooser
      = gtk_file_chooser_native_new (_ ("Open a Range or a Case"), GTK_WINDOW (self),
                                     GTK_FILE_CHOOSER_ACTION_OPEN, _ ("_Open"), _ ("_Cancel"));
  gtk_file_chooser_add_filter (GTK_FILE_CHOOSER (self->chooser), filter);
  g_signal_connect (self->chooser, "response", G_CALLBACK (on_chosen_file), self);
  gtk_native_dialog_show (GTK_NATIVE_DIALOG (self->chooser));
}

static void
on_open_file (GSimpleAction *action, GVariant *parameter, gpointer user)
{
  hob_window_open_file (user, g_variant_get_string (parameter, NULL));
}

static void
on_reload (GSimpleAction *action, GVariant *parameter, gpointer user)
{
  reload (user);
}

static gboolean
on_drop (GtkDropTarget *target, const GValue *value, double x, double y, HobWindow *self)
{
  GSList *files;

  if (G_VALUE_HOLDS (value, G_TYPE_FILE))
    {
      open_gfile (self, g_value_get_object (value));
      return TRUE;
    }
  files = g_value_get_boxed (value); /* GdkFileList */
  if (files == NULL)
    return FALSE;
  open_gfile (self, files->data);
  if (files->next != NULL)
    hob_window_say (self, _ ("Only the first of these files was opened."));
  return TRUE;
}

static const GActionEntry entries[] = {
  { "open", on_open },
  { "open-file", on_open_file, "s" },
  { "reload", on_reload },
};

/* The names of the ranges are in their files: reading them, and building the menu, can wait until
 * the window is seen. */
void
hob_window_add_menu (HobWindow *self)
{
  g_autoptr (GMenu) shipped = NULL;

  if (gtk_menu_button_get_menu_model (self->menu_button) != NULL)
    return;
  shipped = shipped_menu ();
  g_menu_append_submenu (self->open_section, _ ("Included Ranges"), G_MENU_MODEL (shipped));
  gtk_menu_button_set_menu_model (self->menu_button, G_MENU_MODEL (self->menu));
  g_signal_connect_object (gtk_recent_manager_get_default (), "changed",
                           G_CALLBACK (follow_recent), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (gtk_menu_button_get_popover (self->menu_button), "closed",
                           G_CALLBACK (follow_recent), self, G_CONNECT_SWAPPED);
  follow_recent (self);
}

static void
on_menu_asked (GtkMenuButton *button, gpointer user)
{
  hob_window_add_menu (user);
}

void
hob_window_add_opening (HobWindow *self)
{
  GType types[] = { GDK_TYPE_FILE_LIST, G_TYPE_FILE };
  GtkDropTarget *target = gtk_drop_target_new (G_TYPE_INVALID, GDK_ACTION_COPY);

  gtk_drop_target_set_gtypes (target, types, G_N_ELEMENTS (types));
  g_signal_connect (target, "drop", G_CALLBACK (on_drop), self);
  gtk_widget_add_controller (GTK_WIDGET (self), GTK_EVENT_CONTROLLER (target));
  g_action_map_add_action_entries (G_ACTION_MAP (self), entries, G_N_ELEMENTS (entries), self);
  gtk_menu_button_set_create_popup_func (self->menu_button, on_menu_asked, self, NULL);
}
