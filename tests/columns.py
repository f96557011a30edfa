#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""columns.py: no line of C is wider than 100 columns.  (TAP)"""

import os
import sys

ROOT = os.path.dirname(os.path.dirname(os.path.abspath(__file__)))
MOST = 100


def sources():
    for top in ("src", "tests"):
        for folder, _, names in sorted(os.walk(os.path.join(ROOT, top))):
            for name in sorted(names):
                if name.endswith((".c", ".h")):
                    yield os.path.relpath(os.path.join(folder, name), ROOT)


def main():
    wrong, files = [], 0
    for path in sources():
        files += 1
        with open(os.path.join(ROOT, path), encoding="utf-8") as f:
            wrong += [f"{path}:{n}" for n, line in enumerate(f, 1) if len(line.rstrip("\n")) > MOST]
    good = not wrong and files > 100
    print(f"1..1\n{'ok' if good else 'not ok'} 1 no line of {files} files is wider than {MOST} columns")
    for place in wrong:
        print(f"# {place} is wider")
    return 0 if good else 1


sys.exit(main())
