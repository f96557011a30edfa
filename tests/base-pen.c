/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/pen.h"
#include <string.h>

/* A pen that writes down what it is told, as an SVG-like line of words. */
typedef struct
{
  HobPen pen;
  GString *said;
} Scribe;

static GString *
said (HobPen *pen)
{
  return ((Scribe *) pen)->said;
}

static void
scribe_move (HobPen *pen, double x, double y)
{
  g_string_append_printf (said (pen), "M%g,%g ", x, y);
}

static void
scribe_line (HobPen *pen, double x, double y)
{
  g_string_append_printf (said (pen), "L%g,%g ", x, y);
}

static void
scribe_arc (HobPen *pen, double x, double y, double r, double from, double to)
{
  g_string_append_printf (said (pen), "A%g,%g,%g:%g-%g ", x, y, r, from, to / G_PI);
}

static void
scribe_close (HobPen *pen)
{
  g_string_append (said (pen), "Z ");
}

static void
scribe_stroke (HobPen *pen, HobRole role, double weight)
{
  g_string_append_printf (said (pen), "stroke %d %g ", role, weight);
}

/* A letter is 10 wide. */
static gboolean
scribe_fits (HobPen *pen, HobTextSize size, const char *text, double w)
{
  return 10 * (double) strlen (text) <= w;
}

static void
scribe_text (HobPen *pen, double x, double y, HobTextSize size, HobRole role, HobAlign align,
             const char *text)
{
  g_string_append_printf (said (pen), "T%g,%g %s ", x, y, text);
}

static const HobPenClass scribe_class = {
  .text = scribe_text,
  .fits = scribe_fits,
  .move = scribe_move,
  .line = scribe_line,
  .arc = scribe_arc,
  .close = scribe_close,
  .stroke = scribe_stroke,
};

static Scribe *
scribe_new (void)
{
  Scribe *scribe = g_new0 (Scribe, 1);

  scribe->pen.klass = &scribe_class;
  scribe->said = g_string_new (NULL);
  return scribe;
}

static void
scribe_free (Scribe *scribe)
{
  g_string_free (scribe->said, TRUE);
  g_free (scribe);
}

G_DEFINE_AUTOPTR_CLEANUP_FUNC (Scribe, scribe_free)

static void
a_rectangle_goes_round_once (void)
{
  g_autoptr (Scribe) scribe = scribe_new ();

  pen_rect (&scribe->pen, 1, 2, 10, 20);
  g_assert_cmpstr (scribe->said->str, ==, "M1,2 L11,2 L11,22 L1,22 Z ");
}

static void
a_circle_starts_on_its_rim (void)
{
  g_autoptr (Scribe) scribe = scribe_new ();

  pen_circle (&scribe->pen, 5, 6, 4);
  g_assert_cmpstr (scribe->said->str, ==, "M9,6 A5,6,4:0-2 Z ");
}

static void
a_segment_is_left_open (void)
{
  g_autoptr (Scribe) scribe = scribe_new ();

  pen_segment (&scribe->pen, 0, 0, 3, 4);
  pen_stroke (&scribe->pen, HOB_ROLE_INK, 2);
  g_assert_cmpstr (scribe->said->str, ==, "M0,0 L3,4 stroke 2 2 ");
  g_assert_cmpint (HOB_ROLE_INK, ==, 2);
}

static void
text_that_its_frame_cannot_hold_is_left_out (void)
{
  g_autoptr (Scribe) scribe = scribe_new ();

  pen_text_within (&scribe->pen, 1, 2, 30, HOB_TEXT_BODY, HOB_ROLE_INK, "350");
  pen_text_within (&scribe->pen, 1, 2, 30, HOB_TEXT_BODY, HOB_ROLE_INK, "BAKE");
  g_assert_cmpstr (scribe->said->str, ==, "T1,2 350 ");
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/base/pen/a rectangle goes round once", a_rectangle_goes_round_once);
  g_test_add_func ("/base/pen/a circle starts on its rim", a_circle_starts_on_its_rim);
  g_test_add_func ("/base/pen/a segment is left open", a_segment_is_left_open);
  g_test_add_func ("/base/pen/text that its frame cannot hold is left out",
                   text_that_its_frame_cannot_hold_is_left_out);
  return g_test_run ();
}
