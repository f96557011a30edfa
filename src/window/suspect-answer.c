/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "window/suspect-answer.h"

#include "base/i18n.h"
#include "parts/say.h"
#include "reason/suspect-words.h"
#include "window/seen-choice.h"
#include "window/words.h"

#define TOLD 0.01 /* probability from which a suspect is shown … */
#define MOST_TOLD 6
#define VALUE_CHARS 10

struct _HobSuspectAnswer
{
  GtkWidget parent_instance;

  GtkBox *next, *rest;                /* children; what its template has stands between them */
  const HobSuspectQuestion *question; /* borrowed, while it is shown */
  GtkWidget *entry, *trouble;         /* borrowed: what the next test read; NULL: nothing to read */
  GPtrArray *answers;                 /* GtkWidget, borrowed: where each test is answered */
};

G_DEFINE_FINAL_TYPE (HobSuspectAnswer, hob_suspect_answer, GTK_TYPE_WIDGET)

enum
{
  CHOSEN,
  TRIED,
  ANSWERED,
  N_SIGNALS
};
static guint signals[N_SIGNALS];

static void
append_text (GtkBox *box, const char *text, const char *css_class)
{
  if (text != NULL)
    gtk_box_append (box, hob_text_new (text, css_class));
}

/* ---- The next test ---- */

static void
answer (HobSuspectAnswer *self, const HobOffer *offer, const char *text)
{
  g_autofree char *test = hob_test_text (hob_bench_range (self->question->idle), offer->test);
  g_autofree char *what = g_strdup (text); /* its field goes away */

  g_signal_emit (self, signals[ANSWERED], 0, test, what);
}

/* It stays until the suspects are weighed again: a second click falls on the same answer. */
static void
on_seen (HobSeenChoice *choice, const char *text, HobSuspectAnswer *self)
{
  answer (self, g_object_get_data (G_OBJECT (choice), "offer"), text);
}

/* What can't be read says why, and stays. */
static void
on_read (HobSuspectAnswer *self)
{
  const HobBench *idle = self->question->idle;
  const HobOffer *next = hob_suspects_next (self->question->all);
  const char *text = gtk_editable_get_text (GTK_EDITABLE (self->entry));
  g_autofree char *test = hob_test_text (hob_bench_range (idle), next->test);
  g_autofree char *reading = g_strdup_printf ("%s = %s", test, text);
  g_autoptr (GError) error = NULL;
  HobClue *clue = hob_clue_reading (idle, reading, &error);

  gtk_widget_set_visible (self->trouble, clue == NULL);
  if (clue == NULL)
    {
      hob_label_show (GTK_LABEL (self->trouble), error->message);
      return;
    }
  hob_clue_free (clue);
  answer (self, next, text);
}

static GtkWidget *
button_new (HobSuspectAnswer *self, const char *label, const char *name, GCallback clicked)
{
  GtkWidget *button = gtk_button_new_with_label (label);

  gtk_widget_set_focus_on_click (button, FALSE);
  gtk_accessible_update_property (GTK_ACCESSIBLE (button), GTK_ACCESSIBLE_PROPERTY_LABEL, name, -1);
  g_signal_connect_swapped (button, "clicked", clicked, self);
  return button;
}

static void
append_looks (HobSuspectAnswer *self, GtkBox *box, const HobOffer *offer, const char *words)
{
  GtkWidget *choice = hob_seen_choice_new (words, NULL);

  g_object_set_data (G_OBJECT (choice), "offer", (gpointer) offer);
  g_signal_connect (choice, "answered", G_CALLBACK (on_seen), self);
  gtk_box_append (box, choice);
  g_ptr_array_add (self->answers, choice);
}

static void
append_reads (HobSuspectAnswer *self, const char *words)
{
  GtkWidget *line = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 8);
  g_autofree char *name = g_strdup_printf (_ ("My reading, with its unit: %s"), words);
  g_autofree char *add = g_strdup_printf (_ ("Add this reading: %s"), words);

  self->entry = gtk_entry_new ();
  gtk_editable_set_width_chars (GTK_EDITABLE (self->entry), VALUE_CHARS);
  gtk_editable_set_max_width_chars (GTK_EDITABLE (self->entry), VALUE_CHARS);
  gtk_widget_set_tooltip_text (self->entry, _ ("A value with its unit, such as 2.9 A, or OL"));
  gtk_accessible_update_property (GTK_ACCESSIBLE (self->entry), GTK_ACCESSIBLE_PROPERTY_LABEL, name,
                                  -1);
  g_signal_connect_swapped (self->entry, "activate", G_CALLBACK (on_read), self);
  gtk_box_append (GTK_BOX (line), gtk_label_new (_ ("Reading")));
  gtk_box_append (GTK_BOX (line), self->entry);
  gtk_box_append (GTK_BOX (line), button_new (self, _ ("Add"), add, G_CALLBACK (on_read)));
  gtk_box_append (self->next, line);
  g_ptr_array_add (self->answers, line);
  self->trouble = hob_text_new (NULL, "caution");
  gtk_widget_set_visible (self->trouble, FALSE);
  gtk_box_append (self->next, self->trouble);
}

