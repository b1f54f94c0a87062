"""Which pin is common, which is run, which is start, and are the windings whole?

Three readings between the three pins, everything off the pins, dead and discharged. The largest is
run and start in series, the odd pin is common, the smaller of the other two is the run winding.
Says nothing about insulation to the shell, and cannot find a few shorted turns by ohms alone.

Sources: highest pair, odd pin and order from Goodheart-Willcox, Heating and Cooling Essentials (2022), 25.8;
series sum from circuit theory; temperature by R2 = R1 (k + T2) / (k + T1), IEC 60335-1 clause 11, k = 234.5 copper, 225 aluminium.
Valid for single-phase motors with two windings joined at common. Not for three-phase drive motors.
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass
from itertools import combinations, permutations

from calculators.contract import Calculator, Example, Named, Outcome, Result, Step, quantity, rounded
from calculators.findings import Decider, Finding, NextStep, Verdict, judge_side
from calculators.inputs import (
    Choice,
    ChoiceInput,
    Entered,
    MeterInput,
    NumberInput,
    Problem,
    RefusedError,
    Typed,
)
from calculators.limits import InForce
from calculators.pin_drawing import PINS, ROLE_WORDS, pin_figure
from calculators.readings import Meter, Reading, in_quadrature
from calculators.units import from_base

COPPER = 234.5  # zero-resistance temperature below 0 °C; IEC 60335-1 clause 11
ALUMINIUM = 225.0  # the same for aluminium windings
METALS = {"copper": COPPER, "aluminium": ALUMINIUM}

Pair = tuple[str, str]
PAIRS: tuple[Pair, ...] = tuple((a, b) for a, b in combinations(PINS, 2))
FIELD: Mapping[Pair, str] = {("1", "2"): "r12", ("2", "3"): "r23", ("1", "3"): "r13"}

_READ_AGAIN = NextStep("Read the three pairs again with everything off the pins.", "identify-the-windings")
_TO_SHELL = NextStep("Measure each pin to the shell with the insulation tester.", "windings-to-shell")
_COOL = NextStep("Leave it off with a fan on the shell, then read the three pairs again.", "identify-the-windings")
_NEGATIVE = "Ohms below zero mean voltage or charge on the part: prove it dead, discharge it, then read again."


def _reading_input(pair: Pair) -> NumberInput:
    return NumberInput(FIELD[pair], f"Reading {pair[0]}–{pair[1]}", ("ohm", "kilohm", "milliohm"), 0.0, 300.0,
                       open_line=True, meter="ohmmeter", negative_hint=_NEGATIVE, group="Readings",
                       help=f"Ohms between pin {pair[0]} and pin {pair[1]}, as the meter shows it. OL when it shows open line.")


def _diagram_choices() -> tuple[Choice, ...]:
    orders = [Choice("unknown", "not known")]
    for letters in permutations("CRS"):
        orders.append(Choice("".join(letters), ", ".join(f"pin {p} {ROLE_WORDS[r]}" for p, r in zip(PINS, letters, strict=True))))
    return tuple(orders)


INPUTS = (
    _reading_input(("1", "2")),
    _reading_input(("2", "3")),
    _reading_input(("1", "3")),
    NumberInput("lead", "Test leads shorted together", ("ohm", "milliohm"), 0.0, 2.0, required=False, meter="ohmmeter",
                group="Readings", negative_hint=_NEGATIVE,
                help="What the meter shows with its probes touching. Enter 0 when the meter has been zeroed on them."),
    MeterInput("ohmmeter", "Ohmmeter", "ohm", 0.1, group="Meter"),
    NumberInput("shell_temperature", "Shell temperature", ("degC", "degF"), -10.0, 120.0, required=False,
                group="Condition", help="By probe or surface thermometer, when the readings were taken."),
    NumberInput("thermometer_band", "Thermometer good to within", ("K", "degF_diff"), 0.0, 20.0, default="2",
                group="Condition", help="How far the shell reading may be from the winding's own temperature."),
    NumberInput("hours_cool", "Time the shell has been cool", ("h", "min"), 0.0, 3.6e7, required=False, group="Condition",
                help="Only needed when a reading is OL: how long the shell has been too cool to hold an overload open."),
    NumberInput("hours_rest", "Time since it last ran or tripped", ("h", "min"), 0.0, 3.6e7, required=False,
                group="Condition", help="Only needed when a reading is OL."),
    ChoiceInput("repeated", "OL seen again after cleaning the pins, with other probes, meter proved on a known resistor",
                (Choice("no", "not yet"), Choice("yes", "yes")), "no", group="Condition"),
    ChoiceInput("layout", "How the pins stand", (Choice("unknown", "not noted"), Choice("single pin above", "one pin above two"),
                                                 Choice("single pin below", "one pin below two")), "unknown",
                group="Picture and data",
                help="Seen square-on. One above: 1 is on top, 2 lower left, 3 lower right. One below: 1 upper left, 2 upper right, 3 below."),
    ChoiceInput("diagram", "Pins by the machine's own diagram", _diagram_choices(), "unknown", group="Picture and data"),
    NumberInput("data_run", "Data sheet: run winding", ("ohm",), 0.05, 300.0, required=False, group="Picture and data"),
    NumberInput("data_start", "Data sheet: start winding", ("ohm",), 0.05, 300.0, required=False, group="Picture and data"),
    NumberInput("data_temperature", "Data sheet: at temperature", ("degC", "degF"), -10.0, 60.0, default="25",
                group="Picture and data"),
    ChoiceInput("metal", "Winding metal", (Choice("copper", "copper"), Choice("aluminium", "aluminium")), "copper",
                group="Picture and data"),
)


def resistance_at(ohms: float, measured_at: float, wanted_at: float, zero_resistance: float) -> float:
    """Bring a winding resistance from one temperature to another, both °C.

    R2 = R1 (k + T2) / (k + T1), IEC 60335-1 clause 11. Valid for one metal, -10 to 150 °C.

    >>> round(resistance_at(10.0, 22.0, 109.2, COPPER), 2)
    13.4
    """
    return ohms * (zero_resistance + wanted_at) / (zero_resistance + measured_at)


@dataclass(frozen=True)
class Pins:
    """The three readings after the leads are taken off, and what kind of band they carry.

    One meter takes all three: gain error is shared and cancels between readings; counts are independent.
    """

    ohms: Mapping[Pair, float]
    meter: Meter
    lead: float | None
    opens: tuple[Pair, ...]

    def band(self, pair: Pair) -> float:
        """+-a of one reading with the leads taken off, ohm."""
        counts = self.meter.counts_band
        return self.meter.gain_band(self.ohms[pair]) + (counts if self.lead is None else in_quadrature(counts, counts))

    def reading(self, pair: Pair) -> Reading:
        """One pair as a reading."""
        return Reading(self.ohms[pair], 0.0 if math.isinf(self.ohms[pair]) else self.band(pair), self.meter)

    def told_apart(self, larger: Pair, smaller: Pair, factor: float) -> bool:
        """Whether two readings of this meter differ by more than factor x counts and the shared gain on the gap."""
        return self.gap(larger, smaller) > self.gap_needed(larger, smaller, factor)

    def gap(self, larger: Pair, smaller: Pair) -> float:
        """How far two readings lie apart, ohm."""
        return self.ohms[larger] - self.ohms[smaller]

    def gap_needed(self, larger: Pair, smaller: Pair, factor: float) -> float:
        """How far they must lie apart to be told apart, ohm."""
        return factor * self.meter.counts_band + self.meter.gain_band(self.gap(larger, smaller))

    @property
    def ordered(self) -> tuple[Pair, Pair, Pair]:
        """The pairs from largest to smallest."""
        largest, middle, smallest = sorted(PAIRS, key=lambda pair: -self.ohms[pair])
        return largest, middle, smallest

    def text(self) -> dict[Pair, str]:
        """Every pair as printed."""
        return {pair: quantity(self.ohms[pair], "ohm", 2) for pair in PAIRS}


def evaluate(entered: Entered, standards: InForce) -> Outcome:
    """Name the pins, check the sum, compare with data where there is any; or say what must be read again."""
    pins = _nulled(entered)
    working = list(_nulling_steps(entered, pins))
    if pins.opens:
        finding = _open_lines(entered, pins, standards)
        return Outcome(_open_results(pins), (finding,), tuple(working),
                       (pin_figure(entered.choice("layout"), _diagram_roles(entered), pins.text()),), _notes(entered, pins, {}))
    pattern = _no_order(pins, standards)
    if pattern is not None:
        return Outcome((), (pattern,), tuple(working), (pin_figure(entered.choice("layout"), {}, pins.text()),),
                       _notes(entered, pins, {}))
    check = _sum_check(pins, standards)
    working.append(check.step)
    if not check.good:
        return Outcome((), (_sum_finding(pins, check, standards),), tuple(working),
                       (pin_figure(entered.choice("layout"), {}, pins.text()),), _notes(entered, pins, {}))
    roles, finding, naming = _name(entered, pins, check, standards)
    working += naming
    findings = [finding, *_weak(pins, standards), *_diagram_conflict(entered, roles)]
    results: list[Result | Named] = [_named(roles, role) for role in "CRS" if role in roles.values()]
    results += _resistances(entered, pins, roles, standards, working)
    if len(roles) == 3:
        findings += _against_data(entered, pins, roles, standards, working)
    figure = pin_figure(entered.choice("layout"), roles, pins.text())
    return Outcome(tuple(results), tuple(findings), tuple(working), (figure,), _notes(entered, pins, roles) + _short_sum_note(pins, check, standards))


# --- leads and open lines ---------------------------------------------------------------------------


def _nulled(entered: Entered) -> Pins:
    lead = entered.number("lead")
    ohms: dict[Pair, float] = {}
    for pair in PAIRS:
        value = entered.needed(FIELD[pair])
        if lead is not None and value < lead:
            raise RefusedError(Problem(FIELD[pair], f"Reading {pair[0]}–{pair[1]}: {quantity(value, 'ohm', 2)} is less than the leads alone, "
                                                    f"{quantity(lead, 'ohm', 2)}. Short the probes, read the leads again, then this pair."))
        ohms[pair] = value - (lead or 0.0)
    opens = tuple(pair for pair in PAIRS if math.isinf(ohms[pair]))
    return Pins(ohms, entered.meters["ohmmeter"], lead, opens)


def _nulling_steps(entered: Entered, pins: Pins) -> list[Step]:
    if not pins.lead:
        return []
    return [Step(f"Take the leads off {a}–{b}", "R = reading − leads",
                 f"{rounded(entered.needed(FIELD[a, b]), 2)} − {rounded(pins.lead, 2)}", quantity(pins.ohms[a, b], "ohm", 2), "derived")
            for a, b in PAIRS if (a, b) not in pins.opens]


def _open_results(pins: Pins) -> tuple[Result | Named, ...]:
    finite = [pair for pair in PAIRS if pair not in pins.opens]
    return tuple(Result(FIELD[a, b], f"Pin {a} to pin {b}", pins.ohms[a, b], "ohm", 2,
                        f"There is a path between pin {a} and pin {b}.", pins.reading((a, b)).low, pins.reading((a, b)).high)
                 for a, b in finite)


def _open_lines(entered: Entered, pins: Pins, standards: InForce) -> Finding:
    if len(pins.opens) == 1:
        a, b = pins.opens[0]
        third = next(pin for pin in PINS if pin not in (a, b))
        return Finding("open line", Verdict.UNDECIDED,
                       f"{a}–{b} reads open, yet both pins read through to pin {third}: the readings contradict each other.",
                       "If current can get from one pin to the middle one and on to the other, it can get all the way. One reading is wrong.",
                       _READ_AGAIN, decider=Decider(f"Reading {a}–{b}", "any", "probes on bright metal, a range that shows the sum of the other two"))
    isolated = next((pin for pin in PINS if all(pin in pair for pair in pins.opens)), None) if len(pins.opens) == 2 else None
    role = _role_of_isolated(entered, pins, isolated, standards) if isolated else None
    seen = _what_is_open(pins, isolated)
    missing = _not_cold(entered, standards)
    if missing:
        whole = (" The windings between run and start are whole; an internal overload that is open while hot is doing its job."
                 if role == "C" else "")
        return Finding("open line", Verdict.UNDECIDED, f"{seen} That is not yet a cold reading.{whole}",
                       "An overload inside the shell opens when hot and closes again by itself. Nobody can tell it from a broken winding until it is cold.",
                       _COOL, decider=Decider("all three pairs", "any", missing))
    if entered.choice("repeated") != "yes":
        return Finding("open line", Verdict.UNDECIDED, f"{seen} It has been read once only.",
                       "A dirty pin or a dead probe reads open too.", _READ_AGAIN,
                       decider=Decider("all three pairs", "any", "clean pins, other probes, meter proved on a known resistor; then say so here",
                                       "repeated", "yes"))
    return _cold_open(pins, isolated, role, seen)


def _cold_open(pins: Pins, isolated: str | None, role: str | None, seen: str) -> Finding:
    record = NextStep("Write the readings down with time, shell temperature and meter; a second person repeats them before anything is condemned.")
    if isolated is None:
        return Finding("open line", Verdict.OUTSIDE, f"{seen} Cold, repeated: more than one path is open, or a two-pole protector inside has failed.",
                       "No path is left between any two pins. This motor cannot run.", record)
    if role is None:
        return Finding("open line", Verdict.UNDECIDED, f"{seen} By ohms alone nobody can say which winding ends at pin {isolated}.",
                       "Only the pin is known, not its name. Get the name from the machine's diagram or its data sheet, never from where the pin sits.",
                       _READ_AGAIN, decider=Decider("the pin names", "not a matter of the meter",
                                                    "the machine's own diagram, or data-sheet ohms that fit one winding only", "diagram", None))
    sentence = {
        "C": "common is open: the internal overload has failed or the lead to common is broken",
        "R": "the run winding is open",
        "S": "the start winding is open",
    }[role]
    return Finding("open line", Verdict.OUTSIDE, f"{seen} Cold, repeated, pin {isolated} is {ROLE_WORDS[role]}: {sentence}.",
                   "This part of the motor no longer conducts. It cannot be mended from outside the shell.", record)


def _what_is_open(pins: Pins, isolated: str | None) -> str:
    if isolated is None:
        return "All three pairs read open."
    a, b = next(pair for pair in PAIRS if pair not in pins.opens)
    return f"Pin {isolated} reads open to both other pins; {a}–{b} reads {quantity(pins.ohms[a, b], 'ohm', 2)}."


def _not_cold(entered: Entered, standards: InForce) -> str:
    """What is missing before open lines may be judged; empty when nothing is."""
    cool, rest = standards.limit("windings.cool_hours"), standards.limit("windings.rest_hours")
    shell = standards.limit("windings.cool_shell_temperature")
    temperature, band = entered.number("shell_temperature"), entered.needed("thermometer_band")
    hours_cool, hours_rest = entered.number("hours_cool"), entered.number("hours_rest")
    cold = (temperature is not None and temperature + band <= shell.value
            and hours_cool is not None and from_base(hours_cool, "h") >= cool.value
            and hours_rest is not None and from_base(hours_rest, "h") >= rest.value)
    return "" if cold else (f"shell measured below {shell.text} for {cool.text}, and {rest.text} since the last run or trip; "
                            f"enter the temperature and both times")


def _role_of_isolated(entered: Entered, pins: Pins, isolated: str, standards: InForce) -> str | None:
    """The name of the isolated pin by the machine's diagram, else by data that only one winding fits."""
    by_diagram = _diagram_roles(entered).get(isolated)
    if by_diagram:
        return by_diagram
    run, start, temperature = entered.number("data_run"), entered.number("data_start"), entered.number("shell_temperature")
    if run is None or start is None or temperature is None:
        return None
    pair = next(one for one in PAIRS if one not in pins.opens)
    zero = METALS[entered.choice("metal")]
    measured = resistance_at(pins.ohms[pair], temperature, entered.needed("data_temperature"), zero)
    tolerance = standards.value("windings.data_tolerance") / 100.0
    band = measured * pins.reading(pair).relative_band
    off = {role: (abs(measured - data), data * tolerance) for role, data in (("S", run), ("R", start), ("C", run + start))}
    possible = [role for role, (miss, room) in off.items() if miss <= room + band]
    fits = [role for role in possible if off[role][0] <= off[role][1]]
    return fits[0] if fits and len(possible) == 1 else None


