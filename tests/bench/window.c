/* SPDX-License-Identifier: GPL-3.0-or-later */

/* What the window costs: a frame of the animated sheets at 1400×900, with rings and the sequence
 * line, beyond that of a window with an empty drawing area in the sheet's place, drawn again as
 * often and measured in turn with it; and its first frame and its memory beside an empty window's
 * (each in a process of its own, in turn). */

#include "hand.h"

#include <gdk/x11/gdkx.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>

#define W 1400
#define H 900
#define FRAMES 75
#define PASSES 9 /* the first of them isn't counted: it pays for the memory of all */
#define STARTS 7 /* of each program, in turn */

typedef struct
{
  double wall, cpu; /* ms */
} Cost;

typedef struct
{
  gint64 wall, cpu; /* µs at the frame's beginning */
  GArray *costs;    /* Cost, by frame */
} Meter;

/* Of this process alone: what others do on the machine does not count. */
static gint64
cpu_time (void)
{
  struct timespec t;

  clock_gettime (CLOCK_PROCESS_CPUTIME_ID, &t);
  return t.tv_sec * G_USEC_PER_SEC + t.tv_nsec / 1000;
}

static void
on_before_paint (GdkFrameClock *clock, Meter *meter)
{
  meter->wall = g_get_monotonic_time ();
  meter->cpu = cpu_time ();
}

static void
on_after_paint (GdkFrameClock *clock, Meter *meter)
{
  Cost cost;

  XSync (gdk_x11_display_get_xdisplay (gdk_display_get_default ()), False);
  cost.wall = (double)(g_get_monotonic_time () - meter->wall) / 1000.0;
  cost.cpu = (double)(cpu_time () - meter->cpu) / 1000.0;
  g_array_append_val (meter->costs, cost);
}

/* Nothing is drawn, but all of the area is rendered and sent again, as all of the sheet is. */
static void
draw_nothing (GtkDrawingArea *area, cairo_t *cr, int w, int h, gpointer user)
{
}

static gboolean
on_tick (GtkWidget *widget, GdkFrameClock *clock, gpointer user)
{
  gtk_widget_queue_draw (widget);
  return G_SOURCE_CONTINUE;
}

static int
compare (gconstpointer a, gconstpointer b)
{
  return (*(const double *)a > *(const double *)b) - (*(const double *)a < *(const double *)b);
}

/* The cost that @share of the frames do not exceed. */
static double
quantile (const GArray *costs, gsize offset, double share)
{
  g_autofree double *values = g_new (double, costs->len);

  for (guint i = 0; i < costs->len; i++)
    values[i] = *(const double *)(const void *)(costs->data + i * sizeof (Cost) + offset);
  qsort (values, costs->len, sizeof (double), compare);
  return values[MIN ((guint) (share * costs->len), costs->len - 1)];
}

static Cost
cost_at (const GArray *costs, double share)
{
  return (Cost){ quantile (costs, G_STRUCT_OFFSET (Cost, wall), share),
                 quantile (costs, G_STRUCT_OFFSET (Cost, cpu), share) };
}

static Cost
beyond (Cost a, Cost b)
{
  return (Cost){ a.wall - b.wall, a.cpu - b.cpu };
}

/* Adds what each frame costs to @costs, painting and all that ticks included. */
static void
measure_frames (GtkWidget *widget, GArray *costs)
{
  GdkFrameClock *clock = gtk_widget_get_frame_clock (widget);
  Meter meter = { 0, 0, costs };
  guint until = costs->len + FRAMES;

  hand_sleep (500);
  g_signal_connect (clock, "before-paint", G_CALLBACK (on_before_paint), &meter);
  g_signal_connect_after (clock, "after-paint", G_CALLBACK (on_after_paint), &meter);
  while (costs->len < until)
    g_main_context_iteration (NULL, TRUE);
  g_signal_handlers_disconnect_by_data (clock, &meter);
}

