"""Redfish (DMTF DSP0266): a folder of mockup resources, or a live service over HTTPS."""

from baywright.exchange.redfish.limits import Limits
from baywright.exchange.redfish.record import read_mockup, read_service
from baywright.exchange.redfish.session import Credentials

__all__ = ["Credentials", "Limits", "read_mockup", "read_service"]
