/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/hazard.h"

#include "base/i18n.h"

#include <string.h>

G_STATIC_ASSERT (HOB_N_HAZARDS <= 24);

const HobHazardDef hob_hazards[HOB_N_HAZARDS] = {
  [HOB_HAZARD_GAS_STRONG] = {
    .id = "gas-strong",
    .name = N_ ("Strong smell of gas"),
    .text = N_ ("Get everyone out now. Don't touch a switch, plug, knob, or phone, and don't light "
                "anything. Call 911 or the gas company from outside. Stay out until they say it's "
                "safe."),
    .when = HOB_HAZARD_IF_LP,
    .variant = N_ ("Propane is heavier than air. Stay out of basements and low spots."),
    .silences = TRUE,
    .again = HOB_AGAIN_NEVER,
    .unmistakable = TRUE,
  },
  [HOB_HAZARD_FIRE] = {
    .id = "fire",
    .name = N_ ("Fire"),
    .text = N_ ("Get everyone out and call 911 from outside."),
    .when = HOB_HAZARD_IF_OVEN_CLOSED,
    .variant = N_ ("Oven fire with the door closed: Keep the door closed and turn the oven off."),
    .variant_first = TRUE,
    .silences = TRUE,
    .again = HOB_AGAIN_NEVER,
    .unmistakable = TRUE,
  },
  [HOB_HAZARD_CO_SICK] = {
    .id = "co-sick",
    .name = N_ ("Carbon monoxide"),
    .text = N_ ("Get everyone into fresh air now. Call 911 from outside. Don't go back in."),
    .silences = TRUE,
    .again = HOB_AGAIN_NEVER,
    .unmistakable = TRUE,
  },
  [HOB_HAZARD_SHOCK] = {
    .id = "shock",
    .name = N_ ("Electric shock"),
    .text = N_ ("Don't touch the range. Turn off its breaker at the panel. Call an electrician."),
    .when = HOB_HAZARD_IF_STUCK,
    .variant = N_ ("If someone is being shocked: Don't touch them. Turn the breaker off, then call "
                   "911."),
    .variant_first = TRUE,
    .silences = TRUE,
    .unplugged = TRUE,
    .again = HOB_AGAIN_NEVER,
    .unmistakable = TRUE,
  },
  [HOB_HAZARD_HOT_PLUG] = {
    .id = "hot-plug",
    .name = N_ ("Overheated plug"),
    .text = N_ ("Turn off the breaker. Don't pull a hot plug. Have the plug and the receptacle "
                "repaired before you use the range again."),
    .sparks = TRUE,
    .hot_plug = TRUE,
    .again = HOB_AGAIN_STOP,
  },
  [HOB_HAZARD_GAS_FAINT] = {
    .id = "gas-faint",
    .name = N_ ("Faint smell of gas"),
    .text = N_ ("Turn the knob straight to OFF. Don't switch anything on or off, the range hood "
                "included. Open a window and leave the room for five minutes. If you still smell "
                "gas, get out. Call 911 or the gas company from outside."),
    .unlit_gas = TRUE,
    .again = HOB_AGAIN_FAINT,
    .unmistakable = TRUE,
  },
  [HOB_HAZARD_GAS_GATHERED] = {
    .id = "gas-gathered",
    .name = N_ ("Built-up gas"),
    .text = N_ ("Don't try to light the burner again yet. Turn the control off. Open the oven door "
                "and a window. Wait at least five minutes, longer for propane: it sinks into the "
                "drawer. After two failed tries, stop and call for service."),
    .again = HOB_AGAIN_STOP,
  },
  [HOB_HAZARD_STOP_USING] = {
    .id = "stop-using",
    .name = N_ ("Unsafe range"),
    .text = N_ ("Stop using the range. Turn off its breaker. "
                "Close the gas shutoff valve if you can reach it without moving the range."),
    .sparks = TRUE,
    .again = HOB_AGAIN_STOP,
    .unmistakable = TRUE,
  },
  [HOB_HAZARD_BREAKER_GFCI] = {
    .id = "breaker-gfci",
    .name = N_ ("Tripped breaker or GFCI"),
    .text = N_ ("Reset it once. If it trips again, leave it off and find the cause. Never bypass "
                "a GFCI."),
    .sparks = TRUE,
    .unmistakable = TRUE,
  },
  [HOB_HAZARD_CO_FLAME] = {
    .id = "co-flame",
    .name = N_ ("Bad flame or blocked vent"),
    .text = N_ ("Don't use this burner. Yellow, lifting, or sooting flames can make carbon "
                "monoxide. So can a blocked vent. Never heat a room with a range."),
  },
  [HOB_HAZARD_DEAD_FIRST] = {
    .id = "dead-first",
    .name = N_ ("Voltage inside the range"),
    .text = N_ ("Unplug the range or turn off its breaker, then check for voltage before you "
                "reach in. "
                "Off doesn't mean dead."),
    .sparks = TRUE,
    .unplugs = TRUE,
  },
  [HOB_HAZARD_LIVE_TEST] = {
    .id = "live-test",
    .name = N_ ("Live test"),
    .text = N_ ("For trained technicians. Clip your leads on with the range unplugged. "
                "Plug in, read, touch nothing, unplug."),
    .sparks = TRUE,
    .unplugs = TRUE,
  },
  [HOB_HAZARD_SPARK_LEAD] = {
    .id = "spark-lead",
    .name = N_ ("Spark lead"),
    .text = N_ ("Never put a meter on a spark lead."),
  },
  [HOB_HAZARD_NO_BYPASS] = {
    .id = "no-bypass",
    .name = N_ ("Safety devices"),
    .text = N_ ("Never bypass or jumper a safety valve, limit, door switch, control, or GFCI."),
  },
  [HOB_HAZARD_HOT_IGNITER] = {
    .id = "hot-igniter",
    .name = N_ ("Hot igniter"),
    .text = N_ ("Let the igniter cool for ten minutes. Don't touch the element; it breaks easily."),
  },
  [HOB_HAZARD_GAS_JOINT] = {
    .id = "gas-joint",
    .name = N_ ("Gas fittings"),
    .text = N_ ("Shut off the gas before you open a fitting. Use a new connector, never an old "
                "one. Leak-test with leak-detection solution, never a flame."),
    .when = HOB_HAZARD_IF_GROUND_OPEN,
    .variant = N_ ("Open ground: Unplug the range before you open a fitting. The gas line may "
                   "carry current."),
    .variant_first = TRUE,
  },
  [HOB_HAZARD_PRESSURE] = {
    .id = "pressure",
    .name = N_ ("Gas pressure reading"),
    .text = N_ ("Shut off the gas and connect the manometer. Turn the gas on, leak-test, then "
                "read. Shut the gas off and plug the tap. Turn the gas on and leak-test again."),
  },
  [HOB_HAZARD_MATCH] = {
    .id = "match",
    .name = N_ ("Lighting with a match"),
    .text = N_ ("Surface burners only, and only if there is no smell of gas. "
                "Hold the lit match at the burner first, then turn the knob. "
                "Never light an oven with a match."),
    .sparks = TRUE,
  },
  [HOB_HAZARD_PUT_BACK] = {
    .id = "put-back",
    .name = N_ ("Putting the range back"),
    .text = N_ ("Slide the range back without kinking the connector. Make sure the rear leg "
                "engages the anti-tip bracket."),
  },
  [HOB_HAZARD_ALWAYS] = {
    .id = "always",
    .name = N_ ("General caution"),
    .text = N_ ("Hobwright is for training and for thinking a problem through. Follow the "
                "appliance's own tech sheet and your local codes. Leave gas and electrical work to "
                "people licensed or qualified for it."),
  },
};

