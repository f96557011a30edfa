/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "window/sheet-hover.h"

#include "base/i18n.h"
#include "sheet/differences.h"
#include <math.h>

/* "2.7 A, should be 3.5 A" below what is there already. */
static void
add_reading (GString *text, const HobQuantityDef *quantity, double value, gboolean differs,
             double should_be)
{
  g_autofree char *line = hob_figures_text (quantity, value, differs ? should_be : NAN);

  g_string_append_printf (text, "\n%s", line);
}

static void
add_figure (GString *text, double value, gboolean differs, double should_be, HobDimension dim)
{
  const HobQuantityDef quantity = { .dim = dim };

  add_reading (text, &quantity, value, differs, should_be);
}

static void
add_part (GString *text, const HobRange *range, const HobScene *scene, int part)
{
  const HobKind *kind = range->parts[part].kind;
  const HobPartScene *p = &scene->parts[part];

  g_string_append (text, hob_part_label (&range->parts[part]));
  if (kind->figure >= 0 && !isnan (p->figure))
    add_reading (text, &kind->quantities[kind->figure], p->figure, p->differs, p->should_be);
  if (p->fault >= 0)
    g_string_append_printf (text, "\n%s", _ (kind->faults[p->fault].words));
}

static void
add_wire (GString *text, const HobRange *range, const HobScene *scene, int wire)
{
  const HobWireScene *w = &scene->wires[wire];
  g_autofree char *title = hob_wire_title (range, &range->wires[wire]);

  g_string_append (text, title);
  add_figure (text, w->current, w->differs, w->should_be, HOB_DIM_CURRENT);
  add_figure (text, w->volts, w->volts_differ, w->volts_should_be, HOB_DIM_VOLTAGE);
}

static void
add_pipe (GString *text, const HobRange *range, const HobScene *scene, int pipe)
{
  const HobPipeScene *p = &scene->pipes[pipe];
  const HobLine *line = &range->pipes[pipe];

  g_string_append_printf (text, _ ("Gas pipe: %s to %s"),
                          hob_part_label (&range->parts[line->from.part]),
                          hob_part_label (&range->parts[line->to.part]));
  add_figure (text, p->power, p->differs, p->should_be, HOB_DIM_POWER);
  add_figure (text, p->pressure, p->pressure_differs, p->pressure_should_be, HOB_DIM_PRESSURE);
}

char *
hob_sheet_hover_text (HobSession *session, HobSheetMemory *memory, HobSheet sheet,
                      double sheet_x, double sheet_y)
{
  const HobRange *range = hob_session_range (session);
  const HobScene *scene = hob_session_scene (session);
  GString *text = g_string_new (NULL);
  int part, line;

  hob_sheet_hit (memory, sheet, sheet_x, sheet_y, &part, &line);
  if (part >= 0)
    add_part (text, range, scene, part);
  else if (line >= 0 && sheet == HOB_SHEET_WIRING)
    add_wire (text, range, scene, line);
  else if (line >= 0)
    add_pipe (text, range, scene, line);
  return g_string_free (text, text->len == 0);
}
