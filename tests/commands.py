#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""commands.py HOB [--verbose]: runs every case of commands.txt, which says how it is read. (TAP)"""
import concurrent.futures
import csv
import io
import math
import os
import re
import shlex
import subprocess
import sys

TESTS = os.path.dirname(os.path.abspath(__file__))
ROOT = os.path.dirname(TESTS)
FEWEST = 40

BOUNDS = r"(?P<low>-?[\d.]*\d(?:e[-+]?\d+)?)?\.\.(?P<high>-?\d[\d.]*(?:e[-+]?\d+)?)?"
AFTER = r"(?: (?P<unit>(?!while )[^×+]*[^×+ ]))?(?: (?P<against>[×+]) normal)?"
ABSENT = re.compile(r"no (?P<id>[\w.-]+)")
EVENT = re.compile(r"(?P<last>last )?(?P<id>[a-z][\w.-]*) " + BOUNDS + " s")
QUANTITY = r"(?P<quantity>[a-z][\w-]*\.[\w-]+)"
VALUE = re.compile(r"(?:(?P<of>max|min|mean) )?" + QUANTITY + r"(?: @(?P<at>[\d.]+))? " + BOUNDS + AFTER)
PLAIN = re.compile(QUANTITY + " " + BOUNDS)
WHILE = re.compile("(.*) while (.*)")
READING = re.compile(BOUNDS + AFTER)
OF = {"max": max, "min": min, "mean": lambda v: sum(v) / len(v)}  # of numbers alone: a gap fails


def cases():
    """(claim under its heading, command, expectations) of each case."""
    with open(os.path.join(TESTS, "commands.txt"), encoding="utf-8") as f:
        blocks = f.read().partition("\n\n#")[2].replace("\\\n", "").split("\n\n")
    heading = blocks[0].strip()
    for block in blocks[1:]:
        if block.startswith("#"):
            heading = block.strip("# \n")
            continue
        claim, command, *wanted = [line.strip() for line in block.strip().splitlines()]
        yield f"{heading}: {claim}", command.removeprefix("$ "), wanted


def normal_words(words):
    """The command on the normal range."""
    kept, skip = [], False
    for word in words:
        if not skip and word not in ("--fault", "--setting"):
            kept.append(word)
        skip = word in ("--fault", "--setting")
    return kept


def run(words):
    if words[:1] != ["hob"]:
        raise ValueError("no command")
    done = subprocess.run([HOB] + words[1:], capture_output=True, text=True, encoding="utf-8", timeout=60, cwd=ROOT)
    notes = [n for n in done.stderr.splitlines() if "warning:" not in n]
    if done.returncode != 0 or notes:
        raise ValueError(f"exit status {done.returncode}; {' '.join(notes)}")
    return done.stdout


class Output:
    """What a command printed: a list, a trace or a reading."""

    def __init__(self, text):
        self.text = text
        lines = list(csv.reader(io.StringIO(text)))
        self.header, self.lines = lines[0], lines[1:]

    def events(self, name):
        return [float(t) for t, kind, what, *_ in self.lines if what == name and kind != "act"]

    def column(self, quantity):
        """Its unit, and (s, value) of each row."""
        k = next(k for k, h in enumerate(self.header) if h.split(" (")[0] == quantity)
        return (self.header[k].partition(" (")[2].rstrip(")"),
                [(float(line[0]), float(line[k] or math.nan)) for line in self.lines])

    def trace(self, m):
        unit, values = self.column(m["quantity"])
        check_unit(m, unit)
        at = float(m["at"] or 0)
        if m["of"]:
            values = [v for t, v in values if t >= at]
            return math.nan if any(map(math.isnan, values)) else OF[m["of"]](values)
        if not m["at"]:
            raise ValueError(f"{m['quantity']}: at what time?")
        nearest = min(values, key=lambda v: abs(v[0] - at))
        if abs(nearest[0] - at) > 1e-6:
            raise ValueError(f"no row at {at} s")
        return nearest[1]

    def reading(self, m):
        (_, value, unit, _), = self.lines
        check_unit(m, unit)
        return float(value) if value else math.nan


def check_unit(m, unit):
    if m["unit"] and m["unit"] != unit:
        raise ValueError(f"is in {unit}")


def within(m, value):
    return value >= float(m["low"] or -math.inf) and value <= float(m["high"] or math.inf)


