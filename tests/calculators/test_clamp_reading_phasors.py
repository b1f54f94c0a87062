"""Currents taken off one another: against printed circuits, and against currents added up by complex numbers."""

from __future__ import annotations

import cmath
import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from calculators.phasors import Branch, lag_of, remaining


def at(amps: float, lag: float) -> Branch:
    return Branch(amps, amps, lag, lag)


@pytest.mark.source("bird-circuits-16", "kuphaldt-parallel")
@pytest.mark.parametrize(
    ("total", "load", "own_lag", "printed", "digits"),
    [
        # Bird, Electrical Circuit Theory and Technology, ch. 16: at 240 V, 50 Hz a coil takes 3.75 A lagging 51.35
        # degrees and a capacitor beside it 2.26 A leading 90 degrees; the supply current is 2.43 A.
        (2.43, at(2.26, -90.0), 51.35, 3.75, 0.01),
        # Kuphaldt, Lessons In Electric Circuits, AC ch. 3, parallel R-L (digits from memory, printed there as a
        # picture): 2 A in the resistor and 2.6526 A in the coil are 3.3221 A.
        (3.3221, at(2.0, 0.0), 90.0, 2.6526, 0.0001),
        (3.3221, at(2.6526, 90.0), 0.0, 2.0, 0.0001),
    ],
)
def test_what_is_left_is_what_textbooks_print(
    total: float, load: Branch, own_lag: float, printed: float, digits: float
) -> None:
    left = remaining(total, total, (own_lag, own_lag), [load])
    assert left is not None
    assert left.least == pytest.approx(printed, abs=digits)
    assert left.most == pytest.approx(printed, abs=digits)


@pytest.mark.source("bird-circuits-16")
def test_a_load_that_is_more_than_the_total_leaves_either_of_two_currents() -> None:
    # Bird ch. 16, the other way round: the coil's 3.75 A taken off 2.43 A leaves the capacitor's 2.26 A, which leads;
    # 3.59 A leading would make the same total.
    left = remaining(2.43, 2.43, (-90.0, -90.0), [at(3.75, 51.35)])
    assert left is not None
    assert left.least == pytest.approx(2.26, abs=0.03)
    assert left.most > 2.26


@pytest.mark.source("kuphaldt-lessons")
def test_a_motor_that_its_capacitor_brings_to_less_than_the_capacitor_itself_is_the_greater_of_the_two() -> None:
    # Kuphaldt, Lessons In Electric Circuits, AC ch. 11: 1.410 A at 45.152 degrees and 22 uF beside it make 994.7 mA;
    # 22 uF on 120 V, 60 Hz takes 120 V x 2 pi 60 Hz x 22 uF = 0.9953 A.
    left = remaining(0.9947, 0.9947, (45.152, 45.152), [at(0.9953, -90.0)])
    assert left is not None
    assert left.most == pytest.approx(1.410, abs=0.001)
    assert left.least < 0.01


@pytest.mark.source("kuphaldt-lessons")
def test_the_lag_of_a_power_factor_is_the_printed_one() -> None:
    assert lag_of(0.705) == pytest.approx(45.152, abs=0.02)  # Kuphaldt, AC ch. 11: 0.705 at 45.152 degrees
    assert lag_of(1.0) == 0.0
    assert lag_of(0.0) == 90.0


def test_currents_in_step_leave_the_plain_difference() -> None:
    left = remaining(1.45, 1.45, (50.0, 50.0), [at(0.2, 50.0)])
    assert left is not None
    assert left.least == pytest.approx(1.25, abs=1e-9)
    assert left.most == pytest.approx(1.25, abs=1e-9)


def test_currents_a_quarter_turn_apart_leave_the_other_side_of_a_right_triangle() -> None:
    left = remaining(5.0, 5.0, (90.0, 90.0), [at(3.0, 0.0)])  # 3, 4, 5
    assert left is not None
    assert left.least == left.most == 4.0


def test_at_unknown_angles_what_is_left_lies_between_difference_and_sum() -> None:
    left = remaining(2.0, 2.0, (-90.0, 90.0), [Branch(0.5, 0.5, -90.0, 90.0)])
    assert left is not None
    assert (left.least, left.most) == (1.5, 2.5)


def test_loads_that_lag_and_are_more_than_the_total_cannot_be() -> None:
    assert remaining(1.0, 1.0, (0.0, 90.0), [at(1.2, 30.0)]) is None


AMPS, LAG, PART = st.floats(0.01, 20.0), st.floats(-90.0, 90.0), st.one_of(st.just(0.0), st.floats(0.0, 1.0))
LOADS = st.lists(st.tuples(AMPS, LAG, PART, PART, PART, PART), max_size=3)


@given(AMPS, LAG, PART, PART, LOADS, PART)
def test_the_truth_always_lies_between_the_ends(
    amps: float, lag: float, under: float, over: float, loads: list[tuple[float, ...]], off: float
) -> None:
    total = cmath.rect(amps, -math.radians(lag))
    others = []
    for size, angle, less, more, before, after in loads:
        total += cmath.rect(size, -math.radians(angle))
        span = (max(angle - 60.0 * before, -90.0), min(angle + 60.0 * after, 90.0))
        others.append(Branch(size * (1.0 - 0.3 * less), size * (1.0 + 0.3 * more), *span))
    own = (max(lag - 60.0 * under, -90.0), min(lag + 60.0 * over, 90.0))
    left = remaining(abs(total) * (1.0 - 0.1 * off), abs(total) * (1.0 + 0.1 * off), own, others)
    assert left is not None or abs(total) < 1e-6
    if left is not None:
        assert left.least <= amps * (1.0 + 1e-6) + 1e-9
        assert left.most >= amps * (1.0 - 1e-6) - 1e-9


@given(AMPS, AMPS, LAG, LAG, PART)
def test_a_wider_span_of_angles_never_narrows_what_is_left(
    total: float, load: float, own_lag: float, load_lag: float, wider: float
) -> None:
    narrow = remaining(total, total, (own_lag, own_lag), [at(load, load_lag)])
    span = (max(load_lag - 40.0 * wider, -90.0), min(load_lag + 40.0 * wider, 90.0))
    wide = remaining(total, total, (own_lag, own_lag), [Branch(load, load, *span)])
    if narrow is not None:
        assert wide is not None
        assert wide.least <= narrow.least + 1e-9
        assert wide.most >= narrow.most - 1e-9


def test_two_loads_in_step_count_as_their_sum() -> None:
    # By hand: 3 A and 4 A in step are 7 A; in step with them, 3 A more make a total of 10 A.
    left = remaining(10.0, 10.0, (0.0, 0.0), [at(3.0, 0.0), at(4.0, 0.0)])
    assert left is not None
    assert (left.least, left.most) == (pytest.approx(3.0), pytest.approx(3.0))
    assert left.square == (pytest.approx(49.0), pytest.approx(49.0))


def test_two_loads_that_are_all_of_the_total_leave_nothing_at_the_least() -> None:
    # By hand: 3 A and 4 A a quarter turn apart are 5 A; of a total from 5 A up, nothing may be left.
    left = remaining(5.0, 6.0, (0.0, 90.0), [at(3.0, 0.0), at(4.0, 90.0)])
    assert left is not None
    assert left.least == 0.0
