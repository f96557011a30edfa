/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "window/sheet-view.h"

#include "base/i18n.h"
#include "window/menus.h"
#include "window/sheet-hover.h"
#include "window/style.h"
#include "window/walk.h"

#include <math.h>

#define ZOOM_LEAST 0.2
#define ZOOM_MOST 4.0
#define ZOOM_STEP 1.25
#define PAPER_MARGIN 160 /* px drawn beyond the view, so that panning blits */
#define KEY_PAN 60.0
#define LARGE_TEXT 1.25  /* scale */
#define CLICK_REACH 4.0 /* px: a press that moves further is a pan */

/* How one sheet is looked at. */
typedef struct
{
  gboolean fit;
  double zoom;
  double x, y; /* sheet px at the widget's corner */
} Frame;

struct _HobSheetPlace
{
  HobSheet sheet;
  Frame frames[HOB_N_SHEETS];
};

/* The still layer, drawn once: a rectangle of the sheet (px × zoom) on an image. */
typedef struct
{
  cairo_surface_t *surface;
  HobSheet sheet;
  HobLook look; /* zoom included */
  int scale;
  double x, y, w, h; /* sheet px */
  double room[4];    /* that its title had, sheet px */
} Paper;

struct _HobSheetView
{
  GtkWidget parent_instance;

  /*< owned >*/
  HobSession *session;
  Paper paper;
  HobSheetMemory *memory; /* NULL: no range is open */

  HobSheet sheet;
  Frame frames[HOB_N_SHEETS];
  HobLook look;
  gboolean still;
  double clock;
  double pan_x, pan_y; /* the corner when the drag began */
  gboolean panned;
  double pointer_x, pointer_y;
  guint say_frame; /* idle: another size has changed the zoom */
};

G_DEFINE_FINAL_TYPE (HobSheetView, hob_sheet_view, GTK_TYPE_WIDGET)

enum
{
  FRAMED,
  ASKED,
  N_SIGNALS
};
static guint signals[N_SIGNALS];

static const char *const sheet_names[HOB_N_SHEETS]
    = { N_ ("Wiring sheet"), N_ ("Gas sheet"), N_ ("Cutaway sheet") };

static Frame *
frame (HobSheetView *self)
{
  return &self->frames[self->sheet];
}

static void
size (HobSheetView *self, double *w, double *h)
{
  *w = gtk_widget_get_width (GTK_WIDGET (self));
  *h = gtk_widget_get_height (GTK_WIDGET (self));
}

static void
drop_paper (HobSheetView *self)
{
  g_clear_pointer (&self->paper.surface, cairo_surface_destroy);
  gtk_widget_queue_draw (GTK_WIDGET (self));
}

/* ---- The frame ---- */

static void
bounds (HobSheetView *self, double box[4])
{
  hob_sheet_memory_bounds (self->memory, self->sheet, box);
  box[2] = fmax (box[2], 1);
  box[3] = fmax (box[3], 1);
}

static void
refit (HobSheetView *self)
{
  Frame *f = frame (self);
  double w, h, view[4];

  if (!f->fit || self->session == NULL)
    return;
  size (self, &w, &h);
  if (w <= 0 || h <= 0)
    return;
  f->zoom = hob_sheet_memory_fit (self->memory, self->sheet, &self->look, w, h, view);
  hob_sheet_memory_set_view (self->memory, self->sheet, f->zoom, view);
  f->x = view[0];
  f->y = view[1];
}

/* Something of the sheet always stays in the middle of the view. */
static void
keep_in_view (HobSheetView *self)
{
  Frame *f = frame (self);
  double box[4], w, h;

  bounds (self, box);
  size (self, &w, &h);
  f->x = CLAMP (f->x, box[0] - w / 2 / f->zoom, box[0] + box[2] - w / 2 / f->zoom);
  f->y = CLAMP (f->y, box[1] - h / 2 / f->zoom, box[1] + box[3] - h / 2 / f->zoom);
}

static void
framed (HobSheetView *self)
{
  gtk_widget_queue_draw (GTK_WIDGET (self));
  g_signal_emit (self, signals[FRAMED], 0);
}

