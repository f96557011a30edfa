/* SPDX-License-Identifier: GPL-3.0-or-later */

/* The tables and symbols of every kind; sparks, top burners and the house's protection in the
 * shipped ranges: what a normal range does, and what each fault changes. */

#include "config.h"
#include "base/errors.h"
#include "case-words.h"
#include "run/run.h"

#include <math.h>
#include <string.h>

#define EACH_KIND(k) (const HobKind *const *k = hob_kinds; *k != NULL; k++)
#define BTU_PER_HOUR (1055.056 / 3600) /* W */

/* ---- Tables ---- */

static void
modes_have_a_phrase_for_off_and_on_or_none (void)
{
  for
    EACH_KIND (k)
  for (int i = 0; i < (*k)->n_modes; i++)
    {
      const char *const *words = (*k)->modes[i].words;

      if (words != NULL && g_strv_length ((char **)words) < 2)
        g_error ("%s.%s: fewer than two phrases", (*k)->name, (*k)->modes[i].name);
    }
}

static void
every_entry_is_put_in_words (void)
{
  for
    EACH_KIND (k)
    {
      g_assert_true ((*k)->label != NULL && (*k)->about != NULL);
      for (int i = 0; i < (*k)->n_terminals; i++)
        g_assert_nonnull ((*k)->terminals[i].words);
      for (int i = 0; i < (*k)->n_ports; i++)
        g_assert_nonnull ((*k)->ports[i].words);
      for (int i = 0; i < (*k)->n_quantities; i++)
        g_assert_nonnull ((*k)->quantities[i].words);
      for (int i = 0; i < (*k)->n_states; i++)
        if (!((*k)->states[i].tolerance > 0) || (*k)->states[i].words == NULL)
          g_error ("%s.%s: no words or no tolerance", (*k)->name, (*k)->states[i].name);
      for (int i = 0; i < (*k)->n_controls; i++)
        g_assert_nonnull ((*k)->controls[i].words);
    }
}

static void
controls_start_and_stand_within_their_span (void)
{
  for
    EACH_KIND (k)
  for (int i = 0; i < (*k)->n_controls; i++)
    {
      const HobControlDef *c = &(*k)->controls[i];

      g_assert_true (c->start >= c->low && c->start <= c->high);
      for (const HobPosition *p = c->positions; p != NULL && p->name != NULL; p++)
        g_assert_true (p->words != NULL && p->value >= c->low && p->value <= c->high);
    }
}

/* Rounding of a power that ends on a limit. */
static double
slack (double limit)
{
  return isinf (limit) ? 0 : 1e-9 * fabs (limit);
}

static double
after_effect (const HobEffect *e, double normal, double severity)
{
  double value = e->geometric ? e->at0 * pow (e->at1 / e->at0, severity)
                              : e->at0 + (e->at1 - e->at0) * severity;

  return e->how == HOB_EFFECT_SET        ? value
         : e->how == HOB_EFFECT_MULTIPLY ? normal * value
                                         : normal + value;
}

/* At no severity (nought is no fault) does a fault push a setting beyond its span, and at the
 * typical one something has changed. */
static void
faults_keep_settings_within_their_span (void)
{
  for
    EACH_KIND (k)
  for (int i = 0; i < (*k)->n_faults; i++)
    {
      const HobFaultDef *f = &(*k)->faults[i];
      gboolean changed = FALSE;

      for (int e = 0; e < f->n_effects; e++)
        {
          const HobSettingDef *s = &(*k)->settings[f->effects[e].setting];

          for (double severity = f->severity_words != NULL ? 0.125 : 1; severity <= 1;
               severity += 0.125)
            {
              double value = after_effect (&f->effects[e], s->normal, severity);

              if (!(value >= s->low - slack (s->low) && value <= s->high + slack (s->high)))
                g_error ("%s:%s at %g sets %s to %g", (*k)->name, f->id, severity, s->name, value);
            }
          changed |= after_effect (&f->effects[e], s->normal, hob_fault_typical (f)) != s->normal;
        }
      g_assert_true (changed);
    }
}

static void
guards_have_what_carries_them_out (void)
{
  for
    EACH_KIND (k)
    {
      gboolean guarded = (*k)->n_guards > 0;

      if (guarded != ((*k)->guard != NULL) || guarded != ((*k)->flip != NULL))
        g_error ("%s: guards without functions, or functions without guards", (*k)->name);
      g_assert_true ((*k)->n_modes == 0 || guarded);
      g_assert_true (((*k)->n_states > 0) <= ((*k)->rates != NULL));
      g_assert_true (((*k)->n_elements > 0) == ((*k)->conduct != NULL));
      g_assert_true (((*k)->n_ducts > 0) == ((*k)->flow != NULL));
      g_assert_true (((*k)->n_quantities > 0) == ((*k)->observe != NULL));
    }
}

/* What no wire must reach may be an inner node and stand inside. */
static void
assert_on_edge (const HobKind *kind, HobSheet sheet, const char *name, gboolean outer, double x,
                double y)
{
  double w = kind->symbol[sheet].w / 2, h = kind->symbol[sheet].h / 2;
  gboolean on_edge = (fabs (x) == w && fabs (y) <= h) || (fabs (y) == h && fabs (x) <= w);
  gboolean inside = fabs (x) < w && fabs (y) < h;

  if (fmod (x, 20) != 0 || fmod (y, 20) != 0 || !(on_edge || (inside && !outer)))
    g_error ("%s.%s at %g, %g is off the pitch or off the edge of %g × %g", kind->name, name, x, y,
             2 * w, 2 * h);
}

/* A joint is a dot: its one terminal stands in its middle. */
static void
wires_and_pipes_end_on_the_edge_of_symbols (void)
{
  for
    EACH_KIND (k)
    {
      for (int i = 0; i < (*k)->n_terminals && strcmp ((*k)->name, "junction") != 0; i++)
        assert_on_edge (*k, HOB_SHEET_WIRING, (*k)->terminals[i].name,
                        (*k)->terminals[i].required || (*k)->terminals[i].high_voltage,
                        (*k)->terminals[i].x, (*k)->terminals[i].y);
      for (int i = 0; i < (*k)->n_ports; i++)
        assert_on_edge (*k, HOB_SHEET_GAS, (*k)->ports[i].name, TRUE, (*k)->ports[i].x,
                        (*k)->ports[i].y);
    }
}

