/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "window/suspect-steps.h"

#include "base/figure.h"
#include "base/i18n.h"
#include "run/sequence.h"
#include "run/two-figures.h"
#include "window/words.h"

#include <math.h>

#define REFRESH_US 200000 /* it is read anew five times a second at most */
#define SAME_MS 2000 /* symptoms that come as close as this come at the same time */
#define LINE_CHARS 32

struct _HobSuspectSteps
{
  GtkWidget parent_instance;

  GtkWidget *scroller; /* a child */
  GtkListBox *symptoms, *steps; /* borrowed */

  /*< owned >*/
  HobSession *first, *with; /* NULL: nothing is compared */
  GArray *list;             /* HobSuspectStep */
  guint n_symptoms;         /* of them */

  gint64 read_at; /* µs */
  guint refresh;  /* timeout that reads what came too soon after the last time */
};

G_DEFINE_FINAL_TYPE (HobSuspectSteps, hob_suspect_steps, GTK_TYPE_WIDGET)

enum
{
  WENT,
  N_SIGNALS
};
static guint signals[N_SIGNALS];

static void
clear_step (gpointer item)
{
  HobSuspectStep *step = item;

  g_free (step->words);
  g_free (step->figures);
}

static GArray *
list_new (void)
{
  GArray *list = g_array_new (FALSE, FALSE, sizeof (HobSuspectStep));

  g_array_set_clear_func (list, clear_step);
  return list;
}

/* ---- Reading ---- */

/* s; NaN: not so far. */
static char *
both_times (double first, double with, gboolean differs)
{
  /* Translators: a step that hasn't happened, in place of its time. */
  g_autofree char *a = isnan (first) ? g_strdup (_ ("not yet")) : hob_time_text (first);
  g_autofree char *b = isnan (with) ? g_strdup (_ ("not yet")) : hob_time_text (with);

  if (!differs && !isnan (first) && !isnan (with))
    /* Translators: a time. */
    return g_strdup_printf (_ ("At %s on both ranges."), a);
  /* Translators: when a step happened in each of two ranges. */
  return g_strdup_printf (_ ("This range: %s. With the fault: %s."), a, b);
}

static gint64
first_ms (double a, double b)
{
  HobEvent event = { .t = fmin (a, b) }; /* of NaN and a number the number */

  return hob_event_ms (&event);
}

/* What drives the step, in both at once; NULL: nothing to say. */
static char *
amounts (HobSession *session, const HobSequenceEntry *e)
{
  const HobKind *kind = hob_session_range (session)->parts[e->part].kind;
  const HobQuantityDef *quantity = &kind->quantities[MAX (e->quantity, 0)];
  g_autofree char *what = NULL, *at = NULL, *first = NULL, *with = NULL;

  if (e->quantity < 0 || !e->differs)
    return NULL;
  what = hob_heading_text (_ (quantity->words));
  at = hob_time_text (e->read_at);
  hob_two_figures (quantity, e->figure, e->should_be, &first, &with);
  /* Translators: a quantity, a time, and what it is then in this range and in the other. */
  return g_strdup_printf (_ ("%s at %s: %s; with the fault, %s."), what, at, first, with);
}

static void
add_step (GArray *list, HobSession *first, HobSession *with, const HobSequenceEntry *e)
{
  double now = (double) hob_session_ms (with) / 1000;
  double due = e->due <= now ? e->due : NAN;
  gboolean differs = hob_sequence_is_ringed (e) || e->state == HOB_SEQUENCE_WAITING;
  HobSuspectStep step = { .differs = differs, .part = e->part };
  g_autofree char *times = NULL, *more = NULL;

  if (isnan (e->done) && isnan (due)) /* due later */
    return;
  step.ms = first_ms (e->done, due);
  times = both_times (e->done, due, differs && e->state != HOB_SEQUENCE_POOR);
  more = differs ? amounts (first, e) : NULL;
  step.words = hob_sequence_words (hob_session_bench (first)->run, e);
  step.figures = more != NULL ? g_strdup_printf ("%s\n%s", times, more) : g_steal_pointer (&times);
  g_array_append_val (list, step);
}

/* When it was first noticed in the other range; NaN: not so far. */
static double
noticed_at (const GArray *noticed, const HobNoticed *one)
{
  for (guint k = 0; k < noticed->len; k++)
    {
      const HobNoticed *other = &g_array_index (noticed, HobNoticed, k);

      if (other->symptom == one->symptom && other->part == one->part)
        return (double) other->from_ms / 1000;
    }
  return NAN;
}

