/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "window/chart-view.h"

#include "base/i18n.h"
#include "window/menus.h"
#include "window/style.h"

#include <math.h>

#define REFRESH_US 200000 /* the traces are drawn anew five times a second at most */
#define HANDLE 10.0       /* px: the hand's grip */
#define MOST_LOOKS 8      /* events a refresh that the lanes are looked at */

struct _HobChartView
{
  GtkWidget parent_instance;

  /*< owned >*/
  HobSession *session;
  GArray *traces; /* HobTrace: those that are shown */
  HobLanes *lanes;
  HobChartMemory *memory;

  gboolean by_hand;     /* somebody has chosen the traces */
  double looked_at;     /* s that the lanes have been looked at up to; < 0: anew */
  double from, to;      /* s in view; to 0: all of it */
  double pointer_x;

  HobLook look;

  /*< cached >*/
  cairo_surface_t *surface;
  int scale;
  double w, h;
  HobChart drawn;  /* as the surface has it */
  gint64 drawn_at; /* µs */
  gboolean stale;
  gboolean asked_for; /* the frame is not the window's first, which is shown sooner without it */
  guint refresh; /* timeout that brings what came too soon after the last drawing */
};

G_DEFINE_FINAL_TYPE (HobChartView, hob_chart_view, GTK_TYPE_WIDGET)

static guint asked; /* signal */

/* Ends of the time axis, s: it grows in steps and is still in between. */
static const double spans[]
    = { 60, 120, 300, 600, 900, 1800, 3600, 7200, 14400, 28800, 43200, 86400 };

static double
span_for (double reached)
{
  for (guint i = 0; i < G_N_ELEMENTS (spans); i++)
    if (reached <= spans[i])
      return spans[i];
  return ceil (reached / 86400) * 86400;
}

static HobChart
chart (HobChartView *self)
{
  HobBench *bench = hob_session_bench (self->session);
  double reached = (double) hob_session_reached_ms (self->session) / 1000.0;

  return (HobChart){ .run = bench->run,
                     .should_be = hob_bench_should_be (bench),
                     .twin = hob_bench_twin (bench),
                     .traces = (const HobTrace *) (gconstpointer) self->traces->data,
                     .n_traces = (int) self->traces->len,
                     .memory = self->memory,
                     .book = hob_session_book (self->session),
                     .from = self->to > 0 ? self->from : 0,
                     .to = self->to > 0 ? self->to : span_for (reached),
                     .cursor = NAN,
                     .until = fmax (reached, 1e-3) };
}

HobChart
hob_chart_view_chart (HobChartView *self)
{
  return chart (self);
}

static void
plot_box (HobChartView *self, double box[4])
{
  hob_chart_plot_box (gtk_widget_get_width (GTK_WIDGET (self)),
                      gtk_widget_get_height (GTK_WIDGET (self)), &self->look, box);
}

double
hob_chart_view_time (HobChartView *self, double x)
{
  HobChart c = chart (self);
  double box[4];

  plot_box (self, box);
  return c.from + (x - box[0]) / box[2] * (c.to - c.from);
}

double
hob_chart_view_x (HobChartView *self, double t)
{
  HobChart c = chart (self);
  double box[4];

  plot_box (self, box);
  return box[0] + (t - c.from) / (c.to - c.from) * box[2];
}

/* ---- Which lanes ---- */

/* What has happened since the last look, and now. */
static void
look_on (HobChartView *self, const HobChart *c, double now)
{
  guint first, n = hob_run_events (c->run, self->looked_at, now, &first);
  guint every = n / MOST_LOOKS + 1;

  for (guint k = 0; k < n; k += every)
    hob_lanes_look (self->lanes, c->run, c->should_be, c->twin,
                    hob_run_event (c->run, first + k)->t);
  hob_lanes_look (self->lanes, c->run, c->should_be, c->twin, now);
}

/* Where nobody has chosen, those that tell most by now. */
static void
choose_lanes (HobChartView *self)
{
  const HobChart c = chart (self);
  double now = (double) hob_session_reached_ms (self->session) / 1000.0;
  GArray *chosen;

  if (self->by_hand)
    return;
  if (self->looked_at < 0 || now < self->looked_at)
    {
      hob_lanes_forget (self->lanes);
      hob_lanes_look_back (self->lanes, c.run, c.should_be, c.twin, 0, now);
    }
  else
    look_on (self, &c, now);
  self->looked_at = now;
  chosen = hob_lanes_choose (self->lanes, hob_run_case (c.run), now, HOB_CHART_LANES);
  g_array_unref (self->traces);
  self->traces = chosen;
}

