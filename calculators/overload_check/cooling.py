"""How long until a shell is cool enough to read through, as an estimate: T = Ta + (T0 - Ta) e^(-t/tau).

Newton's law of cooling with a time constant of common practice, no source. It plans the day and decides nothing:
the thermometer and the clock do. The copper inside lags behind the shell.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from calculators.contract import Figure, Named, Result, Step, quantity, rounded
from calculators.drawing import Drawing, line, words
from calculators.inputs import Entered
from calculators.limits import InForce
from calculators.parts import Part

_LEFT, _RIGHT, _TOP, _BOTTOM = 44.0, 340.0, 24.0, 190.0
_PIECES = 24  # straight pieces that a curve is drawn with


def seconds_to_cool(start: float, room: float, target: float, constant: float) -> float:
    """Seconds until a body at start °C reaches target °C in a room; infinite when the room is too warm for it.

    t = tau ln((T0 - Ta) / (T - Ta)), with the time constant in seconds.

    >>> round(seconds_to_cool(90.0, 25.0, 50.0, 45 * 60.0) / 60.0)
    43
    """
    if start <= target:
        return 0.0
    return math.inf if room >= target else constant * math.log((start - room) / (target - room))


@dataclass(frozen=True)
class Cooling:
    """One estimate: the shell, the room, the target, and the time constants in seconds."""

    start: float
    room: float
    target: float
    constants: tuple[float, float, float]
    band: float

    @property
    def likely(self) -> float:
        """Seconds with the usual time constant."""
        return seconds_to_cool(self.start, self.room, self.target, self.constants[1])

    @property
    def soonest(self) -> float:
        """Seconds with the shortest time constant and the thermometer reading high."""
        return seconds_to_cool(self.start - self.band, self.room, self.target, self.constants[0])

    @property
    def latest(self) -> float:
        """Seconds with the longest time constant and the thermometer reading low."""
        return seconds_to_cool(self.start + self.band, self.room, self.target, self.constants[2])


def cooling_part(entered: Entered, standards: InForce) -> Part:
    """When the three pairs may be read as cold, where the shell's and the room's temperature are known."""
    shell, room = entered.number("shell_temperature"), entered.number("room_temperature")
    if shell is None:
        return Part()
    target = standards.limit("windings.cool_shell_temperature")
    band = entered.needed("thermometer_band")
    if shell + band <= target.value:
        return Part((), (_earliest(entered, standards, (0.0, 0.0, 0.0)),))
    if room is None:
        return Part(notes=("With the room temperature entered, the cooling time is estimated.",))
    low, usual, high = (60.0 * standards.value(f"overload.cooling{end}") for end in ("_least", "", "_most"))
    cooling = Cooling(shell, room, target.value, (low, usual, high), band)
    if math.isinf(cooling.latest):
        plain = f"This room is too warm: nothing in it cools to {target.text}. Move air or machine."
        return Part((), (Named("cooling_time", f"Time to cool to {target.text}", "never in this room", plain),))
    times = (cooling.soonest, cooling.likely, cooling.latest)
    result = Result(
        "cooling_time",
        f"Time to cool to {target.text}, about",
        times[1],
        "min",
        0,
        "An estimate for planning the day; the thermometer decides.",
        times[0],
        times[2],
        (("h", 1),),
    )
    results = (result, _earliest(entered, standards, times))
    return Part((), results, (_step(cooling),), (_figure(cooling),), (_LAG,))


_LAG = "The copper inside cools after the shell: that is why the shell has to stay cool for hours before it counts."


def _earliest(entered: Entered, standards: InForce, cooling: tuple[float, float, float]) -> Result:
    cool = 3600.0 * standards.value("windings.cool_hours")
    rest = 3600.0 * standards.value("windings.rest_hours") - (entered.number("hours_rest") or 0.0)
    done = 0.0 if cooling[2] > 0.0 else entered.number("hours_cool") or 0.0
    low, value, high = (max(time + cool - done, rest, 0.0) for time in cooling)
    return Result(
        "earliest_cold_reading",
        "Cold reading possible in, about",
        value,
        "h",
        1,
        "Cooling, then the hours the shell has to stay cool, and no sooner than the rest allows.",
        low,
        high,
        (("min", 0),),
    )


def _step(cooling: Cooling) -> Step:
    room = rounded(cooling.room, 1)
    start, target = rounded(cooling.start, 1), f"{cooling.target:g}"
    return Step(
        "Cooling of the shell",
        "t = τ · ln((T₀ − Tₐ) / (T − Tₐ))",
        f"{quantity(cooling.constants[1], 'min', 0)} · ln(({start} − {room}) / ({target} − {room}))",
        f"{quantity(cooling.likely, 'min', 0)} (from {quantity(cooling.constants[0], 'min', 0)} to "
        f"{quantity(cooling.constants[2], 'min', 0)}: {rounded(cooling.soonest / 60.0, 0)} to "
        f"{quantity(cooling.latest, 'min', 0)})",
        "common-practice",
    )


def _figure(cooling: Cooling) -> Figure:
    end = 1.25 * cooling.latest
    top, bottom = cooling.start + 5.0, min(cooling.room, cooling.target) - 5.0

    def x(seconds: float) -> float:
        return _LEFT + (_RIGHT - _LEFT) * seconds / end

    def y(degrees: float) -> float:
        return _BOTTOM - (_BOTTOM - _TOP) * (degrees - bottom) / (top - bottom)

    def curve(constant: float, *, dashed: bool) -> list[str]:
        times = [end * piece / _PIECES for piece in range(_PIECES + 1)]
        heat = [cooling.room + (cooling.start - cooling.room) * math.exp(-time / constant) for time in times]
        return [
            line(x(times[n]), y(heat[n]), x(times[n + 1]), y(heat[n + 1]), dashed=dashed, width=1.5 if dashed else 3.0)
            for n in range(_PIECES)
        ]

    likely, latest = rounded(cooling.likely / 60.0, 0), rounded(cooling.latest / 60.0, 0)
    target = f"{cooling.target:g} °C"
    drawing = Drawing(360.0, 236.0).with_shapes(
        line(_LEFT, _TOP, _LEFT, _BOTTOM),
        line(_LEFT, _BOTTOM, _RIGHT, _BOTTOM),
        *curve(cooling.constants[1], dashed=False),
        *curve(cooling.constants[2], dashed=True),
        line(_LEFT, y(cooling.target), _RIGHT, y(cooling.target), dashed=True, width=1.0),
        words(_RIGHT, y(cooling.target) - 5.0, target, anchor="end", size=12),
        words(_LEFT + 6.0, _TOP - 8.0, f"shell {rounded(cooling.start, 0)} °C", anchor="start", size=12),
        line(x(cooling.likely), y(cooling.target), x(cooling.likely), _BOTTOM, width=1.5),
        words(x(cooling.likely), _BOTTOM + 18.0, f"{likely} min", bold=True),
        line(x(cooling.latest), y(cooling.target), x(cooling.latest), _BOTTOM, width=1.5, dashed=True),
        words(x(cooling.latest), _BOTTOM + 36.0, f"at the latest {latest} min", anchor="end", size=12),
    )
    alt = (
        f"The shell cools from {rounded(cooling.start, 0)} °C in a room of {rounded(cooling.room, 0)} °C: "
        f"{target} after about {likely} min, at the latest after {latest} min"
    )
    return Figure("cooling", drawing.svg(alt), alt, alt + ".")
