/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "run/case.h"

G_BEGIN_DECLS

/* --do, --fault, --setting and --seed: what a case is on the command line of either program. */
typedef struct _HobCaseOptions HobCaseOptions;

HobCaseOptions *hob_case_options_new (void);
void hob_case_options_free (HobCaseOptions *options);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HobCaseOptions, hob_case_options_free)

/* The names, their help, and where their values go: for a GOptionContext or a GApplication.
 * @program: a static name; what GLib says about wrong words becomes a sentence of ours that begins
 * with it. NULL: the caller does that.  (transfer full) */
GOptionGroup *hob_case_options_group (HobCaseOptions *options, const char *program);
/* In the order in which they were written. */
gboolean hob_case_options_apply (const HobCaseOptions *options, HobCase *c, GError **error);

gboolean hob_case_options_have_acts (const HobCaseOptions *options); /* --do */
/* TRUE once the words were refused, those of other groups included. */
gboolean hob_case_options_refused (const HobCaseOptions *options);

G_END_DECLS
