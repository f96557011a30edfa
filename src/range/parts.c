/* SPDX-License-Identifier: GPL-3.0-or-later */

/* Reads <part>, <set> and <at>, and finds what is wrong within one part. */

#include "base/errors.h"
#include "base/i18n.h"
#include "range/reader.h"

#include <math.h>
#include <string.h>

/* Stands for a kind that nobody knows, so that reading goes on: what refers to the part is not
 * found faulty too. */
static const HobKind unknown_kind = { .name = "" };

gboolean
hob_reader_is_known (const HobKind *kind)
{
  return kind != &unknown_kind;
}

/* ---- Ids ---- */

gboolean
hob_reader_is_id (const char *id)
{
  if (*id == '\0')
    return FALSE;
  for (const char *p = id; *p != '\0'; p++)
    if (!g_ascii_isalnum (*p) && *p != '-')
      return FALSE;
  return TRUE;
}

const char *
hob_reader_take_id (HobReader *reader, xmlNode *node)
{
  const char *id = hob_xml_get (node, "id");
  g_autofree char *said = NULL;
  int line, before;

  if (id == NULL)
    return NULL;
  said = hob_reader_quote (id);
  line = hob_tree_attribute_line (reader->tree, node, "id");
  if (!hob_reader_is_id (id))
    hob_reader_find (reader, line, _("'%s' can't be an id; use letters, digits, and '-'"), said);
  before = GPOINTER_TO_INT (g_hash_table_lookup (reader->ids, id));
  if (before > 0)
    {
      hob_reader_find (reader, line, _ ("the id '%s' is already used on line %d; choose another"),
                       said, before);
      return NULL;
    }
  g_hash_table_insert (reader->ids, g_strdup (id), GINT_TO_POINTER (line));
  return id;
}

/* ---- Settings ---- */

static const char **
setting_names (const HobKind *kind)
{
  const char **names = g_new0 (const char *, (gsize) kind->n_settings + 1);

  for (int i = 0, n = 0; i < kind->n_settings; i++)
    if (!kind->settings[i].condition)
      names[n++] = kind->settings[i].name;
  return names;
}

static void
find_unknown_setting (HobReader *reader, const HobPart *part, xmlNode *node, const char *name)
{
  g_autofree const char **names = setting_names (part->kind);
  g_autofree char *said = hob_reader_quote (name), *list = g_strjoinv (", ", (char **) names);
  g_autofree char *otherwise = *list != '\0' ? g_strdup_printf (_("it has %s"), list)
                                             : g_strdup (_("this kind has no settings, so remove "
                                                           "the <set>"));
  g_autofree char *advice = hob_reader_advice (reader, said, names, otherwise);

  hob_reader_find (reader, hob_tree_attribute_line (reader->tree, node, "name"),
                   _("part '%s': kind '%s' has no setting '%s'; %s"), part->id, part->kind->name,
                   said, advice);
}

/* @name as the file has it. */
static void
warn_of_old_name (HobReader *reader, const HobPart *part, int setting, xmlNode *node,
                  const char *name)
{
  const char *now = part->kind->settings[setting].name;

  if (strcmp (now, name) != 0)
    hob_reader_warn (reader, hob_tree_attribute_line (reader->tree, node, "name"),
                     _ ("'%s' is now called '%s'; use the new name"), name, now);
}

static void
note_setting (HobReader *reader, int part, int setting, const xmlNode *node)
{
  HobSetTag place = { part, setting, GPOINTER_TO_INT (node->_private) - 1 };

  if (place.tag >= 0)
    g_array_append_val (reader->tree->sets, place);
}

/* @seen: by setting, where it was set first. */
static void
read_setting (HobReader *reader, HobPart *part, int index, xmlNode *node, int *seen)
{
  const char *name = hob_xml_get (node, "name"), *value = hob_xml_get (node, "value");
  int setting, line = hob_tree_attribute_line (reader->tree, node, "value");
  g_autoptr (GError) error = NULL;

  if (name == NULL || value == NULL || !hob_reader_is_known (part->kind))
    return;
  setting = hob_kind_setting (part->kind, name);
  if (setting < 0)
    find_unknown_setting (reader, part, node, name);
  else if (seen[setting] > 0)
    hob_reader_find (reader, hob_tree_line (reader->tree, node),
                     _ ("part '%s': '%s' is already set on line %d; keep one of the two"), part->id,
                     name, seen[setting]);
  else if (!hob_setting_parse (&part->kind->settings[setting], value, &part->set[setting], &error))
    /* Translators: the id of a part, a setting, and what is wrong with it. */
    hob_reader_find (reader, line, _("part '%s': %s: %s"), part->id, name, error->message);
  if (setting >= 0 && seen[setting] == 0)
    {
      seen[setting] = hob_tree_line (reader->tree, node);
      warn_of_old_name (reader, part, setting, node, name);
      note_setting (reader, index, setting, node);
    }
}

