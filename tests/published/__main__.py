"""Write the page of agreement: `python -m tests.published docs/reference/agreement.md`."""

from __future__ import annotations

import sys
from pathlib import Path

from tests.published.page import write_page

if __name__ == "__main__":
    Path(sys.argv[1]).write_text(write_page(), encoding="utf-8")
