/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "window/suspect-evidence.h"

#include "base/i18n.h"
#include "reason/moments.h"
#include "reason/suspect-words.h"
#include "window/seen-choice.h"
#include "window/suspect-picker.h"
#include "window/words.h"

#include <math.h>

#define VALUE_CHARS 10

/* One line of the list.  A symptom is a test that looks. */
typedef struct
{
  HobSuspectEvidence *list; /* borrowed */
  /*< owned >*/
  HobTest *test;
  GPtrArray *moments; /* HobTest: when it can be read; NULL: the test has its moment */
  char *answer;       /* "seen", "not-seen", "2.9 A"; NULL: none yet */
  /*< borrowed >*/
  GtkWidget *row, *entry, *trouble, *when;
  HobSeenChoice *choice; /* of a look */

  int moment; /* that was picked; −1: none yet */
  gboolean noticed; /* a symptom that somebody told of; else it is what a test answers */
} Item;

struct _HobSuspectEvidence
{
  GtkWidget parent_instance;

  GtkWidget *box;       /* a child */
  const HobBench *idle; /* borrowed */
  GPtrArray *items;     /* Item, owned */
  gboolean filling;
};

G_DEFINE_FINAL_TYPE (HobSuspectEvidence, hob_suspect_evidence, GTK_TYPE_WIDGET)

enum
{
  CHANGED,
  N_SIGNALS
};
static guint signals[N_SIGNALS];

static void
item_free (gpointer data)
{
  Item *item = data;

  hob_test_free (item->test);
  g_clear_pointer (&item->moments, g_ptr_array_unref);
  g_free (item->answer);
  g_free (item);
}

static void
changed (HobSuspectEvidence *self)
{
  if (!self->filling)
    g_signal_emit (self, signals[CHANGED], 0);
}

/* ---- From a line to a clue ---- */

static gboolean
looks (const Item *item)
{
  return hob_test_is_seen (item->test);
}

/* With the moment that was picked. */
static const HobTest *
test_of (const Item *item)
{
  return item->moment >= 0 ? item->moments->pdata[item->moment] : item->test;
}

static HobEvidenceWhat
kind_of (const Item *item, const char *answer)
{
  return !item->noticed                ? HOB_EVIDENCE_READING
         : g_str_equal (answer, "seen") ? HOB_EVIDENCE_SEEN
                                        : HOB_EVIDENCE_NOT_SEEN;
}

/* As a case file has it.  (transfer full) */
static char *
text_of (const Item *item, const char *answer)
{
  g_autofree char *text = hob_test_text (hob_bench_range (item->list->idle), test_of (item));

  return item->noticed ? g_strdup (text + strlen ("look "))
                       : g_strdup_printf ("%s = %s", text, answer);
}

static HobClue *
clue_of (const Item *item, const char *answer, GError **error)
{
  const HobBench *idle = item->list->idle;
  g_autofree char *text = text_of (item, answer);
  HobEvidenceWhat what = kind_of (item, answer);

  if (what == HOB_EVIDENCE_READING)
    return hob_clue_reading (idle, text, error);
  return hob_clue_look (idle, text, what == HOB_EVIDENCE_SEEN ? HOB_SEEN : HOB_NOT_SEEN, error);
}

void
hob_suspect_evidence_save (HobSuspectEvidence *self, HobCaseFile *file)
{
  for (int what = 0; what < HOB_N_EVIDENCE; what++)
    g_ptr_array_set_size (file->evidence[what], 0);
  for (guint k = 0; k < self->items->len; k++)
    {
      const Item *item = self->items->pdata[k];

      if (item->answer != NULL)
        g_ptr_array_add (file->evidence[kind_of (item, item->answer)],
                         text_of (item, item->answer));
    }
}

GPtrArray *
hob_suspect_evidence_clues (HobSuspectEvidence *self)
{
  GPtrArray *clues = g_ptr_array_new_with_free_func ((GDestroyNotify) hob_clue_free);

  for (guint k = 0; k < self->items->len; k++)
    {
      const Item *item = self->items->pdata[k];
      HobClue *clue = item->answer != NULL ? clue_of (item, item->answer, NULL) : NULL;

      if (clue != NULL)
        hob_clues_add (clues, hob_bench_range (self->idle), clue);
    }
  return clues;
}

