#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Changes made on purpose: does a test notice?

Draws places in src/ and makes one small change at a time in a copy of the tree.  The tests that run what
was changed judge it, until one notices.  Which these are, a build that counts says: each test has run there
once.  Prints a table with one line a change:

    caught TEST        that test fails, passes without the change, and fails again; running out of
                       processor time is failing
    survived N tests   that many could notice, and none does
    same code          the compiler makes the same object of it: nothing to notice
    not built          does not compile, and is not one of those asked for

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
import signal
import subprocess
import sys
import tempfile

Place = collections.namedtuple("Place", "file start end new how")

FLIPPED = {"<": ">=", ">": "<=", "<=": ">", ">=": "<", "==": "!=", "!=": "=="}
COMPARISON = re.compile(r"(?<= )(<=|>=|<|>|==|!=)(?= )")
NUMBER = re.compile(r"(?<![\w.])(\d+\.\d*(?:e[-+]?\d+)?|\d+e[-+]?\d+|\d{2,})(?![\w.])")
# A call alone on its lines, after the end of a statement or a condition.
CALL = re.compile(r"(?<=[;{})]\n)( +)([a-z_][a-z0-9_]* \([^;{}]*\));")
NO_CALL = re.compile(r"(g_return|g_assert|return|if|for|while|switch|sizeof|g_test|g_critical)\b")
CONDITION = re.compile(r"\bif \(")
BODY = "if's body left out"
WAITED_SECONDS = 3600
COUNTED_SECONDS = 15
TOO_LONG = 900  # as seconds


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
            yield Place(file, body, closing(text, body, "{}") + 1, "{ }", BODY)
        elif not re.match(r"(if|for|while|switch)\b", text[body:]):
            yield Place(file, body, text.index(";", body) + 1, ";", BODY)


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


def introspect(build, what):
    return json.loads(subprocess.run(["meson", "introspect", what, str(build)], check=True, capture_output=True,
                                     text=True).stdout)


def bounded(seconds):
    """What no test needs and a loop without end would take."""
    resource.setrlimit(resource.RLIMIT_CPU, (seconds, seconds))
    resource.setrlimit(resource.RLIMIT_FSIZE, (1 << 28, 1 << 28))


class Suite:
    """The tests of a build folder, but those of the tree and those that only run again in Spanish."""

    def __init__(self, build):
        self.build = build
        files = {t["id"]: t["filename"] for t in introspect(build, "--targets")}
        listed = {t["name"]: t for t in introspect(build, "--tests")
                  if not {"hobwright:tree", "hobwright:data"} & set(t["suite"])}
        self.tests = {name: t for name, t in listed.items()
                      if not name.endswith(" in Spanish") or name.removesuffix(" in Spanish") not in listed}
        self.needed = {name: [os.path.relpath(f, build) for d in t["depends"] for f in files[d]]
                       for name, t in self.tests.items()}

    def passes(self, name, seconds, **more):
        """Within so many seconds of the processor, that a loop without end is noticed on a busy machine too."""
        test = self.tests[name]
        make(self.build, *self.needed[name])
        child = subprocess.Popen(test["cmd"], env={**os.environ, **test["env"], **more}, cwd=self.build,
                                 stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL, stdin=subprocess.DEVNULL,
                                 start_new_session=True, preexec_fn=lambda: bounded(seconds))
        try:
            return child.wait(WAITED_SECONDS) == 0
        except subprocess.TimeoutExpired:
            os.killpg(child.pid, signal.SIGKILL)
            child.wait()
            return False


