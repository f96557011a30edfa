/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/i18n.h"
#include "range/grammar-rng.h"
#include "range/grammar.h"
#include "range/tree.h"

#include <libxml/relaxng.h>

static gpointer
compile (gpointer data)
{
  const HobGrammar *of = data;
  xmlRelaxNGParserCtxtPtr ctxt = xmlRelaxNGNewMemParserCtxt (of->text, of->size);
  xmlRelaxNGPtr grammar = xmlRelaxNGParse (ctxt);

  xmlRelaxNGFreeParserCtxt (ctxt);
  g_assert (grammar != NULL);
  return grammar;
}

typedef struct
{
  const char *file, *grammar;
  GPtrArray *findings;
} Errors;

static void
on_error (void *data, xmlErrorPtr e)
{
  Errors *errors = data;
  HobFinding *finding = g_new0 (HobFinding, 1);
  g_autofree char *what = g_strdelimit (g_strstrip (g_strdup (e->message)), "\n\r", ' ');

  finding->file = g_strdup (errors->file);
  finding->line = e->node != NULL ? (int) xmlGetLineNo (e->node) : e->line;
  finding->text = g_strdup_printf (_ ("%s; see the grammar in %s"), what, errors->grammar);
  g_ptr_array_add (errors->findings, finding);
}

void
hob_grammar_check_by (HobGrammar *grammar, xmlDoc *doc, const char *file, GPtrArray *findings)
{
  Errors errors = { file, grammar->name, findings };
  xmlRelaxNGValidCtxtPtr ctxt
      = xmlRelaxNGNewValidCtxt (g_once (&grammar->once, compile, grammar));

  xmlRelaxNGSetValidStructuredErrors (ctxt, on_error, &errors);
  xmlRelaxNGValidateDoc (ctxt, doc);
  xmlRelaxNGFreeValidCtxt (ctxt);
}

void
hob_grammar_check (xmlDoc *doc, const char *file, GPtrArray *findings)
{
  static HobGrammar grammar
      = { hob_range_rng, (int) sizeof hob_range_rng, "range.rng", G_ONCE_INIT };

  hob_grammar_check_by (&grammar, doc, file, findings);
}