def _diagram_roles(entered: Entered) -> dict[str, str]:
    order = entered.choice("diagram")
    return {} if order == "unknown" else dict(zip(PINS, order, strict=True))


# --- readings that have no order --------------------------------------------------------------------


def _no_order(pins: Pins, standards: InForce) -> Finding | None:
    """Patterns in which the pairs cannot be put in order: near zero, all alike, or largest and next too close."""
    largest, middle, smallest = pins.ordered
    factor = standards.value("windings.gap_factor")
    if pins.reading(smallest).low <= 0.0:
        needed = pins.ohms[smallest] / 2.0 / max(pins.meter.counts, 1.0)
        return Finding("near zero", Verdict.UNDECIDED,
                       f"{'–'.join(smallest)} reads {quantity(pins.ohms[smallest], 'ohm', 2)}, which this meter cannot tell from zero.",
                       "Either two pins are joined, the meter is too coarse for this motor, or something is still connected.",
                       _READ_AGAIN, decider=Decider(f"Reading {'–'.join(smallest)}", _resolution(needed),
                                                    "a low-ohm meter, leads nulled, everything off the pins"))
    spread = pins.gap(largest, smallest)
    tolerance = standards.value("windings.sum_tolerance") / 100.0
    if spread <= max(pins.gap_needed(largest, smallest, factor), tolerance * pins.ohms[largest]):
        return Finding("three equal", Verdict.UNDECIDED,
                       "All three pairs read alike: that is how a three-phase motor on an electronic drive reads, not a single-phase one.",
                       "This handbook stops here for such a machine. Its maker's own drive procedure takes over.",
                       NextStep("Look for a drive board beside the compressor; if there is one, follow the maker's drive procedure."),
                       decider=Decider("all three pairs", _resolution(pins.meter.resolution / 10.0), "a drive board seen, or a finer meter that tells the pairs apart"),
                       stop=True)
    if not pins.told_apart(largest, middle, factor):
        return _too_close(pins, largest, middle, factor, "run–start")
    return None


