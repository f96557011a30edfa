/* SPDX-License-Identifier: GPL-3.0-or-later */

/* Scenes: what a run looks like, against its normal twin, and to the senses alone; what is drawn
 * of it. */

#include "config.h"
#include "case-words.h"
#include "run/step-twin.h"
#include "sheet/cell.h"
#include "sheet/chart.h"
#include "sheet/memory.h"
#include "sheet/tiles.h"
#include <glib/gstdio.h>
#include <math.h>
#include <string.h>

typedef struct
{
  HobRange *range;
  HobPlan *plan;
  HobCase *acts;
  HobRun *run, *twin;
  HobScene *scene;
  HobSceneReader *reader;
  HobSheetMemory *memory;
} Kitchen;

static void
kitchen_open (Kitchen *k, double until, const char *const *cause)
{
  g_autofree char *file = g_build_filename (HOB_SOURCE_DIR, "diagrams", "dial-four.xml", NULL);
  g_autoptr (GError) error = NULL;

  k->range = hob_range_load (file, NULL, &error);
  g_assert_no_error (error);
  k->plan = hob_plan_new (k->range);
  k->acts = hob_case_new (k->range);
  case_add_all (k->acts, cause);
  k->run = hob_run_new (k->plan, k->acts, NULL);
  g_assert_cmpint (hob_run_advance (k->run, until, NULL), ==, HOB_RUN_OK);
  k->twin = hob_step_twin_new (k->run);
  if (k->twin != NULL)
    g_assert_cmpint (hob_run_advance (k->twin, until, NULL), ==, HOB_RUN_OK);
  k->scene = hob_scene_new (k->range);
  k->reader = hob_scene_reader_new (k->plan);
  k->memory = hob_sheet_memory_new (k->range);
  hob_scene_read (k->reader, k->scene, k->run, k->twin, until);
}

static void
kitchen_close (Kitchen *k)
{
  hob_scene_free (k->scene);
  hob_scene_reader_free (k->reader);
  hob_sheet_memory_free (k->memory);
  hob_run_free (k->twin);
  hob_run_free (k->run);
  hob_case_free (k->acts);
  hob_plan_unref (k->plan);
  hob_range_unref (k->range);
}

static const HobPartScene *
part (const Kitchen *k, const char *id)
{
  int index = hob_range_part (k->range, id);

  g_assert_cmpint (index, >=, 0);
  return &k->scene->parts[index];
}

static const HobWireScene *
wire_between (const Kitchen *k, const char *from, const char *to)
{
  for (int i = 0; i < k->range->n_wires; i++)
    {
      const HobLine *w = &k->range->wires[i];

      if (strcmp (k->range->parts[w->from.part].id, from) == 0
          && strcmp (k->range->parts[w->to.part].id, to) == 0)
        return &k->scene->wires[i];
    }
  g_error ("no wire from %s to %s", from, to);
}

#define KITCHEN(k, until, ...)                                                                     \
  Kitchen k;                                                                                       \
  kitchen_open (&k, until, (const char *const[]){ __VA_ARGS__, NULL })

static void
test_healthy_differs_in_nothing (void)
{
  KITCHEN (k, 100, "0s oven.mode=bake", "50s knob-lf=light");

  for (int i = 0; i < k.range->n_parts; i++)
    g_assert_false (k.scene->parts[i].differs);
  for (int i = 0; i < k.range->n_wires; i++)
    g_assert_false (k.scene->wires[i].differs);
  kitchen_close (&k);
}

static void
test_weak_igniter_is_ringed (void)
{
  KITCHEN (k, 100, "0s oven.mode=bake", "igniter-bake:aged");
  const HobPartScene *igniter = part (&k, "igniter-bake");

  g_assert_true (igniter->differs);
  g_assert_cmpfloat (igniter->figure, <, 0.97 * igniter->should_be);
  g_assert_cmpint (igniter->fault, >=, 0);
  g_assert_cmpfloat (igniter->severity, ==, 0.5);
  g_assert_true (wire_between (&k, "oven", "igniter-bake")->differs);
  g_assert_false (part (&k, "igniter-broil")->differs);
  g_assert_cmpint (part (&k, "valve-bake")->fault, ==, -1);
  kitchen_close (&k);
}

/* A house with a low voltage is one in which a normal range does no better: nothing of the range
 * is ringed. */
static void
test_low_voltage_is_the_house (void)
{
  KITCHEN (k, 100, "0s oven.mode=bake", "receptacle.volts=105");

  for (int p = 0; p < k.range->n_parts; p++)
    g_assert_false (k.scene->parts[p].differs || k.scene->parts[p].culprit);
  kitchen_close (&k);
}

