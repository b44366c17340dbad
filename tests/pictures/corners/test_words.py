"""The words of corner sheets: all from the catalogue, in any language, and none too long for its room."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

import pytest

from model3d.pictures.corners.draw import corner_svg
from model3d.pictures.corners.judging import corner_faults
from model3d.pictures.corners.page import corner_page
from model3d.pictures.theme import THEME
from model3d.wording import LANGUAGES, catalogue
from tests.layout.every_joint import FAMILIES
from tests.pictures.corners.sheets import sheets, sheets_in
from tests.pictures.long_words import in_svg, pretended, unmarked


@pytest.fixture
def long_words(monkeypatch: pytest.MonkeyPatch) -> Iterator[None]:
    """A language whose every word is 40 % longer takes the place of German."""
    yield from pretended(monkeypatch)


@pytest.mark.usefixtures("long_words")
@pytest.mark.parametrize("family", FAMILIES)
def test_longer_words(family: str) -> None:
    """With every word 40 % longer and marked, no sheet has a fault, and every word that is drawn carries the mark: each
    is in the catalogue. As many texts are drawn as in English.
    """
    for sheet, english in zip(sheets_in(catalogue("de"), family), sheets(family), strict=True):
        page = corner_page(sheet, THEME)
        assert corner_faults(page, THEME) == (), sheet.title
        texts = in_svg(corner_svg(page, THEME))
        assert [text for text in texts if unmarked(text, 2)] == [], sheet.title
        assert len(texts) == len(in_svg(corner_svg(corner_page(english, THEME), THEME)))


@pytest.mark.usefixtures("long_words")
def test_longer_words_of_what_is_not_right() -> None:
    """The same where every state is outside what is allowed, and a hose has no shape."""
    for sheet in (*sheets_in(catalogue("de"), "a-square"), *sheets_in(catalogue("de"), "c-low")):
        window, hoses = sheet.window, sheet.hoses
        if window is not None:
            window = replace(window, states=tuple(replace(s, right=False) for s in window.states))
        if hoses is not None:
            hoses = replace(hoses, rows=tuple((name, apart, None, False) for name, apart, _, _ in hoses.rows))
        page = corner_page(replace(sheet, window=window, hoses=hoses), THEME)
        assert corner_faults(page, THEME) == (), sheet.title
        assert all(row.sign is not None for row in page.rows[3:] if len(row.words) == 3)
        assert [text for text in in_svg(corner_svg(page, THEME)) if unmarked(text, 2)] == []


@pytest.mark.parametrize("language", [language for language in LANGUAGES if language != "en"])
@pytest.mark.parametrize("family", FAMILIES)
def test_other_languages(family: str, language: str) -> None:
    """In every other language no sheet has a fault, and no sentence is that of the English sheet."""
    words = catalogue(LANGUAGES[LANGUAGES.index(language)])
    for sheet, english in zip(sheets_in(words, family), sheets(family), strict=True):
        page = corner_page(sheet, THEME)
        assert corner_faults(page, THEME) == (), sheet.title
        same = set(in_svg(corner_svg(page, THEME))) & set(in_svg(corner_svg(corner_page(english, THEME), THEME)))
        assert [text for text in same if unmarked(text, 4)] == []
