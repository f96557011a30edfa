/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "run/case-file.h"

#include "base/errors.h"
#include "base/i18n.h"
#include "base/write-file.h"
#include "range/grammar.h"
#include "range/xml.h"
#include "run/case-rng.h"
#include "run/reading.h"

#include <stdarg.h>
#include <string.h>

/* Far beyond what anybody does in a case; names that are wrong take their time. */
#define MOST_ELEMENTS 10000

/* An element has the name of the option whose value it holds. */
static const struct
{
  const char *name;
  gboolean is_evidence;
  int what; /* HobActWhat or HobEvidenceWhat */
} elements[] = {
  { "do", FALSE, HOB_ACT_CONTROL },
  { "fault", FALSE, HOB_ACT_FAULT },
  { "setting", FALSE, HOB_ACT_SETTING },
  { "seen", TRUE, HOB_EVIDENCE_SEEN },
  { "not-seen", TRUE, HOB_EVIDENCE_NOT_SEEN },
  { "reading", TRUE, HOB_EVIDENCE_READING },
};

HobCaseFile *
hob_case_file_new (HobRange *range, const HobCase *acts)
{
  HobCaseFile *c = g_new0 (HobCaseFile, 1);

  c->range = hob_range_ref (range);
  c->acts = acts != NULL ? hob_case_copy (acts) : hob_case_new (range);
  for (int k = 0; k < HOB_N_EVIDENCE; k++)
    c->evidence[k] = g_ptr_array_new_with_free_func (g_free);
  return c;
}

void
hob_case_file_free (HobCaseFile *c)
{
  if (c == NULL)
    return;
  for (int k = 0; k < HOB_N_EVIDENCE; k++)
    g_ptr_array_unref (c->evidence[k]);
  hob_case_free (c->acts);
  hob_range_unref (c->range);
  g_free (c);
}

/* ---- Findings ---- */

typedef struct
{
  const char *file;    /* borrowed */
  GPtrArray *findings; /* HobFinding *, owned: those of the case alone */
  HobCaseFile *c;      /* NULL where there is no range */
} Reader;

/* A text's own line is the one where it ends. */
static int
line_of (const xmlNode *node)
{
  int line = (int) xmlGetLineNo ((xmlNode *) node);
  const char *text = node->type == XML_TEXT_NODE ? (const char *) node->content : "";

  text += strspn (text, " \t\r\n");
  for (; *text != '\0'; text++)
    line -= *text == '\n';
  return MAX (line, 1);
}

static void find (Reader *r, const xmlNode *node, const char *format, ...) G_GNUC_PRINTF (3, 4);

static void
find (Reader *r, const xmlNode *node, const char *format, ...)
{
  HobFinding *finding = g_new0 (HobFinding, 1);
  va_list args;

  va_start (args, format);
  finding->text = g_strdelimit (g_strdup_vprintf (format, args), "\n\r\t", ' ');
  va_end (args);
  finding->file = g_strdup (r->file);
  finding->line = line_of (node);
  g_ptr_array_add (r->findings, finding);
}

static int
by_line (gconstpointer a, gconstpointer b)
{
  return (*(HobFinding *const *) a)->line - (*(HobFinding *const *) b)->line;
}

/* ---- Elements ---- */

static void
check_attributes (Reader *r, const xmlNode *node, const char *const *names)
{
  for (const xmlAttr *a = node->properties; a != NULL; a = a->next)
    if (a->ns != NULL || !g_strv_contains (names, (const char *) a->name))
      find (r, node, _ ("<%s> can't have the attribute '%s'; remove it"), (const char *) node->name,
            (const char *) a->name);
}

