/* SPDX-License-Identifier: GPL-3.0-or-later */

/* What a picture says in words: its moment for the title block, and what happened until then. */

#include "sheet/facts.h"
#include "base/i18n.h"
#include "base/figure.h"
#include "parts/say.h"
#include "parts/severity.h"
#include "run/differ.h"
#include "sheet/differences.h"
#include <math.h>
#include <string.h>

#define MOST 8        /* acts and symptoms that are listed; the latest */

/* ---- Events in words ---- */

char *
hob_event_words (const HobRun *run, const HobEvent *event, const HobSymptomBook *book)
{
  const HobRange *range = hob_plan_range (hob_run_plan (run));
  const HobPart *part = event->part >= 0 ? &range->parts[event->part] : NULL;
  g_autofree char *words = NULL;

  switch (event->what)
    {
    case HOB_EVENT_ACT:
      return hob_act_words (range, &g_array_index (hob_run_case (run)->acts, HobAct, event->index));
    case HOB_EVENT_CHANGE:
      return hob_event_text (run, event);
    case HOB_EVENT_HAZARD:
    case HOB_EVENT_HAZARD_END:
      return NULL;
    case HOB_EVENT_SYMPTOM:
    case HOB_EVENT_SYMPTOM_END:
    default:
      if (book == NULL)
        return NULL;
      words = hob_symptom_words (hob_symptom_book_get (book, event->index), part);
      return event->what == HOB_EVENT_SYMPTOM ? g_steal_pointer (&words)
                                              /* Translators: a symptom that is no longer there. */
                                              : g_strdup_printf (_ ("Ended: %s"), words);
    }
}

/* ---- The facts ---- */

static void
clear_fact (gpointer item)
{
  g_free (((HobFact *) item)->text);
}

/* Takes @text; an empty one is left out. */
static void
add (HobFacts *facts, const char *heading, char *text)
{
  const HobFact fact = { heading, text };

  if (text == NULL || *text == '\0')
    g_free (text);
  else
    g_array_append_val (facts->list, fact);
}

static const char *
fuel_words (HobFuelName fuel)
{
  return fuel == HOB_FUEL_LP ? _ ("LP gas") : _ ("natural gas");
}

/* NULL: not a condition that a title block names. */
static char *
condition_words (const HobSettingDef *setting, double value)
{
  g_autofree char *amount = NULL;

  if (setting->of == HOB_SETTING_FUEL)
    return g_strdup (fuel_words ((HobFuelName) value));
  if (setting->of != HOB_SETTING_NOMINAL || (value == 0 && setting->normal == 0))
    return NULL;
  amount = hob_said_text (setting->say, value, setting->dim,
                          setting->dim == HOB_DIM_VOLTAGE ? 3 : 2);
  return setting->titled != NULL ? hob_words_around (_ (setting->titled), amount)
                                 : g_steal_pointer (&amount);
}

/* What the house should supply, if it doesn't: volts and fuel.  The weather is never wrong. NULL:
 * nothing is wrong. */
static char *
should_be_words (const HobSettingDef *setting, HobFuelName plate, double value, double filed)
{
  double nominal = hob_setting_nominal (setting, plate, filed);

  if (setting->dim != HOB_DIM_VOLTAGE && setting->of != HOB_SETTING_FUEL)
    return NULL;
  return hob_differs (value, nominal, setting->dim) ? condition_words (setting, nominal) : NULL;
}

