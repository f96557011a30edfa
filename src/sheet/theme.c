/* SPDX-License-Identifier: GPL-3.0-or-later */

/* Colours by role.  Text keeps a contrast of 4.5 and signs 3 against sheet and panel (WCAG 2.2,
 * relative luminance); no meaning rests on color alone. */

#include "sheet/sheet.h"
#include <string.h>

/* Cutaway, glow and flame look the same in every theme: the inside of an oven is dark. */
#define OVEN_COLOURS                                                                              \
  [HOB_ROLE_TAG_INK] = 0x20242A, [HOB_ROLE_CAVITY] = 0x2B2622, [HOB_ROLE_CAVITY_INK] = 0xF1EDE2,  \
  [HOB_ROLE_SPARK] = 0xE8ECFF, [HOB_ROLE_FLAME] = 0x5B9BFF, [HOB_ROLE_FLAME_CONE] = 0xBFE0FF,     \
  [HOB_ROLE_FLAME_TIP] = 0xFFC73A

/* On paper the inside is light, so that a page is not a third black. */
#define PRINTED_OVEN                                                                              \
  [HOB_ROLE_TAG_INK] = 0x20242A, [HOB_ROLE_CAVITY] = 0xF4F0E6, [HOB_ROLE_CAVITY_INK] = 0x20242A,  \
  [HOB_ROLE_SPARK] = 0xE8ECFF, [HOB_ROLE_FLAME] = 0x5B9BFF, [HOB_ROLE_FLAME_CONE] = 0xBFE0FF,     \
  [HOB_ROLE_FLAME_TIP] = 0xFFC73A

#define LIGHT_SIGNS                                                                               \
  [HOB_ROLE_INK] = 0x20242A, [HOB_ROLE_INK2] = 0x565C64, [HOB_ROLE_EDGE] = 0x77756C,              \
  [HOB_ROLE_RULE] = 0xC9C5B9, [HOB_ROLE_GAS] = 0x0B6A66, [HOB_ROLE_HEAT] = 0xB4480F,              \
  [HOB_ROLE_RING] = 0xA8125F, [HOB_ROLE_PENCIL] = 0x3A4FA3, [HOB_ROLE_CAUTION] = 0x8A5200,        \
  [HOB_ROLE_TAG] = 0xF1D9A2

static const guint32 colours[HOB_N_THEMES][HOB_N_ROLES] = {
  [HOB_THEME_LIGHT] = {
    [HOB_ROLE_SHEET] = 0xFAF8F2, [HOB_ROLE_PANEL] = 0xEFECE3, [HOB_ROLE_METAL] = 0xDAD6CA,
    LIGHT_SIGNS, OVEN_COLOURS,
  },
  [HOB_THEME_DARK] = {
    [HOB_ROLE_SHEET] = 0x20262D, [HOB_ROLE_PANEL] = 0x2A3139, [HOB_ROLE_METAL] = 0x3B444E,
    [HOB_ROLE_INK] = 0xF1EDE2, [HOB_ROLE_INK2] = 0xB9BDC1, [HOB_ROLE_EDGE] = 0x858D96,
    [HOB_ROLE_RULE] = 0x47505A, [HOB_ROLE_GAS] = 0x5CC4BC, [HOB_ROLE_HEAT] = 0xF0955A,
    [HOB_ROLE_RING] = 0xFF86BE, [HOB_ROLE_PENCIL] = 0xA9B8FF, [HOB_ROLE_CAUTION] = 0xF2B95C,
    [HOB_ROLE_TAG] = 0xE2C583, OVEN_COLOURS,
  },
  [HOB_THEME_PRINT] = {
    [HOB_ROLE_SHEET] = 0xFFFFFF, [HOB_ROLE_PANEL] = 0xF4F2EC, [HOB_ROLE_METAL] = 0xE2DFD6,
    LIGHT_SIGNS, PRINTED_OVEN,
  },
  [HOB_THEME_CONTRAST_LIGHT] = {
    [HOB_ROLE_SHEET] = 0xFFFFFF, [HOB_ROLE_PANEL] = 0xFFFFFF, [HOB_ROLE_METAL] = 0xDDDDDD,
    [HOB_ROLE_INK] = 0x000000, [HOB_ROLE_INK2] = 0x26292D, [HOB_ROLE_EDGE] = 0x000000,
    [HOB_ROLE_RULE] = 0x8C8C8C, [HOB_ROLE_GAS] = 0x004D49, [HOB_ROLE_HEAT] = 0x7A2E05,
    [HOB_ROLE_RING] = 0x8A004B, [HOB_ROLE_PENCIL] = 0x1E2F86, [HOB_ROLE_CAUTION] = 0x633A00,
    [HOB_ROLE_TAG] = 0xF1D9A2, OVEN_COLOURS,
  },
  [HOB_THEME_CONTRAST_DARK] = {
    [HOB_ROLE_SHEET] = 0x000000, [HOB_ROLE_PANEL] = 0x000000, [HOB_ROLE_METAL] = 0x333333,
    [HOB_ROLE_INK] = 0xFFFFFF, [HOB_ROLE_INK2] = 0xE4E4E4, [HOB_ROLE_EDGE] = 0xFFFFFF,
    [HOB_ROLE_RULE] = 0x777777, [HOB_ROLE_GAS] = 0x7FE0D8, [HOB_ROLE_HEAT] = 0xFFB48A,
    [HOB_ROLE_RING] = 0xFF9CCB, [HOB_ROLE_PENCIL] = 0xC3CEFF, [HOB_ROLE_CAUTION] = 0xFFD28A,
    [HOB_ROLE_TAG] = 0xE2C583, OVEN_COLOURS,
  },
};

/* Insulation by IEC 60757 code.  The larger of core:sheet and core:casing is at least 3 in every
 * theme. */
static const struct
{
  char code[3];
  guint32 rgb;
} insulation[] = {
  { "BK", 0x1B1B1B }, { "WH", 0xFFFFFF }, { "RD", 0xC4161C }, { "BU", 0x1F5FBF },
  { "OG", 0xE87511 }, { "YE", 0xF2C500 }, { "GN", 0x1E8A3C }, { "BN", 0x6B3F1D },
  { "VT", 0x7A3E9D }, { "GY", 0x8A8A8A }, { "PK", 0xE78AA8 },
};

static void
unpack (guint32 packed, double rgb[3])
{
  rgb[0] = (packed >> 16 & 0xFF) / 255.0;
  rgb[1] = (packed >> 8 & 0xFF) / 255.0;
  rgb[2] = (packed & 0xFF) / 255.0;
}

void
hob_theme_colour (HobTheme theme, HobRole role, double rgb[3])
{
  g_return_if_fail ((guint) theme < HOB_N_THEMES && (guint) role < HOB_N_ROLES);
  unpack (colours[theme][role], rgb);
}

gboolean
hob_wire_colour (const char *code, double rgb[3])
{
  for (gsize k = 0; k < G_N_ELEMENTS (insulation); k++)
    if (strncmp (code, insulation[k].code, 2) == 0)
      {
        unpack (insulation[k].rgb, rgb);
        return TRUE;
      }
  return FALSE;
}
