#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""commands.py HOB: every row of "What the program shows" in DEVELOPERS.md, run and looked at.  (TAP)

The last cell of a row holds what must come of its command, each in backquotes:

  ID LO..HI s             list: the change or symptom first comes then
  last ID LO..HI s        list: it last comes or ends then
  no ID                   list: it never comes
  QUANTITY @T LO..HI      trace: its value at T s; "max", "min", "mean" before it: of all rows, or of those from T s on;
                          "while OTHER LO..HI" after it in place of @T: in all rows, ten at least, where that holds
  LO..HI UNIT, OL         reading
  /REGEX/                 any
  as sound                all but the acts comes as without --fault and --setting

A bound may be missing.  "× sound" after a range: of what the same command gives without --fault and --setting;
"+ sound": above it.  A row of which all holds for the sound range too proves nothing, and fails.
"""
import concurrent.futures
import csv
import io
import math
import os
import re
import shlex
import subprocess
import sys

ROOT = os.path.dirname(os.path.dirname(os.path.abspath(__file__)))
HEADING = "## What the program shows"
FEWEST = 40

BOUNDS = r"(?P<low>-?[\d.]*\d(?:e[-+]?\d+)?)?\.\.(?P<high>-?\d[\d.]*(?:e[-+]?\d+)?)?"
AFTER = r"(?: (?P<unit>(?!while )[^×+]*[^×+ ]))?(?: (?P<against>[×+]) sound)?"
ABSENT = re.compile(r"no (?P<id>[\w.-]+)")
EVENT = re.compile(r"(?P<last>last )?(?P<id>[a-z][\w.-]*) " + BOUNDS + " s")
QUANTITY = r"(?P<quantity>[a-z][\w-]*\.[\w-]+)"
VALUE = re.compile(r"(?:(?P<of>max|min|mean) )?" + QUANTITY + r"(?: @(?P<at>[\d.]+))? " + BOUNDS + AFTER)
PLAIN = re.compile(QUANTITY + " " + BOUNDS)
WHILE = re.compile("(.*) while (.*)")
READING = re.compile(BOUNDS + AFTER)
OF = {"max": max, "min": min, "mean": lambda v: sum(v) / len(v)}  # of numbers alone: a gap fails


def rows_of_table():
    """(claim, command, expectations) of each row."""
    with open(os.path.join(ROOT, "DEVELOPERS.md"), encoding="utf-8") as f:
        section = f.read().partition("\n" + HEADING + "\n")[2].partition("\n## ")[0]
    table = [line for line in section.splitlines() if line.startswith("|")]
    for line in table[2:]:
        cells = [c.strip().replace(r"\|", "|") for c in re.split(r"(?<!\\)\|", line)[1:-1]]
        yield cells[0], cells[1].strip("`"), re.findall(r"`([^`]+)`", cells[-1])


def sound_words(words):
    """The command without what is wrong."""
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
        return [float(t) for t, kind, what, _ in self.lines if what == name and kind != "act"]

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


def number_holds(m, read, here, sound):
    value = read(here, m)
    if m["against"] == "×":
        value /= read(sound, m)
    elif m["against"] == "+":
        value -= read(sound, m)
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


def as_sound(here, sound):
    acts = lambda o: [line for line in o.lines if o.header[1] != "class" or line[1] != "act"]
    return same(acts(here), acts(sound)), f"{len(here.lines)} and {len(sound.lines)} rows"


def holds(wanted, here, sound):
    """(whether, what is there)"""
    if wanted == "as sound":
        return as_sound(here, sound)
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
        return number_holds(m, Output.trace, here, sound)
    if not traced and (m := READING.fullmatch(wanted)):
        return number_holds(m, Output.reading, here, sound)
    raise ValueError("not understood")


def judge(row):
    """What is wrong with a row, and what was found."""
    _, command, wanted = row
    words, wrong, found = shlex.split(command), [], []
    sound_command = sound_words(words)
    try:
        here = Output(run(words))
        sound = Output(run(sound_command)) if sound_command != words else here
    except (ValueError, subprocess.TimeoutExpired) as e:
        return [str(e)], found
    if not wanted:
        wrong.append("nothing is asked of it")
    proves = sound is here or "as sound" in wanted
    for w in wanted:
        try:
            good, value = holds(w, here, sound)
            proves = proves or not holds(w, sound, sound)[0]
        except (ValueError, TypeError, StopIteration, ZeroDivisionError) as e:
            good, value = False, str(e) or "no such quantity"
        found.append(f"{w}: {value}")
        if not good:
            wrong.append(found[-1])
    if not proves:
        wrong.append("a sound range gives the same")
    return wrong, found


def main():
    rows = list(rows_of_table())
    print(f"1..{len(rows) + 1}")
    enough = len(rows) >= FEWEST
    print(f"{'ok' if enough else 'not ok'} 1 {len(rows)} rows, {FEWEST} and more are wanted", flush=True)
    failed = not enough
    with concurrent.futures.ThreadPoolExecutor(os.cpu_count()) as pool:
        for n, (row, (wrong, found)) in enumerate(zip(rows, pool.map(judge, rows)), 2):
            failed = failed or bool(wrong)
            print(f"{'not ok' if wrong else 'ok'} {n} {row[0].replace('#', '')}", flush=True)
            for line in wrong + (found if VERBOSE else []):
                print(f"# {line}")
            if wrong:
                print(f"# {row[1]}")
    return 1 if failed else 0


VERBOSE = "--verbose" in sys.argv
HOB = os.path.abspath(sys.argv[1])
sys.exit(main())
