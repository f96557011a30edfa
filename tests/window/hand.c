/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "hand.h"

#include <X11/XKBlib.h>
#include <X11/extensions/XTest.h>
#include <gdk/x11/gdkx.h>
#include <string.h>

#define PATIENCE_S 60

/* Counted a second at a time: what stops the whole machine takes no more than one of them. */
struct _HobPatience
{
  int left_s;
  guint timer;
};

static gboolean
on_second (gpointer user)
{
  HobPatience *patience = user;

  patience->left_s--;
  return G_SOURCE_CONTINUE;
}

HobPatience *
hob_patience_new (void)
{
  HobPatience *patience = g_new0 (HobPatience, 1);

  patience->left_s = PATIENCE_S;
  patience->timer = g_timeout_add (1000, on_second, patience);
  return patience;
}

void
hob_patience_wait (HobPatience *patience, const char *what)
{
  if (patience->left_s <= 0)
    g_error ("waited in vain for: %s", what);
  g_main_context_iteration (NULL, TRUE);
}

void
hob_patience_free (HobPatience *patience)
{
  g_clear_handle_id (&patience->timer, g_source_remove);
  g_free (patience);
}

static gboolean
on_awake (gpointer user)
{
  *(gboolean *)user = TRUE;
  return G_SOURCE_REMOVE;
}

void
hand_sleep (guint ms)
{
  gboolean awake = FALSE;

  g_timeout_add (ms, on_awake, &awake);
  while (!awake)
    g_main_context_iteration (NULL, TRUE);
}

void
hand_settle (GtkWidget *widget)
{
  GdkFrameClock *clock = gtk_widget_get_frame_clock (widget);

  for (int i = 0; i < 2; i++)
    {
      gint64 before = gdk_frame_clock_get_frame_counter (clock);

      gtk_widget_queue_draw (widget);
      WAIT_FOR (gdk_frame_clock_get_frame_counter (clock) > before);
    }
}

/* ---- Pointer and keys ---- */

static Display *
display_of (GtkWidget *widget)
{
  return gdk_x11_display_get_xdisplay (gtk_widget_get_display (widget));
}

static void
to_root (GtkWidget *widget, double x, double y, int *root_x, int *root_y)
{
  GtkNative *native = gtk_widget_get_native (widget);
  GdkSurface *surface = gtk_native_get_surface (native);
  Display *display = display_of (widget);
  double native_x, native_y, shift_x, shift_y;
  Window child;

  g_assert_true (
      gtk_widget_translate_coordinates (widget, GTK_WIDGET (native), x, y, &native_x, &native_y));
  gtk_native_get_surface_transform (native, &shift_x, &shift_y);
  XTranslateCoordinates (display, gdk_x11_surface_get_xid (surface), DefaultRootWindow (display),
                         (int)(native_x + shift_x), (int)(native_y + shift_y), root_x, root_y,
                         &child);
}

void
hand_move (GtkWidget *widget, double x, double y)
{
  int root_x, root_y;

  to_root (widget, x, y, &root_x, &root_y);
  XTestFakeMotionEvent (display_of (widget), -1, root_x, root_y, CurrentTime);
  XSync (display_of (widget), False);
}

void
hand_button (GtkWidget *widget, int button, gboolean down)
{
  XTestFakeButtonEvent (display_of (widget), (guint)button, down, CurrentTime);
  XSync (display_of (widget), False);
}

void
hand_click (GtkWidget *widget, double x, double y)
{
  hand_move (widget, x, y);
  hand_button (widget, 1, TRUE);
  hand_button (widget, 1, FALSE);
  hand_sleep (30);
}

void
hand_click_middle (GtkWidget *widget)
{
  hand_click (widget, gtk_widget_get_width (widget) / 2.0, gtk_widget_get_height (widget) / 2.0);
}

void
hand_key (GtkWidget *widget, guint keysym, guint modifier)
{
  Display *display = display_of (widget);
  KeyCode key = XKeysymToKeycode (display, keysym);
  KeyCode held = modifier != 0 ? XKeysymToKeycode (display, modifier) : 0;

  if (held != 0)
    XTestFakeKeyEvent (display, held, True, CurrentTime);
  XTestFakeKeyEvent (display, key, True, CurrentTime);
  XTestFakeKeyEvent (display, key, False, CurrentTime);
  if (held != 0)
    XTestFakeKeyEvent (display, held, False, CurrentTime);
  XSync (display, False);
  hand_sleep (30);
}

void
hand_type (GtkWidget *widget, const char *text)
{
  Display *display = display_of (widget);

  for (const char *c = text; *c != '\0'; c++)
    {
      KeySym symbol = (KeySym) *c;
      KeyCode key = XKeysymToKeycode (display, symbol);

      hand_key (widget, (guint) symbol,
                XkbKeycodeToKeysym (display, key, 0, 0) == symbol ? 0 : XK_Shift_L);
    }
}