/* ---- Symbols: a pen that only remembers how far it went ---- */

typedef struct
{
  HobPen pen;
  double x, y; /* origin */
  double stack[8][2];
  int depth;
  double reach_x, reach_y;
  int strokes;
} FarPen;

static void
far_point (HobPen *pen, double x, double y)
{
  FarPen *p = (FarPen *)pen;

  p->reach_x = MAX (p->reach_x, fabs (p->x + x));
  p->reach_y = MAX (p->reach_y, fabs (p->y + y));
}

static void
far_curve (HobPen *pen, double x1, double y1, double x2, double y2, double x3, double y3)
{
  far_point (pen, x3, y3);
}

static void
far_arc (HobPen *pen, double x, double y, double r, double from, double to)
{
  for (int k = 0; k <= 16; k++)
    far_point (pen, x + r * cos (from + (to - from) * k / 16),
               y + r * sin (from + (to - from) * k / 16));
}

static void
far_nothing (HobPen *pen)
{
}

static void
far_dash (HobPen *pen, double on, double off)
{
}

static void
far_stroke (HobPen *pen, HobRole role, double weight)
{
  ((FarPen *)pen)->strokes++;
}

static void
far_fill (HobPen *pen, HobRole role)
{
  ((FarPen *)pen)->strokes++;
}

static void
far_fill_stroke (HobPen *pen, HobRole fill, HobRole role, double weight)
{
  ((FarPen *)pen)->strokes++;
}

static void
far_glow (HobPen *pen, double kelvin)
{
}

static void
far_text (HobPen *pen, double x, double y, HobTextSize size, HobRole role, HobAlign align,
          const char *text)
{
  far_point (pen, x, y);
}

static void
far_tint (HobPen *pen, const double rgb[3])
{
}

static void
far_push (HobPen *pen, double x, double y, int quarter_turns)
{
  FarPen *p = (FarPen *)pen;

  g_assert_cmpint (p->depth, <, 8);
  p->stack[p->depth][0] = p->x;
  p->stack[p->depth++][1] = p->y;
  p->x += x;
  p->y += y;
}

static void
far_pop (HobPen *pen)
{
  FarPen *p = (FarPen *)pen;

  g_assert_cmpint (p->depth, >, 0);
  p->x = p->stack[--p->depth][0];
  p->y = p->stack[p->depth][1];
}

static void
far_repeat (HobPen *pen, const HobRepeat *repeat)
{
  far_point (pen, repeat->x0, repeat->y0);
  far_point (pen, repeat->x1, repeat->y1);
}

static const HobPenClass far_class = {
  .move = far_point,
  .line = far_point,
  .curve = far_curve,
  .arc = far_arc,
  .close = far_nothing,
  .dash = far_dash,
  .stroke = far_stroke,
  .fill = far_fill,
  .fill_stroke = far_fill_stroke,
  .glow = far_glow,
  .text = far_text,
  .push = far_push,
  .pop = far_pop,
  .repeat = far_repeat,
  .tint = far_tint,
};

static void
fill_with (double *numbers, int n, double value)
{
  for (int k = 0; k < n; k++)
    numbers[k] = value;
}

/* Draws a kind with its settings as they come and every mode, state and quantity at @value. */
static FarPen
drawn (const HobKind *kind, HobSheet sheet, HobLayer layer, double value)
{
  double set[64], ctl[16], y[32], mode[64], quantity[64], p[32], q[32];
  HobComplex v[64] = { { value, 0 } }, i[64] = { { value, 0 } };
  FarPen pen = { .pen.klass = &far_class };
  HobPartView view = { .kind = kind,
                       .sheet = sheet,
                       .layer = layer,
                       .set = set,
                       .ctl = ctl,
                       .y = y,
                       .mode = mode,
                       .quantity = quantity,
                       .v = v,
                       .i = i,
                       .p = p,
                       .q = q,
                       .moved = 20 * value,
                       .air = 298,
                       .still = TRUE,
                       .spark = value };

  for (int k = 0; k < kind->n_settings; k++)
    set[k] = kind->settings[k].normal;
  for (int k = 0; k < kind->n_controls; k++)
    ctl[k] = value > 0 ? kind->controls[k].high : kind->controls[k].start;
  fill_with (y, 32, value);
  fill_with (mode, 64, value);
  fill_with (quantity, 64, value);
  fill_with (p, 32, value);
  fill_with (q, 32, value);
  kind->draw (&pen.pen, &view);
  return pen;
}

static void
assert_drawn_within (const HobKind *kind, HobSheet sheet)
{
  const double weight = 2; /* px: half of the widest stroke, and its joins */
  double w = kind->symbol[sheet].w / 2, h = kind->symbol[sheet].h / 2;
  int strokes = 0;

  for (int layer = HOB_LAYER_PAPER; layer <= HOB_LAYER_STATE; layer++)
    for (double value = 0; value <= 1; value++)
      {
        FarPen pen = drawn (kind, sheet, (HobLayer)layer, value);

        if (pen.reach_x > w + weight || pen.reach_y > h + weight)
          g_error ("%s on sheet %d reaches %g, %g out of %g, %g", kind->name, sheet, pen.reach_x,
                   pen.reach_y, w, h);
        g_assert_cmpint (pen.depth, ==, 0);
        strokes += pen.strokes;
      }
  g_assert_cmpint (strokes, >, 0);
}

static void
symbols_stay_within_their_boxes (void)
{
  for
    EACH_KIND (k)
  for (int sheet = 0; sheet < HOB_N_SHEETS; sheet++)
    if ((*k)->symbol[sheet].w > 0)
      {
        if ((*k)->draw == NULL)
          g_error ("%s is not drawn", (*k)->name);
        assert_drawn_within (*k, (HobSheet)sheet);
      }
}

/* ---- A shipped range, run ---- */

typedef struct
{
  HobPlan *plan;
  HobCase *acts;
  HobRun *run;
  HobMoment *moment;
} Bench;

