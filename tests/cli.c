/* SPDX-License-Identifier: GPL-3.0-or-later */

/* The command as it is built (its path in HOB): every command, its exit status, what it prints.
 *
 * tests/golden: NAME.cmd has the words behind "hob" in its first line, perhaps "exit N" in its
 * second; NAME.expected is what it prints, NAME.errors what it says on standard error (no file:
 * nothing).  Numbers may differ in the last of their digits between compilers; all else is
 * compared to the letter.  --update writes the files anew; the difference is read before it is
 * kept. */

#include "config.h"

#include <errno.h>
#include <glib.h>
#include <glib/gstdio.h>
#include <math.h>
#include <stdio.h>
#include <string.h>
#include <sys/wait.h>
#include <unistd.h>

static gboolean update;

typedef struct
{
  char *out, *err; /* owned */
  int status;      /* −1: killed */
} Said;

static Said
run_words (const char *folder, const char *const *words)
{
  g_autoptr (GPtrArray) argv = g_ptr_array_new ();
  g_autoptr (GError) error = NULL;
  Said said = { NULL };
  int status;

  g_ptr_array_add (argv, (gpointer) g_getenv ("HOB"));
  for (int i = 0; words[i] != NULL; i++)
    g_ptr_array_add (argv, (gpointer) words[i]);
  g_ptr_array_add (argv, NULL);
  g_spawn_sync (folder, (char **) argv->pdata, NULL, G_SPAWN_DEFAULT, NULL, NULL, &said.out,
                &said.err, &status, &error);
  g_assert_no_error (error);
  said.status = WIFEXITED (status) ? WEXITSTATUS (status) : -1;
  return said;
}

/* @line as a shell takes it apart. */
static Said
hob_in (const char *folder, const char *line)
{
  g_auto (GStrv) words = NULL;
  g_autoptr (GError) error = NULL;

  if (*line == '\0')
    return run_words (folder, (const char *const[]){ NULL });
  g_shell_parse_argv (line, NULL, &words, &error);
  g_assert_no_error (error);
  return run_words (folder, (const char *const *) words);
}

static Said
hob (const char *line)
{
  return hob_in (NULL, line);
}

static void
forget (Said *said)
{
  g_free (said->out);
  g_free (said->err);
}
G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (Said, forget)

static guint
count_lines (const char *text)
{
  guint n = 0;

  for (const char *p = text; *p != '\0'; p++)
    n += *p == '\n';
  return n;
}

/* ---- Golden files ---- */

static gboolean
begins_number (const char *text, const char *start)
{
  return g_ascii_isdigit (*text)
         && (text == start || !(g_ascii_isalnum (text[-1]) || text[-1] == '.'));
}

/* Equal but for numbers that differ by less than a ten-thousandth. */
static gboolean
alike (const char *a, const char *b)
{
  const char *p = a, *q = b;

  while (*p != '\0' && *q != '\0')
    if (begins_number (p, a) && begins_number (q, b))
      {
        char *ends[2];
        double x = g_ascii_strtod (p, &ends[0]), y = g_ascii_strtod (q, &ends[1]);

        if (fabs (x - y) > 1e-4 * MAX (fabs (x), fabs (y)) + 1e-7)
          return FALSE;
        p = ends[0];
        q = ends[1];
      }
    else if (*p++ != *q++)
      return FALSE;
  return *p == *q;
}

static void
compare (const char *name, const char *suffix, const char *said)
{
  g_autofree char *file = g_strconcat (name, suffix, NULL), *wanted = NULL;

  if (update)
    {
      if (*said == '\0')
        g_unlink (file);
      else
        g_assert_true (g_file_set_contents (file, said, -1, NULL));
      return;
    }
  if (!g_file_get_contents (file, &wanted, NULL, NULL))
    wanted = g_strdup ("");
  if (!alike (said, wanted))
    {
      g_test_message ("%s: said\n%s---- wanted\n%s", file, said, wanted);
      g_test_fail ();
    }
}

static void
golden (gconstpointer name)
{
  g_autofree char *folder = g_build_filename (HOB_SOURCE_DIR, "tests", "golden", NULL);
  g_autofree char *base = g_build_filename (folder, (const char *) name, NULL),
                  *file = g_strconcat (base, ".cmd", NULL);
  g_autofree char *text = NULL;
  g_auto (GStrv) lines = NULL;
  g_auto (Said) said = { NULL };
  int status = 0;

  g_assert_true (g_file_get_contents (file, &text, NULL, NULL));
  lines = g_strsplit (text, "\n", -1);
  if (lines[1] != NULL && g_str_has_prefix (lines[1], "exit "))
    status = lines[1][5] - '0';
  said = hob_in (folder, lines[0]);
  g_assert_cmpint (said.status, ==, status);
  compare (base, ".expected", said.out);
  compare (base, ".errors", said.err);
}

static int
by_name (gconstpointer a, gconstpointer b)
{
  return strcmp (*(char *const *) a, *(char *const *) b);
}

static void
add_golden (GPtrArray *names)
{
  g_autofree char *folder = g_build_filename (HOB_SOURCE_DIR, "tests", "golden", NULL);
  g_autoptr (GDir) dir = g_dir_open (folder, 0, NULL);
  const char *name;

  while ((name = g_dir_read_name (dir)) != NULL)
    if (g_str_has_suffix (name, ".cmd"))
      g_ptr_array_add (names, g_strndup (name, strlen (name) - 4));
  g_ptr_array_sort (names, by_name);
  for (guint i = 0; i < names->len; i++)
    {
      g_autofree char *path = g_strdup_printf ("/cli/golden/%s", (char *) names->pdata[i]);

      g_test_add_data_func (path, names->pdata[i], golden);
    }
}

/* ---- Exit statuses ---- */

#define SMALL HOB_SOURCE_DIR "/tests/golden/small.xml"