static int
lane_of (HobChartView *self, HobTrace trace)
{
  for (guint k = 0; k < self->traces->len; k++)
    {
      const HobTrace *shown = &g_array_index (self->traces, HobTrace, k);

      if (shown->part == trace.part && shown->quantity == trace.quantity)
        return (int) k;
    }
  return -1;
}

static void
redraw (HobChartView *self)
{
  g_clear_pointer (&self->surface, cairo_surface_destroy);
  gtk_widget_queue_resize (GTK_WIDGET (self));
  gtk_widget_queue_draw (GTK_WIDGET (self));
}

gboolean
hob_chart_view_shows (HobChartView *self, HobTrace trace)
{
  return lane_of (self, trace) >= 0;
}

void
hob_chart_view_show (HobChartView *self, HobTrace trace, gboolean show)
{
  int lane = lane_of (self, trace);

  if (show == (lane >= 0) || (!show && self->traces->len == 1))
    return;
  self->by_hand = TRUE;
  if (show)
    g_array_prepend_val (self->traces, trace);
  else
    g_array_remove_index (self->traces, (guint) lane);
  redraw (self);
}

void
hob_chart_view_choose (HobChartView *self)
{
  self->by_hand = FALSE;
  self->looked_at = -1;
  redraw (self);
}

gboolean
hob_chart_view_chosen_by_hand (HobChartView *self)
{
  return self->by_hand;
}

const GArray *
hob_chart_view_traces (HobChartView *self)
{
  return self->traces;
}

/* ---- Drawing ---- */

static void
draw_surface (HobChartView *self)
{
  HobChart c;
  cairo_t *cr;

  choose_lanes (self);
  c = chart (self);
  g_clear_pointer (&self->surface, cairo_surface_destroy);
  self->w = gtk_widget_get_width (GTK_WIDGET (self));
  self->h = gtk_widget_get_height (GTK_WIDGET (self));
  self->scale = gtk_widget_get_scale_factor (GTK_WIDGET (self));
  self->surface = cairo_image_surface_create (CAIRO_FORMAT_RGB24, (int)self->w * self->scale,
                                              (int)self->h * self->scale);
  cairo_surface_set_device_scale (self->surface, self->scale, self->scale);
  cr = cairo_create (self->surface);
  hob_sheet_ground (cr, self->w, self->h, &self->look);
  hob_chart_draw (cr, &c, self->w, self->h, &self->look);
  cairo_destroy (cr);
  self->drawn = c;
  self->drawn_at = g_get_monotonic_time ();
  self->stale = FALSE;
}

static gboolean
on_refresh (gpointer user)
{
  HobChartView *self = user;

  self->refresh = 0;
  gtk_widget_queue_draw (GTK_WIDGET (self));
  return G_SOURCE_REMOVE;
}

static gboolean
must_draw (HobChartView *self, const HobChart *c)
{
  GtkWidget *widget = GTK_WIDGET (self);

  if (self->surface == NULL || self->w != gtk_widget_get_width (widget)
      || self->h != gtk_widget_get_height (widget)
      || self->scale != gtk_widget_get_scale_factor (widget) || self->drawn.to != c->to
      || self->drawn.from != c->from)
    return TRUE;
  if (!self->stale)
    return FALSE;
  if (g_get_monotonic_time () - self->drawn_at >= REFRESH_US)
    return TRUE;
  if (self->refresh == 0)
    self->refresh = g_timeout_add (REFRESH_US / 1000, on_refresh, self);
  return FALSE;
}

