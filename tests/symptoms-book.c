/* SPDX-License-Identifier: GPL-3.0-or-later */

/* The book of symptoms: the shipped one is whole; one that is wrong is refused at its line, in
 * one line. */

#include "base/data.h"
#include "base/errors.h"
#include "base/hash.h"
#include "parts/means.h"
#include "symptoms/book.h"

#include <glib/gstdio.h>
#include <string.h>
#include <unistd.h>

static char *
write_book (const char *text)
{
  char *name = NULL;
  int file = g_file_open_tmp ("book-XXXXXX.xml", &name, NULL);

  g_assert_cmpint (file, >=, 0);
  close (file);
  g_assert_true (g_file_set_contents (name, text, -1, NULL));
  return name;
}

static void
the_shipped_book_is_whole (void)
{
  /* The order is that of the list that scripts read. */
  static const char *const wanted[] = {
    "no-spark-any",
    "no-spark-one",
    "sparks-all-knobs-off",
    "sparks-irregular",
    "sparks-never-stop",
    "sparks-but-no-light",
    "no-glow",
    "glow-no-flame",
    "late-light-thump",
    "overheats",
    "runs-cool",
    "wide-swing",
    "breaker-trips",
    "tingle",
    "gas-smell",
    "yellow-flame",
    "flame-lifts",
  };
  g_autoptr (GError) error = NULL;
  g_autoptr (HobSymptomBook) book = hob_symptom_book_load (NULL, &error);

  g_assert_no_error (error);
  for (guint i = 0; i < G_N_ELEMENTS (wanted); i++)
    g_assert_cmpint (hob_symptom_book_find (book, wanted[i]), >=, 0);
  g_assert_cmpint (hob_symptom_book_find (book, "no-such"), ==, -1);
}

static void
assert_same_kinds (const GPtrArray *a, const GPtrArray *b)
{
  g_assert_true ((a == NULL) == (b == NULL));
  g_assert_true (a == NULL || a->len == b->len);
  for (guint k = 0; a != NULL && k < a->len; k++)
    g_assert_true (a->pdata[k] == b->pdata[k]);
}

static void
assert_same_conditions (const GArray *a, const GArray *b)
{
  g_assert_cmpuint (a->len, ==, b->len);
  for (guint k = 0; k < a->len; k++)
    {
      const HobCondition *x = &g_array_index (a, HobCondition, k);
      const HobCondition *y = &g_array_index (b, HobCondition, k);

      assert_same_kinds (x->kinds, y->kinds);
      g_assert_cmpint (x->subject, ==, y->subject);
      g_assert_cmpint (x->measure, ==, y->measure);
      g_assert_cmpint (x->bound, ==, y->bound);
      g_assert_cmpint (x->already, ==, y->already);
      g_assert_cmpstr (x->name, ==, y->name);
      g_assert_cmpstr (x->value, ==, y->value);
      g_assert_true (x->limit == y->limit && x->hold == y->hold);
    }
}

static void
assert_same_entries (const GPtrArray *a, const GPtrArray *b)
{
  g_assert_cmpuint (a->len, ==, b->len);
  for (guint k = 0; k < a->len; k++)
    {
      const HobEntry *x = a->pdata[k], *y = b->pdata[k];

      g_assert_cmpstr (x->symptom.id, ==, y->symptom.id);
      g_assert_cmpstr (x->symptom.technician, ==, y->symptom.technician);
      g_assert_cmpstr (x->symptom.customer, ==, y->symptom.customer);
      g_assert_cmpuint (x->symptom.hazards, ==, y->symptom.hazards);
      g_assert_cmpuint (x->symptom.with, ==, y->symptom.with);
      g_assert_cmpint (x->symptom.less, ==, y->symptom.less);
      g_assert_cmpint (x->times, ==, y->times);
      g_assert_true (x->clears_after == y->clears_after);
      assert_same_kinds (x->each, y->each);
      assert_same_conditions (x->conditions, y->conditions);
      assert_same_conditions (x->until, y->until);
    }
}

/* The book that a program is built with is taken from tables, and its XML is not read again.  A
 * copy with one more blank is another book: it is held to the grammar and read, to the same. */
