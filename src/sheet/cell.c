/* SPDX-License-Identifier: GPL-3.0-or-later */

/* The ground that belongs to one part: its symbol, the name above it, the figure below, room for
 * a ring round it and for a fault's tag at its right foot.  Layouts keep these zones free. */

#include "sheet/body.h"
#include "sheet/cell.h"
#include "sheet/route.h"
#include "sheet/type.h"
#include <math.h>
#include <string.h>

gboolean
hob_cell_symbol (const HobPart *part, HobSheet sheet, HobBox *box)
{
  const HobPlacement *at = &part->at[sheet];
  const HobSymbolSize *size = &part->kind->symbol[sheet];
  double w = (at->turn & 1) ? size->h : size->w, h = (at->turn & 1) ? size->w : size->h;

  if (!at->placed || size->w <= 0 || size->h <= 0)
    return FALSE;
  *box = (HobBox){ at->x - w / 2, at->y - h / 2, at->x + w / 2, at->y + h / 2 };
  return TRUE;
}

/* A dot where wires join has no name of its own to show, nothing to ring. */
gboolean
hob_cell_is_dot (const HobPart *part, HobSheet sheet)
{
  return part->kind->symbol[sheet].w <= 20;
}

gboolean
hob_cell_zone (const HobPart *part, HobSheet sheet, HobBox *zone)
{
  if (!hob_cell_symbol (part, sheet, zone))
    return FALSE;
  if (hob_cell_is_dot (part, sheet))
    return TRUE;
  zone->x0 -= HOB_CELL_AROUND;
  zone->x1 += HOB_CELL_AROUND;
  zone->y0 -= HOB_CELL_ABOVE;
  zone->y1 += part->kind->figure >= 0 ? HOB_CELL_BELOW : HOB_CELL_AROUND;
  return TRUE;
}

gboolean
hob_cell_tag (const HobPart *part, HobSheet sheet, HobBox *tag)
{
  HobBox box;

  if (part->kind->n_faults == 0 || !hob_cell_symbol (part, sheet, &box))
    return FALSE;
  tag->x1 = box.x1 + HOB_CELL_AROUND;
  tag->x0 = tag->x1 - HOB_TAG_WIDTH;
  /* Tilted: its left end is 4 px higher. */
  tag->y0 = box.y1 + (part->kind->figure >= 0 ? HOB_CELL_BELOW + 4 : 8);
  tag->y1 = tag->y0 + HOB_TAG_HEIGHT;
  return TRUE;
}

gboolean
hob_box_meet (const HobBox *a, const HobBox *b)
{
  return a->x0 < b->x1 && b->x0 < a->x1 && a->y0 < b->y1 && b->y0 < a->y1;
}

gboolean
hob_box_holds (const HobBox *box, double x, double y)
{
  return x >= box->x0 && x <= box->x1 && y >= box->y0 && y <= box->y1;
}

static gboolean
line_is_fixed (const HobRange *range, int part, int index, gboolean port)
{
  if (!port)
    return hob_range_terminal_used (range, part, index);
  for (int k = 0; k < range->n_pipes; k++)
    {
      const HobLine *pipe = &range->pipes[k];

      if ((pipe->from.part == part && pipe->from.terminal == index)
          || (pipe->to.part == part && pipe->to.terminal == index))
        return TRUE;
    }
  return FALSE;
}

/* Is a line fixed to the upper (or lower) edge of the symbol?  Its x then; the text beside gives
 * way. */
static gboolean
line_at_edge (const HobRange *range, int part, HobSheet sheet, gboolean upper, double *left,
              double *right)
{
  const HobKind *kind = range->parts[part].kind;
  gboolean port = sheet == HOB_SHEET_GAS;
  int n = sheet == HOB_SHEET_CUTAWAY ? 0 : port ? kind->n_ports : kind->n_terminals;
  gboolean found = FALSE;
  HobBox box;

  if (!hob_cell_symbol (&range->parts[part], sheet, &box))
    return FALSE;
  for (int k = 0; k < n; k++)
    {
      HobPoint p;

      if (!hob_anchor (range, sheet, (HobEnd){ part, k }, port, &p)
          || !line_is_fixed (range, part, k, port) || fabs (p.y - (upper ? box.y0 : box.y1)) > 1
          || p.x < box.x0 + 1 || p.x > box.x1 - 1)
        continue;
      *left = found ? fmin (*left, p.x) : p.x;
      *right = found ? fmax (*right, p.x) : p.x;
      found = TRUE;
    }
  return found;
}

