/* SPDX-License-Identifier: GPL-3.0-or-later */

/* The book of symptoms: data/symptoms.xml, its shapes checked by data/symptoms.rng, its names
 * against the tables of the kinds.  A condition may only look at what a person's senses or a
 * thermometer get. */
#include "symptoms/book.h"

#include "base/errors.h"
#include "base/hash.h"
#include "base/i18n.h"
#include "range/grammar.h"
#include "range/xml.h"
#include "symptoms/symptoms-rng.h"

#include <math.h>
#include <string.h>

/* What is being read, for the sentences that refuse it. */
typedef struct
{
  const char *file;
} Reader;

static gboolean
refuse (const Reader *r, int line, char *sentence, GError **error)
{
  g_strdelimit (sentence, "\n\r\t", ' ');
  g_set_error (error, HOB_ERROR, HOB_ERROR_UNREADABLE, "%s:%d: %s", r->file, line, sentence);
  g_free (sentence);
  return FALSE;
}

/* ---- XML ---- */

/* The first thing that the grammar refuses. */
static gboolean
has_the_shape (xmlDoc *doc, const char *file, GError **error)
{
  static HobGrammar grammar
      = { hob_symptoms_rng, (int) sizeof hob_symptoms_rng, "symptoms.rng", G_ONCE_INIT };
  g_autoptr (GPtrArray) findings
      = g_ptr_array_new_with_free_func ((GDestroyNotify) hob_finding_free);
  const HobFinding *first;

  hob_grammar_check_by (&grammar, doc, file, findings);
  if (findings->len == 0)
    return TRUE;
  first = findings->pdata[0];
  g_set_error (error, HOB_ERROR, HOB_ERROR_UNREADABLE, "%s:%d: %s", first->file, first->line,
               first->text);
  return FALSE;
}

static const xmlNode *
next_element (const xmlNode *node)
{
  while (node != NULL && node->type != XML_ELEMENT_NODE)
    node = node->next;
  return node;
}

/* Words a space apart, whatever stood between them. (transfer full) */
static char *
fold (const char *raw)
{
  char *text = g_new (char, strlen (raw) + 1), *end = text;

  for (; *raw != '\0'; raw++)
    if (!g_ascii_isspace (*raw))
      *end++ = *raw;
    else if (end > text && end[-1] != ' ')
      *end++ = ' ';
  if (end > text && end[-1] == ' ')
    end--;
  *end = '\0';
  return text;
}

/* The sentence in child @name, white space folded, in the person's language; "" if there is none.
 */
static char *
sentence (const xmlNode *parent, const char *name)
{
  for (const xmlNode *n = next_element (parent->children); n != NULL; n = next_element (n->next))
    if (xmlStrEqual (n->name, BAD_CAST name))
      {
        xmlChar *raw = xmlNodeGetContent (n);
        g_autofree char *text = fold ((const char *) raw);

        xmlFree (raw);
        return g_strdup (*text != '\0' ? _(text) : "");
      }
  return g_strdup ("");
}

/* ---- Names ---- */

/* A word names one kind, or all that have a flag. */
static const struct
{
  const char *word;
  HobKindFlags flag;
} groups[] = { { "burner", HOB_KIND_BURNER }, { "igniter", HOB_KIND_IGNITER } };

static gboolean
add_kinds (GPtrArray *kinds, const char *word)
{
  const HobKind *kind = hob_kind_find (word);

  if (kind != NULL)
    {
      g_ptr_array_add (kinds, (gpointer) kind);
      return TRUE;
    }
  for (guint i = 0; i < G_N_ELEMENTS (groups); i++)
    if (g_str_equal (groups[i].word, word))
      {
        for (int k = 0; hob_kinds[k] != NULL; k++)
          if (hob_kinds[k]->flags & groups[i].flag)
            g_ptr_array_add (kinds, (gpointer) hob_kinds[k]);
        return TRUE;
      }
  return FALSE;
}

