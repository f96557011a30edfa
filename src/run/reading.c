/* SPDX-License-Identifier: GPL-3.0-or-later */

/* Tests in words, and the meter that takes them from a run. */
#include "run/reading.h"

#include "base/errors.h"
#include "base/i18n.h"
#include "run/engine.h"

#include <math.h>
#include <string.h>

/* ---- Words ---- */

static const struct
{
  const char *word;
  HobTestWhat what;
  HobDimension dim;
  guint names, most; /* how many names it takes */
  const char *usage;
} tests[] = {
  { "volts", HOB_TEST_VOLTS, HOB_DIM_VOLTAGE, 2, 2, "volts A B" },
  { "ohms", HOB_TEST_OHMS, HOB_DIM_RESISTANCE, 2, 3, "ohms A B [lead-off]" },
  { "amps", HOB_TEST_AMPS, HOB_DIM_CURRENT, 1, 1, "amps WIRE-or-PART.TERMINAL-or-PART" },
  { "pressure", HOB_TEST_PRESSURE, HOB_DIM_PRESSURE, 1, 1, "pressure PORT" },
  { "temp", HOB_TEST_TEMP, HOB_DIM_TEMPERATURE, 1, 1, "temp QUANTITY" },
  { "look", HOB_TEST_LOOK, HOB_DIM_NUMBER, 1, 2, "look SYMPTOM[ PART] | look PART" },
  { "look", HOB_TEST_INSPECT, HOB_DIM_NUMBER, 1, 1, "look PART" },
  { "bubbles", HOB_TEST_BUBBLES, HOB_DIM_NUMBER, 1, 1, "bubbles PART" },
};

#define LEAD_OFF "lead-off"

/* Takes @sentence over; it quotes what a person typed. */
static gboolean
refuse (GError **error, HobError code, char *sentence)
{
  g_autofree char *line = g_utf8_make_valid (sentence, -1);

  g_free (sentence);
  g_strdelimit (line, "\n\r\t\v\f\033", ' ');
  g_set_error_literal (error, HOB_ERROR, code, line);
  return FALSE;
}

static gboolean
same_end (HobEnd a, HobEnd b)
{
  return a.part == b.part && (a.part < 0 || a.terminal == b.terminal);
}

gboolean
hob_test_same (const HobTest *a, const HobTest *b)
{
  return a->what == b->what && a->wire == b->wire && a->part == b->part
         && a->quantity == b->quantity && a->lead_off == b->lead_off
         && g_strcmp0 (a->symptom, b->symptom) == 0
         && ((same_end (a->a, b->a) && same_end (a->b, b->b))
             || (same_end (a->a, b->b) && same_end (a->b, b->a)));
}

gboolean
hob_test_at_part (const HobRange *range, const HobTest *test, int part)
{
  const HobLine *wire = test->wire >= 0 ? &range->wires[test->wire] : NULL;

  return test->part == part || test->a.part == part || test->b.part == part
         || (wire != NULL && (wire->from.part == part || wire->to.part == part));
}

gboolean
hob_test_is_seen (const HobTest *test)
{
  return test->what == HOB_TEST_LOOK || test->what == HOB_TEST_INSPECT
         || test->what == HOB_TEST_BUBBLES;
}

gboolean
hob_test_is_dead (const HobTest *test)
{
  return test->what == HOB_TEST_OHMS || test->what == HOB_TEST_INSPECT;
}

gboolean
hob_test_inspects (const HobRange *range, int part)
{
  const HobKind *kind = range->parts[part].kind;

  for (int k = 0; k < kind->n_settings; k++)
    if (kind->settings[k].visible > 0)
      return TRUE;
  return FALSE;
}

gboolean
hob_test_bubbles (const HobRange *range, int part)
{
  return (range->parts[part].kind->means & HOB_MEANS (LEAK_CHECK)) != 0;
}

gboolean
hob_test_takes (const HobQuantityDef *quantity)
{
  return quantity->dim == HOB_DIM_TEMPERATURE
         || (quantity->dim == HOB_DIM_DIFFERENCE && quantity->sense == HOB_SENSE_THERMOMETER);
}

static gboolean
find_quantity_temperature (const HobRange *range, const char *name, HobTest *test, GError **error)
{
  if (!hob_range_find_quantity (range, name, &test->part, &test->quantity, error))
    return FALSE;
  if (!hob_test_takes (&range->parts[test->part].kind->quantities[test->quantity]))
    return refuse (
        error, HOB_ERROR_NAME,
        g_strdup_printf (_ ("'%s' is not a temperature; see 'hob list RANGE quantities'"), name));
  return TRUE;
}