/* The igniter itself is at fault; the valve behind it only suffers. */
static void
test_culprit_and_sufferer (void)
{
  KITCHEN (k, 100, "0s oven.mode=bake", "igniter-bake:aged");

  for (int p = 0; p < k.range->n_parts; p++)
    g_assert_cmpint (k.scene->parts[p].culprit, ==,
                     &k.scene->parts[p] == part (&k, "igniter-bake"));
  g_assert_true (part (&k, "valve-bake")->differs);
  kitchen_close (&k);
}

/* Ticks point from line through the load to neutral. */
static void
test_way_of_power (void)
{
  KITCHEN (k, 60, "0s oven.mode=bake");

  g_assert_cmpint (wire_between (&k, "house", "breaker")->flow, ==, 1);
  g_assert_cmpint (wire_between (&k, "oven", "igniter-bake")->flow, ==, 1);
  g_assert_cmpint (wire_between (&k, "igniter-bake", "valve-bake")->flow, ==, 1);
  g_assert_cmpint (wire_between (&k, "receptacle", "house")->flow, ==, 1);
  g_assert_cmpint (wire_between (&k, "neutral", "valve-bake")->flow, ==, -1);
  g_assert_true (wire_between (&k, "oven", "switch-lf")->live);
  g_assert_cmpfloat (wire_between (&k, "oven", "switch-lf")->current, <, 1e-3);
  kitchen_close (&k);
}

static void
test_gas_carries_heat (void)
{
  KITCHEN (k, 100, "0s oven.mode=bake");
  double most = 0;

  for (int i = 0; i < k.range->n_pipes; i++)
    most = fmax (most, k.scene->pipes[i].power);
  g_assert_cmpfloat (most, >, 4500); /* 18,000 Btu/h is 5,275 W */
  g_assert_cmpfloat (most, <, 6000);
  kitchen_close (&k);
}

static void
test_sparks (void)
{
  KITCHEN (k, 5, "0s shutoff=closed", "1s knob-lf=light");
  double fresh = 0;

  k.scene->speed = 1;
  for (double t = 3; t < 5; t += 0.01)
    {
      hob_scene_read (k.reader, k.scene, k.run, k.twin, t);
      g_assert_true (k.scene->leads[0].sparking);
      fresh += k.scene->leads[0].fresh > 0;
    }
  g_assert_cmpfloat (fresh, >,
                     20); /* 3 sparks a second, 80 ms each: about a quarter of 200 frames */
  g_assert_cmpfloat (fresh, <, 90);
  k.scene->speed = 10;
  hob_scene_read (k.reader, k.scene, k.run, k.twin, 4.321);
  g_assert_cmpfloat (k.scene->leads[0].fresh, ==, 1); /* a steady sign */
  kitchen_close (&k);
}

/* Pulse by pulse: as many are drawn at the cap as the run counted, the others at the crack. */
static void
test_sparks_where_they_jump (void)
{
  KITCHEN (k, 61, "0s shutoff=closed", "1s knob-lf=light", "electrode-lf:cracked-deep=0.2");
  const HobPartScene *electrode = part (&k, "electrode-lf");
  int at_cap = 0, elsewhere = 0;
  double before = 0, counted;

  k.scene->still = FALSE;
  k.scene->speed = 1;
  for (double t = 1; t < 61; t += 0.02)
    {
      double fresh;

      hob_scene_read (k.reader, k.scene, k.run, k.twin, t);
      fresh = electrode->view.spark;
      if (fabs (fresh) > fabs (before))
        fresh > 0 ? at_cap++ : elsewhere++;
      before = fresh;
    }
  counted = electrode->view.quantity[hob_kind_quantity (electrode->view.kind, "sparks")];
  g_test_message ("%d at the cap, %d elsewhere; the run counted %g", at_cap, elsewhere, counted);
  g_assert_cmpint (at_cap, >, 0);
  g_assert_cmpint (elsewhere, >, 0);
  g_assert_cmpfloat (fabs (at_cap - counted), <=, 1);
  kitchen_close (&k);
}

/* What the senses cannot get is not in the scene: no current, no pressure, no fault, no
 * comparison. */
