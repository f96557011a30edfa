/* SPDX-License-Identifier: GPL-3.0-or-later */

/* The cutaway shows a range: its body, what a hand does to it, where sparks jump, and what is
 * looked at through the lens. */

#include "config.h"
#include "recording-pen.h"
#include "sheet/body.h"
#include "shipped.h"
#include "staged.h"
#include <math.h>
#include <stdio.h>
#include <string.h>

static const HobLook light = { HOB_THEME_LIGHT, 1.0, 1.0 };

static char *
cutaway_of (const HobScene *scene)
{
  return recorded_still (scene, HOB_SHEET_CUTAWAY, &light, FALSE);
}

static int
part_of (const HobScene *scene, const char *id)
{
  int part = hob_range_part (scene->range, id);

  g_assert_cmpint (part, >=, 0);
  return part;
}

static void
every_range_has_a_body (void)
{
  g_auto (GStrv) ranges = shipped_ranges ();

  for (char **range = ranges; *range != NULL; range++)
    {
      g_autoptr (Staged) staged = staged_new (*range, NULL, 0);
      HobBody body;

      g_assert_true (hob_body_of (staged->scene->range, HOB_SHEET_CUTAWAY, &body));
      for (int k = 0; k < staged->scene->range->n_parts; k++)
        {
          const HobPart *p = &staged->scene->range->parts[k];

          if ((p->kind->flags & HOB_KIND_BURNER) != 0 && p->in < 0)
            g_assert_true (hob_body_on_cooktop (&body, p->at[HOB_SHEET_CUTAWAY].x,
                                                p->at[HOB_SHEET_CUTAWAY].y));
        }
    }
}

/* The symbol alone: no ring, tag or figure helps to tell pictures apart. (transfer full) */
static char *
symbol_alone (const HobScene *scene, const char *id, HobSheet sheet)
{
  HobPartView view = scene->parts[part_of (scene, id)].view;
  g_autoptr (HobType) type = hob_type_new (&light);
  g_autoptr (RecordingPen) pen = recording_pen_new (type, &light);

  view.sheet = sheet;
  view.layer = HOB_LAYER_STATE;
  view.still = TRUE;
  view.kind->draw (&pen->pen, &view);
  return g_strdup (pen->strokes->str);
}

static char *
electrode_with (const char *fault, HobSheet sheet)
{
  g_autofree char *words = g_strdup_printf ("0s shutoff=closed | 1s knob-lf=light%s%s",
                                            fault != NULL ? " | electrode-lf:" : "",
                                            fault != NULL ? fault : "");
  g_autoptr (Staged) staged = staged_new ("dial-four", words, 3);

  return symbol_alone (staged->scene, "electrode-lf", sheet);
}

static void
four_bad_electrodes_are_four_pictures (void)
{
  static const char *const faults[] = { NULL, "cracked", "lead-chafed", "fouled", "lead-open" };
  static const HobSheet sheets[] = { HOB_SHEET_WIRING, HOB_SHEET_CUTAWAY };

  for (gsize s = 0; s < G_N_ELEMENTS (sheets); s++)
    for (gsize i = 0; i < G_N_ELEMENTS (faults); i++)
      for (gsize k = i + 1; k < G_N_ELEMENTS (faults); k++)
        {
          g_autofree char *one = electrode_with (faults[i], sheets[s]),
                          *other = electrode_with (faults[k], sheets[s]);

          g_assert_cmpstr (one, !=, other);
        }
}

static void
door_and_knobs_move (void)
{
  g_autoptr (Staged) rest = staged_new ("dial-four", NULL, 5),
                     open = staged_new ("dial-four", "1s door=open", 5),
                     turned = staged_new ("dial-four", "0s shutoff=closed | 1s knob-lf=high", 5),
                     other = staged_new ("dial-four", "0s shutoff=closed | 1s knob-rr=high", 5);
  g_autofree char *a = cutaway_of (rest->scene), *b = cutaway_of (open->scene),
                  *c = cutaway_of (turned->scene), *d = cutaway_of (other->scene);

  g_assert_cmpstr (a, !=, b);
  g_assert_cmpstr (a, !=, c);
  g_assert_cmpstr (c, !=, d);
}

