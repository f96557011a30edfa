/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "window/words.h"

#include "base/i18n.h"

#include <string.h>

#define CAUTION_CHARS 56 /* what a line of a caution has where there is room */
/* The sign as text, not as a colored picture. */
#define TRIANGLE "\u26a0\ufe0e"

char *
hob_clock_text (gint64 ms)
{
  gint64 tenths = ms / 100;

  return g_strdup_printf ("%d:%02d:%04.1f", (int)(tenths / 36000), (int)(tenths / 600 % 60),
                          (double)(tenths % 600) / 10);
}

char *
hob_heading_text (const char *words)
{
  g_autofree char *first
      = g_utf8_strup (words, *words != '\0' ? (gssize)(g_utf8_next_char (words) - words) : 0);

  return g_strconcat (first, *words != '\0' ? g_utf8_next_char (words) : "", NULL);
}

/* From each number through the first letter of what follows it. */
static PangoAttrList *
ties_in (const char *text)
{
  PangoAttrList *ties = pango_attr_list_new ();

  for (const char *space = strchr (text, ' '); space != NULL; space = strchr (space + 1, ' '))
    if (space > text && g_ascii_isdigit (space[-1]) && space[1] != '\0')
      {
        PangoAttribute *tie = pango_attr_allow_breaks_new (FALSE);

        tie->start_index = (guint) (space - text) - 1;
        tie->end_index = (guint) (g_utf8_next_char (space + 1) - text);
        pango_attr_list_insert (ties, tie);
      }
  return ties;
}

/* No line ends between a number and its unit. */
static void
tie_units (GtkLabel *label)
{
  PangoAttrList *ties = ties_in (gtk_label_get_text (label));

  gtk_label_set_attributes (label, ties);
  pango_attr_list_unref (ties);
}

GtkWidget *
hob_text_new (const char *text, const char *css_class)
{
  GtkWidget *label = gtk_label_new (text);

  tie_units (GTK_LABEL (label));
  gtk_label_set_wrap (GTK_LABEL (label), TRUE);
  gtk_label_set_wrap_mode (GTK_LABEL (label), PANGO_WRAP_WORD_CHAR);
  gtk_label_set_xalign (GTK_LABEL (label), 0);
  if (css_class != NULL)
    gtk_widget_add_css_class (label, css_class);
  return label;
}

void
hob_label_show (GtkLabel *label, const char *text)
{
  if (g_strcmp0 (gtk_label_get_text (label), text) == 0)
    return;
  gtk_label_set_text (label, text);
  if (gtk_label_get_wrap (label))
    tie_units (label);
}

char *
hob_caution_markup (HobHazard hazard, HobHazards set)
{
  g_autofree char *text = hob_hazard_text (hazard, set);

  if (hazard == HOB_HAZARD_ALWAYS)
    return g_markup_escape_text (text, -1);
  return g_markup_printf_escaped ("<b>" TRIANGLE " %s.</b> %s", _ (hob_hazards[hazard].name), text);
}

GtkWidget *
hob_caution_new (HobHazard hazard, HobHazards set)
{
  g_autofree char *markup = hob_caution_markup (hazard, set);
  GtkWidget *label = hob_text_new (NULL, "caution");

  gtk_label_set_max_width_chars (GTK_LABEL (label), CAUTION_CHARS);
  gtk_label_set_markup (GTK_LABEL (label), markup);
  return label;
}

void
hob_caution_names_show (GtkWidget *label, const char *names)
{
  g_autofree char *text = g_strconcat (TRIANGLE " ", names, NULL);

  hob_label_show (GTK_LABEL (label), text);
  gtk_widget_set_visible (label, *names != '\0');
}

void
hob_box_clear (GtkWidget *box)
{
  GtkWidget *child;

  while ((child = gtk_widget_get_first_child (box)) != NULL)
    gtk_box_remove (GTK_BOX (box), child);
}

static void
on_setup_item (GtkSignalListItemFactory *factory, GtkListItem *item, gpointer user)
{
  GtkWidget *label = gtk_label_new ("");

  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_list_item_set_child (item, label);
}

static void
on_bind_item (GtkSignalListItemFactory *factory, GtkListItem *item, gpointer user)
{
  GtkWidget *label = gtk_list_item_get_child (item);
  const char *text = gtk_string_object_get_string (gtk_list_item_get_item (item));

  gtk_label_set_text (GTK_LABEL (label), text);
  /* What takes focus is the item's own widget around the label. */
  gtk_accessible_update_property (GTK_ACCESSIBLE (gtk_widget_get_parent (label)),
                                  GTK_ACCESSIBLE_PROPERTY_LABEL, text, -1);
}

void
hob_drop_down_name (GtkDropDown *drop, const char *name)
{
  g_autoptr (GtkListItemFactory) factory = gtk_signal_list_item_factory_new ();

  g_signal_connect (factory, "setup", G_CALLBACK (on_setup_item), NULL);
  g_signal_connect (factory, "bind", G_CALLBACK (on_bind_item), NULL);
  gtk_drop_down_set_factory (drop, factory);
  gtk_accessible_update_property (GTK_ACCESSIBLE (gtk_widget_get_first_child (GTK_WIDGET (drop))),
                                  GTK_ACCESSIBLE_PROPERTY_LABEL, name, -1);
}
