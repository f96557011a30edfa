/* SPDX-License-Identifier: GPL-3.0-or-later */

/* Everything on a picture can be read: on no sheet, with no fault, does a text, a tag or a ring lie
 * on another text, reach beyond the sheet, or end in "…".  At the moment of the first symptom, on
 * screen and on Letter paper. */

#include "config.h"
#include "base/hash.h"
#include "base/i18n.h"
#include "recording-pen.h"
#include "shipped.h"
#include "staged.h"
#include "sheet/legend.h"
#include "sheet/sequence-line.h"
#include "sheet/stage.h"
#include "sheet/title-block.h"
#include <locale.h>
#include <math.h>
#include <stdio.h>
#include <string.h>

#define SAMPLE 24     /* faults of each range */
#define STEP 3.0      /* px along a ring: no text is as small */
#define HALF_RING 0.5 /* px; its line is 2.5 wide, and what only touches it can be read */
#define SMALL_LINE 470.0 /* px: what a panel leaves of 900 with text of 1.5 */
#define UNTIL 150.0   /* s; without a symptom it is drawn here */

static const char *const acts = "0s oven.mode=bake | 20s knob-lf=light | 30s knob-lf=high";

typedef struct
{
  int pictures, on_text, under_tag, ringed, clipped, cut, too_wide;
} Counts;

static gboolean
beyond (const HobBox *box, const double bounds[4])
{
  return box->x0 < bounds[0] - 0.5 || box->y0 < bounds[1] - 0.5
         || box->x1 > bounds[0] + bounds[2] + 0.5 || box->y1 > bounds[1] + bounds[3] + 0.5;
}

static gboolean
is_about (const RecordedPiece *piece, const HobBox *box)
{
  HobBox around = { fmin (piece->a.x, piece->b.x) - HALF_RING,
                    fmin (piece->a.y, piece->b.y) - HALF_RING,
                    fmax (piece->a.x, piece->b.x) + HALF_RING,
                    fmax (piece->a.y, piece->b.y) + HALF_RING };

  return hob_box_meet (&around, box);
}

static gboolean
runs_through (const RecordedPiece *piece, const HobBox *box)
{
  double dx = piece->b.x - piece->a.x, dy = piece->b.y - piece->a.y;
  int n = 1 + (int) (hypot (dx, dy) / STEP);

  for (int k = 0; k <= n; k++)
    {
      double x = piece->a.x + dx * k / n, y = piece->a.y + dy * k / n;
      HobBox dot = { x - HALF_RING, y - HALF_RING, x + HALF_RING, y + HALF_RING };

      if (hob_box_meet (&dot, box))
        return TRUE;
    }
  return FALSE;
}

static gboolean
is_ringed_through (const RecordingPen *pen, const RecordedText *text)
{
  for (guint k = 0; k < pen->rings->len; k++)
    if (is_about (&g_array_index (pen->rings, RecordedPiece, k), &text->box)
        && runs_through (&g_array_index (pen->rings, RecordedPiece, k), &text->box))
      return TRUE;
  return FALSE;
}

/* In one row, as large, with less than a space between them: they read as one. */
static gboolean
run_together (const HobBox *a, const HobBox *b)
{
  double high = fmax (a->y1 - a->y0, b->y1 - b->y0),
         low = fmin (a->y1 - a->y0, b->y1 - b->y0);
  double rows = fmin (a->y1, b->y1) - fmax (a->y0, b->y0),
         gap = fmax (a->x0, b->x0) - fmin (a->x1, b->x1);

  return low > 0.7 * high && rows > high / 2 && gap < 0.2 * low;
}

static void
count (Counts *counts, const RecordingPen *pen, const double bounds[4], const char *what)
{
  for (guint i = 0; i < pen->texts->len; i++)
    {
      const RecordedText *a = &g_array_index (pen->texts, RecordedText, i);

      if (strstr (a->text, "…") != NULL)
        {
          counts->cut++;
          g_test_message ("%s: cut: %s", what, a->text);
        }
      if (beyond (&a->box, bounds))
        {
          counts->clipped++;
          g_test_message ("%s: clipped: %s", what, a->text);
        }
      for (guint k = i + 1; k < pen->texts->len; k++)
        {
          const RecordedText *b = &g_array_index (pen->texts, RecordedText, k);

          if (a->spun == b->spun
              && (hob_box_meet (&a->box, &b->box) || run_together (&a->box, &b->box)))
            {
              counts->on_text++;
              g_test_message ("%s: two texts meet: %s / %s", what, a->text, b->text);
            }
        }
      if (!a->spun && is_ringed_through (pen, a))
        {
          counts->ringed++;
          g_test_message ("%s: a ring runs through: %s", what, a->text);
        }
      for (guint k = 0; k < pen->tags->len && !a->spun; k++)
        if (hob_box_meet (&a->box, &g_array_index (pen->tags, HobBox, k)))
          {
            counts->under_tag++;
            g_test_message ("%s: under a tag: %s", what, a->text);
          }
    }
}

