/* SPDX-License-Identifier: GPL-3.0-or-later */

/* Every stroke of a picture, held in tests/golden/strokes: whoever changes a picture sees the
 * change in a diff.  --update writes the files anew; the difference is read before it is kept. */

#include "config.h"
#include "recording-pen.h"
#include "sheet/why-line.h"
#include "staged.h"
#include <string.h>

static gboolean update;

static const struct
{
  const char *name, *range;
  HobSheet sheet;
  double at;
  const char *words; /* as staged_new takes them */
  gboolean paper;
} scenes[] = {
  { "paper-wiring", "dial-four", HOB_SHEET_WIRING, 0, NULL, TRUE },
  { "paper-gas", "dial-four", HOB_SHEET_GAS, 0, NULL, TRUE },
  { "paper-cutaway", "dial-four", HOB_SHEET_CUTAWAY, 0, NULL, TRUE },
  { "bake-wiring", "dial-four", HOB_SHEET_WIRING, 100, "0s oven.mode=bake" },
  { "bake-gas", "dial-four", HOB_SHEET_GAS, 100, "0s oven.mode=bake" },
  { "bake-cutaway", "board-five", HOB_SHEET_CUTAWAY, 100, "0s oven.mode=bake" },
  { "weak-igniter-wiring", "dial-four", HOB_SHEET_WIRING, 100,
    "0s oven.mode=bake | igniter-bake:aged" },
  { "weak-igniter-cutaway", "dial-four", HOB_SHEET_CUTAWAY, 100,
    "0s oven.mode=bake | igniter-bake:aged" },
  { "spark-at-cap", "dial-four", HOB_SHEET_WIRING, 3, "0s shutoff=closed | 1s knob-lf=light" },
  { "spark-at-crack", "dial-four", HOB_SHEET_WIRING, 3, "1s knob-lf=light | electrode-lf:cracked" },
  { "spark-at-lead", "dial-four", HOB_SHEET_WIRING, 3,
    "1s knob-lf=light | electrode-lf:lead-chafed" },
  { "spark-nowhere", "dial-four", HOB_SHEET_WIRING, 3,
    "1s knob-lf=light | electrode-lf:lead-open" },
  { "wet-switch", "dial-four", HOB_SHEET_WIRING, 30, "switch-lf:stuck-closed" },
  { "burner-lit", "lp-four", HOB_SHEET_CUTAWAY, 20, "1s knob-lf=light | 4s knob-lf=high" },
  { "hood-cutaway", "dial-four", HOB_SHEET_CUTAWAY, 40,
    "1s knob-lf=light | 8s knob-lf=high | 20s house.hood=on | house.hood-flow=0.28" },
  { "hood-gas", "dial-four", HOB_SHEET_GAS, 40,
    "1s knob-lf=light | 8s knob-lf=high | 20s house.hood=on | house.hood-flow=0.28" },
  { "lazy-flames", "dial-four", HOB_SHEET_CUTAWAY, 100,
    "0s oven.mode=bake | 1s knob-lf=light | 5s knob-lf=high | burner-lf:venturi-blocked=0.15"
    " | burner-bake:shutter-closed=0.3" },
  { "unlit-gas", "dial-four", HOB_SHEET_GAS, 120, "0s knob-lf=high" },
  { "leaking-connector", "dial-four", HOB_SHEET_GAS, 60, "connector:leaks" },
  { "gas-in-oven", "dial-four", HOB_SHEET_CUTAWAY, 60, "valve-bake:stuck-open" },
  { "broil", "round-dial", HOB_SHEET_CUTAWAY, 120, "0s oven.mode=broil" },
  { "convection", "convection-fan", HOB_SHEET_CUTAWAY, 200, "0s oven.mode=convection" },
  { "six-burners", "reignite-six", HOB_SHEET_GAS, 15,
    "0s knob-lf=light | 5s knob-lf=high | 1s knob-cr=light" },
  { "bracket-neutral", "dial-four", HOB_SHEET_WIRING, 60,
    "0s oven.mode=bake | receptacle:neutral-resistance=0.5" },
  { "bracket-pipes", "dial-four", HOB_SHEET_GAS, 90, "0s oven.mode=bake | regulator:set-low" },
};

/* Each symbol by itself, of the kinds that no shipped range has too, at rest and at each position
 * of each control: nothing has moved or flows yet, every value is 0 and every setting normal. */
static const struct
{
  const char *name;
  HobSheet sheet;
} symbols[] = {
  { "symbols-wiring", HOB_SHEET_WIRING },
  { "symbols-gas", HOB_SHEET_GAS },
  { "symbols-cutaway", HOB_SHEET_CUTAWAY },
};

