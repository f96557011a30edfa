/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

/* Evidence: how probable it is that a fault of some severity makes a person see or read what was
 * seen or read.  Plain numbers; nothing here knows a range.
 *
 * Where a reading counts as open (a meter's OL), it is +∞. */

#include "base/units.h"

G_BEGIN_DECLS

/* ---- What is seen ---- */

/* Not looked for is not the same as not seen. */
typedef enum { HOB_NOT_LOOKED, HOB_SEEN, HOB_NOT_SEEN } HobSeen;

/* Share of what was looked for that is reported wrong: this project's assumption. */
#define HOB_MIS_SEEN 0.03

/* @shows: probability that it shows. */
double hob_seen_likelihood (HobSeen seen, double shows, double mis_seen);

/* ---- What is read ---- */

/* A meter errs by at most @of_reading of what it reads and @fixed besides. */
typedef struct
{
  double of_reading; /* share */
  double fixed;      /* SI */
} HobMeterClass;

/* The class of the usual instrument for a dimension. */
HobMeterClass hob_meter_class (HobDimension dim);

/* What a hypothesis expects of a reading. */
typedef struct
{
  double value;  /* SI; +∞: open */
  double spread; /* standard deviation among units of the same make, the meter apart */
  double open;   /* how probable it is that it is open all the same */
  gboolean few;  /* its spread is that of two units: others may differ by many times as much */
} HobExpected;

/* Standard deviation of a reading of @expected with that meter; @limit: the ± that the person
 * states instead of the meter's class, NaN: none. */
double hob_reading_deviation (const HobExpected *expected, const HobMeterClass *meter,
                              double limit);

/* Do two expectations of a reading or, of dimension NUMBER, of a sight differ by more than so many
 * standard deviations, the usual meter's included?  FALSE where one is not known. */
gboolean hob_expected_apart (const HobExpected *a, const HobExpected *b, HobDimension dim,
                             double deviations);

/* ln of the density of reading @value; @scale (> 0): over which a reading that was taken wrong
 * may lie anywhere. */
double hob_reading_log_likelihood (double value, const HobExpected *expected,
                                   const HobMeterClass *meter, double limit, double scale);

/* The same as outcomes of a test that is yet to be made: @edges divides the readings into
 * @n_edges + 1 intervals, and open is one more.  @likelihood: [n_edges + 2]. */
void hob_reading_outcomes (const HobExpected *expected, const HobMeterClass *meter,
                           const double *edges, int n_edges, double *likelihood);

/* ---- Severity ---- */

/* A fault was computed at these severities, the first of which is 0: nothing wrong. */
enum { HOB_N_SEVERITIES = 5 };
extern const double hob_severities[HOB_N_SEVERITIES];

/* Between computed severities: a monotone curve through them.  Where the two neighbors differ the
 * shape between them is not known, and the spread says so. */
HobExpected hob_expected_at (const HobExpected *computed, double severity);

/* Where it shows was computed at the same severities and halfway between them. */
enum { HOB_N_SHOWN = 2 * HOB_N_SEVERITIES - 1 };
/* Between a severity that shows it and one that does not, it begins somewhere. */
double hob_shows_at (const double *computed, double severity);

/* The severities @s (ascending) with probabilities @p: the one in the middle, and the span from
 * which a share of (1 − @share)/2 lies out on either side. */
typedef struct
{
  double low, middle, high;
} HobSeveritySpan;

HobSeveritySpan hob_severity_span (const double *s, const double *p, int n, double share);

G_END_DECLS
