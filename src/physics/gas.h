/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "physics/circuit.h"

G_BEGIN_DECLS

/* A fuel gas at 60 °F, 30 in Hg; sources beside the numbers in gas.c. */
typedef struct
{
  double density;          /* kg/m³ */
  double specific_gravity; /* to air */
  double viscosity;        /* Pa s */
  double heat;             /* J/kg, gross */
  double air;              /* stoichiometric air, vol/vol */
  double lean, rich;       /* flammable limits, vol/vol in air */
  double autoignition;     /* K */
  double spark_energy;     /* least, J, at the best mixture */
  double quench;           /* quenching distance, m */
  double hot_surface;      /* K, surface that lights the best mixture */
  double yellow_below;     /* primary air, share of stoichiometric, below which tips turn yellow */
} HobFuel;

typedef enum { HOB_FUEL_NATURAL, HOB_FUEL_LP, HOB_N_FUELS } HobFuelName;
extern const HobFuel hob_fuels[HOB_N_FUELS];
extern const char *const hob_fuel_names[HOB_N_FUELS + 1]; /* as files spell them, NULL-ended */

typedef enum
{
  HOB_DUCT_ABSENT,    /* closed: no flow */
  HOB_DUCT_ORIFICE,   /* q = area·√(2 ρ Δp), smooth and laminar below about 1 Pa */
  HOB_DUCT_PIPE,      /* Darcy with Haaland, smooth blend between Re 2,000 and 4,000 */
  HOB_DUCT_REGULATOR, /* holds `set` at its outlet b: shut at set·(1 + lockup), half open at set, an orifice of
                         `area` from set·(1 − lockup) down, so also whenever the inlet is too low */
  HOB_DUCT_SUPPLY,    /* a = −1: pressure `set` behind an orifice of `area` */
} HobDuctLaw;

/* One duct's law at this moment, all SI; pressures gauge. */
typedef struct
{
  HobDuctLaw law;
  double area;   /* m², discharge coefficient included */
  double bore;   /* m (PIPE) */
  double length; /* m (PIPE) */
  double set;    /* Pa (REGULATOR, SUPPLY) */
  double lockup; /* fraction above set at no flow (REGULATOR), 0.05 say */
  double leak;   /* m², area that stays open when it should be shut (REGULATOR creep) */
} HobDuct;

/* Pressures and flows of any net of ducts, loops included: Newton on flows and pressures at once, the
 * sparse pattern compiled once and eliminated as in HobCircuit by sums of positive slopes
 * alone.  Every node has a vent of 1e-13 kg/s/Pa to the room, so a pipe shut at both ends is at 0. */
typedef struct _HobGas HobGas;

HobGas *hob_gas_new (int n_nodes, const HobBranch *ducts, int n_ducts);
void hob_gas_free (HobGas *gas);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HobGas, hob_gas_free)
gsize hob_gas_work_size (const HobGas *gas); /* doubles */

/* p: Pa gauge of each node, in: a start (any finite; the last solution is the quickest), out:
 * solved.  q: kg/s from a to b of each duct. → iterations used, or −1 when it did not converge (p,
 * q then hold the last found).  A regulator within a loop, its outlet also fed another way, may
 * have two solutions or be hunted for in vain; nothing else does. */
int hob_gas_solve (const HobGas *gas, const HobDuct *ducts, const HobFuel *fuel, double *p, double *q,
                   double *work);

/* Largest imbalance at any node, kg/s. */
double hob_gas_residual (const HobGas *gas, const double *p, const double *q);

/* Flow kg/s through an orifice of area·Cd m² under dp Pa. */
double hob_orifice_flow (double area_cd, double dp, double density);
/* Pressure gradient Pa/m of a steel pipe at mass flow q (Darcy, Haaland). */
double hob_pipe_gradient (double bore, double q, const HobFuel *fuel);

G_END_DECLS