/* ---- What a hand does ---- */

static void
on_remove (GtkButton *button, Item *item)
{
  HobSuspectEvidence *self = item->list;

  self->filling = TRUE; /* a field that is taken away enters nothing */
  gtk_box_remove (GTK_BOX (self->box), item->row);
  self->filling = FALSE;
  g_ptr_array_remove (self->items, item);
  changed (self);
}

static void
set_answer (Item *item, const char *answer)
{
  if (g_strcmp0 (item->answer, answer) == 0)
    return;
  g_free (item->answer);
  item->answer = g_strdup (answer);
  changed (item->list);
}

static void
on_seen (HobSeenChoice *choice, const char *answer, Item *item)
{
  set_answer (item, answer);
}

/* What was typed is taken on Enter and on leaving the field; what can't be read says why. */
static void
take_value (Item *item)
{
  const char *text = gtk_editable_get_text (GTK_EDITABLE (item->entry));
  g_autoptr (GError) error = NULL;
  HobClue *clue;

  if (item->list->filling)
    return;
  gtk_widget_set_visible (item->trouble, FALSE);
  if (*text == '\0')
    {
      set_answer (item, NULL);
      return;
    }
  clue = clue_of (item, text, &error);
  gtk_widget_set_visible (item->trouble, clue == NULL);
  if (clue == NULL)
    {
      hob_label_show (GTK_LABEL (item->trouble), error->message);
      set_answer (item, NULL);
      return;
    }
  hob_clue_free (clue);
  set_answer (item, text);
}

/* Before that nobody can type what was read. */
static void
show_moment (Item *item)
{
  const HobRange *range = hob_bench_range (item->list->idle);
  g_autofree char *words = hob_test_acts_words (range, test_of (item));

  hob_label_show (GTK_LABEL (item->when), words != NULL ? words : _ ("When did you take this "
                                                                     "reading?"));
  gtk_widget_set_sensitive (item->entry, words != NULL);
}

static void
on_moment (HobSuspectPicker *picker, guint k, Item *item)
{
  item->moment = (int) k;
  show_moment (item);
  if (item->answer != NULL)
    changed (item->list);
  else
    gtk_widget_grab_focus (item->entry);
}

/* ---- Rows ---- */

static void
add_looks (Item *item, const char *words)
{
  GtkWidget *choice = hob_seen_choice_new (words, item->answer);

  g_signal_connect (choice, "answered", G_CALLBACK (on_seen), item);
  gtk_box_append (GTK_BOX (item->row), choice);
  item->choice = HOB_SEEN_CHOICE (choice);
}

/* When it was read, and, where it can be picked, a button that picks another moment. */
static void
add_moment (Item *item)
{
  const HobRange *range = hob_bench_range (item->list->idle);
  GPtrArray *words = g_ptr_array_new_with_free_func (g_free);
  GtkWidget *picker = hob_suspect_picker_new (_ ("Pick Time…"),
                                              _ ("What you did before the reading, and when you "
                                                 "took it"));

  for (guint k = 0; k < item->moments->len; k++)
    g_ptr_array_add (words, hob_test_acts_words (range, item->moments->pdata[k]));
  hob_suspect_picker_fill (HOB_SUSPECT_PICKER (picker), words);
  gtk_widget_set_halign (picker, GTK_ALIGN_START);
  g_signal_connect (picker, "picked", G_CALLBACK (on_moment), item);
  item->when = hob_text_new (NULL, "dim");
  gtk_box_append (GTK_BOX (item->row), item->when);
  gtk_box_append (GTK_BOX (item->row), picker);
}

