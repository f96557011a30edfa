/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

/* The body of the range on the cutaway: seen from its right front, cut open along its side.  The
 * oven lies flat in the cut; what is across the range goes up to the left at 45°, at half its
 * length.  It follows from where the file puts the oven and the surface burners. */

#include "sheet/stage.h"

G_BEGIN_DECLS

typedef struct
{
  HobBox oven;        /* inside, as cut */
  double front, back; /* x of the cooktop's near edge */
  double top, foot;   /* y of the cooktop's near edge, and of the floor */
  double across;      /* px that the far side lies to the left of the near one, and above it */
} HobBody;

/* FALSE: no oven on this sheet, and so no body. */
gboolean hob_body_of (const HobRange *range, HobSheet sheet, HobBody *body);
/* All that is drawn of it. */
void hob_body_bounds (const HobBody *body, HobBox *box);
gboolean hob_body_on_cooktop (const HobBody *body, double x, double y);
/* Cooktop, grates, front panel, drawer, backguard, vent; below the parts. */
void hob_body_paper (const HobStage *stage, const HobBody *body);
/* The door's face and the notches of the knobs; below the parts. */
void hob_body_state (const HobStage *stage, const HobBody *body);

G_END_DECLS
