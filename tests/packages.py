#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""packages.py BUILD: does data/start name every package that each of its commands needs?  (TAP)

On a bare Debian 12 there is what tests/debian-12-base.txt lists, what data/start names for a command, and what
these depend on.  Whatever the command reaches for must belong to one of them; a package that merely happens to
be installed here does not count.  The first command is also tried: it configures, and makes all but the
compiled files, in a room whose programs and libraries are those of its own packages.
"""
import json
import os
import re
import shutil
import subprocess
import sys
import tempfile

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


def headers(build, under=""):
    """What the compiler opened for the objects of a folder of the build."""
    found, wanted = set(), False
    for line in lines_of("ninja", "-C", build, "-t", "deps"):
        if not line.startswith(" "):
            wanted = line.startswith(under)
        elif wanted and (path := os.path.normpath(line.strip())).startswith("/usr/"):
            found.add(path)
    return found


def meson_files(with_tests):
    for path in tree_files("meson.build"):
        if with_tests or "/tests/" not in path:
            yield read(path)


def pkg_config_files(with_tests):
    names = {n for text in meson_files(with_tests) for n in re.findall(r"dependency\('([^']+)'", text)}
    for name in names:
        folders = lines_of("pkg-config", "--variable=pcfiledir", name)
        yield os.path.join(folders[0], name + ".pc")


def commands_in(text):
    """Words at the place of a command in a script of the shell."""
    return re.findall(r"(?:^|(?<!=)\(|[|;&]|\b(?:then|do|else|exec|quietly)\b)\s*([a-z][\w.+-]+)", text, re.M)


def first_command():
    """The lines of data/start that its first command comes to: what stands in no function, and what it calls."""
    text = read(os.path.join(ROOT, "data/start"))
    bodies = dict(re.findall(r"^(\w+) \(\) \{(.*?)^\}", text, re.M | re.S))
    reached, queue = {}, ["run_main"]
    while queue:
        name = queue.pop()
        if name in bodies and name not in reached:
            reached[name] = bodies[name]
            queue += re.findall(r"\w+", bodies[name])
    return "\n".join(reached.values())


def programs_of(words):
    for path in map(shutil.which, sorted(words)):
        if path and not path.startswith(ROOT):
            yield path


def tools_of_everything():
    words = {n for text in meson_files(True) for n in re.findall(r"find_program\('([^'./]+)'", text)}
    for path in [os.path.join(ROOT, "data/start"), os.path.join(ROOT, ".ci/run"), *tree_files(".sh")]:
        words.update(commands_in(read(path)))
    return set(programs_of(words))


def tools_of_first_command(build):
    """What data/start calls, and every program in a command that ninja would run for it."""
    words = set(commands_in(first_command()))
    for line in lines_of("ninja", "-C", build, "-t", "commands", "programs"):
        words.update(w for w in line.split() if re.fullmatch(r"(/usr)?(/s?bin/)?[\w.+-]+", w) and shutil.which(w))
    return set(programs_of(words - {"ccache"}))


def strangers(paths, allowed, table):
    for path in sorted(paths):
        package = owner(path, table)
        if package is None:
            # Not from a package (/usr/local, a home): what a package of the same tool would own counts.
            standard = shutil.which(os.path.basename(path), path="/usr/bin:/bin:/usr/sbin:/sbin")
            package = owner(standard, table) if standard else None
        if package not in allowed:
            yield f"{path} belongs to {package}"


def furnish(room, allowed, table):
    """A folder of programs and one of libraries' .pc files, of these packages only."""
    for name, folders in (("bin", ("/usr/bin", "/usr/sbin")),
                          ("pc", ("/usr/lib/x86_64-linux-gnu/pkgconfig", "/usr/lib/pkgconfig", "/usr/share/pkgconfig"))):
        os.mkdir(os.path.join(room, name))
        for folder in filter(os.path.isdir, folders):
            for file in os.listdir(folder):
                link = os.path.join(room, name, file)
                if owner(os.path.join(folder, file), table) in allowed and not os.path.lexists(link):
                    os.symlink(os.path.join(folder, file), link)


