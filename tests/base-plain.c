/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/plain.h"

static void
assert_plain (const char *text, const char *wanted)
{
  g_autofree char *plain = hob_plain_text (text);

  g_assert_cmpstr (plain, ==, wanted);
  g_assert_true (g_utf8_validate (plain, -1, NULL));
}

static void
ordinary_text_stays (void)
{
  assert_plain ("", "");
  assert_plain ("Left front burner, 1/8 in.", "Left front burner, 1/8 in.");
  assert_plain ("Perilla del quemador · 350 °F · ½ Ω", "Perilla del quemador · 350 °F · ½ Ω");
  assert_plain ("日本 👍🏽", "日本 👍🏽");
}

static void
what_ends_a_line_is_shown (void)
{
  assert_plain ("a\nb\r\n", "a\\nb\\u000d\\n");
  assert_plain ("a\u2028b\u2029c\xc2\x85" "d", "a\\u2028b\\u2029c\\u0085d");
  assert_plain ("a\tb\vc\fd", "a\\tb\\u000bc\\u000cd");
}

static void
what_moves_the_cursor_is_shown (void)
{
  assert_plain ("\033[2J\a\b\177", "\\u001b[2J\\u0007\\u0008\\u007f");
  assert_plain ("\xc2\x9b" "2J\xc2\x90x\xc2\x9c", "\\u009b2J\\u0090x\\u009c");
}

static void
what_turns_the_direction_is_shown (void)
{
  assert_plain ("a\u202eb\u202c\u2066c\u2069\u200f\u061c",
                "a\\u202eb\\u202c\\u2066c\\u2069\\u200f\\u061c");
}

static void
what_is_not_utf_8_is_shown (void)
{
  assert_plain ("caf\xe9 \xff", "caf\\xe9 \\xff");
  assert_plain ("cut \xc3", "cut \\xc3");
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/base/plain/ordinary-text-stays", ordinary_text_stays);
  g_test_add_func ("/base/plain/what-ends-a-line-is-shown", what_ends_a_line_is_shown);
  g_test_add_func ("/base/plain/what-moves-the-cursor-is-shown", what_moves_the_cursor_is_shown);
  g_test_add_func ("/base/plain/what-turns-the-direction-is-shown",
                   what_turns_the_direction_is_shown);
  g_test_add_func ("/base/plain/what-is-not-utf-8-is-shown", what_is_not_utf_8_is_shown);
  return g_test_run ();
}
