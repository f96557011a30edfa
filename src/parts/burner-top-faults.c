/* SPDX-License-Identifier: GPL-3.0-or-later */

/* What fails at a surface burner: at both makes; at a sealed one, which has a cap that can be off
 * its seat; at an open one, which has a shutter that can be set wrong and a flash tube.  A spill
 * runs through the open top into the venturi, and so these are clogged more often. */

#include "parts/burner-top.h"

/* ---- Both ---- */

#define PORTS_BLOCKED                                                                             \
  {                                                                                               \
    .id = "ports-blocked",                                                                        \
    .words = N_ ("burner ports blocked by a spill"),                                              \
    .severity_words = N_ ("%s of the ports blocked"),                                             \
    .typical = 0.4,                                                                               \
    .prior = 6,                                                                                   \
    .proof = N_ ("With the burner off and cool, look at the burner ports. A spill blocks some "    \
                 "of them. Clear each one with a needle, never a toothpick. Now the flame goes "   \
                 "all the way around the burner."),                                                \
    .confirm = HOB_MEANS (INSPECT) | HOB_MEANS (HAND),                                            \
    .hazards = HOB_HAZARD (CO_FLAME),                                                             \
    HOB_EFFECTS ({ .setting = HOB_TOP_BLOCKED, .at0 = 0.1, .at1 = 0.9 }),                         \
  }

#define ORIFICE_CLOGGED(PRIOR)                                                                    \
  {                                                                                               \
    .id = "orifice-clogged",                                                                      \
    .words = N_ ("orifice clogged"),                                                              \
    .severity_words = N_ ("orifice %s too small"),                                                 \
    .typical = 0.6,                                                                               \
    .prior = PRIOR,                                                                               \
    .proof = N_ ("Read the manifold pressure with this burner on. It's normal, and only this "     \
                 "burner's flame is low. Shut off the gas, take the orifice out, and look "        \
                 "through it. The hole is partly blocked."),                                       \
    .confirm = HOB_MEANS (LOOK) | HOB_MEANS (PRESSURE) | HOB_MEANS (OPEN_GAS),                    \
    .hazards = HOB_HAZARD (CO_FLAME),                                                             \
    HOB_EFFECTS ({ .setting = HOB_BURNER_ORIFICE, .how = HOB_EFFECT_MULTIPLY, .at0 = 1,           \
                   .at1 = 0.35 }),                                                                \
  }

#define VENTURI_BLOCKED(PRIOR)                                                                    \
  {                                                                                               \
    .id = "venturi-blocked",                                                                      \
    .words = N_ ("venturi blocked by an insect nest or a spill"),                                 \
    .severity_words = N_ ("%s of the primary air blocked"),                                        \
    .typical = 0.6,                                                                               \
    .prior = PRIOR,                                                                               \
    .proof = N_ ("The flame is tall and yellow, though the pressure and the orifice are right. "   \
                 "Turn the burner off, let it cool, and run a brush through the venturi. Light "   \
                 "the burner again. Now the flame is blue."),                                      \
    .confirm = HOB_MEANS (INSPECT) | HOB_MEANS (PRESSURE) | HOB_MEANS (OPEN_GAS),                 \
    .hazards = HOB_HAZARD (CO_FLAME),                                                             \
    HOB_EFFECTS ({ .setting = HOB_BURNER_SHUTTER, .how = HOB_EFFECT_MULTIPLY, .at0 = 0.8,         \
                   .at1 = 0.1 }),                                                                 \
  }

#define ORIFICE_FOR_LP                                                                            \
  {                                                                                               \
    .id = "orifice-for-lp",                                                                       \
    .words = N_ ("LP orifice on natural gas, conversion not finished"),                           \
    .prior = 1,                                                                                   \
    .proof = N_ ("Compare the number on the orifice with the tech sheet. It's an LP orifice, "     \
                 "but the range is on natural gas. Turn off every other gas appliance and "        \
                 "burner, and clock the gas meter with this burner on. The burner's input is "     \
                 "far below its Btu/h rating."),                                                   \
    .confirm = HOB_MEANS (OPEN_GAS) | HOB_MEANS (METER_CLOCK),                                    \
    .hazards = HOB_HAZARD (CO_FLAME),                                                             \
    .plate = HOB_PLATE (HOB_FUEL_NATURAL),                                                        \
    HOB_EFFECTS ({ .setting = HOB_BURNER_ORIFICE, .how = HOB_EFFECT_MULTIPLY, .at0 = 1,           \
                   .at1 = 0.681 }),                                                               \
  }

