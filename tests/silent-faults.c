/* SPDX-License-Identifier: GPL-3.0-or-later */

/* A fault that nobody would notice is there all the same: each row of tests/silent-faults.ini names
 * a reading, a test or a quantity, that is another one on the faulty range than on the normal one.
 * Where a range has the fault in name only, the row says so, and the reading is the same. */

#include "faulty.h"
#include "run/differ.h"
#include "shipped.h"

typedef struct
{
  char *reading;          /* owned, as the rest; a test has a blank in it, a quantity none */
  char **acts, **in_name; /* NULL: none */
  double at;              /* s */
} Row;

static void
row_clear (Row *row)
{
  g_free (row->reading);
  g_strfreev (row->acts);
  g_strfreev (row->in_name);
}
G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (Row, row_clear)

static Row
row_of (GKeyFile *table, const char *group)
{
  Row row = { .reading = g_key_file_get_string (table, group, "reading", NULL),
              .acts = g_key_file_get_string_list (table, group, "acts", NULL, NULL),
              .in_name = g_key_file_get_string_list (table, group, "in-name-only", NULL, NULL),
              .at = g_key_file_get_double (table, group, "at", NULL) };

  return row;
}

/* The first part that has the fault, "PART:FAULT"; NULL. (transfer full) */
static char *
fault_in (const char *name, const char *kind_fault)
{
  g_autoptr (HobRange) range = shipped_range (name);
  g_auto (GStrv) halves = g_strsplit (kind_fault, ":", 2);

  for (int p = 0; p < range->n_parts; p++)
    {
      int fault = hob_kind_fault (range->parts[p].kind, halves[1]);

      if (g_str_equal (range->parts[p].kind->name, halves[0]) && fault >= 0
          && hob_range_has_fault (range, p, fault))
        return g_strdup_printf ("%s:%s", range->parts[p].id, halves[1]);
    }
  return NULL;
}

static double
take (const char *range, const Row *row, const char *fault, HobDimension *dim)
{
  g_auto (Faulty) f = SHIPPED (range, fault);
  HobTest *test;
  int part, quantity;

  for (char **act = row->acts; act != NULL && *act != NULL; act++)
    faulty_add (&f, WORDS (*act));
  if (strchr (row->reading, ' ') == NULL)
    {
      g_assert_true (hob_range_find_quantity (f.range, row->reading, &part, &quantity, NULL));
      *dim = f.range->parts[part].kind->quantities[quantity].dim;
      return at (&f, row->at, row->reading);
    }
  test = hob_test_parse (f.range, row->reading, NULL);
  g_assert_nonnull (test);
  *dim = hob_test_dimension (test);
  hob_test_free (test);
  return meter (&f, row->at, row->reading);
}

/* What counts as a difference of energy is for gas that goes off; a spark has half a thousandth of
 * a joule. */
static gboolean
is_another (double a, double b, HobDimension dim)
{
  return dim == HOB_DIM_ENERGY ? fabs (a - b) > 0.1 * fmax (fabs (a), fabs (b))
                               : hob_differs (a, b, dim);
}

static void
check_row (const Row *row, const char *group, const char *range)
{
  g_autofree char *fault = fault_in (range, group);
  gboolean in_name = row->in_name != NULL
                     && g_strv_contains ((const char *const *)row->in_name, range);
  HobDimension dim;
  double with, without;

  g_assert_nonnull (fault);
  with = take (range, row, fault, &dim);
  without = take (range, row, NULL, &dim);
  g_test_message ("%s %s, %s: %g, normal %g", range, fault, row->reading, with, without);
  if (in_name != !is_another (with, without, dim))
    {
      g_test_message ("^ %s", in_name ? "it differs" : "it does not differ");
      g_test_fail ();
    }
}

static gboolean
has (const char *range, const char *group)
{
  g_autofree char *fault = fault_in (range, group);

  return fault != NULL;
}

static void
each_silent_fault_has_its_reading (void)
{
  g_autoptr (GKeyFile) table = silent_faults ();
  g_auto (GStrv) groups = g_key_file_get_groups (table, NULL), shipped = shipped_ranges ();

  for (char **group = groups; *group != NULL; group++)
    {
      g_auto (Row) row = row_of (table, *group);

      if (row.reading == NULL)
        {
          g_test_message ("[%s] names no reading", *group);
          g_test_fail ();
          continue;
        }
      for (char **range = shipped; *range != NULL; range++)
        if (silent_fault_in (table, *group, *range) && has (*range, *group))
          check_row (&row, *group, *range);
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/silent-faults/each-has-its-reading", each_silent_fault_has_its_reading);
  return g_test_run ();
}
