/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "window/kept-look.h"

#include "base/write-file.h"
#include "window/window-private.h"

#define GROUP "look"
#define LARGEST 16384 /* px */

static char *
path (void)
{
  return g_build_filename (g_get_user_config_dir (), "hobwright", "window.ini", NULL);
}

static GKeyFile *
load (void)
{
  GKeyFile *file = g_key_file_new ();
  g_autofree char *name = path ();

  g_key_file_load_from_file (file, name, G_KEY_FILE_NONE, NULL);
  return file;
}

/* A look that cannot be kept is no reason to bother anybody. */
static void
save (GKeyFile *file)
{
  g_autofree char *name = path (), *folder = g_path_get_dirname (name);
  gsize size;
  g_autofree char *text = g_key_file_to_data (file, &size, NULL);

  if (g_mkdir_with_parents (folder, 0700) == 0)
    hob_write_file (name, text, size, NULL);
}

char *
hob_kept_look_theme (void)
{
  g_autoptr (GKeyFile) file = load ();

  return g_key_file_get_string (file, GROUP, "theme", NULL);
}

void
hob_kept_look_set_theme (const char *theme)
{
  g_autoptr (GKeyFile) file = load ();

  g_key_file_set_string (file, GROUP, "theme", theme);
  save (file);
}

static gboolean
is_open (GKeyFile *file, const char *key)
{
  return !g_key_file_has_key (file, GROUP, key, NULL)
         || g_key_file_get_boolean (file, GROUP, key, NULL);
}

/* One of the speeds that the window has. */
static gboolean
is_speed (double speed)
{
  for (int k = 0; hob_window_speeds[k] > 0; k++)
    if (hob_window_speeds[k] == speed)
      return TRUE;
  return FALSE;
}

void
hob_window_restore_look (HobWindow *self)
{
  g_autoptr (GKeyFile) file = load ();
  int w = g_key_file_get_integer (file, GROUP, "width", NULL),
      h = g_key_file_get_integer (file, GROUP, "height", NULL);
  double speed = g_key_file_get_double (file, GROUP, "pace", NULL);

  if (w > 0 && h > 0 && w <= LARGEST && h <= LARGEST)
    gtk_window_set_default_size (GTK_WINDOW (self), w, h);
  if (g_key_file_get_boolean (file, GROUP, "maximized", NULL))
    gtk_window_maximize (GTK_WINDOW (self));
  self->wants_front = is_open (file, "front");
  self->wants_details = is_open (file, "details");
  if (is_speed (speed))
    hob_session_set_speed (self->session, speed);
}

void
hob_window_keep_look (HobWindow *self)
{
  g_autoptr (GKeyFile) file = load ();
  int w, h;

  gtk_window_get_default_size (GTK_WINDOW (self), &w, &h);
  g_key_file_set_integer (file, GROUP, "width", w);
  g_key_file_set_integer (file, GROUP, "height", h);
  g_key_file_set_boolean (file, GROUP, "maximized", gtk_window_is_maximized (GTK_WINDOW (self)));
  g_key_file_set_boolean (file, GROUP, "front", self->wants_front);
  g_key_file_set_boolean (file, GROUP, "details", self->wants_details);
  g_key_file_set_double (file, GROUP, "pace", hob_session_speed (self->session));
  save (file);
}
