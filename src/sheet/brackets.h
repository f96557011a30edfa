/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

/* Brackets: what differs alike in several places has one sign for all of them. Wires whose volts
 * differ alike are one net, pipes whose pressure does are one too, and so are parts of a kind that
 * suffer alike. */

#include "sheet/stage.h"

G_BEGIN_DECLS

typedef enum { HOB_BRACKET_WIRE, HOB_BRACKET_PIPE, HOB_BRACKET_PARTS } HobBracketOf;

typedef struct
{
  HobBracketOf of;
  int first;          /* wire, pipe or part of them: the others are like this one */
  HobPoint a, b;      /* it goes from a to b */
  HobPoint leg;       /* and from both its ends this far to what differs */
  gboolean said;      /* with both its figures */
  HobTextPlace place; /* of those */
} HobBracket;

/* After the captions. (transfer full) */
GArray *hob_brackets_lay (const HobStage *stage);
/* Is there one that stands for the part's own arc? */
gboolean hob_brackets_hold (const HobStage *stage, int part);
void hob_brackets_draw (const HobStage *stage);
void hob_brackets_texts (const HobStage *stage);
/* The first of those that differ like wire, pipe or part k; −1: it does not differ. */
int hob_bracket_first (const HobStage *stage, HobBracketOf of, int k);

G_END_DECLS