/* Of the leak sanitizer (<sanitizer/lsan_interface.h>), where there is one. */
extern void __lsan_disable (void) __attribute__ ((weak));
extern void __lsan_enable (void) __attribute__ ((weak));

void
hand_look_away (void)
{
  if (__lsan_disable != NULL)
    __lsan_disable ();
}

void
hand_look_again (void)
{
  if (__lsan_enable != NULL)
    __lsan_enable ();
}

void
hand_type_path (GtkWidget *dialog, const char *path)
{
  hand_look_away ();
  hand_type (dialog, path);
  hand_look_again ();
}

void
hand_scroll (GtkWidget *widget, gboolean up, guint modifier)
{
  Display *display = display_of (widget);
  KeyCode held = XKeysymToKeycode (display, modifier);

  XTestFakeKeyEvent (display, held, True, CurrentTime);
  hand_button (widget, up ? 4 : 5, TRUE);
  hand_button (widget, up ? 4 : 5, FALSE);
  XTestFakeKeyEvent (display, held, False, CurrentTime);
  XSync (display, False);
  hand_sleep (30);
}

/* ---- Windows ---- */

static gboolean
matches (GtkWidget *widget, GType type, const char *label)
{
  if (!g_type_is_a (G_OBJECT_TYPE (widget), type))
    return FALSE;
  if (label == NULL)
    return TRUE;
  if (GTK_IS_BUTTON (widget))
    return hand_find (widget, GTK_TYPE_LABEL, label) != NULL;
  return GTK_IS_LABEL (widget) && g_strcmp0 (gtk_label_get_text (GTK_LABEL (widget)), label) == 0;
}

