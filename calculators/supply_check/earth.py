"""Is line where line belongs, is there an earth, and what does the neutral carry?

These limits protect a person: passed only with the whole band inside. Volts show that an earth is connected, never
how good it is; and on two lines they do not even show that, because an open earth floats to the same half.
The comparisons use one voltmeter: its gain error goes with the difference, the counts are added.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from calculators.contract import quantity
from calculators.findings import Decider, Finding, NextStep, Placement, Verdict, judge, judge_side
from calculators.limits import Limit
from calculators.readings import Reading
from calculators.supply_check.case import Case
from calculators.supply_check.placing import finer_or, together

_LEAVE = NextStep(
    "Plug nothing in. A licensed electrician mends the outlet; check another outlet in the same way.", "supply-check"
)
_MEASURE = NextStep("Plug nothing in before this is passed: measure again, or use another outlet.", "supply-check")
_GO_ON = NextStep(
    "Go on with the volts at the start. If somebody felt a tingle the machine itself is measured first, unplugged.",
    "supply-check",
)
_NEUTRAL = NextStep(
    "Look at plugs and cord, dead; then a licensed electrician looks at outlet and neutral.", "cord-and-branch-circuit"
)
_PATTERNS = {
    "right": "line and neutral are in their places",
    "exchanged": "line and neutral are exchanged",
    "floating": "the earth floats between the poles: it is not connected",
    "nothing": "neither pole shows volts to earth: there is no earth, or a test lead is off",
}


@dataclass(frozen=True)
class Earth:
    """The idle volts between the poles and from each pole to earth."""

    idle: Reading
    line: Reading
    neutral: Reading
    polarity: str

    @property
    def pattern(self) -> str:
        """Which of the known patterns the three readings are nearest to."""
        full, half = self.idle.value, self.idle.value / 2.0
        known = {"right": (full, 0.0), "exchanged": (0.0, full), "floating": (half, half), "nothing": (0.0, 0.0)}
        here = (self.line.value, self.neutral.value)
        return min(known, key=lambda name: math.dist(here, known[name]))

    @property
    def live(self) -> Reading:
        """The pole that is the line: the first, or, where the plug can be turned, the one with more volts to earth."""
        if self.polarity == "reversible" and self.neutral.value > self.line.value:
            return self.neutral
        return self.line

    @property
    def other(self) -> Reading:
        """The pole that is the neutral."""
        return self.line if self.live is self.neutral else self.neutral

    @property
    def difference(self) -> float:
        """How far line to earth is off line to neutral."""
        return abs(self.live.value - self.idle.value)

    def place_sum(self, limit: Limit) -> Placement:
        """How far the volts to earth fall short of those between the poles: to an earth that is whole they never do."""
        meter, short = self.idle.meter, self.idle.value - self.line.value - self.neutral.value
        band = meter.gain_band(short) + 3.0 * meter.counts_band
        return judge_side(short, short - band, short + band, limit=limit.value, side="most", guard=limit.guard)

    def place(self, limit: Limit) -> Placement:
        """Both comparisons against the one limit."""
        meter, difference = self.idle.meter, self.difference
        band = meter.gain_band(difference) + 2.0 * meter.counts_band
        return together(
            judge(self.other.value, self.other.low, self.other.high, limit),
            judge_side(
                difference, difference - band, difference + band, limit=limit.value, side="most", guard=limit.guard
            ),
        )


def earth_of(case: Case) -> Earth | None:
    """The readings to earth, where both were taken."""
    line, neutral = case.entered.reading("line_earth_volts"), case.entered.reading("neutral_earth_idle")
    if line is None or neutral is None:
        return None
    return Earth(case.idle, line, neutral, case.entered.choice("polarity"))


def place_earth(case: Case) -> Placement:
    """The earth and the polarity of the outlet as far as they were read."""
    earth, test = earth_of(case), case.entered.choice("earth_test")
    if test == "bad":
        return Placement(Verdict.OUTSIDE)
    if earth is None:
        return Placement(Verdict.UNDECIDED, crossing=True)
    limit = case.standards.limit("supply.neutral_to_earth_idle")
    if earth.polarity != "two_lines":
        return earth.place(limit)
    if earth.pattern == "nothing":
        return Placement(Verdict.OUTSIDE)
    if test == "good" and earth.pattern == "floating" and earth.place_sum(limit).verdict is Verdict.WITHIN:
        return Placement(Verdict.WITHIN)
    return Placement(Verdict.UNDECIDED, crossing=True)


def earth_finding(case: Case) -> Finding:
    """Whether the outlet's poles and earth are as they have to be."""
    placed, earth, test = place_earth(case), earth_of(case), case.entered.choice("earth_test")
    limit = case.standards.limit("supply.neutral_to_earth_idle")
    if placed.verdict is Verdict.UNDECIDED:
        return _undecided(case, earth, limit)
    if placed.verdict is Verdict.OUTSIDE:
        why = "the earth was tested and is not good" if test == "bad" or earth is None else _wrong(earth, limit)
        sentence = f"Outlet not passed: {why}."
        plain = "This outlet can make the whole cabinet live or leave it without protection. It stays unused."
        return Finding("earth", Verdict.OUTSIDE, sentence, plain, _LEAVE, limit, stop=True)
    quality = " and was tested good" if test == "good" else ""
    if case.entered.choice("polarity") == "two_lines":
        sentence = "Two lines with an earth that was tested good; there is no polarity to judge."
        return Finding("earth", Verdict.WITHIN, sentence, "The earth is there by its own test.", _GO_ON)
    sentence = (
        f"{_read(earth)}: " if earth else ""
    ) + f"line and neutral as they belong, and an earth is there{quality}."
    plain = "The earth protects you and the customer; volts show that it is there, a loop test shows how good it is."
    return Finding("earth", Verdict.WITHIN, sentence, plain, _GO_ON, limit)


