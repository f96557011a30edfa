/* SPDX-License-Identifier: GPL-3.0-or-later */

/* Two sentences of one picture never contradict each other.  What its sheets, its title block, its
 * sequence line, a chart's hand and a part's reading say of the same part and quantity at the same
 * moment is gathered as it is written, and held against each other: the values, what they should
 * be, and the states.  In the ordinary run a fixed sample of the faults is tried. */

#include "parts/say.h"
#include "recording-pen.h"
#include "run/comparison.h"
#include "run/differ.h"
#include "run/sequence.h"
#include "sheet/caption.h"
#include "sheet/chart-data.h"
#include "sheet/differences.h"
#include "sheet/facts.h"
#include "sheet/stage.h"
#include "shipped.h"
#include "staged.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#define SAMPLE 12      /* faults of each range */
#define NOW 0.01       /* s: said of the same moment */
#define PANEL_DIGITS 3 /* as the panel beside a picture has them */

static const char *const acts = "0s oven.mode=bake | 20s knob-lf=light | 30s knob-lf=high"
                                " | 1500s knob-lf=off | 2700s oven.mode=off";
static const double moments[] = { 15, 62, 150, 700, 1490, 2600, 2760 };

/* What a place says; should_be NULL: nothing of that. */
typedef struct
{
  const char *place; /* static */
  int part, quantity;
  char *is, *should_be; /* owned */
  double value;         /* SI, where only a value is read; NaN */
} Claim;

typedef struct
{
  int moments, claims, values, should_bes, states, silent;
  int figures, far_off, led; /* captions; those over 8 px from their part; with a line there */
} Counts;

static void
clear_claim (gpointer item)
{
  Claim *claim = item;

  g_free (claim->is);
  g_free (claim->should_be);
}

static void
claim (GArray *claims, const char *place, int part, int quantity, const char *is,
       const char *should_be)
{
  const Claim one = { place, part, quantity, g_strdup (is), g_strdup (should_be), NAN };

  g_array_append_val (claims, one);
}

/* "2.7 A, should be 3.5 A". */
static void
claim_text (GArray *claims, const char *place, int part, int quantity, const char *text)
{
  g_auto (GStrv) two = text != NULL ? g_strsplit (text, ", should be ", 2) : NULL;

  if (two != NULL)
    claim (claims, place, part, quantity, two[0], two[1]);
}

/* ---- What is said where ---- */

/* Captions as they are drawn: a figure, "should be …" below it, and a note. */
static void
claim_caption (GArray *claims, const HobScene *scene, HobSheet sheet, const HobCaption *caption)
{
  static const char *const places[] = { "wiring sheet", "gas sheet", "cutaway" };
  const HobPartScene *p = &scene->parts[caption->part];
  const HobKind *kind = p->view.kind;
  gboolean opens = sheet == HOB_SHEET_GAS && kind->opening > 0;

  for (int k = 0; k < caption->n; k++)
    {
      const char *text = caption->line[k].text;
      gboolean more = k + 1 < caption->n
                      && g_str_has_prefix (caption->line[k + 1].text, "should be ");
      const char *should_be = more ? caption->line[k + 1].text + strlen ("should be ") : NULL;

      if (k == 0 && opens && g_str_has_suffix (text, " open"))
        {
          g_autofree char *share = g_strndup (text, strlen (text) - strlen (" open"));

          claim (claims, places[sheet], caption->part, kind->opening - 1, share, should_be);
        }
      else if (k == 0 && !opens && caption->line[k].size == HOB_TEXT_FIGURE && !isnan (p->figure))
        claim (claims, places[sheet], caption->part, kind->figure, text, should_be);
      else if (strstr (text, ", should be ") != NULL)
        claim_text (claims, places[sheet], caption->part, p->noted, text);
    }
}

/* A figure that is not beside its part has a line that leads there: where it begins. */
static gboolean
has_leader (const RecordingPen *pen, const HobCaption *caption)
{
  const HobBox *b = &caption->box;
  g_auto (GStrv) strokes = g_strsplit (pen->strokes->str, "\n", -1);

  for (char **one = strokes; *one != NULL; one++)
    {
      double x0, y0, x1, y1;

      if (sscanf (*one, "stroke PENCIL 1: M%lf,%lf L%lf,%lf", &x0, &y0, &x1, &y1) == 4
          && x0 >= b->x0 - 1 && x0 <= b->x1 + 1 && y0 >= b->y0 - 1 && y0 <= b->y1 + 1)
        return TRUE;
    }
  return FALSE;
}

