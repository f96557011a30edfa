/* SPDX-License-Identifier: GPL-3.0-or-later */

/* The shipped layouts, drawn by a pen that only remembers: no two texts meet, no text touches a
 * line, nobody enters the ground that a part keeps free; lines keep their pitch; crossings are
 * counted and may not grow. */

#include "config.h"
#include "recording-pen.h"
#include "sheet/caption.h"
#include "sheet/signs.h"
#include "sheet/stage.h"
#include <math.h>
#include <stdio.h>
#include <string.h>

static const struct
{
  const char *range;
  int crossings[HOB_N_SHEETS]; /* the least reached by hand */
} layouts[] = {
  { "dial-four", { 3, 0, 0 } },
  { "board-five", { 3, 0, 0 } },
  { "round-dial", { 4, 0, 0 } },
  { "convection-fan", { 4, 0, 0 } },
  { "lp-four", { 4, 0, 0 } },
  { "pair-spark-four", { 3, 0, 0 } },
  { "reignite-six", { 3, 0, 0 } },
};

static const char *const sheet_names[HOB_N_SHEETS] = { "wiring", "gas", "cutaway" };

static const HobLook looks[] = {
  { HOB_THEME_LIGHT, 1.0, 1.0 },
  { HOB_THEME_LIGHT, 1.5, 1.0 },
  { HOB_THEME_LIGHT, 1.0, 0.6 },
  { HOB_THEME_LIGHT, 1.5, 0.6 },
};

/* @name: of a shipped range, or a file of one's own. */
static HobRange *
load (const char *name)
{
  g_autofree char *shipped = g_strdup_printf ("%s/diagrams/%s.xml", HOB_SOURCE_DIR, name);
  g_autoptr (GError) error = NULL;
  HobRange *range = hob_range_load (g_str_has_suffix (name, ".xml") ? name : shipped, NULL, &error);

  g_assert_no_error (error);
  return range;
}

/* A figure of usual length under every part that has one, so that its room is claimed. */
static HobScene *
scene_with_figures (const HobRange *range, gboolean differing)
{
  static const double usual[] = {
    [HOB_DIM_NUMBER] = 0.55, [HOB_DIM_TEMPERATURE] = 450, [HOB_DIM_DIFFERENCE] = 20,
    [HOB_DIM_VOLTAGE] = 118, [HOB_DIM_CURRENT] = 3.4,     [HOB_DIM_RESISTANCE] = 1080,
    [HOB_DIM_POWER] = 5275,  [HOB_DIM_WATTS] = 400,    [HOB_DIM_PRESSURE] = 1245,
    [HOB_DIM_LENGTH] = 0.003,
    [HOB_DIM_TIME] = 45,     [HOB_DIM_MASS_FLOW] = 1e-4,  [HOB_DIM_ENERGY] = 5000,
    [HOB_DIM_RATE] = 2.9,    [HOB_DIM_CHOICE] = 1,
    [HOB_DIM_FRACTION] = 2e-3,
  };
  HobScene *scene = hob_scene_new (range);

  for (int k = 0; k < range->n_parts; k++)
    {
      const HobKind *kind = range->parts[k].kind;

      if (kind->figure < 0)
        continue;
      scene->parts[k].figure = usual[kind->quantities[kind->figure].dim];
      scene->parts[k].differs = differing;
      scene->parts[k].should_be = 1.2 * scene->parts[k].figure;
    }
  for (int k = 0; k < range->n_pipes; k++)
    scene->pipes[k].power = 2784;
  return scene;
}

typedef struct
{
  const HobRange *range;
  HobSheet sheet;
  const HobLook *look;
  const HobRoutes *routes;
  const GArray *texts;
  GString *faults; /* one line each */
} Check;

static void
complain (const Check *check, const char *what, const char *one, const char *other)
{
  g_string_append_printf (check->faults, "%s %s at zoom %.1f, text %.1f: %s: %s / %s\n",
                          check->range->id, sheet_names[check->sheet], check->look->zoom,
                          check->look->text_scale, what, one, other);
}

