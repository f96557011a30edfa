/* SPDX-License-Identifier: GPL-3.0-or-later */

/* What lies between a faulty part and the end of a chain, from the end back.
 *
 * A clamp can't say it of every part.  What an igniter and its valve pass on is their current,
 * which is solved and can't be clamped; and two that are both needed, a valve that opens and an
 * igniter that is hot, don't heal alone.  So each step goes from what differs to what moves it, if
 * that has differed no later: inside a part by the links of its kind, and from part to part by
 * pipe, lead, air, shaft or wire.  Only what leads to a faulty part is a way. */
#include "reason/why-search.h"

#include "run/differ.h"

#include <math.h>
#include <string.h>

/* A way back, and the parts that it has touched. */
typedef struct
{
  const Search *s;
  const GPtrArray *starts; /* Course: where the chain may begin */
  gboolean *touched;       /* of each part */
  GPtrArray *way;          /* Course *, borrowed: from the end on */
} Trace;

static const HobRange *
range_of (const Trace *t)
{
  return hob_bench_range (t->s->bench);
}

static const HobPart *
part_at (const Trace *t, int part)
{
  return &range_of (t)->parts[part];
}

static const HobQuantityDef *
def_of (const Trace *t, const Course *c)
{
  return &part_at (t, c->part)->kind->quantities[c->quantity];
}

/* NULL: @part begins no chain, or only later. */
static const Course *
start_at (const Trace *t, int part, double until)
{
  for (guint k = 0; k < t->starts->len; k++)
    {
      const Course *c = t->starts->pdata[k];

      if (c->part == part && c->since <= until)
        return c;
    }
  return NULL;
}

static gboolean
has_differed (const Trace *t, const Course *c, double until)
{
  return !isnan (c->since) && c->since <= until && !def_of (t, c)->counts && !def_of (t, c)->mark;
}

/* NULL: it has not differed by then. */
static const Course *
course_at (const Trace *t, int part, int quantity, double until)
{
  for (guint k = 0; k < t->s->courses->len; k++)
    {
      const Course *c = t->s->courses->pdata[k];

      if (c->part == part && c->quantity == quantity && has_differed (t, c, until))
        return c;
    }
  return NULL;
}

/* ---- Inside a part ---- */

/* A quantity that has a limit surely moves something where it is on the other side of it than it
 * should be, when the symptom begins. */
static gboolean
crosses (const Trace *t, const HobLinkDef *link, int part)
{
  const HobMoment *now = hob_comparison_now (t->s->comparison);
  const HobMoment *normal = hob_comparison_normal (t->s->comparison);
  double limit;

  if (link->limit == NULL)
    return TRUE;
  limit = link->limit (hob_moment_part (now, part));
  return (hob_moment_quantity (now, part, link->from) >= limit)
         != (hob_moment_quantity (normal, part, link->from) >= limit);
}

/* @surely: no limit speaks against it.  Links of a kind make no circle. */
static const Course *
mover_inside (const Trace *t, int part, int quantity, gboolean surely, double until)
{
  const HobKind *kind = part_at (t, part)->kind;

  for (int k = 0; k < kind->n_links; k++)
    {
      const Course *c = NULL;

      if (kind->links[k].to == quantity && (!surely || crosses (t, &kind->links[k], part)))
        c = course_at (t, part, kind->links[k].from, until);
      if (c != NULL)
        return c;
    }
  return NULL;
}

/* ---- From part to part ---- */

static gboolean
is_gas (HobDimension dim)
{
  return dim == HOB_DIM_MASS_FLOW || dim == HOB_DIM_PRESSURE;
}

/* Does something inside its part move it? */
static gboolean
is_moved (const HobKind *kind, int quantity)
{
  for (int k = 0; k < kind->n_links; k++)
    if (kind->links[k].to == quantity)
      return TRUE;
  return FALSE;
}

/* What @part hands on: a quantity of @dim that has differed.  A temperature that nothing inside
 * moves is taken on, not handed on; through the air comes the gas that one smells.  NULL: none. */
static const Course *
handed_on (const Trace *t, int part, HobDimension dim, gboolean by_air, double until)
{
  for (int q = 0; q < part_at (t, part)->kind->n_quantities; q++)
    {
      const Course *c = course_at (t, part, q, until);

      if (c != NULL && def_of (t, c)->dim == dim
          && (dim != HOB_DIM_TEMPERATURE || is_moved (part_at (t, part)->kind, q))
          && (!is_gas (dim) || by_air == (def_of (t, c)->sense == HOB_SENSE_NOSE)))
        return c;
    }
  return NULL;
}

/* The other end of @line; −1: it doesn't end at @part. */
static int
other_end (const HobLine *line, int part)
{
  if (line->from.part == part)
    return line->to.part;
  return line->to.part == part ? line->from.part : -1;
}

