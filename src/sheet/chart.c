/* SPDX-License-Identifier: GPL-3.0-or-later */

/* The strip chart: one lane a trace, the run solid, what is normal dashed behind it, and the hand
 * with the values that it is at.  What it draws was read before: chart-data.c. */

#include "sheet/chart-data.h"
#include "sheet/pen-cairo.h"
#include "base/i18n.h"
#include "base/figure.h"
#include "parts/say.h"
#include "run/two-figures.h"
#include <math.h>
#include <string.h>

#define LEFT 76.0  /* px for the numbers of a lane */
#define RIGHT 14.0
#define AXIS 24.0  /* px for times below */
#define LANE 56.0  /* px that a lane has at least, but for the only one */
#define ONLY 36.0  /* px that the only one has at least */
#define SAMPLE 26.0 /* px of a broken line that is explained */
#define DIGITS 3

/* ---- Ticks ---- */

double
hob_chart_tick (double span, double px, double least)
{
  static const double steps[] = { 1, 2, 5 };
  double per = span * least / px, decade;

  if (!(per > 0) || !isfinite (per))
    return 1;
  decade = pow (10, floor (log10 (per)));
  for (gsize k = 0; k < G_N_ELEMENTS (steps); k++)
    if (steps[k] * decade >= per * (1 - 1e-9))
      return steps[k] * decade;
  return 10 * decade;
}

double
hob_chart_time_tick (double span, double px, double least)
{
  static const double steps[] = { 1,    2,    5,    10,   15,    30,    60,    120,   300,
                                  600,  900,  1800, 3600, 7200,  10800, 21600, 43200, 86400 };
  double per = span * least / px;

  if (!(per > 0) || !isfinite (per))
    return 1;
  if (per <= 0.5)
    return hob_chart_tick (span, px, least);
  for (gsize k = 0; k < G_N_ELEMENTS (steps); k++)
    if (steps[k] >= per * (1 - 1e-9))
      return steps[k];
  return 86400 * ceil (per / 86400);
}

/* Two steps that hold both ends: three marks a lane. */
double
hob_chart_fit (double *low, double *high)
{
  static const double steps[] = { 1, 2, 2.5, 5 };
  double decade = pow (10, floor (log10 (fmax (*high - *low, 1e-12) / 2)) - 1);

  for (;; decade *= 10)
    for (gsize k = 0; k < G_N_ELEMENTS (steps); k++)
      {
        double step = steps[k] * decade, foot = floor (*low / step + 1e-9) * step;

        if (foot + 2 * step < *high - 1e-9 * step)
          continue;
        *low = foot;
        *high = foot + 2 * step;
        return step;
      }
}

/* ---- Where everything is ---- */

typedef struct
{
  const HobPart *part;
  const HobQuantityDef *quantity;
  double top, height;     /* px of the band */
  double low, high, step; /* trade units at foot and top, and between marks */
} Lane;

static double
scale_of (const HobLook *look)
{
  return fmax (1, look->text_scale);
}

/* With so many rows of flags, px at text scale 1. */
static double
above_lanes (int rows)
{
  return HOB_FLAG_STRIP + HOB_FLAG_ROW * rows + 2;
}

/* A further row of flags has room once so many lanes have theirs. */
static const int lanes_for_row[HOB_FLAG_ROWS] = { 1, 2, 4 };

/* In a chart so high. */
static int
flag_rows (double h, const HobLook *look)
{
  const double px = h / scale_of (look) + 1e-9;
  int rows = 0;

  while (rows < HOB_FLAG_ROWS
         && px >= above_lanes (rows + 1) + LANE * lanes_for_row[rows] + AXIS)
    rows++;
  return rows;
}

static double
above (double h, const HobLook *look)
{
  return above_lanes (flag_rows (h, look)) * scale_of (look);
}

