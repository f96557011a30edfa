/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "parts/means.h"

#include "base/i18n.h"

/* Minutes are common practice and have no published source; they include what the means needs
 * beforehand (the range pulled out, the drawer taken off). */
const HobMeansDef hob_means[HOB_N_MEANS] = {
  [HOB_MEANS_LOOK] = {
    .id = "look",
    .words = N_ ("Look and listen"),
    .minutes = 1,
  },
  [HOB_MEANS_INSPECT] = {
    .id = "inspect",
    .words = N_ ("Look closely at the part, with the range unplugged and cool"),
    .minutes = 3,
    .safe = HOB_SAFE_UNPLUGGED | HOB_SAFE_COLD,
    .hazards = HOB_HAZARD (DEAD_FIRST),
  },
  [HOB_MEANS_HAND] = {
    .id = "hand",
    .words = N_ ("Reseat, clean, dry, or move the part by hand"),
    .minutes = 10,
    .set_up = 4,
    .safe = HOB_SAFE_UNPLUGGED | HOB_SAFE_COLD,
    .hazards = HOB_HAZARD (DEAD_FIRST),
  },
  [HOB_MEANS_SWAP] = {
    .id = "swap",
    .words = N_ ("Swap two identical parts or leads and see whether the fault follows one of them"),
    .minutes = 10,
    .set_up = 4,
    .safe = HOB_SAFE_UNPLUGGED | HOB_SAFE_COLD,
    .hazards = HOB_HAZARD (DEAD_FIRST),
  },
  [HOB_MEANS_INSPECT_INSIDE] = {
    .id = "inspect-inside",
    .words = N_ ("Remove the panel over the part and look closely, with the range unplugged and "
                 "cool"),
    .minutes = 8,
    .set_up = 4,
    .safe = HOB_SAFE_UNPLUGGED | HOB_SAFE_COLD,
    .hazards = HOB_HAZARD (DEAD_FIRST),
  },
  [HOB_MEANS_METER_CLOCK] = {
    .id = "meter-clock",
    .words = N_ ("Clock the gas meter with only this burner on and every other gas appliance in "
                 "the house off"),
    .minutes = 5,
  },
  [HOB_MEANS_OHMS_IN_CIRCUIT] = {
    .id = "ohms-in-circuit",
    .words = N_ ("Resistance, with the range unplugged and the wires connected"),
    .minutes = 6,
    .set_up = 4,
    .safe = HOB_SAFE_UNPLUGGED | HOB_SAFE_COLD,
    .hazards = HOB_HAZARD (DEAD_FIRST),
  },
  [HOB_MEANS_OHMS] = {
    .id = "ohms",
    .words = N_ ("Resistance, with the range unplugged and one lead off the part"),
    .minutes = 8,
    .set_up = 4,
    .safe = HOB_SAFE_UNPLUGGED | HOB_SAFE_COLD,
    .hazards = HOB_HAZARD (DEAD_FIRST),
  },
  [HOB_MEANS_CONTINUITY] = {
    .id = "continuity",
    .words = N_ ("Continuity in each position, with the range unplugged and one lead off the part"),
    .minutes = 8,
    .set_up = 4,
    .safe = HOB_SAFE_UNPLUGGED | HOB_SAFE_COLD,
    .hazards = HOB_HAZARD (DEAD_FIRST),
  },
  [HOB_MEANS_LEAKAGE] = {
    .id = "leakage",
    .words = N_ ("Resistance from the wiring to the chassis, with the range unplugged"),
    .minutes = 10,
    .set_up = 4,
    .safe = HOB_SAFE_UNPLUGGED,
    .hazards = HOB_HAZARD (DEAD_FIRST),
  },
  [HOB_MEANS_SENSOR_OHMS] = {
    .id = "sensor-ohms",
    .words = N_ ("Resistance of the oven sensor at the control plug, with the range unplugged"),
    .minutes = 15,
    .set_up = 4,
    .safe = HOB_SAFE_UNPLUGGED,
    .hazards = HOB_HAZARD (DEAD_FIRST),
  },
  [HOB_MEANS_THERMOMETER] = {
    .id = "thermometer",
    .words = N_ ("Thermometer in the center of the oven over three cycles"),
    .minutes = 45,
    .danger = HOB_DANGER_HOT,
    .safe = HOB_SAFE_COLD,
    .hazards = HOB_HAZARD (HOT_IGNITER),
  },
  [HOB_MEANS_SURFACE] = {
    .id = "surface",
    .words = N_ ("Thermocouple on the part, with the range on"),
    .minutes = 10,
    .set_up = 4,
    .skill = HOB_SKILL_TECHNICIAN,
    .danger = HOB_DANGER_LIVE,
    .safe = HOB_SAFE_UNPLUGGED | HOB_SAFE_COLD,
    .hazards = HOB_HAZARD (LIVE_TEST),
  },
  [HOB_MEANS_ANALYZER] = {
    .id = "analyzer",
    .words = N_ ("Combustion analyzer at the oven vent, CO air-free"),
    .minutes = 10,
    .skill = HOB_SKILL_TECHNICIAN,
    .danger = HOB_DANGER_HOT,
    .hazards = HOB_HAZARD (CO_FLAME),
  },
  [HOB_MEANS_RECEPTACLE] = {
    .id = "receptacle",
    .words = N_ ("Volts at the receptacle, with the range unplugged"),
    .minutes = 3,
    .skill = HOB_SKILL_TECHNICIAN,
    .danger = HOB_DANGER_LIVE,
    .hazards = HOB_HAZARD (LIVE_TEST) | HOB_HAZARD (PUT_BACK),
  },
  [HOB_MEANS_LIVE_VOLTS] = {
    .id = "live-volts",
    .words = N_ ("Volts across the part, with the range on"),
    .minutes = 10,
    .set_up = 4,
    .skill = HOB_SKILL_TECHNICIAN,
    .danger = HOB_DANGER_LIVE,
    .safe = HOB_SAFE_UNPLUGGED,
    .hazards = HOB_HAZARD (LIVE_TEST),
  },
  [HOB_MEANS_VOLTAGE_DROP] = {
    .id = "voltage-drop",
    .words = N_ ("Voltage drop across a contact or connection under load"),
    .minutes = 10,
    .set_up = 4,
    .skill = HOB_SKILL_TECHNICIAN,
    .danger = HOB_DANGER_LIVE,
    .safe = HOB_SAFE_UNPLUGGED,
    .hazards = HOB_HAZARD (LIVE_TEST),
  },
  [HOB_MEANS_AMPS] = {
    .id = "amps",
    .words = N_ ("Amp draw with a clamp meter on one wire"),
    .minutes = 8,
    .set_up = 4,
    .skill = HOB_SKILL_TECHNICIAN,
    .danger = HOB_DANGER_LIVE,
    .safe = HOB_SAFE_UNPLUGGED,
    .hazards = HOB_HAZARD (LIVE_TEST),
  },
  [HOB_MEANS_LEAK_CHECK] = {
    .id = "leak-check",
    .words = N_ ("Leak-detection solution on the valve, connector, and fittings"),
    .minutes = 5,
    .skill = HOB_SKILL_TECHNICIAN,
    .danger = HOB_DANGER_GAS,
    .hazards = HOB_HAZARD (GAS_JOINT),
  },
  [HOB_MEANS_PRESSURE] = {
    .id = "pressure",
    .words = N_ ("Gas pressure with a manometer"),
    .minutes = 15,
    .skill = HOB_SKILL_TECHNICIAN,
    .danger = HOB_DANGER_GAS,
    .safe = HOB_SAFE_GAS_OFF,
    .hazards = HOB_HAZARD (PRESSURE),
  },
  [HOB_MEANS_OPEN_GAS] = {
    .id = "open-gas",
    .words = N_ ("Shut off the gas, take out the orifice or screen, and look through it"),
    .minutes = 15,
    .skill = HOB_SKILL_TECHNICIAN,
    .danger = HOB_DANGER_GAS,
    .safe = HOB_SAFE_GAS_OFF | HOB_SAFE_UNPLUGGED | HOB_SAFE_COLD,
    .hazards = HOB_HAZARD (GAS_JOINT),
  },
};

int
hob_means_find (const char *id)
{
  g_return_val_if_fail (id != NULL, -1);

  for (int k = 0; k < HOB_N_MEANS; k++)
    if (g_str_equal (hob_means[k].id, id))
      return k;
  return -1;
}

HobHazards
hob_means_hazards (guint means)
{
  HobHazards hazards = 0;

  for (int k = 0; k < HOB_N_MEANS; k++)
    if (means & HOB_MEANS_BIT (k))
      hazards |= hob_means[k].hazards;
  return hazards;
}
