/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "window/part-panel.h"

#include "base/figure.h"
#include "base/i18n.h"
#include "parts/say.h"
#include "parts/severity.h"
#include "sheet/differences.h"
#include "window/words.h"
#include "window/wrap-row.h"

#include <math.h>

#define REFRESH_US 200000
#define DIGITS 3

typedef struct
{
  HobPartPanel *panel; /* borrowed */
  int fault;
  GtkWidget *card, *button; /* borrowed */
  GtkWidget *severity;      /* borrowed; NULL: all or nothing */
  GtkLabel *confirm;        /* borrowed: "How to confirm", or "First make it safe."; NULL: none */
  GtkWidget *names;         /* borrowed: hazards that a fault above it has the words of */
  GtkWidget *cautions;      /* borrowed: the words of the others */
  HobHazards hazards;       /* all of its */
  HobHazards own;           /* those that no fault above it has */
  HobHazards listed;        /* of these: what has words now */
  gboolean there;
} Fault;

typedef struct
{
  HobPartPanel *panel;
  int setting;
  GtkWidget *widget; /* borrowed: entry or drop-down */
  char *shown;       /* owned: the text last put there */
} Setting;

struct _HobPartPanel
{
  GtkWidget parent_instance;

  GtkWidget *scroller, *content; /* template children */

  /*< owned >*/
  HobSession *session;
  GPtrArray *readings; /* GtkLabel, borrowed, in order */
  GPtrArray *faults;   /* Fault */
  GPtrArray *settings; /* Setting */

  HobHazards hazards; /* of all faults listed so far: each has its words once */

  gint64 shown_at; /* µs */
  gboolean showing;
};

G_DEFINE_FINAL_TYPE (HobPartPanel, hob_part_panel, GTK_TYPE_WIDGET)

static const HobPart *
chosen (HobPartPanel *self)
{
  int part = hob_session_chosen_part (self->session);

  return part >= 0 ? &hob_session_range (self->session)->parts[part] : NULL;
}

static void
append (HobPartPanel *self, GtkWidget *widget)
{
  gtk_box_append (GTK_BOX (self->content), widget);
}

static void
append_section (HobPartPanel *self, const char *title)
{
  append (self, hob_text_new (title, "section"));
}

/* ---- Readings ---- */

static void
add_reading (HobPartPanel *self, const char *words)
{
  GtkWidget *row = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 8);
  g_autofree char *heading = hob_heading_text (words);
  GtkWidget *name = hob_text_new (heading, NULL), *value = gtk_label_new ("");

  gtk_widget_set_hexpand (name, TRUE);
  gtk_widget_add_css_class (value, "figure");
  gtk_box_append (GTK_BOX (row), name);
  gtk_box_append (GTK_BOX (row), value);
  append (self, row);
  g_ptr_array_add (self->readings, value);
}

static void
show_reading (HobPartPanel *self, guint i, char *text)
{
  hob_label_show (g_ptr_array_index (self->readings, i), text);
  g_free (text);
}

static void
show_part_readings (HobPartPanel *self, const HobPart *part)
{
  const HobMoment *moment = hob_session_moment (self->session);
  int index = hob_session_chosen_part (self->session);

  for (int i = 0; i < part->kind->n_quantities; i++)
    show_reading (self, (guint)i,
                  hob_quantity_text (&part->kind->quantities[i],
                                     hob_moment_quantity (moment, index, i), DIGITS));
}

static void
show_wire_readings (HobPartPanel *self)
{
  const HobWireScene *wire
      = &hob_session_scene (self->session)->wires[hob_session_chosen_wire (self->session)];

  show_reading (self, 0, hob_person_text (wire->current, HOB_DIM_CURRENT, DIGITS));
  show_reading (self, 1,
                wire->differs ? hob_person_text (wire->should_be, HOB_DIM_CURRENT, DIGITS)
                              : g_strdup ("–"));
  show_reading (self, 2, hob_person_text (wire->volts, HOB_DIM_VOLTAGE, DIGITS));
}

/* ---- Faults ---- */

static double
severity_of (const Fault *fault, const HobFaultDef *def)
{
  if (fault->severity == NULL)
    return hob_fault_typical (def);
  return gtk_spin_button_get_value (GTK_SPIN_BUTTON (fault->severity)) / 100.0;
}

static void
put_fault (Fault *fault, gboolean there)
{
  HobSession *session = fault->panel->session;
  const HobFaultDef *def = &chosen (fault->panel)->kind->faults[fault->fault];

  hob_session_act (session, there ? HOB_ACT_FAULT : HOB_ACT_LIFT, hob_session_chosen_part (session),
                   fault->fault, there ? severity_of (fault, def) : 0);
}