def _read(earth: Earth) -> str:
    return (
        f"Line to neutral {quantity(earth.idle.value, 'V', 1)}, line to earth {quantity(earth.live.value, 'V', 1)}, "
        f"neutral to earth {quantity(earth.other.value, 'V', 1)}"
    )


def _wrong(earth: Earth, limit: Limit) -> str:
    read = _read(earth)[:1].lower() + _read(earth)[1:]
    if earth.pattern == "right" or (earth.polarity == "reversible" and earth.pattern == "exchanged"):
        return f"{read}, where neutral to earth and the difference of the other two stay within {limit.text}"
    return f"{read}; {_PATTERNS[earth.pattern]}"


def _undecided(case: Case, earth: Earth | None, limit: Limit) -> Finding:
    def finding(sentence: str, plain: str, decider: Decider, *, stop: bool) -> Finding:
        return Finding("earth", Verdict.UNDECIDED, sentence, plain, _MEASURE, limit, decider, stop)

    resolution = f"{case.entered.meters['voltmeter'].resolution:g} V"
    if earth is None:
        missing = next(
            name for name in ("line_earth_volts", "neutral_earth_idle") if case.entered.reading(name) is None
        )
        decider = Decider("Each pole to earth", resolution, "nothing plugged in, before the machine", missing)
        sentence = "Polarity and earth are not judged: the volts from each pole to earth are not both entered."
        return finding(
            sentence, "Until that is read, nobody knows if this outlet protects anyone.", decider, stop=False
        )
    if earth.polarity == "two_lines":
        if earth.pattern == "floating" and earth.place_sum(limit).verdict is not Verdict.WITHIN:
            decider = Decider(
                "Each line to earth, and line to line",
                "0.1 V on a meter of 0.5 % + 2 counts",
                "nothing plugged in, the earth lead on bare metal; the earth tested anew where it stays like this",
                "line_earth_volts",
            )
            sentence = (
                f"Not passed: {_read(earth)}, where the last two together have to come to the first or more, within"
                f" {limit.text}."
            )
            plain = "To an earth that is whole they always do. A floating earth, or a coarse meter, shows less."
            return finding(sentence, plain, decider, stop=True)
        if earth.pattern == "floating":
            decider = Decider(
                "The earth of the outlet",
                "a low-ohm or loop tester",
                "by a licensed person; volts alone look the same with the earth open",
                "earth_test",
                "good",
            )
            sentence = "Not passed: on two lines the volts to earth look alike with the earth whole and with it open."
            return finding(sentence, "Only a test of the earth itself tells them apart.", decider, stop=True)
        again = place_earth(case.with_choice("polarity", "reversible")).verdict is not Verdict.UNDECIDED
        decider = Decider(
            "How the outlet is wired",
            resolution,
            "one pole lies at earth, as a neutral does: look which supply this is",
            "polarity",
            "reversible" if again else None,
        )
        sentence = f"Not passed: {_read(earth)}. Two lines do not read like that."
        return finding(sentence, "Either this is line and neutral, or something is wrong.", decider, stop=True)
    decider = finer_or(
        case,
        place_earth,
        "Both poles to earth",
        "nothing plugged in, the other loads of the circuit off",
        "no handheld meter decides so close to the limit: have the earth and the neutral tested",
    )
    sentence = f"Not passed, stop here: {_read(earth)}, and with the meter's band it may be more than {limit.text}."
    return finding(sentence, "Too close to the limit for this meter; it counts as not passed.", decider, stop=True)


def place_neutral(case: Case, reading: Reading) -> Placement:
    """Neutral to earth with the machine running, against its limit."""
    return judge(reading.value, reading.low, reading.high, case.standards.limit("supply.neutral_to_earth_running"))


def neutral_finding(case: Case) -> Finding | None:
    """What the neutral carries while the machine runs; None where it was not read, or there is no neutral."""
    reading = case.entered.reading("neutral_earth_running")
    if reading is None or case.entered.choice("polarity") == "two_lines":
        return None
    limit = case.standards.limit("supply.neutral_to_earth_running")
    placed = place_neutral(case, reading)
    read = f"Running, neutral to earth is {quantity(reading.value, 'V', 1)}"
    if placed.verdict is Verdict.WITHIN:
        words = f"not shown above {limit.text}" if placed.crossing else f"no more than {limit.text}"
        plain = "The neutral loses no more volts than it should."
        return Finding("neutral-running", placed.verdict, f"{read}: {words}.", plain, _GO_ON, limit)
    if placed.verdict is Verdict.OUTSIDE:
        sentence = f"{read}, more than {limit.text}: ohms in the neutral, or another load on it."
        plain = (
            "A bad neutral joint takes volts from the machine and gets hot. The compressor is not to blame for that."
        )
        return Finding("neutral-running", placed.verdict, sentence, plain, _NEUTRAL, limit)

    def place(changed: Case) -> Placement:
        again = changed.entered.reading("neutral_earth_running")
        return placed if again is None else place_neutral(changed, again)

    decider = finer_or(
        case,
        place,
        "Neutral to earth",
        "while the machine runs, and once more with the other loads of the circuit off",
        "no handheld meter decides so close to the limit: read it with the other loads on and off",
    )
    sentence = f"{read}: above {limit.text}, but the meter's band reaches back over it."
    plain = "The meter is too coarse to tell a bad neutral from a fair one."
    return Finding("neutral-running", placed.verdict, sentence, plain, _NEUTRAL, limit, decider)
