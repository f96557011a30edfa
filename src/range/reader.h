/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

/* reader: what reading and checking share while a range is built.  Private to src/range. */

#include "range/tree.h"

G_BEGIN_DECLS

typedef struct
{
  /*< borrowed >*/
  const char *file;
  HobRangeTree *tree;
  xmlNode *root;
  /*< owned >*/
  GPtrArray *findings; /* HobFinding * */
  HobRange *range;
  GArray *parts, *wires, *pipes, *leads; /* HobPart, HobLine; become the range's */
  GHashTable *ids;                       /* every id of the file → its line */
  GPtrArray *nodes;                      /* by part: its element (borrowed) */
  const char **part_names;               /* by part, NULL-ended */
  GHashTable *taken; /* "PART.PORT" of pipes and leads → line + 1 of who has it */
  guint compared;    /* names compared for near misses so far */
} HobReader;

/* @format: "what is wrong; what to do", a whole translated sentence.  A warning does not refuse the
 * file. */
void hob_reader_find (HobReader *reader, int line, const char *format, ...) G_GNUC_PRINTF (3, 4);
void hob_reader_warn (HobReader *reader, int line, const char *format, ...) G_GNUC_PRINTF (3, 4);

/* "; did you mean 'x'?" or "; @otherwise": the second half of a finding. (transfer full) */
char *hob_reader_advice (HobReader *reader, const char *word, const char *const *names,
                         const char *otherwise);

/* What a file says, fit for one line of a sentence. (transfer full) */
char *hob_reader_quote (const char *text);

/* FALSE for the kind used where the file's is unknown: nothing else is said about such a part. */
gboolean hob_reader_is_known (const HobKind *kind);
gboolean hob_reader_is_id (const char *id);
/* The element's id; NULL where it is missing or taken. */
const char *hob_reader_take_id (HobReader *reader, xmlNode *node);
/* FALSE where there is none to be had. */
gboolean hob_reader_coordinate (HobReader *reader, xmlNode *node, const char *name, double *px);
/* What to do about a part that is not there. (transfer full) */
char *hob_reader_part_advice (HobReader *reader, const char *said);

/* Unknown elements, unknown or missing attributes, text out of place. */
void hob_reader_check_shapes (HobReader *reader, xmlNode *root);
/* Fills the arrays from the elements. */
void hob_reader_read_parts (HobReader *reader, xmlNode *root);
void hob_reader_read_lines (HobReader *reader, xmlNode *root);
/* What only the whole shows: supplies, places, connections.  range is complete. */
void hob_reader_check_whole (HobReader *reader);

G_END_DECLS
