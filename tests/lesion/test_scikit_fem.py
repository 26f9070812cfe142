"""A lesion against scikit-fem: another library, mesh, element and time stepping, one physics."""

from __future__ import annotations

import pytest
from numpy.testing import assert_allclose
from tests.lesion.parameters import EX_VIVO, lesion, needle, usual
from tests.lesion.scikit_fem_solver import Way, solve

from threeview.lesion import Case

CASES = {
    "20 G 10 mm in muscle": usual(),
    "18 G 5 mm ex vivo": usual(
        electrode=needle(18, 5.0), tissue=EX_VIVO, start_temperature_c=22.0, time_s=60.0
    ),
}


@pytest.mark.parametrize("case", CASES.values(), ids=CASES)
def test_lesion_agrees_with_scikit_fem(case: Case) -> None:
    """Width agrees within 0.3 %, distal reach within 1 %, power within 1 %."""
    ours = lesion(case)
    theirs = solve(case, Way(0.08, 0.3, 2, 2.5, plain=False))
    assert_allclose(ours.width_mm, theirs.width, rtol=0.003)
    assert_allclose(ours.distal_mm, theirs.distal, rtol=0.01)
    assert_allclose(ours.trace.power_w[-1], theirs.power, rtol=0.01)
