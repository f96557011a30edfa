/* SPDX-License-Identifier: GPL-3.0-or-later */

/* Procedures: how a range is tried out, made from the exercise rules of its controls alone.  Times
 * are fixed, so that two ranges — a normal one and a faulty one — are tried alike. */
#include "run/case.h"

#include "base/errors.h"
#include "base/i18n.h"

#include <string.h>

#define MINUTE 60.0
#define HOUR 3600.0

#define REST 60.0            /* s, all off */
#define LIGHT_AT 1.0         /* s */
#define LIGHT_HOLD 10.0      /* s at the lighting position: twice what a normal burner needs */
#define AFTER_LEADS 20.0     /* s of looking on after a knob is off that tried exchanged leads */
#define HIGH_HOLD 20.0       /* s */
#define LOW_HOLD 10.0        /* s */
#define AFTER_KNOB 20.0      /* s of looking on after it is off */
#define ALL_CALL_AT MINUTE   /* s: the oven's turn, once the surface burners are at their highest */
#define ALL_HOLD (6 * MINUTE)
#define AFTER_ALL MINUTE
#define TRY_AT 1.0           /* s */
#define TRY_HOLD MINUTE
#define CALL_HOLD (90 * MINUTE)  /* the first heat, the hour's overshoot and some whole cycles */
#define BROIL_HOLD (20 * MINUTE)
#define AFTER_CALL (5 * MINUTE)
#define LONG_REST (8 * HOUR)
#define AFTER_REST (2 * MINUTE)

#define DIAL_AT ((350.0 + 459.67) * 5.0 / 9.0) /* K: 350 °F */

/* Every surface burner at its highest, then the oven's first call: what shows a supply that is too
 * small. */
#define EVERYTHING_ON "everything-on"

/* Control @control of part @part, tried at @position (a position's index; −1 where the rule has
 * none); part −1: none of its own. */
typedef struct
{
  char *name; /* owned */
  int part, control, position;
  gboolean exchanged; /* with leads moved on */
} Procedure;

static void
clear_procedure (gpointer item)
{
  g_free (((Procedure *) item)->name);
}

static int
n_positions (const HobControlDef *def)
{
  int n = 0;

  while (def->positions != NULL && def->positions[n].name != NULL)
    n++;
  return n;
}

/* The part's dial: a control that is set to a temperature; −1. */
static int
find_dial (const HobKind *kind)
{
  for (int i = 0; i < kind->n_controls; i++)
    if (kind->controls[i].dim == HOB_DIM_TEMPERATURE)
      return i;
  return -1;
}

static void
add_procedure (GArray *list, char *name, int part, int control, int position)
{
  Procedure p = { name, part, control, position, FALSE };

  g_array_append_val (list, p);
}

static void
add_calls (GArray *list, const HobRange *range, int part, int control)
{
  const HobKind *kind = range->parts[part].kind;
  const HobControlDef *def = &kind->controls[control];
  gboolean dial = find_dial (kind) >= 0;

  for (int i = 1; i < n_positions (def); i++)
    {
      const HobPosition *position = &def->positions[i];
      gboolean warm = dial && position->role != HOB_POSITION_BROIL;

      add_procedure (list, g_strdup_printf ("%s%s", position->name, warm ? "-350" : ""), part,
                     control, i);
    }
}

static void
add_tries (GArray *list, const HobRange *range, int part, int control)
{
  const HobControlDef *def = &range->parts[part].kind->controls[control];

  for (int i = 0; i < n_positions (def); i++)
    if (def->positions[i].value != def->start)
      add_procedure (list, g_strdup_printf ("%s-%s", range->parts[part].id, def->positions[i].name),
                     part, control, i);
}

/* Appends what rule @rule makes of every control that has it. */
static void
add_rule (GArray *list, const HobRange *range, HobExercise rule)
{
  for (int p = 0; p < range->n_parts; p++)
    for (int k = 0; k < range->parts[p].kind->n_controls; k++)
      {
        const HobControlDef *def = &range->parts[p].kind->controls[k];

        if (def->exercise != rule)
          continue;
        if (rule == HOB_EXERCISE_LIGHT && hob_control_position (def, HOB_POSITION_LIGHT) >= 0)
          add_procedure (list, g_strdup_printf ("light-%s", range->parts[p].id), p, k, -1);
        else if (rule == HOB_EXERCISE_CALL)
          add_calls (list, range, p, k);
        else if (rule == HOB_EXERCISE_UNPLUG && n_positions (def) == 2)
          add_procedure (list, g_strdup ("all-off-8h-unplugged"), p, k, -1);
        else if (rule == HOB_EXERCISE_TRY)
          add_tries (list, range, p, k);
      }
}