static const struct
{
  const char *line;
  int status;
} statuses[] = {
  { "", 2 },
  { "help", 0 },
  { "--help", 0 },
  { "help check", 0 },
  { "help frob", 2 },
  { "help table", 0 },
  { "--version", 0 },
  { "frob", 2 },
  { "table dial-four -o x.txt", 2 },
  { "table dial-four --pairs -o x.pdf", 2 },
  { "suspects dial-four", 2 },
  { "suspects dial-four --priors", 0 },
  { "suspects dial-four --seen frob", 1 },
  { "suspects dial-four --seen no-glow --role boss", 2 },
  { "suspects dial-four --reading x", 2 },
  { "suspects dial-four --seen no-glow --fault igniter-bake:open", 2 },
  { "help suspects", 0 },
  { "why dial-four --symptom no-glow", 1 },
  { "why dial-four", 2 },
  { "draw dial-four --sheet why --symptom no-glow -o x.svg", 1 },
  { "draw dial-four --sheet why -o x.svg", 2 },
  { "draw dial-four --sheet why --symptom no-glow --cover -o x.svg", 2 },
  { "draw dial-four --sheet wiring --at 1s --symptom no-glow -o x.svg", 2 },
  { "explain dial-four -o x.pdf", 2 },
  { "compose", 2 },
  { "check", 2 },
  { "check --frob x", 2 },
  { "check /no/such.xml", 2 },
  { "list", 2 },
  { "list frob", 2 },
  { "list dial-four", 0 },
  { "list dial-four frob", 2 },
  { "list dial-four faults more", 2 },
  { "list no-such faults", 2 },
  { "run", 2 },
  { "run dial-four", 2 },
  { "run dial-four --until", 2 },
  { "run dial-four --until x", 2 },
  { "run dial-four --until 5V", 2 },
  { "run dial-four --until -5s", 2 },
  { "run dial-four --until 1s --every 1s", 2 },
  { "run dial-four --until 1s --trace cavity.air --every 0s", 2 },
  { "run dial-four --until 1s --trace cavity.air,", 2 },
  { "run dial-four --until 1s --trace cavity.aire", 1 },
  { "run dial-four --until 1s --trace cavity.air --units metric", 2 },
  { "run dial-four --until 1s --csv=yes", 2 },
  { "run dial-four --until 1s --seed 1.5", 2 },
  { "run dial-four --until 1s --seed 18446744073709551616", 2 },
  { "run dial-four --until 1s --seed 18446744073709551615", 0 },
  { "run dial-four --until 1s --seed 1 --seed 2", 2 },
  { "run dial-four --until 1s --until 2s", 2 },
  { "run dial-four --until 1s --csv --csv", 0 },
  { "run dial-four --until 1s --frob", 2 },
  { "run dial-four --until 1s --csvv", 2 },
  { "run dial-four --until 1s -o x", 2 },
  { "run dial-four --until 1s --do", 2 },
  { "run --help", 0 },
  { "run dial-four --until 1s --trace ''", 2 },
  { "list dial-four settings", 0 },
  { "run dial-four --until 1s --do '0s oven.mode bake'", 2 },
  { "run dial-four --until 1s --do '0s oven.mod=bake'", 1 },
  { "run dial-four --until 1s --do '0s oven.mode=toast'", 2 },
  { "run dial-four --until 1s --fault igniter-bake:agd", 1 },
  { "run dial-four --until 1s --fault igniter-bake", 2 },
  { "run dial-four --until 1s --setting receptacle.volts=1,5", 2 },
  { "run dial-four --until 1s --setting receptacle.bolts=1", 1 },
  { "run dial-four --until 3s --setting 'receptacle.volts=108 V@2s'", 0 },
  { "run dial-four --until 1s --setting 'receptacle.volts=108 V@2'", 0 },
  { "run dial-four --until 1s --setting 'receptacle.volts=108 V@'", 2 },
  { "run dial-four --until 3s --fault igniter-bake:aged=0.5@1s..2s", 0 },
  { "run dial-four --until 3s --fault igniter-bake:aged@2s..1s", 2 },
  { "run dial-four --until 1s --setting igniter-bake.broken=1", 1 },
  { "run dial-four --procedure frob", 1 },
  { "run dial-four --procedure all-off-1min --do '0s oven.mode=bake'", 2 },
  { "run dial-four --procedure all-off-1min", 0 },
  { "run dial-four more --until 1s", 2 },
  { "run dial-four --until=1s", 0 },
  { "run --until 1s -- dial-four", 0 },
  { "read dial-four", 2 },
  { "read dial-four --test 'volt a b'", 2 },
  { "read dial-four --test 'volts igniter-bake.a igniter-bake.z'", 1 },
  { "read dial-four --test 'ohms igniter-bake.a igniter-bake.b @ 0s oven.mode=bake; 60s'", 1 },
  { "read dial-four --test 'look no-such @ 1s'", 1 },
  { "read dial-four --fault igniter-bake:open --test 'ohms igniter-bake.a igniter-bake.b @ 0s "
    "cord.plug=out; 1s'",
    0 },
  { "draw dial-four", 2 },
  { "draw dial-four --sheet ribbon --at 0s -o x.svg", 2 },
  { "draw dial-four --sheet wiring --at 0s", 2 },
  { "draw dial-four --sheet wiring -o x.svg", 2 },
  { "draw dial-four --sheet wiring --at 0s -o x.jpg", 2 },
  { "draw dial-four --sheet wiring --at 0s --size 0x10 -o x.svg", 2 },
  { "draw dial-four --sheet wiring --at 0s --size 100 -o x.svg", 2 },
  { "draw dial-four --sheet wiring --at 0s --theme pink -o x.svg", 2 },
  { "draw dial-four --sheet gas --at 0s -o /no/such/folder/x.svg", 2 },
  { "draw dial-four --sheet gas --at 0s --paper legal -o x.svg", 2 },
  { "draw dial-four --sheet gas --at 0s --paper letter --size 640x480 -o x.svg", 2 },
  { "draw dial-four --sheet gas --at 0s --size 640x -o x.svg", 2 },
  { "draw dial-four --sheet chart --at 1s --trace cavity.aire -o x.svg", 1 },
  { "draw dial-four --sheet chart --at 1s --trace , -o x.svg", 2 },
  { "list dial-four controsl", 2 },
  { "list dial-four --csv", 0 },
  { "list dial-four settigns --csv", 2 },
  { "list dial-four settings --csv", 0 },
  { "read", 2 },
  { "read dial-four --test 'amps igniter-bake @ 5s oven.mode=bake; 2s'", 2 },
  { "read dial-four --test 'amps igniter-bake @ 0s oven.mode=bake'", 2 },
  { "read dial-four --test 'ohms igniter-bake.a igniter-bake.b lead-of'", 2 },
  { "read dial-four --test 'amps module'", 1 },
  { "read dial-four --test 'amps nobody'", 1 },
  { "read dial-four --test 'temp cavity.aire @ 1s'", 1 },
  { "read dial-four --test 'pressure manifold.tapp @ 1s'", 1 },
  { "read dial-four --test 'volts module.out-lf cord.line @ 1s'", 1 },
  { "table", 2 },
  { "table dial-four -o dial-four", 2 },
  { "suspects", 2 },
  { "why", 2 },
  { "why dial-four --symptom frob", 1 },
  { "why no-such --symptom no-glow", 2 },
  { "read no-such --test 'amps igniter-bake'", 2 },
  { "run " HOB_SOURCE_DIR "/tests/golden/aged.xml --procedure all-off-1min", 2 },
  { "why dial-four --symptom 'no-glow frob'", 1 },
  { "suspects " SMALL " --reading 'volts light.a light.b @ 0s door=open; 5s = 120 V +- much'", 2 },
  { "suspects " SMALL " --reading 'volts light.a light.b @ 0s door=open; 5s = bright'", 2 },
  { "suspects " SMALL " --reading 'volts light.a light.z @ 0s door=open; 5s = 120 V'", 1 },
  { "suspects " SMALL " --reading 'look light-bright @ 0s door=open; 5s = maybe'", 2 },
  { "read dial-four --test 'look display-dark @ 1s'", 1 }, /* it has no display */
  { "suspects " SMALL " --reading 'look light-brihgt @ 0s door=open; 5s = seen'", 1 },
};

static void
every_slip_has_its_status_and_one_line (void)
{
  for (guint i = 0; i < G_N_ELEMENTS (statuses); i++)
    {
      g_auto (Said) said = hob (statuses[i].line);

      if (said.status != statuses[i].status)
        g_error ("hob %s: exit %d, not %d; %s", statuses[i].line, said.status, statuses[i].status,
                 said.err);
      g_assert_cmpuint (count_lines (said.err), ==, statuses[i].status == 0 ? 0 : 1);
      if (statuses[i].status != 0)
        g_assert_cmpstr (said.out, ==, "");
    }
}

static void
words_that_are_no_text_are_refused_in_text (void)
{
  g_auto (Said) said
      = run_words (NULL, (const char *const[]){ "run", "dial-four", "--until", "1\xff\ns", NULL });

  g_assert_cmpint (said.status, ==, 2);
  g_assert_true (g_utf8_validate (said.err, -1, NULL));
  g_assert_cmpuint (count_lines (said.err), ==, 1);
}

/* ---- CSV ---- */

/* Rows of fields by RFC 4180; fails on a field that breaks its rules. (transfer full) */
static GPtrArray *
parse_csv (const char *text)
{
  GPtrArray *rows = g_ptr_array_new_with_free_func ((GDestroyNotify) g_ptr_array_unref);
  const char *p = text;

  while (*p != '\0')
    {
      GPtrArray *row = g_ptr_array_new_with_free_func (g_free);

      for (gboolean more = TRUE; more;)
        {
          GString *field = g_string_new (NULL);

          if (*p == '"')
            {
              for (p++; !(*p == '"' && p[1] != '"'); p++)
                {
                  g_assert_true (*p != '\0');
                  g_string_append_c (field, *p);
                  if (*p == '"')
                    p++;
                }
              p++;
            }
          else
            for (; *p != ',' && *p != '\n'; p++)
              {
                g_assert_true (*p != '\0' && *p != '"' && *p != '\r');
                g_string_append_c (field, *p);
              }
          g_ptr_array_add (row, g_string_free (field, FALSE));
          g_assert_true (*p == ',' || *p == '\n');
          more = *p++ == ',';
        }
      g_ptr_array_add (rows, row);
    }
  return rows;
}

static const char *
field (const GPtrArray *rows, guint row, guint column)
{
  return ((GPtrArray *) rows->pdata[row])->pdata[column];
}

static void
assert_table (const GPtrArray *rows, const char *header)
{
  g_auto (GStrv) names = g_strsplit (header, ",", -1);

  g_assert_cmpuint (rows->len, >, 0);
  for (guint r = 0; r < rows->len; r++)
    g_assert_cmpuint (((GPtrArray *) rows->pdata[r])->len, ==, g_strv_length (names));
  for (guint c = 0; names[c] != NULL; c++)
    g_assert_cmpstr (field (rows, 0, c), ==, names[c]);
}

/* A number as a program reads it, written as %.9g would write it again. */
static double
number (const char *text)
{
  char *end, again[G_ASCII_DTOSTR_BUF_SIZE];
  double value = g_ascii_strtod (text, &end);

  g_assert_true (end > text && *end == '\0');
  g_assert_cmpstr (g_ascii_formatd (again, sizeof again, "%.9g", value), ==, text);
  return value;
}

/* A case file does what its options do, to the last bit, and a case can add to it. */
static void
a_case_file_takes_the_place_of_a_range (void)
{
  g_autofree char *file = g_build_filename (HOB_SOURCE_DIR, "tests", "golden", "aged.xml", NULL);
  g_autofree char *filed
      = g_strdup_printf ("run '%s' --do '200s oven.mode=off' --until 4min --hash", file);
  g_autofree char *list = g_strdup_printf ("list '%s' faults --csv", file);
  g_auto (Said) by_file = hob (filed);
  g_auto (Said) by_options
      = hob ("run dial-four --seed 3 --setting 'receptacle.volts=108 V@2min' --fault "
             "igniter-bake:aged=0.5@1min..3min --do '0s oven.mode=bake' --do '200s "
             "oven.mode=off' --until 4min --hash");
  g_auto (Said) of_range = hob ("list dial-four faults --csv");
  g_auto (Said) of_case = hob (list);

  g_assert_cmpint (by_file.status, ==, 0);
  g_assert_cmpstr (by_file.out, ==, by_options.out);
  g_assert_cmpstr (by_file.err, ==, by_options.err);
  g_assert_nonnull (strstr (by_file.err, "hash: "));
  g_assert_cmpint (of_case.status, ==, 0);
  g_assert_cmpstr (of_case.out, ==, of_range.out);
}