static void
measure_caption (Counts *counts, const HobStage *stage, const RecordingPen *pen,
                 const HobCaption *caption)
{
  if (caption->n == 0 || !caption->shown
      || hob_cell_is_interior (stage->range->parts[caption->part].kind))
    return;
  counts->figures++;
  if (hob_caption_gap (stage, caption) <= HOB_CAPTION_NEAR)
    return;
  counts->far_off++;
  hob_caption_draw_leader (stage, caption);
  counts->led += has_leader (pen, caption);
}

static void
claim_sheet (Counts *counts, GArray *claims, const HobScene *scene, HobSheet sheet)
{
  const HobLook look = { HOB_THEME_PRINT, 1.0, 1.0, HOB_PAGE_PICTURE };
  g_autoptr (HobType) type = hob_type_new (&look);
  g_autoptr (RecordingPen) pen = recording_pen_new (type, &look);
  g_autoptr (HobRoutes) routes = hob_routes_new (scene->range, sheet);
  const HobStage stage = { .pen = &pen->pen, .type = type, .look = &look, .range = scene->range,
                           .sheet = sheet, .routes = routes, .scene = scene };
  g_autoptr (GArray) captions = hob_captions_lay (&stage);

  for (guint k = 0; k < captions->len; k++)
    {
      claim_caption (claims, scene, sheet, &g_array_index (captions, HobCaption, k));
      measure_caption (counts, &stage, pen, &g_array_index (captions, HobCaption, k));
    }
}

static int
part_of (const HobRange *range, const char *label)
{
  for (int k = 0; k < range->n_parts; k++)
    if (strcmp (hob_part_label (&range->parts[k]), label) == 0)
      return k;
  return -1;
}

static int
quantity_of (const HobKind *kind, const char *words)
{
  for (int k = 0; words != NULL && k < kind->n_quantities; k++)
    if (strcmp (kind->quantities[k].words, words) == 0)
      return k;
  return kind->figure;
}

/* "Igniter, Other igniter (contact closed): 2.7 A, should be 3.5 A". */
static void
claim_difference (GArray *claims, const HobRange *range, const char *text)
{
  const char *colon = strstr (text, ": "), *words = strstr (text, " (");
  g_autofree char *head = NULL, *quantity = NULL;
  g_auto (GStrv) labels = NULL;

  if (colon == NULL)
    return;
  if (words != NULL && words < colon)
    quantity = g_strndup (words + 2, (gsize) (colon - words - 3));
  head = g_strndup (text, (gsize) ((quantity != NULL ? words : colon) - text));
  labels = g_strsplit (head, ", ", -1);
  for (char **label = labels; *label != NULL; label++)
    {
      int part = part_of (range, *label);

      if (part >= 0)
        claim_text (claims, "title block", part, quantity_of (range->parts[part].kind, quantity),
                    colon + 2);
    }
}

static const char *
fact (const HobFacts *facts, const char *heading)
{
  for (guint k = 0; k < facts->list->len; k++)
    if (strcmp (g_array_index (facts->list, HobFact, k).heading, heading) == 0)
      return g_array_index (facts->list, HobFact, k).text;
  return NULL;
}

/* Returns whether it says that nothing differs. */
static gboolean
claim_facts (GArray *claims, Staged *staged)
{
  g_autoptr (HobFacts) facts = hob_facts_new (staged->bench, staged->at, FALSE);
  const char *text = fact (facts, "Different from normal now");
  g_auto (GStrv) each = NULL;

  g_assert_nonnull (text);
  each = g_strsplit (text, "; ", -1);
  for (char **one = each; *one != NULL; one++)
    claim_difference (claims, staged->range, *one);
  return strcmp (text, "nothing") == 0;
}

/* (transfer full) */
static GArray *
sequence_at (Staged *staged)
{
  HobBench *bench = staged->bench;
  g_autoptr (HobComparison) c = hob_comparison_new (bench->plan);

  hob_run_advance (hob_bench_twin (bench), staged->at + HOB_SEQUENCE_AHEAD, NULL);
  return hob_sequence_read (bench->run, hob_bench_twin (bench), hob_bench_should_be (bench), c,
                            staged->at);
}