def _too_close(pins: Pins, larger: Pair, smaller: Pair, factor: float, what: str) -> Finding:
    gap = pins.gap(larger, smaller)
    room = gap - pins.meter.gain_band(gap)
    needed = 0.99 * room / factor / pins.meter.counts if pins.meter.counts else 0.0
    return Finding("pins", Verdict.UNDECIDED,
                   f"{'–'.join(larger)} and {'–'.join(smaller)} differ by {quantity(gap, 'ohm', 2)}; this meter tells apart only what differs by more than "
                   f"{quantity(pins.gap_needed(larger, smaller, factor), 'ohm', 2)}. The {what} pair cannot be picked.",
                   "The two readings are too close for this meter. Guessing which is larger would name the pins by luck.",
                   _READ_AGAIN, decider=Decider(f"Readings {'–'.join(larger)} and {'–'.join(smaller)}", _resolution(needed),
                                                "all three pairs read again with that meter, leads nulled",
                                                "ohmmeter_resolution" if needed > 0 else None, _entry(needed) if needed > 0 else None))


def _resolution(needed: float) -> str:
    return f"{_entry(needed)} ohm or finer" if needed > 0.0 else "finer than this meter has"


def _entry(needed: float) -> str:
    """The next finer decade of resolution a meter really has: 0.1, 0.01, 0.001 …"""
    return f"{10.0 ** math.floor(math.log10(max(needed, 1e-6))):g}"


