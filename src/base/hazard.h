/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

/* Hazards: the one table of cautions.  Symptoms, faults, tests and pictures name hazards; only this
 * table has words for them.  Whatever is shown together is one set, so each hazard is in it once.
 */

#include <glib.h>

G_BEGIN_DECLS

/* In the order in which they are shown: the gravest first. */
typedef enum
{
  HOB_HAZARD_GAS_STRONG,
  HOB_HAZARD_FIRE,
  HOB_HAZARD_CO_SICK,
  HOB_HAZARD_SHOCK,
  HOB_HAZARD_HOT_PLUG,
  HOB_HAZARD_GAS_FAINT,
  HOB_HAZARD_GAS_GATHERED,
  HOB_HAZARD_STOP_USING,
  HOB_HAZARD_BREAKER_GFCI,
  HOB_HAZARD_CO_FLAME,
  HOB_HAZARD_DEAD_FIRST,
  HOB_HAZARD_LIVE_TEST,
  HOB_HAZARD_SPARK_LEAD,
  HOB_HAZARD_NO_BYPASS,
  HOB_HAZARD_HOT_IGNITER,
  HOB_HAZARD_GAS_JOINT,
  HOB_HAZARD_PRESSURE,
  HOB_HAZARD_MATCH,
  HOB_HAZARD_PUT_BACK,
  HOB_HAZARD_ALWAYS,
  HOB_N_HAZARDS,
} HobHazard;

/* A set of hazards.  Above the bits of the hazards are those of the circumstances that add to the
 * text of one of them, so that sets merge with |. */
typedef guint32 HobHazards;

#define HOB_HAZARD_BIT(hazard) ((HobHazards) 1 << (hazard))

#define HOB_HAZARD_IF_LP HOB_HAZARD_BIT (24)          /* gas-strong: the gas is LP */
#define HOB_HAZARD_IF_OVEN_CLOSED HOB_HAZARD_BIT (25) /* fire: it is in the oven, the door closed */
#define HOB_HAZARD_IF_STUCK HOB_HAZARD_BIT (26)       /* shock: someone cannot let go */
#define HOB_HAZARD_IF_GROUND_OPEN HOB_HAZARD_BIT (27) /* gas-joint: the range has no ground */
#define HOB_HAZARD_IF_ANY (0xffu << 24) /* all of them, where the table itself is shown */

/* How bad it is to bring it about once more, only to look at it. */
typedef enum
{
  HOB_AGAIN_FREE,
  HOB_AGAIN_FAINT, /* a burner that will not light makes it */
  HOB_AGAIN_STOP,  /* one stops using the range for it, or for less */
  HOB_AGAIN_NEVER,
  HOB_N_AGAIN,
} HobAgain;

typedef struct
{
  const char *id;
  const char *name;       /* N_(), for a heading */
  const char *text;       /* N_(), sentences that begin with the act */
  HobHazards when;        /* HOB_HAZARD_IF_…, 0: its text is always the same */
  const char *variant;    /* N_(), the sentences that @when adds; NULL */
  gboolean variant_first; /* they go before @text, because that act saves first */
  gboolean silences;      /* nothing below it is shown while it holds */
  gboolean unlit_gas;     /* nothing that `sparks` is shown while it holds, above it or below */
  gboolean sparks;        /* it has one switch, plug or unplug, or light something */
  gboolean hot_plug;      /* nothing below it that `unplugs` is shown while it holds */
  gboolean unplugs;       /* it has one pull the plug */
  gboolean unplugged;     /* it holds no longer once the range is unplugged */
  HobAgain again;
  gboolean unmistakable;  /* nobody takes anything else for it */
} HobHazardDef;

extern const HobHazardDef hob_hazards[HOB_N_HAZARDS];

/* The index of the hazard called @id, or -1. */
int hob_hazard_find (const char *id);

/* The set of the hazards and circumstances ("if-lp") that @ids names, separated by blanks.
 * @unknown: the first word that names none (owned by the caller), or NULL. */
HobHazards hob_hazards_parse (const char *ids, char **unknown);

/* The first hazard of @set after @after (-1: the first of all), or -1 after the last. */
int hob_hazards_next (HobHazards set, int after);

/* What is shown of @set, hazards that hold now: while one that silences the others holds, nothing
 * below it but the line that every page carries; while there is unlit gas, nothing that has one
 * make a spark; while the plug is hot, nothing that has one pull it. */
HobHazards hob_hazards_shown (HobHazards set);

/* What is left of @set on a range that has been unplugged: in place of what that has ended, not to
 * use it. */
HobHazards hob_hazards_unplugged (HobHazards set);

/* What is named beside a symptom that has the hazards @of, while @now holds: those of them that are
 * shown; where all are kept silent, what keeps them so. */
HobHazards hob_hazards_beside (HobHazards of, HobHazards now);

/* The same on a page that also describes tests or repairs with hazards of their own, @described:
 * these are silenced by what holds now, and silence nothing themselves. */
HobHazards hob_hazards_shown_with (HobHazards now, HobHazards described);

/* The first @n hazards of @set; the rest of the set is in @rest. */
HobHazards hob_hazards_first (HobHazards set, int n, HobHazards *rest);

/* What replaces "How to confirm" and lists of tests while such a hazard of @set holds, translated;
 * NULL if none does.  Borrowed. */
const char *hob_hazards_make_safe (HobHazards set);

/* The text of @hazard, translated, with what the circumstances in @set add.  Owned by the caller.
 */
char *hob_hazard_text (HobHazard hazard, HobHazards set);

/* The names of @set, translated, with commas between them.  Owned by the caller. */
char *hob_hazards_names (HobHazards set);

G_END_DECLS
