/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

/* Room: where on a sheet nothing lies yet, for what is laid after symbols, names and captions. */

#include "sheet/stage.h"

G_BEGIN_DECLS

typedef struct
{
  const HobStage *stage; /* borrowed */
  GArray *taken;         /* owned; HobBox: symbols, texts, and what has been laid since */
  double bounds[4];
} HobRoom;

HobRoom hob_room_of (const HobStage *stage);
gboolean hob_room_is_free (const HobRoom *room, const HobBox *box); /* and on the sheet */
gboolean hob_room_covers_a_line (const HobRoom *room, const HobBox *box);

G_END_DECLS
