"""What a hole can be cut to, from what was written to what is answered."""

from __future__ import annotations

import json

import pytest

from lapwright.errors import BadInput, DoesNotFit, NotOneOf, NoUnit, OutOfRange, UnknownThread
from lapwright.job.lookup.rethread_answer import RethreadAsked, answer_rethread, list_rethread


def test_a_pair_of_threads_as_plain_data() -> None:
    told = list_rethread(answer_rethread(RethreadAsked(old="4BA", new="3BA")))
    json.dumps(told, allow_nan=False)
    # By hand from BS 93: 0.50/0.88 and 0.742/0.88.
    assert told["worst_engagement_percent"] == pytest.approx(57, abs=0.5)
    assert told["mean_engagement_percent"] == pytest.approx(84, abs=0.5)
    assert told["cleans_up"] is False
    assert told["tapping_drill_mm"] == 3.4
    assert told["plan"]["choice"] == "straight in"
    assert (told["from"], told["to"]) == ("4 BA", "3 BA")


def test_without_a_wish_there_is_a_list_and_the_first_that_fits_is_planned() -> None:
    told = list_rethread(answer_rethread(RethreadAsked(old="4BA", stripped=True)))
    assert told["choices"][0]["to"] == told["plan"]["screw"] == "2 BA"
    assert told["choices"][0]["cleans_up"] is True
    assert "3 BA" in [choice["to"] for choice in told["choices"]]
    assert "worst_engagement_percent" not in told


def test_the_asked_figures_are_told_even_where_another_size_is_planned() -> None:
    told = list_rethread(answer_rethread(RethreadAsked(old="10BA", new="9BA")))
    assert told["worst_engagement_percent"] == pytest.approx(43, abs=0.5)
    assert told["plan"]["screw"] == "8 BA"


def test_a_screw_that_stays_has_no_choices() -> None:
    assert answer_rethread(RethreadAsked(old="M4", keep_screw=True)).choices == ()


def test_a_grub_screw_stands_on_the_list() -> None:
    told = list_rethread(answer_rethread(RethreadAsked(old="4BA", new="3BA", grub=True, torque="0.5 N m")))
    assert told["plan"]["torque_nm"] == 0.5
    assert "3 BA socket grub screw" in [item["name"] for item in told["plan"]["have_ready"]]


@pytest.mark.parametrize(
    ("asked", "error", "said"),
    [
        (RethreadAsked(old="1/4 x 41"), UnknownThread, "1/4 x 40 ME"),
        (RethreadAsked(old="4BA", new="M3.1"), BadInput, "M3"),
        (RethreadAsked(old="4BA", new="5BA"), DoesNotFit, "write 3 BA or 2 BA"),
        (RethreadAsked(old="4BA", wall="3"), NoUnit, "3 mm"),
        (RethreadAsked(old="4BA", depth="-5 mm"), OutOfRange, "not more than nothing"),
        (RethreadAsked(old="4BA", metal="cheese"), NotOneOf, "gunmetal"),
        (RethreadAsked(old="4BA", torque="0 N m"), OutOfRange, "0.5 N m"),
    ],
)
def test_what_cannot_be_read_or_be_is_said(asked: RethreadAsked, error: type[BadInput], said: str) -> None:
    with pytest.raises(error) as caught:
        answer_rethread(asked)
    assert said in str(caught.value)