static void
check_sheet (Counts *counts, const HobScene *scene, HobSheet sheet, const HobLook *look,
             const char *what)
{
  g_autoptr (HobType) type = hob_type_new (look);
  g_autoptr (RecordingPen) pen = recording_pen_new (type, look);
  g_autofree char *where = g_strdup_printf ("%s, %s, sheet %d, %s", scene->range->id, what, sheet,
                                            look->page == HOB_PAGE_PAPER ? "Letter" : "own size");
  double bounds[4];

  recorded_on (pen, scene, sheet, TRUE);
  hob_sheet_bounds (scene->range, sheet, bounds);
  count (counts, pen, bounds, where);
  counts->pictures++;
}

/* How that part of the block shares out a page of Letter. */
static HobPageRoom
letter_room (const HobTitleBlock *block, HobBlockPart part)
{
  double w, h;

  hob_paper_size (HOB_PAPER_LETTER, &w, &h);
  return hob_title_block_room (block, HOB_PAPER_LETTER, w, h, part);
}

/* The zoom that the sheet has there. */
static double
letter_zoom (const HobScene *scene, const HobTitleBlock *block, HobBlockPart part)
{
  const HobPageRoom room = letter_room (block, part);
  double bounds[4];

  hob_sheet_bounds (scene->range, (HobSheet) block->picture, bounds);
  return fmin (room.w / bounds[2], (room.block - room.picture) / bounds[3]);
}

/* Once with all of the block below it, and where a PDF has a second page, with the first part. */
static void
check_letter (Counts *counts, const HobScene *scene, const HobTitleBlock *block, const char *what)
{
  HobLook look = *block->look;
  double w, h;

  hob_paper_size (HOB_PAPER_LETTER, &w, &h);
  look.zoom = letter_zoom (scene, block, HOB_BLOCK_WHOLE);
  check_sheet (counts, scene, (HobSheet) block->picture, &look, what);
  if (!hob_title_block_needs_page (block, HOB_PAPER_LETTER, w, h))
    return;
  look.zoom = letter_zoom (scene, block, HOB_BLOCK_FIRST);
  check_sheet (counts, scene, (HobSheet) block->picture, &look, what);
}

static void
check_block (Counts *counts, const HobTitleBlock *block, const char *what)
{
  const HobLook look = hob_title_block_look (block);
  g_autoptr (HobType) type = hob_type_new (&look);
  g_autoptr (RecordingPen) pen = recording_pen_new (type, &look);
  const HobPageRoom room = letter_room (block, HOB_BLOCK_WHOLE);
  const double bounds[4] = { 0, room.block, room.w, room.h - room.block };

  hob_title_block_draw (&pen->pen, type, block, room.block, room.w, HOB_BLOCK_WHOLE);
  g_assert_cmpfloat (hob_type_px (&look, HOB_TEXT_SMALL) * 0.75, >=, 7);
  count (counts, pen, bounds, what);
  if (room.block <= 1)
    counts->too_wide++;
}

/* The sequence line over a page w px wide. */
static void
check_line (Counts *counts, const HobTitleBlock *block, double w, const char *what)
{
  const HobLook look = hob_title_block_look (block);
  g_autoptr (HobType) type = hob_type_new (&look);
  g_autoptr (RecordingPen) pen = recording_pen_new (type, &look);
  const HobSequenceLine line = { .entries = block->sequence, .run = block->run, .look = &look,
                                 .w = w, .strip = TRUE };
  const double bounds[4] = { 0, 0, w, hob_title_block_line_height (block) };

  hob_sequence_line_draw (&pen->pen, type, &line);
  g_assert_cmpuint (pen->texts->len, >, 0);
  g_assert_cmpfloat (hob_type_px (&look, HOB_TEXT_SMALL) * 0.75, >=, 7);
  count (counts, pen, bounds, what);
}

/* (transfer full) */
static GArray *
sequence_at (HobBench *bench, double t)
{
  g_autoptr (HobComparison) c = hob_comparison_new (bench->plan);

  hob_run_advance (hob_bench_twin (bench), t + HOB_SEQUENCE_AHEAD, NULL);
  return hob_sequence_read (bench->run, hob_bench_twin (bench), hob_bench_should_be (bench), c, t);
}

