/* SPDX-License-Identifier: GPL-3.0-or-later */

/* What only the whole range shows. */

#include "base/i18n.h"
#include "range/reader.h"

#include <string.h>

static const HobPart *
part_at (const HobReader *reader, int part)
{
  return &reader->range->parts[part];
}

/* ---- What is connected ---- */

/* An array index for every terminal (port) of every part. (transfer full) */
static int *
number_entries (const HobRange *range, gboolean ports, int *total)
{
  int *first = g_new0 (int, (gsize) range->n_parts + 1);

  *total = 0;
  for (int i = 0; i < range->n_parts; i++)
    {
      first[i] = *total;
      *total += ports ? range->parts[i].kind->n_ports : range->parts[i].kind->n_terminals;
    }
  return first;
}

static void
mark_used (guint8 *used, const int *first, const HobLine *lines, int n)
{
  for (int i = 0; i < n; i++)
    {
      used[first[lines[i].from.part] + lines[i].from.terminal] = 1;
      used[first[lines[i].to.part] + lines[i].to.terminal] = 1;
    }
}

/* An end whose other end was refused counts: one mistake, one finding.  Such lines are not in the
 * range, so the elements are asked. */
static void
mark_said (const HobReader *reader, guint8 *used, const int *first, gboolean ports)
{
  static const char *const ends[] = { "from", "to" };

  for (const xmlNode *node = reader->root->children; node != NULL; node = node->next)
    for (int k = 0; k < 2 && node->type == XML_ELEMENT_NODE; k++)
      {
        const char *text = hob_xml_get (node, ends[k]),
                   *dot = text != NULL ? strchr (text, '.') : NULL;
        g_autofree char *id = dot != NULL ? g_strndup (text, (gsize) (dot - text)) : NULL;
        int part
            = id != NULL ? GPOINTER_TO_INT (g_hash_table_lookup (reader->tree->ids, id)) - 1 : -1;
        const HobKind *kind = part >= 0 ? part_at (reader, part)->kind : NULL;
        int entry = kind == NULL ? -1
                    : ports      ? hob_kind_port (kind, dot + 1)
                                 : hob_kind_terminal (kind, dot + 1);

        if (entry >= 0)
          used[first[part] + entry] = 1;
      }
}

static void
find_open_terminals (HobReader *reader, int part, const guint8 *used)
{
  const HobPart *p = part_at (reader, part);

  for (int k = 0; k < p->kind->n_terminals; k++)
    {
      const HobTerminalDef *t = &p->kind->terminals[k];

      if (t->required && !used[k])
        hob_reader_find (
            reader, p->line,
            t->high_voltage ? _ (
                "part '%s': terminal '%s' (%s) is not connected; connect a <lead> to %s.%s")
                            : _ ("part '%s': terminal '%s' (%s) is not connected; connect a <wire> "
                                 "to %s.%s"),
            p->id, t->name, _ (t->words), p->id, t->name);
    }
}

static void
find_open_ports (HobReader *reader, int part, const guint8 *used)
{
  const HobPart *p = part_at (reader, part);

  for (int k = 0; k < p->kind->n_ports; k++)
    if (p->kind->ports[k].required && !used[k])
      hob_reader_find (
          reader, p->line,
          _ ("part '%s': port '%s' (%s) is not connected; connect a <pipe> to %s.%s"), p->id,
          p->kind->ports[k].name, _ (p->kind->ports[k].words), p->id, p->kind->ports[k].name);
}

static void
check_terminals (HobReader *reader)
{
  HobRange *range = reader->range;
  int total;
  int *first = number_entries (range, FALSE, &total);
  guint8 *used = g_new0 (guint8, (gsize) total + 1);
  g_autofree guint8 *said = g_new0 (guint8, (gsize) total + 1);

  mark_used (used, first, range->wires, range->n_wires);
  mark_used (used, first, range->leads, range->n_leads);
  mark_said (reader, said, first, FALSE);
  for (int i = 0; i < range->n_parts; i++)
    find_open_terminals (reader, i, said + first[i]);
  range->tree->first_terminal = first;
  range->tree->used = used;
}

static void
check_ports (HobReader *reader)
{
  int total;
  g_autofree int *first = number_entries (reader->range, TRUE, &total);
  g_autofree guint8 *said = g_new0 (guint8, (gsize) total + 1);

  mark_said (reader, said, first, TRUE);
  for (int i = 0; i < reader->range->n_parts; i++)
    find_open_ports (reader, i, said + first[i]);
}

/* ---- Circles ---- */

static int
named_by (const HobPart *part, gboolean moved)
{
  return moved ? part->moved_by : part->in;
}

static void
find_circle (HobReader *reader, int part, gboolean moved)
{
  const HobPart *p = part_at (reader, part);

  hob_reader_find (
      reader, p->line,
      moved ? _ ("part '%s' moves itself through '%s'; break the loop of 'moved-by' attributes")
            : _ ("part '%s' is inside itself through '%s'; break the loop of 'in' attributes"),
      p->id, part_at (reader, named_by (p, moved))->id);
}