#define ORIFICE_FOR_NATURAL                                                                       \
  {                                                                                               \
    .id = "orifice-for-natural",                                                                  \
    .words = N_ ("natural gas orifice on LP, conversion not finished"),                           \
    .prior = 1,                                                                                   \
    .proof = N_ ("Compare the number on the orifice with the tech sheet. It's a natural gas "      \
                 "orifice, but the range is on LP. The manifold pressure is normal for LP, but "   \
                 "the flame is much too big."),                                                    \
    .confirm = HOB_MEANS (OPEN_GAS) | HOB_MEANS (PRESSURE),                                       \
    .hazards = HOB_HAZARD (CO_FLAME) | HOB_HAZARD (GAS_GATHERED),                                 \
    .plate = HOB_PLATE (HOB_FUEL_LP),                                                             \
    HOB_EFFECTS ({ .setting = HOB_BURNER_ORIFICE, .how = HOB_EFFECT_MULTIPLY, .at0 = 1,           \
                   .at1 = 1.469 }),                                                               \
  }

/* ---- Sealed ---- */

const HobFaultDef hob_burner_top_faults[HOB_TOP_N_FAULTS] = {
  {
    .id = "cap-not-seated",
    .words = N_ ("burner cap not seated"),
    .severity_words = N_ ("cap %s too far from the electrode"),
    .typical = 0.7,
    .prior = 8,
    .proof = N_ ("With the burner off and cool, press on the edge of the burner cap. It rocks. "
                 "Reseat it flat. Now the burner lights normally."),
    .confirm = HOB_MEANS (HAND) | HOB_MEANS (INSPECT),
    .hazards = HOB_HAZARD (CO_FLAME) | HOB_HAZARD (GAS_GATHERED),
    HOB_EFFECTS ({ .setting = HOB_TOP_CAP_AWAY, .at0 = 2e-3, .at1 = 9e-3 },
                 { .setting = HOB_TOP_CAP_LIFT, .at0 = 1e-3, .at1 = 8e-3 }),
  },
  {
    .id = "cap-missing",
    .words = N_ ("burner cap missing"),
    .prior = 1,
    .proof = N_ ("Look at the burner. Its cap is missing."),
    .confirm = HOB_MEANS (INSPECT),
    .hazards = HOB_HAZARD (CO_FLAME) | HOB_HAZARD (GAS_GATHERED),
    HOB_EFFECTS ({ .setting = HOB_TOP_CAP_AWAY, .at1 = INFINITY },
                 { .setting = HOB_TOP_CAP_LIFT, .at1 = INFINITY }),
  },
  {
    .id = "cap-dirty",
    .words = N_ ("dirt baked onto the burner cap"),
    .severity_words = N_ ("baked-on residue %s thick"),
    .typical = 0.5,
    .prior = 6,
    .proof = N_ ("With the burner off and cool, scrape the baked-on residue off the burner cap "
                 "where the spark jumps. Now the spark is strong."),
    .confirm = HOB_MEANS (INSPECT) | HOB_MEANS (HAND),
    .hazards = HOB_HAZARD (GAS_GATHERED),
    HOB_EFFECTS ({ .setting = HOB_TOP_CAP_FILM, .at0 = 0.1e-3, .at1 = 1e-3 }),
  },
  {
    .id = "cap-small",
    .words = N_ ("burner cap from a smaller burner"),
    .severity_words = N_ ("cap %s too far from the electrode"),
    .typical = 0.7,
    .prior = 2,
    .proof = N_ ("Two burners started acting up at the same time, after cleaning. The cap on this "
                 "one is too small for it. With both burners off and cool, swap the two caps. Now "
                 "both burners work."),
    .confirm = HOB_MEANS (INSPECT) | HOB_MEANS (SWAP),
    .hazards = HOB_HAZARD (CO_FLAME) | HOB_HAZARD (GAS_GATHERED),
    HOB_EFFECTS ({ .setting = HOB_TOP_CAP_AWAY, .at0 = 2e-3, .at1 = 7e-3 },
                 { .setting = HOB_BURNER_PORTS, .how = HOB_EFFECT_MULTIPLY, .at0 = 1, .at1 = 1.3 }),
  },
  {
    .id = "cap-large",
    .words = N_ ("burner cap from a larger burner"),
    .severity_words = N_ ("cap %s too close to the electrode"),
    .typical = 0.5,
    .prior = 2,
    .proof = N_ ("Two burners started acting up at the same time, after cleaning. The cap on this "
                 "one is too large for it. With both burners off and cool, swap the two caps. Now "
                 "both burners work."),
    .confirm = HOB_MEANS (INSPECT) | HOB_MEANS (SWAP),
    .hazards = HOB_HAZARD (CO_FLAME) | HOB_HAZARD (GAS_GATHERED),
    HOB_EFFECTS ({ .setting = HOB_TOP_CAP_AWAY, .at0 = -1e-3, .at1 = -2e-3 },
                 { .setting = HOB_BURNER_PORTS, .how = HOB_EFFECT_MULTIPLY, .at0 = 1, .at1 = 0.6 }),
  },
  {
    .id = "port-clogged",
    .words = N_ ("burner ports at the electrode clogged"),
    .severity_words = N_ ("%s of the ports at the electrode clogged"),
    .typical = 0.8,
    .prior = 8,
    .proof = N_ ("The burner sparks well but lights late or only with a match. Turn it off and let "
                 "it cool. Clear the ports at the electrode with a needle. Now the burner lights "
                 "right away."),
    .confirm = HOB_MEANS (INSPECT) | HOB_MEANS (HAND),
    .hazards = HOB_HAZARD (GAS_GATHERED),
    HOB_EFFECTS ({ .setting = HOB_TOP_CLOGGED, .at1 = 1 }),
  },
  PORTS_BLOCKED,
  ORIFICE_CLOGGED (2),
  VENTURI_BLOCKED (2),
  ORIFICE_FOR_LP,
  ORIFICE_FOR_NATURAL,
};