static void
texts_apart (const Check *check)
{
  for (guint i = 0; i < check->texts->len; i++)
    for (guint k = i + 1; k < check->texts->len; k++)
      {
        const RecordedText *a = &g_array_index (check->texts, RecordedText, i),
                         *b = &g_array_index (check->texts, RecordedText, k);

        if (hob_box_meet (&a->box, &b->box))
          complain (check, "two texts meet", a->text, b->text);
      }
}

/* Is it the code on the plate of this very line? */
static gboolean
is_own_plate (const Check *check, int wire, const RecordedText *text)
{
  const HobLine *line = &check->range->wires[wire];
  g_autofree char *code = g_strdup_printf ("%s %d", line->colour, line->gauge);
  double x = (text->box.x0 + text->box.x1) / 2, y = (text->box.y0 + text->box.y1) / 2;

  return strcmp (code, text->text) == 0
         && hob_route_distance (&check->routes->wires[wire], x, y) < 4;
}

static gboolean
touches (const HobRoute *route, double half, const HobBox *box)
{
  for (int k = 0; k + 1 < route->n; k++)
    {
      HobPoint a = route->p[k], b = route->p[k + 1];
      HobBox run = { fmin (a.x, b.x) - half, fmin (a.y, b.y) - half, fmax (a.x, b.x) + half,
                     fmax (a.y, b.y) + half };

      if (hob_box_meet (&run, box))
        return TRUE;
    }
  return FALSE;
}

static void
texts_off_lines (const Check *check)
{
  for (guint i = 0; i < check->texts->len; i++)
    {
      const RecordedText *text = &g_array_index (check->texts, RecordedText, i);

      for (int k = 0; k < check->routes->n_wires; k++)
        if (touches (&check->routes->wires[k], HOB_WIRE_WIDTH / 2, &text->box)
            && !is_own_plate (check, k, text))
          complain (check, "a text touches a wire", text->text, check->range->wires[k].id);
      for (int k = 0; k < check->routes->n_leads; k++)
        if (touches (&check->routes->leads[k], HOB_LEAD_WIDTH / 2, &text->box))
          complain (check, "a text touches a lead", text->text, check->range->leads[k].id);
      for (int k = 0; k < check->routes->n_pipes; k++)
        if (touches (&check->routes->pipes[k], HOB_TUBE_WIDTH / 2, &text->box))
          complain (check, "a text touches a pipe", text->text, check->range->pipes[k].id);
    }
}

/* ---- Free ground ---- */

static gboolean
ends_at (const HobLine *line, int part)
{
  return line->from.part == part || line->to.part == part;
}

static void
lines_keep_out (const Check *check, int part, const HobBox *zone, const HobLine *lines,
                const HobRoute *routes, int n, double half)
{
  if (check->sheet == HOB_SHEET_CUTAWAY && hob_cell_is_interior (check->range->parts[part].kind))
    return; /* pipes lead into it */
  for (int k = 0; k < n; k++)
    if (!ends_at (&lines[k], part) && touches (&routes[k], half, zone))
      complain (check, "a line enters a part's ground", check->range->parts[part].id, lines[k].id);
}

/* On the cutaway, what stands in a cavity is drawn in it, and an electrode on its burner. */
static gboolean
lies_within (const Check *check, int a, int b)
{
  const HobPart *pa = &check->range->parts[a], *pb = &check->range->parts[b];

  if (check->sheet != HOB_SHEET_CUTAWAY)
    return FALSE;
  return hob_cell_is_interior (pa->kind) || hob_cell_is_interior (pb->kind)
         || (pa->in == b && hob_cell_is_attached (check->range, a, check->sheet))
         || (pb->in == a && hob_cell_is_attached (check->range, b, check->sheet));
}

static void
parts_keep_out (const Check *check, int part, const HobBox *zone)
{
  for (int k = 0; k < check->range->n_parts; k++)
    {
      HobBox box;

      if (k != part && hob_cell_symbol (&check->range->parts[k], check->sheet, &box)
          && hob_box_meet (zone, &box) && !lies_within (check, part, k))
        complain (check, "a part enters another's ground", check->range->parts[part].id,
                  check->range->parts[k].id);
    }
}

