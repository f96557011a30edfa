/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

/* What a kind's tables hold, said to a person: base/figure.h where a figure says it, words where
 * words do. */

#include "parts/kind.h"

G_BEGIN_DECLS

/* "1,090 Ω", "50%", "bright yellow". (transfer full) */
char *hob_said_text (HobSay say, double value, HobDimension dim, int digits);
/* The same of a quantity: "yes", "Preheat", "3.4 A", or "none yet" of what has never happened.
 * (transfer full) */
char *hob_quantity_text (const HobQuantityDef *quantity, double value, int digits);
/* The same where it is known which gas flows: "18,100 Btu/h".  @fuel: NULL: it is not.  (transfer
 * full) */
char *hob_quantity_text_of (const HobQuantityDef *quantity, double value, int digits,
                            const HobFuel *fuel);
/* Its number in the trade's unit, while @fuel flows, and that unit's sign.  What an instrument
 * can't tell from nothing is 0. */
double hob_quantity_trade (const HobQuantityDef *quantity, double value, const HobFuel *fuel);
const char *hob_quantity_trade_sign (const HobQuantityDef *quantity);
/* What it is, with what else must be known of it: "set temperature; 0 with the oven off". (transfer
 * full) */
char *hob_quantity_words (const HobQuantityDef *quantity);
/* What its bare number means where only that is shown, in a table or on a scale: "°F", "0 to 1",
 * "0 no, 1 yes"; "" where there is nothing to say. (transfer full) */
char *hob_quantity_unit (const HobQuantityDef *quantity, HobUnits units);
/* A control's position as its front has it: "High", "350 °F", "62%". (transfer full) */
char *hob_position_text (const HobControlDef *control, double value);
/* A setting's value: "120 V", "natural gas". (transfer full) */
char *hob_setting_text (const HobSettingDef *setting, double value);
/* The same as an entry and --setting read it: "50%", "18 AWG", "6.2 ft". (transfer full) */
char *hob_setting_entry (const HobSettingDef *setting, double value);

/* A table's words around a figure, in place of their "%s". (transfer full) */
char *hob_words_around (const char *words, const char *figure);

G_END_DECLS
