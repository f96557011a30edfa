/* SPDX-License-Identifier: GPL-3.0-or-later */

/* What can be done to what is chosen: faults to add and remove, lanes of the chart. */

#include "window/menus.h"

#include "base/i18n.h"
#include "window/window-private.h"
#include "window/words.h"
#include <math.h>

/* ---- Popping up ---- */

static gboolean
on_gone (gpointer menu)
{
  if (gtk_widget_get_parent (menu) != NULL)
    gtk_widget_unparent (menu);
  return G_SOURCE_REMOVE;
}

/* What was chosen in it is done first. */
static void
on_closed (GtkPopover *menu, gpointer user)
{
  g_idle_add_full (G_PRIORITY_LOW, on_gone, g_object_ref (menu), g_object_unref);
}

#define AROUND 40 /* px that its borders and the window's may take */

/* Below the point or above it; a menu for which neither has room goes to its side, where it may
 * move up and down. */
static GtkPositionType
side_for (GtkWidget *over, GtkWidget *menu, double y)
{
  GtkWidget *window = GTK_WIDGET (gtk_widget_get_native (over));
  graphene_point_t at = GRAPHENE_POINT_INIT (0, (float) y);
  int height;

  if (!gtk_widget_compute_point (over, window, &at, &at))
    return GTK_POS_BOTTOM;
  gtk_widget_measure (menu, GTK_ORIENTATION_VERTICAL, -1, NULL, &height, NULL, NULL);
  return height + AROUND > fmax ((double) at.y, gtk_widget_get_height (window) - (double) at.y)
             ? GTK_POS_RIGHT : GTK_POS_BOTTOM;
}

void
hob_menus_pop_up (GtkWidget *over, GMenuModel *menu, double x, double y)
{
  GtkWidget *popover = gtk_popover_menu_new_from_model (menu);

  gtk_widget_set_parent (popover, over);
  gtk_popover_set_pointing_to (GTK_POPOVER (popover), &(GdkRectangle){ (int) x, (int) y, 1, 1 });
  gtk_popover_set_has_arrow (GTK_POPOVER (popover), FALSE);
  gtk_widget_set_halign (popover, GTK_ALIGN_START);
  g_signal_connect (popover, "closed", G_CALLBACK (on_closed), NULL);
  gtk_popover_popup (GTK_POPOVER (popover));
  /* It has no size before that. */
  gtk_popover_set_position (GTK_POPOVER (popover), side_for (over, popover, y));
}