/* The first line of each that the other has not. */
static void
show_difference (const char *name, const char *is, const char *was)
{
  g_auto (GStrv) now = g_strsplit (is, "\n", -1), before = g_strsplit (was, "\n", -1);
  guint k = 0;

  while (now[k] != NULL && before[k] != NULL && strcmp (now[k], before[k]) == 0)
    k++;
  g_test_message ("%s, stroke %u:\n  was %s\n  is  %s", name, k + 1,
                  before[k] != NULL ? before[k] : "(nothing)",
                  now[k] != NULL ? now[k] : "(nothing)");
  g_test_fail ();
}

/* Against the file of that name. */
static void
compare (const char *name, const char *strokes)
{
  g_autofree char *file
      = g_strdup_printf ("%s/tests/golden/strokes/%s.strokes", HOB_SOURCE_DIR, name);
  g_autofree char *golden = NULL;
  g_autoptr (GError) error = NULL;

  if (update)
    {
      g_file_set_contents (file, strokes, -1, &error);
      g_assert_no_error (error);
      return;
    }
  g_file_get_contents (file, &golden, NULL, &error);
  g_assert_no_error (error);
  if (strcmp (golden, strokes) != 0)
    show_difference (name, strokes, golden);
}

static void
test_scene (gconstpointer data)
{
  const HobLook look = { HOB_THEME_LIGHT, 1.0, 1.0 };
  const int k = GPOINTER_TO_INT (data);
  g_autoptr (Staged) staged = staged_new (scenes[k].range, scenes[k].words, scenes[k].at);
  g_autofree char *strokes
      = recorded_still (staged->scene, scenes[k].sheet, &look, scenes[k].paper);

  compare (scenes[k].name, strokes);
}

/* With control @control at @value; none if @control is negative. */
static void
add_symbol (GString *all, HobType *type, const HobLook *look, const HobKind *kind,
            HobSheet sheet, HobLayer layer, int control, double value)
{
  g_autofree double *numbers = g_new (double, hob_part_view_numbers (kind)),
                    *set = g_new (double, kind->n_settings + 1);
  g_autoptr (RecordingPen) pen = recording_pen_new (type, look);
  HobPart part = { .kind = kind, .set = set };
  HobRange alone = { .parts = &part, .n_parts = 1 };
  HobPartView view;

  for (int k = 0; k < kind->n_settings; k++)
    set[k] = kind->settings[k].normal;
  hob_part_view_still (&view, &alone, 0, sheet, numbers);
  view.layer = layer;
  if (control >= 0)
    ((double *) view.ctl)[control] = value;
  kind->draw (&pen->pen, &view);
  g_string_append (all, pen->strokes->str);
}

static void
add_symbols (GString *all, HobType *type, const HobLook *look, const HobKind *kind,
             HobSheet sheet)
{
  g_string_append_printf (all, "%s, paper\n", kind->name);
  add_symbol (all, type, look, kind, sheet, HOB_LAYER_PAPER, -1, 0);
  g_string_append_printf (all, "%s, state\n", kind->name);
  add_symbol (all, type, look, kind, sheet, HOB_LAYER_STATE, -1, 0);
  for (int c = 0; c < kind->n_controls; c++)
    for (const HobPosition *p = kind->controls[c].positions; p != NULL && p->name != NULL; p++)
      if (p->value != kind->controls[c].start)
        {
          g_string_append_printf (all, "%s, %s %s\n", kind->name, kind->controls[c].name,
                                  p->name);
          add_symbol (all, type, look, kind, sheet, HOB_LAYER_STATE, c, p->value);
        }
}

static void
test_symbols (gconstpointer data)
{
  const HobLook look = { HOB_THEME_LIGHT, 1.0, 1.0 };
  const int k = GPOINTER_TO_INT (data);
  g_autoptr (HobType) type = hob_type_new (&look);
  g_autoptr (GString) all = g_string_new (NULL);

  for (const HobKind *const *kind = hob_kinds; *kind != NULL; kind++)
    if ((*kind)->symbol[symbols[k].sheet].w > 0)
      add_symbols (all, type, &look, *kind, symbols[k].sheet);
  compare (symbols[k].name, all->str);
}

/* At rest, with nothing turned on: what is burned open or welded is drawn so. */
static void
what_is_broken_is_drawn_broken (void)
{
  static const struct
  {
    const char *range, *fault;
  } broken[] = { { "dial-four", "igniter-bake:open" },
                 { "dial-four", "valve-bake:heater-open" },
                 { "dial-four", "oven:selector-welded" } };
  const HobLook look = { HOB_THEME_LIGHT, 1.0, 1.0 };

  for (guint k = 0; k < G_N_ELEMENTS (broken); k++)
    {
      g_autoptr (Staged) whole = staged_new (broken[k].range, NULL, 0),
                         other = staged_new (broken[k].range, broken[k].fault, 0);
      g_autofree char *before = NULL, *after = NULL;

      whole->scene->covered = other->scene->covered = TRUE; /* no tag says it */
      staged_read (whole);
      staged_read (other);
      before = recorded_still (whole->scene, HOB_SHEET_WIRING, &look, FALSE);
      after = recorded_still (other->scene, HOB_SHEET_WIRING, &look, FALSE);
      if (strcmp (before, after) == 0)
        g_error ("%s is drawn as a normal part", broken[k].fault);
    }
}

