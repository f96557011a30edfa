/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "window/caution-bar.h"

#include "base/i18n.h"
#include "window/caution-text.h"
#include "window/words.h"

#define ALWAYS HOB_HAZARD_BIT (HOB_HAZARD_ALWAYS)

/* Those for which the strip is an alarm: stop, or gas. */
#define ALARMS (HOB_HAZARD_BIT (HOB_HAZARD_STOP_USING + 1) - 1)

struct _HobCautionBar
{
  GtkWidget parent_instance;

  GtkWidget *strip; /* template children */
  HobCautionText *now;
  GtkMenuButton *more_button;
  GtkWidget *more;

  HobHazards hazards;
};

G_DEFINE_FINAL_TYPE (HobCautionBar, hob_caution_bar, GTK_TYPE_WIDGET)

static void
show_gravest (HobCautionBar *self, HobHazards first)
{
  int hazard = hob_hazards_next (first, -1);
  g_autofree char *markup = hob_caution_markup ((HobHazard) hazard, first);

  hob_caution_text_set (self->now, markup);
  gtk_accessible_update_property (GTK_ACCESSIBLE (self), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  hob_caution_text_get (self->now), -1);
  gtk_widget_remove_css_class (self->strip, "alarm");
  gtk_widget_remove_css_class (self->strip, "notice");
  if (first & ALARMS)
    gtk_widget_add_css_class (self->strip, "alarm");
  else if (!(first & ALWAYS))
    gtk_widget_add_css_class (self->strip, "notice");
}

/* The button keeps its room while it has nothing to show: the text beside it must not be laid out
 * anew. */
static void
show_more (HobCautionBar *self, HobHazards rest)
{
  gboolean any = hob_hazards_next (rest, -1) >= 0;

  hob_box_clear (self->more);
  for (int h = hob_hazards_next (rest, -1); h >= 0; h = hob_hazards_next (rest, h))
    gtk_box_append (GTK_BOX (self->more), hob_caution_new ((HobHazard) h, rest));
  if (!any)
    gtk_menu_button_popdown (self->more_button);
  gtk_widget_set_sensitive (GTK_WIDGET (self->more_button), any);
  gtk_widget_set_opacity (GTK_WIDGET (self->more_button), any ? 1 : 0);
  gtk_accessible_update_state (GTK_ACCESSIBLE (self->more_button), GTK_ACCESSIBLE_STATE_HIDDEN,
                               !any, -1);
}

/* The toolkit's own, in the button; NULL: there is none. */
static GtkWidget *
label_in (GtkWidget *widget)
{
  GtkWidget *label = GTK_IS_LABEL (widget) ? widget : NULL;

  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL && label == NULL;
       child = gtk_widget_get_next_sibling (child))
    label = label_in (child);
  return label;
}

void
hob_caution_bar_fold (HobCautionBar *self, gboolean narrow)
{
  GtkWidget *label = label_in (GTK_WIDGET (self->more_button));

  if (label == NULL)
    return;
  gtk_label_set_wrap (GTK_LABEL (label), narrow);
  gtk_label_set_justify (GTK_LABEL (label), GTK_JUSTIFY_CENTER);
  gtk_label_set_max_width_chars (GTK_LABEL (label), narrow ? 1 : -1); /* a word a line */
}

void
hob_caution_bar_show (HobCautionBar *self, HobHazards now)
{
  HobHazards shown = hob_hazards_shown (now) & ~ALWAYS, first, rest;

  if (hob_hazards_next (shown, -1) < 0)
    shown = ALWAYS;
  if (shown == self->hazards)
    return;
  self->hazards = shown;
  first = hob_hazards_first (shown, 1, &rest);
  show_gravest (self, first);
  show_more (self, rest);
}

HobHazards
hob_caution_bar_hazards (HobCautionBar *self)
{
  return self->hazards;
}

static void
hob_caution_bar_dispose (GObject *object)
{
  HobCautionBar *self = HOB_CAUTION_BAR (object);

  g_clear_pointer (&self->strip, gtk_widget_unparent);
  gtk_widget_dispose_template (GTK_WIDGET (self), HOB_TYPE_CAUTION_BAR);
  G_OBJECT_CLASS (hob_caution_bar_parent_class)->dispose (object);
}

static void
hob_caution_bar_class_init (HobCautionBarClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  g_type_ensure (HOB_TYPE_CAUTION_TEXT);
  G_OBJECT_CLASS (klass)->dispose = hob_caution_bar_dispose;
  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/org/hobwright/Hobwright/caution-bar.ui");
  gtk_widget_class_bind_template_child (widget_class, HobCautionBar, strip);
  gtk_widget_class_bind_template_child (widget_class, HobCautionBar, now);
  gtk_widget_class_bind_template_child (widget_class, HobCautionBar, more_button);
  gtk_widget_class_bind_template_child (widget_class, HobCautionBar, more);
  gtk_widget_class_set_layout_manager_type (widget_class, GTK_TYPE_BIN_LAYOUT);
  gtk_widget_class_set_css_name (widget_class, "cautions");
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_ALERT);
}

static void
hob_caution_bar_init (HobCautionBar *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
  hob_caution_bar_show (self, 0);
}