static void
on_add (GtkButton *button, Fault *fault)
{
  put_fault (fault, !fault->there);
}

static void
on_severity (GtkSpinButton *spin, Fault *fault)
{
  if (!fault->panel->showing && fault->there)
    put_fault (fault, TRUE);
}

/* Those of @set that the strip on top has not got already, and that nothing which holds @now keeps
 * silent. */
static HobHazards
hazards_to_list (HobHazards set, HobHazards now)
{
  HobHazards list = set & HOB_HAZARD_IF_ANY;

  for (int h = hob_hazards_next (set, -1); h >= 0; h = hob_hazards_next (set, h))
    if (!(now & HOB_HAZARD_BIT (h))
        && (hob_hazards_shown (now | HOB_HAZARD_BIT (h)) & HOB_HAZARD_BIT (h)))
      list |= HOB_HAZARD_BIT (h);
  return hob_hazards_make_safe (now) == NULL ? list : 0;
}

/* Words for each hazard once; names alone of those that have words elsewhere on the screen. */
static void
show_cautions (Fault *fault, HobHazards now)
{
  HobHazards list = hazards_to_list (fault->own, now),
             named = hazards_to_list (fault->hazards & ~fault->own, now);
  g_autofree char *names = hob_hazards_names (named);

  hob_caution_names_show (fault->names, names);
  if (list == fault->listed)
    return;
  fault->listed = list;
  hob_box_clear (fault->cautions);
  for (int h = hob_hazards_next (list, -1); h >= 0; h = hob_hazards_next (list, h))
    gtk_box_append (GTK_BOX (fault->cautions), hob_caution_new ((HobHazard) h, list));
}

/* Nobody confirms anything before people are safe. */
static void
show_confirm (Fault *fault, const char *make_safe)
{
  const HobFaultDef *def = &chosen (fault->panel)->kind->faults[fault->fault];

  if (fault->confirm != NULL)
    {
      g_autofree char *text = g_strdup_printf (_ ("How to confirm: %s"), _ (def->proof));

      hob_label_show (fault->confirm, make_safe != NULL ? make_safe : text);
    }
}

static void
show_fault (Fault *fault, const HobMoment *moment)
{
  HobPartPanel *self = fault->panel;
  double severity
      = hob_moment_fault (moment, hob_session_chosen_part (self->session), fault->fault);

  fault->there = !isnan (severity);
  gtk_button_set_label (GTK_BUTTON (fault->button), fault->there ? _ ("Remove") : _ ("Add"));
  gtk_widget_set_tooltip_text (fault->button, fault->there ? _ ("Remove this fault now")
                                                           : _ ("Add this fault now"));
  if (fault->there && fault->severity != NULL)
    gtk_spin_button_set_value (GTK_SPIN_BUTTON (fault->severity), severity * 100);
  if (fault->there)
    gtk_widget_add_css_class (fault->card, "tag");
  else
    gtk_widget_remove_css_class (fault->card, "tag");
}

static GtkWidget *
severity_new (Fault *fault, const HobKind *kind, const HobFaultDef *def)
{
  GtkWidget *spin = gtk_spin_button_new_with_range (0, 100, 5);
  g_autofree char *span = hob_fault_span_text (kind, def);
  g_autofree char *name = g_strdup_printf (_ ("Severity in percent: %s"), _ (def->words));

  gtk_spin_button_set_value (GTK_SPIN_BUTTON (spin), hob_fault_typical (def) * 100);
  gtk_editable_set_width_chars (GTK_EDITABLE (spin), 3);
  gtk_widget_set_tooltip_text (spin, span);
  gtk_accessible_update_property (GTK_ACCESSIBLE (spin), GTK_ACCESSIBLE_PROPERTY_LABEL, name, -1);
  g_signal_connect (spin, "value-changed", G_CALLBACK (on_severity), fault);
  return spin;
}

static void
on_from_start (GtkButton *button, Fault *fault)
{
  HobSession *session = fault->panel->session;
  const HobFaultDef *def = &chosen (fault->panel)->kind->faults[fault->fault];

  hob_session_from_start (session, HOB_ACT_FAULT, hob_session_chosen_part (session), fault->fault,
                          severity_of (fault, def));
}

static GtkWidget *
button_new (const char *label, const char *name, GCallback clicked, Fault *fault)
{
  GtkWidget *button = gtk_button_new_with_label (label);

  gtk_widget_set_focus_on_click (button, FALSE);
  gtk_accessible_update_property (GTK_ACCESSIBLE (button), GTK_ACCESSIBLE_PROPERTY_LABEL, name, -1);
  g_signal_connect (button, "clicked", clicked, fault);
  return button;
}

