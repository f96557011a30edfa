/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "window/style.h"

#define RESOURCE "/org/hobwright/Hobwright/style.css"
#define PORTAL "org.freedesktop.portal.Desktop"
#define PORTAL_PATH "/org/freedesktop/portal/desktop"
#define PORTAL_SETTINGS "org.freedesktop.portal.Settings"
#define APPEARANCE "org.freedesktop.appearance"
#define DPI_100 (96.0 * 1024.0) /* gtk-xft-dpi at text scale 1 */

struct _HobStyle
{
  GObject parent_instance;

  /*< owned >*/
  GtkCssProvider *rules, *colours;
  GDBusConnection *bus;
  GCancellable *cancellable;
  GtkSettings *settings; /* borrowed from the display */
  GdkDisplay *display;

  HobStyleChoice choice;
  gboolean system_dark; /* as the toolkit's settings had it at the start */
  gboolean portal_dark, portal_known;
  guint subscription;
  HobTheme theme;
  gboolean applied;
};

G_DEFINE_FINAL_TYPE (HobStyle, hob_style, G_TYPE_OBJECT)

enum
{
  CHANGED,
  N_SIGNALS
};
static guint signals[N_SIGNALS];

/* The names that the style sheet calls the roles by. */
static const char *const role_names[HOB_N_ROLES] = {
  [HOB_ROLE_SHEET] = "hob_sheet",     [HOB_ROLE_PANEL] = "hob_panel",
  [HOB_ROLE_INK] = "hob_ink",         [HOB_ROLE_INK2] = "hob_ink2",
  [HOB_ROLE_EDGE] = "hob_edge",       [HOB_ROLE_RULE] = "hob_rule",
  [HOB_ROLE_GAS] = "hob_gas",         [HOB_ROLE_HEAT] = "hob_heat",
  [HOB_ROLE_RING] = "hob_ring",       [HOB_ROLE_PENCIL] = "hob_pencil",
  [HOB_ROLE_CAUTION] = "hob_caution", [HOB_ROLE_TAG] = "hob_tag",
  [HOB_ROLE_TAG_INK] = "hob_tag_ink",
};

GdkRGBA
hob_widget_colour (GtkWidget *widget, HobRole role)
{
  GdkRGBA colour = { 0, 0, 0, 1 };

  if (role_names[role] != NULL)
    gtk_style_context_lookup_color (gtk_widget_get_style_context (widget), role_names[role],
                                    &colour);
  return colour;
}

void
hob_widget_follow_focus (GtkWidget *widget)
{
  g_signal_connect (widget, "notify::has-focus", G_CALLBACK (gtk_widget_queue_draw), NULL);
  g_signal_connect (widget, "state-flags-changed", G_CALLBACK (gtk_widget_queue_draw), NULL);
}

void
hob_widget_draw_focus (GtkWidget *widget, cairo_t *cr)
{
  GdkRGBA pencil = hob_widget_colour (widget, HOB_ROLE_PENCIL);

  gdk_cairo_set_source_rgba (cr, &pencil);
  cairo_set_line_width (cr, 2);
  cairo_rectangle (cr, 1, 1, gtk_widget_get_width (widget) - 2,
                   gtk_widget_get_height (widget) - 2);
  cairo_stroke (cr);
}

/* The toolkit's theme; as for the toolkit, a name in the environment goes first.
 * (transfer full) */
static char *
theme_name (HobStyle *self)
{
  const char *named = g_getenv ("GTK_THEME");
  char *name = NULL;

  if (named != NULL && *named != '\0')
    return g_strdup (named);
  g_object_get (self->settings, "gtk-theme-name", &name, NULL);
  return name != NULL ? name : g_strdup ("");
}

static gboolean
wants_contrast (HobStyle *self)
{
  g_autofree char *name = theme_name (self);

  return g_str_has_prefix (name, "HighContrast") || g_str_has_prefix (name, "Default-hc");
}

/* Some themes are dark by themselves. */
static gboolean
theme_is_dark (HobStyle *self)
{
  static const char *const endings[] = { "Inverse", "-dark", ":dark" };
  g_autofree char *name = theme_name (self);

  for (gsize k = 0; k < G_N_ELEMENTS (endings); k++)
    if (g_str_has_suffix (name, endings[k]))
      return TRUE;
  return FALSE;
}

