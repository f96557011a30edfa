/* SPDX-License-Identifier: GPL-3.0-or-later */

/* A range compiled for running: where every part's terminals, ports, states and settings stand in
 * the flat arrays of a moment, the patterns of both networks, and the order in which kinds are
 * asked. */

#include "run/engine.h"
#include "physics/material.h"
#include <math.h>
#include <string.h>

#define STRAY_PER_METRE 60e-12  /* F, a conductor along metal; from memory */
#define STRAY_TERMINAL 10e-12   /* F, a bare terminal */
#define STRAY_CHASSIS 200e-12   /* F, chassis to earth */
#define OMEGA (2 * G_PI * 60)

static int *
offsets (const HobRange *range, gsize member, int *total)
{
  int *first = g_new (int, range->n_parts + 1);
  int n = 0;

  for (int p = 0; p < range->n_parts; p++)
    {
      first[p] = n;
      n += *(const int *) ((const char *) range->parts[p].kind + member);
    }
  first[range->n_parts] = n;
  *total = n;
  return first;
}

static int
end_node (const int *first, HobEnd end)
{
  return first[end.part] + end.terminal;
}

static int
wire_node (const HobPlan *plan, HobEnd end)
{
  const HobTerminalDef *terminals = plan->range->parts[end.part].kind->terminals;

  return plan->term0[end.part] + hob_terminal_landing (terminals, end.terminal);
}

/* Every node's strays couple to the body it runs in: the chassis fewest wires and elements away. */
static int *
nearest_chassis (const HobPlan *plan)
{
  const HobRange *range = plan->range;
  int n = plan->n_terms;
  int *owner = g_new (int, n + 1);
  int *degree = g_new0 (int, n + 1), *first = g_new0 (int, n + 2), *next;
  g_autoptr (GArray) queue = g_array_new (FALSE, FALSE, sizeof (int));
  int n_edges = plan->stray0;
  int *edge = g_new (int, 2 * n_edges + 1);

  for (int k = 0; k < n_edges; k++)
    if (plan->branches[k].a >= 0 && plan->branches[k].b >= 0)
      degree[plan->branches[k].a]++, degree[plan->branches[k].b]++;
  for (int k = 0; k < n; k++)
    first[k + 1] = first[k] + degree[k];
  next = g_memdup2 (first, sizeof (int) * ((gsize) n + 2));
  for (int k = 0; k < n_edges; k++)
    {
      HobBranch b = plan->branches[k];
      if (b.a >= 0 && b.b >= 0)
        edge[next[b.a]++] = b.b, edge[next[b.b]++] = b.a;
    }
  for (int k = 0; k < n; k++)
    owner[k] = -1;
  for (int p = 0; p < range->n_parts; p++)
    if (range->parts[p].kind->flags & HOB_KIND_CHASSIS)
      {
        int node = plan->term0[p];
        owner[node] = node;
        g_array_append_val (queue, node);
      }
  for (guint at = 0; at < queue->len; at++)
    {
      int k = g_array_index (queue, int, at);
      for (int e = first[k]; e < first[k + 1]; e++)
        if (owner[edge[e]] < 0)
          {
            owner[edge[e]] = owner[k];
            g_array_append_val (queue, edge[e]);
          }
    }
  g_free (degree), g_free (first), g_free (next), g_free (edge);
  return owner;
}

/* Nodes at which an admittance varies from moment to moment are eliminated last: two or three
 * elements of a range have one, and all else is eliminated once.  (Contacts in between would save
 * little, for they seldom move, and would triple the edges.)  The order is the same for every case:
 * another would give other last bits.  (transfer full) */
static guint8 *
rank_nodes (const HobPlan *plan)
{
  const HobRange *range = plan->range;
  guint8 *rank = g_new0 (guint8, plan->n_terms + 1);

  for (int p = 0; p < range->n_parts; p++)
    for (int k = 0; k < range->parts[p].kind->n_elements; k++)
      {
        const HobElementDef *def = &range->parts[p].kind->elements[k];

        if (def->varies && def->a >= 0)
          rank[plan->term0[p] + def->a] = 1;
        if (def->varies && def->b >= 0)
          rank[plan->term0[p] + def->b] = 1;
      }
  return rank;
}

