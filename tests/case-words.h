/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

/* A case in words, as on the command line: "0s oven.mode=bake" is done, "PART:FAULT" a fault and
 * "PART.NAME=VALUE" a setting. */

#include "run/case.h"

#include <string.h>

static inline void
case_add (HobCase *acts, const char *word)
{
  HobActWhat what = g_ascii_isdigit (*word)       ? HOB_ACT_CONTROL
                    : strchr (word, ':') != NULL ? HOB_ACT_FAULT
                                                 : HOB_ACT_SETTING;
  g_autoptr (GError) error = NULL;

  hob_case_add_argument (acts, what, word, &error);
  g_assert_no_error (error);
}

/* @words: NULL-ended, or NULL. */
static inline void
case_add_all (HobCase *acts, const char *const *words)
{
  for (; words != NULL && *words != NULL; words++)
    case_add (acts, *words);
}

/* @list: words with '|' between, or NULL. */
static inline void
case_add_list (HobCase *acts, const char *list)
{
  g_auto (GStrv) words = g_strsplit (list != NULL ? list : "", "|", -1);

  for (char **word = words; *word != NULL; word++)
    if (*g_strstrip (*word) != '\0')
      case_add (acts, *word);
}
