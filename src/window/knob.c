/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "window/knob.h"

#include "base/i18n.h"
#include "parts/say.h"
#include "window/style.h"

#include <math.h>

#define R HOB_KNOB_RADIUS
#define WORD_GAP 6.0
#define TOP (-G_PI / 2) /* the notch points up */
#define STEM_SWEEP (1.5 * G_PI)
#define DIAL_SWEEP (1.66 * G_PI)
#define SELECTOR_STEP (G_PI / 3)
#define DEAD_CENTRE 6.0 /* px: no angle is taken closer to the center */

typedef struct
{
  char *text;
  double value;
} Word;

struct _HobKnob
{
  GtkWidget parent_instance;

  /*< owned >*/
  GtkWidget *scale; /* child */
  GArray *words; /* Word */

  const HobControlDef *control; /* borrowed */
  double above, below,
      beside;        /* px from the disc's center to the farthest word, as last measured */
  double low, high;  /* of the scale: value, or the position's place in its list */
  double drag_angle; /* rad, the pointer's last */
  double drag_at;    /* where the drag has come to, before it is snapped */
  gboolean dragging, quiet;
};

G_DEFINE_FINAL_TYPE (HobKnob, hob_knob, GTK_TYPE_WIDGET)

enum
{
  TURN_BEGIN,
  TURNED,
  TURN_END,
  N_SIGNALS
};
static guint signals[N_SIGNALS];

/* ---- Values, places on the scale, angles ---- */

static int
count_positions (const HobControlDef *control)
{
  int n = 0;

  while (control->positions != NULL && control->positions[n].name != NULL)
    n++;
  return n;
}

static gboolean
is_selector (HobKnob *self)
{
  return self->control->dim == HOB_DIM_CHOICE;
}

static gboolean
is_stem (HobKnob *self)
{
  return self->control->dim == HOB_DIM_NUMBER;
}

static double
place_of (HobKnob *self, double value)
{
  if (!is_selector (self))
    return CLAMP (value, self->low, self->high);
  for (int i = 0; i <= (int)self->high; i++)
    if (self->control->positions[i].value == value)
      return i;
  return 0;
}

static double
value_of (HobKnob *self, double place)
{
  return is_selector (self) ? self->control->positions[(int)lround (place)].value : place;
}

/* rad on screen for one unit of place; stems turn to the left. */
static double
slope (HobKnob *self)
{
  if (is_selector (self))
    return fmin (SELECTOR_STEP, DIAL_SWEEP / self->high);
  return (is_stem (self) ? -STEM_SWEEP : DIAL_SWEEP) / (self->high - self->low);
}

static double
angle_of (HobKnob *self, double place)
{
  double start = is_stem (self) || is_selector (self) ? TOP : TOP - DIAL_SWEEP / 2;

  return start + (place - self->low) * slope (self);
}

static GtkAdjustment *
adjustment (HobKnob *self)
{
  return gtk_range_get_adjustment (GTK_RANGE (self->scale));
}

static double
place (HobKnob *self)
{
  return gtk_adjustment_get_value (adjustment (self));
}

double
hob_knob_value (HobKnob *self)
{
  return value_of (self, place (self));
}

static void
centre (HobKnob *self, double *x, double *y)
{
  *x = gtk_widget_get_width (GTK_WIDGET (self)) / 2.0;
  *y = (gtk_widget_get_height (GTK_WIDGET (self)) - self->above - self->below) / 2.0 + self->above;
}

void
hob_knob_point (HobKnob *self, double value, double r, double *x, double *y)
{
  double angle = angle_of (self, place_of (self, value));

  centre (self, x, y);
  *x += r * cos (angle);
  *y += r * sin (angle);
}

/* ---- Changes ---- */

static void
say_value (HobKnob *self)
{
  g_autofree char *text = hob_position_text (self->control, hob_knob_value (self));

  gtk_accessible_update_property (GTK_ACCESSIBLE (self->scale), GTK_ACCESSIBLE_PROPERTY_VALUE_TEXT,
                                  text, -1);
}

