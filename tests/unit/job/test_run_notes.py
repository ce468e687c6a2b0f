"""What is said of a run, where it is true and nowhere else."""

from __future__ import annotations

import re

import pytest

from lapwright.job.run.notes import list_cautions
from lapwright.job.run.stand import Asked
from tests.unit.job.trials import RUNNERS, run

#: A sentence, by a part of it; a run of which it holds, and one of which it does not.
SENTENCES = [
    ("damp air may freeze there", ("tern", Asked(fluid="air")), ("tern", Asked(fluid="steam"))),
    ("turns to water on the walls", ("tern", Asked(fluid="steam")), ("tern", Asked(fluid="air"))),
    ("goes straight from chest to exhaust", ("dunlin", Asked()), ("sandpiper", Asked())),
    ("wants to run the other way round", ("curlew", Asked()), ("tern", Asked(speed="50000 rpm"))),
    ("The pistons pump instead of driving", ("tern", Asked(speed="50000 rpm")), ("curlew", Asked())),
    ("It does not keep this speed up by itself", ("tern", Asked(pressure="0.25 bar")), ("tern", Asked())),
    ("At no pressure that was tried", ("curlew", Asked()), ("tern", Asked())),
    (
        r"turns over only from 0\.\d\d bar on; at 0\.25 bar it stands",
        ("tern", Asked(pressure="0.25 bar")),
        ("tern", Asked()),
    ),
    ("Dragged along with the pipes off: cylinder B", ("tern", Asked(dead=("B",))), ("tern", Asked())),
    (r"twists its eccentric by \d.* mN m at most", ("tern", Asked()), ("merganser", Asked())),
    ("Caution: at .* faster than small engines are run", ("tern", Asked(speed="6000 rpm")), ("tern", Asked())),
    ("The flywheel lets the speed swing by", ("tern", Asked()), ("tern", Asked(speed="3000 rpm"))),
    ("The flywheel, assumed because it is not given", ("dunlin", Asked()), ("tern", Asked())),
    ("too light to carry it round", ("tern", Asked(speed="20 rpm")), ("tern", Asked())),
]


@pytest.mark.parametrize(("words", "holds", "does_not"), SENTENCES, ids=[words for words, _, _ in SENTENCES])
def test_a_sentence_is_said_where_it_holds_and_nowhere_else(
    words: str, holds: tuple[str, Asked], does_not: tuple[str, Asked]
) -> None:
    assert any(re.search(words, note) for note in run(*holds).notes), run(*holds).notes
    assert not any(re.search(words, note) for note in run(*does_not).notes), run(*does_not).notes


@pytest.mark.parametrize("name", RUNNERS)
def test_every_note_is_a_sentence(name: str) -> None:
    for fluid in ("air", "steam"):
        for note in run(name, Asked(fluid=fluid)).notes:
            assert note[0].isupper() or note[0].isdigit()
            assert note.endswith(".")
            assert "  " not in note
            assert not re.search(r"nan|None|e[+-]\d", note)


def test_cautions_go_with_the_fluid_and_never_call_a_part_safe() -> None:
    air, steam = " ".join(list_cautions("air")), " ".join(list_cautions("steam", by_hand=True))
    assert "Compressed air stores energy" in air
    assert "Steam scalds" in steam
    assert "Shut off and vent the supply" in steam
    assert "Shut off" not in air
    for text in (air, steam):
        assert "say nothing of whether boiler, chest or cylinder stand the pressure" in text
        assert "local rules, the inspector and the insurer" in text
