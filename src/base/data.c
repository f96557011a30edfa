/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/data.h"

/* An installed program is in PREFIX/bin and its data in PREFIX/share.  A program in a build folder
 * has a file beside it that names the top of that folder, "../.." say.  No path is compiled in:
 * whoever can change what is read here could as well replace the program itself.
 */
#define MARKER "build-root"

static const struct
{
  const char *installed, *built;
} folders[] = {
  [HOB_DATA_RANGES] = { "../share/hobwright/diagrams", "diagrams" },
  [HOB_DATA_FILES] = { "../share/hobwright", "data" },
  [HOB_DATA_SENTENCES] = { "../share/locale", "data/po" },
};

static char *
folder_of_program (void)
{
  g_autofree char *program = g_file_read_link ("/proc/self/exe", NULL);

  return program != NULL ? g_path_get_dirname (program) : g_strdup ("/usr/bin");
}

char *
hob_data_path (HobDataFolder folder, const char *name)
{
  g_autofree char *beside = folder_of_program (), *marker = NULL, *top = NULL, *path = NULL;

  g_return_val_if_fail (folder < G_N_ELEMENTS (folders), NULL);

  marker = g_build_filename (beside, MARKER, NULL);
  if (g_file_get_contents (marker, &top, NULL, NULL))
    path = g_build_filename (beside, g_strchomp (top), folders[folder].built, name, NULL);
  else
    path = g_build_filename (beside, folders[folder].installed, name, NULL);
  return g_canonicalize_filename (path, NULL);
}