static void
compile_circuit (HobPlan *plan)
{
  const HobRange *range = plan->range;
  double *stray = g_new (double, plan->n_terms + 1);
  g_autofree guint8 *rank = NULL;
  int n = 0;

  plan->wire0 = plan->n_elems;
  plan->stray0 = plan->n_elems + range->n_wires;
  plan->n_branches = plan->stray0 + plan->n_terms;
  plan->branches = g_new0 (HobBranch, plan->n_branches + 1);
  plan->fixed = g_new0 (HobComplex, range->n_wires + plan->n_terms + 1);

  for (int p = 0; p < range->n_parts; p++)
    for (int k = 0; k < range->parts[p].kind->n_elements; k++)
      {
        const HobElementDef *def = &range->parts[p].kind->elements[k];
        plan->branches[n++] = (HobBranch){ def->a < 0 ? -1 : plan->term0[p] + def->a,
                                           def->b < 0 ? def->b : plan->term0[p] + def->b };
      }
  for (int k = 0; k < plan->n_terms; k++)
    stray[k] = STRAY_TERMINAL;
  for (int w = 0; w < range->n_wires; w++)
    {
      const HobLine *wire = &range->wires[w];
      int a = wire_node (plan, wire->from), b = wire_node (plan, wire->to);
      double ohms = hob_wire_resistance (wire->diameter, wire->length, 298.15);

      plan->branches[n++] = (HobBranch){ a, b };
      plan->fixed[w] = hob_siemens (fmax (ohms, 1e-4));
      stray[a] += 0.5 * STRAY_PER_METRE * wire->length;
      stray[b] += 0.5 * STRAY_PER_METRE * wire->length;
    }
  plan->chassis_of = nearest_chassis (plan);
  for (int k = 0; k < plan->n_elems; k++)
    if (plan->branches[k].b == HOB_BODY)
      plan->branches[k].b = plan->chassis_of[plan->branches[k].a];
  for (int k = 0; k < plan->n_terms; k++)
    {
      gboolean body = plan->chassis_of[k] == k;
      plan->branches[n++] = (HobBranch){ k, body ? -1 : plan->chassis_of[k] };
      plan->fixed[range->n_wires + k]
          = (HobComplex){ 0, OMEGA * (body ? STRAY_CHASSIS : stray[k]) };
    }
  g_free (stray);
  rank = rank_nodes (plan);
  plan->circuit = hob_circuit_new (plan->n_terms, plan->branches, plan->n_branches, rank);
}

static void
compile_gas (HobPlan *plan)
{
  const HobRange *range = plan->range;
  int n = 0;

  plan->pipe0 = plan->n_ducts;
  plan->n_gas_branches = plan->n_ducts + range->n_pipes;
  plan->gas_branches = g_new0 (HobBranch, plan->n_gas_branches + 1);
  for (int p = 0; p < range->n_parts; p++)
    for (int k = 0; k < range->parts[p].kind->n_ducts; k++)
      {
        const HobDuctDef *def = &range->parts[p].kind->ducts[k];
        plan->gas_branches[n++] = (HobBranch){ def->a < 0 ? -1 : plan->port0[p] + def->a,
                                               def->b < 0 ? -1 : plan->port0[p] + def->b };
      }
  for (int k = 0; k < range->n_pipes; k++)
    plan->gas_branches[n++] = (HobBranch){ end_node (plan->port0, range->pipes[k].from),
                                           end_node (plan->port0, range->pipes[k].to) };
  plan->gas = hob_gas_new (plan->n_ports, plan->gas_branches, plan->n_gas_branches);
}

