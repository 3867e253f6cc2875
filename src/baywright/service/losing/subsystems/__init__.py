"""What each subsystem adds: things that can be lost, and the functions that need them."""