static HobPlan *
plan_of (const char *name)
{
  g_autoptr (GError) error = NULL;
  g_autofree char *file = g_strdup_printf ("%s/diagrams/%s.xml", HOB_SOURCE_DIR, name);
  g_autoptr (HobRange) range = hob_range_load (file, NULL, &error);

  g_assert_no_error (error);
  return hob_plan_new (range);
}

static Bench
bench_of_plan (HobPlan *plan)
{
  return (Bench){ plan, hob_case_new (hob_plan_range (plan)), NULL, hob_moment_new (plan) };
}

static void
bench_close (Bench *b)
{
  hob_run_free (b->run);
  hob_moment_free (b->moment);
  hob_case_free (b->acts);
  hob_plan_unref (b->plan);
}

G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (Bench, bench_close)

/* Text with a number in it that reads the same in every locale. (transfer full) */
static char *
with_number (const char *before, double value, const char *after)
{
  g_autofree char *number = hob_number_text (value);

  return g_strconcat (before, number, after, NULL);
}

static Bench
bench_open (const char *name, const char *list)
{
  Bench b = bench_of_plan (plan_of (name));

  case_add_list (b.acts, list);
  return b;
}

/* Runs to t, and asks that currents, gas and heat balance there. */
static void
bench_run (Bench *b, double t)
{
  g_autoptr (GError) error = NULL;
  double heat, turned, gas, gas_turned;

  if (b->run == NULL)
    {
      b->run = hob_run_new (b->plan, b->acts, NULL);
      hob_run_set_checked (b->run);
    }
  hob_run_advance (b->run, t, &error);
  g_assert_no_error (error);
  hob_run_read (b->run, t, b->moment);
  hob_moment_balance (b->moment, &heat, &turned, &gas, &gas_turned);
  g_assert_cmpfloat (hob_run_counters (b->run).worst_residual, <, 1e-9);
  g_assert_cmpfloat (fabs (heat), <=, MAX (1, 1e-3 * turned));
  g_assert_cmpfloat (fabs (gas), <=, 1e-9 + 1e-4 * gas_turned);
}

static double
at (Bench *b, double t, const char *quantity)
{
  g_autoptr (GError) error = NULL;
  int part, index;

  if (b->run == NULL || hob_run_reached (b->run) < t)
    bench_run (b, t);
  hob_range_find_quantity (hob_plan_range (b->plan), quantity, &part, &index, &error);
  g_assert_no_error (error);
  hob_run_read (b->run, t, b->moment);
  return hob_moment_quantity (b->moment, part, index);
}

static double
at_of (Bench *b, double t, const char *part, const char *place, const char *quantity)
{
  g_autofree char *name = g_strdup_printf ("%s-%s.%s", part, place, quantity);

  return at (b, t, name);
}

/* The first time after @from at which PART.MODE takes @value; +inf: not within the record. */
static double
change (Bench *b, const char *part, const char *mode, double value, double from)
{
  const HobRange *range = hob_plan_range (b->plan);
  int p = hob_range_part (range, part), m = hob_kind_mode (range->parts[p].kind, mode);
  guint first, n = hob_run_events (b->run, from, hob_run_reached (b->run), &first);

  g_assert_cmpint (m, >=, 0);
  for (guint k = first; k < first + n; k++)
    {
      const HobEvent *e = hob_run_event (b->run, k);

      if (e->what == HOB_EVENT_CHANGE && e->part == p && e->index == m && e->value == value)
        return e->t;
    }
  return INFINITY;
}

static const char *const dial_places[] = { "lf", "lr", "rf", "rr", NULL };
static const char *const board_places[] = { "lf", "lr", "rf", "rr", "c", NULL };
static const struct
{
  const char *range;
  const char *const *places;
} tops[] = { { "dial-four", dial_places }, { "board-five", board_places } };

/* ---- Normal ---- */

static Bench
light_one (int range, const char *place, int volts)
{
  g_autofree char *list = g_strdup_printf ("receptacle.volts=%d V|1s knob-%s=light", volts, place);

  return bench_open (tops[range].range, list);
}

static void
any_one_switch_makes_all_electrodes_spark (void)
{
  const int volts[] = { 114, 120, 126 };

  for (int r = 0; r < 2; r++)
    for (int k = 0; tops[r].places[k] != NULL; k++)
      for (guint v = 0; v < G_N_ELEMENTS (volts); v++)
        {
          g_auto (Bench) b = light_one (r, tops[r].places[k], volts[v]);

          for (int e = 0; tops[r].places[e] != NULL; e++)
            {
              double before = at_of (&b, 1, "electrode", tops[r].places[e], "sparks");
              double sparks = at_of (&b, 21, "electrode", tops[r].places[e], "sparks") - before;

              g_assert_cmpfloat (sparks / 20, >=, 2);
              g_assert_cmpfloat (sparks / 20, <=, 5);
            }
        }
}

static void
only_the_burner_with_gas_lights_and_within_four_seconds (void)
{
  for (int r = 0; r < 2; r++)
    for (int k = 0; tops[r].places[k] != NULL; k++)
      for (int volts = 114; volts <= 126; volts += 6)
        {
          g_auto (Bench) b = light_one (r, tops[r].places[k], volts);

          for (int e = 0; tops[r].places[e] != NULL; e++)
            g_assert_cmpfloat (at_of (&b, 5, "burner", tops[r].places[e], "flame"), ==, e == k);
        }
}

/* One joule of gas is no thump: a normal top burner lights without a sound. */
static void
top_burners_light_without_a_sound (void)
{
  for (int r = 0; r < 2; r++)
    for (int k = 0; tops[r].places[k] != NULL; k++)
      {
        g_auto (Bench) b = light_one (r, tops[r].places[k], 120);
        double energy = at_of (&b, 4, "burner", tops[r].places[k], "light-energy");

        g_assert_cmpfloat (energy, >, 0);
        g_assert_cmpfloat (energy, <, 5e3);
        g_assert_cmpfloat (at_of (&b, 4, "burner", tops[r].places[k], "yellow"), <, 0.05);
        g_assert_cmpfloat (at_of (&b, 4, "burner", tops[r].places[k], "lift"), <, 0.05);
      }
}

