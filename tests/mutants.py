#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Changes made on purpose: does a test notice?

Draws places in src/, makes one small change at a time in a copy of the tree, builds and runs the
tests: first those that name what the changed file defines, then the rest of the suite.  Prints a
table with one line a change:

    caught TEST    that test fails, or runs out of processor time
    survived       no test of those that were run notices
    same code      the compiler makes the same object of it: nothing to notice

    tests/mutants.py --work /tmp/mutants                 the sixty of tests/mutants.txt
    tests/mutants.py --work DIR --count 20 --folders sheet window --focus '' --seed 7
"""
import argparse
import bisect
import collections
import filecmp
import json
import os
import pathlib
import random
import re
import resource
import shutil
import subprocess
import sys

Place = collections.namedtuple("Place", "file start end new how")

FLIPPED = {"<": ">=", ">": "<=", "<=": ">", ">=": "<", "==": "!=", "!=": "=="}
COMPARISON = re.compile(r"(?<= )(<=|>=|<|>|==|!=)(?= )")
NUMBER = re.compile(r"(?<![\w.])(\d+\.\d*(?:e[-+]?\d+)?|\d+e[-+]?\d+|\d{2,})(?![\w.])")
# A call alone on its lines, after the end of a statement or a condition.
CALL = re.compile(r"(?<=[;{})]\n)( +)([a-z_][a-z0-9_]* \([^;{}]*\));")
NO_CALL = re.compile(r"(g_return|g_assert|return|if|for|while|switch|sizeof|g_test|g_critical)\b")
CONDITION = re.compile(r"\bif \(")
FUNCTION = re.compile(r"^(?!static)[\w *]+\n(hob_\w+) \(", re.M)
PROCESSOR_SECONDS = 100
CLOSEST = 12


def blank(source):
    """The source with comments, strings and preprocessor lines but #define blanked, as long as before."""
    pattern = re.compile(r"/\*.*?\*/|//[^\n]*|\"(?:\\.|[^\"\\\n])*\"|'(?:\\.|[^'\\\n])*'|^#(?!define)[^\n]*", re.S | re.M)
    return pattern.sub(lambda m: re.sub(r"[^\n]", " ", m.group()), source)


def closing(text, start, pair):
    depth = 0
    for k in range(start, len(text)):
        depth += (text[k] == pair[0]) - (text[k] == pair[1])
        if depth == 0:
            return k
    return -1


def bodies(file, text):
    """The body of an if, left out."""
    for m in CONDITION.finditer(text):
        end = closing(text, m.end() - 1, "()")
        body = re.compile(r"\s*").match(text, end + 1).end()
        if end < 0 or body >= len(text):
            continue
        if text[body] == "{":
            yield Place(file, body, closing(text, body, "{}") + 1, "{ }", "if's body left out")
        elif not re.match(r"(if|for|while|switch)\b", text[body:]):
            yield Place(file, body, text.index(";", body) + 1, ";", "if's body left out")


def comparisons(file, text):
    for m in COMPARISON.finditer(text):
        yield Place(file, m.start(), m.end(), FLIPPED[m.group()], "comparison flipped")


def constants(file, text):
    for m in NUMBER.finditer(text):
        value = float(m.group()) * 1.1
        if value == 0 or m.group().startswith("0") and "." not in m.group():
            continue
        new = repr(value) if re.search(r"[.e]", m.group()) else str(round(value))
        yield Place(file, m.start(), m.end(), new, "constant 10% up")


def calls(file, text):
    for m in CALL.finditer(text):
        if not NO_CALL.match(m.group(2)):
            yield Place(file, m.start(2), m.end(), ";", "call left out")


OPERATORS = (bodies, comparisons, constants, calls)


def places(tree, files):
    """All places of each operator, in an order that only the sources decide."""
    found = [[] for _ in OPERATORS]
    for file in files:
        text = blank((tree / file).read_text(encoding="utf-8"))
        for k, operator in enumerate(OPERATORS):
            found[k] += operator(str(file), text)
    return found


