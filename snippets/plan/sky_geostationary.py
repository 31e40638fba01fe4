"""How high a geostationary satellite stands over the demo sites, by how far east or west of them it is."""

from lpv.core.text import quantity
from lpv.core.units import degrees_180
from lpv.sbas.constellation import geostationary
from lpv.sbas.service import site_of
from lpv.sbas.sky import Site, sight
from lpv_site.department.data import examples
from lpv_site.text.shown import Shown, Value
from lpv_site.text.table import table
from lpv_site.text.text import escape

AWAY_DEG = (0.0, 30.0, 60.0)


def show() -> Shown:
    """A table of elevations by airport; values: the elevation straight south or north of each."""
    sites = {approach.identity.airport: site_of(approach.segment) for approach in examples()}
    rows = [
        (f"{escape(airport)}, {'N' if site.latitude_deg >= 0.0 else 'S'} {quantity(abs(site.latitude_deg), '°')}",
         *(_words(_elevation_deg(site, away_deg)) for away_deg in AWAY_DEG))
        for airport, site in sites.items()
    ]
    head = "Elevation of the satellite that sends the messages, by how far east or west of the airport it is:"
    values = {airport: Value.of(_elevation_deg(site, AWAY_DEG[0]), "°") for airport, site in sites.items()}
    return Shown(f"{head}\n\n{table(['airport', *(quantity(away_deg, '°') for away_deg in AWAY_DEG)], rows)}", values)


def _elevation_deg(site: Site, away_deg: float) -> float:
    """Elevation of a satellite that far east of a place."""
    return sight("", geostationary(degrees_180(site.longitude_deg + away_deg)), site).elevation_deg


def _words(elevation_deg: float) -> str:
    return quantity(elevation_deg, "°") if elevation_deg > 0.0 else "below"
