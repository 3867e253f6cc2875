"""The rack and the room: mass, balance, lifting, how many fit, and what the room takes."""