/* The severity, where there is one, and the buttons that add and remove the fault. */
static GtkWidget *
fault_hands (Fault *fault, const HobFaultDef *def)
{
  GtkWidget *how = NULL, *buttons = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 6), *start;
  g_autofree char *add_name = g_strdup_printf (_ ("Add or remove: %s"), _ (def->words));
  g_autofree char *start_name
      = g_strdup_printf (_ ("Add from the start: %s"), _ (def->words));

  fault->button = button_new (_ ("Add"), add_name, G_CALLBACK (on_add), fault);
  /* Translators: button: the fault is there from the start, not only from now on. */
  start = button_new (_ ("Add from the Start"), start_name, G_CALLBACK (on_from_start), fault);
  gtk_widget_set_tooltip_text (
      start, _ ("Replay what you did, with this fault from the start"));
  if (def->severity_words != NULL)
    {
      fault->severity = severity_new (fault, chosen (fault->panel)->kind, def);
      how = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 6);
      gtk_box_append (GTK_BOX (how), fault->severity);
      gtk_box_append (GTK_BOX (how), gtk_label_new ("%"));
    }
  gtk_box_append (GTK_BOX (buttons), start);
  gtk_box_append (GTK_BOX (buttons), fault->button);
  return hob_wrap_row_new (how, buttons);
}

static void
add_fault_words (HobPartPanel *self, Fault *fault, const HobFaultDef *def)
{
  if (def->severity_words != NULL)
    {
      g_autofree char *span = hob_fault_span_text (chosen (self)->kind, def);
      g_autofree char *severity = g_strdup_printf (_ ("Severity: %s"), span);

      append (self, hob_text_new (severity, "dim"));
    }
  if (def->proof != NULL)
    {
      fault->confirm = GTK_LABEL (hob_text_new (NULL, "dim"));
      append (self, GTK_WIDGET (fault->confirm));
    }
  fault->names = hob_text_new (NULL, "caution");
  fault->cautions = gtk_box_new (GTK_ORIENTATION_VERTICAL, 4);
  append (self, fault->names);
  append (self, fault->cautions);
  fault->hazards = hob_fault_hazards (chosen (self)->kind, def);
  fault->own = fault->hazards & ~(self->hazards & ~HOB_HAZARD_IF_ANY);
  self->hazards |= fault->hazards;
}

static void
add_fault (HobPartPanel *self, int index, const HobFaultDef *def)
{
  Fault *fault = g_new0 (Fault, 1);
  g_autofree char *heading = hob_heading_text (_ (def->words));

  fault->panel = self;
  fault->fault = index;
  fault->card = gtk_box_new (GTK_ORIENTATION_VERTICAL, 4);
  gtk_widget_add_css_class (fault->card, "fault");
  gtk_box_append (GTK_BOX (fault->card), hob_text_new (heading, "name"));
  gtk_box_append (GTK_BOX (fault->card), fault_hands (fault, def));
  append (self, fault->card);
  add_fault_words (self, fault, def);
  g_ptr_array_add (self->faults, fault);
}

static void
add_faults (HobPartPanel *self, const HobPart *part)
{
  const HobRange *range = hob_session_range (self->session);

  for (int i = 0; i < part->kind->n_faults; i++)
    {
      if (!hob_range_has_fault (range, hob_session_chosen_part (self->session), i))
        continue;
      if (self->faults->len == 0)
        append_section (self, _ ("Faults"));
      add_fault (self, i, &part->kind->faults[i]);
    }
}

/* ---- Settings ---- */

static void
setting_free (gpointer data)
{
  Setting *setting = data;

  g_free (setting->shown);
  g_free (setting);
}

static const HobSettingDef *
setting_def (const Setting *setting)
{
  return &chosen (setting->panel)->kind->settings[setting->setting];
}

static void
set (Setting *setting, double value)
{
  HobSession *session = setting->panel->session;

  hob_session_act (session, HOB_ACT_SETTING, hob_session_chosen_part (session), setting->setting,
                   value);
}

/* What was typed is taken on Enter and on leaving the field. */
static void
take_text (Setting *setting)
{
  const char *text = gtk_editable_get_text (GTK_EDITABLE (setting->widget));
  g_autoptr (GError) error = NULL;
  double value;

  if (setting->panel->showing || chosen (setting->panel) == NULL
      || g_strcmp0 (text, setting->shown) == 0)
    return;
  if (hob_setting_parse (setting_def (setting), text, &value, &error))
    {
      hob_session_say (setting->panel->session, NULL);
      set (setting, value);
      return;
    }
  hob_session_say (setting->panel->session, error->message);
  gtk_editable_set_text (GTK_EDITABLE (setting->widget), setting->shown);
}

