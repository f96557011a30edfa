/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "window/symptom-list.h"

#include "base/i18n.h"
#include "window/words.h"
#include "window/wrap-row.h"

#define LINE_CHARS 32
#define LINES 17 /* of text that it shows where there is room: two symptoms with their cautions */

struct _HobSymptomList
{
  GtkWidget parent_instance;

  GtkWidget *scroller; /* template children */
  GtkListBox *list;

  HobSession *session; /* owned */
  GArray *shown;       /* HobNoticed, owned */
  HobHazards hazards;  /* those that may be named now; their words are in the strip on top */
};

G_DEFINE_FINAL_TYPE (HobSymptomList, hob_symptom_list, GTK_TYPE_WIDGET)

enum
{
  SUSPECT,
  WHY,
  N_SIGNALS
};
static guint signals[N_SIGNALS];

/* "Since 0:01:34.2, bake burner" */
static char *
when_and_where (HobSymptomList *self, const HobNoticed *noticed)
{
  g_autofree char *from = hob_clock_text (noticed->from_ms);
  g_autofree char *until = noticed->until_ms >= 0 ? hob_clock_text (noticed->until_ms) : NULL;
  /* Translators: times between which a symptom showed. */
  g_autofree char *when = until != NULL ? g_strdup_printf (_ ("From %s to %s"), from, until)
                                        /* Translators: the time since which a symptom shows. */
                                        : g_strdup_printf (_ ("Since %s"), from);
  const HobRange *range = hob_session_range (self->session);

  if (noticed->part < 0)
    return g_steal_pointer (&when);
  return g_strdup_printf ("%s, %s", when, hob_part_label (&range->parts[noticed->part]));
}

/* So wide by nature that the height it asks for is the one it needs in the panel. */
static void
add_line (GtkWidget *box, GtkWidget *label)
{
  gtk_label_set_max_width_chars (GTK_LABEL (label), LINE_CHARS);
  gtk_box_append (GTK_BOX (box), label);
}

static guint
row_of (GtkWidget *widget)
{
  GtkWidget *row = gtk_widget_get_ancestor (widget, GTK_TYPE_LIST_BOX_ROW);

  return (guint) gtk_list_box_row_get_index (GTK_LIST_BOX_ROW (row));
}

static void
on_suspect (GtkWidget *button, HobSymptomList *self)
{
  g_signal_emit (self, signals[SUSPECT], 0, row_of (button));
}

static void
on_why (GtkWidget *button, HobSymptomList *self)
{
  g_signal_emit (self, signals[WHY], 0, row_of (button));
}

static GtkWidget *
button_new (const char *label, const char *name, GCallback clicked, HobSymptomList *self)
{
  GtkWidget *button = gtk_button_new_with_label (label);

  gtk_widget_add_css_class (button, "quiet");
  gtk_widget_set_focus_on_click (button, FALSE);
  gtk_accessible_update_property (GTK_ACCESSIBLE (button), GTK_ACCESSIBLE_PROPERTY_LABEL, name, -1);
  g_signal_connect (button, "clicked", clicked, self);
  return button;
}

/* What can be asked about it. */
static GtkWidget *
hands_new (HobSymptomList *self, const HobSymptom *symptom)
{
  g_autofree char *why = g_strdup_printf (_ ("Why: %s"), symptom->technician);
  g_autofree char *suspect = g_strdup_printf (_ ("Add to the evidence: %s"), symptom->technician);
  GtkWidget *line
      = hob_wrap_row_new (button_new (_ ("Why?"), why, G_CALLBACK (on_why), self),
                          button_new (_ ("Add to Evidence"), suspect, G_CALLBACK (on_suspect),
                                      self));

  gtk_widget_set_halign (line, GTK_ALIGN_END);
  return line;
}

static GtkWidget *
row_new (HobSymptomList *self, const HobNoticed *noticed)
{
  const HobSymptom *symptom
      = hob_symptom_book_get (hob_session_book (self->session), noticed->symptom);
  GtkWidget *row = gtk_list_box_row_new (), *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 2),
            *cautions = hob_text_new (NULL, "caution");
  const HobRange *range = hob_session_range (self->session);
  const HobPart *part = noticed->part >= 0 ? &range->parts[noticed->part] : NULL;
  g_autofree char *words = hob_symptom_words (symptom, part);
  g_autofree char *when = when_and_where (self, noticed);
  g_autofree char *name = g_strdup_printf ("%s. %s", words, when);
  gboolean present = noticed->until_ms < 0;
  HobHazards beside = present ? hob_hazards_beside (symptom->hazards, self->hazards) : 0;
  g_autofree char *names = hob_hazards_names (beside);

  add_line (box, hob_text_new (words, present ? "symptom" : "symptom-past"));
  add_line (box, hob_text_new (when, "dim"));
  add_line (box, cautions);
  gtk_box_append (GTK_BOX (box), hands_new (self, symptom));
  hob_caution_names_show (cautions, names);
  gtk_list_box_row_set_child (GTK_LIST_BOX_ROW (row), box);
  gtk_accessible_update_property (GTK_ACCESSIBLE (row), GTK_ACCESSIBLE_PROPERTY_LABEL, name, -1);
  return row;
}