static GtkWidget *
present (GtkWidget *child)
{
  GtkWidget *window = gtk_window_new ();

  gtk_window_set_decorated (GTK_WINDOW (window), FALSE);
  gtk_window_set_child (GTK_WINDOW (window), child);
  gtk_window_set_default_size (GTK_WINDOW (window), W, H);
  gtk_window_present (GTK_WINDOW (window));
  WAIT_FOR (gtk_widget_get_mapped (child) && gtk_widget_get_width (child) > 0);
  return window;
}

static void
turn (HobSession *session, const char *knob, double value)
{
  int part, control;

  g_assert_true (
      hob_range_find_control (hob_session_range (session), knob, &part, &control, NULL));
  hob_session_act (session, HOB_ACT_CONTROL, part, control, value);
}

/* The oven bakes on a weak igniter, one knob is held at a spark: much moves, and some differs. */
static HobSession *
baking_session (void)
{
  g_autoptr (GError) error = NULL;
  HobSession *session = hob_session_new (&error);
  g_autofree char *file = hob_range_locate ("board-five");

  g_assert_no_error (error);
  g_autoptr (HobRange) range = hob_range_load (file, NULL, &error);

  g_assert_no_error (error);
  g_autoptr (HobCase) acts = hob_case_new (range);

  g_assert_true (hob_case_fault (acts, "igniter-bake:aged", &error));
  hob_session_open (session, range, acts);
  turn (session, "oven.mode", 1);
  turn (session, "knob-lf", 20);
  return session;
}

/* The sheet alone, with the run going on: the same paint area as the empty window's. */
static gboolean
on_sheet_tick (GtkWidget *widget, GdkFrameClock *clock, gpointer user)
{
  hob_sheet_view_tick (HOB_SHEET_VIEW (widget), 1.0 / 60);
  hob_session_tick (user, 1.0 / 60);
  gtk_widget_queue_draw (widget);
  return G_SOURCE_CONTINUE;
}

static GtkWidget *
bar_above (GtkWidget *bar, GtkWidget *view)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 0);

  gtk_widget_set_vexpand (view, TRUE);
  gtk_box_append (GTK_BOX (box), bar);
  gtk_box_append (GTK_BOX (box), view);
  return box;
}

/* Its area is drawn again where the sheet would be, its bar of @bar_height is not. */
static void
measure_empty (int bar_height, GArray *costs)
{
  GtkWidget *area = gtk_drawing_area_new (), *bar = gtk_drawing_area_new (), *window;

  gtk_widget_set_size_request (bar, -1, bar_height);
  gtk_drawing_area_set_draw_func (GTK_DRAWING_AREA (area), draw_nothing, NULL, NULL);
  window = present (bar_above (bar, area));
  gtk_widget_add_tick_callback (area, on_tick, NULL, NULL);
  measure_frames (area, costs);
  gtk_window_destroy (GTK_WINDOW (window));
}

/* Returns the height of the sequence line. */
static int
measure_sheet (HobApp *app, HobSheet sheet, const char *picture, GArray *costs)
{
  GtkWidget *view = g_object_new (HOB_TYPE_SHEET_VIEW, NULL),
            *bar = g_object_new (HOB_TYPE_SEQUENCE_BAR, NULL), *window;
  HobSession *session = baking_session ();
  const HobLook look = hob_style_look (hob_app_style (app));
  int bar_height;

  hob_sheet_view_set_session (HOB_SHEET_VIEW (view), session);
  hob_sheet_view_set_look (HOB_SHEET_VIEW (view), look, FALSE);
  hob_sheet_view_show (HOB_SHEET_VIEW (view), sheet);
  hob_sequence_bar_set_session (HOB_SEQUENCE_BAR (bar), session);
  hob_sequence_bar_set_look (HOB_SEQUENCE_BAR (bar), look);
  window = present (bar_above (bar, view));
  gtk_widget_add_tick_callback (view, on_sheet_tick, session, NULL);
  measure_frames (view, costs);
  bar_height = gtk_widget_get_height (bar);
  hand_picture (gtk_window_get_child (GTK_WINDOW (window)), picture);
  gtk_window_destroy (GTK_WINDOW (window));
  g_object_unref (session);
  return bar_height;
}