/* Nominal conditions of the house as they are now: volts, temperature, humidity, fuel. */
static char *
house_words (const HobRange *range, const HobMoment *m)
{
  GString *words = g_string_new (NULL);

  for (int p = 0; p < range->n_parts; p++)
    for (int k = 0; k < range->parts[p].kind->n_settings; k++)
      {
        const HobSettingDef *setting = &range->parts[p].kind->settings[k];
        double value = hob_moment_part (m, p)->set[k];
        g_autofree char *text = condition_words (setting, value), *normal = NULL;

        if (text == NULL)
          continue;
        normal = should_be_words (setting, range->plate, value, range->parts[p].set[k]);
        g_string_append_printf (words, "%s%s", words->len > 0 ? "; " : "", text);
        if (normal != NULL)
          /* Translators: after a setting of the house: "110 V, should be 120 V". */
          g_string_append_printf (words, _ (", should be %s"), normal);
      }
  return g_string_free (words, FALSE);
}

char *
hob_house_off_words (const HobRange *range, const HobMoment *m)
{
  GString *words = g_string_new (NULL);

  for (int p = 0; p < range->n_parts; p++)
    for (int k = 0; k < range->parts[p].kind->n_settings; k++)
      {
        const HobSettingDef *setting = &range->parts[p].kind->settings[k];
        double value = hob_moment_part (m, p)->set[k];
        g_autofree char *is = condition_words (setting, value),
                        *normal = is != NULL ? should_be_words (setting, range->plate, value,
                                                                range->parts[p].set[k])
                                             : NULL;

        if (normal == NULL)
          continue;
        /* Translators: the part that supplies it, what there is, and what there should be. */
        g_string_append (words, words->len > 0 ? "; " : "");
        g_string_append_printf (words, _ ("%s: %s, should be %s"),
                                hob_part_label (&range->parts[p]), is, normal);
      }
  return g_string_free (words, words->len == 0);
}

/* Every fault of the range now, numbered as the tags are: a number for each part. */
static char *
fault_words (const HobRange *range, const HobMoment *m)
{
  GString *words = g_string_new (NULL);
  int number = 0;

  for (int p = 0; p < range->n_parts; p++)
    {
      const HobKind *kind = range->parts[p].kind;
      gboolean first = TRUE;

      for (int k = 0; k < kind->n_faults; k++)
        {
          double severity = hob_moment_fault (m, p, k);
          g_autofree char *amount = NULL;

          if (isnan (severity))
            continue;
          number += first;
          amount = hob_fault_severity_text (kind, &kind->faults[k], severity);
          if (first)
            g_string_append_printf (words, "%s%d %s: ", words->len > 0 ? "; " : "", number,
                                    hob_part_label (&range->parts[p]));
          g_string_append_printf (words, "%s%s%s%s", first ? "" : ", ", _ (kind->faults[k].words),
                                  amount != NULL ? ", " : "", amount != NULL ? amount : "");
          first = FALSE;
        }
    }
  if (number == 0)
    g_string_append (words, _ ("none"));
  return g_string_free (words, FALSE);
}

/* The latest of some lines, and how many there were before. (takes them) */
static char *
latest (GPtrArray *lines)
{
  guint left_out = lines->len > MOST ? lines->len - MOST : 0;
  GString *words = g_string_new (NULL);

  if (left_out > 0)
    /* Translators: how many earlier ones a list leaves out. */
    g_string_append_printf (words, _ ("(%u earlier)"), left_out);
  for (guint k = left_out; k < lines->len; k++)
    g_string_append_printf (words, "%s%s", words->len > 0 ? "; " : "", (char *) lines->pdata[k]);
  g_ptr_array_unref (lines);
  return g_string_free (words, FALSE);
}

gboolean
hob_event_is_covered (const HobRun *run, const HobEvent *event)
{
  const HobRange *range = hob_plan_range (hob_run_plan (run));
  const HobAct *act;

  if (event->what == HOB_EVENT_CHANGE)
    return FALSE;
  if (event->what != HOB_EVENT_ACT)
    return TRUE;
  act = &g_array_index (hob_run_case (run)->acts, HobAct, event->index);
  return act->what == HOB_ACT_FAULT || act->what == HOB_ACT_LIFT
         || (act->what == HOB_ACT_SETTING
             && range->parts[act->part].kind->settings[act->index].of == HOB_SETTING_APPLIANCE);
}

