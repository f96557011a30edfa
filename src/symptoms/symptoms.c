/* SPDX-License-Identifier: GPL-3.0-or-later */

/* What is asked of the book of symptoms. */
#include "symptoms/pressed.h"

#include "base/data.h"
#include "base/errors.h"
#include "base/i18n.h"

#include <math.h>
#include <string.h>

HobSymptomBook *
hob_symptom_book_load (const char *file, GError **error)
{
  g_autofree char *name
      = file != NULL ? g_strdup (file) : hob_data_path (HOB_DATA_FILES, "symptoms.xml");
  g_autofree char *data = NULL;
  g_autoptr (GError) wrong = NULL;
  HobSymptomBook *book;
  gsize size;

  if (!g_file_get_contents (name, &data, &size, &wrong) || size > G_MAXINT)
    {
      g_set_error (error, HOB_ERROR, HOB_ERROR_UNREADABLE, "%s:1: %s", name,
                   wrong != NULL ? wrong->message : _("the file is too large"));
      return NULL;
    }
  book = hob_book_shipped (data, size);
  return book != NULL ? book : hob_book_read (name, data, size, error);
}

guint64
hob_symptom_book_hash (const HobSymptomBook *book)
{
  return book->hash;
}

int
hob_symptom_book_size (const HobSymptomBook *book)
{
  return (int) book->entries->len;
}

const HobSymptom *
hob_symptom_book_get (const HobSymptomBook *book, int index)
{
  g_return_val_if_fail (index >= 0 && index < hob_symptom_book_size (book), NULL);

  return &hob_symptom_book_entry (book, index)->symptom;
}

/* The oven bottom hides only what is behind it. */
HobMeans
hob_symptom_means (const HobSymptom *symptom)
{
  HobMeans means = HOB_MEANS_LOOK;

  for (guint i = 0; i < HOB_N_WITHS; i++)
    if ((symptom->with & hob_withs[i].bit)
        && hob_means[hob_withs[i].means].minutes > hob_means[means].minutes)
      means = hob_withs[i].means;
  return means;
}

guint
hob_symptom_with (const HobSymptom *symptom, const HobPart *part)
{
  gboolean hidden
      = part == NULL || (part->kind->covered != NULL && part->kind->covered (part->set));

  return hidden ? symptom->with : symptom->with & ~(guint) HOB_WITH_BOTTOM_OUT;
}

char *
hob_symptom_words (const HobSymptom *symptom, const HobPart *part)
{
  guint with = hob_symptom_with (symptom, part);
  g_autoptr (GString) needs = g_string_new (NULL);

  if (part == NULL && (with & HOB_WITH_BOTTOM_OUT))
    return g_strdup_printf (_ ("%s (bake burner: look with the oven bottom out)"),
                            symptom->technician);
  for (guint i = 0; i < HOB_N_WITHS; i++)
    if (with & hob_withs[i].bit)
      g_string_append_printf (needs, "%s%s", needs->len > 0 ? ", " : "", _(hob_withs[i].words));
  return needs->len > 0 ? g_strdup_printf (_ ("%s (%s)"), symptom->technician, needs->str)
                        : g_strdup (symptom->technician);
}

char *
hob_symptom_words_at (const HobSymptom *symptom, const HobPart *part)
{
  g_autofree char *words = hob_symptom_words (symptom, part);

  return part == NULL ? g_steal_pointer (&words)
                      : g_strdup_printf (_ ("%s: %s"), hob_part_label (part), words);
}

gboolean
hob_symptom_book_next_degree (const HobSymptomBook *book, int a, int b)
{
  return hob_symptom_book_get (book, a)->less == b || hob_symptom_book_get (book, b)->less == a;
}

gboolean
hob_symptom_book_may_show (const HobSymptomBook *book, int index, const HobRange *range)
{
  const HobEntry *entry = hob_symptom_book_entry (book, index);

  for (int p = 0; entry->each != NULL && p < range->n_parts; p++)
    if (g_ptr_array_find (entry->each, range->parts[p].kind, NULL))
      return TRUE;
  return entry->each == NULL;
}

gboolean
hob_symptom_book_calls (const HobSymptomBook *book, int index)
{
  const HobEntry *entry = hob_symptom_book_entry (book, index);

  for (guint k = 0; k < entry->conditions->len; k++)
    {
      const HobCondition *c = &g_array_index (entry->conditions, HobCondition, k);

      if (c->subject == HOB_SUBJECT_CALLER
          || (c->measure == HOB_MEASURE_ASKED && c->bound == HOB_BOUND_AT_LEAST))
        return TRUE;
    }
  return FALSE;
}

gboolean
hob_symptom_book_is_felt (const HobSymptomBook *book, int index)
{
  const HobEntry *entry = hob_symptom_book_entry (book, index);
  gboolean all = entry->each != NULL;

  for (guint k = 0; all && k < entry->each->len; k++)
    all = (((const HobKind *) entry->each->pdata[k])->flags & HOB_KIND_LIVES) != 0;
  return all;
}
