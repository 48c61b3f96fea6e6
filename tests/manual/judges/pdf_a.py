"""What ISO 19005-3 (PDF/A-3) asks of a file at level A, as far as it can be read off with pikepdf.

No validator of PDF/A installs without a Java machine of its own, so the points stand here one by
one, with their clauses from memory.
"""

from __future__ import annotations

import io
from xml.etree import ElementTree

import pikepdf

NEVER = {"/JavaScript", "/Launch", "/Sound", "/Movie", "/ResetForm", "/ImportData", "/Hide"}
RDF = "{http://www.w3.org/1999/02/22-rdf-syntax-ns#}"
HIDDEN = 1 | 2 | 32  # invisible, hidden, no view
PRINTED = 4


def faults_of_pdf_a(data):
    """Return what is wrong with a PDF as a file to be kept, a line each."""
    with pikepdf.open(io.BytesIO(data)) as pdf:
        return [
            *_file(data, pdf),
            *_metadata(pdf),
            *_output_intent(pdf),
            *_structure(pdf),
            *_enclosed(pdf),
            *(fault for thing in pdf.objects for fault in _thing(thing)),
            *(fault for page in pdf.pages for fault in _page(page)),
        ]


def _file(data, pdf):
    first, second = data.split(b"\n", 2)[:2]
    if not first.startswith(b"%PDF-1.") or not all(byte > 127 for byte in second[1:5]):
        yield "6.1.2 the header is not that of a binary PDF 1.n"
    if "/ID" not in pdf.trailer or pdf.is_encrypted:
        yield "6.1.3 no file identifier, or encrypted"
    if {"/AA", "/OCProperties", "/NeedsRendering"} & set(pdf.Root.keys()):
        yield "6.5, 6.9 the catalog acts by itself, or has layers"


def _metadata(pdf):
    root = ElementTree.fromstring(pdf.Root.Metadata.read_bytes())
    said = {k: v for each in root.iter(f"{RDF}Description") for k, v in each.attrib.items()}
    said |= {each.tag: (each.text or "").strip() for each in root.iter()}
    a, ua = "{http://www.aiim.org/pdfa/ns/id/}", "{http://www.aiim.org/pdfua/ns/id/}"
    if (said.get(f"{a}part"), said.get(f"{a}conformance")) != ("3", "A"):
        yield "6.6.4 does not claim PDF/A-3, level A"
    if said.get(f"{ua}part") != "1":
        yield "ISO 14289-1, 5: does not claim PDF/UA-1"
    described = [each.text for each in root.iter("{http://www.aiim.org/pdfa/ns/schema#}prefix")]
    if described != ["pdfuaid"]:
        yield "6.6.2.3 a schema of the metadata is not described"
    created = str(pdf.docinfo.get("/CreationDate", ""))[2:16]
    if created != "".join(
        c for c in said["{http://ns.adobe.com/xap/1.0/}CreateDate"] if c.isdigit()
    ):
        yield "6.6.3 the two dates of creation differ"


def _output_intent(pdf):
    intents = list(pdf.Root.get("/OutputIntents", []))
    if [str(each.S) for each in intents] != ["/GTS_PDFA1"]:
        yield "6.2.3 not just one output intent of PDF/A"
        return
    profile = intents[0].DestOutputProfile
    icc = profile.read_bytes()
    if icc[36:40] != b"acsp" or icc[16:20] != b"RGB " or int(profile.N) != 3 or icc[8] > 4:
        yield "6.2.3 the output intent has no profile of RGB"


def _structure(pdf):
    root = pdf.Root
    if "/StructTreeRoot" not in root or not root.get("/MarkInfo", {}).get("/Marked"):
        yield "6.7 not tagged"
    if not str(root.get("/Lang", "")):
        yield "6.7.4 no language"


def _enclosed(pdf):
    named = {each.objgen for each in pdf.Root.get("/AF", [])}
    for thing in pdf.objects:
        if not isinstance(thing, pikepdf.Dictionary) or thing.get("/Type") != "/Filespec":
            continue
        name = str(thing.get("/UF"))
        if "/F" not in thing or "/AFRelationship" not in thing or thing.objgen not in named:
            yield f"6.8 {name} is not associated with the document"
        if (
            "/" not in str(thing.EF.F.get("/Subtype", ""))[1:]
            or "/ModDate" not in thing.EF.F.Params
        ):
            yield f"6.8 {name} has no media type or no date"
    if len(named) != len(pdf.Root.get("/AF", [])):
        yield "6.8 a file is named twice"


def _thing(thing):
    if not isinstance(thing, (pikepdf.Dictionary, pikepdf.Stream)):
        return
    if isinstance(thing, pikepdf.Stream) and ("LZW" in str(thing.get("/Filter")) or "/F" in thing):
        yield "6.1.7 a stream is packed with LZW, or lies outside"
    if str(thing.get("/S")) in NEVER or "/JS" in thing:
        yield f"6.5.1 an action of the kind {thing.get('/S')}"
    if thing.get("/Type") == "/FontDescriptor" and not {"/FontFile2", "/FontFile3"} & set(thing):
        yield f"6.2.11.4 {thing.FontName} is not embedded"
    if thing.get("/Type") == "/Font" and thing.get("/Subtype") != "/CIDFontType2":
        if "/ToUnicode" not in thing:
            yield f"6.2.11.7 {thing.BaseFont} does not say which letters it has"
    elif thing.get("/Type") == "/Font" and "/CIDToGIDMap" not in thing:
        yield f"6.2.11.3 {thing.BaseFont} does not say which glyph is which"
    if thing.get("/Subtype") == "/Image" and (thing.get("/Interpolate") or "/OPI" in thing):
        yield "6.2.8 a picture is smoothed, or lies outside"
    if thing.get("/ColorSpace") == "/DeviceCMYK":
        yield "6.2.4.3 a colour of print that the output intent does not explain"
    if thing.get("/Subtype") == "/PS" or thing.get("/BM", "/Normal") not in (
        "/Normal",
        "/Multiply",
    ):
        yield "6.2.9, 6.2.10 PostScript, or an unusual way of blending"


def _page(page):
    for annotation in page.get("/Annots", []):
        flags = int(annotation.get("/F", 0))
        if not flags & PRINTED or flags & HIDDEN:
            yield f"6.3.2 a {annotation.Subtype} that is not printed"
    if "/AA" in page:
        yield "6.5.2 a page acts by itself"
    operators = {str(each.operator) for each in pikepdf.parse_content_stream(page)}
    if operators & {"k", "K"}:
        yield "6.2.4.3 a colour of print that the output intent does not explain"
