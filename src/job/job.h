/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

/* job: the work on one range — what was opened, what of it is saved, where. */

#include "job/kept.h"

G_BEGIN_DECLS

typedef struct
{
  /*< owned; read-only >*/
  char *file;         /* the case file it was opened from or saved to last; NULL: none */
  HobCaseFile *saved; /* as it was opened or saved last, evidence included */
  GPtrArray *evidence[HOB_N_EVIDENCE]; /* char *: what was seen, not seen and read by now */
  gboolean is_new;    /* what it began with is saved nowhere */
  HobKept *kept;      /* NULL: all is saved */
} HobJob;

/* @opened is copied.  @file: the case file it comes from; NULL: a range alone. */
HobJob *hob_job_new (const HobCaseFile *opened, const char *file);
/* Work that was saved nowhere.  @kept: its copy, which the job owns from now on; NULL: none. */
HobJob *hob_job_new_unsaved (const HobCaseFile *opened, HobKept *kept);
/* Removes the copy that was kept: whoever frees a job has asked before. */
void hob_job_free (HobJob *job);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HobJob, hob_job_free)

/* What was seen, not seen and read is @now's from here on; copied. */
void hob_job_set_evidence (HobJob *job, const HobCaseFile *now);

/* TRUE if nothing in @acts would be lost, and no evidence. */
gboolean hob_job_is_saved (const HobJob *job, const HobCase *acts);

/* A case file.  Not over a range: a shipped one, or the case's own.  HOB_ERROR_OUTPUT. */
gboolean hob_job_save (HobJob *job, const HobCase *acts, const char *file, GError **error);
/* The range with its settings as they are at @ms, everything else in the file as it was.  Not over
 * a shipped one. */
gboolean hob_job_save_range (HobJob *job, const HobCase *acts, gint64 ms, const char *file,
                             GError **error);
/* Brings the copy up to date that outlives the program; where all is saved there is none. */
gboolean hob_job_keep (HobJob *job, const HobCase *acts, GError **error);

G_END_DECLS
