"""Which frequencies are localizer channels, by whole megahertz."""

from lpv.facts import value
from lpv.setup.radio import localizer_channels
from lpv_site.text.table import table

channels = localizer_channels()
by_megahertz: dict[int, list[str]] = {}
for mhz in channels:
    whole, decimals = f"{mhz:.2f}".split(".")
    by_megahertz.setdefault(int(whole), []).append("." + decimals)
rows = [(f"**{whole}**", " ".join(decimals)) for whole, decimals in by_megahertz.items()]
rows.append((f"**{max(by_megahertz) + 1} to {int(value('vor_highest_mhz'))}**", "none: all of these are VOR"))
print(table(["MHz", "localizer channels"], rows, left=2))
values = {"count": str(len(channels)), "lowest": f"{channels[0]:.2f}", "highest": f"{channels[-1]:.2f}"}