GtkWidget *
hand_find (GtkWidget *root, GType type, const char *label)
{
  if (matches (root, type, label))
    return root;
  for (GtkWidget *child = gtk_widget_get_first_child (root); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    {
      GtkWidget *found = hand_find (child, type, label);

      if (found != NULL)
        return found;
    }
  return NULL;
}

static GtkWidget *
find_mapped_button (GtkWidget *root, const char *label)
{
  if (!gtk_widget_get_mapped (root))
    return NULL;
  if ((GTK_IS_BUTTON (root) || strcmp (G_OBJECT_TYPE_NAME (root), "GtkModelButton") == 0)
      && hand_find (root, GTK_TYPE_LABEL, label) != NULL)
    return root;
  for (GtkWidget *child = gtk_widget_get_first_child (root); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    {
      GtkWidget *found = find_mapped_button (child, label);

      if (found != NULL)
        return found;
    }
  return NULL;
}

void
hand_click_button (GtkWidget *root, const char *label)
{
  GtkWidget *button = NULL;

  WAIT_FOR ((button = find_mapped_button (root, label)) != NULL);
  hand_sleep (250); /* a popover has come to rest, however long its frames take */
  hand_settle (button);
  hand_click_middle (button);
}

static GtkWidget *
find_window (GType type)
{
  GListModel *windows = gtk_window_get_toplevels ();

  for (guint i = 0; i < g_list_model_get_n_items (windows); i++)
    {
      g_autoptr (GtkWidget) one = g_list_model_get_item (windows, i);

      if (g_type_is_a (G_OBJECT_TYPE (one), type) && gtk_widget_get_mapped (one))
        return one;
    }
  return NULL;
}

GtkWidget *
hand_wait_window (GType type)
{
  GtkWidget *window = NULL;

  WAIT_FOR ((window = find_window (type)) != NULL);
  return window;
}

HobApp *
hand_app (int *argc, char ***argv)
{
  g_autoptr (GError) error = NULL;
  HobApp *app;

  gtk_test_init (argc, argv, NULL);
  app = hob_app_new ();
  g_application_register (G_APPLICATION (app), NULL, &error);
  g_assert_no_error (error);
  return app;
}

HobWindow *
hand_window (HobApp *app, const char *range, int width, int height)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (HobSession) session = hob_session_new (&error);
  g_autofree char *file = hob_range_locate (range);
  g_autoptr (HobOpening) opening = hob_opening_new (file);
  HobWindow *window;

  g_assert_no_error (error);
  g_assert_nonnull (opening->range);
  hob_session_open (session, opening->range, NULL);
  hob_session_set_running (session, FALSE);
  window = hob_window_new (GTK_APPLICATION (app), session, hob_app_style (app));
  hob_window_show_opening (window, opening);
  gtk_window_set_default_size (GTK_WINDOW (window), width, height);
  return window;
}

HobWindow *
hand_open (HobApp *app, const char *range, int width, int height)
{
  HobWindow *window = hand_window (app, range, width, height);

  gtk_window_present (GTK_WINDOW (window));
  WAIT_FOR (gtk_widget_get_mapped (GTK_WIDGET (window))
            && gtk_widget_get_width (GTK_WIDGET (window)) > 0);
  hand_settle (GTK_WIDGET (window));
  /* Without a window manager the keys follow the pointer. */
  hand_move (GTK_WIDGET (window), gtk_widget_get_width (GTK_WIDGET (window)) / 2.0, 20);
  WAIT_FOR (gtk_window_is_active (GTK_WINDOW (window)));
  return window;
}

void
hand_act (HobWindow *window, HobActWhat what, const char *name, double value)
{
  HobSession *session = hob_window_session (window);
  const HobRange *range = hob_session_range (session);
  int part, index;

  g_assert_true (what == HOB_ACT_FAULT ? hob_range_find_fault (range, name, &part, &index, NULL)
                 : what == HOB_ACT_SETTING
                     ? hob_range_find_setting (range, name, &part, &index, NULL)
                     : hob_range_find_control (range, name, &part, &index, NULL));
  hob_session_act (session, what, part, index, value);
}

HobWindow *
hand_open_weak (HobApp *app, int width, int height, gint64 ms)
{
  HobWindow *window = hand_open (app, "dial-four", width, height);
  HobSession *session = hob_window_session (window);

  hand_act (window, HOB_ACT_FAULT, "igniter-bake:aged", 0.5);
  hand_act (window, HOB_ACT_CONTROL, "oven.mode", 1);
  hob_session_go (session, ms);
  WAIT_FOR (hob_session_ms (session) == ms && !hob_session_busy (session));
  return window;
}

int
hand_part (HobWindow *window, const char *id)
{
  int part = hob_range_part (hob_session_range (hob_window_session (window)), id);

  g_assert_cmpint (part, >=, 0);
  return part;
}

void
hand_close (HobWindow *window)
{
  /* On the stack, a sanitized build by gcc waits in vain for what has long been NULL. */
  static gpointer weak_window, weak_session;

  /* Until the toolkit has seen that a button is let go, it keeps what was pressed, and for good if
   * the window goes before. */
  if (gtk_widget_get_mapped (GTK_WIDGET (window)))
    hand_settle (GTK_WIDGET (window));
  weak_window = window;
  weak_session = hob_window_session (window);
  g_object_add_weak_pointer (G_OBJECT (window), &weak_window);
  g_object_add_weak_pointer (G_OBJECT (hob_window_session (window)), &weak_session);
  gtk_window_destroy (GTK_WINDOW (window));
  while (g_main_context_pending (NULL))
    g_main_context_iteration (NULL, FALSE);
  /* A thread ends its piece of work first. */
  WAIT_FOR (weak_window == NULL && weak_session == NULL);
}

/* NULL while a frame is due: the widget has no picture of itself then. */
static GskRenderNode *
node_of (GtkWidget *widget, int *w, int *h)
{
  g_autoptr (GdkPaintable) paintable = gtk_widget_paintable_new (widget);
  GtkSnapshot *snapshot = gtk_snapshot_new ();

  *w = gdk_paintable_get_intrinsic_width (paintable);
  *h = gdk_paintable_get_intrinsic_height (paintable);
  gdk_paintable_snapshot (paintable, snapshot, *w, *h);
  return gtk_snapshot_free_to_node (snapshot);
}

GdkTexture *
hand_texture (GtkWidget *widget)
{
  GskRenderNode *node = NULL;
  GdkTexture *texture;
  int w, h;

  WAIT_FOR ((node = node_of (widget, &w, &h)) != NULL);
  texture = gsk_renderer_render_texture (gtk_native_get_renderer (gtk_widget_get_native (widget)),
                                         node, &GRAPHENE_RECT_INIT (0, 0, (float)w, (float)h));
  gsk_render_node_unref (node);
  return texture;
}

/* Beside the test programs; by hand, among temporary files, never in the tree. (transfer full) */
static char *
picture_file (const char *name)
{
  const char *folder = g_getenv ("G_TEST_BUILDDIR");

  return g_build_filename (folder != NULL ? folder : g_get_tmp_dir (), name, NULL);
}

void
hand_picture (GtkWidget *widget, const char *name)
{
  g_autofree char *file = picture_file (name);
  g_autoptr (GdkTexture) texture = hand_texture (widget);

  g_assert_true (gdk_texture_save_to_png (texture, file));
  g_test_message ("picture: %s", file);
}

void
hand_screen (const char *name)
{
  g_autofree char *file = picture_file (name);
  const char *const argv[] = { "import", "-window", "root", file, NULL };
  g_autoptr (GError) error = NULL;
  g_autoptr (GSubprocess) import
      = g_subprocess_newv (argv, G_SUBPROCESS_FLAGS_STDERR_SILENCE, &error);

  g_assert_no_error (error);
  g_assert_true (g_subprocess_wait_check (import, NULL, &error));
  g_test_message ("picture: %s", file);
}
