/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "symptoms/pressed.h"

#include "base/i18n.h"
#include "symptoms/symptoms-pressed.h"
#include "symptoms/symptoms-shipped.h"

#include <string.h>

/* How far the tables have been taken. */
typedef struct
{
  const HobPressedCondition *condition;
  const guint8 *kind;
} At;

static GPtrArray *
take_kinds (At *at, int n)
{
  GPtrArray *kinds = n != HOB_PRESSED_NONE ? g_ptr_array_sized_new ((guint) n) : NULL;

  for (int k = 0; k < n; k++)
    g_ptr_array_add (kinds, (gpointer) hob_kinds[*at->kind++]);
  return kinds;
}

static void
take_conditions (At *at, int n, GArray *list)
{
  for (int k = 0; k < n; k++, at->condition++)
    {
      const HobPressedCondition *p = at->condition;
      HobCondition c = { p->subject, take_kinds (at, p->n_kinds), p->measure, p->bound,
                         g_strdup (p->name), g_strdup (p->value), p->limit, p->hold, p->already };

      g_array_append_val (list, c);
    }
}

static char *
translated (const char *text)
{
  return g_strdup (text != NULL && *text != '\0' ? _(text) : text);
}

static HobEntry *
take_entry (At *at, const HobPressedEntry *p)
{
  HobEntry *e = hob_entry_new ();

  e->symptom = p->symptom;
  e->symptom.id = g_strdup (p->symptom.id);
  e->symptom.technician = translated (p->symptom.technician);
  e->symptom.customer = translated (p->symptom.customer);
  e->each = take_kinds (at, p->n_each);
  take_conditions (at, p->n_conditions, e->conditions);
  take_conditions (at, p->n_until, e->until);
  e->times = p->times;
  e->clears_after = p->clears_after;
  return e;
}

HobSymptomBook *
hob_book_shipped (const char *data, gsize size)
{
  At at = { pressed_conditions, pressed_kinds };
  HobSymptomBook *book;

  if (size != sizeof hob_symptoms_shipped || memcmp (data, hob_symptoms_shipped, size) != 0)
    return NULL;
  book = hob_book_new (PRESSED_HASH);
  for (guint k = 0; k < G_N_ELEMENTS (pressed_entries); k++)
    g_ptr_array_add (k < PRESSED_SYMPTOMS ? book->entries : book->hazards,
                     take_entry (&at, &pressed_entries[k]));
  return book;
}