#define RULE "\n\nTesting stops when " /* apart from what is said before */

/* As the window saves it. */
static void
evidence_of_a_case_file_is_weighed (void)
{
  static const char *const said_of_it[]
      = { "Smell of gas at the range (seen).", "on the range (not seen). Chance",
          "temp cavity.air @ 600s. The reading is 77 degF." };
  g_autofree char *folder = g_build_filename (HOB_SOURCE_DIR, "tests", "golden", NULL);
  g_auto (Said) all = hob_in (folder, "suspects smelled.xml"),
                none = hob_in (folder, "suspects ../../diagrams/dial-four.xml");

  g_assert_cmpint (all.status, ==, 0);
  for (guint k = 0; k < G_N_ELEMENTS (said_of_it); k++)
    g_assert_nonnull (strstr (all.out, said_of_it[k]));
  g_assert_true (g_str_has_prefix (all.out, "Strong smell of gas"));
  g_assert_nonnull (strstr (all.out, RULE));
  g_assert_cmpint (none.status, ==, 2);
}

static void
a_case_file_is_not_overwritten_by_its_events (void)
{
  static const char text[] = "<case format=\"1\" range=\"dial-four\"/>\n";
  g_autofree char *folder = g_dir_make_tmp (NULL, NULL), *after = NULL;
  g_autofree char *file = g_build_filename (folder, "case.xml", NULL);
  g_autofree char *line = g_strdup_printf (
      "run '%s' --until 2s --trace cavity.air --every 1s --events '%s'", file, file);

  g_assert_true (g_file_set_contents (file, text, -1, NULL));
  g_auto (Said) said = hob (line);
  g_assert_cmpint (said.status, ==, 2);
  g_assert_nonnull (strstr (said.err, file));
  g_assert_true (g_file_get_contents (file, &after, NULL, NULL));
  g_assert_cmpstr (after, ==, text);
  g_unlink (file);
  g_rmdir (folder);
}

static void
events_are_a_table_in_time_order (void)
{
  g_auto (Said) said
      = hob ("run dial-four --setting receptacle.volts=102 --setting 'house.temperature=15 degC' "
             "--procedure bake-350 --csv");
  g_autoptr (GPtrArray) rows = parse_csv (said.out);
  gboolean act = FALSE, change = FALSE, symptom = FALSE, end = FALSE;
  double last = 0;

  g_assert_cmpint (said.status, ==, 0);
  assert_table (rows, "time_s,class,id,text,part");
  for (guint r = 1; r < rows->len; r++)
    {
      const char *class = field (rows, r, 1);
      double t = number (field (rows, r, 0));

      g_assert_cmpfloat (t, >=, last);
      last = t;
      act |= g_str_equal (class, "act");
      change |= g_str_equal (class, "change");
      symptom |= g_str_equal (class, "symptom");
      end |= g_str_equal (class, "symptom-end");
      g_assert_cmpstr (field (rows, r, 2), !=, "");
      g_assert_cmpstr (field (rows, r, 3), !=, "");
    }
  g_assert_true (act && change && symptom && end);
}

static void
a_trace_has_a_row_for_every_time (void)
{
  g_auto (Said) said = hob ("run dial-four --do '0s oven.mode=bake' --until 60s --trace "
                            "igniter-bake.current,cavity.air --every 2.5s");
  g_autoptr (GPtrArray) rows = parse_csv (said.out);

  assert_table (rows, "time_s,igniter-bake.current,cavity.air");
  g_assert_cmpuint (rows->len, ==, 1 + 25);
  for (guint r = 1; r < rows->len; r++)
    {
      g_assert_cmpfloat (number (field (rows, r, 0)), ==, 2.5 * (r - 1));
      number (field (rows, r, 1));
      g_assert_cmpfloat (number (field (rows, r, 2)), >, 290);
    }
}

static void
trade_units_stand_in_the_header (void)
{
  const char *line = "run dial-four --do '0s knob-lf=light' --until 10s --every 10s --trace "
                     "cavity.air,manifold.pressure,burner-lf.heat,burner-lf.flame";
  g_autofree char *trade_line = g_strconcat (line, " --units trade", NULL);
  g_auto (Said) si = hob (line), trade = hob (trade_line);
  g_autoptr (GPtrArray) a = parse_csv (si.out), b = parse_csv (trade.out);

  assert_table (a, "time_s,cavity.air,manifold.pressure,burner-lf.heat,burner-lf.flame");
  assert_table (
      b,
      "time_s,cavity.air (°F),manifold.pressure (in. w.c.),burner-lf.heat (Btu/h),burner-lf.flame");
  g_assert_cmpfloat_with_epsilon (number (field (b, 2, 1)), number (field (a, 2, 1)) * 1.8 - 459.67,
                                  1e-5);
  g_assert_cmpfloat_with_epsilon (number (field (b, 2, 2)), number (field (a, 2, 2)) / 249.08891,
                                  1e-6);
  g_assert_cmpfloat_with_epsilon (number (field (b, 2, 3)), number (field (a, 2, 3)) * 3.412141633,
                                  1e-2);
  g_assert_cmpstr (field (b, 2, 4), ==, "1");
}

static void
readings_are_a_table (void)
{
  g_auto (Said) said = hob (
      "read dial-four --csv --test 'amps igniter-bake @ 0s oven.mode=bake; 90s' --test 'pressure "
      "manifold.lf' --test 'look no-glow @ 0s oven.mode=bake; 90s'");
  g_autoptr (GPtrArray) rows = parse_csv (said.out);

  g_assert_cmpint (said.status, ==, 0);
  assert_table (rows, "test,value,unit,note");
  g_assert_cmpuint (rows->len, ==, 4);
  g_assert_cmpfloat_with_epsilon (number (field (rows, 1, 1)), 3.43, 0.1);
  g_assert_cmpstr (field (rows, 1, 2), ==, "A");
  g_assert_cmpstr (field (rows, 2, 2), ==, "Pa");
  g_assert_cmpstr (field (rows, 3, 1), ==, "not-seen");
}

static void
every_listed_test_can_be_taken (void)
{
  g_auto (Said) list = hob ("list board-five tests --csv");
  g_autoptr (GPtrArray) tests = parse_csv (list.out);
  g_autoptr (GPtrArray) words = g_ptr_array_new ();
  guint n = tests->len - 1;

  g_assert_cmpuint (n, >, 50);
  g_ptr_array_add (words, "read");
  g_ptr_array_add (words, "board-five");
  g_ptr_array_add (words, "--csv");
  g_ptr_array_add (words, "--do");
  g_ptr_array_add (words, "0s cord.plug=out");
  for (guint i = 0; i < n; i++)
    {
      g_ptr_array_add (words, "--test");
      g_ptr_array_add (words, (gpointer) field (tests, i + 1, 0));
    }
  g_ptr_array_add (words, NULL);
  {
    g_auto (Said) said = run_words (NULL, (const char *const *) words->pdata);
    g_autoptr (GPtrArray) rows = parse_csv (said.out);

    assert_table (rows, "test,value,unit,note");
    g_assert_cmpuint (rows->len, ==, n + 1);
    for (guint i = 0; i < n; i++)
      g_assert_cmpstr (field (rows, i + 1, 0), ==, field (tests, i + 1, 0));
  }
}

/* What scripts outside name must be there; more may come. */
static void
the_lists_have_the_names_that_scripts_use (void)
{
  static const struct
  {
    const char *list;
    const char *names[12];
  } wanted[] = {
    { "list dial-four faults --csv",
      { "switch-lf:stuck-closed", "switch-rr:wet", "switch-lr:open", "module:dead",
        "module:output-rf-dead", "module:irregular", "electrode-lf:cracked",
        "electrode-lf:gap-wide", "igniter-broil:aged", "igniter-bake:open",
        "valve-bake:heater-open", "oven:contact-welded" } },
    { "list dial-four controls --csv",
      { "knob-lf", "oven.mode", "oven.dial", "cord.plug", "breaker", "shutoff", "lever", "door",
        "person" } },
    { "list dial-four quantities --csv",
      { "igniter-bake.current", "igniter-bake.temperature", "valve-bake.opening",
        "valve-bake.volts", "burner-bake.flame", "burner-lf.heat", "burner-lf.gas", "cavity.air",
        "electrode-lf.sparks", "module.volts", "module.rate", "receptacle.current" } },
    { "list board-five quantities --csv",
      { "sensor.ohms", "manifold.pressure", "regulator.pressure" } },
    { "list dial-four terminals --csv",
      { "igniter-bake.a", "oven.bake", "module.in", "module.out-lf", "chassis.body",
        "cord.ground" } },
    { "list kinds --csv", { "igniter-flat", "house", "spark-module" } },
    { "list board-five procedures --csv",
      { "all-off-1min", "light-knob-c", "bake-350", "broil", "convection-350" } },
  };

  for (guint i = 0; i < G_N_ELEMENTS (wanted); i++)
    {
      g_auto (Said) said = hob (wanted[i].list);
      g_autoptr (GPtrArray) rows = parse_csv (said.out);

      assert_table (rows, "name,text");
      for (guint k = 0; k < G_N_ELEMENTS (wanted[i].names) && wanted[i].names[k] != NULL; k++)
        {
          gboolean there = FALSE;

          for (guint r = 1; r < rows->len; r++)
            there = there || g_str_equal (field (rows, r, 0), wanted[i].names[k]);
          if (!there)
            g_error ("hob %s has no %s", wanted[i].list, wanted[i].names[k]);
        }
    }
}

