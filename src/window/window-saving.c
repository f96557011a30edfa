/* SPDX-License-Identifier: GPL-3.0-or-later */

/* What was done is not lost: Save As…, the question before anything takes its place, the copy that
 * is kept while it is saved nowhere, and the offer of one that a killed program left. */

#include "window/window-private.h"

#include "base/i18n.h"

#define KEEP_MS 300 /* after an act; of a killed program no more than a second may be lost */

static const HobCase *
acts_of (HobWindow *self)
{
  return hob_run_case (hob_session_bench (self->session)->run);
}

/* ---- The copy ---- */

static gboolean
on_keep (gpointer user)
{
  HobWindow *self = user;
  g_autoptr (GError) error = NULL;

  self->keep_timer = 0;
  self->kept_at = g_get_monotonic_time ();
  if (self->job != NULL && !hob_job_keep (self->job, acts_of (self), &error) && !self->keep_failed)
    {
      self->keep_failed = TRUE;
      hob_window_say (self, error->message);
    }
  return G_SOURCE_REMOVE;
}

/* The first act after a pause at once; while acts go on, every so often. */
static void
keep_soon (HobWindow *self)
{
  gint64 waited = (g_get_monotonic_time () - self->kept_at) / 1000;

  if (self->keep_timer == 0)
    self->keep_timer
        = g_timeout_add (waited < KEEP_MS ? (guint) (KEEP_MS - waited) : 0, on_keep, self);
}

/* ---- The job ---- */

void
hob_window_take_job (HobWindow *self, HobJob *job)
{
  g_clear_pointer (&self->job, hob_job_free);
  self->job = job;
  hob_suspect_column_take (self->suspects, job->saved);
  keep_soon (self);
}

static void
on_evidence (HobWindow *self)
{
  g_autoptr (HobCaseFile) now = NULL;

  if (self->job == NULL)
    return;
  now = hob_case_file_new (hob_session_range (self->session), acts_of (self));
  hob_suspect_column_save (self->suspects, now);
  hob_job_set_evidence (self->job, now);
  keep_soon (self);
}

void
hob_window_watch_acts (HobWindow *self)
{
  g_signal_connect_object (self->suspects, "edited", G_CALLBACK (on_evidence), self,
                           G_CONNECT_SWAPPED);
  g_signal_connect_object (self->session, "cut", G_CALLBACK (keep_soon), self, G_CONNECT_SWAPPED);
}

void
hob_window_drop_job (HobWindow *self)
{
  g_clear_handle_id (&self->keep_timer, g_source_remove);
  g_clear_pointer (&self->then_file, g_free);
  g_clear_pointer (&self->left, g_free);
  g_clear_pointer (&self->job, hob_job_free);
}

/* ---- Leaving it ---- */

static void
go_on (HobWindow *self)
{
  HobThen then = self->then;
  g_autofree char *file = g_steal_pointer (&self->then_file);

  self->then = HOB_THEN_STAY;
  switch (then)
    {
    case HOB_THEN_CLOSE:
      gtk_window_destroy (GTK_WINDOW (self));
      break;
    case HOB_THEN_OPEN:
      hob_window_open_now (self, file);
      break;
    case HOB_THEN_RESTORE:
      hob_window_restore_now (self, file);
      break;
    case HOB_THEN_STAY:
    default:
      break;
    }
}

static void
stay (HobWindow *self)
{
  self->then = HOB_THEN_STAY;
  g_clear_pointer (&self->then_file, g_free);
}

static void
on_answer (GtkDialog *dialog, int response, HobWindow *self)
{
  gtk_window_set_transient_for (GTK_WINDOW (dialog), NULL); /* it may outlive this window */
  gtk_window_destroy (GTK_WINDOW (dialog));
  self->question = NULL;
  if (response == GTK_RESPONSE_ACCEPT)
    gtk_widget_activate_action (GTK_WIDGET (self), "win.save-as", NULL);
  else if (response == GTK_RESPONSE_REJECT)
    go_on (self);
  else
    stay (self);
}

