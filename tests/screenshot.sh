#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# screenshot.sh PROGRAM PICTURE ARGUMENTS…: starts the program on the present display, waits until its window has
# stopped arriving, lets it run for a while and keeps what the screen shows.  Run it under with-session.sh.
set -u
program=$1 picture=$2
shift 2
"$program" "$@" &
pid=$!
trap 'kill $pid 2>/dev/null; wait $pid 2>/dev/null' EXIT
colours=0 tries=0
while [ "$colours" -lt 50 ]; do
  tries=$((tries + 1))
  [ $tries -le 100 ] || { echo "no window came" >&2; exit 1; }
  kill -0 $pid 2>/dev/null || { echo "the program ended" >&2; exit 1; }
  sleep 0.2
  colours=$(import -window root -format '%k' info: 2>/dev/null || echo 0)
done
sleep "${HOB_SCREENSHOT_AFTER:-8}"
import -window root "$picture"
