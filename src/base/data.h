/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

/* The files that come with the program, found from where the running program is. */
typedef enum
{
  HOB_DATA_RANGES,    /* the ranges that are shipped */
  HOB_DATA_FILES,     /* symptoms.xml and its grammar */
  HOB_DATA_SENTENCES, /* catalogs of translations, as bindtextdomain () wants them */
} HobDataFolder;

/* Path of @name in @folder, or of the folder itself if @name is NULL.  (transfer full) */
char *hob_data_path (HobDataFolder folder, const char *name);

G_END_DECLS
