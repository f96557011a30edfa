/* SPDX-License-Identifier: GPL-3.0-or-later */

/* Why a symptom was noticed: the line over the sheet, and the way back. */

#include "window/window-private.h"

#include "base/i18n.h"
#include "sheet/sequence-line.h"
#include "window/words.h"

/* ---- Room ---- */

#define LARGEST 0.5   /* of what the sheet has to give */
#define AROUND 48.0   /* px above and below an entry's first line that are shown with it */

/* It takes the place of the sequence of operation. */
static void
show_panel (HobWindow *self, gboolean show)
{
  gtk_widget_set_visible (self->why_panel, show);
  gtk_widget_set_visible (GTK_WIDGET (self->sequence), !show);
  gtk_widget_set_visible (GTK_WIDGET (self->chart), TRUE);
}

static int
least_height (GtkWidget *widget, int w)
{
  int h;

  gtk_widget_measure (widget, GTK_ORIENTATION_VERTICAL, w, &h, NULL, NULL, NULL);
  return h;
}

/* As tall as it needs, but the window doesn't grow and the sheet stays in view: it has the room of
 * the sequence of operation, but for its own title, and a part of the sheet's.  Where that is not
 * enough, the chart gives way. */
static void
give_room (HobWindow *self)
{
  GtkWidget *sheet = GTK_WIDGET (self->sheet), *chart = GTK_WIDGET (self->chart),
            *head = gtk_widget_get_first_child (self->why_panel);
  HobLook look = hob_style_look (self->style);
  int w = gtk_widget_get_width (sheet), needs = least_height (GTK_WIDGET (self->why), w);
  int spare = gtk_widget_get_height (sheet) - least_height (sheet, w);
  int most = (int) hob_sequence_strip_height (&look) - least_height (head, w)
             + (int) (LARGEST * spare);
  int all = gtk_widget_get_height (gtk_widget_get_parent (chart)) - least_height (head, w)
            - least_height (sheet, w) - least_height (gtk_widget_get_prev_sibling (chart), w) - 1;

  if (needs > most)
    {
      most += gtk_widget_get_height (chart);
      gtk_widget_set_visible (chart, FALSE);
    }
  most = MIN (most, all);
  gtk_scrolled_window_set_min_content_height (self->why_scroller, MIN (needs, most));
}

static void
scroll_to (HobWindow *self, int entry)
{
  double x, y;

  hob_why_bar_find (self->why, entry, &x, &y);
  gtk_adjustment_clamp_page (gtk_scrolled_window_get_vadjustment (self->why_scroller), y - AROUND,
                             y + AROUND);
}

/* ---- The way back ---- */

void
hob_window_drop_why (HobWindow *self)
{
  g_cancellable_cancel (self->why_search);
  g_clear_object (&self->why_search);
  g_clear_pointer (&self->why_place, hob_window_place_free);
  if (self->why == NULL)
    return;
  hob_why_bar_show (self->why, NULL, NULL, NULL);
  gtk_scrolled_window_set_min_content_height (self->why_scroller, -1);
  show_panel (self, FALSE);
}

gboolean
hob_window_return_from_why (HobWindow *self)
{
  HobWindowPlace *place = g_steal_pointer (&self->why_place);

  if (place == NULL)
    return FALSE;
  hob_window_drop_why (self);
  hob_window_return (self, place);
  hob_window_place_free (place);
  return TRUE;
}

/* ---- The search ---- */

typedef struct
{
  HobBench *bench; /* owned: the same acts, for a thread */
  HobRange *range; /* a reference */
  int symptom, part;
  double until;    /* s: it has been noticed by then */
  gint cancel;     /* atomic */
} Question;

static void
question_free (gpointer data)
{
  Question *q = data;

  hob_bench_free (q->bench);
  hob_range_unref (q->range);
  g_free (q);
}

static void
on_cancelled (GCancellable *cancellable, Question *q)
{
  g_atomic_int_set (&q->cancel, 1);
}