/* A fault from the start was not done, and is listed with the faults. */
static gboolean
is_left_out (const HobRun *run, const HobEvent *event, gboolean cover)
{
  const HobAct *act = &g_array_index (hob_run_case (run)->acts, HobAct, event->index);

  return (act->what == HOB_ACT_FAULT && act->ms <= 0)
         || (cover && hob_event_is_covered (run, event));
}

static char *
acts_words (const HobBench *bench, double t, gboolean cover)
{
  GPtrArray *lines = g_ptr_array_new_with_free_func (g_free);
  guint first, n = hob_run_events (bench->run, -1, t, &first);

  for (guint k = first; k < first + n; k++)
    {
      const HobEvent *event = hob_run_event (bench->run, k);
      g_autofree char *words = NULL, *time = NULL;

      if (event->what != HOB_EVENT_ACT
          || is_left_out (bench->run, event, cover))
        continue;
      words = hob_event_words (bench->run, event, bench->book);
      time = hob_time_text (event->t);
      g_ptr_array_add (lines, g_strdup_printf ("%s %s", time, words));
    }
  return latest (lines);
}

/* Does the symptom that @begun began end by the event @last? */
static gboolean
has_ended (const HobRun *run, guint begun, guint last)
{
  const HobEvent *b = hob_run_event (run, begun);

  for (guint k = begun + 1; k <= last; k++)
    {
      const HobEvent *e = hob_run_event (run, k);

      if (e->what == HOB_EVENT_SYMPTOM_END && e->index == b->index && e->part == b->part)
        return TRUE;
    }
  return FALSE;
}

/* Places of the events that began the symptoms present at t. (transfer full) */
static GArray *
symptoms_at (const HobRun *run, double t)
{
  GArray *present = g_array_new (FALSE, FALSE, sizeof (guint));
  guint first, n = hob_run_events (run, -1, t, &first);

  for (guint k = first; k < first + n; k++)
    if (hob_run_event (run, k)->what == HOB_EVENT_SYMPTOM && !has_ended (run, k, first + n - 1))
      g_array_append_val (present, k);
  return present;
}

static char *
symptom_words (const HobBench *bench, double t)
{
  g_autoptr (GArray) present = symptoms_at (bench->run, t);
  GPtrArray *lines = g_ptr_array_new_with_free_func (g_free);

  for (guint k = 0; k < present->len; k++)
    {
      const HobEvent *event = hob_run_event (bench->run, g_array_index (present, guint, k));
      g_autofree char *words = hob_event_words (bench->run, event, bench->book);

      g_ptr_array_add (lines, event->part >= 0
                                  ? g_strdup_printf (_ ("%s: %s"),
                                                     hob_part_label (&hob_bench_range (bench)
                                                                          ->parts[event->part]),
                                                     words)
                                  : g_strdup (words));
    }
  return lines->len > 0 ? latest (lines)
                        : (g_ptr_array_unref (lines), g_strdup (_ ("none")));
}

/* ---- What differs ---- */

#define MOST_DIFFERENCES 6

typedef struct
{
  int quantity;
  GString *labels; /* owned: of all parts that differ in the same way */
  char *text;      /* owned: "2.7 A, should be 3.5 A" */
} Difference;

static void
clear_difference (gpointer item)
{
  Difference *d = item;

  g_string_free (d->labels, TRUE);
  g_free (d->text);
}

/* What is said of a part: its figure, or else what its figure doesn't say; −1: nothing. */
static int
differing_quantity (const HobComparison *c, const HobKind *kind, int part, gboolean seen,
                    double *should_be)
{
  if (kind->observe == NULL)
    return -1;
  if (kind->figure >= 0 && hob_comparison_quantity (c, part, kind->figure, should_be))
    return kind->figure;
  return hob_difference_next (c, kind, part, seen, should_be);
}