/* The part from which the first pipe comes that ends at @part; −1: none does. */
static int
up_from (const HobRange *range, int part)
{
  for (int k = 0; k < range->n_pipes; k++)
    if (range->pipes[k].to.part == part)
      return range->pipes[k].from.part;
  return -1;
}

/* Up the pipes, by way of parts that say nothing. */
static const Course *
up_the_pipe (const Trace *t, int part, double until)
{
  const HobRange *range = range_of (t);

  for (int left = range->n_parts; left > 0 && (part = up_from (range, part)) >= 0; left--)
    {
      const Course *c;

      if ((c = handed_on (t, part, HOB_DIM_MASS_FLOW, FALSE, until)) != NULL
          || (c = start_at (t, part, until)) != NULL
          || (c = handed_on (t, part, HOB_DIM_PRESSURE, FALSE, until)) != NULL)
        return c;
    }
  return NULL;
}

/* By the leads from what beats. */
static const Course *
along_the_lead (const Trace *t, int part, double until)
{
  const HobRange *range = range_of (t);

  for (int k = 0; k < range->n_leads; k++)
    {
      int other = other_end (&range->leads[k], part);
      const Course *c = other >= 0 ? handed_on (t, other, HOB_DIM_RATE, FALSE, until) : NULL;

      if (c == NULL && other >= 0)
        c = start_at (t, other, until);
      if (c != NULL)
        return c;
    }
  return NULL;
}

/* The part whose air @part is in: the house's if no other.  −1: its own. */
static int
place_of (const Trace *t, int part)
{
  const HobPart *p = part_at (t, part);
  int house = 0;

  if (p->in >= 0 || (p->kind->flags & HOB_KIND_HOUSE))
    return p->in;
  while ((part_at (t, house)->kind->flags & HOB_KIND_HOUSE) == 0)
    house++;
  return house;
}

/* What is in the air of @part, or what @part is in the air of, by quantities of @dim; −1 of any: a
 * part that begins the chain. */
static const Course *
through_the_air (const Trace *t, int part, int dim, double until)
{
  for (int p = 0; p < range_of (t)->n_parts; p++)
    {
      gboolean near = place_of (t, p) == part || place_of (t, part) == p;
      const Course *c = NULL;

      if (near && !t->touched[p])
        c = dim >= 0 ? handed_on (t, p, (HobDimension) dim, TRUE, until) : start_at (t, p, until);
      if (c != NULL)
        return c;
    }
  return NULL;
}

/* Of each part the one through which the search by wire came to it; −1: not yet. */
static void
spread (const Trace *t, int part, int *from, GArray *found)
{
  const HobRange *range = range_of (t);

  for (int k = 0; k < range->n_wires; k++)
    {
      int next = other_end (&range->wires[k], part);

      if (next < 0 || from[next] >= 0 || (part_at (t, next)->kind->flags & HOB_KIND_CHASSIS))
        continue;
      from[next] = part;
      g_array_append_val (found, next);
    }
}

/* What @part has differed by, if its kind says what that moves: its amps, or else whatever has
 * differed last. */
static const Course *
passes_on (const Trace *t, int part, double until)
{
  const Course *last = NULL;

  for (int q = 0; q < part_at (t, part)->kind->n_quantities; q++)
    {
      const Course *c = course_at (t, part, q, until);

      if (c == NULL || hob_why_link_from (part_at (t, part)->kind, q) == NULL)
        continue;
      if (def_of (t, c)->dim == HOB_DIM_CURRENT)
        return c;
      if (last == NULL || c->since > last->since)
        last = c;
    }
  return last;
}

/* What begins the chain at @part, or moves it. */
static const Course *
start_near (const Trace *t, int part, double until)
{
  const Course *c = start_at (t, part, until);

  return c == NULL && part_at (t, part)->moved_by >= 0
             ? start_at (t, part_at (t, part)->moved_by, until)
             : c;
}

/* The nearest part by wire that begins the chain, with what is on the way to it.  FALSE: none. */
static gboolean
by_wire (Trace *t, int part, double until)
{
  g_autofree int *from = g_new (int, (gsize) range_of (t)->n_parts);
  g_autoptr (GArray) found = g_array_new (FALSE, FALSE, sizeof (int));
  const Course *start = NULL;
  int at = part;

  memset (from, -1, sizeof (int) * (gsize) range_of (t)->n_parts);
  from[part] = part;
  g_array_append_val (found, part);
  for (guint k = 0; k < found->len && start == NULL; k++)
    {
      at = g_array_index (found, int, k);
      if (at != part)
        start = start_near (t, at, until);
      spread (t, at, from, found);
    }
  if (start == NULL)
    return FALSE;
  g_array_set_size (found, 0);
  for (at = at == start->part ? from[at] : at; at != part; at = from[at])
    g_array_append_val (found, at);
  for (guint k = found->len; k > 0; k--)
    {
      const Course *c = passes_on (t, g_array_index (found, int, k - 1), until);

      if (c == NULL || c->since < start->since)
        continue;
      g_ptr_array_add (t->way, (gpointer) c);
      until = c->since;
    }
  g_ptr_array_add (t->way, (gpointer) start);
  return TRUE;
}

