#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# engine-id.sh OBJECT...: a header with the checksum of these files
set -eu
printf '#define HOB_ENGINE_ID "%s"\n' "$(cat "$@" | sha256sum | cut -d ' ' -f 1)"
