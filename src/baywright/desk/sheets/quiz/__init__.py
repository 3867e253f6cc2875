"""A quiz: each right option is proven, and each wrong one is a real slip and proven false."""
