/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

/* What a line or a fill *means*; the theme turns a role into a color.  No cairo here: a part's
 * symbol is drawn through these verbs on screen, in files, and by the pen that only records bounds
 * (tests). */
typedef enum
{
  HOB_ROLE_SHEET,
  HOB_ROLE_PANEL,
  HOB_ROLE_INK,
  HOB_ROLE_INK2,
  HOB_ROLE_EDGE,
  HOB_ROLE_RULE,
  HOB_ROLE_GAS,
  HOB_ROLE_HEAT,
  HOB_ROLE_RING,
  HOB_ROLE_PENCIL,
  HOB_ROLE_CAUTION,
  HOB_ROLE_TAG,
  HOB_ROLE_TAG_INK,
  HOB_ROLE_CAVITY,      /* cutaway interior, the same in both themes */
  HOB_ROLE_CAVITY_INK,
  HOB_ROLE_SPARK,       /* core of the zig-zag */
  HOB_ROLE_FLAME,
  HOB_ROLE_FLAME_CONE,
  HOB_ROLE_FLAME_TIP,
  HOB_ROLE_METAL,       /* plain metal fill: a tone between panel and edge */
  HOB_N_ROLES
} HobRole;

typedef enum
{
  HOB_TEXT_TITLE,  /* 18 bold */
  HOB_TEXT_FIGURE, /* 16 bold */
  HOB_TEXT_NAME,   /* 14 bold */
  HOB_TEXT_BODY,   /* 13 */
  HOB_TEXT_SMALL,  /* 11 */
  HOB_TEXT_METER,  /* 32 bold */
} HobTextSize;

typedef enum { HOB_ALIGN_LEFT, HOB_ALIGN_CENTRE, HOB_ALIGN_RIGHT } HobAlign;

/* Signs that repeat along a line, drawn about their middle, pointing right. */
typedef enum
{
  HOB_TILE_TICK,       /* current */
  HOB_TILE_TICK_HEAVY, /* … over 5 A */
  HOB_TILE_RAIL,       /* live, no current: to the left of its line */
  HOB_TILE_HATCH,      /* gas at rest in a pipe */
  HOB_TILE_WEDGE,      /* gas that flows */
  HOB_N_TILES
} HobTile;

/* One straight stretch, level or plumb, from 0 to 1, with n whole signs, the middle of the first
 * `first` px along; n = 0: filled from end to end, the last one cut. */
typedef struct
{
  HobTile tile;
  double x0, y0, x1, y1;
  int quarter; /* where they point, in quarter turns clockwise from right */
  double first;
  int n;
} HobRepeat;

typedef struct _HobPen HobPen;

/* Verbs a pen implements; NULL does nothing.  Coordinates in sheet px at zoom 1, y down,
 * relative to the current origin. */
typedef struct
{
  void (*move) (HobPen *pen, double x, double y);
  void (*line) (HobPen *pen, double x, double y);
  void (*curve) (HobPen *pen, double x1, double y1, double x2, double y2, double x3, double y3);
  void (*arc) (HobPen *pen, double x, double y, double r, double from,
               double to); /* rad, clockwise on screen */
  void (*close) (HobPen *pen);
  void (*dash) (HobPen *pen, double on, double off); /* until the next stroke; 0, 0 is solid */
  void (*stroke) (HobPen *pen, HobRole role, double weight);        /* and clears the path */
  void (*fill) (HobPen *pen, HobRole role);                         /* and clears the path */
  void (*fill_stroke) (HobPen *pen, HobRole fill, HobRole role, double weight);
  /* Colour by temperature in K (glow) instead of a role: fills the path and clears it; nothing
   * below first red. */
  void (*glow) (HobPen *pen, double kelvin);
  /* Baseline at y. The text stays upright whatever the turn. */
  void (*text) (HobPen *pen, double x, double y, HobTextSize size, HobRole role, HobAlign align,
                const char *text);
  /* Has it room in @w?  Text doesn't shrink below what can be read; NULL: it does. */
  gboolean (*fits) (HobPen *pen, HobTextSize size, const char *text, double w);
  void (*push) (HobPen *pen, double x, double y,
                int quarter_turns); /* new origin, turned clockwise */
  /* Turns the origin, and keeps what is drawn from now on out of a box; both until the pop. */
  void (*spin) (HobPen *pen, double rad);
  void (*hide) (HobPen *pen, double x, double y, double w, double h);
  void (*keep) (HobPen *pen, double x, double y, double r); /* within a circle, until the pop */
  void (*pop) (HobPen *pen);
  void (*repeat) (HobPen *pen, const HobRepeat *repeat);
  /* A color that is no role (a wire's insulation) in place of the next stroke's or fill's own. */
  void (*tint) (HobPen *pen, const double rgb[3]);
} HobPenClass;

struct _HobPen
{
  const HobPenClass *klass;
};

/* Shorthands: pen_move (p, x, y) … and composites every symbol uses. */
void pen_move (HobPen *pen, double x, double y);
void pen_line (HobPen *pen, double x, double y);
void pen_curve (HobPen *pen, double x1, double y1, double x2, double y2, double x3, double y3);
void pen_arc (HobPen *pen, double x, double y, double r, double from, double to);
void pen_close (HobPen *pen);
void pen_dash (HobPen *pen, double on, double off);
void pen_stroke (HobPen *pen, HobRole role, double weight);
void pen_fill (HobPen *pen, HobRole role);
void pen_fill_stroke (HobPen *pen, HobRole fill, HobRole role, double weight);
void pen_glow (HobPen *pen, double kelvin);
void pen_text (HobPen *pen, double x, double y, HobTextSize size, HobRole role, HobAlign align,
               const char *text);
/* In the middle of a frame that is @w wide, or left out. */
void pen_text_within (HobPen *pen, double x, double y, double w, HobTextSize size, HobRole role,
                      const char *text);
void pen_push (HobPen *pen, double x, double y, int quarter_turns);
void pen_spin (HobPen *pen, double rad);
void pen_hide (HobPen *pen, double x, double y, double w, double h);
void pen_keep (HobPen *pen, double x, double y, double r);
void pen_pop (HobPen *pen);
void pen_repeat (HobPen *pen, const HobRepeat *repeat);
double hob_tile_pitch (HobTile tile); /* px from one to the next */
void pen_tint (HobPen *pen, const double rgb[3]);
void pen_rect (HobPen *pen, double x, double y, double w, double h); /* path only */
void pen_circle (HobPen *pen, double x, double y, double r);         /* path only */
void pen_segment (HobPen *pen, double x1, double y1, double x2, double y2); /* path only */

G_END_DECLS
