/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "parts/kind.h"

#include <math.h>

/* What the oven controls share: a mode, a set temperature, and a call for heat that switches a
 * differential above and below it. */

G_BEGIN_DECLS

/* Their first two controls, and the values of the first. */
enum { HOB_CALL_MODE, HOB_CALL_DIAL };
enum { HOB_CALL_OFF, HOB_CALL_BAKE, HOB_CALL_BROIL, HOB_CALL_CONVECTION };

#define HOB_CALL_LOWEST HOB_DEGF (140)
#define HOB_CALL_HIGHEST HOB_DEGF (550)

/* The set temperature, however it is @made. */
#define HOB_CALL_DIAL_CONTROL(text, made)                                                          \
  {                                                                                                \
    .name = "dial", .words = text, .dim = HOB_DIM_TEMPERATURE, .low = HOB_CALL_LOWEST,             \
    .high = HOB_CALL_HIGHEST, .start = HOB_DEGF (350), .role = made, .front = HOB_FRONT_OVEN       \
  }

static inline int
hob_call_mode (const double *ctl)
{
  return (int)ctl[HOB_CALL_MODE];
}

/* K that the control holds, whatever its mode: broil means the end of the scale. */
static inline double
hob_call_held (const HobPartContext *c)
{
  return hob_call_mode (c->ctl) == HOB_CALL_BROIL ? HOB_CALL_HIGHEST : c->ctl[HOB_CALL_DIAL];
}

/* K that is asked for; 0 with the oven off. */
static inline double
hob_call_target (const HobPartContext *c)
{
  return hob_call_mode (c->ctl) == HOB_CALL_OFF ? 0 : hob_call_held (c);
}

/* K as a person reads it on the front: with the oven off nothing is asked for. */
static inline double
hob_call_shown (const HobPartContext *c)
{
  return hob_call_mode (c->ctl) == HOB_CALL_OFF ? NAN : hob_call_target (c);
}

/* Guard of the contact that switches @differential K above and below: it is @cold K too cold. */
static inline double
hob_call_guard (gboolean calls, double cold, double differential)
{
  return (calls ? -cold : cold) - differential;
}

G_END_DECLS
