#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""no-english.py HOB: what a person reads in Spanish has no English word but codes and ids.  (TAP)

English words are those of the sentences in es.po that none of their translations uses.  LOCPATH must hold es_ES.UTF-8."""

import os
import re
import subprocess
import sys
import tempfile
import xml.etree.ElementTree

HOB = os.path.abspath(sys.argv[1])
ROOT = os.path.join(os.path.dirname(os.path.abspath(__file__)), '..')
RANGES = sorted(name[:-4] for name in os.listdir(os.path.join(ROOT, 'diagrams')) if name.endswith('.xml'))
LISTS = ['controls', 'terminals', 'quantities', 'settings', 'faults', 'procedures']
PICTURES = [('wiring', '90s'), ('gas', '90s'), ('cutaway', '90s'), ('chart', '5min')]
CASE = ['--do', '0s oven.mode=bake', '--do', '1s knob-lf=light', '--do', '6s knob-lf=high', '--do', '2min knob-lf=off']
FAULTS = ['igniter-bake:aged', 'switch-lf:wet', 'burner-lf:cap-missing', 'valve-bake:stuck-open']
# Names of units, rows of wire codes, positions as they are printed on the front.
CODES = {'in', 'ft', 'btu', 'ohm', 'kohm', 'mohm', 'lb', 'awg', 'off', 'on', 'light', 'high', 'low', 'bake', 'broil',
         'convection', 'nat', 'lp', 'gfci', 'hobwright', 'drill', 'lf', 'lr', 'cf', 'cr', 'rf', 'rr'}
ID = re.compile(r'[\w]+(?:[-.:|=@][\w]+)+|[0-9a-f]{16}')  # names of things, and checksums
WORD = re.compile(r'[^\W\d_]{2,}')


def words(text):
    return {word.lower() for word in WORD.findall(ID.sub(' ', text))}


def catalog():
    """(msgid, msgstr) of every entry; what stands in parentheses of `_()` is there too."""
    path = os.path.join(ROOT, 'data', 'po', 'es.po')
    entry, at = {}, None
    for line in open(path, encoding='utf8'):
        head = re.match(r'(msgid_plural|msgid|msgstr(?:\[\d\])?|msgctxt) (".*")$', line)
        if head:
            at = 'id' if head[1].startswith('msgid') else 'str' if head[1].startswith('msgstr') else 'context'
            entry[at] = entry.get(at, '') + ' ' + head[2][1:-1]
        elif line.startswith('"') and at:
            entry[at] += line.strip()[1:-1]
        elif not line.strip() and entry:
            yield entry.get('id', ''), entry.get('str', '')
            entry, at = {}, None
    if entry:
        yield entry.get('id', ''), entry.get('str', '')


def spanish(arguments):
    env = {k: v for k, v in os.environ.items() if k != 'LANGUAGE'} | {'LC_ALL': 'es_ES.UTF-8'}
    return subprocess.run([HOB] + arguments, env=env, capture_output=True, text=True, check=False)


def after_the_id(output):
    """Lists: what follows the name and two spaces, without the choice in parentheses at the end."""
    return [re.sub(r' \([a-z-]+\)$', '', line.partition('  ')[2]) for line in output.splitlines()]


def of_a_run(output):
    """Runs: acts are spelled as on the command line."""
    return [re.sub(r' \([a-z-]+\)$', '', line) for line in output.splitlines() if not re.match(r' *[\d:.]+ s? *> ', line)]


def of_a_picture(path):
    return [''.join(text.itertext()) for text in xml.etree.ElementTree.parse(path).iter('{http://www.w3.org/2000/svg}text')]


def english_of(lines, english):
    return [(line, sorted(words(line) & english)) for line in lines if words(line) & english]


def looked_at(folder):
    """(what it is, the lines a person reads)"""
    for what in ['kinds', 'symptoms']:
        yield 'list ' + what, after_the_id(spanish(['list', what]).stdout)
    for name in RANGES:
        for what in LISTS:
            yield f'list {name} {what}', after_the_id(spanish(['list', name, what]).stdout)
        lines = []
        for fault in FAULTS:
            lines += of_a_run(spanish(['run', name, '--fault', fault, '--until', '5min'] + CASE).stdout)
        yield f'run {name}', lines
        for sheet, at in PICTURES:
            out = os.path.join(folder, f'{name}-{sheet}.svg')
            spanish(['draw', name, '--fault', FAULTS[0], '--sheet', sheet, '--at', at, '-o', out] + CASE)
            yield f'draw {name} {sheet}', of_a_picture(out)


def main():
    entries = list(catalog())
    of_english = set().union(*(words(i) for i, _ in entries))
    english = of_english - set().union(*(words(s) for _, s in entries)) - CODES
    n, failed = 0, False
    with tempfile.TemporaryDirectory() as folder:
        for what, lines in looked_at(folder):
            n += 1
            found = english_of(lines, english)
            good = len(lines) > 3 and not found
            failed |= not good
            print(f'{"ok" if good else "not ok"} {n} {what} is Spanish')
            if not lines:
                print('# it printed nothing')
            for line, which in found[:40]:
                print(f'# {" ".join(which)}: {line}')
    print(f'1..{n}')
    return failed


sys.exit(main())
