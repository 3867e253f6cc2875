"""From a need to builds: the front of price, watts, space and headroom, physics in the loop."""
