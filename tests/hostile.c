/* SPDX-License-Identifier: GPL-3.0-or-later */

/* Bad files: tests/hostile/NAME.xml, and in NAME.expected the exit status of `hob check` and
 * every line it says. Those that are no text or too large to keep are made here.  --update writes
 * what is said now: read the diff. */

#include "base/errors.h"
#include "config.h"
#include "range/range.h"

#include <glib/gstdio.h>
#include <string.h>
#include <sys/resource.h>
#include <time.h>

/* A guard against a program that never ends, far above what the slowest takes (see "ten thousand
 * parts"). */
#define GUARD 20.0 /* s */

static gboolean update;

/* "STATUS\nLINE\nLINE\n": what checking @file comes to. (transfer full) */
static char *
verdict (const char *file)
{
  g_autoptr (GPtrArray) findings
      = g_ptr_array_new_with_free_func ((GDestroyNotify) hob_finding_free);
  g_autoptr (GError) error = NULL;
  g_autoptr (GTimer) timer = g_timer_new ();
  g_autoptr (HobRange) range = hob_range_load (file, findings, &error);
  GString *said = g_string_new (NULL);

  g_assert_true ((range == NULL) == (error != NULL));
  g_string_append_printf (said, "%d\n", hob_error_exit_status (error));
  for (guint i = 0; i < findings->len; i++)
    {
      g_autofree char *text = hob_finding_text (findings->pdata[i]);

      g_string_append_printf (said, "%s\n", text);
    }
  if (error != NULL && error->code == HOB_ERROR_UNREADABLE)
    g_string_append_printf (said, "%s\n", error->message);
  g_assert_cmpfloat (g_timer_elapsed (timer, NULL), <, GUARD);
  return g_string_free (said, FALSE);
}

static void
assert_says (const char *file, const char *wanted)
{
  g_autofree char *said = verdict (file);

  g_assert_cmpstr (said, ==, wanted);
}

/* ---- The folder ---- */

static void
it_is_told_what_is_wrong (gconstpointer data)
{
  const char *name = data;
  g_autofree char *file = g_strconcat (name, ".xml", NULL),
                  *expected = g_strconcat (name, ".expected", NULL);
  g_autofree char *said = verdict (file), *wanted = NULL;
  g_autoptr (GError) error = NULL;

  if (update)
    g_file_set_contents (expected, said, -1, &error);
  else if (g_file_get_contents (expected, &wanted, NULL, &error))
    g_assert_cmpstr (said, ==, wanted);
  g_assert_no_error (error);
}

static void
add_folder (void)
{
  g_autoptr (GDir) folder = g_dir_open (".", 0, NULL);
  const char *name;
  guint n = 0;

  g_assert_nonnull (folder);
  while ((name = g_dir_read_name (folder)) != NULL)
    {
      g_autofree char *stem = NULL, *path = NULL;

      if (!g_str_has_suffix (name, ".xml"))
        continue;
      stem = g_strndup (name, strlen (name) - 4);
      path = g_strconcat ("/hostile/file/", stem, NULL);
      g_test_add_data_func_full (path, g_steal_pointer (&stem), it_is_told_what_is_wrong, g_free);
      n++;
    }
  g_assert_cmpuint (n, >=, 30);
}

/* ---- Made here ---- */

static void
a_missing_file_is_named (void)
{
  assert_says ("nowhere.xml",
               "2\nnowhere.xml:1: can't be read: No such file or directory; give the name of a "
               "range or a case\n");
}

static void
a_shipped_range_misspelt_gets_its_near_miss (void)
{
  assert_says (
      "dail-four",
      "2\ndail-four:1: can't be read: No such file or directory; did you mean 'dial-four'?\n");
}

static void
a_directory_is_no_range (void)
{
  g_autofree char *folder = g_dir_make_tmp ("hobXXXXXX", NULL);
  g_autofree char *wanted
      = g_strdup_printf ("2\n%s:1: can't be read: Is a directory; give the name of a range or a "
                         "case\n",
                         folder);

  assert_says (folder, wanted);
  g_rmdir (folder);
}

