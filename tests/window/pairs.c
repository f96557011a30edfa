/* SPDX-License-Identifier: GPL-3.0-or-later */

/* Symptoms that say to stop using the range, each with smells of gas, in the real program: whatever
 * assistive tools read there never has a person do what another line on the screen forbids.  The
 * cases are those of tests/pairs.ini; HOB_FULL=1 takes all of them. */

#include "outside.h"

#include "run/run.h"
#include "symptoms/symptoms.h"

#include <string.h>

#define STOP HOB_HAZARD_BIT (HOB_HAZARD_STOP_USING)
#define SMELL (HOB_HAZARD_BIT (HOB_HAZARD_GAS_STRONG) | HOB_HAZARD_BIT (HOB_HAZARD_GAS_FAINT))
#define A_SECOND 20 /* naps */
#define MOST_EVENTS 60 /* by then both symptoms have begun in every case */

static HobSymptomBook *book;

/* ---- What assistive tools read ---- */

static void
gather (AtspiAccessible *node, AtspiRole role, GPtrArray *names)
{
  int n;

  atspi_accessible_clear_cache (node);
  if (atspi_accessible_get_role (node, NULL) == role)
    g_ptr_array_add (names, atspi_accessible_get_name (node, NULL));
  n = atspi_accessible_get_child_count (node, NULL);
  for (int i = 0; i < n; i++)
    {
      g_autoptr (AtspiAccessible) child = atspi_accessible_get_child_at_index (node, i, NULL);

      if (child != NULL)
        gather (child, role, names);
    }
}

/* Names of all that has @role, in order. (transfer full) */
static GPtrArray *
names_of (AtspiAccessible *node, AtspiRole role)
{
  GPtrArray *names = g_ptr_array_new_with_free_func (g_free);

  gather (node, role, names);
  return names;
}

static int
count_text (const GPtrArray *names, const char *text)
{
  int n = 0;

  for (guint i = 0; i < names->len; i++)
    n += strstr (names->pdata[i], text) != NULL;
  return n;
}

/* ---- The program at work ---- */

typedef struct
{
  Outside program;
  AtspiAccessible *clock, *run, *next, *symptoms, *strip; /* owned */
} Window;

static AtspiAccessible *
find_clock (AtspiAccessible *node)
{
  g_autofree char *name = atspi_accessible_get_name (node, NULL);
  int n = atspi_accessible_get_child_count (node, NULL);

  if (name != NULL && g_regex_match_simple ("^\\d+:\\d\\d:\\d\\d\\.\\d$", name, 0, 0))
    return g_object_ref (node);
  for (int i = 0; i < n; i++)
    {
      g_autoptr (AtspiAccessible) child = atspi_accessible_get_child_at_index (node, i, NULL);
      AtspiAccessible *found = child != NULL ? find_clock (child) : NULL;

      if (found != NULL)
        return found;
    }
  return NULL;
}

static Window
open_case (const char *words)
{
  g_autofree char *line = g_strconcat ("hobwright ", words, NULL);
  g_auto (GStrv) argv = NULL;
  Window w = { 0 };

  g_assert_true (g_shell_parse_argv (line, NULL, &argv, NULL));
  g_free (argv[0]);
  argv[0] = g_strdup (outside_program);
  w.program = outside_start ((const char *const *) argv);
  w.run = outside_wait_find (w.program.root, ATSPI_ROLE_PUSH_BUTTON, "Pause");
  outside_do_action (w.run, "click");
  w.next = outside_wait_find (w.program.root, ATSPI_ROLE_PUSH_BUTTON, "Next Event");
  w.symptoms = outside_wait_find (w.program.root, ATSPI_ROLE_LIST, "Symptoms");
  w.strip = outside_wait_find (w.program.root, ATSPI_ROLE_ALERT, NULL); /* named by its caution */
  w.clock = find_clock (w.program.root);
  g_assert_nonnull (w.clock);
  return w;
}

static void
close_case (Window *w)
{
  g_clear_object (&w->clock);
  g_clear_object (&w->run);
  g_clear_object (&w->next);
  g_clear_object (&w->symptoms);
  g_clear_object (&w->strip);
  outside_finish (&w->program);
}

static char *
clock_text (Window *w)
{
  atspi_accessible_clear_cache (w->clock);
  return atspi_accessible_get_name (w->clock, NULL);
}

static gboolean
is_called (AtspiAccessible *node, const char *name)
{
  g_autofree char *is = NULL;

  atspi_accessible_clear_cache (node);
  is = atspi_accessible_get_name (node, NULL);
  return g_strcmp0 (is, name) == 0;
}

/* The clock moves when the window has arrived.  An event in the same tenth of a second doesn't move
 * it: then the button that runs and pauses says that the window has nothing to do. */
