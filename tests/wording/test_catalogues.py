"""Catalogues of all languages, against each other and against what is asked of them."""

from __future__ import annotations

import re
from dataclasses import replace
from pathlib import Path

import pytest

from model3d.build.project import load
from model3d.wording import ENGLISH, LANGUAGES, catalogue
from model3d.wording.catalogue import differences, placeholders
from tests.layout.every_joint import FAMILIES, family_of

PLAN = Path(__file__).parents[2] / "gallery" / "bay" / "plan.yaml"


@pytest.mark.parametrize("language", LANGUAGES)
def test_catalogues_have_the_same_keys_and_placeholders(language: str) -> None:
    """Every language says everything that English does, with the same placeholders, and nothing else."""
    assert language in LANGUAGES
    assert differences(ENGLISH.texts, catalogue(LANGUAGES[LANGUAGES.index(language)]).texts) == ()


def test_a_lost_key_and_a_lost_placeholder_are_found() -> None:
    """A catalogue without a key, and one that forgets a placeholder, are both reported."""
    texts = dict(ENGLISH.texts)
    del texts["legend.hose"]
    texts["note.mm"] = "mm"
    assert differences(ENGLISH.texts, texts) == ("legend.hose: only in one of them", "note.mm: placeholders differ")


def test_languages_differ() -> None:
    """A second language is a translation: nine texts of ten that hold a word are not the English ones."""
    words = [k for k, text in ENGLISH.texts.items() if len(re.sub(r"\{[^}]*\}|[^a-zA-Z]", "", text)) > 3]
    same = [k for k in words if catalogue("de").texts[k] == ENGLISH.texts[k]]
    assert len(same) < 0.1 * len(words), same


def test_numbers_are_written_as_the_language_does() -> None:
    """A decimal comma in German, a point in English; whole numbers without either."""
    assert ENGLISH.say("note.mm", mm=12.5) == "12.5 mm"
    assert catalogue("de").say("note.mm", mm=12.5) == "12,5 mm"
    assert catalogue("de").say("note.mm", mm=26.0) == "26 mm"


def test_an_unknown_key_or_a_value_left_out_is_refused() -> None:
    """What is not in the catalogue is not printed as something else."""
    with pytest.raises(KeyError, match="no-such-key"):
        ENGLISH.say("no-such-key")
    with pytest.raises(KeyError, match="mm"):
        ENGLISH.say("note.mm")


def test_snags_of_the_reference_families_are_translated() -> None:
    """The English text of each snag is the family file's own; another family's text stands as it is."""
    for name in FAMILIES:
        family = family_of(name)
        for snag in family.snags:
            key = f"snag.{family.id}.{snag.at}"
            assert ENGLISH.texts[key] == snag.text
            assert catalogue("de").translated(snag.text, key) == catalogue("de").texts[key]
    assert catalogue("de").translated("Mind the dog.", "snag.a-square.valve") == "Mind the dog."


def test_placeholders_are_named() -> None:
    """Placeholders go by name, so that a language may put them in its own order."""
    for language in LANGUAGES:
        for key, text in catalogue(language).texts.items():
            assert all(name.isidentifier() for name in placeholders(text)), key


def test_a_project_speaks_its_language() -> None:
    """The same plan in German: the same moves in other words, every title and line of them."""
    english = load(PLAN)
    german = replace(english, language="de")
    for one, other in zip(english.steps, german.steps, strict=True):
        assert [leg.to_mm for leg in one.legs] == [leg.to_mm for leg in other.legs]
        assert one.title != other.title
        assert all(a.text != b.text for a, b in zip(one.actions, other.actions, strict=True))
    assert german.steps[0].title == "Strang A: zuerst alle Halter"