static void
claim_entry (GArray *claims, const Staged *staged, const HobSequenceEntry *e)
{
  g_autofree char *text = hob_sequence_figures (staged->bench->run, e);
  g_auto (GStrv) two = NULL, rest = NULL;
  const char *named;

  if (e->quantity < 0 || !e->differs || !hob_sequence_is_ringed (e)
      || fabs (e->read_at - staged->at) > NOW)
    return;
  two = g_strsplit (text, ", should be ", 2);
  g_assert_nonnull (two[1]);
  rest = g_strsplit (two[1], "; ", 2);
  named = strstr (two[0], ": ");
  claim (claims, "sequence line", e->part, e->quantity, named != NULL ? named + 2 : two[0],
         rest[0]);
}

/* The window's panel reads every quantity, and hovering a part says its figure. */
static void
claim_readings (GArray *claims, const Staged *staged, const HobMoment *m)
{
  for (int p = 0; p < staged->range->n_parts; p++)
    {
      const HobKind *kind = staged->range->parts[p].kind;
      const HobPartScene *scene = &staged->scene->parts[p];

      for (int q = 0; q < kind->n_quantities; q++)
        {
          g_autofree char *is = hob_quantity_text (&kind->quantities[q],
                                                   hob_moment_quantity (m, p, q), PANEL_DIGITS);

          claim (claims, "panel", p, q, is, NULL);
          g_array_index (claims, Claim, claims->len - 1).value = hob_moment_quantity (m, p, q);
        }
      if (kind->figure >= 0 && !isnan (scene->figure))
        {
          g_autofree char *text
              = hob_figures_text (&kind->quantities[kind->figure], scene->figure,
                                  scene->differs ? scene->should_be : NAN);

          claim_text (claims, "under the pointer", p, kind->figure, text);
        }
    }
}

/* A chart whose hand is at the moment, with a lane for all that may be compared. */
static void
claim_chart (GArray *claims, Staged *staged)
{
  g_autoptr (GArray) traces = g_array_new (FALSE, TRUE, sizeof (HobTrace));
  HobChart chart = { .run = staged->bench->run, .twin = hob_bench_twin (staged->bench),
                     .should_be = hob_bench_should_be (staged->bench), .cursor = staged->at };
  g_autofree HobAtHand *hand = NULL;

  for (int p = 0; p < staged->range->n_parts; p++)
    for (int q = 0; q < staged->range->parts[p].kind->n_quantities; q++)
      {
        const HobTrace trace = { .part = p, .quantity = q };

        if (!staged->range->parts[p].kind->quantities[q].counts)
          g_array_append_val (traces, trace);
      }
  chart.traces = (HobTrace *) (void *) traces->data;
  chart.n_traces = (int) traces->len;
  hand = hob_chart_at_hand (&chart);
  for (int k = 0; k < chart.n_traces; k++)
    if (hob_chart_behind (&chart, k) == HOB_BEHIND_SHOULD_BE)
      {
        const HobTrace *t = &chart.traces[k];
        g_autofree char *text = hob_figures_text (
            &staged->range->parts[t->part].kind->quantities[t->quantity], hand[k].value,
            hand[k].normal);

        claim_text (claims, "chart", t->part, t->quantity, text);
      }
}

/* ---- Held against each other ---- */

/* A number, how far it may be off by its last digit, and what follows it; FALSE: words. */
static gboolean
number (const char *text, double *value, double *off, char **unit)
{
  g_auto (GStrv) parts = g_strsplit (text, ",", -1);
  g_autofree char *plain = g_strjoinv ("", parts);
  char *end;
  const char *point;
  gsize zeros = 0;

  *value = g_ascii_strtod (plain, &end);
  if (end == plain)
    return FALSE;
  *unit = g_strdup (end);
  *end = '\0';
  point = strchr (plain, '.');
  if (point != NULL)
    *off = 0.5 * pow (10, -(double) strlen (point + 1));
  else
    {
      while (zeros + 1 < strlen (plain) && plain[strlen (plain) - 1 - zeros] == '0')
        zeros++;
      *off = 0.5 * pow (10, (double) zeros);
    }
  return TRUE;
}

/* The same words, or the same number as far as either is written out. */
static gboolean
agree (const char *a, const char *b)
{
  double x, y, off_x, off_y;
  g_autofree char *unit_x = NULL, *unit_y = NULL;

  if (strcmp (a, b) == 0)
    return TRUE;
  return number (a, &x, &off_x, &unit_x) && number (b, &y, &off_y, &unit_y)
         && strcmp (unit_x, unit_y) == 0 && fabs (x - y) <= (off_x + off_y) * (1 + 1e-9);
}

