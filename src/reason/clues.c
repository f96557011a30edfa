/* SPDX-License-Identifier: GPL-3.0-or-later */

/* Evidence in words. */
#include "reason/suspects.h"

#include "base/errors.h"
#include "base/i18n.h"
#include "symptoms/look.h"

#include <math.h>
#include <string.h>

void
hob_clue_free (HobClue *clue)
{
  hob_test_free (clue->test);
  g_free (clue->typed);
  g_free (clue);
}

/* Takes @test over.  NULL: a look for what no book knows. */
static HobClue *
clue_of (const HobBench *idle, HobTest *test, GError **error)
{
  HobClue *clue = g_new (HobClue, 1);
  HobReading reading;

  *clue = (HobClue){ .test = test, .symptom = -1, .value = NAN, .limit = NAN };
  if (test->what != HOB_TEST_LOOK)
    return clue;
  clue->symptom = hob_symptom_book_find (idle->book, test->symptom);
  if (hob_look (idle, test, 0, &reading, error))
    return clue;
  hob_clue_free (clue);
  return NULL;
}

HobClue *
hob_clue_look (const HobBench *idle, const char *text, HobSeen seen, GError **error)
{
  g_autofree char *look = g_strconcat ("look ", text, NULL);
  HobTest *test = hob_test_parse (hob_bench_range (idle), look, error);
  HobClue *clue = test != NULL ? clue_of (idle, test, error) : NULL;

  if (clue != NULL)
    {
      clue->seen = seen;
      clue->volunteered = seen == HOB_SEEN && clue->symptom >= 0;
    }
  return clue;
}

/* "2" takes the unit of "118 V". */
static gboolean
parse_limit (const char *value, const char *limit, HobDimension dim, double *si, GError **error)
{
  const char *unit = value + strspn (value, "+-0123456789.eE ");
  gboolean bare = strspn (limit, "0123456789. ") == strlen (limit);
  g_autofree char *text = g_strconcat (limit, bare ? unit : "", NULL);

  return hob_parse_quantity (text, dim == HOB_DIM_TEMPERATURE ? HOB_DIM_DIFFERENCE : dim, si,
                             error);
}

static gboolean
parse_value (HobClue *clue, const char *text, GError **error)
{
  HobDimension dim = hob_test_dimension (clue->test);
  const char *sign = strstr (text, "±"), *plain = strstr (text, "+-");
  const char *limit = sign != NULL ? sign : plain;
  g_autofree char *value = limit != NULL ? g_strndup (text, (gsize) (limit - text))
                                         : g_strdup (text);

  g_strstrip (value);
  if (dim == HOB_DIM_RESISTANCE && g_str_equal (value, "OL"))
    {
      clue->value = INFINITY;
      return TRUE;
    }
  if (!hob_parse_quantity (value, dim, &clue->value, error))
    return FALSE;
  return limit == NULL
         || parse_limit (value, limit + (sign != NULL ? strlen ("±") : strlen ("+-")), dim,
                         &clue->limit, error);
}

static gboolean
parse_answer (HobClue *clue, const char *text, GError **error)
{
  if (!hob_test_is_seen (clue->test))
    {
      clue->typed = g_strstrip (g_strdup (text));
      return parse_value (clue, text, error);
    }
  clue->seen = g_str_equal (text, "seen") ? HOB_SEEN : HOB_NOT_SEEN;
  if (g_str_equal (text, "seen") || g_str_equal (text, "not-seen"))
    return TRUE;
  g_set_error (error, HOB_ERROR, HOB_ERROR_USAGE,
               _ ("'%s' is not a valid result for 'look'; use seen or not-seen"), text);
  return FALSE;
}

HobClue *
hob_clue_reading (const HobBench *idle, const char *text, GError **error)
{
  const char *equals = g_strrstr (text, " = ");
  g_autofree char *words = NULL;
  HobTest *test;
  HobClue *clue;

  if (equals == NULL)
    {
      g_set_error (error, HOB_ERROR, HOB_ERROR_USAGE,
                   _ ("'%s' is not a reading; use TEST = VALUE UNIT, such as \"amps igniter-bake = "
                      "2.7 A\""), text);
      return NULL;
    }
  words = g_strndup (text, (gsize) (equals - text));
  test = hob_test_parse (hob_bench_range (idle), words, error);
  clue = test != NULL ? clue_of (idle, test, error) : NULL;
  if (clue == NULL || parse_answer (clue, equals + strlen (" = "), error))
    return clue;
  hob_clue_free (clue);
  return NULL;
}

static gboolean
same_clue (const HobRange *range, const HobClue *a, const HobClue *b)
{
  g_autofree char *one = hob_test_text (range, a->test), *two = hob_test_text (range, b->test);

  return g_str_equal (one, two) && a->volunteered == b->volunteered && a->seen == b->seen
         && g_strcmp0 (a->typed, b->typed) == 0;
}

void
hob_clues_add (GPtrArray *clues, const HobRange *range, HobClue *clue)
{
  for (guint k = 0; k < clues->len; k++)
    if (same_clue (range, clues->pdata[k], clue))
      {
        hob_clue_free (clue);
        return;
      }
  g_ptr_array_add (clues, clue);
}

int
hob_clues_complaint (const GPtrArray *clues)
{
  for (guint k = 0; k < clues->len; k++)
    if (((HobClue *) clues->pdata[k])->volunteered)
      return (int) k;
  return -1;
}

/* Is the range unplugged for it? */
static gboolean
is_unplugged (const HobTest *test)
{
  const HobCase *c = test->acts;

  for (guint k = 0; k < c->acts->len; k++)
    {
      const HobAct *act = &g_array_index (c->acts, HobAct, k);
      const HobControlDef *control = act->what == HOB_ACT_CONTROL
                                         ? &c->range->parts[act->part].kind->controls[act->index]
                                         : NULL;

      if (control != NULL && control->role == HOB_CONTROL_PLUG && act->value != control->start)
        return TRUE;
    }
  return FALSE;
}

gboolean
hob_clues_are_dead (const GPtrArray *clues)
{
  for (guint k = 0; k < clues->len; k++)
    {
      const HobClue *clue = clues->pdata[k];

      if (clue->symptom < 0 && (hob_test_is_dead (clue->test) || is_unplugged (clue->test)))
        return TRUE;
    }
  return FALSE;
}

const HobClue *
hob_clues_unseen (const GPtrArray *clues)
{
  int first = hob_clues_complaint (clues);
  const HobClue *complaint = first >= 0 ? clues->pdata[first] : NULL;

  for (guint k = 0; k < clues->len && complaint != NULL; k++)
    {
      const HobClue *clue = clues->pdata[k];

      if (clue->symptom == complaint->symptom && !clue->volunteered)
        return NULL;
    }
  return complaint;
}