static void
test_eyes_only (void)
{
  KITCHEN (k, 100, "0s oven.mode=bake", "igniter-bake:aged");

  k.scene->eyes_only = TRUE;
  hob_scene_read (k.reader, k.scene, k.run, k.twin, 100);
  for (int i = 0; i < k.range->n_wires; i++)
    {
      g_assert_cmpfloat (k.scene->wires[i].current, ==, 0);
      g_assert_false (k.scene->wires[i].live || k.scene->wires[i].differs);
    }
  for (int i = 0; i < k.range->n_parts; i++)
    {
      const HobPartScene *p = &k.scene->parts[i];
      const HobKind *kind = p->view.kind;

      g_assert_cmpint (p->fault, ==, -1);
      g_assert_false (p->differs);
      if (kind->figure >= 0 && kind->quantities[kind->figure].sense == HOB_SENSE_NONE)
        g_assert_true (isnan (p->figure));
    }
  kitchen_close (&k);
}

/* Without a normal range beside it, what is hidden is as it is at rest: nobody sees by the drawing
 * that the igniter is broken. */
static void
test_eyes_only_alone (void)
{
  KITCHEN (broken, 100, "0s oven.mode=bake", "igniter-bake:open");
  KITCHEN (normal, 0, "0s oven.mode=off");
  int igniter = hob_range_part (broken.range, "igniter-bake");
  const HobKind *kind = broken.range->parts[igniter].kind;
  const HobPartView *view = &broken.scene->parts[igniter].view,
                    *rest = &normal.scene->parts[igniter].view;
  int is_broken = hob_kind_setting (kind, "broken");

  g_assert_cmpint (is_broken, >=, 0);
  hob_scene_read (broken.reader, broken.scene, broken.run, NULL, 100);
  g_assert_cmpfloat (view->set[is_broken], ==, 1);
  broken.scene->eyes_only = TRUE;
  hob_scene_read (broken.reader, broken.scene, broken.run, NULL, 100);
  for (int k = 0; k < kind->n_settings; k++)
    g_assert_cmpfloat (view->set[k], ==, rest->set[k]);
  g_assert_cmpint (broken.scene->parts[igniter].fault, ==, -1);
  kitchen_close (&broken);
  kitchen_close (&normal);
}

/* ---- Drawn ---- */

static guint64
picture_of (const HobScene *scene, HobSheet sheet, HobSheetMemory *memory)
{
  const HobLook look = { HOB_THEME_LIGHT, 1.0, 1.0 };
  cairo_surface_t *surface = cairo_image_surface_create (CAIRO_FORMAT_RGB24, 1500, 1000);
  cairo_t *cr = cairo_create (surface);
  guint64 sum = 0;

  hob_sheet_ground (cr, 1500, 1000, &look);
  hob_sheet_draw_paper (cr, scene->range, sheet, &look, NULL);
  hob_sheet_draw_state (cr, scene, sheet, &look, memory);
  cairo_surface_flush (surface);
  for (int k = 0; k < cairo_image_surface_get_stride (surface) * 1000; k++)
    sum = sum * 31 + cairo_image_surface_get_data (surface)[k];
  cairo_destroy (cr);
  cairo_surface_destroy (surface);
  return sum;
}

/* Ink of one stretch of a sign, drawn as in the window, and from end to end as in a file. */
static double
ink_of (HobTile tile, HobTiles *tiles)
{
  const HobRepeat repeat = { tile, 10, 20, 250, 20, 0, 12, 10 };
  cairo_surface_t *surface = cairo_image_surface_create (CAIRO_FORMAT_A8, 260, 40);
  cairo_t *cr = cairo_create (surface);
  double sum = 0;

  hob_tiles_repeat (tiles, cr, HOB_THEME_LIGHT, &repeat);
  cairo_surface_flush (surface);
  for (int k = 0; k < cairo_image_surface_get_stride (surface) * 40; k++)
    sum += cairo_image_surface_get_data (surface)[k];
  cairo_destroy (cr);
  cairo_surface_destroy (surface);
  return sum;
}

/* Ticks of a heavy current are the same sign in wider lines. */
static void
a_heavy_current_has_heavy_ticks (void)
{
  HobTiles *tiles = hob_tiles_new ();
  HobTiles *const both[] = { tiles, NULL };

  for (int k = 0; k < 2; k++)
    {
      double light = ink_of (HOB_TILE_TICK, both[k]), heavy = ink_of (HOB_TILE_TICK_HEAVY, both[k]);

      g_test_message ("%g, %g", light, heavy);
      g_assert_cmpfloat (heavy / light, >, 1.1);
      g_assert_cmpfloat (heavy / light, <, 1.5);
    }
  hob_tiles_free (tiles);
}

