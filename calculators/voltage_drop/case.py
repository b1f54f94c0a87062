"""What was entered about a cord and its circuit, as one path with its loads; and what cannot be true together.

The path runs from the supply to the machine: source, branch circuit, plug joints, cord. A source resistance taken at
the outlet has the branch circuit in it already; taken at the panel it has not.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace

from calculators.conductors import Conductor, find_conductor
from calculators.contract import quantity
from calculators.inputs import Entered, Problem, RefusedError
from calculators.limits import InForce
from calculators.readings import Reading
from calculators.voltage_drop.contradictions import contradictions
from calculators.voltage_drop.path_volts import (
    Part,
    Span,
    Stretch,
    constant_current_volts,
    in_series,
    running_volts,
    size,
    stalled_volts,
    volts_upstream,
)
from calculators.voltage_drop.source import Source, source_of

CORD_TABLE = "cord_conductors"
BRANCH_TABLE = "branch_conductors"


@dataclass(frozen=True)
class Wire:
    """A run of one size, its length one way in metres and its loop at the temperature entered."""

    conductor: Conductor
    metres: float
    loop: complex


@dataclass(frozen=True)
class Running:
    """The running machine: volts at it, volts lost on the way, and what is judged of them in percent of idle."""

    amps: Span
    power_factor: float | None
    volts: float
    loss: float
    judged_loss: float
    judged_percent: Span


@dataclass(frozen=True)
class Starting:
    """The stalled motor: volts at it and the constant-current figure beside them, volts in percent of the plate."""

    amps: float
    power_factor: float | None
    volts: Span
    percent: Span
    constant_current: float


@dataclass(frozen=True)
class Case:
    """Everything that is known of one machine on one path. Idle volts are the plate's until somebody measures them."""

    plate: float
    idle: Span
    idle_measured: bool
    temperature: float
    parts: tuple[Part, ...]
    wires: Mapping[str, Wire]
    source: Source | None
    at_outlet: bool
    cord_measured: Reading | None
    run: tuple[Span, float | None] | None
    start: tuple[float, float | None] | None

    @property
    def path(self) -> Stretch:
        """The whole path, from the supply to the machine."""
        return in_series(self.parts)

    @property
    def wiring(self) -> tuple[Part, ...]:
        """The path without the supply's own resistance."""
        return tuple(part for part in self.parts if part.name != "source")

    @property
    def branch_counted(self) -> bool:
        """Whether the branch circuit is in the path, by its wire or inside the source resistance."""
        return "branch" in self.wires or (self.source is not None and self.at_outlet)

    @property
    def judged(self) -> Stretch:
        """What the running limits look at: panel to machine.

        A source resistance taken at the outlet is part circuit, part supply, and nobody can say how much of each:
        the least then leaves all of it out, the most has all of it in.
        """
        wiring = in_series(self.wiring)
        if self.source is None or not self.at_outlet:
            return wiring
        return Stretch(self.path.value, wiring.low, self.path.high)

    @property
    def running(self) -> Running | None:
        """Volts with the machine running. The ends of the band take amps, ohms and idle volts at their worst."""
        if self.run is None:
            return None
        amps, power_factor = self.run
        idle = self.idle if self.idle_measured else Span.exactly(self.plate)

        def lost(supply: float, current: float, path: complex, judged: complex) -> tuple[float, float]:
            volts = running_volts(supply, current, path, power_factor)
            return volts, volts_upstream(volts, current, judged, power_factor) - volts

        volts, judged_loss = lost(idle.value, amps.value, self.path.value, self.judged.value)
        least = lost(idle.high, amps.low, self.path.low, self.judged.low)[1]
        most = lost(idle.low, amps.high, self.path.high, self.judged.high)[1]
        percent = Span(100.0 * judged_loss / idle.value, 100.0 * least / idle.high, 100.0 * most / idle.low)
        return Running(amps, power_factor, volts, idle.value - volts, judged_loss, percent)

    @property
    def starting(self) -> Starting | None:
        """Volts while the motor does not turn. The ends of the band take ohms and idle volts at their worst at once."""
        if self.start is None:
            return None
        amps, power_factor = self.start

        def left(supply: float, path: complex) -> float:
            return stalled_volts(supply, path, self.plate, amps, power_factor)

        volts = Span(
            left(self.idle.value, self.path.value),
            left(self.idle.low, self.path.high),
            left(self.idle.high, self.path.low),
        )
        constant = min(constant_current_volts(self.idle.value, self.path.value, amps), volts.value)
        return Starting(amps, power_factor, volts, volts.times(100.0 / self.plate), constant)

    def with_wire(self, name: str, conductor: Conductor, metres: float) -> Case:
        """The same case with another wire in place of one that is in the path, by its printed resistance."""
        wire = Wire(conductor, metres, conductor.loop(metres, self.temperature))
        parts = tuple(
            Part(part.name, part.label, part.ends_at, wire.loop) if part.name == name else part for part in self.parts
        )
        return replace(self, parts=parts, wires={**self.wires, name: wire})


