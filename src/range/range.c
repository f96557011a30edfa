/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "range/range.h"

#include "base/data.h"
#include "base/errors.h"
#include "base/i18n.h"
#include "parts/renamed.h"
#include "range/tree.h"

#include <string.h>

/* ---- Life ---- */

static void
clear_part (HobPart *part)
{
  g_free (part->id);
  g_free (part->label);
  g_free (part->number);
  g_free (part->set);
}

static void
free_lines (HobLine *lines, int n)
{
  for (int i = 0; i < n; i++)
    {
      g_free (lines[i].id);
      g_free (lines[i].bends);
    }
  g_free (lines);
}

/* Another list of wires or pipes is its own, all else is the other range's. */
static void
free_changed (HobRange *range)
{
  if (range->wires != range->of->wires)
    g_free (range->wires);
  if (range->pipes != range->of->pipes)
    g_free (range->pipes);
  hob_range_unref (range->of);
  g_free (range);
}

HobRange *
hob_range_ref (HobRange *range)
{
  g_return_val_if_fail (range != NULL, NULL);

  g_atomic_ref_count_inc (&range->refs);
  return range;
}

void
hob_range_unref (HobRange *range)
{
  if (range == NULL || !g_atomic_ref_count_dec (&range->refs))
    return;
  if (range->of != NULL)
    {
      free_changed (range);
      return;
    }
  hob_tree_free (range->tree);
  for (int i = 0; i < range->n_parts; i++)
    clear_part (&range->parts[i]);
  g_free (range->parts);
  free_lines (range->wires, range->n_wires);
  free_lines (range->pipes, range->n_pipes);
  free_lines (range->leads, range->n_leads);
  g_free (range->file);
  g_free (range->id);
  g_free (range->name);
  g_free (range->note);
  g_free (range);
}

/* ---- With one line changed ---- */

static HobRange *
same_range (const HobRange *range)
{
  HobRange *same = g_memdup2 (range, sizeof *range);

  same->of = hob_range_ref ((HobRange *) range);
  g_atomic_ref_count_init (&same->refs);
  return same;
}

static HobLine *
with_diameter (const HobLine *lines, int n, int line, double diameter)
{
  HobLine *changed = g_memdup2 (lines, (gsize) n * sizeof *lines);

  changed[line].diameter = diameter;
  return changed;
}

HobRange *
hob_range_with_wire (const HobRange *range, int wire, double diameter)
{
  HobRange *same;

  g_return_val_if_fail (range != NULL && wire >= 0 && wire < range->n_wires && diameter > 0, NULL);

  same = same_range (range);
  same->wires = with_diameter (range->wires, range->n_wires, wire, diameter);
  return same;
}

HobRange *
hob_range_with_pipe (const HobRange *range, int pipe, double diameter)
{
  HobRange *same;

  g_return_val_if_fail (range != NULL && pipe >= 0 && pipe < range->n_pipes && diameter > 0, NULL);

  same = same_range (range);
  same->pipes = with_diameter (range->pipes, range->n_pipes, pipe, diameter);
  return same;
}

/* ---- Findings ---- */

void
hob_finding_free (HobFinding *finding)
{
  if (finding == NULL)
    return;
  g_free (finding->file);
  g_free (finding->text);
  g_free (finding);
}

char *
hob_finding_text (const HobFinding *finding)
{
  g_return_val_if_fail (finding != NULL, NULL);

  return g_strdup_printf ("%s:%d: %s", finding->file, finding->line, finding->text);
}

/* ---- Names ---- */

int
hob_range_part (const HobRange *range, const char *id)
{
  g_return_val_if_fail (range != NULL && id != NULL, -1);

  return GPOINTER_TO_INT (g_hash_table_lookup (range->tree->ids, id)) - 1;
}

/* Says the near miss among @names, or @otherwise.  Ends @names by NULL. */
static gboolean
refuse_name (GError **error, const char *said, GPtrArray *names, const char *otherwise)
{
  const char *near;

  g_ptr_array_add (names, NULL);
  near = hob_near_miss (said, (const char *const *) names->pdata);
  if (near != NULL)
    g_set_error (error, HOB_ERROR, HOB_ERROR_NAME, _("this range has no '%s'; did you mean '%s'?"),
                 said, near);
  else
    g_set_error (error, HOB_ERROR, HOB_ERROR_NAME, _ ("this range has no '%s'; %s"), said,
                 otherwise);
  return FALSE;
}

static gboolean
refuse_part (const HobRange *range, GError **error, const char *said, const char *list)
{
  g_autoptr (GPtrArray) names = g_ptr_array_new ();
  g_autofree char *otherwise = g_strdup_printf (_("see 'hob list RANGE %s'"), list);

  for (int i = 0; i < range->n_parts; i++)
    g_ptr_array_add (names, range->parts[i].id);
  return refuse_name (error, said, names, otherwise);
}