/* Half-wave charging of 1 µF through 47 kΩ to 130 V: this project's own figures, to a tenth. */
static void
the_beat_follows_the_line (void)
{
  const struct
  {
    int volts;
    double rate;
  } beats[] = { { 126, 3.5 }, { 120, 3.0 }, { 114, 2.4 }, { 108, 1.9 }, { 100, 1.0 } };

  for (guint k = 0; k < G_N_ELEMENTS (beats); k++)
    {
      g_auto (Bench) b = light_one (0, "lf", beats[k].volts);

      g_assert_cmpfloat (fabs (at (&b, 4, "module.rate") - beats[k].rate), <, 0.1 * beats[k].rate);
    }
}

static void
nothing_sparks_with_all_knobs_off (void)
{
  for (int r = 0; r < 2; r++)
    {
      g_auto (Bench) b = bench_open (tops[r].range, "receptacle.volts=126 V");

      g_assert_cmpfloat (at (&b, 600, "module.rate"), ==, 0);
      g_assert_cmpfloat (at (&b, 600, "electrode-lf.sparks"), ==, 0);
    }
}

static void
assert_within (double value, double low, double high)
{
  g_assert_cmpfloat (value, >=, low);
  g_assert_cmpfloat (value, <=, high);
}

static void
sparks_end_at_high_and_at_off (void)
{
  g_auto (Bench) b = bench_open ("dial-four", "1s knob-lf=light|6s knob-lf=high|9s knob-lf=off");

  bench_run (&b, 12);
  assert_within (change (&b, "module", "sparking", 1, 0), 1, 1.1);
  assert_within (change (&b, "module", "sparking", 0, 1.1), 6, 6.2);
  /* On its way to off the knob passes light. */
  assert_within (change (&b, "module", "sparking", 1, 6.2), 9, 9.5);
  assert_within (change (&b, "module", "sparking", 0, 9), 9, 9.5);
  g_assert_cmpfloat (at (&b, 9, "electrode-lf.sparks"), ==, at (&b, 6.2, "electrode-lf.sparks"));
  g_assert_cmpfloat (at (&b, 12, "electrode-lf.sparks"), ==, at (&b, 9.5, "electrode-lf.sparks"));
}

/* A sweep from high to off passes light; even a quarter of a second there may be long enough for
 * a pulse. */
static void
the_switch_closes_on_the_way_back_too (void)
{
  g_auto (Bench) b = bench_open ("dial-four", "1s knob-lf:=high|3s knob-lf:=20 %|4s knob-lf:=off");

  bench_run (&b, 5);
  g_assert_cmpfloat (change (&b, "switch-lf", "contact", 1, 0), ==, 3);
  g_assert_cmpfloat (change (&b, "switch-lf", "contact", 0, 3), ==, 4);
}

static void
flames_go_out_with_the_gas (void)
{
  g_auto (Bench) b
      = bench_open ("dial-four", "1s knob-lf=light|1s knob-rf=light|6s knob-rf=low|10s knob-lf=off|"
                                 "20s shutoff=closed");

  g_assert_cmpfloat (at (&b, 9, "burner-lf.flame"), ==, 1);
  g_assert_cmpfloat (at (&b, 11, "burner-lf.flame"), ==, 0);
  g_assert_cmpfloat (at (&b, 19, "burner-rf.flame"), ==, 1);
  g_assert_cmpfloat (at (&b, 25, "burner-rf.flame"), ==, 0);
  g_assert_cmpfloat (at (&b, 25, "burner-rf.gas"), <, 1e-9);
}

/* Natural gas, discharge 0.90, 5 in. w.c.: 0.0520 in 9,500, 0.0377 5,000, 0.0653 15,000 Btu/h. */
static void
jets_give_their_rated_heat (void)
{
  const struct
  {
    const char *place;
    double btu;
  } rated[] = { { "lf", 9500 }, { "lr", 5000 }, { "rf", 15000 }, { "rr", 9500 } };

  for (guint k = 0; k < G_N_ELEMENTS (rated); k++)
    {
      g_auto (Bench) b = light_one (0, rated[k].place, 120);
      double heat = at_of (&b, 6, "burner", rated[k].place, "heat") / BTU_PER_HOUR;

      g_assert_cmpfloat (fabs (heat / rated[k].btu - 1), <, 0.04);
    }
}

static void
the_knob_throttles_steadily_to_a_small_flame (void)
{
  double last = INFINITY;
  double high = 0;

  for (int travel = 35; travel <= 100; travel += 5)
    {
      g_autofree char *list = g_strdup_printf ("1s knob-lf=light|4s knob-lf=%d %%", travel);
      g_auto (Bench) b = bench_open ("dial-four", list);
      double heat = at (&b, 6, "burner-lf.heat");

      g_assert_cmpfloat (at (&b, 6, "burner-lf.flame"), ==, 1);
      g_assert_cmpfloat (heat, <, last);
      high = travel == 35 ? heat : high;
      last = heat;
    }
  g_assert_cmpfloat (last / high, >, 0.08);
  g_assert_cmpfloat (last / high, <, 0.20);
}

static double
heat_of_lf (const char *list, double *yellow, double *lift)
{
  g_auto (Bench) b = bench_open ("dial-four", list);

  case_add_list (b.acts, "0s knob-lf=light");
  g_assert_cmpfloat (at (&b, 6, "burner-lf.flame"), ==, 1);
  *yellow = at (&b, 6, "burner-lf.yellow");
  *lift = at (&b, 6, "burner-lf.lift");
  return at (&b, 6, "burner-lf.heat");
}

/* Heat goes with the jet's area, the root of pressure and density, and the gas's own heat. */
static void
jets_for_the_other_gas_burn_big_and_yellow_or_small_and_lifting (void)
{
  double yellow, lift;
  double rated = heat_of_lf ("", &yellow, &lift);
  double right = heat_of_lf (
      "house.fuel=lp|regulator.set-pressure=10 inH2O|burner-lf.orifice=0.0354 in", &yellow, &lift);

  g_assert_cmpfloat (fabs (right / rated - 1), <, 0.05);
  g_assert_cmpfloat (yellow, <, 0.05);
  g_assert_cmpfloat (lift, <, 0.05);
  double big = heat_of_lf ("house.fuel=lp|regulator.set-pressure=10 inH2O", &yellow, &lift);
  g_assert_cmpfloat (fabs (big / rated - 2.15), <, 0.05);
  g_assert_cmpfloat (yellow, >, 0.5);
  double small = heat_of_lf ("burner-lf.orifice=0.0354 in", &yellow, &lift);
  g_assert_cmpfloat (fabs (small / rated - 0.465), <, 0.01);
  g_assert_cmpfloat (lift, >, 0.5);
}

