/* SPDX-License-Identifier: GPL-3.0-or-later */

/* Cautions in what people read on a terminal: before everything else, each hazard once, in full. */
#include "cli/cli.h"

#include "base/i18n.h"

char *
hob_cautions_text (HobHazards now, HobHazards described)
{
  HobHazards shown = hob_hazards_shown_with (now, described);
  const char *make_safe = described != 0 ? hob_hazards_make_safe (now) : NULL;
  GString *out = g_string_new (NULL);

  for (int h = hob_hazards_next (shown, -1); h >= 0; h = hob_hazards_next (shown, h))
    {
      g_autofree char *text = hob_hazard_text (h, shown);

      /* Translators: the name of a caution, and what to do. */
      g_string_append_printf (out, _("%s: %s\n"), _(hob_hazards[h].name), text);
    }
  if (make_safe != NULL)
    g_string_append_printf (out, "%s\n", make_safe);
  if (out->len > 0)
    g_string_append_c (out, '\n');
  return g_string_free (out, FALSE);
}
