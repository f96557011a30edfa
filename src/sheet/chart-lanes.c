/* SPDX-License-Identifier: GPL-3.0-or-later */

/* Which traces a chart shows where nobody has chosen any.
 *
 * A part is shown by the quantity that its kind ranks for charts, else by its figure, else by what
 * of it differs.  First come parts that misbehave, then others that differ from what should be
 * there, then the same quantity of parts of the same kind that do not (to compare), then what the
 * acts have moved, the latest act first; of these, by rank and by how near they are to the hand
 * along shafts, pipes, wires, and leads. */

#include "sheet/chart-data.h"
#include "run/comparison.h"
#include "run/differ.h"
#include <math.h>

#define MOMENTS 40 /* of a record that is looked back at */
#define PEERS 2
#define MOST_MOVED 3 /* lanes where nothing differs */
#define FAR 1e9
#define UNRANKED (HOB_LAST_TRACE + 1)
#define NO_FIGURE (HOB_LAST_TRACE + 2)

double
hob_chart_least_span (HobDimension dim)
{
  /* Less than this is not worth a picture: common practice, no source.  SI. */
  static const double least[] = {
    [HOB_DIM_NUMBER] = 0.1,
    [HOB_DIM_TEMPERATURE] = 20 / 1.8,
    [HOB_DIM_DIFFERENCE] = 20 / 1.8,
    [HOB_DIM_VOLTAGE] = 10,
    [HOB_DIM_CURRENT] = 0.5,
    [HOB_DIM_RESISTANCE] = 20,
    [HOB_DIM_POWER] = 150,
    [HOB_DIM_WATTS] = 50,
    [HOB_DIM_PRESSURE] = 0.5 * 249.089,
    [HOB_DIM_LENGTH] = 1e-3,
    [HOB_DIM_TIME] = 10,
    [HOB_DIM_MASS] = 1e-4,
    [HOB_DIM_MASS_FLOW] = 3e-6,
    [HOB_DIM_ENERGY] = 1000,
    [HOB_DIM_RATE] = 0.5,
    [HOB_DIM_FRACTION] = 100e-6,
    [HOB_DIM_VOLUME] = 0.1,
    [HOB_DIM_CHOICE] = 1,
  };

  return least[dim];
}

gboolean
hob_chart_is_followed (const HobKind *kind)
{
  for (int k = 0; k < kind->n_states; k++)
    if (kind->states[k].stores)
      return TRUE;
  return FALSE;
}

typedef struct
{
  double low, high;   /* SI, so far */
  gboolean differs;   /* it has */
  gboolean apart;     /* from what the long twin has, by more than the least span */
} Seen;

/* What is done at the time of the last look changes what was seen by that look and by no other. */
enum { BEFORE, LAST, N_SEEN };

struct _HobLanes
{
  /*< owned >*/
  HobPlan *plan;
  HobComparison *comparison;
  HobMoment *twin;
  Seen *seen[N_SEEN];        /* of all quantities, part by part */
  gboolean *culprit[N_SEEN]; /* of parts */
  int *first;                /* of a part's quantities in seen */
  int n;

  double at; /* s, of the last look; NaN: none so far */
};

HobLanes *
hob_lanes_new (const HobPlan *plan)
{
  HobLanes *lanes = g_new0 (HobLanes, 1);
  const HobRange *range = hob_plan_range (plan);

  lanes->plan = hob_plan_ref ((HobPlan *) plan);
  lanes->comparison = hob_comparison_new (plan);
  lanes->twin = hob_moment_new (plan);
  lanes->first = g_new (int, range->n_parts + 1);
  for (int p = 0; p < range->n_parts; p++)
    {
      lanes->first[p] = lanes->n;
      lanes->n += range->parts[p].kind->n_quantities;
    }
  for (int k = 0; k < N_SEEN; k++)
    {
      lanes->culprit[k] = g_new (gboolean, range->n_parts + 1);
      lanes->seen[k] = g_new (Seen, lanes->n + 1);
    }
  hob_lanes_forget (lanes);
  return lanes;
}

