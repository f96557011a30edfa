/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "window/sequence-bar.h"

#include "base/i18n.h"
#include "sheet/pen-cairo.h"
#include "sheet/sequence-line.h"
#include "window/style.h"
#include "window/words.h"

#include <math.h>

#define REFRESH_US 200000 /* it is read anew five times a second at most */

struct _HobSequenceBar
{
  GtkWidget parent_instance;

  /*< owned >*/
  HobSession *session;
  GArray *entries; /* HobSequenceEntry; NULL: not yet read */

  HobLook look;

  /*< cached >*/
  cairo_surface_t *surface; /* of these entries; NULL: none */
  HobType *type;            /* its words are mostly those of the time before; NULL: none */
  gint64 read_at;           /* µs */
  double known;             /* s up to which it was known then what a normal range does */
  guint refresh;            /* timeout that reads what came too soon after the last time */
  guint ahead;              /* idle that computes what a normal range does next */
};

G_DEFINE_FINAL_TYPE (HobSequenceBar, hob_sequence_bar, GTK_TYPE_WIDGET)

enum
{
  WENT,
  N_SIGNALS
};
static guint signals[N_SIGNALS];

static HobSequenceLine
line_of (HobSequenceBar *self)
{
  return (HobSequenceLine){ .entries = self->entries,
                            .run = hob_session_bench (self->session)->run,
                            .look = &self->look,
                            .w = gtk_widget_get_width (GTK_WIDGET (self)),
                            .strip = TRUE };
}

const GArray *
hob_sequence_bar_entries (HobSequenceBar *self)
{
  return self->entries;
}

gboolean
hob_sequence_bar_find (HobSequenceBar *self, int entry, double *x, double *y)
{
  HobSequenceLine line = line_of (self);

  return self->entries != NULL && hob_sequence_line_find (&line, entry, x, y);
}

/* ---- Reading ---- */

/* What is ringed, for those who don't see it. */
static void
describe (HobSequenceBar *self)
{
  const HobRun *run = hob_session_bench (self->session)->run;
  g_autoptr (GString) text = g_string_new (NULL);

  for (guint k = 0; k < self->entries->len; k++)
    {
      const HobSequenceEntry *e = &g_array_index (self->entries, HobSequenceEntry, k);
      g_autofree char *words = NULL, *figures = NULL;

      if (!hob_sequence_is_ringed (e))
        continue;
      words = hob_sequence_words (run, e);
      figures = hob_sequence_figures (run, e);
      g_string_append_printf (text, "%s%s; %s", text->len > 0 ? ". " : "", words, figures);
    }
  gtk_accessible_update_property (GTK_ACCESSIBLE (self), GTK_ACCESSIBLE_PROPERTY_DESCRIPTION,
                                  text->str, -1);
}

static gboolean on_ahead (gpointer user);

static double
known_until (HobSequenceBar *self)
{
  return hob_run_reached (hob_bench_twin (hob_session_bench (self->session)));
}

static void
read_sequence (HobSequenceBar *self)
{
  g_clear_handle_id (&self->refresh, g_source_remove);
  g_clear_pointer (&self->entries, g_array_unref);
  g_clear_pointer (&self->surface, cairo_surface_destroy);
  self->entries = hob_session_sequence (self->session);
  self->read_at = g_get_monotonic_time ();
  self->known = known_until (self);
  if (self->ahead == 0)
    self->ahead = g_idle_add_full (G_PRIORITY_LOW, on_ahead, self, NULL);
  describe (self);
  gtk_widget_queue_draw (GTK_WIDGET (self));
}

static gboolean
on_refresh (gpointer user)
{
  HobSequenceBar *self = user;

  self->refresh = 0;
  read_sequence (self);
  return G_SOURCE_REMOVE;
}

static void
refresh_soon (HobSequenceBar *self)
{
  if (self->refresh == 0)
    self->refresh = g_timeout_add (REFRESH_US / 1000, on_refresh, self);
}

static gboolean
on_ahead (gpointer user)
{
  HobSequenceBar *self = user;

  if (hob_session_look_ahead (self->session))
    return G_SOURCE_CONTINUE;
  self->ahead = 0;
  /* While it runs, it is read again anyway. */
  if (!hob_session_running (self->session) && known_until (self) > self->known)
    refresh_soon (self);
  return G_SOURCE_REMOVE;
}

/* On hold, what is shown is what is: at once. */
static void
on_moved (HobSequenceBar *self)
{
  if (hob_session_running (self->session)
      && g_get_monotonic_time () - self->read_at < REFRESH_US)
    refresh_soon (self);
  else
    read_sequence (self);
}

