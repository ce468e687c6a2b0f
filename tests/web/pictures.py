"""Photographs to test with, drawn: an engine named after a bird, as a camera would hand it over."""

from __future__ import annotations

import io
from typing import Literal

from PIL import Image, ImageDraw


def draw_photograph(
    words: str = "Tern",
    *,
    form: Literal["JPEG", "PNG", "WEBP", "GIF"] = "JPEG",
    size: tuple[int, int] = (640, 480),
    lying: bool = False,
) -> bytes:
    """A photograph of an engine; `lying`, the camera was held upright and says so, and where it was."""
    width, height = size
    picture = Image.new("RGB", size, "#59655a")
    pen = ImageDraw.Draw(picture)
    pen.rectangle((0, int(0.75 * height), width, height), fill="#6b5a45")
    pen.ellipse(
        (int(0.55 * width), int(0.2 * height), int(0.95 * width), int(0.75 * height)), outline="#8d2f23", width=9
    )
    pen.rectangle((int(0.1 * width), int(0.5 * height), int(0.45 * width), int(0.75 * height)), fill="#2f5d50")
    pen.text((10, 10), words, fill="white")
    exif = Image.Exif()
    if lying:
        exif[0x0112] = 6
        exif[0x010F] = "a camera of the museum"
    file = io.BytesIO()
    picture.save(file, form, **({"exif": exif} if form != "GIF" else {}))
    return file.getvalue()
