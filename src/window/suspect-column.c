/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "window/suspect-column.h"

#include "base/i18n.h"
#include "parts/say.h"
#include "reason/suspect-words.h"
#include "run/tests.h"
#include "window/suspect-answer.h"
#include "window/suspect-evidence.h"
#include "window/suspect-picker.h"
#include "window/suspect-work.h"
#include "window/words.h"

struct _HobSuspectColumn
{
  GtkWidget parent_instance;

  /*< template children >*/
  GtkWidget *card, *page, *status, *make_safe;
  GtkFlowBox *pickers;
  GtkDropDown *role;
  GtkProgressBar *progress;
  HobSuspectEvidence *evidence;
  HobSuspectAnswer *answer;
  HobSuspectSteps *steps; /* in place of the page, while two ranges are compared */

  /*< owned >*/
  HobSession *session;
  HobSuspectWork *work;
  GArray *symptoms; /* HobNoticed: what can be picked, its times unused */
  GPtrArray *tests; /* HobListedTest: what can be picked */

  HobSuspectPicker *pick_symptom, *pick_test; /* borrowed */
  HobHazards hazards; /* of what was seen, at once */
  HobRange *open; /* borrowed: the range that all of it is about; NULL: none yet */
  gboolean taking; /* evidence comes from a file */
};

G_DEFINE_FINAL_TYPE (HobSuspectColumn, hob_suspect_column, GTK_TYPE_WIDGET)

enum
{
  CHOSEN,
  TRIED,
  CHANGED,
  EDITED,
  N_SIGNALS
};
static guint signals[N_SIGNALS];

/* ---- What can be picked ---- */

/* Each symptom that this range can show: anywhere first, then at each part that can show it. */
static void
list_symptoms (HobSuspectColumn *self)
{
  const HobBench *idle = hob_suspect_work_bench (self->work);
  const HobRange *range = hob_bench_range (idle);

  g_array_set_size (self->symptoms, 0);
  for (int s = 0; s < hob_symptom_book_size (idle->book); s++)
    {
      guint first = self->symptoms->len;
      HobNoticed anywhere = { s, -1, 0, 0 };

      for (int p = -1; p < range->n_parts; p++)
        {
          g_autoptr (GArray) looks = hob_symptom_watch_observables (idle->watch, s, p);
          HobNoticed one = { s, p, 0, 0 };

          if (looks->len > 0)
            g_array_append_val (self->symptoms, one);
        }
      if (self->symptoms->len > first
          && g_array_index (self->symptoms, HobNoticed, first).part >= 0)
        g_array_insert_val (self->symptoms, first, anywhere);
    }
}

static char *
symptom_words (HobSuspectColumn *self, const HobNoticed *one)
{
  const HobBench *idle = hob_suspect_work_bench (self->work);
  const HobPart *part = one->part >= 0 ? &hob_bench_range (idle)->parts[one->part] : NULL;

  return hob_symptom_words_at (hob_symptom_book_get (idle->book, one->symptom), part);
}

static void
fill_pickers (HobSuspectColumn *self)
{
  const HobBench *idle = hob_suspect_work_bench (self->work);
  GPtrArray *symptoms = g_ptr_array_new_with_free_func (g_free),
            *tests = g_ptr_array_new_with_free_func (g_free);

  list_symptoms (self);
  for (guint k = 0; k < self->symptoms->len; k++)
    g_ptr_array_add (symptoms,
                     symptom_words (self, &g_array_index (self->symptoms, HobNoticed, k)));
  g_clear_pointer (&self->tests, g_ptr_array_unref);
  self->tests = hob_tests_of (hob_bench_range (idle), NULL);
  for (guint k = 0; k < self->tests->len; k++)
    g_ptr_array_add (tests,
                     hob_test_words (idle, ((HobListedTest *) self->tests->pdata[k])->test));
  hob_suspect_picker_fill (self->pick_symptom, symptoms);
  hob_suspect_picker_fill (self->pick_test, tests);
}

static void
on_pick_symptom (HobSuspectPicker *picker, guint k, HobSuspectColumn *self)
{
  const HobNoticed *one = &g_array_index (self->symptoms, HobNoticed, k);

  hob_suspect_evidence_add_symptom (self->evidence, one->symptom, one->part, HOB_SEEN);
}

static void
on_pick_test (HobSuspectPicker *picker, guint k, HobSuspectColumn *self)
{
  const HobListedTest *listed = self->tests->pdata[k];
  const HobRange *range = hob_bench_range (hob_suspect_work_bench (self->work));
  g_autofree char *text = hob_test_text (range, listed->test);

  hob_suspect_evidence_add_test (self->evidence, hob_test_parse (range, text, NULL), NULL);
}