static gboolean
is_heat (HobDimension dim)
{
  return dim == HOB_DIM_TEMPERATURE || dim == HOB_DIM_DIFFERENCE;
}

/* What comes to @part from another one and moves @quantity. */
static const Course *
mover_outside (const Trace *t, int part, int quantity, double until)
{
  const HobKind *kind = part_at (t, part)->kind;
  HobDimension dim = kind->quantities[quantity].dim;
  const Course *c = NULL;

  if (kind->n_ports > 0 && (is_gas (dim) || kind->n_terminals == 0))
    c = up_the_pipe (t, part, until);
  if (c == NULL)
    c = along_the_lead (t, part, until);
  if (c == NULL && is_heat (dim))
    c = through_the_air (t, part, HOB_DIM_POWER, until);
  if (c == NULL && is_heat (dim))
    c = through_the_air (t, part, HOB_DIM_TEMPERATURE, until);
  if (c == NULL && kind->n_terminals == 0)
    c = through_the_air (t, part, HOB_DIM_RATE, until);
  if (c == NULL && kind->quantities[quantity].sense == HOB_SENSE_NOSE && !is_gas (dim))
    c = through_the_air (t, part, HOB_DIM_MASS_FLOW, until);
  if (c == NULL && dim == HOB_DIM_FRACTION)
    c = through_the_air (t, part, HOB_DIM_FRACTION, until);
  if (c == NULL && part_at (t, part)->moved_by >= 0)
    c = start_at (t, part_at (t, part)->moved_by, until);
  return c != NULL ? c : through_the_air (t, part, -1, until);
}

/* The same gas or pressure at both: told once, where it comes from. */
static gboolean
says_the_same (const Trace *t, const Course *a, const Course *b)
{
  const HobMoment *both[] = { hob_comparison_now (t->s->comparison),
                              hob_comparison_normal (t->s->comparison) };
  HobDimension dim;

  if (a->quantity < 0 || b->quantity < 0)
    return FALSE;
  dim = def_of (t, a)->dim;
  if (def_of (t, b)->dim != dim || !is_gas (dim))
    return FALSE;
  for (guint k = 0; k < G_N_ELEMENTS (both); k++)
    if (hob_differs (hob_moment_quantity (both[k], a->part, a->quantity),
                     hob_moment_quantity (both[k], b->part, b->quantity), dim))
      return FALSE;
  return TRUE;
}

static void
go_back_to (Trace *t, const Course *c)
{
  guint n = t->way->len;

  if (n > 0 && says_the_same (t, t->way->pdata[n - 1], c))
    g_ptr_array_set_size (t->way, (int) n - 1);
  g_ptr_array_add (t->way, (gpointer) c);
}

/* One step back from @part's @quantity.  FALSE: there is none; TRUE with *@done: the chain begins
 * there. */
static gboolean
step (Trace *t, int part, int quantity, double until, gboolean *done)
{
  const Course *c = mover_inside (t, part, quantity, TRUE, until);

  t->touched[part] = TRUE;
  if (c == NULL)
    c = mover_outside (t, part, quantity, until);
  if (c != NULL && c->part != part && t->touched[c->part])
    c = NULL;
  if (c == NULL)
    c = mover_inside (t, part, quantity, FALSE, until);
  if (c == NULL)
    return *done = by_wire (t, part, until);
  go_back_to (t, c);
  *done = start_at (t, c->part, c->since) != NULL;
  return TRUE;
}

GPtrArray *
hob_why_trace (const Search *s, const GPtrArray *starts, const HobWhyEntry *end)
{
  Trace t = { s, starts, g_new0 (gboolean, (gsize) hob_bench_range (s->bench)->n_parts),
              g_ptr_array_new () };
  int part = end->part, quantity = end->quantity;
  double until = end->since;
  gboolean done = FALSE, goes_on = TRUE;

  hob_comparison_read (s->comparison, s->bench->run, hob_bench_should_be (s->bench),
                       hob_why_last_look (s));
  while (goes_on && !done)
    {
      goes_on = step (&t, part, quantity, until, &done);
      if (goes_on && !done)
        {
          const Course *last = t.way->pdata[t.way->len - 1];

          part = last->part;
          quantity = last->quantity;
          until = last->since;
        }
    }
  if (!done)
    g_clear_pointer (&t.way, g_ptr_array_unref);
  g_free (t.touched);
  return t.way;
}
