/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "window/why-bar.h"

#include "base/i18n.h"
#include "sheet/pen-cairo.h"
#include "sheet/why-line.h"
#include "window/session.h"
#include "window/style.h"

#define LEAST_W 320

struct _HobWhyBar
{
  GtkWidget parent_instance;

  /*< owned >*/
  GPtrArray *chains; /* HobWhy; NULL: none */
  HobRange *range;

  const HobSymptom *symptom; /* borrowed */
  HobLook look;
  int at; /* the entry that was gone to last; −1: none */
};

G_DEFINE_FINAL_TYPE (HobWhyBar, hob_why_bar, GTK_TYPE_WIDGET)

enum
{
  WENT,
  N_SIGNALS
};
static guint signals[N_SIGNALS];

static HobWhyLine
line_of (HobWhyBar *self)
{
  return (HobWhyLine){ self->chains, self->range, self->symptom, &self->look,
                       gtk_widget_get_width (GTK_WIDGET (self)) };
}

int
hob_why_bar_size (HobWhyBar *self)
{
  HobWhyLine line = line_of (self);

  return self->chains != NULL ? hob_why_line_size (&line) : 0;
}

/* The first whole millisecond that shows it. */
void
hob_why_bar_get (HobWhyBar *self, int entry, int *part, gint64 *ms)
{
  HobWhyLine line = line_of (self);
  HobEvent event = { 0 };

  hob_why_line_get (&line, entry, part, &event.t);
  *ms = hob_event_ms (&event);
}

void
hob_why_bar_find (HobWhyBar *self, int entry, double *x, double *y)
{
  HobWhyLine line = line_of (self);

  hob_why_line_find (&line, entry, x, y);
}

/* ---- Showing ---- */

/* All of it, for those who don't see it. */
static void
describe (HobWhyBar *self)
{
  g_autoptr (GString) text = g_string_new (NULL);
  HobWhyLine line = line_of (self);

  for (int k = 0; k < hob_why_bar_size (self); k++)
    {
      g_autofree char *words = hob_why_line_words (&line, k);

      g_string_append_printf (text, "%s%s", k > 0 ? " " : "", words);
    }
  gtk_accessible_update_property (GTK_ACCESSIBLE (self), GTK_ACCESSIBLE_PROPERTY_DESCRIPTION,
                                  text->str, -1);
}

void
hob_why_bar_show (HobWhyBar *self, GPtrArray *chains, HobRange *range, const HobSymptom *symptom)
{
  g_clear_pointer (&self->chains, g_ptr_array_unref);
  g_clear_pointer (&self->range, hob_range_unref);
  self->chains = chains != NULL ? g_ptr_array_ref (chains) : NULL;
  self->range = chains != NULL ? hob_range_ref (range) : NULL;
  self->symptom = symptom;
  self->at = -1;
  describe (self);
  gtk_widget_queue_resize (GTK_WIDGET (self));
}

void
hob_why_bar_set_look (HobWhyBar *self, HobLook look)
{
  self->look = look;
  gtk_widget_queue_resize (GTK_WIDGET (self));
}

static void
hob_why_bar_snapshot (GtkWidget *widget, GtkSnapshot *snapshot)
{
  HobWhyBar *self = HOB_WHY_BAR (widget);
  float w = (float) gtk_widget_get_width (widget), h = (float) gtk_widget_get_height (widget);
  g_autoptr (HobType) type = hob_type_new (&self->look);
  HobWhyLine line = line_of (self);
  cairo_t *cr;
  HobPen *pen;

  if (self->chains == NULL || w <= 0 || h <= 0)
    return;
  cr = gtk_snapshot_append_cairo (snapshot, &GRAPHENE_RECT_INIT (0, 0, w, h));
  hob_sheet_ground (cr, (double) w, (double) h, &self->look);
  pen = hob_cairo_pen_new_with (cr, &self->look, type, NULL);
  hob_why_line_draw (pen, type, &line);
  hob_cairo_pen_free (pen);
  if (gtk_widget_has_visible_focus (widget))
    hob_widget_draw_focus (widget, cr);
  cairo_destroy (cr);
}

