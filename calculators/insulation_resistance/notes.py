"""What stands beside the numbers of the insulation check: what was not looked at, and what megohms do not show."""

from __future__ import annotations

from collections.abc import Iterator

from calculators.contract import rounded
from calculators.insulation_resistance.inputs import PLACES
from calculators.insulation_resistance.judgement import Case
from calculators.insulation_resistance.leakage import Leakage
from calculators.insulation_resistance.temperature import halving_factor, thermosetting_factor


def notes_of(case: Case, leakage: Leakage | None, temperature: float | None) -> Iterator[str]:
    """Everything that stands beside the numbers."""
    yield from _how_it_was_tested(case)
    yield from _pins_against_each_other(case)
    yield _temperature_note(temperature)
    if leakage is not None and leakage.trips(*_trip_range(case, "gfci")) == "no":
        yield (
            "A trip with good megohms points to heaters, cord, board, other machines on the circuit, current by"
            " capacitance, or insulation that breaks down only at full voltage."
        )
    yield "Refrigerant, oil and heat lower a healthy reading; compare only readings taken alike."


def _trip_range(case: Case, device: str) -> tuple[float, float]:
    least, most = (case.standards.value(f"protection.{device}_{end}") / 1e3 for end in ("least", "most"))
    return least, most


def _how_it_was_tested(case: Case) -> Iterator[str]:
    volts = case.standards.limit("insulation.test_volts")
    if case.test_volts is not None and case.test_volts > volts.value:
        yield (
            f"This was tested at more than {volts.text}: no higher voltage is used on these motors, also not to repeat."
        )
    if case.pin_state in ("dirty", "joined"):
        yield "Dirt, damp and joined parts only lower a reading, so a high one stands; write down what was on the pins."
    unseen = [one.words for one in case.places if one.first is None and not one.open_line]
    if unseen:
        words = ", ".join(unseen)
        yield f"Whether it falls during the test was not seen, for want of a first reading: {words.lower()}."


def _pins_against_each_other(case: Case) -> Iterator[str]:
    """Whole windings join the pins by a few ohms, so that all three leak alike."""
    whole = case.whole
    if case.pins:
        lowest, highest = (find(case.pins, key=lambda one: one.low) for find in (min, max))
        if lowest.high < highest.low:
            yield (
                f"{lowest.words} reads {lowest.text} and {highest.words.lower()} reads {highest.text}: with whole"
                " windings all pins read alike. A winding is open between them, or something dried or warmed between"
                " the readings."
            )
    if whole is not None and len(case.pins) == len(PLACES):
        lowest = min(case.pins, key=lambda one: one.low)
        if lowest.high < whole.low:
            yield (
                f"The whole machine reads more than {lowest.words.lower()}: from the plug a contact was open, so it did"
                " not see the compressor."
            )


def _temperature_note(temperature: float | None) -> str:
    if temperature is None:
        return "No shell temperature was entered: a megohm figure without its temperature cannot be compared later."
    halving, thermosetting = halving_factor(temperature), thermosetting_factor(temperature)
    other = (
        "the thermosetting formula does not reach that temperature"
        if thermosetting is None
        else f"the thermosetting formula by {rounded(thermosetting, 2)}"
    )
    return (
        f"To 40 °C the halving rule multiplies by {rounded(halving, 2)}, {other}. They disagree, neither was made for a"
        " winding in refrigerant and oil, and neither takes part in the verdict: the reading as taken decides."
    )