class Profiles:
    """Which tests run a line.  Each has run once where lines are counted, with counts and a cache of its own.
    One that takes too long there is not counted to its end: it may run any line."""

    def __init__(self, suite, folder):
        self.suite, self.folder = suite, folder
        for name in suite.tests:
            if not self.seconds_file(name).exists():
                self.count(name)

    def folder_of(self, name):
        return self.folder / name.replace(" ", "-")

    def seconds_file(self, name):
        return self.folder_of(name) / "seconds"

    def seconds_of(self, name):
        return float(self.seconds_file(name).read_text(encoding="utf-8"))

    def count(self, name):
        folder = self.folder_of(name)
        make(self.suite.build, *self.suite.needed[name])
        shutil.rmtree(folder, ignore_errors=True)
        before = resource.getrusage(resource.RUSAGE_CHILDREN)
        passed = self.suite.passes(name, COUNTED_SECONDS, XDG_CACHE_HOME=str(folder / "cache"), GCOV_PREFIX=str(folder),
                                   GCOV_PREFIX_STRIP=str(len(self.suite.build.parts) - 1))
        after = resource.getrusage(resource.RUSAGE_CHILDREN)
        spent = after.ru_utime + after.ru_stime - before.ru_utime - before.ru_stime
        spent = spent if spent < COUNTED_SECONDS else TOO_LONG
        folder.mkdir(parents=True, exist_ok=True)
        self.seconds_file(name).write_text(f"{spent:.2f}", encoding="utf-8")
        print(f"{name}: {spent:.1f} s{'' if passed else ', fails'}", file=sys.stderr, flush=True)

    def counts(self, notes, folder):
        """By line: how often what is counted below @folder ran it; @notes say which lines there are."""
        there = folder / notes
        there.parent.mkdir(parents=True, exist_ok=True)
        if not there.exists():
            shutil.copyfile(self.suite.build / notes, there)
        said = subprocess.run(["gcov", "--json-format", "--stdout", there.name], cwd=there.parent, check=True,
                              capture_output=True, text=True).stdout
        source = "/" + notes.name.removesuffix(".gcno")
        counted = collections.Counter()
        for file in json.loads(said)["files"]:
            for line in file["lines"] if file["file"].endswith(source) else []:
                counted[line["line_number"]] += line["count"]
        return counted

    def judges(self, file, lines):
        """The tests that may notice, the file's own first, then those that take least.  Where no line is one
        that is counted, as in a table or a #define, all that the file is linked into."""
        notes = pathlib.Path(object_of(self.suite.build, file)).with_suffix(".gcno")
        own = "-".join(pathlib.Path(file).with_suffix("").parts[1:])
        with tempfile.TemporaryDirectory() as empty:
            anywhere = not lines & self.counts(notes, pathlib.Path(empty)).keys()

        def may(name):
            folder = self.folder_of(name)
            if self.seconds_of(name) == TOO_LONG:
                return True
            if not (folder / notes).with_suffix(".gcda").exists():
                return False
            counted = self.counts(notes, folder)
            return anywhere or any(counted[n] > 0 for n in lines)
        return sorted(filter(may, self.suite.tests), key=lambda name: (name != own, self.seconds_of(name)))


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


def lines_of(source, place):
    """The lines of the statement that is changed, or of the body that is left out."""
    text = blank(source)
    start, end = place.start, place.end
    if place.how != BODY:
        start = max(text.rfind(c, 0, start) for c in ";{}") + 1
        start += len(text[start:]) - len(text[start:].lstrip())
        end = min(k for k in (text.find(c, end) for c in ";{}") if k >= 0)
    return set(range(text.count("\n", 0, start) + 1, text.count("\n", 0, end) + 2))


def judge(tree, suite, profiles, place):
    """What notices the change, and how many tests could; the tree is as it was afterwards."""
    path = tree / place.file
    source = path.read_text(encoding="utf-8")
    changed = source[:place.start] + place.new + source[place.end:]
    made = object_of(suite.build, place.file)
    make(suite.build, made)
    kept = suite.build / "unchanged.o"
    shutil.copyfile(suite.build / made, kept)

    def passes(test, text):
        path.write_text(text, encoding="utf-8")
        return suite.passes(test, int(20 + 10 * profiles.seconds_of(test)))
    try:
        path.write_text(changed, encoding="utf-8")
        make(suite.build, made)
        if filecmp.cmp(suite.build / made, kept, shallow=False):
            return "same code"
        tests = profiles.judges(place.file, lines_of(source, place))
        for test in tests:
            # It fails, passes without the change, and fails again.
            if not passes(test, changed) and passes(test, source) and not passes(test, changed):
                return f"caught {test}"
        return f"survived {len(tests)} tests"
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


def built(tree, build, *options):
    if not build.exists():
        subprocess.run(["meson", "setup", str(build), str(tree), *options], check=True, stdout=subprocess.DEVNULL)
    make(build, "all")
    return Suite(build)


def prepare(work):
    """A copy of what is committed here, and its tests.  Its sources give the objects no path and no line numbers."""
    here = pathlib.Path(__file__).resolve().parent.parent
    tree = work / "tree"
    if not tree.exists():
        subprocess.run(["git", "clone", "--quiet", "--shared", str(here), str(tree)], check=True)
    subprocess.run(["git", "-C", str(tree), "checkout", "--quiet", "--", "."], check=True)
    suite = built(tree, work / "build", "-Ddebug=false", "-Doptimization=2")
    counted = built(tree, work / "counted", "-Db_coverage=true", "-Doptimization=g")
    return tree, suite, Profiles(counted, work / "profiles")


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
    parser.add_argument("--only", nargs="+", type=int, metavar="N", help="judge these of the table again")
    parser.add_argument("--list", action="store_true", help="show what would be changed, and stop")
    options = parser.parse_args()
    tree, suite, profiles = prepare(options.work.resolve())
    counts = collections.Counter()
    for number, place in enumerate(drawn(options, tree), 1):
        if options.only is not None and number not in options.only:
            continue
        try:
            verdict = "" if options.list else judge(tree, suite, profiles, place)
        except NotBuilt:
            verdict = "not built"
        counts[verdict.split(" ")[0]] += 1
        print(f"{number:3}", *shown(tree, place), verdict, sep="\t", flush=True)
        if sum(counts.values()) - counts["not"] == options.count:
            break
    print(", ".join(f"{n} {what}" for what, n in sorted(counts.items())))


if __name__ == "__main__":
    sys.exit(main())