static void
zoom_about (HobSheetView *self, double factor, double x, double y)
{
  Frame *f = frame (self);
  double zoom = CLAMP (f->zoom * factor, fmin (ZOOM_LEAST, f->zoom), ZOOM_MOST);

  f->fit = FALSE;
  f->x += x / f->zoom - x / zoom;
  f->y += y / f->zoom - y / zoom;
  f->zoom = zoom;
  keep_in_view (self);
  framed (self);
}

void
hob_sheet_view_zoom_by (HobSheetView *self, double factor)
{
  double w, h;

  size (self, &w, &h);
  zoom_about (self, factor, w / 2, h / 2);
}

void
hob_sheet_view_fit (HobSheetView *self)
{
  frame (self)->fit = TRUE;
  refit (self);
  framed (self);
}

gboolean
hob_sheet_view_fits (HobSheetView *self)
{
  return frame (self)->fit;
}

double
hob_sheet_view_zoom (HobSheetView *self)
{
  return frame (self)->zoom;
}

HobSheet
hob_sheet_view_sheet (HobSheetView *self)
{
  return self->sheet;
}

static void
say_name (HobSheetView *self)
{
  g_autofree char *name = g_strdup_printf ("%s, %s", _ (sheet_names[self->sheet]),
                                           hob_session_range (self->session)->name);

  gtk_accessible_update_property (GTK_ACCESSIBLE (self), GTK_ACCESSIBLE_PROPERTY_LABEL, name, -1);
}

void
hob_sheet_view_show (HobSheetView *self, HobSheet sheet)
{
  self->sheet = sheet;
  refit (self);
  say_name (self);
  framed (self);
}

HobSheetPlace *
hob_sheet_view_place (HobSheetView *self)
{
  HobSheetPlace *place = g_new (HobSheetPlace, 1);

  place->sheet = self->sheet;
  memcpy (place->frames, self->frames, sizeof place->frames);
  return place;
}

void
hob_sheet_view_return (HobSheetView *self, const HobSheetPlace *place)
{
  memcpy (self->frames, place->frames, sizeof self->frames);
  hob_sheet_view_show (self, place->sheet);
}

void
hob_sheet_view_to_widget (HobSheetView *self, double sheet_x, double sheet_y, double *x, double *y)
{
  *x = (sheet_x - frame (self)->x) * frame (self)->zoom;
  *y = (sheet_y - frame (self)->y) * frame (self)->zoom;
}

void
hob_sheet_view_middle_of (HobSheetView *self, int part, double *x, double *y)
{
  const HobPart *p = part >= 0 ? &hob_session_range (self->session)->parts[part] : NULL;

  size (self, x, y);
  *x /= 2;
  *y /= 2;
  if (p != NULL && p->at[self->sheet].placed)
    hob_sheet_view_to_widget (self, p->at[self->sheet].x, p->at[self->sheet].y, x, y);
}

void
hob_sheet_view_to_sheet (HobSheetView *self, double x, double y, double *sheet_x, double *sheet_y)
{
  *sheet_x = frame (self)->x + x / frame (self)->zoom;
  *sheet_y = frame (self)->y + y / frame (self)->zoom;
}

/* ---- Drawing ---- */

static HobLook
zoomed_look (HobSheetView *self)
{
  HobLook look = self->look;

  look.zoom = frame (self)->zoom;
  return look;
}

/* The part of the sheet that is in view, never more than there is, which may be beside its bounds
 * where the view is wider: x, y, w, h in sheet px. */
static void
visible (HobSheetView *self, double margin, double view[4])
{
  const Frame *f = frame (self);
  HobLook look = zoomed_look (self);
  double box[4], room[4], w, h, right, bottom;

  bounds (self, box);
  hob_sheet_memory_room (self->memory, self->sheet, &look, room);
  size (self, &w, &h);
  view[0] = fmax (f->x - margin / f->zoom, fmin (box[0] - HOB_FIT_MARGIN, room[0]));
  view[1] = fmax (f->y - margin / f->zoom, fmin (box[1] - HOB_FIT_MARGIN, room[1]));
  right = fmin (f->x + (w + margin) / f->zoom,
                fmax (box[0] + box[2] + HOB_FIT_MARGIN, room[0] + room[2]));
  bottom = fmin (f->y + (h + margin) / f->zoom,
                 fmax (box[1] + box[3] + HOB_FIT_MARGIN, room[1] + room[3]));
  view[2] = fmax (right - view[0], 1 / f->zoom);
  view[3] = fmax (bottom - view[1], 1 / f->zoom);
}