/* Writes @size bytes to a file of its own, judges it and takes it away; "FILE" in @wanted is its
 * name. */
static void
assert_bytes_say (const char *bytes, gssize size, const char *wanted)
{
  g_autofree char *folder = g_dir_make_tmp ("hobXXXXXX", NULL),
                  *file = g_build_filename (folder, "made.xml", NULL);
  g_autofree char *said = NULL;
  g_autoptr (GError) error = NULL;

  g_file_set_contents (file, bytes, size, &error);
  g_assert_no_error (error);
  said = verdict (file);
  g_remove (file);
  g_rmdir (folder);
  if (wanted != NULL)
    {
      GString *with_name = g_string_new (wanted);

      g_string_replace (with_name, "FILE", file, 0);
      g_assert_cmpstr (said, ==, with_name->str);
      g_string_free (with_name, TRUE);
    }
}

static void
bytes_of_nought_are_no_text (void)
{
  static const char bytes[] = "<range format=\"1\"\n id=\"a\0b\"/>";

  assert_bytes_say (bytes, sizeof bytes - 1,
                    "2\nFILE:2: the file has a NUL byte; save it as UTF-8 text\n");
}

static void
another_encoding_is_refused (void)
{
  static const char latin[] = "<range format=\"1\" id=\"a\" plate=\"lp\"\n name=\"caf\xe9\"/>";
  static const char wide[] = "\xff\xfe<\0r\0a\0n\0g\0e\0/\0>\0";

  assert_bytes_say (latin, -1, "2\nFILE:2: the file isn't UTF-8; save it as UTF-8 text\n");
  assert_bytes_say (wide, sizeof wide - 1,
                    "2\nFILE:1: the file isn't UTF-8; save it as UTF-8 text\n");
}

static void
too_large_a_file_is_not_read (void)
{
  gsize size = (64u << 20) + (1u << 17);
  g_autofree char *bytes = g_malloc (size);

  memset (bytes, ' ', size);
  assert_bytes_say (bytes, (gssize) size,
                    "2\nFILE:1: the file is larger than 64 MiB; make it smaller\n");
}

static void
an_endless_stream_is_not_read (void)
{
  if (!g_file_test ("/dev/zero", G_FILE_TEST_EXISTS))
    return;
  assert_says ("/dev/zero",
               "2\n/dev/zero:1: the file is larger than 64 MiB; make it smaller\n");
}

static void
a_value_may_be_long_but_is_quoted_short (void)
{
  GString *xml = g_string_new ("<range format=\"1\" id=\"x\" name=\"x\" plate=\"");
  g_autofree char *said = NULL, *folder = g_dir_make_tmp ("hobXXXXXX", NULL);
  g_autofree char *file = g_build_filename (folder, "long.xml", NULL);
  g_autoptr (GError) error = NULL;

  for (int i = 0; i < 4000; i++)
    g_string_append_c (xml, 'x');
  g_string_append (xml, "\"/>");
  g_file_set_contents (file, xml->str, -1, &error);
  g_assert_no_error (error);
  said = verdict (file);
  g_remove (file);
  g_rmdir (folder);
  g_string_free (xml, TRUE);
  g_assert_true (g_str_has_prefix (said, "1\n"));
  g_assert_cmpuint (strlen (said), <, 2000);
}

static void
nesting_without_end_is_refused (void)
{
  GString *xml = g_string_new ("<range format=\"1\" id=\"x\" name=\"x\" plate=\"lp\">\n");

  for (int i = 0; i < 100000; i++)
    g_string_append (xml, "<part>");
  assert_bytes_say (xml->str, -1,
                    "2\nFILE:2: elements are nested more than 200 levels deep; use fewer levels\n");
  g_string_free (xml, TRUE);
}

/* ---- Files made to keep the program busy ---- */

#define BUSY (64u << 20) /* bytes: as many as are read */
#define ENOUGH 2.0       /* s, of processor time */
#define MOST_MEMORY 500  /* MiB, beyond what the test itself holds */