/* What was read is of another range, whose parts this one hasn't. */
static void
on_opened (HobSequenceBar *self)
{
  g_clear_pointer (&self->entries, g_array_unref);
  g_clear_pointer (&self->surface, cairo_surface_destroy);
  self->read_at = 0;
}

/* ---- Drawing ---- */

static void
draw_surface (HobSequenceBar *self)
{
  double w = gtk_widget_get_width (GTK_WIDGET (self)),
         h = gtk_widget_get_height (GTK_WIDGET (self));
  int scale = gtk_widget_get_scale_factor (GTK_WIDGET (self));
  HobSequenceLine line = line_of (self);
  cairo_t *cr;
  HobPen *pen;

  if (self->type == NULL)
    self->type = hob_type_new (&self->look);
  hob_type_set_look (self->type, &self->look);
  self->surface = cairo_image_surface_create (CAIRO_FORMAT_RGB24, (int) w * scale,
                                              (int) h * scale);
  cairo_surface_set_device_scale (self->surface, scale, scale);
  cr = cairo_create (self->surface);
  hob_sheet_ground (cr, w, h, &self->look);
  pen = hob_cairo_pen_new_with (cr, &self->look, self->type, NULL);
  hob_sequence_line_draw (pen, self->type, &line);
  pen_segment (pen, 0, h - 0.5, w, h - 0.5);
  pen_stroke (pen, HOB_ROLE_RULE, 1);
  hob_cairo_pen_free (pen);
  cairo_destroy (cr);
}

static void
hob_sequence_bar_snapshot (GtkWidget *widget, GtkSnapshot *snapshot)
{
  HobSequenceBar *self = HOB_SEQUENCE_BAR (widget);
  float w = (float) gtk_widget_get_width (widget), h = (float) gtk_widget_get_height (widget);
  cairo_t *cr;

  if (self->entries == NULL || w <= 0 || h <= 0)
    return;
  if (self->surface == NULL)
    draw_surface (self);
  cr = gtk_snapshot_append_cairo (snapshot, &GRAPHENE_RECT_INIT (0, 0, w, h));
  cairo_set_source_surface (cr, self->surface, 0, 0);
  cairo_paint (cr);
  if (gtk_widget_has_visible_focus (widget))
    hob_widget_draw_focus (widget, cr);
  cairo_destroy (cr);
}

static void
hob_sequence_bar_measure (GtkWidget *widget, GtkOrientation orientation, int for_size,
                          int *minimum, int *natural, int *minimum_baseline,
                          int *natural_baseline)
{
  HobSequenceBar *self = HOB_SEQUENCE_BAR (widget);
  int h = (int) hob_sequence_strip_height (&self->look);

  *minimum = orientation == GTK_ORIENTATION_HORIZONTAL ? 320 : h;
  *natural = orientation == GTK_ORIENTATION_HORIZONTAL ? 1000 : h;
  *minimum_baseline = *natural_baseline = -1;
}

static void
hob_sequence_bar_size_allocate (GtkWidget *widget, int width, int height, int baseline)
{
  g_clear_pointer (&HOB_SEQUENCE_BAR (widget)->surface, cairo_surface_destroy);
}

/* ---- Going there ---- */

/* The first whole millisecond that shows it: when it was done, or when it should have been. */
static gint64
ms_of (const HobSequenceEntry *e)
{
  HobEvent event = { .t = isnan (e->done) ? e->due : e->done };

  return hob_event_ms (&event);
}

static void
go_to (HobSequenceBar *self, int entry)
{
  HobSequenceEntry e = g_array_index (self->entries, HobSequenceEntry, (guint) entry);

  hob_session_go (self->session, ms_of (&e));
  hob_session_choose (self->session, e.part, -1);
  g_signal_emit (self, signals[WENT], 0, e.part);
}

static void
on_drag_begin (GtkGestureDrag *drag, double x, double y, HobSequenceBar *self)
{
  HobSequenceLine line = line_of (self);
  int entry = self->entries != NULL ? hob_sequence_line_hit (&line, x, y) : -1;

  gtk_widget_grab_focus (GTK_WIDGET (self));
  if (entry >= 0)
    go_to (self, entry);
}

/* The entry before the time looked at, or after it; −1: none. */
static int
neighbor (HobSequenceBar *self, gboolean after)
{
  gint64 now = hob_session_ms (self->session);
  int found = -1;

  for (int k = 0; k < (int) self->entries->len; k++)
    {
      gint64 ms = ms_of (&g_array_index (self->entries, HobSequenceEntry, (guint) k));

      if (after && ms > now)
        return k;
      if (!after && ms < now)
        found = k;
    }
  return found;
}