void
hob_lanes_free (HobLanes *lanes)
{
  if (lanes == NULL)
    return;
  hob_comparison_free (lanes->comparison);
  hob_moment_free (lanes->twin);
  hob_plan_unref (lanes->plan);
  for (int k = 0; k < N_SEEN; k++)
    {
      g_free (lanes->seen[k]);
      g_free (lanes->culprit[k]);
    }
  g_free (lanes->first);
  g_free (lanes);
}

static void
forget (HobLanes *lanes, int which)
{
  for (int k = 0; k < lanes->n; k++)
    lanes->seen[which][k] = (Seen){ INFINITY, -INFINITY, FALSE, FALSE };
  for (int p = 0; p < hob_plan_range (lanes->plan)->n_parts; p++)
    lanes->culprit[which][p] = FALSE;
}

void
hob_lanes_forget (HobLanes *lanes)
{
  forget (lanes, BEFORE);
  forget (lanes, LAST);
  lanes->at = NAN;
}

/* ---- Looking ---- */

static Seen
both (Seen a, Seen b)
{
  return (Seen){ fmin (a.low, b.low), fmax (a.high, b.high), a.differs || b.differs,
                 a.apart || b.apart };
}

static Seen
seen_of (const HobLanes *lanes, int part, int quantity)
{
  int k = lanes->first[part] + quantity;

  return both (lanes->seen[BEFORE][k], lanes->seen[LAST][k]);
}

static gboolean
is_culprit (const HobLanes *lanes, int part)
{
  return lanes->culprit[BEFORE][part] || lanes->culprit[LAST][part];
}

/* What was seen last belongs to what was seen before, unless it is looked at anew. */
static void
begin_look (HobLanes *lanes, double t)
{
  for (int k = 0; k < lanes->n && t != lanes->at; k++)
    lanes->seen[BEFORE][k] = both (lanes->seen[BEFORE][k], lanes->seen[LAST][k]);
  for (int p = 0; p < hob_plan_range (lanes->plan)->n_parts && t != lanes->at; p++)
    lanes->culprit[BEFORE][p] = is_culprit (lanes, p);
  forget (lanes, LAST);
  lanes->at = t;
}

static void
look_at (HobLanes *lanes, int part, int quantity, gboolean apart)
{
  Seen *seen = &lanes->seen[LAST][lanes->first[part] + quantity];
  HobDimension dim
      = hob_plan_range (lanes->plan)->parts[part].kind->quantities[quantity].dim;
  double value = hob_moment_quantity (hob_comparison_now (lanes->comparison), part, quantity);
  double normal = apart ? hob_moment_quantity (lanes->twin, part, quantity) : value;

  if (isfinite (value))
    seen->low = seen->high = value;
  seen->differs = hob_comparison_quantity (lanes->comparison, part, quantity, NULL);
  seen->apart = fabs (value - normal) > hob_chart_least_span (dim)
                && hob_differs (value, normal, dim);
}

void
hob_lanes_look (HobLanes *lanes, HobRun *run, HobRun *should_be, HobRun *twin, double t)
{
  const HobRange *range = hob_plan_range (lanes->plan);
  const gboolean whole = should_be == NULL || should_be == run;
  gboolean shows;

  hob_comparison_read (lanes->comparison, run, should_be, t);
  if (twin != NULL)
    hob_run_read (twin, t, lanes->twin);
  shows = hob_comparison_has_shown (lanes->comparison);
  begin_look (lanes, t);
  for (int p = 0; p < range->n_parts; p++)
    {
      for (int q = 0; q < range->parts[p].kind->n_quantities; q++)
        look_at (lanes, p, q,
                 twin != NULL && (hob_chart_is_followed (range->parts[p].kind) || whole));
      if (shows && !lanes->culprit[BEFORE][p])
        lanes->culprit[LAST][p] = hob_comparison_culprit (lanes->comparison, p, NULL);
    }
}