/* ---- Open ---- */

const HobFaultDef hob_burner_open_faults[HOB_OPEN_N_FAULTS] = {
  {
    .id = "tube-blocked",
    .words = N_ ("flash tube blocked"),
    .severity_words = N_ ("%s of the flash tube still open"),
    .typical = 0.9,
    .prior = 6,
    .proof = N_ ("The burner sparks well but lights late or only with a match. Turn it off and let "
                 "it cool. Lift the cooktop and look through the flash tube. Something is blocking "
                 "it. Clean the tube with a brush. Now the burner lights right away."),
    .confirm = HOB_MEANS (INSPECT) | HOB_MEANS (HAND),
    .hazards = HOB_HAZARD (GAS_GATHERED),
    HOB_EFFECTS ({ .setting = HOB_TOP_TUBE_OPEN, .at0 = 0.7, .at1 = 0.05,
                   .geometric = TRUE }),
  },
  {
    .id = "tube-off",
    .words = N_ ("flash tube not in place"),
    .severity_words = N_ ("flash tube %s of the way off the burner"),
    .typical = 0.8,
    .prior = 5,
    .proof = N_ ("With the burners off and cool, lift the cooktop. The flash tube is off the "
                 "burner. Set it back, with its end at the ignition ports. Now the burner lights "
                 "right away."),
    .confirm = HOB_MEANS (INSPECT) | HOB_MEANS (HAND),
    .hazards = HOB_HAZARD (GAS_GATHERED),
    HOB_EFFECTS ({ .setting = HOB_TOP_TUBE_AWAY, .at0 = 0.1, .at1 = 1 }),
  },
  PORTS_BLOCKED,
  ORIFICE_CLOGGED (4),
  VENTURI_BLOCKED (4),
  {
    .id = "shutter-closed",
    .words = N_ ("air shutter closed too far"),
    .severity_words = N_ ("air shutter at %s of its correct opening"),
    .typical = 0.6,
    .prior = 2,
    .proof = N_ ("Open the air shutter until the flame is blue, but not so far that it lifts."),
    .confirm = HOB_MEANS (INSPECT),
    .hazards = HOB_HAZARD (CO_FLAME),
    HOB_EFFECTS ({ .setting = HOB_BURNER_SHUTTER, .at0 = 0.8, .at1 = 0.5 }),
  },
  {
    .id = "shutter-open",
    .words = N_ ("air shutter open too far"),
    .severity_words = N_ ("air shutter at %s of its correct opening"),
    .typical = 0.6,
    .prior = 1,
    .proof = N_ ("Close the air shutter until the flame no longer lifts or hisses."),
    .confirm = HOB_MEANS (INSPECT),
    .hazards = HOB_HAZARD (CO_FLAME),
    HOB_EFFECTS ({ .setting = HOB_BURNER_SHUTTER, .at0 = 1.2, .at1 = 1.58 }),
  },
  ORIFICE_FOR_LP,
  ORIFICE_FOR_NATURAL,
};