static GPtrArray *
read_kinds (const Reader *r, const xmlNode *node, const char *list, GError **error)
{
  g_autoptr (GPtrArray) kinds = g_ptr_array_new ();
  g_auto (GStrv) words = g_strsplit (list, " ", -1);

  for (char **w = words; *w != NULL; w++)
    if (**w != '\0' && !add_kinds (kinds, *w))
      {
        g_autofree const char **names = hob_kind_names ();
        const char *near = hob_near_miss (*w, names);

        refuse (r, node->line,
                near != NULL
                    ? g_strdup_printf (_ ("unknown kind '%s'; did you mean '%s'?"), *w, near)
                    : g_strdup_printf (_ ("unknown kind '%s'; see 'hob list kinds'"), *w),
                error);
        return NULL;
      }
  return g_steal_pointer (&kinds);
}

static gboolean
read_time (const Reader *r, const xmlNode *node, const char *name, double *value, GError **error)
{
  const char *text = hob_xml_get (node, name);
  g_autoptr (GError) wrong = NULL;

  *value = 0;
  if (text == NULL || hob_parse_quantity (text, HOB_DIM_TIME, value, &wrong))
    return TRUE;
  return refuse (r, node->line, g_strdup (wrong->message), error);
}

/* ---- Conditions ---- */

static const struct
{
  const char *attribute;
  HobSubject subject;
} subjects[] = {
  { "any", HOB_SUBJECT_ANY },
  { "every", HOB_SUBJECT_EVERY },
  { "within", HOB_SUBJECT_WITHIN },
  { "around", HOB_SUBJECT_AROUND },
};

static gboolean
read_subject (const Reader *r, const xmlNode *node, const HobEntry *entry, HobCondition *c,
              GError **error)
{
  c->subject = hob_xml_get (node, "caller") != NULL ? HOB_SUBJECT_CALLER : HOB_SUBJECT_SELF;
  for (guint i = 0; i < G_N_ELEMENTS (subjects); i++)
    {
      const char *list = hob_xml_get (node, subjects[i].attribute);

      if (list == NULL)
        continue;
      c->subject = subjects[i].subject;
      c->kinds = read_kinds (r, node, list, error);
      if (c->kinds == NULL)
        return FALSE;
    }
  if (entry->each == NULL && c->subject < HOB_SUBJECT_ANY && hob_xml_get (node, "gas") == NULL)
    return refuse (r, node->line,
                   g_strdup (_ ("the condition doesn't say which part it is about; add any= or "
                                "every= to it, or each= to the symptom")),
                   error);
  if (c->subject == HOB_SUBJECT_SELF && entry->each != NULL)
    c->kinds = g_ptr_array_ref (entry->each);
  return TRUE;
}

/* The limit in the unit of the quantity, which all kinds meant must have, and which a sense must
 * reach if @noticed. */
static gboolean
check_quantity (const Reader *r, const xmlNode *node, HobCondition *c, const char *text,
                gboolean noticed, GError **error)
{
  for (guint i = 0; i < c->kinds->len; i++)
    {
      const HobKind *kind = c->kinds->pdata[i];
      int q = hob_kind_quantity (kind, c->name);
      g_autoptr (GError) wrong = NULL;

      if (q < 0)
        return refuse (r, node->line,
                       g_strdup_printf (_ ("kind '%s' has no quantity '%s'; leave that kind "
                                           "out or name another quantity"),
                                        kind->name, c->name),
                       error);
      if (noticed && kind->quantities[q].sense == HOB_SENSE_NONE)
        return refuse (r, node->line,
                       g_strdup_printf (_ ("nobody can see, hear, smell, or feel '%s' (kind: "
                                           "'%s'); use a quantity that a person can sense"),
                                        c->name, kind->name),
                       error);
      if (text != NULL && !hob_parse_quantity (text, kind->quantities[q].dim, &c->limit, &wrong))
        return refuse (r, node->line, g_strdup (wrong->message), error);
    }
  return TRUE;
}

static gboolean
check_control (const Reader *r, const xmlNode *node, const HobCondition *c, GError **error)
{
  for (guint i = 0; c->kinds != NULL && i < c->kinds->len; i++)
    {
      const HobKind *kind = c->kinds->pdata[i];
      int k = hob_kind_control (kind, c->name);
      g_autoptr (GError) wrong = NULL;
      double value;

      if (k < 0)
        return refuse (r, node->line,
                       g_strdup_printf (_ ("kind '%s' has no control '%s'; see 'hob list kinds'"),
                                        kind->name, c->name),
                       error);
      /* Some of several kinds may lack a position; they are then never in it. */
      if (c->kinds->len == 1 && !hob_control_parse (&kind->controls[k], c->value, &value, &wrong))
        return refuse (r, node->line, g_strdup (wrong->message), error);
    }
  return TRUE;
}

