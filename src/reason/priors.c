/* SPDX-License-Identifier: GPL-3.0-or-later */

#include "reason/priors.h"

#include "base/errors.h"
#include "base/i18n.h"
#include "base/units.h"

#include <math.h>
#include <stddef.h>
#include <string.h>

#define ASSUMPTIONS "Assumptions"
#define FAULTS "Faults"

static const struct
{
  const char *key;
  gsize offset; /* of the double in HobPriors */
  double low, high, start;
} assumptions[] = {
  { "nothing-wrong", offsetof (HobPriors, nothing_wrong), 0, 0.99, 0.10 },
  { "not-listed", offsetof (HobPriors, not_listed), 0.001, 0.99, 0.03 },
  { "two-faults", offsetof (HobPriors, two_faults), 0, 1, 0.05 },
  { "mis-seen", offsetof (HobPriors, mis_seen), 0.001, 0.49, 0.03 },
  { "sure", offsetof (HobPriors, rule.sure), 0.5, 0.9999, 0.95 },
  { "wrong-part", offsetof (HobPriors, rule.wrong), 1, 1e5, 120 },
};

static double *
assumption (const HobPriors *priors, guint k)
{
  return (double *) (gpointer) ((char *) priors + assumptions[k].offset);
}

HobPriors *
hob_priors_new (const HobRange *range)
{
  HobPriors *priors = g_new0 (HobPriors, 1);

  priors->rule = hob_test_rule_default;
  for (guint k = 0; k < G_N_ELEMENTS (assumptions); k++)
    *assumption (priors, k) = assumptions[k].start;
  priors->n_parts = range->n_parts;
  priors->weights = g_new0 (double *, range->n_parts + 1);
  for (int p = 0; p < range->n_parts; p++)
    {
      const HobKind *kind = range->parts[p].kind;

      priors->weights[p] = g_new0 (double, kind->n_faults + 1);
      for (int f = 0; f < kind->n_faults; f++)
        priors->weights[p][f] = kind->faults[f].prior;
    }
  return priors;
}

void
hob_priors_free (HobPriors *priors)
{
  if (priors == NULL)
    return;
  for (int p = 0; p < priors->n_parts; p++)
    g_free (priors->weights[p]);
  g_free (priors->weights);
  g_free (priors);
}

char *
hob_priors_file (void)
{
  return g_build_filename (g_get_user_config_dir (), "hobwright", "priors.ini", NULL);
}

static gboolean
take_number (GKeyFile *keys, const char *file, const char *group, const char *key, double low,
             double high, double *value, GError **error)
{
  g_autofree char *text = g_key_file_get_value (keys, group, key, NULL);
  char *end;
  double number;

  if (text == NULL)
    return TRUE;
  number = g_ascii_strtod (text, &end);
  if (end != text && *end == '\0' && number >= low && number <= high)
    {
      *value = number;
      return TRUE;
    }
  g_set_error (error, HOB_ERROR, HOB_ERROR_VALUE,
               /* Translators: a file, and a line of it. */
               _ ("%s: '%s=%s' is not valid; use a number from %g to %g"), file, key, text, low,
               high);
  return FALSE;
}

static gboolean
take_faults (HobPriors *priors, const HobRange *range, GKeyFile *keys, const char *file,
             GError **error)
{
  for (int p = 0; p < range->n_parts; p++)
    for (int f = 0; f < range->parts[p].kind->n_faults; f++)
      {
        g_autofree char *key = g_strdup_printf ("%s:%s", range->parts[p].id,
                                                range->parts[p].kind->faults[f].id);

        if (!take_number (keys, file, FAULTS, key, 0, 1e6, &priors->weights[p][f], error))
          return FALSE;
      }
  return TRUE;
}

gboolean
hob_priors_load (HobPriors *priors, const HobRange *range, const char *file, GError **error)
{
  g_autoptr (GKeyFile) keys = g_key_file_new ();
  g_autoptr (GError) wrong = NULL;

  if (!g_key_file_load_from_file (keys, file, G_KEY_FILE_NONE, &wrong))
    {
      if (g_error_matches (wrong, G_FILE_ERROR, G_FILE_ERROR_NOENT))
        return TRUE;
      g_set_error (error, HOB_ERROR, HOB_ERROR_VALUE, _ ("%s: can't be read: %s"), file,
                   wrong->message);
      return FALSE;
    }
  for (guint k = 0; k < G_N_ELEMENTS (assumptions); k++)
    if (!take_number (keys, file, ASSUMPTIONS, assumptions[k].key, assumptions[k].low,
                      assumptions[k].high, assumption (priors, k), error))
      return FALSE;
  return take_faults (priors, range, keys, file, error);
}

static void
append_faults (GString *out, const HobPriors *priors, const HobRange *range)
{
  for (int p = 0; p < range->n_parts; p++)
    for (int f = 0; f < range->parts[p].kind->n_faults; f++)
      if (hob_range_has_fault (range, p, f))
        {
          const HobFaultDef *def = &range->parts[p].kind->faults[f];

          if (def->basis != NULL)
            g_string_append_printf (out, "# %s\n", def->basis);
          g_string_append_printf (out, "%s:%s=", range->parts[p].id, def->id);
          hob_append_number (out, priors->weights[p][f]);
          g_string_append_c (out, '\n');
        }
}

char *
hob_priors_text (const HobPriors *priors, const HobRange *range)
{
  GString *out = g_string_new ("# ");

  g_string_append (out, _ ("These figures are estimates from memory, not from a published source. "
                           "If you have better figures, change them."));
  g_string_append (out, "\n[" ASSUMPTIONS "]\n");
  for (guint k = 0; k < G_N_ELEMENTS (assumptions); k++)
    {
      g_string_append_printf (out, "%s=", assumptions[k].key);
      hob_append_number (out, *assumption (priors, k));
      g_string_append_c (out, '\n');
    }
  g_string_append (out, "[" FAULTS "]\n");
  append_faults (out, priors, range);
  return g_string_free (out, FALSE);
}
