"""The views of a machine, one file each; ``baywright.drawing.registry`` lists them."""