/* Beside what should be there, what no instrument is sure of may be nothing. */
static gboolean
is_nothing_beside (const HobQuantityDef *quantity, const Claim *a, const Claim *b)
{
  double least = quantity->least > 0 ? quantity->least : hob_differ_floor (quantity->dim);

  return a->should_be != NULL && strtod (a->is, NULL) == 0 && fabs (b->value) < least / 2;
}

static void
hold (Counts *counts, const Staged *staged, const char *what, const Claim *a, const Claim *b)
{
  const HobPart *part = &staged->range->parts[a->part];
  const HobQuantityDef *quantity = &part->kind->quantities[a->quantity];
  gboolean values = agree (a->is, b->is) || is_nothing_beside (quantity, a, b)
                    || is_nothing_beside (quantity, b, a),
           should_bes = a->should_be == NULL || b->should_be == NULL
                        || agree (a->should_be, b->should_be);

  counts->values += !values;
  counts->should_bes += !should_bes;
  if (!values || !should_bes)
    g_test_message ("%s %s at %g s, %s %s: %s: %s, should be %s; %s: %s, should be %s",
                    staged->range->id, what, staged->at, part->id,
                    quantity->name, a->place, a->is, a->should_be,
                    b->place, b->is, b->should_be);
}

/* What the whole oven should have come to by now is not what it should read now. */
static gboolean
is_of_the_whole (const Claim *claim)
{
  return claim->should_be != NULL && g_str_has_suffix (claim->should_be, " by now");
}

/* A place that gives a should-be for a quantity, and one that gives its value and none. */
static gboolean
one_takes_for_normal (const Claim *a, const Claim *b)
{
  return (a->should_be == NULL) != (b->should_be == NULL) && strcmp (a->place, "panel") != 0
         && strcmp (b->place, "panel") != 0 && !is_of_the_whole (a) && !is_of_the_whole (b);
}

static void
hold_all (Counts *counts, const Staged *staged, const char *what, const GArray *claims)
{
  for (guint i = 0; i < claims->len; i++)
    for (guint k = i + 1; k < claims->len; k++)
      {
        const Claim *a = &g_array_index (claims, Claim, i), *b = &g_array_index (claims, Claim, k);

        if (a->part != b->part || a->quantity != b->quantity)
          continue;
        hold (counts, staged, what, a, b);
        if (one_takes_for_normal (a, b))
          {
            counts->states++;
            g_test_message ("%s %s at %g s, %s %s: %s: %s, should be %s; %s: %s, should be %s",
                            staged->range->id, what, staged->at,
                            staged->range->parts[a->part].id,
                            staged->range->parts[a->part].kind->quantities[a->quantity].name,
                            a->place, a->is, a->should_be, b->place, b->is, b->should_be);
          }
      }
}

/* One text that says the same number twice, as what is and what should be; or of what differs only
 * what it is. */
static void
hold_alone (Counts *counts, const Staged *staged, const char *what, const Claim *claim)
{
  if (claim->should_be == NULL && strcmp (claim->place, "title block") == 0)
    {
      counts->should_bes++;
      g_test_message ("%s %s at %g s, %s: different from normal: %s", staged->range->id, what,
                      staged->at, staged->range->parts[claim->part].id, claim->is);
    }
  if (claim->should_be == NULL || strcmp (claim->is, claim->should_be) != 0)
    return;
  counts->should_bes++;
  g_test_message ("%s %s at %g s, %s: %s: %s, should be the same", staged->range->id, what,
                  staged->at, staged->range->parts[claim->part].id, claim->place, claim->is);
}

/* What the sequence line says has been done and holds, or has not been done, is so now; and no
 * sheet says that what it has ticked off, and not ringed, should be otherwise. */
static void
hold_entry (Counts *counts, const Staged *staged, const char *what, const HobComparison *c,
            const HobSequenceEntry *e)
{
  double now = hob_moment_part (hob_comparison_now (c), e->part)->mode[e->mode];
  gboolean ticked = e->state == HOB_SEQUENCE_MET || e->state == HOB_SEQUENCE_LATE
                    || e->state == HOB_SEQUENCE_EARLY || e->state == HOB_SEQUENCE_POOR;
  gboolean holds = ticked && !e->over && e->due <= staged->at && e->until >= staged->at,
           wrong = FALSE;
  g_autofree char *words = NULL;

  if (holds)
    wrong = now != e->value
            || (!hob_sequence_is_ringed (e) && hob_comparison_mode (c, e->part, e->mode, NULL));
  else if (e->state == HOB_SEQUENCE_UNMET && !e->over)
    wrong = now == e->value;
  if (!wrong)
    return;
  words = hob_sequence_words (staged->bench->run, e);
  counts->states++;
  g_test_message ("%s %s at %g s: the line says: %s (%d, due %g, done %g), but it is %g",
                  staged->range->id, what, staged->at, words, (int) e->state, e->due, e->done,
                  now);
}