static void
add_symptom (GArray *list, HobSession *session, const HobNoticed *one, double first, double with)
{
  const HobSymptom *symptom = hob_symptom_book_get (hob_session_book (session), one->symptom);
  const HobRange *range = hob_session_range (session);
  gboolean differs = !(fabs (first - with) * 1000 <= SAME_MS);
  HobSuspectStep step = { .words = hob_symptom_words (symptom, one->part >= 0
                                                                   ? &range->parts[one->part]
                                                                   : NULL),
                          .figures = both_times (first, with, differs), .differs = differs,
                          .part = one->part, .ms = first_ms (first, with) };

  g_array_append_val (list, step);
}

/* Each once: those of the range with the fault, then those that only the first has. */
static void
add_symptoms (GArray *list, HobSession *first, HobSession *with)
{
  g_autoptr (GArray) a = hob_session_noticed (first), b = hob_session_noticed (with);

  for (guint k = 0; k < b->len; k++)
    {
      const HobNoticed *one = &g_array_index (b, HobNoticed, k);
      double from = (double) one->from_ms / 1000;

      if (noticed_at (b, one) == from)
        add_symptom (list, first, one, noticed_at (a, one), from);
    }
  for (guint k = 0; k < a->len; k++)
    {
      const HobNoticed *one = &g_array_index (a, HobNoticed, k);
      double from = (double) one->from_ms / 1000;

      if (noticed_at (a, one) == from && isnan (noticed_at (b, one)))
        add_symptom (list, first, one, from, NAN);
    }
}

static GArray *
read_steps (HobSuspectSteps *self, guint *n_symptoms)
{
  g_autoptr (GArray) entries = hob_session_steps_beside (self->with, self->first);
  GArray *list = list_new ();

  add_symptoms (list, self->first, self->with);
  *n_symptoms = list->len;
  for (guint k = 0; k < entries->len; k++)
    add_step (list, self->first, self->with, &g_array_index (entries, HobSequenceEntry, k));
  return list;
}

/* ---- Showing ---- */

static GtkWidget *
row_new (const HobSuspectStep *step)
{
  GtkWidget *row = gtk_list_box_row_new (), *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 2),
            *words = hob_text_new (step->words, step->differs ? "symptom" : "symptom-past"),
            *figures = hob_text_new (step->figures, "dim");
  g_autofree char *name = g_strdup_printf ("%s. %s", step->words, step->figures);

  gtk_label_set_max_width_chars (GTK_LABEL (words), LINE_CHARS);
  gtk_label_set_max_width_chars (GTK_LABEL (figures), LINE_CHARS);
  gtk_box_append (GTK_BOX (box), words);
  gtk_box_append (GTK_BOX (box), figures);
  gtk_list_box_row_set_child (GTK_LIST_BOX_ROW (row), box);
  gtk_accessible_update_property (GTK_ACCESSIBLE (row), GTK_ACCESSIBLE_PROPERTY_LABEL, name, -1);
  return row;
}

static void
clear_list (GtkListBox *box)
{
  GtkListBoxRow *row;

  while ((row = gtk_list_box_get_row_at_index (box, 0)) != NULL)
    gtk_list_box_remove (box, GTK_WIDGET (row));
}

static void
fill (HobSuspectSteps *self)
{
  clear_list (self->symptoms);
  clear_list (self->steps);
  for (guint k = 0; k < self->list->len; k++)
    gtk_list_box_append (k < self->n_symptoms ? self->symptoms : self->steps,
                         row_new (&g_array_index (self->list, HobSuspectStep, k)));
}

static gboolean
same_steps (const GArray *a, const GArray *b)
{
  gboolean same = a->len == b->len;

  for (guint k = 0; k < a->len && same; k++)
    {
      const HobSuspectStep *x = &g_array_index (a, HobSuspectStep, k),
                           *y = &g_array_index (b, HobSuspectStep, k);

      same = x->differs == y->differs && g_str_equal (x->words, y->words)
             && g_str_equal (x->figures, y->figures);
    }
  return same;
}

static void
take (HobSuspectSteps *self, GArray *list, guint n_symptoms)
{
  gboolean same = n_symptoms == self->n_symptoms && same_steps (list, self->list);

  g_array_unref (self->list);
  self->list = list;
  self->n_symptoms = n_symptoms;
  if (!same)
    fill (self);
}

static gboolean
on_refresh (gpointer user)
{
  HobSuspectSteps *self = user;
  guint n_symptoms;
  GArray *list = read_steps (self, &n_symptoms);

  self->refresh = 0;
  self->read_at = g_get_monotonic_time ();
  take (self, list, n_symptoms);
  return G_SOURCE_REMOVE;
}