typedef struct
{
  double p[7][2]; /* the tip, then the curves down its right side, its foot, and up again */
} Drop;

/* The nth that is filled in that role; FALSE: there are fewer. */
static gboolean
drop_of (const char *strokes, const char *role, int nth, Drop *drop)
{
  g_autofree char *fill = g_strdup_printf ("fill %s: M", role);
  const char *path = strstr (strokes, fill);

  for (int k = 0; k < nth && path != NULL; k++)
    path = strstr (path + 1, fill);
  if (path == NULL)
    return FALSE;
  path += strlen (fill);
  for (int k = 0; k < 7; k++)
    for (int xy = 0; xy < 2; xy++)
      {
        char *end;

        drop->p[k][xy] = g_ascii_strtod (path, &end);
        path = end + strspn (end, ", C");
      }
  return TRUE;
}

/* From its widest line, a fifth of the way up, to its tip. */
static double
height_of (const Drop *d)
{
  return (d->p[3][1] + d->p[6][1]) / 2 - d->p[0][1];
}

/* The tangent by which a flame leans: from the middle of that line to its tip. */
static double
lean_of (const Drop *d)
{
  return (d->p[0][0] - (d->p[3][0] + d->p[6][0]) / 2) / height_of (d);
}

static double
drawn_lean (const char *strokes)
{
  Drop flame;

  g_assert_true (drop_of (strokes, "FLAME", 0, &flame));
  return lean_of (&flame);
}

/* The draft is the house's, so a range with no faults shows it too, and nothing is ringed. */
static void
flames_lean_as_far_as_the_draft_pushes_them (void)
{
  static const char *const hoods[]
      = { "house.hood-flow=0.28", "house.hood-flow=0.28 | 20s house.hood=on",
          "house.hood-flow=0.6 | 20s house.hood=on" };
  static const HobSheet sheets[] = { HOB_SHEET_GAS, HOB_SHEET_CUTAWAY };
  double before = -1;

  for (gsize k = 0; k < G_N_ELEMENTS (hoods); k++)
    {
      g_autofree char *words
          = g_strdup_printf ("1s knob-lf=light | 8s knob-lf=high | %s", hoods[k]);
      g_autoptr (Staged) staged = staged_new ("dial-four", words, 40);
      const HobPartView *view = &staged->scene->parts[part_of (staged->scene, "burner-lf")].view;
      double lean = view->quantity[hob_kind_quantity (view->kind, "lean")];

      g_assert_cmpfloat (lean, >, before);
      for (gsize s = 0; s < G_N_ELEMENTS (sheets); s++)
        {
          g_autofree char *strokes = recorded_still (staged->scene, sheets[s], &light, FALSE);

          g_assert_cmpfloat_with_epsilon (drawn_lean (strokes), lean, 0.02);
          g_assert_cmpuint (recorded_count (strokes, "RING"), ==, 0);
        }
      before = lean;
    }
}

typedef struct
{
  char *strokes;   /* owned */
  Drop one, other; /* flames side by side */
  Drop tip, cone;  /* of the first one */
  gboolean has_tip, has_cone;
} Flames;

static Flames
flames_of (const char *burner, const char *change, HobSheet sheet)
{
  g_autofree char *words
      = g_strdup_printf ("0s oven.mode=bake | 1s knob-lf=light | 5s knob-lf=high%s", change);
  g_autoptr (Staged) staged = staged_new ("dial-four", words, 100);
  Flames f = { .strokes = symbol_alone (staged->scene, burner, sheet) };

  g_assert_true (drop_of (f.strokes, "FLAME", 0, &f.one));
  g_assert_true (drop_of (f.strokes, "FLAME", 1, &f.other));
  f.has_tip = drop_of (f.strokes, "FLAME-TIP", 0, &f.tip);
  f.has_cone = drop_of (f.strokes, "FLAME-CONE", 0, &f.cone);
  return f;
}

