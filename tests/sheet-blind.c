/* SPDX-License-Identifier: GPL-3.0-or-later */

/* A picture for the eyes only gives nothing away: with nothing touched, a range with a fault that
 * no sense can get is drawn with the very strokes of a normal one. */

#include "config.h"
#include "recording-pen.h"
#include "shipped.h"
#include "staged.h"
#include <math.h>
#include <string.h>

#define SAMPLE 20 /* faults of each range */
#define AT 1.0    /* s */

static gboolean
same (double a, double b)
{
  return a == b || (isnan (a) && isnan (b));
}

/* Does any sense get something else from the two? */
static gboolean
senses_differ (const HobScene *a, const HobScene *b)
{
  for (int p = 0; p < a->range->n_parts; p++)
    for (int q = 0; q < a->range->parts[p].kind->n_quantities; q++)
      if (a->range->parts[p].kind->quantities[q].sense != HOB_SENSE_NONE
          && !same (a->parts[p].view.quantity[q], b->parts[p].view.quantity[q]))
        return TRUE;
  return FALSE;
}

static HobScene *
eyes_only (Staged *staged, gboolean eyes)
{
  staged->scene->eyes_only = eyes;
  staged_read (staged);
  return staged->scene;
}

/* One fault against the normal range; FALSE: a sense gets it. */
static gboolean
same_strokes (Staged *normal, Staged *faulty, const char *words)
{
  const HobLook look = { HOB_THEME_LIGHT, 1.0, 1.0 };

  if (senses_differ (eyes_only (normal, FALSE), eyes_only (faulty, FALSE)))
    return FALSE;
  eyes_only (normal, TRUE);
  eyes_only (faulty, TRUE);
  for (int sheet = 0; sheet < HOB_N_SHEETS; sheet++)
    {
      g_autofree char *one = recorded_still (normal->scene, (HobSheet) sheet, &look, FALSE);
      g_autofree char *other = recorded_still (faulty->scene, (HobSheet) sheet, &look, FALSE);

      if (strcmp (one, other) != 0)
        {
          g_test_message ("%s %s shows on sheet %d", normal->range->id, words, sheet);
          g_test_fail ();
        }
    }
  return TRUE;
}

static void
test_range (gconstpointer data)
{
  g_autoptr (Staged) normal = staged_new (data, NULL, AT);
  g_autoptr (GPtrArray) faults = staged_faults (normal->range);
  guint sample = full_sweep () ? faults->len : SAMPLE, hidden = 0, seen = 0;

  for (guint k = 0; k < faults->len && hidden < sample; k++)
    {
      g_autoptr (Staged) faulty = staged_new (data, faults->pdata[k], AT);

      if (same_strokes (normal, faulty, faults->pdata[k]))
        hidden++;
      else
        seen++;
    }
  g_test_message ("%s: %u faults that no sense gets, %u that one does", normal->range->id, hidden,
                  seen);
  g_assert_cmpuint (hidden, >=, SAMPLE);
}

int
main (int argc, char **argv)
{
  g_auto (GStrv) ranges = shipped_ranges ();

  g_test_init (&argc, &argv, NULL);
  for (char **range = ranges; *range != NULL; range++)
    {
      g_autofree char *path = g_strdup_printf ("/sheet/blind/%s", *range);

      g_test_add_data_func (path, *range, test_range);
    }
  return g_test_run ();
}
