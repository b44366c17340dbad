"""The look of a set of pictures as a file: page, line widths, letters, colours. One theme serves shaded pictures, films
and line drawings, so that they match.
"""

from model3d.themes.theme import LEAST_FOR_LINES as LEAST_FOR_LINES
from model3d.themes.theme import LEAST_FOR_WORDS as LEAST_FOR_WORDS
from model3d.themes.theme import WIDTHS_MM as WIDTHS_MM
from model3d.themes.theme import ColourName as ColourName
from model3d.themes.theme import Theme as Theme
from model3d.themes.theme import Tinted as Tinted
from model3d.themes.theme import UnknownTheme as UnknownTheme
from model3d.themes.theme import contrast as contrast
from model3d.themes.theme import find_theme as find_theme
from model3d.themes.theme import known_themes as known_themes
from model3d.themes.theme import mixed as mixed
from model3d.themes.theme import read_theme as read_theme
