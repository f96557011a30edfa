/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "range/tree.h"

#include <string.h>

HobRangeTree *
hob_tree_new (const char *data, gsize size)
{
  HobRangeTree *tree = g_new0 (HobRangeTree, 1);

  tree->bytes = g_string_new_len (data, (gssize) size);
  tree->tags = g_array_new (FALSE, FALSE, sizeof (HobTag));
  tree->sets = g_array_new (FALSE, FALSE, sizeof (HobSetTag));
  tree->ids = g_hash_table_new (g_str_hash, g_str_equal);
  return tree;
}

void
hob_tree_free (HobRangeTree *tree)
{
  if (tree == NULL)
    return;
  g_string_free (tree->bytes, TRUE);
  g_array_unref (tree->tags);
  g_array_unref (tree->sets);
  g_hash_table_unref (tree->ids);
  g_free (tree->part_tags);
  g_free (tree->first_terminal);
  g_free (tree->used);
  g_free (tree);
}

/* ---- Start tags in the bytes ---- */

static int
count_lines (const char *from, const char *to)
{
  int lines = 0;

  for (const char *p = from; p < to; p++)
    lines += *p == '\n';
  return lines;
}

void
hob_tree_scan (HobRangeTree *tree)
{
  const char *begin = tree->bytes->str, *end = begin + tree->bytes->len, *p = begin,
             *counted = begin;
  int open = -1, line = 1;

  g_array_set_size (tree->tags, 0);
  while ((p = memchr (p, '<', (gsize) (end - p))) != NULL)
    {
      const char *behind = hob_xml_skip (p, end);

      if (p[1] == '/' && open >= 0)
        {
          HobTag *closed = &g_array_index (tree->tags, HobTag, open);

          closed->close = (gsize) (behind - begin);
          open = closed->parent;
        }
      else if (p[1] != '!' && p[1] != '?' && p[1] != '/')
        {
          gsize past = (gsize) (behind - begin);
          HobTag tag = { (gsize) (p - begin), past, past, 0, open };

          line += count_lines (counted, p);
          counted = p;
          tag.line = line;
          if (behind[-2] != '/')
            open = (int) tree->tags->len;
          g_array_append_val (tree->tags, tag);
        }
      p = behind;
    }
}

static gboolean
is_space (char c)
{
  return c == ' ' || c == '\t' || c == '\n' || c == '\r';
}

gboolean
hob_tree_attribute (const HobRangeTree *tree, int index, const char *name, gsize *start, gsize *end)
{
  const HobTag *tag = &g_array_index (tree->tags, HobTag, index);
  const char *begin = tree->bytes->str, *p = begin + tag->start, *stop = begin + tag->end;
  gsize length = strlen (name);

  while (p < stop && !is_space (*p) && *p != '>')
    p++;
  while (p < stop)
    {
      const char *word, *word_end, *value;

      while (p < stop && is_space (*p))
        p++;
      word = p;
      while (p < stop && !is_space (*p) && *p != '=')
        p++;
      word_end = p;
      while (p < stop && *p != '"' && *p != '\'')
        p++;
      if (p >= stop)
        return FALSE;
      value = p + 1;
      p = memchr (value, *p, (gsize) (stop - value));
      if (p == NULL)
        return FALSE;
      if ((gsize) (word_end - word) == length && memcmp (word, name, length) == 0)
        {
          *start = (gsize) (value - begin);
          *end = (gsize) (p - begin);
          return TRUE;
        }
      p++;
    }
  return FALSE;
}

/* ---- Lines ---- */

static int
tag_of (const xmlNode *node)
{
  return GPOINTER_TO_INT (node->_private) - 1;
}

int
hob_tree_line (const HobRangeTree *tree, const xmlNode *node)
{
  int tag = tag_of (node);

  /* An element made by a migration has the place of its parent. */
  while (tag < 0 && node->parent != NULL && node->parent->type == XML_ELEMENT_NODE)
    {
      node = node->parent;
      tag = tag_of (node);
    }
  return tag < 0 ? 1 : g_array_index (tree->tags, HobTag, tag).line;
}

int
hob_tree_attribute_line (const HobRangeTree *tree, const xmlNode *node, const char *name)
{
  int line = hob_tree_line (tree, node), index = tag_of (node);
  const HobTag *tag;
  gsize start, end;

  if (index < 0 || !hob_tree_attribute (tree, index, name, &start, &end))
    return line;
  tag = &g_array_index (tree->tags, HobTag, index);
  return line + count_lines (tree->bytes->str + tag->start, tree->bytes->str + start);
}

int
hob_tree_text_line (const HobRangeTree *tree, const xmlNode *node)
{
  int line = hob_tree_line (tree, node), child = tag_of (node) + 1;
  const char *begin = tree->bytes->str, *stop, *p;
  const HobTag *tag;

  if (tag_of (node) < 0)
    return line;
  tag = &g_array_index (tree->tags, HobTag, tag_of (node));
  stop = begin + tag->close;
  for (p = begin + tag->end; p < stop;)
    {
      if (is_space (*p))
        p++;
      else if (g_str_has_prefix (p, "<!--") || g_str_has_prefix (p, "<?"))
        p = hob_xml_skip (p, stop);
      else if (*p != '<' || p[1] == '!' || p[1] == '/')
        break;
      else
        {
          while (g_array_index (tree->tags, HobTag, child).start < (gsize) (p - begin))
            child++;
          p = begin + g_array_index (tree->tags, HobTag, child).close;
        }
    }
  return line + count_lines (begin + tag->start, p);
}

/* ---- Parsing ---- */

static guint
number_elements (xmlDoc *doc)
{
  guint n = 0;

  for (xmlNode *node = xmlDocGetRootElement (doc); node != NULL; node = hob_xml_next (node))
    if (node->type == XML_ELEMENT_NODE)
      node->_private = GINT_TO_POINTER (++n);
  return n;
}

xmlDoc *
hob_tree_parse (HobRangeTree *tree, const char *file, GError **error)
{
  xmlDoc *doc = hob_xml_parse (tree->bytes->str, tree->bytes->len, file, error);

  if (doc == NULL)
    return NULL;
  hob_tree_scan (tree);
  if (number_elements (doc) != tree->tags->len)
    g_error ("%s: elements and tags do not agree", file);
  return doc;
}