static gboolean
paper_serves (HobSheetView *self, const HobLook *look)
{
  const Paper *p = &self->paper;
  double view[4], room[4];

  hob_sheet_memory_room (self->memory, self->sheet, look, room);
  if (p->surface == NULL || p->sheet != self->sheet || p->look.theme != look->theme
      || p->look.zoom != look->zoom || p->look.text_scale != look->text_scale
      || memcmp (p->room, room, sizeof room) != 0
      || p->scale != gtk_widget_get_scale_factor (GTK_WIDGET (self)))
    return FALSE;
  visible (self, 0, view);
  return view[0] >= p->x - 1e-6 && view[1] >= p->y - 1e-6
         && view[0] + view[2] <= p->x + p->w + 1 / look->zoom
         && view[1] + view[3] <= p->y + p->h + 1 / look->zoom;
}

/* The paper's corner is on a whole pixel of the widget, so that it is copied and not blurred. */
static void
draw_paper (HobSheetView *self, const HobLook *look)
{
  Paper *p = &self->paper;
  double view[4];
  int w, h;
  cairo_t *cr;

  visible (self, PAPER_MARGIN, view);
  g_clear_pointer (&p->surface, cairo_surface_destroy);
  p->sheet = self->sheet;
  p->look = *look;
  p->scale = gtk_widget_get_scale_factor (GTK_WIDGET (self));
  hob_sheet_memory_room (self->memory, self->sheet, look, p->room);
  w = (int)ceil (view[2] * look->zoom);
  h = (int)ceil (view[3] * look->zoom);
  p->x = view[0];
  p->y = view[1];
  p->w = w / look->zoom;
  p->h = h / look->zoom;
  p->surface = cairo_image_surface_create (CAIRO_FORMAT_RGB24, w * p->scale, h * p->scale);
  cairo_surface_set_device_scale (p->surface, p->scale, p->scale);
  cr = cairo_create (p->surface);
  hob_sheet_ground (cr, w, h, look);
  cairo_scale (cr, look->zoom, look->zoom);
  cairo_translate (cr, -p->x, -p->y);
  hob_sheet_draw_paper (cr, hob_session_range (self->session), self->sheet, look, self->memory);
  cairo_destroy (cr);
}

static void
append_ground (HobSheetView *self, GtkSnapshot *snapshot, double x0, double y0, double x1,
               double y1)
{
  GdkRGBA ground = hob_widget_colour (GTK_WIDGET (self), HOB_ROLE_SHEET);

  if (x1 > x0 && y1 > y0)
    gtk_snapshot_append_color (
        snapshot, &ground,
        &GRAPHENE_RECT_INIT ((float) x0, (float) y0, (float) (x1 - x0), (float) (y1 - y0)));
}

/* Where no paper is: to fill all of the view and cover most of it again costs a frame. */
static void
ground_around (HobSheetView *self, GtkSnapshot *snapshot, double w, double h)
{
  const Paper *p = &self->paper;
  double x, y, right, top, bottom;

  hob_sheet_view_to_widget (self, p->x, p->y, &x, &y);
  right = round (x) + cairo_image_surface_get_width (p->surface) / p->scale;
  bottom = round (y) + cairo_image_surface_get_height (p->surface) / p->scale;
  top = CLAMP (round (y), 0, h);
  bottom = CLAMP (bottom, 0, h);
  append_ground (self, snapshot, 0, 0, w, top);
  append_ground (self, snapshot, 0, bottom, w, h);
  append_ground (self, snapshot, 0, top, fmin (round (x), w), bottom);
  append_ground (self, snapshot, fmax (right, 0), top, w, bottom);
}

static void
blit_paper (HobSheetView *self, cairo_t *cr)
{
  double x, y;

  hob_sheet_view_to_widget (self, self->paper.x, self->paper.y, &x, &y);
  cairo_set_source_surface (cr, self->paper.surface, round (x), round (y));
  cairo_pattern_set_filter (cairo_get_source (cr), CAIRO_FILTER_NEAREST);
  cairo_paint (cr);
}

