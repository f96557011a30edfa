/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

/* Captions: what is written about a part now, and where.  What differs finds a place first; names
 * and figures of other parts give way to it. */

#include "sheet/stage.h"

G_BEGIN_DECLS

#define HOB_CAPTION_LINES 6

/* Zoom below which names are on the paper no more; in a file they give way to what differs. */
#define HOB_NAMES_FROM_ZOOM 0.5

typedef struct
{
  HobTextSize size;
  HobRole role;
  char *text; /* owned */
} HobCaptionLine;

struct _HobCaption
{
  int part;
  gboolean asked;     /* it differs, misbehaves, or is chosen */
  gboolean named;     /* its name is written with what changes, not on the paper below */
  gboolean shown;
  gboolean on_cavity; /* on the dark inside of the oven, or on the cooktop */
  int n;
  HobCaptionLine line[HOB_CAPTION_LINES];
  HobTextPlace name;  /* of its last line, where it is named */
  gboolean has_name;  /* it has a name here, on the paper if not with what changes */
  HobBox name_box;    /* where that is, in all its lines */
  HobTextPlace place; /* of the first line */
  HobBox box;         /* of all lines */
  HobBox ring;        /* what a ring around the part goes around */
};

/* Where a caption is while the same parts differ: figures change without moving. */
typedef struct
{
  gboolean asked, culprit, differs;
  int n;
  gboolean named, shown, has_name;
  HobTextPlace name, place;
  HobBox name_box, ring;
} HobKeptCaption;

/* One for each part of the range. (transfer full) */
GArray *hob_captions_lay (const HobStage *stage);
/* Takes @text; NULL: none. */
void hob_caption_add (HobCaption *caption, HobTextSize size, HobRole role, char *text);
void hob_caption_clear (HobCaption *caption);
double hob_caption_width (const HobStage *stage, const HobCaption *caption);
/* Is the ring of a part that is too wide for one around its caption? */
gboolean hob_caption_is_ringed (const HobStage *stage, const HobCaption *caption);
/* px between it and its own part's symbol; at more than HOB_CAPTION_NEAR a line leads to it. */
double hob_caption_gap (const HobStage *stage, const HobCaption *caption);
#define HOB_CAPTION_NEAR 8.5
void hob_caption_draw_leader (const HobStage *stage, const HobCaption *caption);
void hob_caption_draw (const HobStage *stage, const HobCaption *caption);
/* px from the first line's baseline to the last one's. */
double hob_caption_depth (const HobStage *stage, const HobCaption *caption);

G_END_DECLS
