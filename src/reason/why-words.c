/* SPDX-License-Identifier: GPL-3.0-or-later */

/* What an entry of a chain says. */
#include "reason/why-search.h"

#include "base/figure.h"
#include "base/i18n.h"
#include "parts/say.h"

#include <math.h>

const HobLinkDef *
hob_why_link_from (const HobKind *kind, int quantity)
{
  for (int k = 0; k < kind->n_links; k++)
    if (kind->links[k].from == quantity)
      return &kind->links[k];
  return NULL;
}

const HobLinkDef *
hob_why_limited_link (const HobKind *kind, int quantity)
{
  for (int k = 0; k < kind->n_links; k++)
    if (kind->links[k].from == quantity && kind->links[k].limit != NULL)
      return &kind->links[k];
  return NULL;
}

/* One of the two is a word and no figure. */
static gboolean
is_never (const HobQuantityDef *def, const HobWhyEntry *e)
{
  return def->never > 0 && (e->value >= def->never || e->should_be >= def->never);
}

static char *
words_of (const HobRange *range, const HobWhyEntry *e)
{
  const HobPart *part = &range->parts[e->part];
  const HobQuantityDef *def = &part->kind->quantities[e->quantity];
  const HobLinkDef *link = hob_why_link_from (part->kind, e->quantity);
  g_autofree char *value = hob_quantity_text_of (def, e->value, 3, &e->fuel);
  g_autofree char *normal = hob_quantity_text_of (def, e->should_be, 3, &e->fuel);
  g_autofree char *sentence = NULL, *limit = NULL, *at = NULL;
  const char *says = link != NULL ? link->words : def->says;

  if (is_never (def, e) || (says == NULL && def->values != NULL))
    /* Translators: a part, one of its quantities, what it is, and what it should be. */
    return g_strdup_printf (_ ("%s, %s: %s, should be %s."), hob_part_label (part),
                            _ (def->words), value, normal);
  if (says == NULL)
    /* Translators: a part, one of its quantities, what it is, and what it is on a normal range. */
    return g_strdup_printf (_ ("%s: %s is %s, should be %s."), hob_part_label (part),
                            _ (def->words), value, normal);
  sentence = hob_words_around (_ (says), value);
  if (!isnan (e->limit))
    {
      limit = hob_quantity_text (def, e->limit, 3);
      at = hob_words_around (_ (hob_why_limited_link (part->kind, e->quantity)->at), limit);
      /* Translators: "Bake valve: The bimetal is at 289 °F. Normal is 423 °F (valve opens at
       * 350 °F)." */
      return g_strdup_printf (_ ("%s: %s Normal is %s (%s)."), hob_part_label (part), sentence,
                              normal, at);
    }
  /* Translators: "Bake valve: The bimetal is at 289 °F. Normal is 423 °F." */
  return g_strdup_printf (_ ("%s: %s Normal is %s."), hob_part_label (part), sentence, normal);
}

/* "Oven door: door gasket torn or missing." */
static char *
act_words_of (const HobRange *range, const HobWhyEntry *e)
{
  g_autofree char *words = hob_act_words (range, &e->act);

  return g_strconcat (words, ".", NULL);
}

char *
hob_why_words (const HobRange *range, const HobWhyEntry *e)
{
  return hob_one_period (e->quantity < 0 ? act_words_of (range, e) : words_of (range, e));
}
