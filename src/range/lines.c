/* SPDX-License-Identifier: GPL-3.0-or-later */

/* Reads <wire>, <pipe> and <lead>, and finds what is wrong with one of them. */

#include "base/errors.h"
#include "base/i18n.h"
#include "range/reader.h"

#include <string.h>

typedef enum { WIRE, PIPE, LEAD, N_SORTS } LineSort;

static const char *const sort_names[N_SORTS] = { "wire", "pipe", "lead" };

/* ---- Ends ---- */

static const char **
entry_names (const HobKind *kind, LineSort sort)
{
  int most = sort == PIPE ? kind->n_ports : kind->n_terminals, n = 0;
  const char **names = g_new0 (const char *, (gsize) most + 1);

  for (int i = 0; i < most; i++)
    if (sort == PIPE || kind->terminals[i].high_voltage == (sort == LEAD))
      names[n++] = sort == PIPE ? kind->ports[i].name : kind->terminals[i].name;
  return names;
}

/* What a line's sort may not be fixed to: NULL if @name fits; else the sort that belongs there. */
static const char *
belongs_there (const HobKind *kind, LineSort sort, const char *name)
{
  int terminal = hob_kind_terminal (kind, name);

  if (terminal < 0)
    return hob_kind_port (kind, name) >= 0 ? "pipe" : NULL;
  return kind->terminals[terminal].high_voltage ? "lead" : "wire";
}

static void
find_unknown_entry (HobReader *reader, LineSort sort, const char *id, int line, const HobPart *part,
                    const char *entry)
{
  g_autofree const char **names = entry_names (part->kind, sort);
  g_autofree char *said = hob_reader_quote (entry), *list = g_strjoinv (", ", (char **) names);
  g_autofree char *otherwise = *list != '\0'
                                   /* Translators: a part, and its terminals or ports. */
                                   ? g_strdup_printf (_("it has %s"), list)
                                   /* Translators: a part: "it has no pipe". */
                                   : g_strdup_printf (_("it doesn't take a %s"), sort_names[sort]);
  g_autofree char *advice = hob_reader_advice (reader, said, names, otherwise);

  hob_reader_find (reader, line,
                   sort == PIPE ? _("%s '%s': part '%s' (%s) has no port '%s'; %s")
                                : _("%s '%s': part '%s' (%s) has no terminal '%s'; %s"),
                   sort_names[sort], id, part->id, part->kind->name, said, advice);
}

static gboolean
read_entry (HobReader *reader, LineSort sort, const char *id, int line, const char *entry,
            HobEnd *end)
{
  const HobPart *part = &reader->range->parts[end->part];
  const char *fits = belongs_there (part->kind, sort, entry);

  if (!hob_reader_is_known (part->kind))
    return FALSE;
  if (fits == NULL)
    find_unknown_entry (reader, sort, id, line, part, entry);
  else if (strcmp (fits, sort_names[sort]) != 0 && strcmp (fits, "lead") == 0)
    hob_reader_find (reader, line, _("%s '%s': '%s.%s' is at high voltage; use a <lead> there"),
                     sort_names[sort], id, part->id, entry);
  else if (strcmp (fits, sort_names[sort]) != 0)
    hob_reader_find (reader, line,
                     _("%s '%s' can't end at '%s.%s'; use a <%s> there, or name another end"),
                     sort_names[sort], id, part->id, entry, fits);
  else
    {
      end->terminal = sort == PIPE ? hob_kind_port (part->kind, entry)
                                   : hob_kind_terminal (part->kind, entry);
      return TRUE;
    }
  return FALSE;
}

/* One end, "PART.TERMINAL" or "PART.PORT". */
static gboolean
read_end (HobReader *reader, LineSort sort, const char *id, xmlNode *node, const char *which,
          HobEnd *end)
{
  const char *text = hob_xml_get (node, which);
  const char *dot = text != NULL ? strchr (text, '.') : NULL;
  int line = hob_tree_attribute_line (reader->tree, node, which);
  g_autofree char *name = NULL, *said = NULL, *advice = NULL;

  if (text == NULL)
    return FALSE;
  said = hob_reader_quote (text);
  if (dot == NULL)
    {
      /* Translators: "wire 'w1': from is 'cord'; use PART.TERMINAL". */
      hob_reader_find (reader, line, _("%s '%s': '%s' is '%s'; use PART.%s"), sort_names[sort], id,
                       which, said, sort == PIPE ? "PORT" : "TERMINAL");
      return FALSE;
    }
  name = g_strndup (text, (gsize) (dot - text));
  end->part = GPOINTER_TO_INT (g_hash_table_lookup (reader->tree->ids, name)) - 1;
  if (end->part >= 0)
    return read_entry (reader, sort, id, line, dot + 1, end);
  g_free (said);
  said = hob_reader_quote (name);
  advice = hob_reader_part_advice (reader, said);
  hob_reader_find (reader, line, _("%s '%s' goes nowhere, because there's no part '%s'; %s"),
                   sort_names[sort], id, said, advice);
  return FALSE;
}