/* "SYMPTOM[ PART][ @ …]" is a look, and "TEST = VALUE UNIT" has its test before the last sign. */
static gboolean
check_evidence (const HobRange *range, HobEvidenceWhat what, const char *text, GError **error)
{
  g_autoptr (HobTest) test = NULL;
  g_autofree char *words = NULL;
  const char *sign = g_strrstr (text, " = ");

  if (what != HOB_EVIDENCE_READING)
    words = g_strconcat ("look ", text, NULL);
  else if (sign != NULL && sign[strspn (sign, " =")] != '\0')
    words = g_strndup (text, (gsize) (sign - text));
  else
    {
      g_set_error (error, HOB_ERROR, HOB_ERROR_USAGE,
                   _ ("'%s' is not a reading; use TEST = VALUE UNIT, such as \"amps "
                      "igniter-bake = 2.7 A\""),
                   text);
      return FALSE;
    }
  test = hob_test_parse (range, words, error);
  return test != NULL;
}

static void
read_element (Reader *r, const xmlNode *node, guint k)
{
  static const char *const names[] = { "value", NULL };
  const char *text = hob_xml_get (node, "value");
  g_autoptr (GError) error = NULL;

  check_attributes (r, node, names);
  if (node->children != NULL)
    find (r, node, _ ("<%s> isn't empty; use <%s value=\"…\"/>"), elements[k].name,
          elements[k].name);
  if (text == NULL)
    find (r, node, _ ("<%s> has no value; use <%s value=\"…\"/>"), elements[k].name,
          elements[k].name);
  if (text == NULL || r->c == NULL)
    return;
  if (!elements[k].is_evidence)
    hob_case_add_argument (r->c->acts, (HobActWhat) elements[k].what, text, &error);
  else if (check_evidence (r->c->range, (HobEvidenceWhat) elements[k].what, text, &error))
    g_ptr_array_add (r->c->evidence[elements[k].what], g_strdup (text));
  if (error != NULL)
    find (r, node, "%s", error->message);
}

static void
read_child (Reader *r, const xmlNode *node)
{
  if (node->type == XML_TEXT_NODE && !xmlIsBlankNode (node))
    find (r, node, _ ("there is text between the elements; remove it"));
  if (node->type != XML_ELEMENT_NODE)
    return;
  for (guint k = 0; k < G_N_ELEMENTS (elements); k++)
    if (strcmp (elements[k].name, (const char *) node->name) == 0)
      {
        read_element (r, node, k);
        return;
      }
  find (r, node,
        _ ("unknown element <%s>; use <setting>, <fault>, <do>, <seen>, <not-seen>, or <reading>"),
        (const char *) node->name);
}

static void
read_seed (Reader *r, const xmlNode *root)
{
  const char *text = hob_xml_get (root, "seed");
  guint64 seed = 0;

  if (text == NULL)
    return;
  if (*text == '\0' || text[strspn (text, "0123456789")] != '\0'
      || !g_ascii_string_to_unsigned (text, 10, 0, G_MAXUINT64, &seed, NULL))
    find (r, root, _ ("the seed '%s' is not a whole number; use digits only"), text);
  else if (r->c != NULL)
    r->c->acts->seed = seed;
}

/* ---- The root ---- */

static gboolean
format_is_known (const Reader *r, const xmlNode *root, GError **error)
{
  const char *text = hob_xml_get (root, "format");
  int line = (int) xmlGetLineNo ((xmlNode *) root);
  guint64 format;

  if (text != NULL && g_ascii_string_to_unsigned (text, 10, 1, HOB_CASE_FORMAT, &format, NULL))
    return TRUE;
  if (text != NULL && *text >= '1' && *text <= '9' && text[strspn (text, "0123456789")] == '\0')
    g_set_error (error, HOB_ERROR, HOB_ERROR_UNREADABLE,
                 _ ("%s:%d: the file is in format %s, but this program reads formats up "
                    "to %d; use a newer version of Hobwright"),
                 r->file, line, text, HOB_CASE_FORMAT);
  else
    g_set_error (error, HOB_ERROR, HOB_ERROR_UNREADABLE,
                 _ ("%s:%d: unknown format '%s'; use format=\"%d\""), r->file, line,
                 text != NULL ? text : "", HOB_CASE_FORMAT);
  return FALSE;
}