/* How far below its tip a drop begins to widen, of its height: little where it is blunt. */
static double
point_of (const Drop *d)
{
  return (d->p[1][1] - d->p[0][1]) / height_of (d);
}

/* By what is drawn, and with no words: blue and sharp; taller, swaying, with yellow tips and blunt
 * cones; yellow to the foot; off the ports. */
static void
expect_four_flames (const Flames *normal, const Flames *lazy, const Flames *yellow,
                    const Flames *lifted)
{
  g_assert_false (normal->has_tip);
  g_assert_cmpfloat (fabs (lean_of (&normal->one)), <, 0.01);

  g_assert_cmpfloat (height_of (&lazy->one), >, 1.1 * height_of (&normal->one));
  g_assert_cmpfloat (lean_of (&lazy->one) * lean_of (&lazy->other), <, 0);
  g_assert_true (lazy->has_tip && lazy->has_cone);
  g_assert_cmpfloat (height_of (&lazy->tip), <, 0.7 * height_of (&lazy->one));
  g_assert_cmpfloat (point_of (&lazy->cone), <, 0.7 * point_of (&normal->cone));

  g_assert_true (yellow->has_tip && !yellow->has_cone);
  g_assert_cmpfloat (height_of (&yellow->tip), >, 0.8 * height_of (&yellow->one));

  g_assert_false (lifted->has_tip);
  g_assert_cmpfloat (fabs (lean_of (&lifted->one)), <, 0.01);
  g_assert_cmpfloat (point_of (&lifted->cone), >, 0.9 * point_of (&normal->cone));
  g_assert_cmpfloat (lifted->one.p[3][1], <, normal->one.p[3][1] - 5);
}

/* Too little air by a little and by much, and too much of it. */
static void
four_flames_are_four_pictures (void)
{
  static const struct
  {
    const char *id, *lazy, *yellow, *lifted;
  } burners[] = { { "burner-lf", " | burner-lf:venturi-blocked=0.15",
                    " | burner-lf:venturi-blocked=0.7", " | burner-lf.venturi=1.6" },
                  { "burner-bake", " | burner-bake:shutter-closed=0.3",
                    " | burner-bake:shutter-closed=0.7", " | burner-bake:shutter-open=1" } };
  static const HobSheet sheets[] = { HOB_SHEET_GAS, HOB_SHEET_CUTAWAY };

  for (gsize k = 0; k < G_N_ELEMENTS (burners); k++)
    for (gsize s = 0; s < G_N_ELEMENTS (sheets); s++)
      {
        const char *const changes[]
            = { "", burners[k].lazy, burners[k].yellow, burners[k].lifted };
        Flames flames[4];

        for (int n = 0; n < 4; n++)
          flames[n] = flames_of (burners[k].id, changes[n], sheets[s]);
        expect_four_flames (&flames[0], &flames[1], &flames[2], &flames[3]);
        for (int n = 0; n < 4; n++)
          g_free (flames[n].strokes);
      }
}

/* Small, the name of a part at the oven's wall reaches over the wall: it has a dark ground. */
static void
light_names_are_on_the_dark (void)
{
  const HobLook small = { HOB_THEME_LIGHT, 1.0, 0.2 };
  g_autoptr (Staged) staged = staged_new ("dial-four", "0s oven.mode=bake", 20);
  g_autofree char *strokes = NULL;
  g_auto (GStrv) lines = NULL;
  int n = 0;

  staged->scene->chosen_part = part_of (staged->scene, "igniter-bake");
  strokes = recorded_still (staged->scene, HOB_SHEET_CUTAWAY, &small, FALSE);
  lines = g_strsplit (strokes, "\n", -1);
  for (int k = 1; lines[k] != NULL; k++)
    if (g_str_has_prefix (lines[k], "text name CAVITY-INK")
        && g_str_has_suffix (lines[k], ": Bake igniter"))
      n += g_str_has_prefix (lines[k - 1], "fill CAVITY:");
  g_assert_cmpint (n, ==, 1);
}

