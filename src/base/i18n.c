/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/i18n.h"
#include "base/data.h"

void
hob_bind_sentences (void)
{
  g_autofree char *catalogs = hob_data_path (HOB_DATA_SENTENCES, NULL);

  bindtextdomain (GETTEXT_PACKAGE, catalogs);
  bind_textdomain_codeset (GETTEXT_PACKAGE, "UTF-8");
  textdomain (GETTEXT_PACKAGE);
}
