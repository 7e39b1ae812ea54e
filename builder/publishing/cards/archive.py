"""PDFs to keep for decades: what the engine's archival PDFs say too, so that both standards hold.

PDF/A-2a (ISO 19005-2) is the newest form of which the engine writes every mark that a tagged text
needs; nothing is attached to cards, so PDF/A-3 would add nothing. A file may keep to PDF/UA-1 as
well if its metadata tells of that schema in the way that ISO 19005-2, 6.6.2.3, asks for.
"""

from io import BytesIO

import pikepdf

ARCHIVAL = "pdf/a-2a"
"""As the engine calls it."""
_END = b"</rdf:RDF>"
_UA = b"http://www.aiim.org/pdfua/ns/id/"
_DESCRIPTION = (
    b'<rdf:Description rdf:about="" xmlns:pdfuaid="' + _UA + b'"><pdfuaid:part>1</pdfuaid:part>'
    b"</rdf:Description>"
    b'<rdf:Description rdf:about="" xmlns:pdfaExtension="http://www.aiim.org/pdfa/ns/extension/"'
    b' xmlns:pdfaSchema="http://www.aiim.org/pdfa/ns/schema#"'
    b' xmlns:pdfaProperty="http://www.aiim.org/pdfa/ns/property#"><pdfaExtension:schemas><rdf:Bag>'
    b'<rdf:li rdf:parseType="Resource">'
    b"<pdfaSchema:schema>PDF/UA identification schema</pdfaSchema:schema>"
    b"<pdfaSchema:namespaceURI>" + _UA + b"</pdfaSchema:namespaceURI>"
    b"<pdfaSchema:prefix>pdfuaid</pdfaSchema:prefix><pdfaSchema:property><rdf:Seq>"
    b'<rdf:li rdf:parseType="Resource"><pdfaProperty:name>part</pdfaProperty:name>'
    b"<pdfaProperty:valueType>Integer</pdfaProperty:valueType>"
    b"<pdfaProperty:category>internal</pdfaProperty:category>"
    b"<pdfaProperty:description>Part of ISO 14289 that the file keeps to</pdfaProperty:description>"
    b"</rdf:li></rdf:Seq></pdfaSchema:property></rdf:li></rdf:Bag></pdfaExtension:schemas>"
    b"</rdf:Description>"
)


def name_both_standards(content: bytes) -> bytes:
    """Return an archival PDF of the engine whose metadata names PDF/UA-1 too."""
    target = BytesIO()
    with pikepdf.open(BytesIO(content)) as pdf:
        metadata = pdf.Root.Metadata.read_bytes().replace(_END, _DESCRIPTION + _END, 1)
        kind = pikepdf.Dictionary(Type=pikepdf.Name.Metadata, Subtype=pikepdf.Name.XML)
        pdf.Root.Metadata = pdf.make_stream(metadata, kind)
        pdf.save(target, deterministic_id=True)
    return target.getvalue()