static void
add_difference (GArray *list, const HobRange *range, const HobComparison *c, int part,
                gboolean seen)
{
  const HobPart *p = &range->parts[part];
  double should_be;
  int quantity = differing_quantity (c, p->kind, part, seen, &should_be);
  Difference d = { quantity, NULL, NULL };

  if (quantity < 0)
    return;
  d.text = hob_figures_text (&p->kind->quantities[quantity],
                             hob_moment_quantity (hob_comparison_now (c), part, quantity),
                             should_be);
  for (guint k = 0; k < list->len; k++)
    {
      Difference *other = &g_array_index (list, Difference, k);

      if (other->quantity == quantity && strcmp (other->text, d.text) == 0)
        {
          g_string_append_printf (other->labels, ", %s", hob_part_label (p));
          g_free (d.text);
          return;
        }
    }
  d.labels = g_string_new (hob_part_label (p));
  if (quantity != p->kind->figure)
    g_string_append_printf (d.labels, " (%s)", _ (p->kind->quantities[quantity].words));
  g_array_append_val (list, d);
}

/* What misbehaves by itself comes first; of all else what an eye could find, or what any sense or
 * instrument could (@any). */
static char *
difference_words (const HobRange *range, HobComparison *c, gboolean any)
{
  g_autoptr (GArray) list = g_array_new (FALSE, FALSE, sizeof (Difference));
  GString *words = g_string_new (NULL);
  gboolean shows = hob_comparison_shows (c);

  g_array_set_clear_func (list, clear_difference);
  for (int culprits = 1; culprits >= 0; culprits--)
    for (int k = 0; k < range->n_parts && shows; k++)
      if (hob_comparison_culprit (c, k, NULL) == (gboolean) culprits)
        add_difference (list, range, c, k, !culprits && !any);
  for (guint k = 0; k < MIN (list->len, MOST_DIFFERENCES); k++)
    {
      const Difference *d = &g_array_index (list, Difference, k);

      g_string_append (words, k > 0 ? "; " : "");
      g_string_append_printf (words, _ ("%s: %s"), d->labels->str, d->text);
    }
  if (list->len > MOST_DIFFERENCES)
    /* Translators: how many a list leaves out. */
    g_string_append_printf (words, _ ("; and %u more"), list->len - MOST_DIFFERENCES);
  return g_string_free (words, FALSE);
}

#define AROUND_TIME 600.0 /* s: how much earlier or later an oven may be as hot */
#define AROUND_STEP 30.0
#define AROUND_HEAT 10.0  /* K */

/* How hot the oven is, if a normal one, used in the same way in such a kitchen, is never so within
 * ten minutes. */
static void
append_heat (GString *words, HobBench *bench, int part, double t)
{
  const HobPart *p = &hob_bench_range (bench)->parts[part];
  g_autoptr (HobMoment) m = hob_bench_moment_new (bench);
  HobRun *twin = hob_bench_twin (bench);
  double low = INFINITY, high = -INFINITY, now, usual, cooler, kitchen;
  g_autofree char *is = NULL, *from = NULL, *to = NULL;

  hob_run_advance (twin, t + AROUND_TIME, NULL);
  hob_run_read (bench->run, t, m);
  now = hob_moment_quantity (m, part, p->kind->figure);
  kitchen = hob_moment_house (m)->temperature;
  for (double s = fmax (0, t - AROUND_TIME); s <= t + AROUND_TIME; s += AROUND_STEP)
    {
      hob_run_read (twin, s, m);
      usual = hob_moment_quantity (m, part, p->kind->figure);
      cooler = usual + kitchen - hob_moment_house (m)->temperature; /* as long as it is off */
      low = fmin (low, fmin (usual, cooler));
      high = fmax (high, fmax (usual, cooler));
    }
  if (now > low - AROUND_HEAT && now < high + AROUND_HEAT)
    return;
  is = hob_person_text (now, HOB_DIM_TEMPERATURE, 2);
  from = hob_person_text (low, HOB_DIM_TEMPERATURE, 2);
  to = hob_person_text (high, HOB_DIM_TEMPERATURE, 2);
  /* Translators: "Oven cavity: 310 °F, should be 340 °F to 380 °F by now". */
  g_string_append (words, words->len > 0 ? "; " : "");
  g_string_append_printf (words, _ ("%s: %s, should be %s to %s by now"),
                          hob_part_label (p), is, from, to);
}

