/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "run/case.h"

#include "base/errors.h"
#include "base/i18n.h"

#include <math.h>
#include <string.h>

/* Thirty years: far beyond any case, and whole milliseconds stay exact in a double. */

/* The one variable that all threads share: it only counts. */
guint64
hob_serial_new (void)
{
  static gsize last;

  return (guint64) g_atomic_pointer_add (&last, 1) + 1;
}

HobCase *
hob_case_new (const HobRange *range)
{
  HobCase *c = g_new0 (HobCase, 1);

  c->serial = hob_serial_new ();
  c->range = range;
  c->acts = g_array_new (FALSE, TRUE, sizeof (HobAct));
  return c;
}

HobCase *
hob_case_copy_to (const HobCase *c, const HobRange *range)
{
  HobCase *copy = hob_case_new (range);

  g_array_append_vals (copy->acts, c->acts->data, c->acts->len);
  copy->seed = c->seed;
  return copy;
}

HobCase *
hob_case_copy (const HobCase *c)
{
  return hob_case_copy_to (c, c->range);
}

void
hob_case_free (HobCase *c)
{
  if (c == NULL)
    return;
  g_array_unref (c->acts);
  g_free (c);
}

guint
hob_case_place (const HobCase *c, gint64 ms)
{
  guint at = c->acts->len;

  while (at > 0 && g_array_index (c->acts, HobAct, at - 1).ms > ms)
    at--;
  return at;
}

void
hob_case_insert (HobCase *c, guint at, HobAct act)
{
  g_array_insert_val (c->acts, at, act);
  c->serial = hob_serial_new ();
}

void
hob_case_remove (HobCase *c, guint at)
{
  g_array_remove_index (c->acts, at);
  c->serial = hob_serial_new ();
}

void
hob_case_add (HobCase *c, HobAct act)
{
  hob_case_insert (c, hob_case_place (c, act.ms), act);
}

/* Is it where its control is from the start, to within what a scale is read to? */
static gboolean
is_start (const HobCase *c, const HobAct *act)
{
  double start = c->range->parts[act->part].kind->controls[act->index].start;

  return fabs (act->value - start) <= 1e-9 * fabs (start);
}

/* Was the control of @act set before? */
static gboolean
was_set (const HobCase *c, const HobAct *act)
{
  for (guint k = 0; k < c->acts->len; k++)
    {
      const HobAct *other = &g_array_index (c->acts, HobAct, k);

      if (other->what == HOB_ACT_CONTROL && other->part == act->part && other->index == act->index)
        return TRUE;
    }
  return FALSE;
}

HobCase *
hob_case_effective (const HobCase *c)
{
  HobCase *same = hob_case_copy (c);

  g_array_set_size (same->acts, 0);
  for (guint k = 0; k < c->acts->len; k++)
    {
      const HobAct *act = &g_array_index (c->acts, HobAct, k);

      if (act->what != HOB_ACT_CONTROL || !is_start (c, act) || was_set (same, act))
        g_array_append_val (same->acts, *act);
    }
  same->serial = hob_serial_new ();
  return same;
}

gboolean
hob_act_same (const HobAct *a, const HobAct *b)
{
  return a->ms == b->ms && a->what == b->what && a->part == b->part && a->index == b->index
         && a->value == b->value && a->jumps == b->jumps;
}

guint
hob_case_common (const HobCase *a, const HobCase *b)
{
  guint n = MIN (a->acts->len, b->acts->len), at = 0;

  while (
      at < n
      && hob_act_same (&g_array_index (a->acts, HobAct, at), &g_array_index (b->acts, HobAct, at)))
    at++;
  return at;
}

/* Takes @sentence over.  It quotes what a person typed, and stays one line of valid text. */
static gboolean
refuse (GError **error, HobError code, char *sentence)
{
  g_autofree char *line = g_utf8_make_valid (sentence, -1);

  g_free (sentence);
  g_strdelimit (line, "\n\r\t\v\f\033", ' ');
  g_set_error_literal (error, HOB_ERROR, code, line);
  return FALSE;
}

