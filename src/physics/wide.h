/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

/* Loops over many numbers may be compiled twice, for processors that take four of them at a time
 * too; the bits of each number are the same. */
#ifndef HOB_WIDE
#define HOB_WIDE
#endif