static void
the_lens_shows_what_is_chosen_or_ringed (void)
{
  g_autoptr (Staged) rest = staged_new ("dial-four", NULL, 5),
                     cracked = staged_new ("dial-four",
                                           "1s knob-lf=light | electrode-lf:cracked", 3);
  g_autofree char *none = cutaway_of (rest->scene), *ringed = cutaway_of (cracked->scene),
                  *chosen = NULL;

  g_assert_null (strstr (none, "keep "));
  g_assert_nonnull (strstr (ringed, "keep "));
  rest->scene->chosen_part = part_of (rest->scene, "igniter-bake");
  chosen = cutaway_of (rest->scene);
  g_assert_nonnull (strstr (chosen, "keep "));
}

/* What is seen through it leans as it does on the sheet. */
static void
flames_lean_in_the_lens_too (void)
{
  g_autoptr (Staged) staged = staged_new (
      "dial-four",
      "1s knob-lf=light | 8s knob-lf=high | house.hood-flow=0.6 | 20s house.hood=on", 40);
  const HobPartView *view = &staged->scene->parts[part_of (staged->scene, "burner-lf")].view;
  g_autofree char *strokes = NULL;
  const char *lens;

  staged->scene->chosen_part = part_of (staged->scene, "electrode-lf");
  strokes = cutaway_of (staged->scene);
  lens = strstr (strokes, "keep ");
  g_assert_nonnull (lens);
  g_assert_cmpfloat_with_epsilon (drawn_lean (lens),
                                  view->quantity[hob_kind_quantity (view->kind, "lean")], 0.02);
}

/* A ring round the oven would go round all that is in it.  It goes round its figure. */
static void
the_oven_is_ringed_at_its_figure (void)
{
  g_autoptr (Staged) staged
      = staged_new ("dial-four", "cavity:vent-covered | 0s oven.mode=bake", 900);
  g_autoptr (HobType) type = hob_type_new (&light);
  g_autoptr (RecordingPen) pen = recording_pen_new (type, &light);
  const HobPart *oven = &staged->range->parts[part_of (staged->scene, "cavity")];
  HobBox inside, ring = { INFINITY, INFINITY, -INFINITY, -INFINITY };

  g_assert_true (staged->scene->parts[part_of (staged->scene, "cavity")].culprit);
  g_assert_true (hob_cell_symbol (oven, HOB_SHEET_CUTAWAY, &inside));
  recorded_on (pen, staged->scene, HOB_SHEET_CUTAWAY, FALSE);
  for (guint k = 0; k < pen->rings->len; k++)
    {
      const RecordedPiece *piece = &g_array_index (pen->rings, RecordedPiece, k);

      ring = (HobBox){ fmin (ring.x0, fmin (piece->a.x, piece->b.x)),
                       fmin (ring.y0, fmin (piece->a.y, piece->b.y)),
                       fmax (ring.x1, fmax (piece->a.x, piece->b.x)),
                       fmax (ring.y1, fmax (piece->a.y, piece->b.y)) };
    }
  g_test_message ("the ring is %.0f px wide, the oven %.0f", ring.x1 - ring.x0,
                  inside.x1 - inside.x0);
  g_assert_cmpfloat (ring.x1 - ring.x0, <, (inside.x1 - inside.x0) / 2);
}

/* From the middle of the lens to the nearest ink of a text, beyond the lens's edge. */
static double
beyond_lens (const HobBox *text, const double lens[3])
{
  double x = CLAMP (lens[0], text->x0, text->x1) - lens[0],
         y = CLAMP (lens[1], text->y0, text->y1) - lens[1];

  return hypot (x, y) - lens[2];
}