static void
ground_is_free (const Check *check)
{
  for (int k = 0; k < check->range->n_parts; k++)
    {
      HobBox zone;

      if (!hob_cell_zone (&check->range->parts[k], check->sheet, &zone)
          || hob_cell_is_dot (&check->range->parts[k], check->sheet))
        continue;
      parts_keep_out (check, k, &zone);
      lines_keep_out (check, k, &zone, check->range->wires, check->routes->wires,
                      check->routes->n_wires, 2.5);
      lines_keep_out (check, k, &zone, check->range->leads, check->routes->leads,
                      check->routes->n_leads, 3.5);
      lines_keep_out (check, k, &zone, check->range->pipes, check->routes->pipes,
                      check->routes->n_pipes, 7);
    }
}

/* A fault's tag covers no symbol and no name but may hang over lines. */
static void
tags_are_free (const Check *check)
{
  for (int k = 0; k < check->range->n_parts; k++)
    {
      HobBox tag;

      if (check->look->text_scale > 1 || check->look->zoom < 1
          || !hob_cell_tag (&check->range->parts[k], check->sheet, &tag))
        continue;
      parts_keep_out (check, k, &tag);
      for (guint i = 0; i < check->texts->len; i++)
        {
          const RecordedText *text = &g_array_index (check->texts, RecordedText, i);

          if (hob_box_meet (&tag, &text->box) && strchr (text->text, ' ') == NULL
              && g_ascii_isupper (text->text[0]))
            complain (check, "a tag covers a text", check->range->parts[k].id, text->text);
        }
    }
}

static void
check_look (const HobRange *range, HobSheet sheet, const HobLook *look, gboolean differing,
            GString *faults)
{
  g_autoptr (HobType) type = hob_type_new (look);
  g_autoptr (RecordingPen) pen = recording_pen_new (type, look);
  g_autoptr (HobRoutes) routes = hob_routes_new (range, sheet);
  g_autoptr (GArray) plates = hob_wiring_plates (range, routes, type, look);
  g_autoptr (HobScene) scene = scene_with_figures (range, differing);
  HobStage stage = { .pen = &pen->pen,
                     .type = type,
                     .look = look,
                     .range = range,
                     .sheet = sheet,
                     .routes = routes,
                     .plates = plates };
  Check check = { range, sheet, look, routes, pen->texts, faults };

  hob_stage_paper (&stage);
  stage.scene = scene;
  hob_stage_state (&stage);
  texts_apart (&check);
  texts_off_lines (&check);
  ground_is_free (&check);
  tags_are_free (&check);
}

static void
report (const GString *faults)
{
  if (faults->len == 0)
    return;
  g_test_message ("%s", faults->str);
  g_test_fail ();
}

static void
test_free_of_clashes (gconstpointer data)
{
  g_autoptr (HobRange) range = load (data);
  g_autoptr (GString) faults = g_string_new (NULL);

  for (int sheet = 0; sheet < HOB_N_SHEETS; sheet++)
    for (gsize k = 0; k < G_N_ELEMENTS (looks); k++)
      check_look (range, (HobSheet) sheet, &looks[k], FALSE, faults);
  report (faults);
}

/* Everything differs at once, and says what it should be. */
static void
test_room_to_differ (gconstpointer data)
{
  g_autoptr (HobRange) range = load (data);
  g_autoptr (GString) faults = g_string_new (NULL);

  for (int sheet = 0; sheet < HOB_N_SHEETS; sheet++)
    check_look (range, (HobSheet) sheet, &looks[0], TRUE, faults);
  report (faults);
}

/* What is said of each part, and where.  @plates: NULL for those of the wires. (transfer full) */
static GArray *
captions_of (const HobScene *scene, HobSheet sheet, const HobLook *look, const GArray *plates)
{
  g_autoptr (HobType) type = hob_type_new (look);
  g_autoptr (HobRoutes) routes = hob_routes_new (scene->range, sheet);
  g_autoptr (GArray) own = hob_wiring_plates (scene->range, routes, type, look);
  const HobStage stage = { .type = type, .look = look, .range = scene->range, .sheet = sheet,
                           .routes = routes, .plates = plates != NULL ? plates : own,
                           .scene = scene };

  return hob_captions_lay (&stage);
}

