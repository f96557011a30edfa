/* SPDX-License-Identifier: GPL-3.0-or-later */

#include "reason/occasion.h"

#include <math.h>

/* Times of a procedure at which to read: a while after an act, and where it lasts, later too. */
#define AT_ONCE 1.0   /* s: with nothing done */
#define SHORTEST 10.0 /* s of nothing done, below which nobody reads */
#define LATER 600.0   /* s */
#define LONG 1200.0   /* s of nothing done, from which one reads later and at its end */

static void
add_moment (HobOccasion *o, double t)
{
  t = floor (t);
  g_array_append_val (o->moments, t);
}

/* Between an act at @from and the next at @to. */
static void
add_moments (HobOccasion *o, double from, double to)
{
  double rest = to - from;

  if (rest < SHORTEST)
    return;
  add_moment (o, from + fmin (HOB_OCCASION_SOON, rest / 2));
  if (o->dead || rest < LONG || rest > HOB_OCCASION_LONGEST)
    return;
  add_moment (o, from + LATER);
  add_moment (o, to - 1);
}

/* @base, before anything more is done. */
static HobOccasion *
begin (const HobCase *base, gboolean dead)
{
  HobOccasion *o = g_new0 (HobOccasion, 1);

  o->dead = dead;
  o->acts = hob_case_copy (base);
  if (dead)
    hob_trials_make_dead (o->acts);
  o->first = o->acts->acts->len;
  o->moments = g_array_new (FALSE, FALSE, sizeof (double));
  return o;
}

HobOccasion *
hob_occasion_new (const HobCase *base, const char *procedure, gboolean dead)
{
  HobOccasion *o = begin (base, dead);
  double from = 0;

  if (!hob_procedure_add (o->acts, procedure, &o->until, NULL))
    g_assert_not_reached ();
  o->still = dead && o->acts->acts->len == o->first;
  for (guint k = 0; k < o->acts->acts->len; k++)
    {
      double t = (double) g_array_index (o->acts->acts, HobAct, k).ms / 1000.0;

      add_moments (o, from, t);
      from = t;
    }
  if (o->acts->acts->len == o->first)
    add_moment (o, AT_ONCE);
  if (!o->still)
    add_moments (o, from, o->until);
  if (dead)
    o->until = g_array_index (o->moments, double, o->moments->len - 1);
  return o;
}

/* @base as it goes on, for as long as one waits to read again. */
static HobOccasion *
going_on (const HobCase *base, gboolean dead)
{
  HobOccasion *o = begin (base, dead);
  double last = 0;

  o->still = dead;
  for (guint k = 0; k < base->acts->len; k++)
    last = fmax (last, (double) g_array_index (base->acts, HobAct, k).ms / 1000.0);
  o->until = last + (dead ? AT_ONCE : LONG);
  if (dead)
    add_moment (o, o->until);
  else
    add_moments (o, last, o->until);
  return o;
}

void
hob_occasion_free (HobOccasion *o)
{
  hob_case_free (o->acts);
  g_array_unref (o->moments);
  g_free (o);
}

/* Is it from a blade of a plug to its slot, and the plug is pulled? */
static gboolean
is_pulled_apart (const HobOccasion *o, const HobTest *test)
{
  const HobKind *kind = test->a.part >= 0 ? o->acts->range->parts[test->a.part].kind : NULL;

  if (kind == NULL || test->a.part != test->b.part
      || !hob_terminals_are_mates (kind->terminals, test->a.terminal, test->b.terminal))
    return FALSE;
  for (guint k = 0; k < o->acts->acts->len; k++)
    {
      const HobAct *act = &g_array_index (o->acts->acts, HobAct, k);

      if (act->what == HOB_ACT_CONTROL && act->part == test->a.part
          && kind->controls[act->index].role == HOB_CONTROL_PLUG
          && act->value != kind->controls[act->index].start)
        return TRUE;
    }
  return FALSE;
}

gboolean
hob_occasion_suits (const HobOccasion *o, const HobTest *test)
{
  return o->exchanged || is_pulled_apart (o, test) ? FALSE
         : test->what == HOB_TEST_INSPECT ? o->still
                                          : o->dead == hob_test_is_dead (test);
}