/* Ticks and wedges move with the wall clock, and stand where motion is off. */
static void
test_motion_and_still (void)
{
  KITCHEN (k, 100, "0s oven.mode=bake", "igniter-bake:aged");

  for (int sheet = HOB_SHEET_WIRING; sheet <= HOB_SHEET_GAS; sheet++)
    {
      guint64 first, second;

      k.scene->still = FALSE;
      k.scene->clock = 10;
      picture_of (k.scene, (HobSheet) sheet, k.memory);
      k.scene->clock = 10.2;
      first = picture_of (k.scene, (HobSheet) sheet, k.memory);
      k.scene->clock = 10.3;
      second = picture_of (k.scene, (HobSheet) sheet, k.memory);
      if (sheet == HOB_SHEET_WIRING)
        g_assert_cmpuint (first, !=, second);
      k.scene->still = TRUE;
      first = picture_of (k.scene, (HobSheet) sheet, k.memory);
      k.scene->clock = 11.3;
      second = picture_of (k.scene, (HobSheet) sheet, k.memory);
      g_assert_cmpuint (first, ==, second);
    }
  kitchen_close (&k);
}

/* What is drawn at a place is found there. */
static void
test_hit (void)
{
  KITCHEN (k, 1, "0s oven.mode=bake");
  g_autoptr (HobSheetMemory) memory = hob_sheet_memory_new (k.range);
  int hit_part, hit_line;

  for (int i = 0; i < k.range->n_parts; i++)
    {
      const HobPart *p = &k.range->parts[i];

      if (!p->at[HOB_SHEET_WIRING].placed || p->kind->symbol[HOB_SHEET_WIRING].w <= 0)
        continue;
      hob_sheet_hit (memory, HOB_SHEET_WIRING, p->at[HOB_SHEET_WIRING].x,
                     p->at[HOB_SHEET_WIRING].y, &hit_part, &hit_line);
      g_assert_cmpint (hit_part, ==, i);
    }
  hob_sheet_hit (memory, HOB_SHEET_WIRING, 900, 480 + 3, &hit_part, &hit_line);
  g_assert_cmpint (hit_part, ==, -1);
  g_assert_cmpstr (k.range->wires[hit_line].id, ==, "w26");
  hob_sheet_hit (memory, HOB_SHEET_WIRING, -500, -500, &hit_part, &hit_line);
  g_assert_cmpint (hit_part, ==, -1);
  g_assert_cmpint (hit_line, ==, -1);
  kitchen_close (&k);
}

/* What is kept between frames is what would be reckoned anew. */
static void
test_kept_bounds (void)
{
  KITCHEN (k, 1, "0s oven.mode=off");
  g_autoptr (HobSheetMemory) memory = hob_sheet_memory_new (k.range);

  for (int sheet = 0; sheet < HOB_N_SHEETS; sheet++)
    for (int again = 0; again < 2; again++)
      {
        double box[4], kept[4];

        hob_sheet_bounds (k.range, (HobSheet) sheet, box);
        hob_sheet_memory_bounds (memory, (HobSheet) sheet, kept);
        g_assert_cmpmem (box, sizeof box, kept, sizeof kept);
        g_assert_cmpfloat (kept[2], >, 0);
      }
  kitchen_close (&k);
}

/* A lead is hit along its way, as far off as half the wires' pitch, and stands for its
 * electrode. */
static void
test_hit_lead (void)
{
  KITCHEN (k, 1, "0s oven.mode=off");
  g_autoptr (HobSheetMemory) memory = hob_sheet_memory_new (k.range);
  const HobRoutes *routes = hob_sheet_memory_routes (memory, HOB_SHEET_WIRING);
  int hit_part, hit_line;

  for (int i = 0; i < k.range->n_leads; i++)
    {
      const HobRoute *route = &routes->leads[i];
      double x = (route->p[0].x + route->p[1].x) / 2, y = (route->p[0].y + route->p[1].y) / 2;

      hob_sheet_hit (memory, HOB_SHEET_WIRING, x + 9, y, &hit_part, &hit_line);
      g_assert_cmpint (hit_part, ==, k.range->leads[i].to.part);
      g_assert_cmpint (hit_line, ==, -1);
    }
  kitchen_close (&k);
}

/* ---- Files ---- */