/* ---- The same run, however it is asked ---- */

static void
the_hash_is_the_same_however_often_it_is_asked (void)
{
  static const char *const ways[]
      = { "", "--trace cavity.air --every 0.1s", "--trace cavity.air --every 10s",
          "--trace burner-bake.heat,module.rate --every 7s", "--csv" };
  g_autofree char *first = NULL;

  for (guint i = 0; i < G_N_ELEMENTS (ways); i++)
    {
      g_autofree char *line = g_strdup_printf (
          "run dial-four --seed 5 --fault switch-rf:wet --do '0s oven.mode=bake' "
          "--do '9.5s knob-lf=light' --until 200s --hash %s",
          ways[i]);
      g_auto (Said) said = hob (line);

      g_assert_cmpint (said.status, ==, 0);
      g_assert_true (g_regex_match_simple ("^hash: [0-9a-f]{16}\n$", said.err, 0, 0));
      if (first == NULL)
        first = g_strdup (said.err);
      g_assert_cmpstr (said.err, ==, first);
    }
}

static void
another_seed_another_range (void)
{
  g_auto (Said) a = hob ("run dial-four --seed 1 --do '0s oven.mode=bake' --until 60s --hash");
  g_auto (Said) b = hob ("run dial-four --seed 2 --do '0s oven.mode=bake' --until 60s --hash");

  g_assert_cmpstr (a.err, !=, b.err);
}

/* ---- Files ---- */

typedef struct
{
  char *folder;
} Folder;

static void
make_folder (Folder *f, gconstpointer data)
{
  f->folder = g_dir_make_tmp ("hob-XXXXXX", NULL);
}

static void
remove_folder (Folder *f, gconstpointer data)
{
  g_autoptr (GDir) dir = g_dir_open (f->folder, 0, NULL);
  const char *name;

  while ((name = g_dir_read_name (dir)) != NULL)
    {
      g_autofree char *path = g_build_filename (f->folder, name, NULL);

      g_unlink (path);
    }
  g_rmdir (f->folder);
  g_free (f->folder);
}

static guint
count_files (const char *folder)
{
  g_autoptr (GDir) dir = g_dir_open (folder, 0, NULL);
  guint n = 0;

  while (g_dir_read_name (dir) != NULL)
    n++;
  return n;
}

static char *
contents (const char *folder, const char *name, gsize *size)
{
  g_autofree char *path = g_build_filename (folder, name, NULL);
  char *text = NULL;

  g_assert_true (g_file_get_contents (path, &text, size, NULL));
  return text;
}

static void
events_beside_a_trace (Folder *f, gconstpointer data)
{
  g_auto (Said) trace = hob_in (
      f->folder, "run dial-four --procedure light-knob-lf --trace burner-lf.heat --every 5s "
                 "--events list.csv");
  g_auto (Said) list = hob ("run dial-four --procedure light-knob-lf --csv");
  g_autofree char *beside = contents (f->folder, "list.csv", NULL);

  g_assert_cmpint (trace.status, ==, 0);
  g_assert_true (g_str_has_prefix (trace.out, "time_s,burner-lf.heat\n"));
  g_assert_cmpstr (beside, ==, list.out);
  g_assert_cmpuint (count_files (f->folder), ==, 1);
}

static void
a_picture_of_every_sheet_in_every_format (Folder *f, gconstpointer data)
{
  static const char *const sheets[] = { "wiring", "gas", "cutaway", "chart" };
  static const struct
  {
    const char *suffix, *magic;
  } formats[] = { { "svg", "<?xml" }, { "pdf", "%PDF" }, { "png", "\x89PNG" } };

  for (guint s = 0; s < G_N_ELEMENTS (sheets); s++)
    for (guint k = 0; k < G_N_ELEMENTS (formats); k++)
      {
        g_autofree char *name = g_strdup_printf ("%s.%s", sheets[s], formats[k].suffix),
                        *text = NULL;
        g_autofree char *line
            = g_strdup_printf ("draw dial-four --fault igniter-bake:aged --do '0s oven.mode=bake' "
                               "--sheet %s --at 95s --theme print -o %s",
                               sheets[s], name);
        g_auto (Said) said = hob_in (f->folder, line);
        gsize size;

        g_assert_cmpint (said.status, ==, 0);
        g_assert_cmpstr (said.err, ==, "");
        text = contents (f->folder, name, &size);
        g_assert_cmpuint (size, >, 2000);
        g_assert_true (g_str_has_prefix (text, formats[k].magic));
      }
  g_assert_cmpuint (count_files (f->folder), ==, G_N_ELEMENTS (sheets) * G_N_ELEMENTS (formats));
}

/* On every sheet, however small: what holds in it, and the line that every page has. */
static void
a_picture_has_its_cautions_below (Folder *f, gconstpointer data)
{
  static const char *const sheets[] = { "wiring", "gas", "cutaway", "chart" };
  static const char *const sizes[] = { "", "--size 320x200" };

  for (guint s = 0; s < G_N_ELEMENTS (sheets); s++)
    for (guint k = 0; k < 4; k++)
      {
        gboolean leaks = k % 2 == 1;
        g_autofree char *line
            = g_strdup_printf ("draw dial-four %s --sheet %s --at 30s %s -o a.svg",
                               leaks ? "--fault connector:leaks" : "", sheets[s], sizes[k / 2]);
        g_auto (Said) said = hob_in (f->folder, line);
        g_autofree char *text = contents (f->folder, "a.svg", NULL);

        g_assert_cmpint (said.status, ==, 0);
        g_assert_nonnull (strstr (text, "Hobwright is for training"));
        g_assert_cmpint (strstr (text, "Get everyone out now.") != NULL, ==, leaks);
      }
}

/* With --cover a picture names neither fault nor symptom nor state; without it all of them. */
static void
a_covered_picture_gives_nothing_away (Folder *f, gconstpointer data)
{
  static const char *const sheets[] = { "wiring", "gas", "cutaway", "chart" };

  for (guint s = 0; s < G_N_ELEMENTS (sheets); s++)
    for (int cover = 0; cover <= 1; cover++)
      {
        g_autofree char *line
            = g_strdup_printf ("draw dial-four --fault igniter-bake:aged --do '0s oven.mode=bake' "
                               "--sheet %s --at 3min %s -o a.svg",
                               sheets[s], cover ? "--cover" : "");
        g_auto (Said) said = hob_in (f->folder, line);
        g_autofree char *text = contents (f->folder, "a.svg", NULL);

        g_assert_cmpint (said.status, ==, 0);
        g_assert_cmpint (strstr (text, "weak igniter") != NULL, ==, !cover);
        g_assert_cmpint (strstr (text, "Igniter glows") != NULL, ==, !cover);
        g_assert_cmpint (strstr (text, "ID code: ") != NULL, ==, !cover);
      }
}

static guint32
big_endian (const char *bytes)
{
  guint32 value;

  memcpy (&value, bytes, sizeof value);
  return GUINT32_FROM_BE (value);
}

static void
a_picture_has_the_size_that_was_asked (Folder *f, gconstpointer data)
{
  g_auto (Said) said
      = hob_in (f->folder, "draw board-five --sheet cutaway --at 0s --size 640x360 -o a.png");
  g_autofree char *png = contents (f->folder, "a.png", NULL);

  g_assert_cmpint (said.status, ==, 0);
  g_assert_cmpuint (big_endian (png + 16), ==, 640);
  g_assert_cmpuint (big_endian (png + 20), ==, 360);
}

static void
the_same_picture_twice_is_the_same_and_a_theme_is_not (Folder *f, gconstpointer data)
{
  static const char *const lines[] = { "light -o a.png", "light -o b.png", "dark -o c.png" };
  g_autofree char *bytes[3] = { NULL };
  gsize size[3];

  for (int i = 0; i < 3; i++)
    {
      const char name[] = { (char) ('a' + i), '.', 'p', 'n', 'g', '\0' };
      g_autofree char *line = g_strconcat (
          "draw dial-four --sheet gas --do '0s knob-lf=light' --at 9s --theme ", lines[i], NULL);
      g_auto (Said) said = hob_in (f->folder, line);

      g_assert_cmpint (said.status, ==, 0);
      bytes[i] = contents (f->folder, name, &size[i]);
    }
  g_assert_cmpmem (bytes[0], size[0], bytes[1], size[1]);
  g_assert_false (size[0] == size[2] && memcmp (bytes[0], bytes[2], size[0]) == 0);
  g_free (bytes[1]);
  g_free (bytes[2]);
}

/* All that an SVG file writes, each text after a blank: lines are broken where room ends. (transfer
 * full) */