# --- the sum check ----------------------------------------------------------------------------------


@dataclass(frozen=True)
class SumCheck:
    """The largest reading against the sum of the other two, ohm."""

    difference: float
    tolerance: float
    spread: float
    step: Step

    @property
    def good(self) -> bool:
        """Whether they agree. A coarse meter never widens this: what it cannot show stays undecided."""
        return abs(self.difference) <= self.tolerance

    @property
    def meter_could_explain(self) -> bool:
        """Whether the counts of the three readings alone could make the difference."""
        return abs(self.difference) - self.spread <= self.tolerance


def _sum_check(pins: Pins, standards: InForce) -> SumCheck:
    largest, middle, smallest = pins.ordered
    total = math.fsum((pins.ohms[middle], pins.ohms[smallest]))
    difference = pins.ohms[largest] - total
    counts = pins.meter.counts_band
    leads = 0.0 if pins.lead is None else counts
    spread = in_quadrature(counts, counts, counts, leads) + pins.meter.gain_band(difference)
    limit = standards.limit("windings.sum_tolerance")
    tolerance = limit.value / 100.0 * pins.ohms[largest]
    step = Step("Sum check", f"largest − (other two), at most {limit.text} of the largest",
                f"{rounded(pins.ohms[largest], 2)} − ({rounded(pins.ohms[middle], 2)} + {rounded(pins.ohms[smallest], 2)})",
                f"{quantity(difference, 'ohm', 2)}, at most ±{quantity(tolerance, 'ohm', 2)}; the meter's counts (in quadrature) and shared gain "
                f"allow ±{quantity(spread, 'ohm', 2)}", "goodheart-willcox-25-8")
    return SumCheck(difference, tolerance, spread, step)


