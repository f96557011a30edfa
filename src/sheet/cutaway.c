/* SPDX-License-Identifier: GPL-3.0-or-later */

/* The cutaway: the oven opened, burners above it; glow, flame, sparks and warm air as they would be seen. */

#include "sheet/draw.h"
#include "base/i18n.h"
#include <math.h>

void
hob_cutaway_paper (const HobStage *stage)
{
  hob_parts_paper (stage);
}

void
hob_cutaway_state (const HobStage *stage)
{
  hob_parts_state (stage);
}
