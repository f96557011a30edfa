#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
# plain-words.py: no sentence uses words that an American technician, or a Spanish-speaking customer in the
# United States, would not.  Every English sentence is in es.po, beside its translation.  (TAP)
import ast
import pathlib
import re
import sys

# What is not said, what is said instead, and the sentences that are allowed to.
ENGLISH = [
    (r"gather(ed|s|ing)?", "built up, collects", None),
    (r"may be repeated", "give this option again for each one", None),
    (r"live side", "hot side", None),
    (r"(igniter|burner|control|electrode|receptacle|regulator|sensor|supply|valve)'s (own |harness )?"
     r"(arm|ground|orifice|plug|ports?|position|side|wire)", "the part's name without 's", None),
    (r"(^|[;,] )\d: .*", "Enter 0 to …", None),
    (r", \d to \d.*", "from 0 to 1", None),
    (r", (m[²³]|[JW]/K)\.", "in m³", None),
    (r"(\d|%[.\d]*f) minutes", "min, or ngettext", r"^(Slow|Oven|(No|Still no) flame)"),
    (r"works (a|the) .*", "operates", r"works the same"),
    (r"leanest", "lower explosive limit (LEL)", None),
    (r"(short|long|hot|neutral) slot", "narrow, wide", None),
    (r"(hot|narrow|wide)( plug)? blade", "line, neutral: both may be as wide, and a hot one reads as burning", None),
    (r"volts across [^.]*plug", "from one side of a plug contact to the other", r"plug contact"),
    (r"the front(?! panel)", "the front panel", None),
    (r"\d × time", "10× speed", None),
    (r"the same acts|signs mean", "used the same way, legend", None),
    (r"^Shows .*", "Show, as all options", None),
    (r"[\w<>.-]+, [\w<>.-]+ (and|or) [\w<>.-]+", "a comma before 'and' or 'or'", r", out and back"),
]

# What is not said, what is said instead, and what the English must name to allow it.
SPANISH = [
    (r"cocinas?", "estufa", r"kitchen"),
    (r"magnetotérmicos?|disyuntor(es)?", "breaker", None),
    (r"interruptor(es)?", "breaker", r"switch|turn off the breaker|key"),
    (r"mandos?", "perilla, control", None),
    (r"cerillas?", "cerillo o fósforo", None),
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
    (r"fondo del horno", "piso del horno", None),
    (r"(?<!esta opción )se puede repetir", "repita esta opción", None),
    (r"pegad[oa] (abiert|cerrad)[oa]|posición (abierto|cerrado)", "trabado en posición cerrada", None),
    (r"chispas? (para|empieza)", "deja de chispear", None),
    (r"(voltaje|voltios) en (el|la) (contacto|empalme|relé)|(voltaje|voltios) a través", "entre los dos lados", None),
    (r"su breaker", "el breaker de la estufa", None),
    (r"decoloración", "cambio de color", None),
    (r"escribir|escribe", "imprimir", r"write|type"),
    (r"termostato límite", "termostato de límite", None),
    (r"patas?(?! de la estufa)", "hoja, espiga", None),
    (r"en un momento(?! dado)", "en un momento dado", None),
    (r"mezcla más pobre", "límite inferior de explosividad (LEL)", None),
]


def entries(text):
    """The places, the English and the Spanish of every entry."""
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
            places = " ".join(re.findall(r"^#: (.*)$", block, re.MULTILINE))
            for name, words in fields.items():
                if name.startswith("msgstr"):
                    yield places, fields["msgid"], words


def wrong(table, words, allowing):
    for pattern, instead, allowed in table:
        found = re.search(rf"(?<![\w'])({pattern})(?!\w)", words, re.IGNORECASE)
        if found and not (allowed and re.search(allowed, allowing, re.IGNORECASE)):
            yield f"'{found.group(0)}' in \"{words}\": say {instead}"


def wrong_english(places, english):
    """The cautions are worded apart, and have no comma before 'and'."""
    return [] if "base/hazard" in places else wrong(ENGLISH, english, english)


def wrong_spanish(english, spanish):
    return wrong(SPANISH, spanish, english)


def main():
    text = (pathlib.Path(__file__).parent.parent / "data/po/es.po").read_text(encoding="utf-8")
    said = list(entries(text))
    tests = [
        ("a wrong English word is found, a right one is not",
         [w for w in ["gas built up", "x, y, and z"] if list(wrong_english("", w))] +
         [w for w in ["gas gathered", "x, y and z"] if not list(wrong_english("", w))]),
        ("a wrong Spanish word is found, a right one is not",
         [w for w in ["estufa"] if list(wrong_spanish("range", w))] +
         [w for w in ["la cocina"] if not list(wrong_spanish("range", w))]),
        ("the program speaks as American technicians do",
         sorted({w for places, english, _ in said for w in wrong_english(places, english)})),
        ("es.po speaks as its readers do",
         [w for _, english, spanish in said for w in wrong_spanish(english, spanish)]),
    ]
    print(f"1..{len(tests)}")
    for n, (sentence, found) in enumerate(tests, 1):
        print("not ok" if found else "ok", n, sentence)
        for line in found:
            print("#", line)
    sys.exit(1 if any(found for _, found in tests) else 0)


main()