def _sum_finding(pins: Pins, check: SumCheck, standards: InForce) -> Finding:
    largest, middle, smallest = pins.ordered
    total = pins.ohms[middle] + pins.ohms[smallest]
    needed = 0.99 * check.tolerance / (2.0 * max(pins.meter.counts, 1.0))
    return Finding("pins", Verdict.UNDECIDED,
                   f"Sum check fails: {'–'.join(largest)} reads {quantity(pins.ohms[largest], 'ohm', 2)} but the other two add up to "
                   f"{quantity(total, 'ohm', 2)}. {_why_sum_fails(pins, check, standards)}",
                   "Two windings in a row must add up. When they do not, the readings are not yet of the windings alone.",
                   _READ_AGAIN, standards.limit("windings.sum_tolerance"),
                   Decider(f"Reading {'–'.join(largest)}", _resolution(needed),
                           f"leads nulled, everything off the pins, read twice; the sum holds when it reads within "
                           f"{quantity(check.tolerance, 'ohm', 2)} of {quantity(total, 'ohm', 2)}",
                           FIELD[largest], rounded(total + (pins.lead or 0.0), 3)))


def _why_sum_fails(pins: Pins, check: SumCheck, standards: InForce) -> str:
    short = -check.difference
    if check.meter_could_explain:
        return "The last digits of this meter alone could make that difference: a finer meter decides."
    if short > 0.0 and pins.lead is None and short >= standards.value("windings.lead_least"):
        likely = short <= standards.value("windings.lead_most") + 2.0 * pins.meter.counts_band
        leads = (f"Leads that were not zeroed make the largest fall short by exactly one lead reading: leads of {quantity(short, 'ohm', 2)} "
                 "would explain it. " if likely else "")
        return leads + "A part still joined across two pins, or turns of one winding touching the other, makes it fall short."
    if short > 0.0:
        return "A part is still joined across two pins (relay, capacitor, board), or turns of one winding touch the other."
    if pins.lead and abs(check.difference - pins.lead) <= 2.0 * pins.meter.counts_band:
        return "It is over by one lead reading: the readings had probably been zeroed already. Then enter 0 for the leads."
    return "A probe moved, a pin is dirty, or the winding is still warming or cooling."


# --- names ------------------------------------------------------------------------------------------


def _name(entered: Entered, pins: Pins, check: SumCheck, standards: InForce) -> tuple[dict[str, str], Finding, list[Step]]:
    largest, middle, smallest = pins.ordered
    factor = standards.value("windings.gap_factor")
    common = next(pin for pin in PINS if pin not in largest)
    working = [Step("Common pin", "the pin that is not in the largest pair", f"largest pair {'–'.join(largest)}, {quantity(pins.ohms[largest], 'ohm', 2)}",
                    f"pin {common}", "goodheart-willcox-25-8")]
    total = quantity(pins.ohms[middle] + pins.ohms[smallest], "ohm", 1)
    added = f"{quantity(pins.ohms[largest], 'ohm', 1)} against a sum of {total}"
    if not pins.told_apart(middle, smallest, factor):
        return _equal_windings(entered, pins, common, factor, added, working)
    run = next(pin for pin in smallest if pin != common)
    start = next(pin for pin in middle if pin != common)
    working.append(Step("Run and start", "from common, the smaller is run, the larger is start",
                        f"{rounded(pins.ohms[smallest], 2)} < {rounded(pins.ohms[middle], 2)}, {rounded(pins.gap(middle, smallest), 2)} apart, "
                        f"needs {rounded(pins.gap_needed(middle, smallest, factor), 2)}", f"run pin {run}, start pin {start}", "goodheart-willcox-25-8"))
    return ({common: "C", run: "R", start: "S"},
            Finding("pins", Verdict.WITHIN, f"Pin {common} is common, pin {run} is run, pin {start} is start; sum check good, {added}.",
                    "The windings conduct and add up. That does not yet clear their insulation, nor a few shorted turns.", _TO_SHELL,
                    standards.limit("windings.sum_tolerance")), working)


