"""The ten visual references of the United States rule, in its order."""

from lpv.facts import fact
from lpv_site.text.text import fact_text

names = [fact_text(fact(f"visual_reference_{number}")) for number in range(1, 11)]
print("\n".join(f"{number}. {name}" for number, name in enumerate(names, 1)))
