/* SPDX-License-Identifier: GPL-3.0-or-later */

#include "reason/trials-cache.h"

#include "base/write-file.h"

#include <glib/gstdio.h>
#include <string.h>

static void
clear_moment (gpointer item)
{
  HobTrialMoment *m = item;

  g_free (m->answers);
  g_free (m->spread);
}

HobTrial *
hob_trial_new (const HobCase *acts)
{
  HobTrial *trial = g_new0 (HobTrial, 1);

  trial->acts = hob_case_copy (acts);
  trial->noticed = g_array_new (FALSE, FALSE, sizeof (HobTrialNoticed));
  trial->moments = g_array_new (FALSE, FALSE, sizeof (HobTrialMoment));
  g_array_set_clear_func (trial->moments, clear_moment);
  hob_trial_clear (trial);
  return trial;
}

void
hob_trial_clear (HobTrial *trial)
{
  trial->until = -1;
  g_array_set_size (trial->noticed, 0);
  g_array_set_size (trial->moments, 0);
  g_clear_pointer (&trial->reached, g_free);
}

void
hob_trial_free (HobTrial *trial)
{
  hob_trial_clear (trial);
  hob_case_free (trial->acts);
  g_array_unref (trial->noticed);
  g_array_unref (trial->moments);
  g_free (trial);
}

/* ---- The file: this machine's numbers, since no other machine reads it ---- */

typedef struct
{
  guint32 n_runs, n_answers, n_noticed, n_moments;
  double until;
} Head;

static gboolean
take (const char **at, const char *end, void *to, gsize size)
{
  if ((gsize) (end - *at) < size)
    return FALSE;
  if (size > 0) /* an empty array has no place */
    memcpy (to, *at, size);
  *at += size;
  return TRUE;
}

static gboolean
take_moment (HobTrial *trial, const char **at, const char *end, gsize cells)
{
  HobTrialMoment m = { 0, NULL, NULL };

  if (!take (at, end, &m.t, sizeof m.t) || (gsize) (end - *at) < cells * sizeof (float))
    return FALSE;
  m.answers = g_memdup2 (*at, cells * sizeof (float));
  *at += cells * sizeof (float);
  g_array_append_val (trial->moments, m);
  return TRUE;
}

/* A file that is too short or too long is as good as none. */
static gboolean
take_trial (HobTrial *trial, const char *at, const char *end, guint n_runs, guint n_answers)
{
  Head head;

  if (!take (&at, end, &head, sizeof head) || head.n_runs != n_runs || head.n_answers != n_answers
      || (gsize) (end - at) < n_runs * sizeof (float)
                                  + (gsize) head.n_noticed * sizeof (HobTrialNoticed))
    return FALSE;
  trial->reached = g_new (float, n_runs);
  g_array_set_size (trial->noticed, head.n_noticed);
  if (!take (&at, end, trial->reached, n_runs * sizeof (float))
      || !take (&at, end, trial->noticed->data, head.n_noticed * sizeof (HobTrialNoticed)))
    return FALSE;
  for (guint k = 0; k < head.n_moments; k++)
    if (!take_moment (trial, &at, end, n_answers))
      return FALSE;
  for (guint k = 0; k < head.n_noticed; k++)
    if ((guint) g_array_index (trial->noticed, HobTrialNoticed, k).run >= n_runs)
      return FALSE;
  trial->until = head.until;
  return at == end;
}

static char *
file_of (const char *key)
{
  g_autofree char *name = g_strconcat ("trial-", key, ".bin", NULL);

  return g_build_filename (g_get_user_cache_dir (), "hobwright", name, NULL);
}

gboolean
hob_trial_load (HobTrial *trial, const char *key, guint n_runs, guint n_answers)
{
  g_autofree char *file = file_of (key), *data = NULL;
  gsize size;

  hob_trial_clear (trial);
  if (!g_file_get_contents (file, &data, &size, NULL))
    return FALSE;
  if (take_trial (trial, data, data + size, n_runs, n_answers))
    return TRUE;
  hob_trial_clear (trial);
  return FALSE;
}

void
hob_trial_store (const HobTrial *trial, const char *key, guint n_runs, guint n_answers)
{
  g_autofree char *file = file_of (key), *folder = g_path_get_dirname (file);
  g_autoptr (GByteArray) data = g_byte_array_new ();
  Head head = { n_runs, n_answers, trial->noticed->len, trial->moments->len, trial->until };

  g_byte_array_append (data, (const guint8 *) &head, sizeof head);
  g_byte_array_append (data, (const guint8 *) trial->reached, n_runs * sizeof (float));
  g_byte_array_append (data, (const guint8 *) trial->noticed->data,
                       trial->noticed->len * (guint) sizeof (HobTrialNoticed));
  for (guint k = 0; k < trial->moments->len; k++)
    {
      const HobTrialMoment *m = &g_array_index (trial->moments, HobTrialMoment, k);

      g_byte_array_append (data, (const guint8 *) &m->t, sizeof m->t);
      g_byte_array_append (data, (const guint8 *) m->answers,
                           n_answers * (guint) sizeof (float));
    }
  if (g_mkdir_with_parents (folder, 0700) == 0)
    hob_write_file (file, (const char *) data->data, data->len, NULL);
}