/* The values, the line, and the grip below it. */
static void
draw_hand (HobChartView *self, cairo_t *cr)
{
  HobChart c = chart (self);
  double x, box[4];
  GdkRGBA pencil = hob_widget_colour (GTK_WIDGET (self), HOB_ROLE_PENCIL);

  c.cursor = (double) hob_session_ms (self->session) / 1000.0;
  hob_chart_draw_hand (cr, &c, self->w, self->h, &self->look);
  plot_box (self, box);
  x = round (hob_chart_view_x (self, c.cursor));
  gdk_cairo_set_source_rgba (cr, &pencil);
  if (x >= box[0] - 1 && x <= box[0] + box[2] + 1)
    {
      cairo_move_to (cr, x - HANDLE / 2, box[1] + box[3]);
      cairo_rel_line_to (cr, HANDLE, 0);
      cairo_rel_line_to (cr, -HANDLE / 2, -HANDLE);
      cairo_close_path (cr);
      cairo_fill (cr);
    }
  if (gtk_widget_has_visible_focus (GTK_WIDGET (self)))
    hob_widget_draw_focus (GTK_WIDGET (self), cr);
}

/* The ground alone. */
static void
draw_later (HobChartView *self, GtkSnapshot *snapshot)
{
  GdkRGBA ground = hob_widget_colour (GTK_WIDGET (self), HOB_ROLE_SHEET);

  gtk_snapshot_append_color (
      snapshot, &ground,
      &GRAPHENE_RECT_INIT (0, 0, (float) gtk_widget_get_width (GTK_WIDGET (self)),
                           (float) gtk_widget_get_height (GTK_WIDGET (self))));
  self->asked_for = TRUE;
  if (self->refresh == 0)
    self->refresh = g_idle_add (on_refresh, self);
}

static void
hob_chart_view_snapshot (GtkWidget *widget, GtkSnapshot *snapshot)
{
  HobChartView *self = HOB_CHART_VIEW (widget);
  HobChart c;
  cairo_t *cr;

  if (self->session == NULL || gtk_widget_get_width (widget) <= 0
      || gtk_widget_get_height (widget) <= 0)
    return;
  if (!self->asked_for)
    {
      draw_later (self, snapshot);
      return;
    }
  c = chart (self);
  if (must_draw (self, &c))
    draw_surface (self);
  cr = gtk_snapshot_append_cairo (snapshot,
                                  &GRAPHENE_RECT_INIT (0, 0, (float)self->w, (float)self->h));
  cairo_set_source_surface (cr, self->surface, 0, 0);
  cairo_pattern_set_filter (cairo_get_source (cr), CAIRO_FILTER_NEAREST);
  cairo_paint (cr);
  draw_hand (self, cr);
  cairo_destroy (cr);
}

/* ---- Time in view ---- */

#define ZOOM_STEP 1.5
#define LEAST_SPAN 1.0 /* s */

/* Never more than there is to see. */
static void
look_at_times (HobChartView *self, double from, double to)
{
  double all = span_for ((double) hob_session_reached_ms (self->session) / 1000.0);
  double span = to - from;

  if (span >= all)
    self->from = self->to = 0;
  else
    {
      self->from = CLAMP (from, 0, all - span);
      self->to = self->from + span;
    }
  self->stale = TRUE;
  gtk_widget_queue_draw (GTK_WIDGET (self));
}

void
hob_chart_view_zoom (HobChartView *self, double factor, double about)
{
  const HobChart c = chart (self);
  double span = fmax (LEAST_SPAN, (c.to - c.from) / factor);
  double share = (about - c.from) / (c.to - c.from);

  look_at_times (self, about - share * span, about + (1 - share) * span);
}

void
hob_chart_view_zoom_out (HobChartView *self)
{
  look_at_times (self, 0, INFINITY);
}

/* The hand stays in view: the paper moves on by a page. */
static void
follow_hand (HobChartView *self)
{
  double now = (double) hob_session_ms (self->session) / 1000.0, span = self->to - self->from;

  if (self->to > 0 && (now > self->to || now < self->from))
    look_at_times (self, floor (now / span) * span, floor (now / span) * span + span);
}

/* Of the time axis, what the pointer or the hand is at. */
static double
middle_of_zoom (HobChartView *self)
{
  const HobChart c = chart (self);
  double now = (double) hob_session_ms (self->session) / 1000.0;

  return CLAMP (now, c.from, c.to);
}

static gboolean
on_scroll (GtkEventControllerScroll *scroll, double dx, double dy, HobChartView *self)
{
  GdkModifierType held
      = gtk_event_controller_get_current_event_state (GTK_EVENT_CONTROLLER (scroll));
  const HobChart c = chart (self);
  double by = (fabs (dx) > fabs (dy) ? dx : dy) * (c.to - c.from) / 10;

  if ((held & GDK_CONTROL_MASK) != 0)
    hob_chart_view_zoom (self, pow (ZOOM_STEP, -dy),
                         CLAMP (hob_chart_view_time (self, self->pointer_x), c.from, c.to));
  else if (self->to > 0)
    look_at_times (self, c.from + by, c.to + by);
  return TRUE;
}

