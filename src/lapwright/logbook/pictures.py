"""Pictures: whether bytes are one, a small one to show, and one without anything that tells where it was taken."""

from __future__ import annotations

import hashlib
import io
import threading
import warnings
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from typing import TYPE_CHECKING, Literal

from lapwright.errors import NotAPhotograph, TooLarge

if TYPE_CHECKING:
    from PIL import Image, ImageFile

Form = Literal["jpg", "png", "webp"]

#: The longer side of a small picture, and of one that goes on paper [px].
SMALL, FOR_PAPER = 480, 1400
_MOST_BYTES = 25_000_000
_MOST_PIXELS = 60_000_000
#: What the library calls the forms, and the ends of their files; several JPEG pictures in one file are MPO.
_FORMS: dict[str | None, Form] = {"JPEG": "jpg", "MPO": "jpg", "PNG": "png", "WEBP": "webp"}
_NAMES: dict[Form, str] = {"jpg": "JPEG", "png": "PNG", "webp": "WEBP"}
# A large picture takes hundreds of megabytes once it is opened, so that only one is at a time.
_one_at_a_time = threading.Lock()


@dataclass(frozen=True, slots=True)
class Picture:
    """A picture as it was given. Its sides are in pixels, seen upright; `small` is a small JPEG picture of it."""

    data: bytes
    name: str
    form: Form
    width: int
    height: int
    small: bytes

    @property
    def digest(self) -> str:
        """The SHA-256 of its bytes."""
        return hashlib.sha256(self.data).hexdigest()


def examine_picture(data: bytes, name: str) -> Picture:
    """Make sure that bytes are a whole picture, whatever their name says.

    Parameters
    ----------
    data: the file
    name: what it is called, for the message

    Raises
    ------
    NotAPhotograph, TooLarge
    """
    if len(data) > _MOST_BYTES:
        raise TooLarge(name, f"{_MOST_BYTES // 1_000_000} MB")
    with _opened(data, name) as image:
        form, sides = _FORMS[image.format], image.size
        small = _shrink(image, SMALL)
        width, height = reversed(sides) if _lies_on_its_side(image) else sides
        return Picture(data, name, form, width, height, small)


def shrink_picture(data: bytes, name: str, *, side: int = SMALL) -> bytes:
    """Make a small upright JPEG picture of a picture, with nothing in it but the picture.

    Parameters
    ----------
    data: the file
    name: what it is called, for the message
    side: the longer side at most [px]

    Raises
    ------
    NotAPhotograph
    """
    with _opened(data, name) as image:
        return _shrink(image, side)


def strip_picture(data: bytes, name: str) -> bytes:
    """Make an upright picture of the same form that holds nothing but the picture: no place, no time, no camera.

    Parameters
    ----------
    data: the file; of several pictures in one the first is taken
    name: what it is called, for the message

    Raises
    ------
    NotAPhotograph
    """
    from PIL import ImageOps

    with _opened(data, name) as image:
        form = _FORMS[image.format]
        upright = ImageOps.exif_transpose(image)
        if form == "jpg":
            upright = _flatten(upright)
        elif upright.has_transparency_data:
            upright = upright.convert("RGBA")
        return _write(upright, form)


@contextmanager
def _opened(data: bytes, name: str) -> Iterator[ImageFile.ImageFile]:
    """Open a picture; whatever goes wrong inside says that it is none."""
    from PIL import Image, UnidentifiedImageError

    # The library warns about odd files on the terminal, where nobody looks for it.
    with _one_at_a_time, warnings.catch_warnings():
        warnings.simplefilter("ignore")
        try:
            with Image.open(io.BytesIO(data), formats=("JPEG", "PNG", "WEBP")) as image:
                if image.width * image.height > _MOST_PIXELS:
                    raise Image.DecompressionBombError
                yield image
        except UnidentifiedImageError as error:
            raise NotAPhotograph(name, "is not a picture that can be kept") from error
        except Image.DecompressionBombError as error:
            raise NotAPhotograph(name, f"has more than {_MOST_PIXELS // 1_000_000} million pixels") from error
        # A broken file can bring the library to fall in any way there is.
        except Exception as error:
            raise NotAPhotograph(name, "is damaged") from error


def _shrink(image: ImageFile.ImageFile, side: int) -> bytes:
    from PIL import ImageOps

    # A JPEG picture is read small to begin with, which is many times quicker.
    image.draft("RGB", (2 * side, 2 * side))
    small = _flatten(ImageOps.exif_transpose(image))
    small.thumbnail((side, side))
    return _write(small, "jpg")


def _lies_on_its_side(image: Image.Image) -> bool:
    """Whether the camera was held so that the picture must be turned by a quarter; wants a picture that is loaded."""
    from PIL import ExifTags

    quarter_turns = range(5, 9)
    return image.getexif().get(ExifTags.Base.Orientation, 1) in quarter_turns


def _flatten(image: Image.Image) -> Image.Image:
    """Put a picture on white paper where it can be seen through."""
    from PIL import Image

    if image.mode.startswith("I"):
        # Sixteen bits of grey, which would otherwise be cut off above white.
        image = image.convert("I").point(lambda grey: grey / 256).convert("L")
    if not image.has_transparency_data:
        return image.convert("RGB")
    clear = image.convert("RGBA")
    paper = Image.new("RGB", image.size, "white")
    paper.paste(clear, mask=clear.getchannel("A"))
    return paper


def _write(image: Image.Image, form: Form) -> bytes:
    image.info.clear()
    file = io.BytesIO()
    image.save(file, _NAMES[form], quality=90)
    return file.getvalue()