/* A path begins where the case file is; a name may be that of a shipped range. (transfer full) */
static char *
range_file (const char *case_file, const char *word)
{
  g_autofree char *folder = g_path_get_dirname (case_file);
  g_autofree char *beside = NULL;

  if (g_path_is_absolute (word))
    return g_strdup (word);
  beside = g_str_equal (folder, ".") ? g_strdup (word) : g_build_filename (folder, word, NULL);
  if (strchr (word, G_DIR_SEPARATOR) != NULL || g_file_test (beside, G_FILE_TEST_EXISTS))
    return g_steal_pointer (&beside);
  return hob_range_locate (word);
}

/* Without a range, only the shapes are checked. */
static void
read_range (Reader *r, const xmlNode *root, GPtrArray *findings, GError **error)
{
  const char *word = hob_xml_get (root, "range");
  g_autofree char *file = NULL;
  g_autoptr (HobRange) range = NULL;

  if (word == NULL || *word == '\0')
    {
      find (r, root, _ ("<case> doesn't name a range; add range=\"FILE\""));
      return;
    }
  file = range_file (r->file, word);
  range = hob_range_load (file, findings, error);
  if (range != NULL)
    r->c = hob_case_file_new (range, NULL);
}

static void
read_document (Reader *r, xmlDoc *doc)
{
  static const char *const names[] = { "format", "range", "seed", NULL };
  static HobGrammar grammar
      = { hob_case_rng, (int) sizeof hob_case_rng, "case.rng", G_ONCE_INIT };
  xmlNode *root = xmlDocGetRootElement (doc);

  if (xmlChildElementCount (root) > MOST_ELEMENTS)
    {
      find (r, root, _ ("the case has more than %d elements; use fewer"), MOST_ELEMENTS);
      return;
    }
  check_attributes (r, root, names);
  if (root->ns != NULL)
    find (r, root, _ ("<case> is in the namespace '%s'; remove xmlns"),
          (const char *) root->ns->href);
  read_seed (r, root);
  for (const xmlNode *node = root->children; node != NULL; node = node->next)
    read_child (r, node);
  if (r->findings->len == 0)
    hob_grammar_check_by (&grammar, doc, r->file, r->findings);
  g_ptr_array_sort (r->findings, by_line);
}

/* The case, or NULL and the first finding. */
static HobCaseFile *
conclude (Reader *r, GPtrArray *findings, GError *of_range, GError **error)
{
  if (r->findings->len > 0)
    {
      g_autofree char *text = hob_finding_text (r->findings->pdata[0]);

      g_clear_pointer (&r->c, hob_case_file_free);
      if (of_range == NULL)
        g_set_error_literal (error, HOB_ERROR, HOB_ERROR_FINDING, text);
    }
  if (of_range != NULL)
    g_propagate_error (error, of_range);
  for (guint i = 0; findings != NULL && i < r->findings->len; i++)
    g_ptr_array_add (findings, g_steal_pointer (&r->findings->pdata[i]));
  return r->c;
}

static HobCaseFile *
load_case (const char *data, gsize size, const char *name, GPtrArray *findings, GError **error)
{
  g_autoptr (GPtrArray) own = g_ptr_array_new_with_free_func ((GDestroyNotify) hob_finding_free);
  Reader r = { .file = name, .findings = own };
  xmlDoc *doc = hob_xml_parse (data, size, name, error);
  HobCaseFile *c = NULL;
  GError *of_range = NULL;

  if (doc == NULL)
    return NULL;
  if (format_is_known (&r, xmlDocGetRootElement (doc), error))
    {
      read_range (&r, xmlDocGetRootElement (doc), findings, &of_range);
      read_document (&r, doc);
      c = conclude (&r, findings, of_range, error);
    }
  xmlFreeDoc (doc);
  return c;
}

