"""Laws: what follows from the structure of a machine, one file for each subsystem."""
