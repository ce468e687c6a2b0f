"""The words of the bench's pages, one file for each page; another language is another folder beside `en`."""

from __future__ import annotations

import tomllib
from functools import cache
from importlib.resources import files
from types import SimpleNamespace
from typing import Any

LANGUAGE = "en"


@cache
def load_texts(language: str = LANGUAGE) -> SimpleNamespace:
    """Return the words of all pages, page by page: `texts.shelf.title`.

    Parameters
    ----------
    language: the folder they are taken from
    """
    folder = files("lapwright.bench.texts") / language
    pages = (entry for entry in folder.iterdir() if entry.name.endswith(".toml"))
    return SimpleNamespace(
        **{page.name.removesuffix(".toml"): _read(tomllib.loads(page.read_text(encoding="utf-8"))) for page in pages}
    )


def _read(value: Any) -> Any:
    # Names, not keys: a page may have a word called `items` or `copy`.
    return (
        SimpleNamespace(**{name: _read(inner) for name, inner in value.items()}) if isinstance(value, dict) else value
    )