static int
find_wire (const HobRange *range, const char *id)
{
  for (int w = 0; w < range->n_wires; w++)
    if (g_str_equal (range->wires[w].id, id))
      return w;
  return -1;
}

/* A clamp goes round a wire, round what leads to a terminal, or round a part with one way
 * through. */
static gboolean
find_clamp (const HobRange *range, const char *name, HobTest *test, GError **error)
{
  if (strchr (name, '.') != NULL)
    return hob_range_find_terminal (range, name, &test->a, error);
  test->wire = find_wire (range, name);
  if (test->wire >= 0)
    return TRUE;
  test->part = hob_range_part (range, name);
  if (test->part < 0)
    return refuse (
        error, HOB_ERROR_NAME,
        g_strdup_printf (_ ("this range has no wire or part '%s'; see 'hob list RANGE tests'"),
                         name));
  if (!hob_kind_is_two_terminal (range->parts[test->part].kind))
    return refuse (error, HOB_ERROR_NAME,
                   g_strdup_printf (_ ("'%s' doesn't have exactly two terminals; name one of its "
                                       "terminals, such as %s.%s"),
                                    name, name,
                                    range->parts[test->part].kind->n_terminals > 0
                                        ? range->parts[test->part].kind->terminals[0].name
                                        : "line"));
  return TRUE;
}

static gboolean
find_part (const HobRange *range, const char *name, HobTest *test, GError **error)
{
  test->part = hob_range_part (range, name);
  return test->part >= 0
         || refuse (error, HOB_ERROR_NAME,
                    g_strdup_printf (
                        _ ("this range has no part '%s'; see 'hob list RANGE tests'"), name));
}

/* A symptom, or a part that is looked at closely. */
static gboolean
find_look (const HobRange *range, char **names, HobTest *test, GError **error)
{
  int part = names[1] == NULL ? hob_range_part (range, names[0]) : -1;

  if (part < 0)
    {
      test->symptom = g_strdup (names[0]);
      return names[1] == NULL || find_part (range, names[1], test, error);
    }
  test->what = HOB_TEST_INSPECT;
  test->part = part;
  return hob_test_inspects (range, part)
         || refuse (error, HOB_ERROR_NO_ANSWER,
                    g_strdup_printf (_ ("looking at '%s' doesn't show whether it's bad; "
                                        "choose another test"),
                                     names[0]));
}

static gboolean
find_leak (const HobRange *range, const char *name, HobTest *test, GError **error)
{
  return find_part (range, name, test, error)
         && (hob_test_bubbles (range, test->part)
             || refuse (error, HOB_ERROR_NO_ANSWER,
                        g_strdup_printf (_ ("'%s' can't be tested with leak-detection solution; "
                                            "see 'hob list RANGE tests'"),
                                         name)));
}

static gboolean
no_meter_on_lead (const HobRange *range, HobEnd end, GError **error)
{
  if (!range->parts[end.part].kind->terminals[end.terminal].high_voltage)
    return TRUE;
  return refuse (error, HOB_ERROR_NO_ANSWER,
                 g_strdup (_ ("never put a meter on a spark lead; look for the sparks instead")));
}

static gboolean
find_lead_off (const char *word, HobTest *test, GError **error)
{
  test->lead_off = g_str_equal (word, LEAD_OFF);
  return test->lead_off
         || refuse (error, HOB_ERROR_USAGE,
                    g_strdup_printf (_ ("'%s' is not a test; use %s"), word,
                                     tests[HOB_TEST_OHMS].usage));
}

static gboolean
find_names (const HobRange *range, HobTest *test, char **names, GError **error)
{
  switch (test->what)
    {
    case HOB_TEST_VOLTS:
    case HOB_TEST_OHMS:
      return (names[2] == NULL || find_lead_off (names[2], test, error))
             && hob_range_find_terminal (range, names[0], &test->a, error)
             && hob_range_find_terminal (range, names[1], &test->b, error)
             && no_meter_on_lead (range, test->a, error)
             && no_meter_on_lead (range, test->b, error);
    case HOB_TEST_AMPS:
      return find_clamp (range, names[0], test, error)
             && (test->a.part < 0 || no_meter_on_lead (range, test->a, error));
    case HOB_TEST_PRESSURE:
      return hob_range_find_port (range, names[0], &test->a, error);
    case HOB_TEST_TEMP:
      return find_quantity_temperature (range, names[0], test, error);
    case HOB_TEST_BUBBLES:
      return find_leak (range, names[0], test, error);
    case HOB_TEST_INSPECT:
    case HOB_TEST_LOOK:
    default:
      return find_look (range, names, test, error);
    }
}

