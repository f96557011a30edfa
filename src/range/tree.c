/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "range/tree.h"

#include "base/errors.h"
#include "base/i18n.h"

#include <libxml/parser.h>
#include <libxml/SAX2.h>
#include <libxml/parserInternals.h>
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

/* Behind the next @mark; the end if there is none. */
static const char *
skip_past (const char *p, const char *end, const char *mark)
{
  const char *found = g_strstr_len (p, end - p, mark);

  return found != NULL ? found + strlen (mark) : end;
}

/* Behind the '>' of the tag at @p: a '>' may stand in quotes. */
static const char *
skip_tag (const char *p, const char *end)
{
  char quote = '\0';

  for (; p < end; p++)
    {
      if (quote != '\0')
        quote = *p == quote ? '\0' : quote;
      else if (*p == '"' || *p == '\'')
        quote = *p;
      else if (*p == '>')
        return p + 1;
    }
  return end;
}

/* Behind whatever begins with '<' at @p. */
static const char *
skip_markup (const char *p, const char *end)
{
  if (g_str_has_prefix (p, "<!--"))
    return skip_past (p + 4, end, "-->");
  if (g_str_has_prefix (p, "<![CDATA["))
    return skip_past (p + 9, end, "]]>");
  if (p[1] == '?')
    return skip_past (p + 2, end, "?>");
  return skip_tag (p, end);
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
      const char *behind = skip_markup (p, end);

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

  /* An element that a migration made stands where its parent does. */
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
        p = skip_markup (p, stop);
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

typedef struct
{
  char *text; /* owned; the first error */
  int line;
  gboolean doctype, deep;
} Trouble;

/* The parser's own limit has no code of its own, and names an option that nobody here can set. */
#define DEEPEST 200

static void
on_error (void *data, xmlErrorPtr e)
{
  Trouble *trouble = ((xmlParserCtxtPtr) data)->_private;

  if (e->level < XML_ERR_ERROR || trouble->text != NULL || trouble->doctype || trouble->deep)
    return;
  trouble->text
      = g_strdelimit (g_strstrip (g_strdup (e->message != NULL ? e->message : "")), "\n\r", ' ');
  trouble->line = e->line;
}

/* Stops before any entity could be declared. */
static void
on_doctype (void *data, const xmlChar *name, const xmlChar *public_id, const xmlChar *system_id)
{
  xmlParserCtxtPtr ctxt = data;
  Trouble *trouble = ctxt->_private;

  trouble->doctype = TRUE;
  trouble->line = ctxt->input != NULL ? ctxt->input->line : 1;
  xmlStopParser (ctxt);
}

/* Called instead of the parser's own for each start tag. */
static void
on_element (void *data, const xmlChar *name, const xmlChar *prefix, const xmlChar *uri,
            int n_namespaces, const xmlChar **namespaces, int n_attributes, int n_defaulted,
            const xmlChar **attributes)
{
  xmlParserCtxtPtr ctxt = data;
  Trouble *trouble = ctxt->_private;

  if (ctxt->nodeNr < DEEPEST)
    {
      xmlSAX2StartElementNs (data, name, prefix, uri, n_namespaces, namespaces, n_attributes,
                             n_defaulted, attributes);
      return;
    }
  trouble->deep = TRUE;
  trouble->line = ctxt->input->line;
  xmlStopParser (ctxt);
}

static xmlParserInputPtr
deny (const char *url, const char *id, xmlParserCtxtPtr ctxt)
{
  return NULL;
}

static void
refuse (GError **error, const char *file, int line, const char *what)
{
  g_set_error (error, HOB_ERROR, HOB_ERROR_UNREADABLE, "%s:%d: %s", file, MAX (line, 1), what);
}

static gboolean
bytes_are_text (const HobRangeTree *tree, const char *file, GError **error)
{
  const char *begin = tree->bytes->str, *bad;

  if (tree->bytes->len == 0)
    {
      refuse (error, file, 1, _("the file is empty; a range begins with <range format=\"1\" …>"));
      return FALSE;
    }
  if (g_utf8_validate_len (begin, tree->bytes->len, &bad))
    return TRUE;
  if (*bad == '\0')
    refuse (error, file, 1 + count_lines (begin, bad),
            _("the file has a NUL byte; save it as UTF-8 text"));
  else
    refuse (error, file, 1 + count_lines (begin, bad),
            _("the file isn't UTF-8; save it as UTF-8 text"));
  return FALSE;
}

static gboolean
document_is_sound (xmlDoc *doc, const Trouble *trouble, gboolean well_formed, const char *file,
                   GError **error)
{
  const char *encoding = doc != NULL ? (const char *) doc->encoding : NULL;

  if (trouble->doctype)
    refuse (error, file, trouble->line,
            _("a DOCTYPE isn't allowed; remove it"));
  else if (trouble->deep)
    refuse (error, file, trouble->line,
            _("the elements are nested too deep; a range has three levels"));
  else if (trouble->text != NULL)
    {
      g_autofree char *what
          = g_strdup_printf (_("not well-formed: %s; fix the XML here"), trouble->text);

      refuse (error, file, trouble->line, what);
    }
  else if (doc == NULL || !well_formed || xmlDocGetRootElement (doc) == NULL)
    refuse (error, file, 1, _("not well-formed; fix the XML"));
  else if (encoding != NULL && g_ascii_strcasecmp (encoding, "UTF-8") != 0
           && g_ascii_strcasecmp (encoding, "US-ASCII") != 0
           && g_ascii_strcasecmp (encoding, "ASCII") != 0)
    {
      g_autofree char *what = g_strdup_printf (
          _("the encoding '%s' isn't supported; save the file as UTF-8"), encoding);

      refuse (error, file, 1, what);
    }
  else
    return TRUE;
  return FALSE;
}

/* The parser keeps references such as &lt; in an attribute apart: one text for each. */
static void
join_attribute (xmlDoc *doc, xmlAttr *attr)
{
  xmlNode *child = attr->children;
  xmlChar *text;

  if (child == NULL || (child->next == NULL && child->type == XML_TEXT_NODE))
    return;
  text = xmlNodeListGetString (doc, child, 1);
  xmlFreeNodeList (child);
  attr->children = attr->last = xmlNewDocText (doc, text);
  attr->children->parent = (xmlNode *) attr;
  xmlFree (text);
}

static xmlNode *
next_in_document (xmlNode *node)
{
  if (node->children != NULL && node->type == XML_ELEMENT_NODE)
    return node->children;
  while (node != NULL && node->next == NULL)
    node = node->parent;
  return node != NULL ? node->next : NULL;
}

static guint
number_elements (xmlDoc *doc)
{
  guint n = 0;

  for (xmlNode *node = xmlDocGetRootElement (doc); node != NULL; node = next_in_document (node))
    {
      if (node->type != XML_ELEMENT_NODE)
        continue;
      node->_private = GINT_TO_POINTER (++n);
      for (xmlAttr *attr = node->properties; attr != NULL; attr = attr->next)
        join_attribute (doc, attr);
    }
  return n;
}

static xmlDoc *
parse_bytes (HobRangeTree *tree, Trouble *trouble, gboolean *well_formed)
{
  const int options
      = XML_PARSE_NONET | XML_PARSE_NOCDATA | XML_PARSE_BIG_LINES | XML_PARSE_NOXINCNODE;
  xmlExternalEntityLoader loader = xmlGetExternalEntityLoader ();
  xmlParserCtxtPtr ctxt = xmlNewParserCtxt ();
  xmlDoc *doc;

  ctxt->_private = trouble;
  ctxt->sax->serror = on_error;
  ctxt->sax->internalSubset = on_doctype;
  ctxt->sax->startElementNs = on_element;
  xmlSetExternalEntityLoader (deny);
  doc = xmlCtxtReadMemory (ctxt, tree->bytes->str, (int) tree->bytes->len, NULL, NULL, options);
  xmlSetExternalEntityLoader (loader);
  *well_formed = ctxt->wellFormed != 0;
  xmlFreeParserCtxt (ctxt);
  return doc;
}

xmlDoc *
hob_tree_parse (HobRangeTree *tree, const char *file, GError **error)
{
  Trouble trouble = { NULL, 0, FALSE, FALSE };
  gboolean well_formed, sound;
  xmlDoc *doc;

  if (!bytes_are_text (tree, file, error))
    return NULL;
  doc = parse_bytes (tree, &trouble, &well_formed);
  sound = document_is_sound (doc, &trouble, well_formed, file, error);
  g_free (trouble.text);
  if (!sound)
    {
      xmlFreeDoc (doc);
      return NULL;
    }
  hob_tree_scan (tree);
  if (number_elements (doc) != tree->tags->len)
    g_error ("%s: elements and tags do not agree", file);
  return doc;
}

const char *
hob_tree_get (const xmlNode *node, const char *name)
{
  for (const xmlAttr *attr = node->properties; attr != NULL; attr = attr->next)
    if (attr->ns == NULL && strcmp ((const char *) attr->name, name) == 0)
      return attr->children != NULL ? (const char *) attr->children->content : "";
  return NULL;
}