static void
the_shipped_book_is_what_its_file_says (void)
{
  g_autofree char *name = hob_data_path (HOB_DATA_FILES, "symptoms.xml"), *text = NULL;
  g_autoptr (GError) error = NULL;

  g_file_get_contents (name, &text, NULL, &error);
  g_assert_no_error (error);
  {
    g_autofree char *longer = g_strconcat (text, "\n", NULL);
    g_autofree char *copy = write_book (longer);
    g_autoptr (HobSymptomBook) ours = hob_symptom_book_load (NULL, &error);
    g_autoptr (HobSymptomBook) book = hob_symptom_book_load (copy, &error);

    g_assert_no_error (error);
    g_assert_cmpuint (hob_symptom_book_hash (ours), ==, hob_hash_block (text, strlen (text)));
    g_assert_true (hob_symptom_book_hash (book) != hob_symptom_book_hash (ours));
    assert_same_entries (ours->entries, book->entries);
    assert_same_entries (ours->hazards, book->hazards);
    g_unlink (copy);
  }
}

static void
every_symptom_has_words_for_both (void)
{
  g_autoptr (HobSymptomBook) book = hob_symptom_book_load (NULL, NULL);

  for (int i = 0; i < hob_symptom_book_size (book); i++)
    {
      const HobSymptom *s = hob_symptom_book_get (book, i);

      g_assert_cmpuint (strlen (s->technician), >, 8);
      g_assert_cmpuint (strlen (s->customer), >, 8);
      g_assert_cmpstr (s->technician, !=, s->customer);
    }
}

#define GAS (HOB_HAZARD (GAS_STRONG) | HOB_HAZARD (GAS_FAINT) | HOB_HAZARD (GAS_GATHERED))
#define ABSENT 1e-9
/* Any of these keeps a hand out of live wiring. */
#define OUT_OF_LIVE (HOB_HAZARD (DEAD_FIRST) | HOB_HAZARD (STOP_USING) | HOB_HAZARD (BREAKER_GFCI))

static gboolean
is_burner (const HobKind *kind)
{
  return (kind->flags & HOB_KIND_BURNER) != 0;
}

/* Whether a part of @kind has wiring, and something in it is confirmed live. */
static gboolean
is_live (const HobKind *kind)
{
  if (kind->n_terminals == 0 || is_burner (kind) || strcmp (kind->name, "house") == 0)
    return FALSE;
  for (int f = 0; f < kind->n_faults; f++)
    for (int m = 0; m < HOB_N_MEANS; m++)
      if ((kind->faults[f].confirm & HOB_MEANS_BIT (m)) && hob_means[m].danger == HOB_DANGER_LIVE)
        return TRUE;
  return FALSE;
}

/* The kinds that may lie behind what the condition looks at. */
static gboolean
looks_at (const HobCondition *c, gboolean (*is) (const HobKind *kind))
{
  for (guint k = 0; c->kinds != NULL && k < c->kinds->len; k++)
    if (is (c->kinds->pdata[k]))
      return TRUE;
  return FALSE;
}

/* Hazards of work on the kinds themselves: a hot igniter, a spark lead, what must not be
 * bypassed. */
static HobHazards
hazards_of_kinds (const HobCondition *c)
{
  HobHazards hazards = 0;

  for (guint k = 0; c->kinds != NULL && k < c->kinds->len; k++)
    hazards |= ((const HobKind *) c->kinds->pdata[k])->hazards;
  return hazards;
}

/* A glow is seen: there is something hot and brittle. */
static gboolean
glows (const HobCondition *c, const HobKind *kind, int quantity)
{
  return quantity >= 0 && is_burner (kind) && c->bound == HOB_BOUND_AT_LEAST
         && kind->quantities[quantity].dim == HOB_DIM_TEMPERATURE
         && kind->quantities[quantity].sense == HOB_SENSE_EYE;
}

/* What a symptom is about, by what its conditions look at: a burner that is called for and has no
 * flame, or whose gas is smelled, is unlit gas. */
