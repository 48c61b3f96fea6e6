"""The examples in the docstrings run, and there are some."""

import doctest
import importlib
import pkgutil

import pytest

import record.calc
import record.units


def modules_of(package):
    return [found.name for found in pkgutil.walk_packages(package.__path__, package.__name__ + ".")]


@pytest.mark.parametrize("package", [record.units, record.calc], ids=lambda one: one.__name__)
def test_the_examples_in_the_docstrings_hold(package):
    results = [doctest.testmod(importlib.import_module(name)) for name in modules_of(package)]
    assert sum(result.attempted for result in results) > 3
    assert sum(result.failed for result in results) == 0