static GtkSizeRequestMode
hob_why_bar_request_mode (GtkWidget *widget)
{
  return GTK_SIZE_REQUEST_HEIGHT_FOR_WIDTH;
}

static void
hob_why_bar_measure (GtkWidget *widget, GtkOrientation orientation, int for_size, int *minimum,
                     int *natural, int *minimum_baseline, int *natural_baseline)
{
  HobWhyBar *self = HOB_WHY_BAR (widget);
  HobWhyLine line = line_of (self);

  *minimum_baseline = *natural_baseline = -1;
  *minimum = *natural = LEAST_W;
  if (orientation == GTK_ORIENTATION_HORIZONTAL)
    return;
  line.w = MAX (for_size, LEAST_W);
  *minimum = *natural = self->chains != NULL ? (int) hob_why_line_height (&line) : 0;
}

/* ---- Going there ---- */

static void
go_to (HobWhyBar *self, int entry)
{
  self->at = entry;
  g_signal_emit (self, signals[WENT], 0, entry);
}

static void
on_drag_begin (GtkGestureDrag *drag, double x, double y, HobWhyBar *self)
{
  HobWhyLine line = line_of (self);
  int entry = self->chains != NULL ? hob_why_line_hit (&line, x, y) : -1;

  gtk_widget_grab_focus (GTK_WIDGET (self));
  if (entry >= 0)
    go_to (self, entry);
}

static gboolean
on_key (GtkEventControllerKey *keys, guint key, guint code, GdkModifierType held, HobWhyBar *self)
{
  int to = self->at + (key == GDK_KEY_Right ? 1 : -1);

  if (key != GDK_KEY_Left && key != GDK_KEY_Right)
    return FALSE;
  if (to >= 0 && to < hob_why_bar_size (self))
    go_to (self, to);
  return TRUE;
}

/* ---- GObject ---- */

static void
hob_why_bar_dispose (GObject *object)
{
  HobWhyBar *self = HOB_WHY_BAR (object);

  g_clear_pointer (&self->chains, g_ptr_array_unref);
  g_clear_pointer (&self->range, hob_range_unref);
  G_OBJECT_CLASS (hob_why_bar_parent_class)->dispose (object);
}

static void
hob_why_bar_class_init (HobWhyBarClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = hob_why_bar_dispose;
  widget_class->snapshot = hob_why_bar_snapshot;
  widget_class->measure = hob_why_bar_measure;
  widget_class->get_request_mode = hob_why_bar_request_mode;
  gtk_widget_class_set_css_name (widget_class, "why");
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_IMG);
  signals[WENT] = g_signal_new ("went", HOB_TYPE_WHY_BAR, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL,
                                G_TYPE_NONE, 1, G_TYPE_INT);
}

static void
hob_why_bar_init (HobWhyBar *self)
{
  GtkGesture *drag = gtk_gesture_drag_new ();
  GtkEventController *keys = gtk_event_controller_key_new ();

  self->look = (HobLook){ HOB_THEME_LIGHT, 1, 1 };
  self->at = -1;
  gtk_widget_set_focusable (GTK_WIDGET (self), TRUE);
  hob_widget_follow_focus (GTK_WIDGET (self));
  gtk_widget_set_overflow (GTK_WIDGET (self), GTK_OVERFLOW_HIDDEN);
  gtk_accessible_update_property (
      GTK_ACCESSIBLE (self), GTK_ACCESSIBLE_PROPERTY_LABEL,
      _ ("From the cause to the symptom; use the Left and Right Arrow keys to move from entry to "
         "entry"), -1);
  g_signal_connect (drag, "drag-begin", G_CALLBACK (on_drag_begin), self);
  g_signal_connect (keys, "key-pressed", G_CALLBACK (on_key), self);
  gtk_widget_add_controller (GTK_WIDGET (self), GTK_EVENT_CONTROLLER (drag));
  gtk_widget_add_controller (GTK_WIDGET (self), keys);
}
