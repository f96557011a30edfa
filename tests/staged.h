/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

/* A shipped range at a moment, ready to be drawn. */

#include "run/twin.h"
#include "sheet/sheet.h"
#include "symptoms/bench.h"

G_BEGIN_DECLS

typedef struct
{
  HobRange *range;
  HobCase *acts;
  HobBench *bench;
  HobSceneReader *reader;
  HobScene *scene; /* a still */
  double at;       /* s */
} Staged;

/* @words: "0s oven.mode=bake | igniter-bake:aged | receptacle.volts=105", or NULL. */
Staged *staged_new (const char *range, const char *words, double at);
void staged_free (Staged *staged);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (Staged, staged_free)

/* "PART:FAULT" of every fault that the range can have, in an order that is always the same and
 * follows no table: its first few are a fair sample. (transfer full) */
GPtrArray *staged_faults (const HobRange *range);

typedef void (*StagedCheck) (gpointer user, const char *range, const char *fault);

/* @check of every fault of @range in a full sweep, else of the first @sample. @n: how many. */
void staged_each_fault (const char *range, guint sample, StagedCheck check, gpointer user,
                        guint *n);
/* A test PATH/RANGE of every shipped range, which gets the range's name. */
void staged_add_ranges (const char *path, GTestDataFunc test);

/* Takes the scene again, after what decides on it has changed. */
void staged_read (Staged *staged);

G_END_DECLS
