"""What a picture or a film keeps beside what it shows: words, and the place where it was taken."""

import re
import struct
import warnings
from collections.abc import Iterator
from contextlib import AbstractContextManager, suppress
from io import BytesIO
from warnings import catch_warnings, simplefilter

from PIL import Image, UnidentifiedImageError
from PIL.ExifTags import IFD

from builder.input_limits import PICTURE_DOTS
from builder.publishing.proof.privacy.piece import Piece
from builder.publishing.proof.privacy.runs import decode_wide

PICTURES = frozenset(
    {".png", ".jpg", ".jpeg", ".webp", ".gif", ".tif", ".tiff", ".avif", ".heic", ".heif"}
)
MEDIA = PICTURES | {".mp4", ".m4v", ".mov", ".3gp"}
"""Endings of pictures and films."""
_STARTS = (b"\x89PNG", b"\xff\xd8\xff", b"GIF87a", b"GIF89a", b"II*\0", b"MM\0*")
_METADATA = "the metadata"
_XMP_PLACE = re.compile(rb"GPSL(?:atitude|ongitude)\s*(?:=|>)")
"""How XMP (ISO 16684-1) writes a place."""
_FILM_PLACE = re.compile(
    rb"\xa9xyz.{4}[+-]\d|com\.apple\.quicktime\.location\.ISO6709|loci\0{4}", re.DOTALL
)
"""How telephones write one into a film (QuickTime user data and metadata, 3GPP; from memory)."""
_EXIF_START = b"Exif\0\0"
_UNREADABLE = (
    *(UnidentifiedImageError, OSError, ValueError, SyntaxError, struct.error),
    *(Image.DecompressionBombError, Image.DecompressionBombWarning),
)
"""What is raised over pictures that are damaged, or of a kind that isn't known here."""


def is_picture(content: bytes) -> bool:
    """Tell by its beginning whether a file is a picture, or a film."""
    return content.startswith(_STARTS) or content[8:12] == b"WEBP" or _is_box(content)


def _is_box(content: bytes) -> bool:
    """Tell whether a file is made of boxes, as AVIF, HEIC and films are (ISO 14496-12)."""
    return content[4:8] == b"ftyp"


def count_dots(content: bytes) -> int:
    """Return width times height of a picture by its head; 0 for what is no picture known here."""
    if not is_picture(content):
        return 0
    try:
        with _open(content) as picture:
            return picture.width * picture.height
    except (Image.DecompressionBombError, Image.DecompressionBombWarning) as error:
        said = re.search(r"[0-9]+", str(error))
        return int(said[0]) if said else PICTURE_DOTS.most + 1
    except _UNREADABLE:
        return 0


def _open(content: bytes) -> Image.Image:
    """Open a picture by its head; raise where the library warns of its size."""
    with catch_warnings():
        simplefilter("error", Image.DecompressionBombWarning)
        return Image.open(BytesIO(content))


def list_picture_texts(content: bytes) -> Iterator[Piece]:
    """Yield the words in a picture's metadata; none where it can't be opened as a picture."""
    try:
        with _hush_library(), _open(content) as picture:
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
    """Tell whether a picture or film says where it was taken (Exif 3.0, 4.6.6, XMP, or a film)."""
    if not is_picture(content):
        return False
    if _is_box(content) and _FILM_PLACE.search(content):
        return True
    with _hush_library():
        has_latitude = any(map(_has_latitude, _list_exif(content)))
    return has_latitude or _XMP_PLACE.search(content) is not None


def _list_exif(content: bytes) -> Iterator[Image.Exif]:
    """Yield what a picture says in Exif; pictures of unknown kinds hold it as it stands."""
    try:
        with _open(content) as picture:
            yield picture.getexif()
    except _UNREADABLE:
        at = content.find(_EXIF_START)
        if at >= 0:
            exif = Image.Exif()
            with suppress(*_UNREADABLE):
                exif.load(content[at:])
            yield exif


def _hush_library() -> AbstractContextManager[object]:
    """Keep to itself what the library would tell of damage: a picture is read as far as it goes."""
    return warnings.catch_warnings(action="ignore")


def _has_latitude(exif: Image.Exif) -> bool:
    try:
        return bool({2, 4} & exif.get_ifd(IFD.GPSInfo).keys())  # latitude, longitude
    except _UNREADABLE:
        return False


def _decode(value: object) -> str:
    if not isinstance(value, bytes):
        return str(value)
    if value.startswith(b"UNICODE\0"):
        return decode_wide(value[8:])
    is_wide = value.count(b"\0") * 3 > len(value)
    return decode_wide(value) if is_wide else value.decode("utf-8", "replace")
