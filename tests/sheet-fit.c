/* SPDX-License-Identifier: GPL-3.0-or-later */

/* A sheet that is shown whole fills its view: what is drawn of it, symbols, lines, names, and
 * figures, takes at least 92 % of the view in one direction; and nothing is outside, of a range
 * with a fault neither. */

#include "sheet/cell.h"
#include "sheet/legend.h"
#include "shipped.h"
#include "staged.h"

#include <math.h>

#define FILLS 0.92
#define SAMPLE 8     /* faults of each range */
#define IN_VIEW 1.0 /* px that an edge may be cut by */

/* px of the sheet's view in windows of 900 × 600, 1366 × 768, and 2560 × 1440. */
static const double views[][2] = { { 530, 208 }, { 755, 344 }, { 1316, 1016 } };

/* What is drawn of the sheet in a view of w × h px, in the view's px; the view's zoom. */
static HobBox
ink_of (const HobScene *scene, HobSheet sheet, double text_scale, double w, double h,
        double *zoom)
{
  g_autoptr (HobSheetMemory) memory = hob_sheet_memory_new (scene->range);
  HobLook look = { HOB_THEME_LIGHT, text_scale, 1.0 };
  cairo_surface_t *surface = cairo_recording_surface_create (CAIRO_CONTENT_COLOR_ALPHA, NULL);
  cairo_t *cr = cairo_create (surface);
  double view[4];
  HobBox ink;

  *zoom = look.zoom = hob_sheet_memory_fit (memory, sheet, &look, w, h, view);
  g_assert_cmpfloat (fabs (view[2] * look.zoom - w), <, 1e-6);
  g_assert_cmpfloat (fabs (view[3] * look.zoom - h), <, 1e-6);
  hob_sheet_memory_set_view (memory, sheet, look.zoom, view);
  cairo_scale (cr, look.zoom, look.zoom);
  cairo_translate (cr, -view[0], -view[1]);
  hob_sheet_draw_paper (cr, scene->range, sheet, &look, memory);
  hob_sheet_draw_state (cr, scene, sheet, &look, memory);
  cairo_destroy (cr);
  cairo_recording_surface_ink_extents (surface, &ink.x0, &ink.y0, &ink.x1, &ink.y1);
  cairo_surface_destroy (surface);
  ink.x1 += ink.x0;
  ink.y1 += ink.y0;
  return ink;
}

static gboolean
is_cut (const HobBox *ink, double w, double h)
{
  return ink->x0 < -IN_VIEW || ink->y0 < -IN_VIEW || ink->x1 > w + IN_VIEW || ink->y1 > h + IN_VIEW;
}

static void
a_sheet_fills_its_view (gconstpointer range)
{
  g_autoptr (Staged) s = staged_new (range, NULL, 1);

  for (int sheet = 0; sheet < HOB_N_SHEETS; sheet++)
    for (gsize k = 0; k < G_N_ELEMENTS (views); k++)
      for (double text = 1; text < 1.6; text += 0.5)
        {
          double w = views[k][0], h = views[k][1], zoom, filled;
          HobBox ink = ink_of (s->scene, (HobSheet) sheet, text, w, h, &zoom);

          filled = fmax ((ink.x1 - ink.x0) / w, (ink.y1 - ink.y0) / h);
          g_test_message ("%s, %s, %g x %g, text %g: zoom %.3f, fills %.3f x %.3f",
                          (const char *) range, hob_picture_title (sheet), w, h, text, zoom,
                          (ink.x1 - ink.x0) / w, (ink.y1 - ink.y0) / h);
          if (filled < FILLS)
            g_test_fail ();
          if (is_cut (&ink, w, h))
            {
              g_test_message ("  is cut: %.1f,%.1f %.1f,%.1f", ink.x0, ink.y0, ink.x1, ink.y1);
              g_test_fail ();
            }
        }
}

/* Rings, figures, tags, and callouts too, a minute after everything was turned on. */
static void
check_fault (gpointer user, const char *range, const char *fault)
{
  g_autofree char *words = g_strdup_printf ("0s oven.mode=bake | 50s knob-lf=light | %s", fault);
  g_autoptr (Staged) s = staged_new (range, words, 60);
  int *pictures = user;

  for (int sheet = 0; sheet < HOB_N_SHEETS; sheet++)
    for (gsize k = 0; k < G_N_ELEMENTS (views); k++)
      for (double text = 1; text < 1.6; text += 0.5)
        {
          double w = views[k][0], h = views[k][1], zoom;
          HobBox ink = ink_of (s->scene, (HobSheet) sheet, text, w, h, &zoom);

          ++*pictures;
          if (!is_cut (&ink, w, h))
            continue;
          g_test_message ("%s %s, %s, %g x %g, text %g, is cut: %.1f,%.1f %.1f,%.1f", range, fault,
                          hob_picture_title (sheet), w, h, text, ink.x0, ink.y0, ink.x1, ink.y1);
          g_test_fail ();
        }
}

static void
nothing_is_cut (gconstpointer range)
{
  int pictures = 0;
  guint n;

  staged_each_fault (range, SAMPLE, check_fault, &pictures, &n);
  g_test_message ("%s: %u faults, %d pictures", (const char *) range, n, pictures);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  staged_add_ranges ("/sheet/fit/a-sheet-fills-its-view", a_sheet_fills_its_view);
  staged_add_ranges ("/sheet/fit/nothing-is-cut", nothing_is_cut);
  return g_test_run ();
}
