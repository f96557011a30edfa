/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "range/xml.h"

#include "base/errors.h"
#include "base/i18n.h"

#include <libxml/SAX2.h>
#include <libxml/parser.h>
#include <libxml/parserInternals.h>
#include <string.h>

/* ---- Limits ---- */

/* A shipped range has some 700 elements with 2,500 attributes, the longest value 60 bytes, the
 * longest note 700.  The parser takes a time that grows with the square of the attributes of one
 * element, and some 250 bytes for each element, attribute, comment or instruction.
 */
typedef enum
{
  BYTES,      /* of the file */
  PIECES,     /* elements, attributes, comments and instructions together */
  ATTRIBUTES, /* of one element */
  TAG,        /* bytes of one tag */
  VALUE,      /* bytes of one attribute's value */
  TEXT,       /* bytes from one tag to the next */
  DEPTH,      /* of elements in elements */
  N_LIMITS
} Limit;

static const struct
{
  guint most, shown;
  const char *sentence; /* N_(), with what is shown */
} limits[] = {
  [BYTES] = { 64u << 20, 64, N_ ("the file is larger than %u MiB; make it smaller") },
  [PIECES]
  = { 300000, 300000, N_ ("the file has more than %u elements and attributes; use fewer") },
  [ATTRIBUTES] = { 64, 64, N_ ("an element has more than %u attributes; use fewer") },
  [TAG] = { 65536, 65536, N_ ("a tag has more than %u bytes; make it shorter") },
  [VALUE] = { 4096, 4096, N_ ("an attribute has more than %u bytes; make it shorter") },
  [TEXT] = { 1000000, 1000000, N_ ("a block of text has more than %u bytes; make it shorter") },
  [DEPTH] = { 200, 200, N_ ("elements are nested more than %u levels deep; use fewer levels") },
};

/* Past the next @mark; the end if there is none. */
static const char *
skip_past (const char *p, const char *end, const char *mark)
{
  const char *found = g_strstr_len (p, end - p, mark);

  return found != NULL ? found + strlen (mark) : end;
}

/* Past the '>' of the tag at @p: there may be a '>' in quotes. */
static const char *
skip_tag (const char *p, const char *end)
{
  for (; p < end; p++)
    {
      if (*p == '>')
        return p + 1;
      if (*p == '"' || *p == '\'')
        p = memchr (p + 1, *p, (gsize) (end - p - 1));
      if (p == NULL)
        return end;
    }
  return end;
}

const char *
hob_xml_skip (const char *p, const char *end)
{
  if (g_str_has_prefix (p, "<!--"))
    return skip_past (p + 4, end, "-->");
  if (g_str_has_prefix (p, "<![CDATA["))
    return skip_past (p + 9, end, "]]>");
  if (p[1] == '?')
    return skip_past (p + 2, end, "?>");
  return skip_tag (p, end);
}

static const char *
next_quote (const char *p, const char *end)
{
  while (p < end && *p != '"' && *p != '\'')
    p++;
  return p;
}

/* The limit that a tag at @p breaks; N_LIMITS: none. */
static Limit
check_tag (const char *p, const char *end, guint *pieces)
{
  guint attributes = 0;

  for (const char *close; (p = next_quote (p, end)) < end; p = close + 1)
    {
      close = memchr (p + 1, *p, (gsize) (end - p - 1));
      if (close == NULL)
        close = end - 1;
      if (close - p - 1 > (gssize)limits[VALUE].most)
        return VALUE;
      attributes++;
    }
  *pieces += attributes;
  return attributes > limits[ATTRIBUTES].most ? ATTRIBUTES : N_LIMITS;
}

/* In one pass over the bytes, whether they are well-formed or not; *where: the place of the
 * offense. */
static Limit
broken_limit (const char *begin, const char *end, const char **where)
{
  const char *p = begin, *text = begin;
  guint pieces = 0;

  *where = begin;
  if (end - begin > (gssize)limits[BYTES].most)
    return BYTES;
  for (; (p = memchr (p, '<', (gsize) (end - p))) != NULL; text = p)
    {
      gboolean is_tag = p + 1 < end && strchr ("!?/", p[1]) == NULL;
      const char *past = hob_xml_skip (p, end);
      Limit limit = N_LIMITS;

      *where = p;
      if (is_tag)
        limit = past - p > (gssize)limits[TAG].most ? TAG : check_tag (p, past, &pieces);
      else if (g_str_has_prefix (p, "<![CDATA[") && past - p > (gssize)limits[TEXT].most)
        limit = TEXT;
      if (limit != N_LIMITS)
        return limit;
      if (p - text > (gssize)limits[TEXT].most)
        return TEXT;
      pieces += p + 1 >= end || p[1] != '/';
      if (pieces > limits[PIECES].most)
        return PIECES;
      p = past;
    }
  *where = text;
  return end - text > (gssize)limits[TEXT].most ? TEXT : N_LIMITS;
}