static void
draw_state (HobSheetView *self, cairo_t *cr, const HobLook *look)
{
  HobScene *scene = hob_session_scene (self->session);

  scene->still = self->still || !hob_session_running (self->session);
  scene->clock = self->clock;
  scene->speed = hob_session_speed (self->session);
  cairo_save (cr);
  cairo_scale (cr, look->zoom, look->zoom);
  cairo_translate (cr, -frame (self)->x, -frame (self)->y);
  hob_sheet_draw_state (cr, scene, self->sheet, look, self->memory);
  cairo_restore (cr);
}

static void
hob_sheet_view_snapshot (GtkWidget *widget, GtkSnapshot *snapshot)
{
  HobSheetView *self = HOB_SHEET_VIEW (widget);
  graphene_rect_t area;
  double w, h;
  HobLook look;
  cairo_t *cr;

  if (self->session == NULL)
    return;
  size (self, &w, &h);
  area = GRAPHENE_RECT_INIT (0, 0, (float)w, (float)h);
  look = zoomed_look (self);
  if (!paper_serves (self, &look))
    draw_paper (self, &look);

  ground_around (self, snapshot, w, h);
  cr = gtk_snapshot_append_cairo (snapshot, &area);
  blit_paper (self, cr);
  draw_state (self, cr, &look);
  if (gtk_widget_has_visible_focus (widget))
    hob_widget_draw_focus (widget, cr);
  cairo_destroy (cr);
}

void
hob_sheet_view_tick (HobSheetView *self, double wall)
{
  if (!self->still)
    self->clock += wall;
}

/* ---- Hands ---- */

static void
on_scroll_zoom (HobSheetView *self, double dy)
{
  zoom_about (self, pow (ZOOM_STEP, -dy), self->pointer_x, self->pointer_y);
}

static void
pan_to (HobSheetView *self, double x, double y)
{
  Frame *f = frame (self);

  f->fit = FALSE;
  f->x = x;
  f->y = y;
  keep_in_view (self);
  framed (self);
}

static gboolean
on_scroll (GtkEventControllerScroll *scroll, double dx, double dy, HobSheetView *self)
{
  GdkModifierType held
      = gtk_event_controller_get_current_event_state (GTK_EVENT_CONTROLLER (scroll));
  Frame *f = frame (self);

  if ((held & GDK_CONTROL_MASK) != 0)
    on_scroll_zoom (self, dy);
  else if ((held & GDK_SHIFT_MASK) != 0)
    pan_to (self, f->x + KEY_PAN * dy / f->zoom, f->y + KEY_PAN * dx / f->zoom);
  else
    pan_to (self, f->x + KEY_PAN * dx / f->zoom, f->y + KEY_PAN * dy / f->zoom);
  return TRUE;
}

static void
on_motion (GtkEventControllerMotion *motion, double x, double y, HobSheetView *self)
{
  self->pointer_x = x;
  self->pointer_y = y;
}

static void
on_drag_begin (GtkGestureDrag *drag, double x, double y, HobSheetView *self)
{
  gtk_widget_grab_focus (GTK_WIDGET (self));
  self->pan_x = frame (self)->x;
  self->pan_y = frame (self)->y;
  self->panned = FALSE;
}

static void
on_drag_update (GtkGestureDrag *drag, double dx, double dy, HobSheetView *self)
{
  if (!self->panned && hypot (dx, dy) < CLICK_REACH)
    return;
  self->panned = TRUE;
  pan_to (self, self->pan_x - dx / frame (self)->zoom, self->pan_y - dy / frame (self)->zoom);
}

static void
choose_at (HobSheetView *self, double x, double y)
{
  int part, line;

  hob_sheet_view_to_sheet (self, x, y, &x, &y);
  hob_sheet_hit (self->memory, self->sheet, x, y, &part, &line);
  hob_session_choose (self->session, part, self->sheet == HOB_SHEET_WIRING && part < 0 ? line : -1);
}

static void
on_drag_end (GtkGestureDrag *drag, double dx, double dy, HobSheetView *self)
{
  double x, y;

  if (self->panned)
    return;
  gtk_gesture_drag_get_start_point (drag, &x, &y);
  choose_at (self, x, y);
}

static void
on_menu_click (GtkGestureClick *click, int n, double x, double y, HobSheetView *self)
{
  gtk_widget_grab_focus (GTK_WIDGET (self));
  choose_at (self, x, y);
  g_signal_emit (self, signals[ASKED], 0, x, y);
}

