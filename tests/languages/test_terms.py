"""In Spanish a thing of the trade goes by one name.

The names are those of the trade in Spain and of the titles of ISO 8980-1 and ISO 13666 in Spanish, from memory.
"""

import re

import pytest

from tests.languages.test_catalogs import folder, messages

VALUE = re.compile(r"%\(\w+\)s|\{\w+\}|<[^<>]+>")
# What is meant -> what one of its names in Spanish must hold
NAMES = {
    r"axis": r"eje",
    r"base curve": r"curva base",
    r"blank": r"sin biselar|diámetro|recorta",
    r"blue filter": r"filtro de luz azul",  # a blue filter would be one that looks blue
    r"bridge": r"puente",
    r"dyes?": r"colorante",
    r"face-form angle|wrap": r"facial|envolvente",
    r"film": r"vídeo",
    r"finished": r"acabada",
    r"fitting cross": r"cruz de montaje",
    r"frames?": r"montura",
    r"mirror": r"espej",
    r"optical center": r"centro óptico",
    r"PD": r"DIP|DNP|interpupilar|nasopupilar",
    r"prism": r"prisma|prismática|base",
    r"script": r"JavaScript|programa",
    r"temple": r"varilla",
    r"twilight": r"poca luz",
    r"vertex distance": r"distancia de vértice",
}


@pytest.mark.parametrize(("meant", "name"), NAMES.items())
def test_each_thing_goes_by_one_name(meant, name):
    texts = [(message.id, said) for message, said in messages(folder() / "es.po")]
    texts = [(one if isinstance(one, str) else one[0], said[0]) for one, said in texts]
    about = [
        (VALUE.sub("", english), VALUE.sub("", spanish))
        for english, spanish in texts
        if re.search(rf"\b(?:{meant})\b", VALUE.sub("", english), 0 if meant.isupper() else re.IGNORECASE)
    ]
    assert about
    assert [(english, spanish) for english, spanish in about if not re.search(name, spanish, re.IGNORECASE)] == []


def test_nobody_is_called_by_two_pronouns():
    """Customers are usted: no text has a word of tú or vosotros."""
    familiar = re.compile(r"\b(tú|tu|tus|te|ti|contigo|vosotr\w+|vuestr\w+|os)\b", re.IGNORECASE)
    found = [said for _, all_said in messages(folder() / "es.po") for said in all_said]
    assert len(found) > 900
    assert [one for one in found if familiar.search(VALUE.sub("", one))] == []


def test_a_question_is_opened_too():
    texts = [said for _, all_said in messages(folder() / "es.po") for said in all_said]
    assert [one for one in texts if one.count("¿") != one.count("?") or one.count("¡") != one.count("!")] == []
    assert [one for one in texts if one.count("«") != one.count("»") or re.search("[“”]", one)] == []