static HobHazards
missing_hazards (const HobEntry *e)
{
  HobHazards has = e->symptom.hazards, needs = 0;
  gboolean called = FALSE, no_flame = FALSE, live = FALSE, smelled = FALSE;

  for (guint i = 0; i < e->conditions->len; i++)
    {
      const HobCondition *c = &g_array_index (e->conditions, HobCondition, i);
      const HobKind *kind = c->kinds != NULL ? c->kinds->pdata[0] : NULL;
      int q = kind != NULL && c->measure == HOB_MEASURE_QUANTITY ? hob_kind_quantity (kind, c->name)
                                                                 : -1;
      gboolean nose = q >= 0 && kind->quantities[q].sense == HOB_SENSE_NOSE;

      called = called || c->subject == HOB_SUBJECT_CALLER || c->measure == HOB_MEASURE_ASKED
               || c->measure == HOB_MEASURE_CONTROL;
      no_flame = no_flame
                 || (c->bound == HOB_BOUND_AT_MOST && c->limit < ABSENT && q >= 0
                     && looks_at (c, is_burner));
      smelled = smelled || (nose && kind->n_ports > 0);
      live = live || looks_at (c, is_live);
      needs |= hazards_of_kinds (c);
      if (glows (c, kind, q))
        needs |= HOB_HAZARD (HOT_IGNITER);
    }
  if (((called && no_flame) || smelled) && !(has & (GAS | HOB_HAZARD (STOP_USING))))
    needs |= GAS;
  if (live && !(has & OUT_OF_LIVE))
    needs |= HOB_HAZARD (DEAD_FIRST);
  return needs & ~has;
}

static void
what_conditions_look_at_has_its_hazards (void)
{
  g_autoptr (HobSymptomBook) book = hob_symptom_book_load (NULL, NULL);

  for (int i = 0; i < hob_symptom_book_size (book); i++)
    {
      HobHazards missing = missing_hazards (hob_symptom_book_entry (book, i));
      g_autofree char *names = hob_hazards_names (missing);

      if (missing != 0)
        {
          g_test_message ("%s lacks: %s", hob_symptom_book_get (book, i)->id, names);
          g_test_fail ();
        }
    }
}

#define BOOK(symptoms) "<symptoms format=\"1\">\n" symptoms "\n</symptoms>\n"
#define WORDS "<technician>t</technician><customer>c</customer>"
#define ONE(attributes, conditions)                                                                \
  BOOK ("<symptom id=\"x\" " attributes ">" WORDS "\n" conditions "</symptom>")
#define HAZARD(attributes, conditions) BOOK ("<hazard " attributes ">\n" conditions "</hazard>")