static const char *
end_name (const HobReader *reader, LineSort sort, const HobEnd *end)
{
  const HobKind *kind = reader->range->parts[end->part].kind;

  return sort == PIPE ? kind->ports[end->terminal].name : kind->terminals[end->terminal].name;
}

/* A port takes one pipe end, a high-voltage terminal one lead; the first in the file keeps it. */
static void
take_end (HobReader *reader, LineSort sort, const char *id, xmlNode *node, const char *which,
          const HobEnd *end)
{
  const char *part = reader->range->parts[end->part].id, *entry = end_name (reader, sort, end);
  g_autofree char *key = g_strdup_printf ("%s.%s", part, entry);
  int before = GPOINTER_TO_INT (g_hash_table_lookup (reader->taken, key));

  if (before == 0)
    {
      g_hash_table_insert (reader->taken, g_steal_pointer (&key),
                           GINT_TO_POINTER (hob_tree_line (reader->tree, node)));
      return;
    }
  hob_reader_find (
      reader, hob_tree_attribute_line (reader->tree, node, which),
      sort == PIPE ? _ ("%s '%s': the port '%s' already has a pipe (line %d of the file); branch "
                        "at a part with several ports")
                   : _ ("%s '%s': '%s' already has a lead (line %d of the file); it takes only "
                        "one"),
      sort_names[sort], id, key, before);
}

static void
check_way (HobReader *reader, const HobLine *pipe, xmlNode *node)
{
  const HobPart *parts = reader->range->parts;
  HobWay from = parts[pipe->from.part].kind->ports[pipe->from.terminal].way;
  HobWay to = parts[pipe->to.part].kind->ports[pipe->to.terminal].way;

  if (from == to && from != HOB_WAY_ANY)
    hob_reader_find (reader, hob_tree_attribute_line (reader->tree, node, "to"),
                     from == HOB_WAY_OUT
                         ? _("pipe '%s' joins two outlets; run it from an outlet to an inlet")
                         : _("pipe '%s' joins two inlets; run it from an outlet to an inlet"),
                     pipe->id);
}

static gboolean
read_ends (HobReader *reader, LineSort sort, HobLine *item, xmlNode *node)
{
  gboolean from = read_end (reader, sort, item->id, node, "from", &item->from);
  gboolean to = read_end (reader, sort, item->id, node, "to", &item->to);

  if (!from || !to)
    return FALSE;
  if (item->from.part == item->to.part && item->from.terminal == item->to.terminal)
    {
      hob_reader_find (reader, hob_tree_attribute_line (reader->tree, node, "to"),
                       _("%s '%s' ends where it begins; name another end"), sort_names[sort],
                       item->id);
      return FALSE;
    }
  if (sort == PIPE)
    check_way (reader, item, node);
  if (sort != WIRE)
    {
      take_end (reader, sort, item->id, node, "from", &item->from);
      take_end (reader, sort, item->id, node, "to", &item->to);
    }
  return TRUE;
}

/* ---- Measures ---- */

static gboolean
is_size (const char *text, const char *unit)
{
  g_autofree char *trimmed = g_strstrip (g_strdup (text));

  return g_str_has_suffix (trimmed, unit);
}

/* More than nothing and at most @most, m. */
/* Below this the resistance of a pipe or a wire is no number that is good for anything. */
#define LEAST_LENGTH 1e-4 /* m */

static gboolean
read_length (HobReader *reader, LineSort sort, const char *id, xmlNode *node, const char *name,
             double most, double *m)
{
  const char *text = hob_xml_get (node, name);
  int line = hob_tree_attribute_line (reader->tree, node, name);
  g_autoptr (GError) error = NULL;
  g_autofree char *said = NULL;

  if (text == NULL)
    return FALSE;
  said = hob_reader_quote (text);
  if (!hob_parse_quantity (text, HOB_DIM_LENGTH, m, &error))
    /* Translators: wire, pipe, or lead; its id; an attribute; and what is wrong with it. */
    hob_reader_find (reader, line, _("%s '%s': %s: %s"), sort_names[sort], id, name,
                     error->message);
  else if (is_size (text, "AWG"))
    hob_reader_find (reader, line, _("%s '%s': %s: '%s' is a wire gauge; use a length such as 0.9 "
                                     "m or 12.7 mm"),
                     sort_names[sort], id, name, said);
  else if (*m <= 0)
    hob_reader_find (reader, line,
                     _("%s '%s': %s: '%s' must be more than 0; use a length such as 0.9 m or 12.7 "
                       "mm"),
                     sort_names[sort], id, name, said);
  else if (*m < LEAST_LENGTH)
    hob_reader_find (reader, line, _ ("%s '%s': %s: '%s' is too small; use 0.1 mm or more"),
                     sort_names[sort], id, name, said);
  else if (*m > most)
    {
      g_autofree char *limit = hob_number_text (most);

      hob_reader_find (reader, line, _("%s '%s': %s: '%s' is too large; use %s m at most"),
                       sort_names[sort], id, name, said, limit);
    }
  else
    return TRUE;
  return FALSE;
}