void
hob_chart_plot_box (double w, double h, const HobLook *look, double box[4])
{
  double scale = scale_of (look);

  box[0] = LEFT * scale;
  box[1] = above (h, look);
  box[2] = fmax (1, w - box[0] - RIGHT);
  box[3] = fmax (1, h - box[1] - AXIS * scale);
}

static int
room_for (double h, const HobLook *look)
{
  double box[4];

  hob_chart_plot_box (1, h, look, box);
  return MAX (1, (int) floor (box[3] / LANE / scale_of (look) + 1e-9));
}

double
hob_chart_height (int traces, const HobLook *look)
{
  int rows = 0;

  while (rows < HOB_FLAG_ROWS && traces >= lanes_for_row[rows])
    rows++;
  return ceil ((above_lanes (rows) + traces * LANE + AXIS) * scale_of (look));
}

double
hob_chart_least_height (const HobLook *look)
{
  return ceil ((above_lanes (0) + ONLY + AXIS) * scale_of (look));
}

static double
title_height (const HobLook *look)
{
  return hob_type_px (look, HOB_TEXT_SMALL) + 7;
}

static Lane
lane_at (const HobPlot *plot, const HobRange *range, int trace)
{
  const HobTrace *t = &plot->chart->traces[trace];
  const double title = title_height (plot->look), share = plot->h / MAX (plot->lanes, 1);

  return (Lane){ .part = &range->parts[t->part],
                 .quantity = &range->parts[t->part].kind->quantities[t->quantity],
                 .top = plot->y + trace * share + title,
                 .height = fmax (4, share - title) };
}

/* ---- Times ---- */

static void
times (const HobPlot *p)
{
  double step = hob_chart_time_tick (p->chart->to - p->chart->from, p->w,
                                     86 * scale_of (p->look));
  double px = hob_type_px (p->look, HOB_TEXT_SMALL);

  for (double t = ceil (p->chart->from / step - 1e-9) * step; t <= p->chart->to + 1e-9 * step;
       t += step)
    {
      g_autofree char *text = hob_time_text (t);
      double half = hob_type_width (p->type, HOB_TEXT_SMALL, text) / 2, x = hob_plot_x (p, t);

      pen_segment (p->pen, x, p->y, x, p->y + p->h);
      pen_stroke (p->pen, HOB_ROLE_RULE, 1);
      pen_segment (p->pen, x, p->y + p->h, x, p->y + p->h + 4);
      pen_stroke (p->pen, HOB_ROLE_INK2, 1);
      pen_text (p->pen, CLAMP (x, p->x - LEFT / 2 + half, p->x + p->w + RIGHT - 2 - half),
                p->y + p->h + 6 + px, HOB_TEXT_SMALL, HOB_ROLE_INK2, HOB_ALIGN_CENTRE, text);
    }
}

/* ---- One lane ---- */

static HobRole
role_of (HobDimension dim)
{
  return dim == HOB_DIM_TEMPERATURE ? HOB_ROLE_HEAT
         : dim == HOB_DIM_PRESSURE || dim == HOB_DIM_MASS_FLOW || dim == HOB_DIM_POWER
             ? HOB_ROLE_GAS
             : HOB_ROLE_INK;
}

static void
stretch (const HobReadings *r, int trace, double *low, double *high)
{
  for (int k = 0; k < r->n; k++)
    {
      double v = r->value[k * r->n_traces + trace];

      if (!isfinite (v))
        continue;
      *low = fmin (*low, v);
      *high = fmax (*high, v);
    }
}

static const HobReadings *
readings_behind (const HobChartData *data, const HobChart *chart, int trace)
{
  HobBehind behind = hob_chart_behind (chart, trace);

  return behind == HOB_BEHIND_SHOULD_BE ? &data->should_be
         : behind == HOB_BEHIND_TWIN    ? &data->twin
                                        : NULL;
}

/* A difference in trade units: no zero point moves with it. */
static double
span_in_trade_units (double si, HobDimension dim)
{
  return hob_convert (si, dim, HOB_UNITS_TRADE) - hob_convert (0, dim, HOB_UNITS_TRADE);
}

