/* SPDX-License-Identifier: GPL-3.0-or-later */

/* What can be asked of a moment that was evaluated. */

#include "base/hash.h"
#include "parts/air.h"
#include "run/engine.h"
#include <math.h>
#include <string.h>

double
hob_moment_time (const HobMoment *m)
{
  return m->t;
}

/* Of time, states, discrete states and controls: all that decides the future, nothing that only
 * speeds it up. */
guint64
hob_moment_hash (const HobMoment *m)
{
  const HobPlan *plan = m->plan;
  int n = 1 + plan->n_y + HOB_N_LEDGER + plan->n_modes + plan->n_ctls, at = 0;
  g_autofree double *all = g_new (double, n);

  all[at++] = m->t;
  memcpy (all + at, m->y, sizeof (double) * (gsize) (plan->n_y + HOB_N_LEDGER));
  at += plan->n_y + HOB_N_LEDGER;
  memcpy (all + at, m->mode, sizeof (double) * (gsize) plan->n_modes);
  at += plan->n_modes;
  memcpy (all + at, m->ctl, sizeof (double) * (gsize) plan->n_ctls);
  return hob_hash_block (all, sizeof (double) * (gsize) n);
}

const HobPartContext *
hob_moment_part (const HobMoment *m, int part)
{
  return &m->part[part];
}

double
hob_moment_quantity (const HobMoment *m, int part, int quantity)
{
  return m->plan->range->parts[part].kind->observe (&m->part[part], quantity);
}

void
hob_moment_quantities (const HobMoment *m, const HobQuantityOf *of, int n, double *values)
{
  const HobPart *parts = m->plan->range->parts;

  for (int k = 0; k < n; k++)
    values[k] = parts[of[k].part].kind->observe (&m->part[of[k].part], of[k].quantity);
}

double
hob_moment_control (const HobMoment *m, int part, int control)
{
  return m->part[part].ctl[control];
}

gboolean
hob_moment_asked (const HobMoment *m, int burner)
{
  HobCaller caller = m->plan->caller[burner];

  return caller.part >= 0
         && m->plan->range->parts[caller.part].kind->asks (&m->part[caller.part], caller.outlet);
}

HobComplex
hob_moment_volts (const HobMoment *m, HobEnd terminal)
{
  return m->part[terminal.part].v[terminal.terminal];
}

const HobComplex *
hob_moment_currents (const HobMoment *m)
{
  HobMoment *cache = (HobMoment *) m;
  const HobPlan *plan = m->plan;

  if (!m->fine)
    {
      hob_circuit_currents (plan->circuit, plan->n_branches, m->i_fine, m->circuit_work);
      hob_circuit_refine (plan->circuit, NULL, m->i_fine, m->circuit_work);
      cache->fine = TRUE;
    }
  return m->i_fine;
}

HobComplex
hob_moment_wire_current (const HobMoment *m, int wire)
{
  return hob_moment_currents (m)[m->plan->wire0 + wire];
}

double
hob_moment_pipe_flow (const HobMoment *m, int pipe)
{
  return m->q[m->plan->pipe0 + pipe];
}

double
hob_moment_pressure (const HobMoment *m, HobEnd port)
{
  return m->part[port.part].p[port.terminal];
}

const HobLead *
hob_moment_lead (const HobMoment *m, int lead)
{
  return &m->leads[lead];
}

const HobHouse *
hob_moment_house (const HobMoment *m)
{
  return &m->house;
}

double
hob_moment_fault (const HobMoment *m, int part, int fault)
{
  return m->fault[m->fault0[part] + fault];
}

void
hob_moment_residuals (const HobMoment *m, double *ampere, double *largest, double *gas)
{
  const HobComplex *i = hob_moment_currents (m);
  double most = 0;

  for (int k = 0; k < m->plan->n_branches; k++)
    most = fmax (most, hob_complex_abs2 (i[k]));
  *largest = sqrt (most);
  *ampere = hob_circuit_residual (m->plan->circuit, NULL, i);
  *gas = hob_gas_residual (m->plan->gas, m->p, m->q);
}

static void
stored (const HobMoment *m, double *heat, double *gas)
{
  *heat = *gas = 0;
  for (int p = 0; p < m->plan->range->n_parts; p++)
    {
      const HobKind *kind = m->plan->range->parts[p].kind;
      if (kind->stored_heat != NULL)
        *heat += kind->stored_heat (&m->part[p]);
      if (kind->stored_gas != NULL)
        *gas += kind->stored_gas (&m->part[p]);
    }
}

static void
stored_air (const HobMoment *m, double *oxygen, double *burnt)
{
  *oxygen = *burnt = 0;
  for (int p = 0; p < m->plan->range->n_parts; p++)
    {
      const HobKind *kind = m->plan->range->parts[p].kind;
      double o = 0, b = 0;

      if (kind->stored_air != NULL)
        kind->stored_air (&m->part[p], &o, &b);
      *oxygen += o;
      *burnt += b;
    }
}

/* What is stored at the start counts as let out before it, so that in − out − stored is zero from
 * there on. */
void
hob_moment_open_ledger (HobMoment *m)
{
  double *ledger = m->y + m->plan->n_y, heat, gas, oxygen, burnt;

  stored (m, &heat, &gas);
  stored_air (m, &oxygen, &burnt);
  ledger[HOB_LEDGER_OXYGEN] = oxygen;
  ledger[HOB_LEDGER_PRODUCTS_OUT] = -burnt;
  ledger[HOB_LEDGER_HEAT_OUT] = -heat;
  ledger[HOB_LEDGER_GAS_ESCAPED] = -gas;
  m->t_last = NAN;
}

void
hob_moment_balance (const HobMoment *m, double *heat_error, double *heat_turned, double *gas_error,
                    double *gas_turned)
{
  const double *ledger = m->y + m->plan->n_y;
  double heat, gas;

  stored (m, &heat, &gas);
  *heat_turned = ledger[HOB_LEDGER_HEAT_IN];
  *heat_error = ledger[HOB_LEDGER_HEAT_IN] - ledger[HOB_LEDGER_HEAT_OUT] - heat;
  *gas_turned = ledger[HOB_LEDGER_GAS_IN];
  *gas_error = ledger[HOB_LEDGER_GAS_IN] - ledger[HOB_LEDGER_GAS_BURNT]
               - ledger[HOB_LEDGER_GAS_ESCAPED] - gas;
}

void
hob_moment_air_balance (const HobMoment *m, double *oxygen_error, double *products_error,
                        double *turned)
{
  const double *ledger = m->y + m->plan->n_y;
  double oxygen, burnt;

  stored_air (m, &oxygen, &burnt);
  *turned = ledger[HOB_LEDGER_GAS_BURNT] / hob_fuel_mole (m->house.fuel);
  *oxygen_error = ledger[HOB_LEDGER_OXYGEN] - oxygen;
  *products_error = *turned - ledger[HOB_LEDGER_PRODUCTS_OUT] - burnt;
}