/* ---- Places on the sheets ---- */

static const char *const sheets[] = {
  [HOB_SHEET_WIRING] = "wiring",
  [HOB_SHEET_GAS] = "gas",
  [HOB_SHEET_CUTAWAY] = "cutaway",
  NULL,
};

#define SHEET_EDGE 100000 /* px: beyond it nobody scrolls */

gboolean
hob_reader_coordinate (HobReader *reader, xmlNode *node, const char *name, double *px)
{
  const char *text = hob_xml_get (node, name), *element = (const char *) node->name;
  g_autoptr (GError) error = NULL;
  double value;

  if (text == NULL)
    return FALSE;
  if (!hob_parse_quantity (text, HOB_DIM_NUMBER, &value, &error))
    hob_reader_find (reader, hob_tree_attribute_line (reader->tree, node, name),
                     /* Translators: an element of the file, an attribute, and what is wrong with
                      * it. */
                     _("<%s>: %s: %s"), element, name, error->message);
  else if (fabs (value) > SHEET_EDGE)
    {
      g_autofree char *said = hob_reader_quote (text);

      hob_reader_find (reader, hob_tree_attribute_line (reader->tree, node, name),
                       _("<%s>: %s: '%s' is off the sheet; stay within ±%d"), element, name, said,
                       SHEET_EDGE);
    }
  else
    {
      *px = value;
      return TRUE;
    }
  return FALSE;
}

static int
find_sheet (HobReader *reader, const HobPart *part, xmlNode *node)
{
  const char *name = hob_xml_get (node, "sheet");
  g_autofree char *said = NULL, *advice = NULL;

  if (name == NULL)
    return -1;
  for (int i = 0; sheets[i] != NULL; i++)
    if (strcmp (sheets[i], name) == 0)
      return i;
  said = hob_reader_quote (name);
  advice = hob_reader_advice (reader, said, sheets, _("use wiring, gas, or cutaway"));
  hob_reader_find (reader, hob_tree_attribute_line (reader->tree, node, "sheet"),
                   _("part '%s': unknown sheet '%s'; %s"), part->id, said, advice);
  return -1;
}

static int
read_turn (HobReader *reader, const HobPart *part, xmlNode *node)
{
  static const char *const turns[] = { "0", "90", "180", "270" };
  const char *text = hob_xml_get (node, "turn");
  g_autofree char *said = NULL;

  for (int i = 0; i < 4; i++)
    if (text == NULL || strcmp (turns[i], text) == 0)
      return i;
  said = hob_reader_quote (text);
  hob_reader_find (reader, hob_tree_attribute_line (reader->tree, node, "turn"),
                   _("part '%s': '%s' is not a valid value of 'turn'; use 0, 90, 180, or 270"),
                   part->id, said);
  return 0;
}

static void
read_place (HobReader *reader, HobPart *part, xmlNode *node)
{
  int sheet = find_sheet (reader, part, node), turn = read_turn (reader, part, node);
  double x = 0, y = 0;
  gboolean known = hob_reader_coordinate (reader, node, "x", &x);

  known = hob_reader_coordinate (reader, node, "y", &y) && known;
  if (sheet < 0 || !known)
    return;
  if (part->at[sheet].placed)
    hob_reader_find (reader, hob_tree_line (reader->tree, node),
                     _("part '%s' is on the sheet '%s' twice; keep one <at>"), part->id,
                     sheets[sheet]);
  part->at[sheet] = (HobPlacement){ TRUE, x, y, turn };
}

/* ---- Parts ---- */

static const HobKind *
find_kind (HobReader *reader, const char *id, xmlNode *node)
{
  const char *name = hob_xml_get (node, "kind");
  const HobKind *kind = name != NULL ? hob_kind_find (name) : &unknown_kind;
  g_autofree const char **names = NULL;
  g_autofree char *said = NULL, *advice = NULL;

  if (kind != NULL && kind != &unknown_kind && strcmp (kind->name, name) != 0)
    hob_reader_warn (reader, hob_tree_attribute_line (reader->tree, node, "kind"),
                     _ ("'%s' is now called '%s'; use the new name"), name, kind->name);
  if (kind != NULL)
    return kind;
  names = hob_kind_names ();
  said = hob_reader_quote (name);
  advice = hob_reader_advice (reader, said, names, _("see 'hob list kinds'"));
  hob_reader_find (reader, hob_tree_attribute_line (reader->tree, node, "kind"),
                   _("part '%s': unknown kind '%s'; %s"), id, said, advice);
  return &unknown_kind;
}

static void
read_children (HobReader *reader, HobPart *part, int index, xmlNode *node)
{
  g_autofree int *seen = g_new0 (int, (gsize) part->kind->n_settings);

  for (xmlNode *child = node->children; child != NULL; child = child->next)
    {
      if (child->type != XML_ELEMENT_NODE)
        continue;
      if (strcmp ((const char *) child->name, "set") == 0)
        read_setting (reader, part, index, child, seen);
      else if (strcmp ((const char *) child->name, "at") == 0)
        read_place (reader, part, child);
    }
}

