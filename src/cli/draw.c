/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "cli/cli.h"

#include "base/errors.h"
#include "base/i18n.h"
#include "sheet/chart.h"
#include "sheet/legend.h"
#include "sheet/pen-cairo.h"
#include "sheet/sequence-line.h"
#include "sheet/title-block.h"
#include "sheet/sheet.h"
#include "sheet/why-line.h"

#include <math.h>
#include <string.h>

#define LARGEST 16384 /* px, each way */

/* Sizes of a chart that says none, px. */
#define CHART_W 1200.0
#define CHART_H 600.0

typedef struct
{
  const char *file;
  HobLook look;
  double at, w, h; /* s, px; 0: the sheet's own size */
  int sheet;       /* HobSheet, CHART, SEQUENCE or WHY */
  HobPaper paper;
} Wanted;

enum { CHART = HOB_CHART_PICTURE, SEQUENCE = HOB_SEQUENCE_PICTURE, WHY = HOB_WHY_PICTURE };

static const struct
{
  const char *name;
  int sheet;
} sheets[] = {
  { "wiring", HOB_SHEET_WIRING },
  { "gas", HOB_SHEET_GAS },
  { "cutaway", HOB_SHEET_CUTAWAY },
  { "chart", CHART },
  { "sequence", SEQUENCE },
  { "why", WHY },
};

static const struct
{
  const char *name;
  HobTheme theme;
} themes[] = {
  { "light", HOB_THEME_LIGHT },
  { "dark", HOB_THEME_DARK },
  { "print", HOB_THEME_PRINT },
  { "contrast-light", HOB_THEME_CONTRAST_LIGHT },
  { "contrast-dark", HOB_THEME_CONTRAST_DARK },
};

static gboolean
usage_error (GError **error, const char *sentence)
{
  g_set_error_literal (error, HOB_ERROR, HOB_ERROR_USAGE, sentence);
  return FALSE;
}

static gboolean
read_sheet (const HobArgs *args, Wanted *w, GError **error)
{
  const char *text = hob_args_get (args, HOB_OPTION_SHEET);

  if (text == NULL)
    return usage_error (error,
                        _ ("--sheet is missing; add --sheet wiring, gas, cutaway, chart, "
                           "sequence, or why"));
  for (guint i = 0; i < G_N_ELEMENTS (sheets); i++)
    if (g_str_equal (sheets[i].name, text))
      {
        w->sheet = sheets[i].sheet;
        return TRUE;
      }
  g_set_error (error, HOB_ERROR, HOB_ERROR_USAGE,
               _ ("unknown sheet '%s'; use wiring, gas, cutaway, chart, sequence, or why"),
               text);
  return FALSE;
}

static gboolean
read_theme (const HobArgs *args, Wanted *w, GError **error)
{
  const char *text = hob_args_get (args, HOB_OPTION_THEME);

  w->look = (HobLook){ HOB_THEME_LIGHT, 1.0, 1.0 };
  for (guint i = 0; text != NULL && i < G_N_ELEMENTS (themes); i++)
    if (g_str_equal (themes[i].name, text))
      {
        w->look.theme = themes[i].theme;
        return TRUE;
      }
  if (text == NULL)
    return TRUE;
  g_set_error (error, HOB_ERROR, HOB_ERROR_USAGE,
               _ ("unknown theme '%s'; use light, dark, or print"), text);
  return FALSE;
}

static gboolean
read_paper (const HobArgs *args, Wanted *w, GError **error)
{
  static const char *const papers[] = {
    [HOB_PAPER_LETTER] = "letter", [HOB_PAPER_A4] = "a4", [HOB_PAPER_TABLOID] = "tabloid",
  };
  const char *text = hob_args_get (args, HOB_OPTION_PAPER);

  w->look.page = HOB_PAGE_PICTURE;
  if (text == NULL)
    return TRUE;
  w->look.page = HOB_PAGE_PAPER;
  for (guint i = HOB_PAPER_LETTER; i < G_N_ELEMENTS (papers); i++)
    if (g_str_equal (papers[i], text))
      {
        w->paper = (HobPaper) i;
        if (!hob_args_has (args, HOB_OPTION_SIZE))
          return TRUE;
        return usage_error (error, _ ("--paper and --size can't be used together; leave one out"));
      }
  g_set_error (error, HOB_ERROR, HOB_ERROR_USAGE,
               _ ("'%s' is not a paper size; use letter, a4, or tabloid"), text);
  return FALSE;
}