static char *
words_of_svg (const char *folder, const char *name)
{
  g_autofree char *svg = contents (folder, name, NULL);
  g_auto (GStrv) pieces = g_strsplit (svg, "<", -1);
  GString *words = g_string_new (NULL);

  for (char **piece = pieces; *piece != NULL; piece++)
    {
      const char *text = strchr (*piece, '>');

      if (text != NULL && text[1] != '\0' && text[1] != '\n')
        g_string_append_printf (words, " %s", text + 1);
    }
  return g_string_free (words, FALSE);
}

/* No text of @svg, which is @width px wide, runs off its right side. */
static void
assert_texts_within (const char *svg, double width)
{
  static const char start[] = "<text transform=\"matrix(1,0,0,1,";
  guint n = 0;

  for (const char *p = svg; (p = strstr (p, start)) != NULL; n++)
    {
      double x = g_ascii_strtod (p += strlen (start), NULL);
      const char *length = strstr (p, "textLength=\"") + strlen ("textLength=\"");

      g_assert_cmpfloat (x + g_ascii_strtod (length, NULL), <=, width);
    }
  g_assert_cmpuint (n, >, 10);
}

#define BAKE_WEAKLY " --fault igniter-bake:aged=1 --do '0s oven.mode=bake' --at 4min -o a.svg"

#define LIFTS " dial-four --fault burner-bake:shutter-open --do '0s oven.mode=bake' "

/* As seen, and at the end of the way to it. */
static void
what_a_symptom_takes_is_said_wherever_it_is_read (Folder *f, gconstpointer data)
{
#define TAKES "Bake burner: Flame lifts off the burner ports (look with the oven bottom out)"
  g_auto (Said) why
      = hob_in (f->folder, "draw" LIFTS "--at 50s --sheet why --symptom flame-lifts -o a.svg");
  g_auto (Said) text = hob_in (f->folder, "why" LIFTS "--symptom flame-lifts");
  g_auto (Said) run = hob_in (f->folder, "run" LIFTS "--until 50s");
  g_autofree char *chain = words_of_svg (f->folder, "a.svg");

  g_assert_cmpint (why.status + text.status + run.status, ==, 0);
  g_assert_nonnull (strstr (text.out, TAKES));
  g_assert_nonnull (strstr (run.out, TAKES));
  g_assert_nonnull (strstr (chain, "Flame lifts off the burner ports"));
  g_assert_nonnull (strstr (chain, "oven bottom out)"));
}

/* What should have happened and did not, and the way from the cause to what is noticed. */
static void
pictures_of_the_sequence_and_of_the_cause (Folder *f, gconstpointer data)
{
  g_auto (Said) sequence
      = hob_in (f->folder, "draw dial-four --sheet sequence --size 900x400" BAKE_WEAKLY);
  g_autofree char *steps = words_of_svg (f->folder, "a.svg"), *svg = contents (f->folder, "a.svg",
                                                                             NULL);
  g_auto (Said) why
      = hob_in (f->folder, "draw dial-four --sheet why --symptom glow-no-flame" BAKE_WEAKLY);
  g_autofree char *chain = words_of_svg (f->folder, "a.svg"),
                  *drawn = contents (f->folder, "a.svg", NULL);
  const char *cause = strstr (chain, "The current through the igniter is 2.25 A."),
             *shut = strstr (chain, "The valve is 0% open."),
             *noticed = strstr (chain, "Igniter glows for 90 seconds without a flame");

  g_auto (Said) high
      = hob_in (f->folder, "draw dial-four --sheet sequence --at 4min -o b.svg");
  g_autofree char *unsized = contents (f->folder, "b.svg", NULL);

  g_assert_cmpint (sequence.status + why.status + high.status, ==, 0);
  g_assert_nonnull (strstr (unsized, "width=\"1200px\""));
  assert_texts_within (svg, 900);
  assert_texts_within (drawn, 1200);
  g_assert_nonnull (strstr (svg, "width=\"900px\" height=\"400px\""));
  g_assert_nonnull (strstr (steps, "flame lights"));
  g_assert_nonnull (strstr (steps, "Igniter glows for 90 seconds without a flame"));
  g_assert_true (cause != NULL && shut != NULL && noticed != NULL);
  g_assert_true (cause < shut && shut < noticed);
}

/* The last acts, and how many came before; a picture for teaching says nothing of what was set
 * wrong at the range, but what the house gives. */
static void
a_picture_says_what_was_done (Folder *f, gconstpointer data)
{
  g_autoptr (GString) line = g_string_new ("draw dial-four --sheet gas --at 1min -o a.svg");
  g_autofree char *many = NULL, *covered = NULL, *open = NULL;

  for (int k = 1; k <= 15; k++)
    g_string_append_printf (line, " --do '%ds door=%s'", k, k % 2 ? "open" : "closed");
  g_string_append (line, " --do '16s match=burner-lf'");
  {
    g_auto (Said) said = hob_in (f->folder, line->str);

    g_assert_cmpint (said.status, ==, 0);
    many = words_of_svg (f->folder, "a.svg");
    g_assert_nonnull (strstr (many, "earlier)"));
    g_assert_nonnull (strstr (many, "16 s Match: Left front burner"));
    g_assert_null (strstr (many, " 1 s Oven door"));
  }
#define SET_WRONG                                                                                  \
  "draw dial-four --sheet gas --at 1min --setting 'igniter-bake.resistance-factor=2@5s' "          \
  "--setting 'receptacle.volts=108 V@6s' -o a.svg"
  for (int cover = 0; cover < 2; cover++)
    {
      g_auto (Said) said = hob_in (f->folder, cover ? SET_WRONG " --cover" : SET_WRONG);

      g_assert_cmpint (said.status, ==, 0);
      *(cover ? &covered : &open) = words_of_svg (f->folder, "a.svg");
    }
  g_assert_nonnull (strstr (open, "5 s Bake igniter: Igniter resistance"));
  g_assert_null (strstr (covered, "5 s Bake igniter"));
  g_assert_nonnull (strstr (covered, "6 s Receptacle: "));
}

/* Either fault is enough: a chain each, with an empty line between them. */
static void
two_causes_are_two_paragraphs (void)
{
  g_auto (Said) said = hob ("why dial-four --symptom no-spark-any --fault module:dead "
                            "--fault switch-lf:open --do '1s knob-lf=light'");
  g_auto (GStrv) chains = g_strsplit (said.out, "\n\n", -1);

  g_assert_cmpint (said.status, ==, 0);
  g_assert_cmpuint (g_strv_length (chains), ==, 3); /* the cautions come first */
  g_assert_nonnull (strstr (chains[1], "LF switch, contact closed: no"));
  g_assert_null (strstr (chains[2], "LF switch"));
  for (int k = 1; k < 3; k++)
    g_assert_nonnull (strstr (chains[k], "No spark at any burner"));
}

/* A drop on the way that no part shows is named by the wires, in volts. */
static void
a_weak_circuit_is_named_by_its_wires (Folder *f, gconstpointer data)
{
  g_auto (Said) said = hob_in (f->folder, "draw dial-four --sheet wiring --fault "
                                          "receptacle:weak-branch=0.5 --do '10s oven.mode=bake' "
                                          "--at 60s -o a.svg");
  g_autofree char *words = words_of_svg (f->folder, "a.svg");

  g_assert_cmpint (said.status, ==, 0);
  g_assert_nonnull (strstr (words, "Different from normal now: Wire: Receptacle to Cord: "));
}

/* A board shows what it does: the set temperature while it bakes, and none while it broils. */
static void
a_display_shows_what_the_board_does (Folder *f, gconstpointer data)
{
#define AT_WORK(mode)                                                                              \
  "draw board-five --sheet wiring --do '10s oven.mode=" mode "' --at 30s -o a.svg"
  g_auto (Said) bake = hob_in (f->folder, AT_WORK ("bake"));
  g_autofree char *baking = words_of_svg (f->folder, "a.svg");
  g_auto (Said) broil = hob_in (f->folder, AT_WORK ("broil"));
  g_autofree char *broiling = words_of_svg (f->folder, "a.svg");

  g_assert_cmpint (bake.status + broil.status, ==, 0);
  g_assert_nonnull (strstr (baking, " BAKE 350 °F PRE "));
  g_assert_nonnull (strstr (broiling, " BROIL "));
  g_assert_null (strstr (broiling, "350 °F"));
}

/* The quantities asked for, in trade units, and no others. */
static void
a_chart_has_the_traces_that_were_asked (Folder *f, gconstpointer data)
{
  g_auto (Said) said = hob_in (f->folder, "draw dial-four --sheet chart --do '0s oven.mode=bake' "
                                          "--trace cavity.air,module.rate --at 4min -o a.svg");
  g_autofree char *words = words_of_svg (f->folder, "a.svg");

  g_assert_cmpint (said.status, ==, 0);
  g_assert_nonnull (strstr (words, "Oven cavity: air temperature in the center, °F"));
  g_assert_nonnull (strstr (words, "Spark module: "));
  g_assert_null (strstr (words, "Bake igniter: current"));
}

static gboolean
holds (const char *bytes, gsize size, const char *word)
{
  for (gsize at = 0; at + strlen (word) <= size; at++)
    if (memcmp (bytes + at, word, strlen (word)) == 0)
      return TRUE;
  return FALSE;
}

