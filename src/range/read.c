/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/errors.h"
#include "base/i18n.h"
#include "range/reader.h"

#include <errno.h>
#include <glib/gstdio.h>
#include <math.h>
#include <stdio.h>
#include <string.h>

/* ---- Findings ---- */

static void
add_finding (HobReader *reader, int line, gboolean warning, char *text)
{
  HobFinding *finding = g_new0 (HobFinding, 1);

  finding->file = g_strdup (reader->file);
  finding->line = MAX (line, 1);
  finding->warning = warning;
  finding->text = g_strdelimit (text, "\n\r\t", ' '); /* what a file says may hold them */
  g_ptr_array_add (reader->findings, finding);
}

void
hob_reader_find (HobReader *reader, int line, const char *format, ...)
{
  va_list args;

  va_start (args, format);
  add_finding (reader, line, FALSE, g_strdup_vprintf (format, args));
  va_end (args);
}

void
hob_reader_warn (HobReader *reader, int line, const char *format, ...)
{
  g_autofree char *text = NULL;
  va_list args;

  va_start (args, format);
  text = g_strdup_vprintf (format, args);
  va_end (args);
  /* Scripts look for this word: it is the same in every language. */
  add_finding (reader, line, TRUE, g_strconcat ("warning: ", text, NULL));
}

char *
hob_reader_quote (const char *text)
{
  const glong longest = 60;
  g_autofree char *line = g_strdelimit (g_strdup (text), "\n\r\t", ' ');

  g_strstrip (line);
  if (g_utf8_strlen (line, -1) > longest)
    {
      g_autofree char *head = g_utf8_substring (line, 0, longest);

      return g_strconcat (head, "…", NULL);
    }
  return g_steal_pointer (&line);
}

/* Near misses cost (names × findings): a file that is wrong throughout gets no more of them. */
#define MOST_COMPARED 1000000

char *
hob_reader_advice (HobReader *reader, const char *word, const char *const *names,
                   const char *otherwise)
{
  const char *near = NULL;

  /* One letter is near to every other. */
  if (reader->compared < MOST_COMPARED && strlen (word) > 1)
    {
      near = hob_near_miss (word, names);
      reader->compared += g_strv_length ((char **) names);
    }
  if (near != NULL)
    return g_strdup_printf (_("did you mean '%s'?"), near);
  return g_strdup (otherwise);
}

static int
by_line (gconstpointer a, gconstpointer b)
{
  return (*(HobFinding *const *) a)->line - (*(HobFinding *const *) b)->line;
}

static const HobFinding *
first_error (GPtrArray *findings)
{
  for (guint i = 0; i < findings->len; i++)
    if (!((HobFinding *) findings->pdata[i])->warning)
      return findings->pdata[i];
  return NULL;
}

/* ---- From elements to a range ---- */

static gboolean
refuse_format (const HobReader *reader, int line, const char *text, GError **error)
{
  g_autofree char *said = hob_reader_quote (text);
  gboolean number = *said >= '1' && *said <= '9' && said[strspn (said, "0123456789")] == '\0';

  if (number)
    g_set_error (error, HOB_ERROR, HOB_ERROR_UNREADABLE,
                 _ ("%s:%d: the file is in format %s, but this program reads formats up "
                    "to %d; use a newer version of Hobwright"),
                 reader->file, line, said, HOB_RANGE_FORMAT);
  else
    g_set_error (error, HOB_ERROR, HOB_ERROR_UNREADABLE,
                 _("%s:%d: unknown format '%s'; use format=\"%d\""), reader->file, line,
                 said, HOB_RANGE_FORMAT);
  return FALSE;
}

/* TRUE when the format is one this reader takes. */
static gboolean
read_format (HobReader *reader, xmlNode *root, int *format, GError **error)
{
  const char *text = hob_xml_get (root, "format");
  int line = hob_tree_attribute_line (reader->tree, root, "format");
  guint64 number;

  *format = HOB_RANGE_FORMAT;
  if (text == NULL) /* the shapes say so */
    return TRUE;
  if (!g_ascii_string_to_unsigned (text, 10, 1, HOB_RANGE_FORMAT, &number, NULL))
    return refuse_format (reader, line, text, error);
  *format = (int) number;
  return TRUE;
}