static void
print_frames (const char *what, const GArray *costs, const GArray *empty)
{
  Cost middle = cost_at (costs, 0.5), late = cost_at (costs, 0.99);
  Cost more_middle = beyond (middle, cost_at (empty, 0.5)),
       more_late = beyond (late, cost_at (empty, 0.99));

  g_print ("%s: median %.2f / %.2f ms, one in a hundred %.2f / %.2f ms; beyond the empty window: "
           "median %.2f / %.2f ms (aim: 2), one in a hundred %.2f / %.2f ms (aim: 6)\n",
           what, middle.wall, middle.cpu, late.wall, late.cpu, more_middle.wall, more_middle.cpu,
           more_late.wall, more_late.cpu);
}

static void
bench_frames (HobApp *app)
{
  g_autoptr (GArray) empty = g_array_new (FALSE, FALSE, sizeof (Cost)),
                     wiring = g_array_new (FALSE, FALSE, sizeof (Cost)),
                     cutaway = g_array_new (FALSE, FALSE, sizeof (Cost));

  for (int i = 0; i < PASSES; i++)
    {
      int bar_height = measure_sheet (app, HOB_SHEET_WIRING, "bench-wiring.png", wiring);

      measure_empty (bar_height, empty);
      measure_sheet (app, HOB_SHEET_CUTAWAY, "bench-cutaway.png", cutaway);
    }
  g_array_remove_range (empty, 0, FRAMES);
  g_array_remove_range (wiring, 0, FRAMES);
  g_array_remove_range (cutaway, 0, FRAMES);
  g_print ("%u frames of each at %d×%d, wall / processor\n", empty->len, W, H);
  print_frames ("empty window", empty, empty);
  print_frames ("animated wiring sheet", wiring, empty);
  print_frames ("animated cutaway", cutaway, empty);
}

/* At full speed a frame's computing stays within its budget: the longest tick of ten seconds'
 * worth. */
static void
bench_ticks (void)
{
  HobSession *session = baking_session ();
  gint64 longest = 0;

  hob_session_set_speed (session, 600);
  for (int i = 0; i < 600; i++)
    {
      gint64 before = cpu_time ();

      hob_session_tick (session, 1.0 / 60);
      longest = MAX (longest, cpu_time () - before);
    }
  g_print ("600 × time: longest tick %.2f ms of %.0f, %.1f simulated hours in 600 frames\n",
           (double)longest / 1000.0, HOB_SESSION_BUDGET_US / 1000.0,
           (double)hob_session_ms (session) / 3.6e6);
  g_object_unref (session);
}

/* Resident memory, kB. */
static long
resident (void)
{
  g_autofree char *status = NULL;
  const char *line;

  g_assert_true (g_file_get_contents ("/proc/self/status", &status, NULL, NULL));
  line = strstr (status, "VmRSS:");
  return line != NULL ? strtol (line + 6, NULL, 10) : 0;
}

static void
on_first_frame (GdkFrameClock *clock, Meter *meter)
{
  XSync (gdk_x11_display_get_xdisplay (gdk_display_get_default ()), False);
  if (meter->wall != 0)
    return;
  meter->wall = g_get_monotonic_time ();
  meter->cpu = cpu_time ();
}

/* From @began to the end of the first frame; by the processor, from the start of the process. */
static Cost
first_frame (GtkWidget *window, gint64 began)
{
  Meter meter = { 0, 0, NULL };

  gtk_widget_realize (window);
  g_signal_connect_after (gtk_widget_get_frame_clock (window), "after-paint",
                          G_CALLBACK (on_first_frame), &meter);
  gtk_window_present (GTK_WINDOW (window));
  WAIT_FOR (meter.wall > 0);
  g_signal_handlers_disconnect_by_data (gtk_widget_get_frame_clock (window), &meter);
  return (Cost){ (double) (meter.wall - began) / 1000.0, (double) meter.cpu / 1000.0 };
}