/* The sequence line of a small window with large text and a panel open. */
static void
check_small_line (Counts *counts, const Staged *staged, const GArray *sequence, const char *what)
{
  const HobLook look = { HOB_THEME_LIGHT, 1.5, 1.0, HOB_PAGE_SCREEN };
  g_autoptr (HobType) type = hob_type_new (&look);
  g_autoptr (RecordingPen) pen = recording_pen_new (type, &look);
  const HobSequenceLine line = { .entries = (GArray *) sequence, .run = staged->bench->run,
                                 .look = &look, .w = SMALL_LINE, .strip = TRUE };
  const double bounds[4] = { 0, 0, SMALL_LINE, hob_sequence_strip_height (&look) };

  hob_sequence_line_draw (&pen->pen, type, &line);
  count (counts, pen, bounds, what);
}

static void
check_moment (Counts *counts, const Staged *staged, const char *what)
{
  g_autoptr (HobFacts) facts = hob_facts_new (staged->bench, staged->at, FALSE);
  g_autoptr (GArray) sequence = sequence_at (staged->bench, staged->at);

  check_small_line (counts, staged, sequence, what);
  for (int sheet = 0; sheet < HOB_N_SHEETS; sheet++)
    {
      const HobLook own = { HOB_THEME_PRINT, 1.0, 1.0, HOB_PAGE_PICTURE };
      const HobLook letter = { HOB_THEME_PRINT, 1.0, 1.0, HOB_PAGE_PAPER };
      const HobTitleBlock block = { facts, &letter, sheet, sequence, staged->bench->run };

      check_sheet (counts, staged->scene, (HobSheet) sheet, &own, what);
      check_block (counts, &block, what);
      check_line (counts, &block, letter_room (&block, HOB_BLOCK_WHOLE).w, what);
      check_letter (counts, staged->scene, &block, what);
    }
}

/* One second after the first symptom. */
static double
first_symptom (const HobBench *bench)
{
  guint first, n = hob_run_events (bench->run, -1, UNTIL - 1, &first);

  for (guint k = first; k < first + n; k++)
    if (hob_run_event (bench->run, k)->what == HOB_EVENT_SYMPTOM)
      return hob_run_event (bench->run, k)->t + 1;
  return UNTIL;
}

static void
check_fault (gpointer user, const char *range, const char *fault)
{
  Counts *counts = user;
  g_autofree char *words = g_strdup_printf ("%s | %s", fault, acts);
  g_autoptr (Staged) staged = staged_new (range, words, UNTIL);

  staged->at = first_symptom (staged->bench);
  staged_read (staged);
  check_moment (counts, staged, fault);
}

static void
test_range (gconstpointer data)
{
  Counts counts = { 0 };
  guint n;

  staged_each_fault (data, SAMPLE, check_fault, &counts, &n);
  printf ("# %s, %u faults, %d pictures: text on text %d, under a tag %d, under a ring %d, "
          "clipped %d, cut %d\n",
          (const char *) data, n, counts.pictures, counts.on_text, counts.under_tag, counts.ringed,
          counts.clipped, counts.cut);
  if (counts.on_text + counts.under_tag + counts.ringed + counts.clipped + counts.cut
          + counts.too_wide
      > 0)
    g_test_fail ();
}

/* The ring around a spark module goes around its letters too; a wire's code beside them would push
 * it back through them. */
static void
a_ring_goes_around_letters (void)
{
  Counts counts = { 0 };

  check_fault (&counts, "convection-fan", "module:output-rf-dead");
  g_assert_cmpint (counts.pictures, >, 0);
  g_assert_cmpint (counts.ringed, ==, 0);
}

/* The first words of a block w px wide, as many as make up @title; it lies in the block. */
static void
expect_title (const HobTitleBlock *block, double w, const char *title)
{
  const HobLook look = hob_title_block_look (block);
  g_autoptr (HobType) type = hob_type_new (&look);
  g_autoptr (RecordingPen) pen = recording_pen_new (type, &look);
  g_autoptr (GString) read = g_string_new (NULL);
  const double bounds[4] = { 0, 0, w, hob_title_block_height (block, w, HOB_BLOCK_WHOLE) };

  hob_title_block_draw (&pen->pen, type, block, 0, w, HOB_BLOCK_WHOLE);
  for (guint k = 0; k < pen->texts->len && read->len < strlen (title); k++)
    {
      const RecordedText *text = &g_array_index (pen->texts, RecordedText, k);

      g_string_append_printf (read, "%s%s", k > 0 ? " " : "", text->text);
      g_assert_false (beyond (&text->box, bounds));
    }
  g_assert_cmpstr (read->str, ==, title);
}