static int
depth (const HobRange *range, int part, gboolean mechanical)
{
  int d = 0;

  for (int p = part; p >= 0 && d <= range->n_parts; d++)
    p = mechanical ? range->parts[p].moved_by : range->parts[p].in;
  return d;
}

/* Parts whose kind has the function at `member`, by depth (outer or inner first), then file
 * order. */
static HobPartList
list_parts (const HobRange *range, gsize member, gboolean mechanical, gboolean inner_first)
{
  HobPartList list = { g_new (int, range->n_parts + 1), NULL, 0 };
  int *d = g_new (int, range->n_parts + 1);
  int deepest = 0;

  for (int p = 0; p < range->n_parts; p++)
    {
      d[p] = depth (range, p, mechanical);
      /* the house itself surrounds those that name no place */
      if (!mechanical && !(range->parts[p].kind->flags & HOB_KIND_HOUSE))
        d[p]++;
      deepest = MAX (deepest, d[p]);
    }
  for (int k = 0; k <= deepest; k++)
    for (int p = 0; p < range->n_parts; p++)
      if (d[p] == (inner_first ? deepest - k : k)
          && *(void *const *) ((const char *) range->parts[p].kind + member) != NULL)
        list.part[list.n++] = p;
  g_free (d);
  return list;
}

static HobPartList
list_calls (const HobRange *range, gsize member, gboolean inner_first)
{
  HobPartList list = list_parts (range, member, FALSE, inner_first);

  list.function = g_new (HobPartFunction, list.n + 1);
  for (int k = 0; k < list.n; k++)
    memcpy (&list.function[k], (const char *) range->parts[list.part[k]].kind + member,
            sizeof (HobPartFunction));
  return list;
}

static void
compile_order (HobPlan *plan)
{
  const HobRange *range = plan->range;

  plan->movers = list_parts (range, offsetof (HobKind, turn), TRUE, FALSE);
  plan->moved = g_new (int, range->n_parts + 1);
  for (int p = 0; p < range->n_parts; p++)
    if (range->parts[p].moved_by >= 0)
      plan->moved[plan->n_moved++] = p;
  plan->give = list_calls (range, offsetof (HobKind, give), FALSE);
  plan->conduct = list_calls (range, offsetof (HobKind, conduct), FALSE);
  plan->flow = list_calls (range, offsetof (HobKind, flow), FALSE);
  plan->offer = list_calls (range, offsetof (HobKind, offer), FALSE);
  plan->rates = list_calls (range, offsetof (HobKind, rates), TRUE);
  for (int p = 0; p < range->n_parts; p++)
    plan->n_guards += range->parts[p].kind->n_guards;
  plan->guards = g_new (HobGuardRef, plan->n_guards + 1);
  for (int p = 0, n = 0; p < range->n_parts; p++)
    for (int k = 0; k < range->parts[p].kind->n_guards; k++)
      plan->guards[n++] = (HobGuardRef){ p, k, range->parts[p].kind->guard };
}

static void
compile_leads (HobPlan *plan)
{
  const HobRange *range = plan->range;

  plan->lead_end = g_new (int, 2 * range->n_leads + 1);
  for (int k = 0; k < range->n_leads; k++)
    {
      plan->lead_end[2 * k] = end_node (plan->term0, range->leads[k].from);
      plan->lead_end[2 * k + 1] = end_node (plan->term0, range->leads[k].to);
    }
}

/* ---- Who calls a burner: the knob on its valve's stem, or the control terminal its igniter hangs
 * on ---- */

static HobCaller
caller_by_stem (const HobRange *range, int burner)
{
  for (int k = 0; k < range->n_pipes; k++)
    {
      const HobLine *pipe = &range->pipes[k];
      int up = pipe->to.part == burner     ? pipe->from.part
               : pipe->from.part == burner ? pipe->to.part
                                           : -1;
      int mover = up < 0 ? -1 : range->parts[up].moved_by;
      if (mover >= 0 && range->parts[mover].kind->asks != NULL)
        return (HobCaller){ mover, -1 };
    }
  return (HobCaller){ -1, -1 };
}

