/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "parts/means.h"
#include "run/run.h"

G_BEGIN_DECLS

typedef enum {
  HOB_TEST_VOLTS,
  HOB_TEST_OHMS,
  HOB_TEST_AMPS,
  HOB_TEST_PRESSURE,
  HOB_TEST_TEMP,
  HOB_TEST_LOOK,    /* for a symptom */
  HOB_TEST_INSPECT, /* a part, close up */
  HOB_TEST_BUBBLES  /* leak-detection solution on a part */
} HobTestWhat;

/* TEST of the command line: one parser, one printer; print → parse → print is the identity. */
typedef struct
{
  HobTestWhat what;
  gboolean lead_off; /* ohms: with the wires off terminal a */
  HobEnd a, b; /* terminals (volts, ohms), port (pressure), amps PART.TERMINAL (else part −1) */
  int wire;           /* amps: wire, or −1 */
  int part, quantity; /* amps PART (quantity −1), temp, look at, inspect or bubbles PART; part −1
                         else */
  char *symptom;      /* look; owned */
  HobCase *acts;      /* what is done first, at the run's own times; owned, may be empty */
  double time;        /* s, of the run; NaN: that of the case's last act */
} HobTest;

HobTest *hob_test_parse (const HobRange *range, const char *text, GError **error);
char *hob_test_text (const HobRange *range, const HobTest *test); /* (transfer full) */
void hob_test_free (HobTest *test);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HobTest, hob_test_free)

typedef struct
{
  double value;  /* SI; NaN: no value (OL, or refused) */
  const char *unit; /* "V", "ohm", "A", "Pa", "K", "seen" */
  const char *note; /* untranslated N_(): "OL", warning …; NULL */
  gboolean answered;
  gboolean ghost; /* volts that only stray capacitance and films drive: a load takes them away */
  HobHazards hazards; /* that it has brought to light */
} HobReading;

/* A meter on the run at time t.  Volts: 10 MΩ stamped between the points.  Ohms: an own solve with
 * every source absent, 1 mA; over 40 MΩ reads OL; on a live part: no value and a warning.  Amps:
 * rms, ≥ 0.  A chassis that is found live is a shock hazard.  look is not answered here. */
HobReading hob_reading_take (HobRun *run, const HobTest *test, double t);
/* The same at a moment that was read already; of that only what it keeps to work with is
 * touched. */
HobReading hob_reading_at (HobMoment *m, const HobTest *test);

/* Are they the same but for what is done before and when: between the same ends, whichever is named
 * first? */
gboolean hob_test_same (const HobTest *a, const HobTest *b);
/* Is it made at @part: at one of its terminals or ports, on a wire that ends there, on what it
 * tells, or by a look at it? */
gboolean hob_test_at_part (const HobRange *range, const HobTest *test, int part);
/* Is it seen or not, rather than read? */
gboolean hob_test_is_seen (const HobTest *test);
/* Is it made with the range unplugged? */
gboolean hob_test_is_dead (const HobTest *test);
/* Can anything be wrong with @part that is seen close up? */
gboolean hob_test_inspects (const HobRange *range, int part);
/* Can gas get out at @part where leak-detection solution would show it? */
gboolean hob_test_bubbles (const HobRange *range, int part);

/* Does a thermometer read it: a temperature, or a difference such as the average of a high and a
 * low from the set temperature? */
gboolean hob_test_takes (const HobQuantityDef *quantity);

HobDimension hob_test_dimension (const HobTest *test); /* of its value; NUMBER for a look */

/* @value as a person reads it from the instrument: what is less than its last digit is 0. */
double hob_test_resolved (const HobTest *test, double value);

/* By which means it is made, and what is to be minded where it is made on a real range. */
HobMeans hob_test_means (const HobRange *range, const HobTest *test);
HobHazards hob_test_hazards (const HobRange *range, const HobTest *test);

/* @base with the test's acts, and when to read: the test's own time, or where it has none that of
 * the last act. (transfer full) */
HobCase *hob_test_case (const HobTest *test, const HobCase *base, double *t);

G_END_DECLS
