/* SPDX-License-Identifier: GPL-3.0-or-later */

#include "renamed.h"

#include "base/hash.h"

#include <string.h>

GHashTable *
renamed_ids (const HobRange *range, guint64 seed)
{
  GHashTable *names = g_hash_table_new_full (g_str_hash, g_str_equal, NULL, g_free);

  for (int p = 0; p < range->n_parts; p++)
    g_hash_table_insert (
        names, range->parts[p].id,
        g_strdup_printf ("q%08x", (guint) (hob_hash_mix (seed, 1, (guint64) p) >> 32)));
  return names;
}

char *
renamed_word (GHashTable *names, const char *name, const char *ends)
{
  gsize length = strcspn (name, ends);
  g_autofree char *id = g_strndup (name, length);
  const char *to = g_hash_table_lookup (names, id);

  return to != NULL ? g_strconcat (to, name + length, NULL) : g_strdup (name);
}

static gboolean
rename_attribute (const GMatchInfo *match, GString *out, gpointer user)
{
  g_autofree char *attribute = g_match_info_fetch (match, 1),
                  *value = g_match_info_fetch (match, 2);
  g_autofree char *to = renamed_word (user, value, ".");

  g_string_append_printf (out, " %s=\"%s\"", attribute, to);
  return FALSE;
}

HobRange *
renamed_range (const char *text, GHashTable *names)
{
  g_autofree char *other = NULL;
  g_autoptr (GRegex) regex = g_regex_new (" (id|in|moved-by|from|to)=\"([^\"]*)\"", 0, 0, NULL);
  g_autoptr (GError) error = NULL;
  HobRange *range;

  other = g_regex_replace_eval (regex, text, -1, 0, 0, rename_attribute, names, NULL);
  range = hob_range_load_memory (other, strlen (other), "renamed.xml", NULL, &error);
  g_assert_no_error (error);
  return range;
}

HobCase *
renamed_case (const HobCase *c, const HobRange *other, GHashTable *names)
{
  HobCase *to = hob_case_new (other);
  g_autoptr (GError) error = NULL;

  for (guint i = 0; i < c->acts->len; i++)
    {
      const HobAct *act = &g_array_index (c->acts, HobAct, i);
      g_autofree char *text = hob_act_text (c->range, act),
                      *name = renamed_word (names, text, ".:=");

      if (act->what == HOB_ACT_CONTROL)
        {
          g_autofree char *word = g_strdup_printf ("%d.%03ds %s", (int) (act->ms / 1000),
                                                   (int) (act->ms % 1000), name);

          hob_case_do (to, word, &error);
        }
      else if (act->what == HOB_ACT_SETTING)
        hob_case_setting (to, name, &error);
      else
        hob_case_fault (to, name, &error);
      g_assert_no_error (error);
    }
  to->seed = c->seed;
  return to;
}
