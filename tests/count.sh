#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# count.sh: the counter of test cases hides no failure.  (TAP)
set -u
here=$(cd "$(dirname "$0")" && pwd)
log=$(mktemp)
trap 'rm -f "$log"' EXIT
n=0 failed=0
echo "1..7"
check () { # words, wanted last line, wanted status, log
  n=$((n + 1))
  printf '%s\n' "$4" >"$log"
  last=$(python3 "$here/count.py" "$log" | tail -n 1)
  python3 "$here/count.py" "$log" >/dev/null
  status=$?
  if [ "$last" = "$2" ] && [ $status -eq "$3" ]; then echo "ok $n $1"; else
    failed=1
    echo "not ok $n $1"
    echo "# \"$last\", status $status; wanted \"$2\", $3"
  fi
}
check "cases of a program are counted" "2 passed, 0 failed" 0 \
  '{"name":"a","result":"OK","stdout":"1..2\nok 1 x\nok 2 y\n"}'
check "a program without TAP is one case" "1 passed, 0 failed" 0 '{"name":"a","result":"OK","stdout":"done\n"}'
check "a failed case fails all" "1 passed, 1 failed" 1 \
  '{"name":"a","result":"FAIL","stdout":"1..2\nok 1 x\nnot ok 2 y\n"}'
check "a crash between cases is a failure" "1 passed, 1 failed" 1 \
  '{"name":"a","result":"ERROR","stdout":"1..2\nok 1 x\n"}'
check "a leak after good cases is a failure" "1 passed, 1 failed" 1 \
  '{"name":"a","result":"FAIL","stdout":"1..1\nok 1 x\n"}'
check "a skipped case is a failure" "1 passed, 1 failed" 1 \
  '{"name":"a","result":"OK","stdout":"1..2\nok 1 x\nok 2 y # SKIP why\n"}'
check "no test at all is a failure" "0 passed, 0 failed" 1 ''
exit $failed
