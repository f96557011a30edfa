/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

/* What is shipped, as the folders have it: no test keeps a list of its own. */

#include "symptoms/bench.h"

/* Names of the ranges in diagrams/, sorted, NULL-ended; only those that HOB_RANGES names ("a b"),
 * if it is set. (transfer full) */
char **shipped_ranges (void);
HobRange *shipped_range (const char *name);     /* (transfer full) */
char *shipped_range_text (const char *name);    /* its XML (transfer full) */

/* The case of a procedure with words for settings and faults ("PART:FAULT" or "PART.NAME=VALUE",
 * NULL-ended). (transfer full) */
HobCase *case_of (const HobRange *range, const char *procedure, const char *const *words,
                  double *until);
/* "ID TIME\n" of every symptom that begins, in order. (transfer full) */
char *symptoms_of (const HobBench *idle, const HobCase *acts, double until);
/* The same, and in @hazards all that held at any time. */
char *symptoms_and_hazards_of (const HobBench *idle, const HobCase *acts, double until,
                               HobHazards *hazards);

/* Sweeps over many seeds, faults or pairs: the whole of it, or its fixed sample? */
gboolean full_sweep (void);

/* The table tests/silent-faults.ini: a group "KIND:FAULT" each. (transfer full) */
GKeyFile *silent_faults (void);
/* Does the table say that @fault ("KIND:FAULT") shows nothing in @range? */
gboolean silent_fault_in (GKeyFile *faults, const char *fault, const char *range);
