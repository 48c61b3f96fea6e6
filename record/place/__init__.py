"""Where things are: frames, positions, shapes, and what lies behind a face."""

from __future__ import annotations

from record.place.frames import EDGES, FaceFrame, HullFrame, face_frame, face_size, hull_frame
from record.place.prism import Outline, outline
from record.place.runs import PlacedStation, outside_radius_m, stations
from record.place.shapes import Shape, hull_frames, shapes

__all__ = [
    "EDGES",
    "FaceFrame",
    "HullFrame",
    "Outline",
    "PlacedStation",
    "Shape",
    "face_frame",
    "face_size",
    "hull_frame",
    "hull_frames",
    "outline",
    "outside_radius_m",
    "shapes",
    "stations",
]
