/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/plain.h"

/* Controls (C0, DEL and C1); the marks, embeddings, overrides and isolates of direction; the two
 * separators that some programs take for the end of a line. */
static gboolean
is_harmless (gunichar c)
{
  static const struct
  {
    gunichar first, last;
  } harmful[] = {
    { 0x00, 0x1f },     { 0x7f, 0x9f },     { 0x061c, 0x061c }, { 0x200e, 0x200f },
    { 0x2028, 0x202e }, { 0x2066, 0x2069 }, { 0xfeff, 0xfeff },
  };

  for (guint i = 0; i < G_N_ELEMENTS (harmful); i++)
    if (c >= harmful[i].first && c <= harmful[i].last)
      return FALSE;
  return TRUE;
}

static void
append_escape (GString *out, gunichar c)
{
  if (c == '\n')
    g_string_append (out, "\\n");
  else if (c == '\t')
    g_string_append (out, "\\t");
  else
    g_string_append_printf (out, "\\u%04x", c);
}

char *
hob_plain_text (const char *text)
{
  GString *out = g_string_new (NULL);

  while (*text != '\0')
    {
      gunichar c = g_utf8_get_char_validated (text, -1);

      if ((gint32) c < 0)
        {
          g_string_append_printf (out, "\\x%02x", (guchar) *text++);
          continue;
        }
      if (is_harmless (c))
        g_string_append_unichar (out, c);
      else
        append_escape (out, c);
      text = g_utf8_next_char (text);
    }
  return g_string_free (out, FALSE);
}
