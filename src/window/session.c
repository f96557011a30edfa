/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "window/session.h"

#include "base/errors.h"
#include "base/i18n.h"

#include "run/sequence.h"
#include "window/opening.h"

#include <math.h>

#define CHUNK_MS 500          /* simulated time between two looks at the clock */
#define LONGEST_FRAME 0.1     /* s: a hiccup of the machine is not made up for */
#define AT_ONCE_MS 5000       /* so much is computed again without a wait */
#define LOOK_AHEAD_MS 7200000 /* how far "next event" searches */
#define SAME_TURN 0.25 /* s: acts closer than this on one control are one turn to step over */
#define NEVER G_MININT64

struct _HobSession
{
  GObject parent_instance;

  /*< owned >*/
  HobSymptomBook *book;
  HobRange *range;
  HobBench *bench; /* NULL: no range is open */
  HobMoment *moment;
  HobScene *scene;
  HobSceneReader *reader;
  HobComparison *comparison; /* for the sequence of operation */

  gint64 ms;
  gint64 covered_ms; /* how far both runs were asked to go: the record that can be looked at */
  double rest;       /* ms that the last tick left over */
  gboolean running;
  double speed;
  gint64 seek_ms; /* on the way there; NEVER: not */
  gboolean seek_event;
  gboolean turning;
  gboolean turn_acted;
  gboolean stuck; /* the run can't continue */
  int part, wire;

  /*< cached >*/
  gboolean moment_fresh, scene_fresh;
};

G_DEFINE_FINAL_TYPE (HobSession, hob_session, G_TYPE_OBJECT)

enum
{
  OPENED,
  MOVED,
  CHOSEN,
  PACE,
  TROUBLE,
  CUT,
  N_SIGNALS
};
static guint signals[N_SIGNALS];

static double
seconds (gint64 ms)
{
  return (double)ms / 1000.0;
}

gint64
hob_event_ms (const HobEvent *event)
{
  return (gint64)ceil (event->t * 1000.0 - 1e-6);
}

/* ---- The moment looked at ---- */

static void
stale (HobSession *self)
{
  self->moment_fresh = FALSE;
  self->scene_fresh = FALSE;
}

static void
cut (HobSession *self, gint64 ms)
{
  g_signal_emit (self, signals[CUT], 0, ms);
}

static void
moved (HobSession *self)
{
  stale (self);
  g_signal_emit (self, signals[MOVED], 0);
}

void
hob_session_say (HobSession *self, const char *line)
{
  g_signal_emit (self, signals[TROUBLE], 0, line);
}

const HobMoment *
hob_session_moment (HobSession *self)
{
  if (!self->moment_fresh)
    hob_run_read (self->bench->run, seconds (self->ms), self->moment);
  self->moment_fresh = TRUE;
  return self->moment;
}

HobScene *
hob_session_scene (HobSession *self)
{
  self->scene->speed = self->speed;
  self->scene->still = !self->running;
  if (!self->scene_fresh)
    hob_scene_read (self->reader, self->scene, self->bench->run,
                    hob_bench_should_be (self->bench),
                    seconds (self->ms));
  self->scene_fresh = TRUE;
  self->scene->chosen_part = self->part;
  self->scene->chosen_wire = self->wire;
  return self->scene;
}

/* ---- Opening ---- */

static void
drop_range (HobSession *self)
{
  g_clear_pointer (&self->scene, hob_scene_free);
  g_clear_pointer (&self->reader, hob_scene_reader_free);
  g_clear_pointer (&self->comparison, hob_comparison_free);
  g_clear_pointer (&self->moment, hob_moment_free);
  g_clear_pointer (&self->bench, hob_bench_free);
  g_clear_pointer (&self->range, hob_range_unref);
}

static void
halt (HobSession *self, const GError *error)
{
  self->running = FALSE;
  self->stuck = TRUE;
  self->seek_ms = NEVER;
  hob_session_say (self, error != NULL ? error->message : _ ("The simulation can't continue from "
                                                             "here. Undo the last thing you did."));
  g_signal_emit (self, signals[PACE], 0);
}