/* "1400x900" */
static gboolean
read_size (const HobArgs *args, Wanted *w, GError **error)
{
  const char *text = hob_args_get (args, HOB_OPTION_SIZE);
  g_auto (GStrv) pair = NULL;
  guint64 size[2];

  if (text == NULL)
    return TRUE;
  pair = g_strsplit (text, "x", -1);
  if (g_strv_length (pair) != 2
      || !g_ascii_string_to_unsigned (pair[0], 10, 16, LARGEST, &size[0], NULL)
      || !g_ascii_string_to_unsigned (pair[1], 10, 16, LARGEST, &size[1], NULL))
    {
      g_set_error (error, HOB_ERROR, HOB_ERROR_VALUE,
                   _ ("--size: '%s' is not a valid size; use WIDTHxHEIGHT, each from 16 to %d"),
                   text, LARGEST);
      return FALSE;
    }
  w->w = (double) size[0];
  w->h = (double) size[1];
  return TRUE;
}

static gboolean
read_file (const HobArgs *args, Wanted *w, GError **error)
{
  w->file = hob_args_get (args, HOB_OPTION_OUTPUT);
  if (w->file == NULL)
    return usage_error (error,
                        _ ("-o is missing; add -o FILE, where FILE ends in .svg, .pdf, or .png"));
  return hob_cli_may_draw (w->file, error);
}

/* A cause needs its symptom, and has a moment of its own. */
static gboolean
read_moment (const HobArgs *args, Wanted *w, GError **error)
{
  gboolean why = w->sheet == WHY;

  if (why && hob_args_has (args, HOB_OPTION_COVER))
    return usage_error (error, _ ("'--sheet why' shows the fault; leave out --cover"));
  if (why != hob_args_has (args, HOB_OPTION_SYMPTOM))
    return usage_error (error, why ? _ ("'--sheet why' needs a symptom; add --symptom \"SYMPTOM\"")
                                   : _ ("--symptom works only with '--sheet why'; add '--sheet "
                                        "why' or leave out --symptom"));
  if (hob_args_has (args, HOB_OPTION_AT))
    return hob_args_time (args, HOB_OPTION_AT, &w->at, error);
  return why || usage_error (error, _ ("--at is missing; add --at TIME, such as --at 90s"));
}

static gboolean
read_wanted (const HobArgs *args, Wanted *w, GError **error)
{
  return read_sheet (args, w, error) && read_theme (args, w, error) && read_paper (args, w, error)
         && read_size (args, w, error) && read_file (args, w, error)
         && read_moment (args, w, error);
}

/* ---- Drawing ---- */

static gboolean
draw_sheet (HobBench *bench, const HobFacts *facts, const GArray *sequence, gboolean covered,
            const Wanted *w, GError **error)
{
  g_autoptr (HobSceneReader) reader = hob_scene_reader_new (bench->plan);
  g_autoptr (HobScene) scene = hob_scene_new (hob_bench_range (bench));
  const HobTitleBlock block = { facts, &w->look, w->sheet, sequence, bench->run };

  scene->still = TRUE;
  scene->covered = covered;
  hob_scene_read (reader, scene, bench->run, hob_bench_should_be (bench), w->at);
  return hob_sheet_write (w->file, scene, &block, w->paper, w->w, w->h, error);
}

typedef struct
{
  HobChart chart;
  const HobLook *look;
} ChartJob;

