/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "parts/say.h"

#include <locale.h>
#include <math.h>

static const HobKind *
kind (const char *name)
{
  const HobKind *found = hob_kind_find (name);

  g_assert_nonnull (found);
  return found;
}

static void
assert_quantity (const char *of, const char *name, double value, const char *said,
                 const char *unit)
{
  const HobKind *k = kind (of);
  const HobQuantityDef *quantity = &k->quantities[hob_kind_quantity (k, name)];
  g_autofree char *text = hob_quantity_text (quantity, value, 3),
                  *means = hob_quantity_unit (quantity, HOB_UNITS_TRADE);

  g_assert_cmpstr (text, ==, said);
  g_assert_cmpstr (means, ==, unit);
}

static void
a_quantity_is_said_in_words_or_in_its_unit (void)
{
  assert_quantity ("burner-top", "flame", 1, "yes", "0 no, 1 yes");
  assert_quantity ("burner-top", "flame", 0, "no", "0 no, 1 yes");
  assert_quantity ("burner-top", "yellow", 0.25, "25%", "0 to 1");
  assert_quantity ("knob", "travel", 62, "62%", "%");
  assert_quantity ("igniter-flat", "temperature", 1538.7, "2,310 °F", "°F");
  assert_quantity ("igniter-flat", "glow", 1538.7, "yellow", "°F");
  assert_quantity ("igniter-flat", "glow", 1000, "dark red", "°F");
  assert_quantity ("igniter-flat", "glow", 300, "none", "°F");
  assert_quantity ("oven-board", "display", 2, "preheat",
                   "0 blank, 1 ready, 2 preheat, 3 set temperature, 4 door open, "
                   "5 fault code: sensor open, 6 fault code: sensor shorted, "
                   "7 fault code: overheat, 8 power lost");
}

/* A value that is not in the list is a figure, never the word of another. */
static void
a_value_without_a_word_is_a_figure (void)
{
  assert_quantity ("burner-top", "flame", 2, "2", "0 no, 1 yes");
  assert_quantity ("burner-top", "flame", NAN, "–", "0 no, 1 yes");
}

static void
no_sentence_explains_a_number (void)
{
  static const char *const tells[] = { "0 or 1", "0 to 1", "0 closed", "0 open", ", kg", ", %" };

  for (int k = 0; hob_kinds[k] != NULL; k++)
    for (int q = 0; q < hob_kinds[k]->n_quantities; q++)
      for (guint i = 0; i < G_N_ELEMENTS (tells); i++)
        if (strstr (hob_kinds[k]->quantities[q].words, tells[i]) != NULL)
          g_error ("%s.%s: %s", hob_kinds[k]->name, hob_kinds[k]->quantities[q].name,
                   hob_kinds[k]->quantities[q].words);
}

static void
a_position_is_said_as_the_front_has_it (void)
{
  const HobKind *knob = kind ("knob"), *oven = kind ("oven-dial");
  g_autofree char *high = hob_position_text (&knob->controls[0], 35),
                  *between = hob_position_text (&knob->controls[0], 61.7),
                  *dial = hob_position_text (&oven->controls[hob_kind_control (oven, "dial")],
                                             HOB_DEGF (350));

  g_assert_cmpstr (high, ==, "HIGH");
  g_assert_cmpstr (between, ==, "62%");
  g_assert_cmpstr (dial, ==, "350 °F");
}

static const HobSettingDef *
setting (const char *kind_name, const char *name)
{
  const HobKind *k = kind (kind_name);

  for (int s = 0; s < k->n_settings; s++)
    if (g_str_equal (k->settings[s].name, name))
      return &k->settings[s];
  g_error ("%s has no setting '%s'", kind_name, name);
}

static void
a_setting_is_said_as_the_trade_has_it (void)
{
  static const struct
  {
    const char *kind, *setting;
    double value;
    const char *text, *entry;
  } said[] = {
    { "cord", "gauge", 1.0237e-3, "18 AWG", "18 AWG" },
    { "cord", "gauge", 1.1e-3, "0.0433 in.", "0.043307 in" },
    { "cord", "length", 1.8288, "6 ft", "6 ft" },
    { "cord", "length", 7.62, "25 ft", "25 ft" },
    { "house", "altitude", 0, "0 ft", "0 ft" },
    { "house", "altitude", 762, "2,500 ft", "2500 ft" },
    { "house", "altitude", 1609.344, "5,280 ft", "5280 ft" },
    { "house", "humidity", 0.5, "50%", "50%" },
    { "house", "leg-watts", 300, "300 W", "300 W" },
    { "house", "kitchen", 50.970323866, "1,800 cu ft", "1800 cu ft" },
  };

  for (guint i = 0; i < G_N_ELEMENTS (said); i++)
    {
      const HobSettingDef *def = setting (said[i].kind, said[i].setting);
      g_autofree char *text = hob_setting_text (def, said[i].value),
                      *entry = hob_setting_entry (def, said[i].value);

      g_assert_cmpstr (text, ==, said[i].text);
      g_assert_cmpstr (entry, ==, said[i].entry);
    }
}

static void
assert_read_again (const HobSettingDef *def, double value)
{
  g_autofree char *entry = hob_setting_entry (def, value);
  g_autoptr (GError) error = NULL;
  double read;

  if (!hob_parse_quantity (entry, def->dim, &read, &error))
    g_error ("%s: '%s': %s", def->name, entry, error->message);
  if (isfinite (value))
    g_assert_cmpfloat_with_epsilon (read, value, MAX (1e-4 * fabs (value), 1e-15));
}

static void
every_entry_is_read_again (void)
{
  for (int k = 0; hob_kinds[k] != NULL; k++)
    for (int s = 0; s < hob_kinds[k]->n_settings; s++)
      {
        const HobSettingDef *def = &hob_kinds[k]->settings[s];

        if (def->choices == NULL && !def->condition)
          {
            assert_read_again (def, def->normal);
            assert_read_again (def, def->low);
            assert_read_again (def, isfinite (def->high) ? def->high : 2 * def->normal);
          }
      }
}

int
main (int argc, char *argv[])
{
  setlocale (LC_ALL, "C.UTF-8");
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/parts/say/a-quantity-is-said-in-words-or-in-its-unit",
                   a_quantity_is_said_in_words_or_in_its_unit);
  g_test_add_func ("/parts/say/a-value-without-a-word-is-a-figure",
                   a_value_without_a_word_is_a_figure);
  g_test_add_func ("/parts/say/no-sentence-explains-a-number", no_sentence_explains_a_number);
  g_test_add_func ("/parts/say/a-position-is-said-as-the-front-has-it",
                   a_position_is_said_as_the_front_has_it);
  g_test_add_func ("/parts/say/a-setting-is-said-as-the-trade-has-it",
                   a_setting_is_said_as_the_trade_has_it);
  g_test_add_func ("/parts/say/every-entry-is-read-again", every_entry_is_read_again);
  return g_test_run ();
}