/* Which of the attributes that bound a value is there, and its text. */
static const char *
read_bound (const xmlNode *node, HobBound *bound)
{
  static const struct
  {
    const char *attribute;
    HobBound bound;
  } words[] = {
    { "at-least", HOB_BOUND_AT_LEAST }, { "at-most", HOB_BOUND_AT_MOST },
    { "absent", HOB_BOUND_AT_MOST },    { "stands", HOB_BOUND_IS },
    { "stands-not", HOB_BOUND_IS_NOT },
  };

  for (guint i = 0; i < G_N_ELEMENTS (words); i++)
    {
      const char *text = hob_xml_get (node, words[i].attribute);

      *bound = words[i].bound;
      if (text != NULL)
        return g_str_equal (words[i].attribute, "absent") ? NULL : text;
    }
  return NULL;
}

#define NOTHING 1e-12 /* SI: "absent" is less than this */

static gboolean
read_measure (const Reader *r, const xmlNode *node, HobCondition *c, gboolean noticed,
              GError **error)
{
  const char *asked = hob_xml_get (node, "asked"), *quantity = hob_xml_get (node, "quantity");
  const char *text = read_bound (node, &c->bound);

  if (asked != NULL)
    {
      c->measure = HOB_MEASURE_ASKED;
      c->bound = g_str_equal (asked, "yes") ? HOB_BOUND_AT_LEAST : HOB_BOUND_AT_MOST;
      c->limit = 0.5;
      return TRUE;
    }
  if (hob_xml_get (node, "gas") != NULL)
    {
      c->measure = HOB_MEASURE_GRAVITY;
      c->bound = HOB_BOUND_AT_LEAST;
      c->limit = 1;
      return TRUE;
    }
  if (quantity != NULL)
    {
      c->measure = HOB_MEASURE_QUANTITY;
      c->name = g_strdup (quantity);
      c->limit = NOTHING;
      if (c->kinds == NULL)
        return refuse (r, node->line, g_strdup (_ ("a condition on a quantity must name a kind of "
                                                   "part; add any= or every=")),
                       error);
      return check_quantity (r, node, c, text, noticed, error);
    }
  c->measure = HOB_MEASURE_CONTROL;
  c->name = g_strdup (hob_xml_get (node, "control") != NULL ? hob_xml_get (node, "control") : "");
  c->value = g_strdup (text);
  return check_control (r, node, c, error);
}

static void
clear_condition (gpointer item)
{
  HobCondition *c = item;

  g_clear_pointer (&c->kinds, g_ptr_array_unref);
  g_free (c->name);
  g_free (c->value);
}

/* Into @list, one of the entry's two. */
static gboolean
read_condition (const Reader *r, const xmlNode *node, const HobEntry *entry, GArray *list,
                GError **error)
{
  HobCondition c = { 0 };

  if (!read_subject (r, node, entry, &c, error)
      || !read_measure (r, node, &c, entry->symptom.id != NULL, error)
      || !read_time (r, node, "for", &c.hold, error))
    {
      clear_condition (&c);
      return FALSE;
    }
  c.already = hob_xml_get (node, "already") != NULL;
  g_array_append_val (list, c);
  return TRUE;
}

/* ---- The book ---- */

static void
free_entry (gpointer item)
{
  HobEntry *e = item;

  g_free ((char *) e->symptom.id);
  g_free ((char *) e->symptom.technician);
  g_free ((char *) e->symptom.customer);
  g_clear_pointer (&e->each, g_ptr_array_unref);
  g_array_unref (e->conditions);
  g_array_unref (e->until);
  g_free (e);
}

HobEntry *
hob_entry_new (void)
{
  HobEntry *e = g_new0 (HobEntry, 1);

  e->symptom.less = e->symptom.passes = -1;
  e->conditions = g_array_new (FALSE, FALSE, sizeof (HobCondition));
  g_array_set_clear_func (e->conditions, clear_condition);
  e->until = g_array_new (FALSE, FALSE, sizeof (HobCondition));
  g_array_set_clear_func (e->until, clear_condition);
  return e;
}

