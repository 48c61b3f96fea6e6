"""The PDF keeps to what it claims, PDF/A-3 level A and PDF/UA-1, as other programs read it."""

import io
import subprocess

import pikepdf
import pytest

from tests.manual.judges.pdf_a import faults_of_pdf_a
from tests.manual.printed import edition

FILES = ["pdf", "cards"]


@pytest.fixture(scope="module", params=FILES)
def data(request):
    return edition().files()[request.param]


def told(program, data, *more, tmp_path):
    """Return what a program says of a PDF."""
    file = tmp_path / "manual.pdf"
    file.write_bytes(data)
    done = subprocess.run([program, *more, file], capture_output=True, text=True, check=False)
    assert done.returncode == 0, done.stdout + done.stderr
    return done.stdout


def test_nothing_is_wrong_with_it_as_a_file_to_be_kept(data):
    assert faults_of_pdf_a(data) == []


@pytest.mark.parametrize(
    ("spoil", "clause"),
    [
        (lambda pdf: pdf.Root.__delitem__("/OutputIntents"), "6.2.3"),
        (lambda pdf: pdf.Root.__delitem__("/Lang"), "6.7.4"),
        (lambda pdf: pdf.Root.__delitem__("/MarkInfo"), "6.7 "),
        (lambda pdf: pdf.Root.AF[0].__delitem__("/AFRelationship"), "6.8 "),
        (lambda pdf: pdf.Root.AF[0].EF.F.__delitem__("/Subtype"), "6.8 "),
        (lambda pdf: pdf.docinfo.__setitem__("/CreationDate", "D:20200101000000Z"), "6.6.3"),
        (lambda pdf: pdf.Root.__setitem__("/AA", pikepdf.Dictionary()), "6.5"),
    ],
)
def test_the_judge_of_files_to_be_kept_does_find_a_fault(spoil, clause):
    out = io.BytesIO()
    with pikepdf.open(io.BytesIO(edition().pdf)) as pdf:
        spoil(pdf)
        pdf.save(out, deterministic_id=True)
    assert any(fault.startswith(clause) for fault in faults_of_pdf_a(out.getvalue()))


def test_qpdf_finds_no_error_in_it(data, tmp_path):
    assert "No syntax or stream encoding errors" in told("qpdf", data, "--check", tmp_path=tmp_path)


def test_poppler_reads_it_tagged_and_without_scripts_or_forms(data, tmp_path):
    lines = dict(
        line.split(":", 1) for line in told("pdfinfo", data, tmp_path=tmp_path).splitlines()
    )
    said = {name: value.strip() for name, value in lines.items()}
    assert said["Tagged"] == "yes"
    assert (said["JavaScript"], said["Form"], said["Encrypted"]) == ("no", "none", "no")
    assert said["Title"]


def test_poppler_finds_every_font_embedded_and_its_letters_known(data, tmp_path):
    head, _, *fonts = told("pdffonts", data, tmp_path=tmp_path).splitlines()
    assert head.split()[-5:-2] == ["emb", "sub", "uni"]
    assert fonts
    assert all(line.split()[-5:-2] == ["yes", "yes", "yes"] for line in fonts), fonts


def test_poppler_reads_the_words_back(tmp_path):
    file = tmp_path / "manual.pdf"
    file.write_bytes(edition().pdf)
    done = subprocess.run(["pdftotext", file, "-"], capture_output=True, text=True, check=True)
    for said in ("Get out", "CV-1", "Checkpoint", "fresh air in"):
        assert said in done.stdout