/* Both runs cover time @ms, or the run has come to an end. */
static gboolean
advance (HobSession *self, gint64 ms)
{
  g_autoptr (GError) error = NULL;

  if (hob_bench_advance (self->bench, seconds (ms), &error) == HOB_RUN_OK)
    {
      self->covered_ms = MAX (self->covered_ms, ms);
      return TRUE;
    }
  halt (self, error);
  return FALSE;
}

/* Owns both. */
static void
take_bench (HobSession *self, HobRange *range, HobBench *bench)
{
  self->range = range;
  self->bench = bench;
  hob_bench_twin (self->bench);
  hob_bench_look_along (self->bench);
  self->moment = hob_bench_moment_new (self->bench);
  self->scene = hob_scene_new (range);
  self->reader = hob_scene_reader_new (self->bench->plan);
  self->comparison = hob_comparison_new (self->bench->plan);
  self->ms = 0;
  self->covered_ms = 0;
  self->rest = 0;
  self->seek_ms = NEVER;
  self->part = self->wire = -1;
  self->stuck = FALSE;
  stale (self);
}

void
hob_session_open (HobSession *self, HobRange *range, const HobCase *acts)
{
  hob_range_ref (range);
  drop_range (self);
  /* The book is there: no error. */
  take_bench (self, range, hob_bench_new (self->book, range, acts, NULL));
  self->running = TRUE;
  cut (self, -1);
  g_signal_emit (self, signals[OPENED], 0);
  advance (self, 0);
  moved (self);
  g_signal_emit (self, signals[PACE], 0);
}

void
hob_session_replace (HobSession *self, HobRange *range, GPtrArray *left_out)
{
  g_autoptr (HobCase) acts = hob_case_carry (hob_run_case (self->bench->run), range, left_out);
  gint64 back_to = self->ms;

  hob_session_open (self, range, acts);
  hob_session_go (self, back_to);
}

HobRange *
hob_session_range (HobSession *self)
{
  return self->range;
}

HobBench *
hob_session_bench (HobSession *self)
{
  return self->bench;
}

const HobSymptomBook *
hob_session_book (HobSession *self)
{
  return self->book;
}

/* ---- Time ---- */

gint64
hob_session_ms (HobSession *self)
{
  return self->ms;
}

gint64
hob_session_reached_ms (HobSession *self)
{
  return MAX (self->ms, self->covered_ms);
}

gboolean
hob_session_running (HobSession *self)
{
  return self->running;
}

gboolean
hob_session_busy (HobSession *self)
{
  return self->running || self->seek_ms != NEVER;
}

double
hob_session_speed (HobSession *self)
{
  return self->speed;
}

void
hob_session_set_running (HobSession *self, gboolean running)
{
  if (self->running == running && self->seek_ms == NEVER)
    return;
  self->running = running;
  self->seek_ms = NEVER;
  self->rest = 0;
  g_signal_emit (self, signals[PACE], 0);
}

void
hob_session_set_speed (HobSession *self, double speed)
{
  if (self->speed == speed)
    return;
  self->speed = speed;
  self->rest = 0;
  g_signal_emit (self, signals[PACE], 0);
}

/* The part of the way to @ms that is covered when the deadline comes. */
static gint64
cover (HobSession *self, gint64 ms, gint64 deadline)
{
  gint64 at = hob_session_reached_ms (self);

  while (at < ms && g_get_monotonic_time () < deadline)
    {
      at = MIN (ms, at + CHUNK_MS);
      if (!advance (self, at))
        return hob_session_reached_ms (self);
    }
  return MIN (ms, at);
}

static void
arrive (HobSession *self, gint64 ms)
{
  self->ms = ms;
  self->seek_ms = NEVER;
  self->running = FALSE;
  moved (self);
  g_signal_emit (self, signals[PACE], 0);
}

static gboolean
same_turn (const HobEvent *a, const HobEvent *b)
{
  return a->what == HOB_EVENT_ACT && b->what == HOB_EVENT_ACT && a->part == b->part
         && a->index == b->index && fabs (a->t - b->t) < SAME_TURN;
}

/* The window doesn't stop at events that only cautions go by. */
static gboolean
is_seen (const HobEvent *event)
{
  return event->what != HOB_EVENT_HAZARD && event->what != HOB_EVENT_HAZARD_END;
}

