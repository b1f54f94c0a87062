"""What a reader must know beside the numbers of a locked-rotor check."""

from __future__ import annotations

from collections.abc import Iterator

from calculators.contract import quantity, rounded
from calculators.locked_rotor.case import Case
from calculators.locked_rotor.heating import DENSITIES, heating_rate
from calculators.units import to_base


def notes(case: Case) -> Iterator[str]:
    """What a reader must know beside the numbers."""
    yield _heat(case)
    yield from _about_the_plate(case)
    if case.entered.number("rest_between") is not None and case.count < 2:
        yield "The rest is not used: there was only one attempt."
    second = len(case.attempts) == 2
    if case.count >= 2 and not second and case.attempts:
        yield "Only one of the attempts was measured; both have to be, before a rotor is judged by two."
    yield (
        "Amps of a standing rotor are taken to go with the volts, in a straight line. Small motors that saturate take "
        "somewhat less at low volts than that."
    )


def _heat(case: Case) -> str:
    longest = case.standards.limit("starting.longest_attempt")
    seconds = to_base(longest.value, longest.unit)
    rates = [heating_rate(density) for density in DENSITIES]
    densities = ", ".join(f"{density:g}" for density in DENSITIES)
    each = ", ".join(rounded(rate, 1) for rate in rates)
    after = ", ".join(rounded(rate * seconds, 0) for rate in rates)
    return (
        f"A winding that stands still at {densities} A/mm² heats by {each} K each second: {after} K in {longest.text}. "
        f"Start windings are at the high end. The {longest.text} are a budget, not a habit."
    )


def _about_the_plate(case: Case) -> Iterator[str]:
    if case.plate.ranged:
        yield (
            f"The plate prints {case.plate.text}: the amps are taken for {case.nominal:g} V, the middle, and both ends "
            "are in the band. The volts are held against the low end."
        )
    letter, amps = case.letter, case.locked_rotor_amps
    if letter is None or amps is None:
        return
    if amps < letter.least or (letter.most is not None and amps > letter.most):
        most = "more" if letter.most is None else quantity(letter.most, "A", 1)
        yield (
            f"Plate and letter do not agree: LRA {quantity(amps, 'A', 1)}, by code letter {letter.letter} "
            f"{rounded(letter.least, 1)} to {most}. The plate's amps are used; read hp, volts and letter again."
        )
