/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "window/front.h"

#include "base/i18n.h"
#include "parts/say.h"
#include "window/knob.h"
#include "window/pair-rows.h"
#include "window/words.h"

#include <math.h>

typedef enum
{
  SECTION_BURNERS,
  SECTION_OVEN,
  SECTION_AROUND,
  N_SECTIONS
} Section;

static const char *const section_titles[N_SECTIONS]
    = { N_ ("Burners"), N_ ("Oven"),
        /* Translators: heading of controls that are not on the range: plug, breaker, window. */
        N_ ("Around the range") };

/* How a control is worked. */
typedef enum
{
  WORKED_KNOB,
  WORKED_SWITCH,
  WORKED_KEYS
} Worked;

typedef struct
{
  HobFront *front; /* borrowed */
  int part, control;
  const HobControlDef *def;
  Worked worked;
  GtkWidget *widget;          /* borrowed: knob, switch or row of keys */
  GtkLabel *value;            /* knobs: its position in words */
  GPtrArray *words;           /* owned; GtkWidget: a switch's two words, each key's button */
  double shown;
} Control;

/* What a board shows in words. */
typedef struct
{
  int part, mode;
  GtkLabel *label; /* borrowed */
} Display;

struct _HobFront
{
  GtkWidget parent_instance;

  GtkWidget *scroller, *content; /* template children */

  HobSession *session; /* owned */
  GPtrArray *controls; /* Control *, owned */
  GArray *displays;    /* Display, owned */
  gboolean showing;    /* sets widgets after the run, not the run after widgets */
};

G_DEFINE_FINAL_TYPE (HobFront, hob_front, GTK_TYPE_WIDGET)

static Worked
worked_by (const HobControlDef *def)
{
  switch (def->role)
    {
    case HOB_CONTROL_KNOB:
    case HOB_CONTROL_SELECTOR:
    case HOB_CONTROL_DIAL:
    case HOB_CONTROL_SET: return WORKED_KNOB;
    case HOB_CONTROL_KEYS: return WORKED_KEYS;
    case HOB_CONTROL_SWITCH:
    case HOB_CONTROL_KEY:
    case HOB_CONTROL_BUTTON:
    case HOB_CONTROL_BREAKER:
    case HOB_CONTROL_PLUG:
    case HOB_CONTROL_VALVE:
    case HOB_CONTROL_DOOR:
    case HOB_CONTROL_LATCH:
    case HOB_CONTROL_PERSON:
    case HOB_CONTROL_MATCH:
    case HOB_CONTROL_LEADS:
    default: return WORKED_SWITCH;
    }
}

static Section
section_of (const HobControlDef *def)
{
  static const Section of_front[] = {
    [HOB_FRONT_NONE] = SECTION_AROUND,
    [HOB_FRONT_BURNERS] = SECTION_BURNERS,
    [HOB_FRONT_OVEN] = SECTION_OVEN,
    [HOB_FRONT_DOOR] = SECTION_AROUND,
  };

  return of_front[def->front];
}

/* The mode that a display shows; −1: it has none. */
static int
display_of (const HobKind *kind)
{
  for (int k = 0; k < kind->n_modes; k++)
    if (kind->modes[k].display)
      return k;
  return -1;
}

/* "Left front", "Oven: dial". (transfer full) */
static char *
control_name (const HobPart *part, const HobControlDef *def)
{
  if (*def->name == '\0')
    return g_strdup (hob_part_label (part));
  return g_strdup_printf ("%s: %s", hob_part_label (part), _ (def->words));
}

static const char *
position_words (const HobPosition *position)
{
  return position->words != NULL ? _ (position->words) : position->name;
}

/* ---- From the run to the widgets ---- */

static GtkWidget *
word_of (const Control *control, int i)
{
  return g_ptr_array_index (control->words, (guint)i);
}

static void
show_switch (Control *control, double value)
{
  gboolean second = value == control->def->positions[1].value;

  gtk_switch_set_active (GTK_SWITCH (control->widget), second);
  for (int i = 0; i < 2; i++)
    {
      gtk_widget_remove_css_class (word_of (control, i), (i == 1) == second ? "dim" : "set");
      gtk_widget_add_css_class (word_of (control, i), (i == 1) == second ? "set" : "dim");
    }
}