int
hob_hazard_find (const char *id)
{
  for (int h = 0; h < HOB_N_HAZARDS; h++)
    if (g_str_equal (hob_hazards[h].id, id))
      return h;
  return -1;
}

static const struct
{
  const char *id;
  HobHazards bit;
} circumstances[] = {
  { "if-lp", HOB_HAZARD_IF_LP },
  { "if-oven-closed", HOB_HAZARD_IF_OVEN_CLOSED },
  { "if-stuck", HOB_HAZARD_IF_STUCK },
  { "if-ground-open", HOB_HAZARD_IF_GROUND_OPEN },
};

/* The bit of a hazard or a circumstance; 0 if @id is neither. */
static HobHazards
find_bit (const char *id)
{
  int hazard = hob_hazard_find (id);

  for (guint i = 0; i < G_N_ELEMENTS (circumstances); i++)
    if (g_str_equal (circumstances[i].id, id))
      return circumstances[i].bit;
  return hazard >= 0 ? HOB_HAZARD_BIT (hazard) : 0;
}

HobHazards
hob_hazards_parse (const char *ids, char **unknown)
{
  g_auto (GStrv) words = g_strsplit_set (ids, " \n\r\t", -1);
  HobHazards set = 0;

  *unknown = NULL;
  for (char **w = words; *w != NULL; w++)
    {
      HobHazards bit = find_bit (*w);

      set |= bit;
      if (bit == 0 && **w != '\0' && *unknown == NULL)
        *unknown = g_strdup (*w);
    }
  return set;
}