#define BESIDE_LINE 12.0
#define BESIDE_LETTERS 30.0 /* a terminal's letters stand between */

static void
place_text (const HobRange *range, int part, HobSheet sheet, gboolean upper, double y,
            HobTextPlace *place)
{
  const HobPlacement *at = &range->parts[part].at[sheet];
  double left = at->x, right = at->x;

  *place = (HobTextPlace){ at->x, y, HOB_ALIGN_CENTRE };
  if (!line_at_edge (range, part, sheet, upper, &left, &right))
    return;
  if (left > at->x + 1)
    *place = (HobTextPlace){ left - BESIDE_LINE, y, HOB_ALIGN_RIGHT };
  else
    *place = (HobTextPlace){ right + (upper && left < right ? BESIDE_LETTERS : BESIDE_LINE), y,
                             HOB_ALIGN_LEFT };
}

gboolean
hob_cell_is_face (const HobPart *part, HobSheet sheet)
{
  for (int k = 0; k < part->kind->n_controls; k++)
    if (part->kind->controls[k].front == HOB_FRONT_DOOR)
      return sheet == HOB_SHEET_CUTAWAY;
  return FALSE;
}

/* Fixed to a burner and drawn as one with it: goes by the burner's name. */
gboolean
hob_cell_is_attached (const HobRange *range, int part, HobSheet sheet)
{
  int in = range->parts[part].in;
  HobBox own, burner;

  return sheet == HOB_SHEET_CUTAWAY && in >= 0
         && (range->parts[in].kind->flags & HOB_KIND_BURNER) != 0
         && hob_cell_symbol (&range->parts[part], sheet, &own)
         && hob_cell_symbol (&range->parts[in], sheet, &burner) && hob_box_meet (&own, &burner);
}

void
hob_cell_name_place (const HobRange *range, int part, HobSheet sheet, const HobLook *look,
                     HobTextPlace *place)
{
  HobBox box = { 0 };

  hob_cell_symbol (&range->parts[part], sheet, &box);
  place_text (range, part, sheet, TRUE, box.y0 - 11, place);
}

/* Where a name begins, and of its box the rows alone. */
static gboolean
name_rows (const HobRange *range, int part, HobSheet sheet, const HobLook *look,
           HobTextPlace *place, HobBox *box)
{
  double px = hob_type_px (look, HOB_TEXT_NAME);

  if (!hob_cell_symbol (&range->parts[part], sheet, box)
      || hob_cell_is_dot (&range->parts[part], sheet)
      || hob_cell_is_attached (range, part, sheet))
    return FALSE;
  hob_cell_name_place (range, part, sheet, look, place);
  box->y0 = place->y - 0.75 * px;
  box->y1 = place->y + 0.22 * px;
  return TRUE;
}

gboolean
hob_cell_name_box (const HobRange *range, int part, HobSheet sheet, HobType *type,
                   const HobLook *look, HobBox *box)
{
  HobTextPlace place;
  double w;

  if (!name_rows (range, part, sheet, look, &place, box))
    return FALSE;
  w = hob_type_width (type, HOB_TEXT_NAME, hob_part_label (&range->parts[part]));
  box->x0 = hob_text_left (place.x, w, place.align);
  box->x1 = box->x0 + w;
  return TRUE;
}

/* A name in other rows than the box's is not measured for that. */
static gboolean
name_meets (const HobRange *range, int part, HobSheet sheet, HobType *type, const HobLook *look,
            const HobBox *box)
{
  HobTextPlace place;
  HobBox name;

  if (!name_rows (range, part, sheet, look, &place, &name) || name.y0 > box->y1
      || name.y1 < box->y0)
    return FALSE;
  return hob_cell_name_box (range, part, sheet, type, look, &name) && hob_box_meet (box, &name);
}

