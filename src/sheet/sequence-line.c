/* SPDX-License-Identifier: GPL-3.0-or-later */

/* The sequence line, as a tech sheet draws the sequence of operation: a pencil mark with the time
 * is above what has been done.  What is not done when it should be is ringed, with both figures
 * and both times; what waits for it is broken. */

#include "sheet/sequence-line.h"

#include "base/i18n.h"
#include "sheet/ruled-line.h"
#include <math.h>

static gboolean
is_open (const HobSequenceEntry *e)
{
  return e->state == HOB_SEQUENCE_NEXT || e->state == HOB_SEQUENCE_WAITING;
}

/* What came late, poorly or uncalled for has its time, but no mark as good as that of the rest. */
static gboolean
is_met (const HobSequenceEntry *e)
{
  return !isnan (e->done) && !hob_sequence_is_ringed (e);
}

/* When it was done, and how often; NULL: it was not. */
static char *
done_text (const HobSequenceEntry *e)
{
  g_autofree char *time = NULL;

  if (isnan (e->done))
    return NULL;
  time = hob_time_text (e->done);
  return e->times > 1 ? g_strdup_printf ("%s ×%d", time, e->times) : g_steal_pointer (&time);
}

/* (transfer full) */
static GArray *
ruled_entries (const HobSequenceLine *line)
{
  const HobRange *range = hob_run_case (line->run)->range;
  GArray *entries = hob_ruled_entries_new ();

  for (guint k = 0; k < line->entries->len; k++)
    {
      const HobSequenceEntry *e = &g_array_index (line->entries, HobSequenceEntry, k);
      HobRuledEntry one = { hob_sequence_words (line->run, e), hob_sequence_figures (line->run, e),
                            done_text (e), range->parts[e->part].id, is_met (e), is_open (e),
                            hob_sequence_is_ringed (e) };

      g_array_append_val (entries, one);
    }
  return entries;
}

/* What is ringed, what was done last, what comes next. */
static void
find_anchors (const GArray *entries, int anchors[HOB_RULED_ANCHORS])
{
  anchors[0] = anchors[1] = anchors[2] = -1;
  for (int k = 0; k < (int) entries->len; k++)
    {
      const HobSequenceEntry *e = &g_array_index (entries, HobSequenceEntry, (guint) k);

      if (anchors[0] < 0 && hob_sequence_is_ringed (e))
        anchors[0] = k;
      if (e->state == HOB_SEQUENCE_MET)
        anchors[1] = k;
      if (anchors[2] < 0 && e->state == HOB_SEQUENCE_NEXT)
        anchors[2] = k;
    }
}

static HobRuledLine
ruled_of (const HobSequenceLine *line, const GArray *entries)
{
  HobRuledLine ruled = { entries, line->look, line->w, line->strip, { -1, -1, -1 },
                         _ ("Nothing has been turned on yet.") };

  find_anchors (line->entries, ruled.anchors);
  return ruled;
}

double
hob_sequence_strip_height (const HobLook *look)
{
  return hob_ruled_strip_height (look);
}

double
hob_sequence_line_height (const HobSequenceLine *line)
{
  g_autoptr (GArray) entries = ruled_entries (line);
  HobRuledLine ruled = ruled_of (line, entries);

  return hob_ruled_line_height (&ruled);
}

void
hob_sequence_line_draw (HobPen *pen, HobType *type, const HobSequenceLine *line)
{
  g_autoptr (GArray) entries = ruled_entries (line);
  HobRuledLine ruled = ruled_of (line, entries);

  hob_ruled_line_draw (pen, type, &ruled);
}

int
hob_sequence_line_hit (const HobSequenceLine *line, double x, double y)
{
  g_autoptr (GArray) entries = ruled_entries (line);
  HobRuledLine ruled = ruled_of (line, entries);

  return hob_ruled_line_hit (&ruled, x, y);
}

gboolean
hob_sequence_line_find (const HobSequenceLine *line, int entry, double *x, double *y)
{
  g_autoptr (GArray) entries = ruled_entries (line);
  HobRuledLine ruled = ruled_of (line, entries);

  return hob_ruled_line_find (&ruled, entry, x, y);
}
