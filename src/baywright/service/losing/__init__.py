"""What is lost with a thing: the functions of a machine, and the things each of them needs."""