def draw(dice, found):
    """A place of an operator: each operator as likely as the others."""
    kinds = [places for places in found if places]
    one = dice.choice(kinds)
    return one.pop(dice.randrange(len(one)))


def sources(tree, folders):
    return sorted(f.relative_to(tree) for folder in folders for f in (tree / "src" / folder).glob("*.c"))


class Suite:
    """The tests of a build folder, and which of them are closest to a file."""

    def __init__(self, tree, build):
        self.tree, self.build = tree, build
        self.broken = set()
        listed = json.loads(subprocess.run(["meson", "introspect", "--tests", str(build)], check=True,
                                           capture_output=True, text=True).stdout)
        self.tests = [t for t in listed if not {"spanish", "tree", "data"} & self.suites_of(t)]
        self.texts = {f.stem: f.read_text(encoding="utf-8") for f in tree.glob("tests/**/*.c")}

    @staticmethod
    def suites_of(test):
        return {s.split(":")[-1] for s in test["suite"]}

    def program_of(self, test):
        """What is built for a test: its program, which a session may run; None for a script."""
        paths = [self.build / word for word in test["cmd"]]
        return next((p for p in paths if p.is_relative_to(self.build) and p.name.startswith("test-")), None)

    def words_of(self, file):
        source = (self.tree / file).read_text(encoding="utf-8")
        kinds = re.findall(r"hob_kind_(\w+) =", source)
        return FUNCTION.findall(source) + [f'"{k.replace("_", "-")}"' for k in kinds] + [pathlib.Path(file).stem + "-"]

    def closest(self, file):
        """All tests, those first that name most of what the file defines.  The window has its own."""
        words = self.words_of(file)
        folder, stem = pathlib.Path(file).parts[1], pathlib.Path(file).stem

        def score(test):
            name = (self.program_of(test) or pathlib.Path(test["cmd"][0])).name.removeprefix("test-")
            text = self.texts.get(name, self.texts.get(name.removeprefix("window-"), ""))
            return (-(name == f"{folder}-{stem}"), -sum(w in text for w in words), not name.startswith(folder))
        of_window = folder == "window"
        return sorted((t for t in self.tests if ("window" in self.suites_of(t)) == of_window), key=score)

    def passes(self, test):
        """Within its processor time, so that a loop without end is noticed on a busy machine too."""
        program = self.program_of(test)
        make(self.build, *([str(program.relative_to(self.build))] if program else ["src/cli/hob", "src/cli/hob-draw"]))
        env = dict(os.environ, **test["env"])
        limit = (PROCESSOR_SECONDS, PROCESSOR_SECONDS)
        done = subprocess.run(test["cmd"], env=env, cwd=self.build, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL,
                              stdin=subprocess.DEVNULL, check=False,
                              preexec_fn=lambda: resource.setrlimit(resource.RLIMIT_CPU, limit))
        return done.returncode == 0


class NotBuilt(Exception):
    pass


def make(build, *targets):
    done = subprocess.run(["ninja", "--quiet", "-C", str(build), *targets], capture_output=True, text=True, check=False)
    if done.returncode:
        raise NotBuilt(done.stdout[-2000:])


def object_of(build, file):
    """The object that ninja makes of a source file."""
    listed = json.loads((build / "compile_commands.json").read_text(encoding="utf-8"))
    for one in listed:
        if pathlib.Path(one["file"]).as_posix().endswith("/" + file):
            return one["output"]
    raise KeyError(file)