/* Both traces; a line that hardly moves is shown as one. */
static void
scale_lane (Lane *lane, const HobChartData *data, const HobReadings *behind, int trace)
{
  double least = span_in_trade_units (hob_chart_least_span (lane->quantity->dim),
                                      lane->quantity->dim);
  double more;

  lane->low = INFINITY;
  lane->high = -INFINITY;
  stretch (&data->run, trace, &lane->low, &lane->high);
  if (behind != NULL)
    stretch (behind, trace, &lane->low, &lane->high);
  if (lane->low > lane->high)
    lane->low = lane->high = 0;
  more = fmax (0, least - (lane->high - lane->low)) / 2;
  if (lane->low >= 0 && (lane->low < more || lane->low < 0.5 * lane->high))
    {
      lane->low = 0;
      lane->high = fmax (lane->high, least);
    }
  else
    {
      lane->low -= more;
      lane->high += more;
    }
  lane->step = hob_chart_fit (&lane->low, &lane->high);
}

static double
y_of (const Lane *lane, double v)
{
  return lane->top + lane->height * (1 - (v - lane->low) / (lane->high - lane->low));
}

/* Readings that share a column are its lowest and highest. */
static void
trace_line (const HobPlot *p, const Lane *lane, const HobReadings *r, int trace, gboolean normal,
            HobRole role)
{
  gboolean down = FALSE;

  for (int k = 0; k < r->n; k++)
    {
      double v = r->value[k * r->n_traces + trace];

      if (isfinite (v))
        (down ? pen_line : pen_move) (p->pen, hob_plot_x (p, r->t[k]), y_of (lane, v));
      down = isfinite (v);
    }
  if (normal)
    pen_dash (p->pen, 6, 4);
  pen_stroke (p->pen, normal ? HOB_ROLE_INK2 : role, normal ? 1.5 : 2);
}

/* "350", "15,000"; "yes" where that is what it is.  NULL: nothing is there. (transfer full) */
static char *
level_text (const Lane *lane, double v)
{
  g_autofree char *raw = NULL;

  if (lane->quantity->values != NULL)
    return v == floor (v) ? hob_quantity_text (lane->quantity, v, DIGITS) : NULL;
  raw = hob_number_text (fabs (v) < lane->step / 1000 ? 0 : v);
  return hob_person_number (raw);
}

/* Foot, middle and top, each level with its line. */
static void
levels (const HobPlot *p, const Lane *lane)
{
  double px = hob_type_px (p->look, HOB_TEXT_SMALL);

  for (int k = 0; k < 3; k += lane->height < 3.2 * px ? 2 : 1)
    {
      double v = lane->low + k * lane->step, y = y_of (lane, v);
      g_autofree char *text = level_text (lane, v);

      pen_segment (p->pen, p->x, y, p->x + p->w, y);
      pen_stroke (p->pen, HOB_ROLE_RULE, 1);
      if (text != NULL)
        pen_text (p->pen, p->x - 6, y + (k == 0 ? 0 : k == 1 ? 0.36 : 0.72) * px, HOB_TEXT_SMALL,
                  HOB_ROLE_INK2, HOB_ALIGN_RIGHT, text);
    }
}

/* ---- The values at the hand ---- */

/* "2.7 A, should be 3.5 A". (transfer full) */
static char *
value_words (const HobQuantityDef *quantity, const HobAtHand *hand, HobBehind behind)
{
  g_autofree char *value = NULL, *normal = NULL;

  if (isnan (hand->normal))
    return hob_quantity_text (quantity, hand->value, DIGITS);
  if (behind == HOB_BEHIND_SHOULD_BE)
    return hob_figures_text (quantity, hand->value, hand->normal);
  hob_two_figures (quantity, hand->value, hand->normal, &value, &normal);
  if (strcmp (value, normal) == 0)
    return g_steal_pointer (&value);
  return g_strdup_printf (_ ("%s; normal is %s"), value, normal);
}