static void
on_selected (GtkDropDown *drop, GParamSpec *pspec, Setting *setting)
{
  if (!setting->panel->showing)
    set (setting, gtk_drop_down_get_selected (drop));
}

static void
show_setting (Setting *setting, const HobMoment *moment)
{
  const HobSettingDef *def = setting_def (setting);
  double value = hob_moment_part (moment, hob_session_chosen_part (setting->panel->session))
                     ->set[setting->setting];
  g_autofree char *text = NULL;

  if (def->choices != NULL)
    {
      gtk_drop_down_set_selected (GTK_DROP_DOWN (setting->widget), (guint)value);
      return;
    }
  text = hob_setting_entry (def, value);
  if (g_strcmp0 (text, setting->shown) == 0)
    return;
  g_free (setting->shown);
  setting->shown = g_steal_pointer (&text);
  gtk_editable_set_text (GTK_EDITABLE (setting->widget), setting->shown);
}

static GtkWidget *
setting_widget (Setting *setting, const HobSettingDef *def)
{
  GtkEventController *focus;
  GtkWidget *entry;

  if (def->choices != NULL)
    {
      GtkWidget *drop = gtk_drop_down_new_from_strings (def->choices);

      hob_drop_down_name (GTK_DROP_DOWN (drop), _ (def->words));
      g_signal_connect (drop, "notify::selected", G_CALLBACK (on_selected), setting);
      return drop;
    }
  entry = gtk_entry_new ();
  gtk_editable_set_width_chars (GTK_EDITABLE (entry), 10);
  gtk_editable_set_max_width_chars (GTK_EDITABLE (entry), 10);
  focus = gtk_event_controller_focus_new ();
  g_signal_connect_swapped (focus, "leave", G_CALLBACK (take_text), setting);
  gtk_widget_add_controller (entry, focus);
  g_signal_connect_swapped (entry, "activate", G_CALLBACK (take_text), setting);
  return entry;
}

static void
add_setting (HobPartPanel *self, int index, const HobSettingDef *def)
{
  Setting *setting = g_new0 (Setting, 1);
  GtkWidget *row = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 8),
            *words = hob_text_new (_ (def->words), NULL);

  setting->panel = self;
  setting->setting = index;
  setting->widget = setting_widget (setting, def);
  gtk_widget_set_hexpand (words, TRUE);
  gtk_widget_set_valign (setting->widget, GTK_ALIGN_CENTER);
  gtk_accessible_update_property (GTK_ACCESSIBLE (setting->widget), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  _ (def->words), -1);
  gtk_box_append (GTK_BOX (row), words);
  gtk_box_append (GTK_BOX (row), setting->widget);
  append (self, row);
  g_ptr_array_add (self->settings, setting);
}

static void
add_settings (HobPartPanel *self, const HobPart *part)
{
  gboolean titled = FALSE;

  for (int i = 0; i < part->kind->n_settings; i++)
    {
      if (part->kind->settings[i].condition)
        continue;
      if (!titled)
        append_section (self, _ ("Settings"));
      titled = TRUE;
      add_setting (self, i, &part->kind->settings[i]);
    }
}

/* ---- The whole ---- */

static void
show_now (HobPartPanel *self)
{
  const HobMoment *moment = hob_session_moment (self->session);
  const HobPart *part = chosen (self);
  HobHazards now = hob_session_hazards (self->session);

  self->shown_at = g_get_monotonic_time ();
  self->showing = TRUE;
  if (part != NULL)
    show_part_readings (self, part);
  else if (hob_session_chosen_wire (self->session) >= 0)
    show_wire_readings (self);
  for (guint i = 0; i < self->faults->len; i++)
    {
      Fault *fault = g_ptr_array_index (self->faults, i);

      show_fault (fault, moment);
      show_confirm (fault, hob_hazards_make_safe (now));
      show_cautions (fault, now);
    }
  for (guint i = 0; i < self->settings->len; i++)
    show_setting (g_ptr_array_index (self->settings, i), moment);
  self->showing = FALSE;
}

static void
on_moved (HobPartPanel *self)
{
  if (!hob_session_running (self->session)
      || g_get_monotonic_time () - self->shown_at >= REFRESH_US)
    show_now (self);
}

