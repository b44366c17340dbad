"""The words of bench pictures: all from the catalogue, in any language, and none too long for its room."""

from __future__ import annotations

from collections.abc import Iterator

import pytest

from model3d.pictures.bench.draw import bench_svg
from model3d.pictures.bench.judging import bench_faults
from model3d.pictures.bench.page import bench_page
from model3d.pictures.theme import THEME
from model3d.wording import LANGUAGES, catalogue
from tests.layout.every_joint import FAMILIES
from tests.pictures.bench.benches import benches, benches_in
from tests.pictures.long_words import in_svg, pretended, unmarked


@pytest.fixture
def long_words(monkeypatch: pytest.MonkeyPatch) -> Iterator[None]:
    """A language whose every word is 40 % longer takes the place of German."""
    yield from pretended(monkeypatch)


@pytest.mark.usefixtures("long_words")
@pytest.mark.parametrize("family", FAMILIES)
def test_longer_words(family: str) -> None:
    """With every word 40 % longer and marked, no page has a fault, and every word that is drawn carries the mark: each
    is in the catalogue. As many texts are drawn as in English.
    """
    for made, english in zip(benches_in(catalogue("de"), family), benches(family), strict=True):
        page = bench_page(made, THEME)
        assert bench_faults(page, THEME) == (), made.mark
        texts = in_svg(bench_svg(page, THEME))
        assert [text for text in texts if unmarked(text, 2)] == [], made.mark
        assert len(texts) == len(in_svg(bench_svg(bench_page(english, THEME), THEME)))


def test_a_literal_is_found() -> None:
    """English has no marks: its texts are found, all that hold a word."""
    texts = in_svg(bench_svg(bench_page(benches("a-square")[0], THEME), THEME))
    assert "Piece r-1 on the bench" in texts
    assert len([text for text in texts if unmarked(text, 2)]) > 20


@pytest.mark.parametrize("language", [language for language in LANGUAGES if language != "en"])
@pytest.mark.parametrize("family", FAMILIES)
def test_other_languages(family: str, language: str) -> None:
    """In every other language no page has a fault, and no sentence is that of the English page."""
    words = catalogue(LANGUAGES[LANGUAGES.index(language)])
    for made, english in zip(benches_in(words, family), benches(family), strict=True):
        page = bench_page(made, THEME)
        assert bench_faults(page, THEME) == (), made.mark
        same = set(in_svg(bench_svg(page, THEME))) & set(in_svg(bench_svg(bench_page(english, THEME), THEME)))
        assert [text for text in same if unmarked(text, 4)] == []
