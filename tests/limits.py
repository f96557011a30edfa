#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""limits.py HOB: whatever is in a file of 64 MB, the answer comes within 2 s of work and 500 MB.  (TAP)

And what a person asks is refused in one line, with the number that is allowed, where the answer would take too long."""
import os, resource, subprocess, sys, tempfile

hob = os.path.abspath(sys.argv[1])
ranges = os.path.join(os.path.dirname(os.path.abspath(__file__)), "..", "diagrams")
shipped = open(os.path.join(ranges, "dial-four.xml"), encoding="utf-8").read()
SIZE = 64 * 1000 * 1000
MOST_S, MOST_KB = 2.0, 500 * 1000


def filled(before, unit, after):
    """In pieces: a program that is started counts the memory of the one that starts it."""
    def write(f):
        f.write(before.encode())
        piece = unit.encode() * max(1, 65536 // len(unit))
        for _ in range((SIZE - len(before) - len(after)) // len(piece)):
            f.write(piece)
        f.write(after.encode())
    return write


def numbered(f):
    f.write(b"<range")
    i = 0
    while f.tell() < SIZE:
        f.write("".join(f' a{k}="1"' for k in range(i, i + 5000)).encode())
        i += 5000


root, end = '<range format="1" id="x" name="X" plate="natural-gas">', "</range>"
case, case_end = '<case format="1" range="dial-four">', "</case>"
body = shipped[shipped.index("<part"):shipped.rindex(end)]
files = {
    "empty elements": filled(root, "<x/>", end),
    "parts": filled(root, '<part id="a" kind="light"/>', end),
    "one tag of attributes": filled("<range", ' a="1"', "/>"),
    "attributes with names of their own": numbered,
    "one label": filled(root + '<part id="a" kind="light" label="', "x", '"/>' + end),
    "one note": filled(root + "<note>", "x", "</note>" + end),
    "one comment": filled(shipped + "<!--", "x", "-->"),
    "comments": filled(root, "<!---->", end),
    "instructions": filled(root, "<?a?>", end),
    "elements in elements": filled("", "<a>", ""),
    "one CDATA section": filled(root + "<note><![CDATA[", "x", "]]></note>" + end),
    "references": filled(root + "<note>", "&lt;", "</note>" + end),
    "blanks": filled("", " ", ""),
    "blanks in a range": filled(root, "\n", body + end),
    "bytes of 0": filled("", "\0", ""),
    "no XML": filled("", "\x80<>", ""),
    "signs that begin a tag": filled("", "<", ""),
    "a quote that never ends": filled('<range a="', "x", ""),
    "a range many times": filled(root, body, end),
    "wires": filled(root + body, '<wire id="w" from="cord.line" to="cord.neutral" length="1 m"/>', end),
    "bends": filled(root + '<wire id="w">', '<bend x="1" y="1"/>', "</wire>" + end),
    "acts of a case": filled(case, '<do value="1s knob-lf=high"/>', case_end),
    "acts with wrong names": filled(case, '<do value="1s knbo-fl=hihg"/>', case_end),
    "blanks in a case": filled(case, " ", case_end),
}

questions = {  # command: a word of the one line that says no
    "run dial-four --until 1e9s": "1,000 h",
    "run dial-four --until 1001h": "1,000 h",
    "draw dial-four --sheet wiring --at 1e9s -o x.svg": "1,000 h",
    "run dial-four --until 1s --do 1e9s,knob-lf=high": "1,000 h",
    "run dial-four --until 1s --fault igniter-bake:aged@1e9s": "1,000 h",
    "run dial-four --until 1s --setting receptacle.volts=110,V@1e9s": "1,000 h",
    "read dial-four --test amps,igniter-bake,@,1e9s": "1,000 h",
}
n = failed = 0


def result(ok, words, said=""):
    global n, failed
    n += 1
    failed += not ok
    print(("ok" if ok else "not ok"), n, words)
    for line in said.splitlines()[:3]:
        print("#", line[:300])
    sys.stdout.flush()


def measured(command, folder):
    """Status, what it says, s of work, kB."""
    read, write = os.pipe()
    pid = os.fork()
    if pid == 0:
        os.close(read)
        os.dup2(write, 2)
        os.dup2(os.open(os.devnull, os.O_WRONLY), 1)
        os.chdir(folder)
        resource.setrlimit(resource.RLIMIT_CPU, (30, 30))
        os.execv(hob, [hob, *command])
    os.close(write)
    said = b""
    while piece := os.read(read, 65536):
        said += piece
    os.close(read)
    _, status, usage = os.wait4(pid, 0)
    return os.waitstatus_to_exitcode(status), said.decode(errors="replace"), usage.ru_utime + usage.ru_stime, usage.ru_maxrss


def with_little_memory(kb):
    """Under a sanitizer, which itself takes more addresses than that, no large block is given."""
    with open(hob, "rb") as f:
        sanitized = b"__asan_init" in f.read()
    few = "allocator_may_return_null=1:max_allocation_size_mb=1:" + os.environ.get("ASAN_OPTIONS", "")
    return subprocess.run([hob, "draw", "dial-four", "--sheet", "wiring", "--at", "0s", "-o", os.path.join(tempfile.gettempdir(), "hob-little.png")],
                          stdout=subprocess.DEVNULL, stderr=subprocess.PIPE, text=True, env=os.environ | ({"ASAN_OPTIONS": few} if sanitized else {}),
                          preexec_fn=lambda: sanitized or resource.setrlimit(resource.RLIMIT_AS, (kb * 1000, kb * 1000)))


print(f"1..{len(files) + len(questions) + 1}")
with tempfile.TemporaryDirectory() as folder:
    path = os.path.join(folder, "large.xml")
    for name, fill in files.items():
        with open(path, "wb") as f:
            fill(f)
        status, said, work, size = measured(["check", path], folder)
        result(status in (0, 1, 2) and work < MOST_S and size < MOST_KB and (status == 0 or said != ""),
               f"64 MB of {name}: status {status}, {work:.2f} s, {size // 1000} MB", said)
    for command, word in questions.items():
        words = [w.replace(",", " ") for w in command.split()]
        status, said, work, _ = measured(words, folder)
        result(status == 2 and len(said.splitlines()) == 1 and word in said and work < MOST_S,
               f"hob {' '.join(words)}: refused with the number allowed", said)
done = with_little_memory(100000)
result(done.returncode == 0 or (done.returncode > 0 and done.stderr.splitlines()[-1].startswith("hob: not enough memory")), "little memory: a line says so, no crash",
       done.stderr)
if os.path.exists(os.path.join(tempfile.gettempdir(), "hob-little.png")):
    os.remove(os.path.join(tempfile.gettempdir(), "hob-little.png"))
sys.exit(failed > 0)
