/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "window/sheet-hover.h"

#include "base/figure.h"
#include "base/i18n.h"
#include "parts/say.h"
#include "sheet/differences.h"
#include <math.h>

#define DIGITS 3

/* "2.7 A, should be 3.5 A" below what is there already. */
static void
add_reading (GString *text, const char *is, gboolean differs, const char *should_be)
{
  g_autofree char *line = differs ? g_strdup_printf (_ ("%s, should be %s"), is, should_be)
                                  : g_strdup (is);

  g_string_append_printf (text, "\n%s", line);
}

static void
add_figure (GString *text, double value, gboolean differs, double should_be, HobDimension dim)
{
  g_autofree char *is = hob_person_text (value, dim, DIGITS),
                  *should = hob_person_text (should_be, dim, DIGITS);

  add_reading (text, is, differs, should);
}

static void
add_part (GString *text, const HobRange *range, const HobScene *scene, int part)
{
  const HobKind *kind = range->parts[part].kind;
  const HobPartScene *p = &scene->parts[part];
  g_autofree char *is = NULL, *should_be = NULL;

  g_string_append (text, hob_part_label (&range->parts[part]));
  if (kind->figure >= 0 && !isnan (p->figure))
    {
      is = hob_quantity_text (&kind->quantities[kind->figure], p->figure, DIGITS);
      should_be = hob_quantity_text (&kind->quantities[kind->figure], p->should_be, DIGITS);
      add_reading (text, is, p->differs, should_be);
    }
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
