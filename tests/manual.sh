#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# manual.sh HOB: hob.1 names every command, option, list and choice that `hob help` knows.  (TAP)
set -u
hob=$(realpath "$1")
page=$(dirname "$0")/../data/man/hob.1
n=0 failed=0
named () { # word as mdoc writes it, words
  n=$((n + 1))
  if grep -qE -- "(^|[^[:alnum:]-])$1([^[:alnum:]-]|\$)" "$page"; then echo "ok $n $2"; else failed=1; echo "not ok $n $2"; fi
}
export LC_ALL=C.UTF-8
commands=$("$hob" help | sed -n 's/^  \([a-z][a-z]*\)  .*/\1/p')
for command in $commands; do
  named "Cm $command" "$command"
  help=$("$hob" help "$command")
  for option in $(echo "$help" | grep -oE -- '(^|[^[:alnum:]-])--?[a-z][a-z-]*' | grep -oE -- '-[a-z-]+' | sort -u); do
    named "Fl $(echo "$option" | cut -c2-)" "$command $option"
  done
  for choice in $(echo "$help" | grep -oE '[a-z-]+(\|[a-z-]+)+' | tr '|' ' '); do
    named "$choice" "$command $choice"
  done
done
[ $n -ge 30 ] || { echo "not ok $((n += 1)) hob help names commands and options"; failed=1; }
echo "1..$n"
exit $failed