/* ---- Faults ---- */

static void
a_stuck_switch_sparks_all_with_knobs_off (void)
{
  g_auto (Bench) b = bench_open ("dial-four", "switch-rf:stuck-closed");

  for (int e = 0; dial_places[e] != NULL; e++)
    g_assert_cmpfloat (at_of (&b, 30, "electrode", dial_places[e], "sparks"), >, 60);
  g_assert_cmpfloat (at (&b, 30, "burner-lf.flame"), ==, 0);
}

static void
an_open_switch_leaves_its_electrode_to_the_others (void)
{
  g_auto (Bench) b = bench_open ("dial-four", "switch-lr:open|1s knob-lr=light|20s knob-lf=light");

  g_assert_cmpfloat (at (&b, 20, "electrode-lr.sparks"), ==, 0);
  g_assert_cmpfloat (at (&b, 20, "burner-lr.flame"), ==, 0);
  g_assert_cmpfloat (at (&b, 25, "electrode-lr.sparks"), >, 5);
  g_assert_cmpfloat (at (&b, 25, "burner-lr.flame"), ==, 1);
}

static void
a_dead_module_is_dead_with_volts_at_its_input (void)
{
  g_auto (Bench) b = bench_open ("dial-four", "module:dead|1s knob-lf=light");

  g_assert_cmpfloat (at (&b, 10, "module.volts"), >, 118);
  g_assert_cmpfloat (at (&b, 10, "electrode-lf.sparks"), ==, 0);
  g_assert_cmpfloat (at (&b, 10, "burner-lf.flame"), ==, 0);
}

static void
a_dead_output_silences_one_electrode (void)
{
  g_auto (Bench) b
      = bench_open ("board-five", "module:output-c-dead|1s knob-c=light|20s knob-lf=light");

  g_assert_cmpfloat (at (&b, 10, "electrode-c.sparks"), ==, 0);
  g_assert_cmpfloat (at (&b, 10, "burner-c.flame"), ==, 0);
  g_assert_cmpfloat (at (&b, 10, "electrode-lf.sparks"), >, 15);
  g_assert_cmpfloat (at (&b, 25, "burner-lf.flame"), ==, 1);
}

/* A range without a center burner has no output for one that could die. */
static void
an_output_without_a_lead_cannot_die (void)
{
  g_auto (Bench) b = bench_open ("dial-four", "");
  g_autoptr (GError) error = NULL;

  g_assert_false (hob_case_fault (b.acts, "module:output-c-dead", &error));
  g_assert_error (error, HOB_ERROR, HOB_ERROR_NAME);
}

/* Where beats stay out, the gaps between sparks are whole beats; counted one by one they are as
 * many as the share says, and the same for all electrodes. */
static void
a_worn_module_misses_beats_by_the_seed (void)
{
  double counts[2];

  for (int seed = 0; seed < 2; seed++)
    {
      g_auto (Bench) b = bench_open ("dial-four", "module:irregular|0s knob-lf=light");

      b.acts->seed = (guint64)seed;
      counts[seed] = at (&b, 300, "electrode-lf.sparks");
      g_assert_cmpfloat (counts[seed], ==, at (&b, 300, "electrode-rr.sparks"));
      g_assert_cmpfloat (counts[seed] / (300 * 2.948), >, 0.44);
      g_assert_cmpfloat (counts[seed] / (300 * 2.948), <, 0.56);
      int longest = 0, still = 0;
      for (double t = 0, last = 0; t < 60; t += 0.25)
        {
          double sparks = at (&b, t, "electrode-lf.sparks");

          still = sparks == last ? still + 1 : 0;
          longest = MAX (longest, still);
          last = sparks;
        }
      g_assert_cmpint (longest, >=, 4); /* a second of silence: three beats and more */
    }
  g_assert_cmpfloat (counts[0], !=, counts[1]);
}

static void
a_cracked_electrode_ticks_unseen_and_lights_nothing (void)
{
  for (int tenths = 1; tenths <= 10; tenths += 3)
    {
      g_autofree char *list
          = with_number ("electrode-lf:cracked=", tenths / 10.0, "|1s knob-lf=light");
      g_auto (Bench) b = bench_open ("dial-four", list);

      g_assert_cmpfloat (at (&b, 20, "electrode-lf.sparks"), ==, 0);
      g_assert_cmpfloat (at (&b, 20, "electrode-lf.ticking"), >, 2);
      g_assert_cmpfloat (at (&b, 20, "burner-lf.flame"), ==, 0);
      g_assert_cmpfloat (at (&b, 20, "electrode-rr.sparks"), >, 40);
    }
}

/* 15 kV reach over a gap of 9 mm and no longer over one of 10; severity 0…1 is 6…14 mm. */
static void
a_gap_fails_between_nine_and_ten_millimetres (void)
{
  const double millimetres[] = { 6.1, 9, 10, 10.8, 14 };

  for (guint k = 0; k < G_N_ELEMENTS (millimetres); k++)
    {
      g_autofree char *list
          = with_number ("electrode-lf:gap-wide=", (millimetres[k] - 6) / 8, "|1s knob-lf=light");
      g_auto (Bench) b = bench_open ("dial-four", list);
      gboolean sparks = millimetres[k] < 9.5;

      g_assert_true ((at (&b, 10, "electrode-lf.sparks") > 0) == sparks);
      g_assert_cmpfloat (at (&b, 10, "burner-lf.flame"), ==, sparks);
    }
}

static void
the_typical_wide_gap_is_too_wide (void)
{
  g_auto (Bench) b = bench_open ("dial-four", "electrode-lf:gap-wide|1s knob-lf=light");

  g_assert_cmpfloat (at (&b, 10, "electrode-lf.sparks"), ==, 0);
}

/* ---- A wet switch ---- */

#define KITCHEN "house.temperature=22 degC|house.humidity=0.5|"

static double
dry_after (Bench *b, double within)
{
  for (double t = 0; t < within; t += 60)
    if (at (b, t, "switch-lf.water") < 0.02)
      return t / 3600;
  return INFINITY;
}