static gboolean
is_oven (const HobKind *kind)
{
  return (kind->flags & HOB_KIND_PLACE) != 0 && (kind->flags & HOB_KIND_HOUSE) == 0
         && kind->figure >= 0 && kind->quantities[kind->figure].dim == HOB_DIM_TEMPERATURE;
}

/* What differs on a wire: its volts, or else its current. NULL: neither does. (transfer full) */
static char *
wire_words (const HobComparison *c, HobEnd from, int wire)
{
  static const HobQuantityDef volts = { .dim = HOB_DIM_VOLTAGE }, amps = { .dim = HOB_DIM_CURRENT };
  const HobMoment *now = hob_comparison_now (c);
  double should_be;

  if (hob_comparison_volts (c, from, &should_be))
    return hob_figures_text (&volts, hob_complex_abs (hob_moment_volts (now, from)), should_be);
  if (hob_comparison_current (c, wire, &should_be))
    return hob_figures_text (&amps, hob_complex_abs (hob_moment_wire_current (now, wire)),
                             should_be);
  return NULL;
}

/* Volts or amperes that differ on one wire or several where nothing else does: a drop that a normal
 * part gets by with, or current on a wire that should have none. */
static void
append_wires (GString *words, const HobRange *range, const HobComparison *c)
{
  g_autoptr (GHashTable) said = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);

  for (int k = 0; k < range->n_wires && g_hash_table_size (said) < MOST_DIFFERENCES; k++)
    {
      const HobLine *wire = &range->wires[k];
      g_autofree char *title = NULL;
      char *text = wire_words (c, wire->from, k);

      if (text == NULL || !g_hash_table_add (said, text))
        continue;
      title = hob_wire_title (range, wire);
      g_string_append (words, words->len > 0 ? "; " : "");
      g_string_append_printf (words, _ ("%s: %s"), title, text);
    }
}

/* What misbehaves though nothing can be read of it now. */
static void
append_unread (GString *words, const HobRange *range, HobComparison *c)
{
  g_autoptr (GString) labels = g_string_new (NULL);

  for (int k = 0; k < range->n_parts && hob_comparison_has_shown (c); k++)
    if (hob_comparison_culprit (c, k, NULL))
      g_string_append_printf (labels, "%s%s", labels->len > 0 ? ", " : "",
                              hob_part_label (&range->parts[k]));
  if (labels->len > 0)
    /* Translators: what differs from normal; parts that are not as they should be. */
    g_string_append_printf (words, _ ("all readings are normal now, but these parts are not: "
                                      "%s"), labels->str);
}

/* All that a person could find other than in a normal range, whatever the reason. */
static char *
differing_words (HobBench *bench, double t)
{
  const HobRange *range = hob_bench_range (bench);
  HobRun *should_be = hob_bench_should_be (bench);
  g_autoptr (HobComparison) c = hob_comparison_new (bench->plan);
  g_autofree char *parts = NULL, *others = NULL;
  GString *words;

  hob_comparison_read (c, bench->run, should_be, t);
  parts = difference_words (range, c, FALSE);
  words = g_string_new (parts);
  for (int k = 0; k < range->n_parts; k++)
    if (is_oven (range->parts[k].kind))
      append_heat (words, bench, k, t);
  if (words->len == 0)
    append_wires (words, range, c);
  if (words->len == 0)
    g_string_append (words, (others = difference_words (range, c, TRUE)));
  if (words->len == 0)
    append_unread (words, range, c);
  if (words->len == 0)
    /* Translators: what differs from normal. */
    g_string_append (words, _ ("nothing"));
  return g_string_free (words, FALSE);
}