static long
peak_memory (void)
{
  struct rusage usage;

  g_assert_cmpint (getrusage (RUSAGE_SELF, &usage), ==, 0);
  return usage.ru_maxrss / 1024;
}

/* @head, then @again as often as it fits, then @tail. */
static void
assert_answered (const char *head, const char *again, const char *tail, const char *wanted)
{
  GString *xml = g_string_sized_new (BUSY + 1);
  g_autoptr (GPtrArray) findings
      = g_ptr_array_new_with_free_func ((GDestroyNotify) hob_finding_free);
  g_autoptr (GError) error = NULL;
  long before;
  clock_t start;
  double seconds;

  g_string_append (xml, head);
  while (xml->len + strlen (again) + strlen (tail) <= BUSY)
    g_string_append (xml, again);
  g_string_append (xml, tail);
  before = peak_memory ();
  start = clock ();
  g_assert_null (hob_range_load_memory (xml->str, xml->len, "busy.xml", findings, &error));
  seconds = (double) (clock () - start) / CLOCKS_PER_SEC;
  g_string_free (xml, TRUE);
  g_test_message ("%.20s: %.2f s, %ld MiB: %s", again, seconds, peak_memory () - before,
                  error->message);
  g_assert_cmpstr (error->message, ==, wanted);
  g_assert_cmpfloat (seconds, <, ENOUGH);
  g_assert_cmpint (peak_memory () - before, <, MOST_MEMORY);
}

#define TEN(x) x x x x x x x x x x
#define HUNDRED(x) TEN (TEN (x))
#define RANGE "<range format=\"1\" id=\"x\" name=\"x\" plate=\"lp\">\n"

static void
a_file_made_of_one_thing_is_answered_at_once (void)
{
  static const char *const of_pieces
      = "busy.xml:2: the file has more than 300000 elements and attributes; use fewer";
  static const char *const long_tag
      = "busy.xml:2: a tag has more than 65536 bytes; make it shorter";
  static const char *const long_text
      = "busy.xml:2: a block of text has more than 1000000 bytes; make it shorter";

  assert_answered (RANGE, "<x/>", "</range>", of_pieces);
  assert_answered (RANGE, "<!---->", "</range>", of_pieces);
  assert_answered (RANGE, "<?x?>", "</range>", of_pieces);
  assert_answered (RANGE, "<x a=\"\"/>", "</range>", of_pieces);
  assert_answered (RANGE "<part a=\"1\" b=\"1\" ", "a=\"1\" ", "/></range>", long_tag);
  assert_answered (RANGE, "<part " HUNDRED ("a=\"1\" ") "/>", "</range>",
                   "busy.xml:2: an element has more than 64 attributes; use fewer");
  assert_answered (RANGE "<part id=\"", "&lt;", "\"/></range>", long_tag);
  assert_answered (RANGE, "<part id=\"" HUNDRED (HUNDRED ("x")) "\"/>", "</range>",
                   "busy.xml:2: an attribute has more than 4096 bytes; make it shorter");
  assert_answered (RANGE "<note>", "words ", "</note></range>", long_text);
  assert_answered (RANGE "<note>", "&#10;", "</note></range>", long_text);
  assert_answered (RANGE "<note><![CDATA[", "words ", "]]></note></range>", long_text);
  assert_answered (RANGE, " ", "</range>", long_text);
  assert_answered (RANGE, "<a", ">", long_tag);
}

/* ---- Ten thousand parts ---- */

/* A shipped range with a chain of @n splices on its neutral. (transfer full) */
static char *
long_range (int n, const char *kind)
{
  g_autofree char *file = hob_range_locate ("dial-four"), *text = NULL;
  GString *xml;
  char *end;

  g_assert_true (g_file_get_contents (file, &text, NULL, NULL));
  end = g_strrstr (text, "</range>");
  xml = g_string_new_len (text, end - text);
  for (int i = 0; i < n; i++)
    {
      g_autofree char *before = i > 0 ? g_strdup_printf ("j%d", i - 1) : g_strdup ("neutral");

      g_string_append_printf (xml, "<part id=\"j%d\" kind=\"%s\"/>\n", i, kind);
      g_string_append_printf (xml, "<wire id=\"wj%d\" from=\"j%d.at\" to=\"%s.at\"", i, i, before);
      g_string_append (xml, " colour=\"WH\" gauge=\"18 AWG\" length=\"0.1 m\"/>\n");
    }
  g_string_append (xml, "</range>\n");
  return g_string_free (xml, FALSE);
}