static const struct
{
  const char *text;
  int line;
  const char *says;
} refused[] = {
  { "", 1, "" },
  { "<symptoms format=\"1\">", 1, "" },
  { "<symptoms format=\"2\"/>", 1, "" },
  { BOOK (""), 1, "" },
  { "<!DOCTYPE symptoms [<!ENTITY a \"b\">]>\n" ONE ("",
                                                     "<condition every=\"knob\" stands=\"off\"/>"),
    1, "DOCTYPE" },
  { ONE ("", ""), 2, "" },
  { ONE ("each=\"burner-top\"", "<condition/>"), 3, "" },
  { ONE ("each=\"burner-top\"", "<condition quantity=\"flame\"/>"), 3, "" },
  { ONE ("each=\"burner-top\"", "<condition quantity=\"flame\" at-least=\"1\" at-most=\"2\"/>"), 3,
    "" },
  { ONE ("", "<condition quantity=\"flame\" at-least=\"1\"/>"), 3, "say which part" },
  { ONE ("each=\"burner-tob\"", "<condition quantity=\"flame\" at-least=\"1\"/>"), 2,
    "burner-top" },
  { ONE ("each=\"knob chandelier\"", "<condition quantity=\"flame\" at-least=\"1\"/>"), 2,
    "unknown kind 'chandelier'; see 'hob list kinds'" },
  { ONE ("", "<condition any=\"knob chandelier\" stands=\"off\"/>"), 3,
    "unknown kind 'chandelier'; see 'hob list kinds'" },
  { ONE ("with=\"meter ladder\"", "<condition any=\"knob\" stands=\"off\"/>"), 2,
    "'ladder' is not a valid value for 'with'; use one of: thermometer, bottom-out" },
  { ONE ("clears-after=\"3 K\"", "<condition any=\"knob\" stands=\"off\"/>"), 2, "unit" },
  { ONE ("each=\"burner-top\"", "<condition quantity=\"flames\" at-least=\"1\"/>"), 3,
    "no quantity" },
  { ONE ("each=\"igniter\"", "<condition quantity=\"current\" at-least=\"3 A\"/>"), 3,
    "nobody can see" },
  { ONE ("", "<condition any=\"valve-safety\" quantity=\"opening\" at-least=\"0.5\"/>"), 3,
    "nobody can see" },
  { ONE ("each=\"cavity\"", "<condition quantity=\"air\" at-least=\"350\"/>"), 3,
    "without a unit" },
  { ONE ("each=\"cavity\"", "<condition quantity=\"air\" at-least=\"1,5 K\"/>"), 3,
    "decimal point" },
  { ONE ("each=\"cavity\"", "<condition quantity=\"air\" at-least=\"3 V\"/>"), 3, "unit" },
  { ONE ("each=\"cavity\"", "<condition quantity=\"air\" at-least=\"300 K\" for=\"3 K\"/>"), 3,
    "unit" },
  { ONE ("", "<condition any=\"knob\" stands=\"lit\"/>"), 3, "light" },
  { ONE ("", "<condition any=\"cord\" stands=\"in\"/>"), 3, "no control" },
  { ONE ("each=\"burner-top\"", "<condition caller=\"yes\" quantity=\"travel\" at-least=\"1\"/>"),
    3, "must name a kind" },
  { ONE ("hazards=\"flood\"", "<condition any=\"knob\" stands=\"off\"/>"), 2,
    "unknown hazard 'flood'" },
  { ONE ("more-than=\"y\"", "<condition any=\"knob\" stands=\"off\"/>"), 2,
    "'y' isn't the id of another symptom" },
  { ONE ("more-than=\"x\"", "<condition any=\"knob\" stands=\"off\"/>"), 2,
    "'x' isn't the id of another symptom" },
  { ONE ("passes=\"y\"", "<condition any=\"knob\" stands=\"off\"/>"), 2,
    "'y' isn't the id of another symptom" },
  { HAZARD ("is=\"fire if-wet\"", "<condition any=\"knob\" stands=\"off\"/>"), 2,
    "unknown hazard 'if-wet'" },
  { HAZARD ("is=\"fire\" times=\"0\"", "<condition any=\"knob\" stands=\"off\"/>"), 2, "" },
  { HAZARD ("is=\"fire\"", ""), 2, "" },
  { BOOK ("<symptom id=\"x\">" WORDS "<condition any=\"knob\" stands=\"off\"/></symptom>\n"
          "<symptom id=\"x\">" WORDS "<condition any=\"knob\" stands=\"off\"/></symptom>"),
    3, "two symptoms" },
};

static void
a_wrong_book_is_refused_at_its_line (void)
{
  for (guint i = 0; i < G_N_ELEMENTS (refused); i++)
    {
      g_autofree char *name = write_book (refused[i].text);
      g_autofree char *place = g_strdup_printf ("%s:%d: ", name, refused[i].line);
      g_autoptr (GError) error = NULL;
      g_autoptr (HobSymptomBook) book = hob_symptom_book_load (name, &error);

      g_assert_null (book);
      g_assert_error (error, HOB_ERROR, HOB_ERROR_UNREADABLE);
      if (!g_str_has_prefix (error->message, place)
          || strstr (error->message, refused[i].says) == NULL)
        g_error ("book %u is refused with '%s'", i, error->message);
      g_assert_null (strchr (error->message, '\n'));
      g_unlink (name);
    }
}

