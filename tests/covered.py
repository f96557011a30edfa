#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Which lines and branches of src/ has nothing run?

    CC=gcc meson setup _covered -Db_coverage=true -Doptimization=1 && ninja -C _covered
    meson test -C _covered            as many tests as there is time for: what they run adds up
    tests/covered.py _covered         lines and branches by folder and by file, fewest lines first
    tests/covered.py _covered FILE…   the lines of these files that nothing ran, with their text

Lines of assertions and of what they guard against count like all others.  In the window's folder the
program and its tests count as one.
"""
import collections
import json
import pathlib
import subprocess
import sys


class Counts:
    """Of one source file: how often each line and each branch ran, over all objects made of it."""

    def __init__(self):
        self.lines = collections.Counter()
        self.branches = collections.Counter()

    def add(self, line):
        number = line["line_number"]
        self.lines[number] += line["count"]
        for k, branch in enumerate(line["branches"]):
            self.branches[number, k] += branch["count"]

    def share(self):
        return [(sum(n > 0 for n in c.values()), len(c)) for c in (self.lines, self.branches)]

    def missed(self):
        return sorted(number for number, n in self.lines.items() if n == 0)


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


def main():
    build = pathlib.Path(sys.argv[1]).resolve()
    tree = pathlib.Path(__file__).resolve().parent.parent
    files = counts_of(build, tree)
    for name in sys.argv[2:]:
        text = (tree / name).read_text(encoding="utf-8").splitlines()
        for number in files[pathlib.Path(name)].missed():
            print(f"{name}:{number}:{text[number - 1]}")
    if len(sys.argv) > 2:
        return
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


if __name__ == "__main__":
    sys.exit(main())