/* The first control that has rule @rule, at or after *part and *control; FALSE: none. */
static gboolean
next_control (const HobRange *range, HobExercise rule, int *part, int *control)
{
  for (; *part < range->n_parts; (*part)++, *control = 0)
    for (; *control < range->parts[*part].kind->n_controls; (*control)++)
      if (range->parts[*part].kind->controls[*control].exercise == rule)
        return TRUE;
  return FALSE;
}

static gboolean
has_control (const HobRange *range, HobExercise rule)
{
  int part = 0, control = 0;

  return next_control (range, rule, &part, &control);
}

static GArray *
procedures_of (const HobRange *range)
{
  GArray *list = g_array_new (FALSE, TRUE, sizeof (Procedure));

  g_array_set_clear_func (list, clear_procedure);
  add_procedure (list, g_strdup ("all-off-1min"), -1, -1, -1);
  add_rule (list, range, HOB_EXERCISE_LIGHT);
  add_rule (list, range, HOB_EXERCISE_CALL);
  if (has_control (range, HOB_EXERCISE_LIGHT) && has_control (range, HOB_EXERCISE_CALL))
    add_procedure (list, g_strdup (EVERYTHING_ON), -1, -1, -1);
  add_rule (list, range, HOB_EXERCISE_TRY);
  add_rule (list, range, HOB_EXERCISE_UNPLUG);
  return list;
}

static char **
names_of (const GArray *list)
{
  g_autoptr (GStrvBuilder) names = g_strv_builder_new ();

  for (guint i = 0; i < list->len; i++)
    g_strv_builder_add (names, g_array_index (list, Procedure, i).name);
  return g_strv_builder_end (names);
}

char **
hob_procedure_names (const HobRange *range)
{
  g_autoptr (GArray) list = procedures_of (range);

  return names_of (list);
}

/* Each of LIGHT, with the leads of the first control that moves any moved on. */
static GArray *
exchanges_of (const HobRange *range)
{
  GArray *list = g_array_new (FALSE, TRUE, sizeof (Procedure));
  int part = 0, control = 0;

  g_array_set_clear_func (list, clear_procedure);
  if (!has_control (range, HOB_EXERCISE_EXCHANGE))
    return list;
  for (; next_control (range, HOB_EXERCISE_LIGHT, &part, &control); control++)
    {
      Procedure p = { g_strdup_printf ("light-%s-exchanged", range->parts[part].id), part, control,
                      -1, TRUE };

      g_array_append_val (list, p);
    }
  return list;
}

char **
hob_procedure_exchanges (const HobRange *range)
{
  g_autoptr (GArray) list = exchanges_of (range);

  return names_of (list);
}

static void
add_act (HobCase *c, double t, int part, int control, double value)
{
  hob_case_add (c, (HobAct){ (gint64) (t * 1000.0 + 0.5), HOB_ACT_CONTROL, part, control, value });
}

/* To its lighting position, then to its highest, and off at @off s. */
static void
light_one (HobCase *c, int part, int control, double off)
{
  const HobControlDef *def = &c->range->parts[part].kind->controls[control];
  int light = hob_control_position (def, HOB_POSITION_LIGHT);
  int full = hob_control_position (def, HOB_POSITION_FULL);

  if (light < 0)
    return;
  add_act (c, LIGHT_AT, part, control, def->positions[light].value);
  if (full >= 0)
    add_act (c, LIGHT_AT + LIGHT_HOLD, part, control, def->positions[full].value);
  add_act (c, off, part, control, def->start);
}

static double
light (HobCase *c, const Procedure *p)
{
  const HobControlDef *def = &c->range->parts[p->part].kind->controls[p->control];
  double down = LIGHT_AT + LIGHT_HOLD + HIGH_HOLD, off = down + LOW_HOLD;
  int low = hob_control_position (def, HOB_POSITION_LOW);

  light_one (c, p->part, p->control, off);
  if (low >= 0)
    add_act (c, down, p->part, p->control, def->positions[low].value);
  return off + AFTER_KNOB;
}

/* Only as long as it takes to see whether it sparks and lights. */
static double
light_exchanged (HobCase *c, const Procedure *p)
{
  const HobControlDef *def = &c->range->parts[p->part].kind->controls[p->control], *leads;
  int light = hob_control_position (def, HOB_POSITION_LIGHT), part = 0, control = 0;

  next_control (c->range, HOB_EXERCISE_EXCHANGE, &part, &control);
  leads = &c->range->parts[part].kind->controls[control];
  add_act (c, 0, part, control, leads->low + leads->high - leads->start);
  if (light >= 0)
    add_act (c, LIGHT_AT, p->part, p->control, def->positions[light].value);
  add_act (c, LIGHT_AT + LIGHT_HOLD, p->part, p->control, def->start);
  return LIGHT_AT + LIGHT_HOLD + AFTER_LEADS;
}