static void
write_and_read (const Kitchen *k, const char *dir, const char *name, char **data, gsize *size)
{
  const HobLook look = { HOB_THEME_PRINT, 1.0, 1.0, HOB_PAGE_PICTURE };
  g_autofree char *file = g_build_filename (dir, name, NULL);
  g_autoptr (HobBench) bench = hob_bench_new (NULL, k->range, k->acts, NULL);
  g_autoptr (HobFacts) facts = hob_facts_new (bench, 0, FALSE);
  const HobTitleBlock block = { facts, &look, HOB_SHEET_WIRING };
  g_autoptr (GError) error = NULL;

  hob_sheet_write (file, k->scene, &block, HOB_PAPER_NONE, 0, 0, &error);
  g_assert_no_error (error);
  g_file_get_contents (file, data, size, &error);
  g_assert_no_error (error);
  g_remove (file);
}

static void
test_files_are_the_same_each_time (void)
{
  static const char *const names[] = { "a.svg", "a.pdf", "a.png" };
  static const char *const magic[] = { "<?xml", "%PDF", "\x89PNG" };
  g_autofree char *dir = g_dir_make_tmp ("sheet-XXXXXX", NULL);
  g_autoptr (GDir) left = NULL;
  KITCHEN (k, 100, "0s oven.mode=bake", "igniter-bake:aged");

  k.scene->still = TRUE;
  for (gsize i = 0; i < G_N_ELEMENTS (names); i++)
    {
      g_autofree char *one = NULL, *two = NULL;
      gsize n_one, n_two;

      write_and_read (&k, dir, names[i], &one, &n_one);
      write_and_read (&k, dir, names[i], &two, &n_two);
      g_assert_true (strncmp (one, magic[i], strlen (magic[i])) == 0);
      g_assert_cmpmem (one, n_one, two, n_two);
    }
  left = g_dir_open (dir, 0, NULL);
  g_assert_null (g_dir_read_name (left)); /* nothing beside */
  g_rmdir (dir);
  kitchen_close (&k);
}

/* Every name can be read and searched in an SVG file; nothing in it is a picture of dots. */
static void
test_svg_holds_text (void)
{
  g_autofree char *dir = g_dir_make_tmp ("sheet-XXXXXX", NULL), *svg = NULL;
  gsize size;
  KITCHEN (k, 100, "0s oven.mode=bake", "igniter-bake:aged");

  k.scene->still = TRUE;
  write_and_read (&k, dir, "words.svg", &svg, &size);
  for (int i = 0; i < k.range->n_parts; i++)
    {
      const HobPart *part = &k.range->parts[i];
      g_autofree char *words = g_markup_printf_escaped (">%s</text>", part->label);

      if (part->at[HOB_SHEET_WIRING].placed && !hob_cell_is_dot (part, HOB_SHEET_WIRING))
        g_assert_nonnull (strstr (svg, words));
    }
  g_assert_nonnull (strstr (svg, "should be"));
  g_assert_null (strstr (svg, "<image"));
  g_assert_null (strstr (svg, "glyph"));
  g_assert_null (strstr (svg, "stroke-miterlimit:1000"));
  g_rmdir (dir);
  kitchen_close (&k);
}

static void
test_files_that_cannot_be (void)
{
  const HobLook look = { HOB_THEME_PRINT, 1.0, 1.0, HOB_PAGE_PICTURE };
  static const char *const names[] = { "/tmp/picture.gif", "/nowhere/at/all.svg", "picture" };
  KITCHEN (k, 1, "0s oven.mode=off");
  g_autoptr (HobBench) bench = hob_bench_new (NULL, k.range, k.acts, NULL);
  g_autoptr (HobFacts) facts = hob_facts_new (bench, 0, FALSE);
  const HobTitleBlock block = { facts, &look, HOB_SHEET_GAS };

  for (gsize i = 0; i < G_N_ELEMENTS (names); i++)
    {
      g_autoptr (GError) error = NULL;

      g_assert_false (
          hob_sheet_write (names[i], k.scene, &block, HOB_PAPER_NONE, 0, 0, &error));
      g_assert_nonnull (error);
      g_assert_nonnull (strstr (error->message, names[i]));
    }
  kitchen_close (&k);
}

static gboolean
holds (const char *bytes, gsize size, const char *text)
{
  gsize n = strlen (text);

  for (gsize at = 0; at + n <= size; at++)
    if (memcmp (bytes + at, text, n) == 0)
      return TRUE;
  return FALSE;
}

