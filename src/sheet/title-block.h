/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

/* The title block at the foot of a picture: what range and moment it shows, what applies there, and
 * what its signs mean.  With it a picture can be read without the program. */

#include "sheet/pen-cairo.h"

G_BEGIN_DECLS

/* Which part of it a page has: a second page takes the legend and the cautions in full. */
typedef enum { HOB_BLOCK_WHOLE, HOB_BLOCK_FIRST, HOB_BLOCK_SECOND } HobBlockPart;

/* How a page is shared out, px inside its margins: from the top the sequence line, the picture, and
 * the block. */
typedef struct
{
  double w, h;    /* all of it */
  double picture; /* y where the picture begins; the line is above it */
  double block;   /* y where the block begins */
  double scale;   /* of the line and the block: under 1 on a small picture without paper */
} HobPageRoom;

double hob_paper_margin (HobPaper paper); /* px on each side */
/* Of a page w × h px; a second page has no picture. */
HobPageRoom hob_title_block_room (const HobTitleBlock *block, HobPaper paper, double w, double h,
                                  HobBlockPart part);
/* Does a page w × h px not hold all that it says? */
gboolean hob_title_block_needs_page (const HobTitleBlock *block, HobPaper paper, double w,
                                     double h);
double hob_title_block_height (const HobTitleBlock *block, double w, HobBlockPart part); /* px */
/* px of the sequence line; 0: there is none. */
double hob_title_block_line_height (const HobTitleBlock *block);
/* From y on, across w px. */
void hob_title_block_draw (HobPen *pen, HobType *type, const HobTitleBlock *block, double y,
                           double w, HobBlockPart part);
/* The look of its text. */
HobLook hob_title_block_look (const HobTitleBlock *block);

G_END_DECLS