static gboolean
on_hover (GtkWidget *widget, int x, int y, gboolean by_key, GtkTooltip *tooltip, gpointer user)
{
  HobSheetView *self = HOB_SHEET_VIEW (widget);
  g_autofree char *text = NULL;
  double sheet_x, sheet_y;

  if (self->session == NULL)
    return FALSE;
  hob_sheet_view_to_sheet (self, x, y, &sheet_x, &sheet_y);
  text = hob_sheet_hover_text (self->session, self->memory, self->sheet, sheet_x, sheet_y);
  gtk_tooltip_set_text (tooltip, text);
  return text != NULL;
}

/* Along the lines of the sheet from what is chosen; FALSE: there is nothing to walk on. */
static gboolean
walk (HobSheetView *self, double dx, double dy)
{
  HobStand at = { hob_session_chosen_part (self->session),
                  hob_session_chosen_wire (self->session) };

  if (!hob_walk (hob_session_range (self->session), self->sheet, &at, dx, dy))
    return FALSE;
  hob_session_choose (self->session, at.part, at.line);
  return TRUE;
}

static gboolean
on_key (GtkEventControllerKey *keys, guint key, guint code, GdkModifierType held,
        HobSheetView *self)
{
  static const struct
  {
    guint key;
    double dx, dy;
  } pans[] = {
    { GDK_KEY_Left, -1, 0 },
    { GDK_KEY_Right, 1, 0 },
    { GDK_KEY_Up, 0, -1 },
    { GDK_KEY_Down, 0, 1 },
  };
  Frame *f = frame (self);

  if ((held & (GDK_CONTROL_MASK | GDK_ALT_MASK)) != 0)
    return FALSE;
  for (guint i = 0; i < G_N_ELEMENTS (pans); i++)
    if (pans[i].key == key)
      {
        if ((held & GDK_SHIFT_MASK) != 0 || !walk (self, pans[i].dx, pans[i].dy))
          pan_to (self, f->x + KEY_PAN * pans[i].dx / f->zoom,
                  f->y + KEY_PAN * pans[i].dy / f->zoom);
        return TRUE;
      }
  return FALSE;
}

/* ---- Joining in ---- */

static void
on_opened (HobSheetView *self)
{
  for (int i = 0; i < HOB_N_SHEETS; i++)
    self->frames[i] = (Frame){ TRUE, 1, 0, 0 };
  g_clear_pointer (&self->memory, hob_sheet_memory_free);
  if (hob_session_range (self->session) != NULL)
    self->memory = hob_sheet_memory_new (hob_session_range (self->session));
  drop_paper (self);
  refit (self);
  say_name (self);
  framed (self);
}

