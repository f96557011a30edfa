/* SPDX-License-Identifier: GPL-3.0-or-later */

#include "sheet/legend.h"
#include "base/i18n.h"
#include "parts/symbol.h"
#include "sheet/route.h"
#include "sheet/signs.h"
#include <math.h>

static const HobLegend wiring[] = {
  { HOB_SAMPLE_CURRENT, N_ ("current, toward neutral") },
  { HOB_SAMPLE_LIVE, N_ ("live, no current") },
  { HOB_SAMPLE_LEAD, N_ ("high voltage") },
  /* Translators: in a legend, beside the dot where two wires join. */
  { HOB_SAMPLE_DOT, N_ ("connected; other crossings are not") },
  { HOB_SAMPLE_ARM, N_ ("safety valve bimetal; valve opens at the mark") },
  { HOB_SAMPLE_BRACKET, N_ ("a wire or a group of parts that is not normal") },
};
static const HobLegend gas[] = {
  { HOB_SAMPLE_GAS_RESTS, N_ ("gas under pressure, not flowing") },
  { HOB_SAMPLE_GAS_FLOWS, N_ ("gas flowing") },
  { HOB_SAMPLE_ARM, N_ ("safety valve bimetal; valve opens at the mark") },
  { HOB_SAMPLE_ESCAPING, N_ ("gas escaping, unlit") },
  { HOB_SAMPLE_GATHERED, N_ ("unburned gas buildup") },
  { HOB_SAMPLE_BRACKET, N_ ("a pipe or a group of parts that is not normal") },
};
static const HobLegend cutaway[] = {
  { HOB_SAMPLE_GLOW, N_ ("glow: dark red, cherry, orange, yellow-white") },
  { HOB_SAMPLE_FLAME, N_ ("flame; height shows burner output") },
  { HOB_SAMPLE_ARM, N_ ("safety valve bimetal; valve opens at the mark") },
  { HOB_SAMPLE_ESCAPING, N_ ("gas escaping, unlit") },
  { HOB_SAMPLE_GATHERED, N_ ("unburned gas buildup") },
  { HOB_SAMPLE_BRACKET, N_ ("a pipe or a group of parts that is not normal") },
};
static const HobLegend chart[] = {
  /* Translators: in a legend, beside the line of a chart. */
  { HOB_SAMPLE_TRACE, N_ ("this range") },
  { HOB_SAMPLE_NORMAL, N_ ("a normal range, used the same way") },
};
static const HobLegend sequence[] = {
  { HOB_SAMPLE_RING, N_ ("different from a range with no faults") },
};
static const HobLegend why[] = {
  { HOB_SAMPLE_RING, N_ ("where the trouble begins: a part with a fault") },
};
static const HobLegend table[] = {
  { HOB_SAMPLE_DOT, N_ ("symptom noticed in at least one routine, such as a bake cycle") },
};
static const HobLegend common[] = {
  { HOB_SAMPLE_SPARK, N_ ("where a spark jumps") },
  { HOB_SAMPLE_RING, N_ ("different from a range with no faults") },
  { HOB_SAMPLE_TAG, N_ ("fault added") },
};

static const struct
{
  const char *title;
  const HobLegend *legend;
  int n;
} pictures[HOB_TABLE_PICTURE + 1] = {
  [HOB_SHEET_WIRING] = { N_ ("Wiring"), wiring, G_N_ELEMENTS (wiring) },
  [HOB_SHEET_GAS] = { N_ ("Gas"), gas, G_N_ELEMENTS (gas) },
  [HOB_SHEET_CUTAWAY] = { N_ ("Cutaway"), cutaway, G_N_ELEMENTS (cutaway) },
  [HOB_CHART_PICTURE] = { N_ ("Chart"), chart, G_N_ELEMENTS (chart) },
  [HOB_SEQUENCE_PICTURE] = { N_ ("Sequence of operation"), sequence, G_N_ELEMENTS (sequence) },
  [HOB_WHY_PICTURE] = { N_ ("From the cause to the symptom"), why, G_N_ELEMENTS (why) },
  [HOB_TABLE_PICTURE] = { N_ ("Faults and symptoms"), table, G_N_ELEMENTS (table) },
};