void
hob_lanes_look_back (HobLanes *lanes, HobRun *run, HobRun *should_be, HobRun *twin, double from,
                     double to)
{
  guint first, n = hob_run_events (run, from, to, &first);
  guint every = n / MOMENTS + 1;

  for (guint k = 0; k < n; k += every)
    {
      double t = hob_run_event (run, first + k)->t + 0.5;

      if (t < to)
        hob_lanes_look (lanes, run, should_be, twin, t);
    }
  for (int k = 0; k <= MOMENTS; k++)
    hob_lanes_look (lanes, run, should_be, twin,
                    k < MOMENTS ? from + (to - from) * k / MOMENTS : to);
}

/* ---- Choosing ---- */

typedef struct
{
  HobTrace trace;
  int class;      /* the order of classes, below */
  int rank;
  double near;    /* to what was done */
  int act;        /* 0: the latest */
} Lane;

enum { CULPRIT, DIFFERS, PEER, MOVED, NOT_SHOWN };

static gboolean
has_moved (const Seen *seen, HobDimension dim)
{
  return seen->high - seen->low >= hob_chart_least_span (dim);
}

static int
class_of (const HobLanes *lanes, int part, int quantity)
{
  const Seen seen = seen_of (lanes, part, quantity);
  const HobQuantityDef *def
      = &hob_plan_range (lanes->plan)->parts[part].kind->quantities[quantity];

  if (def->counts)
    return NOT_SHOWN;
  if (seen.differs)
    return is_culprit (lanes, part) ? CULPRIT : DIFFERS;
  return seen.apart ? DIFFERS : has_moved (&seen, def->dim) ? MOVED : NOT_SHOWN;
}

static int
rank_of (const HobKind *kind, int quantity)
{
  const HobQuantityDef *def = &kind->quantities[quantity];

  if (def->trace > 0)
    return def->trace;
  return quantity == kind->figure                                      ? UNRANKED
         : def->dim != HOB_DIM_NUMBER && def->dim != HOB_DIM_CHOICE    ? NO_FIGURE
                                                                       : NO_FIGURE + 1;
}

/* The one quantity that stands for a part: by class, then by rank. */
static gboolean
lane_of (const HobLanes *lanes, int part, Lane *lane)
{
  const HobKind *kind = hob_plan_range (lanes->plan)->parts[part].kind;

  *lane = (Lane){ .trace = { part, -1 }, .class = NOT_SHOWN, .near = FAR };
  for (int q = 0; q < kind->n_quantities; q++)
    {
      int class = class_of (lanes, part, q), rank = rank_of (kind, q);

      if (class == NOT_SHOWN || (class > DIFFERS && rank > UNRANKED))
        continue;
      if (class < lane->class || (class == lane->class && rank < lane->rank))
        {
          lane->trace.quantity = q;
          lane->class = class;
          lane->rank = rank;
        }
    }
  return lane->class != NOT_SHOWN;
}

/* ---- How near ---- */

static void
join (double *near, int a, int b, double length, gboolean *changed)
{
  for (int way = 0; way < 2; way++)
    {
      int from = way == 0 ? a : b, to = way == 0 ? b : a;

      if (near[from] + length < near[to])
        {
          near[to] = near[from] + length;
          *changed = TRUE;
        }
    }
}

static void
join_lines (double *near, const HobLine *lines, int n, double length, gboolean *changed)
{
  for (int k = 0; k < n; k++)
    join (near, lines[k].from.part, lines[k].to.part, length, changed);
}

/* Steps from @part to each other, wires counting twice. (transfer full) */
static double *
steps_from (const HobRange *range, int part)
{
  double *near = g_new (double, range->n_parts);
  gboolean changed = TRUE;

  for (int p = 0; p < range->n_parts; p++)
    near[p] = FAR;
  near[part] = 0;
  while (changed)
    {
      changed = FALSE;
      join_lines (near, range->pipes, range->n_pipes, 1, &changed);
      join_lines (near, range->leads, range->n_leads, 1, &changed);
      join_lines (near, range->wires, range->n_wires, 2, &changed);
      for (int p = 0; p < range->n_parts; p++)
        {
          if (range->parts[p].moved_by >= 0)
            join (near, p, range->parts[p].moved_by, 1, &changed);
          if (range->parts[p].in >= 0)
            join (near, p, range->parts[p].in, 1, &changed);
        }
    }
  return near;
}

