/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "window/suspect-work.h"

#include "reason/moments.h"

#define POLL_MS 100
#define WHOLE 1000

struct _HobSuspectWork
{
  GObject parent_instance;

  /*< owned >*/
  HobBench *idle;              /* NULL: no range is open */
  HobSuspectQuestion *asked;   /* in work; NULL: none */
  HobSuspectQuestion *answered; /* NULL: none */

  guint poll;
};

G_DEFINE_FINAL_TYPE (HobSuspectWork, hob_suspect_work, G_TYPE_OBJECT)

enum
{
  PROGRESS,
  ANSWERED,
  N_SIGNALS
};
static guint signals[N_SIGNALS];

/* ---- A question ---- */

void
hob_suspect_question_unref (HobSuspectQuestion *q)
{
  if (!g_atomic_ref_count_dec (&q->refs))
    return;
  hob_suspects_free (q->all);
  g_ptr_array_unref (q->clues);
  hob_priors_free (q->priors);
  hob_case_free (q->base);
  hob_bench_free (q->idle);
  g_free (q);
}

/* Each has its own of everything that a thread works with. */
static HobSuspectQuestion *
question_new (HobSuspectWork *self, const HobCase *base, GPtrArray *clues, HobSkill role)
{
  HobSuspectQuestion *q = g_new0 (HobSuspectQuestion, 1);
  g_auto (GStrv) procedures = hob_procedure_names (hob_bench_range (self->idle));
  g_autofree char *file = hob_priors_file ();

  g_atomic_ref_count_init (&q->refs);
  q->idle = hob_bench_again (self->idle, hob_run_case (self->idle->run));
  q->base = hob_case_copy (base);
  q->priors = hob_priors_new (hob_bench_range (self->idle));
  (void) hob_priors_load (q->priors, hob_bench_range (self->idle), file, NULL);
  q->clues = clues;
  q->role = role;
  q->trials_total = hob_trials_wanted (base, procedures);
  return q;
}

/* A trial that begins anew counts as the next one. */
static void
on_trial (guint done, guint total, gpointer user)
{
  HobSuspectQuestion *q = user;
  double share = (q->trials_done + (double) done / total) / q->trials_total;

  if (done == total)
    q->trials_done++;
  g_atomic_int_set (&q->share, (gint) (WHOLE * MIN (share, 1)));
}

/* One processor is left to the window. */
static void
search (GTask *task, gpointer source, gpointer data, GCancellable *cancellable)
{
  HobSuspectQuestion *q = data;
  HobTableWork work = { .threads = MAX (1, (int) g_get_num_processors () - 1),
                        .cancel = &q->cancel, .progress = on_trial, .user = q, .cache = TRUE };
  g_autoptr (HobTrials) trials = hob_trials_new (q->idle, &work);

  q->all = hob_suspects_new (trials, q->base, q->clues, q->role, q->priors);
  g_task_return_boolean (task, q->all != NULL);
}

/* ---- Asking ---- */

static gboolean
on_poll (gpointer user)
{
  HobSuspectWork *self = user;

  g_signal_emit (self, signals[PROGRESS], 0,
                 g_atomic_int_get (&self->asked->share) / (double) WHOLE);
  return G_SOURCE_CONTINUE;
}

static void
drop_asked (HobSuspectWork *self)
{
  g_clear_handle_id (&self->poll, g_source_remove);
  if (self->asked != NULL)
    g_atomic_int_set (&self->asked->cancel, 1);
  g_clear_pointer (&self->asked, hob_suspect_question_unref);
}

static void
on_searched (GObject *source, GAsyncResult *result, gpointer user)
{
  HobSuspectWork *self = HOB_SUSPECT_WORK (source);
  HobSuspectQuestion *q = g_task_get_task_data (G_TASK (result));

  if (q != self->asked) /* cancelled, or asked something else */
    return;
  g_clear_handle_id (&self->poll, g_source_remove);
  g_clear_pointer (&self->answered, hob_suspect_question_unref);
  self->answered = g_steal_pointer (&self->asked);
  g_signal_emit (self, signals[ANSWERED], 0);
}

void
hob_suspect_work_ask (HobSuspectWork *self, const HobCase *base, GPtrArray *clues, HobSkill role)
{
  g_autoptr (GTask) task = g_task_new (self, NULL, on_searched, NULL);

  drop_asked (self);
  self->asked = question_new (self, base, clues, role);
  g_atomic_ref_count_inc (&self->asked->refs);
  g_task_set_task_data (task, self->asked, (GDestroyNotify) hob_suspect_question_unref);
  self->poll = g_timeout_add (POLL_MS, on_poll, self);
  g_task_run_in_thread (task, search);
}

void
hob_suspect_work_cancel (HobSuspectWork *self)
{
  hob_suspect_work_forget (self); /* an answer to what was listed before is none */
  g_signal_emit (self, signals[ANSWERED], 0);
}

void
hob_suspect_work_forget (HobSuspectWork *self)
{
  drop_asked (self);
  g_clear_pointer (&self->answered, hob_suspect_question_unref);
}

void
hob_suspect_work_open (HobSuspectWork *self, HobSymptomBook *book, HobRange *range)
{
  hob_suspect_work_forget (self);
  g_clear_pointer (&self->idle, hob_bench_free);
  self->idle = hob_bench_new (book, range, NULL, NULL); /* the book is there: no error */
}

const HobBench *
hob_suspect_work_bench (HobSuspectWork *self)
{
  return self->idle;
}

gboolean
hob_suspect_work_busy (HobSuspectWork *self)
{
  return self->asked != NULL;
}

const HobSuspectQuestion *
hob_suspect_work_answer (HobSuspectWork *self)
{
  return self->answered;
}

/* ---- GObject ---- */

static void
hob_suspect_work_dispose (GObject *object)
{
  HobSuspectWork *self = HOB_SUSPECT_WORK (object);

  hob_suspect_work_forget (self);
  g_clear_pointer (&self->idle, hob_bench_free);
  G_OBJECT_CLASS (hob_suspect_work_parent_class)->dispose (object);
}

static void
hob_suspect_work_class_init (HobSuspectWorkClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = hob_suspect_work_dispose;
  signals[PROGRESS] = g_signal_new ("progress", HOB_TYPE_SUSPECT_WORK, G_SIGNAL_RUN_LAST, 0, NULL,
                                    NULL, NULL, G_TYPE_NONE, 1, G_TYPE_DOUBLE);
  signals[ANSWERED] = g_signal_new ("answered", HOB_TYPE_SUSPECT_WORK, G_SIGNAL_RUN_LAST, 0, NULL,
                                    NULL, NULL, G_TYPE_NONE, 0);
}

static void
hob_suspect_work_init (HobSuspectWork *self)
{
}

HobSuspectWork *
hob_suspect_work_new (void)
{
  return g_object_new (HOB_TYPE_SUSPECT_WORK, NULL);
}
