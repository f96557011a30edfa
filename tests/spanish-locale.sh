#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# spanish-locale.sh FOLDER STAMP: compiles the locale es_ES.UTF-8 (decimal comma) into FOLDER, for LOCPATH.
set -eu
rm -rf "$1"
mkdir -p "$1"
localedef -i es_ES -f UTF-8 "$1/es_ES.UTF-8"
touch "$2"
