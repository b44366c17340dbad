"""Files that people write: YAML to typed values, units at the edge, every fault with its line and key."""

from model3d.sources.entries import Entry, FormatOne, Name
from model3d.sources.faults import Fault, FaultyFile, near_miss
from model3d.sources.lengths import Distance, Length, Size, length_mm
from model3d.sources.marked import MarkedList, MarkedMap, Place, Source, place_in, read_source, source_of
from model3d.sources.schema import json_schema
from model3d.sources.typed import Salvage, read_typed, salvage

__all__ = [
    "Distance",
    "Entry",
    "Fault",
    "FaultyFile",
    "FormatOne",
    "Length",
    "MarkedList",
    "MarkedMap",
    "Name",
    "Place",
    "Salvage",
    "Size",
    "Source",
    "json_schema",
    "length_mm",
    "near_miss",
    "place_in",
    "read_source",
    "read_typed",
    "salvage",
    "source_of",
]
