"""The sheets of torque and rethread: what stands on them, and that they fit a terminal."""

from __future__ import annotations

import pytest

from lapwright.cli.rethread import write_rethread
from lapwright.cli.torque import write_torque
from lapwright.job.lookup.rethread_answer import RethreadAsked, answer_rethread
from lapwright.job.lookup.torque_answer import TorqueAsked, answer_torque


def torque(**asked: object) -> str:
    return write_torque(answer_torque(TorqueAsked(**asked)))  # type: ignore[arg-type]


def rethread(**asked: object) -> str:
    return write_rethread(answer_rethread(RethreadAsked(**asked)))  # type: ignore[arg-type]


def test_a_screw_is_told_its_torque_first_and_what_gives_way() -> None:
    sheet = torque(thread="M3", engagement="3 mm")
    assert sheet.startswith("M3 steel screw in brass\n")
    assert sheet.splitlines()[3] == "Tighten to           0.51 N m (4.5 lbf in), thread dry"
    assert "the screw shank stretches at" in sheet
    assert "0.7 to 1.1 N m for small steel screws" in sheet
    assert "from memory" in sheet


def test_what_is_usual_stands_beside_what_would_do() -> None:
    iron = " ".join(torque(thread="6BA", hole="cast iron", engagement="4 mm").split())
    # 1.5 x 2.8 mm.
    assert "one and a half diameters, 4.2 mm, are usual in cast iron where there is room (from memory)" in iron
    brass = " ".join(torque(thread="4BA").split())
    assert "a diameter, 3.6 mm, is usual in brass where there is room (from memory)" in brass
    cut = " ".join(rethread(old="4BA", new="3BA", metal="aluminium").split())
    assert "one and a half diameters, 6.2 mm, are usual in aluminium" in cut


def test_less_than_is_needed_is_not_called_usual() -> None:
    sheet = torque(thread="M3", screw="high-tensile steel", hole="aluminium", worn=True)
    assert "It wants" in sheet
    assert "usual" not in sheet


def test_a_screw_that_may_hold_pressure_carries_the_cautions_and_a_grub_screw_does_not() -> None:
    sheet = " ".join(torque(thread="4BA").split())
    assert "Caution: A stud or a cover screw may hold pressure. Shut off steam or air" in sheet
    assert "nothing here says that it is safe" in sheet
    assert "cover screw" not in torque(thread="4BA", grub=True)


def test_a_hole_that_has_to_be_drilled_is_not_told_a_straight_tap() -> None:
    for old, new, stripped in (("4BA", "M5", False), ("4BA", "2BA", True), ("5/32 x 40", "3/16 x 40", True)):
        sheet = rethread(old=old, new=new, stripped=stripped)
        assert "Tapped straight in" not in sheet
        assert "to drill first is the only way" in " ".join(sheet.split())
    assert "only way" not in rethread(old="4BA", new="3BA")


def test_a_worn_hole_is_told_in_the_title() -> None:
    assert torque(thread="4BA", worn=True).startswith("4 BA steel screw in brass, worn thread\n")


def test_a_grub_screw_is_told_first_whether_it_is_enough() -> None:
    enough = torque(thread="4BA", shaft="5 mm", hold="0.05 N m")
    assert enough.splitlines()[3].startswith("Enough?                  yes: it holds 35 times the torque")
    assert "the hex key twists" in enough
    poor = torque(thread="M4", shaft="8 mm", hold="0.5 N m", engagement="1 mm", worn=True)
    assert "no: it holds 2.6 times the torque, 4 times is wanted" in " ".join(poor.split())
    assert "half of what strips the thread in the brass" in " ".join(poor.split())
    assert "file a flat" in poor
    assert "Caution: Clamp the work" in poor


def test_a_pair_is_told_what_it_leaves_and_the_work() -> None:
    sheet = rethread(old="4BA", new="3BA", depth="5 mm", wall="3 mm")
    assert "57 % of the thread in the worst place, 84 % on the mean" in sheet
    assert "One beat of the pitches  6.9 mm" in sheet
    assert "2.75 mm, enough" in sheet
    assert "4 BA cut to 3 BA, straight in" in sheet
    assert " 1. Take the screw out" in sheet


def test_without_a_wish_the_sizes_are_listed_and_the_rest_counted() -> None:
    sheet = rethread(old="4BA")
    assert "2 BA (4.70 mm): drill 4.00 mm (from memory), 72 % of the\n" in sheet
    assert "3 BA (4.10 mm): worst 57 %, mean 84 %" in sheet
    assert "more: --json lists them all" in sheet
    assert "So                     4 BA drilled out and tapped 2 BA" in sheet
    assert "too little wall" in rethread(old="4BA", wall="2.3 mm")


@pytest.mark.parametrize("old", ["4BA", "M4", "1/4 x 40", "3/16 BSW", "No 5-40 UNC", "16 BA"])
@pytest.mark.parametrize("metal", ["brass", "cast iron"])
def test_every_sheet_fits_eighty_columns(old: str, metal: str) -> None:
    sheets = [
        torque(thread=old, hole=metal),
        torque(thread=old, hole=metal, hold="0.5 N m", slotted=True),
        rethread(old=old, metal=metal),
        rethread(old=old, metal=metal, stripped=True, wall="2 mm"),
        rethread(old=old, metal=metal, into_steam=True),
        rethread(old=old, metal=metal, keep_screw=True),
    ]
    assert max(len(line) for sheet in sheets for line in sheet.splitlines()) <= 80