/* A wire, a pipe, or an electrode with its lead gets a mark along its run that nothing else has;
 * what is chosen on another sheet gets none. */
static void
what_is_chosen_is_marked (void)
{
  const HobLook look = { HOB_THEME_LIGHT, 1.0, 1.0 };
  g_autoptr (Staged) s = staged_new ("dial-four", NULL, 0);
  HobScene *scene = s->scene;
  const HobSheet sheets[] = { HOB_SHEET_WIRING, HOB_SHEET_GAS };
  const int n_lines[] = { s->range->n_wires, s->range->n_pipes };

  for (guint k = 0; k < G_N_ELEMENTS (sheets); k++)
    {
      g_autofree char *none = recorded_still (scene, sheets[k], &look, FALSE), *other = NULL;

      for (int line = 0; line < n_lines[k]; line += 7)
        {
          g_autofree char *chosen = NULL;

          scene->chosen_wire = line;
          chosen = recorded_still (scene, sheets[k], &look, FALSE);
          g_assert_cmpuint (recorded_count (chosen, "stroke PENCIL"), ==,
                            recorded_count (none, "stroke PENCIL") + 1);
        }
      scene->chosen_wire = n_lines[k];
      other = recorded_still (scene, sheets[k], &look, FALSE);
      g_assert_cmpstr (other, ==, none);
      scene->chosen_wire = -1;
    }
  {
    g_autofree char *part = NULL, *electrode = NULL;

    scene->chosen_part = hob_range_part (s->range, "switch-lf");
    part = recorded_still (scene, HOB_SHEET_WIRING, &look, FALSE);
    scene->chosen_part = hob_range_part (s->range, "electrode-lf");
    electrode = recorded_still (scene, HOB_SHEET_WIRING, &look, FALSE);
    g_assert_cmpuint (recorded_count (electrode, "stroke PENCIL"), ==,
                      recorded_count (part, "stroke PENCIL") + 1);
  }
}

/* From the cause to the symptom: one fault, two that are each enough, two that both are needed. */
static const struct
{
  const char *name, *words, *symptom;
  double at;
} causes[] = {
  { "why-weak-igniter", "0s oven.mode=bake | igniter-bake:aged", "glow-no-flame", 110 },
  { "why-two-faults", "1s knob-lf=light | module:dead | switch-lf:open", "no-spark-any", 10 },
  { "why-both-are-needed",
    "1s knob-lf=light | 8s knob-lf=high | regulator:set-low=0.5 | burner-lf:orifice-clogged=0.15",
    "flame-small", 20 },
};

static void
test_cause (gconstpointer data)
{
  const HobLook look = { HOB_THEME_LIGHT, 1.0, 1.0 };
  const int k = GPOINTER_TO_INT (data);
  g_autoptr (Staged) staged = staged_new ("dial-four", causes[k].words, causes[k].at);
  const HobSymptomBook *book = staged->bench->book;
  int symptom = hob_symptom_book_find (book, causes[k].symptom);
  g_autoptr (GPtrArray) chains = hob_why (staged->bench, symptom, -1, NULL);
  const HobWhyLine line = { chains, staged->range, hob_symptom_book_get (book, symptom), &look,
                            1200 };
  g_autoptr (HobType) type = hob_type_new (&look);
  g_autoptr (RecordingPen) pen = recording_pen_new (type, &look);

  g_assert_cmpint (hob_why_line_size (&line), >, 0);
  hob_why_line_draw (&pen->pen, type, &line);
  compare (causes[k].name, pen->strokes->str);
}

int
main (int argc, char **argv)
{
  for (int i = 1; i < argc; i++)
    update |= strcmp (argv[i], "--update") == 0;
  g_test_init (&argc, &argv, NULL);
  for (gsize k = 0; k < G_N_ELEMENTS (scenes); k++)
    {
      g_autofree char *path = g_strdup_printf ("/sheet/strokes/%s", scenes[k].name);

      g_test_add_data_func (path, GINT_TO_POINTER ((int) k), test_scene);
    }
  for (gsize k = 0; k < G_N_ELEMENTS (causes); k++)
    {
      g_autofree char *path = g_strdup_printf ("/sheet/strokes/%s", causes[k].name);

      g_test_add_data_func (path, GINT_TO_POINTER ((int) k), test_cause);
    }
  for (gsize k = 0; k < G_N_ELEMENTS (symbols); k++)
    {
      g_autofree char *path = g_strdup_printf ("/sheet/strokes/%s", symbols[k].name);

      g_test_add_data_func (path, GINT_TO_POINTER ((int) k), test_symbols);
    }
  g_test_add_func ("/sheet/strokes/what-is-broken-is-drawn-broken",
                   what_is_broken_is_drawn_broken);
  g_test_add_func ("/sheet/strokes/what-is-chosen-is-marked", what_is_chosen_is_marked);
  return g_test_run ();
}