/* The words before the '@'. */
static gboolean
parse_what (const HobRange *range, const char *text, HobTest *test, GError **error)
{
  g_auto (GStrv) all = g_strsplit_set (text, " \t\n", -1);
  g_autoptr (GPtrArray) words = g_ptr_array_new ();

  for (char **w = all; *w != NULL; w++)
    if (**w != '\0')
      g_ptr_array_add (words, *w);
  for (guint i = 0; i < G_N_ELEMENTS (tests) && words->len > 0; i++)
    if (g_str_equal (words->pdata[0], tests[i].word))
      {
        if (words->len < tests[i].names + 1 || words->len > tests[i].most + 1)
          return refuse (
              error, HOB_ERROR_USAGE,
              g_strdup_printf (_ ("'%s' is not a test; use %s"), text, tests[i].usage));
        test->what = tests[i].what;
        g_ptr_array_add (words, NULL);
        return find_names (range, test, (char **) words->pdata + 1, error);
      }
  return refuse (
      error, HOB_ERROR_USAGE,
      g_strdup_printf (
          _ ("'%s' is not a test; start with volts, ohms, amps, pressure, temp, look, or "
             "bubbles"),
          text));
}

/* Behind the '@': acts, each with its time, and last the time of the reading. */
static gboolean
parse_when (HobTest *test, const char *text, GError **error)
{
  g_auto (GStrv) pieces = g_strsplit (text, ";", -1);
  guint n = g_strv_length (pieces);

  for (guint i = 0; i + 1 < n; i++)
    if (!hob_case_do (test->acts, g_strstrip (pieces[i]), error))
      return FALSE;
  if (n == 0 || strchr (pieces[n - 1], '=') != NULL)
    return refuse (
        error, HOB_ERROR_USAGE,
        g_strdup_printf (
            _ ("'%s' doesn't say when to read; end it with a time, such as \"; 60s\""), text));
  if (!hob_moment_parse (g_strstrip (pieces[n - 1]), &test->time, error))
    return FALSE;
  if (test->acts->acts->len > 0
      && (double) g_array_index (test->acts->acts, HobAct, test->acts->acts->len - 1).ms
             > test->time * 1000.0 + 0.5)
    return refuse (
        error, HOB_ERROR_USAGE,
        g_strdup_printf (_ ("'%s' has an action after the reading; give the reading a later time"),
                         text));
  return TRUE;
}

HobTest *
hob_test_parse (const HobRange *range, const char *text, GError **error)
{
  g_autoptr (HobTest) test = g_new0 (HobTest, 1);
  const char *at = strchr (text, '@');
  g_autofree char *what = at != NULL ? g_strndup (text, (gsize) (at - text)) : g_strdup (text);

  test->acts = hob_case_new (range);
  test->a.part = test->b.part = test->wire = test->part = test->quantity = -1;
  test->time = NAN;
  if (!parse_what (range, what, test, error) || (at != NULL && !parse_when (test, at + 1, error)))
    return NULL;
  return g_steal_pointer (&test);
}

void
hob_test_free (HobTest *test)
{
  if (test == NULL)
    return;
  hob_case_free (test->acts);
  g_free (test->symptom);
  g_free (test);
}

/* ---- Words again ---- */

static void
append_terminal (GString *out, const HobRange *range, HobEnd end)
{
  const HobPart *part = &range->parts[end.part];

  g_string_append_printf (out, " %s.%s", part->id, part->kind->terminals[end.terminal].name);
}

/* Whole milliseconds, without the zeros that say nothing. */
static void
append_seconds (GString *out, gint64 ms)
{
  g_string_append_printf (out, "%" G_GINT64_FORMAT, ms / 1000);
  if (ms % 1000 != 0)
    {
      g_string_append_printf (out, ".%03d", (int) (ms % 1000));
      while (out->str[out->len - 1] == '0')
        g_string_truncate (out, out->len - 1);
    }
  g_string_append_c (out, 's');
}