static void
fill (HobSymptomList *self)
{
  GtkListBoxRow *row;

  while ((row = gtk_list_box_get_row_at_index (self->list, 0)) != NULL)
    gtk_list_box_remove (self->list, GTK_WIDGET (row));
  for (guint i = 0; i < self->shown->len; i++)
    gtk_list_box_append (self->list, row_new (self, hob_symptom_list_get (self, i)));
}

static gboolean
same_list (const GArray *a, const GArray *b)
{
  for (guint i = 0; a->len == b->len && i < a->len; i++)
    {
      const HobNoticed *one = &g_array_index (a, HobNoticed, i),
                       *other = &g_array_index (b, HobNoticed, i);

      if (one->symptom != other->symptom || one->part != other->part
          || one->from_ms != other->from_ms || one->until_ms != other->until_ms)
        return FALSE;
    }
  return a->len == b->len;
}

static void
on_moved (HobSymptomList *self)
{
  GArray *noticed = hob_session_noticed (self->session);
  HobHazards hazards = hob_hazards_shown (hob_session_hazards (self->session));

  if (same_list (noticed, self->shown) && hazards == self->hazards)
    {
      g_array_unref (noticed);
      return;
    }
  g_array_unref (self->shown);
  self->shown = noticed;
  self->hazards = hazards;
  fill (self);
}

static void
on_opened (HobSymptomList *self)
{
  g_array_set_size (self->shown, 0);
  fill (self);
}

static void
on_row_activated (GtkListBox *list, GtkListBoxRow *row, HobSymptomList *self)
{
  HobNoticed noticed = *hob_symptom_list_get (self, (guint)gtk_list_box_row_get_index (row));

  if (noticed.part >= 0)
    hob_session_choose (self->session, noticed.part, -1);
  hob_session_go (self->session, noticed.from_ms);
}

void
hob_symptom_list_set_session (HobSymptomList *self, HobSession *session)
{
  self->session = g_object_ref (session);
  g_signal_connect_object (session, "opened", G_CALLBACK (on_opened), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (session, "moved", G_CALLBACK (on_moved), self, G_CONNECT_SWAPPED);
  on_moved (self);
}

guint
hob_symptom_list_size (HobSymptomList *self)
{
  return self->shown->len;
}

const HobNoticed *
hob_symptom_list_get (HobSymptomList *self, guint i)
{
  return &g_array_index (self->shown, HobNoticed, i);
}

/* What it asks for is the same whatever it shows: nothing moves under the pointer. */
static void
hob_symptom_list_measure (GtkWidget *widget, GtkOrientation orientation, int for_size,
                          int *minimum, int *natural, int *minimum_baseline,
                          int *natural_baseline)
{
  HobSymptomList *self = HOB_SYMPTOM_LIST (widget);
  PangoFontMetrics *metrics;

  gtk_widget_measure (self->scroller, orientation, for_size, minimum, natural, NULL, NULL);
  *minimum_baseline = *natural_baseline = -1;
  if (orientation == GTK_ORIENTATION_HORIZONTAL)
    return;
  metrics = pango_context_get_metrics (gtk_widget_get_pango_context (widget), NULL, NULL);
  *natural = MAX (*minimum, LINES * PANGO_PIXELS_CEIL (pango_font_metrics_get_height (metrics)));
  pango_font_metrics_unref (metrics);
}

static void
hob_symptom_list_size_allocate (GtkWidget *widget, int width, int height, int baseline)
{
  gtk_widget_size_allocate (HOB_SYMPTOM_LIST (widget)->scroller,
                            &(GtkAllocation){ 0, 0, width, height }, baseline);
}

static void
hob_symptom_list_dispose (GObject *object)
{
  HobSymptomList *self = HOB_SYMPTOM_LIST (object);

  g_clear_pointer (&self->scroller, gtk_widget_unparent);
  gtk_widget_dispose_template (GTK_WIDGET (self), HOB_TYPE_SYMPTOM_LIST);
  g_clear_pointer (&self->shown, g_array_unref);
  g_clear_object (&self->session);
  G_OBJECT_CLASS (hob_symptom_list_parent_class)->dispose (object);
}

static guint
add_signal (const char *name)
{
  return g_signal_new (name, HOB_TYPE_SYMPTOM_LIST, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL,
                       G_TYPE_NONE, 1, G_TYPE_UINT);
}

static void
hob_symptom_list_class_init (HobSymptomListClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = hob_symptom_list_dispose;
  widget_class->measure = hob_symptom_list_measure;
  widget_class->size_allocate = hob_symptom_list_size_allocate;
  signals[SUSPECT] = add_signal ("suspect");
  signals[WHY] = add_signal ("why");
  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/org/hobwright/Hobwright/symptom-list.ui");
  gtk_widget_class_bind_template_child (widget_class, HobSymptomList, scroller);
  gtk_widget_class_bind_template_child (widget_class, HobSymptomList, list);
  gtk_widget_class_bind_template_callback (widget_class, on_row_activated);
  gtk_widget_class_set_css_name (widget_class, "symptoms");
}

static void
hob_symptom_list_init (HobSymptomList *self)
{
  self->shown = g_array_new (FALSE, FALSE, sizeof (HobNoticed));
  gtk_widget_init_template (GTK_WIDGET (self));
}
