#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# after-install.sh: tells the desktop what has been installed, with the tools that this machine has.
# A package that is being made (DESTDIR) leaves that to the machine it will be installed on.
set -eu
[ -z "${DESTDIR-}" ] || exit 0
share=$MESON_INSTALL_PREFIX/share

refresh () { # tool and its words, run where the tool is
  if command -v "$1" >/dev/null; then "$@"; fi
}

refresh gtk4-update-icon-cache -q -t -f "$share/icons/hicolor"
refresh update-desktop-database -q "$share/applications"
refresh update-mime-database "$share/mime"