static void
a_wet_switch_sparks_with_knobs_off_slowly_and_unevenly (void)
{
  g_auto (Bench) b = bench_open ("dial-four", KITCHEN "switch-lf:wet");
  double least = INFINITY, most = 0, sum = 0;

  for (int k = 0; k < 60; k++)
    {
      double rate = at (&b, 4000 + 10 * k, "module.rate");

      least = MIN (least, rate);
      most = MAX (most, rate);
      sum += rate;
    }
  g_assert_cmpfloat (sum / 60, >, 0.3);
  g_assert_cmpfloat (sum / 60, <, 2.4);
  g_assert_cmpfloat (most, >, 1.5 * least);
}

/* Volts at the line's frequency at the input of a cell of 47 kΩ, 1 µF, 10 MΩ and 130 V behind @ohms
 * on 120 V, instant by instant: the mean over 20 s. */
static double
volts_of_a_cell_behind (double ohms)
{
  const double dt = 1. / 60 / 400;
  double charge = 0, in_phase = 0, held = 0;
  int n = (int) (20 / dt);

  for (int k = 0; k < n; k++)
    {
      double wave = sin (2 * G_PI * 60 * k * dt), amps;

      amps = fmax (120 * G_SQRT2 * wave - charge, 0) / (47e3 + ohms);
      in_phase += amps * wave;
      charge += dt * (amps - charge / 10e6) / 1e-6;
      if (charge >= 130)
        charge = 0;
      held += charge;
    }
  g_test_message ("%.0f ohm: the capacitor holds %.0f V in the mean", ohms, held / n);
  return 120 - ohms * G_SQRT2 * in_phase / n;
}

/* The less often the cell fires the less it takes, so that no film of water takes away its volts.
 * They follow the film, which wanders, within a second: one reading is off by what it wandered. */
static void
behind_a_wet_switch_the_module_has_nearly_the_line_s_volts (void)
{
  g_auto (Bench) b = bench_open ("dial-four", KITCHEN "switch-lf:wet");
  double least = INFINITY, most = 0, off = 0;
  int n = 0;

  for (double t = 30; t < 12000; t += 300, n++)
    {
      double volts = at (&b, t, "module.volts"), film = at (&b, t, "switch-lf.film-ohms");
      double far = volts - volts_of_a_cell_behind (film);

      g_assert_cmpfloat (fabs (far), <, 5);
      off += far;
      least = fmin (least, film);
      most = fmax (most, film);
      if (at (&b, t, "module.rate") > 0)
        g_assert_cmpfloat (volts, >, 98);
    }
  g_assert_cmpfloat (fabs (off) / n, <, 1);
  g_assert_cmpfloat (least, <, 30e3);
  g_assert_cmpfloat (most, >, 200e3);
}

static void
a_wet_switch_dries_in_three_to_four_hours (void)
{
  g_auto (Bench) plugged = bench_open ("dial-four", KITCHEN "switch-lf:wet");
  g_auto (Bench) unplugged
      = bench_open ("dial-four", KITCHEN "switch-lf:wet|0s cord.plug=out|15000s cord.plug=in");
  double warm = dry_after (&plugged, 5 * 3600), cold = dry_after (&unplugged, 5 * 3600);

  g_test_message ("dry after %.2f h plugged in, %.2f h unplugged", warm, cold);
  g_assert_cmpfloat (warm, >, 3);
  g_assert_cmpfloat (cold, <, 4);
  g_assert_cmpfloat (warm, <, cold);
  g_assert_cmpfloat (at (&plugged, 2.5 * 3600, "module.rate"), >, 0);
  g_assert_cmpfloat (at (&plugged, 4 * 3600, "module.rate"), ==, 0);
  g_assert_cmpfloat (at (&unplugged, 4 * 3600, "electrode-lf.sparks"), ==, 0);
  g_assert_cmpfloat (at (&unplugged, 5 * 3600, "electrode-lf.sparks"), ==, 0);
}

static void
a_dry_warm_kitchen_dries_it_sooner (void)
{
  g_auto (Bench) mild = bench_open ("dial-four", KITCHEN "switch-lf:wet");
  g_auto (Bench) warm
      = bench_open ("dial-four", "house.temperature=30 degC|house.humidity=0.3|switch-lf:wet");
  g_auto (Bench) damp = bench_open (
      "dial-four", "house.temperature=22 degC|house.humidity=1|switch-lf:wet|0s cord.plug=out");

  g_assert_cmpfloat (dry_after (&warm, 5 * 3600), <, 0.6 * dry_after (&mild, 5 * 3600));
  g_assert_true (isinf (dry_after (&damp, 5 * 3600)));
}

/* Salt or sugar stays and holds some water: at the worst the dried switch still leaks enough to
 * spark now and then. */
static void
what_a_spill_leaves_goes_on_leaking (void)
{
  g_auto (Bench) clean = bench_open ("dial-four", KITCHEN "switch-lf:wet=0.05");
  g_auto (Bench) sweet = bench_open ("dial-four", KITCHEN "switch-lf:wet=1");

  g_assert_cmpfloat (at (&clean, 6 * 3600, "module.rate"), ==, 0);
  g_assert_cmpfloat (at (&clean, 6 * 3600, "switch-lf.water"), <, 0.01);
  g_assert_cmpfloat (at (&sweet, 6 * 3600, "switch-lf.water"), <, 0.12);
  g_assert_cmpfloat (at (&sweet, 6 * 3600, "module.rate"), >, 0.1);
}

static void
a_spill_counts_from_when_it_happens (void)
{
  g_auto (Bench) b = bench_open ("dial-four", KITCHEN "switch-lf:wet@100s");

  g_assert_cmpfloat (at (&b, 99, "module.rate"), ==, 0);
  g_assert_cmpfloat (at (&b, 101, "switch-lf.water"), >, 0.99);
  g_assert_cmpfloat (at (&b, 101, "module.rate"), >, 1);
}

/* ---- The house's protection: a bare circuit ---- */

#define SHORT_HEAD                                                                                 \
  "<range format='1' id='bare' name='Bare' plate='natural-gas'><part id='house' kind='house'/>"    \
  "<part id='chassis' kind='chassis'/><part id='person' kind='person'/>"                           \
  "<wire id='w0' from='person.hand' to='chassis.body' colour='GY' gauge='18 AWG' length='0.1 m'/>"

