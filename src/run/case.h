/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

/* run: one range in time — acts, the state, events, history, readings. */

#include "range/range.h"

G_BEGIN_DECLS

typedef enum
{
  HOB_ACT_CONTROL, /* part, index of its control, value */
  HOB_ACT_FAULT,   /* part, index of its fault, severity; present from `ms` on */
  HOB_ACT_LIFT,    /* part, fault */
  HOB_ACT_SETTING, /* part, setting, value; from `ms` on (0 for --setting) */
} HobActWhat;

/* Everything that anybody does to a range, in whole milliseconds: replaying it gives the same
 * bits. */
typedef struct
{
  gint64 ms;
  HobActWhat what;
  int part;
  int index;
  double value;
  gboolean jumps; /* a control that a hand would sweep there is there at once */
} HobAct;

/* A case: what is done, in time order (stable), and the seed of chance.  Change `acts` by the
 * functions below only. */
typedef struct
{
  const HobRange *range; /* borrowed */
  GArray *acts;          /* HobAct, owned */
  guint64 seed;          /* 0: typical specimens */
  guint64 serial;        /* of these acts: a new one with every change */
} HobCase;

/* A number that nothing else in this program has had or will have: whoever remembers a case or a
 * run does so by its serial number, since an address is given out again. */
guint64 hob_serial_new (void);

HobCase *hob_case_new (const HobRange *range);
HobCase *hob_case_copy (const HobCase *c);
/* On @range, which has the same parts, such as the range with one line changed. (transfer full) */
HobCase *hob_case_copy_to (const HobCase *c, const HobRange *range);
void hob_case_free (HobCase *c);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HobCase, hob_case_free)

void hob_case_add (HobCase *c, HobAct act); /* keeps time order; after those of the same moment */
void hob_case_insert (HobCase *c, guint at, HobAct act);
void hob_case_remove (HobCase *c, guint at);
guint hob_case_place (const HobCase *c, gint64 ms); /* behind the last act at or before @ms */
gboolean hob_act_same (const HobAct *a, const HobAct *b);
/* The first place where the acts of two cases are not the same; the length of the shorter if there
 * is none. */
guint hob_case_common (const HobCase *a, const HobCase *b);

#define HOB_LONGEST_RUN 3.6e6 /* s: no time is later than 1,000 h */

/* A time from 0 s to that, in s and in whole milliseconds.  HOB_ERROR_VALUE. */
gboolean hob_moment_parse (const char *text, double *seconds, GError **error);

/* "TIME CONTROL=POSITION" (":=" jumps there), "PART:FAULT[=SEVERITY][@FROM[..TO]]",
 * "PART.NAME=VALUE[@TIME]".  A fault that ends at TO is two acts: it is added, and it is removed.
 * Errors: HOB_ERROR_USAGE (words), HOB_ERROR_NAME (range has not), HOB_ERROR_VALUE. */
gboolean hob_case_do (HobCase *c, const char *text, GError **error);
gboolean hob_case_fault (HobCase *c, const char *text, GError **error);
gboolean hob_case_setting (HobCase *c, const char *text, GError **error);
/* An act as --do, --fault, --setting would write it: "oven.mode=bake" (without time). (transfer
 * full) */
char *hob_act_text (const HobRange *range, const HobAct *act);
/* "Oven control: BAKE", for a person. (transfer full) */
char *hob_act_words (const HobRange *range, const HobAct *act);

/* As --do, --fault or --setting takes it, by what the act is. */
gboolean hob_case_add_argument (HobCase *c, HobActWhat what, const char *text, GError **error);
/* The argument that gives the very same act, with its time: "60 s oven.mode=bake",
 * "receptacle.volts=108 V@600 s".  (transfer full) */
char *hob_act_argument (const HobRange *range, const HobAct *act);

/* Procedures, generated from the controls' exercise rules. */
char **hob_procedure_names (const HobRange *range); /* (transfer full) */
/* Those that look whether a fault follows the leads that are exchanged. */
char **hob_procedure_exchanges (const HobRange *range); /* (transfer full) */
/* The acts of one, added to @c from its time 0 on; *until: s, when it ends. HOB_ERROR_NAME. */
gboolean hob_procedure_add (HobCase *c, const char *name, double *until, GError **error);

/* Without acts that put a control where it is from the start: the range does the same.  (transfer
 * full) */
HobCase *hob_case_effective (const HobCase *c);
gboolean hob_case_has_controls (const HobCase *c); /* is anything done with the range? */

G_END_DECLS