#define NAME_SPACE 0.3 /* em between two names: less reads as one */

static gboolean
name_is_free (const HobRange *range, int part, HobSheet sheet, HobType *type, const HobLook *look)
{
  double space = NAME_SPACE * hob_type_px (look, HOB_TEXT_NAME);
  HobBox own, other;

  if (sheet == HOB_SHEET_CUTAWAY || !hob_cell_name_box (range, part, sheet, type, look, &own))
    return TRUE;
  own.x0 -= space;
  own.x1 += space;
  for (int k = 0; k < range->n_parts; k++)
    if (k != part && !hob_cell_is_interior (range->parts[k].kind)
        && (name_meets (range, k, sheet, type, look, &own)
            || (hob_cell_symbol (&range->parts[k], sheet, &other) && hob_box_meet (&own, &other))))
      return FALSE;
  return TRUE;
}

const char *
hob_cell_middle_space (HobType *type, const char *name)
{
  const char *best = NULL;
  double least = INFINITY;

  for (const char *space = strchr (name, ' '); space != NULL; space = strchr (space + 1, ' '))
    {
      g_autofree char *head = g_strndup (name, (gsize) (space - name));
      double w = fmax (hob_type_width (type, HOB_TEXT_NAME, head),
                       hob_type_width (type, HOB_TEXT_NAME, space + 1));

      if (w < least)
        {
          least = w;
          best = space;
        }
    }
  return best;
}

HobTextSize
hob_cell_name_lines (const HobRange *range, int part, HobSheet sheet, HobType *type,
                     const HobLook *look, char *line[2])
{
  const char *name = hob_part_label (&range->parts[part]);
  gboolean is_free = name_is_free (range, part, sheet, type, look);
  const char *space = is_free ? NULL : hob_cell_middle_space (type, name);

  line[0] = space != NULL ? g_strndup (name, (gsize) (space - name)) : g_strdup (name);
  line[1] = space != NULL ? g_strdup (space + 1) : NULL;
  return is_free || space != NULL ? HOB_TEXT_NAME : HOB_TEXT_BODY;
}

void
hob_cell_figure_place (const HobRange *range, int part, HobSheet sheet, const HobLook *look,
                       HobTextPlace *place)
{
  HobBox box = { 0 };

  hob_cell_symbol (&range->parts[part], sheet, &box);
  if (hob_cell_is_attached (range, part, sheet)
      || (sheet == HOB_SHEET_GAS && (range->parts[part].kind->flags & HOB_KIND_BURNER) != 0))
    {
      *place = (HobTextPlace){ box.x1 + 6,
                               (box.y0 + box.y1) / 2 + 0.36 * hob_type_px (look, HOB_TEXT_FIGURE),
                               HOB_ALIGN_LEFT };
      return;
    }
  if (hob_cell_is_interior (range->parts[part].kind)) /* below those inside */
    box.y1 += HOB_CELL_AROUND;
  place_text (range, part, sheet, FALSE, box.y1 + 8 + 0.74 * hob_type_px (look, HOB_TEXT_FIGURE),
              place);
}

/* Light text on the dark cooktop and the dark inside of the oven. */
gboolean
hob_on_cavity (const HobRange *range, HobSheet sheet, double x, double y)
{
  HobBody body;

  if (sheet != HOB_SHEET_CUTAWAY)
    return FALSE;
  if (hob_body_of (range, sheet, &body) && hob_body_on_cooktop (&body, x, y))
    return TRUE;
  for (int k = 0; k < range->n_parts; k++)
    {
      HobBox box;

      if (hob_cell_is_interior (range->parts[k].kind)
          && hob_cell_symbol (&range->parts[k], sheet, &box) && hob_box_holds (&box, x, y))
        return TRUE;
    }
  return FALSE;
}

/* A place that other parts are drawn inside of. */
gboolean
hob_cell_is_interior (const HobKind *kind)
{
  return (kind->flags & HOB_KIND_PLACE) != 0
         && (kind->flags & (HOB_KIND_BURNER | HOB_KIND_HOUSE)) == 0;
}
