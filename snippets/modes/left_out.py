"""What the simulation leaves out."""

from lpv.simulate.simulation import SIMPLIFICATIONS

for line in SIMPLIFICATIONS:
    print(f"- {line}")
