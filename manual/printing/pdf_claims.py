"""What a PDF says of itself in its metadata: PDF/A-3, level A, and PDF/UA-1, both at once.

WeasyPrint writes the claim of one standard. PDF/A (ISO 19005-3, 6.6.2.3) allows a property of
another only with a description of its schema in the same metadata, as here. Clause from memory.
"""

from __future__ import annotations

from functools import partial
from typing import Any

VARIANT = "pdf/a-3a"
_END = b"</rdf:RDF>"
_UA = b"""<rdf:Description xmlns:pdfuaid="http://www.aiim.org/pdfua/ns/id/" rdf:about="">
<pdfuaid:part>1</pdfuaid:part>
</rdf:Description>
<rdf:Description xmlns:pdfaExtension="http://www.aiim.org/pdfa/ns/extension/"
 xmlns:pdfaSchema="http://www.aiim.org/pdfa/ns/schema#"
 xmlns:pdfaProperty="http://www.aiim.org/pdfa/ns/property#" rdf:about="">
<pdfaExtension:schemas><rdf:Bag><rdf:li rdf:parseType="Resource">
<pdfaSchema:schema>PDF/UA identification schema</pdfaSchema:schema>
<pdfaSchema:namespaceURI>http://www.aiim.org/pdfua/ns/id/</pdfaSchema:namespaceURI>
<pdfaSchema:prefix>pdfuaid</pdfaSchema:prefix>
<pdfaSchema:property><rdf:Seq><rdf:li rdf:parseType="Resource">
<pdfaProperty:name>part</pdfaProperty:name>
<pdfaProperty:valueType>Integer</pdfaProperty:valueType>
<pdfaProperty:category>internal</pdfaProperty:category>
<pdfaProperty:description>The part of ISO 14289 that the file keeps to</pdfaProperty:description>
</rdf:li></rdf:Seq></pdfaSchema:property>
</rdf:li></rdf:Bag></pdfaExtension:schemas>
</rdf:Description>
"""


def claim_both(metadata: Any) -> None:
    """Let a WeasyPrint document's metadata claim PDF/UA-1 beside the variant it is written as."""
    metadata.generate_rdf_metadata = partial(_both, metadata.generate_rdf_metadata)


def _both(generate: Any, *claim: Any) -> bytes:
    rdf: bytes = generate(*claim)
    head, end, after = rdf.rpartition(_END)
    assert end, "the metadata ends in another way than it did"
    return head + _UA + end + after
