/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "parts/renamed.h"

#include <string.h>

const HobRenamed hob_renamings[] = {
  { "cap-askew", "cap-not-seated" },
  { "contact-burnt", "contact-burned" },
  { "burnt", "burned" },
  { "false-ground", "bootleg-ground" },
  { "flue-covered", "vent-covered" },
  { "fluid-lost", "charge-lost" },
  { "foil-on-floor", "bottom-covered" },
  { "gasket-gone", "gasket-torn" },
  { "jet-clogged", "orifice-clogged" },
  { "jet-for-lp", "orifice-for-lp" },
  { "jet-for-natural", "orifice-for-natural" },
  { "jet-large", "orifice-for-natural" },
  { "jet-small", "orifice-for-lp" },
  { "joint-discoloured", "joint-discolored" },
  { "mixer-blocked", "venturi-blocked" },
  { "on-floor", "on-bottom" },
  { "pipe-insulates", "pipe-not-grounded" },
  { "relay-burnt", "relay-burned" },
  { "shutter", "venturi" },
  { "stuck-shut", "stuck-closed" },
  { "unburnt", "unburned" },
  { "valve-two-coil", "valve-dual" },
  { NULL },
};

const char *
hob_renamed (const char *name)
{
  for (const HobRenamed *r = hob_renamings; r->old != NULL; r++)
    if (strcmp (r->old, name) == 0)
      return r->now;
  return NULL;
}