static gboolean
is_dark (HobStyle *self)
{
  if (self->choice != HOB_STYLE_SYSTEM)
    return self->choice == HOB_STYLE_DARK;
  return theme_is_dark (self) || (self->portal_known ? self->portal_dark : self->system_dark);
}

static HobTheme
wanted_theme (HobStyle *self)
{
  if (wants_contrast (self))
    return is_dark (self) ? HOB_THEME_CONTRAST_DARK : HOB_THEME_CONTRAST_LIGHT;
  return is_dark (self) ? HOB_THEME_DARK : HOB_THEME_LIGHT;
}

static void
load_colours (HobStyle *self)
{
  g_autoptr (GString) css = g_string_new (NULL);

  for (int role = 0; role < HOB_N_ROLES; role++)
    {
      double rgb[3];

      if (role_names[role] == NULL)
        continue;
      hob_theme_colour (self->theme, role, rgb);
      g_string_append_printf (css, "@define-color %s #%02x%02x%02x;\n", role_names[role],
                              (guint)(rgb[0] * 255 + 0.5), (guint)(rgb[1] * 255 + 0.5),
                              (guint)(rgb[2] * 255 + 0.5));
    }
  gtk_css_provider_load_from_data (self->colours, css->str, (gssize)css->len);
}

/* Setting it, even to what it is, has the toolkit read its whole theme again. */
static void
prefer_dark (HobStyle *self)
{
  gboolean now;

  g_object_get (self->settings, "gtk-application-prefer-dark-theme", &now, NULL);
  if (now != is_dark (self))
    g_object_set (self->settings, "gtk-application-prefer-dark-theme", !now, NULL);
}

static void
apply (HobStyle *self)
{
  HobTheme theme = wanted_theme (self);

  if (!self->applied || theme != self->theme)
    {
      self->theme = theme;
      self->applied = TRUE;
      load_colours (self);
      prefer_dark (self);
    }
  g_signal_emit (self, signals[CHANGED], 0);
}

/* ---- The desktop's own choice ---- */

static void
take_scheme (HobStyle *self, GVariant *value)
{
  g_autoptr (GVariant) inner = g_variant_ref (value);

  while (g_variant_is_of_type (inner, G_VARIANT_TYPE_VARIANT))
    {
      GVariant *next = g_variant_get_variant (inner);

      g_variant_unref (inner);
      inner = next;
    }
  if (!g_variant_is_of_type (inner, G_VARIANT_TYPE_UINT32))
    return;
  self->portal_known = g_variant_get_uint32 (inner) != 0; /* 0: no preference */
  self->portal_dark = g_variant_get_uint32 (inner) == 1;
  apply (self);
}

static void
on_portal_changed (GDBusConnection *bus, const char *sender, const char *path,
                   const char *interface, const char *signal, GVariant *arguments, gpointer user)
{
  const char *space, *key;
  g_autoptr (GVariant) value = NULL;

  if (!g_variant_is_of_type (arguments, G_VARIANT_TYPE ("(ssv)")))
    return;
  g_variant_get (arguments, "(&s&s@v)", &space, &key, &value);
  if (g_str_equal (space, APPEARANCE) && g_str_equal (key, "color-scheme"))
    take_scheme (HOB_STYLE (user), value);
}

static void
on_portal_read (GObject *source, GAsyncResult *result, gpointer user)
{
  g_autoptr (GVariant) reply
      = g_dbus_connection_call_finish (G_DBUS_CONNECTION (source), result, NULL);
  g_autoptr (GVariant) value = NULL;

  if (reply == NULL) /* no portal, or we are gone */
    return;
  value = g_variant_get_child_value (reply, 0);
  take_scheme (HOB_STYLE (user), value);
}