static gboolean
on_key (GtkEventControllerKey *keys, guint key, guint code, GdkModifierType held,
        HobSequenceBar *self)
{
  int entry;

  if (key != GDK_KEY_Left && key != GDK_KEY_Right)
    return FALSE;
  entry = self->entries != NULL ? neighbor (self, key == GDK_KEY_Right) : -1;
  if (entry >= 0)
    go_to (self, entry);
  return TRUE;
}

static gboolean
on_query_tooltip (GtkWidget *widget, int x, int y, gboolean keyboard, GtkTooltip *tooltip,
                  gpointer user)
{
  HobSequenceBar *self = HOB_SEQUENCE_BAR (widget);
  HobSequenceLine line = line_of (self);
  int entry = self->entries != NULL && !keyboard ? hob_sequence_line_hit (&line, x, y) : -1;
  g_autofree char *when = NULL, *text = NULL;

  if (entry < 0)
    return FALSE;
  when = hob_clock_text (ms_of (&g_array_index (self->entries, HobSequenceEntry, (guint) entry)));
  /* Translators: a time. */
  text = g_strdup_printf (_ ("Go to %s and select the part"), when);
  gtk_tooltip_set_text (tooltip, text);
  return TRUE;
}

/* ---- Joining in ---- */

void
hob_sequence_bar_set_session (HobSequenceBar *self, HobSession *session)
{
  self->session = g_object_ref (session);
  g_signal_connect_object (session, "opened", G_CALLBACK (on_opened), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (session, "moved", G_CALLBACK (on_moved), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (session, "pace", G_CALLBACK (on_moved), self, G_CONNECT_SWAPPED);
  if (hob_session_range (session) != NULL)
    read_sequence (self);
}

void
hob_sequence_bar_set_look (HobSequenceBar *self, HobLook look)
{
  self->look = look;
  g_clear_pointer (&self->surface, cairo_surface_destroy);
  gtk_widget_queue_resize (GTK_WIDGET (self));
}

static void
hob_sequence_bar_dispose (GObject *object)
{
  HobSequenceBar *self = HOB_SEQUENCE_BAR (object);

  g_clear_handle_id (&self->refresh, g_source_remove);
  g_clear_handle_id (&self->ahead, g_source_remove);
  g_clear_pointer (&self->surface, cairo_surface_destroy);
  g_clear_pointer (&self->type, hob_type_free);
  g_clear_pointer (&self->entries, g_array_unref);
  g_clear_object (&self->session);
  G_OBJECT_CLASS (hob_sequence_bar_parent_class)->dispose (object);
}

static void
hob_sequence_bar_class_init (HobSequenceBarClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = hob_sequence_bar_dispose;
  widget_class->snapshot = hob_sequence_bar_snapshot;
  widget_class->measure = hob_sequence_bar_measure;
  widget_class->size_allocate = hob_sequence_bar_size_allocate;
  gtk_widget_class_set_css_name (widget_class, "sequence");
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_IMG);
  signals[WENT] = g_signal_new ("went", HOB_TYPE_SEQUENCE_BAR, G_SIGNAL_RUN_LAST, 0, NULL, NULL,
                                NULL, G_TYPE_NONE, 1, G_TYPE_INT);
}

static void
hob_sequence_bar_init (HobSequenceBar *self)
{
  GtkGesture *drag = gtk_gesture_drag_new ();
  GtkEventController *keys = gtk_event_controller_key_new ();

  self->look = (HobLook){ HOB_THEME_LIGHT, 1, 1 };
  gtk_widget_set_focusable (GTK_WIDGET (self), TRUE);
  hob_widget_follow_focus (GTK_WIDGET (self));
  gtk_widget_set_has_tooltip (GTK_WIDGET (self), TRUE);
  gtk_widget_set_overflow (GTK_WIDGET (self), GTK_OVERFLOW_HIDDEN);
  gtk_accessible_update_property (
      GTK_ACCESSIBLE (self), GTK_ACCESSIBLE_PROPERTY_LABEL,
      _ ("Sequence of operation; use the Left and Right Arrow keys to move from entry to "
         "entry"), -1);
  g_signal_connect (drag, "drag-begin", G_CALLBACK (on_drag_begin), self);
  g_signal_connect (keys, "key-pressed", G_CALLBACK (on_key), self);
  g_signal_connect (self, "query-tooltip", G_CALLBACK (on_query_tooltip), NULL);
  gtk_widget_add_controller (GTK_WIDGET (self), GTK_EVENT_CONTROLLER (drag));
  gtk_widget_add_controller (GTK_WIDGET (self), keys);
}
