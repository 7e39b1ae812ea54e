"""What a picture keeps beside its dots: words, and the place where it was taken."""

import re
import struct
from collections.abc import Iterator
from io import BytesIO

from PIL import Image, UnidentifiedImageError
from PIL.ExifTags import IFD

from builder.publishing.proof.privacy.piece import Piece

PICTURES = frozenset({".png", ".jpg", ".jpeg", ".webp", ".gif", ".tif", ".tiff", ".avif"})
_METADATA = "the metadata"
_PLACE = re.compile(rb"GPSL(?:atitude|ongitude)\s*(?:=|>)")
"""How XMP (ISO 16684-1) writes a place."""
_UNREADABLE = (UnidentifiedImageError, OSError, ValueError, SyntaxError, struct.error)
"""What is raised over pictures that are damaged, or of a kind that isn't known here."""


def list_picture_texts(content: bytes) -> Iterator[Piece]:
    """Yield the words in a picture's metadata; none where it can't be opened as a picture."""
    try:
        with Image.open(BytesIO(content)) as picture:
            if hasattr(picture, "text"):
                picture.load()  # texts may stand behind the dots
            said = [*picture.info.items(), *getattr(picture, "text", {}).items()]
            exif = picture.getexif()
            said += [*exif.items(), *exif.get_ifd(IFD.Exif).items()]
    except _UNREADABLE:
        return
    for key, value in said:
        yield Piece(_METADATA, f"{key} {_decode(value)}")


def has_place(content: bytes) -> bool:
    """Tell whether a picture says where it was taken (Exif 3.0, 4.6.6, or XMP)."""
    try:
        with Image.open(BytesIO(content)) as picture:
            if {2, 4} & picture.getexif().get_ifd(IFD.GPSInfo).keys():  # latitude, longitude
                return True
    except _UNREADABLE:
        pass
    return _PLACE.search(content) is not None


def _decode(value: object) -> str:
    if not isinstance(value, bytes):
        return str(value)
    if value.startswith(b"UNICODE\0"):
        return value[8:].decode("utf-16", "replace")
    wide = value.count(b"\0") * 3 > len(value)
    return value.decode("utf-16-le" if wide else "utf-8", "replace")
