/* SPDX-License-Identifier: GPL-3.0-or-later */

/* Any words may be given as a case, a test or a reading, and any bytes as a case file.  A text that
 * begins with '<' is a case file; else its lines are words, each after a letter that says what for:
 * d --do, f --fault, s --setting, t --test, r --reading, e --seen.  What passes reads back as it
 * was, and a range runs with it.  As range.c, a test or a search (fuzz-words). */

#include "config.h"

#include "base/hash.h"
#include "base/plain.h"
#include "run/case-file.h"
#include "run/reading.h"
#include "run/run.h"

#include <stdint.h>
#include <string.h>

#define MOST_LINES 16
#define RUN_S 0.5

int LLVMFuzzerTestOneInput (const uint8_t *data, size_t size);

static HobRange *range; /* one for all */
static HobPlan *plan;

static void
begin (void)
{
  g_autofree char *file = hob_range_locate ("dial-four");
  g_autoptr (GError) error = NULL;

  range = hob_range_load (file, NULL, &error);
  if (range == NULL)
    g_error ("%s", error->message);
  plan = hob_plan_new (range);
}

/* A terminal gets one line of valid text. */
static void
check_error (const GError *error)
{
  g_autofree char *plain = error != NULL ? hob_plain_text (error->message) : NULL;

  if (plain == NULL || *plain == '\0' || strpbrk (plain, "\n\r\033") != NULL
      || !g_utf8_validate (plain, -1, NULL))
    g_error ("no sentence: %s", plain != NULL ? plain : "nothing");
}

static void
run_with (const HobCase *acts)
{
  g_autoptr (HobRun) run = hob_run_new (plan, acts, NULL);
  g_autoptr (GError) error = NULL;

  if (hob_run_advance (run, RUN_S, &error) != HOB_RUN_OK)
    check_error (error);
}

static void
check_act (const HobCase *c, guint i)
{
  g_autoptr (HobCase) again = hob_case_new (range);
  const HobAct *act = &g_array_index (c->acts, HobAct, i);
  g_autofree char *text = hob_act_argument (range, act);
  g_autoptr (GError) error = NULL;

  if (!hob_case_add_argument (again, act->what, text, &error))
    g_error ("what was printed cannot be read: %s", error->message);
  if (!hob_act_same (act, &g_array_index (again->acts, HobAct, 0)))
    g_error ("'%s' is not what was done", text);
}

static void
check_test (const char *words)
{
  g_autoptr (GError) error = NULL, wrong = NULL;
  g_autoptr (HobTest) test = hob_test_parse (range, words, &error), again = NULL;
  g_autofree char *text = NULL, *more = NULL;

  if (test == NULL)
    {
      check_error (error);
      return;
    }
  text = hob_test_text (range, test);
  again = hob_test_parse (range, text, &wrong);
  if (again == NULL)
    g_error ("what was printed cannot be read: %s", wrong->message);
  more = hob_test_text (range, again);
  if (!g_str_equal (text, more))
    g_error ("'%s' is printed as '%s'", text, more);
}

static void
check_case (const char *xml, gsize size)
{
  g_autoptr (GPtrArray) findings
      = g_ptr_array_new_with_free_func ((GDestroyNotify) hob_finding_free);
  g_autoptr (GError) error = NULL;
  g_autoptr (HobCaseFile) c = hob_case_load_memory (xml, size, "fuzz.xml", findings, &error);

  if ((c == NULL) != (error != NULL))
    g_error ("neither a case nor an error, or both");
  if (c == NULL)
    check_error (error);
  else if (g_str_equal (c->range->id, range->id) && c->acts->acts->len < 100)
    for (guint i = 0; i < c->acts->acts->len; i++)
      check_act (c->acts, i);
}

static void
check_evidence (const char *element, const char *words)
{
  g_autofree char *escaped = g_markup_escape_text (words, -1);
  g_autofree char *xml
      = g_strdup_printf ("<case format=\"1\" range=\"dial-four\"><%s value=\"%s\"/></case>",
                         element, escaped);

  check_case (xml, strlen (xml));
}

static void
take_line (HobCase *acts, const char *line)
{
  static const struct
  {
    char letter;
    HobActWhat what;
  } adds[] = { { 'd', HOB_ACT_CONTROL }, { 'f', HOB_ACT_FAULT }, { 's', HOB_ACT_SETTING } };
  g_autoptr (GError) error = NULL;

  for (guint i = 0; i < G_N_ELEMENTS (adds); i++)
    if (*line == adds[i].letter && !hob_case_add_argument (acts, adds[i].what, line + 1, &error))
      check_error (error);
  if (*line == 't')
    check_test (line + 1);
  else if ((*line == 'r' || *line == 'e') && g_utf8_validate (line, -1, NULL))
    check_evidence (*line == 'r' ? "reading" : "seen", line + 1);
}

int
LLVMFuzzerTestOneInput (const uint8_t *data, size_t size)
{
  g_autofree char *copy = g_malloc (size + 1);
  g_autoptr (HobCase) acts = NULL;
  g_auto (GStrv) lines = NULL;

  if (range == NULL)
    begin ();
  memcpy (copy, data, size);
  copy[size] = '\0';
  if (*copy == '<')
    {
      check_case (copy, size);
      return 0;
    }
  acts = hob_case_new (range);
  lines = g_strsplit (copy, "\n", MOST_LINES);
  for (char **line = lines; *line != NULL; line++)
    take_line (acts, *line);
  for (guint i = 0; i < acts->acts->len; i++)
    check_act (acts, i);
  if (acts->acts->len > 0)
    run_with (acts);
  return 0;
}

#ifndef HOB_FUZZER

/* ---- The test ---- */

#include "damage.h"

static const char *const bits[] = {
  "=", "@", "..", ":", ".", ";", " ", "-", "1e999", "nan", "%", "degF", "\xff", "0x1", "h",
};

static void
nothing_breaks_on_words (void)
{
  try_files_of ("tests/fuzz/words", 40, bits, G_N_ELEMENTS (bits), 6);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/fuzz/words/nothing breaks on words", nothing_breaks_on_words);
  return g_test_run ();
}

#endif
