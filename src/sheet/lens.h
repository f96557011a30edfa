/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

/* The lens: a round view, several times as large, of the part that is chosen or ringed. */

#include "sheet/body.h"

G_BEGIN_DECLS

/* Where it is on the sheet, its caption included. */
void hob_lens_box (const HobBody *body, const HobLook *look, HobBox *box);
/* Nothing is drawn where nothing small enough is chosen or ringed. */
void hob_lens_lead (const HobStage *stage, const HobBody *body); /* below what there is to read */
void hob_lens_state (const HobStage *stage, const HobBody *body);

G_END_DECLS