static void
show_knob (Control *control, double value)
{
  g_autofree char *text = hob_position_text (control->def, value);

  hob_knob_set_value (HOB_KNOB (control->widget), value);
  gtk_label_set_text (control->value, text);
}

static void
show_keys (Control *control, double value)
{
  for (int i = 0; i < (int)control->words->len; i++)
    if (control->def->positions[i].value == value)
      gtk_toggle_button_set_active (GTK_TOGGLE_BUTTON (word_of (control, i)), TRUE);
}

static void
show_display (const Display *display, const HobRange *range, const HobMoment *moment)
{
  const HobModeDef *mode = &range->parts[display->part].kind->modes[display->mode];
  int shown = (int)hob_moment_part (moment, display->part)->mode[display->mode];
  g_autofree char *text = NULL;

  for (int i = 0; i < shown; i++)
    if (mode->words[i] == NULL)
      return;
  text = hob_heading_text (_ (mode->words[shown]));
  hob_label_show (display->label, text);
}

static void
show_control (Control *control, const HobMoment *moment)
{
  double value = hob_moment_control (moment, control->part, control->control);

  if (value == control->shown)
    return;
  control->shown = value;
  if (control->worked == WORKED_SWITCH)
    show_switch (control, value);
  else if (control->worked == WORKED_KEYS)
    show_keys (control, value);
  else
    show_knob (control, value);
}

static void
show_moment (HobFront *self)
{
  const HobMoment *moment = hob_session_moment (self->session);

  self->showing = TRUE;
  for (guint i = 0; i < self->controls->len; i++)
    show_control (g_ptr_array_index (self->controls, i), moment);
  for (guint i = 0; i < self->displays->len; i++)
    show_display (&g_array_index (self->displays, Display, i), hob_session_range (self->session),
                  moment);
  self->showing = FALSE;
}

/* ---- From the widgets to the run ---- */

static void
on_turn_begin (HobKnob *knob, Control *control)
{
  hob_session_begin_turn (control->front->session);
}

static void
on_turn_end (HobKnob *knob, Control *control)
{
  hob_session_end_turn (control->front->session);
}

static void
on_turned (HobKnob *knob, double value, Control *control)
{
  if (control->front->showing)
    return;
  hob_session_act (control->front->session, HOB_ACT_CONTROL, control->part, control->control,
                   value);
}

static void
on_switched (GtkSwitch *toggle, GParamSpec *pspec, Control *control)
{
  if (control->front->showing)
    return;
  hob_session_act (control->front->session, HOB_ACT_CONTROL, control->part, control->control,
                   control->def->positions[gtk_switch_get_active (toggle) ? 1 : 0].value);
}

static void
on_key_pressed (GtkToggleButton *key, Control *control)
{
  if (control->front->showing || !gtk_toggle_button_get_active (key))
    return;
  for (int i = 0; i < (int)control->words->len; i++)
    if (word_of (control, i) == GTK_WIDGET (key))
      hob_session_act (control->front->session, HOB_ACT_CONTROL, control->part, control->control,
                       control->def->positions[i].value);
}

/* ---- Making it ---- */

static GtkWidget *
new_label (const char *text, const char *css_class)
{
  GtkWidget *label = gtk_label_new (text);

  gtk_widget_add_css_class (label, css_class);
  return label;
}

static GtkWidget *
knob_cell (Control *control, const HobPart *part)
{
  GtkWidget *cell = gtk_box_new (GTK_ORIENTATION_VERTICAL, 0);
  g_autofree char *name = control_name (part, control->def);
  g_autofree char *heading
      = hob_heading_text (*control->def->name == '\0' ? hob_part_label (part)
                                                      : _ (control->def->words));
  GtkWidget *title = new_label (heading, "knob-name");
  GtkWidget *value = new_label ("", "knob-value");

  gtk_label_set_wrap (GTK_LABEL (title), TRUE);
  gtk_label_set_justify (GTK_LABEL (title), GTK_JUSTIFY_CENTER);
  control->widget = hob_knob_new (control->def, name);
  control->value = GTK_LABEL (value);
  gtk_widget_set_halign (control->widget, GTK_ALIGN_CENTER);
  gtk_box_append (GTK_BOX (cell), title);
  gtk_box_append (GTK_BOX (cell), control->widget);
  gtk_box_append (GTK_BOX (cell), value);
  g_signal_connect (control->widget, "turn-begin", G_CALLBACK (on_turn_begin), control);
  g_signal_connect (control->widget, "turned", G_CALLBACK (on_turned), control);
  g_signal_connect (control->widget, "turn-end", G_CALLBACK (on_turn_end), control);
  return cell;
}