static double
call (HobCase *c, const Procedure *p, const HobControlDef *def)
{
  const HobKind *kind = c->range->parts[p->part].kind;
  gboolean full = def->positions[p->position].role == HOB_POSITION_BROIL;
  double off = full ? BROIL_HOLD : CALL_HOLD;
  int dial = find_dial (kind);

  if (dial >= 0)
    add_act (c, 0, p->part, dial, full ? kind->controls[dial].high : DIAL_AT);
  add_act (c, 0, p->part, p->control, def->positions[p->position].value);
  add_act (c, off, p->part, p->control, def->start);
  return off + AFTER_CALL;
}

static void
light_all (HobCase *c, double off)
{
  int part = 0, control = 0;

  for (; next_control (c->range, HOB_EXERCISE_LIGHT, &part, &control); control++)
    light_one (c, part, control, off);
}

static double
everything_on (HobCase *c)
{
  double off = ALL_CALL_AT + ALL_HOLD;
  int part = 0, control = 0, dial;

  light_all (c, off);
  next_control (c->range, HOB_EXERCISE_CALL, &part, &control);
  dial = find_dial (c->range->parts[part].kind);
  if (dial >= 0)
    add_act (c, ALL_CALL_AT, part, dial, DIAL_AT);
  add_act (c, ALL_CALL_AT, part, control,
           c->range->parts[part].kind->controls[control].positions[1].value);
  add_act (c, off, part, control, c->range->parts[part].kind->controls[control].start);
  return off + AFTER_ALL;
}

/* Out for a night's length, in again: what was wet has dried, what is broken shows again. */
static double
unplug (HobCase *c, const Procedure *p, const HobControlDef *def)
{
  double in = def->start, out = def->positions[def->positions[0].value == in ? 1 : 0].value;

  add_act (c, 0, p->part, p->control, out);
  add_act (c, LONG_REST, p->part, p->control, in);
  return LONG_REST + AFTER_REST;
}

static double
try_position (HobCase *c, const Procedure *p, const HobControlDef *def)
{
  add_act (c, TRY_AT, p->part, p->control, def->positions[p->position].value);
  add_act (c, TRY_AT + TRY_HOLD, p->part, p->control, def->start);
  return TRY_AT + TRY_HOLD + AFTER_KNOB;
}

static double
add_acts (HobCase *c, const Procedure *p)
{
  const HobControlDef *def;

  if (p->part < 0)
    return g_str_equal (p->name, EVERYTHING_ON) ? everything_on (c) : REST;
  def = &c->range->parts[p->part].kind->controls[p->control];
  switch (def->exercise)
    {
    case HOB_EXERCISE_LIGHT: return p->exchanged ? light_exchanged (c, p) : light (c, p);
    case HOB_EXERCISE_CALL: return call (c, p, def);
    case HOB_EXERCISE_UNPLUG: return unplug (c, p, def);
    case HOB_EXERCISE_TRY: return try_position (c, p, def);
    case HOB_EXERCISE_EXCHANGE:
    case HOB_EXERCISE_NONE:
    default: g_return_val_if_reached (0);
    }
}

static void
refuse_name (const HobRange *range, const char *name, GError **error)
{
  g_auto (GStrv) names = hob_procedure_names (range);
  const char *near = hob_near_miss (name, (const char *const *) names);
  g_autofree char *list = g_strjoinv (", ", names);

  if (near != NULL)
    g_set_error (error, HOB_ERROR, HOB_ERROR_NAME,
                 _("this range has no routine '%s'; did you mean '%s'?"), name, near);
  else
    g_set_error (error, HOB_ERROR, HOB_ERROR_NAME,
                 _("this range has no routine '%s'; use one of: %s"), name, list);
}

static const Procedure *
find_procedure (const GArray *list, const char *name)
{
  for (guint i = 0; i < list->len; i++)
    if (g_str_equal (g_array_index (list, Procedure, i).name, name))
      return &g_array_index (list, Procedure, i);
  return NULL;
}

gboolean
hob_procedure_add (HobCase *c, const char *name, double *until, GError **error)
{
  g_autoptr (GArray) list = procedures_of (c->range), exchanges = exchanges_of (c->range);
  const Procedure *p = find_procedure (list, name);

  if (p == NULL)
    p = find_procedure (exchanges, name);
  if (p != NULL)
    *until = add_acts (c, p);
  else
    refuse_name (c->range, name, error);
  return p != NULL;
}
