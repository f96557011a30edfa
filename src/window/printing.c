/* SPDX-License-Identifier: GPL-3.0-or-later */

/* The sheet and the chart, out of the window: as a picture, as a table, on paper. */

#include "window/window-private.h"

#include "base/i18n.h"
#include "base/write-file.h"
#include "sheet/facts.h"
#include "sheet/legend.h"
#include "sheet/title-block.h"
#include <math.h>

#define CHART_W 1200.0 /* px */
#define CHART_H 600.0
#define ROWS 1000 /* of a table, at most: a row a second where that is enough */
#define POINTS_PER_PX 0.75

/* All that one picture needs. */
typedef struct
{
  HobLook look;
  HobFacts *facts;         /* owned */
  GArray *sequence;        /* owned; HobSequenceEntry, NULL: a chart */
  HobSceneReader *reader;  /* owned, with the scene; NULL: a chart */
  HobScene *scene;
  HobChart chart;
  HobTitleBlock block;
  HobSheetPicture picture;
  HobDraw draw;
  gpointer drawn; /* borrowed: what @draw gets */
} Shown;

static double
now (HobWindow *self)
{
  return (double) hob_session_ms (self->session) / 1000;
}

static void
shown_free (Shown *shown)
{
  hob_facts_free (shown->facts);
  g_clear_pointer (&shown->sequence, g_array_unref);
  hob_scene_free (shown->scene);
  hob_scene_reader_free (shown->reader);
  g_free (shown);
}
G_DEFINE_AUTOPTR_CLEANUP_FUNC (Shown, shown_free)

static void
draw_chart (cairo_t *cr, double w, double h, gpointer user)
{
  const Shown *shown = user;

  hob_sheet_ground (cr, w, h, &shown->look);
  hob_chart_draw (cr, &shown->chart, w, h, &shown->look);
}

/* What stays as it is while the window goes on. */
static Shown *
shown_new (HobWindow *self, HobTheme theme, HobPage page)
{
  HobBench *bench = hob_session_bench (self->session);
  Shown *shown = g_new0 (Shown, 1);

  shown->look = (HobLook){ theme, 1.0, 1.0, page };
  shown->facts = hob_facts_new (bench, now (self), FALSE);
  shown->block = (HobTitleBlock){ .facts = shown->facts, .look = &shown->look, .run = bench->run };
  return shown;
}

static Shown *
sheet_shown (HobWindow *self, HobTheme theme, HobPage page)
{
  HobBench *bench = hob_session_bench (self->session);
  Shown *shown = shown_new (self, theme, page);
  HobSheet sheet = hob_sheet_view_sheet (self->sheet);

  shown->reader = hob_scene_reader_new (bench->plan);
  shown->scene = hob_scene_new (hob_session_range (self->session));
  shown->scene->still = TRUE;
  hob_scene_read (shown->reader, shown->scene, bench->run, hob_bench_should_be (bench),
                  now (self));
  shown->sequence = hob_session_sequence (self->session);
  shown->picture = (HobSheetPicture){ shown->scene, sheet, &shown->look };
  shown->block.picture = (int) sheet;
  shown->block.sequence = shown->sequence;
  shown->draw = hob_sheet_picture_draw;
  shown->drawn = &shown->picture;
  return shown;
}

static Shown *
chart_shown (HobWindow *self, HobTheme theme, HobPage page)
{
  HobBench *bench = hob_session_bench (self->session);
  Shown *shown = shown_new (self, theme, page);

  shown->chart = hob_chart_view_chart (self->chart);
  shown->chart.memory = NULL;
  shown->chart.cursor = now (self);
  shown->facts->now = hob_hazards_up_to (bench->book, bench->run, now (self));
  shown->block.picture = HOB_CHART_PICTURE;
  shown->draw = draw_chart;
  shown->drawn = shown;
  return shown;
}

/* ---- Files ---- */

static gboolean
write_table (const Shown *shown, const char *file, GError **error)
{
  const double span = fmin (shown->chart.to, shown->chart.until) - shown->chart.from;
  g_autoptr (GString) csv = g_string_new (NULL);

  hob_chart_append_csv (csv, &shown->chart, fmax (1, ceil (span / ROWS)));
  return hob_write_file (file, csv->str, csv->len, error);
}

