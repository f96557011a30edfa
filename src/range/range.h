/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

/* range: the description of one appliance — read, check, write.  Immutable once read; threads may
 * share it. */

#include "parts/kind.h"

G_BEGIN_DECLS

typedef struct
{
  gboolean placed;
  double x, y; /* px, the symbol's center */
  int turn;    /* quarter turns clockwise: XML says 0, 90, 180, 270 */
} HobPlacement;

typedef struct
{
  int part;     /* index in HobRange.parts */
  int terminal; /* index of the kind's terminal (wire, lead) or port (pipe) */
} HobEnd;

typedef struct
{
  char *id;
  const HobKind *kind;
  char *label; /* as the file says; the kind's label if it says nothing. Shown: hob_part_label () */
  char *number;  /* appliance's own part number, "" if not known */
  int in;        /* part whose place it is in (in="…"), −1: the house's */
  int moved_by;  /* part whose motion moves it (moved-by="…"), −1 */
  double *set;   /* kind->n_settings values, from the file or the kind */
  HobPlacement at[HOB_N_SHEETS];
  int line;
} HobPart;

typedef struct
{
  double x, y;
} HobPoint;

/* A wire, a pipe or a high-voltage lead: `from` to `to` by way of bends. */
typedef struct
{
  char *id;
  HobEnd from, to;
  char colour[8];   /* IEC 60757 code(s), "" for pipes and leads */
  int gauge;        /* AWG, 0 for pipes and leads */
  double diameter;  /* m: copper of a wire, bore of a pipe */
  double length;    /* m */
  HobPoint *bends;
  int n_bends;
  int line;
} HobLine;

typedef struct _HobRange
{
  /*< owned; read-only >*/
  char *file; /* as it was named */
  char *id, *name, *note; /* as the file says. Shown: hob_range_name (), hob_range_note () */
  HobFuelName plate;
  HobPart *parts;
  HobLine *wires, *pipes, *leads;
  int n_parts, n_wires, n_pipes, n_leads;
  struct _HobRangeTree *tree; /* the parsed document, for saving in place */
  struct _HobRange *of; /* NULL, or the one that all but one list of lines is borrowed from */
  gatomicrefcount refs;
} HobRange;

typedef struct
{
  char *file;
  int line;
  gboolean warning; /* text begins with "warning:"; does not refuse the file */
  char *text;       /* "what is wrong; what to do" */
} HobFinding;

void hob_finding_free (HobFinding *finding);
char *hob_finding_text (const HobFinding *finding); /* "FILE:LINE: …" (transfer full) */

/* Reads and checks a file.  Returns NULL and @error for files that cannot be read
 * (HOB_ERROR_UNREADABLE, one line with FILE:LINE) or that have findings that are no warnings
 * (HOB_ERROR_FINDING: the first of them).  All findings are added to @findings (HobFinding *, in
 * line order) if not NULL. Main thread only. */
HobRange *hob_range_load (const char *file, GPtrArray *findings, GError **error);
HobRange *hob_range_load_memory (const char *data, gsize size, const char *name,
                                 GPtrArray *findings, GError **error);
/* The bytes of a file, no more of them than a range may have.  HOB_ERROR_UNREADABLE. */
gboolean hob_range_read_file (const char *file, GString *bytes, GError **error);
HobRange *hob_range_ref (HobRange *range);
void hob_range_unref (HobRange *range);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HobRange, hob_range_unref)

/* The same range with another diameter, m, of one wire or pipe.  It is not for saving.  (transfer
 * full) */
HobRange *hob_range_with_wire (const HobRange *range, int wire, double diameter);
HobRange *hob_range_with_pipe (const HobRange *range, int pipe, double diameter);

int hob_range_part (const HobRange *range, const char *id); /* −1 */

/* In the person's language where the words are those of a shipped range; else as the file says.
 * (transfer none) */
const char *hob_part_label (const HobPart *part);
const char *hob_range_name (const HobRange *range);
const char *hob_range_note (const HobRange *range);

/* "PART.TERMINAL", "PART.PORT", "PART.QUANTITY", "PART.SETTING": HOB_ERROR_NAME with a near miss.
 */
gboolean hob_range_find_terminal (const HobRange *range, const char *name, HobEnd *end,
                                  GError **error);
gboolean hob_range_find_port (const HobRange *range, const char *name, HobEnd *end, GError **error);
gboolean hob_range_find_quantity (const HobRange *range, const char *name, int *part, int *quantity,
                                  GError **error);
gboolean hob_range_find_setting (const HobRange *range, const char *name, int *part, int *setting,
                                 GError **error);
/* "knob-lf", "oven.mode". */
gboolean hob_range_find_control (const HobRange *range, const char *name, int *part, int *control,
                                 GError **error);
/* "igniter-bake:aged". A fault whose terminal is not connected is not there. */
gboolean hob_range_find_fault (const HobRange *range, const char *name, int *part, int *fault,
                               GError **error);
char *hob_range_control_name (const HobRange *range, int part, int control); /* (transfer full) */
/* Can the control be at the part @at? */
gboolean hob_range_control_is_for (const HobRange *range, const HobControlDef *control, int at);
/* The one that can be at the part @at; FALSE: there is none. */
gboolean hob_range_control_at (const HobRange *range, int at, int *part, int *control);
/* As hob_control_parse () and hob_control_text (), also for the parts that it can be at. */
gboolean hob_range_control_parse (const HobRange *range, const HobControlDef *control,
                                  const char *text, double *value, GError **error);
char *hob_range_control_text (const HobRange *range, const HobControlDef *control, double value);
gboolean hob_range_terminal_used (const HobRange *range, int part, int terminal);
gboolean hob_range_has_fault (const HobRange *range, int part, int fault);

/* Changes one setting in the tree in place (for the next save); the range's own values change too:
 * not for a range that runs share. text is written as given after it was parsed. */
gboolean hob_range_set (HobRange *range, int part, int setting, const char *text, GError **error);
/* Writes the tree beside @file and renames. Comments, order, white space stay: one changed setting
 * is one changed line. */
gboolean hob_range_save (HobRange *range, const char *file, GError **error);
/* One that may be changed, from the bytes that would be saved.  (transfer full) */
HobRange *hob_range_copy (const HobRange *range, GError **error);
/* Of the bytes that would be saved. (transfer full) */
char *hob_range_checksum (const HobRange *range);

/* The shipped range or file that a word on the command line means: a path as it is; else
 * diagrams/WORD.xml of the source tree or the installed data. (transfer full) */
char *hob_range_locate (const char *word);

G_END_DECLS