/* First event to stop at after the time looked at, within the record; −1: none. */
static gint64
event_after (HobSession *self, gint64 until)
{
  guint first = 0;
  guint n = hob_run_events (self->bench->run, seconds (self->ms), seconds (until), &first);
  const HobEvent *before = first > 0 ? hob_run_event (self->bench->run, first - 1) : NULL;

  for (guint i = first; i < first + n; i++)
    {
      const HobEvent *event = hob_run_event (self->bench->run, i);

      if (hob_event_ms (event) > self->ms && is_seen (event)
          && (before == NULL || !same_turn (before, event)))
        return hob_event_ms (event);
      before = event;
    }
  return -1;
}

static void
seek (HobSession *self, gint64 deadline)
{
  gint64 at = hob_session_reached_ms (self);
  gint64 found = -1;

  while (self->seek_ms != NEVER && found < 0 && at < self->seek_ms
         && g_get_monotonic_time () < deadline)
    {
      at = cover (self, MIN (self->seek_ms, at + 20 * CHUNK_MS), deadline);
      found = self->seek_event ? event_after (self, at) : -1;
    }
  if (self->seek_ms == NEVER)
    return;
  if (found >= 0)
    arrive (self, found);
  else if (at >= self->seek_ms && self->seek_event)
    {
      self->seek_ms = NEVER;
      hob_session_say (self, _ ("Nothing else happens in the next two hours."));
      g_signal_emit (self, signals[PACE], 0);
    }
  else if (at >= self->seek_ms)
    arrive (self, self->seek_ms);
}

void
hob_session_tick (HobSession *self, double wall)
{
  gint64 deadline = g_get_monotonic_time () + HOB_SESSION_BUDGET_US;
  double by;
  gint64 at;

  if (self->bench == NULL)
    return;
  if (self->seek_ms != NEVER)
    {
      seek (self, deadline);
      return;
    }
  if (!self->running)
    return;

  by = fmin (wall, LONGEST_FRAME) * 1000.0 * self->speed + self->rest;
  at = self->ms + (gint64)floor (by);
  self->rest = by - floor (by);
  at = cover (self, at, deadline);
  if (at <= self->ms)
    return;
  self->ms = at;
  moved (self);
}

void
hob_session_go (HobSession *self, gint64 ms)
{
  ms = MAX (ms, 0);
  if (ms <= hob_session_reached_ms (self))
    {
      arrive (self, ms);
      return;
    }
  self->seek_ms = ms;
  self->seek_event = FALSE;
  self->running = FALSE;
  g_signal_emit (self, signals[PACE], 0);
}

void
hob_session_next_event (HobSession *self)
{
  gint64 found = event_after (self, hob_session_reached_ms (self));

  if (found >= 0)
    {
      arrive (self, found);
      return;
    }
  self->seek_ms = self->ms + LOOK_AHEAD_MS;
  self->seek_event = TRUE;
  self->running = FALSE;
  g_signal_emit (self, signals[PACE], 0);
}

void
hob_session_previous_event (HobSession *self)
{
  guint first = 0;
  guint i = hob_run_events (self->bench->run, -1.0, seconds (self->ms), &first);

  for (; i > 0; i--)
    {
      const HobEvent *event = hob_run_event (self->bench->run, first + i - 1);
      gboolean inner = i > 1 && same_turn (hob_run_event (self->bench->run, first + i - 2), event);

      if (hob_event_ms (event) < self->ms && is_seen (event) && !inner)
        {
          arrive (self, hob_event_ms (event));
          return;
        }
    }
  arrive (self, 0);
}

/* ---- Acts ---- */

static gint64
now_reached_ms (HobSession *self)
{
  return (gint64) floor (hob_bench_reached (self->bench) * 1000.0 + 1e-6);
}

/* What was done is other than before: the record holds as far as it was not cut. */
static void
changed (HobSession *self)
{
  self->covered_ms = MIN (self->covered_ms, now_reached_ms (self));
  cut (self, self->covered_ms);
  advance (self, self->ms);
  moved (self);
  g_signal_emit (self, signals[PACE], 0);
}

/* The place of an act of now on the same control; −1.  While time is paused, a turning knob passes
 * many places in one millisecond: only the last counts. */
