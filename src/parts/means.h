/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

/* Means of finding out: the ways in which a suspicion is confirmed.  A fault names the means that
 * confirm it, a test the one that it is; what each takes, asks of a person and puts at risk is
 * said here once. */

#include "base/hazard.h"

G_BEGIN_DECLS

/* The cheapest and safest first. */
typedef enum
{
  HOB_MEANS_LOOK,
  HOB_MEANS_INSPECT,
  HOB_MEANS_HAND,
  HOB_MEANS_SWAP,
  HOB_MEANS_INSPECT_INSIDE,
  HOB_MEANS_METER_CLOCK,
  HOB_MEANS_OHMS_IN_CIRCUIT,
  HOB_MEANS_OHMS,
  HOB_MEANS_CONTINUITY,
  HOB_MEANS_LEAKAGE,
  HOB_MEANS_SENSOR_OHMS,
  HOB_MEANS_THERMOMETER,
  HOB_MEANS_SURFACE,
  HOB_MEANS_ANALYZER,
  HOB_MEANS_RECEPTACLE,
  HOB_MEANS_LIVE_VOLTS,
  HOB_MEANS_VOLTAGE_DROP,
  HOB_MEANS_AMPS,
  HOB_MEANS_LEAK_CHECK,
  HOB_MEANS_PRESSURE,
  HOB_MEANS_OPEN_GAS,
  HOB_N_MEANS,
} HobMeans;

/* The bit of one hazard, by the end of its name: HOB_HAZARD (LIVE_TEST). */
#define HOB_HAZARD(name) HOB_HAZARD_BIT (HOB_HAZARD_##name)

#define HOB_MEANS_BIT(means) (1u << (means))
#define HOB_MEANS(name) HOB_MEANS_BIT (HOB_MEANS_##name)

typedef enum { HOB_DANGER_NONE, HOB_DANGER_HOT, HOB_DANGER_LIVE, HOB_DANGER_GAS } HobDanger;

typedef enum { HOB_SKILL_APPRENTICE, HOB_SKILL_TECHNICIAN } HobSkill;

/* What is made safe before the means is used. */
typedef enum
{
  HOB_SAFE_UNPLUGGED = 1 << 0, /* unplugged or breaker off, and verified dead */
  HOB_SAFE_COLD = 1 << 1,      /* surfaces and igniter have cooled */
  HOB_SAFE_GAS_OFF = 1 << 2,   /* gas shutoff valve closed */
} HobSafe;

typedef struct
{
  const char *id;
  const char *words; /* N_(), what is done */
  double minutes;    /* usual ones: common practice, no source */
  double set_up;     /* … of them those to pull out the range and open it: not needed twice */
  HobSkill skill;
  HobDanger danger;
  guint safe;         /* HobSafe bits */
  HobHazards hazards; /* shown wherever it is described */
} HobMeansDef;

extern const HobMeansDef hob_means[HOB_N_MEANS];

int hob_means_find (const char *id); /* −1 if there is none of that id */

/* Hazards of all @means, HOB_MEANS bits. */
HobHazards hob_means_hazards (guint means);

G_END_DECLS