static Bench
bare (const char *xml)
{
  g_autoptr (GError) error = NULL;
  g_autofree char *whole = g_strconcat (SHORT_HEAD, xml, "</range>", NULL);
  g_autoptr (HobRange) range
      = hob_range_load_memory (whole, strlen (whole), "bare.xml", NULL, &error);

  g_assert_no_error (error);
  return bench_of_plan (hob_plan_new (range));
}

/* Breaker into a lamp that takes @times of its rating. */
static double
trip_time (double times, double within)
{
  g_autofree char *xml = with_number (
      "<part id='breaker' kind='breaker'><set name='rating' value='1 A'/></part>"
      "<part id='load' kind='light'><set name='ohms' value='",
      120 / times,
      " ohm'/></part>"
      "<wire id='w1' from='house.line' to='breaker.a' colour='BK' gauge='12 AWG' length='0.1 m'/>"
      "<wire id='w2' from='breaker.b' to='load.a' colour='BK' gauge='12 AWG' length='0.1 m'/>"
      "<wire id='w3' from='load.b' to='house.neutral' colour='WH' gauge='12 AWG' length='0.1 m'/>");
  g_auto (Bench) b = bare (xml);

  bench_run (&b, within);
  return change (&b, "breaker", "tripped", 1, -1);
}

/* UL 489: holds its rating; trips within 1 h at 135%, within 2 min at 200%. */
static void
the_breaker_keeps_its_times (void)
{
  g_assert_true (isinf (trip_time (0.99, 7200)));
  g_assert_cmpfloat (trip_time (1.35, 7200), <, 3600);
  g_assert_cmpfloat (trip_time (1.35, 7200), >, 60);
  g_assert_cmpfloat (trip_time (2, 600), <, 120);
  g_assert_cmpfloat (trip_time (2, 600), >, 10);
  g_assert_cmpfloat (trip_time (2, 600), <, trip_time (1.35, 7200));
}

static void
a_tripped_breaker_stays_off_until_it_is_set_again (void)
{
  g_auto (Bench) b = bare (
      "<part id='breaker' kind='breaker'><set name='rating' value='1 A'/></part>"
      "<part id='load' kind='light'><set name='ohms' value='50 ohm'/></part>"
      "<wire id='w1' from='house.line' to='breaker.a' colour='BK' gauge='12 AWG' length='0.1 m'/>"
      "<wire id='w2' from='breaker.b' to='load.a' colour='BK' gauge='12 AWG' length='0.1 m'/>"
      "<wire id='w3' from='load.b' to='house.neutral' colour='WH' gauge='12 AWG' length='0.1 m'/>");

  case_add_list (b.acts, "600s breaker=off|610s breaker=on");
  g_assert_cmpfloat (at (&b, 599, "breaker.tripped"), ==, 1);
  g_assert_cmpfloat (at (&b, 599, "load.current"), <, 1e-6);
  g_assert_cmpfloat (at (&b, 611, "breaker.tripped"), ==, 0);
  g_assert_cmpfloat (at (&b, 611, "load.current"), >, 2);
}

/* On a bench, say: without a lead at any output its cell charges and fires as it does with them. */
static void
a_module_without_leads_beats (void)
{
  g_auto (Bench) b = bare (
      "<part id='breaker' kind='breaker'/><part id='module' kind='spark-module'/>"
      "<wire id='w1' from='house.line' to='breaker.a' colour='BK' gauge='12 AWG' length='0.1 m'/>"
      "<wire id='w2' from='breaker.b' to='module.in' colour='BK' gauge='12 AWG' length='0.1 m'/>"
      "<wire id='w3' from='module.neutral' to='house.neutral' colour='WH' gauge='12 AWG' "
      "length='0.1 m'/>");

  case_add_list (b.acts, "10s breaker=off");
  g_assert_cmpfloat (at (&b, 5, "module.rate"), >, 2);
  g_assert_cmpfloat (at (&b, 5, "module.rate"), <, 5);
  g_assert_cmpfloat (at (&b, 11, "module.rate"), ==, 0);
}

/* Interrupter with a lamp behind it, and from second 1 on @ohms from its line to earth. */
static Bench
leaking (double ohms)
{
  g_autofree char *xml = with_number (
      "<part id='gfi' kind='interrupter'/>"
      "<part id='leak' kind='person'><set name='ohms' value='",
      ohms,
      " ohm'/></part><part id='load' kind='light'/>"
      "<wire id='w1' from='house.line' to='gfi.line-in' colour='BK' gauge='12 AWG' length='0.1 m'/>"
      "<wire id='w2' from='house.neutral' to='gfi.neutral-in' colour='WH' gauge='12 AWG' "
      "length='0.1 m'/>"
      "<wire id='w3' from='gfi.line' to='leak.hand' colour='BK' gauge='12 AWG' length='0.1 m'/>"
      "<wire id='w4' from='gfi.line' to='load.a' colour='BK' gauge='12 AWG' length='0.1 m'/>"
      "<wire id='w5' from='load.b' to='gfi.neutral' colour='WH' gauge='12 AWG' length='0.1 m'/>");
  Bench b = bare (xml);

  case_add_list (b.acts, "1s leak=chassis");
  return b;
}

/* UL 943: not under 4 mA, at 6 mA and above within (20/I)^1.43 s, I in mA.  It takes a coil and a
 * mainspring some time all the same. */
static void
the_interrupter_keeps_its_times (void)
{
  const double milliamperes[] = { 6, 10, 30, 100, 250 };

  for (guint k = 0; k < G_N_ELEMENTS (milliamperes); k++)
    {
      g_auto (Bench) b = leaking (120e3 / milliamperes[k]);
      double longest = pow (20 / milliamperes[k], 1.43);

      bench_run (&b, 30);
      double after = change (&b, "gfi", "tripped", 1, 0) - 1;
      g_assert_cmpfloat (after, <=, longest * 1.01);
      g_assert_cmpfloat (after, >, 0.02);
    }
  g_auto (Bench) little = leaking (120e3 / 3.9);
  bench_run (&little, 120);
  g_assert_true (isinf (change (&little, "gfi", "tripped", 1, 0)));
}

