#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
# manual.py HOB: hob.1 names every command, option and list that `hob help` names.  (TAP)
import pathlib
import re
import subprocess
import sys


def told(hob, *words):
    return subprocess.run([hob, "help", *words], capture_output=True, text=True, check=True).stdout


def main():
    hob = sys.argv[1]
    manual = (pathlib.Path(__file__).parent.parent / "data/man/hob.1").read_text(encoding="utf-8")
    commands = re.findall(r"^  ([a-z]+) ", told(hob), re.MULTILINE)
    missing = [c for c in commands if not re.search(rf"^\.(It )?Cm {c}\b", manual, re.MULTILINE)]
    options, lists = set(), set()
    for command in commands:
        text = told(hob, command)
        options |= set(re.findall(r"--([a-z-]+)", text))
        if command == "list":
            lists |= set(re.findall(r"[a-z]+", " ".join(re.findall(r"[a-z]+(?:\|[a-z]+)+", text))))
    missing += [f"--{o}" for o in sorted(options - {"help"}) if not re.search(rf"Fl -{o}\b|-{o}\b", manual)]
    missing += [name for name in sorted(lists) if not re.search(rf"\b{name}\b", manual)]
    ok = len(commands) > 5 and len(options) > 10 and len(lists) > 7 and not missing
    print("1..1")
    print("ok 1" if ok else "not ok 1", "hob.1 names what hob help names")
    for name in missing:
        print("#", name)
    sys.exit(0 if ok else 1)


main()