/* Cautions that a page has no room for go to a second one. */
static void
test_pages_of_a_pdf (void)
{
  const HobLook look = { HOB_THEME_PRINT, 1.0, 1.0, HOB_PAGE_PICTURE };
  static const struct
  {
    HobHazards now;
    const char *pages;
  } cases[] = {
    { HOB_HAZARD (DEAD_FIRST), "/Count 1" },
    { HOB_HAZARD (STOP_USING) | HOB_HAZARD (CO_FLAME) | HOB_HAZARD (DEAD_FIRST)
          | HOB_HAZARD (HOT_IGNITER),
      "/Count 2" },
  };
  KITCHEN (k, 1, "0s oven.mode=off");
  g_autoptr (HobBench) bench = hob_bench_new (NULL, k.range, k.acts, NULL);
  g_autoptr (HobFacts) facts = hob_facts_new (bench, 0, FALSE);
  const HobTitleBlock block = { facts, &look, HOB_SHEET_GAS };
  g_autofree char *folder = g_dir_make_tmp (NULL, NULL);
  g_autofree char *file = g_build_filename (folder, "a.pdf", NULL);

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autofree char *pdf = NULL;
      g_autoptr (GError) error = NULL;
      gsize size;

      facts->now = cases[i].now;
      hob_sheet_write (file, k.scene, &block, HOB_PAPER_LETTER, 0, 0, &error);
      g_assert_no_error (error);
      g_assert_true (g_file_get_contents (file, &pdf, &size, NULL));
      g_assert_true (holds (pdf, size, cases[i].pages));
      g_remove (file);
    }
  g_rmdir (folder);
  kitchen_close (&k);
}

/* Where there is nothing, nothing is freed. */
static void
test_nothing_to_free (void)
{
  hob_scene_free (NULL);
  hob_scene_reader_free (NULL);
  hob_sheet_memory_free (NULL);
  hob_facts_free (NULL);
  hob_chart_memory_free (NULL);
  hob_lanes_free (NULL);
  hob_tiles_free (NULL);
}

/* A side that is left out follows from the sheet; one that no surface has is refused. */
static void
test_sides_of_a_picture (void)
{
  const HobLook look = { HOB_THEME_PRINT, 1.0, 1.0, HOB_PAGE_PICTURE };
  static const double sides[][2] = { { 600, 0 }, { 0, 400 } }, large[][2] = { { 20000, 100 },
                                                                             { 100, 20000 } };
  KITCHEN (k, 1, "0s oven.mode=off");
  g_autoptr (HobBench) bench = hob_bench_new (NULL, k.range, k.acts, NULL);
  g_autoptr (HobFacts) facts = hob_facts_new (bench, 0, FALSE);
  const HobTitleBlock block = { facts, &look, HOB_SHEET_GAS };
  g_autofree char *folder = g_dir_make_tmp (NULL, NULL);
  g_autofree char *file = g_build_filename (folder, "a.png", NULL);
  double ratio[2];

  for (guint i = 0; i < G_N_ELEMENTS (sides); i++)
    {
      g_autoptr (GError) error = NULL;
      cairo_surface_t *picture;
      int w, h;

      hob_sheet_write (file, k.scene, &block, HOB_PAPER_NONE, sides[i][0], sides[i][1], &error);
      g_assert_no_error (error);
      picture = cairo_image_surface_create_from_png (file);
      w = cairo_image_surface_get_width (picture);
      h = cairo_image_surface_get_height (picture);
      cairo_surface_destroy (picture);
      g_assert_cmpint (i == 0 ? w : h, ==, (int) fmax (sides[i][0], sides[i][1]));
      ratio[i] = (double) w / h;
    }
  g_assert_cmpfloat_with_epsilon (ratio[0], ratio[1], 0.01);
  g_unlink (file);
  for (guint i = 0; i < G_N_ELEMENTS (large); i++)
    {
      g_autoptr (GError) error = NULL;

      g_assert_false (hob_sheet_write (file, k.scene, &block, HOB_PAPER_NONE, large[i][0],
                                       large[i][1], &error));
      g_assert_nonnull (strstr (error->message, "16,384"));
      g_assert_false (g_file_test (file, G_FILE_TEST_EXISTS));
    }
  g_rmdir (folder);
  kitchen_close (&k);
}