static void
add_value (Item *item, const char *words)
{
  GtkWidget *line = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 8),
            *label = gtk_label_new (_ ("Reading"));
  GtkEventController *focus = gtk_event_controller_focus_new ();
  g_autofree char *name = g_strdup_printf (_ ("My reading, with its unit: %s"), words);

  item->entry = gtk_entry_new ();
  item->trouble = hob_text_new (NULL, "caution");
  gtk_widget_set_visible (item->trouble, FALSE);
  gtk_editable_set_text (GTK_EDITABLE (item->entry), item->answer != NULL ? item->answer : "");
  gtk_editable_set_width_chars (GTK_EDITABLE (item->entry), VALUE_CHARS);
  gtk_editable_set_max_width_chars (GTK_EDITABLE (item->entry), VALUE_CHARS);
  gtk_widget_set_tooltip_text (item->entry, _ ("A value with its unit, such as 2.9 A, or OL"));
  gtk_accessible_update_property (GTK_ACCESSIBLE (item->entry), GTK_ACCESSIBLE_PROPERTY_LABEL, name,
                                  -1);
  g_signal_connect_swapped (item->entry, "activate", G_CALLBACK (take_value), item);
  g_signal_connect_swapped (focus, "leave", G_CALLBACK (take_value), item);
  gtk_widget_add_controller (item->entry, focus);
  gtk_box_append (GTK_BOX (line), label);
  gtk_box_append (GTK_BOX (line), item->entry);
  gtk_box_append (GTK_BOX (item->row), line);
  gtk_box_append (GTK_BOX (item->row), item->trouble);
}

/* Its words, and a button that takes it away. */
static void
add_head (Item *item, const char *words)
{
  GtkWidget *line = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 4),
            *label = hob_text_new (words, NULL), *remove = gtk_button_new_with_label (_ ("Remove"));
  g_autofree char *name = g_strdup_printf (_ ("Remove: %s"), words);

  gtk_widget_set_hexpand (label, TRUE);
  gtk_widget_set_valign (remove, GTK_ALIGN_START);
  gtk_widget_set_focus_on_click (remove, FALSE);
  gtk_widget_add_css_class (remove, "quiet");
  gtk_accessible_update_property (GTK_ACCESSIBLE (remove), GTK_ACCESSIBLE_PROPERTY_LABEL, name, -1);
  g_signal_connect (remove, "clicked", G_CALLBACK (on_remove), item);
  gtk_box_append (GTK_BOX (line), label);
  gtk_box_append (GTK_BOX (line), remove);
  gtk_box_append (GTK_BOX (item->row), line);
}

static void
add_when (Item *item)
{
  g_autofree char *acts = hob_test_acts_words (hob_bench_range (item->list->idle), item->test);

  if (item->moments != NULL)
    add_moment (item);
  else if (acts != NULL)
    gtk_box_append (GTK_BOX (item->row), hob_text_new (acts, "dim"));
}

static void
add_item (HobSuspectEvidence *self, HobTest *test, const char *answer, gboolean noticed)
{
  Item *item = g_new0 (Item, 1);
  g_autofree char *words = hob_test_words (self->idle, test);

  item->list = self;
  item->test = test;
  item->answer = g_strdup (answer);
  item->noticed = noticed;
  if (!hob_test_is_seen (test) && isnan (test->time))
    item->moments = hob_reading_moments (hob_bench_range (self->idle), test);
  item->moment = item->moments != NULL && test->what == HOB_TEST_OHMS ? 0 : -1;
  item->row = gtk_box_new (GTK_ORIENTATION_VERTICAL, 4);
  gtk_widget_add_css_class (item->row, "evidence");
  add_head (item, words);
  add_when (item);
  self->filling = TRUE;
  if (looks (item))
    add_looks (item, words);
  else
    add_value (item, words);
  if (item->moments != NULL)
    show_moment (item);
  self->filling = FALSE;
  gtk_box_append (GTK_BOX (self->box), item->row);
  g_ptr_array_add (self->items, item);
  if (item->answer == NULL && item->entry != NULL)
    gtk_widget_grab_focus (item->entry);
}

/* ---- What others add ---- */

/* What somebody told of is not what a look at it answers, though it be at the same moment. */
static Item *
find (HobSuspectEvidence *self, const HobTest *test, gboolean noticed)
{
  const HobRange *range = hob_bench_range (self->idle);
  g_autofree char *text = hob_test_text (range, test);

  for (guint k = 0; k < self->items->len; k++)
    {
      Item *item = self->items->pdata[k];
      g_autofree char *other = hob_test_text (range, test_of (item));

      if (item->noticed == noticed && g_str_equal (text, other))
        return item;
    }
  return NULL;
}

static void
show_answer (Item *item, const char *answer)
{
  if (item->entry != NULL)
    {
      gtk_editable_set_text (GTK_EDITABLE (item->entry), answer);
      take_value (item);
    }
  else
    hob_seen_choice_set (item->choice, answer);
}

