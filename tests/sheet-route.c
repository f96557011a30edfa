/* SPDX-License-Identifier: GPL-3.0-or-later */

/* Wires and pipes that nobody has bent find a way of their own, and two colors show as two. */

#include "config.h"
#include "recording-pen.h"
#include "sheet/memory.h"
#include "sheet/route.h"
#include "staged.h"
#include <math.h>
#include <string.h>

static const HobLook look = { HOB_THEME_LIGHT, 1.0, 1.0 };

/* A shipped range with each match of @pattern in its file replaced. */
static HobRange *
changed (const char *name, const char *pattern, const char *by)
{
  g_autofree char *file = hob_range_locate (name), *text = NULL, *other = NULL;
  g_autoptr (GRegex) regex = g_regex_new (pattern, 0, 0, NULL);
  g_autoptr (GError) error = NULL;
  HobRange *range;

  g_assert_true (g_file_get_contents (file, &text, NULL, NULL));
  other = g_regex_replace_literal (regex, text, -1, 0, by, 0, &error);
  g_assert_no_error (error);
  g_assert_cmpstr (other, !=, text);
  range = hob_range_load_memory (other, strlen (other), name, NULL, &error);
  g_assert_no_error (error);
  return range;
}

static gboolean
is_at (HobPoint p, HobPoint q)
{
  return fabs (p.x - q.x) < 0.02 && fabs (p.y - q.y) < 0.02;
}

/* From end to end, level or plumb all the way.  How many corners it has. */
static int
assert_square (const HobRange *range, HobSheet sheet, const HobRoute *route, const HobLine *line,
               gboolean port)
{
  HobPoint from, to;

  if (!hob_anchor (range, sheet, line->from, port, &from)
      || !hob_anchor (range, sheet, line->to, port, &to))
    {
      g_assert_cmpint (route->n, ==, 0);
      return 0;
    }
  g_assert_true (is_at (route->p[0], from));
  g_assert_true (is_at (route->p[route->n - 1], to));
  for (int k = 0; k + 1 < route->n; k++)
    g_assert_true (fabs (route->p[k].x - route->p[k + 1].x) < 0.02
                   || fabs (route->p[k].y - route->p[k + 1].y) < 0.02);
  return route->n - 2;
}

/* @turn: quarters by which all parts are turned. */
static void
unbent_lines_are_square (int turn)
{
  static const char *const names[] = { "dial-four", "board-five" };

  for (guint k = 0; k < G_N_ELEMENTS (names); k++)
    {
      g_autoptr (HobRange) range = changed (names[k], "<bend [^>]*/>", "");
      g_autoptr (HobRoutes) wiring = NULL, gas = NULL;
      int corners = 0;

      for (int p = 0; p < range->n_parts; p++)
        for (int s = 0; s < HOB_N_SHEETS; s++)
          ((HobPart *) range->parts)[p].at[s].turn = turn;
      wiring = hob_routes_new (range, HOB_SHEET_WIRING);
      gas = hob_routes_new (range, HOB_SHEET_GAS);
      for (int w = 0; w < range->n_wires; w++)
        corners += assert_square (range, HOB_SHEET_WIRING, &wiring->wires[w], &range->wires[w],
                                  FALSE);
      for (int p = 0; p < range->n_pipes; p++)
        assert_square (range, HOB_SHEET_GAS, &gas->pipes[p], &range->pipes[p], TRUE);
      g_assert_cmpint (corners, >, range->n_wires / 2);
    }
}

static void
unbent_lines_are_square_as_parts_stand (void)
{
  unbent_lines_are_square (0);
}

static void
unbent_lines_are_square_as_parts_are_turned (void)
{
  for (int quarters = 1; quarters < 4; quarters++)
    unbent_lines_are_square (quarters);
}

#define A_BEND "<bend x=\"500\" y=\"520\"/>" /* of dial-four; one on */
#define ASLANT "<bend x=\"620\" y=\"650\"/>"

static HobRange *
with_bend (const char *bends)
{
  return changed ("dial-four", A_BEND, bends);
}

