#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# readme.sh HOB: every line that README.md and hob.1 give as an example works as it stands.  (TAP)
set -u
root=$(cd "$(dirname "$0")/.." && pwd)
hob=$(realpath "$1")
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
{
  sed -n 's/^hob /hob /p' "$root/README.md"
  sed -n 's/^\.Dl hob /hob /p' "$root/data/man/hob.1" | sed 's/\\(dq/"/g'
} >"$work/lines"
cd "$work" || exit 99
ln -s "$root/diagrams" diagrams
hob () { "$hob" "$@"; }
n=0 failed=0
echo "1..$(wc -l <lines)"
while IFS= read -r line; do
  n=$((n + 1))
  eval "$line" >out 2>err </dev/null
  status=$?
  # Something must come of it: words, or the file that -o names; a check has nothing to say of a sound file.
  case $line in
    *" check "*) result=lines ;;
    *" -o "*) result=${line##* -o } ;;
    *) result=out ;;
  esac
  if [ $status -eq 0 ] && [ -s "${result%% *}" ]; then
    echo "ok $n $line"
  else
    failed=1
    echo "not ok $n $line"
    echo "# exit status $status"
    sed 's/^/# /' err
  fi
done <lines
exit $failed
