/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "window/chart-view.h"

#include "base/i18n.h"
#include "window/style.h"

#include <math.h>

#define REFRESH_US 200000 /* the traces are drawn anew five times a second at most */
#define HANDLE 10.0       /* px: the hand's grip */
#define LEAST_LANE 22.0   /* px at text scale 1: a lane's name, and a little of its trace */
#define AROUND_LANES 32.0 /* px at text scale 1: time axis and margins */

struct _HobChartView
{
  GtkWidget parent_instance;

  /*< owned >*/
  HobSession *session;
  GArray *traces; /* HobTrace */
  HobChartMemory *memory;

  HobLook look;

  /*< cached >*/
  cairo_surface_t *surface;
  int scale;
  double w, h;
  HobChart drawn;  /* as the surface has it */
  gint64 drawn_at; /* µs */
  gboolean stale;
  guint refresh; /* timeout that brings what came too soon after the last drawing */
};

G_DEFINE_FINAL_TYPE (HobChartView, hob_chart_view, GTK_TYPE_WIDGET)

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

/* Where the window is low, the chart gives way down to one lane. */
static int
lanes_in (HobChartView *self)
{
  double room = gtk_widget_get_height (GTK_WIDGET (self)) / self->look.text_scale - AROUND_LANES;

  return MIN (MAX ((int) (room / LEAST_LANE), 1), (int) self->traces->len);
}

static HobChart
chart (HobChartView *self)
{
  double reached = (double)hob_session_reached_ms (self->session) / 1000.0;

  return (HobChart){ .to = span_for (reached),
                     .cursor = NAN,
                     .traces = (const HobTrace *)(gconstpointer)self->traces->data,
                     .n_traces = lanes_in (self),
                     .until = fmax (reached, 1e-3),
                     .memory = self->memory,
                     .book = hob_session_book (self->session) };
}

static void
plot_box (HobChartView *self, double box[4])
{
  HobChart c = chart (self);

  hob_chart_plot_box (&c, gtk_widget_get_width (GTK_WIDGET (self)),
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

/* ---- Drawing ---- */

static void
draw_surface (HobChartView *self, const HobChart *c)
{
  HobBench *bench = hob_session_bench (self->session);
  cairo_t *cr;

  g_clear_pointer (&self->surface, cairo_surface_destroy);
  self->w = gtk_widget_get_width (GTK_WIDGET (self));
  self->h = gtk_widget_get_height (GTK_WIDGET (self));
  self->scale = gtk_widget_get_scale_factor (GTK_WIDGET (self));
  self->surface = cairo_image_surface_create (CAIRO_FORMAT_RGB24, (int)self->w * self->scale,
                                              (int)self->h * self->scale);
  cairo_surface_set_device_scale (self->surface, self->scale, self->scale);
  cr = cairo_create (self->surface);
  hob_sheet_ground (cr, self->w, self->h, &self->look);
  hob_chart_draw (cr, bench->run, bench->twin, c, self->w, self->h, &self->look);
  cairo_destroy (cr);
  self->drawn = *c;
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
      || self->scale != gtk_widget_get_scale_factor (widget) || self->drawn.to != c->to)
    return TRUE;
  if (!self->stale)
    return FALSE;
  if (g_get_monotonic_time () - self->drawn_at >= REFRESH_US)
    return TRUE;
  if (self->refresh == 0)
    self->refresh = g_timeout_add (REFRESH_US / 1000, on_refresh, self);
  return FALSE;
}

static void
draw_hand (HobChartView *self, cairo_t *cr)
{
  double x = hob_chart_view_x (self, (double)hob_session_ms (self->session) / 1000.0), box[4];
  GdkRGBA pencil = hob_widget_colour (GTK_WIDGET (self), HOB_ROLE_PENCIL);

  plot_box (self, box);
  x = round (x);
  gdk_cairo_set_source_rgba (cr, &pencil);
  cairo_set_line_width (cr, 2);
  cairo_move_to (cr, x, box[1]);
  cairo_line_to (cr, x, box[1] + box[3]);
  cairo_stroke (cr);
  cairo_move_to (cr, x - HANDLE / 2, box[1] + box[3]);
  cairo_rel_line_to (cr, HANDLE, 0);
  cairo_rel_line_to (cr, -HANDLE / 2, -HANDLE);
  cairo_close_path (cr);
  cairo_fill (cr);
  if (gtk_widget_has_visible_focus (GTK_WIDGET (self)))
    {
      cairo_rectangle (cr, 1, 1, self->w - 2, self->h - 2);
      cairo_stroke (cr);
    }
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
  c = chart (self);
  if (must_draw (self, &c))
    draw_surface (self, &c);
  cr = gtk_snapshot_append_cairo (snapshot,
                                  &GRAPHENE_RECT_INIT (0, 0, (float)self->w, (float)self->h));
  cairo_set_source_surface (cr, self->surface, 0, 0);
  cairo_pattern_set_filter (cairo_get_source (cr), CAIRO_FILTER_NEAREST);
  cairo_paint (cr);
  draw_hand (self, cr);
  cairo_destroy (cr);
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

  if (key != GDK_KEY_Left && key != GDK_KEY_Right)
    return FALSE;
  hob_session_go (self->session, hob_session_ms (self->session) + (key == GDK_KEY_Left ? -by : by));
  return TRUE;
}

/* ---- Joining in ---- */

static void
on_cut (HobSession *session, gint64 ms, HobChartView *self)
{
  hob_chart_memory_cut (self->memory, (double)ms / 1000.0);
}

static void
on_moved (HobChartView *self)
{
  self->stale = TRUE;
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
  g_clear_pointer (&self->traces, g_array_unref);
  self->traces = hob_chart_default_traces (hob_session_range (self->session));
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
  *minimum = orientation == GTK_ORIENTATION_HORIZONTAL ? 320 : 84; /* one lane */
  *natural = orientation == GTK_ORIENTATION_HORIZONTAL ? 1000 : 150;
  *minimum_baseline = *natural_baseline = -1;
}

static void
hob_chart_view_dispose (GObject *object)
{
  HobChartView *self = HOB_CHART_VIEW (object);

  g_clear_handle_id (&self->refresh, g_source_remove);
  g_clear_pointer (&self->surface, cairo_surface_destroy);
  g_clear_pointer (&self->traces, g_array_unref);
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
  gtk_widget_class_set_css_name (widget_class, "chart");
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_IMG);
}

static void
hob_chart_view_init (HobChartView *self)
{
  GtkGesture *drag = gtk_gesture_drag_new ();
  GtkEventController *keys = gtk_event_controller_key_new ();

  self->memory = hob_chart_memory_new ();
  self->look = (HobLook){ HOB_THEME_LIGHT, 1, 1 };
  gtk_widget_set_focusable (GTK_WIDGET (self), TRUE);
  gtk_widget_set_overflow (GTK_WIDGET (self), GTK_OVERFLOW_HIDDEN);
  gtk_accessible_update_property (GTK_ACCESSIBLE (self), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  _ ("Strip chart; left and right arrows move through time"), -1);
  g_signal_connect (drag, "drag-begin", G_CALLBACK (on_drag_begin), self);
  g_signal_connect (drag, "drag-update", G_CALLBACK (on_drag_update), self);
  g_signal_connect (keys, "key-pressed", G_CALLBACK (on_key), self);
  gtk_widget_add_controller (GTK_WIDGET (self), GTK_EVENT_CONTROLLER (drag));
  gtk_widget_add_controller (GTK_WIDGET (self), keys);
}
