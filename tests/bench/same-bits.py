#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Do two builds of the program give the same bits?

Usage: same-bits.py HOB OTHER [FAULTS].  Each of the ranges' routines is run by both without a fault
and with some of the range's faults, drawn by its name: what they print and the checksum of the last
state must be the same.  Names the runs that differ; ends with status 1 if there are any."""
import csv
import os
import random
import subprocess
import sys

DIAGRAMS = os.path.join(os.path.dirname(__file__), '..', '..', 'diagrams')


def column(hob, file, what, make):
    rows = subprocess.run([hob, 'list', file, what, '--csv'], check=True, capture_output=True,
                          text=True).stdout.splitlines()
    return [make(row) for row in list(csv.reader(rows))[1:]]


def both(hobs, words):
    said = [subprocess.run([hob, 'run', *words, '--hash'], capture_output=True, text=True) for hob in hobs]
    return said[0].stdout == said[1].stdout and said[0].stderr == said[1].stderr


hobs, most = sys.argv[1:3], int(sys.argv[3]) if len(sys.argv) > 3 else 40
runs, differ = 0, 0
for name in sorted(os.listdir(DIAGRAMS)):
    file = os.path.join(DIAGRAMS, name)
    if not name.endswith('.xml'):
        continue
    faults = column(hobs[0], file, 'faults', lambda row: row[0] if ':' in row[0] else ':'.join(row[:2]))
    drawn = random.Random(name).sample(faults, min(most, len(faults)))
    for words in [[]] + [['--fault', fault] for fault in drawn]:
        for routine in column(hobs[0], file, 'procedures', lambda row: row[0]):
            runs += 1
            if not both(hobs, [file, '--procedure', routine, *words]):
                differ += 1
                print(name, routine, *words)
print('%d runs, %d of them differ' % (runs, differ))
sys.exit(differ > 0)
