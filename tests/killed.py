#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""killed.py HOB [KIND…]: a command that is killed, or that finds no room, leaves whole files.  (TAP)

Each way to write a file is tried again and again over an older file, and killed at moments spread over the time that it
takes.  The file is then the older one or the new one, and the next command in that folder removes what was left
beside it.  What is kept in the cache folder is there or not, and the next command answers as if nothing had happened.
HOB_FULL=1: a thousand times each, else 8.  KIND: only events, SVG, table …"""
import ctypes, os, random, resource, shutil, signal, stat, subprocess, sys, tempfile, time

hob = os.path.abspath(sys.argv[1])
times = int(os.environ.get("HOB_KILLS") or (1000 if os.environ.get("HOB_FULL") else 8))
case = ["--do", "0s oven.mode=bake", "--fault", "igniter-bake:aged"]
draw = ["draw", "dial-four", "--sheet", "wiring", "--at", "2s", "-o"]
writes = {  # kind of file: the command without the file's name, which comes last
    "SVG": draw, "PNG": draw, "PDF": draw,
    "events": ["run", "dial-four", *case, "--until", "60s", "--trace", "igniter-bake.current", "--every", "1s", "--events"],
}
small = os.path.join(os.path.dirname(os.path.abspath(__file__)), "hostile", "legal-small.xml")
caches = {  # what is kept: the command that keeps it
    "table": ["table", small],
    "trials": ["suspects", small, "--seen", "sparks-slow", "--csv"],
}
if sys.argv[2:]:
    writes, caches = ({kind: of[kind] for kind in of if kind in sys.argv[2:]} for of in (writes, caches))
endings = {"SVG": ".svg", "PNG": ".png", "PDF": ".pdf", "events": ".csv"}
older = b"the older file\n"
n = failed = 0


def result(ok, words, said=""):
    global n, failed
    n += 1
    failed += not ok
    print(("ok" if ok else "not ok"), n, words)
    for line in said.splitlines()[:5]:
        print("#", line)
    sys.stdout.flush()


def put(path, data=older):
    with open(path, "wb") as f:
        f.write(data)


def get(path):
    with open(path, "rb") as f:
        return f.read()


def run(command, **more):
    return subprocess.run([hob, *command], stdout=subprocess.DEVNULL, stderr=subprocess.PIPE, **more)


def same(kind, a, b):
    """A PDF says when it was made."""
    if kind != "PDF":
        return a == b
    return len(a) == len(b) and a[:5] == b[:5] == b"%PDF-" and a.rstrip().endswith(b"%%EOF")


def kill_many(kind, command):
    folder = tempfile.mkdtemp()
    path = os.path.join(folder, "out" + endings[kind])
    began = time.monotonic()
    first = run([*command, path])
    usual = time.monotonic() - began
    whole = get(path)
    chance, torn, left, replaced = random.Random(20261126), 0, 0, 0
    for _ in range(times):
        put(path)
        child = subprocess.Popen([hob, *command, path], stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
        time.sleep(usual * chance.uniform(0.3, 1.2))
        child.kill()
        child.wait()
        now = get(path)
        torn += now != older and not same(kind, now, whole)
        replaced += now != older
        left = max(left, len(os.listdir(folder)) - 1)
    run([*command, path])
    after = sorted(os.listdir(folder))
    result(first.returncode == 0 and torn == 0 and after == [os.path.basename(path)],
           f"{kind}: killed {times} times, {replaced} after the new file was there: {torn} torn, at most {left} beside, "
           f"{len(after) - 1} left after the next start", first.stderr.decode())
    shutil.rmtree(folder)


def in_cache(folder):
    """Every file below: its name and what is in it."""
    return {name: get(os.path.join(at, name)) for at, _, names in os.walk(folder) for name in names}


def kill_cache(kind, command):
    folder = tempfile.mkdtemp()
    env = {**os.environ, "XDG_CACHE_HOME": folder}
    began = time.monotonic()
    first = subprocess.run([hob, *command], capture_output=True, env=env)
    usual = time.monotonic() - began
    whole = in_cache(folder)
    chance, torn, left, kept, other = random.Random(20261126), 0, 0, 0, 0
    for _ in range(times):
        shutil.rmtree(os.path.join(folder, "hobwright"), ignore_errors=True)
        child = subprocess.Popen([hob, *command], stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL, env=env)
        time.sleep(usual * chance.uniform(0.3, 1.2))
        child.kill()
        child.wait()
        now = in_cache(folder)
        torn += any(now[name] != whole[name] for name in now if name in whole)
        kept += all(name in now for name in whole)
        left = max(left, sum(name not in whole for name in now))
        again = subprocess.run([hob, *command], capture_output=True, env=env)
        other += again.stdout != first.stdout or again.returncode != first.returncode or in_cache(folder) != whole
    result(len(whole) > 0 and first.returncode == 0 and torn == 0 and other == 0,
           f"{kind}: killed {times} times, {kept} after all was kept: {torn} torn, at most {left} beside, "
           f"{other} different or left after the next start", first.stderr.decode())
    shutil.rmtree(folder)


def small_files():
    """As a full disk: what is beyond some bytes is refused."""
    signal.signal(signal.SIGXFSZ, signal.SIG_IGN)
    resource.setrlimit(resource.RLIMIT_FSIZE, (16, 16))


def no_room(kind, command):
    folder = tempfile.mkdtemp()
    path = os.path.join(folder, "out" + endings[kind])
    put(path)
    done = run([*command, path], preexec_fn=small_files, env={**os.environ, "XDG_CACHE_HOME": folder + "-none"})
    lines = done.stderr.decode().splitlines()
    result(done.returncode == 2 and get(path) == older and len(lines) == 1 and path in lines[0]
           and os.listdir(folder) == [os.path.basename(path)],
           f"{kind}: a full disk gives status 2, one line, and the older file whole", done.stderr.decode())
    shutil.rmtree(folder)


PR_CAPBSET_DROP, CAP_DAC_OVERRIDE = 24, 1  # prctl(2), capabilities(7)


def as_others():
    """Modes of files then count for root too, who alone may be able to reach the program."""
    if os.geteuid() == 0 and ctypes.CDLL(None).prctl(PR_CAPBSET_DROP, CAP_DAC_OVERRIDE, 0, 0, 0) != 0:
        raise OSError("cannot do without the right to write anywhere")


def read_only(kind, command):
    folder = tempfile.mkdtemp()
    path = os.path.join(folder, "out" + endings[kind])
    put(path)
    os.chmod(path, 0o666)
    os.chmod(folder, 0o555)
    done = run([*command, path], preexec_fn=as_others)
    lines = done.stderr.decode().splitlines()
    result(done.returncode == 2 and get(path) == older and len(lines) == 1 and path in lines[0],
           f"{kind}: a read-only folder gives status 2, one line, and the older file whole", done.stderr.decode())
    os.chmod(folder, 0o755)
    shutil.rmtree(folder)


print(f"1..{3 * len(writes) + len(caches)}")
for kind, command in caches.items():
    kill_cache(kind, command)
for kind, command in writes.items():
    kill_many(kind, command)
    no_room(kind, command)
    read_only(kind, command)
sys.exit(failed > 0)
