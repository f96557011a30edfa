/* SPDX-License-Identifier: GPL-3.0-or-later */

/* The book of symptoms: the shipped one is whole; one that is wrong is refused at its line, in
 * one line. */

#include "base/errors.h"
#include "symptoms/symptoms.h"

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
  { ONE ("", "<condition quantity=\"flame\" at-least=\"1\"/>"), 3, "has no part" },
  { ONE ("each=\"burner-tob\"", "<condition quantity=\"flame\" at-least=\"1\"/>"), 2,
    "burner-top" },
  { ONE ("each=\"burner-top\"", "<condition quantity=\"flames\" at-least=\"1\"/>"), 3,
    "no quantity" },
  { ONE ("each=\"igniter\"", "<condition quantity=\"current\" at-least=\"3 A\"/>"), 3,
    "nobody can see" },
  { ONE ("", "<condition any=\"valve-safety\" quantity=\"opening\" at-least=\"0.5\"/>"), 3,
    "nobody can see" },
  { ONE ("each=\"cavity\"", "<condition quantity=\"air\" at-least=\"350\"/>"), 3,
    "without its unit" },
  { ONE ("each=\"cavity\"", "<condition quantity=\"air\" at-least=\"1,5 K\"/>"), 3,
    "decimal point" },
  { ONE ("each=\"cavity\"", "<condition quantity=\"air\" at-least=\"3 V\"/>"), 3, "unit" },
  { ONE ("each=\"cavity\"", "<condition quantity=\"air\" at-least=\"300 K\" for=\"3 K\"/>"), 3,
    "unit" },
  { ONE ("", "<condition any=\"knob\" stands=\"lit\"/>"), 3, "light" },
  { ONE ("", "<condition any=\"cord\" stands=\"in\"/>"), 3, "no control" },
  { ONE ("each=\"burner-top\"", "<condition caller=\"yes\" quantity=\"travel\" at-least=\"1\"/>"),
    3, "name a kind" },
  { ONE ("hazards=\"flood\"", "<condition any=\"knob\" stands=\"off\"/>"), 2,
    "unknown hazard 'flood'" },
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
  g_test_add_func ("/symptoms/book/every-symptom-has-words-for-both",
                   every_symptom_has_words_for_both);
  g_test_add_func ("/symptoms/book/a-wrong-one-is-refused-at-its-line",
                   a_wrong_book_is_refused_at_its_line);
  g_test_add_func ("/symptoms/book/a-missing-one-is-said-to-be-missing",
                   a_missing_book_is_said_to_be_missing);
  return g_test_run ();
}