static void
every_interrupter_trips_from_between_four_and_six_milliamperes (void)
{
  int below = 0, above = 0;

  for (guint64 seed = 1; seed <= 40; seed++)
    for (int ma = 39; ma <= 61; ma += 11)
      {
        g_auto (Bench) b = leaking (120e4 / ma);

        b.acts->seed = seed;
        bench_run (&b, 60);
        gboolean trips = isfinite (change (&b, "gfi", "tripped", 1, 0));
        g_assert_true (ma != 39 || !trips);
        g_assert_true (ma != 61 || trips);
        below += ma == 50 && trips;
        above += ma == 50 && !trips;
      }
  g_assert_cmpint (below, >, 5);
  g_assert_cmpint (above, >, 5);
}

static void
a_hand_feels_what_leaks_to_an_ungrounded_chassis (void)
{
  g_auto (Bench) b = bare (
      "<part id='leak' kind='light'><set name='ohms' value='5000 ohm'/></part>"
      "<wire id='w1' from='house.line' to='leak.a' colour='BK' gauge='18 AWG' length='0.1 m'/>"
      "<wire id='w2' from='leak.b' to='chassis.body' colour='BK' gauge='18 AWG' length='0.1 m'/>"
      "<part id='load' kind='light'/>"
      "<wire id='w3' from='house.line' to='load.a' colour='BK' gauge='18 AWG' length='0.1 m'/>"
      "<wire id='w4' from='load.b' to='house.neutral' colour='WH' gauge='18 AWG' length='0.1 m'/>");

  case_add_list (b.acts, "1s person=chassis");
  g_assert_cmpfloat (at (&b, 0.5, "person.felt"), ==, 0);
  g_assert_cmpfloat (at (&b, 0.5, "chassis.volts"), >, 100);
  /* 120 V over 5 kΩ and 2 kΩ */
  g_assert_cmpfloat (at (&b, 2, "person.felt"), >, 0.5e-3);
  g_assert_cmpfloat (fabs (at (&b, 2, "person.felt") - 120.0 / 7000), <, 0.02 * 120 / 7000);
}

static void
a_healthy_range_does_not_tingle (void)
{
  g_auto (Bench) b
      = bench_open ("dial-four", "0s person=chassis|0s oven.mode=bake|0s knob-lf=light");

  g_assert_cmpfloat (at (&b, 120, "person.felt"), <, 0.1e-3);
}

/* What strays bring onto a body that floats is felt by a meter, hardly by a hand. */
static void
unplugged_nothing_is_live (void)
{
  g_auto (Bench) b
      = bench_open ("dial-four", "0s cord.plug=out|0s knob-lf=light|0s oven.mode=bake");

  g_assert_cmpfloat (at (&b, 60, "module.volts"), <, 0.1);
  g_assert_cmpfloat (at (&b, 60, "igniter-bake.current"), <, 1e-6);
  g_assert_cmpfloat (at (&b, 60, "receptacle.volts"), >, 119);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
#define SAYS(suite, what) g_test_add_func ("/" suite "/" #what, what)
  SAYS ("kind", modes_have_a_phrase_for_off_and_on_or_none);
  SAYS ("kind", every_entry_is_put_in_words);
  SAYS ("kind", controls_start_and_stand_within_their_span);
  SAYS ("kind", faults_keep_settings_within_their_span);
  SAYS ("kind", guards_have_what_carries_them_out);
  SAYS ("symbol", wires_and_pipes_end_on_the_edge_of_symbols);
  SAYS ("symbol", symbols_stay_within_their_boxes);
  SAYS ("spark", any_one_switch_makes_all_electrodes_spark);
  SAYS ("spark", the_beat_follows_the_line);
  SAYS ("spark", a_module_without_leads_beats);
  SAYS ("spark", nothing_sparks_with_all_knobs_off);
  SAYS ("spark", sparks_end_at_high_and_at_off);
  SAYS ("spark", the_switch_closes_on_the_way_back_too);
  SAYS ("burner", only_the_burner_with_gas_lights_and_within_four_seconds);
  SAYS ("burner", top_burners_light_without_a_sound);
  SAYS ("burner", flames_go_out_with_the_gas);
  SAYS ("burner", jets_give_their_rated_heat);
  SAYS ("burner", jets_for_the_other_gas_burn_big_and_yellow_or_small_and_lifting);
  SAYS ("burner", the_knob_throttles_steadily_to_a_small_flame);
  SAYS ("fault", a_stuck_switch_sparks_all_with_knobs_off);
  SAYS ("fault", an_open_switch_leaves_its_electrode_to_the_others);
  SAYS ("fault", a_dead_module_is_dead_with_volts_at_its_input);
  SAYS ("fault", a_dead_output_silences_one_electrode);
  SAYS ("fault", an_output_without_a_lead_cannot_die);
  SAYS ("fault", a_worn_module_misses_beats_by_the_seed);
  SAYS ("fault", a_cracked_electrode_ticks_unseen_and_lights_nothing);
  SAYS ("fault", a_gap_fails_between_nine_and_ten_millimetres);
  SAYS ("fault", the_typical_wide_gap_is_too_wide);
  SAYS ("wet", a_wet_switch_sparks_with_knobs_off_slowly_and_unevenly);
  SAYS ("wet", behind_a_wet_switch_the_module_has_nearly_the_line_s_volts);
  SAYS ("wet", a_wet_switch_dries_in_three_to_four_hours);
  SAYS ("wet", a_dry_warm_kitchen_dries_it_sooner);
  SAYS ("wet", what_a_spill_leaves_goes_on_leaking);
  SAYS ("wet", a_spill_counts_from_when_it_happens);
  SAYS ("house", the_breaker_keeps_its_times);
  SAYS ("house", a_tripped_breaker_stays_off_until_it_is_set_again);
  SAYS ("house", the_interrupter_keeps_its_times);
  SAYS ("house", every_interrupter_trips_from_between_four_and_six_milliamperes);
  SAYS ("house", a_hand_feels_what_leaks_to_an_ungrounded_chassis);
  SAYS ("house", a_healthy_range_does_not_tingle);
  SAYS ("house", unplugged_nothing_is_live);
  return g_test_run ();
}