def _equal_windings(entered: Entered, pins: Pins, common: str, factor: float, added: str,
                    working: list[Step]) -> tuple[dict[str, str], Finding, list[Step]]:
    _, middle, smallest = pins.ordered
    diagram = _diagram_roles(entered)
    if diagram.get(common) == "C":
        run = next(pin for pin in PINS if diagram[pin] == "R")
        start = next(pin for pin in PINS if diagram[pin] == "S")
        return (diagram, Finding("pins", Verdict.WITHIN, f"Pin {common} is common by ohms, {added}. The two windings read alike; by the diagram pin {run} is run, pin {start} is start.",
                                 "Ohms gave the common pin; the diagram gave the other two.", _TO_SHELL), working)
    gap = pins.gap(middle, smallest)
    needed = 0.99 * (gap - pins.meter.gain_band(gap)) / factor / pins.meter.counts if pins.meter.counts else 0.0
    decides = needed >= 1e-3
    return ({common: "C"}, Finding(
        "pins", Verdict.UNDECIDED, f"Pin {common} is common, {added}. The two windings differ by {quantity(gap, 'ohm', 2)} only: run and start cannot be told by this meter.",
        "Some motors have two windings alike. Then only the machine's diagram says which is run.", _READ_AGAIN,
        decider=Decider(f"Readings {'–'.join(middle)} and {'–'.join(smallest)}", _resolution(needed) if decides else "no meter may tell them",
                        "the machine's own diagram, or the finer meter", "ohmmeter_resolution" if decides else "diagram", _entry(needed) if decides else None)), working)


def _named(roles: Mapping[str, str], role: str) -> Named:
    pin = next(one for one, letter in roles.items() if letter == role)
    return Named(ROLE_WORDS[role], f"{ROLE_WORDS[role].capitalize()} pin", pin,
                 {"C": "Joins both windings; the overload sits in its lead.", "R": "The winding that carries the running current.",
                  "S": "The winding that only helps to start, unless a run capacitor feeds it."}[role])


def _diagram_conflict(entered: Entered, roles: Mapping[str, str]) -> list[Finding]:
    diagram = _diagram_roles(entered)
    clash = [pin for pin, role in roles.items() if diagram and diagram[pin] != role]
    if not clash:
        return []
    pin = clash[0]
    return [Finding("diagram", Verdict.UNDECIDED, f"The diagram calls pin {pin} {ROLE_WORDS[diagram[pin]]}, the ohms call it {ROLE_WORDS[roles[pin]]}.",
                    "Either the numbers were put on other pins, or the diagram is of another machine. Ohms measured on this motor come first.",
                    _READ_AGAIN, decider=Decider("all three pairs", "any", "the pin numbers checked against the photo, and the diagram against the plate"))]


def _weak(pins: Pins, standards: InForce) -> list[Finding]:
    _, _, smallest = pins.ordered
    limit = standards.limit("windings.weak_reading")
    reading = pins.reading(smallest)
    if 100.0 * reading.relative_band <= limit.value:
        return []
    counts = 1.0 if pins.lead is None else math.sqrt(2.0)
    room = limit.value / 100.0 * reading.value - pins.meter.gain_band(reading.value)
    needed = 0.99 * room / counts / pins.meter.counts if pins.meter.counts and room > 0 else 0.0
    return [Finding("meter", Verdict.UNDECIDED,
                    f"{'–'.join(smallest)} reads {quantity(reading.value, 'ohm', 2)} ±{quantity(reading.band, 'ohm', 2)}, {rounded(100.0 * reading.relative_band, 0)} % of itself: good enough to name the pins, too coarse to judge the winding.",
                    "The meter's last digits are a large part of so small a reading.", _READ_AGAIN, limit,
                    Decider(f"Reading {'–'.join(smallest)}", _resolution(needed), "leads nulled on that meter",
                            "ohmmeter_resolution" if needed > 0 else None, _entry(needed) if needed > 0 else None))]


# --- temperature and data ---------------------------------------------------------------------------


