/* SPDX-License-Identifier: GPL-3.0-or-later */

/* The same shapes as data/range.rng, with sentences: the grammar says that a part is wrong, this
 * says what. */

#include "base/i18n.h"
#include "range/reader.h"

#include <string.h>

typedef struct
{
  const char *name;
  gboolean required;
} Attribute;

typedef struct
{
  const char *name;
  const char *parents[4];   /* NULL-ended; none: the root */
  gboolean text;            /* holds text */
  Attribute attributes[10]; /* NULL-ended */
} Shape;

#define LINES { "wire", "pipe", "lead" }

static const Shape shapes[] = {
  { "range",
    { NULL },
    FALSE,
    { { "format", TRUE }, { "id", TRUE }, { "name", TRUE }, { "plate", TRUE } } },
  { "note", { "range" }, TRUE, { { NULL } } },
  { "part",
    { "range" },
    FALSE,
    { { "id", TRUE }, { "kind", TRUE }, { "label" }, { "number" }, { "in" }, { "moved-by" } } },
  { "set", { "part" }, FALSE, { { "name", TRUE }, { "value", TRUE } } },
  { "at", { "part" }, FALSE, { { "sheet", TRUE }, { "x", TRUE }, { "y", TRUE }, { "turn" } } },
  { "wire",
    { "range" },
    FALSE,
    { { "id", TRUE },
      { "from", TRUE },
      { "to", TRUE },
      { "colour", TRUE },
      { "gauge", TRUE },
      { "length", TRUE } } },
  { "pipe",
    { "range" },
    FALSE,
    { { "id", TRUE }, { "from", TRUE }, { "to", TRUE }, { "bore", TRUE }, { "length", TRUE } } },
  { "lead",
    { "range" },
    FALSE,
    { { "id", TRUE }, { "from", TRUE }, { "to", TRUE }, { "length", TRUE } } },
  { "bend", LINES, FALSE, { { "x", TRUE }, { "y", TRUE } } },
};

static const Shape *
find_shape (const char *name)
{
  for (guint i = 0; i < G_N_ELEMENTS (shapes); i++)
    if (strcmp (shapes[i].name, name) == 0)
      return &shapes[i];
  return NULL;
}

static gboolean
shape_fits (const Shape *shape, const char *parent)
{
  if (parent == NULL)
    return shape->parents[0] == NULL;
  for (guint i = 0; i < G_N_ELEMENTS (shape->parents) && shape->parents[i] != NULL; i++)
    if (strcmp (shape->parents[i], parent) == 0)
      return TRUE;
  return FALSE;
}

/* With its prefix, as the file writes it. (transfer full) */
static char *
written_name (const xmlNs *ns, const xmlChar *name)
{
  if (ns == NULL || ns->prefix == NULL)
    return g_strdup ((const char *) name);
  return g_strdup_printf ("%s:%s", (const char *) ns->prefix, (const char *) name);
}

static void
find_unknown_element (HobReader *reader, xmlNode *node)
{
  const char *names[G_N_ELEMENTS (shapes) + 1] = { NULL };
  g_autofree char *written = written_name (node->ns, node->name),
                  *said = hob_reader_quote (written), *advice = NULL;

  for (guint i = 0; i < G_N_ELEMENTS (shapes); i++)
    names[i] = shapes[i].name;
  /* Translators: end of a message about an unknown element or attribute. */
  advice = hob_reader_advice (reader, said, names, _("remove it"));
  hob_reader_find (reader, hob_tree_line (reader->tree, node), _("unknown element <%s>; %s"), said,
                   advice);
}

static const Attribute *
find_attribute (const Shape *shape, const xmlAttr *attr)
{
  for (const Attribute *a = shape->attributes; a->name != NULL; a++)
    if (attr->ns == NULL && strcmp (a->name, (const char *) attr->name) == 0)
      return a;
  return NULL;
}

static void
find_unknown_attribute (HobReader *reader, const Shape *shape, xmlNode *node, const xmlAttr *attr)
{
  const char *names[G_N_ELEMENTS (shape->attributes) + 1] = { NULL };
  g_autofree char *written = written_name (attr->ns, attr->name),
                  *said = hob_reader_quote (written), *advice = NULL;

  for (guint i = 0; shape->attributes[i].name != NULL; i++)
    names[i] = shape->attributes[i].name;
  advice = hob_reader_advice (reader, said, names, _("remove it"));
  hob_reader_find (reader, hob_tree_attribute_line (reader->tree, node, written),
                   _("<%s> can't have the attribute '%s'; %s"), shape->name, said, advice);
}

static void
check_attributes (HobReader *reader, const Shape *shape, xmlNode *node)
{
  for (const xmlAttr *attr = node->properties; attr != NULL; attr = attr->next)
    if (find_attribute (shape, attr) == NULL)
      find_unknown_attribute (reader, shape, node, attr);
  for (const Attribute *a = shape->attributes; a->name != NULL; a++)
    if (a->required && hob_xml_get (node, a->name) == NULL)
      hob_reader_find (reader, hob_tree_line (reader->tree, node),
                       _("<%s> needs the attribute '%s'; add %s=\"…\""), shape->name, a->name,
                       a->name);
}

static gboolean
is_blank (const char *text)
{
  return text == NULL || text[strspn (text, " \t\r\n")] == '\0';
}

/* Once an element. */
static void
check_text (HobReader *reader, const Shape *shape, xmlNode *node)
{
  for (const xmlNode *child = node->children; child != NULL && !shape->text; child = child->next)
    if (child->type == XML_TEXT_NODE && !is_blank ((const char *) child->content))
      {
        g_autofree char *said = hob_reader_quote ((const char *) child->content);

        hob_reader_find (
            reader, hob_tree_text_line (reader->tree, node),
            _("<%s> contains the text '%s'; remove it, or make it a comment or a <note>"),
            shape->name, said);
        return;
      }
}

static void
check_element (HobReader *reader, const char *parent, xmlNode *node)
{
  const Shape *shape = node->ns == NULL ? find_shape ((const char *) node->name) : NULL;

  if (shape == NULL)
    {
      find_unknown_element (reader, node);
      return;
    }
  if (!shape_fits (shape, parent))
    {
      hob_reader_find (reader, hob_tree_line (reader->tree, node),
                       _("<%s> doesn't belong in <%s>; move it or remove it"), shape->name,
                       parent != NULL ? parent : "");
      return;
    }
  check_attributes (reader, shape, node);
  check_text (reader, shape, node);
  for (xmlNode *child = node->children; child != NULL; child = child->next)
    if (child->type == XML_ELEMENT_NODE)
      check_element (reader, shape->name, child);
}

void
hob_reader_check_shapes (HobReader *reader, xmlNode *root)
{
  check_element (reader, NULL, root);
}
