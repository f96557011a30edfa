/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

/* The real program from outside, as assistive tools have it: it is started, looked for on the
 * accessibility bus, pressed and closed. */

#include <atspi/atspi.h>
#include <gio/gio.h>

G_BEGIN_DECLS

G_DEFINE_AUTOPTR_CLEANUP_FUNC (AtspiAccessible, g_object_unref)
G_DEFINE_AUTOPTR_CLEANUP_FUNC (AtspiAction, g_object_unref)
G_DEFINE_AUTOPTR_CLEANUP_FUNC (AtspiSelection, g_object_unref)
G_DEFINE_AUTOPTR_CLEANUP_FUNC (AtspiStateSet, g_object_unref)
G_DEFINE_AUTOPTR_CLEANUP_FUNC (AtspiValue, g_object_unref)

#define OUTSIDE_PATIENCE 1200 /* naps: a minute, for slow builds on loaded machines */

extern const char *outside_program; /* what $HOB_WINDOW_PROGRAM names */

typedef struct
{
  GSubprocess *process;  /* owned */
  AtspiAccessible *root; /* owned */
} Outside;

void outside_init (int *argc, char ***argv);
Outside outside_start (const char *const *argv);
/* Closes the window, drops what was done, and waits for a good end. */
void outside_finish (Outside *p);

/* A short wait in which news from the program is taken in. */
void outside_nap (void);
/* The first below @node, or @node itself, of any name for NULL; NULL if there is none. (transfer
 * full) */
AtspiAccessible *outside_find (AtspiAccessible *node, AtspiRole role, const char *name);
/* The same, waited for. (transfer full) */
AtspiAccessible *outside_wait_find (AtspiAccessible *root, AtspiRole role, const char *name);
void outside_do_action (AtspiAccessible *node, const char *name);

G_END_DECLS