/* What the house should supply is said where it doesn't; the weather is never wrong. */
static void
a_weak_house_is_named (void)
{
  static const struct
  {
    const char *setting, *wanted, *off;
  } houses[] = { { "receptacle.volts=108V", "108 V, should be 120 V",
                   "Receptacle: 108 V, should be 120 V" },
                 { "house.fuel=lp", "LP gas, should be natural gas",
                   "House: LP gas, should be natural gas" },
                 { "house.temperature=10degC", NULL, NULL } };
  g_autofree char *file = hob_range_locate ("dial-four");
  g_autoptr (HobRange) range = hob_range_load (file, NULL, NULL);

  for (guint k = 0; k < G_N_ELEMENTS (houses); k++)
    {
      g_autoptr (HobCase) done = hob_case_new (range);
      g_autoptr (HobBench) bench = NULL;
      g_autoptr (HobFacts) facts = NULL;
      g_autoptr (GString) all = g_string_new (NULL);
      g_autoptr (HobMoment) m = NULL;
      g_autofree char *off = NULL;
      g_autoptr (GError) error = NULL;

      hob_case_setting (done, houses[k].setting, &error);
      g_assert_no_error (error);
      bench = hob_bench_new (NULL, range, done, &error);
      g_assert_no_error (error);
      hob_bench_advance (bench, 1, &error);
      facts = hob_facts_new (bench, 1, FALSE);
      m = hob_bench_moment_new (bench);
      hob_run_read (bench->run, 1, m);
      off = hob_house_off_words (range, m);
      g_assert_cmpstr (off, ==, houses[k].off);
      for (guint i = 0; i < facts->list->len; i++)
        g_string_append_printf (all, "%s\n", g_array_index (facts->list, HobFact, i).text);
      if (houses[k].wanted != NULL)
        g_assert_nonnull (strstr (all->str, houses[k].wanted));
      else
        g_assert_null (strstr (all->str, "should be"));
    }
}

/* The text under a heading; NULL: it is not there. */
static const char *
fact (const HobFacts *facts, const char *heading)
{
  for (guint i = 0; i < facts->list->len; i++)
    if (g_str_equal (g_array_index (facts->list, HobFact, i).heading, heading))
      return g_array_index (facts->list, HobFact, i).text;
  return NULL;
}

/* Long after the oven was turned off nothing draws current, and the picture still says what was
 * wrong when it was on; a normal range has nothing to say. */
static void
a_late_picture_says_what_differed (void)
{
  static const struct
  {
    const char *fault, *wanted;
  } cases[] = { { "igniter-bake:aged", "2.7 A, should be 3.5 A" }, { NULL, NULL } };
  g_autofree char *file = hob_range_locate ("dial-four");
  g_autoptr (HobRange) range = hob_range_load (file, NULL, NULL);

  for (guint k = 0; k < G_N_ELEMENTS (cases); k++)
    {
      g_autoptr (HobCase) done = hob_case_new (range);
      g_autoptr (HobBench) bench = NULL;
      g_autoptr (HobFacts) soon = NULL, late = NULL;
      const char *heading = "Different from normal when the symptom appeared";

      g_assert_true (hob_case_do (done, "0s oven.mode=bake", NULL));
      g_assert_true (hob_case_do (done, "300s oven.mode=off", NULL));
      g_assert_true (cases[k].fault == NULL || hob_case_fault (done, cases[k].fault, NULL));
      bench = hob_bench_new (NULL, range, done, NULL);
      hob_bench_should_be (bench);
      hob_bench_advance (bench, 1800, NULL);
      soon = hob_facts_new (bench, 120, TRUE);
      late = hob_facts_new (bench, 1800, TRUE);
      g_assert_null (fact (soon, heading));
      if (cases[k].wanted == NULL)
        g_assert_null (fact (late, heading));
      else
        g_assert_nonnull (strstr (fact (late, heading), cases[k].wanted));
    }
}

/* A symptom is listed while it lasts: a knob on HIGH that nobody lit, and off again. */
static void
what_has_ended_is_not_listed (void)
{
  g_autofree char *file = hob_range_locate ("dial-four");
  g_autoptr (HobRange) range = hob_range_load (file, NULL, NULL);
  g_autoptr (HobCase) done = hob_case_new (range);
  g_autoptr (HobBench) bench = NULL;
  g_autoptr (HobFacts) on = NULL, off = NULL;

  g_assert_true (hob_case_do (done, "0s knob-lf=high", NULL));
  g_assert_true (hob_case_do (done, "20s knob-lf=off", NULL));
  bench = hob_bench_new (NULL, range, done, NULL);
  hob_bench_advance (bench, 300, NULL);
  on = hob_facts_new (bench, 19, FALSE);
  off = hob_facts_new (bench, 300, FALSE);
  g_assert_nonnull (strstr (fact (on, "Symptoms"), "No flame with the knob turned on"));
  g_assert_null (strstr (fact (off, "Symptoms"), "No flame with the knob turned on"));
}