const char *
hob_picture_title (int picture)
{
  return _ (pictures[picture].title);
}

const HobLegend *
hob_legend_own (int picture, int *n)
{
  *n = pictures[picture].n;
  return pictures[picture].legend;
}

const HobLegend *
hob_legend_common (int *n)
{
  *n = G_N_ELEMENTS (common);
  return common;
}

/* ---- Samples ---- */

typedef struct
{
  HobPen *pen;
  double x, y, w;
} Place;

static void
tiles (const Place *p, HobTile tile)
{
  const double pitch = hob_tile_pitch (tile);
  const HobRepeat repeat = { .tile = tile, .x0 = p->x, .y0 = p->y, .x1 = p->x + p->w, .y1 = p->y,
                             .first = pitch / 2,
                             .n = MAX (1, (int) ceil ((p->w - 4 - pitch / 2) / pitch)) };

  pen_repeat (p->pen, &repeat);
}

static void
line (const Place *p, HobRole role, double width, double on)
{
  pen_segment (p->pen, p->x, p->y, p->x + p->w, p->y);
  if (on > 0)
    pen_dash (p->pen, on, 3);
  pen_stroke (p->pen, role, width);
}

static void
wire (const Place *p)
{
  line (p, HOB_ROLE_INK, HOB_WIRE_WIDTH, 0);
  line (p, HOB_ROLE_SHEET, HOB_WIRE_CORE, 0);
}

static void
tube (const Place *p)
{
  line (p, HOB_ROLE_GAS, HOB_TUBE_WIDTH, 0);
  line (p, HOB_ROLE_SHEET, HOB_TUBE_WIDTH - 3, 0);
}

static void
draw_current (const Place *p)
{
  wire (p);
  tiles (p, HOB_TILE_TICK);
}

static void
draw_live (const Place *p)
{
  wire (p);
  tiles (p, HOB_TILE_RAIL);
}

static void
draw_lead (const Place *p)
{
  line (p, HOB_ROLE_INK, HOB_LEAD_WIDTH, 6);
  line (p, HOB_ROLE_PANEL, HOB_WIRE_CORE, 0);
}

static void
draw_dot (const Place *p)
{
  wire (p);
  pen_circle (p->pen, p->x + p->w / 2, p->y, 4);
  pen_fill (p->pen, HOB_ROLE_INK);
}

static void
draw_gas_rests (const Place *p)
{
  tube (p);
  tiles (p, HOB_TILE_HATCH);
}

static void
draw_gas_flows (const Place *p)
{
  tube (p);
  tiles (p, HOB_TILE_WEDGE);
}

static void
draw_escaping (const Place *p)
{
  hob_symbol_escaping (p->pen, p->x + p->w / 2, p->y + 4, 9, TRUE, FALSE);
}

static void
draw_gathered (const Place *p)
{
  hob_symbol_gathered (p->pen, p->x + p->w / 2 - 17, p->y - 3, 34, 6, FALSE);
}

static void
draw_spark (const Place *p)
{
  hob_symbol_spark (p->pen, HOB_ROLE_INK, p->x + p->w / 2 - 10, p->y - 1, p->x + p->w / 2 + 10,
                    p->y + 1);
}

static void
draw_glow (const Place *p)
{
  static const double kelvin[] = { 1000, 1173, 1400, 1600 };
  double w = p->w / G_N_ELEMENTS (kelvin);

  pen_rect (p->pen, p->x, p->y - 6, p->w, 12);
  pen_fill (p->pen, HOB_ROLE_CAVITY);
  for (gsize k = 0; k < G_N_ELEMENTS (kelvin); k++)
    {
      pen_rect (p->pen, p->x + (double) k * w + 1, p->y - 5, w - 2, 10);
      pen_glow (p->pen, kelvin[k]);
    }
}

static void
draw_flame (const Place *p)
{
  pen_rect (p->pen, p->x, p->y - 7, p->w, 14);
  pen_fill (p->pen, HOB_ROLE_CAVITY);
  for (int k = 1; k <= 3; k++)
    hob_symbol_flame (p->pen, p->x + p->w * k / 4, p->y + 6,
                      &(HobSymbolFlame){ .height = 3 + 3 * k });
}