/* Points of a 72nd of an inch, across. */
static void
a_picture_for_paper_has_the_size_of_the_paper (Folder *f, gconstpointer data)
{
  static const char *const boxes[][2] = { { "letter", "/MediaBox [ 0 0 792 612 ]" },
                                          { "a4", "/MediaBox [ 0 0 841.889764 595.275591 ]" },
                                          { "tabloid", "/MediaBox [ 0 0 1224 792 ]" } };

  for (guint k = 0; k < G_N_ELEMENTS (boxes); k++)
    {
      g_autofree char *line = g_strdup_printf (
          "draw dial-four --sheet gas --at 0s --paper %s -o a.pdf", boxes[k][0]);
      g_auto (Said) said = hob_in (f->folder, line);
      g_autofree char *pdf = NULL;
      gsize size;

      g_assert_cmpint (said.status, ==, 0);
      pdf = contents (f->folder, "a.pdf", &size);
      g_assert_true (holds (pdf, size, boxes[k][1]));
    }
}

/* What a shell says to @line in @folder, with the command in $HOB. */
static Said
shell_in (const char *folder, const char *line)
{
  const char *argv[] = { "sh", "-c", line, NULL };
  Said said = { NULL };
  int status;

  g_assert_true (g_spawn_sync (folder, (char **)argv, NULL, G_SPAWN_SEARCH_PATH, NULL, NULL,
                               &said.out, &said.err, &status, NULL));
  said.status = WIFEXITED (status) ? WEXITSTATUS (status) : -1;
  return said;
}

static void
a_table_of_faults_is_a_picture_too (Folder *f, gconstpointer data)
{
  static const char *const starts[][2] = { { "t.svg", "<?xml" }, { "t.pdf", "%PDF-" },
                                           { "t.png", "\x89PNG" } };
  g_autofree char *svg = NULL;

  for (guint k = 0; k < G_N_ELEMENTS (starts); k++)
    {
      g_autofree char *line = g_strdup_printf ("table %s -o %s", SMALL, starts[k][0]);
      g_auto (Said) said = hob_in (f->folder, line);
      g_autofree char *written = contents (f->folder, starts[k][0], NULL);

      g_assert_cmpint (said.status, ==, 0);
      g_assert_true (g_str_has_prefix (written, starts[k][1]));
    }
  svg = contents (f->folder, "t.svg", NULL);
  g_assert_nonnull (strstr (svg, "open or loose service"));
  g_assert_nonnull (strstr (svg, "generator with a floating neutral"));
}

#define BURNER HOB_SOURCE_DIR "/tests/golden/burner.xml"

/* A column's head is written whole, as text, and ends with what it takes to see it. */
static void
a_picture_of_the_table_says_what_a_symptom_takes (Folder *f, gconstpointer data)
{
  g_auto (Said) said = hob_in (f->folder, "table " BURNER " -o t.svg");
  g_autofree char *svg = contents (f->folder, "t.svg", NULL);

  g_assert_cmpint (said.status, ==, 0);
  g_assert_nonnull (strstr (svg, ">No flame with the knob turned on<"));
  g_assert_nonnull (strstr (svg, ">Flame too large for the burner "
                                 "(bake burner: look with the oven bottom out)<"));
}

/* The one fault of that range that makes the light too bright comes first, as rows and as text. */
static void
the_only_fault_that_fits_is_the_first_suspect (Folder *f, gconstpointer data)
{
  const char *seen = "suspects " SMALL " --seen \"light-bright @ 0s door=open; 20s\"";
  const char *rest = "suspects " SMALL " --not-seen \"light-bright @ 0s door=open; 20s\" --csv";
  g_autofree char *csv = g_strconcat (seen, " --csv", NULL);
  g_auto (Said) rows = hob_in (f->folder, csv), text = hob_in (f->folder, seen),
                without = hob_in (f->folder, rest);
  const char *suspect = strstr (rows.out, "\nsuspect,"), *open = strstr (without.out, "light:open"),
             *neutral = strstr (without.out, "house:neutral-open");

  g_assert_cmpint (rows.status + text.status + without.status, ==, 0);
  g_assert_true (g_str_has_prefix (suspect, "\nsuspect,house:neutral-open,"));
  g_assert_true (open != NULL && (neutral == NULL || open < neutral));
  g_assert_nonnull (strstr (text.out, "(house:neutral-open)"));
  g_assert_null (strstr (text.out, "(light:open)")); /* too improbable to be named */
  g_assert_nonnull (strstr (text.out, "Evidence for this fault: Oven light much brighter"));
  g_assert_nonnull (strstr (text.out, "Next test: "));
  g_assert_nonnull (strstr (text.out, RULE));
}

/* A live test is offered to a technician alone; what each suspect is at is the same for both. */
static void
an_apprentice_is_offered_no_live_test (Folder *f, gconstpointer data)
{
  const char *words = "suspects " SMALL " --csv --seen \"light-dark @ 0s door=open; 20s\" --role ";
  g_autofree char *technician = g_strconcat (words, "technician", NULL),
                  *apprentice = g_strconcat (words, "apprentice", NULL);
  g_auto (Said) all = hob_in (f->folder, technician), some = hob_in (f->folder, apprentice);
  const char *tests = strstr (all.out, "\ntest,");

  g_assert_cmpint (all.status + some.status, ==, 0);
  g_assert_nonnull (tests);
  g_assert_nonnull (strstr (tests, ",live,"));
  g_assert_nonnull (strstr (some.out, "\ntest,"));
  g_assert_null (strstr (some.out, ",live,"));
  g_assert_null (strstr (some.out, ",gas,"));
  g_assert_cmpint (strncmp (all.out, some.out, (size_t) (tests - all.out)), ==, 0);
}

/* The half of an installation: one line says which program is gone. */
static void
drawing_without_its_program_says_so (Folder *f, gconstpointer data)
{
  g_autofree char *alone = g_build_filename (f->folder, "hob", NULL);
  g_autofree char *line
      = g_strdup_printf ("cp '%s' '%s'", g_getenv ("HOB"), alone), *out = NULL, *err = NULL;
  const char *const argv[] = { alone, "draw", SMALL, "--sheet", "wiring", "--at", "0", "-o",
                               "x.svg", NULL };
  int status;

  g_assert_true (g_spawn_command_line_sync (line, NULL, NULL, &status, NULL) && status == 0);
  g_assert_true (g_spawn_sync (f->folder, (char **) argv, NULL, G_SPAWN_DEFAULT, NULL, NULL, &out,
                               &err, &status, NULL));
  g_assert_cmpint (WEXITSTATUS (status), ==, 2);
  g_assert_cmpuint (count_lines (err), ==, 1);
  g_assert_nonnull (strstr (err, "hob-draw can't be started"));
  g_assert_cmpstr (out, ==, "");
  g_remove (alone);
}

#define READ_AMPS "suspects " SMALL " --csv --reading 'amps light @ 0s door=open; 5s = 310 mA"

/* With its own unit, or in the reading's where it has none; a wide one says less. */
static void
a_reading_has_its_tolerance (void)
{
  g_auto (Said) close = hob (READ_AMPS " +- 2 mA'"), bare = hob (READ_AMPS " ± 2'"),
                wide = hob (READ_AMPS " ± 0.1 A'");

  g_assert_cmpint (close.status + bare.status + wide.status, ==, 0);
  g_assert_cmpstr (close.out, ==, bare.out);
  g_assert_cmpstr (close.out, !=, wide.out);
}

/* Both leads on one terminal. */
static void
nothing_lies_between_a_terminal_and_itself (void)
{
  g_auto (Said) said = hob ("read dial-four --csv --test 'ohms igniter-bake.a igniter-bake.a @ "
                            "0s cord.plug=out; 1s'");
  g_autoptr (GPtrArray) rows = parse_csv (said.out);

  g_assert_cmpint (said.status, ==, 0);
  g_assert_cmpstr (field (rows, 1, 1), ==, "0");
}

/* Volts between two parts, which no list of tests has, and what is seen under the case's acts with
 * no time of its own: both speak for the open neutral, which makes the light too bright. */
static void
any_reading_and_any_sight_is_weighed (void)
{
  static const char *const lines[]
      = { "suspects " SMALL " --csv --reading 'volts light.a house.neutral @ 0s door=open; 5s = "
          "170 V ± 20 V'",
          "suspects " SMALL " --csv --do '0s door=open' --seen light-bright" };

  for (guint k = 0; k < G_N_ELEMENTS (lines); k++)
    {
      g_auto (Said) said = hob (lines[k]);
      const char *neutral, *bulb;

      g_assert_cmpint (said.status, ==, 0);
      neutral = strstr (said.out, "\nsuspect,house:neutral-open,");
      bulb = strstr (said.out, "\nsuspect,light:open,"); /* the commonest without evidence */
      g_assert_true (neutral != NULL && bulb != NULL && neutral < bulb);
    }
}

