/* SPDX-License-Identifier: GPL-3.0-or-later */

/* The ruled lines, of the sequence of operation and from the cause to the symptom: what is drawn is
 * hit, and a strip shows what is ringed first. */

#include "base/units.h"
#include "reason/why.h"
#include "sheet/sequence-line.h"
#include "sheet/why-line.h"
#include "staged.h"

#define WIDE 1200.0
#define NARROW 500.0

static const HobLook look = { HOB_THEME_LIGHT, 1.0, 1.0 };

static GArray *
sequence_of (Staged *s)
{
  g_autoptr (HobComparison) c = hob_comparison_new (s->bench->plan);
  HobRun *twin = hob_bench_twin (s->bench);

  hob_run_advance (twin, s->at + HOB_SEQUENCE_AHEAD, NULL);
  return hob_sequence_read (s->bench->run, twin, hob_bench_should_be (s->bench), c, s->at);
}

static void
each_step_is_hit_where_it_is_found (void)
{
  g_autoptr (Staged) s = staged_new ("dial-four", "0s oven.mode=bake | igniter-bake:aged=1", 200);
  g_autoptr (GArray) entries = sequence_of (s);
  double heights[2];

  g_assert_cmpuint (entries->len, >, 4);
  for (int narrow = 0; narrow < 2; narrow++)
    {
      HobSequenceLine line = { entries, s->bench->run, &look, narrow ? NARROW : WIDE, FALSE };
      double x, y;

      heights[narrow] = hob_sequence_line_height (&line);
      for (int k = 0; k < (int) entries->len; k++)
        {
          g_assert_true (hob_sequence_line_find (&line, k, &x, &y));
          g_assert_cmpfloat (x, >=, 0);
          g_assert_cmpfloat (x, <=, line.w);
          g_assert_cmpfloat (y, <=, heights[narrow]);
          g_assert_cmpint (hob_sequence_line_hit (&line, x, y), ==, k);
        }
      g_assert_cmpint (hob_sequence_line_hit (&line, -10, -10), ==, -1);
      g_assert_cmpint (hob_sequence_line_hit (&line, x, heights[narrow] + 50), ==, -1);
      g_assert_false (hob_sequence_line_find (&line, (int) entries->len, &x, &y));
    }
  g_assert_cmpfloat (heights[1], >, heights[0]);
}

/* However narrow it is: the step that is missing is there, those without room are not, and nothing
 * that is not there is hit. */
static void
a_strip_shows_what_is_ringed (void)
{
  g_autoptr (Staged) s = staged_new ("dial-four", "0s oven.mode=bake | igniter-bake:aged=1", 200);
  g_autoptr (GArray) entries = sequence_of (s);
  HobSequenceLine line = { entries, s->bench->run, &look, 300, TRUE };
  guint shown = 0, ringed = 0;

  for (int k = 0; k < (int) entries->len; k++)
    {
      gboolean is_ringed
          = hob_sequence_is_ringed (&g_array_index (entries, HobSequenceEntry, k));
      double x, y;

      if (!hob_sequence_line_find (&line, k, &x, &y))
        {
          g_assert_false (is_ringed && ringed == 0);
          continue;
        }
      shown++;
      ringed += is_ringed;
      g_assert_cmpint (hob_sequence_line_hit (&line, x, y), ==, k);
    }
  g_assert_cmpuint (ringed, >=, 1);
  g_assert_cmpuint (shown, <, entries->len);
  g_assert_cmpfloat (hob_sequence_line_height (&line), <=, hob_sequence_strip_height (&look));
}

/* Why @id was noticed, drawn in @width. */
typedef struct
{
  Staged *staged;
  GPtrArray *chains;
  HobWhyLine line;
} Cause;

static void
cause_clear (Cause *c)
{
  g_clear_pointer (&c->chains, g_ptr_array_unref);
  g_clear_pointer (&c->staged, staged_free);
}
G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (Cause, cause_clear)

static Cause
cause_of (const char *words, double at, const char *id)
{
  Cause c = { staged_new ("dial-four", words, at) };
  HobBench *bench = c.staged->bench;
  int symptom = hob_symptom_book_find (bench->book, id);

  c.chains = hob_why (bench, symptom, -1, NULL);
  c.line = (HobWhyLine){ c.chains, c.staged->range, hob_symptom_book_get (bench->book, symptom),
                         &look, NARROW };
  return c;
}

static void
each_cause_is_hit_where_it_is_found (void)
{
  g_auto (Cause) c = cause_of ("0s oven.mode=bake | igniter-bake:aged=1", 200, "glow-no-flame");
  int n = hob_why_line_size (&c.line), part;
  double height = hob_why_line_height (&c.line), before = 0, t, x, y;
  g_autofree char *last = hob_why_line_words (&c.line, n - 1);

  g_assert_cmpint (n, >=, 3);
  for (int k = 0; k < n; k++)
    {
      hob_why_line_find (&c.line, k, &x, &y);
      g_assert_cmpfloat (y, <=, height);
      g_assert_cmpint (hob_why_line_hit (&c.line, x, y), ==, k);
      hob_why_line_get (&c.line, k, &part, &t);
      g_assert_cmpfloat (t, >=, before);
      if (k == 0)
        g_assert_cmpstr (c.staged->range->parts[part].id, ==, "igniter-bake");
      before = t;
    }
  g_assert_cmpstr (c.staged->range->parts[part].id, ==, "burner-bake");
  g_assert_true (g_str_has_suffix (last, c.line.symptom->technician));
  g_assert_cmpint (hob_why_line_hit (&c.line, -10, 10), ==, -1);
  g_assert_cmpint (hob_why_line_hit (&c.line, x, height + 50), ==, -1);
}

/* Either fault is enough by itself: two lines, one below the other, counted through. */
static void
two_causes_have_a_line_each (void)
{
  g_auto (Cause) one = cause_of ("0s oven.mode=bake | valve-bake:heater-open", 200, "no-glow"),
                 two = cause_of ("0s oven.mode=bake | valve-bake:heater-open | igniter-bake:open",
                                 200, "no-glow");
  int n = hob_why_line_size (&two.line);
  const HobWhy *first = two.chains->pdata[0];
  double x, y, above;

  g_assert_cmpuint (one.chains->len, ==, 1);
  g_assert_cmpuint (two.chains->len, ==, 2);
  g_assert_cmpint (n, >, hob_why_line_size (&one.line));
  g_assert_cmpfloat (hob_why_line_height (&two.line), >, hob_why_line_height (&one.line));
  hob_why_line_find (&two.line, (int) first->entries->len, &x, &above);
  for (int k = 0; k < n; k++)
    {
      g_autofree char *words = hob_why_line_words (&two.line, k);

      hob_why_line_find (&two.line, k, &x, &y);
      g_assert_cmpint (hob_why_line_hit (&two.line, x, y), ==, k);
      if (k > (int) first->entries->len)
        g_assert_cmpfloat (y, >, above);
      g_assert_cmpint (*words, !=, '\0');
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/lines/each-step-is-hit-where-it-is-found",
                   each_step_is_hit_where_it_is_found);
  g_test_add_func ("/lines/a-strip-shows-what-is-ringed", a_strip_shows_what_is_ringed);
  g_test_add_func ("/lines/each-cause-is-hit-where-it-is-found",
                   each_cause_is_hit_where_it_is_found);
  g_test_add_func ("/lines/two-causes-have-a-line-each", two_causes_have_a_line_each);
  return g_test_run ();
}
