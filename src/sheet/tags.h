/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

/* Tags of faults: each has its whole text in up to three lines and lies where nothing else does.
 * Where there is no room for it, the tag is a number, and the words are in the title block. */

#include "sheet/stage.h"

G_BEGIN_DECLS

#define HOB_TAG_LINES 3

typedef struct
{
  int part, number;
  char *line[HOB_TAG_LINES]; /* owned; NULL after the last */
  HobBox card;               /* before its tilt */
} HobTag;

/* Of every part with a fault on this sheet. (transfer full) */
GArray *hob_tags_lay (const HobStage *stage);
/* The string, which passes behind texts, and the card. */
void hob_tag_string (const HobStage *stage, const HobTag *tag);
void hob_tag_draw (const HobStage *stage, const HobTag *tag);

G_END_DECLS
