/* SPDX-License-Identifier: GPL-3.0-or-later */

/* What the window costs: a frame of the animated wiring sheet at 1400×900 beyond the frame of a
 * window that is only filled with one color, in the same run; and its memory beside an empty
 * window's (each in a process of its own). */

#include "hand.h"

#include <gdk/x11/gdkx.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>

#define W 1400
#define H 900
#define FRAMES 150

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

/* All of it is new in each frame, as all of the sheet is. */
static void
draw_blank (GtkDrawingArea *area, cairo_t *cr, int w, int h, gpointer user)
{
  cairo_set_source_rgb (cr, 1, 1, 1);
  cairo_paint (cr);
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

static double
median (const GArray *costs, gsize offset)
{
  g_autofree double *values = g_new (double, costs->len);

  for (guint i = 0; i < costs->len; i++)
    values[i] = *(const double *)(const void *)(costs->data + i * sizeof (Cost) + offset);
  qsort (values, costs->len, sizeof (double), compare);
  return values[costs->len / 2];
}

/* The median frame, painting and all that ticks included. */
static Cost
frame_cost (GtkWidget *widget)
{
  GdkFrameClock *clock = gtk_widget_get_frame_clock (widget);
  Meter meter = { 0, 0, g_array_new (FALSE, FALSE, sizeof (Cost)) };
  Cost middle;

  hand_sleep (500);
  g_signal_connect (clock, "before-paint", G_CALLBACK (on_before_paint), &meter);
  g_signal_connect_after (clock, "after-paint", G_CALLBACK (on_after_paint), &meter);
  while (meter.costs->len < FRAMES)
    g_main_context_iteration (NULL, TRUE);
  g_signal_handlers_disconnect_by_data (clock, &meter);
  middle = (Cost){ median (meter.costs, G_STRUCT_OFFSET (Cost, wall)),
                   median (meter.costs, G_STRUCT_OFFSET (Cost, cpu)) };
  g_array_unref (meter.costs);
  return middle;
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

static HobSession *
baking_session (void)
{
  g_autoptr (GError) error = NULL;
  HobSession *session = hob_session_new (&error);
  g_autofree char *file = hob_range_locate ("dial-four");
  int part, control;

  g_assert_no_error (error);
  g_autoptr (HobRange) range = hob_range_load (file, NULL, &error);

  g_assert_no_error (error);
  hob_session_open (session, range, NULL);
  g_assert_true (
      hob_range_find_control (hob_session_range (session), "oven.mode", &part, &control, NULL));
  hob_session_act (session, HOB_ACT_CONTROL, part, control, 1);
  g_assert_true (
      hob_range_find_control (hob_session_range (session), "knob-lf", &part, &control, NULL));
  hob_session_act (session, HOB_ACT_CONTROL, part, control, 20);
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

static Cost
blank_cost (void)
{
  GtkWidget *area = gtk_drawing_area_new (), *window = present (area);
  Cost cost;

  gtk_drawing_area_set_draw_func (GTK_DRAWING_AREA (area), draw_blank, NULL, NULL);
  gtk_widget_add_tick_callback (area, on_tick, NULL, NULL);
  cost = frame_cost (area);
  gtk_window_destroy (GTK_WINDOW (window));
  return cost;
}

static Cost
sheet_cost (HobApp *app)
{
  GtkWidget *view = g_object_new (HOB_TYPE_SHEET_VIEW, NULL), *window;
  HobSession *session = baking_session ();
  Cost cost;

  hob_sheet_view_set_session (HOB_SHEET_VIEW (view), session);
  hob_sheet_view_set_look (HOB_SHEET_VIEW (view), hob_style_look (hob_app_style (app)), FALSE);
  window = present (view);
  gtk_widget_add_tick_callback (view, on_sheet_tick, session, NULL);
  cost = frame_cost (view);
  hand_picture (view, "bench-wiring.png");
  gtk_window_destroy (GTK_WINDOW (window));
  g_object_unref (session);
  return cost;
}

/* Either is measured twice in turn and the better one counts: the first frames of a process pay
 * for its memory. */
static void
bench_frames (HobApp *app)
{
  Cost blank = { G_MAXDOUBLE, G_MAXDOUBLE }, sheet = blank;

  for (int i = 0; i < 2; i++)
    {
      Cost a = blank_cost (), b = sheet_cost (app);

      blank = (Cost){ MIN (blank.wall, a.wall), MIN (blank.cpu, a.cpu) };
      sheet = (Cost){ MIN (sheet.wall, b.wall), MIN (sheet.cpu, b.cpu) };
    }
  g_print ("median frame, %d×%d, wall / processor: filled window %.2f / %.2f ms, animated wiring "
           "sheet %.2f / %.2f ms\n",
           W, H, blank.wall, blank.cpu, sheet.wall, sheet.cpu);
  g_print ("beyond the filled window: %.2f / %.2f ms (aim: under 4)\n", sheet.wall - blank.wall,
           sheet.cpu - blank.cpu);
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
print_memory (gboolean full)
{
  if (full)
    {
      HobApp *app = hob_app_new ();
      HobWindow *window;

      g_assert_true (g_application_register (G_APPLICATION (app), NULL, NULL));
      window = hand_open (app, "dial-four", W, H);
      hob_session_set_running (hob_window_session (window), TRUE);
      hand_sleep (3000);
      g_print ("%ld ", resident ());
      hob_session_set_running (hob_window_session (window), FALSE);
      hand_sleep (500);
    }
  else
    {
      GtkWidget *window = gtk_window_new ();

      gtk_window_set_title (GTK_WINDOW (window), "Empty");
      gtk_window_set_default_size (GTK_WINDOW (window), W, H);
      gtk_window_present (GTK_WINDOW (window));
      hand_sleep (3000);
    }
  g_print ("%ld\n", resident ());
}

/* What a process of its own says: its figures in MB. */
static void
memory_of (const char *self, const char *which, double *first, double *second)
{
  const char *const argv[] = { self, which, NULL };
  g_autoptr (GSubprocess) process
      = g_subprocess_newv (argv, G_SUBPROCESS_FLAGS_STDOUT_PIPE, NULL);
  g_autofree char *said = NULL;
  char *rest;

  g_assert_true (g_subprocess_communicate_utf8 (process, NULL, NULL, &said, NULL, NULL));
  *first = (double)strtol (said, &rest, 10) / 1024.0;
  *second = (double)strtol (rest, NULL, 10) / 1024.0;
}

int
main (int argc, char **argv)
{
  g_autoptr (HobApp) app = NULL;
  double blank, running, held, none;

  gtk_init ();
  if (argc > 1)
    {
      print_memory (g_str_equal (argv[1], "full"));
      return 0;
    }
  app = hob_app_new ();
  g_assert_true (g_application_register (G_APPLICATION (app), NULL, NULL));
  bench_frames (app);
  bench_ticks ();
  memory_of (argv[0], "empty", &blank, &none);
  memory_of (argv[0], "full", &running, &held);
  g_print ("memory: empty window %.1f MB; ours running %.1f MB, %.2f ×; held %.1f MB, %.2f × "
           "(aim: under 1.5)\n",
           blank, running, running / blank, held, held / blank);
  return 0;
}