static gboolean
write_chart (HobWindow *self, const char *file, GError **error)
{
  g_autoptr (Shown) shown = chart_shown (self, HOB_THEME_LIGHT, HOB_PAGE_PICTURE);

  if (g_str_has_suffix (file, ".csv"))
    return write_table (shown, file, error);
  return hob_picture_write (file, CHART_W, CHART_H, HOB_PAPER_NONE, draw_chart, shown,
                            &shown->block, error);
}

static gboolean
write_sheet (HobWindow *self, const char *file, GError **error)
{
  g_autoptr (Shown) shown = sheet_shown (self, HOB_THEME_LIGHT, HOB_PAGE_PICTURE);

  return hob_sheet_write (file, shown->scene, &shown->block, HOB_PAPER_NONE, 0, 0, error);
}

gboolean
hob_window_export (HobWindow *self, gboolean chart, const char *file, GError **error)
{
  return (chart ? write_chart : write_sheet) (self, file, error);
}

static void
on_answer (GtkNativeDialog *dialog, int response, HobWindow *self)
{
  gboolean chart = g_object_get_data (G_OBJECT (dialog), "chart") != NULL;
  g_autoptr (GFile) file = response == GTK_RESPONSE_ACCEPT
                               ? gtk_file_chooser_get_file (GTK_FILE_CHOOSER (dialog)) : NULL;
  g_autofree char *path = file != NULL ? g_file_get_path (file) : NULL;
  g_autoptr (GError) error = NULL;

  gtk_native_dialog_destroy (dialog);
  g_clear_object (&self->chooser);
  if (response != GTK_RESPONSE_ACCEPT)
    return;
  if (path == NULL)
    hob_window_say (self, _ ("This folder is not on this computer. Choose another folder."));
  else if (!hob_window_export (self, chart, path, &error))
    hob_window_say (self, error->message);
  else
    {
      g_autofree char *name = g_path_get_basename (path);
      g_autofree char *line = g_strdup_printf (_ ("Saved as %s."), name);

      hob_window_say (self, line);
    }
}

static void
export (HobWindow *self, gboolean chart)
{
  g_autofree char *name = g_strdup_printf (
      /* Translators: name of a file; the range. */
      chart ? _ ("%s-chart.png") : _ ("%s-sheet.png"), hob_session_range (self->session)->id);

  if (self->chooser != NULL)
    return;
  self->chooser = gtk_file_chooser_native_new (
      chart ? _ ("Export the Chart as PNG, SVG, PDF, or CSV")
            : _ ("Export the Sheet as PNG, SVG, or PDF"),
      GTK_WINDOW (self), GTK_FILE_CHOOSER_ACTION_SAVE, _ ("_Save"), _ ("_Cancel"));
  gtk_native_dialog_set_modal (GTK_NATIVE_DIALOG (self->chooser), TRUE);
  g_object_set_data (G_OBJECT (self->chooser), "chart", GINT_TO_POINTER (chart));
  gtk_file_chooser_set_current_name (GTK_FILE_CHOOSER (self->chooser), name);
  g_signal_connect (self->chooser, "response", G_CALLBACK (on_answer), self);
  gtk_native_dialog_show (GTK_NATIVE_DIALOG (self->chooser));
}

static void
on_export_sheet (GSimpleAction *action, GVariant *parameter, gpointer user)
{
  export (user, FALSE);
}

static void
on_export_chart (GSimpleAction *action, GVariant *parameter, gpointer user)
{
  export (user, TRUE);
}

/* ---- Paper ---- */

/* px of the whole sheet of paper: the picture has margins of its own. */
static void
paper_size (GtkPrintContext *context, double *w, double *h)
{
  GtkPageSetup *setup = gtk_print_context_get_page_setup (context);

  *w = gtk_page_setup_get_paper_width (setup, GTK_UNIT_POINTS) / POINTS_PER_PX;
  *h = gtk_page_setup_get_paper_height (setup, GTK_UNIT_POINTS) / POINTS_PER_PX;
}

