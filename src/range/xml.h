/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

/* xml: the one reader of XML, for every file that anyone may give to the program. */

#include <glib.h>
#include <libxml/tree.h>

G_BEGIN_DECLS

/* @data ends in NUL.  UTF-8 only, no DOCTYPE, no entity but the five of XML, no network, and
 * nothing so large that it would keep the program busy: what is beyond the limits of xml.c is
 * refused before it is parsed.  Attributes have one text node or none.  NULL and
 * HOB_ERROR_UNREADABLE in one line with @file and line. */
xmlDoc *hob_xml_parse (const char *data, gsize size, const char *file, GError **error);

/* An attribute's value.  Borrowed; NULL if there is none. */
const char *hob_xml_get (const xmlNode *node, const char *name);
/* The node after @node in the order of the document; NULL after the last. */
xmlNode *hob_xml_next (xmlNode *node);

/* Past the tag, comment, CDATA section or instruction whose '<' is at @p. */
const char *hob_xml_skip (const char *p, const char *end);

G_END_DECLS
