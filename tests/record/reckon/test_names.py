"""Every sum can be asked for by its name, and only its own subject is loaded for it."""

import subprocess
import sys
from importlib import import_module
from pathlib import Path

import record.reckon
from record.reckon import SUMS
from record.reckon.names import SUBJECTS


def test_every_subject_is_listed_and_every_sum_of_it():
    files = {each.stem for each in Path(record.reckon.__file__).parent.glob("of_*.py")}
    assert files == set(SUBJECTS)
    for subject, names in SUBJECTS.items():
        declared = import_module(f"record.reckon.{subject}").SUMS
        assert [one.name for one in declared] == names.split()
    assert len(SUMS) == sum(len(names.split()) for names in SUBJECTS.values())


def test_one_sum_loads_its_own_subject_alone():
    """In an interpreter of its own, where nothing is loaded yet."""
    program = (
        "import sys; from record.reckon import SUMS; SUMS['heap'];"
        "print(*(name for name in sys.modules if name.startswith('record.reckon.of_')))"
    )
    done = subprocess.run([sys.executable, "-c", program], check=True, capture_output=True)
    assert done.stdout.decode().split() == ["record.reckon.of_sand"]


def test_a_name_that_is_none_is_none():
    assert SUMS.get("zzz") is None and "zzz" not in SUMS and "heap" in SUMS