/* A grid: a box would search the least width of a name that wraps. */
static GtkWidget *
switch_row (Control *control, const HobPart *part)
{
  GtkWidget *row = gtk_grid_new ();
  g_autofree char *name = control_name (part, control->def);
  GtkWidget *title = hob_text_new (name, "switch-name");

  gtk_widget_set_hexpand (title, TRUE);
  control->widget = gtk_switch_new ();
  gtk_widget_set_valign (control->widget, GTK_ALIGN_CENTER);
  gtk_accessible_update_property (GTK_ACCESSIBLE (control->widget), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  name, -1);
  for (int i = 0; i < 2; i++)
    g_ptr_array_add (control->words,
                     new_label (position_words (&control->def->positions[i]), "dim"));
  gtk_grid_set_column_spacing (GTK_GRID (row), 8);
  gtk_grid_attach (GTK_GRID (row), title, 0, 0, 1, 1);
  gtk_grid_attach (GTK_GRID (row), word_of (control, 0), 1, 0, 1, 1);
  gtk_grid_attach (GTK_GRID (row), control->widget, 2, 0, 1, 1);
  gtk_grid_attach (GTK_GRID (row), word_of (control, 1), 3, 0, 1, 1);
  g_signal_connect (control->widget, "notify::active", G_CALLBACK (on_switched), control);
  return row;
}

static GtkWidget *
key_new (Control *control, const char *name, int i)
{
  g_autofree char *heading = hob_heading_text (position_words (&control->def->positions[i]));
  g_autofree char *tip = g_strdup_printf ("%s: %s", name, heading);
  GtkWidget *key = gtk_toggle_button_new_with_label (heading);

  if (i > 0)
    gtk_toggle_button_set_group (GTK_TOGGLE_BUTTON (key), GTK_TOGGLE_BUTTON (word_of (control, 0)));
  gtk_widget_set_focus_on_click (key, FALSE);
  gtk_widget_set_hexpand (key, TRUE);
  gtk_widget_set_tooltip_text (key, tip);
  g_signal_connect (key, "toggled", G_CALLBACK (on_key_pressed), control);
  return key;
}

/* Over the whole width: what the board shows, and under it a key for each position. */
static GtkWidget *
keys_cell (Control *control, const HobPart *part)
{
  GtkWidget *cell = gtk_box_new (GTK_ORIENTATION_VERTICAL, 4),
            *label = hob_text_new ("", "display");
  g_autofree char *name = control_name (part, control->def);
  Display display = { control->part, display_of (part->kind), GTK_LABEL (label) };

  control->widget = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 0);
  gtk_widget_add_css_class (control->widget, "linked");
  gtk_accessible_update_property (GTK_ACCESSIBLE (control->widget), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  name, -1);
  for (int i = 0; control->def->positions[i].name != NULL; i++)
    {
      g_ptr_array_add (control->words, key_new (control, name, i));
      gtk_box_append (GTK_BOX (control->widget), word_of (control, i));
    }
  gtk_box_append (GTK_BOX (cell), label);
  gtk_box_append (GTK_BOX (cell), control->widget);
  g_array_append_val (control->front->displays, display);
  return cell;
}

static void
control_free (gpointer data)
{
  Control *control = data;

  g_ptr_array_unref (control->words);
  g_free (control);
}

static Control *
add_control (HobFront *self, int part, int index)
{
  Control *control = g_new0 (Control, 1);

  control->front = self;
  control->part = part;
  control->control = index;
  control->def = &hob_session_range (self->session)->parts[part].kind->controls[index];
  control->words = g_ptr_array_new ();
  control->worked = worked_by (control->def);
  control->shown = NAN;
  g_ptr_array_add (self->controls, control);
  return control;
}

/* Knobs stand in pairs, which keys in between end. @knobs: the pairs that the next one joins, or
 * NULL. */
static void
put (GtkWidget *box, GtkWidget *cell, gboolean knob, GtkWidget **knobs)
{
  gtk_widget_set_hexpand (cell, TRUE);
  if (!knob)
    {
      *knobs = NULL;
      gtk_box_append (GTK_BOX (box), cell);
      return;
    }
  if (*knobs == NULL)
    {
      *knobs = hob_pair_rows_new ();
      gtk_box_append (GTK_BOX (box), *knobs);
    }
  hob_pair_rows_append (*knobs, cell);
}

