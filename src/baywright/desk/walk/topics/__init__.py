"""What may be true of a machine, said at its stations: one file for each part of the machine.

Every sentence here is a candidate. It is said only where it is proven of the book at hand, so a
file proposes more than any one machine has, and never names a machine.
"""
