/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/errors.h"

#include <string.h>

G_DEFINE_QUARK (hob-error-quark, hob_error)

/* Indexed by HobError.  A value that cannot be read inside a file is reported as a finding of that
 * file, so that HOB_ERROR_VALUE by itself always means an argument. */
static const int exit_statuses[] = {
  [HOB_ERROR_USAGE] = 2,  [HOB_ERROR_UNREADABLE] = 2, [HOB_ERROR_FINDING] = 1,
  [HOB_ERROR_NAME] = 1,   [HOB_ERROR_VALUE] = 2,      [HOB_ERROR_NO_ANSWER] = 1,
  [HOB_ERROR_OUTPUT] = 2, [HOB_ERROR_IMPOSSIBLE] = 1,
};

int
hob_error_exit_status (const GError *error)
{
  if (error == NULL)
    return 0;
  if (error->domain != HOB_ERROR || error->code < 0
      || error->code >= (int) G_N_ELEMENTS (exit_statuses))
    return 2;
  return exit_statuses[error->code];
}

/* A longer word is not a typing slip, and the distance costs length². */
#define LONGEST_WORD 64

static guint
least (guint a, guint b, guint c)
{
  return MIN (a, MIN (b, c));
}

/* Optimal string alignment: insertions, deletions, substitutions and swapped neighbors cost 1
 * each. Both words at most LONGEST_WORD bytes.  Case makes no difference. */
static guint
edit_distance (const char *a, const char *b)
{
  guint rows[3][LONGEST_WORD + 1];
  guint *before = rows[0], *above = rows[1], *row = rows[2];
  gsize la = strlen (a), lb = strlen (b);

  for (gsize j = 0; j <= lb; j++)
    above[j] = (guint) j;
  for (gsize i = 1; i <= la; i++)
    {
      row[0] = (guint) i;
      for (gsize j = 1; j <= lb; j++)
        {
          char x = g_ascii_tolower (a[i - 1]), y = g_ascii_tolower (b[j - 1]);

          row[j] = least (above[j] + 1, row[j - 1] + 1, above[j - 1] + (x != y));
          if (i > 1 && j > 1 && x == g_ascii_tolower (b[j - 2]) && y == g_ascii_tolower (a[i - 2]))
            row[j] = MIN (row[j], before[j - 2] + 1);
        }
      guint *spare = before;
      before = above;
      above = row;
      row = spare;
    }
  return above[lb];
}

const char *
hob_near_miss (const char *word, const char *const *names)
{
  const char *nearest = NULL;
  gsize length;
  guint allowed;

  if (word == NULL || names == NULL || *word == '\0' || (length = strlen (word)) > LONGEST_WORD)
    return NULL;

  /* One slip in every three letters and three at most: beyond that a likeness is chance. */
  allowed = (guint) CLAMP (length / 3, 1, 3);
  for (guint i = 0; names[i] != NULL; i++)
    {
      guint distance;

      if (strlen (names[i]) > LONGEST_WORD)
        continue;
      distance = edit_distance (word, names[i]);
      if (distance > allowed || (nearest != NULL && distance == allowed))
        continue;
      nearest = names[i];
      allowed = distance;
    }
  return nearest;
}