static void
draw_chart_on (cairo_t *cr, double w, double h, gpointer user)
{
  const ChartJob *job = user;

  hob_sheet_ground (cr, w, h, job->look);
  hob_chart_draw (cr, &job->chart, w, h, job->look);
}

/* Those that are named, else those that tell most. (transfer full) */
static GArray *
traces_of (const HobArgs *args, const HobChart *chart, GError **error)
{
  const char *list = hob_args_get (args, HOB_OPTION_TRACE);
  const HobPlan *plan = hob_run_plan (chart->run);
  g_autoptr (HobLanes) lanes = NULL;
  g_autoptr (GArray) named = NULL;
  GArray *traces;

  if (list == NULL)
    {
      lanes = hob_lanes_new (plan);
      hob_lanes_look_back (lanes, chart->run, chart->should_be, chart->twin, chart->from,
                           chart->cursor);
      return hob_lanes_choose (lanes, hob_run_case (chart->run), chart->cursor, HOB_CHART_LANES);
    }
  named = hob_cli_traces (hob_plan_range (plan), list, error);
  if (named == NULL)
    return NULL;
  traces = g_array_new (FALSE, TRUE, sizeof (HobTrace));
  for (guint k = 0; k < named->len; k++)
    {
      const HobTraced *q = &g_array_index (named, HobTraced, k);
      HobTrace trace = { q->part, q->quantity };

      g_array_append_val (traces, trace);
    }
  return traces;
}

static gboolean
draw_chart (const HobArgs *args, HobBench *bench, HobFacts *facts, const Wanted *w,
            GError **error)
{
  ChartJob job = { { .run = bench->run,
                     .should_be = hob_bench_should_be (bench),
                     .twin = hob_bench_twin (bench),
                     .to = MAX (w->at, 1),
                     .cursor = w->at,
                     .book = bench->book,
                     .covered = hob_args_has (args, HOB_OPTION_COVER) },
                   &w->look };
  const HobTitleBlock block = { facts, &w->look, CHART };
  g_autoptr (GArray) traces = traces_of (args, &job.chart, error);

  if (traces == NULL)
    return FALSE;
  facts->now = hob_hazards_up_to (bench->book, bench->run, w->at); /* a chart shows all of it */
  job.chart.traces = (const HobTrace *) (gconstpointer) traces->data;
  job.chart.n_traces = (int) traces->len;
  return hob_picture_write (w->file, w->w > 0 ? w->w : CHART_W, w->h > 0 ? w->h : CHART_H,
                            w->paper, draw_chart_on, &job, &block, error);
}

/* What is due around now. (transfer full) */
static GArray *
sequence_at (HobBench *bench, double t)
{
  g_autoptr (HobComparison) c = hob_comparison_new (bench->plan);
  HobRun *twin = hob_bench_twin (bench);

  (void) hob_run_advance (twin, t + HOB_SEQUENCE_AHEAD, NULL);
  return hob_sequence_read (bench->run, twin, hob_bench_should_be (bench), c, t);
}

/* A ruled line, as wide as the page is. */
typedef struct
{
  const HobLook *look;
  void (*draw) (HobPen *pen, HobType *type, double w, gconstpointer line);
  gconstpointer line;
} Ruled;

static void
draw_ruled_on (cairo_t *cr, double w, double h, gpointer user)
{
  const Ruled *ruled = user;
  g_autoptr (HobType) type = hob_type_new (ruled->look);
  HobPen *pen = hob_cairo_pen_new_with (cr, ruled->look, type, NULL);

  hob_sheet_ground (cr, w, h, ruled->look);
  ruled->draw (pen, type, w, ruled->line);
  hob_cairo_pen_free (pen);
}

static void
draw_sequence_line (HobPen *pen, HobType *type, double w, gconstpointer user)
{
  HobSequenceLine line = *(const HobSequenceLine *) user;

  line.w = w;
  hob_sequence_line_draw (pen, type, &line);
}