static void
ask (HobWindow *self)
{
  GtkWidget *dialog = gtk_message_dialog_new (
      GTK_WINDOW (self), GTK_DIALOG_MODAL | GTK_DIALOG_DESTROY_WITH_PARENT, GTK_MESSAGE_QUESTION,
      GTK_BUTTONS_NONE, _ ("Save your work?"));

  gtk_message_dialog_format_secondary_text (
      GTK_MESSAGE_DIALOG (dialog),
      _ ("All your work on %s will be lost if you don't save it."),
      hob_range_name (hob_session_range (self->session)));
  gtk_dialog_add_buttons (GTK_DIALOG (dialog), _ ("_Discard"), GTK_RESPONSE_REJECT, _ ("_Cancel"),
                          GTK_RESPONSE_CANCEL, _ ("_Save As…"), GTK_RESPONSE_ACCEPT, NULL);
  gtk_dialog_set_default_response (GTK_DIALOG (dialog), GTK_RESPONSE_ACCEPT);
  g_signal_connect (dialog, "response", G_CALLBACK (on_answer), self);
  self->question = GTK_WINDOW (dialog);
  gtk_window_present (self->question);
}

gboolean
hob_window_is_saved (HobWindow *self)
{
  return self->job == NULL || hob_job_is_saved (self->job, acts_of (self));
}

void
hob_window_leave (HobWindow *self, HobThen then, const char *file)
{
  if (self->question != NULL || self->chooser != NULL)
    return;
  self->then = then;
  g_free (self->then_file);
  self->then_file = g_strdup (file);
  if (hob_window_is_saved (self))
    go_on (self);
  else
    ask (self);
}

/* ---- Saving ---- */

/* A name that says no ending gets the one that the dialog for opening looks for. */
static char *
path_of (GtkFileChooser *chooser)
{
  g_autoptr (GFile) file = gtk_file_chooser_get_file (chooser);
  g_autofree char *path = file != NULL ? g_file_get_path (file) : NULL;
  g_autofree char *longer = path != NULL ? g_strconcat (path, ".xml", NULL) : NULL;

  if (path != NULL && !g_str_has_suffix (path, ".xml") && !g_file_test (longer, G_FILE_TEST_EXISTS))
    return g_steal_pointer (&longer);
  return g_steal_pointer (&path);
}

static void
say_saved (HobWindow *self, const char *path)
{
  g_autofree char *name = g_path_get_basename (path);
  g_autofree char *line = g_strdup_printf (_ ("Saved as %s."), name);

  hob_window_say (self, line);
}

static void
save_case (HobWindow *self, const char *path, GError **error)
{
  if (!hob_job_save (self->job, acts_of (self), path, error))
    return;
  hob_window_follow_file (self, path, hob_session_range (self->session));
  say_saved (self, path);
  go_on (self);
}

static void
save_range (HobWindow *self, const char *path, GError **error)
{
  gint64 now = hob_session_ms (self->session);

  if (hob_job_save_range (self->job, acts_of (self), now, path, error))
    say_saved (self, path);
}

static void
on_save_answer (GtkNativeDialog *dialog, int response, HobWindow *self)
{
  G_GNUC_UNUSED g_autoptr (HobWindow) alive = g_object_ref (self); /* it may be closed now */
  gboolean of_range = g_object_get_data (G_OBJECT (dialog), "of-range") != NULL;
  g_autofree char *path
      = response == GTK_RESPONSE_ACCEPT ? path_of (GTK_FILE_CHOOSER (dialog)) : NULL;
  g_autoptr (GError) error = NULL;

  gtk_native_dialog_destroy (dialog);
  g_clear_object (&self->chooser);
  if (path != NULL)
    (of_range ? save_range : save_case) (self, path, &error);
  else if (response == GTK_RESPONSE_ACCEPT)
    hob_window_say (self, _ ("This folder is not on this computer. Choose another folder."));
  if (error != NULL)
    hob_window_say (self, error->message);
  stay (self);
}

/* As it is called now; else as the range and what is saved of it. */
static void
suggest (HobWindow *self, gboolean of_range)
{
  GtkFileChooser *chooser = GTK_FILE_CHOOSER (self->chooser);
  const char *id = hob_session_range (self->session)->id;
  g_autofree char *name
      /* Translators: name of a file; the range. */
      = g_strdup_printf (of_range ? _ ("my-%s.xml") : _ ("%s-case.xml"), id);

  if (!of_range && self->job->file != NULL)
    {
      g_autoptr (GFile) file = g_file_new_for_path (self->job->file);

      gtk_file_chooser_set_file (chooser, file, NULL);
    }
  else
    gtk_file_chooser_set_current_name (chooser, name);
}

