#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# with-session.sh PROGRAM ARGUMENTS…: runs it on a private X server and session bus, with private XDG folders.
#  -displayfd: the server picks a free number and says when it is ready.
#  -noreset:   the accessibility daemons come and go first; the server would reset under the program.
# What the daemons say goes nowhere: their chatter on standard output would break TAP.
# TEST_WRAPPER="valgrind …" runs the program, and not this shell, under a tool.
set -u
tmp=$(mktemp -d) || exit 99
mkdir -m 700 "$tmp/run" "$tmp/config" "$tmp/data" "$tmp/cache" "$tmp/state"
mkfifo "$tmp/number"
Xvfb -displayfd 3 -screen 0 "${HOB_SCREEN:-1600x1000x24}" -dpi 96 -nolisten tcp -noreset \
  3>"$tmp/number" >/dev/null 2>"$tmp/xvfb.log" &
server=$!
trap 'kill $server 2>/dev/null; wait $server 2>/dev/null; rm -rf "$tmp"' EXIT
trap 'exit 99' INT TERM HUP
read -r number <"$tmp/number" || { cat "$tmp/xvfb.log" >&2; exit 99; }
export TEST_WRAPPER="${TEST_WRAPPER-}"
export DISPLAY=":$number" XDG_RUNTIME_DIR="$tmp/run" XDG_CONFIG_HOME="$tmp/config"
export XDG_DATA_HOME="$tmp/data" XDG_CACHE_HOME="$tmp/cache" XDG_STATE_HOME="$tmp/state"
export GDK_BACKEND=x11 GSK_RENDERER=cairo GSETTINGS_BACKEND=memory GDK_DEBUG=gl-disable
unset WAYLAND_DISPLAY DBUS_SESSION_BUS_ADDRESS XAUTHORITY
exec 4>&1 5>&2
# shellcheck disable=SC2016 # the inner shell expands it
dbus-run-session -- sh -c '$TEST_WRAPPER "$@" 1>&4 2>&5 4>&- 5>&-' sh "$@" >/dev/null 2>&1