/* The tables of a kind whose entries can be named from outside. */
typedef enum { TERMINALS, PORTS, QUANTITIES, SETTINGS, CONTROLS, FAULTS } TableName;

static const char *
entry_name (const HobKind *kind, TableName table, int k)
{
  switch (table)
    {
    case TERMINALS:
      return k < kind->n_terminals ? kind->terminals[k].name : NULL;
    case PORTS:
      return k < kind->n_ports ? kind->ports[k].name : NULL;
    case QUANTITIES:
      return k < kind->n_quantities ? kind->quantities[k].name : NULL;
    case SETTINGS:
      return k < kind->n_settings ? kind->settings[k].name : NULL;
    case CONTROLS:
      return k < kind->n_controls ? kind->controls[k].name : NULL;
    case FAULTS:
      return k < kind->n_faults ? kind->faults[k].id : NULL;
    default:
      return NULL;
    }
}

/* A condition is nobody's to set, a fault without its terminal is not there. */
static gboolean
entry_is_there (const HobRange *range, int part, TableName table, int k)
{
  if (table == SETTINGS)
    return !range->parts[part].kind->settings[k].condition;
  if (table == FAULTS)
    return hob_range_has_fault (range, part, k);
  return TRUE;
}

static const struct
{
  char mark;
  const char *list;
} table_words[] = {
  [TERMINALS] = { '.', "terminals" },   [PORTS] = { '.', "tests" },
  [QUANTITIES] = { '.', "quantities" }, [SETTINGS] = { '.', "settings" },
  [CONTROLS] = { '.', "controls" },     [FAULTS] = { ':', "faults" },
};

/* A control without a name of its own is called as its part. */
static char *
full_name (const HobPart *part, TableName table, const char *entry)
{
  if (*entry == '\0')
    return g_strdup (part->id);
  return g_strdup_printf ("%s%c%s", part->id, table_words[table].mark, entry);
}

static gboolean
refuse_entry (const HobRange *range, int part, TableName table, const char *said, GError **error)
{
  g_autoptr (GPtrArray) names = g_ptr_array_new_with_free_func (g_free);
  const HobPart *p = &range->parts[part];
  g_autofree char *list = NULL, *otherwise = NULL;
  const char *entry;

  for (int k = 0; (entry = entry_name (p->kind, table, k)) != NULL; k++)
    if (entry_is_there (range, part, table, k))
      g_ptr_array_add (names, full_name (p, table, entry));
  if (names->len == 0)
    /* Translators: end of a message: no terminals, ports, quantities, or whatever was asked for. */
    return refuse_name (error, said, names, _("that part has nothing that fits here, so name "
                                              "another part"));
  g_ptr_array_add (names, NULL);
  list = g_strjoinv (", ", (char **) names->pdata);
  /* Translators: end of a message about an unknown name. */
  otherwise = g_strdup_printf (_("use one of: %s"), list);
  return refuse_name (error, said, names, otherwise);
}

/* Index of @word in the @table of @part; -1 if it has none. */
static int
entry_index (const HobRange *range, int part, TableName table, const char *word)
{
  const char *name;

  for (int k = 0; (name = entry_name (range->parts[part].kind, table, k)) != NULL; k++)
    if (strcmp (name, word) == 0 && entry_is_there (range, part, table, k))
      return k;
  return -1;
}

/* The same by the name of an earlier version, and says so where a program listens to its log. */
static int
renamed_index (const HobRange *range, int part, TableName table, const char *word)
{
  const char *now = hob_renamed (word);
  int index = now != NULL ? entry_index (range, part, table, now) : -1;

  if (index >= 0)
    {
      g_autofree char *text
          = g_strdup_printf (_ ("'%s' is now called '%s'; use the new name"), word, now);

      g_message ("warning: %s", text);
    }
  return index;
}

/* "PART.ENTRY" (":" for faults), or "PART" alone for an entry without a name. */
static gboolean
find_entry (const HobRange *range, const char *name, TableName table, int *part, int *entry,
            GError **error)
{
  const char *mark = strchr (name, table_words[table].mark);
  const char *word = mark != NULL ? mark + 1 : "";
  g_autofree char *id = mark != NULL ? g_strndup (name, (gsize) (mark - name)) : g_strdup (name);

  *part = hob_range_part (range, id);
  if (*part < 0)
    return refuse_part (range, error, id, table_words[table].list);
  *entry = entry_index (range, *part, table, word);
  if (*entry < 0)
    *entry = renamed_index (range, *part, table, word);
  return *entry >= 0 || refuse_entry (range, *part, table, name, error);
}

gboolean
hob_range_find_terminal (const HobRange *range, const char *name, HobEnd *end, GError **error)
{
  return find_entry (range, name, TERMINALS, &end->part, &end->terminal, error);
}

gboolean
hob_range_find_port (const HobRange *range, const char *name, HobEnd *end, GError **error)
{
  return find_entry (range, name, PORTS, &end->part, &end->terminal, error);
}