static void
on_bus (GObject *source, GAsyncResult *result, gpointer user)
{
  g_autoptr (GDBusConnection) bus = g_bus_get_finish (result, NULL);
  g_autoptr (HobStyle) self = user;

  if (bus == NULL || self->cancellable == NULL)
    return;
  self->bus = g_steal_pointer (&bus);
  self->subscription = g_dbus_connection_signal_subscribe (
      self->bus, PORTAL, PORTAL_SETTINGS, "SettingChanged", PORTAL_PATH, APPEARANCE,
      G_DBUS_SIGNAL_FLAGS_NONE, on_portal_changed, self, NULL);
  g_dbus_connection_call (self->bus, PORTAL, PORTAL_PATH, PORTAL_SETTINGS, "Read",
                          g_variant_new ("(ss)", APPEARANCE, "color-scheme"),
                          G_VARIANT_TYPE ("(v)"), G_DBUS_CALL_FLAGS_NO_AUTO_START, 2000,
                          self->cancellable, on_portal_read, self);
}

/* ---- What others ask ---- */

void
hob_style_choose (HobStyle *self, HobStyleChoice choice)
{
  self->choice = choice;
  apply (self);
}

static double
text_scale (HobStyle *self)
{
  int dpi = -1;

  g_object_get (self->settings, "gtk-xft-dpi", &dpi, NULL);
  return dpi > 0 ? CLAMP (dpi / DPI_100, 0.75, 3.0) : 1.0;
}

HobLook
hob_style_look (HobStyle *self)
{
  return (HobLook){ self->theme, text_scale (self), 1.0 };
}

gboolean
hob_style_still (HobStyle *self)
{
  gboolean animations = TRUE;

  g_object_get (self->settings, "gtk-enable-animations", &animations, NULL);
  return !animations;
}

/* ---- GObject ---- */

static void
hob_style_dispose (GObject *object)
{
  HobStyle *self = HOB_STYLE (object);

  g_cancellable_cancel (self->cancellable);
  if (self->subscription != 0)
    g_dbus_connection_signal_unsubscribe (self->bus, self->subscription);
  self->subscription = 0;
  if (self->rules != NULL)
    gtk_style_context_remove_provider_for_display (self->display, GTK_STYLE_PROVIDER (self->rules));
  if (self->colours != NULL)
    gtk_style_context_remove_provider_for_display (self->display,
                                                   GTK_STYLE_PROVIDER (self->colours));
  g_clear_object (&self->rules);
  g_clear_object (&self->colours);
  g_clear_object (&self->bus);
  g_clear_object (&self->cancellable);
  G_OBJECT_CLASS (hob_style_parent_class)->dispose (object);
}

static void
hob_style_class_init (HobStyleClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = hob_style_dispose;
  signals[CHANGED] = g_signal_new ("changed", HOB_TYPE_STYLE, G_SIGNAL_RUN_LAST, 0, NULL, NULL,
                                   NULL, G_TYPE_NONE, 0);
}

static void
hob_style_init (HobStyle *self)
{
  self->cancellable = g_cancellable_new ();
  self->rules = gtk_css_provider_new ();
  self->colours = gtk_css_provider_new ();
}

HobStyle *
hob_style_new (GdkDisplay *display)
{
  HobStyle *self = g_object_new (HOB_TYPE_STYLE, NULL);

  self->display = display;
  self->settings = gtk_settings_get_for_display (display);
  g_object_get (self->settings, "gtk-application-prefer-dark-theme", &self->system_dark, NULL);
  gtk_css_provider_load_from_resource (self->rules, RESOURCE);
  apply (self);
  gtk_style_context_add_provider_for_display (display, GTK_STYLE_PROVIDER (self->colours),
                                              GTK_STYLE_PROVIDER_PRIORITY_APPLICATION);
  gtk_style_context_add_provider_for_display (display, GTK_STYLE_PROVIDER (self->rules),
                                              GTK_STYLE_PROVIDER_PRIORITY_APPLICATION);
  g_signal_connect_object (self->settings, "notify::gtk-theme-name", G_CALLBACK (apply), self,
                           G_CONNECT_SWAPPED);
  g_signal_connect_object (self->settings, "notify::gtk-xft-dpi", G_CALLBACK (apply), self,
                           G_CONNECT_SWAPPED);
  g_signal_connect_object (self->settings, "notify::gtk-enable-animations", G_CALLBACK (apply),
                           self, G_CONNECT_SWAPPED);
  g_bus_get (G_BUS_TYPE_SESSION, self->cancellable, on_bus, g_object_ref (self));
  return self;
}
