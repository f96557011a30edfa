/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

/* The one table of keys: what an action does, in words, and the keys that do it. */

#include <gtk/gtk.h>

G_BEGIN_DECLS

typedef struct
{
  const char *action;  /* "win.run", "win.sheet::gas" */
  const char *words;   /* N_(): the tooltip */
  const char *keys[4]; /* as gtk_accelerator_parse () reads them; NULL-ended */
  gboolean plain;      /* without Ctrl, Alt or F: what has focus comes first */
} HobKeys;

extern const HobKeys hob_keys[]; /* ended by an action that is NULL */

/* "Run or pause (Space)" for a widget that activates @action; NULL: the table hasn't it. */
char *hob_keys_tooltip (const char *action);
/* Puts tooltips on all buttons below @root that have an action. */
void hob_keys_add_tooltips (GtkWidget *root);

G_END_DECLS
