/* SPDX-License-Identifier: GPL-3.0-or-later */

#include "copies.h"
#include <math.h>

#define STREET_PRESSURE "20000" /* Pa: one service feeds them all; each has its regulator */

/* A manifold serves eight: the house feeds one, that one a row of eight, each of those eight
 * ranges.  All ranges then see the same way to the supply. */
#define ROW 8
static const char *const outlets[ROW] = { "lf", "lr", "cf", "cr", "rf", "rr", "c", "oven" };

static void
put_rows (GString *out, int rows)
{
  g_string_append (
      out, "<part id=\"street\" kind=\"manifold\"/>\n"
           "<pipe id=\"main\" from=\"house.gas\" to=\"street.in\" bore=\"0.1\" length=\"0.5\"/>\n");
  for (int k = 0; k < rows; k++)
    g_string_append_printf (out,
                            "<part id=\"row-%d\" kind=\"manifold\"/>\n"
                            "<pipe id=\"to-row-%d\" from=\"street.%s\" to=\"row-%d.in\" "
                            "bore=\"0.1\" length=\"0.5\"/>\n",
                            k, k, outlets[k], k);
}

static gboolean
is_house (const HobRange *range, int part)
{
  return part >= 0 && (range->parts[part].kind->flags & HOB_KIND_HOUSE) != 0;
}

static void
put_name (GString *out, const HobRange *range, int part, int copy)
{
  if (!is_house (range, part))
    g_string_append_printf (out, "c%d-", copy);
  g_string_append (out, range->parts[part].id);
}

static void
put_end (GString *out, const char *attribute, const HobRange *range, HobEnd end, gboolean port,
         int copy)
{
  const HobKind *kind = range->parts[end.part].kind;

  g_string_append_printf (out, " %s=\"", attribute);
  if (port && is_house (range, end.part))
    g_string_append_printf (out, "row-%d.%s", copy / ROW, outlets[copy % ROW]);
  else
    {
      put_name (out, range, end.part, copy);
      g_string_append_printf (
          out, ".%s", port ? kind->ports[end.terminal].name : kind->terminals[end.terminal].name);
    }
  g_string_append_c (out, '"');
}

static void
put_reference (GString *out, const char *attribute, const HobRange *range, int part, int copy)
{
  if (part < 0)
    return;
  g_string_append_printf (out, " %s=\"", attribute);
  put_name (out, range, part, copy);
  g_string_append_c (out, '"');
}

static void
put_part (GString *out, const HobRange *range, int part, int copy)
{
  const HobPart *p = &range->parts[part];

  g_string_append (out, "<part id=\"");
  put_name (out, range, part, copy);
  g_string_append_printf (out, "\" kind=\"%s\"", p->kind->name);
  put_reference (out, "in", range, p->in, copy);
  put_reference (out, "moved-by", range, p->moved_by, copy);
  g_string_append (out, ">");
  for (int k = 0; k < p->kind->n_settings; k++)
    {
      const HobSettingDef *def = &p->kind->settings[k];
      char text[G_ASCII_DTOSTR_BUF_SIZE];

      if (is_house (range, part) && g_str_equal (def->name, "gas-pressure"))
        {
          g_string_append (out, "<set name=\"gas-pressure\" value=\"" STREET_PRESSURE "\"/>");
          continue;
        }
      if (def->condition || p->set[k] == def->normal || !isfinite (p->set[k]))
        continue;
      if (def->dim == HOB_DIM_CHOICE)
        g_string_append_printf (out, "<set name=\"%s\" value=\"%s\"/>", def->name,
                                def->choices[(int) p->set[k]]);
      else
        g_string_append_printf (
            out, "<set name=\"%s\" value=\"%s%s\"/>", def->name,
            g_ascii_dtostr (text, sizeof text, p->set[k]),
            def->dim == HOB_DIM_TEMPERATURE || def->dim == HOB_DIM_DIFFERENCE ? " K" : "");
    }
  g_string_append (out, "</part>\n");
}

static void
put_lines (GString *out, const char *element, const HobRange *range, const HobLine *lines, int n,
           int copy)
{
  gboolean pipe = lines == range->pipes;
  char text[G_ASCII_DTOSTR_BUF_SIZE];

  for (int k = 0; k < n; k++)
    {
      g_string_append_printf (out, "<%s id=\"c%d-%s\"", element, copy, lines[k].id);
      put_end (out, "from", range, lines[k].from, pipe, copy);
      put_end (out, "to", range, lines[k].to, pipe, copy);
      if (lines[k].colour[0] != '\0')
        g_string_append_printf (out, " colour=\"%s\" gauge=\"%d AWG\"", lines[k].colour,
                                lines[k].gauge);
      if (pipe)
        g_string_append_printf (out, " bore=\"%s\"",
                                g_ascii_dtostr (text, sizeof text, lines[k].diameter));
      g_string_append_printf (out, " length=\"%s\"/>\n",
                              g_ascii_dtostr (text, sizeof text, lines[k].length));
    }
}

char *
copies_xml (const HobRange *one, int n)
{
  GString *out
      = g_string_new ("<range format=\"1\" id=\"copies\" name=\"Copies\" plate=\"natural-gas\">\n");

  for (int p = 0; p < one->n_parts; p++)
    if (is_house (one, p))
      put_part (out, one, p, 0);
  put_rows (out, (n + ROW - 1) / ROW);
  for (int copy = 0; copy < n; copy++)
    {
      for (int p = 0; p < one->n_parts; p++)
        if (!is_house (one, p))
          put_part (out, one, p, copy);
      put_lines (out, "wire", one, one->wires, one->n_wires, copy);
      put_lines (out, "pipe", one, one->pipes, one->n_pipes, copy);
      put_lines (out, "lead", one, one->leads, one->n_leads, copy);
    }
  g_string_append (out, "</range>\n");
  return g_string_free (out, FALSE);
}
