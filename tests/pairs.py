#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""pairs.py HOB: every symptom that says to stop using the range, together with every smell of gas:
do the cautions of "hob run" contradict each other?  (TAP)"""

import configparser
import os
import re
import subprocess
import sys
import xml.etree.ElementTree as ET

ROOT = os.path.dirname(os.path.dirname(os.path.abspath(__file__)))
HOB = os.path.abspath(sys.argv[1])

PAIRS = configparser.ConfigParser(interpolation=None)
PAIRS.read(os.path.join(ROOT, "tests", "pairs.ini"), encoding="utf-8")
STOP = PAIRS["stop"].values()
SMELLS = [*PAIRS["smells"].values(), *PAIRS["smells that pass"].values()]
GRAVE = ["Strong smell of gas", "Fire", "Carbon monoxide", "Electric shock"]
SPARKS = re.compile(r"unplug|plug in|breaker|reset|match", re.I)


def hob(words):
    done = subprocess.run(["sh", "-c", '"$0" ' + words, HOB], capture_output=True, text=True, check=False)
    if done.returncode != 0:
        raise SystemExit(f"Bail out! hob {words}: {done.stderr}")
    return done.stdout


def table():
    """Names of the hazards and their texts, in order."""
    rows = [line[30:] for line in hob("list hazards").splitlines()]
    return [row.split(": ", 1) for row in rows]


NAMES, TEXTS = zip(*table())


def symptoms_with(hazards):
    root = ET.parse(os.path.join(ROOT, "data", "symptoms.xml")).getroot()
    return {s.get("id") for s in root.iter("symptom") if hazards & set(s.get("hazards", "").split())}


def contradictions(out):
    head, _, rest = out.partition("\n\n")
    lines = [line.split(": ", 1) for line in head.splitlines()]
    names = [name for name, _ in lines]
    places = [NAMES.index(name) for name in names]
    if places != sorted(set(places)):
        yield "a hazard twice, or out of order: " + ", ".join(names)
    if set(names) & set(GRAVE) and len(names) > 1:
        yield "more is said beside what silences it: " + ", ".join(names)
    if "Faint smell of gas" in names:
        for name, text in lines[names.index("Faint smell of gas") + 1:]:
            if SPARKS.search(text):
                yield f"beside a faint smell of gas: {text}"
    for text in TEXTS:
        if text.split(". ")[0] in rest:
            yield "a caution stands in the list of events: " + text


def main():
    seen, wrong, runs = set(), [], 0
    for stop in STOP:
        for smell in SMELLS:
            words = f"run {stop} {smell} --until 60min"
            out = hob(words)
            runs += 1
            seen |= set(re.findall(r"! .*\(([a-z-]+)\)$", out, re.M))
            wrong += [f"hob {words}: {what}" for what in contradictions(out)]
    missing = symptoms_with({"stop-using", "gas-strong"}) | {"gas-smell"}
    missing -= seen
    print("1..2")
    print(f"{'not ' if wrong else ''}ok 1 no caution contradicts another in {runs} runs")
    print("".join(f"# {line}\n" for line in wrong), end="")
    print(f"{'not ' if missing else ''}ok 2 each symptom that says to stop, and each smell, is among them")
    print("".join(f"# {line}\n" for line in sorted(missing)), end="")
    return 1 if wrong or missing else 0


sys.exit(main())
