#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# installed.sh: an installed copy needs neither the build folder nor the source.  (TAP)
#  Installs a copy of the build, moves it elsewhere, gives it data that the tree has not, and runs it.
set -u
build=$(cd "$1" && pwd) source=$(cd "$(dirname "$0")/.." && pwd)
room=$(mktemp -d)
trap 'rm -rf "$room"' EXIT
n=0 failed=0
echo "1..7"
check () { # words, then the command that must succeed
  words=$1; shift; n=$((n + 1))
  if "$@" >"$room/said" 2>&1; then echo "ok $n $words"; else
    failed=1
    echo "not ok $n $words"
    sed 's/^/# /' "$room/said"
  fi
}

prefix=$room/elsewhere
hob () { "$prefix/bin/hob" "$@"; }
says () { # the word wanted, and the command
  wanted=$1; shift
  "$@" >"$room/words" 2>&1; cat "$room/words"
  grep -q -e "$wanted" "$room/words"
}
install_copy () {
  DESTDIR=$room/stage meson install -C "$build" --no-rebuild --strip \
    && mv "$room/stage$(meson introspect "$build" --buildoptions | python3 -c \
      'import json, sys; print(next(o["value"] for o in json.load(sys.stdin) if o["name"] == "prefix"))')" "$prefix"
}
no_path () {
  for program in "$prefix"/bin/*; do
    ! strings -a "$program" | grep -F -e "$source" -e "$build" || return 1
  done
}
whole () {
  for file in share/hobwright/symptoms.xml share/hobwright/symptoms.rng share/hobwright/diagrams/dial-four.xml \
    share/man/man1/hob.1 share/man/man1/hobwright.1 share/locale/es/LC_MESSAGES/hobwright.mo; do
    [ -f "$prefix/$file" ] || { echo "$file is missing"; return 1; }
  done
}
own_data () { # what the copy has, and nobody else: a range and a symptom of another name
  mv "$prefix/share/hobwright/diagrams/dial-four.xml" "$prefix/share/hobwright/diagrams/moved-range.xml" \
    && sed -i 's/id="glow-no-flame"/id="of-this-copy"/' "$prefix/share/hobwright/symptoms.xml" \
    && says of-this-copy hob run moved-range --fault igniter-bake:aged --do '0s oven.mode=bake' --until 3min
}
own_sentences () {
  LANGUAGE=es LC_ALL=C.UTF-8 says 'no se puede leer' hob check no-such-range
}
alone () { # without its data it finds none
  mv "$prefix/share" "$prefix/gone"
  says 'of-this-copy\|glow-no-flame' hob list symptoms; found=$?
  mv "$prefix/gone" "$prefix/share"
  [ $found -ne 0 ]
}
window () { # the test of the window's accessible tree, with this copy
  HOB_WINDOW_PROGRAM=$prefix/bin/hobwright "$source/tests/with-session.sh" "$build/tests/window/test-window-atspi" \
    --tap -p /window/atspi/the-case-on-the-command-line-is-shown
}

check "it installs, stripped, and moves" install_copy
check "data, manual and translations are there" whole
check "no program holds the path of the build or of the source" no_path
check "the window opens" window
check "hob reads the ranges and symptoms of its own copy" own_data
check "hob speaks the translations of its own copy" own_sentences
check "without its data it takes none from the build" alone
exit $failed