static void
on_motion (GtkEventControllerMotion *motion, double x, double y, HobChartView *self)
{
  self->pointer_x = x;
}

/* ---- Hands ---- */

static void
scrub_to (HobChartView *self, double x)
{
  gint64 ms = (gint64)llround (hob_chart_view_time (self, x) * 1000.0);

  hob_session_go (self->session, CLAMP (ms, 0, hob_session_reached_ms (self->session)));
}

static void
on_drag_begin (GtkGestureDrag *drag, double x, double y, HobChartView *self)
{
  gtk_widget_grab_focus (GTK_WIDGET (self));
  scrub_to (self, x);
}

static void
on_drag_update (GtkGestureDrag *drag, double dx, double dy, HobChartView *self)
{
  double x, y;

  gtk_gesture_drag_get_start_point (drag, &x, &y);
  scrub_to (self, x + dx);
}

static gboolean
on_key (GtkEventControllerKey *keys, guint key, guint code, GdkModifierType held,
        HobChartView *self)
{
  gint64 by = (held & GDK_SHIFT_MASK) != 0 ? 10000 : 1000;

  if ((held & (GDK_CONTROL_MASK | GDK_ALT_MASK)) != 0)
    return FALSE;
  switch (key)
    {
    case GDK_KEY_Left:
    case GDK_KEY_Right:
      hob_session_go (self->session,
                      hob_session_ms (self->session) + (key == GDK_KEY_Left ? -by : by));
      return TRUE;
    case GDK_KEY_plus:
    case GDK_KEY_KP_Add:
    case GDK_KEY_equal:
      hob_chart_view_zoom (self, ZOOM_STEP, middle_of_zoom (self));
      return TRUE;
    case GDK_KEY_minus:
    case GDK_KEY_KP_Subtract:
      hob_chart_view_zoom (self, 1 / ZOOM_STEP, middle_of_zoom (self));
      return TRUE;
    case GDK_KEY_0:
    case GDK_KEY_KP_0:
      hob_chart_view_zoom_out (self);
      return TRUE;
    default:
      return FALSE;
    }
}

static void
on_menu_click (GtkGestureClick *click, int n, double x, double y, HobChartView *self)
{
  gtk_widget_grab_focus (GTK_WIDGET (self));
  g_signal_emit (self, asked, 0, x, y);
}

/* ---- Joining in ---- */

static void
on_cut (HobSession *session, gint64 ms, HobChartView *self)
{
  hob_chart_memory_cut (self->memory, (double)ms / 1000.0);
  if ((double) ms / 1000.0 < self->looked_at)
    self->looked_at = -1;
}

static void
on_moved (HobChartView *self)
{
  self->stale = TRUE;
  follow_hand (self);
  gtk_widget_queue_draw (GTK_WIDGET (self));
}

/* On hold, what is shown is what is: at once. */
static void
on_pace (HobChartView *self)
{
  self->drawn_at = 0;
  on_moved (self);
}

static void
on_opened (HobChartView *self)
{
  g_clear_pointer (&self->lanes, hob_lanes_free);
  self->lanes = hob_lanes_new (hob_session_bench (self->session)->plan);
  g_array_set_size (self->traces, 0);
  self->by_hand = FALSE;
  self->looked_at = -1;
  self->from = self->to = 0;
  g_clear_pointer (&self->surface, cairo_surface_destroy);
  on_moved (self);
}