/* Every part names one at most: following the names from each part once finds every circle once. */
static guint
check_circles (HobReader *reader, gboolean moved)
{
  int n = reader->range->n_parts;
  guint before = reader->findings->len;
  g_autofree int *walk = g_new0 (int, (gsize) n + 1); /* 0: not met; else the walk that met it */

  for (int i = 0; i < n; i++)
    {
      int at = i;

      while (at >= 0 && walk[at] == 0)
        {
          walk[at] = i + 1;
          at = named_by (part_at (reader, at), moved);
        }
      if (at >= 0 && walk[at] == i + 1)
        find_circle (reader, at, moved);
    }
  return reader->findings->len - before;
}

/* ---- How much of everything ---- */

/* A shipped range has some 70 parts and as many lines.  Laying out a drawing and solving a circuit
 * take a time that grows with the square of them: with this many it is a few seconds. */
#define MOST_PARTS 1000
#define MOST_LINES 1000 /* wires, pipes and leads together */
#define MOST_ALIKE 16   /* between the same two ends */

/* The same for a line and its reverse.  (transfer full) */
static char *
ends_key (const HobLine *line)
{
  gboolean forward = line->from.part < line->to.part
                     || (line->from.part == line->to.part
                         && line->from.terminal <= line->to.terminal);
  HobEnd a = forward ? line->from : line->to, b = forward ? line->to : line->from;

  return g_strdup_printf ("%d.%d %d.%d", a.part, a.terminal, b.part, b.terminal);
}

static const char *
terminal_name (const HobReader *reader, HobEnd end)
{
  return part_at (reader, end.part)->kind->terminals[end.terminal].name;
}

static void
check_alike (HobReader *reader, const HobLine *lines, int n)
{
  g_autoptr (GHashTable) count = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);

  for (int i = 0; i < n; i++)
    {
      char *key = ends_key (&lines[i]);
      int alike = GPOINTER_TO_INT (g_hash_table_lookup (count, key)) + 1;

      g_hash_table_insert (count, key, GINT_TO_POINTER (alike));
      if (alike == MOST_ALIKE + 1)
        hob_reader_find (reader, lines[i].line,
                         _ ("more than %d wires, pipes, or leads connect %s.%s to %s.%s; use "
                            "fewer"),
                         MOST_ALIKE,
                         part_at (reader, lines[i].from.part)->id,
                         terminal_name (reader, lines[i].from),
                         part_at (reader, lines[i].to.part)->id,
                         terminal_name (reader, lines[i].to));
    }
}

static void
check_amounts (HobReader *reader)
{
  const HobRange *range = reader->range;
  int line = hob_tree_line (reader->tree, reader->root);

  if (range->n_parts > MOST_PARTS)
    hob_reader_find (reader, line, _ ("the range has more than %d parts; use fewer"), MOST_PARTS);
  if (range->n_wires + range->n_pipes + range->n_leads > MOST_LINES)
    hob_reader_find (reader, line,
                     _ ("the range has more than %d wires, pipes, and leads; use fewer"),
                     MOST_LINES);
  check_alike (reader, range->wires, range->n_wires);
  check_alike (reader, range->leads, range->n_leads);
}

/* ---- What is in what ---- */

static int
first_with (const HobReader *reader, guint flag)
{
  for (int i = 0; i < reader->range->n_parts; i++)
    if (part_at (reader, i)->kind->flags & flag)
      return i;
  return -1;
}

/* The names of the kinds that are such a room. (transfer full) */
static char *
kinds_with_room (HobRooms rooms)
{
  g_autoptr (GPtrArray) names = g_ptr_array_new ();

  for (int i = 0; hob_kinds[i] != NULL; i++)
    if (hob_kinds[i]->room & rooms)
      g_ptr_array_add (names, (gpointer) hob_kinds[i]->name);
  g_ptr_array_add (names, NULL);
  return g_strjoinv (" or ", (char **) names->pdata);
}

static gboolean
may_be_in (const HobKind *kind, const HobKind *place)
{
  guint rooms = kind->may_be_in != 0 ? kind->may_be_in : HOB_ROOM_KITCHEN | HOB_ROOM_OVEN;

  return !hob_reader_is_known (kind) || !hob_reader_is_known (place) || (place->room & rooms) != 0;
}

static void
check_rooms (HobReader *reader)
{
  int house = first_with (reader, HOB_KIND_HOUSE);

  for (int i = 0; i < reader->range->n_parts; i++)
    {
      const HobPart *p = part_at (reader, i);
      int in = p->in >= 0 ? p->in : house;

      if (in < 0 || i == house || may_be_in (p->kind, part_at (reader, in)->kind))
        continue;
      g_autofree char *kinds = kinds_with_room (p->kind->may_be_in != 0
                                                    ? p->kind->may_be_in
                                                    : HOB_ROOM_KITCHEN | HOB_ROOM_OVEN);

      hob_reader_find (reader, p->line,
                       _ ("part '%s' (%s) can't be in '%s' (%s); put it in a part of kind %s"),
                       p->id, p->kind->name, part_at (reader, in)->id,
                       part_at (reader, in)->kind->name, kinds);
    }
}

