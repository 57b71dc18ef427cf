"""The types of arrays that calculations take and return: shapes and units are said where they are used."""

from typing import TypeAlias

import numpy as np
from numpy.typing import NDArray

Floats: TypeAlias = NDArray[np.float64]
Whole: TypeAlias = NDArray[np.int64]
Flags: TypeAlias = NDArray[np.bool_]