/* On hold, what is shown is what is: at once. */
static void
on_moved (HobSuspectSteps *self)
{
  gboolean soon = hob_session_running (self->with)
                  && g_get_monotonic_time () - self->read_at < REFRESH_US;

  if (soon && self->refresh == 0)
    self->refresh = g_timeout_add (REFRESH_US / 1000, on_refresh, self);
  if (soon)
    return;
  g_clear_handle_id (&self->refresh, g_source_remove);
  on_refresh (self);
}

static void
forget (HobSuspectSteps *self)
{
  g_clear_handle_id (&self->refresh, g_source_remove);
  if (self->with != NULL)
    g_signal_handlers_disconnect_by_data (self->with, self);
  g_clear_object (&self->first);
  g_clear_object (&self->with);
}

void
hob_suspect_steps_show (HobSuspectSteps *self, HobSession *first, HobSession *with)
{
  forget (self);
  take (self, list_new (), 0);
  gtk_adjustment_set_value (
      gtk_scrolled_window_get_vadjustment (GTK_SCROLLED_WINDOW (self->scroller)), 0);
  if (first == NULL || with == NULL)
    return;
  self->first = g_object_ref (first);
  self->with = g_object_ref (with);
  g_signal_connect_swapped (with, "moved", G_CALLBACK (on_moved), self);
  g_signal_connect_swapped (with, "pace", G_CALLBACK (on_moved), self);
}

const GArray *
hob_suspect_steps_list (HobSuspectSteps *self)
{
  return self->list;
}

/* ---- Going there ---- */

static void
on_row_activated (HobSuspectSteps *self, GtkListBoxRow *row, GtkListBox *box)
{
  guint k = (guint) gtk_list_box_row_get_index (row);
  HobSuspectStep *step
      = &g_array_index (self->list, HobSuspectStep, box == self->steps ? k + self->n_symptoms : k);
  int part = step->part;

  hob_session_go (self->first, step->ms); /* the list may be another one from here on */
  hob_session_choose (self->first, part, -1);
  if (part >= 0)
    g_signal_emit (self, signals[WENT], 0, part);
}

/* ---- GObject ---- */

static void
hob_suspect_steps_dispose (GObject *object)
{
  HobSuspectSteps *self = HOB_SUSPECT_STEPS (object);

  forget (self);
  g_clear_pointer (&self->scroller, gtk_widget_unparent);
  g_clear_pointer (&self->list, g_array_unref);
  G_OBJECT_CLASS (hob_suspect_steps_parent_class)->dispose (object);
}

static void
hob_suspect_steps_class_init (HobSuspectStepsClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = hob_suspect_steps_dispose;
  gtk_widget_class_set_layout_manager_type (GTK_WIDGET_CLASS (klass), GTK_TYPE_BIN_LAYOUT);
  signals[WENT] = g_signal_new ("went", HOB_TYPE_SUSPECT_STEPS, G_SIGNAL_RUN_LAST, 0, NULL, NULL,
                                NULL, G_TYPE_NONE, 1, G_TYPE_INT);
}

static GtkListBox *
add_section (HobSuspectSteps *self, GtkWidget *box, const char *heading, const char *none)
{
  GtkWidget *list = gtk_list_box_new (), *placeholder = hob_text_new (none, "dim"),
            *head = hob_text_new (heading, "section");

  gtk_widget_add_css_class (placeholder, "placeholder");
  gtk_widget_set_margin_start (head, 12);
  gtk_widget_set_margin_end (head, 12);
  gtk_list_box_set_selection_mode (GTK_LIST_BOX (list), GTK_SELECTION_NONE);
  gtk_list_box_set_placeholder (GTK_LIST_BOX (list), placeholder);
  gtk_accessible_update_property (GTK_ACCESSIBLE (list), GTK_ACCESSIBLE_PROPERTY_LABEL, heading,
                                  -1);
  g_signal_connect_swapped (list, "row-activated", G_CALLBACK (on_row_activated), self);
  gtk_box_append (GTK_BOX (box), head);
  gtk_box_append (GTK_BOX (box), list);
  return GTK_LIST_BOX (list);
}

static void
hob_suspect_steps_init (HobSuspectSteps *self)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 0);

  self->list = list_new ();
  self->symptoms = add_section (self, box, _ ("Symptoms"), _ ("No symptoms so far."));
  self->steps = add_section (self, box, _ ("Step by Step"), _ ("Nothing has been turned on yet."));
  self->scroller = gtk_scrolled_window_new ();
  gtk_scrolled_window_set_policy (GTK_SCROLLED_WINDOW (self->scroller), GTK_POLICY_NEVER,
                                  GTK_POLICY_AUTOMATIC);
  gtk_scrolled_window_set_child (GTK_SCROLLED_WINDOW (self->scroller), box);
  gtk_widget_set_parent (self->scroller, GTK_WIDGET (self));
}
