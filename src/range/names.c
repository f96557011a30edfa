/* SPDX-License-Identifier: GPL-3.0-or-later */

/* Names in the person's language.  A file keeps a person's own words; the names of the shipped
 * ranges, and the labels that their parts have, are in the catalogs (data/its/range.its), and any
 * file that uses the same words gets them. */

#include "range/range.h"
#include "base/i18n.h"

static const char *
translated (const char *context, const char *words)
{
  return *words == '\0' ? words : g_dpgettext2 (GETTEXT_PACKAGE, context, words);
}

const char *
hob_part_label (const HobPart *part)
{
  g_return_val_if_fail (part != NULL, NULL);
  return translated ("part label", part->label);
}

const char *
hob_range_name (const HobRange *range)
{
  g_return_val_if_fail (range != NULL, NULL);
  return translated ("range name", range->name);
}

const char *
hob_range_note (const HobRange *range)
{
  g_return_val_if_fail (range != NULL, NULL);
  return translated ("range note", range->note);
}
