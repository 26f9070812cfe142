"""One way of factoring the symmetric matrices of the model."""

from __future__ import annotations

from typing import TYPE_CHECKING

from scipy.sparse.linalg import SuperLU, splu

if TYPE_CHECKING:
    from scipy import sparse

__all__ = ["factor"]


def factor(matrix: sparse.csc_matrix) -> SuperLU:
    """Return the factors of a symmetric positive definite matrix.

    Symmetric mode without pivoting: safe for such matrices, and half the fill.
    """
    return splu(
        matrix.tocsc(),
        permc_spec="MMD_AT_PLUS_A",
        diag_pivot_thresh=0.0,
        options={"SymmetricMode": True},
    )
