#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""packages.py BUILD: is every package named?  (TAP)

On a bare Debian 12 there is what tests/debian-12-base.txt lists, what data/start names, and what these depend
on.  Whatever the build and the tests reach for must belong to one of them; a package that merely happens to be
installed here does not count.
"""
import os
import re
import shutil
import subprocess
import sys

ROOT = os.path.dirname(os.path.dirname(os.path.abspath(__file__)))


def lines_of(*command):
    return subprocess.run(command, check=True, capture_output=True, text=True).stdout.splitlines()


def read(path):
    with open(path, encoding="utf-8", errors="replace") as f:
        return f.read()


def tree_files(*endings):
    for folder, folders, names in os.walk(ROOT):
        folders[:] = [f for f in folders if f != ".git" and not f.startswith("_")]
        for name in names:
            if name.endswith(endings):
                yield os.path.join(folder, name)


def installed_packages():
    """name → list of alternatives lists, and virtual name → providers."""
    needs, provided = {}, {}
    for row in lines_of("dpkg-query", "-W", "-f", "${db:Status-Status}\t${Package}\t${Pre-Depends}, ${Depends}\t${Provides}\n"):
        status, name, depends, provides = row.split("\t")
        if status != "installed":
            continue
        needs[name] = [[re.split(r"[ :(]", a.strip())[0] for a in d.split("|")] for d in depends.split(",") if d.strip()]
        for p in provides.split(","):
            if p.strip():
                provided.setdefault(p.strip().split()[0], []).append(name)
    return needs, provided


def closure(names, needs, provided):
    """apt takes the first alternative there is; so does this."""
    seen, queue = set(), list(names)
    while queue:
        name = queue.pop()
        if name in seen:
            continue
        seen.add(name)
        for alternatives in needs.get(name, []):
            found = next((a for a in alternatives if a in needs), None)
            if found is None:
                found = next((provided[a][0] for a in alternatives if a in provided), None)
            if found:
                queue.append(found)
    return seen


def owners():
    """file → package, symbolic folders (/bin, /lib) told as they really are."""
    table = {}
    folder = "/var/lib/dpkg/info"
    for name in os.listdir(folder):
        if name.endswith(".list"):
            package = name[:-5].split(":")[0]
            for path in read(os.path.join(folder, name)).splitlines():
                table[path] = package
                if not path.startswith("/usr"):
                    table["/usr" + path] = package
    return table


def owner(path, table):
    """Through links and alternatives, until a package owns the file."""
    for candidate in (path, os.path.realpath(path), os.path.join(os.path.realpath(os.path.dirname(path)), os.path.basename(path))):
        if candidate in table:
            return table[candidate]
    return None


def headers(build):
    found = set()
    for line in lines_of("ninja", "-C", build, "-t", "deps"):
        path = os.path.normpath(line.strip())
        if line.startswith(" ") and path.startswith("/usr/"):
            found.add(path)
    return found


def meson_words(pattern):
    for path in tree_files("meson.build"):
        yield from re.findall(pattern, read(path))


def pkg_config_files():
    for name in set(meson_words(r"dependency\('([^']+)'")):
        folders = lines_of("pkg-config", "--variable=pcfiledir", name)
        yield os.path.join(folders[0], name + ".pc")


def tools():
    """Programs that build files and scripts call; a word at the place of a command that is one."""
    words = set(meson_words(r"find_program\('([^'./]+)'"))
    for path in [os.path.join(ROOT, "data/start"), os.path.join(ROOT, ".ci/run"), *tree_files(".sh")]:
        words.update(re.findall(r"(?:^|(?<!=)\(|[|;&]|\b(?:then|do|else|exec|quietly)\b)\s*([a-z][\w.+-]+)", read(path), re.M))
    for path in map(shutil.which, sorted(words)):
        if path and not path.startswith(ROOT):
            yield path


def strangers(paths, allowed, table):
    for path in sorted(paths):
        package = owner(path, table)
        if package is None:
            # Not from a package (/usr/local, a home): what a package of the same tool would own counts.
            standard = shutil.which(os.path.basename(path), path="/usr/bin:/bin:/usr/sbin:/sbin")
            package = owner(standard, table) if standard else None
        if package not in allowed:
            yield f"{path} belongs to {package}"


def main(build):
    named = lines_of(os.path.join(ROOT, "data/start"), "packages")
    base = [p for p in read(os.path.join(ROOT, "tests/debian-12-base.txt")).split("\n") if p and not p.startswith("#")]
    needs, provided = installed_packages()
    allowed = closure(base + named, needs, provided)
    table = owners()
    seen_headers, seen_tools, seen_pc = headers(build), set(tools()), set(pkg_config_files())
    cases = [
        ("every named package is installed", [p for p in named if p not in needs]),
        ("no package is named twice", [p for p in named if named.count(p) > 1]),
        ("every header that the build opened is of a named package", strangers(seen_headers, allowed, table)),
        ("every library that the build asks for is of a named package", strangers(seen_pc, allowed, table)),
        ("every tool is of a named package", strangers(seen_tools, allowed, table)),
        ("the survey saw headers, libraries and tools",
         [f"only {n}" for n, least in ((len(seen_headers), 100), (len(seen_pc), 3), (len(seen_tools), 10)) if n < least]),
        ("a package that only happens to be there would be seen",
         [] if list(strangers([__file__], allowed, table)) else ["a file of no package was let through"]),
    ]
    print(f"1..{len(cases)}")
    failed = 0
    for number, (words, offences) in enumerate(cases, 1):
        offences = list(offences)
        failed += bool(offences)
        print(f"{'not ' if offences else ''}ok {number} {words}")
        for offence in offences:
            print(f"# {offence}")
    print(f"# {len(seen_headers)} headers, {len(seen_pc)} libraries, {len(seen_tools)} tools, {len(allowed)} packages allowed")
    return 1 if failed else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1]))