gboolean
hob_moment_parse (const char *text, double *seconds, GError **error)
{
  if (!hob_parse_quantity (text, HOB_DIM_TIME, seconds, error))
    return FALSE;
  if (*seconds < 0 || *seconds > HOB_LONGEST_RUN)
    return refuse (
        error, HOB_ERROR_VALUE,
        g_strdup_printf (_ ("'%s' is not a valid time; use a time from 0 s to 1,000 h, such as "
                            "5min"), text));
  *seconds = floor (*seconds * 1000.0 + 0.5) / 1000.0;
  return TRUE;
}

static gboolean
parse_moment (const char *text, gint64 *ms, GError **error)
{
  double seconds;

  if (!hob_moment_parse (text, &seconds, error))
    return FALSE;
  *ms = (gint64) floor (seconds * 1000.0 + 0.5);
  return TRUE;
}

/* A value is refused in the words of the whole argument, so that one of many is found again. */
static void
name_argument (GError **error, const char *text)
{
  g_autofree char *valid = g_utf8_make_valid (text, -1);

  g_strdelimit (valid, "\n\r\t\v\f\033", ' ');
  g_prefix_error (error, "'%s': ", valid);
}

/* "TIME CONTROL=POSITION", or with ":=" to jump there: the last space before the sign parts time
 * from control, so that "5 min" may have its own, and a position ("350 degF") too. */
static gboolean
split_do (const char *text, char **moment, char **control, char **position, gboolean *jumps)
{
  const char *sign = strchr (text, '='), *end = sign, *gap = sign;

  if (sign == NULL)
    return FALSE;
  *jumps = sign > text && sign[-1] == ':';
  end -= *jumps;
  while (gap > text && !g_ascii_isspace (*gap))
    gap--;
  if (gap == text || gap + 1 == end)
    return FALSE;
  *moment = g_strstrip (g_strndup (text, (gsize) (gap - text)));
  *control = g_strndup (gap + 1, (gsize) (end - gap - 1));
  *position = g_strstrip (g_strdup (sign + 1));
  return TRUE;
}

gboolean
hob_case_do (HobCase *c, const char *text, GError **error)
{
  g_autofree char *moment = NULL, *control = NULL, *position = NULL;
  HobAct act = { .what = HOB_ACT_CONTROL };
  const HobKind *kind;

  if (!split_do (text, &moment, &control, &position, &act.jumps))
    return refuse (
        error, HOB_ERROR_USAGE,
        g_strdup_printf (_ ("'%s' doesn't set a control; use TIME CONTROL=POSITION, such as "
                            "\"60s oven.mode=bake\""),
                         text));
  if (!parse_moment (moment, &act.ms, error))
    {
      name_argument (error, text);
      return FALSE;
    }
  if (!hob_range_find_control (c->range, control, &act.part, &act.index, error))
    return FALSE;
  kind = c->range->parts[act.part].kind;
  act.jumps = act.jumps && kind->jump != NULL;
  if (!hob_range_control_parse (c->range, &kind->controls[act.index], position, &act.value, error))
    {
      name_argument (error, text);
      return FALSE;
    }
  hob_case_add (c, act);
  return TRUE;
}

/* How far the fault has gone, 0 (lifted) to 1; an all-or-nothing fault is at 1. */
static gboolean
parse_severity (const HobFaultDef *fault, const char *text, double *severity, GError **error)
{
  *severity = hob_fault_typical (fault);
  if (text == NULL)
    return TRUE;
  if (!hob_parse_quantity (text, HOB_DIM_NUMBER, severity, error))
    return FALSE;
  if (*severity < 0 || *severity > 1)
    return refuse (
        error, HOB_ERROR_VALUE,
        g_strdup_printf (_ ("'%s' is not a valid severity; use a number from 0 to 1"), text));
  if (fault->severity_words == NULL && *severity != 1 && *severity != 0)
    return refuse (error, HOB_ERROR_VALUE,
                   g_strdup_printf (_ ("the fault '%s' has no severity; leave out the number"),
                                    fault->id));
  return TRUE;
}