static void
save_as (HobWindow *self, gboolean of_range)
{
  if (self->chooser != NULL || self->job == NULL)
    return;
  self->chooser = gtk_file_chooser_native_new (
      of_range ? _ ("Save Range As") : _ ("Save Case As"), GTK_WINDOW (self),
      GTK_FILE_CHOOSER_ACTION_SAVE, _ ("_Save"), _ ("_Cancel"));
  gtk_native_dialog_set_modal (GTK_NATIVE_DIALOG (self->chooser), TRUE);
  g_object_set_data (G_OBJECT (self->chooser), "of-range", GINT_TO_POINTER (of_range));
  suggest (self, of_range);
  g_signal_connect (self->chooser, "response", G_CALLBACK (on_save_answer), self);
  gtk_native_dialog_show (GTK_NATIVE_DIALOG (self->chooser));
}

static void
on_save_as (GSimpleAction *action, GVariant *parameter, gpointer user)
{
  save_as (user, FALSE);
}

static void
on_save_range_as (GSimpleAction *action, GVariant *parameter, gpointer user)
{
  save_as (user, TRUE);
}

/* ---- What a killed program left ---- */

static void
hide_offer (HobWindow *self)
{
  hob_window_reveal (self->offer_bar, FALSE);
  g_clear_pointer (&self->left, g_free);
}

static char *
offer_text (const char *left)
{
  g_autoptr (HobCaseFile) c = hob_case_load (left, NULL, NULL);
  g_autoptr (GFile) file = g_file_new_for_path (left);
  g_autoptr (GFileInfo) info = g_file_query_info (file, G_FILE_ATTRIBUTE_TIME_MODIFIED,
                                                  G_FILE_QUERY_INFO_NONE, NULL, NULL);
  g_autoptr (GDateTime) written
      = info != NULL ? g_file_info_get_modification_date_time (info) : NULL;
  g_autoptr (GDateTime) here = written != NULL ? g_date_time_to_local (written) : NULL;
  g_autofree char *when = here != NULL ? g_date_time_format (here, "%x %X") : g_strdup ("");

  return g_strdup_printf (_ ("Hobwright stopped before your work on %s was saved. The last copy is "
                             "from %s."),
                          /* Translators: in place of a range's name: "your work on a range". */
                          c != NULL ? hob_range_name (c->range) : _ ("a range"), when);
}

void
hob_window_offer_left (HobWindow *self)
{
  g_autoptr (GPtrArray) left = hob_kept_left ();
  g_autofree char *text = NULL;

  if (left->len == 0)
    return;
  self->left = g_strdup (left->pdata[0]);
  text = offer_text (self->left);
  gtk_label_set_text (self->offered, text);
  hob_window_reveal (self->offer_bar, TRUE);
}

/* The copy goes on to be the copy: nothing is lost if this program is killed, too. */
void
hob_window_restore_now (HobWindow *self, const char *left)
{
  g_autoptr (HobKept) kept = hob_kept_take (left);
  g_autoptr (HobOpening) opening = NULL;
  const GArray *acts;

  if (kept == NULL)
    {
      hob_window_say (self, _ ("This case is already open in another Hobwright window."));
      return;
    }
  opening = hob_opening_new (left);
  if (opening->c == NULL)
    {
      hob_kept_release (g_steal_pointer (&kept));
      hob_window_show_opening (self, opening);
      return;
    }
  hob_session_open (self->session, opening->range, opening->c->acts);
  hob_window_show_opening (self, opening);
  hob_window_take_job (self, hob_job_new_unsaved (opening->c, g_steal_pointer (&kept)));
  hob_window_follow_file (self, opening->range->file, NULL);
  acts = opening->c->acts->acts;
  if (acts->len > 0)
    hob_session_go (self->session, g_array_index (acts, HobAct, acts->len - 1).ms);
}

static void
on_restore (GSimpleAction *action, GVariant *parameter, gpointer user)
{
  HobWindow *self = user;
  g_autofree char *left = g_strdup (self->left);

  hide_offer (self);
  if (left != NULL)
    hob_window_leave (self, HOB_THEN_RESTORE, left);
}

static void
on_discard_left (GSimpleAction *action, GVariant *parameter, gpointer user)
{
  HobWindow *self = user;

  if (self->left != NULL)
    hob_kept_free (hob_kept_take (self->left));
  hide_offer (self);
  hob_window_offer_left (self);
}

static const GActionEntry entries[] = {
  { "save-as", on_save_as },
  { "save-range-as", on_save_range_as },
  { "restore", on_restore },
  { "discard-left", on_discard_left },
};

void
hob_window_add_saving (HobWindow *self)
{
  g_action_map_add_action_entries (G_ACTION_MAP (self), entries, G_N_ELEMENTS (entries), self);
}
