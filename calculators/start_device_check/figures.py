"""Do the figures of the relay fit the motor? Run · 1.2 < drop-out < pick-up < 0.8 · LRA at the least good volts.

Common practice, no source. Figures that fit prove nothing and are told in a note; figures that do not are a finding.
For a potential relay: the coil's volts at the start, brought to the least good volts, reach its pick-up; running, they
stay above its drop-out and below its continuous rating.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from calculators.contract import Figure, Result, Step, quantity, rounded
from calculators.drawing import Drawing, line, words
from calculators.findings import Finding, NextStep, Verdict, judge_side
from calculators.finer_meter import finer_meter
from calculators.inputs import Entered, Problem, RefusedError
from calculators.limits import InForce, Limit
from calculators.parts import Missing, Part, decider_of
from calculators.readings import Meter, Reading

_WRONG = NextStep("Keep it unplugged; fit the relay that the motor's list names.", "start-with-a-substitute")

_AGAIN = NextStep(
    "Read the coil's volts again at a start that is made anyway, before any part is bought.", "potential-relay"
)


def figures_part(entered: Entered, standards: InForce) -> Part:
    """Everything the figures say, for the kind that was picked."""
    kind = entered.choice("kind")
    if kind == "current":
        return _current(entered, standards)
    return _potential(entered, standards) if kind == "potential" else Part()


def _ordered(entered: Entered, drop_out: str, pick_up: str, unit: str, word: str) -> None:
    low, high = entered.number(drop_out), entered.number(pick_up)
    if low is not None and high is not None and low >= high:
        raise RefusedError(
            Problem(
                drop_out,
                f"Drop-out {word}: {quantity(low, unit, 1)} is not below the pick-up {word}, "
                f"{quantity(high, unit, 1)}. A relay lets go below what it pulls in at: look which is which.",
            )
        )


@dataclass(frozen=True)
class Rung:
    """One figure of the ladder of amps: what it is, its amps."""

    label: str
    amps: float


# --- current relay ----------------------------------------------------------------------------------


def _current(entered: Entered, standards: InForce) -> Part:
    _ordered(entered, "drop_out_amps", "pick_up_amps", "A", "amps of the current relay")
    under, over = standards.limit("start_device.pick_up_margin"), standards.limit("start_device.drop_out_margin")
    volts = standards.limit("start_volts.warn")
    run, stalled = entered.number("run_amps"), entered.number("locked_rotor_amps")
    drop, pick = entered.number("drop_out_amps"), entered.number("pick_up_amps")
    least: float | None = None
    most: float | None = None
    findings, results, steps, fits = [], [], [], []
    if run is not None:
        least = over.value * run
        results.append(Result("drop_out_above", "Drop-out has to be above", least, "A", 2, "So that it lets go."))
        put_in = f"{over.text} · {quantity(run, 'A', 2)}"
        steps.append(Step("Least drop-out", "margin · I run", put_in, quantity(least, "A", 2), over.source.key))
        if drop is not None and drop <= least:
            findings.append(
                _misfit(
                    "drop-out",
                    f"drops out at {quantity(drop, 'A', 2)}, not above {quantity(least, 'A', 2)}",
                    "it may never let go: the start winding stays in",
                    over,
                )
            )
        elif drop is not None:
            fits.append("drop-out")
    if stalled is not None:
        most = under.value * volts.value / 100.0 * stalled
        results.append(Result("pick_up_below", "Pick-up has to be below", most, "A", 2, "So that it pulls in."))
        put_in = f"{under.text} · {volts.text} · {quantity(stalled, 'A', 2)}"
        steps.append(Step("Most pick-up", "margin · volts · LRA", put_in, quantity(most, "A", 2), under.source.key))
        if pick is not None and pick >= most:
            findings.append(
                _misfit(
                    "pick-up",
                    f"pulls in at {quantity(pick, 'A', 2)}, not below {quantity(most, 'A', 2)}",
                    "it may never pull in: the motor hums and trips",
                    under,
                )
            )
        elif pick is not None:
            fits.append("pick-up")
    notes: tuple[str, ...] = ()
    if fits and not findings:
        notes = (f"By its figures the relay fits this motor ({' and '.join(fits)}). That is no proof that it works.",)
    figure = _ladder_figure(run, stalled, drop, pick, least, most)
    return Part(tuple(findings), tuple(results), tuple(steps), figure, notes)


def _misfit(name: str, said: str, effect: str, limit: Limit) -> Finding:
    return Finding(
        name,
        Verdict.OUTSIDE,
        f"The relay {said}: by its figures {effect}.",
        "A relay for another motor. It looks like a seized motor, or it burns the start winding.",
        _WRONG,
        limit,
        stop=True,
    )


def _ladder_figure(
    run: float | None,
    stalled: float | None,
    drop: float | None,
    pick: float | None,
    least: float | None,
    most: float | None,
) -> tuple[Figure, ...]:
    """Run, drop-out, pick-up and standstill on one line of amps: in that order on a relay that fits."""
    rungs = [
        Rung(label, amps)
        for label, amps in (
            ("runs at", run),
            ("drop-out", drop),
            ("pick-up", pick),
            ("standstill", stalled),
            ("drop-out above", least),
            ("pick-up below", most),
        )
        if amps is not None
    ]
    if len(rungs) < 3 or (drop is None and pick is None):
        return ()
    rungs.sort(key=lambda one: (one.amps, one.label))
    top = rungs[-1].amps
    height = 24.0 * len(rungs) + 24.0
    drawing = Drawing(360.0, height)
    for number, rung in enumerate(rungs):
        y = 24.0 + 24.0 * number
        limit = rung.label.endswith(("above", "below"))
        drawing = drawing.with_shapes(
            line(150.0, y - 4.0, 150.0 + 130.0 * rung.amps / top, y - 4.0, dashed=limit, width=1.5 if limit else 5.0),
            words(142.0, y, rung.label, anchor="end", size=12, bold=not limit),
            words(356.0, y, f"{rounded(rung.amps, 2)} A", anchor="end", size=12),
        )
    said = ", ".join(f"{rung.label} {rounded(rung.amps, 2)} A" for rung in rungs)
    alt = f"Amps from least to most: {said}"
    return (Figure("relay-amps", drawing.svg(alt), alt, alt + "."),)


# --- potential relay --------------------------------------------------------------------------------


def _potential(entered: Entered, standards: InForce) -> Part:
    _ordered(entered, "drop_out_volts", "pick_up_volts", "V", "volts of the potential relay")
    findings: list[Finding] = []
    results: list[Result] = []
    steps: list[Step] = []
    start, running = entered.reading("coil_volts_start"), entered.reading("coil_volts_running")
    line_volts, plate = entered.number("start_volts"), entered.number("plate_volts")
    if start is not None and line_volts is not None and plate is not None:
        least = standards.limit("start_volts.warn")
        factor = least.value / 100.0 * plate / line_volts
        results.append(
            Result(
                "coil_at_least_volts",
                f"Coil volts at the start on {least.text} of the plate",
                start.value * factor,
                "V",
                0,
                "What the coil would see on the least volts that count as good.",
                start.low * factor,
                start.high * factor,
            )
        )
        put_in = f"{quantity(start.value, 'V', 1)} · {least.text} · {plate:g} V / {quantity(line_volts, 'V', 1)}"
        steps.append(
            Step(
                "Coil volts on the least good volts",
                "U coil · part · Un / U line",
                put_in,
                quantity(start.value * factor, "V", 0),
                "trade-memory",
            )
        )
        scaled = f", brought from {quantity(line_volts, 'V', 1)} to {least.text} of the plate,"
        _hold(entered, findings, "pick_up_volts", "pick-up", start, factor, "least", _NEVER_OPENS, scaled)
    if running is not None:
        _hold(entered, findings, "drop_out_volts", "drop-out", running, 1.0, "least", _CHATTERS)
        _hold(entered, findings, "coil_rating_volts", "coil-rating", running, 1.0, "most", _COIL_BURNS)
    return Part(tuple(findings), tuple(results), tuple(steps))


_NEVER_OPENS = "the coil's volts do not reach it, so the start capacitor may stay in"
_CHATTERS = "the coil's volts while running are below it, so the contact falls back and chatters"
_COIL_BURNS = "the coil's volts while running are above it, so the coil burns"


def _hold(
    entered: Entered,
    findings: list[Finding],
    field: str,
    name: str,
    volts: Reading,
    factor: float,
    side: Literal["least", "most"],
    effect: str,
    scaled: str = "",
) -> None:
    """Hold coil volts against a figure of the relay; only a misfit, or a doubt, makes a finding."""
    figure = entered.number(field)
    if figure is None:
        return

    def verdict(meter: Meter) -> Verdict:
        band = meter.band(volts.value)
        low, high = (volts.value - band) * factor, (volts.value + band) * factor
        return judge_side(volts.value * factor, low, high, limit=figure, side=side, guard="reject").verdict

    found = verdict(volts.meter)
    if found is Verdict.WITHIN:
        return
    said = f"The relay's {name.replace('-', ' ')} is {quantity(figure, 'V', 0)} and the coil's volts"
    said += f"{scaled} are {quantity(volts.value * factor, 'V', 0)}"
    if found is Verdict.OUTSIDE:
        plain = "A relay for another motor, low volts, or a weak start."
        findings.append(Finding(name, Verdict.OUTSIDE, f"{said}: {effect}.", plain, _WRONG, stop=True))
        return
    finer = finer_meter(volts.meter, lambda meter: verdict(meter) is not Verdict.UNDECIDED, "voltmeter", "V")
    need = Missing("volts that are clear of the figure, on a supply within its limits", "coil_volts_running")
    if name == "pick-up":
        need = Missing(need.words, "coil_volts_start")
    if finer is not None and finer.enter_in:
        need = Missing(f"a voltmeter of {finer.words}", finer.enter_in, finer.entry)
    plain = "The meter cannot tell on which side of the relay's figure the volts are."
    decider = decider_of("Volts across coil 2 to 5", need.words, [need])
    findings.append(Finding(name, Verdict.UNDECIDED, f"{said}: not tellable.", plain, _AGAIN, decider=decider))
