/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

/* Figures as people read them: trade units, thousands apart ("1,090 Ω", "50%", "8,500 Btu/h"), and
 * a decimal point in every language: the trade's papers in this country have it in Spanish too.
 * What a file or a command reads again is written by base/units.h. */

#include "base/units.h"

G_BEGIN_DECLS

/* @digits significant, but never more than four decimals: what that does not show is 0.
 * (transfer full) */
char *hob_person_text (double si, HobDimension dim, int digits);
/* 0 of what no instrument of the trade tells from nothing, or @si itself. */
double hob_person_value (double si, HobDimension dim);
/* A length in m in feet, however short. (transfer full) */
char *hob_feet_text (double length, int digits);
/* A share of 1 in percent: whole from 1% up, two digits below that. (transfer full) */
char *hob_percent_text (double share);
/* What an entry shows and reads again: trade units in the C locale without idle zeros, "77 °F",
 * "0.37402 in". (transfer full) */
char *hob_entry_text (double si, HobDimension dim);
/* @sentence, taken over, with one period where a unit that ends in one ends it: "0.45 in.".
 * (transfer full) */
char *hob_one_period (char *sentence);
/* A plain number of a scale in the C locale, "-1200.5", as people write it. (transfer full) */
char *hob_person_number (const char *number);

G_END_DECLS
