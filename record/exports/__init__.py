"""The record for other programs, in open formats: each is written from a View and nothing else."""

from __future__ import annotations

from record.exports.csv_tables import csv_tables
from record.exports.earth import Tie, read_tie
from record.exports.geojson import geojson
from record.exports.items import Item, items
from record.exports.needed import NotInstalled
from record.exports.save import save_file, save_folder

__all__ = [
    "Item",
    "NotInstalled",
    "Tie",
    "csv_tables",
    "geojson",
    "items",
    "read_tie",
    "save_file",
    "save_folder",
]