def _resistances(entered: Entered, pins: Pins, roles: Mapping[str, str], standards: InForce, working: list[Step]) -> list[Result | Named]:
    results: list[Result | Named] = []
    temperature = entered.number("shell_temperature")
    reference = standards.value("windings.reference_temperature")
    zero = METALS[entered.choice("metal")]
    for pair in sorted(PAIRS, key=lambda one: _pair_label(one, roles)):
        label, reading = _pair_label(pair, roles), pins.reading(pair)
        results.append(Result(f"ohms {label}", f"{label}", reading.value, "ohm", 2, f"Between pin {pair[0]} and pin {pair[1]}, leads taken off.",
                              reading.low, reading.high))
        if temperature is not None:
            corrected = resistance_at(reading.value, temperature, reference, zero)
            results.append(Result(f"ohms at reference {label}", f"{label} at {quantity(reference, 'degC', 0)}", corrected, "ohm", 2,
                                  "The same winding brought to one temperature, so that days can be compared."))
            working.append(Step(f"{label} at {quantity(reference, 'degC', 0)}", "R × (k + reference) / (k + T)",
                                f"{rounded(reading.value, 2)} × ({zero:g} + {reference:g}) / ({zero:g} + {rounded(temperature, 1)})",
                                quantity(corrected, "ohm", 2), "iec-60335-1-clause-11"))
    if len(roles) == 3:
        run, start = _pair_of(roles, "C", "R"), _pair_of(roles, "C", "S")
        results.append(Result("start to run", "Start over run", pins.ohms[start] / pins.ohms[run], "ratio", 1,
                              "How many times larger the start winding reads. Never a fault by itself."))
    return results


def _pair_label(pair: Pair, roles: Mapping[str, str]) -> str:
    letters = [roles.get(pin, pin) for pin in pair]
    order = "CRS123"
    return "–".join(sorted(letters, key=order.index))


def _pair_of(roles: Mapping[str, str], first: str, second: str) -> Pair:
    wanted = {pin for pin, role in roles.items() if role in (first, second)}
    return next(pair for pair in PAIRS if set(pair) == wanted)


@dataclass(frozen=True)
class AgainstData:
    """One winding against its data sheet, in percent of the data."""

    name: str
    deviation: float
    meter_band: float
    band: float

    @property
    def verdict(self) -> tuple[float, float, float]:
        """The size of the deviation with the ends of its band, never below zero."""
        size = abs(self.deviation)
        return size, max(size - self.band, 0.0), size + self.band


def _against_data(entered: Entered, pins: Pins, roles: Mapping[str, str], standards: InForce, working: list[Step]) -> list[Finding]:
    wanted = [("run", "R", entered.number("data_run")), ("start", "S", entered.number("data_start"))]
    given = [(name, role, data) for name, role, data in wanted if data is not None]
    if not given:
        return []
    temperature = entered.number("shell_temperature")
    if temperature is None or pins.lead is None:
        what = "shell temperature" if temperature is None else "leads shorted together"
        return [Finding("data", Verdict.UNDECIDED, f"The windings cannot be held against the data sheet yet: {what} not entered.",
                        "Copper changes by about four parts in a thousand for each kelvin, and leads add to a small winding.", _READ_AGAIN,
                        decider=Decider(what, "1 K" if temperature is None else quantity(pins.meter.resolution, "ohm", 2), "measured with the three readings",
                                        "shell_temperature" if temperature is None else "lead", "25" if temperature is None else "0"))]
    compared = [_compare(entered, pins, name, _pair_of(roles, "C", role), data, temperature, working) for name, role, data in given]
    return [_data_finding(pins, one, compared, standards) for one in compared]


def _compare(entered: Entered, pins: Pins, name: str, pair: Pair, data: float, temperature: float, working: list[Step]) -> AgainstData:
    zero, at = METALS[entered.choice("metal")], entered.needed("data_temperature")
    measured = resistance_at(pins.ohms[pair], temperature, at, zero)
    ratio = 100.0 * measured / data
    meter = ratio * pins.reading(pair).relative_band
    warmth = ratio * entered.needed("thermometer_band") / (zero + temperature)
    working.append(Step(f"{name.capitalize()} winding against data at {quantity(at, 'degC', 0)}", "R × (k + T data) / (k + T), over the data",
                        f"{rounded(pins.ohms[pair], 2)} × ({zero:g} + {rounded(at, 1)}) / ({zero:g} + {rounded(temperature, 1)}) = {rounded(measured, 2)}, over {rounded(data, 2)}",
                        f"{rounded(ratio, 1)} % of data, ±{rounded(in_quadrature(meter, warmth), 1)} % (meter and thermometer in quadrature)", "iec-60335-1-clause-11"))
    return AgainstData(name, ratio - 100.0, meter, in_quadrature(meter, warmth))