def judge(suite, place, closest):
    """What notices the change; the tree is as it was afterwards."""
    path = suite.tree / place.file
    source = path.read_text(encoding="utf-8")
    made = object_of(suite.build, place.file)
    make(suite.build, made)
    kept = suite.build / "unchanged.o"
    shutil.copyfile(suite.build / made, kept)
    try:
        path.write_text(source[:place.start] + place.new + source[place.end:], encoding="utf-8")
        make(suite.build, made)
        if filecmp.cmp(suite.build / made, kept, shallow=False):
            return "same code"
        tests = suite.closest(place.file)
        changed = path.read_text(encoding="utf-8")
        for test in tests[:closest]:
            if test["name"] in suite.broken or suite.passes(test):
                continue
            path.write_text(source, encoding="utf-8")
            if suite.passes(test):
                return "caught " + test["name"]
            suite.broken.add(test["name"])  # it fails without the change too, and judges nothing
            path.write_text(changed, encoding="utf-8")
        return "survived"
    finally:
        path.write_text(source, encoding="utf-8")


def shown(tree, place):
    """FILE:LINE, what was done, the line's text."""
    text = (tree / place.file).read_text(encoding="utf-8")
    ends = [m.start() for m in re.finditer("\n", text)]
    line = bisect.bisect_left(ends, place.start)
    begin = ends[line - 1] + 1 if line else 0
    what = " ".join(text[place.start:place.end].split())
    around = " ".join(text[begin:ends[line]].split())
    return f"{place.file}:{line + 1}", place.how, f"{what[:40]} -> {place.new}   in: {around[:70]}"


def prepare(work):
    """A copy of what is committed here, built.  Its sources give the objects no path and no line numbers."""
    here = pathlib.Path(__file__).resolve().parent.parent
    tree, build = work / "tree", work / "build"
    if not tree.exists():
        subprocess.run(["git", "clone", "--quiet", "--shared", str(here), str(tree)], check=True)
        subprocess.run(["meson", "setup", str(build), str(tree), "-Ddebug=false", "-Doptimization=2"], check=True,
                       stdout=subprocess.DEVNULL)
    subprocess.run(["git", "-C", str(tree), "checkout", "--quiet", "--", "."], check=True)
    make(build, "programs")
    return tree, build


def drawn(options, tree):
    """The places, in the order in which they are judged."""
    dice = random.Random(options.seed)
    focus = options.focus.split(":") if options.focus else None
    files = sources(tree, options.folders)
    chosen = []
    if focus is not None:
        of_focus = places(tree, [pathlib.Path("src") / focus[0]])
        chosen += [draw(dice, of_focus) for _ in range(int(focus[1]))]
        files = [f for f in files if str(f) != "src/" + focus[0]]
    found = places(tree, files)
    while len(chosen) < 2 * options.count:  # some for those that do not build
        chosen.append(draw(dice, found))
    return chosen


def main():
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("--work", type=pathlib.Path, required=True, help="folder for the copy and its build")
    parser.add_argument("--seed", type=int, default=20261126)
    parser.add_argument("--count", type=int, default=60)
    parser.add_argument("--folders", nargs="+",
                        default=["base", "physics", "parts", "range", "run", "symptoms", "reason", "job", "cli"])
    parser.add_argument("--focus", default="run/history.c:10", help="FILE:COUNT, drawn first; '' for none")
    parser.add_argument("--closest", nargs="?", type=int, const=CLOSEST, metavar="N",
                        help=f"only the N closest tests judge ({CLOSEST})")
    parser.add_argument("--list", action="store_true", help="show what would be changed, and stop")
    options = parser.parse_args()
    tree, build = prepare(options.work.resolve())
    suite = Suite(tree, build)
    counts = collections.Counter()
    for place in drawn(options, tree):
        if sum(counts.values()) == options.count:
            break
        try:
            verdict = "" if options.list else judge(suite, place, options.closest)
        except NotBuilt:
            continue
        counts[verdict.split(" ")[0]] += 1
        print(f"{sum(counts.values()):3}", *shown(tree, place), verdict, sep="\t", flush=True)
    print(", ".join(f"{n} {what}" for what, n in sorted(counts.items())))


if __name__ == "__main__":
    sys.exit(main())
