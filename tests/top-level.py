#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""top-level.py: beside the tree's own folders and files nothing lies at its top.  (TAP)"""

import os
import sys

ROOT = os.path.dirname(os.path.dirname(os.path.abspath(__file__)))
OWN = {"DEVELOPERS.md", "LICENSE", "README.md", "data", "diagrams", "meson.build",
       "meson_options.txt", "src", "tests", "ui"}


def is_built(name):  # what .gitignore leaves out, and what begins with a dot
    return name[0] in "._" or name == "build"


def main():
    there = {name for name in os.listdir(ROOT) if not is_built(name)}
    good = there == OWN
    print(f"1..1\n{'ok' if good else 'not ok'} 1 the top of the tree has its own {len(OWN)} entries alone")
    for name in sorted(there ^ OWN):
        print(f"# {name}: {'move it or remove it' if name in there else 'missing'}")
    return 0 if good else 1


sys.exit(main())
