/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "symptoms/look.h"

#include "base/errors.h"
#include "base/i18n.h"

static gboolean
refuse (const HobSymptomBook *book, const char *name, GError **error)
{
  g_autoptr (GPtrArray) names = g_ptr_array_new ();
  const char *near;

  for (int k = 0; k < hob_symptom_book_size (book); k++)
    g_ptr_array_add (names, (gpointer) hob_symptom_book_get (book, k)->id);
  g_ptr_array_add (names, NULL);
  near = hob_near_miss (name, (const char *const *) names->pdata);
  if (near != NULL)
    g_set_error (error, HOB_ERROR, HOB_ERROR_NAME,
                 _ ("'%s' is not a symptom; did you mean '%s'?"), name, near);
  else
    g_set_error (error, HOB_ERROR, HOB_ERROR_NAME,
                 _ ("'%s' is not a symptom; run 'hob list symptoms' to see them all"), name);
  return FALSE;
}

gboolean
hob_look (const HobBench *bench, const HobTest *test, double t, HobReading *reading, GError **error)
{
  int symptom = hob_symptom_book_find (bench->book, test->symptom);

  if (symptom < 0)
    return refuse (bench->book, test->symptom, error);
  if (!hob_symptom_book_may_show (bench->book, symptom, hob_bench_range (bench)))
    {
      g_set_error (error, HOB_ERROR, HOB_ERROR_NAME,
                   _ ("'%s' is a symptom of a part that this range doesn't have; choose another "
                      "one from 'hob list symptoms'"),
                   test->symptom);
      return FALSE;
    }
  *reading = (HobReading){ hob_bench_noticed (bench, symptom, test->part, t) ? 1 : 0, "seen", NULL,
                           TRUE };
  return TRUE;
}