static void
append_names (GString *out, const HobRange *range, const HobTest *test)
{
  switch (test->what)
    {
    case HOB_TEST_VOLTS:
    case HOB_TEST_OHMS:
      append_terminal (out, range, test->a);
      append_terminal (out, range, test->b);
      g_string_append (out, test->lead_off ? " " LEAD_OFF : "");
      break;
    case HOB_TEST_AMPS:
      if (test->a.part >= 0)
        append_terminal (out, range, test->a);
      else
        g_string_append_printf (out, " %s",
                                test->wire >= 0 ? range->wires[test->wire].id
                                                : range->parts[test->part].id);
      break;
    case HOB_TEST_PRESSURE:
      g_string_append_printf (out, " %s.%s", range->parts[test->a.part].id,
                              range->parts[test->a.part].kind->ports[test->a.terminal].name);
      break;
    case HOB_TEST_TEMP:
      g_string_append_printf (out, " %s.%s", range->parts[test->part].id,
                              range->parts[test->part].kind->quantities[test->quantity].name);
      break;
    case HOB_TEST_INSPECT:
    case HOB_TEST_BUBBLES:
      g_string_append_printf (out, " %s", range->parts[test->part].id);
      break;
    case HOB_TEST_LOOK:
    default:
      g_string_append_printf (out, " %s%s%s", test->symptom, test->part >= 0 ? " " : "",
                              test->part >= 0 ? range->parts[test->part].id : "");
    }
}

char *
hob_test_text (const HobRange *range, const HobTest *test)
{
  GString *out = g_string_new (tests[test->what].word);

  append_names (out, range, test);
  if (isnan (test->time))
    return g_string_free (out, FALSE);
  g_string_append (out, " @ ");
  for (guint i = 0; i < test->acts->acts->len; i++)
    {
      const HobAct *act = &g_array_index (test->acts->acts, HobAct, i);
      g_autofree char *text = hob_act_text (range, act);

      append_seconds (out, act->ms);
      g_string_append_printf (out, " %s; ", text);
    }
  append_seconds (out, (gint64) floor (test->time * 1000.0 + 0.5));
  return g_string_free (out, FALSE);
}

HobCase *
hob_test_case (const HobTest *test, const HobCase *base, double *t)
{
  HobCase *c = hob_case_copy (base);

  for (guint i = 0; i < test->acts->acts->len; i++)
    hob_case_add (c, g_array_index (test->acts->acts, HobAct, i));
  *t = test->time;
  if (isnan (*t))
    *t = c->acts->len > 0 ? (double) g_array_index (c->acts, HobAct, c->acts->len - 1).ms / 1000.0
                          : 0.0;
  return c;
}

HobDimension
hob_test_dimension (const HobTest *test)
{
  if (test->what == HOB_TEST_TEMP)
    return test->acts->range->parts[test->part].kind->quantities[test->quantity].dim;
  return tests[test->what].dim;
}

/* The last digit of usual service instruments (common practice, no source): a multimeter's
 * millivolt and hundredth of an ohm, a leakage clamp's hundredth of a milliampere, a manometer's
 * hundredth of an inch. */
double
hob_test_resolved (const HobTest *test, double value)
{
  static const double digits[] = { [HOB_TEST_VOLTS] = 1e-3, [HOB_TEST_OHMS] = 1e-2,
                                   [HOB_TEST_AMPS] = 1e-5, [HOB_TEST_PRESSURE] = 2.5 };

  if ((guint) test->what >= G_N_ELEMENTS (digits) || !isfinite (value))
    return value;
  return fabs (value) < digits[test->what] ? 0 : value;
}

/* ---- The meter ---- */

#define METER_OHMS 10e6       /* of a voltmeter's input */
#define OVERLOAD 40e6         /* ohm: beyond it the display says OL */
#define METER_AMPERE 1e-3     /* A that an ohmmeter sends */
#define LEAK 1e-12            /* S to earth: no island of the network floats */
#define LIVE 1.0              /* V to earth, loaded by the meter … */
#define LIVE_AMPERE                                                                                \
  1e-4 /* … and A that it could drive there: no place for an ohmmeter; a ghost is no source */

#define HAND_OHMS 2e3 /* of a person on a damp floor */
#define SHOCKS 5e-3   /* A */

static int
node_of (const HobPlan *plan, HobEnd end)
{
  return plan->term0[end.part] + end.terminal;
}

static HobComplex
minus (HobComplex a, HobComplex b)
{
  return (HobComplex){ a.re - b.re, a.im - b.im };
}

/* V between @a and @b (−1: earth) for 1 A sent from b to a through branches of admittance @y, all
 * sources absent.  @work: that of the last solve with nearly the same @y. */