static void
append_answer (HobSuspectAnswer *self, const HobOffer *offer, const char *words)
{
  if (hob_test_is_seen (offer->test))
    append_looks (self, self->next, offer, words);
  else
    append_reads (self, words);
}

/* How long to watch for it is said where it is less than for the next test. */
static void
append_sign (HobSuspectAnswer *self, const HobOffer *sign, double watched)
{
  GtkWidget *card = gtk_box_new (GTK_ORIENTATION_VERTICAL, 4);
  g_autofree char *words = hob_test_words (self->question->idle, sign->test);
  g_autofree char *until
      = sign->test->time < watched ? hob_test_until_words (sign->test) : NULL;

  gtk_widget_add_css_class (card, "evidence");
  append_text (GTK_BOX (card), words, NULL);
  append_text (GTK_BOX (card), until, "dim");
  append_looks (self, GTK_BOX (card), sign, words);
  gtk_box_append (self->next, card);
}

/* What else the run of the next test shows. */
static void
append_signs (HobSuspectAnswer *self)
{
  const HobSuspects *all = self->question->all;
  const HobOffer *sign;

  append_text (self->next, hob_suspects_also (all), "also");
  for (guint k = 0; (sign = hob_suspects_sign (all, k)) != NULL; k++)
    append_sign (self, sign, hob_suspects_next (all)->test->time);
}

/* Made safe first, then what it is. */
static void
append_next (HobSuspectAnswer *self)
{
  const HobSuspectQuestion *q = self->question;
  const HobRange *range = hob_bench_range (q->idle);
  const HobOffer *next = hob_suspects_next (q->all);
  HobHazards shown = hob_hazards_shown_with (q->all->hazards, hob_suspects_described (q->all));
  g_autofree char *words = NULL, *acts = NULL, *means = NULL;
  g_autoptr (GPtrArray) safe = NULL;

  if (q->all->stop != 0) /* the column says so */
    return;
  append_text (self->next, _ ("Next Test"), "section");
  if (next == NULL)
    {
      append_text (self->next, hob_suspects_end (q->all), NULL);
      return;
    }
  words = hob_test_words (q->idle, next->test);
  acts = hob_test_acts_words (range, next->test);
  means = hob_offer_means_words (next);
  safe = hob_offer_safe (next);
  append_text (self->next, words, "name");
  append_text (self->next, means, NULL);
  for (guint k = 0; k < safe->len; k++)
    append_text (self->next, safe->pdata[k], "caution");
  append_text (self->next, acts, NULL);
  for (int h = hob_hazards_next (shown, -1); h >= 0; h = hob_hazards_next (shown, h))
    if (!(q->all->hazards & HOB_HAZARD_BIT (h)))
      gtk_box_append (self->next, hob_caution_new ((HobHazard) h, shown));
  append_answer (self, next, words);
  append_signs (self);
}

/* ---- Suspects ---- */

static void
on_show (GtkButton *button, HobSuspectAnswer *self)
{
  g_signal_emit (self, signals[CHOSEN], 0,
                 GPOINTER_TO_INT (g_object_get_data (G_OBJECT (button), "part")));
}

static void
on_try (GtkButton *button, HobSuspectAnswer *self)
{
  g_signal_emit (self, signals[TRIED], 0, g_object_get_data (G_OBJECT (button), "suspect"));
}

/* What it was before any evidence, and a button that tries it. */
static GtkWidget *
suspect_foot (HobSuspectAnswer *self, const HobSuspect *s)
{
  GtkWidget *line = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 8), *label, *try;
  g_autofree char *before = g_strdup_printf (_ ("Chance before any evidence: "
                                                "%.2g%%"), 100 * s->prior);
  g_autofree char *name = hob_suspect_name (hob_bench_range (self->question->idle), s);
  g_autofree char *say = g_strdup_printf (_ ("Try it: %s"), name);

  label = hob_text_new (before, "dim");
  gtk_widget_set_hexpand (label, TRUE);
  gtk_box_append (GTK_BOX (line), label);
  if (s->what != HOB_SUSPECT_FAULT)
    return line;
  /* Translators: button: show a second range that has this fault. */
  try = gtk_button_new_with_label (_ ("Simulate It"));
  gtk_widget_add_css_class (try, "quiet");
  gtk_widget_set_focus_on_click (try, FALSE);
  gtk_accessible_update_property (GTK_ACCESSIBLE (try), GTK_ACCESSIBLE_PROPERTY_LABEL, say, -1);
  g_signal_connect (try, "clicked", G_CALLBACK (on_try), self);
  gtk_widget_set_valign (try, GTK_ALIGN_END);
  gtk_widget_set_tooltip_text (try, _ ("Show this range beside one that has the fault"));
  g_object_set_data (G_OBJECT (try), "suspect", (gpointer) s);
  gtk_box_append (GTK_BOX (line), try);
  return line;
}