static void
on_value_changed (GtkAdjustment *source, HobKnob *self)
{
  say_value (self);
  gtk_widget_queue_draw (GTK_WIDGET (self));
  if (!self->quiet)
    g_signal_emit (self, signals[TURNED], 0, hob_knob_value (self));
}

static void
set_place (HobKnob *self, double to)
{
  if (is_selector (self))
    to = round (to);
  else if (is_stem (self))
    to = round (to * 10) / 10; /* no hand is finer, and the record stays readable */
  gtk_adjustment_set_value (adjustment (self), CLAMP (to, self->low, self->high));
}

void
hob_knob_set_value (HobKnob *self, double value)
{
  if (self->dragging)
    return;
  self->quiet = TRUE;
  set_place (self, place_of (self, value));
  self->quiet = FALSE;
}

static double
pointer_angle (HobKnob *self, double x, double y, double *r)
{
  double cx, cy;

  centre (self, &cx, &cy);
  *r = hypot (x - cx, y - cy);
  return atan2 (y - cy, x - cx);
}

static void
on_drag_begin (GtkGestureDrag *drag, double x, double y, HobKnob *self)
{
  double r;

  self->drag_angle = pointer_angle (self, x, y, &r);
  if (r > R + WORD_GAP)
    {
      gtk_gesture_set_state (GTK_GESTURE (drag), GTK_EVENT_SEQUENCE_DENIED);
      return;
    }
  gtk_gesture_set_state (GTK_GESTURE (drag), GTK_EVENT_SEQUENCE_CLAIMED);
  gtk_widget_grab_focus (self->scale);
  self->drag_at = place (self);
  self->dragging = TRUE;
  g_signal_emit (self, signals[TURN_BEGIN], 0);
}

static void
on_drag_update (GtkGestureDrag *drag, double dx, double dy, HobKnob *self)
{
  double x, y, angle, r;

  if (!self->dragging)
    return;
  gtk_gesture_drag_get_start_point (drag, &x, &y);
  angle = pointer_angle (self, x + dx, y + dy, &r);
  if (r < DEAD_CENTRE)
    return;
  self->drag_at += remainder (angle - self->drag_angle, 2 * G_PI) / slope (self);
  self->drag_at = CLAMP (self->drag_at, self->low, self->high);
  self->drag_angle = angle;
  set_place (self, self->drag_at);
}

static void
on_drag_end (GtkGestureDrag *drag, double dx, double dy, HobKnob *self)
{
  if (!self->dragging)
    return;
  self->dragging = FALSE;
  g_signal_emit (self, signals[TURN_END], 0);
}

/* The drag gesture lets go of what is outside the disc: a click on a word turns to it. */
static const Word *
word_at (HobKnob *self, guint i)
{
  return &g_array_index (self->words, Word, i);
}

static double
word_angle (HobKnob *self, const Word *word)
{
  return angle_of (self, place_of (self, word->value));
}

static void
on_click (GtkGestureClick *click, int n, double x, double y, HobKnob *self)
{
  double r, angle = pointer_angle (self, x, y, &r), nearest = G_PI / 6, to = -1;

  if (r <= R + WORD_GAP)
    return;
  for (guint i = 0; i < self->words->len; i++)
    {
      double away = fabs (remainder (word_angle (self, word_at (self, i)) - angle, 2 * G_PI));

      if (away < nearest)
        {
          nearest = away;
          to = place_of (self, word_at (self, i)->value);
        }
    }
  if (to < 0)
    return;
  gtk_widget_grab_focus (self->scale);
  set_place (self, to);
}

static gboolean
on_scroll (GtkEventControllerScroll *scroll, double dx, double dy, HobKnob *self)
{
  set_place (self, place (self) - dy * gtk_adjustment_get_step_increment (adjustment (self)));
  return TRUE;
}

/* ---- Drawing ---- */

