/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

/* A shipped range many times over on one house: each copy its own breaker, receptacle and cord. */

#include "range/range.h"

/* The XML of n copies of @one; ids get the prefix "cK-", the house stays one.  The house's gas
 * reaches the copies' shut-offs through rows of manifolds, at a pressure that feeds up to 64.
 * (transfer full) */
char *copies_xml (const HobRange *one, int n);
