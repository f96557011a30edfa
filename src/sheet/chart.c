/* SPDX-License-Identifier: GPL-3.0-or-later */

/* The strip chart: one band a trace, the run solid, its normal twin dashed beside it, flags where
 * something happened.  What it draws was read before: chart-data.c. */

#include "sheet/chart-data.h"
#include "sheet/pen-cairo.h"
#include "base/i18n.h"
#include "base/figure.h"
#include "parts/say.h"
#include <math.h>
#include <string.h>

#define LEFT 76.0    /* px for the numbers of a band */
#define RIGHT 14.0
#define FLAGS 22.0   /* px for flags above */
#define FLAG_ROW 14.0 /* px for each further row of them */
#define FLAG_ROWS 3
#define JUMP 0.25    /* of a band's span between two readings */
#define TALL 300.0   /* px from which a chart has all rows */
#define AXIS 24.0    /* px for times below */

/* ---- Ticks ---- */

double
hob_chart_tick (double span, double px, double least)
{
  static const double steps[] = { 1, 2, 5, 10 };
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

/* ---- Drawing ---- */

static HobDimension
dim_of (const HobRange *range, const HobTrace *trace)
{
  return range->parts[trace->part].kind->quantities[trace->quantity].dim;
}

static void
stretch (const HobReadings *r, int trace, double *low, double *high)
{
  for (int k = 0; k < r->n; k++)
    {
      double v = r->value[trace * r->n + k];

      if (!isfinite (v))
        continue;
      *low = fmin (*low, v);
      *high = fmax (*high, v);
    }
}

typedef struct
{
  cairo_t *cr;
  HobPen *pen;
  HobType *type;
  const HobLook *look;
  const HobRange *range;
  const HobChart *chart;
  double x, y, w, h; /* plot */
  int flag_rows;
} Plot;

void
hob_chart_plot_box (const HobChart *chart, double w, double h, const HobLook *look, double box[4])
{
  double scale = fmax (1, look->text_scale);

  box[0] = LEFT * scale;
  box[1] = (FLAGS + FLAG_ROW * (h >= TALL ? FLAG_ROWS - 1 : 0)) * scale;
  box[2] = fmax (1, w - box[0] - RIGHT);
  box[3] = fmax (1, h - box[1] - AXIS * scale);
}

static double
x_of (const Plot *p, double t)
{
  return p->x + (t - p->chart->from) / (p->chart->to - p->chart->from) * p->w;
}

static void
times (const Plot *p)
{
  double step = hob_chart_time_tick (p->chart->to - p->chart->from, p->w,
                                     86 * fmax (1, p->look->text_scale));
  double px = hob_type_px (p->look, HOB_TEXT_SMALL);

  for (double t = ceil (p->chart->from / step - 1e-9) * step; t <= p->chart->to + 1e-9 * step;
       t += step)
    {
      g_autofree char *text = hob_time_text (t);
      double half = hob_type_width (p->type, HOB_TEXT_SMALL, text) / 2, x = x_of (p, t);

      pen_segment (p->pen, x, p->y, x, p->y + p->h);
      pen_stroke (p->pen, HOB_ROLE_RULE, 1);
      pen_segment (p->pen, x, p->y + p->h, x, p->y + p->h + 4);
      pen_stroke (p->pen, HOB_ROLE_INK2, 1);
      pen_text (p->pen, CLAMP (x, p->x - LEFT / 2 + half, p->x + p->w + RIGHT - 2 - half),
                p->y + p->h + 6 + px, HOB_TEXT_SMALL, HOB_ROLE_INK2, HOB_ALIGN_CENTRE, text);
    }
}

static HobRole
role_of (HobDimension dim)
{
  return dim == HOB_DIM_TEMPERATURE ? HOB_ROLE_HEAT
         : dim == HOB_DIM_PRESSURE || dim == HOB_DIM_MASS_FLOW || dim == HOB_DIM_POWER
             ? HOB_ROLE_GAS
             : HOB_ROLE_INK;
}

typedef struct
{
  double top, height;
  double low, high; /* values at foot and top */
} Band;

static double
y_of (const Band *band, double v)
{
  return band->top + band->height * (1 - (v - band->low) / (band->high - band->low));
}

static void
trace_line (const Plot *p, const Band *band, const HobReadings *r, int trace, gboolean twin,
            HobRole role)
{
  gboolean down = FALSE;

  for (int k = 0; k < r->n; k++)
    {
      double v = r->value[trace * r->n + k];

      if (!isfinite (v))
        down = FALSE;
      else if (down)
        {
          double before = r->value[trace * r->n + k - 1];

          /* What jumps does so within a column: it is drawn square. */
          if (fabs (v - before) > JUMP * (band->high - band->low))
            pen_line (p->pen, x_of (p, r->t[k]), y_of (band, before));
          pen_line (p->pen, x_of (p, r->t[k]), y_of (band, v));
        }
      else
        pen_move (p->pen, x_of (p, r->t[k]), y_of (band, v));
      down = isfinite (v);
    }
  if (twin)
    pen_dash (p->pen, 6, 4);
  pen_stroke (p->pen, twin ? HOB_ROLE_INK2 : role, twin ? 1.5 : 2);
}

/* Numbers at the band's edge, each level with its line. */
static void
levels (const Plot *p, const Band *band)
{
  double px = hob_type_px (p->look, HOB_TEXT_SMALL);
  double step = hob_chart_tick (band->high - band->low, band->height, px + 10);

  for (double v = ceil (band->low / step - 1e-9) * step; v <= band->high + 1e-9 * step; v += step)
    {
      g_autofree char *raw = hob_number_text (fabs (v) < step / 1000 ? 0 : round (v / step) * step);
      g_autofree char *text = hob_person_number (raw);
      double y = y_of (band, v);

      pen_segment (p->pen, p->x, y, p->x + p->w, y);
      pen_stroke (p->pen, HOB_ROLE_RULE, 1);
      if (y - band->top > px && band->top + band->height - y > px * 0.3)
        pen_text (p->pen, p->x - 6, y + 0.36 * px, HOB_TEXT_SMALL, HOB_ROLE_INK2, HOB_ALIGN_RIGHT,
                  text);
    }
}

/* Above the band, never on its line. */
static void
band_title (const Plot *p, const Band *band, const HobTrace *trace)
{
  const HobPart *part = &p->range->parts[trace->part];
  const HobQuantityDef *quantity = &part->kind->quantities[trace->quantity];
  g_autofree char *unit = hob_quantity_unit (quantity, HOB_UNITS_TRADE);
  g_autofree char *title = g_strdup_printf ("%s: %s%s%s", hob_part_label (part),
                                            _ (quantity->words), *unit != '\0' ? ", " : "", unit);
  double w = hob_type_width (p->type, HOB_TEXT_SMALL, title),
         px = hob_type_px (p->look, HOB_TEXT_SMALL);

  pen_rect (p->pen, p->x + 2, band->top - px - 4, w + 8, px + 4);
  pen_fill (p->pen, HOB_ROLE_SHEET);
  pen_text (p->pen, p->x + 6, band->top - 4, HOB_TEXT_SMALL, HOB_ROLE_INK, HOB_ALIGN_LEFT, title);
}

/* Both runs with some air above and below; from zero where that costs little. */
static void
scale_band (Band *band, int trace, const HobReadings *run, const HobReadings *twin)
{
  double room;

  band->low = INFINITY;
  band->high = -INFINITY;
  stretch (run, trace, &band->low, &band->high);
  if (twin != NULL)
    stretch (twin, trace, &band->low, &band->high);
  if (band->low > band->high)
    band->low = 0, band->high = 1;
  if (band->low >= 0 && band->low < 0.5 * band->high)
    band->low = 0;
  room = band->high - band->low > 1e-9 ? band->high - band->low : fmax (1, fabs (band->high) * 0.1);
  band->high += 0.08 * room;
  if (band->low != 0)
    band->low -= 0.08 * room;
}

/* At the right of the first band's title: what the broken line is. */
static void
twin_legend (const Plot *p, const Band *band)
{
  const char *words = _ ("normal range");
  double w = hob_type_width (p->type, HOB_TEXT_SMALL, words),
         px = hob_type_px (p->look, HOB_TEXT_SMALL);
  double right = p->x + p->w - 4;

  pen_rect (p->pen, right - w - 40, band->top - px - 4, w + 42, px + 4);
  pen_fill (p->pen, HOB_ROLE_SHEET);
  pen_segment (p->pen, right - w - 36, band->top - 4 - 0.36 * px, right - w - 6,
               band->top - 4 - 0.36 * px);
  pen_dash (p->pen, 6, 4);
  pen_stroke (p->pen, HOB_ROLE_INK2, 1.5);
  pen_text (p->pen, right, band->top - 4, HOB_TEXT_SMALL, HOB_ROLE_INK2, HOB_ALIGN_RIGHT, words);
}

static void
one_band (const Plot *p, int trace, const HobReadings *run, const HobReadings *twin)
{
  const double title = hob_type_px (p->look, HOB_TEXT_SMALL) + 7, share = p->h / p->chart->n_traces;
  Band band = { .top = p->y + trace * share + title, .height = fmax (4, share - title) };

  scale_band (&band, trace, run, twin);
  levels (p, &band);
  band_title (p, &band, &p->chart->traces[trace]);
  if (twin != NULL && trace == 0)
    twin_legend (p, &band);
  if (twin != NULL)
    trace_line (p, &band, twin, trace, TRUE, HOB_ROLE_INK2);
  trace_line (p, &band, run, trace, FALSE, role_of (dim_of (p->range, &p->chart->traces[trace])));
  pen_segment (p->pen, p->x, band.top, p->x, band.top + band.height);
  pen_segment (p->pen, p->x, band.top + band.height, p->x + p->w, band.top + band.height);
  pen_stroke (p->pen, HOB_ROLE_EDGE, 1);
}

/* Acts are the hand's (pencil), changes the range's (ink), symptoms ringed. */
static HobRole
flag_role (HobEventClass what)
{
  static const HobRole roles[] = { [HOB_EVENT_ACT] = HOB_ROLE_PENCIL,
                                   [HOB_EVENT_CHANGE] = HOB_ROLE_INK2,
                                   [HOB_EVENT_SYMPTOM] = HOB_ROLE_RING,
                                   [HOB_EVENT_SYMPTOM_END] = HOB_ROLE_RING };

  return roles[what];
}


#define MOST_AT_ONE 3

/* Something happened, and what the hand did with it in the same moment. */
typedef struct
{
  const HobChartEvent *event, *more[MOST_AT_ONE];
  int n_more;
} Flag;

/* (transfer full) */
static char *
words_of (const Flag *f)
{
  char *all = g_strdup (f->event->words);

  for (int k = 0; all != NULL && k < f->n_more; k++)
    {
      g_autofree char *first = all;

      all = g_strconcat (first, "; ", f->more[k]->words, NULL);
    }
  return all;
}

/* Rows that the flags' words have in a picture h px high. */
static int
flag_rows (double h)
{
  return h >= TALL ? FLAG_ROWS : 1;
}

/* A flag in a row of its own: whole words, or none where they have no room in any. */
static void
flag (const Plot *p, const Flag *f, int row, const char *words)
{
  HobRole role = flag_role (f->event->what);
  double scale = fmax (1, p->look->text_scale), x = x_of (p, f->event->t),
         top = p->y - (16 + FLAG_ROW * row) * scale, foot = top + 8 * scale;

  pen_segment (p->pen, x, top, x, p->y + p->h);
  pen_dash (p->pen, 1, 3);
  pen_stroke (p->pen, role, 1);
  pen_move (p->pen, x, top);
  pen_line (p->pen, x + 7, (top + foot) / 2);
  pen_line (p->pen, x, foot);
  pen_close (p->pen);
  pen_fill (p->pen, role);
  if (words != NULL)
    pen_text (p->pen, x + 10, foot + 1, HOB_TEXT_SMALL, role, HOB_ALIGN_LEFT, words);
}

#define FLAG_PITCH                                                                                 \
  9.0 /* px: nearer ones stand for each other, an act or a symptom before a change */

static gboolean
tells_more (const HobChartEvent *one, const HobChartEvent *other)
{
  return one->what != HOB_EVENT_CHANGE && other->what == HOB_EVENT_CHANGE;
}

/* Acts of one moment share a flag; else the one that tells more keeps it. */
static void
merge (const Plot *p, GArray *kept, const HobChartEvent *event, double pitch)
{
  Flag *last = &g_array_index (kept, Flag, kept->len - 1);
  const Flag *before = kept->len > 1 ? last - 1 : NULL;

  if (event->what == HOB_EVENT_ACT && last->event->what == HOB_EVENT_ACT
      && event->t == last->event->t)
    {
      if (last->n_more < MOST_AT_ONE)
        last->more[last->n_more++] = event;
    }
  else if (tells_more (event, last->event)
           && (before == NULL || x_of (p, event->t) - x_of (p, before->event->t) >= pitch))
    *last = (Flag){ .event = event };
}

static void
flags (const Plot *p, const GArray *events)
{
  double pitch = FLAG_PITCH * fmax (1, p->look->text_scale), taken[FLAG_ROWS] = { 0 };
  g_autoptr (GArray) kept = g_array_new (FALSE, FALSE, sizeof (Flag));

  for (guint k = 0; k < events->len; k++)
    {
      Flag f = { .event = &g_array_index (events, HobChartEvent, k) };
      double from = kept->len > 0 ? x_of (p, g_array_index (kept, Flag, kept->len - 1).event->t)
                                  : -INFINITY;

      if (f.event->what >= HOB_EVENT_HAZARD)
        continue;
      if (x_of (p, f.event->t) - from >= pitch)
        g_array_append_val (kept, f);
      else
        merge (p, kept, f.event, pitch);
    }
  for (guint k = 0; k < kept->len; k++)
    {
      const Flag *f = &g_array_index (kept, Flag, k);
      double x = x_of (p, f->event->t);
      g_autofree char *words = words_of (f);
      double w = words != NULL ? hob_type_width (p->type, HOB_TEXT_SMALL, words) + 18 : 0;
      int row = 0;

      while (row < p->flag_rows && taken[row] > x)
        row++;
      if (words == NULL || row == p->flag_rows || x + w > p->x + p->w + RIGHT)
        flag (p, f, -1, NULL); /* below the words of others */
      else
        {
          flag (p, f, row, words);
          taken[row] = x + w;
        }
    }
}

static void
cursor (const Plot *p)
{
  double x = x_of (p, p->chart->cursor);

  if (!isfinite (x) || x < p->x - 0.5 || x > p->x + p->w + 0.5)
    return;
  pen_segment (p->pen, x, p->y - 4, x, p->y + p->h + 4);
  pen_stroke (p->pen, HOB_ROLE_PENCIL, 2);
}

void
hob_chart_paint (cairo_t *cr, const HobChartData *data, const HobChart *chart, double w, double h,
                 const HobLook *look)
{
  HobLook flat = { look->theme, look->text_scale, 1.0 };
  g_autoptr (HobType) type = hob_type_new (&flat);
  Plot p = { .cr = cr, .type = type, .look = &flat, .range = data->range, .chart = chart };
  double box[4];

  hob_chart_plot_box (chart, w, h, &flat, box);
  p.flag_rows = flag_rows (h);
  p.x = box[0], p.y = box[1], p.w = box[2], p.h = box[3];
  p.pen = hob_cairo_pen_new_with (cr, &flat, type, NULL);
  if (chart->to > chart->from)
    {
      times (&p);
      flags (&p, data->events);
      for (int k = 0; k < chart->n_traces; k++)
        one_band (&p, k, &data->run, data->has_twin ? &data->twin : NULL);
      cursor (&p);
    }
  hob_cairo_pen_free (p.pen);
}

/* The first part's quantity that its kind ranks @rank. */
static void
add_ranked (GArray *traces, const HobRange *range, int rank)
{
  for (int p = 0; p < range->n_parts; p++)
    for (int q = 0; q < range->parts[p].kind->n_quantities; q++)
      if (range->parts[p].kind->quantities[q].trace == rank)
        {
          HobTrace trace = { p, q, range->parts[p].kind->quantities[q].name };

          g_array_append_val (traces, trace);
          return;
        }
}

GArray *
hob_chart_default_traces (const HobRange *range)
{
  GArray *traces = g_array_new (FALSE, TRUE, sizeof (HobTrace));

  for (int rank = 1; rank <= HOB_LAST_TRACE && traces->len < 3; rank++)
    add_ranked (traces, range, rank);
  return traces;
}