gboolean
hob_range_find_quantity (const HobRange *range, const char *name, int *part, int *quantity,
                         GError **error)
{
  return find_entry (range, name, QUANTITIES, part, quantity, error);
}

gboolean
hob_range_find_setting (const HobRange *range, const char *name, int *part, int *setting,
                        GError **error)
{
  return find_entry (range, name, SETTINGS, part, setting, error);
}

gboolean
hob_range_find_control (const HobRange *range, const char *name, int *part, int *control,
                        GError **error)
{
  return find_entry (range, name, CONTROLS, part, control, error);
}

gboolean
hob_range_find_fault (const HobRange *range, const char *name, int *part, int *fault,
                      GError **error)
{
  return find_entry (range, name, FAULTS, part, fault, error);
}

char *
hob_range_control_name (const HobRange *range, int part, int control)
{
  const HobPart *p = &range->parts[part];

  return full_name (p, CONTROLS, p->kind->controls[control].name);
}

gboolean
hob_range_control_is_for (const HobRange *range, const HobControlDef *control, int at)
{
  return at >= 0 && at < range->n_parts && (range->parts[at].kind->room & control->at) != 0;
}

gboolean
hob_range_control_at (const HobRange *range, int at, int *part, int *control)
{
  for (*part = 0; *part < range->n_parts; ++*part)
    for (*control = 0; *control < range->parts[*part].kind->n_controls; ++*control)
      if (hob_range_control_is_for (range, &range->parts[*part].kind->controls[*control], at))
        return TRUE;
  return FALSE;
}

static gboolean
refuse_place (const HobRange *range, const HobControlDef *control, const char *text,
              GError **error)
{
  g_autoptr (GString) places = g_string_new (NULL);

  for (const HobPosition *p = control->positions; p->name != NULL; p++)
    g_string_append_printf (places, "%s%s", places->len > 0 ? ", " : "", p->name);
  for (int k = 0; k < range->n_parts; k++)
    if (hob_range_control_is_for (range, control, k))
      g_string_append_printf (places, ", %s", range->parts[k].id);
  g_set_error (error, HOB_ERROR, HOB_ERROR_VALUE, _ ("'%s' is not a choice here; use one of: %s"),
               text, places->str);
  return FALSE;
}

gboolean
hob_range_control_parse (const HobRange *range, const HobControlDef *control, const char *text,
                         double *value, GError **error)
{
  int at = hob_range_part (range, text);

  if (control->at == 0 || hob_control_parse (control, text, value, NULL))
    return hob_control_parse (control, text, value, error);
  if (!hob_range_control_is_for (range, control, at))
    return refuse_place (range, control, text, error);
  *value = HOB_AT (at);
  return TRUE;
}

char *
hob_range_control_text (const HobRange *range, const HobControlDef *control, double value)
{
  for (int k = 0; k < range->n_parts; k++)
    if (value == HOB_AT (k) && hob_range_control_is_for (range, control, k))
      return g_strdup (range->parts[k].id);
  return hob_control_text (control, value);
}

gboolean
hob_range_terminal_used (const HobRange *range, int part, int terminal)
{
  return range->tree->used[range->tree->first_terminal[part] + terminal];
}

gboolean
hob_range_has_fault (const HobRange *range, int part, int fault)
{
  const HobFaultDef *def = &range->parts[part].kind->faults[fault];

  return (def->needs == 0 || hob_range_terminal_used (range, part, def->needs - 1))
         && (def->plate == 0 || def->plate == HOB_PLATE (range->plate));
}

/* ---- Where ranges are ---- */

static void
add_shipped (GPtrArray *names)
{
  g_autofree char *folder = hob_data_path (HOB_DATA_RANGES, NULL);
  g_autoptr (GDir) dir = g_dir_open (folder, 0, NULL);
  const char *name;

  while (dir != NULL && (name = g_dir_read_name (dir)) != NULL)
    if (g_str_has_suffix (name, ".xml"))
      g_ptr_array_add (names, g_strndup (name, strlen (name) - strlen (".xml")));
}

char *
hob_range_near_word (const char *word)
{
  g_autoptr (GPtrArray) names = g_ptr_array_new_with_free_func (g_free);

  add_shipped (names);
  g_ptr_array_add (names, NULL);
  return g_strdup (hob_near_miss (word, (const char *const *) names->pdata));
}

char *
hob_range_locate (const char *word)
{
  g_autofree char *file = NULL, *path = NULL;

  g_return_val_if_fail (word != NULL, NULL);

  if (*word == '\0' || strchr (word, G_DIR_SEPARATOR) != NULL
      || g_file_test (word, G_FILE_TEST_EXISTS))
    return g_strdup (word);
  file = g_str_has_suffix (word, ".xml") ? g_strdup (word) : g_strconcat (word, ".xml", NULL);
  path = hob_data_path (HOB_DATA_RANGES, file);
  return g_file_test (path, G_FILE_TEST_IS_REGULAR) ? g_steal_pointer (&path) : g_strdup (word);
}