/* The room of the ring around @part where a code is on one plate. */
static HobBox
ring_beside (const HobScene *scene, int part, const HobPlate *plate)
{
  const HobLook look = { HOB_THEME_LIGHT, 1.0, 1.0, HOB_PAGE_PICTURE };
  g_autoptr (GArray) plates = g_array_new (FALSE, FALSE, sizeof (HobPlate));
  g_autoptr (GArray) captions = NULL;

  if (plate != NULL)
    g_array_append_vals (plates, plate, 1);
  captions = captions_of (scene, HOB_SHEET_WIRING, &look, plates);
  return hob_sign_ring_room (&g_array_index (captions, HobCaption, part).ring,
                             scene->range->parts[part].id);
}

#define INTO 6.0 /* px */
#define NEAR 0.5 /* a ring is no straight line */

/* On whatever side a code reaches a little into it.  Where it would have to leave half of what it
 * goes around, it stays. */
static void
a_ring_keeps_off_a_code (void)
{
  g_autoptr (HobRange) range = load ("dial-four");
  g_autoptr (HobScene) scene = scene_with_figures (range, FALSE);
  int part = hob_range_part (range, "igniter-bake");
  HobBox room, stays;

  scene->parts[part].culprit = TRUE;
  room = ring_beside (scene, part, NULL);
  {
    const double x = (room.x0 + room.x1) / 2, y = (room.y0 + room.y1) / 2;
    const HobPlate sides[] = { { .box = { room.x0 - 30, y - 5, room.x0 + INTO, y + 5 } },
                               { .box = { x - 15, room.y0 - 10, x + 15, room.y0 + INTO } },
                               { .box = { room.x1 - INTO, y - 5, room.x1 + 30, y + 5 } },
                               { .box = { x - 15, room.y1 - INTO, x + 15, room.y1 + 10 } } };
    const HobPlate middle = { .box = { x - 60, y - 60, x + 60, y + 60 } };

    for (gsize k = 0; k < G_N_ELEMENTS (sides); k++)
      {
        HobBox nearer = ring_beside (scene, part, &sides[k]);

        g_assert_true (hob_box_meet (&room, &sides[k].box));
        nearer = (HobBox){ nearer.x0 + NEAR, nearer.y0 + NEAR, nearer.x1 - NEAR, nearer.y1 - NEAR };
        g_assert_false (hob_box_meet (&nearer, &sides[k].box));
        g_assert_cmpfloat (fabs (nearer.x0 - room.x0) > INTO / 2, ==, k == 0);
        g_assert_cmpfloat (fabs (nearer.y0 - room.y0) > INTO / 2, ==, k == 1);
        g_assert_cmpfloat (fabs (nearer.x1 - room.x1) > INTO / 2, ==, k == 2);
        g_assert_cmpfloat (fabs (nearer.y1 - room.y1) > INTO / 2, ==, k == 3);
      }
    stays = ring_beside (scene, part, &middle);
    g_assert_true (memcmp (&stays, &room, sizeof room) == 0);
  }
}

/* In large letters a figure near the edge has its place elsewhere. */
static void
no_figure_is_outside (void)
{
  for (gsize r = 0; r < G_N_ELEMENTS (layouts); r++)
    for (int sheet = 0; sheet < HOB_N_SHEETS; sheet++)
      for (int page = HOB_PAGE_SCREEN; page <= HOB_PAGE_PAPER; page++)
        {
          const HobLook look = { HOB_THEME_LIGHT, 2.0, 1.0, (HobPage) page };
          g_autoptr (HobRange) range = load (layouts[r].range);
          g_autoptr (HobScene) scene = scene_with_figures (range, FALSE);
          g_autoptr (GArray) captions = captions_of (scene, (HobSheet) sheet, &look, NULL);
          double b[4];

          hob_sheet_bounds (range, (HobSheet) sheet, b);
          for (guint k = 0; k < captions->len; k++)
            {
              const HobCaption *c = &g_array_index (captions, HobCaption, k);

              g_assert_true (c->n == 0 || !c->shown
                             || (c->box.x0 >= b[0] && c->box.y0 >= b[1]
                                 && c->box.x1 <= b[0] + b[2] && c->box.y1 <= b[1] + b[3]));
            }
        }
}