/* Walks wires, and parts of one or two terminals that ask nothing, from the igniter's line side. */
static HobCaller
caller_by_wire (const HobRange *range, HobEnd from)
{
  g_autoptr (GArray) queue = g_array_new (FALSE, FALSE, sizeof (HobEnd));
  g_autoptr (GHashTable) seen = g_hash_table_new (NULL, NULL);
  int origin = from.part;

  g_array_append_val (queue, from);
  for (guint at = 0; at < queue->len; at++)
    {
      HobEnd end = g_array_index (queue, HobEnd, at);
      for (int w = 0; w < range->n_wires; w++)
        {
          const HobLine *wire = &range->wires[w];
          gboolean out = wire->from.part == end.part && wire->from.terminal == end.terminal;
          gboolean back = wire->to.part == end.part && wire->to.terminal == end.terminal;
          HobEnd other = out ? wire->to : wire->from;
          const HobKind *kind = range->parts[other.part].kind;

          if ((!out && !back) || other.part == origin
              || !g_hash_table_add (seen, GINT_TO_POINTER (w + 1)))
            continue;
          if (kind->asks != NULL)
            return (HobCaller){ other.part, other.terminal };
          g_array_append_val (queue, other);
          if (hob_kind_is_two_terminal (kind))
            {
              HobEnd through = { other.part, 1 - other.terminal };
              g_array_append_val (queue, through);
            }
        }
    }
  return (HobCaller){ -1, -1 };
}

static void
trace_callers (HobPlan *plan)
{
  const HobRange *range = plan->range;

  plan->caller = g_new (HobCaller, range->n_parts + 1);
  for (int p = 0; p < range->n_parts; p++)
    {
      plan->caller[p] = (HobCaller){ -1, -1 };
      if (!(range->parts[p].kind->flags & HOB_KIND_BURNER))
        continue;
      plan->caller[p] = caller_by_stem (range, p);
      for (int k = 0; k < range->n_parts && plan->caller[p].part < 0; k++)
        if (range->parts[k].in == p && (range->parts[k].kind->flags & HOB_KIND_IGNITER))
          plan->caller[p] = caller_by_wire (range, (HobEnd){ k, 0 });
    }
}

static void
place_offsets (HobPlan *plan)
{
  const HobRange *range = plan->range;

  plan->place0 = g_new (int, range->n_parts + 1);
  plan->house = -1;
  for (int p = 0; p < range->n_parts; p++)
    {
      plan->place0[p] = range->parts[p].kind->flags & HOB_KIND_PLACE ? plan->n_places++ : -1;
      if (plan->house < 0 && (range->parts[p].kind->flags & HOB_KIND_HOUSE))
        plan->house = p;
    }
}

/* The last one wins: a range has one regulator of its own. */
static void
find_manifold (HobPlan *plan)
{
  const HobRange *range = plan->range;

  for (int p = 0; p < range->n_parts; p++)
    for (int k = 0; k < range->parts[p].kind->n_settings; k++)
      if (range->parts[p].kind->settings[k].feeds)
        plan->manifold = range->parts[p].set[k];
}

static void
tolerances (HobPlan *plan)
{
  const HobRange *range = plan->range;
  int n = 0;

  plan->atol = g_new (double, plan->n_y + HOB_N_LEDGER);
  plan->amounts = g_array_new (FALSE, FALSE, sizeof (int));
  for (int p = 0; p < range->n_parts; p++)
    for (int k = 0; k < range->parts[p].kind->n_states; k++, n++)
      {
        plan->atol[n] = range->parts[p].kind->states[k].tolerance;
        if (range->parts[p].kind->states[k].amount)
          g_array_append_val (plan->amounts, n);
      }
  /* The ledgers follow the states they are sums of; they never choose the step. */
  for (int k = 0; k < HOB_N_LEDGER; k++)
    plan->atol[n++] = 1e9;
}

