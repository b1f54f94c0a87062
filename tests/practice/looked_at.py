"""Questions of the decision map that are answered by looking, listening, smelling or asking.

Each names one observation and the words that were written down for it. No observation written: it cannot be told.
"""

from __future__ import annotations

from collections.abc import Mapping

LOOKED_AT: Mapping[str, tuple[str, Mapping[str, str]]] = {
    "complaint": (
        "the owner tells of",
        {
            "a tingle from the machine": "shock",
            "a trip in the supply": "trips",
            "silence": "silent",
            "a hum and no start": "hums",
            "a start, then a trip of the overload": "starts-then-trips",
            "running without cooling": "not-cooling",
            "noise": "noisy",
            "too many starts": "short-cycles",
            "something else": "cannot-tell",
        },
    ),
    "listen": (
        "ten minutes after plugging in",
        {"nothing": "nothing", "a hum, then a click": "hum-and-click", "it runs": "runs", "the supply trips": "trips"},
    ),
    "shut-off": (
        "cut off from a distance",
        {
            "done, and a tingle is the only reason": "shock-only",
            "done, and there is gas or oil too": "more",
            "cannot be done": "cannot-isolate",
        },
    ),
    "touch-current": ("leakage current on the bench", {"over the limit": "over", "not over the limit": "within"}),
    "outlet-alive": ("a lamp in the outlet", {"lights": "alive", "stays dark": "dead"}),
    "reset-once": (
        "one reset with the machine unplugged",
        {"holds": "holds", "does not hold": "will-not-hold", "nothing had tripped": "never-tripped"},
    ),
    "control-calls": ("the control", {"calls, as far as can be seen": "calling", "cannot call": "no-call"}),
    "straight-to-wall": ("straight at the wall", {"starts": "starts", "hums": "hums"}),
    "on-a-cord": ("plugged into", {"its own outlet": "wall", "an extension cord": "cord"}),
    "volts-at-terminals": (
        "volts on the leads brought out",
        {"nowhere": "absent", "not at run": "not-at-run", "at common and at run": "at-both"},
    ),
    "starts-sometimes": ("pressures before each start", {"equal": "equal", "not equal": "not-equal"}),
    "airflow-looked-at": (
        "condenser, fan and air",
        {
            "in order": "good",
            "fan blade jammed by a label": "bad",
            "condenser felted with dust, 33 K above a room of 31 °C": "bad",
        },
    ),
    "amps-with-heat": ("amps from the tenth to the twentieth minute", {"rise": "rising", "steady": "normal"}),
    "overload-substitute": ("with a substitute overload", {"runs on": "cured", "trips again": "not-cured"}),
    "which-device": (
        "what tripped",
        {
            "a breaker": "breaker",
            "a fuse": "breaker",
            "a GFCI": "residual",
            "an RCD": "residual",
            "an RCBO": "combined",
        },
    ),
    "when-breaker-trips": (
        "when it tripped",
        {"at once": "at-once", "after seconds of humming": "after-hum", "after a long run": "long-run"},
    ),
    "circuit-load": (
        "the circuit",
        {"overloaded": "overloaded", "its breaker is weak": "overloaded", "in order": "not-overloaded"},
    ),
    "when-residual-trips": (
        "when the GFCI trips",
        {"at the start": "start", "at the defrost": "defrost", "at random": "random"},
    ),
    "leakage-at-start": ("leakage current on the bench", {"over the limit": "over", "not over the limit": "within"}),
    "cooling-air": (
        "condenser, fan and air",
        {
            "in order": "good",
            "fan blade jammed by a label": "bad",
            "condenser felted with dust, 33 K above a room of 31 °C": "bad",
        },
    ),
    "pull-down": ("the cabinet", {"settled": "settled", "still warm": "still"}),
    "sealed-high": ("the licensed person finds", {"too much charge": "found", "air in the circuit": "found"}),
    "fans-doors-load": (
        "fans, frost, doors and load",
        {"in order": "good", "a fan stands": "airflow", "thermostat set wrong": "control"},
    ),
    "frost-pattern": (
        "frost after half an hour",
        {
            "on the first 10 cm only": "short",
            "none, discharge tube warm": "none-warm",
            "none, discharge tube as lukewarm as the suction tube": "none-cool",
            "all over": "full",
        },
    ),
    "leak-or-restriction": (
        "the licensed person finds",
        {"a leak at a joint": "leak", "a restriction": "restriction"},
    ),
    "pumps": ("the licensed person finds", {"no pressure is built": "no-pressure", "pressure is built": "pumps"}),
    "where-noise": ("the noise comes from", {"outside the shell": "outside", "inside the shell": "inside"}),
    "what-ends-run": (
        "each run ends by",
        {"the thermostat": "thermostat", "the overload": "overload", "the board": "board"},
    ),
    "sensor-and-door": ("sensor and door", {"in order": "good", "one of them is wrong": "bad"}),
}

# Reasons to stop, by what was noticed.
STOPS: Mapping[str, tuple[str, Mapping[str, str]]] = {
    "shock": ("somebody felt", {"a tingle": "shock"}),
    "gas": ("the gas detector", {"alarms": "gas"}),
    "terminals": ("seen at the terminals", {"oil": "terminals", "soot": "terminals"}),
    "unknown-charge": ("the refrigerant", {"charged with nobody knows what": "unknown-charge"}),
}