def number_holds(m, read, here, normal):
    value = read(here, m)
    if m["against"] == "×":
        value /= read(normal, m)
    elif m["against"] == "+":
        value -= read(normal, m)
    return within(m, value), f"{value:.6g}"


def while_holds(value, other, here):
    rows = zip(here.column(value["quantity"])[1], here.column(other["quantity"])[1])
    seen = [v[1] for v, o in rows if within(other, o[1])]
    if len(seen) < 10:
        return False, f"in {len(seen)} rows only"
    return all(within(value, v) for v in seen), f"{min(seen):.6g}..{max(seen):.6g} in {len(seen)} rows"


def event_holds(m, here):
    times = here.events(m["id"])
    if not times:
        return False, "never"
    value = times[-1 if m["last"] else 0]
    return within(m, value), f"{value:.6g} s"


def same(a, b):
    if [len(line) for line in a] != [len(line) for line in b]:
        return False
    for x, y in zip(sum(a, []), sum(b, [])):
        try:
            if not math.isclose(float(x), float(y), rel_tol=1e-3, abs_tol=1e-6):
                return False
        except ValueError:
            if x != y:
                return False
    return True


def as_normal(here, normal):
    acts = lambda o: [line for line in o.lines if o.header[1] != "class" or line[1] != "act"]
    return same(acts(here), acts(normal)), f"{len(here.lines)} and {len(normal.lines)} rows"


def holds(wanted, here, normal):
    """(whether, what is there)"""
    if wanted == "as normal":
        return as_normal(here, normal)
    if wanted.startswith("/"):
        return re.search(wanted.strip("/"), here.text, re.M) is not None, "other words"
    if wanted == "OL":
        return here.lines[0][3] == "OL", here.lines[0][1]
    listed, traced = here.header[1] == "class", here.header[0] == "time_s"
    if listed and (m := ABSENT.fullmatch(wanted)):
        return not here.events(m["id"]), f"{here.events(m['id'])[:1]} s"
    if listed and (m := EVENT.fullmatch(wanted)):
        return event_holds(m, here)
    if traced and not listed and (m := WHILE.fullmatch(wanted)):
        return while_holds(PLAIN.fullmatch(m[1]), PLAIN.fullmatch(m[2]), here)
    if traced and not listed and (m := VALUE.fullmatch(wanted)):
        return number_holds(m, Output.trace, here, normal)
    if not traced and (m := READING.fullmatch(wanted)):
        return number_holds(m, Output.reading, here, normal)
    raise ValueError("not understood")


def judge(case):
    """What is wrong with a case, and what was found."""
    _, command, wanted = case
    words, wrong, found = shlex.split(command), [], []
    normal_command = normal_words(words)
    try:
        here = Output(run(words))
        normal = Output(run(normal_command)) if normal_command != words else here
    except (ValueError, subprocess.TimeoutExpired) as e:
        return [str(e)], found
    if not wanted:
        wrong.append("expects nothing")
    proves = normal is here or "as normal" in wanted
    for w in wanted:
        try:
            good, value = holds(w, here, normal)
            proves = proves or not holds(w, normal, normal)[0]
        except (ValueError, TypeError, StopIteration, ZeroDivisionError) as e:
            good, value = False, str(e) or "no such quantity"
        found.append(f"{w}: {value}")
        if not good:
            wrong.append(found[-1])
    if not proves:
        wrong.append("the normal range gives the same")
    return wrong, found


def main():
    every = list(cases())
    print(f"1..{len(every) + 1}")
    enough = len(every) >= FEWEST
    print(f"{'ok' if enough else 'not ok'} 1 {len(every)} cases, at least {FEWEST} expected", flush=True)
    failed = not enough
    with concurrent.futures.ThreadPoolExecutor(os.cpu_count()) as pool:
        for n, (case, (wrong, found)) in enumerate(zip(every, pool.map(judge, every)), 2):
            failed = failed or bool(wrong)
            print(f"{'not ok' if wrong else 'ok'} {n} {case[0]}", flush=True)
            for line in wrong + (found if VERBOSE else []):
                print(f"# {line}")
            if wrong:
                print(f"# {case[1]}")
    return 1 if failed else 0


VERBOSE = "--verbose" in sys.argv
HOB = os.path.abspath(sys.argv[1])
sys.exit(main())
