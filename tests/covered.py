#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Which lines and branches of src/ has nothing run?

    CC=gcc meson setup _covered -Db_coverage=true -Doptimization=0 -Dc_args=-fprofile-update=atomic
    ninja -C _covered
    meson test -C _covered            as many tests as there is time for: what they run adds up; but not
                                      `killed`, which lets no file grow, those of the counts neither
    tests/covered.py _covered         lines and branches by folder and by file, fewest lines first
    tests/covered.py _covered FILE…   what nothing ran in these files or folders, with its text

Nothing is optimized in such a build: gcc would count the branches of what it has put together instead of
those that are written.  Counts are atomic: threads would lose some of them, and gcov infers others from
those, down to less than nothing.  Lines of assertions and of what they guard against count like all others.
In the window's folder the program and its tests count as one.  What no test can sensibly run is in
tests/not-run.txt with the reason; what is left beyond that is counted last, and listed with its text:
the status is 1 if a line is left, or a row that explains none.
"""
import collections
import json
import pathlib
import re
import subprocess
import sys

ROW = re.compile(r"(\*|[a-z]+/[\w.-]+) .+")  # of not-run.txt: a file and what its line holds


class Counts:
    """Of one source file: how often each line and each branch ran, over all objects made of it."""

    def __init__(self):
        self.lines = collections.Counter()
        self.branches = collections.Counter()

        self.function_of = {}

    def add(self, line):
        number = line["line_number"]
        self.lines[number] += line["count"]
        self.function_of[number] = line.get("function_name", "")
        for k, branch in enumerate(line["branches"]):
            self.branches[number, k] += branch["count"]

    def share(self):
        return [(sum(n > 0 for n in c.values()), len(c)) for c in (self.lines, self.branches)]

    def missed(self):
        return sorted(number for number, n in self.lines.items() if n == 0)

    def missed_branches(self):
        """Of lines that ran, those with ways that were never taken, and how many."""
        ways = collections.Counter(number for (number, k), n in self.branches.items() if n == 0)
        return {number: n for number, n in sorted(ways.items()) if self.lines[number] > 0}


class Reasons:
    """The rows of not-run.txt: which lines are not run."""

    def __init__(self, file):
        paragraphs = file.read_text(encoding="utf-8").split("\n\n# ")[1:]
        self.used = set()
        self.rows = [tuple(line.split(None, 1)) for paragraph in paragraphs
                     for line in paragraph.splitlines() if ROW.fullmatch(line)]

    def row_of(self, path, text, function):
        """Of a line that nothing ran: a row of its file.  Of one that ran, without @function: of any file too."""
        for name, what in self.rows:
            if name == "*" and function is not None or name not in ("*", str(path.relative_to("src"))):
                continue
            if what == f"{function} ()" or what in text:
                self.used.add((name, what))
                return name, what
        return None

    def unused(self):
        return [row for row in self.rows if row not in self.used]

    def left(self, path, counts, text):
        """Lines and lines with ways not taken for which there is no reason.  A row also covers the lines
        that follow its own without a gap in the same function: what an if guards."""
        lines, row, before, numbers = [], None, None, sorted(counts.lines)
        for number in numbers:
            function = counts.function_of[number]
            if counts.lines[number] > 0:
                row = None
                continue
            row = self.row_of(path, text[number - 1], function) or (row if function == before else None)
            before = function
            if row is None:
                lines.append(number)
        ways = {number: n for number, n in counts.missed_branches().items()
                if self.row_of(path, text[number - 1], None) is None}
        return lines, ways


def notes_of(build):
    """What gcov says of every object that has notes, run or not."""
    for notes in sorted((build / "src").rglob("*.gcno")):
        said = subprocess.run(["gcov", "--json-format", "--stdout", "--branch-probabilities", notes.name],
                              cwd=notes.parent, capture_output=True, text=True, check=False).stdout
        yield from (json.loads(line) for line in said.splitlines() if line.startswith("{"))


def counts_of(build, tree):
    files = collections.defaultdict(Counts)
    for note in notes_of(build):
        for file in note["files"]:
            path = (build / file["file"]).resolve()
            if not path.is_relative_to(tree / "src"):
                continue
            for line in file["lines"]:
                files[path.relative_to(tree)].add(line)
    return files


def percent(pairs):
    done, all_of = (sum(column) for column in zip(*pairs))
    return f"{100 * done / max(all_of, 1):5.1f}% of {all_of:6}"


def show(name, shares):
    print(f"{percent([s[0] for s in shares])} lines, {percent([s[1] for s in shares])} branches  {name}")


def runs(numbers):
    """1, 2, 3, 7: 1-3, 7."""
    together = []
    for n in numbers:
        if together and together[-1][1] == n - 1:
            together[-1][1] = n
        else:
            together.append([n, n])
    return ", ".join(f"{a}-{b}" if b > a else f"{a}" for a, b in together)


def report(files, tree):
    folders = collections.defaultdict(list)
    for path, counts in sorted(files.items(), key=lambda item: -len(item[1].missed())):
        share = counts.share()
        folders[path.parts[1]].append(share)
        if counts.missed():
            show(f"{path}: {runs(counts.missed())}", [share])
    for folder, shares in sorted(folders.items()):
        show(f"src/{folder}", shares)
    show("src without window", [s for folder, shares in folders.items() if folder != "window" for s in shares])
    if "window" in folders:
        show("src/window", folders["window"])


def explain(files, tree, reasons, wanted, with_ways):
    """Prints what nothing ran and no row explains, of the files that are wanted: how many lines?"""
    n_lines = n_ways = all_lines = all_ways = lines_run = ways_taken = n_never = 0
    for path, counts in sorted(files.items()):
        if not wanted(path):
            continue
        text = (tree / path).read_text(encoding="utf-8").splitlines()
        text += [""] * (max(counts.lines) - len(text))  # the build may be of an older file
        lines, ways = reasons.left(path, counts, text)
        (ran, _), (taken, _) = counts.share()
        lines_run += ran
        ways_taken += taken
        all_lines += len(counts.missed())
        all_ways += sum(counts.missed_branches().values())
        n_lines += len(lines)
        n_ways += sum(ways.values())
        n_never += sum(number in set(lines) for number, _ in counts.branches)
        for number in lines:
            print(f"{path}:{number}: not run: {text[number - 1].strip()}")
        for number in ways if with_ways else []:
            print(f"{path}:{number}: {ways[number]} ways not taken: {text[number - 1].strip()}")
    print(f"uncovered: {all_lines} lines, {all_ways} ways of lines that ran")
    print(f"uncovered and not justified: {n_lines} lines, {n_ways} ways of lines that ran")
    all_left = n_ways + n_never
    show("without what is justified", [[(lines_run, lines_run + n_lines), (ways_taken, ways_taken + all_left)]])
    return n_lines


def list_left(files, tree, names):
    """What nothing ran and no row explains: in the files and folders named, or outside the window's folder
    and in it, with the rows that explain nothing.  How much is that?"""
    reasons = Reasons(tree / "tests/not-run.txt")
    if names:
        return explain(files, tree, reasons, lambda path: any(str(path).startswith(name) for name in names), True)
    n = explain(files, tree, reasons, lambda path: path.parts[1] != "window", False)
    n += explain(files, tree, reasons, lambda path: path.parts[1] == "window", False)
    for name, what in reasons.unused():
        print(f"tests/not-run.txt: nothing is left to explain by: {name} {what}")
    return n + len(reasons.unused())


def main():
    build = pathlib.Path(sys.argv[1]).resolve()
    tree = pathlib.Path(__file__).resolve().parent.parent
    files = counts_of(build, tree)
    if len(sys.argv) == 2:
        report(files, tree)
    return 1 if list_left(files, tree, sys.argv[2:]) else 0


if __name__ == "__main__":
    sys.exit(main())
