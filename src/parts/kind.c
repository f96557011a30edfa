/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "parts/burner.h"
#include "parts/plug.h"
#include "parts/renamed.h"
#include "parts/trip.h"

#include "base/errors.h"
#include "base/hash.h"
#include "base/i18n.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

/* ---- The list of kinds ---- */

static guint
count_kinds (void)
{
  guint n = 0;

  while (hob_kinds[n] != NULL)
    n++;
  return n;
}

static int
compare_kind (const void *name, const void *kind)
{
  return strcmp (name, (*(const HobKind *const *) kind)->name);
}

const HobKind *
hob_kind_find (const char *name)
{
  const HobKind *const *found;

  g_return_val_if_fail (name != NULL, NULL);

  found = bsearch (name, hob_kinds, count_kinds (), sizeof hob_kinds[0], compare_kind);
  if (found != NULL)
    return *found;
  return hob_renamed (name) != NULL ? hob_kind_find (hob_renamed (name)) : NULL;
}

const char **
hob_kind_names (void)
{
  guint n = count_kinds ();
  const char **names = g_new0 (const char *, n + 1);

  for (guint i = 0; i < n; i++)
    names[i] = hob_kinds[i]->name;
  return names;
}

/* ---- Names within a kind ---- */

/* Every table's entry begins with its name: the index of @name in @n entries of @size bytes. */
static int
find_name (const void *table, int n, gsize size, const char *name)
{
  for (int i = 0; i < n; i++)
    {
      const char *const *entry = (const void *) ((const char *) table + (gsize) i * size);

      if (strcmp (*entry, name) == 0)
        return i;
    }
  return -1;
}