static void
read_plate (HobReader *reader, xmlNode *root)
{
  const char *text = hob_xml_get (root, "plate");
  g_autofree char *said = NULL, *advice = NULL;

  if (text == NULL)
    return;
  for (int i = 0; i < HOB_N_FUELS; i++)
    if (strcmp (hob_fuel_names[i], text) == 0)
      {
        reader->range->plate = (HobFuelName) i;
        return;
      }
  said = hob_reader_quote (text);
  advice = hob_reader_advice (reader, said, hob_fuel_names, _("use natural-gas or lp"));
  hob_reader_find (reader, hob_tree_attribute_line (reader->tree, root, "plate"),
                   _("unknown data plate '%s'; %s"), said, advice);
}

/* Notes are paragraphs; the file's line breaks mean nothing. */
static void
add_note (GString *note, const xmlNode *node)
{
  xmlChar *content = xmlNodeGetContent (node);
  gboolean between = FALSE;

  if (note->len > 0)
    g_string_append_c (note, '\n');
  for (const char *p = g_strchug ((char *)content); *p != '\0'; p++)
    if (g_ascii_isspace (*p))
      between = TRUE;
    else
      {
        if (between)
          g_string_append_c (note, ' ');
        g_string_append_c (note, *p);
        between = FALSE;
      }
  xmlFree (content);
}

static void
read_head (HobReader *reader, xmlNode *root)
{
  const char *id = hob_xml_get (root, "id"), *name = hob_xml_get (root, "name");
  GString *note = g_string_new (NULL);

  reader->range->file = g_strdup (reader->file);
  reader->range->id = g_strdup (id != NULL ? id : "");
  reader->range->name = g_strdup (name != NULL ? name : "");
  read_plate (reader, root);
  for (const xmlNode *node = root->children; node != NULL; node = node->next)
    if (node->type == XML_ELEMENT_NODE && strcmp ((const char *) node->name, "note") == 0)
      add_note (note, node);
  reader->range->note = g_string_free (note, FALSE);
}

/* How an array becomes a pointer and a count; it grew with HobPart or HobLine in it. */
#define HAND_OVER(array, member, type)                                                            \
  do                                                                                              \
    {                                                                                             \
      reader->range->n_##member = (int) (array)->len;                                             \
      reader->range->member = (type *) (void *) g_array_free ((array), FALSE);                    \
    }                                                                                             \
  while (0)

static void
read_document (HobReader *reader, xmlNode *root)
{
  reader->range = g_new0 (HobRange, 1);
  g_atomic_ref_count_init (&reader->range->refs);
  reader->range->tree = reader->tree;
  reader->parts = g_array_new (FALSE, TRUE, sizeof (HobPart));
  reader->wires = g_array_new (FALSE, TRUE, sizeof (HobLine));
  reader->pipes = g_array_new (FALSE, TRUE, sizeof (HobLine));
  reader->leads = g_array_new (FALSE, TRUE, sizeof (HobLine));
  reader->ids = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  reader->taken = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  reader->nodes = g_ptr_array_new ();
  reader->root = root;

  hob_reader_check_shapes (reader, root);
  read_head (reader, root);
  hob_reader_read_parts (reader, root);
  HAND_OVER (reader->parts, parts, HobPart);
  hob_reader_read_lines (reader, root);
  HAND_OVER (reader->wires, wires, HobLine);
  HAND_OVER (reader->pipes, pipes, HobLine);
  HAND_OVER (reader->leads, leads, HobLine);
  hob_reader_check_whole (reader);
  g_hash_table_unref (reader->ids);
  g_hash_table_unref (reader->taken);
  g_ptr_array_unref (reader->nodes);
  g_free (reader->part_names);
}

/* Format 1 is the first: there is no step yet.  steps[k] leads from format k to k + 1. */
static const HobMigration steps[HOB_RANGE_FORMAT] = { NULL };

void
hob_range_migrate (xmlDoc *doc, int from, int to, const HobMigration *migrations)
{
  for (int format = from; format < to; format++)
    migrations[format](doc);
}

