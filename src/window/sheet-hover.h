/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

/* What is under the pointer, in words: its name, what it reads, and what it should. */

#include "sheet/sheet.h"
#include "window/session.h"

G_BEGIN_DECLS

/* Lines of text; NULL: nothing is there. (transfer full) */
char *hob_sheet_hover_text (HobSession *session, HobSheetMemory *memory, HobSheet sheet,
                            double sheet_x, double sheet_y);

G_END_DECLS
