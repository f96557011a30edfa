/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "run/run.h"

G_BEGIN_DECLS

typedef enum { HOB_TEST_VOLTS, HOB_TEST_OHMS, HOB_TEST_AMPS, HOB_TEST_PRESSURE, HOB_TEST_TEMP, HOB_TEST_LOOK } HobTestWhat;

/* TEST of the command line: one parser, one printer; print → parse → print is the identity. */
typedef struct
{
  HobTestWhat what;
  HobEnd a, b;        /* terminals (volts, ohms), port (pressure) */
  int wire;           /* amps: wire, or −1 */
  int part, quantity; /* amps PART (quantity −1), temp */
  char *symptom;      /* look; owned */
  GArray *acts;       /* HobAct at time 0 each or at its own, owned; may be NULL */
  double time;        /* s after the acts; NaN: the case's own time */
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
} HobReading;

/* A meter on the run at time t.  Volts: 10 MΩ stamped between the points.  Ohms: an own solve with every source absent, 1 mA;
 * over 40 MΩ reads OL; on a live part: no value and a warning.  Amps: rms, ≥ 0.  look is not answered here. */
HobReading hob_reading_take (HobRun *run, const HobTest *test, double t);

G_END_DECLS
