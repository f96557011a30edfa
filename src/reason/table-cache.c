/* SPDX-License-Identifier: GPL-3.0-or-later */

#include "reason/table-cache.h"

#include "config.h"
#include "base/write-file.h"
#include "reason/engine-id.h"

#include <glib/gstdio.h>
#include <math.h>
#include <string.h>

#define FORMAT "hobwright fault table 1"

static void
add_text (GChecksum *sum, const char *text)
{
  g_checksum_update (sum, (const guchar *) text, (gssize) strlen (text) + 1);
}

/* A pair's second half is left out of a single fault: it may hold anything. */
static void
add_hypothesis (GChecksum *sum, const HobHypothesis *h)
{
  for (int k = 0; k < 2; k++)
    if (h->part[k] >= 0)
      {
        g_checksum_update (sum, (const guchar *) &h->part[k], sizeof h->part[k]);
        g_checksum_update (sum, (const guchar *) &h->fault[k], sizeof h->fault[k]);
        g_checksum_update (sum, (const guchar *) &h->severity[k], sizeof h->severity[k]);
      }
  add_text (sum, ";");
}

/* HOB_ENGINE_ID changes with the compiled code of all that a run is made of, so that a program that
 * was built anew never takes an older one's work for its own. */
char *
hob_cache_key (const HobBench *idle, const char *format, const GArray *hypotheses,
               const char *acts)
{
  g_autoptr (GChecksum) sum = g_checksum_new (G_CHECKSUM_SHA256);
  g_autofree char *range = hob_range_checksum (hob_bench_range (idle));
  g_autofree char *book
      = g_strdup_printf ("%016" G_GINT64_MODIFIER "x", hob_symptom_book_hash (idle->book));

  add_text (sum, format);
  add_text (sum, HOB_VERSION);
  add_text (sum, HOB_ENGINE_ID);
  add_text (sum, range);
  add_text (sum, book);
  for (guint k = 0; k < hypotheses->len; k++)
    add_hypothesis (sum, &g_array_index (hypotheses, HobHypothesis, k));
  add_text (sum, acts);
  return g_strdup (g_checksum_get_string (sum));
}

static char *
key_of (const HobBench *idle, const HobFaultTable *table)
{
  return hob_cache_key (idle, FORMAT, table->hypotheses, "");
}

static char *
file_of (const char *key)
{
  g_autofree char *name = g_strconcat ("table-", key, ".txt", NULL);

  return g_build_filename (g_get_user_cache_dir (), "hobwright", name, NULL);
}

/* ---- Text ---- */

/* The number at *@text, and on to the character behind it; FALSE if there is none. */
static gboolean
take_number (const char **text, double *value)
{
  char *end;

  *value = g_ascii_strtod (*text, &end);
  if (end == *text || (*end != ' ' && *end != '\n'))
    return FALSE;
  *text = end + 1;
  return TRUE;
}

static gboolean
within (double value, double low, double high)
{
  return value == floor (value) && value >= low && value < high;
}

static gboolean
take_row (const char **text, const HobFaultTable *table, int n_symptoms, HobTableRow *row)
{
  int n_procedures = (int) g_strv_length (table->procedures);
  double hypothesis, procedure, symptom;

  if (!take_number (text, &hypothesis) || !take_number (text, &procedure)
      || !take_number (text, &symptom) || !take_number (text, &row->first)
      || !within (hypothesis, 0, table->hypotheses->len) || !within (procedure, -1, n_procedures)
      || !within (symptom, HOB_TABLE_IMPOSSIBLE, n_symptoms))
    return FALSE;
  row->hypothesis = (int) hypothesis;
  row->procedure = (int) procedure;
  row->symptom = (int) symptom;
  return TRUE;
}

/* A file that ends too soon, or holds anything else, is as good as none. */
static gboolean
take_rows (const char *text, HobFaultTable *table, int n_symptoms)
{
  double n;

  if (!g_str_has_prefix (text, FORMAT "\n"))
    return FALSE;
  text += strlen (FORMAT "\n");
  if (!take_number (&text, &n))
    return FALSE;
  for (HobTableRow row; n > 0 && take_row (&text, table, n_symptoms, &row); n--)
    g_array_append_val (table->rows, row);
  return n == 0 && *text == '\0';
}

gboolean
hob_table_cache_load (const HobBench *idle, HobFaultTable *table)
{
  g_autofree char *key = key_of (idle, table), *file = file_of (key), *text = NULL;

  if (!g_file_get_contents (file, &text, NULL, NULL))
    return FALSE;
  if (take_rows (text, table, hob_symptom_book_size (idle->book)))
    return TRUE;
  g_array_set_size (table->rows, 0);
  return FALSE;
}

void
hob_table_cache_store (const HobBench *idle, const HobFaultTable *table)
{
  g_autofree char *key = key_of (idle, table), *file = file_of (key);
  g_autofree char *folder = g_path_get_dirname (file);
  g_autoptr (GString) text = g_string_new (FORMAT "\n");
  char number[G_ASCII_DTOSTR_BUF_SIZE];

  g_string_append_printf (text, "%u\n", table->rows->len);
  for (guint k = 0; k < table->rows->len; k++)
    {
      const HobTableRow *row = &g_array_index (table->rows, HobTableRow, k);

      g_string_append_printf (text, "%d %d %d %s\n", row->hypothesis, row->procedure, row->symptom,
                              g_ascii_dtostr (number, sizeof number, row->first));
    }
  if (g_mkdir_with_parents (folder, 0700) == 0)
    hob_write_file (file, text->str, text->len, NULL);
}
