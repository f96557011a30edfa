/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

/* A shipped range with something wrong, run, and asked. */

#include "case-words.h"
#include "run/reading.h"

#include <math.h>
#include <string.h>

#define INCH_OF_WATER 249.08891        /* Pa */
#define BTU_PER_HOUR (1055.056 / 3600) /* W */

typedef struct
{
  HobRange *range;   /* owned */
  HobPlan *plan;     /* owned */
  HobCase *acts;     /* owned */
  HobRun *run;       /* owned; NULL until something is asked */
  HobMoment *moment; /* owned */
} Faulty;

static inline void
faulty_clear (Faulty *f)
{
  g_clear_pointer (&f->moment, hob_moment_free);
  g_clear_pointer (&f->run, hob_run_free);
  g_clear_pointer (&f->acts, hob_case_free);
  g_clear_pointer (&f->plan, hob_plan_unref);
  g_clear_pointer (&f->range, hob_range_unref);
}
G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (Faulty, faulty_clear)

static inline Faulty
faulty_of (HobRange *range)
{
  Faulty f = { .range = range };

  f.plan = hob_plan_new (range);
  f.acts = hob_case_new (range);
  f.moment = hob_moment_new (f.plan);
  return f;
}

/* @words: case-words.h, NULL-ended. */
static inline void
faulty_add (Faulty *f, const char *const *words)
{
  case_add_all (f->acts, words);
}

/* A shipped range. Each of @exchange is a pair, NULL-ended: what its file has, once, and what it
 * is to have. */
static inline Faulty
faulty_new (const char *name, const char *const *exchange, const char *const *words)
{
  g_autofree char *file = hob_range_locate (name), *text = NULL;
  g_autoptr (GError) error = NULL;
  HobRange *range;
  Faulty f;

  g_assert_true (g_file_get_contents (file, &text, NULL, NULL));
  for (; exchange != NULL && *exchange != NULL; exchange += 2)
    {
      g_auto (GStrv) halves = g_strsplit (text, exchange[0], -1);

      g_assert_cmpuint (g_strv_length (halves), ==, 2);
      g_free (text);
      text = g_strjoinv (exchange[1], halves);
    }
  range = hob_range_load_memory (text, strlen (text), name, NULL, &error);
  g_assert_no_error (error);
  f = faulty_of (range);
  faulty_add (&f, words);
  return f;
}

#define WORDS(...) ((const char *const[]){ __VA_ARGS__, NULL })
#define SHIPPED(name, ...) faulty_new (name, NULL, WORDS (__VA_ARGS__))

static inline HobRun *
faulty_run (Faulty *f, double t)
{
  g_autoptr (GError) error = NULL;

  if (f->run == NULL)
    f->run = hob_run_new (f->plan, f->acts, NULL);
  hob_run_advance (f->run, t, &error);
  g_assert_no_error (error);
  return f->run;
}

/* A quantity at t s. */
static inline double
at (Faulty *f, double t, const char *name)
{
  g_autoptr (GError) error = NULL;
  int part, quantity;

  hob_range_find_quantity (f->range, name, &part, &quantity, &error);
  g_assert_no_error (error);
  hob_run_read (faulty_run (f, t), t, f->moment);
  return hob_moment_quantity (f->moment, part, quantity);
}

/* What a meter reads at t s, +inf for OL. */
static inline double
meter (Faulty *f, double t, const char *text)
{
  g_autoptr (GError) error = NULL;
  HobTest *test = hob_test_parse (f->range, text, &error);
  HobReading reading;

  g_assert_no_error (error);
  reading = hob_reading_take (faulty_run (f, t), test, t);
  hob_test_free (test);
  g_assert_true (reading.answered);
  return isnan (reading.value) ? INFINITY : reading.value;
}

#define assert_near(value, wanted, within) g_assert_cmpfloat_with_epsilon (value, wanted, within)
