#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""pseudo.py ES.PO FOLDER STAMP: a catalog xx in FOLDER whose every sentence is the English one made 40% longer,
so that a picture with room for it has room for other languages."""
import os
import re
import subprocess
import sys


def longer(text):
    """Each word grows by 40%; what printf and markup read stays."""
    def grow(match):
        word = match.group(0)
        return word + "eaoui"[: max(1, round(0.4 * len(word)))] if word.isalpha() and len(word) > 1 else word

    parts = re.split(r"(%[-0-9.]*[a-zA-Z%]|\\.|<[^>]*>|&[a-z]+;)", text)
    return "".join(part if k % 2 else re.sub(r"\w+", grow, part) for k, part in enumerate(parts))


def entries(lines):
    """Each entry's lines with its msgstr replaced."""
    block, ids, state = [], [], None
    for line in lines + [""]:
        if line == "":
            yield block, ids
            block, ids, state = [], [], None
        elif line.startswith("msgid_plural"):
            block.append(line)
            state = "plural"
        elif line.startswith("msgid "):
            state = "id"
            ids.append(line[6:])
            block.append(line)
        elif line.startswith("msgstr"):
            state = "str"
            block.append(line.split(" ")[0] + " @")
        elif line.startswith('"'):
            if state == "id":
                ids.append(line)
            if state != "str":
                block.append(line)
        else:
            block.append(line)


def main():
    source, folder, stamp = sys.argv[1:]
    where = os.path.join(folder, "xx", "LC_MESSAGES")
    os.makedirs(where, exist_ok=True)
    out = ['msgid ""', 'msgstr "Content-Type: text/plain; charset=UTF-8\\nPlural-Forms: nplurals=2; plural=n!=1;\\n"', ""]
    with open(source, encoding="utf-8") as file:
        for block, ids in entries(file.read().split("\n")):
            if not ids or "".join(ids) == '""' or any(line.startswith("#~") for line in block):
                continue
            grown = "\n".join(['""'] + ['"' + longer(part[1:-1]) + '"' for part in ids])
            out += [line.replace("@", grown) if line.startswith("msgstr") else line for line in block] + [""]
    pseudo = os.path.join(folder, "xx.po")
    with open(pseudo, "w", encoding="utf-8") as file:
        file.write("\n".join(out))
    subprocess.run(["msgfmt", "-o", os.path.join(where, "hobwright.mo"), pseudo], check=True)
    with open(stamp, "w", encoding="utf-8"):
        pass


main()
