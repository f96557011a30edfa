/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

/* The title block at the foot of a picture: what range and moment it shows, what applies there, and
 * what its signs mean.  With it a picture can be read without the program. */

#include "sheet/pen-cairo.h"

G_BEGIN_DECLS

/* Which part of it a page has: a second page takes the legend and the cautions in full. */
typedef enum { HOB_BLOCK_WHOLE, HOB_BLOCK_FIRST, HOB_BLOCK_SECOND } HobBlockPart;

/* Does what it says not fit below a picture w × h px? */
gboolean hob_title_block_needs_page (const HobTitleBlock *block, double w, double h);
double hob_title_block_height (const HobTitleBlock *block, double w, HobBlockPart part); /* px */
/* From y on, across w px. */
void hob_title_block_draw (HobPen *pen, HobType *type, const HobTitleBlock *block, double y,
                           double w, HobBlockPart part);
/* The look of its text. */
HobLook hob_title_block_look (const HobTitleBlock *block);

G_END_DECLS
