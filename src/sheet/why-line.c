/* SPDX-License-Identifier: GPL-3.0-or-later */

#include "sheet/why-line.h"

#include "parts/say.h"
#include "sheet/ruled-line.h"

/* ---- Entries ---- */

static const HobWhy *
chain_of (const HobWhyLine *line, guint i)
{
  return line->chains->pdata[i];
}

/* With the symptom, which ends it; a chain without a part is not drawn. */
static int
length_of (const HobWhy *why)
{
  return why->entries->len > 0 ? (int) why->entries->len + 1 : 0;
}

int
hob_why_line_size (const HobWhyLine *line)
{
  int n = 0;

  for (guint i = 0; i < line->chains->len; i++)
    n += length_of (chain_of (line, i));
  return n;
}

/* The chain that has entry *k, which is counted in that chain from here on. */
static const HobWhy *
find_chain (const HobWhyLine *line, int *k)
{
  for (guint i = 0; i < line->chains->len; i++)
    {
      const HobWhy *why = chain_of (line, i);

      if (*k < length_of (why))
        return why;
      *k -= length_of (why);
    }
  g_assert_not_reached ();
}

/* NULL: the symptom. */
static const HobWhyEntry *
entry_of (const HobWhy *why, int k)
{
  return k < (int) why->entries->len ? &g_array_index (why->entries, HobWhyEntry, (guint) k) : NULL;
}

void
hob_why_line_get (const HobWhyLine *line, int k, int *part, double *t)
{
  const HobWhy *why = find_chain (line, &k);
  const HobWhyEntry *e = entry_of (why, k);

  *part = e != NULL ? e->part : why->part;
  *t = e != NULL ? e->t : why->t;
}

static char *
words_of (const HobWhyLine *line, const HobWhy *why, int k)
{
  const HobWhyEntry *e = entry_of (why, k);

  if (e != NULL)
    return hob_why_words (line->range, e);
  return hob_symptom_words_at (line->symptom,
                               why->part >= 0 ? &line->range->parts[why->part] : NULL);
}

char *
hob_why_line_words (const HobWhyLine *line, int k)
{
  const HobWhy *why = find_chain (line, &k);

  return words_of (line, why, k);
}

/* ---- Drawing ---- */

static GArray *
ruled_entries (const HobWhyLine *line, const HobWhy *why)
{
  GArray *entries = hob_ruled_entries_new ();

  for (int k = 0; k < length_of (why); k++)
    {
      const HobWhyEntry *e = entry_of (why, k);
      int part = e != NULL ? e->part : why->part;
      HobRuledEntry one = { .words = words_of (line, why, k),
                            .time = hob_time_text (e != NULL ? e->t : why->t),
                            .id = part >= 0 ? line->range->parts[part].id : "",
                            .ringed = k == 0 || (e != NULL && e->quantity < 0) };

      g_array_append_val (entries, one);
    }
  return entries;
}

static HobRuledLine
ruled_of (const HobWhyLine *line, const GArray *entries)
{
  return (HobRuledLine){ entries, line->look, line->w, FALSE, { -1, -1, -1 }, NULL };
}

/* Each chain in turn, with its entries and how far down it is. */
typedef gboolean (*Visit) (const HobRuledLine *ruled, double y, int first, gpointer user);

/* Until one says TRUE.  Returns how far down it has come. */
static double
visit (const HobWhyLine *line, Visit each, gpointer user)
{
  double y = 0;
  int first = 0;

  for (guint i = 0; i < line->chains->len; i++)
    {
      const HobWhy *why = chain_of (line, i);
      g_autoptr (GArray) entries = ruled_entries (line, why);
      HobRuledLine ruled = ruled_of (line, entries);

      if (entries->len == 0)
        continue;
      if (each != NULL && each (&ruled, y, first, user))
        break;
      y += hob_ruled_line_height (&ruled);
      first += (int) entries->len;
    }
  return y;
}

double
hob_why_line_height (const HobWhyLine *line)
{
  return visit (line, NULL, NULL);
}

typedef struct
{
  HobPen *pen;
  HobType *type;
} Drawing;

static gboolean
draw_one (const HobRuledLine *ruled, double y, int first, gpointer user)
{
  const Drawing *d = user;

  pen_push (d->pen, 0, y, 0);
  hob_ruled_line_draw (d->pen, d->type, ruled);
  pen_pop (d->pen);
  return FALSE;
}

void
hob_why_line_draw (HobPen *pen, HobType *type, const HobWhyLine *line)
{
  Drawing d = { pen, type };

  visit (line, draw_one, &d);
}

typedef struct
{
  double x, y;
  int k;
} Place;

static gboolean
hit_one (const HobRuledLine *ruled, double y, int first, gpointer user)
{
  Place *place = user;
  int k = hob_ruled_line_hit (ruled, place->x, place->y - y);

  place->k = k >= 0 ? first + k : -1;
  return k >= 0;
}

int
hob_why_line_hit (const HobWhyLine *line, double x, double y)
{
  Place place = { x, y, -1 };

  visit (line, hit_one, &place);
  return place.k;
}

static gboolean
find_one (const HobRuledLine *ruled, double y, int first, gpointer user)
{
  Place *place = user;

  if (place->k >= first + (int) ruled->entries->len)
    return FALSE;
  (void) hob_ruled_line_find (ruled, place->k - first, &place->x, &place->y);
  place->y += y;
  return TRUE;
}

void
hob_why_line_find (const HobWhyLine *line, int k, double *x, double *y)
{
  Place place = { 0, 0, k };

  visit (line, find_one, &place);
  *x = place.x;
  *y = place.y;
}