#define FIND(kind, table, name)                                                                    \
  find_name ((kind)->table, (kind)->n_##table, sizeof (kind)->table[0], (name))

int
hob_kind_terminal (const HobKind *kind, const char *name)
{
  return FIND (kind, terminals, name);
}

int
hob_kind_port (const HobKind *kind, const char *name)
{
  return FIND (kind, ports, name);
}

int
hob_kind_setting (const HobKind *kind, const char *name)
{
  int setting = FIND (kind, settings, name);

  return setting < 0 && hob_renamed (name) != NULL ? FIND (kind, settings, hob_renamed (name))
                                                   : setting;
}

int
hob_kind_control (const HobKind *kind, const char *name)
{
  return FIND (kind, controls, name);
}

int
hob_kind_fault (const HobKind *kind, const char *id)
{
  int fault = FIND (kind, faults, id);

  return fault < 0 && hob_renamed (id) != NULL ? FIND (kind, faults, hob_renamed (id)) : fault;
}

int
hob_kind_quantity (const HobKind *kind, const char *name)
{
  int quantity = FIND (kind, quantities, name);

  return quantity < 0 && hob_renamed (name) != NULL ? FIND (kind, quantities, hob_renamed (name))
                                                    : quantity;
}

int
hob_kind_mode (const HobKind *kind, const char *name)
{
  return FIND (kind, modes, name);
}

const HobLinkDef *
hob_kind_link_to_mode (const HobKind *kind, int mode, double value)
{
  for (int k = 0; k < kind->n_links; k++)
    if (kind->links[k].to == HOB_LINK_MODE (mode) && kind->links[k].value == value)
      return &kind->links[k];
  return NULL;
}

/* ---- Hazards ---- */

HobHazards
hob_fault_hazards (const HobKind *kind, const HobFaultDef *fault)
{
  g_return_val_if_fail (kind != NULL && fault != NULL, 0);

  return fault->hazards | kind->hazards | hob_means_hazards (fault->confirm);
}

/* ---- Words and values ---- */

/* @text without the space around it. (transfer full) */
static char *
trimmed (const char *text)
{
  return g_strstrip (g_strdup (text));
}

static gboolean
refuse_word (const char *text, GPtrArray *words, GError **error)
{
  g_autofree char *list = NULL;
  const char *near;

  g_ptr_array_add (words, NULL);
  near = hob_near_miss (text, (const char *const *) words->pdata);
  list = g_strjoinv (", ", (char **) words->pdata);
  if (near != NULL)
    g_set_error (error, HOB_ERROR, HOB_ERROR_VALUE,
                 _("'%s' is not a choice here; did you mean '%s'? The choices are: %s"),
                 text, near, list);
  else
    g_set_error (error, HOB_ERROR, HOB_ERROR_VALUE, _("'%s' is not a choice here; use one of: %s"),
                 text, list);
  return FALSE;
}

static gboolean
refuse_span (const char *text, const char *low, const char *high, GError **error)
{
  g_set_error (error, HOB_ERROR, HOB_ERROR_VALUE,
               _("'%s' is too low or too high; use %s to %s"), text, low, high);
  return FALSE;
}

/* A value as it may be written in a file: exact to nine digits, for hob_parse_quantity. */
static char *
value_text (double value, HobDimension dim)
{
  g_autofree char *number = NULL;

  if (dim == HOB_DIM_RESISTANCE && isinf (value))
    return g_strdup ("open");
  if (dim == HOB_DIM_TEMPERATURE || dim == HOB_DIM_DIFFERENCE)
    {
      number = hob_number_text (hob_convert (value, dim, HOB_UNITS_TRADE));
      return g_strconcat (number, " degF", NULL);
    }
  number = hob_number_text (value);
  return g_strconcat (number, *hob_unit_sign (dim, HOB_UNITS_SI) != '\0' ? " " : "",
                      hob_unit_sign (dim, HOB_UNITS_SI), NULL);
}

/* Nine digits of degF and back may miss a limit by the last bits. */
static gboolean
in_span (double value, double low, double high)
{
  const double slack = 1e-9;

  return value >= low - slack * fabs (low) && (isinf (high) || value <= high + slack * fabs (high));
}

/* ---- Controls ---- */

static const HobPosition *
find_position (const HobControlDef *control, const char *name)
{
  for (const HobPosition *p = control->positions; p != NULL && p->name != NULL; p++)
    if (strcmp (p->name, name) == 0)
      return p;
  return NULL;
}

const HobPosition hob_off_on[] = {
  { .name = "off", .words = N_ ("OFF"), .value = 0 },
  { .name = "on", .words = N_ ("ON"), .value = 1 },
  { NULL },
};

const HobPosition hob_closed_open[] = {
  { .name = "closed", .words = N_ ("CLOSED"), .value = 0 },
  { .name = "open", .words = N_ ("OPEN"), .value = 1 },
  { NULL },
};

int
hob_control_position (const HobControlDef *control, HobPositionRole role)
{
  g_return_val_if_fail (control != NULL, -1);

  for (int i = 0; control->positions != NULL && control->positions[i].name != NULL; i++)
    if (control->positions[i].role == role)
      return i;
  return -1;
}

static gboolean
looks_like_number (const char *text)
{
  return g_ascii_isdigit (text[0]) || (text[0] != '\0' && strchr ("+-.", text[0]) != NULL);
}

static gboolean
refuse_position (const HobControlDef *control, const char *text, GError **error)
{
  g_autoptr (GPtrArray) words = g_ptr_array_new ();

  for (const HobPosition *p = control->positions; p != NULL && p->name != NULL; p++)
    g_ptr_array_add (words, (char *) p->name);
  return refuse_word (text, words, error);
}

/* Travel is stored in percent: "62%" and "62" are the same. */
static gboolean
parse_travel (const char *text, double *value, GError **error)
{
  if (!hob_parse_quantity (text, HOB_DIM_NUMBER, value, error))
    return FALSE;
  if (g_str_has_suffix (text, "%"))
    *value *= 100.0;
  return TRUE;
}

gboolean
hob_control_parse (const HobControlDef *control, const char *text, double *value, GError **error)
{
  g_autofree char *word = NULL;
  const HobPosition *position;
  double v;

  g_return_val_if_fail (control != NULL && text != NULL && value != NULL, FALSE);

  word = trimmed (text);
  position = find_position (control, word);
  if (position != NULL)
    {
      *value = position->value;
      return TRUE;
    }
  if (control->dim == HOB_DIM_CHOICE || (control->positions != NULL && !looks_like_number (word)))
    return refuse_position (control, word, error);
  if (control->dim == HOB_DIM_NUMBER ? !parse_travel (word, &v, error)
                                     : !hob_parse_quantity (word, control->dim, &v, error))
    return FALSE;
  if (!in_span (v, control->low, control->high))
    {
      gboolean travel = control->dim == HOB_DIM_NUMBER;
      g_autofree char *low = travel ? g_strdup ("0 %") : hob_control_text (control, control->low);
      g_autofree char *high
          = travel ? g_strdup ("100 %") : hob_control_text (control, control->high);

      return refuse_span (word, low, high, error);
    }
  *value = CLAMP (v, control->low, control->high);
  return TRUE;
}

char *
hob_control_text (const HobControlDef *control, double value)
{
  g_return_val_if_fail (control != NULL, NULL);

  for (const HobPosition *p = control->positions; p != NULL && p->name != NULL; p++)
    if (p->value == value)
      return g_strdup (p->name);
  if (control->dim == HOB_DIM_NUMBER)
    {
      g_autofree char *number = hob_number_text (value);

      return g_strconcat (number, " %", NULL);
    }
  return value_text (value, control->dim);
}

/* ---- Settings ---- */

static gboolean
parse_choice (const HobSettingDef *setting, const char *word, double *value, GError **error)
{
  g_autoptr (GPtrArray) words = g_ptr_array_new ();

  for (int i = 0; setting->choices[i] != NULL; i++)
    {
      if (strcmp (setting->choices[i], word) == 0)
        {
          *value = i;
          return TRUE;
        }
      g_ptr_array_add (words, (char *) setting->choices[i]);
    }
  return refuse_word (word, words, error);
}

gboolean
hob_setting_parse (const HobSettingDef *setting, const char *text, double *value, GError **error)
{
  g_autofree char *word = NULL;
  double v;

  g_return_val_if_fail (setting != NULL && text != NULL && value != NULL, FALSE);

  word = trimmed (text);
  if (setting->condition)
    {
      g_set_error (error, HOB_ERROR, HOB_ERROR_VALUE,
                   _("only a fault can change '%s'; add a fault instead"), setting->name);
      return FALSE;
    }
  if (setting->dim == HOB_DIM_CHOICE)
    return parse_choice (setting, word, value, error);
  if (!hob_parse_quantity (word, setting->dim, &v, error))
    return FALSE;
  if (!in_span (v, setting->low, setting->high))
    {
      g_autofree char *low = value_text (setting->low, setting->dim);
      g_autofree char *high = value_text (setting->high, setting->dim);

      return refuse_span (word, low, high, error);
    }
  *value = v;
  return TRUE;
}

/* ---- Words of modes that several kinds have ---- */

const char *const hob_flame_words[] = { N_ ("flame goes out"), N_ ("flame lights"), NULL };
const char *const hob_flow_words[] = { N_ ("gas stops"), N_ ("gas reaches the burner"), NULL };
const char *const hob_plug_words[]
    = { N_ ("harness plug makes contact again"), N_ ("harness plug loses contact"), NULL };
/* Translators: after the name of a breaker, GFCI, or thermostat. */
const char *const hob_trip_words[] = { N_ ("resets"), N_ ("trips"), NULL };

gboolean
hob_kind_is_two_terminal (const HobKind *kind)
{
  int n = 0;

  for (int k = 0; k < kind->n_terminals; k++)
    n += !kind->terminals[k].inner;
  return n == 2;
}

/* ---- Specimens ---- */

/* A part that deviates by more than this is rejected at the factory, and another one is built in
 * (assumption; no source). */
#define INSPECTED 2.0           /* standard deviations */
#define REDRAW (G_GUINT64_CONSTANT (1) << 32) /* apart from every count that a kind uses */

double
hob_specimen_normal (const HobPartContext *c, guint64 count)
{
  double z = 0;

  if (c->seed == 0)
    return z;
  do
    {
      z = hob_hash_normal (c->seed, (guint64) c->index, count);
      count += REDRAW;
    }
  while (fabs (z) > INSPECTED);
  return z;
}

double
hob_specimen_factor (const HobPartContext *c, double scatter, guint64 count)
{
  return c->seed == 0 ? 1 : exp (scatter * hob_specimen_normal (c, count));
}