/* A puff and a whoosh are next to each other, a puff and a bang are not. */
static void
degrees_follow_each_other (void)
{
  g_autoptr (HobSymptomBook) book = hob_symptom_book_load (NULL, NULL);
  int puff = hob_symptom_book_find (book, "late-light-puff");
  int whoosh = hob_symptom_book_find (book, "late-light-whoosh");
  int thump = hob_symptom_book_find (book, "late-light-thump");

  g_assert_true (hob_symptom_book_next_degree (book, puff, whoosh));
  g_assert_true (hob_symptom_book_next_degree (book, whoosh, puff));
  g_assert_true (hob_symptom_book_next_degree (book, thump, whoosh));
  g_assert_false (hob_symptom_book_next_degree (book, puff, thump));
  g_assert_false (hob_symptom_book_next_degree (book, puff, puff));
}

/* Who waits in vain for a flame has not seen it come late. */
static void
never_is_no_degree_of_late (void)
{
  g_autoptr (HobSymptomBook) book = hob_symptom_book_load (NULL, NULL);
  int late = hob_symptom_book_find (book, "lights-slowly");
  int never = hob_symptom_book_find (book, "glow-no-flame");

  g_assert_cmpint (late, >=, 0);
  g_assert_cmpint (never, >=, 0);
  g_assert_false (hob_symptom_book_next_degree (book, never, late));
  g_assert_false (hob_symptom_book_next_degree (book, late, never));
}

/* A spark is missed by whoever turns the knob; sparks with all knobs off are nobody's. */
static void
some_are_of_what_is_called_for (void)
{
  g_autoptr (HobSymptomBook) book = hob_symptom_book_load (NULL, NULL);

  g_assert_true (
      hob_symptom_book_calls (book, hob_symptom_book_find (book, "sparks-but-no-light")));
  g_assert_false (
      hob_symptom_book_calls (book, hob_symptom_book_find (book, "sparks-all-knobs-off")));
}

/* What is written over several lines is one. */
static void
sentences_are_folded (void)
{
  g_autofree char *name = write_book (
      BOOK ("<symptom id=\"x\"><technician>\n  No  glow \n</technician>"
            "<customer>\tIt\n stays   dark.</customer>"
            "<condition any=\"knob\" stands=\"off\"/></symptom>"));
  g_autoptr (GError) error = NULL;
  g_autoptr (HobSymptomBook) book = hob_symptom_book_load (name, &error);

  g_assert_no_error (error);
  g_assert_cmpstr (hob_symptom_book_get (book, 0)->technician, ==, "No glow");
  g_assert_cmpstr (hob_symptom_book_get (book, 0)->customer, ==, "It stays dark.");
  g_unlink (name);
}

static void
a_missing_book_is_said_to_be_missing (void)
{
  g_autoptr (GError) error = NULL;

  g_assert_null (hob_symptom_book_load ("/no/such/book.xml", &error));
  g_assert_error (error, HOB_ERROR, HOB_ERROR_UNREADABLE);
  g_assert_true (g_str_has_prefix (error->message, "/no/such/book.xml:1: "));
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/symptoms/book/the-shipped-one-is-whole", the_shipped_book_is_whole);
  g_test_add_func ("/symptoms/book/the-shipped-one-is-what-its-file-says",
                   the_shipped_book_is_what_its_file_says);
  g_test_add_func ("/symptoms/book/every-symptom-has-words-for-both",
                   every_symptom_has_words_for_both);
  g_test_add_func ("/symptoms/book/what-conditions-look-at-has-its-hazards",
                   what_conditions_look_at_has_its_hazards);
  g_test_add_func ("/symptoms/book/a-wrong-one-is-refused-at-its-line",
                   a_wrong_book_is_refused_at_its_line);
  g_test_add_func ("/symptoms/book/degrees-follow-each-other", degrees_follow_each_other);
  g_test_add_func ("/symptoms/book/never-is-no-degree-of-late", never_is_no_degree_of_late);
  g_test_add_func ("/symptoms/book/some-are-of-what-is-called-for",
                   some_are_of_what_is_called_for);
  g_test_add_func ("/symptoms/book/sentences-are-folded", sentences_are_folded);
  g_test_add_func ("/symptoms/book/a-missing-one-is-said-to-be-missing",
                   a_missing_book_is_said_to_be_missing);
  return g_test_run ();
}