static gboolean
is_inside (const HobBox *text, const double bounds[4])
{
  return text->x0 >= bounds[0] && text->y0 >= bounds[1] && text->x1 <= bounds[0] + bounds[2]
         && text->y1 <= bounds[1] + bounds[3];
}

static void
check_around_lens (const HobScene *scene, const HobLook *look)
{
  g_autoptr (HobType) type = hob_type_new (look);
  g_autoptr (RecordingPen) pen = recording_pen_new (type, look);
  const char *keep;
  double lens[3], bounds[4];

  recorded_on (pen, scene, HOB_SHEET_CUTAWAY, TRUE);
  keep = strstr (pen->strokes->str, "keep ");
  if (keep == NULL)
    return; /* nothing small enough is looked at */
  g_assert_cmpint (sscanf (keep, "keep %lf,%lf r%lf", &lens[0], &lens[1], &lens[2]), ==, 3);
  hob_sheet_bounds (scene->range, HOB_SHEET_CUTAWAY, bounds);
  for (guint k = 0; k < pen->texts->len; k++)
    {
      const RecordedText *text = &g_array_index (pen->texts, RecordedText, k);

      if (beyond_lens (&text->box, lens) >= 2 && is_inside (&text->box, bounds))
        continue;
      g_test_message ("%s, %s, zoom %.2f, text %.1f: \"%s\" is on the lens or clipped",
                      scene->range->id, scene->range->parts[scene->chosen_part].id, look->zoom,
                      look->text_scale, text->text);
      g_test_fail ();
    }
}

/* Whatever is looked at, in rooms that sheets have: in a small window, in pictures 900 and 1,200 px
 * wide, and on Letter.  Letters grow where the sheet shrinks. */
static void
no_text_is_on_the_lens (void)
{
  static const struct
  {
    double w, h, text_scale;
    HobPage page;
  } rooms[] = { { 530, 210, 1.0, HOB_PAGE_SCREEN },   { 460, 150, 1.5, HOB_PAGE_SCREEN },
                { 900, 350, 1.0, HOB_PAGE_PICTURE },  { 900, 350, 1.5, HOB_PAGE_PICTURE },
                { 1200, 600, 1.0, HOB_PAGE_PICTURE }, { 1200, 600, 1.5, HOB_PAGE_PICTURE },
                { 984, 380, 1.0, HOB_PAGE_PAPER } };
  g_auto (GStrv) ranges = shipped_ranges ();

  for (char **range = ranges; *range != NULL; range++)
    {
      g_autoptr (Staged) staged = staged_new (*range, "0s oven.mode=bake", 40);
      double bounds[4];

      hob_sheet_bounds (staged->scene->range, HOB_SHEET_CUTAWAY, bounds);
      for (gsize k = 0; k < G_N_ELEMENTS (rooms); k++)
        for (int part = 0; part < staged->scene->range->n_parts; part++)
          {
            double zoom = fmin (rooms[k].w / bounds[2], rooms[k].h / bounds[3]);
            const HobLook look = { HOB_THEME_LIGHT, rooms[k].text_scale, zoom, rooms[k].page };

            staged->scene->chosen_part = part;
            check_around_lens (staged->scene, &look);
          }
    }
}

static char *
display_of (const char *words)
{
  g_autoptr (Staged) staged = staged_new ("board-five", words, 60);

  return recorded_still (staged->scene, HOB_SHEET_WIRING, &light, FALSE);
}

/* What is set is shown where it counts: broil holds no temperature. */
static void
a_display_says_what_is_on (void)
{
  g_autofree char *off = display_of (NULL), *broil = display_of ("0s oven.mode=broil"),
                  *bake = display_of ("0s oven.mode=bake");

  g_assert_null (strstr (off, "BROIL"));
  g_assert_nonnull (strstr (broil, "BROIL"));
  g_assert_null (strstr (broil, "350 °F"));
  g_assert_nonnull (strstr (bake, "BAKE 350 °F"));
}

