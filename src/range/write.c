/* SPDX-License-Identifier: GPL-3.0-or-later */

/* Settings are changed in the file's own bytes: a serialiser would set quotes, line ends and the
 * space within tags its own way, and a person's diff would show it. */

#include "base/write-file.h"
#include "range/tree.h"

#include <string.h>

static const HobTag *
tag_at (const HobRangeTree *tree, int tag)
{
  return &g_array_index (tree->tags, HobTag, tag);
}

static int
find_set_tag (const HobRangeTree *tree, int part, int setting)
{
  for (guint i = 0; i < tree->sets->len; i++)
    {
      const HobSetTag *s = &g_array_index (tree->sets, HobSetTag, i);

      if (s->part == part && s->setting == setting)
        return s->tag;
    }
  return -1;
}

static void
replace_bytes (HobRangeTree *tree, gsize start, gsize end, const char *text)
{
  g_string_erase (tree->bytes, (gssize) start, (gssize) (end - start));
  g_string_insert (tree->bytes, (gssize) start, text);
  hob_tree_scan (tree);
}

static gboolean
replace_value (HobRangeTree *tree, int tag, const char *escaped)
{
  gsize start, end;

  if (!hob_tree_attribute (tree, tag, "value", &start, &end))
    return FALSE;
  replace_bytes (tree, start, end, escaped);
  return TRUE;
}

/* The line break and the blanks before @at, if nothing else is before it on its line; else "".
 * (transfer full) */
static char *
indentation (const HobRangeTree *tree, gsize at)
{
  const char *begin = tree->bytes->str, *p = begin + at;

  while (p > begin && (p[-1] == ' ' || p[-1] == '\t'))
    p--;
  if (p == begin || p[-1] != '\n')
    return g_strdup ("");
  p--;
  if (p > begin && p[-1] == '\r')
    p--;
  return g_strndup (p, (gsize) (begin + at - p));
}

/* A new <set> goes before the part's first child, on a line of its own where that has one; into an
 * empty part, on the part's line.  So the new tag is always the one behind the part's. */
static void
insert_set (HobRange *range, int part, int setting, const char *escaped)
{
  HobRangeTree *tree = range->tree;
  const char *name = range->parts[part].kind->settings[setting].name;
  int tag = tree->part_tags[part], child = tag + 1;
  HobSetTag place = { part, setting, child };
  const HobTag *own = tag_at (tree, tag);
  gboolean has_child = child < (int) tree->tags->len && tag_at (tree, child)->parent == tag;
  gboolean is_empty = tree->bytes->str[own->end - 2] == '/';
  g_autofree char *set = g_strdup_printf ("<set name=\"%s\" value=\"%s\"/>", name, escaped);

  for (guint i = 0; i < tree->sets->len; i++)
    g_array_index (tree->sets, HobSetTag, i).tag
        += g_array_index (tree->sets, HobSetTag, i).tag > tag;
  for (int i = 0; i < range->n_parts; i++)
    tree->part_tags[i] += tree->part_tags[i] > tag;
  g_array_append_val (tree->sets, place);
  if (has_child)
    {
      gsize at = tag_at (tree, child)->start;
      g_autofree char *space = indentation (tree, at), *text = g_strconcat (set, space, NULL);

      replace_bytes (tree, at, at, text);
    }
  else if (is_empty)
    {
      g_autofree char *text = g_strconcat (">", set, "</part>", NULL);

      replace_bytes (tree, own->end - 2, own->end, text);
    }
  else
    replace_bytes (tree, own->end, own->end, set);
}

gboolean
hob_range_set (HobRange *range, int part, int setting, const char *text, GError **error)
{
  const HobSettingDef *def;
  g_autofree char *trimmed = NULL, *escaped = NULL;
  double value;
  int tag;

  g_return_val_if_fail (range != NULL && text != NULL, FALSE);
  g_return_val_if_fail (part >= 0 && part < range->n_parts, FALSE);
  g_return_val_if_fail (setting >= 0 && setting < range->parts[part].kind->n_settings, FALSE);

  def = &range->parts[part].kind->settings[setting];
  if (!hob_setting_parse (def, text, &value, error))
    return FALSE;
  trimmed = g_strstrip (g_strdup (text));
  escaped = g_markup_escape_text (trimmed, -1);
  tag = find_set_tag (range->tree, part, setting);
  if (tag < 0 || !replace_value (range->tree, tag, escaped))
    insert_set (range, part, setting, escaped);
  range->parts[part].set[setting] = value;
  return TRUE;
}

gboolean
hob_range_save (HobRange *range, const char *file, GError **error)
{
  g_return_val_if_fail (range != NULL && file != NULL, FALSE);

  return hob_write_file (file, range->tree->bytes->str, range->tree->bytes->len, error);
}

HobRange *
hob_range_copy (const HobRange *range, GError **error)
{
  const GString *bytes = range->tree->bytes;

  return hob_range_load_memory (bytes->str, bytes->len, range->file, NULL, error);
}

char *
hob_range_checksum (const HobRange *range)
{
  const GString *bytes = range->tree->bytes;

  return g_compute_checksum_for_data (G_CHECKSUM_SHA256, (const guchar *) bytes->str, bytes->len);
}