double
hob_occasion_left_alone (const HobOccasion *o, const HobCase *acts)
{
  g_autoptr (HobCase) own = hob_case_effective (o->acts), done = hob_case_effective (acts);
  guint common = hob_case_common (own, done);

  if (common < done->acts->len)
    return -INFINITY;
  return common < own->acts->len
             ? (double) (g_array_index (own->acts, HobAct, common).ms - 1) / 1000.0
             : o->until;
}

HobCase *
hob_occasion_done (const HobOccasion *o, double t, double *next)
{
  HobCase *done = hob_case_new (o->acts->range);

  *next = o->until;
  for (guint k = 0; k < o->acts->acts->len; k++)
    {
      const HobAct *act = &g_array_index (o->acts->acts, HobAct, k);
      double at = (double) act->ms / 1000.0;

      if (at <= t)
        hob_case_add (done, *act);
      else
        *next = fmin (*next, at);
    }
  return done;
}

static gboolean
does (const HobOccasion *o, const HobAct *act)
{
  for (guint k = 0; k < o->acts->acts->len; k++)
    {
      const HobAct *own = &g_array_index (o->acts->acts, HobAct, k);

      if (own->what == act->what && own->part == act->part && own->index == act->index
          && fabs (own->value - act->value) < 1e-9)
        return TRUE;
    }
  return FALSE;
}

/* Does @other do all that @o does?  If nothing is done, only the same counts. */
static gboolean
is_part_of (const HobOccasion *o, const HobOccasion *other, guint made_dead)
{
  guint n = o->acts->acts->len;

  if (n == made_dead)
    return other->acts->acts->len == n;
  for (guint k = 0; k < n; k++)
    if (!does (other, &g_array_index (o->acts->acts, HobAct, k)))
      return FALSE;
  return TRUE;
}

/* Is it part of one that stays?  Of two that do the same the first one stays. */
static gboolean
is_superfluous (const GPtrArray *dead, guint k, guint made_dead)
{
  const HobOccasion *o = dead->pdata[k];

  for (guint i = 0; i < dead->len; i++)
    if (i != k && is_part_of (o, dead->pdata[i], made_dead)
        && (i < k || !is_part_of (dead->pdata[i], o, made_dead)))
      return TRUE;
  return FALSE;
}

GPtrArray *
hob_occasions_going_on (const HobCase *base)
{
  GPtrArray *all = g_ptr_array_new_with_free_func ((GDestroyNotify) hob_occasion_free);

  g_ptr_array_add (all, going_on (base, FALSE));
  g_ptr_array_add (all, going_on (base, TRUE));
  return all;
}

static void
add_exchanges (GPtrArray *all, const HobCase *base)
{
  g_auto (GStrv) names = hob_procedure_exchanges (base->range);

  for (char **name = names; *name != NULL; name++)
    {
      HobOccasion *o = hob_occasion_new (base, *name, FALSE);

      o->exchanged = TRUE;
      g_array_set_size (o->moments, 0);
      g_ptr_array_add (all, o);
    }
}

GPtrArray *
hob_occasions_new (const HobCase *base, char *const *procedures)
{
  GPtrArray *all = g_ptr_array_new_with_free_func ((GDestroyNotify) hob_occasion_free);
  g_autoptr (GPtrArray) dead
      = g_ptr_array_new_with_free_func ((GDestroyNotify) hob_occasion_free);
  g_autoptr (HobCase) unplugged = hob_case_copy (base);

  hob_trials_make_dead (unplugged);
  add_exchanges (all, base);
  for (char *const *name = procedures; *name != NULL; name++)
    {
      g_ptr_array_add (all, hob_occasion_new (base, *name, FALSE));
      g_ptr_array_add (dead, hob_occasion_new (base, *name, TRUE));
    }
  for (guint k = 0; k < dead->len; k++)
    if (!is_superfluous (dead, k, unplugged->acts->len))
      {
        g_ptr_array_add (all, dead->pdata[k]);
        dead->pdata[k] = hob_occasion_new (base, procedures[k], TRUE);
      }
  return all;
}
