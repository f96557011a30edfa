/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

/* Text laid out in DejaVu Sans, measured in sheet px. */

#include "sheet/sheet.h"
#include <pango/pangocairo.h>

G_BEGIN_DECLS

typedef struct _HobType HobType;

HobType *hob_type_new (const HobLook *look); /* (transfer full) */
void hob_type_free (HobType *type);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HobType, hob_type_free)
/* Forgets what was laid out if the look's sizes changed. */
void hob_type_set_look (HobType *type, const HobLook *look);
/* Borrowed until the next call. */
PangoLayout *hob_type_layout (HobType *type, HobTextSize size, const char *text);
double hob_type_width (HobType *type, HobTextSize size, const char *text);
/* The left end of text @w px wide that is put at x. */
double hob_text_left (double x, double w, HobAlign align);
/* Em size in sheet px: on screen it is never under 11. */
double hob_type_px (const HobLook *look, HobTextSize size);
/* Does text of this size show at this zoom? Codes, letters and "should be" drop out under 0.75. */
gboolean hob_type_shows (const HobLook *look, HobTextSize size);
/* The smallest size that is shown at its zoom. */
HobTextSize hob_type_least (const HobLook *look);

G_END_DECLS
