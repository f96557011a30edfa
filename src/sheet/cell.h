/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

/* Cells: the room that belongs to one part. */

#include "sheet/type.h"

G_BEGIN_DECLS

typedef struct
{
  double x0, y0, x1, y1;
} HobBox;

#define HOB_CELL_ABOVE 24.0
#define HOB_CELL_BELOW 24.0
#define HOB_CELL_AROUND 12.0
#define HOB_TAG_WIDTH 104.0
#define HOB_TAG_HEIGHT 28.0

/* The symbol's own box; FALSE: not on this sheet. */
gboolean hob_cell_symbol (const HobPart *part, HobSheet sheet, HobBox *box);
/* With what it keeps free round it. */
gboolean hob_cell_zone (const HobPart *part, HobSheet sheet, HobBox *zone);
/* Where a fault's tag hangs; FALSE: it has no faults. */
gboolean hob_cell_tag (const HobPart *part, HobSheet sheet, HobBox *tag);
gboolean hob_cell_is_dot (const HobPart *part, HobSheet sheet);
gboolean hob_cell_is_interior (const HobKind *kind); /* others are drawn inside of it */
gboolean hob_cell_is_attached (const HobRange *range, int part,
                               HobSheet sheet); /* has no name of its own there */
gboolean hob_cell_is_face (const HobPart *part, HobSheet sheet); /* drawn with the body, over its
                                                                    name */
gboolean hob_on_cavity (const HobRange *range, HobSheet sheet, double x, double y);
gboolean hob_box_meet (const HobBox *a, const HobBox *b);
gboolean hob_box_holds (const HobBox *box, double x, double y);

typedef struct
{
  double x, y; /* baseline */
  HobAlign align;
} HobTextPlace;

void hob_cell_name_place (const HobRange *range, int part, HobSheet sheet, const HobLook *look,
                          HobTextPlace *place);
/* The room of a part's name in one line; FALSE: it has none of its own there. */
gboolean hob_cell_name_box (const HobRange *range, int part, HobSheet sheet, HobType *type,
                            const HobLook *look, HobBox *box);
/* The name in lines, the upper one first (owned; NULL: only one): in two, or one word in smaller
 * letters, where it would lie on another part or its name.  Its size. */
HobTextSize hob_cell_name_lines (const HobRange *range, int part, HobSheet sheet, HobType *type,
                                 const HobLook *look, char *line[2]);
/* The space in a name that leaves two lines most alike; NULL: it is one word. Borrowed. */
const char *hob_cell_middle_space (HobType *type, const char *name);
#define HOB_NAME_PITCH 1.15 /* em between its lines */

void hob_cell_figure_place (const HobRange *range, int part, HobSheet sheet, const HobLook *look,
                            HobTextPlace *place);

G_END_DECLS