/* What comes before any test comes first, and there are no tests. */
static void
who_feels_sick_is_told_to_leave (void)
{
  g_auto (Said) rows = hob ("suspects " SMALL " --csv --seen headache"),
                text = hob ("suspects " SMALL " --seen headache");

  g_assert_cmpint (rows.status + text.status, ==, 0);
  g_assert_true (g_str_has_prefix (rows.out, "row,id,amount,weight,bits\nstop,co-sick,,,\n"));
  g_assert_null (strstr (rows.out, "\ntest,"));
  g_assert_true (g_str_has_prefix (text.out, "Carbon monoxide: Get everyone into fresh air now."));
  g_assert_null (strstr (text.out, "Next test"));
}

/* The person's own figures; what is no figure is refused with the file and the entry. */
static void
assumptions_are_the_persons_own (Folder *f, gconstpointer data)
{
#define WITH_PRIORS(entry, words)                                                                  \
  "mkdir -p hobwright; printf '[Faults]\n" entry "\n' >hobwright/priors.ini; "                     \
  "XDG_CONFIG_HOME=$PWD \"$HOB\" suspects " SMALL " " words
  g_auto (Said) own = shell_in (f->folder, WITH_PRIORS ("light:open=77", "--priors"));
  g_auto (Said) wrong = shell_in (f->folder, WITH_PRIORS ("light:open=much", "--priors"));
  g_auto (Said) low = shell_in (f->folder, WITH_PRIORS ("light:open=-1", "--priors"));
  g_auto (Said) folder
      = shell_in (f->folder, "rm hobwright/priors.ini; mkdir hobwright/priors.ini; "
                             "XDG_CONFIG_HOME=$PWD \"$HOB\" suspects " SMALL " --priors; "
                             "status=$?; rm -r hobwright; exit $status");

  g_assert_cmpint (own.status, ==, 0);
  g_assert_nonnull (strstr (own.out, "\nlight:open=77\n"));
  g_assert_cmpint (wrong.status, ==, 2);
  g_assert_cmpint (low.status, ==, 2);
  g_assert_cmpint (folder.status, ==, 2);
  g_assert_nonnull (strstr (wrong.err, "hobwright/priors.ini: 'light:open=much' is not valid"));
  g_assert_nonnull (strstr (low.err, "use a number from 0"));
  g_assert_nonnull (strstr (folder.err, "can't be read"));
  g_assert_cmpuint (count_lines (wrong.err) + count_lines (folder.err), ==, 2);
}

/* No file may grow beyond 2 KiB here: a part of a picture fits and the rest does not.  A build that
 * counts what runs would lose its counts then, and say so. */
#define COUNT_ELSEWHERE "export GCOV_PREFIX=$PWD/counts GCOV_ERROR_FILE=/dev/null; "
#define COUNT_NO_MORE "; status=$?; rm -rf counts; exit $status"

static void
a_picture_on_a_full_disk_leaves_the_one_before (Folder *f, gconstpointer data)
{
  static const char *const names[] = { "o.pdf", "o.svg", "o.png" };

  for (guint k = 0; k < G_N_ELEMENTS (names); k++)
    {
      g_autofree char *line = g_strdup_printf (
          COUNT_ELSEWHERE "trap '' XFSZ; printf before >%s; ulimit -f 4; \"$HOB\" draw dial-four "
                          "--sheet wiring --at 0s -o %s" COUNT_NO_MORE, names[k], names[k]);
      g_auto (Said) said = shell_in (f->folder, line);
      g_autofree char *left = contents (f->folder, names[k], NULL);

      g_assert_cmpint (said.status, ==, 2);
      g_assert_cmpuint (count_lines (said.err), ==, 1);
      g_assert_nonnull (strstr (said.err, names[k]));
      g_assert_cmpstr (left, ==, "before");
    }
  g_assert_cmpuint (count_files (f->folder), ==, G_N_ELEMENTS (names));
}

static void
events_through_a_link_to_the_output_leave_the_link (Folder *f, gconstpointer data)
{
  g_auto (Said) said = shell_in (f->folder, "ln -s /proc/self/fd/1 out; \"$HOB\" run dial-four "
                                            "--procedure light-knob-lf --events out >both");
  g_autofree char *link = g_build_filename (f->folder, "out", NULL);
  g_autofree char *both = contents (f->folder, "both", NULL);

  g_assert_cmpint (said.status, ==, 0);
  g_assert_true (g_file_test (link, G_FILE_TEST_IS_SYMLINK));
  g_assert_true (g_str_has_prefix (both, "      1.00 s"));
  g_assert_nonnull (strstr (both, "\ntime_s,class,id,text,part\n"));
}

static void
the_range_just_read_is_not_written_over (Folder *f, gconstpointer data)
{
  g_auto (Said) copied
      = shell_in (f->folder, "cp \"" HOB_SOURCE_DIR "/diagrams/dial-four.xml\" mine.xml;"
                             "ln -s mine.xml o.svg");
  g_autofree char *before = contents (f->folder, "mine.xml", NULL), *after = NULL;
  g_auto (Said) run = hob_in (f->folder, "run mine.xml --until 1s --events mine.xml");
  g_auto (Said) draw = hob_in (f->folder, "draw mine.xml --sheet gas --at 0s -o o.svg");

  after = contents (f->folder, "mine.xml", NULL);
  g_assert_cmpint (copied.status, ==, 0);
  g_assert_cmpint (run.status, ==, 2);
  g_assert_cmpint (draw.status, ==, 2);
  g_assert_cmpuint (count_lines (run.err), ==, 1);
  g_assert_cmpstr (run.out, ==, "");
  g_assert_cmpstr (after, ==, before);
}

/* A label that would forge a symptom's line, clear the screen and turn the direction around. */
static void
a_label_cannot_write_to_the_terminal (Folder *f, gconstpointer data)
{
  static const char label[] = "x&#10;      9.00 s  ! Forged (gas-smell)&#x9b;2J&#x202e;y";
  static const char shown[] = "x\\n      9.00 s  ! Forged (gas-smell)\\u009b2J\\u202ey";
  g_autofree char *shipped = contents (HOB_SOURCE_DIR "/diagrams", "dial-four.xml", NULL);
  g_autofree char *file = g_build_filename (f->folder, "forged.xml", NULL);
  g_auto (GStrv) around = g_strsplit (shipped, "label=\"Left front burner\"", 2);
  g_autofree char *forged = g_strconcat (around[0], "label=\"", label, "\"", around[1], NULL);

  g_assert_cmpuint (g_strv_length (around), ==, 2);
  g_assert_true (g_file_set_contents (file, forged, -1, NULL));
  {
    g_auto (Said) list = hob_in (f->folder, "list forged.xml quantities");
    g_auto (Said) run = hob_in (f->folder, "run forged.xml --procedure light-knob-lf");
    g_auto (Said) csv = hob_in (f->folder, "run forged.xml --procedure light-knob-lf --csv");

    g_assert_nonnull (strstr (list.out, shown));
    g_assert_nonnull (strstr (run.out, shown));
    g_assert_null (strstr (run.out, "\n      9.00 s  ! "));
    g_assert_null (strstr (run.out, "\xc2\x9b"));
    g_assert_null (strstr (run.out, "\u202e"));
    g_assert_nonnull (strstr (csv.out, "\"x\n      9.00 s  ! Forged (gas-smell)\xc2\x9b"
                                       "2J\u202ey: "));
  }
}

/* A label with quotes and commas comes back as it was. */
static void
quotes_in_a_label_are_doubled (Folder *f, gconstpointer data)
{
  g_autofree char *shipped = contents (HOB_SOURCE_DIR "/diagrams", "dial-four.xml", NULL);
  g_autofree char *file = g_build_filename (f->folder, "quoted.xml", NULL);
  g_auto (GStrv) around = g_strsplit (shipped, "label=\"Left front burner\"", 2);
  g_autofree char *quoted
      = g_strconcat (around[0], "label=\"My &quot;big&quot;, left\"", around[1], NULL);

  g_assert_true (g_file_set_contents (file, quoted, -1, NULL));
  {
    g_auto (Said) said = hob_in (f->folder, "list quoted.xml quantities --csv");
    g_autoptr (GPtrArray) rows = parse_csv (said.out);
    guint found = 0;

    for (guint k = 1; k < rows->len; k++)
      found += g_str_has_prefix (field (rows, k, 1), "My \"big\", left: ");
    g_assert_cmpuint (found, >, 3);
  }
}

static void
what_was_answered_before_a_wrong_test_stays_said (void)
{
  g_auto (Said) said = hob ("read dial-four --csv --test 'amps igniter-bake @ 1s' "
                            "--test 'amps igniter-bake @ 0s oven.mod=bake; 1s'");
  g_autoptr (GPtrArray) rows = parse_csv (said.out);

  g_assert_cmpint (said.status, ==, 1);
  g_assert_cmpuint (count_lines (said.err), ==, 1);
  g_assert_cmpuint (rows->len, ==, 2);
  g_assert_cmpstr (field (rows, 1, 0), ==, "amps igniter-bake @ 1s");
}

/* ---- Pipes ---- */

