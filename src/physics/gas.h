/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

/* Fuel gases, and pressures and flows of a net of ducts. The laws are above the code in gas.c. */

#include "physics/circuit.h"

G_BEGIN_DECLS

#define HOB_OXYGEN_IN_AIR 0.2095 /* vol/vol, dry; from memory */

/* A fuel gas at 60 °F and 30 in. Hg; gas.c names the source of each number. */
typedef struct
{
  double density;          /* kg/m³ */
  double specific_gravity; /* to air */
  double viscosity;        /* Pa s */
  double heat;             /* J/kg, gross */
  double air;              /* air that burns all of it, vol/vol */
  double carbon;           /* carbon atoms in a molecule */
  double lean, rich;       /* flammable limits, vol/vol in air */
  double autoignition;     /* K */
  double spark_energy;     /* J, the least, at the best mixture */
  double quench;           /* quenching distance, m */
  double hot_surface;      /* K, surface that lights the best mixture */
  double yellow_below;     /* share of that air below which the tips turn yellow */
} HobFuel;

typedef enum { HOB_FUEL_NATURAL, HOB_FUEL_LP, HOB_N_FUELS } HobFuelName;
extern const HobFuel hob_fuels[HOB_N_FUELS];
extern const char *const hob_fuel_names[HOB_N_FUELS + 1]; /* as files spell them, NULL-ended */

typedef enum
{
  HOB_DUCT_ABSENT,    /* closed: no flow */
  HOB_DUCT_ORIFICE,   /* q = area·√(2·ρ·Δp), laminar below about 1 Pa */
  HOB_DUCT_PIPE,      /* Darcy and Haaland, blended with laminar flow between Re 2,000 and 4,000 */
  HOB_DUCT_REGULATOR, /* keeps its outlet b at `set`: closed at set·(1 + lockup), half open at set,
                         an orifice of `area` from set·(1 − lockup) down */
  HOB_DUCT_SUPPLY,    /* a = −1: the pressure `set` behind an orifice of `area` */
} HobDuctLaw;

/* The law of one duct at this moment. */
typedef struct
{
  HobDuctLaw law;
  double area;   /* m², including the discharge coefficient */
  double bore;   /* m (PIPE) */
  double length; /* m (PIPE) */
  double set;    /* Pa (REGULATOR, SUPPLY) */
  double lockup; /* share by which the outlet is above `set` when nothing flows (REGULATOR) */
  double leak;   /* m², area that stays open when it should be closed (REGULATOR that creeps) */
} HobDuct;

/* A net of ducts, with or without loops. Its pattern of elimination is found once. Immutable:
 * threads may share it. */
typedef struct _HobGas HobGas;

HobGas *hob_gas_new (int n_nodes, const HobBranch *ducts, int n_ducts);
void hob_gas_free (HobGas *gas);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HobGas, hob_gas_free)
gsize hob_gas_work_size (const HobGas *gas); /* doubles; zeroed before the first solve */

/* p: Pa of each node; in: where to start (any finite number; the last solution is quickest), out:
 * the solution. q: kg/s of each duct from a to b. Returns the number of iterations, or −1 if it
 * did not converge; p and q then hold the last iterate. Only a regulator within a loop, with an
 * outlet that is fed another way too, may have two solutions or fail to converge. */
int hob_gas_solve (const HobGas *gas, const HobDuct *ducts, const HobFuel *fuel, double *p,
                   double *q, double *work);

/* The largest imbalance at any node, kg/s. */
double hob_gas_residual (const HobGas *gas, const double *p, const double *q);

G_END_DECLS