static gboolean
read_root (HobReader *reader, xmlDoc *doc, GError **error)
{
  xmlNode *root = xmlDocGetRootElement (doc);
  int format;

  if (strcmp ((const char *) root->name, "range") != 0)
    {
      g_autofree char *said = hob_reader_quote ((const char *) root->name);

      hob_reader_find (
          reader, hob_tree_line (reader->tree, root),
          _ ("this file starts with <%s>; a range file starts with <range format=\"1\" …>"), said);
      return TRUE;
    }
  if (root->ns != NULL)
    {
      g_autofree char *said = hob_reader_quote ((const char *) root->ns->href);

      hob_reader_find (reader, hob_tree_line (reader->tree, root),
                       _("<range> is in the namespace '%s'; remove xmlns"),
                       said);
      return TRUE;
    }
  if (!read_format (reader, root, &format, error))
    return FALSE;
  hob_range_migrate (doc, format, HOB_RANGE_FORMAT, steps);
  read_document (reader, xmlDocGetRootElement (doc));
  if (first_error (reader->findings) == NULL)
    hob_grammar_check (doc, reader->file, reader->findings);
  return TRUE;
}

/* The range, or NULL and the first finding. */
static HobRange *
conclude (HobReader *reader, GPtrArray *findings, GError **error)
{
  const HobFinding *worst;
  HobRange *range = reader->range;

  g_ptr_array_sort (reader->findings, by_line);
  worst = first_error (reader->findings);
  if (worst != NULL)
    {
      g_autofree char *text = hob_finding_text (worst);

      g_set_error_literal (error, HOB_ERROR, HOB_ERROR_FINDING, text);
      g_clear_pointer (&range, hob_range_unref);
      if (reader->range == NULL)
        hob_tree_free (reader->tree);
    }
  for (guint i = 0; findings != NULL && i < reader->findings->len; i++)
    g_ptr_array_add (findings, g_steal_pointer (&reader->findings->pdata[i]));
  return range;
}

HobRange *
hob_range_load_memory (const char *data, gsize size, const char *name, GPtrArray *findings,
                       GError **error)
{
  HobReader reader = { .file = name };
  HobRange *range = NULL;
  xmlDoc *doc;

  g_return_val_if_fail (data != NULL && name != NULL, NULL);

  reader.tree = hob_tree_new (data, size);
  doc = hob_tree_parse (reader.tree, name, error);
  if (doc == NULL)
    {
      hob_tree_free (reader.tree);
      return NULL;
    }
  reader.findings = g_ptr_array_new_with_free_func ((GDestroyNotify) hob_finding_free);
  if (read_root (&reader, doc, error))
    range = conclude (&reader, findings, error);
  else
    hob_tree_free (reader.tree);
  xmlFreeDoc (doc);
  g_ptr_array_unref (reader.findings);
  return range;
}

/* ---- From files ---- */

#define MOST_BYTES (64u << 20) /* as hob_xml_parse () allows: no more is read */

static gboolean
read_stream (FILE *stream, GString *bytes, int *trouble)
{
  char block[1 << 16];
  gsize n;

  while ((n = fread (block, 1, sizeof block, stream)) > 0 && bytes->len <= MOST_BYTES)
    g_string_append_len (bytes, block, (gssize) n);
  *trouble = ferror (stream) ? errno : 0;
  return *trouble == 0;
}

static gboolean
refuse_file (GError **error, const char *file, const char *why)
{
  g_autofree char *near = hob_range_near_word (file);

  if (near != NULL)
    {
      g_set_error (error, HOB_ERROR, HOB_ERROR_UNREADABLE,
                   _("%s:1: can't be read: %s; did you mean '%s'?"), file, why, near);
      return FALSE;
    }
  g_set_error (error, HOB_ERROR, HOB_ERROR_UNREADABLE,
               _("%s:1: can't be read: %s; give the name of a range or a case"), file, why);
  return FALSE;
}

gboolean
hob_range_read_file (const char *file, GString *bytes, GError **error)
{
  FILE *stream = g_fopen (file, "rb");
  gboolean ok;
  int trouble;

  if (stream == NULL)
    return refuse_file (error, file, g_strerror (errno));
  ok = read_stream (stream, bytes, &trouble);
  fclose (stream);
  if (!ok)
    return refuse_file (error, file, g_strerror (trouble));
  return TRUE;
}

HobRange *
hob_range_load (const char *file, GPtrArray *findings, GError **error)
{
  GString *bytes;
  HobRange *range = NULL;

  g_return_val_if_fail (file != NULL, NULL);

  bytes = g_string_new (NULL);
  if (hob_range_read_file (file, bytes, error))
    range = hob_range_load_memory (bytes->str, bytes->len, file, findings, error);
  g_string_free (bytes, TRUE);
  return range;
}