/* "62%  Bake igniter: aged", and a button that shows the part. */
static GtkWidget *
suspect_head (HobSuspectAnswer *self, const HobSuspect *s)
{
  GtkWidget *line = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 8), *show, *name;
  g_autofree char *text = hob_suspect_name (hob_bench_range (self->question->idle), s);
  g_autofree char *share = g_strdup_printf ("%.0f%%", 100 * s->p);
  g_autofree char *say = g_strdup_printf (_ ("Show the part: %s"), text);
  GtkWidget *figure = gtk_label_new (share);

  name = hob_text_new (text, "name");
  gtk_widget_add_css_class (figure, "figure");
  gtk_widget_set_valign (figure, GTK_ALIGN_START);
  gtk_widget_set_hexpand (name, TRUE);
  gtk_box_append (GTK_BOX (line), figure);
  gtk_box_append (GTK_BOX (line), name);
  if (s->part < 0)
    return line;
  show = gtk_button_new_with_label (_ ("Show"));
  gtk_widget_add_css_class (show, "quiet");
  gtk_widget_set_focus_on_click (show, FALSE);
  gtk_widget_set_valign (show, GTK_ALIGN_START);
  g_object_set_data (G_OBJECT (show), "part", GINT_TO_POINTER (s->part));
  gtk_accessible_update_property (GTK_ACCESSIBLE (show), GTK_ACCESSIBLE_PROPERTY_LABEL, say, -1);
  g_signal_connect (show, "clicked", G_CALLBACK (on_show), self);
  gtk_box_append (GTK_BOX (line), show);
  return line;
}

static void
append_suspect (HobSuspectAnswer *self, const HobSuspect *s)
{
  const HobSuspectQuestion *q = self->question;
  GtkWidget *card = gtk_box_new (GTK_ORIENTATION_VERTICAL, 4);
  g_autofree char *severity = hob_suspect_severity (hob_bench_range (q->idle), s);
  const char *doubt = hob_suspect_doubt (s, q->clues);

  gtk_widget_add_css_class (card, "suspect");
  gtk_box_append (GTK_BOX (card), suspect_head (self, s));
  if (severity != NULL)
    gtk_box_append (GTK_BOX (card), hob_text_new (severity, NULL));
  if (doubt != NULL)
    gtk_box_append (GTK_BOX (card), hob_text_new (doubt, NULL));
  for (guint k = 0; k < q->clues->len && hob_suspect_has_reasons (s); k++)
    {
      const HobClue *clue = q->clues->pdata[k];
      g_autofree char *what = hob_test_words (q->idle, clue->test);
      g_autofree char *reason = hob_suspect_reason (q->all, s, clue, k, what);

      gtk_box_append (GTK_BOX (card), hob_text_new (reason, NULL));
    }
  gtk_box_append (GTK_BOX (card), suspect_foot (self, s));
  gtk_box_append (self->rest, card);
}

static void
append_suspects (HobSuspectAnswer *self)
{
  const HobSuspects *all = self->question->all;

  append_text (self->rest, _ ("Suspects"), "section");
  append_text (self->rest, hob_suspects_unproved (all), "unproved");
  for (guint k = 0; k < MIN (all->suspects->len, MOST_TOLD); k++)
    if (((HobSuspect *) all->suspects->pdata[k])->p >= TOLD)
      append_suspect (self, all->suspects->pdata[k]);
}

/* ---- After the repair ---- */

/* Those that are shown with the next test are not said again. */
static void
append_put_back (HobSuspectAnswer *self)
{
  const HobSuspects *all = self->question->all;
  HobHazards told = hob_hazards_shown_with (all->hazards, hob_suspects_described (all)),
             more = hob_suspects_put_back (hob_bench_range (self->question->idle), all);

  for (int h = hob_hazards_next (more & ~told, -1); h >= 0;
       h = hob_hazards_next (more & ~told, h))
    gtk_box_append (self->rest, hob_caution_new ((HobHazard) h, more));
}

