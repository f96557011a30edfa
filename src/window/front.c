/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "window/front.h"

#include "base/i18n.h"
#include "window/knob.h"
#include "window/words.h"

#include <math.h>

typedef enum { SECTION_BURNERS, SECTION_OVEN, SECTION_AROUND, N_SECTIONS } Section;

static const char *const section_titles[N_SECTIONS] = { N_ ("Burners"), N_ ("Oven"), N_ ("Around the range") };

typedef struct
{
  HobFront *front; /* borrowed */
  int part, control;
  const HobControlDef *def;
  GtkWidget *widget;   /* borrowed: knob or switch */
  GtkLabel *value;     /* knobs: where it stands, in words */
  GtkWidget *words[2]; /* switches: the two words */
  double shown;
} Control;

struct _HobFront
{
  GtkWidget parent_instance;

  GtkWidget *scroller, *content; /* template children */

  HobSession *session;  /* owned */
  GPtrArray *controls;  /* Control *, owned */
  gboolean showing;     /* sets widgets after the run, not the run after widgets */
};

G_DEFINE_FINAL_TYPE (HobFront, hob_front, GTK_TYPE_WIDGET)

static gboolean
is_switch (const HobControlDef *def)
{
  return def->dim == HOB_DIM_CHOICE && def->positions != NULL && def->positions[0].name != NULL
         && def->positions[1].name != NULL && def->positions[2].name == NULL;
}

static Section
section_of (const HobKind *kind, const HobControlDef *def)
{
  if (is_switch (def))
    return SECTION_AROUND;
  return def->dim == HOB_DIM_NUMBER && (kind->flags & HOB_KIND_FRONT) != 0 ? SECTION_BURNERS : SECTION_OVEN;
}

/* "Left front", "Oven: dial". (transfer full) */
static char *
control_name (const HobPart *part, const HobControlDef *def)
{
  if (*def->name == '\0')
    return g_strdup (part->label);
  return g_strdup_printf ("%s: %s", part->label, _(def->words));
}

static const char *
position_words (const HobPosition *position)
{
  return position->words != NULL ? _(position->words) : position->name;
}

/* ---- From the run to the widgets ---- */

static void
show_switch (Control *control, double value)
{
  gboolean second = value == control->def->positions[1].value;

  gtk_switch_set_active (GTK_SWITCH (control->widget), second);
  for (int i = 0; i < 2; i++)
    {
      gtk_widget_remove_css_class (control->words[i], (i == 1) == second ? "dim" : "set");
      gtk_widget_add_css_class (control->words[i], (i == 1) == second ? "set" : "dim");
    }
}

static void
show_knob (Control *control, double value)
{
  g_autofree char *text = hob_control_text (control->def, value);
  g_autofree char *figure = NULL;

  if (control->def->dim == HOB_DIM_TEMPERATURE)
    figure = hob_figure_text (value, control->def->dim, HOB_UNITS_TRADE, 3);
  hob_knob_set_value (HOB_KNOB (control->widget), value);
  gtk_label_set_text (control->value, figure != NULL ? figure : text);
}

static void
show_control (Control *control, const HobMoment *moment)
{
  double value = hob_moment_control (moment, control->part, control->control);

  if (value == control->shown)
    return;
  control->shown = value;
  if (is_switch (control->def))
    show_switch (control, value);
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
  hob_session_act (control->front->session, HOB_ACT_CONTROL, control->part, control->control, value);
}

static void
on_switched (GtkSwitch *toggle, GParamSpec *pspec, Control *control)
{
  if (control->front->showing)
    return;
  hob_session_act (control->front->session, HOB_ACT_CONTROL, control->part, control->control,
                   control->def->positions[gtk_switch_get_active (toggle) ? 1 : 0].value);
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
  g_autofree char *heading = hob_heading_text (*control->def->name == '\0' ? part->label : _(control->def->words));
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

static GtkWidget *
switch_row (Control *control, const HobPart *part)
{
  GtkWidget *row = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 8);
  g_autofree char *name = control_name (part, control->def);
  GtkWidget *title = hob_text_new (name, "switch-name");

  gtk_widget_set_hexpand (title, TRUE);
  control->widget = gtk_switch_new ();
  gtk_widget_set_valign (control->widget, GTK_ALIGN_CENTER);
  gtk_accessible_update_property (GTK_ACCESSIBLE (control->widget), GTK_ACCESSIBLE_PROPERTY_LABEL, name, -1);
  for (int i = 0; i < 2; i++)
    control->words[i] = new_label (position_words (&control->def->positions[i]), "dim");
  gtk_box_append (GTK_BOX (row), title);
  gtk_box_append (GTK_BOX (row), control->words[0]);
  gtk_box_append (GTK_BOX (row), control->widget);
  gtk_box_append (GTK_BOX (row), control->words[1]);
  g_signal_connect (control->widget, "notify::active", G_CALLBACK (on_switched), control);
  return row;
}

static Control *
add_control (HobFront *self, int part, int index)
{
  Control *control = g_new0 (Control, 1);

  control->front = self;
  control->part = part;
  control->control = index;
  control->def = &hob_session_range (self->session)->parts[part].kind->controls[index];
  control->shown = NAN;
  g_ptr_array_add (self->controls, control);
  return control;
}

static GtkWidget *
section_box (Section section)
{
  GtkWidget *box;

  if (section == SECTION_AROUND)
    return gtk_box_new (GTK_ORIENTATION_VERTICAL, 2);
  box = gtk_grid_new ();
  gtk_grid_set_column_homogeneous (GTK_GRID (box), TRUE);
  gtk_grid_set_row_spacing (GTK_GRID (box), 4);
  return box;
}

/* Two knobs a row. */
static void
put (GtkWidget *box, GtkWidget *cell, int n)
{
  gtk_widget_set_hexpand (cell, TRUE);
  if (GTK_IS_GRID (box))
    gtk_grid_attach (GTK_GRID (box), cell, n % 2, n / 2, 1, 1);
  else
    gtk_box_append (GTK_BOX (box), cell);
}

static int
fill_section (HobFront *self, Section section, GtkWidget *box)
{
  const HobRange *range = hob_session_range (self->session);
  int n = 0;

  for (int p = 0; p < range->n_parts; p++)
    for (int k = 0; k < range->parts[p].kind->n_controls; k++)
      {
        const HobPart *part = &range->parts[p];
        Control *control;

        if (section_of (part->kind, &part->kind->controls[k]) != section)
          continue;
        control = add_control (self, p, k);
        put (box, is_switch (control->def) ? switch_row (control, part) : knob_cell (control, part), n++);
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
}

static void
rebuild (HobFront *self)
{
  clear (self);
  for (Section section = 0; section < N_SECTIONS; section++)
    {
      GtkWidget *title = new_label (_(section_titles[section]), "section");
      GtkWidget *box = section_box (section);

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
  self->controls = g_ptr_array_new_with_free_func (g_free);
  gtk_widget_init_template (GTK_WIDGET (self));
}
