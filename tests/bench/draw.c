/* SPDX-License-Identifier: GPL-3.0-or-later */

/* What a frame costs: the state of a sheet with everything in motion, beyond the paper's blit, at
 * 1400 × 900. A frame beyond an empty window may take 4 ms; the ratio to an empty frame's fill
 * says it on any machine. */

#include "config.h"
#include "run/step-twin.h"
#include "sheet/sheet.h"
#include <stdio.h>
#include <stdlib.h>

#define WIDTH 1400
#define HEIGHT 900
#define FRAMES 200

static HobRange *
load_shipped (const char *name)
{
  g_autofree char *file = g_build_filename (HOB_SOURCE_DIR, "diagrams", name, NULL);
  g_autoptr (GError) error = NULL;
  HobRange *range = hob_range_load (file, NULL, &error);

  g_assert_no_error (error);
  return range;
}

/* A busy moment: baking, sparking, one top burner lit, a weak igniter. */
static HobScene *
busy_scene (HobPlan *plan, HobRun **run, HobRun **twin)
{
  static const char *const acts[]
      = { "0s oven.mode=bake", "80s knob-rf=light", "85s knob-rf=high", "98s knob-lf=light" };
  g_autoptr (HobCase) c = hob_case_new ((HobRange *) hob_plan_range (plan));
  g_autoptr (GError) error = NULL;
  HobScene *scene = hob_scene_new (hob_plan_range (plan));
  g_autoptr (HobSceneReader) reader = hob_scene_reader_new (plan);

  for (gsize k = 0; k < G_N_ELEMENTS (acts); k++)
    if (!hob_case_do (c, acts[k], &error))
      g_error ("%s", error->message);
  if (!hob_case_fault (c, "igniter-bake:aged", &error))
    g_error ("%s", error->message);
  *run = hob_run_new (plan, c, NULL);
  *twin = hob_step_twin_new (*run);
  hob_run_advance (*run, 100, NULL);
  hob_run_advance (*twin, 100, NULL);
  hob_scene_read (reader, scene, *run, *twin, 100);
  return scene;
}

/* ms a frame of `draw`, the median of FRAMES. */
typedef void (*Frame) (cairo_t *cr, gpointer user, int frame);

static int
by_value (gconstpointer a, gconstpointer b)
{
  double d = *(const double *) a - *(const double *) b;

  return d < 0 ? -1 : d > 0;
}

static double
median_ms (cairo_t *cr, Frame draw, gpointer user)
{
  static double ms[FRAMES];

  for (int k = 0; k < FRAMES; k++)
    {
      gint64 t0 = g_get_monotonic_time ();

      draw (cr, user, k);
      cairo_surface_flush (cairo_get_target (cr));
      ms[k] = (double) (g_get_monotonic_time () - t0) / 1e3;
    }
  qsort (ms, FRAMES, sizeof (double), by_value);
  return ms[FRAMES / 2];
}

typedef struct
{
  HobScene *scene;
  HobSheet sheet;
  HobLook look;
  cairo_surface_t *paper;
  HobSheetMemory *memory;
  double box[4];
} Job;

static void
empty_frame (cairo_t *cr, gpointer user, int frame)
{
  const Job *job = user;

  hob_sheet_ground (cr, WIDTH, HEIGHT, &job->look);
}

static void
paper_frame (cairo_t *cr, gpointer user, int frame)
{
  const Job *job = user;

  cairo_set_source_surface (cr, job->paper, 0, 0);
  cairo_set_operator (cr, CAIRO_OPERATOR_SOURCE);
  cairo_paint (cr);
  cairo_set_operator (cr, CAIRO_OPERATOR_OVER);
}

static void
place (cairo_t *cr, const Job *job)
{
  cairo_scale (cr, job->look.zoom, job->look.zoom);
  cairo_translate (cr, -job->box[0], -job->box[1]);
}

static void
state_frame (cairo_t *cr, gpointer user, int frame)
{
  const Job *job = user;

  job->scene->clock = frame / 60.0;
  cairo_save (cr);
  place (cr, job);
  hob_sheet_draw_state (cr, job->scene, job->sheet, &job->look, job->memory);
  cairo_restore (cr);
}

static void
one_sheet (const char *name, HobScene *scene, HobSheetMemory *memory, HobSheet sheet)
{
  static const char *const sheet_names[] = { "wiring", "gas", "cutaway" };
  cairo_surface_t *target = cairo_image_surface_create (CAIRO_FORMAT_RGB24, WIDTH, HEIGHT);
  cairo_t *cr = cairo_create (target);
  Job job = { .scene = scene, .sheet = sheet, .look = { HOB_THEME_LIGHT, 1.0, 1.0 },
              .memory = memory };
  double empty, paper, state;
  cairo_t *on_paper;

  job.paper = cairo_image_surface_create (CAIRO_FORMAT_RGB24, WIDTH, HEIGHT);
  hob_sheet_bounds (scene->range, sheet, job.box);
  job.look.zoom = MIN (1.0, MIN (WIDTH / job.box[2], HEIGHT / job.box[3]));
  on_paper = cairo_create (job.paper);
  hob_sheet_ground (on_paper, WIDTH, HEIGHT, &job.look);
  place (on_paper, &job);
  hob_sheet_draw_paper (on_paper, scene->range, sheet, &job.look, NULL);
  cairo_destroy (on_paper);
  empty = median_ms (cr, empty_frame, &job);
  paper = median_ms (cr, paper_frame, &job);
  state = median_ms (cr, state_frame, &job);
  printf ("%-11s %-8s zoom %.2f: empty fill %.2f ms; paper %.2f ms, state %.2f ms: × %.1f the "
          "empty fill "
          "(budget beyond an empty window: 4 ms)\n",
          name, sheet_names[sheet], job.look.zoom, empty, paper, state, (paper + state) / empty);
  cairo_destroy (cr);
  cairo_surface_destroy (target);
  cairo_surface_destroy (job.paper);
}

int
main (void)
{
  static const char *const names[] = { "dial-four.xml", "board-five.xml", "reignite-six.xml" };

  for (gsize k = 0; k < G_N_ELEMENTS (names); k++)
    {
      g_autoptr (HobRange) range = load_shipped (names[k]);
      g_autoptr (HobSheetMemory) memory = hob_sheet_memory_new (range);
      g_autoptr (HobPlan) plan = hob_plan_new (range);
      HobRun *run, *twin;
      HobScene *scene = busy_scene (plan, &run, &twin);

      for (int sheet = 0; sheet < HOB_N_SHEETS; sheet++)
        one_sheet (names[k], scene, memory, (HobSheet) sheet);
      hob_scene_free (scene);
      hob_run_free (run);
      hob_run_free (twin);
    }
  return 0;
}