static HobComplex
probe (HobMoment *m, const HobComplex *y, double *work, int a, int b)
{
  const HobPlan *plan = m->plan;

  return hob_circuit_probe_again (plan->circuit, y, plan->n_branches, a, b, work);
}

/* What a meter of METER_OHMS shows between @a and @b (−1: earth): the network is linear at a
 * moment, so the meter's branch divides with what the network is there.  @drives: could it drive
 * LIVE_AMPERE there? */
static double
volts_with_meter (HobMoment *m, int a, int b, gboolean *drives)
{
  HobComplex earth = { 0, 0 }, z = probe (m, m->g, m->circuit_work, a, b);
  double open = hob_complex_abs (minus (m->v[a], b >= 0 ? m->v[b] : earth));

  *drives = open > LIVE_AMPERE * hob_complex_abs (z);
  z.re += METER_OHMS;
  return open * METER_OHMS / hob_complex_abs (z);
}

static gboolean
is_live (HobMoment *m, int a)
{
  gboolean drives;

  return volts_with_meter (m, a, -1, &drives) > LIVE && drives;
}

/* S for direct current: a capacitor blocks, a coil is its wire. */
static double
direct (HobComplex y)
{
  return y.im < 0 && y.re > 0 ? hob_complex_abs2 (y) / y.re : y.re;
}

/* Takes off the wires that end where @end's do. */
static void
take_lead_off (const HobPlan *plan, HobEnd end, HobComplex *y)
{
  const HobKind *kind = plan->range->parts[end.part].kind;
  int node = plan->term0[end.part] + hob_terminal_landing (kind->terminals, end.terminal);

  for (int k = plan->wire0; k < plan->stray0; k++)
    if (plan->branches[k].a == node || plan->branches[k].b == node)
      y[k].re = 0;
}

/* S of each branch for an ohmmeter. */
static void
rest (const HobMoment *m, HobComplex *y)
{
  const HobPlan *plan = m->plan;
  const HobRange *range = plan->range;

  for (int k = 0; k < plan->stray0; k++)
    y[k].re = direct (m->g[k]);
  for (int k = plan->stray0; k < plan->n_branches; k++)
    y[k].re = LEAK;
  for (int p = 0; p < range->n_parts; p++)
    for (int k = 0; k < range->parts[p].kind->n_elements; k++)
      if (range->parts[p].kind->at_rest != NULL && y[plan->elem0[p] + k].re > 0)
        y[plan->elem0[p] + k] = hob_siemens (range->parts[p].kind->at_rest (&m->part[p], k));
}

static double
ohms_with_meter (HobMoment *m, const HobTest *test)
{
  const HobPlan *plan = m->plan;
  g_autofree HobComplex *y = g_new0 (HobComplex, plan->n_branches + 1);
  double volts;

  rest (m, y);
  if (test->lead_off)
    take_lead_off (plan, test->a, y);
  volts = METER_AMPERE
          * hob_complex_abs (probe (m, y, m->probe_work, node_of (plan, test->a),
                                    node_of (plan, test->b)));
  return volts / METER_AMPERE;
}

/* Is the range plugged into a live circuit?  Then it is under power wherever a meter is put, be it
 * at its neutral. */
static gboolean
is_powered (HobMoment *m)
{
  const HobPlan *plan = m->plan;

  for (int p = 0; p < plan->range->n_parts; p++)
    for (int k = 0; k < plan->range->parts[p].kind->n_terminals; k++)
      if (hob_terminal_landing (plan->range->parts[p].kind->terminals, k) != k
          && is_live (m, plan->term0[p] + k))
        return TRUE;
  return FALSE;
}

static HobReading
read_ohms (HobMoment *m, const HobTest *test)
{
  int a = node_of (m->plan, test->a), b = node_of (m->plan, test->b);
  double ohms;

  if (is_live (m, a) || is_live (m, b) || is_powered (m))
    return (HobReading){
      NAN, "ohm",
      N_ ("warning: the part is live; unplug the range, verify it's dead, then measure ohms"),
      FALSE, FALSE
    };
  if (a == b)
    return (HobReading){ 0, "ohm", NULL, TRUE };
  ohms = ohms_with_meter (m, test);
  return ohms > OVERLOAD ? (HobReading){ NAN, "ohm", N_ ("OL"), TRUE }
                         : (HobReading){ ohms, "ohm", NULL, TRUE };
}

/* A from outside into the part at one of its terminals: what its elements carry away from where
 * its wires end. */