void
hob_sheet_view_set_session (HobSheetView *self, HobSession *session)
{
  self->session = g_object_ref (session);
  g_signal_connect_object (session, "opened", G_CALLBACK (on_opened), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (session, "moved", G_CALLBACK (gtk_widget_queue_draw), self,
                           G_CONNECT_SWAPPED);
  g_signal_connect_object (session, "chosen", G_CALLBACK (gtk_widget_queue_draw), self,
                           G_CONNECT_SWAPPED);
  g_signal_connect_object (session, "pace", G_CALLBACK (gtk_widget_queue_draw), self,
                           G_CONNECT_SWAPPED);
  on_opened (self);
}

void
hob_sheet_view_set_look (HobSheetView *self, HobLook look, gboolean still)
{
  self->look = look;
  self->still = still;
  drop_paper (self);
}

static gboolean
on_say_frame (gpointer user)
{
  HobSheetView *self = user;

  self->say_frame = 0;
  g_signal_emit (self, signals[FRAMED], 0);
  return G_SOURCE_REMOVE;
}

static void
hob_sheet_view_size_allocate (GtkWidget *widget, int width, int height, int baseline)
{
  HobSheetView *self = HOB_SHEET_VIEW (widget);

  hob_menus_allocate (widget);
  if (self->session == NULL)
    return;
  refit (self);
  if (!frame (self)->fit)
    keep_in_view (self);
  if (self->say_frame == 0)
    self->say_frame /* before the next frame */
        = g_idle_add_full (G_PRIORITY_HIGH_IDLE, on_say_frame, self, NULL);
}

static void
hob_sheet_view_measure (GtkWidget *widget, GtkOrientation orientation, int for_size, int *minimum,
                        int *natural, int *minimum_baseline, int *natural_baseline)
{
  const HobSheetView *self = HOB_SHEET_VIEW (widget);
  int least = self->look.text_scale > LARGE_TEXT ? 108 : 150; /* what is around it takes more */

  *minimum = orientation == GTK_ORIENTATION_HORIZONTAL ? 320 : least;
  *natural = orientation == GTK_ORIENTATION_HORIZONTAL ? 1000 : 600;
  *minimum_baseline = *natural_baseline = -1;
}

static void
hob_sheet_view_dispose (GObject *object)
{
  HobSheetView *self = HOB_SHEET_VIEW (object);

  g_clear_handle_id (&self->say_frame, g_source_remove);
  hob_menus_drop (GTK_WIDGET (self));
  g_clear_pointer (&self->paper.surface, cairo_surface_destroy);
  g_clear_pointer (&self->memory, hob_sheet_memory_free);
  g_clear_object (&self->session);
  G_OBJECT_CLASS (hob_sheet_view_parent_class)->dispose (object);
}

static void
hob_sheet_view_class_init (HobSheetViewClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = hob_sheet_view_dispose;
  widget_class->snapshot = hob_sheet_view_snapshot;
  widget_class->size_allocate = hob_sheet_view_size_allocate;
  widget_class->measure = hob_sheet_view_measure;
  gtk_widget_class_set_css_name (widget_class, "sheet");
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_IMG);
  signals[FRAMED] = g_signal_new ("framed", HOB_TYPE_SHEET_VIEW, G_SIGNAL_RUN_LAST, 0, NULL, NULL,
                                  NULL, G_TYPE_NONE, 0);
  signals[ASKED] = g_signal_new ("asked", HOB_TYPE_SHEET_VIEW, G_SIGNAL_RUN_LAST, 0, NULL, NULL,
                                 NULL, G_TYPE_NONE, 2, G_TYPE_DOUBLE, G_TYPE_DOUBLE);
}

static void
hob_sheet_view_init (HobSheetView *self)
{
  GtkWidget *widget = GTK_WIDGET (self);
  GtkGesture *drag = gtk_gesture_drag_new (), *menu = gtk_gesture_click_new ();
  GtkEventController *scroll
      = gtk_event_controller_scroll_new (GTK_EVENT_CONTROLLER_SCROLL_BOTH_AXES);
  GtkEventController *motion = gtk_event_controller_motion_new ();
  GtkEventController *keys = gtk_event_controller_key_new ();

  gtk_widget_set_focusable (widget, TRUE);
  hob_widget_follow_focus (widget);
  gtk_widget_set_overflow (widget, GTK_OVERFLOW_HIDDEN);
  for (int i = 0; i < HOB_N_SHEETS; i++)
    self->frames[i] = (Frame){ TRUE, 1, 0, 0 };
  self->look = (HobLook){ HOB_THEME_LIGHT, 1, 1 };

  gtk_gesture_single_set_button (GTK_GESTURE_SINGLE (menu), GDK_BUTTON_SECONDARY);
  gtk_widget_set_has_tooltip (widget, TRUE);
  g_signal_connect (widget, "query-tooltip", G_CALLBACK (on_hover), NULL);
  g_signal_connect (menu, "pressed", G_CALLBACK (on_menu_click), self);
  gtk_widget_add_controller (widget, GTK_EVENT_CONTROLLER (menu));
  g_signal_connect (drag, "drag-begin", G_CALLBACK (on_drag_begin), self);
  g_signal_connect (drag, "drag-update", G_CALLBACK (on_drag_update), self);
  g_signal_connect (drag, "drag-end", G_CALLBACK (on_drag_end), self);
  g_signal_connect (scroll, "scroll", G_CALLBACK (on_scroll), self);
  g_signal_connect (motion, "motion", G_CALLBACK (on_motion), self);
  g_signal_connect (keys, "key-pressed", G_CALLBACK (on_key), self);
  gtk_widget_add_controller (widget, GTK_EVENT_CONTROLLER (drag));
  gtk_widget_add_controller (widget, scroll);
  gtk_widget_add_controller (widget, motion);
  gtk_widget_add_controller (widget, keys);
}