static double
seconds_to_check (const char *xml, guint *n_findings)
{
  g_autoptr (GPtrArray) findings
      = g_ptr_array_new_with_free_func ((GDestroyNotify) hob_finding_free);
  g_autoptr (GTimer) timer = g_timer_new ();
  HobRange *range = hob_range_load_memory (xml, strlen (xml), "long.xml", findings, NULL);

  if (range != NULL)
    hob_range_unref (range);
  *n_findings = findings->len;
  return g_timer_elapsed (timer, NULL);
}

static void
ten_thousand_parts_are_checked_at_once (void)
{
  g_autofree char *xml = long_range (10000, "junction");
  guint n;
  double seconds = seconds_to_check (xml, &n);

  g_test_message ("10,000 parts: %.3f s", seconds);
  g_assert_cmpuint (n, ==, 2); /* too many parts, too many wires */
  g_assert_cmpfloat (seconds, <, GUARD);
}

static void
ten_thousand_mistakes_are_told_at_once (void)
{
  g_autofree char *xml = long_range (10000, "jumction");
  guint n;
  double seconds = seconds_to_check (xml, &n);

  g_test_message ("10,000 unknown kinds: %.3f s", seconds);
  g_assert_cmpuint (n, ==, 10001); /* and too many parts */
  g_assert_cmpfloat (seconds, <, GUARD);
}

/* Ten times the parts cost about ten times the time: 40 leaves room for a busy machine, and a
 * table searched from its beginning for every wire would take 100. */
static void
the_time_grows_with_the_parts (void)
{
  g_autofree char *some = long_range (2000, "junction"), *many = long_range (20000, "junction");
  double least[2] = { G_MAXDOUBLE, G_MAXDOUBLE };
  guint n;

  for (int k = 0; k < 3; k++)
    {
      least[0] = MIN (least[0], seconds_to_check (some, &n));
      least[1] = MIN (least[1], seconds_to_check (many, &n));
    }
  g_test_message ("2,000 parts %.4f s, 20,000 parts %.4f s", least[0], least[1]);
  g_assert_cmpfloat (least[1], <, 40 * least[0]);
}

/* ---- What is allowed ---- */

static void
repeat (GString *xml, const char *piece, guint64 n)
{
  while (n-- > 0)
    g_string_append (xml, piece);
}

static void
file_of (GString *xml, guint64 n)
{
  g_string_append (xml, "<range/>");
  g_string_set_size (xml, n);
  memset (xml->str + 8, ' ', n - 8);
}

static void
elements (GString *xml, guint64 n)
{
  g_string_append (xml, "<range>");
  repeat (xml, "<a></a>", n - 1);
  g_string_append (xml, "</range>");
}

static void
attributes (GString *xml, guint64 n)
{
  g_string_append (xml, "<range");
  for (guint64 k = 0; k < n; k++)
    g_string_append_printf (xml, " a%" G_GUINT64_FORMAT "='1'", k);
  g_string_append (xml, "/>");
}

static void
tag_of (GString *xml, guint64 n)
{
  g_string_append (xml, "<range");
  repeat (xml, " ", n - strlen ("<range/>"));
  g_string_append (xml, "/>");
}

static void
value_of (GString *xml, guint64 n)
{
  g_string_append (xml, "<range a='");
  repeat (xml, "x", n);
  g_string_append (xml, "'/>");
}

static void
text_of (GString *xml, guint64 n)
{
  g_string_append (xml, "<range>");
  repeat (xml, "x", n);
  g_string_append (xml, "</range>");
}