static void
set_source (cairo_t *cr, GtkWidget *widget, HobRole role)
{
  GdkRGBA colour = hob_widget_colour (widget, role);

  gdk_cairo_set_source_rgba (cr, &colour);
}

static void
draw_tick (cairo_t *cr, HobKnob *self, double value)
{
  double angle = angle_of (self, place_of (self, value));

  cairo_move_to (cr, (R + 1) * cos (angle), (R + 1) * sin (angle));
  cairo_line_to (cr, (R + 5) * cos (angle), (R + 5) * sin (angle));
}

static void
draw_disc (cairo_t *cr, HobKnob *self)
{
  GtkWidget *widget = GTK_WIDGET (self);
  double angle = angle_of (self, place (self));

  cairo_arc (cr, 0, 0, R - 1, 0, 2 * G_PI);
  set_source (cr, widget, HOB_ROLE_SHEET);
  cairo_fill_preserve (cr);
  set_source (cr, widget, HOB_ROLE_INK);
  cairo_set_line_width (cr, 2);
  cairo_stroke (cr);

  for (guint i = 0; i < self->words->len; i++)
    draw_tick (cr, self, word_at (self, i)->value);
  cairo_set_line_width (cr, 1.5);
  cairo_stroke (cr);

  cairo_set_line_cap (cr, CAIRO_LINE_CAP_ROUND);
  cairo_move_to (cr, (R - 18) * cos (angle), (R - 18) * sin (angle));
  cairo_line_to (cr, (R - 5) * cos (angle), (R - 5) * sin (angle));
  cairo_set_line_width (cr, 5);
  cairo_stroke (cr);
}

static void
draw_focus (cairo_t *cr, HobKnob *self)
{
  set_source (cr, GTK_WIDGET (self), HOB_ROLE_PENCIL);
  cairo_set_line_width (cr, 2);
  cairo_arc (cr, 0, 0, R + 3, 0, 2 * G_PI);
  cairo_stroke (cr);
}

/* 11 px at text scale 1, never smaller; the words in capitals as printed on the front. */
static PangoLayout *
word_layout (HobKnob *self, const char *text, gboolean bold)
{
  PangoLayout *layout = gtk_widget_create_pango_layout (GTK_WIDGET (self), text);
  PangoFontDescription *font = pango_font_description_copy (
      pango_context_get_font_description (pango_layout_get_context (layout)));

  pango_font_description_set_size (font, (int)(8.25 * PANGO_SCALE)); /* points: 11 px at 96 dpi */
  pango_font_description_set_weight (font, bold ? PANGO_WEIGHT_BOLD : PANGO_WEIGHT_NORMAL);
  pango_layout_set_font_description (layout, font);
  pango_font_description_free (font);
  return layout;
}

/* The word's box touches a circle around the disc at the word's angle. */
static void
word_place (double angle, int w, int h, double *x, double *y)
{
  double c = cos (angle), s = sin (angle);

  *x = (R + WORD_GAP) * c + (c - 1) * w / 2.0;
  *y = (R + WORD_GAP) * s + (s - 1) * h / 2.0;
}

static void
draw_word (cairo_t *cr, HobKnob *self, const Word *word)
{
  gboolean here
      = fabs (place_of (self, word->value) - place (self)) < 1e-6 * (self->high - self->low);
  g_autoptr (PangoLayout) layout = word_layout (self, word->text, here);
  double x, y;
  int w, h;

  pango_layout_get_pixel_size (layout, &w, &h);
  word_place (angle_of (self, place_of (self, word->value)), w, h, &x, &y);
  set_source (cr, GTK_WIDGET (self), HOB_ROLE_INK);
  cairo_move_to (cr, x, y);
  pango_cairo_show_layout (cr, layout);
}

