/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "cli/cli.h"

#include "base/errors.h"
#include "base/i18n.h"
#include "base/plain.h"

#include <locale.h>
#include <signal.h>
#include <string.h>
#include <unistd.h>

#define B(option) HOB_BIT (HOB_OPTION_##option)

const HobCommand hob_commands[] = {
  { "check", "check FILE…", N_ ("Check range files and print every problem."), 0,
    hob_command_check },
  { "list",
    "list kinds|symptoms|hazards\n"
    "  hob list RANGE [controls|terminals|quantities|settings|faults|procedures|tests]",
    N_ ("List the kinds of parts, the symptoms, or the hazards, or describe a range."), B (CSV),
    hob_command_list },
  { "run", "run RANGE [CASE] --until TIME [OPTION…]",
    N_ ("Run a range and print what happens."),
    HOB_TAKES_CASE | B (UNTIL) | B (TRACE) | B (EVERY) | B (EVENTS) | B (PROCEDURE) | B (CSV)
        | B (HASH) | B (UNITS),
    hob_command_run },
  { "read",
    "read RANGE [CASE] --test \"TEST\" [OPTION…]\n"
    "\n"
    "  TEST: volts A B | ohms A B [lead-off] | amps WIRE-or-PART.TERMINAL-or-PART |\n"
    "        pressure PORT | temp QUANTITY | look SYMPTOM[ PART] | look PART |\n"
    "        bubbles PART,\n"
    "        then  [ @ ACT{; ACT}; TIME ]",
    N_ ("Take one reading, as if with a meter."),
    HOB_TAKES_CASE | B (TEST) | B (CSV) | B (UNITS), hob_command_read },
  { "draw", "draw RANGE [CASE] --sheet SHEET --at TIME -o FILE [OPTION…]",
    N_ ("Draw one sheet as it looks at a given time."),
    HOB_TAKES_CASE | B (PROCEDURE) | B (SHEET) | B (AT) | B (SIZE) | B (THEME) | B (PAPER)
        | B (COVER) | B (TRACE) | B (SYMPTOM) | B (OUTPUT),
    hob_command_draw },
  { "table", "table RANGE [--pairs | -o FILE]",
    N_ ("Run every fault through every routine and print each fault's symptoms."),
    B (PAIRS) | B (OUTPUT), hob_command_table },
  { "suspects",
    "suspects RANGE [CASE] --seen \"SYMPTOM\" --reading \"READING\" [OPTION…]\n"
    "\n"
    "  SYMPTOM: SYMPTOM[ PART][ @ ACT{; ACT}; TIME]\n"
    "  READING: TEST = VALUE UNIT [± TOLERANCE] | TEST = seen | TEST = not-seen",
    N_ ("Rank the faults that explain what you noticed and measured, and name the next test."),
    HOB_TAKES_CASE | B (SEEN) | B (NOT_SEEN) | B (READING) | B (ROLE) | B (PRIORS) | B (CSV),
    hob_command_suspects },
  { "why", "why RANGE [CASE] --symptom \"SYMPTOM[ PART]\" [OPTION…]",
    N_ ("Explain a symptom step by step, starting from its cause."),
    HOB_TAKES_CASE | B (SYMPTOM) | B (PROCEDURE) | B (CSV), hob_command_why },
  { "explain", "explain RANGE [CASE] [--lang es] -o OUT.pdf", NULL, 0, hob_command_later },
  { "compose", "compose", NULL, 0, hob_command_later },
  { "help", "help [COMMAND]", N_ ("Explain a command."), 0, hob_command_help },
  { NULL },
};

const HobCommand *
hob_command_find (const char *name)
{
  for (const HobCommand *c = hob_commands; c->name != NULL; c++)
    if (g_str_equal (c->name, name))
      return c;
  return NULL;
}

int
hob_command_later (char **words, GError **error)
{
  g_set_error_literal (
      error, HOB_ERROR, HOB_ERROR_USAGE,
      _ ("this version doesn't have that command; it has: check list run read draw table "
         "suspects why help"));
  return 2;
}

static int
refuse_command (const char *word, GError **error)
{
  const char *names[G_N_ELEMENTS (hob_commands)];
  const char *near;
  int n = 0;

  for (const HobCommand *c = hob_commands; c->name != NULL; c++)
    if (c->summary != NULL)
      names[n++] = c->name;
  names[n] = NULL;
  near = hob_near_miss (word, names);
  if (near != NULL)
    g_set_error (error, HOB_ERROR, HOB_ERROR_USAGE, _ ("'%s' is not a command; did you mean "
                                                       "'%s'?"), word,
                 near);
  else
    g_set_error (error, HOB_ERROR, HOB_ERROR_USAGE, _("'%s' is not a command; see 'hob help'"),
                 word);
  return 2;
}

static int
print_version (GError **error)
{
  HobOutput *out = hob_output_stdout ();

  g_string_append (hob_output_text (out), "hob " HOB_VERSION "\n");
  hob_output_close (out, error);
  return 0;
}

static int
dispatch (int argc, char **argv, GError **error)
{
  const HobCommand *command;

  if (argc < 2)
    {
      g_set_error_literal (error, HOB_ERROR, HOB_ERROR_USAGE,
                           _ ("hob needs a command; see 'hob help'"));
      return 2;
    }
  if (g_str_equal (argv[1], "--version"))
    return print_version (error);
  if (g_str_equal (argv[1], "--help") || g_str_equal (argv[1], "-h"))
    return hob_command_help (argv + 2, error);
  command = hob_command_find (argv[1]);
  if (command == NULL)
    return refuse_command (argv[1], error);
  if (argc == 3 && g_str_equal (argv[2], "--help"))
    return hob_command_help ((char *[]){ argv[1], NULL }, error);
  return command->run (argv + 2, error);
}

/* A notice that is not an error: one line, as errors are. */
static void
say_message (const char *domain, GLogLevelFlags level, const char *message, gpointer data)
{
  g_autofree char *line = hob_plain_text (message);

  g_printerr ("hob: %s\n", line);
}

/* Where a library finds no memory or no thread, it would abort. */
static void
give_up (const char *domain, GLogLevelFlags level, const char *message, gpointer data)
{
  say_message (domain, level, message, data);
  g_printerr ("hob: %s\n", _ ("not enough memory; raise the limit (see ulimit -v)"));
  _exit (2);
}

int
main (int argc, char **argv)
{
  g_autoptr (GError) error = NULL;
  int status;

  /* Sentences are the person's; numbers stay those of the C locale. */
  setlocale (LC_CTYPE, "");
  setlocale (LC_MESSAGES, "");
  hob_bind_sentences ();
  /* A reader that has seen enough closes the pipe: the write then fails and says so. */
  signal (SIGPIPE, SIG_IGN);
  g_log_set_handler ("GLib", G_LOG_LEVEL_ERROR | G_LOG_FLAG_FATAL | G_LOG_FLAG_RECURSION, give_up,
                     NULL);
  g_log_set_handler (G_LOG_DOMAIN, G_LOG_LEVEL_MESSAGE, say_message, NULL);

  status = dispatch (argc, argv, &error);
  if (error == NULL)
    return status;
  hob_complain (error);
  return MAX (status, hob_error_exit_status (error));
}
