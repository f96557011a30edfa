#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# in-spanish.sh HOB: sentences are Spanish where people write 1,5; what is read again stays as it is.  (TAP)
# LOCPATH must hold es_ES.UTF-8.
set -u
hob=$(realpath "$1")
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
cd "$work" || exit 99
unset LANGUAGE
n=0 failed=0
spanish () { LC_ALL=es_ES.UTF-8 "$hob" "$@"; }
plain () { LC_ALL=C "$hob" "$@"; }
result () { # status, words
  n=$((n + 1))
  if [ "$1" -eq 0 ]; then echo "ok $n $2"; else failed=1; echo "not ok $n $2"; fi
}
same () { # words, command …: the same bytes in both
  words=$1
  shift
  plain "$@" >c.out && spanish "$@" >es.out && [ -s c.out ] && cmp -s c.out es.out
  result $? "$words"
}
echo "1..7"
[ "$(LC_ALL=es_ES.UTF-8 locale decimal_point)" = "," ]
result $? "the locale is there"
spanish help | grep -q "Explica un comando"
result $? "help is Spanish"
same "a trace is the same" run dial-four --do "0s oven.mode=bake" --until 60s \
  --trace igniter-bake.current,igniter-bake.temperature --every 5s
same "a reading for a spreadsheet is the same" read dial-four --csv --test "amps igniter-bake @ 0s oven.mode=bake; 60s"
case_words="--fault igniter-bake:aged --until 100s --hash"
# shellcheck disable=SC2086 # words
plain run dial-four --do "0s oven.mode=bake" $case_words 2>c.hash >out && spanish run dial-four --do "0s oven.mode=bake" \
  $case_words 2>es.hash >out && grep -q "^hash: " c.hash && cmp -s c.hash es.hash
result $? "the state after a run is the same, to the bit"
spanish run dial-four --setting "receptacle.volts=110,5 V" --until 1s >out 2>err
[ $? -ne 0 ] && grep -q "use un punto decimal" err
result $? "a decimal comma is refused, in Spanish"
spanish draw dial-four --sheet wiring --at 0s -o es.svg && [ -s es.svg ] && ! grep -qE 'width="[0-9]+,[0-9]' es.svg
result $? "a picture's numbers keep their point"
exit $failed
