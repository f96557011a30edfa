/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

/* Text in SVG files: as text, not as outlines. */

#include <cairo.h>
#include <pango/pango.h>
#include <glib.h>

G_BEGIN_DECLS

/* From now on texts drawn on the surface go into @texts (char *, freed by its owner). */
void hob_svg_text_collect (cairo_surface_t *surface, GPtrArray *texts);
/* A layout whose line starts at x on the baseline y = 0 of @cr, in its source's color; FALSE:
 * nobody collects. */
gboolean hob_svg_text_add (cairo_t *cr, PangoLayout *layout, double x);
/* The file with each text in its place. (transfer full) */
char *hob_svg_text_settle (const char *svg, const GPtrArray *texts);

G_END_DECLS