/* How many are left out, the first of them in *@first; those that are shown keep apart. */
static guint
left_out (const GArray *captions, int *first)
{
  guint n = 0;

  for (guint k = captions->len; k > 0; k--)
    {
      const HobCaption *one = &g_array_index (captions, HobCaption, k - 1);

      if (one->n > 0 && !one->shown)
        {
          n++;
          *first = one->part;
        }
      for (guint i = 0; i + 1 < k && one->n > 0 && one->shown; i++)
        {
          const HobCaption *other = &g_array_index (captions, HobCaption, i);

          g_assert_false (other->n > 0 && other->shown && hob_box_meet (&one->box, &other->box));
        }
    }
  return n;
}

/* Everything differs at once, where there is room for a few of them.  A file has room for all. */
static void
what_only_suffers_is_left_out_of_a_small_view (void)
{
  const HobLook view = { HOB_THEME_LIGHT, 1.0, 0.2, HOB_PAGE_SCREEN },
                picture = { HOB_THEME_LIGHT, 1.0, 0.2, HOB_PAGE_PICTURE };

  for (gsize r = 0; r < G_N_ELEMENTS (layouts); r++)
    for (int sheet = 0; sheet < HOB_N_SHEETS; sheet++)
      {
        g_autoptr (HobRange) range = load (layouts[r].range);
        g_autoptr (HobScene) scene = scene_with_figures (range, TRUE);
        g_autoptr (GArray) small = captions_of (scene, (HobSheet) sheet, &view, NULL),
                           file = captions_of (scene, (HobSheet) sheet, &picture, NULL),
                           chosen = NULL, culprit = NULL;
        int part = -1;

        g_assert_cmpuint (left_out (small, &part), >, 0);
        for (guint k = 0; k < file->len; k++)
          g_assert_true (g_array_index (file, HobCaption, k).n == 0
                         || g_array_index (file, HobCaption, k).shown);
        scene->chosen_part = part;
        chosen = captions_of (scene, (HobSheet) sheet, &view, NULL);
        g_assert_true (g_array_index (chosen, HobCaption, part).shown);
        scene->chosen_part = -1;
        scene->parts[part].culprit = TRUE;
        culprit = captions_of (scene, (HobSheet) sheet, &view, NULL);
        g_assert_true (g_array_index (culprit, HobCaption, part).shown);
      }
}

/* ---- Lines ---- */

/* px that two runs go side by side; 0 where they share a terminal and go as one. */
static double
side_by_side (HobPoint a, HobPoint b, HobPoint c, HobPoint d, double *apart)
{
  gboolean level = fabs (a.y - b.y) < 0.5;

  if (level != (fabs (c.y - d.y) < 0.5))
    return 0;
  *apart = level ? fabs (a.y - c.y) : fabs (a.x - c.x);
  return level ? fmin (fmax (a.x, b.x), fmax (c.x, d.x)) - fmax (fmin (a.x, b.x), fmin (c.x, d.x))
               : fmin (fmax (a.y, b.y), fmax (c.y, d.y)) - fmax (fmin (a.y, b.y), fmin (c.y, d.y));
}

static gboolean
one_terminal (const HobLine *a, const HobLine *b)
{
  const HobEnd ends[2][2] = { { a->from, a->to }, { b->from, b->to } };

  for (int i = 0; i < 2; i++)
    for (int k = 0; k < 2; k++)
      if (ends[0][i].part == ends[1][k].part && ends[0][i].terminal == ends[1][k].terminal)
        return TRUE;
  return FALSE;
}

static void
pitch_of_two (const HobRange *range, const HobRoutes *routes, int i, int k)
{
  const HobRoute *one = &routes->wires[i], *other = &routes->wires[k];

  for (int s = 0; s + 1 < one->n; s++)
    for (int t = 0; t + 1 < other->n; t++)
      {
        double apart,
            along = side_by_side (one->p[s], one->p[s + 1], other->p[t], other->p[t + 1], &apart);

        if (along <= 1 || apart >= 19.5
            || (apart < 0.5 && one_terminal (&range->wires[i], &range->wires[k])))
          continue;
        g_test_message ("%s and %s run %.0f px apart", range->wires[i].id, range->wires[k].id,
                        apart);
        g_test_fail ();
      }
}