/* Each begins at the left, and what goes on in another line does not: they can be told apart. */
static void
entries_of_a_block_stand_out (void)
{
  g_autoptr (Staged) staged = staged_new ("dial-four", "igniter-bake:aged | 0s oven.mode=bake", 60);
  g_autoptr (HobFacts) facts = hob_facts_new (staged->bench, 60, FALSE);
  const HobLook letter = { HOB_THEME_PRINT, 1.0, 1.0, HOB_PAGE_PAPER };
  const HobTitleBlock block = { facts, &letter, HOB_SHEET_WIRING, NULL, staged->bench->run };
  const HobLook look = hob_title_block_look (&block);
  g_autoptr (HobType) type = hob_type_new (&look);
  g_autoptr (RecordingPen) pen = recording_pen_new (type, &look);
  double left = INFINITY;
  guint begun = 0, indented = 0;

  hob_title_block_draw (&pen->pen, type, &block, 0, letter_room (&block, HOB_BLOCK_WHOLE).w,
                        HOB_BLOCK_WHOLE);
  for (guint k = 0; k < pen->texts->len; k++)
    left = fmin (left, g_array_index (pen->texts, RecordedText, k).box.x0);
  for (guint k = 0; k < pen->texts->len; k++)
    {
      const RecordedText *text = &g_array_index (pen->texts, RecordedText, k);

      for (guint f = 0; f < facts->list->len; f++)
        begun += g_str_has_prefix (text->text, g_array_index (facts->list, HobFact, f).heading);
      indented += text->box.x0 > left + 8 && text->box.x0 < left + 14;
    }
  g_assert_cmpuint (begun, ==, facts->list->len);
  g_assert_cmpuint (indented, >, 0);
  for (guint k = 0; k < pen->texts->len; k++)
    for (guint f = 0; f < facts->list->len; f++)
      {
        const RecordedText *text = &g_array_index (pen->texts, RecordedText, k);

        if (g_str_has_prefix (text->text, g_array_index (facts->list, HobFact, f).heading))
          g_assert_false (text->box.x0 > left + 8 && text->box.x0 < left + 14);
      }
}

/* In pictures 900 and 1,200 px wide and on Letter, on every sheet, with large text too. */
static void
no_title_is_cut (void)
{
  g_auto (GStrv) ranges = shipped_ranges ();
  double letter, h;

  hob_paper_size (HOB_PAPER_LETTER, &letter, &h);
  letter -= 2 * hob_paper_margin (HOB_PAPER_LETTER);
  for (char **range = ranges; *range != NULL; range++)
    {
      g_autoptr (Staged) staged = staged_new (*range, NULL, 0);
      g_autoptr (HobFacts) facts = hob_facts_new (staged->bench, 0, FALSE);

      for (int sheet = 0; sheet < HOB_N_SHEETS; sheet++)
        {
          const HobLook looks[] = { { HOB_THEME_LIGHT, 1.0, 1.0, HOB_PAGE_PICTURE },
                                    { HOB_THEME_LIGHT, 1.5, 1.0, HOB_PAGE_PICTURE },
                                    { HOB_THEME_PRINT, 1.0, 1.0, HOB_PAGE_PAPER } };
          g_autofree char *title = g_strdup_printf ("%s · %s", hob_range_name (staged->range),
                                                    hob_picture_title (sheet));

          for (gsize k = 0; k < G_N_ELEMENTS (looks); k++)
            {
              const HobTitleBlock block = { facts, &looks[k], sheet, NULL, staged->bench->run };

              expect_title (&block, looks[k].page == HOB_PAGE_PAPER ? letter : 900, title);
              expect_title (&block, looks[k].page == HOB_PAGE_PAPER ? letter : 1200, title);
            }
        }
    }
}

/* Pango asks for metrics by the name of the font that it found: with another name than ours each
 * size of text would be looked for twice. */
static void
a_text_needs_one_font (void)
{
  const HobLook look = { HOB_THEME_LIGHT, 1.0, 1.0 };
  g_autoptr (HobType) type = hob_type_new (&look);
  PangoLayout *layout = hob_type_layout (type, HOB_TEXT_NAME, "Bake igniter");
  PangoGlyphItem *run = pango_layout_get_line_readonly (layout, 0)->runs->data;
  PangoFontDescription *found = pango_font_describe_with_absolute_size (run->item->analysis.font);

  g_assert_true (pango_font_description_equal (found, pango_layout_get_font_description (layout)));
  pango_font_description_free (found);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  if (g_getenv ("HOB_TEST_CATALOGS") != NULL)
    {
      setlocale (LC_ALL, "");
      bindtextdomain (GETTEXT_PACKAGE, g_getenv ("HOB_TEST_CATALOGS"));
      bind_textdomain_codeset (GETTEXT_PACKAGE, "UTF-8");
      textdomain (GETTEXT_PACKAGE);
    }
  staged_add_ranges ("/sheet/texts", test_range);
  g_test_add_func ("/sheet/texts/a-ring-goes-around-letters", a_ring_goes_around_letters);
  g_test_add_func ("/sheet/texts/entries-of-a-block-stand-out", entries_of_a_block_stand_out);
  g_test_add_func ("/sheet/texts/no-title-is-cut", no_title_is_cut);
  g_test_add_func ("/sheet/texts/a-text-needs-one-font", a_text_needs_one_font);
  return g_test_run ();
}
