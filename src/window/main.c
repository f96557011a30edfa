/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/i18n.h"
#include "window/app.h"

#include <locale.h>

int
main (int argc, char **argv)
{
  g_autoptr (HobApp) app = NULL;

  setlocale (LC_ALL, "");
  hob_bind_sentences ();
  app = hob_app_new ();
  return g_application_run (G_APPLICATION (app), argc, argv);
}