/* ---- Parsing ---- */

typedef struct
{
  char *text; /* owned; the first error */
  int line;
  gboolean doctype, deep;
} Trouble;

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

  if (ctxt->nodeNr < (int)limits[DEPTH].most)
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

static void
refuse_limit (GError **error, const char *file, int line, Limit limit)
{
  g_autofree char *number = g_strdup_printf ("%u", limits[limit].shown);
  g_auto (GStrv) around = g_strsplit (_ (limits[limit].sentence), "%u", 2);
  g_autofree char *what = g_strjoinv (number, around);

  refuse (error, file, line, what);
}

static int
line_of (const char *begin, const char *at)
{
  int line = 1;

  while (begin < at && (begin = memchr (begin, '\n', (gsize) (at - begin))) != NULL)
    {
      begin++;
      line++;
    }
  return line;
}

static gboolean
bytes_are_text (const char *begin, gsize size, const char *file, GError **error)
{
  const char *bad;
  Limit limit;

  if (size == 0)
    {
      refuse (error, file, 1, _ ("the file is empty; write the XML first"));
      return FALSE;
    }
  limit = broken_limit (begin, begin + size, &bad);
  if (limit != N_LIMITS)
    {
      refuse_limit (error, file, line_of (begin, bad), limit);
      return FALSE;
    }
  if (g_utf8_validate_len (begin, size, &bad))
    return TRUE;
  if (*bad == '\0')
    refuse (error, file, line_of (begin, bad),
            _("the file has a NUL byte; save it as UTF-8 text"));
  else
    refuse (error, file, line_of (begin, bad),
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
            _ ("a DOCTYPE isn't allowed; remove it"));
  else if (trouble->deep)
    refuse_limit (error, file, trouble->line, DEPTH);
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

xmlNode *
hob_xml_next (xmlNode *node)
{
  if (node->children != NULL && node->type == XML_ELEMENT_NODE)
    return node->children;
  while (node != NULL && node->next == NULL)
    node = node->parent;
  return node != NULL ? node->next : NULL;
}

/* Without the space between elements, and to be read only: half as many nodes. */
static xmlDoc *
parse_bytes (const char *data, gsize size, Trouble *trouble, gboolean *well_formed)
{
  const int options = XML_PARSE_NONET | XML_PARSE_NOCDATA | XML_PARSE_BIG_LINES
                      | XML_PARSE_NOXINCNODE | XML_PARSE_NOBLANKS | XML_PARSE_COMPACT;
  xmlExternalEntityLoader loader = xmlGetExternalEntityLoader ();
  xmlParserCtxtPtr ctxt = xmlNewParserCtxt ();
  xmlDoc *doc;

  ctxt->_private = trouble;
  ctxt->sax->serror = on_error;
  ctxt->sax->internalSubset = on_doctype;
  ctxt->sax->startElementNs = on_element;
  xmlSetExternalEntityLoader (deny);
  doc = xmlCtxtReadMemory (ctxt, data, (int)size, NULL, NULL, options);
  xmlSetExternalEntityLoader (loader);
  *well_formed = ctxt->wellFormed != 0;
  xmlFreeParserCtxt (ctxt);
  return doc;
}

xmlDoc *
hob_xml_parse (const char *data, gsize size, const char *file, GError **error)
{
  Trouble trouble = { NULL, 0, FALSE, FALSE };
  gboolean well_formed, sound;
  xmlDoc *doc;

  if (!bytes_are_text (data, size, file, error))
    return NULL;
  doc = parse_bytes (data, size, &trouble, &well_formed);
  sound = document_is_sound (doc, &trouble, well_formed, file, error);
  g_free (trouble.text);
  if (!sound)
    g_clear_pointer (&doc, xmlFreeDoc);
  return doc;
}

const char *
hob_xml_get (const xmlNode *node, const char *name)
{
  for (const xmlAttr *attr = node->properties; attr != NULL; attr = attr->next)
    if (attr->ns == NULL && strcmp ((const char *) attr->name, name) == 0)
      return attr->children != NULL ? (const char *) attr->children->content : "";
  return NULL;
}