static void
draw_arm (const Place *p)
{
  double tip = p->x + p->w - 10;

  pen_segment (p->pen, p->x + 4, p->y + 5, tip - 4, p->y);
  pen_stroke (p->pen, HOB_ROLE_INK, 3);
  pen_move (p->pen, tip, p->y - 4);
  pen_line (p->pen, tip + 8, p->y - 8);
  pen_line (p->pen, tip + 8, p->y);
  pen_close (p->pen);
  pen_fill (p->pen, HOB_ROLE_INK);
}

static void
draw_trace (const Place *p)
{
  line (p, HOB_ROLE_INK, 2, 0);
}

static void
draw_normal (const Place *p)
{
  line (p, HOB_ROLE_INK2, 1.5, 6);
}

static void
draw_ring (const Place *p)
{
  const HobBox box = { p->x + 9, p->y, p->x + p->w - 9, p->y };

  hob_sign_ring (p->pen, &box, FALSE, "legend", 1);
}

static void
draw_bracket (const Place *p)
{
  pen_move (p->pen, p->x + 9, p->y + 4);
  pen_line (p->pen, p->x + 9, p->y - 3);
  pen_line (p->pen, p->x + p->w - 9, p->y - 3);
  pen_line (p->pen, p->x + p->w - 9, p->y + 4);
  pen_stroke (p->pen, HOB_ROLE_RING, 2.5);
}

/* The whole card, with its hole, its string, and words that are too small to read. */
static void
draw_tag (const Place *p)
{
  pen_push (p->pen, p->x + p->w / 2 - 2, p->y, 0);
  pen_spin (p->pen, 0.045);
  pen_move (p->pen, -15, -7);
  pen_line (p->pen, 11, -7);
  pen_line (p->pen, 15, -3);
  pen_line (p->pen, 15, 7);
  pen_line (p->pen, -15, 7);
  pen_close (p->pen);
  pen_fill_stroke (p->pen, HOB_ROLE_TAG, HOB_ROLE_TAG_INK, 1.5);
  for (int k = -1; k <= 1; k++)
    pen_segment (p->pen, -11, 3.5 * k, k < 0 ? 6 : 10 - 5 * k, 3.5 * k);
  pen_stroke (p->pen, HOB_ROLE_TAG_INK, 1);
  pen_pop (p->pen);
  pen_move (p->pen, p->x + p->w / 2 + 10, p->y - 3);
  pen_curve (p->pen, p->x + p->w / 2 + 14, p->y - 8, p->x + p->w - 6, p->y + 4, p->x + p->w,
             p->y - 4);
  pen_stroke (p->pen, HOB_ROLE_INK, 1);
}

void
hob_legend_draw (HobPen *pen, HobSample sample, double x, double y, double w)
{
  static void (*const draw[]) (const Place *p) = {
    [HOB_SAMPLE_CURRENT] = draw_current,   [HOB_SAMPLE_LIVE] = draw_live,
    [HOB_SAMPLE_LEAD] = draw_lead,         [HOB_SAMPLE_DOT] = draw_dot,
    [HOB_SAMPLE_GAS_RESTS] = draw_gas_rests, [HOB_SAMPLE_GAS_FLOWS] = draw_gas_flows,
    [HOB_SAMPLE_ESCAPING] = draw_escaping, [HOB_SAMPLE_GATHERED] = draw_gathered,
    [HOB_SAMPLE_SPARK] = draw_spark,       [HOB_SAMPLE_GLOW] = draw_glow,
    [HOB_SAMPLE_FLAME] = draw_flame,       [HOB_SAMPLE_ARM] = draw_arm,
    [HOB_SAMPLE_TRACE] = draw_trace,       [HOB_SAMPLE_NORMAL] = draw_normal,
    [HOB_SAMPLE_RING] = draw_ring,         [HOB_SAMPLE_TAG] = draw_tag,
    [HOB_SAMPLE_BRACKET] = draw_bracket,
  };
  const Place place = { pen, x, y, w };

  if (draw[sample] != NULL)
    draw[sample](&place);
}