HobSymptomBook *
hob_book_new (guint64 hash)
{
  HobSymptomBook *book = g_new0 (HobSymptomBook, 1);

  g_atomic_ref_count_init (&book->refs);
  book->entries = g_ptr_array_new_with_free_func (free_entry);
  book->hazards = g_ptr_array_new_with_free_func (free_entry);
  book->hash = hash;
  return book;
}

HobSymptomBook *
hob_symptom_book_ref (HobSymptomBook *book)
{
  g_atomic_ref_count_inc (&book->refs);
  return book;
}

void
hob_symptom_book_unref (HobSymptomBook *book)
{
  if (book == NULL || !g_atomic_ref_count_dec (&book->refs))
    return;
  g_clear_pointer (&book->entries, g_ptr_array_unref);
  g_clear_pointer (&book->hazards, g_ptr_array_unref);
  g_free (book);
}

const HobEntry *
hob_symptom_book_entry (const HobSymptomBook *book, int index)
{
  return book->entries->pdata[index];
}

int
hob_symptom_book_find (const HobSymptomBook *book, const char *id)
{
  for (guint i = 0; i < book->entries->len; i++)
    if (g_str_equal (hob_symptom_book_entry (book, (int) i)->symptom.id, id))
      return (int) i;
  return -1;
}

static gboolean
read_hazards (const Reader *r, const xmlNode *node, const char *name, HobHazards *hazards,
              GError **error)
{
  const char *text = hob_xml_get (node, name);
  g_autofree char *unknown = NULL;

  *hazards = hob_hazards_parse (text != NULL ? text : "", &unknown);
  if (unknown == NULL)
    return TRUE;
  return refuse (r, node->line,
                 g_strdup_printf (_ ("unknown hazard '%s'; see 'hob list hazards'"), unknown),
                 error);
}

const HobWithWord hob_withs[HOB_N_WITHS] = {
  { "thermometer", HOB_WITH_THERMOMETER, HOB_MEANS_THERMOMETER, N_ ("measure with a thermometer") },
  { "bottom-out", HOB_WITH_BOTTOM_OUT, HOB_MEANS_LOOK, N_ ("look with the oven bottom out") },
  { "panel-out", HOB_WITH_PANEL_OUT, HOB_MEANS_INSPECT_INSIDE,
    N_ ("look with the access panel off") },
  { "alarm", HOB_WITH_ALARM, HOB_MEANS_LOOK, N_ ("noticed only with a carbon monoxide alarm") },
  { "meter", HOB_WITH_METER, HOB_MEANS_LIVE_VOLTS, N_ ("measure with a meter") },
};

static gboolean
add_with (guint *with, const char *word)
{
  for (guint i = 0; i < HOB_N_WITHS; i++)
    if (g_str_equal (hob_withs[i].word, word))
      {
        *with |= hob_withs[i].bit;
        return TRUE;
      }
  return FALSE;
}

/* (transfer full) */
static char *
with_words (void)
{
  GString *all = g_string_new (NULL);

  for (guint i = 0; i < HOB_N_WITHS; i++)
    g_string_append_printf (all, "%s%s", i > 0 ? ", " : "", hob_withs[i].word);
  return g_string_free (all, FALSE);
}

static gboolean
refuse_with (const Reader *r, const xmlNode *node, const char *word, GError **error)
{
  g_autofree char *all = with_words ();

  return refuse (r, node->line,
                 g_strdup_printf (_ ("'%s' is not a valid value for 'with'; use one of: %s"), word,
                                  all),
                 error);
}

static gboolean
read_with (const Reader *r, const xmlNode *node, guint *with, GError **error)
{
  const char *text = hob_xml_get (node, "with");
  g_auto (GStrv) words = g_strsplit (text != NULL ? text : "", " ", -1);

  for (char **w = words; *w != NULL; w++)
    if (**w != '\0' && !add_with (with, *w))
      return refuse_with (r, node, *w, error);
  return TRUE;
}

