"""The examples in the docstrings run, and there are some."""

import doctest
import importlib
import pkgutil

import pytest

import manual.drawings
import record.answers
import record.calc
import record.checks
import record.place
import record.units
import record.upkeep

PACKAGES = (
    record.units,
    record.calc,
    record.place,
    record.checks,
    record.answers,
    record.upkeep,
    manual.drawings,
)


def modules_of(package):
    return [found.name for found in pkgutil.walk_packages(package.__path__, package.__name__ + ".")]


@pytest.mark.parametrize("package", PACKAGES, ids=lambda one: one.__name__)
def test_the_examples_in_the_docstrings_hold(package):
    results = [doctest.testmod(importlib.import_module(name)) for name in modules_of(package)]
    assert sum(result.attempted for result in results) > 0
    assert sum(result.failed for result in results) == 0
