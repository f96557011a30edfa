/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

/* cli: the command hob — words in, text, CSV and pictures out; links no toolkit of windows. */

#include "range/range.h"
#include "run/case-file.h"
#include "run/case-options.h"
#include "run/reading.h"
#include "symptoms/bench.h"

G_BEGIN_DECLS

/* ---- The words of a command ---- */

typedef enum
{
  HOB_OPTION_UNTIL,
  HOB_OPTION_TRACE,
  HOB_OPTION_EVERY,
  HOB_OPTION_EVENTS,
  HOB_OPTION_PROCEDURE,
  HOB_OPTION_CSV,
  HOB_OPTION_HASH,
  HOB_OPTION_PAIRS,
  HOB_OPTION_UNITS,
  HOB_OPTION_TEST,
  HOB_OPTION_SHEET,
  HOB_OPTION_AT,
  HOB_OPTION_SIZE,
  HOB_OPTION_THEME,
  HOB_OPTION_PAPER,
  HOB_OPTION_COVER,
  HOB_OPTION_OUTPUT,
  HOB_OPTION_SEEN,
  HOB_OPTION_NOT_SEEN,
  HOB_OPTION_READING,
  HOB_OPTION_ROLE,
  HOB_OPTION_PRIORS,
  HOB_OPTION_SYMPTOM,
  HOB_N_OPTIONS
} HobOption;

#define HOB_BIT(option) (1u << (option))
#define HOB_TAKES_CASE HOB_BIT (HOB_N_OPTIONS) /* and --do, --fault, --setting, --seed */

typedef struct
{
  HobOption option;
  char *value; /* owned; "" for a flag */
} HobGiven;

/* A command's words, taken apart. */
typedef struct
{
  guint allowed;           /* bits */
  GPtrArray *words;        /* char *: what is not an option */
  GArray *given;           /* HobGiven, in the order they were written */
  HobCaseOptions *of_case; /* owned */
} HobArgs;

/* What hob_commands[] says of @command decides which options there are.  HOB_ERROR_USAGE. */
HobArgs *hob_args_parse (char **words, const char *command, GError **error);
void hob_args_free (HobArgs *args);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HobArgs, hob_args_free)
/* A line for each option of these bits. */
void hob_args_explain (GString *out, guint allowed);
/* The last value given, NULL: not given. */
const char *hob_args_get (const HobArgs *args, HobOption option);
gboolean hob_args_has (const HobArgs *args, HobOption option);
/* The first @n words and no more; @usage is what the person should write. */
gboolean hob_args_words (const HobArgs *args, guint least, guint most, const char *usage,
                         GError **error);
/* A time of a run, s, rounded to whole ms. */
gboolean hob_args_time (const HobArgs *args, HobOption option, double *seconds, GError **error);
gboolean hob_args_units (const HobArgs *args, HobUnits *units, GError **error);

/* ---- What a command works on ---- */

/* Prints every finding and every warning on standard error. NULL and @error if
 * there is no range. */
HobRange *hob_cli_load (const char *word, GError **error);
/* The CASE of the options. --procedure is taken where the command allows it; *until: its end, else
 * left alone. */
HobCase *hob_cli_case (const HobRange *range, const HobArgs *args, double *until, GError **error);

/* What the case file says was seen or read: char *; NULL: it was no case file.  Borrowed. */
const GPtrArray *hob_cli_evidence (const HobRange *range, HobEvidenceWhat what);

/* "igniter-bake.current,cavity.air": pairs of part and quantity. */
typedef struct
{
  int part, quantity;
  char *name; /* owned */
} HobTraced;

GArray *hob_cli_traces (const HobRange *range, const char *list,
                        GError **error); /* HobTraced (transfer full) */

/* ---- Output ---- */

/* Text on its way to standard output or to a file; a closed pipe swallows what comes after. */
typedef struct _HobOutput HobOutput;

HobOutput *hob_output_stdout (void);
/* As hob_writer_new () writes a file. */
HobOutput *hob_output_file (const char *file, GError **error);
/* Can a picture be written to @file: does its name say which, and is there memory to draw in? */
gboolean hob_cli_may_draw (const char *file, GError **error);
/* FALSE where @file is the very file that @range was read from. */
gboolean hob_output_may_replace (const HobRange *range, const char *file, GError **error);
GString *hob_output_text (HobOutput *output);     /* append here … */
gboolean hob_output_flush (
    HobOutput *output); /* … and call this now and then: FALSE once the reader has gone */
gboolean hob_output_close (HobOutput *output, GError **error); /* frees it */
void hob_output_discard (HobOutput *output);      /* frees it, a file is not made */
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HobOutput, hob_output_discard)

/* A field of RFC 4180, quoted where it must be; @first: no comma before it. */
void hob_csv_text (GString *out, const char *text, gboolean first);
void hob_csv_number (GString *out, double value, gboolean first); /* empty: not known */
/* What must be known first: the hazards that hold @now and those of tests and repairs that are
 * @described on the same page; "" if there are none.  (transfer full) */
char *hob_cautions_text (HobHazards now, HobHazards described);
/* Shows how far long work is, in place, where a person waits at a terminal; NULL: nobody does. */
void (*hob_cli_progress (void)) (guint done, guint total, gpointer user);
/* What causes a symptom, under what is known and done. */
typedef struct
{
  /*< owned >*/
  HobBench *bench;   /* as far as it is noticed */
  GPtrArray *chains; /* HobWhy: one of them at least has entries */
  int symptom;       /* in the book */
} HobCliWhy;

/* Of --symptom in @args, noticed by @until (s; 0: as soon as it is). */
gboolean hob_cli_why (HobCliWhy *why, HobRange *range, const HobCase *base, const HobArgs *args,
                      double until, GError **error);
void hob_cli_why_clear (HobCliWhy *why);

/* "12.3 s" right-aligned for people. */
void hob_append_moment (GString *out, double t);

/* ---- Commands ---- */

typedef struct
{
  const char *name;
  const char *usage;   /* after "hob " */
  const char *summary; /* N_() */
  guint options;       /* bits; HOB_TAKES_CASE */
  /* Exit status 0, or @error; a status of its own where it has already said why. */
  int (*run) (char **words, GError **error);
} HobCommand;

extern const HobCommand hob_commands[]; /* NULL-ended by name */
const HobCommand *hob_command_find (const char *name);

int hob_command_check (char **words, GError **error);
int hob_command_list (char **words, GError **error);
int hob_command_run (char **words, GError **error);
int hob_command_read (char **words, GError **error);
int hob_command_draw (char **words, GError **error);
int hob_command_table (char **words, GError **error);
int hob_command_suspects (char **words, GError **error);
int hob_command_why (char **words, GError **error);
int hob_command_help (char **words, GError **error);
int hob_command_later (char **words, GError **error);

void hob_complain (const GError *error); /* one line on standard error */

G_END_DECLS
