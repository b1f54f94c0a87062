"""The examples in the docstrings of this room say what is true."""

from __future__ import annotations

import doctest

import pytest

from build_scripts import addresses, fill_templates, link_terms, marks, read_body


@pytest.mark.parametrize(
    "module", [addresses, fill_templates, link_terms, marks, read_body], ids=lambda one: one.__name__
)
def test_the_examples_of_a_docstring_hold(module):
    tried = doctest.testmod(module)
    assert (tried.failed, tried.attempted > 0) == (0, True)
