/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

/* Private to src/run: how a plan, a moment and a run are laid out. */

#include "physics/integrate.h"
#include "run/run.h"

G_BEGIN_DECLS

typedef struct
{
  int part, outlet;
} HobCaller;

typedef struct
{
  int part, k;
  double (*function) (const HobPartContext *c, int k);
} HobGuardRef;

typedef void (*HobPartFunction) (const HobPartContext *c);

/* Parts that have a certain function, in the order it is called. */
typedef struct
{
  int *part;
  HobPartFunction *function; /* of each; NULL: its type is another one */
  int n;
} HobPartList;

struct _HobPlan
{
  gatomicrefcount refs;
  HobRange *range; /* owned reference */

  /* offsets: a part's terminals, ports … stand together, in table order */
  int *term0, *port0, *elem0, *duct0, *set0, *y0, *mode0, *ctl0, *place0;
  int n_terms, n_ports, n_elems, n_ducts, n_sets, n_y, n_modes, n_ctls, n_places;

  /* circuit: node = terminal; branches: elements, wires, strays */
  HobCircuit *circuit;
  HobBranch *branches;
  int n_branches, wire0, stray0;
  HobComplex *fixed;  /* admittances of wires and strays at stray0 − wire0 … (from wire0 on) */
  int *chassis_of;    /* node → node of the chassis its strays couple to, −1 earth */

  /* gas: node = port; ducts: the parts', then pipes */
  HobGas *gas;
  HobBranch *gas_branches;
  int n_gas_branches, pipe0;

  int house;          /* part */
  double manifold;    /* Pa that the file's regulator is set to; 0: there is none */
  int *lead_end;      /* 2 per lead: terminal index of module and of electrode (either order) */
  HobPartList movers; /* in order: movers of movers first */
  int *moved;         /* parts that are moved by another, n_moved of them */
  int n_moved;
  HobPartList give, conduct, flow, offer, rates;
  HobGuardRef *guards;
  int n_guards;
  HobCaller *caller;  /* per part; part −1: none */
  double *atol;       /* n_y + HOB_N_LEDGER */
  GArray *amounts;    /* int, states that are never below 0 */

  /* block layout, in doubles */
  int b_y, b_mode, b_ctl, b_p, b_q, b_flips, b_watch;
};

/* Header of a block. */
enum { B_TIME, B_STEP, B_ACTS, B_FLIP_SECOND, B_HEADER };

/* A solution of the gas net and all that it was made from. */
typedef struct
{
  gboolean known; /* with this case's settings and fuel */
  HobDuct *duct;       /* owned, as the rest */
  double *start, *p, *q;
} HobGasAnswer;

enum { HOB_GAS_ANSWERS = 8 };

struct _HobMoment
{
  HobPlan *plan; /* owned reference */
  double t;

  /* what kinds see */
  HobPartContext *part;
  HobHouse house;
  double *set, *ctl, *y, *dy, *mode, *turned;
  HobComplex *g, *emf, *v, *i;
  HobComplex *i_fine; /* `i` refined, once somebody has asked since the evaluation */
  gboolean fine;
  HobDuct *duct;
  double *p, *q;
  double place_start[HOB_N_PLACE - HOB_PLACE_HEAT]; /* of the slots that parts put into */
  double *place; /* n_places × HOB_N_PLACE */
  HobLead *leads;
  HobLead **lead_at; /* per terminal */
  double *ledger_rate;
  guint64 seed;

  /* solver memory */
  double *circuit_work, *probe_work, *gas_work, *p_start;
  HobDuct *duct_start;
  gboolean gas_known; /* duct_start, p, q at p_known hold the solution of the step's start … */
  gboolean gas_given; /* … as soon as the ducts there are known: the block brought p and q */
  double *p_known, *q_known;
  HobGasAnswer answer[HOB_GAS_ANSWERS]; /* the last ones: a step asks for some of them again */
  int oldest_answer;
  int moved_duct; /* the one that last differed from that at the step's start */
  HobComplex *probe_g;
  gboolean gas_failed; /* the last evaluation found no pressures */
  double t_last;   /* of the last evaluation; NaN: none */
  guint evaluations; /* so far, for counting the work */
  double *guard_start; /* per guard, at the step's start */
  double *guard;       /* per guard, of evaluation number guards_of */
  guint guards_of;

  /* where the parameters come from */
  guint64 case_serial;
  int n_acts;      /* applied */
  double *fault;   /* per part·fault: severity or NaN */
  int *fault0;
  int n_faults;
  int *fault_order; /* flattened faults in the order they were added */
  int n_hung;

  /* whose states it has at every moment, as the run that it is read from has them; NULL */
  const struct _HobFollow *follow;
  struct _HobInert *inert; /* faults that are asked for at every evaluation; NULL.  Borrowed */
  struct _HobMoment *as; /* that run, while one part acts as it does there; NULL.  Borrowed */

  /* the step it stands in */
  double *block;    /* copy of the block at the step's start */
  HobOdeStep step;
  double *span_y;
  double span_end;
  guint64 span_serial; /* of the run whose record it stands in; 0: none */
  guint span_ordinal;

  /* changes of modes */
  double *before;     /* modes before a flip */
  double flip_second; /* s, since when flips are counted: for a second, or since an act */
  guint8 *flips;      /* per mode; n_flip_doubles in the block */
};

/* plan.c */
int hob_plan_flip_doubles (const HobPlan *plan); /* that hold a byte for each mode */
int hob_plan_block_doubles (const HobPlan *plan, int watch);

/* eval.c: everything of the moment at (t, y), y of n_y + HOB_N_LEDGER doubles; NULL: its own. */
void hob_moment_evaluate (HobMoment *m, double t, const double *y);
/* As much of it as @part @reads. */
void hob_moment_evaluate_for (HobMoment *m, double t, const double *y, int part, HobReads reads);
void hob_moment_evaluate_for_guard (HobMoment *m, double t, const double *y, int guard);
void hob_moment_rates (double t, const double *y, double *dy, gpointer moment);
/* Settings, faults, house, from the first n acts of a case. */
void hob_moment_apply_acts (HobMoment *m, const HobCase *acts, int n);
void hob_moment_start (HobMoment *m);               /* states and modes at t = 0 */
void hob_moment_forget_flips (HobMoment *m);        /* counts them from now on */
void hob_moment_load (HobMoment *m, const double *block); /* y, modes, controls, pressures, flows */
/* As a load of the block that was just stored from it: nothing is evaluated again. */
void hob_moment_stay (HobMoment *m, const double *block);
/* Currents of all branches, A, refined: they sum to zero better than those that kinds see. */
const HobComplex *hob_moment_currents (const HobMoment *m);
void hob_moment_forget_gas (
    HobMoment *m); /* the ducts are no longer those that the block's pressures belong to */
void hob_moment_open_ledger (HobMoment *m); /* balances stand at zero now */
void hob_moment_store (const HobMoment *m, double *block);
double hob_moment_guard (HobMoment *m, int guard);
/* The part's settings as one more fault would make them. */
void hob_moment_faulty_settings (const HobMoment *m, int part, int fault, double severity,
                                 double *set);
const double *hob_moment_guards (HobMoment *m); /* all of them, after a full evaluation */

/* inert.c: after the start, after an evaluation, before a flip and a jump. */
void hob_inert_begin (struct _HobInert *inert, HobMoment *m);
void hob_inert_look (struct _HobInert *inert, HobMoment *m);
void hob_inert_flip (struct _HobInert *inert, HobMoment *m, int part, int guard);
void hob_inert_end (struct _HobInert *inert, const HobMoment *m, int part);

G_END_DECLS
