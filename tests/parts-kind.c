/* SPDX-License-Identifier: GPL-3.0-or-later */

/* Kinds: their names, and what may be written for their settings and controls. */

#include "base/errors.h"
#include "base/hash.h"
#include "parts/kind.h"

#include <math.h>
#include <string.h>

#define EACH_KIND(k) (const HobKind *const *k = hob_kinds; *k != NULL; k++)

/* ---- Names ---- */

static void
every_kind_is_found_by_its_name (void)
{
  g_autofree const char **names = hob_kind_names ();
  guint n = 0;

  for
    EACH_KIND (k)
    {
      g_assert_true (hob_kind_find ((*k)->name) == *k);
      g_assert_cmpstr (names[n], ==, (*k)->name);
      if (n > 0)
        g_assert_cmpstr (names[n - 1], <, names[n]);
      n++;
    }
  g_assert_cmpuint (n, >, 5);
  g_assert_null (names[n]);
}

static void
an_unknown_kind_is_none (void)
{
  g_assert_null (hob_kind_find (""));
  g_assert_null (hob_kind_find ("igniter"));
  g_assert_null (hob_kind_find ("igniter-flat "));
  g_assert_null (hob_kind_find ("zzz"));
}

static void
names_within_a_kind_are_found (void)
{
  const HobKind *igniter = hob_kind_find ("igniter-flat");

  g_assert_cmpint (hob_kind_terminal (igniter, "a"), ==, 0);
  g_assert_cmpint (hob_kind_terminal (igniter, "b"), ==, 1);
  g_assert_cmpint (hob_kind_terminal (igniter, "c"), ==, -1);
  g_assert_cmpint (hob_kind_port (igniter, "in"), ==, -1);
  g_assert_cmpstr (igniter->settings[hob_kind_setting (igniter, "resistance-factor")].name, ==,
                   "resistance-factor");
  g_assert_cmpstr (igniter->faults[hob_kind_fault (igniter, "aged")].id, ==, "aged");
  g_assert_cmpstr (igniter->quantities[hob_kind_quantity (igniter, "current")].name, ==, "current");
  g_assert_cmpint (hob_kind_control (igniter, ""), ==, -1);
  g_assert_cmpint (hob_kind_mode (igniter, "contact"), ==, -1);
}

/* ---- Tables ---- */

static void
assert_name (const char *kind, const char *name)
{
  g_assert_nonnull (name);
  if (*name == '\0')
    g_error ("%s: an entry without a name", kind);
  for (const char *p = name; *p != '\0'; p++)
    if (!g_ascii_islower (*p) && !g_ascii_isdigit (*p) && *p != '-')
      g_error ("%s: '%s' is no name", kind, name);
}

