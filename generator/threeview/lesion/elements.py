"""Bilinear elements of revolution as three sparse matrices: values, gradients, and weights.

Every form of the model is a product of these: conduction is G' (w k) G, storage N' (w c) N.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np
from scipy import sparse

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from threeview.lesion.mesh import Mesh

__all__ = ["Elements", "conduction", "elements", "interface", "storage"]

_GAUSS = np.array([-1.0, 1.0]) / np.sqrt(3.0)
_CORNERS = np.array([[-1.0, -1.0], [1.0, -1.0], [1.0, 1.0], [-1.0, 1.0]])


@dataclass(frozen=True)
class Elements:
    """Values at the quadrature points (q of them, four to an element), from values at n nodes.

    Attributes:
        values: (q, n) sparse, interpolates.
        gradients: (2 q, n) sparse, d/dr of all points, then d/dz of all, 1/m.
        weights: (q,) volume of revolution that belongs to each point, m3.
    """

    values: sparse.csr_matrix
    gradients: sparse.csr_matrix
    weights: NDArray[np.float64]


def elements(mesh: Mesh, chosen: NDArray[np.bool_]) -> Elements:
    """Return the elements `chosen` (e,) of a mesh, over all of its nodes."""
    quads = mesh.quads[chosen]
    s, t = (axis.ravel() for axis in np.meshgrid(_GAUSS, _GAUSS))
    cs, ct = _CORNERS[:, 0], _CORNERS[:, 1]
    shape = (1 + np.outer(s, cs)) * (1 + np.outer(t, ct)) / 4
    slope = np.stack([cs * (1 + np.outer(t, ct)) / 4, ct * (1 + np.outer(s, cs)) / 4])
    corners = mesh.nodes[quads]
    jacobian = np.einsum("dqa,eax->eqdx", slope, corners)
    weights = 2 * np.pi * (corners[:, :, 0] @ shape.T) * np.linalg.det(jacobian)
    gradients = np.einsum("eqxd,dqa->xeqa", np.linalg.inv(jacobian), slope)
    columns = np.repeat(quads[:, None, :], 4, axis=1)
    size = (weights.size, len(mesh.nodes))
    spread = np.broadcast_to(shape, columns.shape)
    parts = [_rows(gradients[x], columns, size) for x in (0, 1)]
    return Elements(
        _rows(spread, columns, size), sparse.vstack(parts, format="csr"), weights.ravel()
    )


def _rows(
    values: NDArray[np.float64], columns: NDArray[np.intp], size: tuple[int, int]
) -> sparse.csr_matrix:
    """Return a sparse matrix whose every row has the four entries of one quadrature point."""
    starts = np.arange(0, 4 * size[0] + 1, 4)
    return sparse.csr_matrix((values.ravel(), columns.ravel(), starts), shape=size)


def conduction(parts: Elements, k: NDArray[np.float64] | float) -> sparse.csc_matrix:
    """Return the (n, n) matrix of the integral of k grad u · grad v; k at the points, 1/m per k."""
    weight = np.tile(parts.weights * k, 2)
    return (parts.gradients.T @ sparse.diags(weight) @ parts.gradients).tocsc()


def storage(parts: Elements, c: NDArray[np.float64] | float) -> sparse.csc_matrix:
    """Return the (n, n) matrix of the integral of c u v; c at the points."""
    return (parts.values.T @ sparse.diags(parts.weights * c) @ parts.values).tocsc()


def interface(mesh: Mesh, h: float) -> sparse.csc_matrix:
    """Return the (n, n) matrix of heat exchange through the insulated shaft, h in W/(m2·K).

    The integral of h (u_metal - u_tissue)(v_metal - v_tissue) over the cylinder, lumped at the
    nodes; the first and last half-intervals go to the neighbours.
    """
    n = len(mesh.nodes)
    pairs = mesh.shaft
    if not len(pairs):
        return sparse.csc_matrix((n, n))
    feet = mesh.nodes[mesh.rays[mesh.edge :, 0]]
    lengths = np.diff(feet[:, 1])
    share = (lengths + np.append(lengths[1:], 0.0)) / 2
    share[0] += lengths[0] / 2
    g = h * 2 * np.pi * feet[1:, 0] * share
    jump = sparse.csr_matrix(
        (
            np.tile([1.0, -1.0], len(pairs)),
            pairs.ravel(),
            np.arange(0, 2 * len(pairs) + 1, 2),
        ),
        shape=(len(pairs), n),
    )
    return (jump.T @ sparse.diags(g) @ jump).tocsc()
