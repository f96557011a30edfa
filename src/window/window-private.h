/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "job/job.h"
#include "window/caution-bar.h"
#include "window/finding-list.h"
#include "window/part-list.h"
#include "window/part-panel.h"
#include "window/suspect-column.h"
#include "window/why-bar.h"
#include "window/window.h"

G_BEGIN_DECLS

/* What takes the place of the open job. */
typedef enum
{
  HOB_THEN_STAY,
  HOB_THEN_CLOSE,
  HOB_THEN_OPEN,
  HOB_THEN_RESTORE,
} HobThen;

/* A file that is watched for changes that others make. */
typedef struct
{
  GFile *file;       /* NULL: none */
  char *tag;         /* of the file as it was read or written last */
  char *told;        /* of the file as it was when its change was offered last, or NULL */
  gboolean is_asked; /* an answer is awaited from the disk */
} HobFollowed;

enum
{
  HOB_FOLLOWED_ASKED, /* the file asked for last, open or broken */
  HOB_FOLLOWED_RANGE, /* the range of a case file */
  HOB_N_FOLLOWED
};

typedef struct _HobWindowPlace HobWindowPlace;
typedef struct _HobBeside HobBeside;

struct _HobWindow
{
  GtkApplicationWindow parent_instance;

  /*< template children >*/
  GtkLabel *range_name, *said, *zoom_label, *time_label, *record_label, *house_label;
  GtkRevealer *bar, *findings_bar, *offer_bar;
  GtkLabel *offered;
  HobCautionBar *cautions;
  HobFindingList *findings;
  HobFront *front;
  HobSheetView *sheet;
  HobSequenceBar *sequence;
  GtkBox *strips, *sheets; /* of the range, and of a second one beside it */
  GtkWidget *strip, *strip_head;
  HobChartView *chart;
  HobSymptomList *symptoms;
  HobSuspectColumn *suspects;
  HobWhyBar *why;
  GtkWidget *why_panel;
  GtkLabel *why_title;
  GtkScrolledWindow *why_scroller;
  HobPartPanel *part;
  HobPartList *parts;
  GtkStack *right_stack;
  GtkButton *run_button;
  GtkDropDown *speed;
  GtkWidget *front_panel, *front_rail, *details_panel, *details_rail;
  GtkLabel *rail_count;
  GtkWidget *reload_button; /* in the bar */
  GtkMenuButton *menu_button;
  GMenu *menu, *open_section; /* the main menu, and the section that opens files */

  /*< owned >*/
  HobSession *session;
  HobStyle *style;
  GtkFileChooserNative *chooser; /* while it is open */
  HobJob *job;                   /* NULL: nothing has been opened yet */
  HobThen then;                  /* what comes once what was done is saved or dropped, … */
  char *then_file;               /* … and with what file; NULL: none */
  char *left;                    /* the copy of a killed program that is offered; NULL: none */
  HobFollowed followed[HOB_N_FOLLOWED];
  GCancellable *looking; /* at those files */
  guint look_timer;
  HobWindowPlace *why_place;     /* where one was before the line was asked for; NULL: it isn't */
  GCancellable *why_search;      /* while the cause is looked for */
  HobBeside *beside;             /* a second range; NULL: there is one only */

  /*< borrowed >*/
  GtkWindow *question; /* while it is open */

  guint tick;
  guint keep_timer;
  gint64 kept_at; /* µs; 0: not yet */
  gboolean keep_failed; /* that was said */
  guint fold_idle, finish_idle;
  gint64 last_frame; /* µs; 0: none yet */
  gint64 time_shown_at;
  int width, height; /* px of the surface; 0: not yet known */
  gboolean narrow;
  gboolean wants_front, wants_details; /* where there is room for both */
  gboolean showing;
  gboolean lists_recent;
};

#define HOB_WINDOW_NARROW 1180 /* px at text scale 1: below, one side panel at most is open */

extern const double hob_window_speeds[]; /* 0-ended */
extern const char *const hob_window_sheets[HOB_N_SHEETS]; /* states of the action */

void hob_window_add_actions (HobWindow *self);
void hob_window_add_opening (HobWindow *self);
void hob_window_add_menu (HobWindow *self); /* once: the main menu and its lists of files */
void hob_window_add_saving (HobWindow *self);
void hob_window_hide_findings (HobWindow *self);
void hob_window_reveal (GtkRevealer *revealer, gboolean open);
void hob_window_unfollow (HobWindow *self);
void hob_window_update_actions (HobWindow *self);
/* On the sheet that is shown, if the part is there; else on the first that has it or what it
 * moves. */
void hob_window_show_part (HobWindow *self, int part);
/* Shows or hides it, which nobody has asked for: the wish stays. */
void hob_window_show_panel (HobWindow *self, gboolean front, gboolean open);
void hob_window_open_panel (HobWindow *self, gboolean front, gboolean open);

/* window-place.c */
HobWindowPlace *hob_window_place_new (HobWindow *self); /* (transfer full) */
void hob_window_place_free (HobWindowPlace *place);
void hob_window_return (HobWindow *self, const HobWindowPlace *place);
/* What was done since then stays in view: the time is no longer part of it. */
void hob_window_place_stay (HobWindowPlace *place);

/* window-beside.c */
void hob_window_add_beside (HobWindow *self);
/* The range with the fault of @suspect in place of its own, beside the first. */
void hob_window_open_beside (HobWindow *self, const HobSuspect *suspect);
/* Back to where one was before; FALSE: there is no second range. */
gboolean hob_window_close_beside (HobWindow *self);
void hob_window_drop_beside (HobWindow *self); /* stays where one is now */
void hob_window_fit_beside (HobWindow *self);  /* after another width */
/* TRUE: the first waits for the second. */
gboolean hob_window_tick_beside (HobWindow *self, double wall);
/* The second range's strip and sheet; NULL: none. */
GtkWidget *hob_window_beside_strip (HobWindow *self);

/* window-suspects.c */
void hob_window_add_suspects (HobWindow *self);
void hob_window_open_suspects (HobWindow *self, gboolean open);

/* window-why.c */
void hob_window_add_why (HobWindow *self);
void hob_window_ask_why (HobWindow *self, int symptom, int part);
/* Back to where one was before; FALSE: no cause was asked for. */
gboolean hob_window_return_from_why (HobWindow *self);
void hob_window_drop_why (HobWindow *self); /* stays where one is now */

/* menus.c, printing.c */
void hob_window_add_menus (HobWindow *self);
void hob_window_add_printing (HobWindow *self);

/* window-opening.c */
void hob_window_open_now (HobWindow *self, const char *file); /* nothing is asked */
/* @file is the one that is open, and watched for changes that others make; so is the file of its
 * @range, if that is another one.  NULL: none. */
void hob_window_follow_file (HobWindow *self, const char *file, const HobRange *range);

/* window-saving.c */
void hob_window_take_job (HobWindow *self, HobJob *job); /* owns it */
void hob_window_watch_acts (HobWindow *self);
void hob_window_drop_job (HobWindow *self);
void hob_window_restore_now (HobWindow *self, const char *left); /* nothing is asked */
gboolean hob_window_is_saved (HobWindow *self);
/* Goes on to @then, at once where all is saved; else asks once. */
void hob_window_leave (HobWindow *self, HobThen then, const char *file);

G_END_DECLS
