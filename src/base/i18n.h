/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "config.h"
#include <glib/gi18n-lib.h>

/* _() where a sentence is shown, N_() where it stands in a const table. */
