"""The setting's last look agrees with the leads it asks for."""

from __future__ import annotations

import re

import pytest

from lapwright.cures.setting import describe_setting
from tests.unit.papers.matters import examine_demo


@pytest.mark.parametrize("name", ["tern", "dunlin", "curlew"])
def test_what_is_seen_when_it_is_right_belongs_to_the_equal_leads_that_were_set(name: str) -> None:
    visit = examine_demo(name)
    cure = visit.cures[0]
    sizes = next(sizes for sizes in visit.cylinders if sizes.name == cure.cylinder).replacing(cure.changes)
    parts = {part.title: part.steps for part in describe_setting(visit.engine, sizes)}
    assert "Set for equal leads" in parts
    opens = []
    for step in parts["What to see when it is right"]:
        found = re.search(r"opens (?:at dead centre|(\d+\.\d) deg (after|before) dead centre)", step)
        if found is None:
            assert step.startswith("All this with the leads alike: the valve moved by ")
            continue
        opens.append(0.0 if found[1] is None else float(found[1]) * (1 if found[2] == "after" else -1))
    assert len(opens) == 2
    # Equal leads open both ports at the same angle but for the connecting rod's and the eccentric rod's slant.
    assert abs(opens[0] - opens[1]) < 0.75
