"""
Where things are: frames, positions, shapes, and what lies behind a face.

Frames are a tree of three steps: hulls hang on the site grid; the stations of a run on the grid or
in a hull; things on the grid, in a hull, or by their length along a run. What a crew writes may
still hang on itself (``circles``); then it has no place. Places stay as they were told.
"""

from __future__ import annotations

from record.place.carried import carried
from record.place.frames import (
    EDGES,
    FaceFrame,
    HullFrame,
    face_frame,
    face_size,
    hull_frame,
    is_round,
    shell_m,
    thickness_m,
)
from record.place.levels import LevelRun, level_runs
from record.place.measured import measured
from record.place.nearby import Nearby
from record.place.plan import Below, below, plan_box, roof_m
from record.place.prism import Outline, crossed, outline
from record.place.runs import PlacedStation, outside_radius_m, stations
from record.place.shapes import Shape, Unplaced, hull_frames, openings, run_gaps, shapes, unplaced
from record.place.tied import TiedPoint, tied_points

__all__ = [
    "EDGES",
    "Below",
    "FaceFrame",
    "HullFrame",
    "LevelRun",
    "Nearby",
    "Outline",
    "PlacedStation",
    "Shape",
    "TiedPoint",
    "Unplaced",
    "below",
    "carried",
    "crossed",
    "face_frame",
    "face_size",
    "hull_frame",
    "hull_frames",
    "is_round",
    "level_runs",
    "measured",
    "openings",
    "outline",
    "outside_radius_m",
    "plan_box",
    "roof_m",
    "run_gaps",
    "shapes",
    "shell_m",
    "stations",
    "thickness_m",
    "tied_points",
    "unplaced",
]
