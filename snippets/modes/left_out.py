"""What the simulation leaves out."""

from lpv.flight import SIMPLIFICATIONS

for line in SIMPLIFICATIONS:
    print(f"- {line}")
