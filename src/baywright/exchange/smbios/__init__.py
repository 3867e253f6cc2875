"""SMBIOS tables (DMTF DSP0134): a raw dump, or the two files the kernel of Linux shows."""

from baywright.exchange.smbios.record import read_tables

__all__ = ["read_tables"]