/* ---- Asking ---- */

/* What is known of the house. */
static HobCase *
house_of (HobSession *session)
{
  const HobCase *acts = hob_run_case (hob_session_bench (session)->run);
  HobCase *house = hob_case_new (acts->range);

  for (guint k = 0; k < acts->acts->len; k++)
    {
      const HobAct *act = &g_array_index (acts->acts, HobAct, k);

      if (act->what == HOB_ACT_SETTING
          && acts->range->parts[act->part].kind->settings[act->index].of != HOB_SETTING_APPLIANCE)
        hob_case_add (house, *act);
    }
  return house;
}

/* What comes before any test doesn't wait for an answer. */
static void
show_status (HobSuspectColumn *self)
{
  gboolean busy = hob_suspect_work_busy (self->work);
  const char *make_safe = hob_hazards_make_safe (self->hazards);

  if (make_safe != NULL)
    gtk_label_set_text (GTK_LABEL (self->make_safe), make_safe);
  gtk_widget_set_visible (self->make_safe, make_safe != NULL);
  gtk_widget_set_visible (self->status, busy);
  if (!busy)
    gtk_progress_bar_set_fraction (self->progress, 0);
}

static void
forget (HobSuspectColumn *self)
{
  hob_suspect_answer_show (self->answer, NULL);
  hob_suspect_work_forget (self->work);
  self->hazards = 0;
  g_signal_emit (self, signals[CHANGED], 0);
}

/* Not before it is looked at: it may take minutes. */
static void
ask (HobSuspectColumn *self)
{
  g_autoptr (GPtrArray) clues = NULL;
  g_autoptr (HobCase) house = NULL;

  if (!gtk_widget_get_visible (GTK_WIDGET (self)))
    return;
  clues = hob_suspect_evidence_clues (self->evidence);
  house = house_of (self->session);
  if (clues->len == 0)
    forget (self);
  else
    {
      self->hazards = hob_suspects_hazards (hob_suspect_work_bench (self->work), house, clues);
      hob_suspect_work_ask (self->work, house, g_steal_pointer (&clues),
                            gtk_drop_down_get_selected (self->role) == 0 ? HOB_SKILL_TECHNICIAN
                                                                         : HOB_SKILL_APPRENTICE);
      g_signal_emit (self, signals[CHANGED], 0);
    }
  show_status (self);
}

static void
on_evidence (HobSuspectColumn *self)
{
  if (!self->taking)
    g_signal_emit (self, signals[EDITED], 0);
  ask (self);
}

static void
on_role (HobSuspectColumn *self)
{
  if (self->open != NULL)
    ask (self);
}

static void
on_cancel (GtkButton *button, HobSuspectColumn *self)
{
  hob_suspect_work_cancel (self->work);
}

static void
on_progress (HobSuspectWork *work, double share, HobSuspectColumn *self)
{
  gtk_progress_bar_set_fraction (self->progress, share);
}

static void
on_answered (HobSuspectColumn *self)
{
  hob_suspect_answer_show (self->answer, hob_suspect_work_answer (self->work));
  show_status (self);
  g_signal_emit (self, signals[CHANGED], 0);
}

static void
on_chosen (HobSuspectAnswer *answer, int part, HobSuspectColumn *self)
{
  g_signal_emit (self, signals[CHOSEN], 0, part);
}

static void
on_tried (HobSuspectAnswer *answer, const HobSuspect *suspect, HobSuspectColumn *self)
{
  g_signal_emit (self, signals[TRIED], 0, suspect);
}

static void
on_went (HobSuspectSteps *steps, int part, HobSuspectColumn *self)
{
  g_signal_emit (self, signals[CHOSEN], 0, part);
}

static void
on_next_answered (HobSuspectAnswer *answer, const char *test, const char *what,
                  HobSuspectColumn *self)
{
  const HobRange *range = hob_bench_range (hob_suspect_work_bench (self->work));

  hob_suspect_evidence_add_test (self->evidence, hob_test_parse (range, test, NULL), what);
}

/* ---- The range ---- */

static void make (HobSuspectColumn *self);

/* Not before it is looked at: a range has hundreds of tests. */
static void
open_range (HobSuspectColumn *self)
{
  HobRange *range = self->session != NULL ? hob_session_range (self->session) : NULL;

  if (range == NULL || range == self->open)
    return;
  make (self);
  hob_suspect_work_open (self->work, (HobSymptomBook *) hob_session_book (self->session), range);
  hob_suspect_evidence_open (self->evidence, hob_suspect_work_bench (self->work));
  self->open = range;
  fill_pickers (self);
  show_status (self);
}