/* By its first start tag; a file that is not well-formed is a range's to refuse. */
static gboolean
is_case (const char *data, gsize size)
{
  const char *end = data + size, *p = data;

  while ((p = memchr (p, '<', (gsize) (end - p))) != NULL && end - p > (gssize) strlen ("<case>"))
    {
      if (p[1] != '!' && p[1] != '?')
        return g_str_has_prefix (p, "<case") && strchr (" \t\r\n/>", p[strlen ("<case")]) != NULL;
      p = hob_xml_skip (p, end);
    }
  return FALSE;
}

HobCaseFile *
hob_case_load_memory (const char *data, gsize size, const char *name, GPtrArray *findings,
                      GError **error)
{
  g_autoptr (HobRange) range = NULL;

  if (is_case (data, size))
    return load_case (data, size, name, findings, error);
  range = hob_range_load_memory (data, size, name, findings, error);
  return range != NULL ? hob_case_file_new (range, NULL) : NULL;
}

HobCaseFile *
hob_case_load (const char *file, GPtrArray *findings, GError **error)
{
  GString *bytes = g_string_new (NULL);
  HobCaseFile *c = NULL;

  if (hob_range_read_file (file, bytes, error))
    c = hob_case_load_memory (bytes->str, bytes->len, file, findings, error);
  g_string_free (bytes, TRUE);
  return c;
}

/* ---- Writing ---- */

/* As the case names its range: by its name where it is shipped, by its file's name where that is
 * beside the case, else by the whole path. (transfer full) */
static char *
range_word (const HobRange *range, const char *case_file)
{
  g_autofree char *shipped = hob_range_locate (range->id);
  g_autofree char *name = g_path_get_basename (range->file);
  g_autofree char *folder = g_path_get_dirname (case_file);
  g_autofree char *beside = g_build_filename (folder, name, NULL);

  if (hob_same_file (beside, range->file))
    return g_steal_pointer (&name);
  if (hob_same_file (shipped, range->file))
    return g_strdup (range->id);
  return g_canonicalize_filename (range->file, NULL);
}

static void
append_element (GString *out, const char *name, const char *value)
{
  g_autofree char *escaped = g_markup_escape_text (value, -1);

  g_string_append_printf (out, "  <%s value=\"%s\"/>\n", name, escaped);
}

static void
append_act (GString *out, const HobRange *range, const HobAct *act)
{
  g_autofree char *text = hob_act_argument (range, act);
  int what = act->what == HOB_ACT_LIFT ? HOB_ACT_FAULT : (int) act->what;

  for (guint k = 0; k < G_N_ELEMENTS (elements); k++)
    if (!elements[k].is_evidence && elements[k].what == what)
      append_element (out, elements[k].name, text);
}

GString *
hob_case_text (const HobCaseFile *c, const char *file)
{
  GString *out = g_string_new ("<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n");
  g_autofree char *word = range_word (c->range, file);
  g_autofree char *escaped = g_markup_escape_text (word, -1);

  g_string_append_printf (out, "<case format=\"%d\" range=\"%s\"", HOB_CASE_FORMAT, escaped);
  if (c->acts->seed != 0)
    g_string_append_printf (out, " seed=\"%" G_GUINT64_FORMAT "\"", c->acts->seed);
  g_string_append (out, ">\n");
  for (guint i = 0; i < c->acts->acts->len; i++)
    append_act (out, c->range, &g_array_index (c->acts->acts, HobAct, i));
  for (guint k = 0; k < G_N_ELEMENTS (elements); k++)
    for (guint i = 0; elements[k].is_evidence && i < c->evidence[elements[k].what]->len; i++)
      append_element (out, elements[k].name, c->evidence[elements[k].what]->pdata[i]);
  g_string_append (out, "</case>\n");
  return out;
}

gboolean
hob_case_save (const HobCaseFile *c, const char *file, GError **error)
{
  g_autoptr (GString) text = hob_case_text (c, file);

  return hob_write_file (file, text->str, text->len, error);
}
