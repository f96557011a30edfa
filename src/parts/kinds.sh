#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# kinds.sh OUT NAME…: the list of kinds, sorted by name.
out=$1
shift
{
  echo '/* Generated from parts/meson.build. */'
  echo '#include "parts/kind.h"'
  for n in $(printf '%s\n' "$@" | LC_ALL=C sort); do
    echo "extern const HobKind hob_kind_$(echo "$n" | tr - _);"
    list="$list  &hob_kind_$(echo "$n" | tr - _),
"
  done
  printf 'const HobKind *const hob_kinds[] = {\n%s  NULL,\n};\n' "$list"
} >"$out"