static void
on_opened (HobSuspectColumn *self)
{
  self->open = NULL;
  if (self->card == NULL)
    return;
  forget (self);
  hob_suspect_evidence_open (self->evidence, NULL);
  show_status (self);
  if (gtk_widget_get_visible (GTK_WIDGET (self)))
    open_range (self);
}

void
hob_suspect_column_add_symptom (HobSuspectColumn *self, int symptom, int part)
{
  open_range (self);
  hob_suspect_evidence_add_symptom (self->evidence, symptom, part, HOB_SEEN);
}

void
hob_suspect_column_take (HobSuspectColumn *self, const HobCaseFile *file)
{
  self->taking = TRUE;
  for (int what = 0; what < HOB_N_EVIDENCE; what++)
    for (guint k = 0; k < file->evidence[what]->len; k++)
      {
        open_range (self);
        hob_suspect_evidence_add_text (self->evidence, what, file->evidence[what]->pdata[k]);
      }
  self->taking = FALSE;
}

void
hob_suspect_column_save (HobSuspectColumn *self, HobCaseFile *file)
{
  if (self->card != NULL)
    hob_suspect_evidence_save (self->evidence, file);
}

void
hob_suspect_column_compare (HobSuspectColumn *self, HobSession *with)
{
  make (self);
  hob_suspect_steps_show (self->steps, self->session, with);
  gtk_widget_set_visible (self->page, with == NULL);
  gtk_widget_set_visible (GTK_WIDGET (self->steps), with != NULL);
}

HobSuspectSteps *
hob_suspect_column_steps (HobSuspectColumn *self)
{
  return self->card != NULL && gtk_widget_get_visible (GTK_WIDGET (self->steps)) ? self->steps
                                                                                : NULL;
}

HobHazards
hob_suspect_column_hazards (HobSuspectColumn *self)
{
  return self->hazards;
}

const HobSuspects *
hob_suspect_column_answer (HobSuspectColumn *self)
{
  const HobSuspectQuestion *q = hob_suspect_work_answer (self->work);

  return q != NULL && !hob_suspect_work_busy (self->work) ? q->all : NULL;
}

gboolean
hob_suspect_column_busy (HobSuspectColumn *self)
{
  return hob_suspect_work_busy (self->work);
}

void
hob_suspect_column_set_session (HobSuspectColumn *self, HobSession *session)
{
  self->session = g_object_ref (session);
  g_signal_connect_object (session, "opened", G_CALLBACK (on_opened), self, G_CONNECT_SWAPPED);
}

/* ---- GObject ---- */

static void
hob_suspect_column_show (GtkWidget *widget)
{
  HobSuspectColumn *self = HOB_SUSPECT_COLUMN (widget);

  GTK_WIDGET_CLASS (hob_suspect_column_parent_class)->show (widget);
  open_range (self);
  if (self->open != NULL && !hob_suspect_work_busy (self->work)
      && hob_suspect_work_answer (self->work) == NULL)
    ask (self);
}

/* Nobody waits for it: it is asked again when the column is shown again. */
static void
hob_suspect_column_hide (GtkWidget *widget)
{
  HobSuspectColumn *self = HOB_SUSPECT_COLUMN (widget);

  GTK_WIDGET_CLASS (hob_suspect_column_parent_class)->hide (widget);
  if (!hob_suspect_work_busy (self->work))
    return;
  hob_suspect_answer_show (self->answer, NULL);
  hob_suspect_work_forget (self->work);
  show_status (self);
}

static void
hob_suspect_column_dispose (GObject *object)
{
  HobSuspectColumn *self = HOB_SUSPECT_COLUMN (object);

  if (self->work != NULL)
    {
      g_signal_handlers_disconnect_by_data (self->work, self);
      hob_suspect_work_forget (self->work); /* its thread holds it until then */
    }
  g_clear_pointer (&self->card, gtk_widget_unparent);
  gtk_widget_dispose_template (GTK_WIDGET (self), HOB_TYPE_SUSPECT_COLUMN);
  g_clear_object (&self->work);
  g_clear_object (&self->session);
  g_clear_pointer (&self->symptoms, g_array_unref);
  g_clear_pointer (&self->tests, g_ptr_array_unref);
  G_OBJECT_CLASS (hob_suspect_column_parent_class)->dispose (object);
}