/* Rings, arcs and brackets on all sheets. */
static int
signs_of (const HobScene *scene)
{
  int n = 0;

  for (int p = 0; p < scene->range->n_parts; p++)
    n += scene->parts[p].culprit || scene->parts[p].differs || scene->parts[p].noted >= 0;
  for (int k = 0; k < scene->range->n_wires; k++)
    n += scene->wires[k].volts_differ;
  for (int k = 0; k < scene->range->n_pipes; k++)
    n += scene->pipes[k].pressure_differs;
  return n;
}

static void
check_moment (Counts *counts, Staged *staged, const char *what)
{
  g_autoptr (GArray) claims = g_array_new (FALSE, FALSE, sizeof (Claim)), sequence = NULL;
  g_autoptr (HobComparison) c = hob_comparison_new (staged->bench->plan);
  gboolean nothing;

  g_array_set_clear_func (claims, clear_claim);
  g_assert_cmpint (hob_bench_advance (staged->bench, staged->at, NULL), ==, HOB_RUN_OK);
  staged_read (staged);
  for (int sheet = 0; sheet < HOB_N_SHEETS; sheet++)
    claim_sheet (counts, claims, staged->scene, (HobSheet) sheet);
  nothing = claim_facts (claims, staged);
  sequence = sequence_at (staged);
  hob_comparison_read (c, staged->bench->run, hob_bench_should_be (staged->bench), staged->at);
  claim_readings (claims, staged, hob_comparison_now (c));
  claim_chart (claims, staged);
  for (guint k = 0; k < sequence->len; k++)
    {
      const HobSequenceEntry *e = &g_array_index (sequence, HobSequenceEntry, k);

      claim_entry (claims, staged, e);
      hold_entry (counts, staged, what, c, e);
    }
  hold_all (counts, staged, what, claims);
  for (guint k = 0; k < claims->len; k++)
    hold_alone (counts, staged, what, &g_array_index (claims, Claim, k));
  if (nothing && signs_of (staged->scene) > 0)
    {
      counts->silent++;
      g_test_message ("%s %s at %g s: %d signs, and the title block says that nothing differs",
                      staged->range->id, what, staged->at, signs_of (staged->scene));
    }
  counts->moments++;
  counts->claims += (int) claims->len;
}

static double
first_symptom (const HobBench *bench, double until)
{
  guint first, n = hob_run_events (bench->run, -1, until, &first);

  for (guint k = first; k < first + n; k++)
    if (hob_run_event (bench->run, k)->what == HOB_EVENT_SYMPTOM)
      return hob_run_event (bench->run, k)->t + 1;
  return NAN;
}

static void
check_fault (gpointer user, const char *range, const char *fault)
{
  Counts *counts = user;
  g_autofree char *words = g_strdup_printf ("%s | %s", fault, acts);
  g_autoptr (Staged) staged = staged_new (range, words, 0);
  double last = moments[G_N_ELEMENTS (moments) - 1], first;

  g_assert_cmpint (hob_bench_advance (staged->bench, last, NULL), ==, HOB_RUN_OK);
  first = first_symptom (staged->bench, last - 1);
  for (gsize k = 0; k < G_N_ELEMENTS (moments); k++)
    {
      staged->at = moments[k];
      check_moment (counts, staged, fault);
    }
  if (isnan (first))
    return;
  staged->at = first;
  check_moment (counts, staged, fault);
}

static void
test_range (gconstpointer data)
{
  Counts counts = { 0 };
  guint n;

  staged_each_fault (data, SAMPLE, check_fault, &counts, &n);
  printf ("# %s, %u faults, %d moments, %d statements: values that disagree %d, should-bes %d, "
          "states %d, signs that the block denies %d; of %d figures %d are not beside their part, "
          "%d of these have a line to it\n",
          (const char *) data, n, counts.moments, counts.claims, counts.values,
          counts.should_bes, counts.states, counts.silent, counts.figures, counts.far_off,
          counts.led);
  g_assert_cmpint (counts.claims, >, 20 * counts.moments);
  g_assert_cmpint (counts.led, ==, counts.far_off);
  if (counts.values + counts.should_bes + counts.states + counts.silent > 0)
    g_test_fail ();
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  staged_add_ranges ("/sheet/agree", test_range);
  return g_test_run ();
}