HobPlan *
hob_plan_new (HobRange *range)
{
  HobPlan *plan = g_new0 (HobPlan, 1);

  g_atomic_ref_count_init (&plan->refs);
  plan->range = hob_range_ref (range);
  plan->term0 = offsets (range, offsetof (HobKind, n_terminals), &plan->n_terms);
  plan->port0 = offsets (range, offsetof (HobKind, n_ports), &plan->n_ports);
  plan->elem0 = offsets (range, offsetof (HobKind, n_elements), &plan->n_elems);
  plan->duct0 = offsets (range, offsetof (HobKind, n_ducts), &plan->n_ducts);
  plan->set0 = offsets (range, offsetof (HobKind, n_settings), &plan->n_sets);
  plan->y0 = offsets (range, offsetof (HobKind, n_states), &plan->n_y);
  plan->mode0 = offsets (range, offsetof (HobKind, n_modes), &plan->n_modes);
  plan->ctl0 = offsets (range, offsetof (HobKind, n_controls), &plan->n_ctls);
  place_offsets (plan);
  find_manifold (plan);
  tolerances (plan);
  compile_circuit (plan);
  compile_gas (plan);
  compile_leads (plan);
  compile_order (plan);
  trace_callers (plan);
  plan->b_y = B_HEADER;
  plan->b_mode = plan->b_y + plan->n_y + HOB_N_LEDGER;
  plan->b_ctl = plan->b_mode + plan->n_modes;
  plan->b_p = plan->b_ctl + plan->n_ctls;
  plan->b_q = plan->b_p + plan->n_ports;
  plan->b_flips = plan->b_q + plan->n_gas_branches;
  plan->b_watch = plan->b_flips + hob_plan_flip_doubles (plan);
  return plan;
}

HobPlan *
hob_plan_ref (HobPlan *plan)
{
  g_atomic_ref_count_inc (&plan->refs);
  return plan;
}

void
hob_plan_unref (HobPlan *plan)
{
  if (plan == NULL || !g_atomic_ref_count_dec (&plan->refs))
    return;
  int *flat[] = { plan->term0, plan->port0, plan->elem0, plan->duct0, plan->set0, plan->y0,
                  plan->mode0, plan->ctl0, plan->place0, plan->chassis_of, plan->lead_end,
                  plan->moved };
  HobPartList *lists[] = { &plan->movers, &plan->give, &plan->conduct, &plan->flow, &plan->offer,
                           &plan->rates };
  for (guint k = 0; k < G_N_ELEMENTS (flat); k++)
    g_free (flat[k]);
  for (guint k = 0; k < G_N_ELEMENTS (lists); k++)
    {
      g_free (lists[k]->part);
      g_free (lists[k]->function);
    }
  hob_circuit_free (plan->circuit);
  hob_gas_free (plan->gas);
  g_free (plan->branches);
  g_free (plan->fixed);
  g_free (plan->gas_branches);
  g_free (plan->guards);
  g_free (plan->caller);
  g_free (plan->atol);
  g_array_unref (plan->amounts);
  hob_range_unref (plan->range);
  g_free (plan);
}

const HobRange *
hob_plan_range (const HobPlan *plan)
{
  return plan->range;
}

int
hob_plan_flip_doubles (const HobPlan *plan)
{
  return (plan->n_modes + (int) sizeof (double) - 1) / (int) sizeof (double);
}

int
hob_plan_block_doubles (const HobPlan *plan, int watch)
{
  return plan->b_watch + watch;
}

gsize
hob_plan_block_size (const HobPlan *plan)
{
  return sizeof (double) * (gsize) plan->b_watch;
}

gboolean
hob_plan_caller (const HobPlan *plan, int burner, int *part, int *outlet)
{
  if (plan->caller[burner].part < 0)
    return FALSE;
  *part = plan->caller[burner].part;
  *outlet = plan->caller[burner].outlet;
  return TRUE;
}