/* The value alone where there is no room for more. (transfer full) */
static char *
hand_words (const HobPlot *p, const Lane *lane, const HobAtHand *hand, HobBehind behind)
{
  double label = hob_type_width (p->type, HOB_TEXT_SMALL, hob_part_label (lane->part));
  char *words = value_words (lane->quantity, hand, behind);

  if (hob_type_width (p->type, HOB_TEXT_SMALL, words) <= p->w - label - 18)
    return words;
  g_free (words);
  return hob_quantity_text (lane->quantity, hand->value, DIGITS);
}

/* Room that is left for them beside a lane's title, whatever they will be. */
static double
value_room (const HobPlot *p, const Lane *lane, HobBehind behind)
{
  const double high = (lane->high - hob_convert (0, lane->quantity->dim, HOB_UNITS_TRADE))
                      / span_in_trade_units (1, lane->quantity->dim);
  const HobAtHand widest = { high, high * 0.987654 };
  g_autofree char *words = value_words (lane->quantity, &widest, behind);

  return hob_type_width (p->type, HOB_TEXT_SMALL, words) + 12;
}

/* (transfer full) */
static char *
title_of (const HobPlot *p, const Lane *lane, double room)
{
  g_autofree char *unit = hob_quantity_unit (lane->quantity, HOB_UNITS_TRADE);
  char *title = g_strdup_printf ("%s: %s%s%s", hob_part_label (lane->part),
                                 _ (lane->quantity->words), *unit != '\0' ? ", " : "", unit);

  if (hob_type_width (p->type, HOB_TEXT_SMALL, title) <= room)
    return title;
  g_free (title);
  return g_strdup (hob_part_label (lane->part));
}

/* What the broken line is, behind the title. */
static void
explain_behind (const HobPlot *p, const Lane *lane, double x, double room)
{
  const char *words = _ ("range with no faults");
  double w = hob_type_width (p->type, HOB_TEXT_SMALL, words),
         px = hob_type_px (p->look, HOB_TEXT_SMALL);

  if (SAMPLE + 6 + w > room)
    return;
  pen_segment (p->pen, x, lane->top - 4 - 0.36 * px, x + SAMPLE, lane->top - 4 - 0.36 * px);
  pen_dash (p->pen, 6, 4);
  pen_stroke (p->pen, HOB_ROLE_INK2, 1.5);
  pen_text (p->pen, x + SAMPLE + 6, lane->top - 4, HOB_TEXT_SMALL, HOB_ROLE_INK2, HOB_ALIGN_LEFT,
            words);
}

/* Above the band, never on its line. */
static void
title (const HobPlot *p, const Lane *lane, HobBehind behind, gboolean explain)
{
  double px = hob_type_px (p->look, HOB_TEXT_SMALL);
  double room = p->w - 6 - value_room (p, lane, behind);
  g_autofree char *words = title_of (p, lane, room);
  double w = hob_type_width (p->type, HOB_TEXT_SMALL, words);

  pen_rect (p->pen, p->x + 1, lane->top - px - 6, p->w - 1, px + 5);
  pen_fill (p->pen, HOB_ROLE_SHEET);
  pen_text (p->pen, p->x + 6, lane->top - 4, HOB_TEXT_SMALL, HOB_ROLE_INK, HOB_ALIGN_LEFT, words);
  if (explain && behind != HOB_BEHIND_NOTHING)
    explain_behind (p, lane, p->x + 6 + w + 16, room - w - 16);
}

