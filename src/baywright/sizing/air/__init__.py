"""Air and noise: flow, fans, inlet limits, altitude and sound."""