/* Cuts @text at the last @sign and returns what follows it; NULL if it has none. */
static char *
cut_at (char *text, char sign)
{
  char *at = strrchr (text, sign);

  if (at == NULL)
    return NULL;
  *at = '\0';
  return at + 1;
}

/* "FROM" or "FROM..TO".  @text: cut in two.  *end: -1 where it has none. */
static gboolean
parse_span (char *text, gint64 *begin, gint64 *end, GError **error)
{
  char *dots = strstr (text, "..");

  *end = -1;
  if (dots == NULL)
    return parse_moment (text, begin, error);
  *dots = '\0';
  if (!parse_moment (text, begin, error) || !parse_moment (dots + strlen (".."), end, error))
    return FALSE;
  if (*end > *begin)
    return TRUE;
  return refuse (error, HOB_ERROR_VALUE,
                 g_strdup (_ ("the fault ends before it begins; use a later time after \"..\"")));
}

gboolean
hob_case_fault (HobCase *c, const char *text, GError **error)
{
  g_autofree char *name = g_strdup (text);
  char *moment = cut_at (name, '@'), *severity = cut_at (name, '=');
  HobAct act = { .what = HOB_ACT_FAULT };
  gint64 end = -1;

  if (strchr (name, ':') == NULL)
    return refuse (error, HOB_ERROR_USAGE,
                   g_strdup_printf (_("'%s' is not a fault; use PART:FAULT, such as "
                                      "igniter-bake:aged=0.5@60s"), text));
  if (!hob_range_find_fault (c->range, g_strstrip (name), &act.part, &act.index, error))
    return FALSE;
  if ((moment != NULL && !parse_span (moment, &act.ms, &end, error))
      || !parse_severity (&c->range->parts[act.part].kind->faults[act.index], severity, &act.value,
                          error))
    {
      name_argument (error, text);
      return FALSE;
    }
  if (act.value == 0)
    act.what = HOB_ACT_LIFT;
  hob_case_add (c, act);
  if (end >= 0)
    hob_case_add (c, (HobAct){ end, HOB_ACT_LIFT, act.part, act.index, 0 });
  return TRUE;
}

gboolean
hob_case_setting (HobCase *c, const char *text, GError **error)
{
  g_autofree char *name = g_strdup (text);
  char *moment = cut_at (name, '@'), *value = strchr (name, '=');
  HobAct act = { .what = HOB_ACT_SETTING };

  if (value == NULL)
    return refuse (error, HOB_ERROR_USAGE,
                   g_strdup_printf (_("'%s' is not a setting; use PART.NAME=VALUE, such as "
                                      "\"receptacle.volts=110 V\""), text));
  *value++ = '\0';
  if (!hob_range_find_setting (c->range, g_strstrip (name), &act.part, &act.index, error))
    return FALSE;
  if ((moment != NULL && !parse_moment (moment, &act.ms, error))
      || !hob_setting_parse (&c->range->parts[act.part].kind->settings[act.index], value,
                             &act.value, error))
    {
      name_argument (error, text);
      return FALSE;
    }
  hob_case_add (c, act);
  return TRUE;
}

/* A setting's value as its parser reads it. */
static char *
setting_text (const HobSettingDef *def, double value)
{
  g_autofree char *number = NULL;
  const char *sign = hob_unit_sign (def->dim, HOB_UNITS_SI);

  if (def->dim == HOB_DIM_CHOICE)
    return g_strdup (def->choices[(int) value]);
  if (isinf (value))
    return g_strdup ("open");
  number = hob_number_text (value);
  return g_strdup_printf ("%s%s%s", number, *sign != '\0' ? " " : "", sign);
}