#define ASSERT_NAMES(kind, table, find)                                                            \
  for (int i_ = 0; i_ < (kind)->n_##table; i_++)                                                   \
    {                                                                                              \
      assert_name ((kind)->name, (kind)->table[i_].name);                                          \
      g_assert_cmpint (find ((kind), (kind)->table[i_].name), ==, i_);                             \
    }

static void
names_are_plain_and_stand_once (void)
{
  for
    EACH_KIND (k)
    {
      assert_name ("kinds", (*k)->name);
      ASSERT_NAMES (*k, terminals, hob_kind_terminal);
      ASSERT_NAMES (*k, ports, hob_kind_port);
      ASSERT_NAMES (*k, settings, hob_kind_setting);
      ASSERT_NAMES (*k, quantities, hob_kind_quantity);
      ASSERT_NAMES (*k, modes, hob_kind_mode);
      for (int i = 0; i < (*k)->n_faults; i++)
        {
          assert_name ((*k)->name, (*k)->faults[i].id);
          g_assert_cmpint (hob_kind_fault (*k, (*k)->faults[i].id), ==, i);
        }
      for (int i = 0; i < (*k)->n_controls; i++)
        g_assert_cmpint (hob_kind_control (*k, (*k)->controls[i].name), ==, i);
    }
}

/* Does what quantity @from moves, or what that moves, move @to? */
static gboolean
moves (const HobKind *kind, int from, int to, int depth)
{
  g_assert_cmpint (depth, <=, kind->n_links);
  for (int k = 0; k < kind->n_links; k++)
    if (kind->links[k].from == from
        && (kind->links[k].to == to
            || (kind->links[k].to >= 0 && moves (kind, kind->links[k].to, to, depth + 1))))
      return TRUE;
  return FALSE;
}

/* Whoever goes from what is moved to what moves it comes to an end. */
static void
nothing_moves_itself (void)
{
  for
    EACH_KIND (k)
  for (int q = 0; q < (*k)->n_quantities; q++)
    g_assert_false (moves (*k, q, q, 0));
}

static void
terminals_and_ports_have_different_names (void)
{
  for
    EACH_KIND (k)
  for (int i = 0; i < (*k)->n_terminals; i++)
    g_assert_cmpint (hob_kind_port (*k, (*k)->terminals[i].name), ==, -1);
}

static void
settings_begin_within_their_span (void)
{
  for
    EACH_KIND (k)
  for (int i = 0; i < (*k)->n_settings; i++)
    {
      const HobSettingDef *s = &(*k)->settings[i];

      if (s->dim == HOB_DIM_CHOICE)
        {
          g_assert_nonnull (s->choices);
          g_assert_cmpfloat (s->normal, <, g_strv_length ((char **) s->choices));
        }
      else if (!(s->normal >= s->low && s->normal <= s->high && s->low < s->high))
        g_error ("%s.%s: %g is not within %g and %g", (*k)->name, s->name, s->normal, s->low,
                 s->high);
      g_assert_true (s->words != NULL && *s->words != '\0');
    }
}

static void
faults_change_settings_that_are_there (void)
{
  for
    EACH_KIND (k)
  for (int i = 0; i < (*k)->n_faults; i++)
    {
      const HobFaultDef *f = &(*k)->faults[i];

      g_assert_cmpint (f->n_effects, >, 0);
      g_assert_cmpint (f->needs, >=, 0);
      g_assert_cmpint (f->needs, <=, (*k)->n_terminals);
      g_assert_cmpfloat (f->prior, >, 0);
      g_assert_true (f->typical >= 0 && f->typical <= 1);
      g_assert_true (f->words != NULL && f->proof != NULL);
      for (int e = 0; e < f->n_effects; e++)
        g_assert_true (f->effects[e].setting >= 0 && f->effects[e].setting < (*k)->n_settings);
    }
}

static void
branches_run_between_terminals_that_are_there (void)
{
  for
    EACH_KIND (k)
    {
      for (int i = 0; i < (*k)->n_elements; i++)
        {
          g_assert_cmpint ((*k)->elements[i].a, <, (*k)->n_terminals);
          g_assert_cmpint ((*k)->elements[i].b, <, (*k)->n_terminals);
          g_assert_cmpint ((*k)->elements[i].a, !=, (*k)->elements[i].b);
        }
      for (int i = 0; i < (*k)->n_ducts; i++)
        {
          g_assert_cmpint ((*k)->ducts[i].a, <, (*k)->n_ports);
          g_assert_cmpint ((*k)->ducts[i].b, <, (*k)->n_ports);
          g_assert_cmpint ((*k)->ducts[i].a, !=, (*k)->ducts[i].b);
        }
      g_assert_cmpint ((*k)->figure, <, (*k)->n_quantities);
    }
}

/* ---- Controls ---- */

static void
assert_survives (const HobControlDef *control, double value)
{
  g_autofree char *text = hob_control_text (control, value);
  g_autoptr (GError) error = NULL;
  double again = NAN;

  g_assert_true (hob_control_parse (control, text, &again, &error));
  g_assert_no_error (error);
  g_assert_cmpfloat_with_epsilon (again, value, 1e-8 * MAX (1, fabs (value)));
}

static void
every_control_survives_print_and_parse (void)
{
  guint n = 0;

  for
    EACH_KIND (k)
  for (int i = 0; i < (*k)->n_controls; i++)
    {
      const HobControlDef *c = &(*k)->controls[i];

      for (const HobPosition *p = c->positions; p != NULL && p->name != NULL; p++)
        assert_survives (c, p->value);
      for (int step = 0; c->dim != HOB_DIM_CHOICE && step <= 7; step++)
        assert_survives (c, c->low + (c->high - c->low) * step / 7.0);
      n++;
    }
  g_assert_cmpuint (n, >, 0);
}

static const HobPosition stem_positions[] = { { "off", "OFF", 0 },
                                              { "light", "LIGHT", 20 },
                                              { "high", "HIGH", 35 },
                                              { "low", "LOW", 100 },
                                              { NULL } };
static const HobControlDef stem
    = { "", "stem", HOB_DIM_NUMBER, stem_positions, 0, 100, 0, HOB_EXERCISE_NONE };
static const HobPosition mode_positions[]
    = { { "off", "OFF", 0 }, { "bake", "BAKE", 1 }, { "broil", "BROIL", 2 }, { NULL } };
static const HobControlDef selector
    = { "mode", "mode", HOB_DIM_CHOICE, mode_positions, 0, 2, 0, HOB_EXERCISE_NONE };
static const HobControlDef dial
    = { "dial", "dial", HOB_DIM_TEMPERATURE, NULL, 300, 600, 450, HOB_EXERCISE_NONE };

static double
position (const HobControlDef *control, const char *text)
{
  g_autoptr (GError) error = NULL;
  double value = NAN;

  g_assert_true (hob_control_parse (control, text, &value, &error));
  g_assert_no_error (error);
  return value;
}

static void
assert_refused (const HobControlDef *control, const char *text, const char *because)
{
  g_autoptr (GError) error = NULL;
  double value = -7;

  g_assert_false (hob_control_parse (control, text, &value, &error));
  g_assert_error (error, HOB_ERROR, HOB_ERROR_VALUE);
  g_assert_cmpfloat (value, ==, -7);
  if (strstr (error->message, because) == NULL)
    g_error ("'%s' says \"%s\", not \"%s\"", text, error->message, because);
}

static void
a_stem_takes_words_and_per_cent (void)
{
  g_assert_cmpfloat (position (&stem, "light"), ==, 20);
  g_assert_cmpfloat (position (&stem, " low "), ==, 100);
  g_assert_cmpfloat (position (&stem, "62 %"), ==, 62);
  g_assert_cmpfloat (position (&stem, "62%"), ==, 62);
  g_assert_cmpfloat (position (&stem, "62"), ==, 62);
  g_assert_cmpfloat (position (&stem, "0"), ==, 0);
  assert_refused (&stem, "101", "0");
  assert_refused (&stem, "-1 %", "0 % to 100 %");
  assert_refused (&stem, "ligth", "did you mean 'light'");
  assert_refused (&stem, "1,5", "decimal point");
  assert_refused (&stem, "nan", "off, light, high, low");
}

static void
a_selector_takes_its_words_only (void)
{
  g_assert_cmpfloat (position (&selector, "broil"), ==, 2);
  assert_refused (&selector, "bak", "did you mean 'bake'");
  assert_refused (&selector, "1", "off, bake, broil");
  assert_refused (&selector, "", "off, bake, broil");
}

static void
a_dial_takes_temperatures_with_their_unit (void)
{
  g_assert_cmpfloat_with_epsilon (position (&dial, "350 degF"), 449.8166667, 1e-6);
  g_assert_cmpfloat_with_epsilon (position (&dial, "180 degC"), 453.15, 1e-9);
  assert_refused (&dial, "350", "without a unit");
  assert_refused (&dial, "900 degF", "too low or too high");
  g_autofree char *text = hob_control_text (&dial, 350 / 1.8 + 459.67 / 1.8);
  g_assert_cmpstr (text, ==, "350 degF");
}

/* ---- Settings ---- */

static const char *const fuels[] = { "natural-gas", "lp", NULL };
static const HobSettingDef fuel = { "fuel", "fuel", HOB_DIM_CHOICE, 0, 0, 1, fuels, FALSE };
static const HobSettingDef factor = { "factor", "factor", HOB_DIM_NUMBER, 1, 0.5, 10, NULL, FALSE };
static const HobSettingDef pipe_ohms
    = { "ohms", "ohms", HOB_DIM_RESISTANCE, 2, 0.1, INFINITY, NULL, FALSE };
static const HobSettingDef broken = { "broken", "broken", HOB_DIM_NUMBER, 0, 0, 1, NULL, TRUE };

static void
assert_setting (const HobSettingDef *setting, const char *text, double wanted)
{
  g_autoptr (GError) error = NULL;
  double value = NAN;

  g_assert_true (hob_setting_parse (setting, text, &value, &error));
  g_assert_no_error (error);
  g_assert_cmpfloat (value, ==, wanted);
}

static void
assert_setting_refused (const HobSettingDef *setting, const char *text, const char *because)
{
  g_autoptr (GError) error = NULL;
  double value;

  g_assert_false (hob_setting_parse (setting, text, &value, &error));
  g_assert_error (error, HOB_ERROR, HOB_ERROR_VALUE);
  if (strstr (error->message, because) == NULL)
    g_error ("'%s' says \"%s\", not \"%s\"", text, error->message, because);
}

static void
a_setting_stays_within_its_span (void)
{
  assert_setting (&factor, "1.25", 1.25);
  assert_setting (&factor, "0.5", 0.5);
  assert_setting (&factor, "10", 10);
  assert_setting_refused (&factor, "10.001", "0.5 to 10");
  assert_setting_refused (&factor, "0.4", "0.5 to 10");
  assert_setting_refused (&factor, "1e999", "too large");
  assert_setting_refused (&factor, "0x1", "decimal");
}

static void
an_open_circuit_has_a_word (void)
{
  assert_setting (&pipe_ohms, "open", INFINITY);
  assert_setting (&pipe_ohms, "2 kohm", 2000);
  assert_setting_refused (&factor, "open", "number");
  assert_setting_refused (&pipe_ohms, "0.01 ohm", "open");
}

static void
a_choice_is_one_of_its_words (void)
{
  assert_setting (&fuel, "lp", 1);
  assert_setting_refused (&fuel, "natural", "natural-gas, lp");
  assert_setting_refused (&fuel, "natral-gas", "did you mean 'natural-gas'");
  assert_setting_refused (&fuel, "1", "natural-gas, lp");
}

static void
a_condition_is_left_to_faults (void)
{
  assert_setting_refused (&broken, "1", "fault");
}

/* ---- Specimens ---- */

static void
seed_nought_is_the_typical_specimen (void)
{
  HobPartContext c = { .seed = 0, .index = 3 };

  g_assert_cmpfloat (hob_specimen_normal (&c, 0), ==, 0);
  g_assert_cmpfloat (hob_specimen_normal (&c, 9), ==, 0);
}

static void
other_seeds_differ_by_part_and_count_and_never_by_time (void)
{
  const double minute = 60;
  HobPartContext c = { .seed = 7, .index = 3 }, other = { .seed = 7, .index = 4 },
                 later = { .seed = 7, .index = 3, .t = &minute };

  g_assert_cmpfloat (hob_specimen_normal (&c, 0), ==, hob_hash_normal (7, 3, 0));
  g_assert_cmpfloat (hob_specimen_normal (&c, 0), ==, hob_specimen_normal (&later, 0));
  g_assert_cmpfloat (hob_specimen_normal (&c, 0), !=, hob_specimen_normal (&c, 1));
  g_assert_cmpfloat (hob_specimen_normal (&c, 0), !=, hob_specimen_normal (&other, 0));
}

/* A normal distribution cut at ±2 σ has the variance 1 − 4 φ(2) / (2 Φ(2) − 1) = 0.7737
 * (derived). */
static void
no_unit_is_beyond_two_standard_deviations (void)
{
  const int n = 20000;
  double sum = 0, squares = 0, largest = 0;

  for (int k = 0; k < n; k++)
    {
      HobPartContext c = { .seed = (guint64) k + 1, .index = 3 };
      double z = hob_specimen_normal (&c, 0);

      sum += z;
      squares += z * z;
      largest = fmax (largest, fabs (z));
    }
  g_assert_cmpfloat (largest, <=, 2);
  g_assert_cmpfloat (largest, >, 1.99);
  g_assert_cmpfloat_with_epsilon (sum / n, 0, 0.02);
  g_assert_cmpfloat_with_epsilon (squares / n, 0.7737, 0.02);
}

/* ---- What others know of a kind by its flags and fields ---- */

static void
burner_knobs_light_and_burn_at_their_highest (void)
{
  for
    EACH_KIND (k)
  for (int i = 0; i < (*k)->n_controls; i++)
    {
      const HobControlDef *c = &(*k)->controls[i];

      g_assert_cmpint (c->exercise == HOB_EXERCISE_LIGHT, ==, c->role == HOB_CONTROL_KNOB);
      if (c->role != HOB_CONTROL_KNOB)
        {
          g_assert_cmpint (hob_control_position (c, HOB_POSITION_LIGHT), ==, -1);
          continue;
        }
      g_assert_cmpint (hob_control_position (c, HOB_POSITION_OFF), ==, 0);
      g_assert_cmpint (hob_control_position (c, HOB_POSITION_LIGHT), >, 0);
      g_assert_cmpint (hob_control_position (c, HOB_POSITION_FULL), >, 0);
    }
}

static void
calls_are_off_or_for_heat (void)
{
  guint n = 0;

  for
    EACH_KIND (k)
  for (int i = 0; i < (*k)->n_controls; i++)
    {
      const HobControlDef *c = &(*k)->controls[i];

      if (c->exercise != HOB_EXERCISE_CALL)
        continue;
      g_assert_cmpint (c->positions[0].role, ==, HOB_POSITION_OFF);
      for (const HobPosition *p = c->positions + 1; p->name != NULL; p++, n++)
        g_assert_true (p->role == HOB_POSITION_HOLD || p->role == HOB_POSITION_BROIL);
    }
  g_assert_cmpuint (n, >, 3);
}

static void
a_nominal_house_has_120_volts_and_the_fuel_of_the_plate (void)
{
  double volts = NAN, kelvin = NAN, lp = NAN;

  for
    EACH_KIND (k)
  for (int i = 0; i < (*k)->n_settings; i++)
    {
      const HobSettingDef *s = &(*k)->settings[i];
      double nominal = hob_setting_nominal (s, HOB_FUEL_LP, -1);

      if (s->of == HOB_SETTING_APPLIANCE || s->of == HOB_SETTING_HOUSE)
        g_assert_cmpfloat (nominal, ==, -1);
      else if (s->of == HOB_SETTING_FUEL)
        lp = nominal;
      else if (s->dim == HOB_DIM_VOLTAGE)
        volts = nominal;
      else if (s->dim == HOB_DIM_TEMPERATURE)
        kelvin = nominal;
      g_assert_false (s->of != HOB_SETTING_APPLIANCE && s->condition);
    }
  g_assert_cmpfloat (volts, ==, 120);
  g_assert_cmpfloat (kelvin, ==, 298.15);
  g_assert_cmpfloat (lp, ==, HOB_FUEL_LP);
}

static void
places_say_how_they_are_merged (void)
{
  for (int slot = 0; slot < HOB_N_PLACE; slot++)
    {
      const HobPlaceDef *place = &hob_places[slot];

      g_assert_nonnull (place->words);
      g_assert_cmpint (place->merge == HOB_MERGE_GIVEN, ==, slot < HOB_PLACE_HEAT);
      g_assert_false (place->merge == HOB_MERGE_GIVEN && place->effect);
      if (place->merge == HOB_MERGE_ADD)
        g_assert_cmpfloat (place->start, ==, 0);
    }
}

static void
what_regulates_or_is_displayed_has_words (void)
{
  guint regulating = 0, stores = 0;

  for
    EACH_KIND (k)
    {
      for (int i = 0; i < (*k)->n_modes; i++)
        if ((*k)->modes[i].regulates || (*k)->modes[i].display)
          {
            regulating += (*k)->modes[i].regulates;
            g_assert_nonnull ((*k)->modes[i].words);
          }
      for (int i = 0; i < (*k)->n_states; i++)
        if ((*k)->states[i].stores)
          {
            stores++;
            g_assert_cmpint ((*k)->states[i].dim, ==, HOB_DIM_TEMPERATURE);
          }
    }
  g_assert_cmpuint (regulating, >, 1);
  g_assert_cmpuint (stores, >, 5); /* the bodies of the oven */
}

/* Sheets draw it without asking. */
static void
every_kind_with_a_symbol_draws_it (void)
{
  guint drawn = 0;

  for (const HobKind *const *k = hob_kinds; *k != NULL; k++)
    for (int sheet = 0; sheet < HOB_N_SHEETS; sheet++)
      if ((*k)->symbol[sheet].w > 0)
        {
          g_assert_true ((*k)->draw != NULL);
          drawn++;
        }
  g_assert_cmpuint (drawn, >, 30);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/kind/every kind with a symbol draws it", every_kind_with_a_symbol_draws_it);
  g_test_add_func ("/kind/every kind is found by its name", every_kind_is_found_by_its_name);
  g_test_add_func ("/kind/an unknown kind is none", an_unknown_kind_is_none);
  g_test_add_func ("/kind/names within a kind are found", names_within_a_kind_are_found);
  g_test_add_func ("/kind/names are plain and stand once", names_are_plain_and_stand_once);
  g_test_add_func ("/kind/terminals and ports have different names",
                   terminals_and_ports_have_different_names);
  g_test_add_func ("/kind/nothing moves itself", nothing_moves_itself);
  g_test_add_func ("/kind/settings begin within their span", settings_begin_within_their_span);
  g_test_add_func ("/kind/faults change settings that are there",
                   faults_change_settings_that_are_there);
  g_test_add_func ("/kind/branches run between terminals that are there",
                   branches_run_between_terminals_that_are_there);
  g_test_add_func ("/control/every control survives print and parse",
                   every_control_survives_print_and_parse);
  g_test_add_func ("/control/a stem takes words and per cent", a_stem_takes_words_and_per_cent);
  g_test_add_func ("/control/a selector takes its words only", a_selector_takes_its_words_only);
  g_test_add_func ("/control/a dial takes temperatures with their unit",
                   a_dial_takes_temperatures_with_their_unit);
  g_test_add_func ("/setting/a setting stays within its span", a_setting_stays_within_its_span);
  g_test_add_func ("/setting/an open circuit has a word", an_open_circuit_has_a_word);
  g_test_add_func ("/setting/a choice is one of its words", a_choice_is_one_of_its_words);
  g_test_add_func ("/setting/a condition is left to faults", a_condition_is_left_to_faults);
  g_test_add_func ("/specimen/seed nought is the typical specimen",
                   seed_nought_is_the_typical_specimen);
  g_test_add_func ("/specimen/other seeds differ by part and count and never by time",
                   other_seeds_differ_by_part_and_count_and_never_by_time);
  g_test_add_func ("/specimen/no unit is beyond two standard deviations",
                   no_unit_is_beyond_two_standard_deviations);
  g_test_add_func ("/fields/burner knobs light and burn at their highest",
                   burner_knobs_light_and_burn_at_their_highest);
  g_test_add_func ("/fields/calls are off or for heat", calls_are_off_or_for_heat);
  g_test_add_func ("/fields/a nominal house has 120 V and the fuel of the plate",
                   a_nominal_house_has_120_volts_and_the_fuel_of_the_plate);
  g_test_add_func ("/fields/places say how they are merged", places_say_how_they_are_merged);
  g_test_add_func ("/fields/what regulates or is displayed has words",
                   what_regulates_or_is_displayed_has_words);

  return g_test_run ();
}