/* What is looked at without a moment was noticed by somebody. */
static void
add (HobSuspectEvidence *self, HobTest *test, const char *answer, gboolean noticed)
{
  gboolean told = noticed || (test->what == HOB_TEST_LOOK && isnan (test->time));
  Item *item = find (self, test, told);

  if (item == NULL)
    {
      add_item (self, test, answer, told);
      if (answer != NULL)
        changed (self);
      return;
    }
  hob_test_free (test);
  if (answer != NULL)
    show_answer (item, answer);
}

void
hob_suspect_evidence_add_test (HobSuspectEvidence *self, HobTest *test, const char *answer)
{
  add (self, test, answer, FALSE);
}

void
hob_suspect_evidence_add_symptom (HobSuspectEvidence *self, int symptom, int part, HobSeen seen)
{
  const HobRange *range = hob_bench_range (self->idle);
  const char *id = hob_symptom_book_get (self->idle->book, symptom)->id;
  g_autofree char *text = part >= 0 ? g_strdup_printf ("look %s %s", id, range->parts[part].id)
                                    : g_strdup_printf ("look %s", id);
  HobTest *test = hob_test_parse (range, text, NULL);

  g_return_if_fail (test != NULL);
  hob_suspect_evidence_add_test (self, test, seen == HOB_SEEN ? "seen" : "not-seen");
}

static gboolean
may_show (const HobBench *idle, const char *id)
{
  int symptom = hob_symptom_book_find (idle->book, id);

  return symptom >= 0
         && hob_symptom_book_may_show (idle->book, symptom, hob_bench_range (idle));
}

void
hob_suspect_evidence_add_text (HobSuspectEvidence *self, HobEvidenceWhat what, const char *text)
{
  const HobRange *range = hob_bench_range (self->idle);
  const char *equals = what == HOB_EVIDENCE_READING ? g_strrstr (text, " = ") : NULL;
  g_autofree char *words = what != HOB_EVIDENCE_READING ? g_strconcat ("look ", text, NULL)
                           : equals != NULL ? g_strndup (text, (gsize) (equals - text))
                                            : NULL;
  HobTest *test = words != NULL ? hob_test_parse (range, words, NULL) : NULL;

  if (test == NULL)
    return;
  if (test->what == HOB_TEST_LOOK && !may_show (self->idle, test->symptom))
    {
      hob_test_free (test);
      return;
    }
  add (self, test,
       what == HOB_EVIDENCE_SEEN       ? "seen"
       : what == HOB_EVIDENCE_NOT_SEEN ? "not-seen"
                                       : equals + strlen (" = "),
       what != HOB_EVIDENCE_READING);
}

void
hob_suspect_evidence_open (HobSuspectEvidence *self, const HobBench *idle)
{
  self->filling = TRUE;
  hob_box_clear (self->box);
  g_ptr_array_set_size (self->items, 0);
  self->filling = FALSE;
  self->idle = idle;
}

/* ---- GObject ---- */

static void
hob_suspect_evidence_dispose (GObject *object)
{
  HobSuspectEvidence *self = HOB_SUSPECT_EVIDENCE (object);

  if (self->box != NULL)
    hob_suspect_evidence_open (self, NULL);
  g_clear_pointer (&self->box, gtk_widget_unparent);
  g_clear_pointer (&self->items, g_ptr_array_unref);
  G_OBJECT_CLASS (hob_suspect_evidence_parent_class)->dispose (object);
}

static void
hob_suspect_evidence_class_init (HobSuspectEvidenceClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = hob_suspect_evidence_dispose;
  gtk_widget_class_set_layout_manager_type (GTK_WIDGET_CLASS (klass), GTK_TYPE_BIN_LAYOUT);
  signals[CHANGED] = g_signal_new ("changed", HOB_TYPE_SUSPECT_EVIDENCE, G_SIGNAL_RUN_LAST, 0, NULL,
                                   NULL, NULL, G_TYPE_NONE, 0);
}

static void
hob_suspect_evidence_init (HobSuspectEvidence *self)
{
  self->items = g_ptr_array_new_with_free_func (item_free);
  self->box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 8);
  gtk_widget_set_parent (self->box, GTK_WIDGET (self));
}