static int
same_act_now (HobSession *self, const HobAct *act)
{
  const HobCase *acts = hob_run_case (self->bench->run);
  int last = (int) hob_case_place (acts, act->ms) - 1;
  const HobAct *one = last >= 0 ? &g_array_index (acts->acts, HobAct, (guint) last) : NULL;

  if (one == NULL || !self->turning || !self->turn_acted || one->ms != act->ms
      || one->what != act->what || one->part != act->part || one->index != act->index)
    return -1;
  return last;
}

void
hob_session_act (HobSession *self, HobActWhat what, int part, int index, double value)
{
  HobAct act = { self->ms, what, part, index, value };
  int same = same_act_now (self, &act);

  if (self->turning && self->turn_acted)
    hob_bench_join (self->bench);
  if (same >= 0)
    {
      hob_bench_remove (self->bench, (guint) same);
      hob_bench_join (self->bench);
    }
  hob_bench_act (self->bench, act);
  self->turn_acted = self->turning;
  self->covered_ms = MIN (self->covered_ms, self->ms);
  changed (self);
}

void
hob_session_from_start (HobSession *self, HobActWhat what, int part, int index, double value)
{
  gint64 back_to = self->ms;

  hob_bench_insert (self->bench, (HobAct){ 0, what, part, index, value });
  self->ms = 0;
  changed (self);
  hob_session_go (self, back_to);
}

void
hob_session_begin_turn (HobSession *self)
{
  self->turning = TRUE;
  self->turn_acted = FALSE;
}

void
hob_session_end_turn (HobSession *self)
{
  self->turning = FALSE;
  self->turn_acted = FALSE;
}

gboolean
hob_session_can_undo (HobSession *self)
{
  return hob_run_can_undo (self->bench->run);
}

gboolean
hob_session_can_redo (HobSession *self)
{
  return hob_run_can_redo (self->bench->run);
}

/* From an act far back the run comes to the time looked at over the next ticks. */
static void
undone (HobSession *self)
{
  gint64 back_to = self->ms, reached = now_reached_ms (self);

  self->turn_acted = FALSE;
  if (back_to - reached > AT_ONCE_MS)
    self->ms = MAX (reached, 0);
  changed (self);
  if (back_to != self->ms)
    hob_session_go (self, back_to);
}

void
hob_session_undo (HobSession *self)
{
  if (hob_bench_undo (self->bench))
    undone (self);
}

void
hob_session_redo (HobSession *self)
{
  if (hob_bench_redo (self->bench))
    undone (self);
}

/* ---- What was noticed ---- */

static void
end_noticed (GArray *noticed, const HobEvent *event)
{
  for (guint i = noticed->len; i > 0; i--)
    {
      HobNoticed *one = &g_array_index (noticed, HobNoticed, i - 1);

      if (one->symptom == event->index && one->part == event->part && one->until_ms < 0)
        {
          one->until_ms = hob_event_ms (event);
          return;
        }
    }
}

GArray *
hob_session_noticed (HobSession *self)
{
  GArray *noticed = g_array_new (FALSE, FALSE, sizeof (HobNoticed));
  guint first = 0;
  guint n = hob_run_events (self->bench->run, -1.0, seconds (self->ms), &first);

  for (guint i = first; i < first + n; i++)
    {
      const HobEvent *event = hob_run_event (self->bench->run, i);
      HobNoticed begun = { event->index, event->part, hob_event_ms (event), -1 };

      if (event->what == HOB_EVENT_SYMPTOM)
        g_array_append_val (noticed, begun);
      else if (event->what == HOB_EVENT_SYMPTOM_END)
        end_noticed (noticed, event);
    }
  return noticed;
}

/* ---- The sequence of operation ---- */

GArray *
hob_session_sequence (HobSession *self)
{
  return hob_sequence_read (self->bench->run, hob_bench_twin (self->bench),
                            hob_bench_should_be (self->bench), self->comparison,
                            seconds (self->ms));
}

gboolean
hob_session_look_ahead (HobSession *self)
{
  HobRun *twin = hob_bench_twin (self->bench);
  gint64 deadline = g_get_monotonic_time () + HOB_SESSION_BUDGET_US;
  double until = seconds (self->ms) + HOB_SEQUENCE_AHEAD, at = hob_run_reached (twin);

  while (at < until && g_get_monotonic_time () < deadline)
    {
      at = fmin (until, at + seconds (CHUNK_MS));
      if (hob_run_advance (twin, at, NULL) != HOB_RUN_OK)
        return FALSE;
    }
  return at < until;
}

