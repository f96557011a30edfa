#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# potfiles.sh: does data/po/POTFILES name every file with a sentence for people, and nothing else?
# potfiles.sh --update writes it.
set -eu
cd "$(dirname "$0")/.."
found=$(mktemp)
trap 'rm -f "$found"' EXIT
{
  grep -rlE '(^|[^A-Za-z0-9_])(N?_|C_|NC_|ngettext) ?\(' --include='*.c' src | grep -v '/i18n\.h$'
  grep -rl 'translatable="yes"' ui --include='*.ui' || true
  ls data/*.desktop.in data/*.metainfo.xml.in data/symptoms.xml src/parts/joint.h src/parts/winding.h
} | LC_ALL=C sort >"$found"
if [ "${1-}" = --update ]; then
  cp "$found" data/po/POTFILES
else
  diff -u data/po/POTFILES "$found" || { echo "run tests/potfiles.sh --update" >&2; exit 1; }
fi
