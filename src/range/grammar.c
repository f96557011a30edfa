/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/i18n.h"
#include "range/grammar-rng.h"
#include "range/tree.h"

#include <libxml/relaxng.h>

/* The grammar is compiled once in a process and never changes. */
static gpointer
compile (gpointer unused)
{
  xmlRelaxNGParserCtxtPtr ctxt
      = xmlRelaxNGNewMemParserCtxt (hob_range_rng, (int) sizeof hob_range_rng);
  xmlRelaxNGPtr grammar = xmlRelaxNGParse (ctxt);

  xmlRelaxNGFreeParserCtxt (ctxt);
  g_assert (grammar != NULL);
  return grammar;
}

typedef struct
{
  const char *file;
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
  finding->text = g_strdup_printf (_("%s; see the grammar range.rng"), what);
  g_ptr_array_add (errors->findings, finding);
}

void
hob_grammar_check (xmlDoc *doc, const char *file, GPtrArray *findings)
{
  static GOnce once = G_ONCE_INIT;
  Errors errors = { file, findings };
  xmlRelaxNGValidCtxtPtr ctxt = xmlRelaxNGNewValidCtxt (g_once (&once, compile, NULL));

  xmlRelaxNGSetValidStructuredErrors (ctxt, on_error, &errors);
  xmlRelaxNGValidateDoc (ctxt, doc);
  xmlRelaxNGFreeValidCtxt (ctxt);
}
