"""Memory: capacity, speed, bandwidth, interleave regions and what is kept back."""
