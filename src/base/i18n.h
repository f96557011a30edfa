/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "config.h"
#include <glib.h>
#include <glib/gi18n-lib.h>

G_BEGIN_DECLS

/* _() where a sentence is shown, N_() in a const table. */

/* Makes _() speak the person's language: once, at the start of a program, after setlocale (). */
void hob_bind_sentences (void);

G_END_DECLS
