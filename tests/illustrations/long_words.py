"""A language whose every word is 40 % longer than in English."""

from __future__ import annotations

import re
from dataclasses import replace

from model3d.illustrations.picture import Job
from model3d.steps import plan_steps
from model3d.wording import ENGLISH, Catalogue

_WORD = re.compile(r"\{[^}]*\}|[A-Za-z]+")


def longer(text: str) -> str:
    """Each word 40 % longer, and marked, so that it is known again."""

    def stretched(found: re.Match[str]) -> str:
        word = found.group(0)
        return word if word.startswith("{") else word + "§" * max(1, round(0.4 * (len(word) + 1)))

    return _WORD.sub(stretched, text)


def in_long_words(job: Job) -> Job:
    """The same job with every word from the catalogue longer, those of its steps as well."""
    kept = {key for key in ENGLISH.texts if key.startswith(("number.", "letter."))}
    texts = {key: text if key in kept else longer(text) for key, text in ENGLISH.texts.items()}
    words = Catalogue(language="en", texts=texts)
    return replace(job, words=words, steps=plan_steps(job.layout, job.scene, job.family, words))