static void
hob_suspect_column_class_init (HobSuspectColumnClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  g_type_ensure (HOB_TYPE_SUSPECT_ANSWER);
  g_type_ensure (HOB_TYPE_SUSPECT_EVIDENCE);
  g_type_ensure (HOB_TYPE_SUSPECT_STEPS);
  G_OBJECT_CLASS (klass)->dispose = hob_suspect_column_dispose;
  widget_class->show = hob_suspect_column_show;
  widget_class->hide = hob_suspect_column_hide;
  signals[CHOSEN] = g_signal_new ("chosen", HOB_TYPE_SUSPECT_COLUMN, G_SIGNAL_RUN_LAST, 0, NULL,
                                  NULL, NULL, G_TYPE_NONE, 1, G_TYPE_INT);
  signals[TRIED] = g_signal_new ("tried", HOB_TYPE_SUSPECT_COLUMN, G_SIGNAL_RUN_LAST, 0, NULL,
                                 NULL, NULL, G_TYPE_NONE, 1, G_TYPE_POINTER);
  signals[CHANGED] = g_signal_new ("changed", HOB_TYPE_SUSPECT_COLUMN, G_SIGNAL_RUN_LAST, 0, NULL,
                                   NULL, NULL, G_TYPE_NONE, 0);
  signals[EDITED] = g_signal_new ("edited", HOB_TYPE_SUSPECT_COLUMN, G_SIGNAL_RUN_LAST, 0, NULL,
                                  NULL, NULL, G_TYPE_NONE, 0);
  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/org/hobwright/Hobwright/suspect-column.ui");
  gtk_widget_class_bind_template_child (widget_class, HobSuspectColumn, card);
  gtk_widget_class_bind_template_child (widget_class, HobSuspectColumn, page);
  gtk_widget_class_bind_template_child (widget_class, HobSuspectColumn, status);
  gtk_widget_class_bind_template_child (widget_class, HobSuspectColumn, make_safe);
  gtk_widget_class_bind_template_child (widget_class, HobSuspectColumn, pickers);
  gtk_widget_class_bind_template_child (widget_class, HobSuspectColumn, role);
  gtk_widget_class_bind_template_child (widget_class, HobSuspectColumn, progress);
  gtk_widget_class_bind_template_child (widget_class, HobSuspectColumn, evidence);
  gtk_widget_class_bind_template_child (widget_class, HobSuspectColumn, answer);
  gtk_widget_class_bind_template_child (widget_class, HobSuspectColumn, steps);
  gtk_widget_class_bind_template_callback (widget_class, on_cancel);
  gtk_widget_class_set_layout_manager_type (widget_class, GTK_TYPE_BIN_LAYOUT);
  gtk_widget_class_set_css_name (widget_class, "suspects");
}

static HobSuspectPicker *
add_picker (HobSuspectColumn *self, const char *label, const char *tooltip, GCallback picked)
{
  GtkWidget *picker = hob_suspect_picker_new (label, tooltip);

  g_signal_connect (picker, "picked", picked, self);
  gtk_flow_box_insert (self->pickers, picker, -1);
  gtk_widget_set_focusable (gtk_widget_get_parent (picker), FALSE);
  return HOB_SUSPECT_PICKER (picker);
}

/* Not before it is needed: a window is shown sooner without what it hides. */
static void
make (HobSuspectColumn *self)
{
  if (self->card != NULL)
    return;
  gtk_widget_init_template (GTK_WIDGET (self));
  hob_drop_down_name (self->role, _ ("Who does the tests"));
  self->pick_symptom = add_picker (self, _ ("Add Symptom…"), _ ("Pick a symptom that you noticed"),
                                   G_CALLBACK (on_pick_symptom));
  self->pick_test = add_picker (self, _ ("Add Reading…"), _ ("Pick the test that gave the reading"),
                                G_CALLBACK (on_pick_test));
  g_signal_connect_swapped (self->evidence, "changed", G_CALLBACK (on_evidence), self);
  g_signal_connect_swapped (self->role, "notify::selected", G_CALLBACK (on_role), self);
  g_signal_connect (self->answer, "chosen", G_CALLBACK (on_chosen), self);
  g_signal_connect (self->answer, "tried", G_CALLBACK (on_tried), self);
  g_signal_connect (self->steps, "went", G_CALLBACK (on_went), self);
  g_signal_connect (self->answer, "answered", G_CALLBACK (on_next_answered), self);
  g_signal_connect (self->work, "progress", G_CALLBACK (on_progress), self);
  g_signal_connect_swapped (self->work, "answered", G_CALLBACK (on_answered), self);
}

static void
hob_suspect_column_init (HobSuspectColumn *self)
{
  self->work = hob_suspect_work_new ();
  self->symptoms = g_array_new (FALSE, FALSE, sizeof (HobNoticed));
}
