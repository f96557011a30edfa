/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

/* Suspects in words: the same sentences on a terminal and in the window.  All are translated. */

#include "reason/suspects.h"

G_BEGIN_DECLS

/* "Bake igniter: no glow", "Amps: Bake igniter": a test without its acts. (transfer full) */
char *hob_test_words (const HobBench *idle, const HobTest *test);
/* "Oven control: BAKE at 0.0 s. Take the reading at 90 s."; NULL: nothing is done for it.
 * (transfer full) */
char *hob_test_acts_words (const HobRange *range, const HobTest *test);
/* "Watch until 90 s.", the last of them. (transfer full) */
char *hob_test_until_words (const HobTest *test);
/* What a clue's test reads, or the chance of seeing it, as a figure. (transfer full) */
char *hob_clue_figure (const HobClue *clue, double value);

/* "igniter-bake:aged", as a program reads it, and "Bake igniter: aged". (transfer full) */
char *hob_suspect_id (const HobRange *range, const HobSuspect *suspect);
char *hob_suspect_name (const HobRange *range, const HobSuspect *suspect);
/* How bad it is, with its span; NULL: it is there or not. (transfer full) */
char *hob_suspect_severity (const HobRange *range, const HobSuspect *suspect);
/* What clue @k says of @suspect, with what it and a normal range would show.  @what: the clue in
 * words. (transfer full) */
char *hob_suspect_reason (const HobSuspects *all, const HobSuspect *suspect, const HobClue *clue,
                          guint k, const char *what);
/* Whether each clue speaks for or against it: of what nobody knows nothing can be said. */
gboolean hob_suspect_has_reasons (const HobSuspect *suspect);
/* Why a range that may have nothing wrong is still thought of, whatever was reported; NULL. */
const char *hob_suspect_doubt (const HobSuspect *suspect, const GPtrArray *clues);
/* Why the first suspect must not be replaced yet; NULL: a reading speaks for it. */
const char *hob_suspects_unproved (const HobSuspects *all);

/* The test to make next; NULL: none.  Borrowed. */
const HobOffer *hob_suspects_next (const HobSuspects *all);
/* What begins the list of what its run shows besides, a sign each; NULL: nothing. */
const char *hob_suspects_also (const HobSuspects *all);
/* The k-th of these signs; NULL after the last.  Borrowed. */
const HobOffer *hob_suspects_sign (const HobSuspects *all, guint k);
/* Why no test follows, or what comes before any. */
const char *hob_suspects_end (const HobSuspects *all);
/* The way to do it, and its minutes. (transfer full) */
char *hob_offer_means_words (const HobOffer *offer);
/* What is made safe before it, a sentence each (const char *). (transfer container) */
GPtrArray *hob_offer_safe (const HobOffer *offer);
/* What it reads or shows on a normal range.  @what: the test in words. (transfer full) */
char *hob_check_words (const HobCheck *check, const char *what);
/* How soon a burner lights after the repair; NULL: none does then. (transfer full) */
char *hob_suspects_lights (const HobRange *range, const HobSuspects *all);
/* What is to be minded when all is put together again. */
HobHazards hob_suspects_put_back (const HobRange *range, const HobSuspects *all);

/* The hazards of the test that is described, and of what its run shows besides. */
HobHazards hob_suspects_described (const HobSuspects *all);

G_END_DECLS