def _data_finding(pins: Pins, one: AgainstData, compared: list[AgainstData], standards: InForce) -> Finding:
    limit = standards.limit("windings.data_tolerance")
    size, low, high = one.verdict
    placed = judge_side(size, low, high, limit=limit.value, side="most", guard=limit.guard)
    off = f"{rounded(size, 1)} % {'below' if one.deviation < 0 else 'above'} its data, ±{rounded(one.band, 1)} %"
    name = f"{one.name} winding data"
    if placed.verdict is Verdict.WITHIN:
        words = "not shown abnormal against its data" if placed.crossing else "agrees with its data"
        return Finding(name, Verdict.WITHIN, f"The {one.name} winding {words}: {off}.", "It reads what its maker says, as far as this meter can see.", _TO_SHELL, limit)
    if placed.verdict is Verdict.UNDECIDED:
        return Finding(name, Verdict.UNDECIDED, f"The {one.name} winding is {off}: the band reaches back over {limit.text}.",
                       "It may be off, it may be the meter or the temperature.", _READ_AGAIN, limit,
                       Decider(f"The {one.name} winding", f"meter and thermometer together better than {rounded(size - limit.value, 1)} %",
                               "left off overnight at room temperature, leads nulled, a meter of 0.01 ohm or finer"))
    other = next((each for each in compared if each.name != one.name), None)
    if (one.name == "run" and one.deviation < 0 and other is not None and other.verdict[0] <= limit.value
            and one.meter_band <= standards.value("windings.short_turns_band")):
        return Finding(name, Verdict.OUTSIDE, f"The run winding is {off}, while the start winding is on its data: that fits shorted turns in the run winding.",
                       "Ohms alone never prove shorted turns. Running watts or amps above what is expected must say the same before it is written down.",
                       NextStep("Compare running watts and amps with what is expected.", "running-amps"), limit)
    return Finding(name, Verdict.OUTSIDE, f"The {one.name} winding is {off}: it does not fit the data sheet.",
                   "Check that the data are of this very motor, then look for what else agrees: watts, amps, heat.",
                   NextStep("Check the plate against the data sheet, then measure to the shell.", "windings-to-shell"), limit)


# --- notes ------------------------------------------------------------------------------------------


def _notes(entered: Entered, pins: Pins, roles: Mapping[str, str]) -> tuple[str, ...]:
    notes = []
    if pins.lead is None:
        notes.append("The test leads were not entered: every reading may be too high by what the shorted probes show. Short them and enter it.")
    if entered.number("shell_temperature") is None:
        notes.append("No shell temperature: the readings cannot be compared with data or with another day.")
    hint = _position_hint(entered.choice("layout"))
    if hint and len(roles) == 3:
        agrees = all(roles[pin] == role for pin, role in hint.items())
        notes.append("Where pins sit is only a hint (common practice, no source): here it "
                     + ("agrees with the ohms." if agrees else "differs from the ohms, and the ohms overrule it."))
    return tuple(notes)


def _short_sum_note(pins: Pins, check: SumCheck, standards: InForce) -> tuple[str, ...]:
    if pins.lead is not None or -check.difference < standards.value("windings.lead_least"):
        return ()
    short = quantity(-check.difference, "ohm", 2)
    return (f"The largest falls {short} short of the sum, within tolerance; leads of {short} that were not zeroed do exactly that.",)


def _position_hint(layout: str) -> dict[str, str]:
    """Common practice, no source: the single pin is common; below it left is run, above it right is run."""
    return {"single pin above": {"1": "C", "3": "R", "2": "S"}, "single pin below": {"3": "C", "1": "R", "2": "S"}}.get(layout, {})


def _typed(**texts: str) -> dict[str, Typed]:
    return {name: Typed(text) for name, text in texts.items()}


CALCULATOR = Calculator(
    slug="winding-identification",
    title="Winding identification",
    question="Which pin is common, run and start, and are the windings whole?",
    purpose="Names the three pins from three resistance readings and checks that the readings add up.",
    does_not_tell="It does not test insulation to the shell, and a few shorted turns do not show in ohms.",
    level="helper",
    inputs=INPUTS,
    evaluate=evaluate,
    examples=(
        Example("three-pins", "4.2, 17.9 and 13.8 ohm between three unmarked pins", "derived",
                _typed(r12="4.2", r23="17.9", r13="13.8", lead="0")),
        Example("training-article", "6.0, 2.0 and 4.0 ohm, the order of a training print", "training-print-three-terminals",
                _typed(r12="6.0", r13="2.0", r23="4.0", lead="0")),
        Example("capacitor-start-motor", "Main 4.5 ohm and auxiliary 9.5 ohm of a textbook motor", "fitzgerald-chapter-9",
                _typed(r12="4.5", r13="9.5", r23="14.0", lead="0", ohmmeter_resolution="0.01")),
        Example("hot-overload", "Common open while the shell is still hot", "common-practice",
                _typed(r12="OL", r13="OL", r23="13.9", lead="0", shell_temperature="88")),
    ),
    limits=("windings.sum_tolerance", "windings.data_tolerance", "windings.gap_factor", "windings.weak_reading",
            "windings.short_turns_band", "windings.cool_shell_temperature", "windings.cool_hours", "windings.rest_hours",
            "windings.lead_least", "windings.lead_most", "windings.reference_temperature"),
    sources=("goodheart-willcox-25-8", "iec-60335-1-clause-11", "common-practice", "derived", "training-print-three-terminals",
             "fitzgerald-chapter-9"),
    hazards=("electric-shock", "stored-charge", "terminal-venting", "flammable-refrigerant"),
    search_words=("pins", "terminals", "common run start", "ohms between pins", "winding resistance", "which pin", "C S R"),
)
