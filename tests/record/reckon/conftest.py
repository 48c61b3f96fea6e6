"""A sum worked by name, its figures by theirs."""

import pytest

from record.reckon import SUMS, read


@pytest.fixture
def of():
    def worked(name, *given):
        one = SUMS[name]
        return {figure.name: figure.value for figure in one.work(read(one, given).given)}

    return worked
