/* SPDX-License-Identifier: GPL-3.0-or-later */

/* The foot of a picture that leaves the program: the hazards that hold in what it shows, and the
 * line that every page has.  A page with a second one behind it has three in full and the others by
 * name; everything else has all in full. */

#include "sheet/foot.h"
#include "sheet/pen-cairo.h"
#include "base/i18n.h"
#include <math.h>

#define EDGE 16.0 /* px around the text */
#define IN_FULL 3
#define LARGEST_SHARE 0.5 /* of the picture's height: then the foot is scaled down */
#define LEAST_SCALE 0.1

/* Appends lines of @text no wider than @width. */
static void
wrap (GPtrArray *lines, HobType *type, const char *text, double width)
{
  g_auto (GStrv) words = g_strsplit (text, " ", -1);
  GString *line = g_string_new (NULL);

  for (char **w = words; *w != NULL; w++)
    {
      g_autofree char *longer = g_strdup_printf ("%s%s%s", line->str, line->len > 0 ? " " : "", *w);

      if (line->len > 0 && hob_type_width (type, HOB_TEXT_BODY, longer) > width)
        {
          g_ptr_array_add (lines, g_strdup (line->str));
          g_string_assign (line, *w);
        }
      else
        g_string_assign (line, longer);
    }
  g_ptr_array_add (lines, g_string_free (line, FALSE));
}

static void
add_hazards (GPtrArray *lines, HobType *type, HobHazards hazards, double width)
{
  for (int h = hob_hazards_next (hazards, -1); h >= 0; h = hob_hazards_next (hazards, h))
    {
      g_autofree char *text = hob_hazard_text (h, hazards);
      g_autofree char *line = g_strdup_printf (_ ("%s: %s"), _ (hob_hazards[h].name), text);

      wrap (lines, type, h == HOB_HAZARD_ALWAYS ? text : line, width);
    }
}

/* The lines of the foot. (transfer container) */
static GPtrArray *
lines_of (const HobFoot *foot, HobType *type, double width, gboolean second_page)
{
  const HobHazards always = HOB_HAZARD_BIT (HOB_HAZARD_ALWAYS);
  GPtrArray *lines = g_ptr_array_new_with_free_func (g_free);
  HobHazards shown = hob_hazards_shown (foot->now) & ~always, rest = 0;

  if (second_page)
    shown = hob_hazards_first (shown, IN_FULL, &rest);
  add_hazards (lines, type, shown, width);
  if (hob_hazards_next (rest, -1) >= 0)
    {
      g_autofree char *names = hob_hazards_names (rest);
      g_autofree char *line = g_strdup_printf (_ ("%s: see page 2"), names);

      wrap (lines, type, line, width);
    }
  add_hazards (lines, type, always, width);
  return lines;
}

static HobLook
look_of (const HobFoot *foot)
{
  HobLook look = *foot->look;

  look.zoom = 1;
  return look;
}

static double
pitch_of (const HobLook *look)
{
  return ceil (1.3 * hob_type_px (look, HOB_TEXT_BODY));
}

gboolean
hob_foot_needs_page (const HobFoot *foot)
{
  HobHazards rest;

  hob_hazards_first (hob_hazards_shown (foot->now) & ~HOB_HAZARD_BIT (HOB_HAZARD_ALWAYS), IN_FULL,
                     &rest);
  return hob_hazards_next (rest, -1) >= 0;
}

double
hob_foot_height (const HobFoot *foot, double w, gboolean second_page)
{
  const HobLook look = look_of (foot);
  g_autoptr (HobType) type = hob_type_new (&look);
  g_autoptr (GPtrArray) lines = lines_of (foot, type, w - 2 * EDGE, second_page);

  return EDGE + lines->len * pitch_of (&look);
}

/* What it is scaled by to fit below a picture @h high altogether. */
static double
scale_for (const HobFoot *foot, double w, double h, gboolean second_page)
{
  double scale = 1;

  while (scale > LEAST_SCALE
         && scale * hob_foot_height (foot, w / scale, second_page) > LARGEST_SHARE * h)
    scale *= 0.9;
  return scale;
}

double
hob_foot_height_in (const HobFoot *foot, double w, double h, gboolean second_page)
{
  double scale = scale_for (foot, w, h, second_page);

  return scale * hob_foot_height (foot, w / scale, second_page);
}

void
hob_foot_draw (cairo_t *cr, const HobFoot *foot, double w, double h, gboolean second_page)
{
  const HobLook look = look_of (foot);
  g_autoptr (HobType) type = hob_type_new (&look);
  HobPen *pen = hob_cairo_pen_new_with (cr, &look, type, NULL);
  double scale = scale_for (foot, w, h, second_page), pitch = pitch_of (&look), width = w / scale;
  g_autoptr (GPtrArray) lines = lines_of (foot, type, width - 2 * EDGE, second_page);

  cairo_save (cr);
  cairo_translate (cr, 0, h - scale * (EDGE + lines->len * pitch));
  cairo_scale (cr, scale, scale);
  pen_segment (pen, EDGE, 1, width - EDGE, 1);
  pen_stroke (pen, HOB_ROLE_RULE, 1);
  for (guint k = 0; k < lines->len; k++)
    pen_text (pen, EDGE, (k + 1) * pitch, HOB_TEXT_BODY, HOB_ROLE_INK, HOB_ALIGN_LEFT,
              lines->pdata[k]);
  cairo_restore (cr);
  hob_cairo_pen_free (pen);
}
