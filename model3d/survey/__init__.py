"""A room's survey: over-determined lengths and angles adjusted by least squares, and what they say of each other."""

from model3d.survey.adjust import Adjustment, NotFixed, adjust
from model3d.survey.readings import AngleReading, LengthReading, Reading
from model3d.survey.report import JudgedReading, SurveyedCorner, SurveyedWall, SurveyReport, Suspicion
from model3d.survey.said import outcome_text, survey_data, survey_findings, survey_text
from model3d.survey.start import sketched
from model3d.survey.survey import survey

__all__ = [
    "Adjustment",
    "AngleReading",
    "JudgedReading",
    "LengthReading",
    "NotFixed",
    "Reading",
    "SurveyReport",
    "SurveyedCorner",
    "SurveyedWall",
    "Suspicion",
    "adjust",
    "outcome_text",
    "sketched",
    "survey",
    "survey_data",
    "survey_findings",
    "survey_text",
]