/* ---- House and supplies ---- */

/* The first kind that has @flag; there is one. */
static const char *
kind_with (guint flag)
{
  int i = 0;

  while ((hob_kinds[i]->flags & flag) == 0)
    i++;
  return hob_kinds[i]->name;
}

/* A part of unknown kind may be what is missing: then nothing is said. */
static gboolean
is_missing (const HobReader *reader, guint flag)
{
  for (int i = 0; i < reader->range->n_parts; i++)
    if (!hob_reader_is_known (part_at (reader, i)->kind))
      return FALSE;
  return first_with (reader, flag) < 0;
}

static void
check_supplies (HobReader *reader)
{
  int line = hob_tree_line (reader->tree, reader->root);

  if (is_missing (reader, HOB_KIND_HOUSE))
    hob_reader_find (reader, line,
                     _("the range isn't connected to a house; add a part of kind '%s'"),
                     kind_with (HOB_KIND_HOUSE));
  if (is_missing (reader, HOB_KIND_SUPPLY_LINE))
    hob_reader_find (reader, line, _("the range has no electrical supply; add a part of kind '%s'"),
                     kind_with (HOB_KIND_SUPPLY_LINE));
  if (is_missing (reader, HOB_KIND_SUPPLY_GAS))
    hob_reader_find (reader, line, _("the range has no gas supply; add a part of kind '%s'"),
                     kind_with (HOB_KIND_SUPPLY_GAS));
}

/* The line of its <set>, 0 if the file leaves it alone. */
static int
setting_line (const HobReader *reader, int part, int setting)
{
  for (guint i = 0; i < reader->tree->sets->len; i++)
    {
      const HobSetTag *s = &g_array_index (reader->tree->sets, HobSetTag, i);

      if (s->part == part && s->setting == setting)
        return g_array_index (reader->tree->tags, HobTag, s->tag).line;
    }
  return 0;
}

/* What flows is what the plate says unless the file says otherwise. */
static void
check_fuel (HobReader *reader, int house)
{
  const HobPart *p = part_at (reader, house);
  int fuel = 0, line;

  while (fuel < p->kind->n_settings && p->kind->settings[fuel].of != HOB_SETTING_FUEL)
    fuel++;
  if (fuel == p->kind->n_settings)
    return;
  line = setting_line (reader, house, fuel);
  if (line == 0)
    p->set[fuel] = (double) reader->range->plate;
  else if ((int) p->set[fuel] != (int) reader->range->plate)
    hob_reader_warn (reader, line,
                     _ ("the data plate says %s, but the gas is %s; convert the orifices and the "
                        "regulator, or correct the file"),
                     p->kind->settings[fuel].choices[reader->range->plate],
                     p->kind->settings[fuel].choices[(int) p->set[fuel]]);
}

static void
check_houses (HobReader *reader)
{
  int house = first_with (reader, HOB_KIND_HOUSE);

  if (house < 0)
    return;
  for (int i = house + 1; i < reader->range->n_parts; i++)
    if (part_at (reader, i)->kind->flags & HOB_KIND_HOUSE)
      hob_reader_find (reader, part_at (reader, i)->line,
                       _("part '%s': the range already has a house supply, '%s'; keep only one"),
                       part_at (reader, i)->id, part_at (reader, house)->id);
  check_fuel (reader, house);
}

/* ---- What lights, and where ---- */

/* A spark gap is a part all of whose terminals are at high voltage. */
static gboolean
is_spark_gap (const HobKind *kind)
{
  for (int k = 0; k < kind->n_terminals; k++)
    if (!kind->terminals[k].high_voltage)
      return FALSE;
  return kind->n_terminals > 0;
}

static void
check_lighters (HobReader *reader)
{
  for (int i = 0; i < reader->range->n_parts; i++)
    {
      const HobPart *p = part_at (reader, i);
      gboolean lights = (p->kind->flags & HOB_KIND_IGNITER) || is_spark_gap (p->kind);

      if (lights && (p->in < 0 || !(part_at (reader, p->in)->kind->flags & HOB_KIND_BURNER)))
        hob_reader_warn (
            reader, p->line,
            _("part '%s' (%s) isn't at a burner, so it lights nothing; add in=\"BURNER\""), p->id,
            p->kind->name);
    }
}

void
hob_reader_check_whole (HobReader *reader)
{
  check_terminals (reader);
  check_ports (reader);
  check_amounts (reader);
  if (check_circles (reader, FALSE) == 0)
    check_rooms (reader);
  check_circles (reader, TRUE);
  check_supplies (reader);
  check_houses (reader);
  check_lighters (reader);
}
