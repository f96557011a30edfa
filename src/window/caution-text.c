/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "window/caution-text.h"

#include "window/words.h"

#include <stdlib.h>

/* Cautions of fewer letters than this share of the longest's are never the tallest: letters would
 * have to be a third wider in one sentence than in another. */
#define SHARE 0.75

/* A caution that is measured, and its width on a single line. */
typedef struct
{
  PangoLayout *layout;
  int length;
} Caution;

struct _HobCautionText
{
  GtkWidget parent_instance;

  /*< owned >*/
  GtkWidget *label;

  /*< cached >*/
  Caution cautions[HOB_N_HAZARDS]; /* the long ones, longest first */
  int n_cautions;                  /* 0: not yet chosen */
  guint serial;                    /* of the label's font; 0: nothing was measured yet */
  int word, line;                  /* width of the widest word, height of the tallest line */
};

G_DEFINE_FINAL_TYPE (HobCautionText, hob_caution_text, GTK_TYPE_WIDGET)

static void
size_of (PangoLayout *layout, int width, int *w, int *h)
{
  pango_layout_set_width (layout, width >= 0 ? width * PANGO_SCALE : -1);
  pango_layout_get_size (layout, w, h);
  *w = PANGO_PIXELS_CEIL (*w);
  *h = PANGO_PIXELS_CEIL (*h);
}

/* Of a layout on a single line: the widest piece between two places where a line may end, with its
 * space. */
static int
widest_word (PangoLayout *layout)
{
  PangoLayoutLine *line = pango_layout_get_line_readonly (layout, 0);
  const char *text = pango_layout_get_text (layout), *at = text;
  int n, x, from = 0, widest = 0;
  const PangoLogAttr *attrs = pango_layout_get_log_attrs_readonly (layout, &n);

  for (int i = 1; i < n; i++)
    {
      at = g_utf8_next_char (at);
      if (!attrs[i].is_line_break)
        continue;
      pango_layout_line_index_to_x (line, (int) (at - text), FALSE, &x);
      widest = MAX (widest, ABS (x - from));
      from = x;
    }
  return PANGO_PIXELS_CEIL (widest);
}

static int
longest_first (const void *a, const void *b)
{
  return ((const Caution *) b)->length - ((const Caution *) a)->length;
}

/* To lay out a text costs more than all else that is asked of it here. */
static void
choose (HobCautionText *self)
{
  char *markup[HOB_N_HAZARDS];
  glong letters[HOB_N_HAZARDS], most = 0;

  for (int h = 0; h < HOB_N_HAZARDS; h++)
    {
      markup[h] = hob_caution_markup ((HobHazard) h, HOB_HAZARD_IF_ANY);
      letters[h] = g_utf8_strlen (markup[h], -1);
      most = MAX (most, letters[h]);
    }
  for (int h = 0; h < HOB_N_HAZARDS; h++)
    {
      PangoContext *context = gtk_widget_get_pango_context (self->label);

      if ((double) letters[h] >= SHARE * (double) most)
        {
          PangoLayout *layout = pango_layout_new (context);

          pango_layout_set_markup (layout, markup[h], -1);
          self->cautions[self->n_cautions++].layout = layout;
        }
      g_free (markup[h]);
    }
}

/* Those that are long, once for each font that the label has had. */
static void
measure_all (HobCautionText *self)
{
  guint serial = pango_context_get_serial (gtk_widget_get_pango_context (self->label));

  if (serial == self->serial)
    return;
  self->serial = serial;
  self->word = self->line = 0;
  if (self->n_cautions == 0)
    choose (self);
  for (int i = 0; i < self->n_cautions; i++)
    {
      Caution *caution = &self->cautions[i];
      int line;

      size_of (caution->layout, -1, &caution->length, &line);
      self->word = MAX (self->word, widest_word (caution->layout));
      self->line = MAX (self->line, line);
    }
  qsort (self->cautions, (gsize) self->n_cautions, sizeof (Caution), longest_first);
}

/* A line ends because the next word has no room on it: all lines but the last, with their spaces,
 * are longer than the width less the widest word. */
static int
height_at_most (HobCautionText *self, int length, int width)
{
  int filled = width - self->word;

  return filled > 0 ? (length / filled + 1) * self->line : G_MAXINT;
}

/* Of the longest caution at @width.  Most are too short to be it, and are not laid out for that. */
static int
height_for (HobCautionText *self, int width)
{
  int height = 0;

  for (int i = 0; i < self->n_cautions
                  && height_at_most (self, self->cautions[i].length, width) > height;
       i++)
    {
      int w, h;

      size_of (self->cautions[i].layout, width, &w, &h);
      height = MAX (height, h);
    }
  return height;
}

static GtkSizeRequestMode
hob_caution_text_get_request_mode (GtkWidget *widget)
{
  return GTK_SIZE_REQUEST_HEIGHT_FOR_WIDTH;
}

static void
hob_caution_text_measure (GtkWidget *widget, GtkOrientation orientation, int for_size,
                          int *minimum, int *natural, int *minimum_baseline,
                          int *natural_baseline)
{
  HobCautionText *self = HOB_CAUTION_TEXT (widget);

  measure_all (self);
  if (orientation == GTK_ORIENTATION_HORIZONTAL)
    {
      *minimum = self->word;
      *natural = self->cautions[0].length;
    }
  else
    *minimum = *natural = for_size < 0 ? self->line : height_for (self, for_size);
}

static void
hob_caution_text_size_allocate (GtkWidget *widget, int width, int height, int baseline)
{
  gtk_widget_size_allocate (HOB_CAUTION_TEXT (widget)->label,
                            &(GtkAllocation){ 0, 0, width, height }, baseline);
}

void
hob_caution_text_set (HobCautionText *self, const char *markup)
{
  gtk_label_set_markup (GTK_LABEL (self->label), markup);
}

const char *
hob_caution_text_get (HobCautionText *self)
{
  return gtk_label_get_text (GTK_LABEL (self->label));
}

static void
hob_caution_text_dispose (GObject *object)
{
  HobCautionText *self = HOB_CAUTION_TEXT (object);

  for (int i = 0; i < self->n_cautions; i++)
    g_clear_object (&self->cautions[i].layout);
  self->n_cautions = 0;
  self->serial = 0;
  g_clear_pointer (&self->label, gtk_widget_unparent);
  G_OBJECT_CLASS (hob_caution_text_parent_class)->dispose (object);
}

static void
hob_caution_text_class_init (HobCautionTextClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = hob_caution_text_dispose;
  widget_class->get_request_mode = hob_caution_text_get_request_mode;
  widget_class->measure = hob_caution_text_measure;
  widget_class->size_allocate = hob_caution_text_size_allocate;
}

static void
hob_caution_text_init (HobCautionText *self)
{
  self->label = g_object_new (GTK_TYPE_LABEL, "wrap", TRUE, "xalign", 0.0, NULL);
  gtk_widget_add_css_class (self->label, "caution");
  gtk_widget_set_parent (self->label, GTK_WIDGET (self));
}
