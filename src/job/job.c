/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "job/job.h"

#include "base/data.h"
#include "base/errors.h"
#include "base/i18n.h"
#include "base/write-file.h"

#include <string.h>

/* ---- Evidence ---- */

static void
copy_evidence (GPtrArray *const *from, GPtrArray **to)
{
  for (int k = 0; k < HOB_N_EVIDENCE; k++)
    {
      g_ptr_array_set_size (to[k], 0);
      for (guint i = 0; i < from[k]->len; i++)
        g_ptr_array_add (to[k], g_strdup (from[k]->pdata[i]));
    }
}

static gboolean
same_evidence (GPtrArray *const *a, GPtrArray *const *b)
{
  for (int k = 0; k < HOB_N_EVIDENCE; k++)
    {
      if (a[k]->len != b[k]->len)
        return FALSE;
      for (guint i = 0; i < a[k]->len; i++)
        if (!g_str_equal (a[k]->pdata[i], b[k]->pdata[i]))
          return FALSE;
    }
  return TRUE;
}

void
hob_job_set_evidence (HobJob *job, const HobCaseFile *now)
{
  copy_evidence (now->evidence, job->evidence);
}

/* ---- The job ---- */

HobJob *
hob_job_new (const HobCaseFile *opened, const char *file)
{
  HobJob *job = g_new0 (HobJob, 1);

  job->saved = hob_case_file_new (opened->range, opened->acts);
  copy_evidence (opened->evidence, job->saved->evidence);
  for (int k = 0; k < HOB_N_EVIDENCE; k++)
    job->evidence[k] = g_ptr_array_new_with_free_func (g_free);
  copy_evidence (opened->evidence, job->evidence);
  job->file = g_strdup (file);
  return job;
}

HobJob *
hob_job_new_unsaved (const HobCaseFile *opened, HobKept *kept)
{
  HobJob *job = hob_job_new (opened, NULL);

  job->is_new = TRUE;
  job->kept = kept;
  return job;
}

void
hob_job_free (HobJob *job)
{
  if (job == NULL)
    return;
  hob_kept_free (job->kept);
  for (int k = 0; k < HOB_N_EVIDENCE; k++)
    g_ptr_array_unref (job->evidence[k]);
  hob_case_file_free (job->saved);
  g_free (job->file);
  g_free (job);
}

gboolean
hob_job_is_saved (const HobJob *job, const HobCase *acts)
{
  const HobCase *saved = job->saved->acts;

  return !job->is_new && saved->range == acts->range && saved->seed == acts->seed
         && saved->acts->len == acts->acts->len
         && hob_case_common (saved, acts) == acts->acts->len
         && same_evidence (job->saved->evidence, job->evidence);
}

/* The job with @acts as what was done, and the evidence by now.  Borrows both. */
static HobCaseFile
with_acts (const HobJob *job, const HobCase *acts)
{
  HobCaseFile c = *job->saved;

  c.range = (HobRange *) acts->range;
  c.acts = (HobCase *) acts;
  for (int k = 0; k < HOB_N_EVIDENCE; k++)
    c.evidence[k] = job->evidence[k];
  return c;
}

static void
set_saved (HobJob *job, const HobCase *acts)
{
  hob_case_free (job->saved->acts);
  job->saved->acts = hob_case_copy (acts);
  copy_evidence (job->evidence, job->saved->evidence);
  job->is_new = FALSE;
  g_clear_pointer (&job->kept, hob_kept_free);
}

/* ---- Where nothing may be written ---- */

static gboolean
refuse (const char *file, const char *why, GError **error)
{
  g_autofree char *name = g_path_get_basename (file);

  g_set_error (error, HOB_ERROR, HOB_ERROR_OUTPUT, "%s: %s", name, why);
  return FALSE;
}

static gboolean
is_shipped (const char *file)
{
  g_autofree char *folder = hob_data_path (HOB_DATA_RANGES, NULL);
  g_autoptr (GDir) dir = g_dir_open (folder, 0, NULL);
  const char *name;

  while (dir != NULL && (name = g_dir_read_name (dir)) != NULL)
    {
      g_autofree char *shipped = g_build_filename (folder, name, NULL);

      if (hob_same_file (shipped, file))
        return TRUE;
    }
  return FALSE;
}

static gboolean
may_replace (const char *file, GError **error)
{
  return !is_shipped (file)
         || refuse (file, _ ("this range comes with Hobwright; save it under another name"), error);
}

/* ---- Saving ---- */

gboolean
hob_job_save (HobJob *job, const HobCase *acts, const char *file, GError **error)
{
  HobCaseFile c = with_acts (job, acts);

  if (!may_replace (file, error))
    return FALSE;
  if (hob_same_file (file, c.range->file))
    return refuse (file, _ ("this is the range file itself; save the case under another name"),
                   error);
  if (!hob_case_save (&c, file, error))
    return FALSE;
  set_saved (job, acts);
  g_free (job->file);
  job->file = g_strdup (file);
  return TRUE;
}

/* Whether another act by @ms gives the same setting another value. */
static gboolean
is_replaced (const HobCase *acts, guint i, gint64 ms)
{
  const HobAct *act = &g_array_index (acts->acts, HobAct, i);

  for (guint k = i + 1; k < acts->acts->len; k++)
    {
      const HobAct *later = &g_array_index (acts->acts, HobAct, k);

      if (later->ms <= ms && later->what == HOB_ACT_SETTING && later->part == act->part
          && later->index == act->index)
        return TRUE;
    }
  return FALSE;
}

static gboolean
set_one (HobRange *range, const HobAct *act, GError **error)
{
  HobAct from_start = *act;
  g_autofree char *text = NULL;

  if (range->parts[act->part].set[act->index] == act->value)
    return TRUE;
  from_start.ms = 0;
  text = hob_act_argument (range, &from_start);
  return hob_range_set (range, act->part, act->index, strchr (text, '=') + 1, error);
}

static gboolean
has_only_settings (const HobCase *acts)
{
  for (guint i = 0; i < acts->acts->len; i++)
    if (g_array_index (acts->acts, HobAct, i).what != HOB_ACT_SETTING)
      return FALSE;
  return TRUE;
}

gboolean
hob_job_save_range (HobJob *job, const HobCase *acts, gint64 ms, const char *file, GError **error)
{
  g_autoptr (HobRange) range = NULL;

  if (!may_replace (file, error) || (range = hob_range_copy (acts->range, error)) == NULL)
    return FALSE;
  for (guint i = 0; i < acts->acts->len; i++)
    {
      const HobAct *act = &g_array_index (acts->acts, HobAct, i);

      if (act->ms <= ms && act->what == HOB_ACT_SETTING && !is_replaced (acts, i, ms)
          && !set_one (range, act, error))
        return FALSE;
    }
  if (!hob_range_save (range, file, error))
    return FALSE;
  if (has_only_settings (acts) && same_evidence (job->saved->evidence, job->evidence))
    set_saved (job, acts);
  return TRUE;
}

gboolean
hob_job_keep (HobJob *job, const HobCase *acts, GError **error)
{
  HobCaseFile c = with_acts (job, acts);

  if (hob_job_is_saved (job, acts))
    {
      g_clear_pointer (&job->kept, hob_kept_free);
      return TRUE;
    }
  if (job->kept == NULL && (job->kept = hob_kept_new (error)) == NULL)
    return FALSE;
  return hob_kept_write (job->kept, &c, error);
}
