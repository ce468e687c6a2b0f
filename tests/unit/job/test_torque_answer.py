"""How tight a screw may be drawn, from what was written to what is answered."""

from __future__ import annotations

import json

import pytest

from lapwright.errors import BadInput, DoesNotFit, NotOneOf, NoUnit, OutOfRange, UnknownThread
from lapwright.job.lookup.torque_answer import TorqueAsked, answer_torque, list_torque


def test_what_is_not_said_is_taken_and_told() -> None:
    answer = answer_torque(TorqueAsked(thread="4BA"))
    assert answer.tightening is not None
    assert (answer.tightening.hole, answer.tightening.condition) == ("brass", "dry")
    assert "taken as one diameter, 3.60 mm" in answer.notes[0]
    assert dict(answer.others)["oiled"] == pytest.approx(0.75 * answer.tightening.torque)


def test_a_shaft_or_a_torque_to_hold_makes_it_a_grub_screw() -> None:
    for asked in (
        TorqueAsked(thread="M4", grub=True),
        TorqueAsked(thread="M4", slotted=True),
        TorqueAsked(thread="M4", shaft="5 mm"),
        TorqueAsked(thread="M4", hold="0.05 N m"),
    ):
        answer = answer_torque(asked)
        assert answer.grip is not None
        assert answer.tightening is None
        assert (answer.plan is not None) == (asked.hold is not None)
    assert "taken as twice the screw, 8.00 mm" in " ".join(answer_torque(TorqueAsked(thread="M4", grub=True)).notes)


def test_a_screw_as_plain_data() -> None:
    told = list_torque(answer_torque(TorqueAsked(thread="M3", hole="steel", engagement="3 mm")))
    json.dumps(told, allow_nan=False)
    # A bolting page: 849 N and 0.5 N m for class 4.6.
    assert told["torque_nm"] == pytest.approx(0.5, abs=0.01)
    assert told["thrust_n"] == pytest.approx(849, abs=1)
    assert told["gives_way_first"] == "screw shank"
    assert told["limits"][0]["safe_torque_nm"] == told["torque_nm"]
    assert told["published_nm"] == [0.7, 1.1]
    assert "holds_nm" not in told


def test_a_grub_screw_as_plain_data() -> None:
    told = list_torque(
        answer_torque(TorqueAsked(thread="M4", shaft="8 mm", engagement="2.4 mm", hold="0.05 N m", load="steady"))
    )
    json.dumps(told, allow_nan=False)
    assert told["torque_nm"] == 2.2
    assert told["thrust_n"] == 2750
    assert told["needed_nm"] == pytest.approx(0.1)
    assert told["enough"] is True
    assert told["ways"][-1]["holds_nm"] is None
    assert {"shelf": "tools", "name": "hex key 2 mm", "count": 1, "amount": ""} in told["have_ready"]


@pytest.mark.parametrize(
    ("asked", "error", "said"),
    [
        (TorqueAsked(thread="7AB"), UnknownThread, "7 BA"),
        (TorqueAsked(thread="4BA", engagement="4"), NoUnit, "4 mm"),
        (TorqueAsked(thread="4BA", engagement="-4 mm"), OutOfRange, "not more than nothing"),
        (TorqueAsked(thread="4BA", engagement="40 mm"), OutOfRange, "more thread than 10 diameters of 4 BA, 36 mm"),
        (TorqueAsked(thread="4BA", hole="cheese"), NotOneOf, "brass"),
        (TorqueAsked(thread="4BA", screw="wood"), NotOneOf, "steel"),
        (TorqueAsked(thread="4BA", condition="wet"), NotOneOf, "oiled"),
        (TorqueAsked(thread="4BA", hold="0 N m"), OutOfRange, "0.05 N m"),
        (TorqueAsked(thread="4BA", hold="5 mm"), BadInput, "unit"),
        (TorqueAsked(thread="4BA", hold="1 N m", load="odd"), NotOneOf, "reversing"),
        (TorqueAsked(thread="4BA", grub=True, point="sharp"), NotOneOf, "cup"),
        (TorqueAsked(thread="4BA", shaft="0 mm"), OutOfRange, "5 mm"),
        (TorqueAsked(thread="4BA", shaft="3 mm"), DoesNotFit, "no thicker"),
    ],
)
def test_what_cannot_be_read_or_be_is_said(asked: TorqueAsked, error: type[BadInput], said: str) -> None:
    with pytest.raises(error) as caught:
        answer_torque(asked)
    assert said in str(caught.value)
