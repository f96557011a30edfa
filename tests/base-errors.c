/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/errors.h"

#include <gio/gio.h>
#include <string.h>

static const struct
{
  HobError code;
  int status;
} statuses[] = {
  { HOB_ERROR_USAGE, 2 },  { HOB_ERROR_UNREADABLE, 2 }, { HOB_ERROR_FINDING, 1 },
  { HOB_ERROR_NAME, 1 },   { HOB_ERROR_VALUE, 2 },      { HOB_ERROR_NO_ANSWER, 1 },
  { HOB_ERROR_OUTPUT, 2 }, { HOB_ERROR_IMPOSSIBLE, 1 },
};

static void
every_error_has_its_exit_status (void)
{
  for (guint i = 0; i < G_N_ELEMENTS (statuses); i++)
    {
      g_autoptr (GError) error = g_error_new_literal (HOB_ERROR, statuses[i].code, "x");

      g_assert_cmpint (hob_error_exit_status (error), ==, statuses[i].status);
    }
  g_assert_cmpint (G_N_ELEMENTS (statuses), ==, HOB_ERROR_IMPOSSIBLE + 1);
}

static void
no_error_is_zero (void)
{
  g_assert_cmpint (hob_error_exit_status (NULL), ==, 0);
}

static void
a_foreign_error_is_two (void)
{
  g_autoptr (GError) foreign = g_error_new_literal (G_FILE_ERROR, G_FILE_ERROR_NOENT, "x");
  g_autoptr (GError) unknown = g_error_new_literal (HOB_ERROR, 999, "x");
  g_autoptr (GError) negative = g_error_new_literal (HOB_ERROR, -1, "x");

  g_assert_cmpint (hob_error_exit_status (foreign), ==, 2);
  g_assert_cmpint (hob_error_exit_status (unknown), ==, 2);
  g_assert_cmpint (hob_error_exit_status (negative), ==, 2);
}

static const char *const kinds[]
    = { "igniter-flat", "igniter-round", "safety-valve", "cavity", "burner", NULL };

static void
a_slip_of_the_finger_finds_the_name (void)
{
  g_assert_cmpstr (hob_near_miss ("ignitor-flat", kinds), ==, "igniter-flat"); /* substituted */
  g_assert_cmpstr (hob_near_miss ("ignter-flat", kinds), ==, "igniter-flat");  /* left out */
  g_assert_cmpstr (hob_near_miss ("burnner", kinds), ==, "burner");            /* doubled */
  g_assert_cmpstr (hob_near_miss ("cavtiy", kinds), ==, "cavity");             /* exchanged */
  g_assert_cmpstr (hob_near_miss ("Burner", kinds), ==, "burner");             /* capital */
  g_assert_cmpstr (hob_near_miss ("safety_valve", kinds), ==, "safety-valve");
  g_assert_cmpstr (hob_near_miss ("burner", kinds), ==, "burner");
}

static void
the_nearest_wins_and_the_first_of_equals (void)
{
  static const char *const names[] = { "bakes", "baker", "bake-x", NULL };

  g_assert_cmpstr (hob_near_miss ("baked", names), ==, "bakes");
  g_assert_cmpstr (hob_near_miss ("bake-y", names), ==, "bake-x");
}

static void
an_exchange_costs_one (void)
{
  static const char *const names[] = { "ab", NULL };
  static const char *const far[] = { "abcd", NULL };

  g_assert_cmpstr (hob_near_miss ("ba", names), ==, "ab");
  g_assert_null (hob_near_miss ("badc", far)); /* two exchanges in four letters are too many */
}

static void
a_strange_word_finds_nothing (void)
{
  static const char *const none[] = { NULL };
  g_autofree char *endless = g_strnfill (1 << 20, 'a');
  const char *const long_names[] = { endless, "aaaa", NULL };

  g_assert_null (hob_near_miss ("receptacle", kinds));
  g_assert_null (hob_near_miss ("", kinds));
  g_assert_null (hob_near_miss (NULL, kinds));
  g_assert_null (hob_near_miss ("burner", NULL));
  g_assert_null (hob_near_miss ("burner", none));
  g_assert_null (hob_near_miss (endless, kinds));
  g_assert_cmpstr (hob_near_miss ("aaab", long_names), ==, "aaaa");
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/base/errors/every error has its exit status", every_error_has_its_exit_status);
  g_test_add_func ("/base/errors/no error is zero", no_error_is_zero);
  g_test_add_func ("/base/errors/a foreign error is two", a_foreign_error_is_two);
  g_test_add_func ("/base/errors/a slip of the finger finds the name",
                   a_slip_of_the_finger_finds_the_name);
  g_test_add_func ("/base/errors/the nearest wins and the first of equals",
                   the_nearest_wins_and_the_first_of_equals);
  g_test_add_func ("/base/errors/an exchange costs one", an_exchange_costs_one);
  g_test_add_func ("/base/errors/a strange word finds nothing", a_strange_word_finds_nothing);
  return g_test_run ();
}