static gboolean
draw_sequence (const HobBench *bench, const HobFacts *facts, const GArray *sequence,
               const Wanted *w, GError **error)
{
  const HobTitleBlock block = { facts, &w->look, SEQUENCE };
  HobSequenceLine line = { .entries = sequence, .run = bench->run, .look = &w->look,
                           .w = w->w > 0 ? w->w : CHART_W };
  Ruled ruled = { &w->look, draw_sequence_line, &line };
  double height = w->h;

  if (height <= 0)
    height = hob_sequence_line_height (&line)
             + hob_title_block_height (&block, line.w, HOB_BLOCK_WHOLE);
  return hob_picture_write (w->file, line.w, height, w->paper, draw_ruled_on, &ruled, &block,
                            error);
}

static void
draw_why_line (HobPen *pen, HobType *type, double w, gconstpointer user)
{
  HobWhyLine line = *(const HobWhyLine *) user;

  line.w = w;
  hob_why_line_draw (pen, type, &line);
}

static void
write_why (const HobCliWhy *why, const Wanted *w, GError **error)
{
  HobBench *bench = why->bench;
  double noticed = ((const HobWhy *) why->chains->pdata[0])->t;
  g_autoptr (HobFacts) facts = hob_facts_new (bench, noticed, FALSE);
  const HobTitleBlock block = { facts, &w->look, WHY };
  HobWhyLine line = { why->chains, hob_bench_range (bench),
                      hob_symptom_book_get (bench->book, why->symptom), &w->look,
                      w->w > 0 ? w->w : CHART_W };
  Ruled ruled = { &w->look, draw_why_line, &line };
  double height = w->h;

  if (height <= 0)
    height = hob_why_line_height (&line)
             + hob_title_block_height (&block, line.w, HOB_BLOCK_WHOLE);
  hob_picture_write (w->file, line.w, height, w->paper, draw_ruled_on, &ruled, &block, error);
}

static void
draw_why (HobRange *range, const HobArgs *args, const HobCase *acts, const Wanted *w,
          GError **error)
{
  HobCliWhy why;

  if (hob_cli_why (&why, range, acts, args, w->at, error))
    write_why (&why, w, error);
  hob_cli_why_clear (&why);
}

static gboolean
draw (HobRange *range, const HobArgs *args, const HobCase *acts, const Wanted *w, GError **error)
{
  g_autoptr (HobBench) bench = hob_bench_new (NULL, range, acts, error);
  g_autoptr (HobFacts) facts = NULL;
  g_autoptr (GArray) sequence = NULL;
  gboolean covered = hob_args_has (args, HOB_OPTION_COVER);

  if (bench != NULL)
    hob_bench_should_be (bench); /* from the start it goes along step by step */
  if (bench == NULL || hob_bench_advance (bench, w->at, error) != HOB_RUN_OK)
    return FALSE;
  facts = hob_facts_new (bench, w->at, covered);
  if (w->sheet == CHART)
    return draw_chart (args, bench, facts, w, error);
  sequence = sequence_at (bench, w->at);
  if (w->sheet == SEQUENCE)
    return draw_sequence (bench, facts, sequence, w, error);
  return draw_sheet (bench, facts, sequence, covered, w, error);
}

int
hob_command_draw (char **words, GError **error)
{
  g_autoptr (HobArgs) args = hob_args_parse (words, "draw", error);
  g_autoptr (HobRange) range = NULL;
  g_autoptr (HobCase) acts = NULL;
  Wanted wanted = { 0 };
  double until = 0;

  if (args == NULL
      || !hob_args_words (args, 1, 1, "draw RANGE [CASE] --sheet SHEET --at T -o FILE", error)
      || !read_wanted (args, &wanted, error)
      || (range = hob_cli_load (args->words->pdata[0], error)) == NULL
      || !hob_output_may_replace (range, wanted.file, error)
      || (acts = hob_cli_case (range, args, &until, error)) == NULL)
    return 0;
  if (wanted.sheet == WHY)
    draw_why (range, args, acts, &wanted, error);
  else
    draw (range, args, acts, &wanted, error);
  return 0;
}
