"""A record of the small shelter, on disk."""

import pytest

from record.log import Log
from tests.manual import legible as checks
from tests.manual.books import BUILT, KEPT
from tests.record.records import post_text


@pytest.fixture(scope="session")
def _built(tmp_path_factory):
    path = tmp_path_factory.mktemp("built") / "fern-bank"
    with Log.make(path) as log:
        for text in (BUILT, KEPT):
            post_text(log, text)
    return path


@pytest.fixture
def folder(_built, tmp_path):
    """A copy of the small shelter's record, for one test."""
    import shutil

    return shutil.copytree(_built, tmp_path / "fern-bank")


@pytest.fixture
def log(folder):
    with Log.open(folder) as log:
        yield log


@pytest.fixture(scope="session")
def legible():
    """What every drawing must be, whatever it shows."""
    return checks.check