/* A bend on the one before it is no corner. */
static void
a_bend_given_twice_is_one (void)
{
  g_autoptr (HobRange) twice = with_bend (A_BEND A_BEND ASLANT), once = with_bend (A_BEND ASLANT);
  g_autoptr (HobRoutes) one = hob_routes_new (once, HOB_SHEET_WIRING),
                        two = hob_routes_new (twice, HOB_SHEET_WIRING);
  int bends = 0;

  for (int w = 0; w < once->n_wires; w++)
    {
      bends += twice->wires[w].n_bends - once->wires[w].n_bends;
      g_assert_cmpint (two->wires[w].n, ==, one->wires[w].n);
      for (int k = 0; k < one->wires[w].n; k++)
        g_assert_true (is_at (two->wires[w].p[k], one->wires[w].p[k]));
    }
  g_assert_cmpint (bends, >, 0);
}

/* Strokes of the wiring sheet with the first wire in @colour. (transfer full) */
static char *
with_first_wire (const char *colour)
{
  g_autofree char *file = hob_range_locate ("dial-four");
  g_autoptr (HobRange) range = hob_range_load (file, NULL, NULL);
  g_autoptr (HobScene) scene = hob_scene_new (range);

  g_strlcpy (((HobLine *) range->wires)[0].colour, colour, sizeof range->wires->colour);
  return recorded_still (scene, HOB_SHEET_WIRING, &look, TRUE);
}

/* The second color in stripes over the first, with a bar between them or not. */
static void
two_colors_are_drawn_in_stripes (void)
{
  g_autofree char *green = with_first_wire ("GN"), *both = with_first_wire ("GNYE"),
                  *bar = with_first_wire ("GN/YE");

  g_assert_cmpuint (recorded_count (both, "stroke EDGE"), ==,
                    recorded_count (green, "stroke EDGE") + 1);
  g_assert_cmpuint (recorded_count (both, "dash"), ==, recorded_count (green, "dash") + 1);
  g_assert_cmpuint (recorded_count (bar, "stroke EDGE"), ==, recorded_count (both, "stroke EDGE"));
}

static gboolean
any_meets (const GArray *plates, const HobBox *box)
{
  for (guint k = 0; k < plates->len; k++)
    if (hob_box_meet (&g_array_index (plates, HobPlate, k).box, box))
      return TRUE;
  return FALSE;
}

/* Wherever a wire's code would be, it goes elsewhere if a lead goes there. */
static void
a_code_keeps_off_a_lead (void)
{
  g_autofree char *file = hob_range_locate ("dial-four");
  g_autoptr (HobRange) range = hob_range_load (file, NULL, NULL);
  g_autoptr (HobType) type = hob_type_new (&look);
  g_autoptr (HobRoutes) routes = hob_routes_new (range, HOB_SHEET_WIRING);
  g_autoptr (GArray) plates = NULL;
  HobRoute *lead = &routes->leads[0];

  g_assert_cmpint (lead->n, >=, 2);
  lead->n = 0;
  plates = hob_wiring_plates (range, routes, type, &look);
  g_assert_cmpuint (plates->len, >, 10);
  lead->n = 2;
  for (guint k = 0; k < plates->len; k++)
    {
      const HobBox *box = &g_array_index (plates, HobPlate, k).box;
      double y = (box->y0 + box->y1) / 2;
      HobBox run = { box->x0, y - HOB_LEAD_WIDTH / 2, box->x1, y + HOB_LEAD_WIDTH / 2 };
      g_autoptr (GArray) others = NULL;

      lead->p[0] = (HobPoint){ box->x0, y };
      lead->p[1] = (HobPoint){ box->x1, y };
      others = hob_wiring_plates (range, routes, type, &look);
      g_assert_true (any_meets (plates, &run));
      g_assert_false (any_meets (others, &run));
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/route/unbent-lines-are-square", unbent_lines_are_square_as_parts_stand);
  g_test_add_func ("/route/unbent-lines-are-square-as-parts-are-turned",
                   unbent_lines_are_square_as_parts_are_turned);
  g_test_add_func ("/route/a-bend-given-twice-is-one", a_bend_given_twice_is_one);
  g_test_add_func ("/route/a-code-keeps-off-a-lead", a_code_keeps_off_a_lead);
  g_test_add_func ("/route/two-colors-are-drawn-in-stripes", two_colors_are_drawn_in_stripes);
  return g_test_run ();
}
