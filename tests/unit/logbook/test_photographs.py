from __future__ import annotations

import hashlib
import io
import os
import struct
import zlib

import pytest
from PIL import Image

from lapwright.errors import CannotSave, NotAllowed, NotAPhotograph, NotThere, TooLarge
from tests.unit.logbook.books import NOW, RUN, make_picture, opened

#: Tags of EXIF: orientation, camera, place; and within the place its north.
ORIENTATION, CAMERA, PLACE, NORTH = 0x0112, 0x0110, 0x8825, 2
FORMS = {"JPEG": "jpg", "PNG": "png", "WEBP": "webp"}


@pytest.fixture
def book(tmp_path):
    with opened(tmp_path) as book:
        book.add_entry(RUN, now=NOW)
        yield book


def camera_marks(orientation: int = 1) -> Image.Exif:
    exif = Image.Exif()
    exif[ORIENTATION] = orientation
    exif[CAMERA] = "harbour camera"
    exif.get_ifd(PLACE)[NORTH] = (53.0, 52.0, 7.5)
    return exif


def add(book, data: bytes, name: str = "valve.jpg"):
    return book.add_photograph(1, data, name=name, now=NOW)


def open_picture(data: bytes) -> Image.Image:
    return Image.open(io.BytesIO(data))


def tell_corner(data: bytes) -> tuple[bool, bool]:
    """Whether the red quarter is at the left, and whether it is at the top."""
    image = open_picture(data).convert("RGB")
    width, height = image.size
    spots = {
        (x, y): image.getpixel((width * (1 + 2 * x) // 4, height * (1 + 2 * y) // 4)) for x in (0, 1) for y in (0, 1)
    }
    ((x, y),) = [spot for spot, (red, _, blue) in spots.items() if red > blue]
    return x == 0, y == 0


@pytest.mark.parametrize("form", FORMS)
def test_a_photograph_is_kept_as_it_is_given(book, form) -> None:
    data = make_picture(form, exif=camera_marks())
    kept = add(book, data, "C:\\pictures\\valve face.dat")
    assert kept.digest == hashlib.sha256(data).hexdigest()
    assert (kept.name, kept.form, kept.width, kept.height, kept.added) == ("valve face.dat", FORMS[form], 60, 40, NOW)
    assert kept.media_type == f"image/{form.lower()}"
    assert book.photograph(kept.digest) == data
    assert (book.folder / "photographs" / f"{kept.digest}.{kept.form}").read_bytes() == data
    assert book.find_entry(1).photographs == (kept,)
    assert book.find_photograph(kept.digest) == kept


def test_the_same_photograph_twice_is_there_once_and_may_belong_to_several_entries(book) -> None:
    data = make_picture()
    first = add(book, data, "one.jpg")
    assert add(book, data, "two.jpg") == first
    other = book.add_entry(RUN, now=NOW)
    second = book.add_photograph(other.id, data, name="two.jpg", now=NOW)
    assert second.digest == first.digest
    assert len(list((book.folder / "photographs").glob("*.jpg"))) == 1
    book.remove_entry(other.id, seen=1)
    assert book.photograph(first.digest) == data


def test_a_photograph_can_be_taken_off_an_entry_and_its_file_stays(book) -> None:
    kept = add(book, make_picture(), "flywheel.jpg")
    assert len(book.find_entries(words="flywheel")) == 1
    book.remove_photograph(1, kept.digest)
    assert book.find_entry(1).photographs == book.find_entries(words="flywheel") == ()
    for ask in (lambda: book.remove_photograph(1, kept.digest), lambda: book.photograph(kept.digest)):
        with pytest.raises(NotThere, match=f"photograph {kept.digest[:12]} in the log book"):
            ask()
    assert (book.folder / "photographs" / f"{kept.digest}.jpg").exists()


# Where the first row and the first column of the picture are to be seen, by orientation (EXIF 2.32, table 6).
@pytest.mark.parametrize(
    ("orientation", "left", "top"),
    [(1, 1, 1), (2, 0, 1), (3, 0, 0), (4, 1, 0), (5, 1, 1), (6, 0, 1), (7, 0, 0), (8, 1, 0)],
)
@pytest.mark.parametrize("form", FORMS)
def test_pictures_are_shown_and_given_away_upright(book, form, orientation, left, top) -> None:
    kept = add(book, make_picture(form, size=(1000, 600), exif=camera_marks(orientation)))
    upright = (600, 1000) if orientation > 4 else (1000, 600)
    assert (kept.width, kept.height) == upright
    small, given = book.thumbnail(kept.digest), book.photograph_for_export(kept.digest)
    assert open_picture(small).size == tuple(round(side * 0.48) for side in upright)
    assert open_picture(given).size == upright
    assert tell_corner(small) == tell_corner(given) == (left, top)
    assert open_picture(small).format == "JPEG"
    assert open_picture(given).format == form


@pytest.mark.parametrize("form", FORMS)
def test_what_is_given_away_tells_neither_place_nor_time_nor_camera(book, form) -> None:
    more = {"comment": b"harbour"} if form == "JPEG" else {}
    data = make_picture(form, exif=camera_marks(), xmp=b"<x>harbour</x>", icc_profile=b"harbour", **more)
    assert b"harbour" in data
    assert open_picture(data).getexif().get_ifd(PLACE)
    given = book.photograph_for_export(add(book, data).digest)
    assert b"harbour" not in given
    assert b"Exif" not in given
    picture = open_picture(given)
    assert not picture.getexif()
    assert not {"exif", "xmp", "icc_profile", "comment", "XML:com.adobe.xmp"} & picture.info.keys()
    assert b"harbour" not in book.thumbnail(hashlib.sha256(data).hexdigest())


@pytest.mark.parametrize(("form", "mode"), [("PNG", "P"), ("PNG", "L"), ("PNG", "1"), ("JPEG", "L"), ("JPEG", "CMYK")])
def test_pictures_of_other_colours_are_taken(book, form, mode) -> None:
    kept = add(book, make_picture(form, mode=mode))
    assert open_picture(book.thumbnail(kept.digest)).mode == "RGB"
    assert open_picture(book.photograph_for_export(kept.digest)).size == (60, 40)


def test_a_grey_of_sixteen_bits_stays_the_grey_it_is(book) -> None:
    file = io.BytesIO()
    Image.new("I;16", (40, 40), 0x8000).save(file, "PNG")
    kept = add(book, file.getvalue())
    assert open_picture(book.thumbnail(kept.digest)).getpixel((20, 20)) == (128, 128, 128)
    assert open_picture(book.photograph_for_export(kept.digest)).getpixel((20, 20)) == 0x8000


@pytest.mark.parametrize("form", ["PNG", "WEBP"])
def test_what_can_be_seen_through_stands_on_white(book, form) -> None:
    file = io.BytesIO()
    Image.new("RGBA", (40, 40), (0, 0, 0, 0)).save(file, form)
    kept = add(book, file.getvalue())
    assert min(open_picture(book.thumbnail(kept.digest)).getpixel((20, 20))) > 250
    assert open_picture(book.photograph_for_export(kept.digest)).getpixel((20, 20))[3] == 0


def test_a_small_picture_is_made_anew_when_it_is_gone(book) -> None:
    kept = add(book, make_picture(size=(960, 480)))
    path = book.folder / "photographs" / "small" / f"{kept.digest}.jpg"
    first = book.thumbnail(kept.digest)
    assert path.read_bytes() == first
    path.unlink()
    assert book.thumbnail(kept.digest) == path.read_bytes() == first


def make_huge_png(side: int) -> bytes:
    """A PNG picture that says it has many pixels, and has none."""

    def chunk(name: bytes, data: bytes) -> bytes:
        return struct.pack(">I", len(data)) + name + data + struct.pack(">I", zlib.crc32(name + data))

    header = struct.pack(">IIBBBBB", side, side, 8, 2, 0, 0, 0)
    return b"\x89PNG\r\n\x1a\n" + chunk(b"IHDR", header) + chunk(b"IDAT", zlib.compress(b"")) + chunk(b"IEND", b"")


GIF = io.BytesIO()
Image.new("RGB", (4, 4)).save(GIF, "GIF")


@pytest.mark.parametrize(
    ("data", "why"),
    [
        (b"", "is not a picture that can be kept"),
        (b"GIF89a", "is not a picture that can be kept"),
        (GIF.getvalue(), "is not a picture that can be kept"),
        (b"<svg xmlns='http://www.w3.org/2000/svg'/>", "is not a picture that can be kept"),
        (b"%PDF-1.7", "is not a picture that can be kept"),
        (make_picture()[:-200], "is damaged"),
        (make_picture("PNG")[:-30], "is damaged"),
        (make_picture("WEBP")[:-30], "is damaged"),
        (make_huge_png(7750), "has more than 60 million pixels"),
        (make_huge_png(10_000), "has more than 60 million pixels"),
        (make_huge_png(50_000), "has more than 60 million pixels"),
    ],
)
def test_what_is_no_photograph_is_refused_and_nothing_is_kept(book, data, why) -> None:
    # Every warning is an error here, so that none leaks out of the library.
    with pytest.raises(NotAPhotograph) as refusal:
        add(book, data)
    assert str(refusal.value) == f"valve.jpg {why}: take a JPEG, PNG or WebP picture"
    assert not (book.folder / "photographs").exists()
    assert book.find_entry(1).photographs == ()


def test_too_many_bytes_are_refused_unopened(book) -> None:
    with pytest.raises(TooLarge, match=r"valve\.jpg is larger than 25 MB"):
        add(book, make_picture() + bytes(25_000_000))


def test_an_entry_that_is_not_there_gets_no_photograph(book) -> None:
    with pytest.raises(NotThere):
        book.add_photograph(7, make_picture(), name="valve.jpg", now=NOW)
    assert not (book.folder / "photographs").exists()


def test_a_file_that_went_missing_or_bad_is_told_and_comes_back_with_the_next_upload(book) -> None:
    data = make_picture()
    kept = add(book, data)
    path = book.folder / "photographs" / f"{kept.digest}.jpg"
    path.write_bytes(data[:100])
    with pytest.raises(NotAPhotograph, match="is damaged"):
        book.photograph_for_export(kept.digest)
    path.unlink()
    with pytest.raises(NotThere, match=r'file of the photograph "valve\.jpg"'):
        book.photograph(kept.digest)
    add(book, data)
    assert book.photograph(kept.digest) == data


@pytest.mark.parametrize("asked", ["", "../logbook.sqlite", "0" * 64, "\0", "x' OR 1=1"])
def test_only_digests_of_the_log_book_are_answered(book, asked) -> None:
    add(book, make_picture())
    for ask in (book.photograph, book.thumbnail, book.photograph_for_export, book.find_photograph):
        with pytest.raises(NotThere):
            ask(asked)


def test_links_out_of_the_folder_are_not_followed(book, tmp_path_factory) -> None:
    kept = add(book, make_picture())
    elsewhere = tmp_path_factory.mktemp("elsewhere")
    path = book.folder / "photographs" / f"{kept.digest}.jpg"
    path.rename(elsewhere / "private.jpg")
    path.symlink_to(elsewhere / "private.jpg")
    with pytest.raises(NotAllowed, match="leads out of the folder"):
        book.photograph(kept.digest)


def test_no_draft_is_left_lying_about(book) -> None:
    add(book, make_picture())
    other = make_picture("PNG")
    # A folder stands where the file is to go.
    (book.folder / "photographs" / f"{hashlib.sha256(other).hexdigest()}.png").mkdir()
    with pytest.raises(CannotSave):
        add(book, other)
    assert not [name for name in os.listdir(book.folder / "photographs") if name.startswith(".")]
    assert len(book.find_entry(1).photographs) == 1
