/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

/* tree: a range file as bytes and as parsed elements, each element knowing its place in the
 * bytes. Private to src/range. */

#include "range/range.h"
#include "range/xml.h"

G_BEGIN_DECLS

#define HOB_RANGE_FORMAT 1 /* the newest that is read, and the one written */

/* A start tag in the bytes, in document order. */
typedef struct
{
  gsize start; /* of '<' */
  gsize end;   /* behind '>' */
  gsize close; /* behind the element's end tag */
  int line;
  int parent; /* its element's tag, −1: the root */
} HobTag;

/* The place of a part's setting. */
typedef struct
{
  int part, setting;
  int tag;
} HobSetTag;

typedef struct _HobRangeTree
{
  GString *bytes;      /* the file as it was read, edits included */
  GArray *tags;        /* HobTag */
  GArray *sets;        /* HobSetTag */
  int *part_tags;      /* by part; −1: a migration made it */
  GHashTable *ids;     /* part id (the part's own) → index + 1 */
  int *first_terminal; /* by part: its place in `used` */
  guint8 *used;        /* terminals that a wire or a lead reaches */
} HobRangeTree;

HobRangeTree *hob_tree_new (const char *data, gsize size);
void hob_tree_free (HobRangeTree *tree);

/* As hob_xml_parse (); elements carry the index + 1 of their tag in _private. */
xmlDoc *hob_tree_parse (HobRangeTree *tree, const char *file, GError **error);

/* Finds all start tags anew.  The bytes are well-formed. */
void hob_tree_scan (HobRangeTree *tree);
/* The value of an attribute, between its quotes, in the bytes; FALSE if the tag has none of that
 * name. */
gboolean hob_tree_attribute (const HobRangeTree *tree, int tag, const char *name, gsize *start,
                             gsize *end);

/* An element's line, and that of one of its attributes (the element's if it has none of that name).
 */
int hob_tree_line (const HobRangeTree *tree, const xmlNode *node);
int hob_tree_attribute_line (const HobRangeTree *tree, const xmlNode *node, const char *name);
/* That of the first text in an element that is not blank. */
int hob_tree_text_line (const HobRangeTree *tree, const xmlNode *node);

/* The shipped range whose name is near @word, which is none; NULL if none is. (transfer full) */
char *hob_range_near_word (const char *word);

/* Shapes by data/range.rng: findings at @findings for what it refuses. */
void hob_grammar_check (xmlDoc *doc, const char *file, GPtrArray *findings);

/* From format @from to @to, steps[k] leads from k to k + 1.  Works on the parsed elements alone:
 * what is saved stays in the format it was read in. */
typedef void (*HobMigration) (xmlDoc *doc);
void hob_range_migrate (xmlDoc *doc, int from, int to, const HobMigration *steps);

G_END_DECLS