static void
append_checks (HobSuspectAnswer *self)
{
  const HobSuspectQuestion *q = self->question;
  g_autofree char *lights = NULL;

  if (q->all->checks->len == 0 || q->all->stop != 0)
    return;
  append_text (self->rest, _ ("Check After the Repair"), "section");
  for (guint k = 0; k < q->all->checks->len; k++)
    {
      const HobCheck *check = q->all->checks->pdata[k];
      g_autofree char *words = hob_test_words (q->idle, check->test);
      g_autofree char *line = hob_check_words (check, words);

      append_text (self->rest, line, NULL);
    }
  lights = hob_suspects_lights (hob_bench_range (q->idle), q->all);
  append_text (self->rest, lights, NULL);
  append_put_back (self);
}

/* ---- The whole ---- */

/* Which of the answers has the focus; −1: none. */
static int
focused_answer (HobSuspectAnswer *self)
{
  GtkRoot *root = gtk_widget_get_root (GTK_WIDGET (self));
  GtkWidget *focus = root != NULL ? gtk_root_get_focus (root) : NULL;

  for (guint k = 0; k < self->answers->len && focus != NULL; k++)
    if (gtk_widget_is_ancestor (focus, self->answers->pdata[k]))
      return (int) k;
  return -1;
}

/* Who answers by keys goes on where the next one to answer stands now. */
static void
focus_answer (HobSuspectAnswer *self, int at)
{
  guint last = self->answers->len;

  if (at >= 0)
    gtk_widget_child_focus (last > 0 ? self->answers->pdata[MIN ((guint) at, last - 1)]
                                     : GTK_WIDGET (self->rest),
                            GTK_DIR_TAB_FORWARD);
}

void
hob_suspect_answer_show (HobSuspectAnswer *self, const HobSuspectQuestion *question)
{
  int at = focused_answer (self);

  self->entry = self->trouble = NULL;
  g_ptr_array_set_size (self->answers, 0);
  hob_box_clear (GTK_WIDGET (self->next));
  hob_box_clear (GTK_WIDGET (self->rest));
  self->question = question;
  if (question == NULL || question->all == NULL)
    return;
  gtk_widget_insert_before (GTK_WIDGET (self->rest), GTK_WIDGET (self), NULL);
  append_next (self);
  append_suspects (self);
  append_checks (self);
  focus_answer (self, at);
}

static void
hob_suspect_answer_dispose (GObject *object)
{
  HobSuspectAnswer *self = HOB_SUSPECT_ANSWER (object);
  GtkWidget *child;

  while ((child = gtk_widget_get_first_child (GTK_WIDGET (self))) != NULL)
    gtk_widget_unparent (child);
  g_clear_pointer (&self->answers, g_ptr_array_unref);
  G_OBJECT_CLASS (hob_suspect_answer_parent_class)->dispose (object);
}

static void
hob_suspect_answer_class_init (HobSuspectAnswerClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = hob_suspect_answer_dispose;
  gtk_widget_class_set_layout_manager_type (GTK_WIDGET_CLASS (klass), GTK_TYPE_BOX_LAYOUT);
  signals[CHOSEN] = g_signal_new ("chosen", HOB_TYPE_SUSPECT_ANSWER, G_SIGNAL_RUN_LAST, 0, NULL,
                                  NULL, NULL, G_TYPE_NONE, 1, G_TYPE_INT);
  signals[TRIED] = g_signal_new ("tried", HOB_TYPE_SUSPECT_ANSWER, G_SIGNAL_RUN_LAST, 0, NULL,
                                 NULL, NULL, G_TYPE_NONE, 1, G_TYPE_POINTER);
  signals[ANSWERED] = g_signal_new ("answered", HOB_TYPE_SUSPECT_ANSWER, G_SIGNAL_RUN_LAST, 0, NULL,
                                    NULL, NULL, G_TYPE_NONE, 2, G_TYPE_STRING, G_TYPE_STRING);
}

static GtkBox *
add_box (HobSuspectAnswer *self)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 4);

  gtk_widget_set_parent (box, GTK_WIDGET (self));
  return GTK_BOX (box);
}

static void
hob_suspect_answer_init (HobSuspectAnswer *self)
{
  GtkLayoutManager *layout = gtk_widget_get_layout_manager (GTK_WIDGET (self));

  gtk_orientable_set_orientation (GTK_ORIENTABLE (layout), GTK_ORIENTATION_VERTICAL);
  gtk_box_layout_set_spacing (GTK_BOX_LAYOUT (layout), 6);
  self->answers = g_ptr_array_new ();
  self->next = add_box (self);
  self->rest = add_box (self);
}
