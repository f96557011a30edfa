/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "window/keys.h"

#include "base/i18n.h"

const HobKeys hob_keys[] = {
  { "win.run", N_ ("Run or pause"), { "space" }, TRUE },
  { "win.step", N_ ("Go forward one second"), { "period" }, TRUE },
  { "win.back", N_ ("Go back one second"), { "comma" }, TRUE },
  { "win.next-event", N_ ("Go to the next event"), { "n" }, TRUE },
  { "win.previous-event", N_ ("Go to the previous event"), { "p" }, TRUE },
  { "win.start", N_ ("Go to the start"), { "Home" }, TRUE },
  { "win.end", N_ ("Go to the end of the timeline"), { "End" }, TRUE },
  { "win.slower", N_ ("Slower"), { "bracketleft" }, TRUE },
  { "win.faster", N_ ("Faster"), { "bracketright" }, TRUE },
  { "win.no-choice", N_ ("Clear the selection and close messages"), { "Escape" }, TRUE },
  { "win.part-menu", N_ ("Open the menu of the selected part or of the chart"),
    { "h", "Menu", "<Shift>F10" }, TRUE },
  { "win.next-area", N_ ("Go to the next area of the window"), { "F6" } },
  { "win.previous-area", N_ ("Go to the previous area of the window"), { "<Shift>F6" } },
  { "win.undo", N_ ("Undo the last thing you did"), { "<Ctrl>z" } },
  { "win.redo", N_ ("Redo what you undid"), { "<Ctrl><Shift>z", "<Ctrl>y" } },
  { "win.open", N_ ("Open a range or a case"), { "<Ctrl>o" } },
  { "win.save-as", N_ ("Save your actions as a case"), { "<Ctrl>s" } },
  { "win.export-sheet", N_ ("Export the sheet as a picture"), { "<Ctrl>e" } },
  { "win.export-chart", N_ ("Export the chart as a picture or a table"), { "<Ctrl><Shift>e" } },
  { "win.print", N_ ("Print the sheet"), { "<Ctrl>p" } },
  { "win.reload", N_ ("Reload the file"), { "<Ctrl>r" } },
  { "win.close", N_ ("Close the window"), { "<Ctrl>w" } },
  { "win.zoom-in", N_ ("Zoom in"), { "<Ctrl>plus", "<Ctrl>equal" } },
  { "win.zoom-out", N_ ("Zoom out"), { "<Ctrl>minus" } },
  { "win.zoom-fit", N_ ("Show the whole sheet"), { "<Ctrl>0" } },
  { "win.sheet::wiring", N_ ("Show the wiring sheet"), { "<Alt>1" } },
  { "win.sheet::gas", N_ ("Show the gas sheet"), { "<Alt>2" } },
  { "win.sheet::cutaway", N_ ("Show the cutaway"), { "<Alt>3" } },
  { "win.front", N_ ("Show or hide the front panel"), { "F8" } },
  { "win.details", N_ ("Show or hide symptoms and parts"), { "F9" } },
  { "win.suspects", N_ ("Show or hide suspects"), { "F7" } },
  { "win.keys", N_ ("Show all keyboard shortcuts"), { "<Ctrl>question", "F1" } },
  { "app.quit", N_ ("Quit"), { "<Ctrl>q" } },
  { NULL },
};

char *
hob_keys_tooltip (const char *action)
{
  for (const HobKeys *k = hob_keys; k->action != NULL; k++)
    {
      g_autofree char *key = NULL;
      GdkModifierType modifiers;
      guint code;

      if (g_strcmp0 (k->action, action) != 0)
        continue;
      gtk_accelerator_parse (k->keys[0], &code, &modifiers);
      key = gtk_accelerator_get_label (code, modifiers);
      return g_strdup_printf ("%s (%s)", _ (k->words), key);
    }
  return NULL;
}

static char *
action_of (GtkActionable *button)
{
  GVariant *target = gtk_actionable_get_action_target_value (button);
  const char *name = gtk_actionable_get_action_name (button);

  if (name == NULL || target == NULL)
    return g_strdup (name);
  return g_action_print_detailed_name (name, target);
}

void
hob_keys_add_tooltips (GtkWidget *root)
{
  if (GTK_IS_ACTIONABLE (root))
    {
      g_autofree char *action = action_of (GTK_ACTIONABLE (root));
      g_autofree char *tooltip = action != NULL ? hob_keys_tooltip (action) : NULL;

      if (tooltip != NULL)
        gtk_widget_set_tooltip_text (root, tooltip);
    }
  for (GtkWidget *child = gtk_widget_get_first_child (root); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    hob_keys_add_tooltips (child);
}
