"""The examples in the docstrings of the checks hold."""

import doctest
import importlib
import pkgutil

import record.checks


def test_the_examples_in_the_docstrings_hold():
    names = [f"record.checks.{one.name}" for one in pkgutil.iter_modules(record.checks.__path__)]
    results = [doctest.testmod(importlib.import_module(name)) for name in names]
    assert sum(result.attempted for result in results) >= 3
    assert sum(result.failed for result in results) == 0