static void
hob_knob_snapshot (GtkWidget *widget, GtkSnapshot *snapshot)
{
  HobKnob *self = HOB_KNOB (widget);
  double x, y;
  cairo_t *cr = gtk_snapshot_append_cairo (
      snapshot, &GRAPHENE_RECT_INIT (0, 0, (float)gtk_widget_get_width (widget),
                                     (float)gtk_widget_get_height (widget)));

  centre (self, &x, &y);
  cairo_translate (cr, x, y);
  draw_disc (cr, self);
  for (guint i = 0; i < self->words->len; i++)
    draw_word (cr, self, word_at (self, i));
  if (gtk_widget_has_visible_focus (self->scale))
    draw_focus (cr, self);
  cairo_destroy (cr);
}

static void
measure_words (HobKnob *self)
{
  self->above = self->below = self->beside = R + WORD_GAP;
  for (guint i = 0; i < self->words->len; i++)
    {
      g_autoptr (PangoLayout) layout = word_layout (self, word_at (self, i)->text, TRUE);
      double x, y;
      int w, h;

      pango_layout_get_pixel_size (layout, &w, &h);
      word_place (word_angle (self, word_at (self, i)), w, h, &x, &y);
      self->beside = fmax (self->beside, fmax (-x, x + w));
      self->above = fmax (self->above, -y);
      self->below = fmax (self->below, y + h);
    }
}

/* The disc is centered from left to right; above and below it takes what its words take. */
static void
hob_knob_measure (GtkWidget *widget, GtkOrientation orientation, int for_size, int *minimum,
                  int *natural, int *minimum_baseline, int *natural_baseline)
{
  HobKnob *self = HOB_KNOB (widget);

  measure_words (self);
  if (orientation == GTK_ORIENTATION_HORIZONTAL)
    *minimum = 2 * (int)ceil (self->beside);
  else
    *minimum = (int)ceil (self->above + self->below);
  *natural = *minimum;
  *minimum_baseline = *natural_baseline = -1;
}

static void
hob_knob_size_allocate (GtkWidget *widget, int width, int height, int baseline)
{
  HobKnob *self = HOB_KNOB (widget);
  int least, natural, side = (int)(2 * R);
  GtkAllocation box;
  double x, y;

  centre (self, &x, &y);

  gtk_widget_measure (self->scale, GTK_ORIENTATION_HORIZONTAL, -1, &least, &natural, NULL, NULL);
  box.width = MAX (side, least);
  gtk_widget_measure (self->scale, GTK_ORIENTATION_VERTICAL, box.width, &least, &natural, NULL,
                      NULL);
  box.height = MAX (side, least);
  box.x = (int)x - box.width / 2;
  box.y = (int)y - box.height / 2;
  gtk_widget_size_allocate (self->scale, &box, -1);
}

/* ---- Construction ---- */

static void
add_word (HobKnob *self, char *text, double value)
{
  Word word = { text, value };

  g_array_append_val (self->words, word);
}

/* A dial's marks: every 100 °F, as it is printed here. */
static void
add_dial_words (HobKnob *self)
{
  double first = hob_convert (self->low, self->control->dim, HOB_UNITS_TRADE);
  double last = hob_convert (self->high, self->control->dim, HOB_UNITS_TRADE);
  double scale = (self->high - self->low) / (last - first);

  for (double mark = ceil (first / 100 - 1e-9) * 100; mark <= last + 1e-6; mark += 100)
    add_word (self, g_strdup_printf ("%.0f°", mark), self->low + (mark - first) * scale);
}

static void
add_words (HobKnob *self)
{
  for (int i = 0; i < count_positions (self->control); i++)
    {
      const HobPosition *position = &self->control->positions[i];
      const char *printed = position->words != NULL ? _ (position->words) : position->name;

      add_word (self, g_utf8_strup (printed, -1), position->value);
    }
  if (self->words->len == 0)
    add_dial_words (self);
}

static void
set_span (HobKnob *self)
{
  const HobControlDef *control = self->control;
  gboolean selector = is_selector (self);
  double step;

  self->low = selector ? 0 : control->low;
  self->high = selector ? count_positions (control) - 1 : control->high;
  if (selector)
    step = 1;
  else if (control->dim == HOB_DIM_TEMPERATURE)
    step = 5.0 * 5.0 / 9.0; /* 5 °F */
  else
    step = (self->high - self->low) / 100;
  gtk_adjustment_configure (adjustment (self), self->low, self->low, self->high, step,
                            selector ? 1 : 5 * step, 0);
}

