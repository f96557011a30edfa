#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
# spanish-words.py: no entry of es.po uses a word that a customer in the United States would not.  (TAP)
import ast
import pathlib
import re
import sys

# What is not said, what is said instead, and what the English must name to allow it.
WRONG = [
    (r"cocinas?", "estufa", r"kitchen"),
    (r"magnetotérmicos?|disyuntor(es)?", "breaker", None),
    (r"interruptor(es)?", "breaker", r"switch|turn off the breaker|key"),
    (r"mandos?", "perilla, control", None),
    (r"cerillas?|cerillos?", "fósforo", None),
    (r"averías?|averiad[oa]s?", "falla", None),
    (r"calderas?", "calefactor de gas", None),
    (r"cuadro (de|eléctrico)|del cuadro|al cuadro", "panel", None),
    (r"bornes?", "terminal", None),
    (r"hilos?", "cable", None),
    (r"colector(es)?", "múltiple", None),
    (r"grat[ií]n\w*|horneados?", "asar, asador, hornear", None),
    (r"tensión|tensiones", "voltaje", None),
    (r"fases?", "línea, vivo", None),
    (r"láminas?", "diagrama", None),
    (r"rearm\w+", "reinicio, restablecer", None),
    (r"puls(e|ar|ad[oa]s?|ador(es)?)", "oprimir", None),
    (r"clavijas?", "hoja, espiga", None),
    (r"enchufes? de pared|toma de corriente", "tomacorriente", None),
    (r"bombillas?", "foco", None),
    (r"ordenador(es)?", "computadora", None),
    (r"ficheros?", "archivo", None),
    (r"órdenes|la orden|una orden", "comando", None),
    (r"deprisa", "rápido", None),
    (r"gas licuado", "gas LP", None),
    (r"sucesos?", "evento", None),
    (r"vosotros|vuestr[oa]s?|os", "ustedes", None),
    (r"tus?|tuy[oa]s?|tú", "su (usted)", None),
    (r"\d,\d{1,2}(?!\d)", "a decimal point", None),
]


def entries(text):
    """English and Spanish of every entry."""
    for block in text.split("\n\n"):
        fields, name = {}, None
        for line in block.split("\n"):
            begun = re.match(r'(msgid_plural|msgid|msgstr(?:\[\d\])?) (".*")$', line)
            if begun:
                name = begun.group(1)
                fields[name] = ast.literal_eval(begun.group(2))
            elif line.startswith('"') and name:
                fields[name] += ast.literal_eval(line)
        if fields.get("msgid"):
            for name, words in fields.items():
                if name.startswith("msgstr"):
                    yield fields["msgid"], words


def wrong_words(english, spanish):
    for pattern, instead, allowed in WRONG:
        found = re.search(rf"(?<![\w'])({pattern})(?!\w)", spanish, re.IGNORECASE)
        if found and not (allowed and re.search(allowed, english, re.IGNORECASE)):
            yield f"'{found.group(0)}' in \"{spanish}\": say {instead}"


def main():
    catalog = pathlib.Path(__file__).parent.parent / "data/po/es.po"
    said = [w for pair in entries(catalog.read_text(encoding="utf-8")) for w in wrong_words(*pair)]
    print("1..2")
    ok = not list(wrong_words("range", "estufa")) and len(list(wrong_words("range", "la cocina"))) == 1
    print("ok 1" if ok else "not ok 1", "a wrong word is found, a right one is not")
    print("not ok 2" if said else "ok 2", "es.po speaks as its readers do")
    for line in said:
        print("#", line)
    sys.exit(0 if ok and not said else 1)


main()