#define LONG_AFTER 60.0 /* s: what differed less long ago is still to be seen */

/* The first symptom's time, s; NaN: none until t. */
static double
first_symptom (const HobRun *run, double t)
{
  guint first, n = hob_run_events (run, -1, t, &first);

  for (guint k = first; k < first + n; k++)
    if (hob_run_event (run, k)->what == HOB_EVENT_SYMPTOM)
      return hob_run_event (run, k)->t;
  return NAN;
}

/* Long after everything is turned off nothing differs but what is left of it: what did differ when
 * the first symptom was noticed.  NULL: the same as now, or it is now. */
static char *
earlier_words (HobBench *bench, double t)
{
  const HobRange *range = hob_bench_range (bench);
  HobRun *should_be = hob_bench_should_be (bench);
  g_autoptr (HobComparison) c = hob_comparison_new (bench->plan);
  double then = first_symptom (bench->run, t) + 1;
  g_autofree char *now = NULL, *words = NULL, *time = NULL;

  if (should_be == NULL || !(then < t - LONG_AFTER))
    return NULL;
  hob_comparison_read (c, bench->run, should_be, t);
  now = difference_words (range, c, FALSE);
  hob_comparison_read (c, bench->run, should_be, then);
  words = difference_words (range, c, FALSE);
  if (*words == '\0' || strcmp (words, now) == 0)
    return NULL;
  time = hob_time_text (then);
  return g_strdup_printf (_ ("%s: %s"), time, words);
}

HobFacts *
hob_facts_new (HobBench *bench, double t, gboolean cover)
{
  HobFacts *facts = g_new0 (HobFacts, 1);
  g_autoptr (HobMoment) m = hob_bench_moment_new (bench);
  g_autofree char *code = NULL;

  facts->range = hob_bench_range (bench);
  facts->list = g_array_new (FALSE, FALSE, sizeof (HobFact));
  g_array_set_clear_func (facts->list, clear_fact);
  facts->now = hob_hazards_at (bench->book, bench->run, t);
  hob_run_read (bench->run, t, m);
  add (facts, _ ("Data plate"),
       g_strdup (fuel_words (facts->range->plate)));
  add (facts, _ ("Time into the run"), hob_time_text (t));
  /* Translators: heading of the conditions in the house: volts, temperature, gas. */
  add (facts, _ ("House"), house_words (facts->range, m));
  add (facts, _ ("What you did"), acts_words (bench, t, cover));
  /* Translators: heading of a list of readings that a normal range would not show now. */
  add (facts, _ ("Different from normal now"), differing_words (bench, t));
  /* Translators: the same list, at the time of the first symptom. */
  add (facts, _ ("Different from normal when the symptom appeared"), earlier_words (bench, t));
  if (cover)
    {
      /* Translators: heading of what a picture for a test leaves out. */
      add (facts, _ ("Hidden"), g_strdup (_ ("Faults, symptoms, and the ID code are left out of "
                                             "this picture.")));
      return facts;
    }
  add (facts, _ ("Faults"), fault_words (facts->range, m));
  add (facts, _ ("Symptoms"), symptom_words (bench, t));
  code = g_strdup_printf ("%016" G_GINT64_MODIFIER "x", hob_moment_hash (m));
  /* Translators: after "ID code:"; two pictures of the same moment have the same code. */
  add (facts, _ ("ID code"),
       g_strdup_printf (_ ("%s (the same on every sheet for this moment)"), code));
  return facts;
}

void
hob_facts_free (HobFacts *facts)
{
  if (facts == NULL)
    return;
  g_array_unref (facts->list);
  g_free (facts);
}
