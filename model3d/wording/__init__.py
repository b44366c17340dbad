"""The words that people read, by key and language."""

from model3d.wording.catalogue import ENGLISH, LANGUAGES, Catalogue, Language, catalogue

__all__ = ["ENGLISH", "LANGUAGES", "Catalogue", "Language", "catalogue"]
