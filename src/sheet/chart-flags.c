/* SPDX-License-Identifier: GPL-3.0-or-later */

/* Flags over a chart, in up to three rows.  Words are whole, or there are none; no words lie on
 * others, nor on the staff of a flag. */

#include "sheet/chart-data.h"
#include "base/i18n.h"
#include <math.h>

#define PENNANT 8.0  /* px */
#define GAP 6.0      /* px between two flags of a row */
#define EDGE 2.0     /* px from the picture's sides */

/* Where a flag's words are. */
typedef struct
{
  const HobChartEvent *event;
  double x;        /* px */
  int row;         /* 0 lowest; −1: without words */
  double from, to; /* px that the pennant and the words take */
  gboolean left;   /* the words are left of it */
} HobFlag;

double
hob_plot_x (const HobPlot *plot, double t)
{
  return plot->x + (t - plot->chart->from) / (plot->chart->to - plot->chart->from) * plot->w;
}

/* Acts are the hand's (pencil), changes the range's (ink), symptoms ringed. */
static HobRole
role_of (HobEventClass what)
{
  static const HobRole roles[] = { [HOB_EVENT_ACT] = HOB_ROLE_PENCIL,
                                   [HOB_EVENT_CHANGE] = HOB_ROLE_INK2,
                                   [HOB_EVENT_SYMPTOM] = HOB_ROLE_RING,
                                   [HOB_EVENT_SYMPTOM_END] = HOB_ROLE_RING };

  return roles[what];
}

static char *
flag_words (const HobChartEvent *event)
{
  if (event->times <= 1)
    return g_strdup (event->words);
  /* Translators: something that happens again and again, and how often: "Bake burner: flame
   * lights, ×23". */
  return g_strdup_printf (_ ("%s, ×%d"), event->words, event->times);
}

/* ---- Laying ---- */

/* Does a staff at x go through the flag, which begins at its own? */
static gboolean
is_crossed (const HobFlag *flag, double x)
{
  return flag->left ? x > flag->from - EDGE && x < flag->x : x > flag->x && x < flag->to + EDGE;
}

/* A flag's staff goes down through the rows below its own. */
static gboolean
is_in_the_way (const HobFlag *placed, const HobFlag *flag)
{
  if (placed->row < 0)
    return FALSE;
  if (placed->row == flag->row)
    return flag->from < placed->to + GAP && placed->from < flag->to + GAP;
  return placed->row < flag->row ? is_crossed (placed, flag->x) : is_crossed (flag, placed->x);
}

static gboolean
is_free (const GArray *flags, const HobFlag *flag)
{
  for (guint k = 0; k < flags->len; k++)
    if (is_in_the_way (&g_array_index (flags, HobFlag, k), flag))
      return FALSE;
  return TRUE;
}

/* At x, in the highest row that has room for it, right of its staff or left of it: the staff of one
 * that comes later is then the shorter one. */
static gboolean
place_at (const HobPlot *plot, const GArray *flags, HobFlag *flag, double x, double w, int rows)
{
  HobFlag tried = { flag->event, x };

  for (tried.row = rows - 1; tried.row >= 0; tried.row--)
    for (int left = 0; left < 2; left++)
      {
        tried.left = left;
        tried.from = left ? x - w : x;
        tried.to = left ? x : x + w;
        if (tried.from < EDGE || tried.to > plot->x + plot->w + 12 || !is_free (flags, &tried))
          continue;
        *flag = tried;
        return TRUE;
      }
  return FALSE;
}

static void
place (const HobPlot *plot, const HobChartData *data, GArray *flags, guint index, int rows)
{
  HobFlag *flag = &g_array_index (flags, HobFlag, index);
  g_autofree char *words = flag_words (flag->event);
  double w;

  w = hob_type_width (plot->type, HOB_TEXT_SMALL, words) + PENNANT + 4;
  if (place_at (plot, flags, flag, flag->x, w, rows))
    return;
  for (guint k = 0; flag->event->times > 1 && k < data->repeats->len; k++)
    {
      const HobChartEvent *again = &g_array_index (data->repeats, HobChartEvent, k);

      if (again->group == flag->event->group
          && place_at (plot, flags, flag, hob_plot_x (plot, again->t), w, rows))
        return;
    }
}