static double
terminal_current (const HobMoment *m, HobEnd end)
{
  const HobKind *kind = m->plan->range->parts[end.part].kind;
  int landing = hob_terminal_landing (kind->terminals, end.terminal);
  HobComplex sum = { 0, 0 };

  for (int k = 0; k < kind->n_elements; k++)
    {
      HobComplex i = m->part[end.part].i[k];
      int sign = (kind->elements[k].a == landing) - (kind->elements[k].b == landing);

      sum.re += sign * i.re;
      sum.im += sign * i.im;
    }
  return hob_complex_abs (sum);
}

static HobReading
read_amps (const HobMoment *m, const HobTest *test)
{
  HobEnd end = test->a.part >= 0 ? test->a : (HobEnd){ test->part, 0 };
  double amps = test->wire >= 0 ? hob_complex_abs (hob_moment_wire_current (m, test->wire))
                                : terminal_current (m, end);

  return (HobReading){ amps, "A", NULL, TRUE };
}

/* Would it give a shock to a hand on this end, where that is the chassis? */
static gboolean
would_shock (HobMoment *m, HobEnd end)
{
  const HobPlan *plan = m->plan;
  int node = node_of (plan, end);
  HobComplex z;

  if (!(plan->range->parts[end.part].kind->flags & HOB_KIND_CHASSIS))
    return FALSE;
  z = probe (m, m->g, m->circuit_work, node, -1);
  z.re += HAND_OHMS;
  return hob_complex_abs (m->v[node]) > SHOCKS * hob_complex_abs (z);
}

static HobReading
read_volts (HobMoment *m, const HobTest *test)
{
  int a = node_of (m->plan, test->a), b = node_of (m->plan, test->b);
  gboolean shock = would_shock (m, test->a) || would_shock (m, test->b), drives = TRUE, ghost;
  double volts = a == b ? 0 : volts_with_meter (m, a, b, &drives);

  ghost = volts > LIVE && !drives;
  return (HobReading){ volts, "V", ghost ? N_ ("ghost voltage: it disappears under load") : NULL,
                       TRUE, ghost, shock ? HOB_HAZARD (SHOCK) : 0 };
}

/* Whether anything that can be seen of the part is as far off as somebody notices. */
static HobReading
inspect (const HobMoment *m, int part)
{
  const HobKind *kind = m->plan->range->parts[part].kind;
  const HobPartContext *c = &m->part[part];
  gboolean off = FALSE;

  for (int k = 0; k < kind->n_settings; k++)
    off |= kind->settings[k].visible > 0
           && !(fabs (c->set[k] - c->filed[k]) < kind->settings[k].visible);
  return (HobReading){ off, "seen", NULL, TRUE };
}

#define BUBBLES 1e-9 /* kg/s: a cubic centimeter in ten minutes is seen; from memory */

/* Whether gas gets out of the part into the open: of a connector by its hole, of a burner by its
 * orifice, where none is asked for. */
static HobReading
bubbles (const HobMoment *m, int part)
{
  const HobKind *kind = m->plan->range->parts[part].kind;
  gboolean out = FALSE;

  if (hob_moment_asked (m, part))
    return (HobReading){ NAN, "seen",
                         N_ ("a control is on at this time, so gas is flowing; turn the control "
                             "off before you look for a leak"), FALSE };
  for (int k = 0; k < kind->n_ducts; k++)
    out |= kind->ducts[k].b < 0 && m->part[part].q[k] > BUBBLES;
  return (HobReading){ out, "seen", NULL, TRUE };
}

HobReading
hob_reading_take (HobRun *run, const HobTest *test, double t)
{
  g_autoptr (HobMoment) m = hob_moment_new (hob_run_plan (run));

  hob_run_read (run, t, m);
  return hob_reading_at (m, test);
}

HobReading
hob_reading_at (HobMoment *m, const HobTest *test)
{
  switch (test->what)
    {
    case HOB_TEST_VOLTS: return read_volts (m, test);
    case HOB_TEST_OHMS: return read_ohms (m, test);
    case HOB_TEST_AMPS: return read_amps (m, test);
    case HOB_TEST_PRESSURE:
      return (HobReading){ hob_moment_pressure (m, test->a), "Pa", NULL, TRUE };
    case HOB_TEST_TEMP:
      return (HobReading){ hob_moment_quantity (m, test->part, test->quantity), "K", NULL, TRUE };
    case HOB_TEST_INSPECT: return inspect (m, test->part);
    case HOB_TEST_BUBBLES: return bubbles (m, test->part);
    case HOB_TEST_LOOK:
    default: return (HobReading){ NAN, "seen", NULL, FALSE };
    }
}