static void
one_lane (const HobPlot *p, const HobChartData *data, int trace)
{
  Lane lane = lane_at (p, data->range, trace);
  const HobReadings *behind = readings_behind (data, p->chart, trace);

  scale_lane (&lane, data, behind, trace);
  levels (p, &lane);
  title (p, &lane, hob_chart_behind (p->chart, trace), trace == 0);
  if (behind != NULL)
    trace_line (p, &lane, behind, trace, TRUE, HOB_ROLE_INK2);
  trace_line (p, &lane, &data->run, trace, FALSE, role_of (lane.quantity->dim));
  pen_segment (p->pen, p->x, lane.top, p->x, lane.top + lane.height);
  pen_segment (p->pen, p->x, lane.top + lane.height, p->x + p->w, lane.top + lane.height);
  pen_stroke (p->pen, HOB_ROLE_EDGE, 1);
}

/* ---- All of it ---- */

static HobPlot
plot_of (HobPen *pen, HobType *type, const HobChart *chart, double w, double h,
         const HobLook *look)
{
  HobPlot p = { .pen = pen, .type = type, .look = look, .chart = chart };
  double box[4];

  hob_chart_plot_box (w, h, look, box);
  p.x = box[0], p.y = box[1], p.w = box[2], p.h = box[3];
  p.lanes = MIN (chart->n_traces, room_for (h, look));
  return p;
}

void
hob_chart_paint (HobPen *pen, HobType *type, const HobChartData *data, const HobChart *chart,
                 double w, double h, const HobLook *look)
{
  const HobPlot p = plot_of (pen, type, chart, w, h, look);

  if (!(chart->to > chart->from))
    return;
  times (&p);
  hob_flags_paint (&p, data, flag_rows (h, look));
  for (int k = 0; k < p.lanes; k++)
    one_lane (&p, data, k);
}

/* A line through each lane, and the value where its title ends. */
void
hob_chart_paint_hand (HobPen *pen, HobType *type, const HobChart *chart, double w, double h,
                      const HobLook *look)
{
  const HobPlot p = plot_of (pen, type, chart, w, h, look);
  const HobRange *range = hob_plan_range (hob_run_plan (chart->run));
  g_autofree HobAtHand *hand = NULL;
  double x = hob_plot_x (&p, chart->cursor);

  if (!isfinite (x))
    return;
  hand = hob_chart_at_hand (chart);
  for (int k = 0; k < p.lanes; k++)
    {
      const Lane lane = lane_at (&p, range, k);
      g_autofree char *words = hand_words (&p, &lane, &hand[k], hob_chart_behind (chart, k));

      pen_text (pen, p.x + p.w, lane.top - 4, HOB_TEXT_SMALL, HOB_ROLE_PENCIL, HOB_ALIGN_RIGHT,
                words);
      if (x < p.x - 0.5 || x > p.x + p.w + 0.5)
        continue;
      pen_segment (pen, x, lane.top - 1, x, lane.top + lane.height + 2);
      pen_stroke (pen, HOB_ROLE_PENCIL, 2);
    }
}

static HobLook
flat (const HobLook *look)
{
  return (HobLook){ look->theme, look->text_scale, 1.0 };
}

void
hob_chart_draw (cairo_t *cr, const HobChart *chart, double w, double h, const HobLook *look)
{
  const HobLook as_is = flat (look);
  g_autoptr (HobType) type = hob_type_new (&as_is);
  g_autoptr (HobChartData) data = NULL;
  HobPen *pen = hob_cairo_pen_new_with (cr, &as_is, type, NULL);
  double box[4];

  hob_chart_plot_box (w, h, &as_is, box);
  data = hob_chart_data_new (chart, box[2]);
  hob_chart_paint (pen, type, data, chart, w, h, &as_is);
  hob_chart_paint_hand (pen, type, chart, w, h, &as_is);
  hob_cairo_pen_free (pen);
}

void
hob_chart_draw_hand (cairo_t *cr, const HobChart *chart, double w, double h, const HobLook *look)
{
  const HobLook as_is = flat (look);
  g_autoptr (HobType) type = hob_type_new (&as_is);
  HobPen *pen = hob_cairo_pen_new_with (cr, &as_is, type, NULL);

  hob_chart_paint_hand (pen, type, chart, w, h, &as_is);
  hob_cairo_pen_free (pen);
}