static void
go_to_next_event (Window *w)
{
  g_autofree char *from = clock_text (w);

  outside_do_action (w->next, "click");
  for (int i = 0; i < OUTSIDE_PATIENCE; i++)
    {
      outside_nap ();
      if (!is_called (w->clock, from) || (i > A_SECOND && is_called (w->run, "Run")))
        return;
    }
  g_error ("no event after %s within a minute", from);
}

/* "%s. Since %s" or, with what it takes to notice the symptom, "%s (with a meter). Since %s". */
static gboolean
is_there (const char *row, const char *symptom)
{
  const char *at = strstr (row, symptom), *rest = at != NULL ? at + strlen (symptom) : "";

  if (g_str_has_prefix (rest, " (") && strchr (rest, ')') != NULL)
    rest = strchr (rest, ')') + 1;
  return g_str_has_prefix (rest, ". Since ");
}

/* What the symptoms that are there now name. */
static HobHazards
named_now (Window *w)
{
  g_autoptr (GPtrArray) rows = names_of (w->symptoms, ATSPI_ROLE_LIST_ITEM);
  HobHazards named = 0;

  for (int s = 0; s < hob_symptom_book_size (book); s++)
    {
      const HobSymptom *symptom = hob_symptom_book_get (book, s);

      for (guint k = 0; k < rows->len; k++)
        if (is_there (rows->pdata[k], symptom->technician))
          named |= symptom->hazards;
    }
  return named;
}

/* The part of the first fault, so that its panel says how faults are confirmed. */
static void
choose_part (Window *w, const char *label)
{
  g_autoptr (AtspiAccessible) tab = NULL, list = NULL, row = NULL;
  g_autoptr (AtspiSelection) selection = NULL;

  tab = outside_wait_find (w->program.root, ATSPI_ROLE_PAGE_TAB, "All Parts");
  outside_do_action (tab, "click");
  row = outside_wait_find (w->program.root, ATSPI_ROLE_LIST_ITEM, label);
  list = atspi_accessible_get_parent (row, NULL);
  selection = atspi_accessible_get_selection_iface (list);
  g_assert_nonnull (selection);
  g_assert_true (atspi_selection_select_child (
      selection, atspi_accessible_get_index_in_parent (row, NULL), NULL));
}

/* ---- What must be so ---- */

static guint
count_labels (AtspiAccessible *node)
{
  g_autoptr (GPtrArray) labels = names_of (node, ATSPI_ROLE_LABEL);

  return labels->len;
}

/* Opens "More Cautions", where there are more, and waits for them; where there are none, the button
 * is not in the tree. */
static void
show_more_cautions (Window *w)
{
  g_autoptr (AtspiAccessible) more
      = outside_find (w->strip, ATSPI_ROLE_PUSH_BUTTON, "More Cautions");
  guint before = count_labels (w->strip);

  if (more == NULL)
    return;
  outside_do_action (more, "click");
  for (int i = 0; i < OUTSIDE_PATIENCE && count_labels (w->strip) == before; i++)
    outside_nap ();
  g_assert_cmpuint (count_labels (w->strip), >, before);
}

/* The cautions of the strip and of what it opens: a bit for each, in the table's order. */
static HobHazards
cautions_shown (const GPtrArray *labels)
{
  HobHazards shown = 0;
  int before = -1;

  for (guint i = 0; i < labels->len; i++)
    for (int h = 0; h < HOB_N_HAZARDS; h++)
      if (strstr (labels->pdata[i], hob_hazards[h].text) != NULL)
        {
          g_assert_cmpint (h, >, before);
          before = h;
          shown |= HOB_HAZARD_BIT (h);
        }
  return shown;
}

/* Nothing has a person pull a plug, switch or light something, but to say "don't". */
static void
expect_no_spark (const GPtrArray *labels, HobHazard gas)
{
  static const char sparks[] = "\\bunplug|\\bturn (off|on|the breaker)|\\bswitch (it )?o(n|ff)|"
                               "\\bplug in|\\breset it|\\blit match";

  for (guint i = 0; i < labels->len; i++)
    {
      const char *label = labels->pdata[i];

      if (strstr (label, hob_hazards[gas].text) == NULL
          && g_regex_match_simple (sparks, label, G_REGEX_CASELESS, 0))
        g_error ("beside \"%s\": %s", hob_hazards[gas].name, label);
    }
}

/* All that can be read while the clock shows one time. */
typedef struct
{
  HobHazards named; /* by the symptoms that are there */
  GPtrArray *strip; /* labels of the cautions on top; owned */
  GPtrArray *all;   /* labels of the whole window; owned */
} Page;