def try_first_command(allowed, table):
    """Complaints of configuring without tests, and of making what is not compiled, where nothing else is installed."""
    with tempfile.TemporaryDirectory() as room:
        furnish(room, allowed, table)
        build = os.path.join(room, "build")
        env = {"PATH": os.path.join(room, "bin"), "HOME": room, "LC_ALL": "C.UTF-8",
               "PKG_CONFIG_LIBDIR": os.path.join(room, "pc")}

        def run(*command):
            return subprocess.run(command, capture_output=True, text=True, env=env, cwd=ROOT)

        steps = [run("meson", "setup", build, "-Dtests=false")]
        if steps[0].returncode == 0:
            made = re.findall(r"^(\S+): CUSTOM_COMMAND", run("ninja", "-C", build, "-t", "targets", "all").stdout, re.M)
            needed = run("ninja", "-C", build, "-t", "inputs", "programs").stdout.split()
            steps.append(run("ninja", "-C", build, *(set(made) & set(needed))))
        for step in steps:
            if step.returncode:
                yield from (step.stdout + step.stderr).splitlines()[-5:]
            yield from (line for line in (step.stdout + step.stderr).splitlines() if re.search("warning", line, re.I))


def tap(cases):
    failed = 0
    print(f"1..{len(cases)}")
    for number, (words, offences) in enumerate(cases, 1):
        offences = list(offences)
        failed += bool(offences)
        print(f"{'not ' if offences else ''}ok {number} {words}")
        for offence in offences:
            print(f"# {offence}")
    return failed


def compiler_of(build):
    with open(os.path.join(build, "compile_commands.json"), encoding="utf-8") as f:
        return os.path.basename(json.load(f)[0]["command"].split()[0])


def main(build):
    start = os.path.join(ROOT, "data/start")
    first, named = lines_of(start, "packages", "run"), lines_of(start, "packages")
    base = [p for p in read(os.path.join(ROOT, "tests/debian-12-base.txt")).split("\n") if p and not p.startswith("#")]
    if compiler_of(build) not in ("cc", "gcc"):  # as the checks do, which are no part of either command
        base += lines_of(start, "packages", "check")
    needs, provided = installed_packages()
    table = owners()
    allowed = closure(base + named, needs, provided)
    allowed_first = closure(base + first, needs, provided)
    without_gettext = closure(base + [p for p in first if p != "gettext"], needs, provided)
    seen = headers(build), set(pkg_config_files(True)), tools_of_everything()
    seen_first = headers(build, "src/"), set(pkg_config_files(False)), tools_of_first_command(build)
    cases = [
        ("every named package is installed", [p for p in named if p not in needs]),
        ("no package is named twice", [p for p in named if named.count(p) > 1]),
    ]
    for whose, which, packages in (("both commands", seen, allowed), ("the first command", seen_first, allowed_first)):
        for what, paths in zip(("header", "library", "tool"), which):
            cases.append((f"{whose}: every {what} is of a package named for it", strangers(paths, packages, table)))
    cases += [
        ("the survey saw headers, libraries and tools",
         [f"only {len(s)}" for s, least in zip(seen + seen_first, (100, 3, 10, 100, 3, 10)) if len(s) < least]),
        ("a package that only happens to be there would be seen",
         [] if list(strangers([__file__], allowed, table)) else ["a file of no package was let through"]),
        ("the first command configures and makes its files with its own packages alone, without a warning",
         try_first_command(allowed_first, table)),
        ("a tool of the first command that is named for the tests alone would be seen, surveyed and tried",
         [words for words, found in (("survey", strangers(seen_first[2], without_gettext, table)),
                                     ("trial", try_first_command(without_gettext, table))) if not list(found)]),
    ]
    failed = tap(cases)
    print("# headers, libraries, tools:", *(len(s) for s in seen), "and for the first command:", *(len(s) for s in seen_first))
    return 1 if failed else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1]))
