#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# sentences.sh: is every sentence that a person reads in the catalogs, translated, and nothing else?  (TAP)
# sentences.sh --update gathers them: it writes data/po/POTFILES and brings each catalog up to date.
set -eu
cd "$(dirname "$0")/.."
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
{
  grep -rlE '(^|[^A-Za-z0-9_])(N?_|C_|NC_|ngettext) ?\(' --include='*.c' src
  grep -rlE '(^|[^A-Za-z0-9_])(N?_|C_|NC_) ?\("' --include='*.h' src
  grep -rl 'translatable="yes"' ui --include='*.ui'
  ls data/*.desktop.in data/*.metainfo.xml.in data/symptoms.xml diagrams/*.xml
} | LC_ALL=C sort >"$work/files"
GETTEXTDATADIRS="$PWD/data" xgettext --from-code=UTF-8 --add-location=file --add-comments=Translators \
  --package-name=hobwright --keyword=_ --keyword=N_ --keyword=C_:1c,2 --keyword=NC_:1c,2 --keyword=ngettext:1,2 \
  --flag=ngettext:1:c-format --flag=ngettext:2:c-format --files-from="$work/files" --output="$work/all.pot"

if [ "${1-}" = --update ]; then
  cp "$work/files" data/po/POTFILES
  while read -r language; do
    # One step each: a catalog that can't be merged stays as it is.
    msgmerge --quiet --no-fuzzy-matching "data/po/$language.po" "$work/all.pot" >"$work/merged.po"
    msgattrib --no-obsolete "$work/merged.po" >"$work/kept.po"
    sed '/^"POT-Creation-Date/d' "$work/kept.po" >"data/po/$language.po"
    msgattrib --untranslated "data/po/$language.po" | sed '1,/^$/d'
  done <data/po/LINGUAS
  exit
fi

n=0 failed=0
result () { # status, words
  n=$((n + 1))
  if [ "$1" -eq 0 ]; then echo "ok $n $2"; else failed=1; echo "not ok $n $2"; sed 's/^/# /' "$work/said"; fi
}
status=0
diff -u data/po/POTFILES "$work/files" >"$work/said" || status=1
result $status "POTFILES names every file with sentences: else run tests/sentences.sh --update"
while read -r language; do
  status=0
  msgmerge --quiet --no-fuzzy-matching "data/po/$language.po" "$work/all.pot" >"$work/merged.po"
  for kind in --untranslated --only-fuzzy --only-obsolete; do
    msgattrib $kind --no-location "$work/merged.po" | sed '1,/^$/d' # without the header
  done >"$work/said"
  [ ! -s "$work/said" ] || status=1
  result $status "$language.po has every sentence, none of them fuzzy, and no others"
done <data/po/LINGUAS
echo "1..$n"
exit $failed
