/* SPDX-License-Identifier: GPL-3.0-or-later */

#include "sheet/tiles.h"
#include <math.h>

#define TICK_HALF 6.0   /* px: 12 across */
#define TICK_LEAN 3.464 /* px: bend of 120° */
#define RAIL_ASIDE 5.5
#define RAIL_ON 9.0
#define TUBE_INSIDE 5.5 /* px from the middle to the inside of a wall */
#define ACROSS 16.0     /* px that a picture is wide, across its line */

typedef struct
{
  /*< owned >*/
  cairo_surface_t *pictures[4];
  HobTheme theme;
  double scale;
} Picture;

struct _HobTiles
{
  Picture picture[HOB_N_TILES];
};

HobTiles *
hob_tiles_new (void)
{
  return g_new0 (HobTiles, 1);
}

static void
drop (Picture *picture)
{
  for (int q = 0; q < 4; q++)
    g_clear_pointer (&picture->pictures[q], cairo_surface_destroy);
}

void
hob_tiles_free (HobTiles *tiles)
{
  if (tiles == NULL)
    return;
  for (int t = 0; t < HOB_N_TILES; t++)
    drop (&tiles->picture[t]);
  g_free (tiles);
}

/* ---- One sign at the origin, pointing right ---- */

static void
set_role (cairo_t *cr, HobTheme theme, HobRole role)
{
  double rgb[3];

  hob_theme_colour (theme, role, rgb);
  cairo_set_source_rgb (cr, rgb[0], rgb[1], rgb[2]);
}

static void
draw_tick (cairo_t *cr, HobTheme theme, double weight)
{
  cairo_move_to (cr, -TICK_LEAN / 2, -TICK_HALF);
  cairo_line_to (cr, TICK_LEAN / 2, 0);
  cairo_line_to (cr, -TICK_LEAN / 2, TICK_HALF);
  cairo_set_line_join (cr, CAIRO_LINE_JOIN_MITER);
  set_role (cr, theme, HOB_ROLE_SHEET);
  cairo_set_line_width (cr, weight + 2);
  cairo_stroke_preserve (cr);
  set_role (cr, theme, HOB_ROLE_INK);
  cairo_set_line_width (cr, weight);
  cairo_stroke (cr);
}

static void
draw_hatch (cairo_t *cr, HobTheme theme)
{
  double pitch = hob_tile_pitch (HOB_TILE_HATCH);

  cairo_save (cr);
  cairo_rectangle (cr, -pitch / 2, -TUBE_INSIDE, pitch, 2 * TUBE_INSIDE);
  cairo_clip (cr);
  for (int k = -2; k <= 2; k++)
    {
      cairo_move_to (cr, k * pitch - 8, 8);
      cairo_line_to (cr, k * pitch + 8, -8);
    }
  set_role (cr, theme, HOB_ROLE_GAS);
  cairo_set_line_width (cr, 1);
  cairo_stroke (cr);
  cairo_restore (cr);
}

static void
draw_one (cairo_t *cr, HobTheme theme, HobTile tile)
{
  switch (tile)
    {
    case HOB_TILE_TICK: draw_tick (cr, theme, 2); break;
    case HOB_TILE_TICK_HEAVY: draw_tick (cr, theme, 3); break;
    case HOB_TILE_HATCH: draw_hatch (cr, theme); break;
    case HOB_TILE_RAIL:
      set_role (cr, theme, HOB_ROLE_INK);
      cairo_rectangle (cr, -RAIL_ON / 2, -RAIL_ASIDE - 0.75, RAIL_ON, 1.5);
      cairo_fill (cr);
      break;
    case HOB_TILE_WEDGE:
    case HOB_N_TILES:
    default:
      set_role (cr, theme, HOB_ROLE_GAS);
      cairo_move_to (cr, -4, -4);
      cairo_line_to (cr, 4, 0);
      cairo_line_to (cr, -4, 4);
      cairo_close_path (cr);
      cairo_fill (cr);
      break;
    }
}

/* ---- Pictures of them ---- */

/* The scale that sheet px have on the surface's own pixels; 0 where signs must be lines. */
static double
pixel_scale (cairo_t *cr)
{
  cairo_surface_type_t type = cairo_surface_get_type (cairo_get_target (cr));
  cairo_matrix_t m;

  cairo_get_matrix (cr, &m);
  if (type == CAIRO_SURFACE_TYPE_PDF || type == CAIRO_SURFACE_TYPE_SVG
      || type == CAIRO_SURFACE_TYPE_PS || m.xx <= 0 || m.xy != 0 || m.yx != 0)
    return 0;
  return m.xx;
}

