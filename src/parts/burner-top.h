/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "parts/burner.h"

/* Private to the surface burners, sealed and open: what their files share. */

G_BEGIN_DECLS

enum { HOB_TOP_IN }; /* its port */

enum
{
  HOB_TOP_HEAD = HOB_BURNER_N_SETTINGS,
  HOB_TOP_CAP_AWAY,
  HOB_TOP_CAP_LIFT,
  HOB_TOP_CAP_FILM,
  HOB_TOP_CLOGGED,
  HOB_TOP_BLOCKED,
  HOB_TOP_TUBE,
  HOB_TOP_TUBE_OPEN,
  HOB_TOP_TUBE_AWAY,
};

enum
{
  HOB_TOP_WAITING = HOB_BURNER_N_MODES, /* 0 or 1: single pulses matter */
  HOB_TOP_NEXT_PULSE,                   /* the pulse that is waited for */
  HOB_TOP_PUFF,
  HOB_TOP_STOOD = HOB_TOP_PUFF + HOB_PUFF_N_MODES, /* W/mm², height before it last changed */
  HOB_TOP_STEP_AT,   /* s, when the first of these changes was */
  HOB_TOP_STEP_FROM, /* W/mm², height before the changes that are seen as one */
  HOB_TOP_INSIDE,    /* 0 or 1: the flame burns in the venturi */
  HOB_TOP_POP_AT,    /* s, when it last popped: flashed back, or at being turned off */
  HOB_TOP_OUT_AT,    /* s, when it last went out */
};

enum
{
  HOB_TOP_Q_FLAME,
  HOB_TOP_Q_HEAT,
  HOB_TOP_Q_GAS,
  HOB_TOP_Q_GATHERED,
  HOB_TOP_Q_LIGHT_ENERGY,
  HOB_TOP_Q_BURST,
  HOB_TOP_Q_NEARBY,
  HOB_TOP_Q_UNLIT,
  HOB_TOP_Q_UNBURNT,
  HOB_TOP_Q_YELLOW,
  HOB_TOP_Q_LIFT,
  HOB_TOP_Q_LOADING,
  HOB_TOP_Q_HEIGHT,
  HOB_TOP_Q_LEAN,
  HOB_TOP_Q_SANK,
  HOB_TOP_Q_RING,
  HOB_TOP_Q_POP,
  HOB_TOP_Q_INSIDE,
  HOB_TOP_Q_WENT_OUT,
  HOB_TOP_Q_ORANGE,
  HOB_TOP_Q_CAPPED,
  HOB_TOP_Q_CAP,
  HOB_TOP_Q_DIRT,
  HOB_TOP_Q_CLOGGED,
};

/* ---- burner-top-faults.c ---- */

#define HOB_TOP_N_FAULTS 11
#define HOB_OPEN_N_FAULTS 9
extern const HobFaultDef hob_burner_top_faults[HOB_TOP_N_FAULTS];
extern const HobFaultDef hob_burner_open_faults[HOB_OPEN_N_FAULTS];

/* ---- burner-ring.c: how much of the ring of ports burns ---- */

#define HOB_RING_LEAST 0.25 /* of the open ports: on fewer a flame goes out */

/* Volumes of air that the jet draws in per volume of gas. */
double hob_ring_primary_air (const HobPartContext *c);
/* The same as a share of what burns all the gas, at the ports' edge. */
double hob_ring_aeration (const HobPartContext *c);
/* W of its gas per mm² of openings: the height of a flame there. */
double hob_ring_loading (const HobPartContext *c);
/* Share of the open part of the ring that can hold a flame. */
double hob_ring_holds (const HobPartContext *c);
/* Share of the whole ring that can. */
double hob_ring_share (const HobPartContext *c);
/* Share of the gas that comes out where a flame holds. */
double hob_ring_burns (const HobPartContext *c);
/* > 0: the flame travels back through the ports faster than the mixture comes out, m/s. */
double hob_ring_flashes (const HobPartContext *c);
/* Does it travel back when the gas is shut off? */
gboolean hob_ring_pops (const HobPartContext *c);

/* ---- burner-top-draw.c ---- */

void hob_burner_top_draw (HobPen *pen, const HobPartView *view);
void hob_burner_open_draw (HobPen *pen, const HobPartView *view);

G_END_DECLS
