"""What a file says of itself: XMP metadata, output intent, document identifiers.

In: the meta data of a document. Out: the bytes of the XMP packet and of the colour profile. PDF/UA-1 and PDF/A-2a are
both claimed (ISO 14289-1, 5; ISO 19005-2, 6.6.4); since pdfuaid is no schema that PDF/A knows, it is described.
"""

from __future__ import annotations

from functools import lru_cache
from html import escape

from PIL import ImageCms

from castoff.document.tree import Meta

PRODUCER = "Castoff with ReportLab"
CREATOR = "Castoff"

_UA_SCHEMA = """\
<rdf:Description rdf:about="" xmlns:pdfaExtension="http://www.aiim.org/pdfa/ns/extension/" \
xmlns:pdfaSchema="http://www.aiim.org/pdfa/ns/schema#" xmlns:pdfaProperty="http://www.aiim.org/pdfa/ns/property#">
<pdfaExtension:schemas><rdf:Bag><rdf:li rdf:parseType="Resource">
<pdfaSchema:schema>PDF/UA identification schema</pdfaSchema:schema>
<pdfaSchema:namespaceURI>http://www.aiim.org/pdfua/ns/id/</pdfaSchema:namespaceURI>
<pdfaSchema:prefix>pdfuaid</pdfaSchema:prefix>
<pdfaSchema:property><rdf:Seq><rdf:li rdf:parseType="Resource">
<pdfaProperty:name>part</pdfaProperty:name>
<pdfaProperty:valueType>Integer</pdfaProperty:valueType>
<pdfaProperty:category>internal</pdfaProperty:category>
<pdfaProperty:description>Part of ISO 14289 to which the file conforms</pdfaProperty:description>
</rdf:li></rdf:Seq></pdfaSchema:property>
</rdf:li></rdf:Bag></pdfaExtension:schemas>
</rdf:Description>"""


UNDATED = "2000-01-01"
"""The date a file carries when its pattern has none: a PDF needs one, and the clock would change the bytes."""


def file_date(meta: Meta) -> str:
    """The pattern's own date, ISO text, or the one for patterns without."""
    return meta.date or UNDATED


def author_of(meta: Meta) -> str:
    """Who is named as the author: designer and studio."""
    return ", ".join(part for part in (meta.designer, meta.studio) if part)


def subject_of(meta: Meta) -> str:
    """What the file is about: the subject, or the summary where there is none."""
    return meta.subject or meta.summary


def xmp_packet(meta: Meta) -> bytes:
    """The XMP packet; it says exactly what the information dictionary says, as PDF/A wants."""
    stamp = f"{file_date(meta)}T00:00:00+00:00"
    keywords = ", ".join(meta.keywords)

    def alternative(name: str, text: str) -> str:
        return f'<dc:{name}><rdf:Alt><rdf:li xml:lang="x-default">{escape(text)}</rdf:li></rdf:Alt></dc:{name}>'

    dublin = [
        alternative("title", meta.title),
        f"<dc:creator><rdf:Seq><rdf:li>{escape(author_of(meta))}</rdf:li></rdf:Seq></dc:creator>",
        alternative("description", subject_of(meta)),
        f"<dc:language><rdf:Bag><rdf:li>{meta.language}</rdf:li></rdf:Bag></dc:language>",
        "<dc:format>application/pdf</dc:format>",
    ]
    text = f"""<?xpacket begin="\ufeff" id="W5M0MpCehiHzreSzNTczkc9d"?>
<x:xmpmeta xmlns:x="adobe:ns:meta/"><rdf:RDF xmlns:rdf="http://www.w3.org/1999/02/22-rdf-syntax-ns#">
<rdf:Description rdf:about="" xmlns:dc="http://purl.org/dc/elements/1.1/">{"".join(dublin)}</rdf:Description>
<rdf:Description rdf:about="" xmlns:xmp="http://ns.adobe.com/xap/1.0/">\
<xmp:CreateDate>{stamp}</xmp:CreateDate><xmp:ModifyDate>{stamp}</xmp:ModifyDate>\
<xmp:CreatorTool>{CREATOR}</xmp:CreatorTool></rdf:Description>
<rdf:Description rdf:about="" xmlns:pdf="http://ns.adobe.com/pdf/1.3/">\
<pdf:Producer>{PRODUCER}</pdf:Producer><pdf:Keywords>{escape(keywords)}</pdf:Keywords></rdf:Description>
<rdf:Description rdf:about="" xmlns:pdfaid="http://www.aiim.org/pdfa/ns/id/">\
<pdfaid:part>2</pdfaid:part><pdfaid:conformance>A</pdfaid:conformance></rdf:Description>
<rdf:Description rdf:about="" xmlns:pdfuaid="http://www.aiim.org/pdfua/ns/id/">\
<pdfuaid:part>1</pdfuaid:part></rdf:Description>
{_UA_SCHEMA}
</rdf:RDF></x:xmpmeta>
<?xpacket end="w"?>"""
    return text.encode("utf-8")


@lru_cache(maxsize=1)
def srgb_profile() -> bytes:
    """An sRGB colour profile; the current time, which its maker stamps it with, is overwritten by a fixed one."""
    profile = bytearray(ImageCms.ImageCmsProfile(ImageCms.createProfile("sRGB")).tobytes())
    for offset, value in zip(range(24, 36, 2), (2000, 1, 1, 0, 0, 0), strict=True):
        profile[offset : offset + 2] = value.to_bytes(2, "big")
    return bytes(profile)