int
hob_hazards_next (HobHazards set, int after)
{
  for (int h = after + 1; h < HOB_N_HAZARDS; h++)
    if (set & HOB_HAZARD_BIT (h))
      return h;
  return -1;
}

/* The gravest hazard of @set that silences the others, or -1. */
static int
silencer (HobHazards set)
{
  for (int h = hob_hazards_next (set, -1); h >= 0; h = hob_hazards_next (set, h))
    if (hob_hazards[h].silences)
      return h;
  return -1;
}

/* @h holds: is @o kept silent? */
static gboolean
keeps_silent (int h, int o)
{
  const HobHazardDef *hazard = &hob_hazards[h], *other = &hob_hazards[o];

  if (o == HOB_HAZARD_ALWAYS || o == h)
    return FALSE;
  return (hazard->silences && o > h) || (hazard->unlit_gas && other->sparks)
         || (hazard->hot_plug && other->unplugs);
}

HobHazards
hob_hazards_unplugged (HobHazards set)
{
  HobHazards left = set;

  for (int h = hob_hazards_next (set, -1); h >= 0; h = hob_hazards_next (set, h))
    if (hob_hazards[h].unplugged)
      left = (left & ~HOB_HAZARD_BIT (h)) | HOB_HAZARD_BIT (HOB_HAZARD_STOP_USING);
  return left;
}

HobHazards
hob_hazards_shown (HobHazards set)
{
  return hob_hazards_shown_with (set, 0);
}

HobHazards
hob_hazards_beside (HobHazards of, HobHazards now)
{
  HobHazards named = of & hob_hazards_shown (now | of), why = 0;

  if (of == 0 || (named & ~HOB_HAZARD_IF_ANY) != 0)
    return named;
  for (int h = hob_hazards_next (now, -1); h >= 0; h = hob_hazards_next (now, h))
    for (int o = hob_hazards_next (of, -1); o >= 0; o = hob_hazards_next (of, o))
      if (why == 0 && keeps_silent (h, o))
        why = HOB_HAZARD_BIT (h);
  return why;
}

HobHazards
hob_hazards_shown_with (HobHazards now, HobHazards described)
{
  HobHazards shown = now | described;

  for (int h = hob_hazards_next (now, -1); h >= 0; h = hob_hazards_next (now, h))
    for (int o = 0; o < HOB_HAZARD_ALWAYS; o++)
      if (keeps_silent (h, o))
        shown &= ~HOB_HAZARD_BIT (o);
  return shown;
}

HobHazards
hob_hazards_first (HobHazards set, int n, HobHazards *rest)
{
  HobHazards first = 0;
  int h = hob_hazards_next (set, -1);

  for (; n > 0 && h >= 0; n--, h = hob_hazards_next (set, h))
    first |= HOB_HAZARD_BIT (h);
  *rest = set & ~first;
  return first | (set & HOB_HAZARD_IF_ANY);
}

const char *
hob_hazards_make_safe (HobHazards set)
{
  return silencer (set) < 0 ? NULL : _("First make it safe.");
}

char *
hob_hazard_text (HobHazard hazard, HobHazards set)
{
  const HobHazardDef *def = &hob_hazards[hazard];

  if (!(def->when & set))
    return g_strdup (_(def->text));
  return g_strdup_printf ("%s %s", def->variant_first ? _(def->variant) : _(def->text),
                          def->variant_first ? _(def->text) : _(def->variant));
}

char *
hob_hazards_names (HobHazards set)
{
  GString *names = g_string_new (NULL);

  for (int h = hob_hazards_next (set, -1); h >= 0; h = hob_hazards_next (set, h))
    g_string_append_printf (names, "%s%s", names->len > 0 ? ", " : "", _(hob_hazards[h].name));
  return g_string_free (names, FALSE);
}
