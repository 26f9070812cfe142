"""The potential: div(sigma grad V) = 0, V = 1 on bare metal, V = 0 on the outer wall.

No current crosses the insulated shaft. The matrix is factored once, at the start temperature;
later conductivities are solved by conjugate gradients with that factor as preconditioner.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np
from scipy.sparse.linalg import LinearOperator, cg

from threeview.errors import ConvergenceError
from threeview.lesion import elements as el
from threeview.lesion.factor import factor
from threeview.lesion.forms import joule

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from threeview.lesion.mesh import Mesh

__all__ = ["Potential"]


class Potential:
    """The unit potential around an electrode, renewed as the conductivity changes.

    Attributes:
        parts: the tissue's elements.
        field: (n,) potential at the nodes, V, for 1 V on the metal; 1 inside the metal.
    """

    def __init__(self, mesh: Mesh, tolerance: float, iterations: int) -> None:
        self.parts = el.elements(mesh, ~mesh.metal)
        self._tolerance, self._iterations = tolerance, iterations
        self.field = np.zeros(len(mesh.nodes))
        self.field[mesh.bare] = 1.0
        fixed = np.ones(len(mesh.nodes), dtype=bool)
        fixed[mesh.rays] = False
        self.field[fixed] = 1.0
        fixed[mesh.bare] = fixed[mesh.wall] = True
        self._free = np.flatnonzero(~fixed)
        self._gradients = self.parts.gradients
        self._divergence = self._gradients.T.tocsr()
        self._inner = self._gradients[:, self._free].tocsr()
        self._transposed = self._inner.T.tocsr()
        self._solver: LinearOperator | None = None
        self._lift = self._gradients @ self.field

    def solve(self, sigma: NDArray[np.float64]) -> None:
        """Bring `field` to balance.

        Args:
            sigma: (q,) conductivity at the quadrature points, S/m.

        Raises:
            ConvergenceError: the residual stayed above the tolerance.
        """
        weight = np.tile(self.parts.weights * sigma, 2)
        residual = -(self._transposed @ (weight * (self._gradients @ self.field)))
        scale = float(np.linalg.norm(self._transposed @ (weight * self._lift)))
        size = len(self._free)
        if self._solver is None:
            matrix = el.conduction(self.parts, sigma)[self._free][:, self._free]
            self._solver = LinearOperator((size, size), factor(matrix).solve)
            self.field[self._free] += self._solver @ residual
            return
        operator = LinearOperator(
            (size, size), lambda v: self._transposed @ (weight * (self._inner @ v))
        )
        goal = self._tolerance * scale
        change, status = cg(
            operator, residual, rtol=0.0, atol=goal, maxiter=self._iterations, M=self._solver
        )
        if status:
            left = np.linalg.norm(residual - operator @ change) / scale
            raise ConvergenceError("The potential", float(left), self._iterations)
        self.field[self._free] += change

    def heat(self, sigma: NDArray[np.float64]) -> NDArray[np.float64]:
        """Return the (n,) Joule heat at the nodes for 1 V on the metal, W."""
        weight = np.tile(self.parts.weights * sigma, 2)
        return joule(lambda v: self._divergence @ (weight * (self._gradients @ v)), self.field)