static void
glow_has_its_word (void)
{
  g_autoptr (Staged) cold = staged_new ("dial-four", NULL, 5),
                     hot = staged_new ("dial-four", "0s oven.mode=bake", 100);
  const HobPartView *view = &hot->scene->parts[part_of (hot->scene, "igniter-bake")].view;
  g_autofree char *word = hob_cutaway_glow (view),
                  *none = hob_cutaway_glow (
                      &cold->scene->parts[part_of (cold->scene, "igniter-bake")].view),
                  *strokes = cutaway_of (hot->scene);

  g_assert_null (none);
  g_assert_nonnull (word);
  g_assert_nonnull (strstr (strokes, word));
}

/* How much of a Letter page is nearly black. */
static double
black_share (const HobScene *scene)
{
  const int w = 1056, h = 816;
  HobLook look = { HOB_THEME_PRINT, 1.0, 1.0, HOB_PAGE_PAPER };
  cairo_surface_t *surface = cairo_image_surface_create (CAIRO_FORMAT_RGB24, w, h);
  cairo_t *cr = cairo_create (surface);
  double box[4];
  int black = 0;

  hob_sheet_bounds (scene->range, HOB_SHEET_CUTAWAY, box);
  look.zoom = MIN (w / box[2], h / box[3]);
  hob_sheet_ground (cr, w, h, &look);
  cairo_scale (cr, look.zoom, look.zoom);
  cairo_translate (cr, -box[0], -box[1]);
  hob_sheet_draw_paper (cr, scene->range, HOB_SHEET_CUTAWAY, &look, NULL);
  hob_sheet_draw_state (cr, scene, HOB_SHEET_CUTAWAY, &look, NULL);
  cairo_surface_flush (surface);
  for (int y = 0; y < h; y++)
    for (int x = 0; x < w; x++)
      {
        const guint8 *p = cairo_image_surface_get_data (surface)
                          + y * cairo_image_surface_get_stride (surface) + 4 * x;

        black += p[0] + p[1] + p[2] < 3 * 64;
      }
  cairo_destroy (cr);
  cairo_surface_destroy (surface);
  return (double) black / (w * h);
}

static void
a_printed_page_is_hardly_black (void)
{
  g_auto (GStrv) ranges = shipped_ranges ();

  for (char **range = ranges; *range != NULL; range++)
    {
      g_autoptr (Staged) staged = staged_new (*range, "0s oven.mode=bake | 5s door=open", 100);
      double share = black_share (staged->scene);

      g_test_message ("%s: %.1f%% of a printed page is black", *range, 100 * share);
      g_assert_cmpfloat (share, <, 0.08);
      g_assert_cmpfloat (share, >, 0.005); /* it was drawn */
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/cutaway/every range has a body", every_range_has_a_body);
  g_test_add_func ("/cutaway/four bad electrodes are four pictures",
                   four_bad_electrodes_are_four_pictures);
  g_test_add_func ("/cutaway/door and knobs move", door_and_knobs_move);
  g_test_add_func ("/cutaway/flames lean as far as the draft pushes them",
                   flames_lean_as_far_as_the_draft_pushes_them);
  g_test_add_func ("/cutaway/four flames are four pictures", four_flames_are_four_pictures);
  g_test_add_func ("/cutaway/light names are on the dark", light_names_are_on_the_dark);
  g_test_add_func ("/cutaway/the lens shows what is chosen or ringed",
                   the_lens_shows_what_is_chosen_or_ringed);
  g_test_add_func ("/cutaway/flames lean in the lens too", flames_lean_in_the_lens_too);
  g_test_add_func ("/cutaway/the oven is ringed at its figure", the_oven_is_ringed_at_its_figure);
  g_test_add_func ("/cutaway/no text is on the lens", no_text_is_on_the_lens);
  g_test_add_func ("/cutaway/glow has its word", glow_has_its_word);
  g_test_add_func ("/cutaway/a-display-says-what-is-on", a_display_says_what_is_on);
  g_test_add_func ("/cutaway/a printed page is hardly black", a_printed_page_is_hardly_black);
  return g_test_run ();
}