void
hob_menus_allocate (GtkWidget *over)
{
  for (GtkWidget *child = gtk_widget_get_first_child (over); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    if (GTK_IS_POPOVER (child))
      gtk_popover_present (GTK_POPOVER (child));
}

/* An open one is closed first: its grab of the keys would outlive it. */
void
hob_menus_drop (GtkWidget *over)
{
  for (GtkWidget *child; (child = gtk_widget_get_first_child (over)) != NULL;)
    {
      if (GTK_IS_POPOVER (child))
        gtk_popover_popdown (GTK_POPOVER (child));
      gtk_widget_unparent (child);
    }
}

/* ---- What is in them ---- */

static void
add_item (GMenu *menu, const char *words, const char *action, int part, int index)
{
  g_autoptr (GMenuItem) item = g_menu_item_new (words, NULL);

  g_menu_item_set_action_and_target (item, action, "(ii)", part, index);
  g_menu_append_item (menu, item);
}

static GMenu *
faults_of (HobWindow *self, int part)
{
  const HobRange *range = hob_session_range (self->session);
  const HobKind *kind = range->parts[part].kind;
  const HobMoment *now = hob_session_moment (self->session);
  GMenu *menu = g_menu_new ();

  for (int k = 0; k < kind->n_faults; k++)
    {
      gboolean there = !isnan (hob_moment_fault (now, part, k));
      g_autofree char *words
          = g_strdup_printf (there ? _ ("Remove: %s") : _ ("Add: %s"), _ (kind->faults[k].words));

      if (hob_range_has_fault (range, part, k))
        add_item (menu, words, "win.fault", part, k);
    }
  return menu;
}

static GMenu *
lanes_of (HobWindow *self, int part)
{
  const HobKind *kind = hob_session_range (self->session)->parts[part].kind;
  GMenu *menu = g_menu_new ();

  for (int q = 0; q < kind->n_quantities; q++)
    {
      gboolean there = hob_chart_view_shows (self->chart, (HobTrace){ part, q });
      g_autofree char *words = g_strdup_printf (there ? _ ("Remove: %s") : _ ("Add: %s"),
                                                _ (kind->quantities[q].words));

      add_item (menu, words, "win.lane", part, q);
    }
  return menu;
}

/* A lit match held at the part, or taken away. */
static GMenu *
matches_of (HobWindow *self, int at)
{
  GMenu *menu = g_menu_new ();
  int part, control;

  if (hob_range_control_at (hob_session_range (self->session), at, &part, &control))
    {
      gboolean there
          = hob_moment_control (hob_session_moment (self->session), part, control) == HOB_AT (at);

      add_item (menu, there ? _ ("Take the Match Away") : _ ("Hold a Lit Match Here"),
                "win.hold-match", at, !there);
    }
  return menu;
}

static double
other_position (const HobControlDef *def, double value)
{
  return value == def->low ? def->high : def->low;
}

/* Leads that a hand moves inside the part: no control of the front. */
static GMenu *
leads_of (HobWindow *self, int part)
{
  const HobKind *kind = hob_session_range (self->session)->parts[part].kind;
  GMenu *menu = g_menu_new ();

  for (int k = 0; k < kind->n_controls; k++)
    {
      const HobControlDef *def = &kind->controls[k];
      double value = hob_moment_control (hob_session_moment (self->session), part, k);
      const HobPosition *position = def->positions;
      g_autofree char *words = NULL;

      if (def->role != HOB_CONTROL_LEADS)
        continue;
      while (position->value != other_position (def, value))
        position++;
      /* Translators: a position of the control that was clicked. */
      words = g_strdup_printf (_ ("Change to: %s"), _ (position->words));
      add_item (menu, words, "win.move-leads", part, k);
    }
  return menu;
}

static GMenuModel *
part_menu (HobWindow *self, int part)
{
  const HobPart *p = &hob_session_range (self->session)->parts[part];
  g_autoptr (GMenu) faults = faults_of (self, part), lanes = lanes_of (self, part),
                    chart = g_menu_new ();
  g_autoptr (GMenu) matches = matches_of (self, part), leads = leads_of (self, part);
  GMenu *menu = g_menu_new ();

  g_menu_append_section (menu, hob_part_label (p), G_MENU_MODEL (faults));
  g_menu_append_section (menu, NULL, G_MENU_MODEL (matches));
  g_menu_append_section (menu, NULL, G_MENU_MODEL (leads));
  if (p->kind->n_quantities > 0)
    g_menu_append_submenu (chart, _ ("On the Chart"), G_MENU_MODEL (lanes));
  g_menu_append_section (menu, NULL, G_MENU_MODEL (chart));
  return G_MENU_MODEL (menu);
}

static void
add_shown_lanes (HobWindow *self, GMenu *menu)
{
  const HobRange *range = hob_session_range (self->session);
  const GArray *shown = hob_chart_view_traces (self->chart);

  for (guint k = 0; k < shown->len; k++)
    {
      const HobTrace *trace = &g_array_index (shown, HobTrace, k);
      const HobPart *part = &range->parts[trace->part];
      g_autofree char *lane = g_strdup_printf (_ ("%s: %s"), hob_part_label (part),
                                               _ (part->kind->quantities[trace->quantity].words));
      g_autofree char *words = g_strdup_printf (_ ("Remove: %s"), lane);

      add_item (menu, words, "win.lane", trace->part, trace->quantity);
    }
}

/* Lanes to remove, those of the chosen part to add. */
static GMenuModel *
chart_menu (HobWindow *self)
{
  int part = hob_session_chosen_part (self->session);
  g_autoptr (GMenu) shown = g_menu_new (), more = g_menu_new (), time = g_menu_new ();
  GMenu *menu = g_menu_new ();

  add_shown_lanes (self, shown);
  /* Translators: rows of the chart, one for each quantity. */
  g_menu_append_section (menu, _ ("Chart Rows"), G_MENU_MODEL (shown));
  if (part >= 0)
    {
      g_autoptr (GMenu) lanes = lanes_of (self, part);

      g_menu_append_submenu (
          more, hob_part_label (&hob_session_range (self->session)->parts[part]),
          G_MENU_MODEL (lanes));
    }
  g_menu_append (more, _ ("Choose Chart Rows Automatically"), "win.lanes-automatic");
  g_menu_append_section (menu, NULL, G_MENU_MODEL (more));
  g_menu_append (time, _ ("Whole Timeline"), "win.chart-all");
  g_menu_append (time, _ ("Export Chart…"), "win.export-chart");
  g_menu_append_section (menu, NULL, G_MENU_MODEL (time));
  return G_MENU_MODEL (menu);
}

/* ---- Asking for them ---- */

static void
on_sheet_asked (HobSheetView *sheet, double x, double y, HobWindow *self)
{
  int part = hob_session_chosen_part (self->session);
  g_autoptr (GMenuModel) menu = part >= 0 ? part_menu (self, part) : NULL;

  if (menu != NULL)
    hob_menus_pop_up (GTK_WIDGET (sheet), menu, x, y);
}

static void
on_chart_asked (HobChartView *chart, double x, double y, HobWindow *self)
{
  g_autoptr (GMenuModel) menu = chart_menu (self);

  hob_menus_pop_up (GTK_WIDGET (chart), menu, x, y);
}

static void
on_part_menu (GSimpleAction *action, GVariant *parameter, gpointer user)
{
  HobWindow *self = user;
  int part = hob_session_chosen_part (self->session);
  double x, y, now = (double) hob_session_ms (self->session) / 1000;

  if (gtk_window_get_focus (GTK_WINDOW (self)) == GTK_WIDGET (self->chart))
    {
      on_chart_asked (self->chart, hob_chart_view_x (self->chart, now),
                      gtk_widget_get_height (GTK_WIDGET (self->chart)) / 2.0, self);
      return;
    }
  if (part < 0)
    {
      hob_window_say (self, _ ("Select a part first: click it, or use the list of all parts."));
      return;
    }
  hob_sheet_view_middle_of (self->sheet, part, &x, &y);
  on_sheet_asked (self->sheet, x, y, self);
}

/* ---- What they do ---- */

static void
on_fault (GSimpleAction *action, GVariant *parameter, gpointer user)
{
  HobWindow *self = user;
  const HobFaultDef *def;
  gboolean there;
  int part, fault;

  g_variant_get (parameter, "(ii)", &part, &fault);
  def = &hob_session_range (self->session)->parts[part].kind->faults[fault];
  there = !isnan (hob_moment_fault (hob_session_moment (self->session), part, fault));
  hob_session_act (self->session, there ? HOB_ACT_LIFT : HOB_ACT_FAULT, part, fault,
                   there ? 0 : hob_fault_typical (def));
}

static void
on_match (GSimpleAction *action, GVariant *parameter, gpointer user)
{
  HobWindow *self = user;
  HobAct act = { .what = HOB_ACT_CONTROL, .ms = hob_session_ms (self->session) };
  g_autoptr (GError) error = NULL;
  int at, holds;

  g_variant_get (parameter, "(ii)", &at, &holds);
  if (!hob_range_control_at (hob_session_range (self->session), at, &act.part, &act.index))
    return;
  act.value = holds ? HOB_AT (at) : 0;
  if (hob_bench_allows (hob_session_bench (self->session), &act, &error))
    hob_session_act (self->session, act.what, act.part, act.index, act.value);
  else
    hob_window_say (self, error->message);
}

static void
on_move_leads (GSimpleAction *action, GVariant *parameter, gpointer user)
{
  HobWindow *self = user;
  const HobMoment *m = hob_session_moment (self->session);
  const HobControlDef *def;
  int part, control;

  g_variant_get (parameter, "(ii)", &part, &control);
  def = &hob_session_range (self->session)->parts[part].kind->controls[control];
  hob_session_act (self->session, HOB_ACT_CONTROL, part, control,
                   other_position (def, hob_moment_control (m, part, control)));
}

static void
on_lane (GSimpleAction *action, GVariant *parameter, gpointer user)
{
  HobWindow *self = user;
  HobTrace trace;

  g_variant_get (parameter, "(ii)", &trace.part, &trace.quantity);
  hob_chart_view_show (self->chart, trace, !hob_chart_view_shows (self->chart, trace));
}

static void
on_lanes_automatic (GSimpleAction *action, GVariant *parameter, gpointer user)
{
  hob_chart_view_choose (HOB_WINDOW (user)->chart);
}

static void
on_chart_all (GSimpleAction *action, GVariant *parameter, gpointer user)
{
  hob_chart_view_zoom_out (HOB_WINDOW (user)->chart);
}

static const GActionEntry entries[] = {
  { "part-menu", on_part_menu },
  { "fault", on_fault, "(ii)" },
  { "hold-match", on_match, "(ii)" },
  { "move-leads", on_move_leads, "(ii)" },
  { "lane", on_lane, "(ii)" },
  { "lanes-automatic", on_lanes_automatic },
  { "chart-all", on_chart_all },
};

void
hob_window_add_menus (HobWindow *self)
{
  g_action_map_add_action_entries (G_ACTION_MAP (self), entries, G_N_ELEMENTS (entries), self);
  g_signal_connect (self->sheet, "asked", G_CALLBACK (on_sheet_asked), self);
  g_signal_connect (self->chart, "asked", G_CALLBACK (on_chart_asked), self);
}
