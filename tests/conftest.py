"""Hypothesis tries the same examples every time, so that a change is judged by itself.

`LAWS=search` looks for new ones.
"""

from __future__ import annotations

import os

from hypothesis import settings

settings.register_profile("same", derandomize=True, deadline=None)
settings.register_profile("search", deadline=None, max_examples=500)
settings.load_profile(os.environ.get("LAWS", "same"))