static void
search (GTask *task, gpointer source, gpointer data, GCancellable *cancellable)
{
  Question *q = data;
  GPtrArray *chains = NULL;

  gulong watch = g_cancellable_connect (cancellable, G_CALLBACK (on_cancelled), q, NULL);

  if (hob_why_advance (q->bench, q->until, &q->cancel))
    chains = hob_why (q->bench, q->symptom, q->part, &q->cancel);
  g_cancellable_disconnect (cancellable, watch);
  g_task_return_pointer (task, chains, (GDestroyNotify) g_ptr_array_unref);
}

/* What was noticed, and what it took. (transfer full) */
static char *
noticed_words (HobWindow *self, int symptom, int part)
{
  const HobRange *range = hob_session_range (self->session);

  return hob_symptom_words (hob_symptom_book_get (hob_session_book (self->session), symptom),
                            part >= 0 ? &range->parts[part] : NULL);
}

static void
on_found (GObject *source, GAsyncResult *result, gpointer user)
{
  g_autoptr (GPtrArray) chains = g_task_propagate_pointer (G_TASK (result), NULL);
  const Question *q = g_task_get_task_data (G_TASK (result));
  HobWindow *self;
  g_autofree char *words = NULL, *title = NULL;

  if (g_cancellable_is_cancelled (g_task_get_cancellable (G_TASK (result))))
    return;
  self = user;
  g_clear_object (&self->why_search);
  words = noticed_words (self, q->symptom, q->part);
  if (chains != NULL)
    hob_why_bar_show (self->why, chains, q->range,
                      hob_symptom_book_get (hob_session_book (self->session), q->symptom));
  give_room (self);
  title = hob_why_bar_size (self->why) > 0
              ? g_strdup_printf (_ ("Why: %s"), words)
              : g_strdup_printf (_ ("No part explains this: %s"), words);
  hob_label_show (self->why_title, title);
  if (hob_why_bar_size (self->why) > 0)
    gtk_widget_grab_focus (GTK_WIDGET (self->why));
}

void
hob_window_ask_why (HobWindow *self, int symptom, int part)
{
  HobBench *bench = hob_session_bench (self->session);
  Question *q = g_new0 (Question, 1);
  g_autoptr (GTask) task = NULL;
  g_autofree char *words = noticed_words (self, symptom, part);
  g_autofree char *title = g_strdup_printf (_ ("Looking for the cause: %s"), words);

  hob_window_return_from_why (self);
  hob_window_drop_beside (self);
  self->why_place = hob_window_place_new (self);
  self->why_search = g_cancellable_new ();
  hob_session_set_running (self->session, FALSE);
  *q = (Question){ hob_bench_again (bench, hob_run_case (bench->run)),
                   hob_range_ref (hob_session_range (self->session)), symptom, part,
                   (double) hob_session_ms (self->session) / 1000.0, 0 };
  /* The window outlives the search only as long as nobody cancels it. */
  task = g_task_new (NULL, self->why_search, on_found, self);
  g_task_set_task_data (task, q, question_free);
  g_task_set_return_on_cancel (task, FALSE);
  hob_label_show (self->why_title, title);
  show_panel (self, TRUE);
  g_task_run_in_thread (task, search);
}

/* ---- Along the line ---- */

static void
on_went (HobWhyBar *bar, int entry, HobWindow *self)
{
  int part;
  gint64 ms;

  hob_why_bar_get (bar, entry, &part, &ms);
  scroll_to (self, entry);
  hob_session_go (self->session, ms);
  hob_session_choose (self->session, part, -1);
  if (part >= 0)
    hob_window_show_part (self, part);
}

/* What was explained is no longer what is there. */
static void
on_cut (HobWindow *self)
{
  hob_window_drop_why (self);
}

void
hob_window_add_why (HobWindow *self)
{
  g_signal_connect (self->why, "went", G_CALLBACK (on_went), self);
  g_signal_connect_object (self->session, "cut", G_CALLBACK (on_cut), self, G_CONNECT_SWAPPED);
}
