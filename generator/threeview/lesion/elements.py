"""Bilinear elements of revolution and the matrices they add up to.

An element's share of a matrix is worked out once for each of its four quadrature points; a matrix
is then those shares weighed by a property at the points and summed into one fixed pattern.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np
from scipy import sparse

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from threeview.lesion.mesh import Mesh

__all__ = ["Elements", "elements", "interface"]

_GAUSS = np.array([-1.0, 1.0, 1.0, -1.0]) / np.sqrt(3.0), np.array([-1, -1, 1, 1]) / np.sqrt(3.0)
_CORNERS = np.array([-1.0, 1.0, 1.0, -1.0]), np.array([-1.0, -1.0, 1.0, 1.0])
_SHAPE = (1 + np.outer(_GAUSS[0], _CORNERS[0])) * (1 + np.outer(_GAUSS[1], _CORNERS[1])) / 4
_SLOPE = (
    _CORNERS[0] * (1 + np.outer(_GAUSS[1], _CORNERS[1])) / 4,
    _CORNERS[1] * (1 + np.outer(_GAUSS[0], _CORNERS[0])) / 4,
)


_PRODUCTS = (_SHAPE[:, :, None] * _SHAPE[:, None, :]).reshape(4, 16)


@dataclass(frozen=True)
class Elements:
    """Some elements of a mesh of n nodes, e of them with four quadrature points each.

    Attributes:
        quads: (e, 4) node numbers.
        weights: (e, 4) volume of revolution that belongs to each point, m3.
        slopes: (e, 4, 4, 4) weight times grad N_a · grad N_b at each point, m.
        places: (16 e,) where each element's entries go among a matrix's entries.
        columns: column of each entry of a matrix.
        starts: (n + 1,) first entry of each row.
    """

    quads: NDArray[np.intp]
    weights: NDArray[np.float64]
    slopes: NDArray[np.float64]
    places: NDArray[np.intp]
    columns: NDArray[np.intp]
    starts: NDArray[np.intp]

    def at_points(self, values: NDArray[np.float64]) -> NDArray[np.float64]:
        """Return (n,) nodal values at the quadrature points, (e, 4)."""
        found: NDArray[np.float64] = values[self.quads] @ _SHAPE.T
        return found

    def conduction(self, k: NDArray[np.float64]) -> sparse.csr_matrix:
        """Return the (n, n) integrals of k grad u · grad v, k (e, 4) at the points."""
        return self._matrix(np.einsum("eqab,eq->eab", self.slopes, k))

    def storage(self, c: NDArray[np.float64]) -> sparse.csr_matrix:
        """Return the (n, n) integrals of c u v, c (e, 4) at the points."""
        return self._matrix((self.weights * c) @ _PRODUCTS)

    def _matrix(self, shares: NDArray[np.float64]) -> sparse.csr_matrix:
        """Return the sum of the elements' shares, 16 for each."""
        n = len(self.starts) - 1
        entries = np.bincount(self.places, shares.ravel(), len(self.columns))
        return sparse.csr_matrix((entries, self.columns, self.starts), shape=(n, n))


def elements(mesh: Mesh, chosen: NDArray[np.bool_]) -> Elements:
    """Return the elements `chosen` (e,) of a mesh, over all of its nodes."""
    quads, n = mesh.quads[chosen], len(mesh.nodes)
    r, z = mesh.nodes[quads, 0], mesh.nodes[quads, 1]
    (rs, rt), (zs, zt) = ([x @ slope.T for slope in _SLOPE] for x in (r, z))
    area = rs * zt - rt * zs
    weights = 2 * np.pi * (r @ _SHAPE.T) * area
    s, t = _SLOPE
    across = (zt[:, :, None] * s - zs[:, :, None] * t) / area[:, :, None]
    along = (rs[:, :, None] * t - rt[:, :, None] * s) / area[:, :, None]
    slopes = across[..., :, None] * across[..., None, :] + along[..., :, None] * along[..., None, :]
    pairs = (quads[:, :, None] * n + quads[:, None, :]).ravel()
    entries, places = np.unique(pairs, return_inverse=True)
    starts = np.searchsorted(entries, np.arange(n + 1) * n)
    return Elements(quads, weights, weights[:, :, None, None] * slopes, places, entries % n, starts)


def interface(mesh: Mesh, h: float) -> sparse.csr_matrix:
    """Return the (n, n) matrix of heat exchange through the insulated shaft, h in W/(m2·K).

    The integral of h (u_metal - u_tissue)(v_metal - v_tissue) over the cylinder, lumped at the
    nodes; the first and last half-intervals go to the neighbours.
    """
    n, pairs = len(mesh.nodes), mesh.shaft
    feet = mesh.nodes[mesh.rays[mesh.edge :, 0]]
    lengths = np.diff(feet[:, 1])
    share = (lengths + np.append(lengths[1:], 0.0)) / 2
    share[:1] += lengths[:1] / 2
    g = h * 2 * np.pi * feet[1:, 0] * share
    metal, tissue = pairs.T
    rows = np.concatenate([metal, tissue, metal, tissue])
    columns = np.concatenate([metal, tissue, tissue, metal])
    return sparse.csr_matrix((np.concatenate([g, g, -g, -g]), (rows, columns)), shape=(n, n))
