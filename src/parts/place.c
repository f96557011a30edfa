/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "parts/place.h"

#include <math.h>

#define GIVEN(text, unit) { .words = text, .dim = unit, .merge = HOB_MERGE_GIVEN }

const HobPlaceDef hob_places[HOB_N_PLACE] = {
  [HOB_PLACE_AIR] = GIVEN ("air around", HOB_DIM_TEMPERATURE),
  [HOB_PLACE_AIR_LOW] = GIVEN ("air in the lower half", HOB_DIM_TEMPERATURE),
  [HOB_PLACE_AIR_HIGH] = GIVEN ("air in the upper half", HOB_DIM_TEMPERATURE),
  [HOB_PLACE_WALL] = GIVEN ("liner", HOB_DIM_TEMPERATURE),
  [HOB_PLACE_FLOOR] = GIVEN ("oven bottom", HOB_DIM_TEMPERATURE),
  [HOB_PLACE_COMPARTMENT] = GIVEN ("air around valves and wiring", HOB_DIM_TEMPERATURE),
  [HOB_PLACE_STIR] = GIVEN ("how the fan stirs the air", HOB_DIM_NUMBER),
  [HOB_PLACE_CAP_AWAY] = GIVEN ("burner cap too far from the tip", HOB_DIM_LENGTH),
  [HOB_PLACE_CAP_FILM] = GIVEN ("dirt baked on to the burner cap", HOB_DIM_LENGTH),
  [HOB_PLACE_HUMIDITY] = GIVEN ("humidity of the kitchen's air", HOB_DIM_NUMBER),

  [HOB_PLACE_HEAT] = { .words = "heat of flames and igniters", .dim = HOB_DIM_POWER,
                       .merge = HOB_MERGE_ADD, .effect = TRUE },
  [HOB_PLACE_HEAT_AIR] = { .words = "heat into the air", .dim = HOB_DIM_POWER,
                           .merge = HOB_MERGE_ADD, .effect = TRUE },
  [HOB_PLACE_HOT] = { .words = "hottest bare surface", .dim = HOB_DIM_TEMPERATURE,
                      .merge = HOB_MERGE_MAX, .start = -INFINITY },
  [HOB_PLACE_GLOW_SHOWN] = { .words = "hottest surface in sight", .dim = HOB_DIM_TEMPERATURE,
                             .merge = HOB_MERGE_MAX, .start = -INFINITY },
  [HOB_PLACE_SPARK_RATE] = { .words = "sparks per second", .dim = HOB_DIM_RATE,
                             .merge = HOB_MERGE_SPARK, .effect = TRUE },
  [HOB_PLACE_SPARK_PHASE] = { .words = "pulses so far", .merge = HOB_MERGE_SPARK, .effect = TRUE },
  [HOB_PLACE_SPARK_KEY] = { .words = "module", .merge = HOB_MERGE_SPARK, .effect = TRUE },
  [HOB_PLACE_SPARK_MISS] = { .words = "share of pulses that fail", .merge = HOB_MERGE_SPARK,
                             .effect = TRUE },
  [HOB_PLACE_SPARK_TIP] = { .words = "electrode", .merge = HOB_MERGE_SPARK },
  [HOB_PLACE_SPARK_CAP] = { .words = "share of pulses at the cap", .merge = HOB_MERGE_SPARK },
  [HOB_PLACE_SPARK_ENERGY] = { .words = "energy of a spark", .dim = HOB_DIM_ENERGY,
                               .merge = HOB_MERGE_SPARK, .effect = TRUE },
  [HOB_PLACE_SPARK_GAP] = { .words = "spark gap", .dim = HOB_DIM_LENGTH,
                            .merge = HOB_MERGE_SPARK },
  [HOB_PLACE_SPARK_OFFSET] = { .words = "spark or igniter out of place", .merge = HOB_MERGE_MAX },
  [HOB_PLACE_UNBURNT] = { .words = "gas let out unburned", .dim = HOB_DIM_MASS_FLOW,
                          .merge = HOB_MERGE_ADD, .effect = TRUE },
  [HOB_PLACE_BURNT] = { .words = "gas burned", .dim = HOB_DIM_MASS_FLOW, .merge = HOB_MERGE_ADD,
                        .effect = TRUE },
  [HOB_PLACE_FAN] = { .words = "stirring", .merge = HOB_MERGE_MAX, .effect = TRUE },
  [HOB_PLACE_OPEN] = { .words = "door open or leaking", .merge = HOB_MERGE_ADD },
  [HOB_PLACE_STEAM] = { .words = "steam", .dim = HOB_DIM_MASS_FLOW, .merge = HOB_MERGE_ADD,
                        .effect = TRUE },
  [HOB_PLACE_BLOCKED] = { .words = "vent or slots covered", .merge = HOB_MERGE_ADD },
};