static void
a_closed_pipe_is_quiet (void)
{
  const char *argv[] = { g_getenv ("HOB"), "run",        "dial-four", "--until", "300s",
                         "--trace",        "cavity.air", "--every",   "0.01s",   NULL };
  g_autofree char *said = NULL;
  g_autoptr (GIOChannel) channel = NULL;
  g_autoptr (GError) error = NULL;
  GPid pid;
  int out, err, status;
  char first[16];

  g_spawn_async_with_pipes (NULL, (char **) argv, NULL, G_SPAWN_DO_NOT_REAP_CHILD, NULL, NULL, &pid,
                            NULL, &out, &err, &error);
  g_assert_no_error (error);
  g_assert_cmpint (read (out, first, sizeof first), ==, sizeof first);
  close (out);
  channel = g_io_channel_unix_new (err);
  g_io_channel_read_to_end (channel, &said, NULL, NULL);
  g_assert_cmpint (waitpid (pid, &status, 0), ==, pid);
  g_assert_true (WIFEXITED (status));
  g_assert_cmpint (WEXITSTATUS (status), ==, 0);
  g_assert_cmpstr (said, ==, "");
  close (err);
}

/* At the end of little, and in the middle of much. */
static void
a_full_disk_is_said (void)
{
  static const char *const words[]
      = { "list kinds", "run dial-four --do '0s oven.mode=bake' --until 8h --csv" };

  if (!g_file_test ("/dev/full", G_FILE_TEST_EXISTS))
    g_error ("this system has no /dev/full to try a full disk on");
  for (guint k = 0; k < G_N_ELEMENTS (words); k++)
    {
      g_autofree char *err = NULL, *command = NULL;
      const char *argv[] = { "sh", "-c", NULL, NULL };
      int status;

      command = g_strdup_printf ("'%s' %s >/dev/full", g_getenv ("HOB"), words[k]);
      argv[2] = command;
      g_assert_true (g_spawn_sync (NULL, (char **) argv, NULL, G_SPAWN_SEARCH_PATH, NULL, NULL,
                                   NULL, &err, &status, NULL));
      g_assert_cmpint (WEXITSTATUS (status), ==, 2);
      g_assert_cmpuint (count_lines (err), ==, 1);
    }
}

/* ---- The program itself ---- */

static void
it_links_no_toolkit (void)
{
  const char *argv[] = { "ldd", g_getenv ("HOB"), NULL };
  g_autofree char *out = NULL;
  int status;

  g_assert_true (g_spawn_sync (NULL, (char **) argv, NULL, G_SPAWN_SEARCH_PATH, NULL, NULL, &out,
                               NULL, &status, NULL));
  g_assert_cmpint (WEXITSTATUS (status), ==, 0);
  g_assert_nonnull (strstr (out, "libglib-2.0"));
  g_assert_null (strstr (out, "libgtk"));
  g_assert_null (strstr (out, "libgdk"));
  g_assert_null (strstr (out, "libgsk"));
}

static void
every_command_has_its_help (void)
{
  static const char *const commands[] = { "check", "list", "run", "read", "draw", "help" };
  g_auto (Said) all = hob ("help");

  for (guint i = 0; i < G_N_ELEMENTS (commands); i++)
    {
      g_autofree char *line = g_strconcat ("help ", commands[i], NULL);
      g_autofree char *usage = g_strconcat ("hob ", commands[i], NULL);
      g_auto (Said) said = hob (line);

      g_assert_nonnull (strstr (all.out, commands[i]));
      g_assert_nonnull (strstr (said.out, usage));
    }
}

#define ADD(path, function) g_test_add_func ("/cli/" path, function)
#define ADD_FOLDER(path, function)                                                                 \
  g_test_add ("/cli/" path, Folder, NULL, make_folder, function, remove_folder)

int
main (int argc, char **argv)
{
  g_autoptr (GPtrArray) names = g_ptr_array_new_with_free_func (g_free);

  /* What nobody has changed, wherever it would be. */
  g_setenv ("XDG_CONFIG_HOME", "/nowhere", TRUE);
  g_test_init (&argc, &argv, NULL);
  update = argc > 1 && g_str_equal (argv[1], "--update");
  if (g_getenv ("HOB") == NULL)
    g_error ("HOB does not say where hob is");

  add_golden (names);
  ADD ("every-slip-has-its-status-and-one-line", every_slip_has_its_status_and_one_line);
  ADD ("words-that-are-no-text-are-refused-in-text", words_that_are_no_text_are_refused_in_text);
  ADD ("a-case-file-takes-the-place-of-a-range", a_case_file_takes_the_place_of_a_range);
  ADD ("evidence-of-a-case-file-is-weighed", evidence_of_a_case_file_is_weighed);
  ADD ("a-case-file-is-not-overwritten-by-its-events",
       a_case_file_is_not_overwritten_by_its_events);
  ADD ("events-are-a-table-in-time-order", events_are_a_table_in_time_order);
  ADD ("a-trace-has-a-row-for-every-time", a_trace_has_a_row_for_every_time);
  ADD ("trade-units-stand-in-the-header", trade_units_stand_in_the_header);
  ADD ("readings-are-a-table", readings_are_a_table);
  ADD ("every-listed-test-can-be-taken", every_listed_test_can_be_taken);
  ADD ("the-lists-have-the-names-that-scripts-use", the_lists_have_the_names_that_scripts_use);
  ADD ("the-hash-is-the-same-however-often-it-is-asked",
       the_hash_is_the_same_however_often_it_is_asked);
  ADD ("another-seed-another-range", another_seed_another_range);
  ADD_FOLDER ("events-beside-a-trace", events_beside_a_trace);
  ADD_FOLDER ("a-table-of-faults-is-a-picture-too", a_table_of_faults_is_a_picture_too);
  ADD_FOLDER ("a-picture-of-the-table-says-what-a-symptom-takes",
              a_picture_of_the_table_says_what_a_symptom_takes);
  ADD_FOLDER ("the-only-fault-that-fits-is-the-first-suspect",
              the_only_fault_that_fits_is_the_first_suspect);
  ADD_FOLDER ("an-apprentice-is-offered-no-live-test", an_apprentice_is_offered_no_live_test);
  ADD_FOLDER ("drawing-without-its-program-says-so", drawing_without_its_program_says_so);
  ADD_FOLDER ("a-picture-on-a-full-disk-leaves-the-one-before",
              a_picture_on_a_full_disk_leaves_the_one_before);
  ADD_FOLDER ("events-through-a-link-to-the-output-leave-the-link",
              events_through_a_link_to_the_output_leave_the_link);
  ADD_FOLDER ("a-label-cannot-write-to-the-terminal", a_label_cannot_write_to_the_terminal);
  ADD_FOLDER ("quotes-in-a-label-are-doubled", quotes_in_a_label_are_doubled);
  ADD ("what-was-answered-before-a-wrong-test-stays-said",
       what_was_answered_before_a_wrong_test_stays_said);
  ADD_FOLDER ("the-range-just-read-is-not-written-over", the_range_just_read_is_not_written_over);
  ADD_FOLDER ("a-picture-of-every-sheet-in-every-format", a_picture_of_every_sheet_in_every_format);
  ADD_FOLDER ("pictures-of-the-sequence-and-of-the-cause",
              pictures_of_the_sequence_and_of_the_cause);
  ADD_FOLDER ("what-a-symptom-takes-is-said-wherever-it-is-read",
              what_a_symptom_takes_is_said_wherever_it_is_read);
  ADD_FOLDER ("a-weak-circuit-is-named-by-its-wires", a_weak_circuit_is_named_by_its_wires);
  ADD_FOLDER ("a-display-shows-what-the-board-does", a_display_shows_what_the_board_does);
  ADD_FOLDER ("a-picture-says-what-was-done", a_picture_says_what_was_done);
  ADD ("nothing-lies-between-a-terminal-and-itself", nothing_lies_between_a_terminal_and_itself);
  ADD ("any-reading-and-any-sight-is-weighed", any_reading_and_any_sight_is_weighed);
  ADD ("who-feels-sick-is-told-to-leave", who_feels_sick_is_told_to_leave);
  ADD_FOLDER ("assumptions-are-the-persons-own", assumptions_are_the_persons_own);
  ADD ("two-causes-are-two-paragraphs", two_causes_are_two_paragraphs);
  ADD_FOLDER ("a-chart-has-the-traces-that-were-asked", a_chart_has_the_traces_that_were_asked);
  ADD_FOLDER ("a-picture-for-paper-has-the-size-of-the-paper",
              a_picture_for_paper_has_the_size_of_the_paper);
  ADD ("a-reading-has-its-tolerance", a_reading_has_its_tolerance);
  ADD_FOLDER ("a-picture-has-its-cautions-below", a_picture_has_its_cautions_below);
  ADD_FOLDER ("a-covered-picture-gives-nothing-away", a_covered_picture_gives_nothing_away);
  ADD_FOLDER ("a-picture-has-the-size-that-was-asked", a_picture_has_the_size_that_was_asked);
  ADD_FOLDER ("the-same-picture-twice-is-the-same-and-a-theme-is-not",
              the_same_picture_twice_is_the_same_and_a_theme_is_not);
  ADD ("a-closed-pipe-is-quiet", a_closed_pipe_is_quiet);
  ADD ("a-full-disk-is-said", a_full_disk_is_said);
  ADD ("it-links-no-toolkit", it_links_no_toolkit);
  ADD ("every-command-has-its-help", every_command_has_its_help);
  return g_test_run ();
}
