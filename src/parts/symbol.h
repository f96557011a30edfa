/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

/* Strokes that several kinds' symbols share. */

#include "parts/kind.h"

G_BEGIN_DECLS

#define HOB_OUTLINE 2.0 /* px, a part's outline */
#define HOB_DETAIL 1.5  /* px, inside it */

/* An oven burner's tube on the cutaway: half its length, and how far below the symbol's middle;
 * pipes end there. */
#define HOB_OVEN_TUBE_HALF 152.0
#define HOB_OVEN_TUBE_DOWN 24.0

/* A resistor's box (IEC 60617) of w × h px about the origin, with leads out to ±reach. */
void hob_symbol_resistor (HobPen *pen, double w, double h, double reach);
/* Leads from ±inner to ±reach along y = 0. */
void hob_symbol_leads (HobPen *pen, double inner, double reach);
/* Fixed ends of a contact between x1 and x2 on line y; the blade itself moves: hob_symbol_blade. */
void hob_symbol_contact (HobPen *pen, double x1, double x2, double y);
/* The blade, pivoted at x1; open it is turned by 24°. */
void hob_symbol_blade (HobPen *pen, double x1, double x2, double y, gboolean closed);

/* A lamp (IEC 60617: a cross in a circle) at (x, 0). */
void hob_symbol_lamp (HobPen *pen, double x, double r, HobRole ground, HobRole ink);
/* Its rays, longer as it shines more; none at 0. */
void hob_symbol_rays (HobPen *pen, double x, double r, double shines);

/* A flame as physics computes it. */
typedef struct
{
  double height; /* px from its foot to its tip while it is steady and blue */
  double most;   /* px that one which lacks air may have */
  double yellow, lift; /* 0…1 */
  double lean;   /* how far a draft pushes it over, the tangent of its angle */
  int nth;       /* in its row: neighbors sway to opposite sides */
} HobSymbolFlame;

/* One flame on (x, y).  A draft goes toward the back of the range, on the cutaway to the right. */
void hob_symbol_flame (HobPen *pen, double x, double y, const HobSymbolFlame *flame);
/* Height in px of a flame of @watt where @full px belong to @full_watt: height goes with √heat. */
double hob_symbol_flame_height (double watt, double full_watt, double full);

/* n strokes of rising warm air, one at each of the @lanes, @rise px tall from @foot up. */
void hob_symbol_warm_air (HobPen *pen, const HobPartView *view, const double *lanes,
                          double foot, double rise, int n);

/* n strokes of air that a fan drives around an oval of half width a and half height b. */
void hob_symbol_driven_air (HobPen *pen, const HobPartView *view, double a, double b, int n);

/* The three bars of ground (IEC 60617) under (x, y). */
void hob_symbol_earth (HobPen *pen, double x, double y);
/* Frame or chassis (IEC 60617) at (x, y); down: its strokes are below the bar, else above it. */
void hob_symbol_frame (HobPen *pen, double x, double y, gboolean down);
/* Walls of a gas tube along y from x1 to x2. */
void hob_symbol_tube (HobPen *pen, double x1, double x2, double y);
/* A valve (ISO 14617: two triangles, points together) at (x, y), filled with ink when closed. */
void hob_symbol_valve (HobPen *pen, double x, double y, gboolean shut);
/* A zigzag from (x1, y1) to (x2, y2), a light core in its casing: ink, or on the cavity its
 * ground. */
void hob_symbol_spark (HobPen *pen, HobRole casing, double x1, double y1, double x2, double y2);

/* Unlit gas that escapes at (x, y): open wedges that fan out to @reach px above or below it. */
void hob_symbol_escaping (HobPen *pen, double x, double y, double reach, gboolean up,
                          gboolean on_dark);
/* Unlit gas gathered in w × h px: a scalloped outline with dots. */
void hob_symbol_gathered (HobPen *pen, double x, double y, double w, double h, gboolean on_dark);

G_END_DECLS
