"""Generated page: all that was read in no document, most consequential first."""

from collections.abc import Callable
from pathlib import Path

from lpv.core.text import capitalized, fact_text, plural
from lpv.facts import FACTS, Fact
from lpv_site.checks.check_table import source_text
from lpv_site.text.text import escape, fact_id, front_matter

SNIPPETS = Path(__file__).resolve().parents[2]
# What hangs on the figures, most consequential first; the beginnings of their keys.
GROUPS: tuple[tuple[str, str, tuple[str, ...]], ...] = (
    ("The scale of the glidepath", "How far a dot is from the glidepath, and so when an approach is off it.", (
        "lpv_vertical_", "lnav_vnav_vertical_", "two_dot_scale_", "five_dot_scale_", "tightening_shape",
        "baro_vnav_deviation_")),
    ("How low a line may be", "Findings of the cross-check about minima, stops included; each says so.", (
        "lnav_vnav_lowest_", "mda_lowest_", "circling_lowest_", "visibility_lowest_circling_", "touchdown_zone_")),
    ("What a design allows", "Findings of the cross-check about angles and offset, stops included; each says so.", (
        "offset_highest_", "gpa_lowest_", "gpa_highest_", "missed_gradient_icao_")),
    ("The altimeter", "What a reading at the fix may be off with nothing wrong, and the additions in the cold.", (
        "altimeter_ground_check_", "cold_lapse_rate_", "cold_isa_temperature_", "cold_zero_celsius_", "hpa_per_inhg")),
    ("Whether it may be planned", "None of these alone makes an answer ok or stop.", (
        "easa_no_alternate_visibility_", "easa_planning_type_", "part_135_", "opspec_", "inoperative_lights_",
        "cycle_change_")),
    ("Integrity and reception", "What the forecast of the protection levels is made with, and when guidance ends.", (
        "time_to_alert_", "messages_lost_", "noise_aad_a_strong_", "ionosphere_grid_latitude_",
        "troposphere_elevation_", "sbas_class_", "sbas_proof_against_", "almanac_time_", "pdop_availability_",
        "gps_vertical_", "gps_horizontal_")),
    ("Is it the right approach", "How channels, frequencies and identifiers are told apart.", (
        "reference_path_id_", "gbas_channel_", "localizer_lowest_", "localizer_highest_mhz", "vor_",
        "navigation_channel_")),
    ("Vectors and slowing", "Where the approach gate lies, and how much speed comes off on the glidepath.", (
        "approach_gate_", "slowing_path_")),
    ("What is added to VREF", "The rules that the calculator offers besides the operator's own.", ("additive_",)),
    ("Holds", "Bank and time in a hold, as the calculator begins.", ("hold_",)),
    ("Lights", "How far from the threshold the first light stands.", ("als_",)),
    ("Formulas", "Their results are compared with printed examples, which stand on the validation pages.", (
        "earth_radius_procedure_", "garp_beyond_fpap_m", "pans_ops_tas_")),
    ("The ILS, for comparison", "Only set beside the SBAS scale.", (
        "localizer_width_", "localizer_full_scale_", "glide_slope_")),
    ("Standards of the lessons", "Codes of tasks and areas of knowledge that objectives serve.", ("standard_",)),
    ("Words", "Printed, not computed with.", ("armed_to_captured_", "interference_report_")),
)
# What is from memory and is no figure: module of lpv, and what in it.
FORMS = (
    ("air.altimetry", "the form of the short cold-temperature formula; it gives all 98 cells of the published table"),
    ("path.profile", "the forms of the straight and the barometric path; they give published altitudes within a foot"),
    ("path.scale", "the form of the glidepath's scale: a share of the angle, with a cap and a floor"),
    ("arinc.codes", "the codes of coded procedures that no published record read here confirms"),
    ("notices.words", "the contractions in notices"),
    ("track.igc", "the layout of one format of recorded flights"),
)


def pages(_docs: Path) -> dict[str, Callable[[], str]]:
    """The page of what is from memory."""
    return {"reference/from-memory.md": build_memory_page}


def groups() -> list[tuple[str, str, list[Fact]]]:
    """Title, what hangs on it and the facts from memory of each group that has any, most consequential first."""
    memory = [fact for fact in FACTS.values() if fact.status == "from memory"]
    rows = []
    for title, why, keys in GROUPS:
        if facts := [fact for key in keys for fact in memory if fact.key.startswith(key)]:
            rows.append((title, why, facts))
    return rows


def build_memory_page() -> str:
    """All figures and forms that are from memory, with the document in which they should stand."""
    listed = groups()
    count = sum(len(facts) for _, _, facts in listed)
    page = front_matter("From memory", "Everything from memory, most consequential first.", search=False)
    page += (
        f"{plural(count, 'figure')} and {plural(len(FORMS), 'form')} of this handbook were not read in any document. "
        "Do you hold one of the documents named here? Compare, and tell the editors what stands there, and where: "
        "edition, page, words. A department puts the figure it has read into its own "
        "[data](publish.md); the handbook then uses that one.\n"
    )
    for number, (title, why, facts) in enumerate(listed, 1):
        page += f"\n## {number}. {title} {{ #memory-{number} }}\n\n{why}\n\n" + "\n".join(map(_row, facts)) + "\n"
    page += "\n## Forms and codes { #memory-forms }\n\n"
    return page + "".join(f"- `lpv.{module}`: {title}.\n" for module, title in FORMS)


def _row(fact: Fact) -> str:
    remark = f" {escape(capitalized(fact.remark))}." if fact.remark else ""
    return (
        f'<div class="hb-fact" markdown="0"><b>{fact_text(fact)}</b> {escape(fact.what)}.{remark}<br>'
        f'Look in: {source_text(fact.source, fact.place)} · '
        f'<a href="facts.md#{fact_id(fact.key)}">{escape(fact.key)}</a></div>\n'
    )