static cairo_surface_t *
picture_of (HobTheme theme, double scale, HobTile tile, int quarter)
{
  int along = (int) fmax (1, round (hob_tile_pitch (tile) * scale)),
      across = (int) ceil (ACROSS * scale);
  gboolean level = (quarter & 1) == 0;
  cairo_surface_t *surface = cairo_image_surface_create (
      CAIRO_FORMAT_ARGB32, level ? along : across, level ? across : along);
  cairo_t *cr = cairo_create (surface);

  cairo_translate (cr, (level ? along : across) / 2.0, (level ? across : along) / 2.0);
  cairo_rotate (cr, quarter * G_PI_2);
  cairo_scale (cr, along / hob_tile_pitch (tile), scale);
  draw_one (cr, theme, tile);
  cairo_destroy (cr);
  return surface;
}

static cairo_surface_t *
kept_picture (HobTiles *tiles, HobTheme theme, double scale, HobTile tile, int quarter)
{
  Picture *kept = &tiles->picture[tile];

  if (kept->theme != theme || kept->scale != scale)
    drop (kept);
  kept->theme = theme;
  kept->scale = scale;
  if (kept->pictures[quarter & 3] == NULL)
    kept->pictures[quarter & 3] = picture_of (theme, scale, tile, quarter & 3);
  return kept->pictures[quarter & 3];
}

/* ---- Along a stretch ---- */

typedef struct
{
  double x, y, ux, uy, length;
} Stretch;

static Stretch
stretch_of (const HobRepeat *r)
{
  double length = hypot (r->x1 - r->x0, r->y1 - r->y0);

  return (Stretch){ r->x0, r->y0, (r->x1 - r->x0) / length, (r->y1 - r->y0) / length, length };
}

static void
repeat_lines (cairo_t *cr, HobTheme theme, const HobRepeat *r)
{
  const Stretch s = stretch_of (r);
  double pitch = hob_tile_pitch (r->tile), first = r->n > 0 ? r->first : pitch / 2;
  int n = r->n > 0 ? r->n : (int) floor (s.length / pitch + 0.01);

  for (int k = 0; k < n; k++)
    {
      double along = first + k * pitch;

      cairo_save (cr);
      cairo_translate (cr, s.x + s.ux * along, s.y + s.uy * along);
      cairo_rotate (cr, r->quarter * G_PI_2);
      draw_one (cr, theme, r->tile);
      cairo_restore (cr);
    }
}

/* One fill of the picture from `from` to `to` px along, a sign's middle at `middle`. */
static void
fill (cairo_t *cr, cairo_surface_t *picture, const Stretch *s, double from, double to,
      double middle)
{
  double across = cairo_image_surface_get_width (picture),
         down = cairo_image_surface_get_height (picture);
  double x0 = s->x + s->ux * from, y0 = s->y + s->uy * from, x1 = s->x + s->ux * to,
         y1 = s->y + s->uy * to;
  double mx = s->x + s->ux * middle, my = s->y + s->uy * middle;
  cairo_pattern_t *pattern = cairo_pattern_create_for_surface (picture);
  cairo_matrix_t m;

  cairo_user_to_device (cr, &x0, &y0);
  cairo_user_to_device (cr, &x1, &y1);
  cairo_user_to_device (cr, &mx, &my);
  mx = round (mx - across / 2);
  my = round (my - down / 2);
  cairo_save (cr);
  cairo_identity_matrix (cr);
  cairo_pattern_set_extend (pattern, CAIRO_EXTEND_REPEAT);
  cairo_pattern_set_filter (pattern, CAIRO_FILTER_NEAREST);
  cairo_matrix_init_translate (&m, -mx, -my);
  cairo_pattern_set_matrix (pattern, &m);
  cairo_set_source (cr, pattern);
  if (fabs (s->ux) > 0.5)
    cairo_rectangle (cr, round (fmin (x0, x1)), my, round (fabs (x1 - x0)), down);
  else
    cairo_rectangle (cr, mx, round (fmin (y0, y1)), across, round (fabs (y1 - y0)));
  cairo_fill (cr);
  cairo_pattern_destroy (pattern);
  cairo_restore (cr);
}

/* The picture has whole pixels: so has the pitch on screen. */
static void
repeat_pictures (HobTiles *tiles, cairo_t *cr, HobTheme theme, double scale, const HobRepeat *r)
{
  const Stretch s = stretch_of (r);
  cairo_surface_t *picture = kept_picture (tiles, theme, scale, r->tile, r->quarter);
  double own = hob_tile_pitch (r->tile), pitch = fmax (1, round (own * scale)) / scale;
  int n;

  if (r->n == 0)
    {
      fill (cr, picture, &s, 0, s.length, pitch / 2);
      return;
    }
  n = (int) floor ((r->n - 1) * own / pitch + 0.5);
  fill (cr, picture, &s, r->first - pitch / 2, r->first + (n + 0.5) * pitch, r->first);
}

void
hob_tiles_repeat (HobTiles *tiles, cairo_t *cr, HobTheme theme, const HobRepeat *repeat)
{
  double scale = tiles != NULL ? pixel_scale (cr) : 0;

  if (scale > 0)
    repeat_pictures (tiles, cr, theme, scale, repeat);
  else
    repeat_lines (cr, theme, repeat);
}