static void
levels (GString *xml, guint64 n)
{
  repeat (xml, "<a>", n);
  repeat (xml, "</a>", n);
}

/* (transfer full) why a file of @n of them is no range */
static char *
refusal (void (*make) (GString *xml, guint64 n), guint64 n)
{
  g_autoptr (GString) xml = g_string_new (NULL);
  g_autoptr (GError) error = NULL;
  g_autoptr (HobRange) range = NULL;

  make (xml, n);
  range = hob_range_load_memory (xml->str, xml->len, "x.xml", NULL, &error);
  g_assert_null (range);
  return g_strdup (error->message);
}

/* Each limit is where its sentence says: so many pass, and one more does not. */
static void
as_many_are_allowed_as_is_said (void)
{
  static const struct
  {
    void (*make) (GString *xml, guint64 n);
    guint64 many, unit;
    const char *sentence; /* up to the number */
  } limits[] = {
    { file_of, 70u << 20, 1u << 20, "the file is larger than " },
    { elements, 1000000, 1, "the file has more than " },
    { attributes, 1000, 1, "an element has more than " },
    { tag_of, 1000000, 1, "a tag has more than " },
    { value_of, 60000, 1, "an attribute has more than " },
    { text_of, 10000000, 1, "a block of text has more than " },
    { levels, 1000, 1, "elements are nested more than " },
  };

  for (guint k = 0; k < G_N_ELEMENTS (limits); k++)
    {
      g_autofree char *many = refusal (limits[k].make, limits[k].many), *enough = NULL,
                      *more = NULL;
      const char *number = strstr (many, limits[k].sentence);
      guint64 allowed;

      g_assert_nonnull (number);
      allowed = limits[k].unit
                * g_ascii_strtoull (number + strlen (limits[k].sentence), NULL, 10);
      g_test_message ("%s: %" G_GUINT64_FORMAT, limits[k].sentence, allowed);
      g_assert_cmpuint (allowed, >, 8);
      enough = refusal (limits[k].make, allowed);
      g_assert_null (strstr (enough, limits[k].sentence));
      more = refusal (limits[k].make, allowed + 1);
      g_assert_nonnull (strstr (more, limits[k].sentence));
    }
}

int
main (int argc, char **argv)
{
  update = argc > 1 && g_str_equal (argv[1], "--update");
  g_test_init (&argc, &argv, NULL);
  g_assert_cmpint (g_chdir (HOB_SOURCE_DIR "/tests/hostile"), ==, 0);
  add_folder ();
  g_test_add_func ("/hostile/a missing file is named", a_missing_file_is_named);
  g_test_add_func ("/hostile/a shipped range misspelt gets its near miss",
                   a_shipped_range_misspelt_gets_its_near_miss);
  g_test_add_func ("/hostile/a directory is no range", a_directory_is_no_range);
  g_test_add_func ("/hostile/bytes of nought are no text", bytes_of_nought_are_no_text);
  g_test_add_func ("/hostile/another encoding is refused", another_encoding_is_refused);
  g_test_add_func ("/hostile/too large a file is not read", too_large_a_file_is_not_read);
  g_test_add_func ("/hostile/a file made of one thing is answered at once",
                   a_file_made_of_one_thing_is_answered_at_once);
  g_test_add_func ("/hostile/an endless stream is not read", an_endless_stream_is_not_read);
  g_test_add_func ("/hostile/as many are allowed as is said", as_many_are_allowed_as_is_said);
  g_test_add_func ("/hostile/a value may be long but is quoted short",
                   a_value_may_be_long_but_is_quoted_short);
  g_test_add_func ("/hostile/nesting without end is refused", nesting_without_end_is_refused);
  g_test_add_func ("/hostile/ten thousand parts are checked at once",
                   ten_thousand_parts_are_checked_at_once);
  g_test_add_func ("/hostile/ten thousand mistakes are told at once",
                   ten_thousand_mistakes_are_told_at_once);
  g_test_add_func ("/hostile/the time grows with the parts", the_time_grows_with_the_parts);
  return g_test_run ();
}
