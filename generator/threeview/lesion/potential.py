"""The potential: div(sigma grad V) = 0, V = 1 on bare metal, V = 0 on the outer wall.

No current crosses the insulated shaft. The matrix is factored at the start temperature; later
conductivities are solved by conjugate gradients with that stale factor as preconditioner, and
factored anew only when that takes too many iterations.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from threeview.errors import ConvergenceError
from threeview.lesion import elements as el
from threeview.lesion.factor import factor
from threeview.lesion.forms import joule

if TYPE_CHECKING:
    from numpy.typing import NDArray
    from scipy import sparse
    from scipy.sparse.linalg import SuperLU

    from threeview.lesion.mesh import Mesh

__all__ = ["Potential"]

_PATIENCE = 4  # iterations after which a new factor is worth its price


class Potential:
    """The unit potential around an electrode, renewed as the conductivity changes.

    Attributes:
        parts: the tissue's elements.
        field: (n,) potential at the nodes, V, for 1 V on the metal; 1 inside the metal.
        heat: (n,) Joule heat at the nodes for 1 V on the metal, W.
    """

    def __init__(self, mesh: Mesh, tolerance: float, iterations: int) -> None:
        self.parts = el.elements(mesh, ~mesh.metal)
        self._tolerance, self._iterations = tolerance, iterations
        self._start = np.ones(len(mesh.nodes))
        self._start[mesh.rays] = 0.0
        self._start[mesh.bare] = 1.0
        self.field = self._start.copy()
        self.heat = np.zeros(len(mesh.nodes))
        fixed = self._start == 1.0
        fixed[mesh.wall] = True
        self._free = np.flatnonzero(~fixed)
        self._factor: SuperLU | None = None

    def solve(self, sigma: NDArray[np.float64]) -> None:
        """Bring `field` and `heat` to balance.

        Args:
            sigma: (e, 4) conductivity at the quadrature points of `parts`, S/m.

        Raises:
            ConvergenceError: the residual stayed above the tolerance.
        """
        matrix = self.parts.conduction(sigma)
        if self._factor is None:
            self._factor = self._factored(matrix)
        goal = self._tolerance * float(np.linalg.norm((matrix @ self._start)[self._free]))
        if self._iterate(matrix, self._factor, goal) > _PATIENCE:
            self._factor = self._factored(matrix)
        self.heat = joule(matrix, self.field)

    def _factored(self, matrix: sparse.csr_matrix) -> SuperLU:
        return factor(matrix[self._free][:, self._free])

    def _iterate(self, matrix: sparse.csr_matrix, stale: SuperLU, goal: float) -> int:
        """Improve `field` by preconditioned conjugate gradients; return how many steps it took."""
        residual = -(matrix @ self.field)[self._free]
        direction, before = np.zeros(len(self.field)), np.inf
        for step in range(self._iterations + 1):
            size = float(np.linalg.norm(residual))
            if size <= goal:
                return step
            precise = stale.solve(residual)
            now = float(residual @ precise)
            direction[self._free] = precise + now / before * direction[self._free]
            image = (matrix @ direction)[self._free]
            length = now / float(direction[self._free] @ image)
            self.field = self.field + length * direction
            residual, before = residual - length * image, now
        told = size / goal * self._tolerance
        raise ConvergenceError("The potential", told, self._iterations)
