/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/i18n.h"

/* A program that was built and not installed speaks from its build folder. */
static const char *
catalogues (void)
{
  return g_file_test (HOB_BUILD_LOCALEDIR, G_FILE_TEST_IS_DIR) ? HOB_BUILD_LOCALEDIR : HOB_LOCALEDIR;
}

void
hob_bind_sentences (void)
{
  bindtextdomain (GETTEXT_PACKAGE, catalogues ());
  bind_textdomain_codeset (GETTEXT_PACKAGE, "UTF-8");
  textdomain (GETTEXT_PACKAGE);
}