GtkWidget *
hob_knob_new (const HobControlDef *control, const char *name)
{
  HobKnob *self = g_object_new (HOB_TYPE_KNOB, NULL);

  self->control = control;
  set_span (self);
  add_words (self);
  gtk_accessible_update_property (GTK_ACCESSIBLE (self->scale), GTK_ACCESSIBLE_PROPERTY_LABEL, name,
                                  -1);
  hob_knob_set_value (self, control->start);
  say_value (self);
  return GTK_WIDGET (self);
}

static void
hob_knob_dispose (GObject *object)
{
  HobKnob *self = HOB_KNOB (object);

  g_clear_pointer (&self->scale, gtk_widget_unparent);
  g_clear_pointer (&self->words, g_array_unref);
  G_OBJECT_CLASS (hob_knob_parent_class)->dispose (object);
}

static void
hob_knob_class_init (HobKnobClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = hob_knob_dispose;
  widget_class->snapshot = hob_knob_snapshot;
  widget_class->measure = hob_knob_measure;
  widget_class->size_allocate = hob_knob_size_allocate;
  gtk_widget_class_set_css_name (widget_class, "knob");
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_GROUP);
  signals[TURN_BEGIN] = g_signal_new ("turn-begin", HOB_TYPE_KNOB, G_SIGNAL_RUN_LAST, 0, NULL, NULL,
                                      NULL, G_TYPE_NONE, 0);
  signals[TURNED] = g_signal_new ("turned", HOB_TYPE_KNOB, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL,
                                  G_TYPE_NONE, 1, G_TYPE_DOUBLE);
  signals[TURN_END] = g_signal_new ("turn-end", HOB_TYPE_KNOB, G_SIGNAL_RUN_LAST, 0, NULL, NULL,
                                    NULL, G_TYPE_NONE, 0);
}

static void
clear_word (gpointer word)
{
  g_free (((Word *)word)->text);
}

static void
hob_knob_init (HobKnob *self)
{
  GtkGesture *drag = gtk_gesture_drag_new (), *click = gtk_gesture_click_new ();
  GtkEventController *scroll
      = gtk_event_controller_scroll_new (GTK_EVENT_CONTROLLER_SCROLL_VERTICAL);

  self->words = g_array_new (FALSE, FALSE, sizeof (Word));
  g_array_set_clear_func (self->words, clear_word);
  self->scale = gtk_scale_new (GTK_ORIENTATION_HORIZONTAL, NULL);
  gtk_scale_set_draw_value (GTK_SCALE (self->scale), FALSE);
  gtk_widget_set_can_target (self->scale, FALSE);
  gtk_widget_set_parent (self->scale, GTK_WIDGET (self));
  g_signal_connect_object (adjustment (self), "value-changed", G_CALLBACK (on_value_changed), self,
                           0);
  g_signal_connect_swapped (self->scale, "state-flags-changed", G_CALLBACK (gtk_widget_queue_draw),
                            self);

  g_signal_connect (drag, "drag-begin", G_CALLBACK (on_drag_begin), self);
  g_signal_connect (drag, "drag-update", G_CALLBACK (on_drag_update), self);
  g_signal_connect (drag, "drag-end", G_CALLBACK (on_drag_end), self);
  g_signal_connect (click, "pressed", G_CALLBACK (on_click), self);
  g_signal_connect (scroll, "scroll", G_CALLBACK (on_scroll), self);
  gtk_widget_add_controller (GTK_WIDGET (self), GTK_EVENT_CONTROLLER (drag));
  gtk_widget_add_controller (GTK_WIDGET (self), GTK_EVENT_CONTROLLER (click));
  gtk_widget_add_controller (GTK_WIDGET (self), scroll);
}
