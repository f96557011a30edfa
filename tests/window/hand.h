/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

/* A hand for tests of the window: real pointer and keys by way of the X server, waits with an end,
 * pictures. */

#include "window/app.h"
#include "window/window.h"
#include <X11/keysym.h>

/* Runs the main loop until @condition; after 60 s the test fails and says for what it waited. */
#define WAIT_FOR(condition)                                                                        \
  G_STMT_START                                                                                     \
  {                                                                                                \
    HobPatience *patience_ = hob_patience_new ();                                                  \
    while (!(condition))                                                                           \
      hob_patience_wait (patience_, #condition);                                                   \
    hob_patience_free (patience_);                                                                 \
  }                                                                                                \
  G_STMT_END

typedef struct _HobPatience HobPatience;
HobPatience *hob_patience_new (void);
void hob_patience_wait (HobPatience *patience, const char *what);
void hob_patience_free (HobPatience *patience);

void hand_sleep (guint ms);           /* the loop runs on */
void hand_settle (GtkWidget *widget); /* a frame has been drawn and nothing is pending */

void hand_move (GtkWidget *widget, double x, double y);
void hand_button (GtkWidget *widget, int button, gboolean down);
void hand_click (GtkWidget *widget, double x, double y);
void hand_click_middle (GtkWidget *widget);
void hand_key (GtkWidget *widget, guint keysym, guint modifier); /* modifier: keysym or 0 */
void hand_type (GtkWidget *widget, const char *text);            /* ASCII */
/* The same into GTK's file dialog, which loses a name for each completion that it thinks of: what
 * is lost meanwhile is not looked for. */
void hand_type_path (GtkWidget *dialog, const char *path);
/* What the toolkit loses between these two is not looked for; not for what ours does. */
void hand_look_away (void);
void hand_look_again (void);
void hand_scroll (GtkWidget *widget, gboolean up, guint modifier);

/* The first widget of a type, and label if not NULL, below @root; NULL: none. */
GtkWidget *hand_find (GtkWidget *root, GType type, const char *label);

/* Clicks the middle of the first button with that label that is on the screen. */
void hand_click_button (GtkWidget *root, const char *label);
/* The open window of that type; waits for it. */
GtkWidget *hand_wait_window (GType type);

/* The application, of which the test's windows are. (transfer full) */
HobApp *hand_app (int *argc, char ***argv);
/* A window on a shipped range, held at 0 s, before it is shown. */
HobWindow *hand_window (HobApp *app, const char *range, int width, int height);
/* The same at its real size on the screen. */
HobWindow *hand_open (HobApp *app, const char *range, int width, int height);
/* Does @what to a fault, control or setting ("oven.mode") at the end of what has happened. */
void hand_act (HobWindow *window, HobActWhat what, const char *name, double value);
/* dial-four with a weak igniter from the start, bake, and @ms gone by. */
HobWindow *hand_open_weak (HobApp *app, int width, int height, gint64 ms);
/* A part by its id; fails if there is none. */
int hand_part (HobWindow *window, const char *id);
/* Closes it and fails if anything still holds it or its session. */
void hand_close (HobWindow *window);

void hand_picture (GtkWidget *widget, const char *name); /* into the build folder */
void hand_screen (const char *name); /* the whole screen, with what pops up over windows */
GdkTexture *hand_texture (GtkWidget *widget);            /* (transfer full) */