static void
read_part (HobReader *reader, xmlNode *node)
{
  const char *id = hob_reader_take_id (reader, node);
  const char *label = hob_xml_get (node, "label"), *number = hob_xml_get (node, "number");
  HobPart part = { .in = -1, .moved_by = -1 };

  if (id == NULL)
    return;
  part.kind = find_kind (reader, id, node);
  part.id = g_strdup (id);
  part.label = g_strdup (label != NULL              ? label
                         : part.kind->label != NULL ? _(part.kind->label)
                                                    : "");
  part.number = g_strdup (number != NULL ? number : "");
  part.line = hob_tree_line (reader->tree, node);
  part.set = g_new0 (double, (gsize) part.kind->n_settings);
  for (int i = 0; i < part.kind->n_settings; i++)
    part.set[i] = part.kind->settings[i].normal;
  read_children (reader, &part, (int) reader->parts->len, node);
  g_array_append_val (reader->parts, part);
  g_ptr_array_add (reader->nodes, node);
}

/* ---- What the parts say of each other ---- */

static int
part_named (const HobReader *reader, const char *id)
{
  return GPOINTER_TO_INT (g_hash_table_lookup (reader->tree->ids, id)) - 1;
}

char *
hob_reader_part_advice (HobReader *reader, const char *said)
{
  return hob_reader_advice (reader, said, reader->part_names,
                            /* Translators: end of a message about a part that isn't there. */
                            _("add that part or name another"));
}

/* The part that attribute @name names, −1 if it names none or nobody. */
static int
read_reference (HobReader *reader, const HobPart *part, xmlNode *node, const char *name)
{
  const char *text = hob_xml_get (node, name);
  int found = text != NULL ? part_named (reader, text) : -1;
  g_autofree char *said = NULL, *advice = NULL;

  if (text == NULL || found >= 0)
    return found;
  said = hob_reader_quote (text);
  advice = hob_reader_part_advice (reader, said);
  hob_reader_find (reader, hob_tree_attribute_line (reader->tree, node, name),
                   _("part '%s': attribute '%s' names '%s', which isn't a part; "
                     "%s"), part->id, name, said,
                   advice);
  return -1;
}

static void
read_surroundings (HobReader *reader, HobPart *part, xmlNode *node)
{
  const HobPart *parts = (const HobPart *) (void *) reader->parts->data;

  part->in = read_reference (reader, part, node, "in");
  part->moved_by = read_reference (reader, part, node, "moved-by");
  if (part->in >= 0 && hob_reader_is_known (parts[part->in].kind)
      && (parts[part->in].kind->flags & HOB_KIND_PLACE) == 0)
    hob_reader_find (
        reader, hob_tree_attribute_line (reader->tree, node, "in"),
        _("part '%s': '%s' (%s) can't hold a part; name a burner, a cavity, or the house"),
        part->id, parts[part->in].id, parts[part->in].kind->name);
  if (part->moved_by >= 0 && hob_reader_is_known (parts[part->moved_by].kind)
      && parts[part->moved_by].kind->turn == NULL)
    hob_reader_find (
        reader, hob_tree_attribute_line (reader->tree, node, "moved-by"),
        _ ("part '%s': '%s' (%s) can't operate this part; name a knob, an oven control, a sensing "
           "bulb, or a door"),
        part->id, parts[part->moved_by].id, parts[part->moved_by].kind->name);
}

/* Parts may name parts further down in the file, so they are known only when all are read. */
static void
index_parts (HobReader *reader)
{
  reader->part_names = g_new0 (const char *, (gsize) reader->parts->len + 1);
  for (guint i = 0; i < reader->parts->len; i++)
    {
      HobPart *part = &g_array_index (reader->parts, HobPart, i);

      reader->part_names[i] = part->id;
      g_hash_table_insert (reader->tree->ids, part->id, GINT_TO_POINTER (i + 1));
    }
}

static void
note_tags (HobReader *reader)
{
  reader->tree->part_tags = g_new0 (int, reader->nodes->len);
  for (guint i = 0; i < reader->nodes->len; i++)
    reader->tree->part_tags[i]
        = GPOINTER_TO_INT (((xmlNode *) reader->nodes->pdata[i])->_private) - 1;
}

void
hob_reader_read_parts (HobReader *reader, xmlNode *root)
{
  for (xmlNode *node = root->children; node != NULL; node = node->next)
    if (node->type == XML_ELEMENT_NODE && strcmp ((const char *) node->name, "part") == 0)
      read_part (reader, node);
  index_parts (reader);
  note_tags (reader);
  for (guint i = 0; i < reader->parts->len; i++)
    read_surroundings (reader, &g_array_index (reader->parts, HobPart, i), reader->nodes->pdata[i]);
}