void
hob_chart_view_set_session (HobChartView *self, HobSession *session)
{
  self->session = g_object_ref (session);
  g_signal_connect_object (session, "opened", G_CALLBACK (on_opened), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (session, "moved", G_CALLBACK (on_moved), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (session, "pace", G_CALLBACK (on_pace), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (session, "cut", G_CALLBACK (on_cut), self, 0);
  on_opened (self);
}

void
hob_chart_view_set_look (HobChartView *self, HobLook look)
{
  self->look = look;
  g_clear_pointer (&self->surface, cairo_surface_destroy);
  gtk_widget_queue_draw (GTK_WIDGET (self));
}

static void
hob_chart_view_measure (GtkWidget *widget, GtkOrientation orientation, int for_size, int *minimum,
                        int *natural, int *minimum_baseline, int *natural_baseline)
{
  HobChartView *self = HOB_CHART_VIEW (widget);
  gboolean level = orientation == GTK_ORIENTATION_HORIZONTAL;

  *minimum = level ? 320 : (int) hob_chart_least_height (&self->look);
  *natural = level ? 1000 : (int) hob_chart_height (2, &self->look);
  *minimum_baseline = *natural_baseline = -1;
}

static void
hob_chart_view_size_allocate (GtkWidget *widget, int width, int height, int baseline)
{
  hob_menus_allocate (widget);
}

static void
hob_chart_view_dispose (GObject *object)
{
  HobChartView *self = HOB_CHART_VIEW (object);

  g_clear_handle_id (&self->refresh, g_source_remove);
  hob_menus_drop (GTK_WIDGET (self));
  g_clear_pointer (&self->surface, cairo_surface_destroy);
  g_clear_pointer (&self->traces, g_array_unref);
  g_clear_pointer (&self->lanes, hob_lanes_free);
  g_clear_pointer (&self->memory, hob_chart_memory_free);
  g_clear_object (&self->session);
  G_OBJECT_CLASS (hob_chart_view_parent_class)->dispose (object);
}

static void
hob_chart_view_class_init (HobChartViewClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = hob_chart_view_dispose;
  widget_class->snapshot = hob_chart_view_snapshot;
  widget_class->measure = hob_chart_view_measure;
  widget_class->size_allocate = hob_chart_view_size_allocate;
  asked = g_signal_new ("asked", HOB_TYPE_CHART_VIEW, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL,
                        G_TYPE_NONE, 2, G_TYPE_DOUBLE, G_TYPE_DOUBLE);
  gtk_widget_class_set_css_name (widget_class, "chart");
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_IMG);
}

static void
hob_chart_view_init (HobChartView *self)
{
  GtkGesture *drag = gtk_gesture_drag_new (), *menu = gtk_gesture_click_new ();
  GtkEventController *keys = gtk_event_controller_key_new ();
  GtkEventController *motion = gtk_event_controller_motion_new ();
  GtkEventController *scroll
      = gtk_event_controller_scroll_new (GTK_EVENT_CONTROLLER_SCROLL_BOTH_AXES);

  self->memory = hob_chart_memory_new ();
  self->traces = g_array_new (FALSE, TRUE, sizeof (HobTrace));
  self->looked_at = -1;
  self->look = (HobLook){ HOB_THEME_LIGHT, 1, 1 };
  gtk_widget_set_focusable (GTK_WIDGET (self), TRUE);
  hob_widget_follow_focus (GTK_WIDGET (self));
  gtk_widget_set_overflow (GTK_WIDGET (self), GTK_OVERFLOW_HIDDEN);
  gtk_accessible_update_property (GTK_ACCESSIBLE (self), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  _ ("Strip chart; use the Left and Right Arrow keys to move "
                                     "through time"), -1);
  gtk_gesture_single_set_button (GTK_GESTURE_SINGLE (menu), GDK_BUTTON_SECONDARY);
  g_signal_connect (menu, "pressed", G_CALLBACK (on_menu_click), self);
  gtk_widget_add_controller (GTK_WIDGET (self), GTK_EVENT_CONTROLLER (menu));
  g_signal_connect (drag, "drag-begin", G_CALLBACK (on_drag_begin), self);
  g_signal_connect (drag, "drag-update", G_CALLBACK (on_drag_update), self);
  g_signal_connect (keys, "key-pressed", G_CALLBACK (on_key), self);
  g_signal_connect (scroll, "scroll", G_CALLBACK (on_scroll), self);
  g_signal_connect (motion, "motion", G_CALLBACK (on_motion), self);
  gtk_widget_add_controller (GTK_WIDGET (self), GTK_EVENT_CONTROLLER (drag));
  gtk_widget_add_controller (GTK_WIDGET (self), keys);
  gtk_widget_add_controller (GTK_WIDGET (self), scroll);
  gtk_widget_add_controller (GTK_WIDGET (self), motion);
}
