/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

/* case-file: a case as XML: <case format="1" range="dial-four">, and in it an element for each
 * option of the command line: <do value="60s oven.mode=bake"/>. */

#include "run/case.h"

G_BEGIN_DECLS

#define HOB_CASE_FORMAT 1 /* the newest that is read, and the one written */

typedef enum
{
  HOB_EVIDENCE_SEEN,
  HOB_EVIDENCE_NOT_SEEN,
  HOB_EVIDENCE_READING,
  HOB_N_EVIDENCE
} HobEvidenceWhat;

typedef struct
{
  HobRange *range; /* a reference */
  HobCase *acts;   /* owned */
  /* char *, owned: as --seen, --not-seen and --reading take them */
  GPtrArray *evidence[HOB_N_EVIDENCE];
} HobCaseFile;

/* A case in which nothing was seen or read yet.  @acts: copied. */
HobCaseFile *hob_case_file_new (HobRange *range, const HobCase *acts);
void hob_case_file_free (HobCaseFile *file);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HobCaseFile, hob_case_file_free)

/* A case file, or a range file: a case in which nothing is done.  Findings (those of its range
 * too) and errors as hob_range_load () has them.  Main thread only. */
HobCaseFile *hob_case_load (const char *file, GPtrArray *findings, GError **error);
HobCaseFile *hob_case_load_memory (const char *data, gsize size, const char *name,
                                   GPtrArray *findings, GError **error);
/* What is read again gives the very same acts in the same order.  The range is named as it is found
 * from @file.  (transfer full) */
GString *hob_case_text (const HobCaseFile *c, const char *file);
/* HOB_ERROR_OUTPUT. */
gboolean hob_case_save (const HobCaseFile *c, const char *file, GError **error);

G_END_DECLS
