/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

/* A pen that draws nothing and remembers everything: each stroke as a line of text, in sheet px,
 * and where the ink of each text is. */

#include "sheet/cell.h"
#include "sheet/type.h"

G_BEGIN_DECLS

typedef struct
{
  HobBox box; /* ink of the text, sheet px */
  char *text; /* owned */
  gboolean spun; /* on a card that is tilted */
} RecordedText;

/* A straight piece of a path. */
typedef struct
{
  HobPoint a, b;
} RecordedPiece;

typedef struct
{
  HobPen pen;
  /*< borrowed >*/
  HobType *type;
  const HobLook *look;
  /*< owned >*/
  GArray *texts;    /* RecordedText */
  GArray *tags;     /* HobBox of each card */
  GArray *rings;    /* RecordedPiece of all that is stroked as a ring, arc or bracket */
  GArray *origins;  /* HobOrigin: where pushes have led */
  GArray *pieces;   /* RecordedPiece of the path */
  HobPoint last;
  GString *path;    /* not painted yet */
  HobBox path_box;
  GString *strokes; /* "stroke INK 2: M 0,0 L 10,0\n" … */
  int lines, rounds; /* pieces of paths so far: a plain box has 4 lines */
} RecordingPen;

RecordingPen *recording_pen_new (HobType *type, const HobLook *look);
void recording_pen_free (RecordingPen *pen);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (RecordingPen, recording_pen_free)

/* A still, its paper if asked for and its state, drawn with @pen. */
void recorded_on (RecordingPen *pen, const HobScene *scene, HobSheet sheet, gboolean paper);
/* The strokes of a whole still: its paper, if asked for, and its state. (transfer full) */
char *recorded_still (const HobScene *scene, HobSheet sheet, const HobLook *look, gboolean paper);
/* How often @word stands in them. */
guint recorded_count (const char *strokes, const char *word);

G_END_DECLS
