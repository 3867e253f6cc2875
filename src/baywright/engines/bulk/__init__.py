"""The bulk engine: verdicts on millions of builds at once, by look-ups over columns."""

from baywright.engines.bulk.arrays import Codes
from baywright.engines.bulk.checker import Checker, verdicts
from baywright.engines.bulk.verdicts import Verdicts

__all__ = ["Checker", "Codes", "Verdicts", "verdicts"]