/* ---- Beside another ---- */

HobSession *
hob_session_new_beside (HobSession *first, const HobCase *acts)
{
  HobSession *self = g_object_new (HOB_TYPE_SESSION, NULL);

  self->book = hob_symptom_book_ref (first->book);
  take_bench (self, hob_range_ref (first->range), hob_bench_again (first->bench, acts));
  self->speed = first->speed;
  advance (self, 0);
  return self;
}

void
hob_session_set_case (HobSession *self, const HobCase *acts)
{
  hob_bench_set_case (self->bench, acts);
  self->covered_ms = MIN (self->covered_ms, now_reached_ms (self));
  self->ms = MIN (self->ms, MAX (self->covered_ms, 0));
  self->stuck = FALSE;
  stale (self);
  cut (self, self->covered_ms);
}

gboolean
hob_session_keep_step (HobSession *self, HobSession *first)
{
  gboolean pace = self->running != first->running || self->speed != first->speed;
  gint64 at = self->stuck ? self->covered_ms
                          : cover (self, first->ms,
                                   g_get_monotonic_time () + HOB_SESSION_BUDGET_US);

  at = MIN (at, first->ms);
  if (at < first->ms && !self->stuck)
    return FALSE;
  self->running = first->running;
  self->speed = first->speed;
  if (at != self->ms || !self->moment_fresh)
    {
      self->ms = at;
      moved (self);
    }
  if (pace)
    g_signal_emit (self, signals[PACE], 0);
  return TRUE;
}

GArray *
hob_session_steps_beside (HobSession *self, HobSession *first)
{
  return hob_sequence_read (first->bench->run, self->bench->run, self->bench->run,
                            self->comparison, seconds (self->ms));
}

HobHazards
hob_session_hazards (HobSession *self)
{
  return hob_hazards_at (self->book, self->bench->run, seconds (self->ms));
}

/* ---- What is chosen ---- */

int
hob_session_chosen_part (HobSession *self)
{
  return self->part;
}

int
hob_session_chosen_wire (HobSession *self)
{
  return self->wire;
}

void
hob_session_choose (HobSession *self, int part, int wire)
{
  if (self->part == part && self->wire == wire)
    return;
  self->part = part;
  self->wire = wire;
  g_signal_emit (self, signals[CHOSEN], 0);
}

/* ---- GObject ---- */

static void
hob_session_finalize (GObject *object)
{
  HobSession *self = HOB_SESSION (object);

  drop_range (self);
  g_clear_pointer (&self->book, hob_symptom_book_unref);
  G_OBJECT_CLASS (hob_session_parent_class)->finalize (object);
}

static guint
add_signal (const char *name)
{
  return g_signal_new (name, HOB_TYPE_SESSION, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE,
                       0);
}

static void
hob_session_class_init (HobSessionClass *klass)
{
  G_OBJECT_CLASS (klass)->finalize = hob_session_finalize;
  signals[OPENED] = add_signal ("opened");
  signals[MOVED] = add_signal ("moved");
  signals[CHOSEN] = add_signal ("chosen");
  signals[PACE] = add_signal ("pace");
  signals[TROUBLE] = g_signal_new ("trouble", HOB_TYPE_SESSION, G_SIGNAL_RUN_LAST, 0, NULL, NULL,
                                   NULL, G_TYPE_NONE, 1, G_TYPE_STRING);
  signals[CUT] = g_signal_new ("cut", HOB_TYPE_SESSION, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL,
                               G_TYPE_NONE, 1, G_TYPE_INT64);
}

static void
hob_session_init (HobSession *self)
{
  self->speed = 1;
  self->seek_ms = NEVER;
  self->part = self->wire = -1;
}

HobSession *
hob_session_new (GError **error)
{
  g_autoptr (HobSymptomBook) book = hob_symptom_book_load (NULL, error);
  HobSession *self;

  if (book == NULL)
    return NULL;
  self = g_object_new (HOB_TYPE_SESSION, NULL);
  self->book = g_steal_pointer (&book);
  return self;
}
