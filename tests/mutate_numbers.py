"""Changes every number of the calculators and the standards, one at a time, and tells which change no test notices.

    python tests/mutate_numbers.py                                   everything, for hours
    python tests/mutate_numbers.py --only calculators/voltage_drop   one file or folder
    python tests/mutate_numbers.py --only handbook/standards/amps.yaml --workers 4
    python tests/mutate_numbers.py --again printed.txt               those that survived before
    python tests/mutate_numbers.py --sample 20 --seed 7              twenty at random, the same ones for the same seed

Works on copies under build/mutants, never on the tree itself. Ends with 1 when a survivor is not explained in
tests/survivors.yaml, or when all of what an entry there is about was changed and the entry explains nothing.
"""

from __future__ import annotations

import argparse
import random
import sys
from collections import Counter
from collections.abc import Sequence
from fnmatch import fnmatchcase
from pathlib import Path

ROOT = Path(__file__).resolve().parents[1]
if __name__ == "__main__":
    sys.path.insert(0, str(ROOT))

from tests.mutation.baseline import WATCHED  # noqa: E402
from tests.mutation.numbers import numbers_in  # noqa: E402
from tests.mutation.run import Outcome, Runner  # noqa: E402
from tests.mutation.survivors import explain, read_explanations  # noqa: E402

BUILD = ROOT / "build" / "mutants"
SURVIVORS = ROOT / "tests" / "survivors.yaml"
SURVIVED = " SURVIVED "


def main(arguments: Sequence[str]) -> int:
    """Change the numbers asked for; 0 when every survivor is explained."""
    asked = _parser().parse_args(arguments)
    every = numbers_in(ROOT, asked.only)
    chosen = [
        one for one in every if one.role == asked.role or (not asked.role and (asked.indexes or one.role != "index"))
    ]
    if asked.again:
        lived = {line.split(SURVIVED)[1] for line in asked.again.read_text("utf-8").splitlines() if SURVIVED in line}
        chosen = [one for one in chosen if any(line.startswith(one.described) for line in lived)]
    if asked.sample:
        chosen = sorted(random.Random(asked.seed).sample(chosen, min(asked.sample, len(chosen))), key=every.index)
    if not chosen:
        print(f"There is no number under {asked.only}.")
        return 2
    watched = tuple(asked.tests) if asked.tests else WATCHED
    outcomes = []
    for one in Runner(ROOT, BUILD, asked.workers, asked.budget, watched).run(chosen):
        outcomes.append(one)
        mark = "killed  " if one.killer else SURVIVED.strip()
        print(
            f"{len(outcomes)}/{len(chosen)} {mark} {one.number.described} {one.seconds:.1f} s {one.killer}", flush=True
        )
    return report(outcomes, complete=not (asked.sample or asked.role or asked.again), left_out=len(every) - len(chosen))


def report(outcomes: list[Outcome], *, complete: bool, left_out: int) -> int:
    """Print what became of every number; 1 when a survivor is unexplained or an entry explains nothing."""
    survivors = [one.number for one in outcomes if not one.killer]
    explanations = read_explanations(SURVIVORS)
    unexplained = explain(survivors, explanations)
    idle = [one for one in explanations if complete and not one.explains and _all_changed(one.where, outcomes)]
    tried, lived = Counter(one.number.role for one in outcomes), Counter(one.role for one in survivors)
    print(f"\n{len(outcomes)} numbers changed, {len(outcomes) - len(survivors)} noticed, {len(survivors)} survived,")
    print(f"{len(unexplained)} of these unexplained; {left_out} left out.")
    for role, count in sorted(tried.items()):
        print(f"  {role}: {count - lived[role]} of {count} noticed")
    for entry in explanations:
        if entry.explains:
            print(f"Explained, {len(entry.explains)}: {entry.described}")
    for number in unexplained:
        print(f"UNEXPLAINED {number.described}")
    for entry in idle:
        print(f"EXPLAINS NOTHING {entry.described}")
    return 1 if unexplained or idle else 0


def _all_changed(where: str, outcomes: list[Outcome]) -> bool:
    """Whether every number that an entry may be about was among those changed."""
    tried = Counter(one.number.path for one in outcomes)
    about = Counter(one.path for one in numbers_in(ROOT) if fnmatchcase(one.path, where) and one.role != "index")
    return all(tried[path] >= count for path, count in about.items())


def _parser() -> argparse.ArgumentParser:
    parser = argparse.ArgumentParser(description=(__doc__ or "").splitlines()[0])
    parser.add_argument("--only", default="", help="a file or folder, such as calculators/voltage_drop")
    parser.add_argument("--sample", type=int, default=0, help="change only this many, chosen at random")
    parser.add_argument("--seed", type=int, default=1, help="where the choice at random starts")
    parser.add_argument("--workers", type=int, default=2, help="how many are tried at once")
    parser.add_argument("--budget", type=float, default=40.0, help="most seconds of tests for one number")
    parser.add_argument(
        "--role", default="", help="only numbers of this role: plain, declared, digits, drawn, limit, ..."
    )
    parser.add_argument("--indexes", action="store_true", help="change the indexes of sequences too")
    parser.add_argument(
        "--again", type=Path, help="only those that survived in what an earlier run printed, kept in a file"
    )
    parser.add_argument("--tests", action="append", help="a file or folder of tests to choose from, instead of all")
    return parser


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
