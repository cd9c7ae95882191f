"""A bench of label photographs drawn by program: what is in each is known, so readers can be counted.

`Spec` says what stands in a photograph and what is wrong with it, `frame(i, spec)` draws it. The same number,
spec and seed give the same picture byte for byte. No photograph was taken with a camera.
"""

from tests.scanbench.photo import Drawn, frame
from tests.scanbench.plan import SEED, plan
from tests.scanbench.scenes import MODERATE_FROM, greased, moderate, stained
from tests.scanbench.spec import Spec

__all__ = ["MODERATE_FROM", "SEED", "Drawn", "Spec", "frame", "greased", "moderate", "plan", "stained"]
