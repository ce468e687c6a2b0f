"""The manual's Python runs as printed, names every public name, and every page is reachable from its index."""

from __future__ import annotations

import io
import re
from contextlib import redirect_stdout

import lapwright
from tests.house.reading import TOP

DOCS = TOP / "docs"
PYTHON = re.compile(r"^```python\n(.*?)^```\n\nprints\n\n```\n(.*?)^```", re.MULTILINE | re.DOTALL)


def test_a_python_block_prints_what_stands_under_it() -> None:
    blocks = [block for page in DOCS.rglob("*.md") for block in PYTHON.findall(page.read_text(encoding="utf-8"))]
    assert blocks
    for code, printed in blocks:
        out = io.StringIO()
        with redirect_stdout(out):
            exec(compile(code, "manual", "exec"), {})
        assert out.getvalue().strip() == printed.strip()


def test_every_public_name_of_the_package_is_in_the_manual() -> None:
    page = (DOCS / "how-to" / "use-from-python.md").read_text(encoding="utf-8")
    assert [name for name in lapwright.__all__ if name != "__version__" and f"`{name}`" not in page] == []


def test_every_page_is_reached_from_the_index() -> None:
    index = (DOCS / "README.md").read_text(encoding="utf-8")
    for page in DOCS.rglob("*.md"):
        name = page.relative_to(DOCS).as_posix()
        assert name == "README.md" or f"]({name})" in index, name


def test_the_changes_tell_of_this_version() -> None:
    assert f"\n## {lapwright.__version__}" in (TOP / "CHANGELOG.md").read_text(encoding="utf-8")
