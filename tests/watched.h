/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

/* A shipped range, run under the eyes of somebody who knows the symptoms. */

#include "case-words.h"
#include "symptoms/symptoms.h"

#include <glib/gstdio.h>
#include <unistd.h>

typedef struct
{
  HobRange *range;
  HobPlan *plan;
  HobSymptomBook *book;
  HobSymptomWatch *watch;
  HobRun *run;
} Watched;

static inline void
clear_watched (Watched *w)
{
  hob_run_free (w->run);
  hob_symptom_watch_unref (w->watch);
  hob_symptom_book_unref (w->book);
  hob_plan_unref (w->plan);
  hob_range_unref (w->range);
}
G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (Watched, clear_watched)

/* @symptoms: whole elements; NULL: the shipped book. (transfer full) */
static inline HobSymptomBook *
watched_book (const char *symptoms)
{
  g_autofree char *name = NULL;
  g_autoptr (GError) error = NULL;
  HobSymptomBook *book;

  if (symptoms != NULL)
    {
      g_autofree char *text = g_strdup_printf ("<symptoms format=\"1\">%s</symptoms>", symptoms);

      close (g_file_open_tmp ("book-XXXXXX.xml", &name, NULL));
      g_file_set_contents (name, text, -1, NULL);
    }
  book = hob_symptom_book_load (name, &error);
  g_assert_no_error (error);
  if (name != NULL)
    g_unlink (name);
  return book;
}

/* @words: case-words.h, NULL-ended. */
static inline Watched
watched_run (const char *range, const char *symptoms, double until, const char *const *words)
{
  g_autofree char *file = hob_range_locate (range);
  g_autoptr (GError) error = NULL;
  Watched w = { hob_range_load (file, NULL, &error) };
  g_autoptr (HobCase) acts = NULL;

  g_assert_no_error (error);
  acts = hob_case_new (w.range);
  w.plan = hob_plan_new (w.range);
  w.book = watched_book (symptoms);
  w.watch = hob_symptom_watch_new (w.book, w.plan);
  case_add_all (acts, words);
  w.run = hob_run_new (w.plan, acts, hob_symptom_watch_get (w.watch));
  hob_run_advance (w.run, until, &error);
  g_assert_no_error (error);
  return w;
}

static inline double
watched_value (const Watched *w, const char *quantity, double t)
{
  g_autoptr (HobMoment) m = hob_moment_new (w->plan);
  int part, index;

  g_assert_true (hob_range_find_quantity (w->range, quantity, &part, &index, NULL));
  hob_run_read (w->run, t, m);
  return hob_moment_quantity (m, part, index);
}
