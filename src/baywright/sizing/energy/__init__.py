"""Energy: batteries, cost, grades and the limits of Regulation (EU) 2019/424."""