static void
on_begin_print (GtkPrintOperation *print, GtkPrintContext *context, Shown *shown)
{
  double w, h;

  paper_size (context, &w, &h);
  gtk_print_operation_set_n_pages (print, hob_picture_pages (&shown->block, w, h));
}

static void
on_draw_page (GtkPrintOperation *print, GtkPrintContext *context, int page, Shown *shown)
{
  cairo_t *cr = gtk_print_context_get_cairo_context (context);
  double w, h;

  paper_size (context, &w, &h);
  cairo_scale (cr, POINTS_PER_PX, POINTS_PER_PX);
  hob_picture_draw_page (cr, w, h, shown->draw, shown->drawn, &shown->block, page);
}

static void
on_printed (GtkPrintOperation *print, GtkPrintOperationResult result, HobWindow *self)
{
  g_autoptr (GError) error = NULL;

  if (result != GTK_PRINT_OPERATION_RESULT_ERROR)
    return;
  gtk_print_operation_get_error (print, &error);
  if (error != NULL)
    hob_window_say (self, error->message);
}

/* A sheet of the system's paper on its side. */
static GtkPrintOperation *
print_new (HobWindow *self, Shown *shown)
{
  GtkPrintOperation *print = gtk_print_operation_new ();
  g_autoptr (GtkPageSetup) setup = gtk_page_setup_new ();

  gtk_page_setup_set_orientation (setup, GTK_PAGE_ORIENTATION_LANDSCAPE);
  gtk_print_operation_set_default_page_setup (print, setup);
  gtk_print_operation_set_use_full_page (print, TRUE);
  gtk_print_operation_set_unit (print, GTK_UNIT_POINTS);
  gtk_print_operation_set_job_name (print, hob_range_name (hob_session_range (self->session)));
  g_object_set_data_full (G_OBJECT (print), "shown", shown, (GDestroyNotify) shown_free);
  /* Its pages are read from the session's run: without it nothing more is printed. */
  g_object_set_data_full (G_OBJECT (print), "session", g_object_ref (self->session),
                          g_object_unref);
  g_signal_connect_object (self->session, "cut", G_CALLBACK (gtk_print_operation_cancel), print,
                           G_CONNECT_SWAPPED);
  g_signal_connect (print, "begin-print", G_CALLBACK (on_begin_print), shown);
  g_signal_connect (print, "draw-page", G_CALLBACK (on_draw_page), shown);
  g_signal_connect_object (print, "done", G_CALLBACK (on_printed), self, 0);
  return print;
}

static void
on_print (GSimpleAction *action, GVariant *parameter, gpointer user)
{
  HobWindow *self = user;
  g_autoptr (GtkPrintOperation) print
      = print_new (self, sheet_shown (self, HOB_THEME_PRINT, HOB_PAGE_PAPER));
  g_autoptr (GError) error = NULL;

  hob_session_set_running (self->session, FALSE);
  gtk_print_operation_set_allow_async (print, TRUE);
  gtk_print_operation_run (print, GTK_PRINT_OPERATION_ACTION_PRINT_DIALOG, GTK_WINDOW (self),
                           &error);
  if (error != NULL)
    hob_window_say (self, error->message);
}

gboolean
hob_window_print_to (HobWindow *self, const char *file, GError **error)
{
  g_autoptr (GtkPrintOperation) print
      = print_new (self, sheet_shown (self, HOB_THEME_PRINT, HOB_PAGE_PAPER));

  gtk_print_operation_set_export_filename (print, file);
  return gtk_print_operation_run (print, GTK_PRINT_OPERATION_ACTION_EXPORT, GTK_WINDOW (self),
                                  error)
         == GTK_PRINT_OPERATION_RESULT_APPLY;
}

static const GActionEntry entries[] = {
  { "export-sheet", on_export_sheet },
  { "export-chart", on_export_chart },
  { "print", on_print },
};

void
hob_window_add_printing (HobWindow *self)
{
  g_action_map_add_action_entries (G_ACTION_MAP (self), entries, G_N_ELEMENTS (entries), self);
}
