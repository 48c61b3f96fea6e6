"""The table of threats names tests that are there."""

import re
from pathlib import Path

TESTS = Path(__file__).parent


def named():
    words = (TESTS.parent / "DEVELOPERS.md").read_text(encoding="utf-8")
    return re.findall(
        r"`(test_[a-z0-9_]+)`", words.partition("## Threats")[2].partition("\n## ")[0]
    )


def test_every_test_that_the_table_of_threats_names_is_there():
    every = "".join(file.read_text(encoding="utf-8") for file in TESTS.rglob("test_*.py"))
    assert len(named()) > 12
    assert [name for name in named() if not re.search(rf"def {name}\b", every)] == []