char *
hob_act_text (const HobRange *range, const HobAct *act)
{
  const HobPart *part = &range->parts[act->part];
  g_autofree char *name = NULL, *value = NULL;

  switch (act->what)
    {
    case HOB_ACT_CONTROL:
      name = hob_range_control_name (range, act->part, act->index);
      value = hob_range_control_text (range, &part->kind->controls[act->index], act->value);
      return g_strdup_printf ("%s%s%s", name, act->jumps ? ":=" : "=", value);
    case HOB_ACT_FAULT:
      if (part->kind->faults[act->index].severity_words == NULL)
        return g_strdup_printf ("%s:%s", part->id, part->kind->faults[act->index].id);
      value = hob_number_text (act->value);
      return g_strdup_printf ("%s:%s=%s", part->id, part->kind->faults[act->index].id, value);
    case HOB_ACT_LIFT:
      return g_strdup_printf ("%s:%s=0", part->id, part->kind->faults[act->index].id);
    case HOB_ACT_SETTING:
      value = setting_text (&part->kind->settings[act->index], act->value);
      return g_strdup_printf ("%s.%s=%s", part->id, part->kind->settings[act->index].name, value);
    default:
      g_return_val_if_reached (NULL);
    }
}

/* Without a loss: whole seconds as they are, else up to three decimals. */
static char *
moment_text (gint64 ms)
{
  char *text = g_strdup_printf ("%" G_GINT64_FORMAT ".%03d", ms / 1000, (int) (ms % 1000));

  for (gsize n = strlen (text); n > 0 && (text[n - 1] == '0' || text[n - 1] == '.'); n--)
    {
      gboolean point = text[n - 1] == '.';

      text[n - 1] = '\0';
      if (point)
        break;
    }
  return text;
}

gboolean
hob_case_add_argument (HobCase *c, HobActWhat what, const char *text, GError **error)
{
  static gboolean (*const readers[]) (HobCase *, const char *, GError **) = {
    [HOB_ACT_CONTROL] = hob_case_do,
    [HOB_ACT_FAULT] = hob_case_fault,
    [HOB_ACT_LIFT] = hob_case_fault,
    [HOB_ACT_SETTING] = hob_case_setting,
  };

  return readers[what](c, text, error);
}

static char *
argument_text (const HobAct *act, const char *text)
{
  g_autofree char *moment = moment_text (act->ms);

  if (act->what == HOB_ACT_CONTROL)
    return g_strdup_printf ("%s s %s", moment, text);
  if (act->ms == 0)
    return g_strdup (text);
  return g_strdup_printf ("%s@%s s", text, moment);
}

static gboolean
reads_back (const HobRange *range, const HobAct *act, const char *argument)
{
  g_autoptr (HobCase) c = hob_case_new (range);

  return hob_case_add_argument (c, act->what, argument, NULL)
         && hob_act_same (act, &g_array_index (c->acts, HobAct, 0));
}

/* The unit in which a value that is not a word is written. */
static const char *
unit_of (const HobRange *range, const HobAct *act)
{
  const HobKind *kind = range->parts[act->part].kind;
  HobDimension dim = HOB_DIM_NUMBER;

  if (act->what == HOB_ACT_CONTROL)
    dim = kind->controls[act->index].dim;
  else if (act->what == HOB_ACT_SETTING)
    dim = kind->settings[act->index].dim;
  return hob_unit_sign (dim, HOB_UNITS_SI);
}

char *
hob_act_argument (const HobRange *range, const HobAct *act)
{
  g_autofree char *text = hob_act_text (range, act), *argument = argument_text (act, text);
  g_autofree char *exact = NULL;
  char number[G_ASCII_DTOSTR_BUF_SIZE];

  if (reads_back (range, act, argument))
    return g_steal_pointer (&argument);
  /* Rounded digits are another number: all of them, then. */
  g_ascii_formatd (number, sizeof number, "%.17g", act->value);
  exact = g_strdup_printf ("%.*s=%s %s", (int) (strchr (text, '=') - text), text, number,
                           unit_of (range, act));
  return argument_text (act, g_strchomp (exact));
}

gboolean
hob_case_has_controls (const HobCase *c)
{
  for (guint k = 0; k < c->acts->len; k++)
    if (g_array_index (c->acts, HobAct, k).what == HOB_ACT_CONTROL)
      return TRUE;
  return FALSE;
}