static GtkWidget *
cell_new (Control *control, const HobPart *part)
{
  if (control->worked == WORKED_SWITCH)
    return switch_row (control, part);
  return control->worked == WORKED_KEYS ? keys_cell (control, part) : knob_cell (control, part);
}

/* What can be at other parts, and what a hand moves inside one. */
static gboolean
is_in_menus (const HobControlDef *def)
{
  return def->at != 0 || def->role == HOB_CONTROL_LEADS;
}

static int
fill_section (HobFront *self, Section section, GtkWidget *box)
{
  const HobRange *range = hob_session_range (self->session);
  GtkWidget *knobs = NULL;
  int n = 0;

  for (int p = 0; p < range->n_parts; p++)
    for (int k = 0; k < range->parts[p].kind->n_controls; k++)
      {
        const HobPart *part = &range->parts[p];
        Control *control;

        if (is_in_menus (&part->kind->controls[k])
            || section_of (&part->kind->controls[k]) != section)
          continue;
        control = add_control (self, p, k);
        put (box, cell_new (control, part), control->worked == WORKED_KNOB, &knobs);
        n++;
      }
  return n;
}

static void
clear (HobFront *self)
{
  GtkWidget *child;

  while ((child = gtk_widget_get_first_child (self->content)) != NULL)
    gtk_box_remove (GTK_BOX (self->content), child);
  g_ptr_array_set_size (self->controls, 0);
  g_array_set_size (self->displays, 0);
}

static void
rebuild (HobFront *self)
{
  clear (self);
  for (Section section = 0; section < N_SECTIONS; section++)
    {
      GtkWidget *title = new_label (_ (section_titles[section]), "section");
      GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, section == SECTION_AROUND ? 2 : 4);

      gtk_label_set_xalign (GTK_LABEL (title), 0);
      gtk_box_append (GTK_BOX (self->content), title);
      gtk_box_append (GTK_BOX (self->content), box);
      if (fill_section (self, section, box) == 0)
        {
          gtk_box_remove (GTK_BOX (self->content), title);
          gtk_box_remove (GTK_BOX (self->content), box);
        }
    }
}

void
hob_front_set_session (HobFront *self, HobSession *session)
{
  self->session = g_object_ref (session);
  g_signal_connect_object (session, "opened", G_CALLBACK (rebuild), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (session, "moved", G_CALLBACK (show_moment), self, G_CONNECT_SWAPPED);
  rebuild (self);
  show_moment (self);
}

GtkWidget *
hob_front_control (HobFront *self, int part, int control)
{
  for (guint i = 0; i < self->controls->len; i++)
    {
      Control *one = g_ptr_array_index (self->controls, i);

      if (one->part == part && one->control == control)
        return one->widget;
    }
  return NULL;
}

/* ---- GObject ---- */

static void
hob_front_dispose (GObject *object)
{
  HobFront *self = HOB_FRONT (object);

  if (self->content != NULL)
    clear (self);
  g_clear_pointer (&self->scroller, gtk_widget_unparent);
  gtk_widget_dispose_template (GTK_WIDGET (self), HOB_TYPE_FRONT);
  g_clear_pointer (&self->controls, g_ptr_array_unref);
  g_clear_pointer (&self->displays, g_array_unref);
  g_clear_object (&self->session);
  G_OBJECT_CLASS (hob_front_parent_class)->dispose (object);
}

static void
hob_front_class_init (HobFrontClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = hob_front_dispose;
  gtk_widget_class_set_template_from_resource (widget_class, "/org/hobwright/Hobwright/front.ui");
  gtk_widget_class_bind_template_child (widget_class, HobFront, scroller);
  gtk_widget_class_bind_template_child (widget_class, HobFront, content);
  gtk_widget_class_set_layout_manager_type (widget_class, GTK_TYPE_BIN_LAYOUT);
  gtk_widget_class_set_css_name (widget_class, "front");
}

static void
hob_front_init (HobFront *self)
{
  self->controls = g_ptr_array_new_with_free_func (control_free);
  self->displays = g_array_new (FALSE, FALSE, sizeof (Display));
  gtk_widget_init_template (GTK_WIDGET (self));
}