static gboolean
read_conditions (const Reader *r, const xmlNode *node, HobEntry *e, GError **error)
{
  const char *each = hob_xml_get (node, "each"), *times = hob_xml_get (node, "times");

  e->times = times != NULL ? (int) g_ascii_strtoll (times, NULL, 10) : 1;
  if (each != NULL && (e->each = read_kinds (r, node, each, error)) == NULL)
    return FALSE;
  if (!read_time (r, node, "clears-after", &e->clears_after, error))
    return FALSE;
  for (const xmlNode *n = next_element (node->children); n != NULL; n = next_element (n->next))
    {
      gboolean begins = xmlStrEqual (n->name, BAD_CAST "condition");

      if ((begins || xmlStrEqual (n->name, BAD_CAST "until"))
          && !read_condition (r, n, e, begins ? e->conditions : e->until, error))
        return FALSE;
    }
  return TRUE;
}

static gboolean
read_hazard (HobSymptomBook *book, const Reader *r, const xmlNode *node, GError **error)
{
  HobEntry *e = hob_entry_new ();

  g_ptr_array_add (book->hazards, e);
  return read_hazards (r, node, "is", &e->symptom.hazards, error)
         && read_conditions (r, node, e, error);
}

static gboolean
read_symptom (HobSymptomBook *book, const Reader *r, const xmlNode *node, GError **error)
{
  HobEntry *e = hob_entry_new ();
  const char *id = hob_xml_get (node, "id");

  e->symptom.id = g_strdup (id);
  e->symptom.technician = sentence (node, "technician");
  e->symptom.customer = sentence (node, "customer");
  if (hob_symptom_book_find (book, id) >= 0)
    {
      free_entry (e);
      return refuse (r, node->line,
                     g_strdup_printf (_ ("there are two symptoms named '%s'; rename one"), id),
                     error);
    }
  g_ptr_array_add (book->entries, e);
  return read_hazards (r, node, "hazards", &e->symptom.hazards, error)
         && read_with (r, node, &e->symptom.with, error) && read_conditions (r, node, e, error);
}

/* The other symptom that an attribute names; −1: none. */
static gboolean
read_other (const HobSymptomBook *book, const Reader *r, const xmlNode *node, const char *attribute,
            int own, int *other, GError **error)
{
  const char *id = hob_xml_get (node, attribute);

  *other = id != NULL ? hob_symptom_book_find (book, id) : -1;
  if (id != NULL && (*other < 0 || *other == own))
    return refuse (r, node->line,
                   g_strdup_printf (_ ("'%s' isn't the id of another symptom in this file; use one "
                                       "that is"), id), error);
  return TRUE;
}

/* How @own stands to other symptoms. */
static gboolean
read_degree (HobSymptomBook *book, const Reader *r, const xmlNode *node, int own, GError **error)
{
  HobSymptom *s = &((HobEntry *) book->entries->pdata[own])->symptom;

  return read_other (book, r, node, "more-than", own, &s->less, error)
         && read_other (book, r, node, "passes", own, &s->passes, error);
}

static gboolean
read_degrees (HobSymptomBook *book, const Reader *r, const xmlNode *root, GError **error)
{
  int own = 0;

  for (const xmlNode *n = next_element (root->children); n != NULL; n = next_element (n->next))
    if (xmlStrEqual (n->name, BAD_CAST "symptom")
        && !read_degree (book, r, n, own++, error))
      return FALSE;
  return TRUE;
}

static gboolean
read_book (HobSymptomBook *book, const Reader *r, xmlDoc *doc, GError **error)
{
  const xmlNode *root = xmlDocGetRootElement (doc);

  for (const xmlNode *n = next_element (root->children); n != NULL; n = next_element (n->next))
    if (xmlStrEqual (n->name, BAD_CAST "hazard") ? !read_hazard (book, r, n, error)
                                                 : !read_symptom (book, r, n, error))
      return FALSE;
  return read_degrees (book, r, root, error);
}

HobSymptomBook *
hob_book_read (const char *file, const char *data, gsize size, GError **error)
{
  Reader r = { .file = file };
  g_autoptr (HobSymptomBook) book = hob_book_new (hob_hash_block (data, size));
  xmlDoc *doc = hob_xml_parse (data, size, file, error);
  gboolean good = FALSE;

  if (doc == NULL)
    return NULL;
  good = has_the_shape (doc, file, error) && read_book (book, &r, doc, error);
  g_clear_pointer (&doc, xmlFreeDoc);
  return good ? g_steal_pointer (&book) : NULL;
}