static Page
read_page (Window *w)
{
  Page page = { 0 };
  g_autofree char *at = NULL;

  do
    {
      g_clear_pointer (&page.strip, g_ptr_array_unref);
      g_clear_pointer (&page.all, g_ptr_array_unref);
      g_free (at);
      at = clock_text (w);
      page.named = named_now (w);
      page.strip = names_of (w->strip, ATSPI_ROLE_LABEL);
      page.all = names_of (w->program.root, ATSPI_ROLE_LABEL);
    }
  while (!is_called (w->clock, at));
  return page;
}

static void
expect_no_contradiction (const Page *page)
{
  HobHazards shown = cautions_shown (page->strip), all = HOB_HAZARD_BIT (HOB_N_HAZARDS) - 1;
  gboolean safe = hob_hazards_make_safe (shown) == NULL;

  /* What the window computes beyond the symptoms may silence them; nothing else may. */
  g_assert_cmphex (shown & all, ==, hob_hazards_shown (page->named | shown) & all);
  for (int h = 0; h < HOB_N_HAZARDS; h++)
    g_assert_cmpint (count_text (page->all, hob_hazards[h].text), <=, 1);
  if (shown & HOB_HAZARD_BIT (HOB_HAZARD_GAS_STRONG))
    expect_no_spark (page->all, HOB_HAZARD_GAS_STRONG);
  g_assert_cmpint (count_text (page->all, "How to confirm") > 0, ==, safe);
  g_assert_cmpint (count_text (page->all, "First make it safe.") > 0, ==, !safe);
}

/* ---- Tests ---- */

static gboolean
both (HobHazards named)
{
  return (named & STOP) && (named & SMELL);
}

/* What a case's first fault is of, by the name that the window has for it. */
static char *
label_of (const char *words)
{
  g_auto (GStrv) word = g_strsplit (words, " ", 4);
  g_autofree char *file = hob_range_locate (word[0]);
  g_autoptr (HobRange) range = hob_range_load (file, NULL, NULL);
  g_autofree char *id = g_strndup (word[2], strcspn (word[2], ":"));

  g_assert_nonnull (range);
  g_assert_cmpstr (word[1], ==, "--fault");
  return g_strdup (hob_part_label (&range->parts[hob_range_part (range, id)]));
}

static void
a_pair_contradicts_nothing (gconstpointer data)
{
  const char *words = data;
  g_autofree char *label = label_of (words);
  Window w = open_case (words);
  HobHazards named = named_now (&w);
  Page page;

  choose_part (&w, label);
  for (int i = 0; i < MOST_EVENTS && !both (named); i++)
    {
      go_to_next_event (&w);
      named = named_now (&w);
    }
  show_more_cautions (&w);
  page = read_page (&w);
  g_assert_true (both (page.named));
  expect_no_contradiction (&page);
  g_ptr_array_unref (page.strip);
  g_ptr_array_unref (page.all);
  close_case (&w);
}

static GKeyFile *
read_pairs (void)
{
  g_autofree char *file = g_build_filename (HOB_SOURCE_DIR, "tests", "pairs.ini", NULL);
  GKeyFile *pairs = g_key_file_new ();
  g_autoptr (GError) error = NULL;

  g_key_file_load_from_file (pairs, file, G_KEY_FILE_NONE, &error);
  g_assert_no_error (error);
  return pairs;
}

static void
add_pair (GKeyFile *pairs, const char *stop, const char *smell)
{
  g_autofree char *path = g_strdup_printf ("/window/pairs/%s/%s", stop, smell);
  g_autofree char *first = g_key_file_get_string (pairs, "stop", stop, NULL);
  g_autofree char *second = g_key_file_get_string (pairs, "smells", smell, NULL);

  g_test_add_data_func_full (path, g_strconcat (first, " ", second, NULL),
                             a_pair_contradicts_nothing, g_free);
}

/* All pairs, or each smell with one symptom to stop for, spread over the list. */
static void
add_pairs (gboolean full)
{
  g_autoptr (GKeyFile) pairs = read_pairs ();
  gsize n_stops, n_smells;
  g_auto (GStrv) stops = g_key_file_get_keys (pairs, "stop", &n_stops, NULL);
  g_auto (GStrv) smells = g_key_file_get_keys (pairs, "smells", &n_smells, NULL);

  for (gsize i = 0; i < n_stops; i++)
    for (gsize k = 0; k < n_smells; k++)
      if (full || i == k * n_stops / n_smells)
        add_pair (pairs, stops[i], smells[k]);
}

int
main (int argc, char **argv)
{
  g_autoptr (GError) error = NULL;
  int result;

  outside_init (&argc, &argv);
  book = hob_symptom_book_load (NULL, &error);
  g_assert_no_error (error);
  add_pairs (g_getenv ("HOB_FULL") != NULL);
  result = g_test_run ();
  hob_symptom_book_unref (book);
  atspi_exit ();
  return result;
}