static GtkWidget *
empty_window (void)
{
  GtkWidget *window = gtk_window_new ();

  gtk_window_set_title (GTK_WINDOW (window), "Empty");
  gtk_window_set_default_size (GTK_WINDOW (window), W, H);
  return window;
}

/* First frame, wall and processor, in ms; memory running and held, kB. */
static void
print_own (gboolean full, gboolean brief, gint64 began)
{
  HobApp *app = full ? hob_app_new () : NULL;
  GtkWidget *window;
  Cost first;

  if (full)
    {
      g_assert_true (g_application_register (G_APPLICATION (app), NULL, NULL));
      window = GTK_WIDGET (hand_window (app, "board-five", W, H));
    }
  else
    window = empty_window ();
  first = first_frame (window, began);
  g_print ("%.1f %.1f ", first.wall, first.cpu);
  if (brief)
    exit (0);
  if (full)
    hob_session_set_running (hob_window_session (HOB_WINDOW (window)), TRUE);
  hand_sleep (3000);
  g_print ("%ld ", resident ());
  if (full)
    hob_session_set_running (hob_window_session (HOB_WINDOW (window)), FALSE);
  hand_sleep (500);
  g_print ("%ld\n", resident ());
}

typedef struct
{
  Cost first;
  double running, held; /* MB; 0: not asked for */
} Own;

/* What a process of its own says.  @brief: of its first frame alone, NULL or "brief". */
static Own
ask (const char *self, const char *which, const char *brief)
{
  const char *const argv[] = { self, which, brief, NULL };
  g_autoptr (GSubprocess) process
      = g_subprocess_newv (argv, G_SUBPROCESS_FLAGS_STDOUT_PIPE, NULL);
  g_autofree char *said = NULL;
  Own own;
  char *rest;

  g_assert_true (g_subprocess_communicate_utf8 (process, NULL, NULL, &said, NULL, NULL));
  own.first.wall = g_ascii_strtod (said, &rest);
  own.first.cpu = g_ascii_strtod (rest, &rest);
  own.running = (double) strtol (rest, &rest, 10) / 1024.0;
  own.held = (double) strtol (rest, NULL, 10) / 1024.0;
  return own;
}

static void
bench_start (const char *self)
{
  g_autoptr (GArray) empty = g_array_new (FALSE, FALSE, sizeof (Cost)),
                     full = g_array_new (FALSE, FALSE, sizeof (Cost));
  Cost a, b;

  for (int i = 0; i < STARTS; i++)
    {
      Own one = ask (self, "empty", "brief"), other = ask (self, "full", "brief");

      g_array_append_val (empty, one.first);
      g_array_append_val (full, other.first);
    }
  a = cost_at (empty, 0.5);
  b = cost_at (full, 0.5);
  g_print ("first frame, median of %d starts, wall / processor: empty window %.0f / %.0f ms; ours "
           "%.0f / %.0f ms, %.2f / %.2f × (aim: 1.5)\n",
           STARTS, a.wall, a.cpu, b.wall, b.cpu, b.wall / a.wall, b.cpu / a.cpu);
}

static void
bench_memory (const char *self)
{
  Own empty = ask (self, "empty", NULL), full = ask (self, "full", NULL);

  g_print ("memory: empty window %.1f MB; ours running %.1f MB, %.2f ×; held %.1f MB, %.2f × "
           "(aim: under 1.5)\n",
           empty.held, full.running, full.running / empty.held, full.held,
           full.held / empty.held);
}

int
main (int argc, char **argv)
{
  const gint64 began = g_get_monotonic_time ();
  g_autoptr (HobApp) app = NULL;

  gtk_init ();
  if (argc > 1)
    {
      print_own (g_str_equal (argv[1], "full"), argc > 2, began);
      return 0;
    }
  app = hob_app_new ();
  g_assert_true (g_application_register (G_APPLICATION (app), NULL, NULL));
  bench_frames (app);
  bench_ticks ();
  bench_start (argv[0]);
  bench_memory (argv[0]);
  return 0;
}
