"""What a briefing says where its approach was made from coded records, and the minimum safe altitudes."""

from lpv.approach.record import Approach
from lpv.approach.schema import SafeAltitude
from lpv.crosscheck.coded import FROM_THE_CHART
from lpv_site.text.table import finished
from lpv_site.text.text import course, escape, number, quantity


def unread(approach: Approach) -> str:
    """A warning while the chart's side is only a copy of coded records, or lacks what they cannot hold; else ""."""
    chart = approach.chart
    parts = []
    if chart.from_coded_record:
        parts.append("Made from coded records; nobody has compared it with the chart yet.")
    if chart.to_be_filled:
        among = ", the minima among them" if "minima" in chart.to_be_filled else ""
        parts.append(f"[{FROM_THE_CHART.capitalize()}](#findings): {len(chart.to_be_filled)} entries{among}.")
    return f"\n!!! warning \"Not a briefing yet\"\n\n    {' '.join(parts)}\n" if parts else ""


def coded(approach: Approach) -> str:
    """What the records code and the list of fixes cannot show, in words; "" if there is nothing."""
    rows = "".join(f"- {escape(text)}\n" for text in approach.chart.coded_legs)
    return f"\nAlso coded, and not drawn:\n\n{rows}" if rows else ""


def lines_coded(approach: Approach) -> str:
    """In place of minima that the file lacks: what is to be filled, and which lines the records authorise."""
    lines = ", ".join(approach.database.lines)
    return f"{FROM_THE_CHART.capitalize()}." + (f" The records authorise: {escape(lines)}." if lines else "") + "\n"


def safe(approach: Approach) -> str:
    """The minimum safe altitudes by sector; "" where the file has none."""
    rows = [(escape(sector.centre), _sector(sector), number(sector.altitude_ft), quantity(sector.radius_nm, "NM"))
            for sector in approach.chart.msa]
    if not rows:
        return ""
    return "## Minimum safe altitude { #msa }\n\n" + finished(["about", "bearing to it", "ft", "within"], rows)


def _sector(sector: SafeAltitude) -> str:
    if sector.from_deg % 360 == sector.to_deg % 360:
        return "all round"
    return f"{course(sector.from_deg)} to {course(sector.to_deg)}"