#define LAST_TURN 3

static int
turn_of (const HobChartEvent *event)
{
  static const int turns[] = { [HOB_EVENT_ACT] = 0,
                               [HOB_EVENT_SYMPTOM] = 1,
                               [HOB_EVENT_SYMPTOM_END] = 2,
                               [HOB_EVENT_CHANGE] = LAST_TURN };

  return turns[event->what];
}

/* Acts have their words first, then symptoms, and changes where there is room left. */
static GArray *
flags_lay (const HobPlot *plot, const HobChartData *data, int rows)
{
  GArray *flags = g_array_new (FALSE, TRUE, sizeof (HobFlag));

  for (guint k = 0; k < data->events->len; k++)
    {
      const HobChartEvent *event = &g_array_index (data->events, HobChartEvent, k);
      double x = hob_plot_x (plot, event->t);
      HobFlag flag = { event, x, -1, x, x + PENNANT, FALSE };

      g_array_append_val (flags, flag);
    }
  for (int turn = 0; turn <= LAST_TURN; turn++)
    for (guint k = 0; k < flags->len; k++)
      if (turn_of (g_array_index (flags, HobFlag, k).event) == turn)
        place (plot, data, flags, k, rows);
  return flags;
}

/* ---- Drawing ---- */

static void
pennant (const HobPlot *plot, const HobFlag *flag, double top, HobRole role)
{
  double way = flag->left ? -7 : 7;

  pen_move (plot->pen, flag->x, top);
  pen_line (plot->pen, flag->x + way, top + PENNANT / 2);
  pen_line (plot->pen, flag->x, top + PENNANT);
  pen_close (plot->pen);
  pen_fill (plot->pen, role);
}

/* What has no words is a mark at the plot's edge: a change a short one. */
static void
mark (const HobPlot *plot, double x, HobEventClass what)
{
  double scale = fmax (1, plot->look->text_scale);

  pen_segment (plot->pen, x, plot->y - (what == HOB_EVENT_CHANGE ? 5 : 8) * scale, x, plot->y);
  pen_stroke (plot->pen, role_of (what), what == HOB_EVENT_CHANGE ? 1 : 2);
}

static void
draw (const HobPlot *plot, const HobFlag *flag)
{
  HobRole role = role_of (flag->event->what);
  double scale = fmax (1, plot->look->text_scale);
  double top = plot->y - (HOB_FLAG_STRIP + HOB_FLAG_ROW * (flag->row + 1) - 3) * scale;
  g_autofree char *words = flag_words (flag->event);

  pen_segment (plot->pen, flag->x, top, flag->x, plot->y + plot->h);
  pen_dash (plot->pen, 1, 3);
  pen_stroke (plot->pen, role, 1);
  pennant (plot, flag, top, role);
  pen_text (plot->pen, flag->x + (flag->left ? -10 : 10), top + PENNANT * scale + 1, HOB_TEXT_SMALL,
            role, flag->left ? HOB_ALIGN_RIGHT : HOB_ALIGN_LEFT, words);
}

void
hob_flags_paint (const HobPlot *plot, const HobChartData *data, int rows)
{
  g_autoptr (GArray) flags = flags_lay (plot, data, rows);

  for (guint k = 0; k < data->repeats->len; k++)
    {
      const HobChartEvent *event = &g_array_index (data->repeats, HobChartEvent, k);

      mark (plot, hob_plot_x (plot, event->t), event->what);
    }
  for (guint k = 0; k < flags->len; k++)
    {
      const HobFlag *flag = &g_array_index (flags, HobFlag, k);

      if (flag->row < 0 || flag->event->times > 1)
        mark (plot, hob_plot_x (plot, flag->event->t), flag->event->what);
      if (flag->row >= 0)
        draw (plot, flag);
    }
}
