"""Pictures that say where they were taken (Exif 3.0, CIPA DC-008, 4.6.6; XMP, ISO 16684-1)."""

import zipfile
from io import BytesIO
from pathlib import Path

import pytest
from PIL import Image
from PIL.ExifTags import IFD

from builder.publishing.proof.privacy.faults import find_private_faults
from builder.publishing.proof.privacy.pictures import has_place
from builder.publishing.site.files import find_own_file_faults
from builder.work.folder_files import FolderFiles
from tests.conftest import WriteCourse


def make_picture(kind: str, *, has_gps: bool) -> bytes:
    exif = Image.Exif()
    exif[0x010E] = "A rolled towel"
    if has_gps:
        exif.get_ifd(IFD.GPSInfo).update(
            {1: "N", 2: (59.0, 20.0, 1.0), 3: "E", 4: (18.0, 3.0, 2.0)}
        )
    Image.new("RGB", (8, 8)).save(target := BytesIO(), kind, exif=exif)
    return target.getvalue()


@pytest.mark.parametrize("kind", ["JPEG", "PNG", "WEBP"])
def test_a_picture_s_place_is_found_in_its_exif(kind: str) -> None:
    assert has_place(make_picture(kind, has_gps=True))
    assert not has_place(make_picture(kind, has_gps=False))


def test_a_place_in_xmp_is_found() -> None:
    packet = b'<rdf:Description exif:GPSLatitude="59,20.1N" exif:GPSLongitude="18,3E"/>'
    Image.new("RGB", (8, 8)).save(target := BytesIO(), "JPEG", xmp=packet)
    assert has_place(target.getvalue())
    assert not has_place(b"no picture at all")


def test_such_a_picture_may_not_be_published(write_course: WriteCourse) -> None:
    root = write_course()
    (root / "content/towel.jpg").write_bytes(make_picture("JPEG", has_gps=True))
    (found,) = find_own_file_faults(root, "content")
    assert str(found) == (
        "content/towel.jpg:1:1: V102 place-in-picture: the picture says where it was taken; save "
        "it again without its place (GPS), or take a picture of the screen."
    )


def test_a_place_in_a_film_or_in_a_picture_of_an_unknown_kind_is_found() -> None:
    """Boxes by ISO 14496-12; what telephones write into them is from memory."""
    start = b"\0\0\0\x18ftypqt  \0\0\0\0"
    assert has_place(start + b"\0\0\0\x1e\xa9xyz\0\x12\x15\xc7+59.3340+018.0520/")
    assert not has_place(start + b"\xa9nam\0\x04\0\0film")
    exif = Image.Exif()
    exif.get_ifd(IFD.GPSInfo).update({1: "N", 2: (59.0, 20.0, 1.0)})
    assert has_place(b"\0\0\0\x18ftypheic\0\0\0\0" + exif.tobytes())


def test_such_a_picture_is_found_in_a_finished_site_wherever_it_comes_from(tmp_path: Path) -> None:
    """A theme and a download are no part of content/, and no program folder is needed."""
    picture = make_picture("JPEG", has_gps=True)
    (tmp_path / "site").mkdir()
    (tmp_path / "site/logo.jpg").write_bytes(picture)
    with zipfile.ZipFile(tmp_path / "site/all.zip", "w") as file:
        file.writestr("a/towel.jpg", picture)
    found = [
        str(each).split("; ")[0]
        for each in find_private_faults(tmp_path, FolderFiles(tmp_path / "site"))
    ]
    said = "V102 place-in-picture: the picture says where it was taken"
    assert found == [f"all.zip:1:1: {said} (it stands in a/towel.jpg)", f"logo.jpg:1:1: {said}"]
