"""Editions of the small shelter, built once for every test that looks at what is printed."""

from __future__ import annotations

from functools import cache

from manual.build import build
from tests.manual.books import entries


@cache
def edition(reader="owner"):
    return build(entries(), reader=reader)