static void
test_pitch (gconstpointer data)
{
  g_autoptr (HobRange) range = load (data);
  g_autoptr (HobRoutes) routes = hob_routes_new (range, HOB_SHEET_WIRING);

  for (int i = 0; i < routes->n_wires; i++)
    for (int k = i + 1; k < routes->n_wires; k++)
      pitch_of_two (range, routes, i, k);
}

static void
straight (const HobRoute *routes, int n, const HobLine *lines)
{
  for (int k = 0; k < n; k++)
    for (int i = 0; i + 1 < routes[k].n; i++)
      {
        HobPoint a = routes[k].p[i], b = routes[k].p[i + 1];

        if ((fabs (a.x - b.x) < 0.5 || fabs (a.y - b.y) < 0.5) && fmod (a.x, 4) == 0
            && fmod (a.y, 4) == 0)
          continue;
        g_test_message ("%s at %.0f, %.0f: off the grid, or aslant", lines[k].id, a.x, a.y);
        g_test_fail ();
      }
}

static void
test_grid (gconstpointer data)
{
  g_autoptr (HobRange) range = load (data);

  for (int sheet = 0; sheet < HOB_N_SHEETS; sheet++)
    {
      g_autoptr (HobRoutes) routes = hob_routes_new (range, (HobSheet) sheet);

      straight (routes->wires, routes->n_wires, range->wires);
      straight (routes->leads, routes->n_leads, range->leads);
      straight (routes->pipes, routes->n_pipes, range->pipes);
    }
}

static void
test_crossings (gconstpointer data)
{
  g_autoptr (HobRange) range = load (data);
  const int *most = NULL;

  for (gsize k = 0; k < G_N_ELEMENTS (layouts); k++)
    if (strcmp (layouts[k].range, data) == 0)
      most = layouts[k].crossings;
  for (int sheet = 0; sheet < HOB_N_SHEETS; sheet++)
    {
      g_autoptr (HobRoutes) routes = hob_routes_new (range, (HobSheet) sheet);
      int n = hob_routes_crossings (routes);

      g_test_message ("%s, %s: %d crossings", range->id, sheet_names[sheet], n);
      g_assert_true (most == NULL || n <= most[sheet]);
    }
}

/* Every part that has a symbol for a sheet and belongs to the wiring or the gas stands on it. */
static void
test_all_are_placed (gconstpointer data)
{
  g_autoptr (HobRange) range = load (data);

  for (int k = 0; k < range->n_parts; k++)
    for (int sheet = 0; sheet < HOB_N_SHEETS; sheet++)
      {
        const HobPart *part = &range->parts[k];
        gboolean has_ends
            = sheet == HOB_SHEET_GAS ? part->kind->n_ports > 0 : part->kind->n_terminals > 0;

        if (sheet == HOB_SHEET_CUTAWAY || part->kind->symbol[sheet].w <= 0 || !has_ends)
          continue;
        if (!part->at[sheet].placed)
          g_error ("%s: %s stands nowhere on the %s sheet", range->id, part->id,
                   sheet_names[sheet]);
      }
}

