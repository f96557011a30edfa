#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Instructions of an hour of bake, start-up apart, and in which part of the program they are.

Usage: instructions.py HOB RANGE.  Callgrind counts them. They do not depend on how busy the machine
is, but on compiler and libraries. Nothing passes or fails by them."""
import collections
import re
import subprocess
import sys
import tempfile

PARTS = [('circuit', r'physics/circuit\.c'), ('gas', r'physics/gas\.c'),
         ('integrator', r'physics/integrate'), ('parts', r'src/parts/|src/physics/'),
         ('symptoms', r'src/symptoms/'), ('run', r'src/run/'),
         ('libm', r'libm\.so|ieee754|/math/'), ('memory', r'mem(cpy|cmp|set|move)|malloc|free'),
         ('linking', r'ld-linux|/elf/'), ('rest', r'')]


def count(hob, words):
    with tempfile.NamedTemporaryFile() as out:
        subprocess.run(['valgrind', '-q', '--tool=callgrind', '--callgrind-out-file=' + out.name,
                        hob, 'run', *words], check=True, stdout=subprocess.DEVNULL)
        text = subprocess.run(['callgrind_annotate', '--threshold=100', '--auto=no', out.name],
                              check=True, capture_output=True, text=True).stdout
    found = collections.Counter()
    for number, where in re.findall(r'^ *([\d,]+) \([^)]*\)  (.*)$', text, re.M):
        name = next(name for name, pattern in PARTS if re.search(pattern, where))
        found['all' if 'PROGRAM TOTALS' in where else name] += int(number.replace(',', ''))
    return found


hob, file = sys.argv[1:]
bake = [file, '--do', '0s oven.mode=bake', '--until']
start, whole = count(hob, bake + ['0s']), count(hob, bake + ['1h'])
print('million instructions of an hour of bake: %.1f in all, %.1f of them to start up'
      % (whole['all'] / 1e6, start['all'] / 1e6))
for title, of in (('hour', whole - start), ('start-up', start)):
    del of['all']
    print('  %-8s ' % title + ', '.join('%s %.1f' % (k, v / 1e6) for k, v in of.most_common()))