def case_of(entered: Entered, standards: InForce) -> Case:
    """Put together what was entered; raises RefusedError when it contradicts itself."""
    problems = tuple(contradictions(entered))
    if problems:
        raise RefusedError(*problems)
    plate = entered.needed("plate_volts")
    idle = entered.reading("idle_volts")
    run = entered.reading("run_amps")
    start = entered.number("start_amps")
    wires = _wires(entered, standards)
    source = source_of(entered, standards)
    at_outlet = entered.choice("source_where") == "outlet"
    case = Case(
        plate=plate,
        idle=Span.read(idle) if idle else _assumed_idle(plate, standards),
        idle_measured=idle is not None,
        temperature=entered.needed("conductor_temperature"),
        parts=tuple(_parts(entered, standards, wires, source, at_outlet)),
        wires=wires,
        source=source,
        at_outlet=at_outlet,
        cord_measured=entered.reading("cord_loop"),
        run=(Span.read(run), entered.number("run_power_factor")) if run else None,
        start=(start, entered.number("start_power_factor")) if start is not None else None,
    )
    _refuse_impossible_amps(case)
    return case


def _assumed_idle(plate: float, standards: InForce) -> Span:
    """Nobody measured: the plate's volts, give or take what a supply may be off."""
    return Span(plate, plate * standards.value("supply.low") / 100.0, plate * standards.value("supply.high") / 100.0)


def _wires(entered: Entered, standards: InForce) -> dict[str, Wire]:
    wires = {}
    for name, table in (("branch", BRANCH_TABLE), ("cord", CORD_TABLE)):
        picked = entered.choice(f"{name}_conductor")
        length = entered.number(f"{name}_length")
        if picked and length is not None:
            conductor = find_conductor(table, picked, standards)
            wires[name] = Wire(conductor, length, conductor.loop(length, entered.needed("conductor_temperature")))
    return wires


def _parts(
    entered: Entered, standards: InForce, wires: Mapping[str, Wire], source: Source | None, at_outlet: bool
) -> Iterator[Part]:
    if source is not None:
        yield source.part
    if "branch" in wires and not (source is not None and at_outlet):
        yield Part("branch", "Branch circuit", "outlet", wires["branch"].loop)
    joints = entered.needed("joint_count")
    if joints:
        yield _joints(joints, entered.number("joint_ohms"), standards)
    measured = entered.reading("cord_loop")
    if measured is not None:
        reactance = wires["cord"].loop.imag if "cord" in wires else 0.0
        band = measured.band
        yield Part("cord", "Cord", "machine", complex(measured.value, reactance), min(band, measured.value), band)
    elif "cord" in wires:
        yield Part("cord", "Cord", "machine", wires["cord"].loop)


def _joints(count: float, each: float | None, standards: InForce) -> Part:
    label = "1 plug joint" if count == 1.0 else f"{count:g} plug joints"
    if each is not None:
        return Part("joints", label, "plugs", complex(count * each))
    usual = standards.value("drop.joint")
    below = count * (usual - standards.value("drop.joint_least"))
    above = count * (standards.value("drop.joint_most") - usual)
    return Part("joints", label, "plugs", complex(count * usual), below, above)


def _refuse_impossible_amps(case: Case) -> None:
    """More amps than a dead short at the far end would take cannot flow, whatever the power factor."""
    if case.run is None:
        return
    amps, ohms = case.run[0], size(case.path.value)
    idle = case.idle.value
    if not amps.value * ohms < idle or math.isclose(amps.value * ohms, idle):
        raise RefusedError(
            Problem(
                "run_amps",
                f"Running amps: {quantity(amps.value, 'A', 2)} cannot flow through this path. With "
                f"{quantity(ohms, 'ohm', 3)} in it even a dead short at the far end takes only "
                f"{quantity(idle / ohms, 'A', 2)}. Check the length, the size and the amps.",
            )
        )
