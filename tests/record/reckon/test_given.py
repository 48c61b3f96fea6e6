"""key=value words are read as crews write them, and every fault is told at once."""

import pytest

from record.reckon import SUMS, CannotReckon, read, supplied

HEAP = SUMS["heap"]


def faults_of(name, *words):
    with pytest.raises(CannotReckon) as refused:
        read(SUMS[name], words)
    return refused.value.faults


def test_units_are_as_crews_write_them():
    said = read(HEAP, ["volume=53.64 ft³", "width=8' 10 5/16\"", "bulking=30 %"])
    assert said.given["volume"] == pytest.approx(1.519, abs=1e-3)
    assert said.given["width"] == pytest.approx(2.70, abs=1e-3)
    assert said.given["bulking"] == 0.3


def test_what_is_not_given_is_the_usual_and_said_to_be():
    said = read(HEAP, ["volume=1 m³"])
    assert said.given["repose"] == 34 and "repose" in said.usual
    assert "width" not in said.given and "width" not in said.usual


def test_every_fault_is_told_at_once():
    found = faults_of("heap", "volume=1.519", "widht=2 m", "repose=60", "34")
    assert [fault.problem for fault in found] == [
        "volume: 1.519 has no unit",
        "heap takes no widht",
        "repose: 60 has no unit",
        '"34" is no key=value',
    ]
    assert found[1].remedy == "Did you mean width=…?"


def test_the_place_in_the_word_is_marked():
    [fault] = faults_of("heap", "volume=1.5 furlongs")
    assert fault.word[fault.start : fault.end] == "furlongs"
    assert fault.lines()[2] == "   | " + " " * len("volume=1.5 ") + "^" * len("furlongs")


def test_a_row_is_read_column_by_column_and_its_fault_placed():
    [fault] = faults_of("fall", "station=0 m; 47.85 m", "station=5 m; 47.9")
    assert fault.problem == "station: invert: 47.9 has no unit"
    assert fault.word[fault.start : fault.end] == "47.9"


@pytest.mark.parametrize("text", ["0 m", "0 m; 1 m; 2 mm; 3 m", ""])
def test_a_row_has_its_parts(text):
    [fault] = faults_of("fall", f"station={text}")
    assert "parts, not 2 to 3" in fault.problem
    assert 'station="chainage; invert; tolerance"' in fault.remedy


def test_the_last_parts_of_a_row_may_be_left_out():
    said = read(SUMS["fall"], ["station=0 m; 1 m; 3 mm", "station=5 m; 0.9 m"])
    assert said.given["station"] == (
        {"chainage": 0.0, "invert": 1.0, "tolerance": 0.003},
        {"chainage": 5.0, "invert": 0.9},
    )


def test_one_thing_is_given_once_and_some_things_often():
    assert [f.problem for f in faults_of("heap", "volume=1 m³", "volume=2 m³")] == [
        "volume is given twice"
    ]
    said = read(SUMS["cover"], ["point=1.3 m", "point=1.2 m", "design=1.2 m"])
    assert said.given["point"] == (1.3, 1.2)


def test_what_is_missing_is_named_with_how_to_give_it():
    found = faults_of("cover-load")
    assert [f.problem for f in found] == ["layer is missing"]
    assert found[0].remedy == 'Add layer="thickness; moist; saturated".'


def test_a_word_of_a_short_list():
    [fault] = faults_of("least-fall", "use=drian", "size=3 in")
    assert 'Did you mean "drain"?' in fault.remedy
    assert read(SUMS["least-fall"], ["use=Dwelling  Drain", "size=3 in"]).given["use"] == (
        "dwelling drain"
    )


def test_a_word_with_a_comma_in_it_is_listed_in_marks():
    [fault] = faults_of("air-drop", "flow=60 cfm", "length=1 m; 6 in; plastic")
    assert 'Write drawn tube, "plastic, jointed", steel pipe' in fault.remedy
    assert fault.word[fault.start : fault.end].strip() == "plastic"


@pytest.mark.parametrize("text", ["8 people", "1e400", "nan", "inf", "", "1,5", "٣"])
def test_a_plain_number_is_plain(text):
    [fault] = faults_of("drinking-water", f"people={text}", "days=14")
    assert "is not a plain number" in fault.problem


def test_a_plain_number_may_be_negative_or_have_a_point():
    said = read(SUMS["hold-down"], ["volume=1 m³", "mass=1 kg", "factor=\N{MINUS SIGN}1.5"])
    assert said.given["factor"] == -1.5


def test_capitals_and_blanks_round_a_key_do_not_matter():
    assert read(HEAP, [" Volume = 1 m³"]).given["volume"] == 1


def test_values_read_already_make_the_same_sum_as_their_words():
    one = SUMS["air-drop"]
    row = {"straight": 15.2, "inside": 0.152, "wall": "plastic, jointed"}
    said = supplied(one, {"flow": [100 / 3600], "length": [row]})
    words = read(one, ["flow=100 m³/h", "length=15.20 m; 152 mm; plastic, jointed"])
    assert said.given["length"] == words.given["length"] == ({**row, "k": 0.0},)
    assert said.given["flow"] == pytest.approx(words.given["flow"])
    assert said.usual == words.usual == {"altitude", "temperature"}


def test_a_needed_value_left_out_is_named():
    with pytest.raises(CannotReckon, match="plan is missing"):
        supplied(SUMS["float-level"], {"mass": [6500.0], "underside": [46.194]})


def test_as_many_values_are_taken_as_there_are():
    said = supplied(SUMS["cover"], {"point": [1.3, 1.17], "design": [1.2]})
    assert said.given == {"point": (1.3, 1.17), "design": 1.2}