/* Parts that acts by time t were done to, the latest first. (transfer full) */
static GArray *
acted (const HobCase *acts, double t)
{
  GArray *parts = g_array_new (FALSE, FALSE, sizeof (int));

  for (guint k = acts->acts->len; k > 0; k--)
    {
      const HobAct *act = &g_array_index (acts->acts, HobAct, k - 1);
      gboolean there = (double) act->ms / 1000 > t;

      for (guint i = 0; i < parts->len; i++)
        there = there || g_array_index (parts, int, i) == act->part;
      if (!there)
        g_array_append_val (parts, act->part);
    }
  return parts;
}

/* Each lane belongs to the act that is nearest to it. */
static void
measure (GArray *lanes, const HobRange *range, const GArray *parts)
{
  for (guint k = 0; k < parts->len; k++)
    {
      g_autofree double *near = steps_from (range, g_array_index (parts, int, k));

      for (guint i = 0; i < lanes->len; i++)
        {
          Lane *lane = &g_array_index (lanes, Lane, i);

          if (near[lane->trace.part] >= lane->near)
            continue;
          lane->near = near[lane->trace.part];
          lane->act = (int) k;
        }
    }
}

/* ---- The choice ---- */

static int
by_what_tells_most (gconstpointer a, gconstpointer b)
{
  const Lane *x = a, *y = b;

  if (x->class != y->class)
    return x->class - y->class;
  if (x->class == MOVED && x->act != y->act)
    return x->act - y->act;
  if (x->rank != y->rank)
    return x->rank - y->rank;
  if (x->near != y->near)
    return x->near < y->near ? -1 : 1;
  return x->trace.part - y->trace.part;
}

/* The same quantity of parts of one kind as one that differs becomes its peer. */
static void
find_peers (GArray *lanes, const HobRange *range)
{
  for (guint k = 0; k < lanes->len; k++)
    {
      const Lane *lane = &g_array_index (lanes, Lane, k);
      int n = 0;

      for (guint i = 0; lane->class <= DIFFERS && i < lanes->len && n < PEERS; i++)
        {
          Lane *other = &g_array_index (lanes, Lane, i);

          if (other->class <= DIFFERS || other->trace.quantity != lane->trace.quantity
              || range->parts[other->trace.part].kind != range->parts[lane->trace.part].kind)
            continue;
          other->class = PEER;
          n++;
        }
    }
}

/* Nothing has happened yet: what kinds rank, one of each. */
static void
add_ranked (GArray *traces, const HobRange *range, int most)
{
  for (int rank = 1; rank <= HOB_LAST_TRACE; rank++)
    for (int p = 0; p < range->n_parts && (int) traces->len < most; p++)
      for (int q = 0; q < range->parts[p].kind->n_quantities; q++)
        if (range->parts[p].kind->quantities[q].trace == rank)
          {
            HobTrace trace = { p, q };

            g_array_append_val (traces, trace);
            p = range->n_parts;
            break;
          }
}

GArray *
hob_lanes_choose (const HobLanes *self, const HobCase *acts, double t, int most)
{
  const HobRange *range = hob_plan_range (self->plan);
  GArray *traces = g_array_new (FALSE, TRUE, sizeof (HobTrace));
  g_autoptr (GArray) lanes = g_array_new (FALSE, TRUE, sizeof (Lane));
  g_autoptr (GArray) parts = acted (acts, t);
  Lane lane;

  for (int p = 0; p < range->n_parts; p++)
    if (lane_of (self, p, &lane))
      g_array_append_val (lanes, lane);
  measure (lanes, range, parts);
  g_array_sort (lanes, by_what_tells_most);
  find_peers (lanes, range);
  g_array_sort (lanes, by_what_tells_most);
  for (guint k = 0; k < lanes->len && (int) traces->len < most; k++)
    {
      const Lane *next = &g_array_index (lanes, Lane, k);

      if (next->class == MOVED && traces->len >= MOST_MOVED)
        break;
      g_array_append_val (traces, next->trace);
    }
  if (traces->len == 0)
    add_ranked (traces, range, MIN (most, MOST_MOVED));
  return traces;
}