/* Of more differences than anyone reads the rest is counted. */
static void
what_is_too_much_is_counted (void)
{
  static const char *const faults[] = {
    "burner-lf:orifice-clogged=0.2", "burner-lr:orifice-clogged=0.4",
    "burner-rf:orifice-clogged=0.6", "burner-rr:orifice-clogged=0.8",
    "igniter-bake:aged=0.8",         "regulator:set-low=0.5",
    "oven:contact-burned=0.5",       "receptacle:low-volts",
    "switch-lf:stuck-closed",
  };
  static const char *const acts[] = { "0s oven.mode=bake", "1s knob-lf=high", "1s knob-lr=high",
                                      "1s knob-rf=high", "1s knob-rr=high" };
  g_autofree char *file = hob_range_locate ("dial-four");
  g_autoptr (HobRange) range = hob_range_load (file, NULL, NULL);
  g_autoptr (HobCase) done = hob_case_new (range);
  g_autoptr (HobBench) bench = NULL;
  g_autoptr (HobFacts) facts = NULL;

  for (guint k = 0; k < G_N_ELEMENTS (faults); k++)
    g_assert_true (hob_case_fault (done, faults[k], NULL));
  for (guint k = 0; k < G_N_ELEMENTS (acts); k++)
    g_assert_true (hob_case_do (done, acts[k], NULL));
  bench = hob_bench_new (NULL, range, done, NULL);
  hob_bench_should_be (bench);
  hob_bench_advance (bench, 120, NULL);
  facts = hob_facts_new (bench, 120, FALSE);
  g_assert_true (g_str_has_suffix (fact (facts, "Different from normal now"), "; and 5 more"));
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/sheet/scene/a-healthy-run-differs-in-nothing",
                   test_healthy_differs_in_nothing);
  g_test_add_func ("/sheet/scene/a-weak-igniter-is-ringed-with-both-numbers",
                   test_weak_igniter_is_ringed);
  g_test_add_func ("/sheet/scene/a-low-voltage-is-the-house's", test_low_voltage_is_the_house);
  g_test_add_func ("/sheet/scene/culprit-and-sufferer", test_culprit_and_sufferer);
  g_test_add_func ("/sheet/scene/power-goes-from-line-to-neutral", test_way_of_power);
  g_test_add_func ("/sheet/scene/gas-carries-heat", test_gas_carries_heat);
  g_test_add_func ("/sheet/scene/sparks-flash-and-then-are-a-steady-sign", test_sparks);
  g_test_add_func ("/sheet/scene/sparks-are-drawn-where-they-jump", test_sparks_where_they_jump);
  g_test_add_func ("/sheet/scene/eyes-only-holds-nothing-inside", test_eyes_only);
  g_test_add_func ("/sheet/scene/eyes-only-needs-no-normal-range", test_eyes_only_alone);
  g_test_add_func ("/sheet/scene/motion-moves-and-still-stands", test_motion_and_still);
  g_test_add_func ("/sheet/scene/a-heavy-current-has-heavy-ticks", a_heavy_current_has_heavy_ticks);
  g_test_add_func ("/sheet/scene/what-is-drawn-is-hit", test_hit);
  g_test_add_func ("/sheet/scene/bounds-are-kept", test_kept_bounds);
  g_test_add_func ("/sheet/scene/a-lead-is-hit-too", test_hit_lead);
  g_test_add_func ("/sheet/scene/nothing-is-freed-of-nothing", test_nothing_to_free);
  g_test_add_func ("/sheet/facts/what-has-ended-is-not-listed", what_has_ended_is_not_listed);
  g_test_add_func ("/sheet/facts/what-is-too-much-is-counted", what_is_too_much_is_counted);
  g_test_add_func ("/sheet/picture/cautions-go-to-a-second-page", test_pages_of_a_pdf);
  g_test_add_func ("/sheet/picture/an-svg-holds-text", test_svg_holds_text);
  g_test_add_func ("/sheet/picture/files-are-the-same-each-time",
                   test_files_are_the_same_each_time);
  g_test_add_func ("/sheet/picture/files-that-cannot-be-say-why", test_files_that_cannot_be);
  g_test_add_func ("/sheet/picture/a-side-that-is-left-out-follows", test_sides_of_a_picture);
  g_test_add_func ("/sheet/picture/a-weak-house-is-named", a_weak_house_is_named);
  g_test_add_func ("/sheet/picture/a-late-picture-says-what-differed",
                   a_late_picture_says_what_differed);
  return g_test_run ();
}
