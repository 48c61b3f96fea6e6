"""asburied reckon on the command line: works without a record, refuses in sentences."""

import json
import sys

import pytest

from tests.record.cli.test_every_command import python

PROGRAM = (
    "import sys; from record.cli import app, run; sys.argv=['asburied',*sys.argv[1:]]; run(app)"
)


def asburied(*words):
    return python(PROGRAM, *words)


def test_it_needs_no_record(tmp_path, monkeypatch):
    done = asburied("reckon", "dew-point", "air=25 °C", "humidity=60 %")
    assert done.returncode == 0, done.stderr
    assert "16.7 °C (62.1 °F)" in done.stdout
    assert "ASHRAE" in done.stdout and "caution" in done.stdout


def test_alone_it_lists_the_sums_and_with_a_name_what_it_takes():
    listed = asburied("reckon").stdout
    assert "float-level" in listed and "dew-point" in listed
    told = asburied("reckon", "heap").stdout
    assert "Example: asburied reckon heap" in told and "bulking" in told


def test_json():
    done = asburied("reckon", "sand", "along=0.75 m", "across=0.75 m", "from=46.95 m",
                    "to=49.65 m", "--json")  # fmt: skip
    form = json.loads(done.stdout)
    assert form["results"][0]["unit"] == "m3"
    assert form["results"][0]["value"] == pytest.approx(1.51875)


@pytest.mark.parametrize(
    ("words", "status", "said"),
    [
        (("dew-pont",), 2, "Did you mean dew-point?"),
        (("zzz",), 2, "`asburied reckon` lists them"),
        (("dew-point", "air=25"), 1, "air: 25 has no unit"),
        (("dew-point", "air=25 °C", "humidity=0 %"), 1, "dew-point: a relative humidity of 0"),
        (("dew-point", "air=25 °C"), 1, "humidity is missing"),
        (("heap", "volume=-1 m³"), 1, "less than nothing"),
    ],
)
def test_what_cannot_be_is_a_sentence(words, status, said):
    done = asburied("reckon", *words)
    assert done.returncode == status
    assert said in done.stderr and "Traceback" not in done.stderr
    assert done.stdout == ""


def test_a_simple_sum_loads_no_heavy_library():
    program = (
        "import sys; from record.cli import app\n"
        "from record.reckon import SUMS, read\n"
        "one = SUMS['heap']; one.work(read(one, ['volume=1 m³']).given)\n"
        "heavy = ('numpy', 'scipy', 'fluids', 'sqlalchemy', 'weasyprint')\n"
        "print([name for name in heavy if name in sys.modules])"
    )
    assert python(program).stdout.strip() == "[]", sys.version


def test_the_command_line_alone_loads_nothing_of_the_record():
    """A sum needs no record: what a command needs, it loads when it is asked."""
    program = (
        "import sys; import manual.cli\n"
        "print([n for n in sys.modules if n.startswith('record.') and n.split('.')[1] != 'cli'])"
    )
    assert python(program).stdout.strip() == "[]"
