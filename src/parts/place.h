/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "base/units.h"

/* How hard gathered gas lights, by its share of what its enclosure holds of the best mixture. */
typedef enum
{
  HOB_BURST_NONE,
  HOB_BURST_PUFF,
  HOB_BURST_WHOOSH,
  HOB_BURST_BANG,
  HOB_BURST_EXPLOSION,
} HobBurst;

/* Places: what surrounds a part.  A part with a place (house, cavity, burner) holds these; parts
 * `in` it read and add.  "given": written by the owner in `give`, from states only.  "put": at its
 * start (hob_places[]) before every evaluation, parts within add or raise in `rates`, the owner
 * reads them in its own `rates` (parts within go first), `guard`, `flip`, `observe`. */
typedef enum
{
  /* given */
  HOB_PLACE_AIR,         /* K, what surrounds a part */
  HOB_PLACE_AIR_LOW,     /* K, lower half (cavity); at the floor (house) */
  HOB_PLACE_AIR_HIGH,    /* K */
  HOB_PLACE_WALL,        /* K, liner */
  HOB_PLACE_FLOOR,       /* K, oven bottom */
  HOB_PLACE_COMPARTMENT, /* K, where valves and wiring are */
  HOB_PLACE_STIR,        /* 0…1, how the fan stirs the air */
  HOB_PLACE_CAP_AWAY,    /* m, how much too far a burner cap is from the tip; +inf: none */
  HOB_PLACE_CAP_FILM,    /* m of baked-on dirt where the spark lands */
  HOB_PLACE_VAPOR,       /* Pa of water in the kitchen's air (house) */
  HOB_PLACE_DRAFT,       /* m/s of air across the cooktop (house) */
  HOB_PLACE_OXYGEN,      /* vol/vol in the air that a flame gets */
  HOB_PLACE_BURNABLE,    /* 0…1, share of a flame's gas that finds the oxygen to burn */
  HOB_PLACE_GAS_LOW,     /* kg/m³ of unburned gas in the air at the floor (house) */
  /* put */
  HOB_PLACE_HEAT,         /* W from flames and igniters; the owner shares it out (gross) */
  HOB_PLACE_HEAT_ABOVE,   /* W of HEAT that comes from above: a broil burner's */
  HOB_PLACE_HEAT_AIR,     /* W straight into the air (electric element, light) */
  HOB_PLACE_HEAT_WALL,    /* W straight into the liner (element behind the wall, its fan still) */
  HOB_PLACE_HOT,          /* K, hottest bare surface (max) */
  HOB_PLACE_GLOW_SHOWN,   /* K, hottest surface that an eye can see (max) */
  HOB_PLACE_SPARK_RATE,   /* sparks/s at the right place (max) */
  HOB_PLACE_SPARK_PHASE,  /* turns of the module whose sparks these are: pulse k at phase k */
  HOB_PLACE_SPARK_KEY,    /* module's part index + 1 (0: no sparks) */
  HOB_PLACE_SPARK_MISS,   /* chance that a pulse fails */
  HOB_PLACE_SPARK_TIP,    /* electrode's part index + 1, and … */
  HOB_PLACE_SPARK_CAP,    /* … the chance that a pulse jumps at the cap, not elsewhere */
  HOB_PLACE_SPARK_ENERGY, /* J in the gap, each pulse */
  HOB_PLACE_SPARK_GAP,    /* m */
  HOB_PLACE_SPARK_OFFSET, /* 0…1, how far the spark (or igniter) is from its proper place */
  HOB_PLACE_UNBURNT,      /* kg/s of fuel let out unburned */
  HOB_PLACE_CREEPS,       /* kg/s of unburned gas at the floor that creeps in somewhere */
  HOB_PLACE_BURNT,        /* kg/s of fuel burnt */
  HOB_PLACE_ROLLED,       /* kg/s of fuel burnt outside, by a flame that rolls out for air */
  HOB_PLACE_CO,           /* mol/s of carbon monoxide that this makes */
  HOB_PLACE_DRAWN,        /* mol/s of room air that the jets of unlit burners draw in */
  HOB_PLACE_CARRIED_OXYGEN, /* mol/s that comes in with other air, less what leaves with it … */
  HOB_PLACE_CARRIED_BURNT,  /* … mol/s of fuel whose products come in with it … */
  HOB_PLACE_CARRIED_CO,     /* … and mol/s of carbon monoxide */
  HOB_PLACE_BURST,        /* how hard gathered gas burns off right now, HOB_BURST */
  HOB_PLACE_FAN,          /* 0…1, stirring */
  HOB_PLACE_OPEN,         /* 0…1, door open (1) or leaking (between) */
  HOB_PLACE_STEAM,        /* kg/s of water boiled off */
  HOB_PLACE_MATCH,        /* HOB_AT () of the part at which a match burns; 0: there is none */
  HOB_N_PLACE
} HobPlaceSlot;

/* How the contributions of several parts make one value. */
typedef enum
{
  HOB_MERGE_GIVEN, /* the owner's alone */
  HOB_MERGE_ADD,
  HOB_MERGE_MAX,
  HOB_MERGE_SPARK, /* that of the part whose HOB_PLACE_SPARK_RATE is the largest */
} HobMerge;

typedef struct
{
  const char *words;
  HobDimension dim;
  HobMerge merge;
  double start;    /* before any part has put something in */
  gboolean effect; /* follows from the current or gas of the part that puts it in, at that moment */
} HobPlaceDef;

extern const HobPlaceDef hob_places[HOB_N_PLACE];
