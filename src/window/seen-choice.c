/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "window/seen-choice.h"

#include "base/i18n.h"

enum
{
  SEEN,
  NOT_SEEN,
  N_ANSWERS
};

static const struct
{
  const char *id, *label, *tooltip;
} answers[N_ANSWERS] = {
  [SEEN] = { "seen", N_ ("Seen"), N_ ("You checked, and it happened") },
  [NOT_SEEN] = { "not-seen", N_ ("Not Seen"), N_ ("You checked, and it didn't happen") },
};

struct _HobSeenChoice
{
  GtkWidget parent_instance;

  GtkWidget *toggles[N_ANSWERS]; /* children */
};

G_DEFINE_FINAL_TYPE (HobSeenChoice, hob_seen_choice, GTK_TYPE_WIDGET)

enum
{
  ANSWERED,
  N_SIGNALS
};
static guint signals[N_SIGNALS];

static void
on_toggled (HobSeenChoice *self, GtkToggleButton *toggle)
{
  int k = GTK_WIDGET (toggle) == self->toggles[SEEN] ? SEEN : NOT_SEEN;

  if (gtk_toggle_button_get_active (toggle))
    g_signal_emit (self, signals[ANSWERED], 0, answers[k].id);
}

void
hob_seen_choice_set (HobSeenChoice *self, const char *answer)
{
  for (int k = 0; k < N_ANSWERS; k++)
    if (g_str_equal (answer, answers[k].id))
      gtk_toggle_button_set_active (GTK_TOGGLE_BUTTON (self->toggles[k]), TRUE);
}

/* ---- GObject ---- */

static void
hob_seen_choice_dispose (GObject *object)
{
  HobSeenChoice *self = HOB_SEEN_CHOICE (object);

  for (int k = 0; k < N_ANSWERS; k++)
    g_clear_pointer (&self->toggles[k], gtk_widget_unparent);
  G_OBJECT_CLASS (hob_seen_choice_parent_class)->dispose (object);
}

static void
hob_seen_choice_class_init (HobSeenChoiceClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = hob_seen_choice_dispose;
  gtk_widget_class_set_layout_manager_type (GTK_WIDGET_CLASS (klass), GTK_TYPE_BOX_LAYOUT);
  signals[ANSWERED] = g_signal_new ("answered", HOB_TYPE_SEEN_CHOICE, G_SIGNAL_RUN_LAST, 0, NULL,
                                    NULL, NULL, G_TYPE_NONE, 1, G_TYPE_STRING);
}

static void
hob_seen_choice_init (HobSeenChoice *self)
{
  gtk_widget_add_css_class (GTK_WIDGET (self), "linked");
  for (int k = 0; k < N_ANSWERS; k++)
    {
      GtkWidget *toggle = gtk_toggle_button_new_with_label (_ (answers[k].label));

      gtk_widget_set_focus_on_click (toggle, FALSE);
      gtk_widget_set_tooltip_text (toggle, _ (answers[k].tooltip));
      if (k > 0)
        gtk_toggle_button_set_group (GTK_TOGGLE_BUTTON (toggle),
                                     GTK_TOGGLE_BUTTON (self->toggles[0]));
      gtk_widget_set_parent (toggle, GTK_WIDGET (self));
      self->toggles[k] = toggle;
    }
}

GtkWidget *
hob_seen_choice_new (const char *words, const char *answer)
{
  HobSeenChoice *self = g_object_new (HOB_TYPE_SEEN_CHOICE, NULL);

  for (int k = 0; k < N_ANSWERS; k++)
    {
      g_autofree char *name = g_strdup_printf ("%s: %s", _ (answers[k].label), words);

      gtk_accessible_update_property (GTK_ACCESSIBLE (self->toggles[k]),
                                      GTK_ACCESSIBLE_PROPERTY_LABEL, name, -1);
    }
  if (answer != NULL)
    hob_seen_choice_set (self, answer);
  for (int k = 0; k < N_ANSWERS; k++)
    g_signal_connect_swapped (self->toggles[k], "toggled", G_CALLBACK (on_toggled), self);
  return GTK_WIDGET (self);
}
