"""Re-threading against worked figures; each was derived once by hand from the sizes of BS 93, BS 84 and ISO 724."""

from __future__ import annotations

import pytest

from lapwright.errors import DoesNotFit
from lapwright.tables.naming import find_thread
from lapwright.tables.threads import list_threads
from lapwright.workshop.rethreading import describe_rethread, find_beat, list_successors


def test_four_to_three_ba_leaves_the_worked_worst_and_mean() -> None:
    # Worst (4.10 - 3.60)/0.88 = 56.8 %. Mean: between 3.22 and 3.60 the fresh part is the integral of
    # 1/2 + (x - 3.205) 0.44001/0.66, = 0.190 + 0.3333 (0.395^2 - 0.015^2) = 0.2419; (0.50 + 0.2419)/0.88 = 84.3 %.
    up = describe_rethread(find_thread("4 BA"), find_thread("3 BA"))
    assert 100 * up.worst == pytest.approx(57, abs=0.5)
    assert 100 * up.mean == pytest.approx(84, abs=0.5)
    assert not up.cleans_up
    assert up.tapping_drill == pytest.approx(3.4e-3)
    # 0.66 x 0.73 / 0.07 = 6.88 mm.
    assert up.beat is not None
    assert up.beat * 1e3 == pytest.approx(6.88, abs=0.01)


def test_ten_to_nine_ba_is_the_poorest_step_of_the_larger_sizes() -> None:
    # (1.90 - 1.70)/0.47 = 42.6 %. Among the watchmaker's sizes 13 to 12 is poorer still: 0.1/0.34 = 29 %.
    up = describe_rethread(find_thread("10 BA"), find_thread("9 BA"))
    assert 100 * up.worst == pytest.approx(43, abs=0.5)
    others = [describe_rethread(find_thread(f"{n} BA"), find_thread(f"{n - 1} BA")) for n in range(1, 11)]
    assert not any(other.cleans_up for other in others)
    assert min(others, key=lambda other: other.worst).old.name == "10 BA"


@pytest.mark.parametrize("number", range(2, 17))
def test_two_numbers_up_always_cleans_a_ba_hole(number: int) -> None:
    # Checked by hand: each tapping drill against the old major, such as 4.0 against 3.6 mm for 4 to 2 BA.
    assert describe_rethread(find_thread(f"{number} BA"), find_thread(f"{number - 2} BA")).cleans_up


@pytest.mark.parametrize(
    ("old", "new", "percent"),
    [
        # 1/32 in = 0.794 mm over 1.280654 x 0.635 = 0.813 mm; at 32 tpi over 1.0166 mm.
        ("1/4 x 40 ME", "9/32 x 40 ME", 98),
        ("3/16 x 40 ME", "7/32 x 40 ME", 98),
        ("1/4 x 32 ME", "9/32 x 32 ME", 78),
        # (4.70 - 4)/0.97; (4.7625 - 4)/0.8132; (5 - 4)/0.866, of which only the full depth counts.
        ("M4", "2 BA", 72),
        ("M4", "3/16 x 40 ME", 94),
        ("M4", "M5", 100),
    ],
)
def test_a_stripped_hole_leaves_the_worked_share(old: str, new: str, percent: float) -> None:
    up = describe_rethread(find_thread(old), find_thread(new), stripped=True)
    assert 100 * up.worst == pytest.approx(percent, abs=0.6)
    assert up.mean == up.worst


def test_a_short_hole_counts_on_the_worst_place_and_a_long_one_on_the_mean() -> None:
    old, new = find_thread("4 BA"), find_thread("3 BA")
    short = describe_rethread(old, new, depth=5e-3)
    long = describe_rethread(old, new, depth=8e-3)
    assert short.counted == short.worst
    assert "shorter than one beat" in " ".join(short.notes)
    assert long.counted == long.mean
    assert "can be counted on" in " ".join(long.notes)


def test_equal_pitches_have_no_beat_and_are_warned_of() -> None:
    old, new = find_thread("1/4 x 40 ME"), find_thread("9/32 x 40 ME")
    assert find_beat(old, new) is None
    up = describe_rethread(old, new, depth=20e-3)
    assert up.counted == up.worst
    assert "start it in a guide" in " ".join(up.notes)


def test_the_wall_that_is_left_is_told() -> None:
    # 3 mm beside 4 BA; 3 BA is 0.5 mm larger, so 2.75 mm stay, more than half of 4.1; of 2 mm 1.75 stay, which is less.
    old, new = find_thread("4 BA"), find_thread("3 BA")
    roomy, thin = (describe_rethread(old, new, wall=wall) for wall in (3e-3, 2e-3))
    assert roomy.wall_left == pytest.approx(2.75e-3)
    assert roomy.wall_allows is True
    assert thin.wall_allows is False
    assert "1.75 mm of metal would stay" in " ".join(thin.notes)


def test_a_hole_cannot_be_cut_smaller_and_nothing_is_no_depth() -> None:
    with pytest.raises(DoesNotFit, match=r"4 BA .* is not larger than 4 BA .* write 3 BA or 2 BA"):
        describe_rethread(find_thread("4 BA"), find_thread("4 BA"))
    with pytest.raises(DoesNotFit, match=r"the wall beside the hole is 0.00 mm"):
        describe_rethread(find_thread("4 BA"), find_thread("3 BA"), wall=0.0)


def test_successors_stand_in_a_sensible_order() -> None:
    ups = list_successors(find_thread("4 BA"))
    names = [up.new.name for up in ups]
    assert names[0] == "2 BA"
    assert "3 BA" in names
    assert len(set(names)) == len(names)
    tiers = [up.cleans_up for up in ups]
    assert tiers == sorted(tiers, reverse=True)
    assert all(3.6e-3 < up.new.major <= 1.6 * 3.6e-3 for up in ups)
    assert all(up.new.series != "BSP" for up in ups)


def test_of_twins_one_is_told_and_a_thin_wall_puts_a_size_last() -> None:
    names = [up.new.name for up in list_successors(find_thread("7/32 BSF"))]
    twins = [row for row in list_threads() if row.twins]
    assert all(sum(name in names for name in (row.name, *row.twins)) <= 1 for row in twins)
    thin = list_successors(find_thread("4 BA"), wall=2.3e-3)
    allowed = [bool(up.wall_allows) for up in thin]
    assert allowed == sorted(allowed, reverse=True)
    assert set(allowed) == {True, False}