/* A symbol says what its part is: on paper or by its state it has more than an outline. */
static void
test_no_bare_boxes (gconstpointer data)
{
  g_autoptr (HobRange) range = load (data);
  g_autoptr (HobType) type = hob_type_new (&looks[0]);

  for (int k = 0; k < range->n_parts; k++)
    for (int sheet = 0; sheet < HOB_N_SHEETS; sheet++)
      {
        const HobKind *kind = range->parts[k].kind;
        g_autoptr (RecordingPen) pen = recording_pen_new (type, &looks[0]);
        g_autofree double *numbers = g_new0 (double, hob_part_view_numbers (kind));
        HobPartView view;
        HobBox box;

        if (!hob_cell_symbol (&range->parts[k], (HobSheet) sheet, &box)
            || hob_cell_is_dot (&range->parts[k], (HobSheet) sheet))
          continue;
        g_assert_nonnull (kind->draw);
        hob_part_view_still (&view, range, k, (HobSheet) sheet, numbers);
        for (int layer = HOB_LAYER_PAPER; layer <= HOB_LAYER_STATE; layer++)
          {
            view.layer = (HobLayer) layer;
            kind->draw (&pen->pen, &view);
          }
        if (pen->rounds == 0 && pen->lines <= 5)
          g_error ("%s: %s is a bare box on the %s sheet", range->id, range->parts[k].id,
                   sheet_names[sheet]);
      }
}

/* ---- The title ---- */

/* On a sheet with nothing but a wire that goes up @x px to the right: how far from it the title
 * ends, px; NaN: it has no room there. */
static double
title_gap (HobStage *stage, double x)
{
  g_autoptr (RecordingPen) pen = recording_pen_new (stage->type, stage->look);
  HobPoint corners[] = { { 0, 400 }, { x, 400 }, { x, 0 } };
  HobRoute wire = { .p = corners, .n = G_N_ELEMENTS (corners) };
  const HobRoutes routes = { .wires = &wire, .n_wires = 1 };
  const char *text;
  double left;

  stage->routes = &routes;
  stage->pen = &pen->pen;
  hob_title_paper (stage);
  text = strstr (pen->strokes->str, "text title INK left ");
  if (text == NULL || sscanf (text, "text title INK left %lf,", &left) != 1)
    return NAN;
  return x - left
         - hob_type_width (stage->type, HOB_TEXT_TITLE, hob_range_name (stage->range));
}

/* A title keeps 16 px off lines, and needs no more. */
static void
a_title_keeps_off_lines (void)
{
  g_autoptr (HobRange) range = load (layouts[0].range);
  g_autoptr (HobType) type = hob_type_new (&looks[0]);
  HobRange bare = *range;
  HobStage stage = { .type = type, .look = &looks[0], .range = &bare, .sheet = HOB_SHEET_GAS };
  double x = 100, gap = NAN;

  bare.n_parts = 0;
  while (x < 2000 && isnan (gap))
    gap = title_gap (&stage, x += 0.5);
  g_assert_cmpfloat (gap, >=, 16);
  g_assert_cmpfloat (gap, <, 17);
}

static void
add_tests (const char *range)
{
  static const struct
  {
    const char *name;
    GTestDataFunc func;
  } tests[] = {
    { "nothing-clashes", test_free_of_clashes },
    { "all-has-room-to-differ", test_room_to_differ },
    { "wires-keep-their-pitch", test_pitch },
    { "lines-run-on-the-grid", test_grid },
    { "crossings-do-not-grow", test_crossings },
    { "every-part-has-its-place", test_all_are_placed },
    { "no-symbol-is-a-bare-box", test_no_bare_boxes },
  };
  g_autofree char *name = g_path_get_basename (range);

  for (gsize i = 0; i < G_N_ELEMENTS (tests); i++)
    {
      g_autofree char *path = g_strdup_printf ("/sheet/layout/%s/%s", name, tests[i].name);

      g_test_add_data_func (path, range, tests[i].func);
    }
}

/* With files as arguments, those in place of the shipped ones. */
int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  for (int k = 1; k < argc; k++)
    add_tests (argv[k]);
  for (gsize k = 0; argc == 1 && k < G_N_ELEMENTS (layouts); k++)
    add_tests (layouts[k].range);
  if (argc == 1)
    {
      g_test_add_func ("/sheet/layout/a-title-keeps-off-lines", a_title_keeps_off_lines);
      g_test_add_func ("/sheet/layout/a-ring-keeps-off-a-code", a_ring_keeps_off_a_code);
      g_test_add_func ("/sheet/layout/no-figure-is-outside", no_figure_is_outside);
      g_test_add_func ("/sheet/layout/what-only-suffers-is-left-out-of-a-small-view",
                       what_only_suffers_is_left_out_of_a_small_view);
    }
  return g_test_run ();
}
