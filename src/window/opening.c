/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "window/opening.h"

#include "base/data.h"
#include "base/i18n.h"
#include "base/write-file.h"
#include "window/words.h"

#include <string.h>

/* ---- Reading a file ---- */

/* The folder is left out: the list is about one file, and its name is what an editor shows. */
static char *
line_of_error (const char *file, const GError *error)
{
  const char *folder_end = strrchr (file, G_DIR_SEPARATOR);

  if (folder_end == NULL || !g_str_has_prefix (error->message, file))
    return g_strdup (error->message);
  return g_strdup (error->message + (folder_end + 1 - file));
}

static char *
line_of_finding (const HobFinding *finding)
{
  g_autofree char *name = g_path_get_basename (finding->file);

  return g_strdup_printf ("%s:%d: %s", name, finding->line, finding->text);
}

HobOpening *
hob_opening_new (const char *file)
{
  HobOpening *self = g_new0 (HobOpening, 1);
  g_autoptr (GPtrArray) findings
      = g_ptr_array_new_with_free_func ((GDestroyNotify) hob_finding_free);
  g_autoptr (GError) error = NULL;

  self->file = g_canonicalize_filename (file, NULL);
  self->lines = g_ptr_array_new_with_free_func (g_free);
  self->c = hob_case_load (self->file, findings, &error);
  self->range = self->c != NULL ? self->c->range : NULL;
  for (guint i = 0; i < findings->len; i++)
    g_ptr_array_add (self->lines, line_of_finding (findings->pdata[i]));
  if (self->range == NULL && findings->len == 0)
    g_ptr_array_add (self->lines, line_of_error (self->file, error));
  return self;
}

gboolean
hob_opening_is_case (const HobOpening *self)
{
  return self->c != NULL && !hob_same_file (self->file, self->range->file);
}

void
hob_opening_free (HobOpening *self)
{
  if (self == NULL)
    return;
  hob_case_file_free (self->c);
  g_ptr_array_unref (self->lines);
  g_free (self->file);
  g_free (self);
}

char *
hob_opening_title (const HobOpening *self)
{
  g_autofree char *name = g_path_get_basename (self->file);
  guint n = self->lines->len;

  if (self->range != NULL)
    return g_strdup_printf (
        ngettext ("%s is open, with %u warning.", "%s is open, with %u warnings.", n),
        name, n);
  return g_strdup_printf (ngettext ("%s can't be opened. It has %u problem.",
                                    "%s can't be opened. It has %u problems.", n),
                          name, n);
}

/* ---- Taking along what was done ---- */

static gboolean
parse_act (HobCase *into, HobActWhat what, const char *text)
{
  g_autofree char *at_start = g_strconcat ("0s ", text, NULL);

  switch (what)
    {
    case HOB_ACT_CONTROL:
      return hob_case_do (into, at_start, NULL);
    case HOB_ACT_FAULT:
    case HOB_ACT_LIFT:
      return hob_case_fault (into, text, NULL);
    case HOB_ACT_SETTING:
      return hob_case_setting (into, text, NULL);
    default:
      g_return_val_if_reached (FALSE);
    }
}

static gboolean
is_choice (const HobRange *range, const HobAct *act)
{
  const HobKind *kind = range->parts[act->part].kind;

  if (act->what == HOB_ACT_CONTROL)
    return kind->controls[act->index].dim == HOB_DIM_CHOICE;
  return act->what == HOB_ACT_SETTING && kind->settings[act->index].dim == HOB_DIM_CHOICE;
}

/* An act finds its place in another range by the words that a person would type.  That text is
 * rounded, so a number is taken over as it was. */
static gboolean
carry_act (const HobRange *from, const HobRange *to, const HobAct *act, HobAct *carried)
{
  g_autoptr (HobCase) one = hob_case_new (to);
  g_autofree char *text = hob_act_text (from, act);

  if (!parse_act (one, act->what, text))
    return FALSE;
  *carried = g_array_index (one->acts, HobAct, 0);
  carried->ms = act->ms;
  if (!is_choice (to, carried))
    carried->value = act->value;
  return TRUE;
}

HobCase *
hob_case_carry (const HobCase *from, const HobRange *range, GPtrArray *left_out)
{
  HobCase *to = hob_case_new (range);

  to->seed = from->seed;
  for (guint i = 0; i < from->acts->len; i++)
    {
      const HobAct *act = &g_array_index (from->acts, HobAct, i);
      g_autofree char *text = hob_act_words (from->range, act), *clock = hob_clock_text (act->ms);
      HobAct carried;

      if (carry_act (from->range, range, act, &carried))
        hob_case_add (to, carried);
      else
        g_ptr_array_add (left_out, g_strdup_printf ("%s: %s", clock, text));
    }
  return to;
}

/* ---- The ranges that come with the program ---- */

static void
shipped_free (gpointer data)
{
  HobShipped *shipped = data;

  g_free (shipped->file);
  g_free (shipped->name);
  g_free (shipped);
}

static int
by_name (gconstpointer a, gconstpointer b)
{
  const HobShipped *one = *(HobShipped *const *) a, *other = *(HobShipped *const *) b;

  return g_utf8_collate (one->name, other->name);
}

static void
add_shipped (GPtrArray *ranges, const char *folder, const char *name)
{
  g_autofree char *file = g_build_filename (folder, name, NULL);
  g_autoptr (HobRange) range
      = g_str_has_suffix (name, ".xml") ? hob_range_load (file, NULL, NULL) : NULL;
  HobShipped *shipped;

  if (range == NULL)
    return;
  shipped = g_new (HobShipped, 1);
  shipped->file = g_steal_pointer (&file);
  shipped->name = g_strdup (hob_range_name (range));
  g_ptr_array_add (ranges, shipped);
}

GPtrArray *
hob_shipped_ranges (void)
{
  g_autofree char *folder = hob_data_path (HOB_DATA_RANGES, NULL);
  GPtrArray *ranges = g_ptr_array_new_with_free_func (shipped_free);
  g_autoptr (GDir) dir = g_dir_open (folder, 0, NULL);
  const char *name;

  while (dir != NULL && (name = g_dir_read_name (dir)) != NULL)
    add_shipped (ranges, folder, name);
  g_ptr_array_sort (ranges, by_name);
  return ranges;
}
