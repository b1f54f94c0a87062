"""The page of each calculator and their list, made from what the calculators declare and the procedures name."""

from __future__ import annotations

from collections.abc import Iterator

from build_scripts.addresses import CALCULATORS_INDEX, calculator_page
from build_scripts.fill_templates import fill
from build_scripts.read_handbook import Handbook
from build_scripts.write_pages import link_source
from calculators.contract import Calculator
from calculators.limits import InForce


def write_calculators(handbook: Handbook, standards: InForce) -> Iterator[tuple[str, str]]:
    """The path and the Markdown of every calculator page, and of their list."""
    for calculator in handbook.calculators.values():
        yield calculator_page(calculator.slug), _write_calculator(calculator, handbook, standards)
    yield (
        CALCULATORS_INDEX,
        fill("calculators_index.md", here=CALCULATORS_INDEX, calculators=list(handbook.calculators.values())),
    )


def _write_calculator(calculator: Calculator, handbook: Handbook, standards: InForce) -> str:
    here = calculator_page(calculator.slug)
    using = [
        page.procedure
        for page in handbook.procedures.values()
        if page.procedure and calculator.slug in page.procedure.calculators
    ]
    return fill(
        "calculator_page.md",
        calculator=calculator,
        here=here,
        hazards={key: handbook.hazards[key] for key in calculator.hazards},
        procedures=using,
        limits=[standards.limit(key) for key in calculator.limits],
        tables={name: standards.table(name).title for name in calculator.tables},
        sources=[link_source(standards.source(key), here) for key in calculator.sources],
    )