static void
build_part (HobPartPanel *self, const HobPart *part)
{
  g_autofree char *what = hob_heading_text (_ (part->kind->label));
  g_autofree char *kind = *part->number != '\0'
                              ? g_strdup_printf (_ ("%s, part number %s"), what, part->number)
                              : g_strdup (what);

  append (self, hob_text_new (hob_part_label (part), "title"));
  append (self, hob_text_new (kind, "dim"));
  append (self, hob_text_new (_ (part->kind->about), NULL));
  if (part->kind->n_quantities > 0)
    append_section (self, _ ("Readings"));
  for (int i = 0; i < part->kind->n_quantities; i++)
    add_reading (self, _ (part->kind->quantities[i].words));
  add_faults (self, part);
  add_settings (self, part);
}

/* "Bake igniter, line side" */
static char *
end_words (const HobRange *range, HobEnd end)
{
  const HobPart *part = &range->parts[end.part];
  const char *terminal = _ (part->kind->terminals[end.terminal].words);

  return g_strdup_printf ("%s, %s", hob_part_label (part), terminal);
}

static void
build_wire (HobPartPanel *self, int index)
{
  const HobRange *range = hob_session_range (self->session);
  const HobLine *wire = &range->wires[index];
  g_autofree char *from = end_words (range, wire->from), *to = end_words (range, wire->to);
  g_autofree char *title = hob_wire_title (range, wire);
  /* Translators: color and gauge of a wire. */
  g_autofree char *size = g_strdup_printf (_ ("%s, %d AWG"), wire->colour, wire->gauge);
  /* Translators: the ends of a wire. */
  g_autofree char *way = g_strdup_printf (_ ("From %s to %s."), from, to);

  append (self, hob_text_new (title, "title"));
  append (self, hob_text_new (size, "dim"));
  append (self, hob_text_new (way, NULL));
  append_section (self, _ ("Readings"));
  add_reading (self, _ ("current"));
  /* Translators: in this wire, on a normal range. */
  add_reading (self, _ ("current that should flow"));
  add_reading (self, _ ("voltage to ground"));
}

static void
clear (HobPartPanel *self)
{
  self->showing = TRUE; /* a field that is taken away enters nothing */
  g_ptr_array_set_size (self->readings, 0);
  self->hazards = 0;
  hob_box_clear (self->content);
  g_ptr_array_set_size (self->faults, 0);
  g_ptr_array_set_size (self->settings, 0);
  self->showing = FALSE;
}

static void
rebuild (HobPartPanel *self)
{
  const HobPart *part = chosen (self);
  int wire = hob_session_chosen_wire (self->session);

  clear (self);
  if (part != NULL)
    build_part (self, part);
  else if (wire >= 0)
    build_wire (self, wire);
  else
    append (self,
            hob_text_new (_ ("Click a part or a wire on a sheet, "
                             "or choose a part from the list of all parts."),
                          "dim"));
  show_now (self);
}

void
hob_part_panel_set_session (HobPartPanel *self, HobSession *session)
{
  self->session = g_object_ref (session);
  g_signal_connect_object (session, "opened", G_CALLBACK (rebuild), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (session, "chosen", G_CALLBACK (rebuild), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (session, "moved", G_CALLBACK (on_moved), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (session, "pace", G_CALLBACK (show_now), self, G_CONNECT_SWAPPED);
  rebuild (self);
}

static void
hob_part_panel_dispose (GObject *object)
{
  HobPartPanel *self = HOB_PART_PANEL (object);

  if (self->content != NULL)
    clear (self);
  g_clear_pointer (&self->scroller, gtk_widget_unparent);
  gtk_widget_dispose_template (GTK_WIDGET (self), HOB_TYPE_PART_PANEL);
  g_clear_pointer (&self->readings, g_ptr_array_unref);
  g_clear_pointer (&self->faults, g_ptr_array_unref);
  g_clear_pointer (&self->settings, g_ptr_array_unref);
  g_clear_object (&self->session);
  G_OBJECT_CLASS (hob_part_panel_parent_class)->dispose (object);
}

static void
hob_part_panel_class_init (HobPartPanelClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = hob_part_panel_dispose;
  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/org/hobwright/Hobwright/part-panel.ui");
  gtk_widget_class_bind_template_child (widget_class, HobPartPanel, scroller);
  gtk_widget_class_bind_template_child (widget_class, HobPartPanel, content);
  gtk_widget_class_set_layout_manager_type (widget_class, GTK_TYPE_BIN_LAYOUT);
  gtk_widget_class_set_css_name (widget_class, "part");
}

static void
hob_part_panel_init (HobPartPanel *self)
{
  self->readings = g_ptr_array_new ();
  self->faults = g_ptr_array_new_with_free_func (g_free);
  self->settings = g_ptr_array_new_with_free_func (setting_free);
  gtk_widget_init_template (GTK_WIDGET (self));
}
