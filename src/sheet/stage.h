/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

/* The stage that a sheet is drawn on: all that paper and state need, and nothing to draw with but
 * the pen. */

#include "sheet/cell.h"
#include "sheet/memory.h"
#include "sheet/route.h"
#include "sheet/type.h"

G_BEGIN_DECLS

struct _HobStage
{
  HobPen *pen;
  HobType *type;
  const HobLook *look;
  const HobRange *range;
  HobSheet sheet;
  const HobRoutes *routes;
  const GArray *plates;         /* HobPlate; signs keep off them */
  const HobScene *scene;        /* NULL while paper is drawn */
  HobSheetMemory *memory; /* NULL where nothing moves */
  const GArray *captions; /* HobCaption of each part; NULL while paper is drawn */
  const GArray *brackets; /* HobBracket; NULL while they are laid, and while paper is drawn */
  const HobBox *within;   /* parts that don't reach into it are left out; NULL: none is */
};

void hob_stage_paper (const HobStage *stage);
void hob_stage_state (const HobStage *stage);
/* The figures alone, and what else there is to read in the state. */
void hob_stage_texts (const HobStage *stage);

/* hob_sheet_bounds, from the stage's own routes; or the view. */
void hob_stage_bounds (const HobStage *stage, double bounds[4]);

/* What each sheet adds to its parts. */
void hob_wiring_paper (const HobStage *stage);
void hob_wiring_letters (const HobStage *stage); /* at terminals */
/* Widens the box of the part's symbol to hold those at its terminals. */
void hob_wiring_hold_letters (const HobStage *stage, int part, HobBox *box);
void hob_wiring_state (const HobStage *stage);
void hob_gas_paper (const HobStage *stage);
void hob_gas_state (const HobStage *stage);
void hob_gas_texts (const HobStage *stage);
typedef struct _HobCaption HobCaption;
/* What is said of a part's gas: how far a valve is open; pressures, and what is not lit. */
void hob_gas_opening_lines (const HobStage *stage, HobCaption *caption);
void hob_gas_lines (const HobStage *stage, HobCaption *caption);
void hob_gas_signs (const HobStage *stage); /* escaping and gathered gas */
/* Widens the box of the part's symbol to hold the sign of gas that escapes below it. */
void hob_gas_hold_sign (const HobStage *stage, int part, HobBox *box);
void hob_cutaway_paper (const HobStage *stage);
void hob_cutaway_state (const HobStage *stage);
/* What color an igniter glows in, in words; NULL: it does not. (transfer full) */
char *hob_cutaway_glow (const HobPartView *view);
/* One pipe: its walls, and what is in it. */
void hob_tube_paper (const HobStage *stage, const HobRoute *route);
void hob_tube_state (const HobStage *stage, int pipe);
/* A stretch of it in which @power flows, W. */
void hob_tube_contents (const HobStage *stage, const HobRoute *route, int pipe, double power,
                        gboolean forward);
/* What rises in the oven goes behind names, figures and tags: hides it there until the next pop. */
void hob_cutaway_hide (const HobStage *stage);
/* Name of the range and what the signs mean, where the sheet has room for it. */
void hob_title_paper (const HobStage *stage);

/* Is it on the oven's inside where that is dark, which it is not on paper? */
gboolean hob_stage_is_dark (const HobStage *stage, double x, double y);

/* Symbols, names, figures, rings and tags: alike on every sheet. */
void hob_parts_paper (const HobStage *stage);
void hob_parts_symbols (const HobStage *stage); /* alone, as they are now */
void hob_parts_state (const HobStage *stage);
void hob_parts_texts (const HobStage *stage);

G_END_DECLS