static void
read_gauge (HobReader *reader, HobLine *wire, xmlNode *node)
{
  const char *text = hob_xml_get (node, "gauge");
  int line = hob_tree_attribute_line (reader->tree, node, "gauge");
  g_autoptr (GError) error = NULL;
  g_autofree char *said = NULL;

  if (text == NULL)
    return;
  said = hob_reader_quote (text);
  if (!is_size (text, "AWG"))
    hob_reader_find (reader, line,
                     _("wire '%s': gauge: '%s' is not a wire gauge; use a size such as 18 AWG"),
                     wire->id, said);
  else if (!hob_parse_quantity (text, HOB_DIM_LENGTH, &wire->diameter, &error))
    hob_reader_find (reader, line, _("wire '%s': gauge: %s"), wire->id, error->message);
  else
    wire->gauge = (int) g_ascii_strtod (text, NULL);
}

/* IEC 60757; two or three together mean stripes (GNYE). */
static const char *const colours[]
    = { "BK", "BN", "RD", "OG", "YE", "GN", "BU", "VT", "GY", "WH", "PK", "GD", "TQ", "SR", NULL };

static gboolean
is_colour (const char *text)
{
  gsize length = strlen (text);

  if (length == 0 || length > 6 || length % 2 != 0)
    return FALSE;
  for (gsize i = 0; i < length; i += 2)
    {
      char code[3] = { text[i], text[i + 1], '\0' };

      if (!g_strv_contains (colours, code))
        return FALSE;
    }
  return TRUE;
}

static void
read_colour (HobReader *reader, HobLine *wire, xmlNode *node)
{
  const char *text = hob_xml_get (node, "colour");
  g_autofree char *said = NULL, *list = NULL;

  if (text == NULL)
    return;
  if (is_colour (text))
    {
      g_strlcpy (wire->colour, text, sizeof wire->colour);
      return;
    }
  said = hob_reader_quote (text);
  list = g_strjoinv (" ", (char **) colours);
  hob_reader_find (reader, hob_tree_attribute_line (reader->tree, node, "colour"),
                   _("wire '%s': unknown color '%s'; use IEC 60757 codes (%s)"), wire->id,
                   said, list);
}

/* ---- Lines ---- */

#define MOST_BENDS 100

static void
read_bends (HobReader *reader, HobLine *item, xmlNode *node)
{
  GArray *bends = g_array_new (FALSE, FALSE, sizeof (HobPoint));

  for (xmlNode *child = node->children; child != NULL; child = child->next)
    {
      HobPoint p = { 0, 0 };
      gboolean known;

      if (child->type != XML_ELEMENT_NODE || strcmp ((const char *) child->name, "bend") != 0)
        continue;
      known = hob_reader_coordinate (reader, child, "x", &p.x);
      if (hob_reader_coordinate (reader, child, "y", &p.y) && known)
        g_array_append_val (bends, p);
    }
  if (bends->len > MOST_BENDS)
    hob_reader_find (reader, item->line, _ ("'%s' has more than %d bends; use fewer"), item->id,
                     MOST_BENDS);
  item->n_bends = (int) bends->len;
  item->bends = (HobPoint *) (void *) g_array_free (bends, bends->len == 0);
}

#define LONGEST 1000.0 /* m */
#define WIDEST 0.5     /* m */

static void
read_line (HobReader *reader, LineSort sort, xmlNode *node, GArray *into)
{
  const char *id = hob_reader_take_id (reader, node);
  HobLine item = { .line = hob_tree_line (reader->tree, node) };
  gboolean ends;

  if (id == NULL)
    return;
  item.id = g_strdup (id);
  ends = read_ends (reader, sort, &item, node);
  read_length (reader, sort, id, node, "length", LONGEST, &item.length);
  if (sort == WIRE)
    {
      read_gauge (reader, &item, node);
      read_colour (reader, &item, node);
    }
  else if (sort == PIPE)
    read_length (reader, sort, id, node, "bore", WIDEST, &item.diameter);
  read_bends (reader, &item, node);
  if (ends)
    g_array_append_val (into, item);
  else
    {
      g_free (item.id);
      g_free (item.bends);
    }
}

void
hob_reader_read_lines (HobReader *reader, xmlNode *root)
{
  GArray *const into[N_SORTS] = { reader->wires, reader->pipes, reader->leads };

  for (xmlNode *node = root->children; node != NULL; node = node->next)
    for (int sort = 0; sort < N_SORTS; sort++)
      if (node->type == XML_ELEMENT_NODE
          && strcmp ((const char *) node->name, sort_names[sort]) == 0)
        read_line (reader, (LineSort) sort, node, into[sort]);
}
