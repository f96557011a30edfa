#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# embed.sh IN OUT NAME: the bytes of a file as a C array.
{
  echo "/* Generated from $(basename "$1"). */"
  echo "static const char $3[] = {"
  od -An -v -tx1 "$1" | sed 's/ \([0-9a-f][0-9a-f]\)/ 0x\1,/g'
  echo '};'
} >"$2"
