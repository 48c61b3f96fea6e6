"""Every answer about the demo's record, for programs, holds to its schema: a full, messy record."""

import json
import sys

import pytest

from manual.cli import main

ASKS = {
    "behind": ["A-L3"],
    "beneath": ["24.00,6.00"],
    "fixings": ["A-R1", "--depth", "40 mm", "--size", "300 mm x 200 mm"],
    "find": ["AIR-IN/2"],
    "profile": ["D-1"],
    "upstream": ["D-1"],
    "downstream": ["DV-1"],
    "landmarks": [],
    "rests-on": ["W1"],
    "show": ["AU-1"],
    "history": ["DV-1"],
    "entries": [],
    "recall": ["V-0417"],
    "proofs": [],
    "passes": [],
    "balance": [],
    "left": [],
    "drift": [],
    "fill": [],
    "ready": ["handover"],
    "figures": [],
    "due": ["--as-of", "2023-12-01"],
    "visits": ["--as-of", "2024-06-12"],
    "verify": [],
}


@pytest.mark.parametrize("reader", ["owner", "technician"])
@pytest.mark.parametrize("command", ASKS)
def test_an_answer_holds_to_its_schema(built, monkeypatch, capsys, command, reader):
    """What is printed is held to its schema by tests/conftest.py, else the exit is a fault."""
    reads = [] if command == "verify" else ["--reader", reader]
    words = [command, *ASKS[command], "--json", *reads]
    monkeypatch.setenv("ASBURIED_CONFIG", str(built / "keys"))
    monkeypatch.setattr(sys, "argv", ["asburied", "--record", str(built / "larch-end"), *words])
    monkeypatch.setattr(sys, "stdout", sys.stdout)
    with pytest.raises(SystemExit) as left:
        main()
    out, errors = capsys.readouterr()
    assert int(left.value.code or 0) in (0, 1) and errors == ""
    assert json.loads(out)
