"""Lists of files for offline copies, the mark, the zip: complete, in order, the same bytes each time."""

import hashlib
import json
import re
import zipfile

import pytest

from lpv_site.build import offline
from lpv_site.build.digests import digests
from lpv_site.build.named import named_by_content, with_names
from lpv_site.build.zip import pack
from lpv_site.figures import icons
from small_site import BRIEFINGS, PAGES, build
from support import with_hash


@pytest.fixture(scope="module")
def site(tmp_path_factory):
    return build(tmp_path_factory.mktemp("site"), "edition A", 1)


def rows(site, group):
    return json.loads((site / "offline" / f"{group}.json").read_text("utf-8"))["files"]


def edition(site):
    return json.loads(re.search(r"const EDITION = (.*);", (site / "sw.js").read_text("utf-8"))[1])


def test_every_file_listed_with_size_and_hash(site):
    listed = rows(site, "handbook") + rows(site, "briefings")
    addresses = [address for address, _, _ in listed]
    assert set(PAGES) <= set(addresses)
    assert len(set(addresses)) == len(addresses)
    for address, digest, size in listed:
        place = address.partition("?")[0]
        content = (site / (f"{place}index.html" if place == "" or place.endswith("/") else place)).read_bytes()
        assert size == len(content)
        assert hashlib.sha256(content).hexdigest().startswith(digest)
    on_disk = sum(path.is_file() for path in site.rglob("*"))
    assert len(listed) == on_disk - len(list((site / "offline").iterdir())) - 1  # all but the lists and the worker


def test_briefings_have_own_list_and_sizes_agree(site):
    assert [address for address, _, _ in rows(site, "briefings")] == sorted(BRIEFINGS)
    sizes = json.loads((site / "offline" / "sizes.json").read_text("utf-8"))
    for group in ("handbook", "briefings"):
        assert sizes[group] == {"files": len(rows(site, group)), "bytes": sum(row[2] for row in rows(site, group))}
    assert sizes["built"] == edition(site)["built"] == "2026-03-01T12:00Z"


def test_worker_takes_exactly_common_files(site):
    taken = {address.partition("?")[0] for address, _, _ in edition(site)["frame"]}
    assert taken >= offline.ALWAYS
    assert {"assets/handbook.css", "assets/offline.js", "assets/keep.js", "manifest.webmanifest"} <= taken
    assert taken.isdisjoint({"verify/", "assets/icon-512.png", *BRIEFINGS})


def test_same_site_gives_same_files(site, tmp_path):
    other = build(tmp_path, "edition A", 1)
    for path in sorted(path for path in site.rglob("*") if path.is_file()):
        assert path.read_bytes() == (other / path.relative_to(site)).read_bytes(), path.name


@pytest.mark.parametrize("place", ["verify/index.html", "approaches/zzak-09/index.html", "assets/handbook.js"])
def test_any_change_renames_edition(tmp_path, place):
    site = build(tmp_path, "edition A", 1)
    before = offline.version(offline.listed(digests(site), []))
    (site / place).write_bytes((site / place).read_bytes() + b" ")
    assert offline.version(offline.listed(digests(site), [])) != before


def test_unreachable_files_left_out(tmp_path):
    unlisted = ("404.html", "sw.js", "sitemap.xml", "a.js.map", "offline/handbook.json", "r/k3f9z/index.html")
    for name in (*unlisted, "index.html", "b c/index.html"):
        (tmp_path / name).parent.mkdir(parents=True, exist_ok=True)
        (tmp_path / name).write_text(name, "utf-8")
    assert [entry.address for entry in offline.listed(digests(tmp_path), [])] == ["b%20c/", ""]


def test_style_named_by_content(tmp_path):
    (tmp_path / "a.css").write_text("one", "utf-8")
    first = named_by_content("a.css", tmp_path)
    assert re.fullmatch(r"a\.css\?v=[0-9a-f]{8}", first)
    (tmp_path / "a.css").write_text("two", "utf-8")
    assert named_by_content("a.css", tmp_path) != first
    assert named_by_content("elsewhere.css", tmp_path) == "elsewhere.css"


def test_page_scripts_named_by_content_without_other_changes(tmp_path):
    (tmp_path / "assets").mkdir()
    for name in ("one", "two-b"):
        (tmp_path / "assets" / f"{name}.js").write_text(name, "utf-8")
    first, two = (re.escape(with_hash(tmp_path, f"assets/{name}.js")) for name in ("one", "two-b"))
    text = ('<script src="../assets/one.js"></script><p data-script="assets/one.js assets/two-b.js">assets/one.js "</p>'
            '<script src="assets/one.js?v=01234567"></script><script src="assets/none.js"></script>')
    assert re.fullmatch(
        rf'<script src="../{first}"></script><p data-script="{first} {two}">assets/one\.js "</p>'
        r'<script src="assets/one\.js\?v=01234567"></script><script src="assets/none\.js"></script>',
        with_names(text, tmp_path))


def test_mark_inside_every_icon_mask():
    middle, reach = icons.SIDE / 2, 0.4 * icons.SIDE
    for _, corners in icons.SHAPES:
        for x, y in corners:
            assert ((x - middle) ** 2 + (y - middle) ** 2) ** 0.5 <= reach


def test_icons_square_and_deterministic(tmp_path):
    for folder in ("one", "two"):
        icons.write(tmp_path / folder)
    for side in icons.PNG_SIDES:
        png = (tmp_path / "one" / f"icon-{side}.png").read_bytes()
        assert png[:8] == b"\x89PNG\r\n\x1a\n"
        assert [int.from_bytes(png[start : start + 4], "big") for start in (16, 20)] == [side, side]
        assert png == (tmp_path / "two" / f"icon-{side}.png").read_bytes() == icons.draw(side)


def test_zip_bytes_deterministic(tmp_path, monkeypatch):
    monkeypatch.setenv("SOURCE_DATE_EPOCH", "1772366400")
    for folder in ("one", "two"):
        (tmp_path / folder / "b").mkdir(parents=True)
        for name in (["b/x.html", "a.html"] if folder == "one" else ["a.html", "b/x.html"]):
            (tmp_path / folder / name).write_text(name, "utf-8")
        pack(tmp_path / folder, tmp_path / f"{folder}.zip")
    assert (tmp_path / "one.zip").read_bytes() == (tmp_path / "two.zip").read_bytes()
    with zipfile.ZipFile(tmp_path / "one.zip") as packed:
        assert packed.namelist() == ["handbook/a.html", "handbook/b/x.html"]
        assert {entry.date_time for entry in packed.infolist()} == {(2026, 3, 1, 12, 0, 0)}
    assert not list(tmp_path.glob("*.next"))


def test_zip_clamps_dates_before_1980(tmp_path, monkeypatch):
    monkeypatch.setenv("SOURCE_DATE_EPOCH", "0")
    (tmp_path / "site").mkdir()
    (tmp_path / "site" / "a.html").write_text("a", "utf-8")
    pack(tmp_path / "site", tmp_path / "a.zip")
    with zipfile.ZipFile(tmp_path / "a.zip") as packed:
        assert packed.infolist()[0].date_time == (1980, 1, 1, 0, 0, 0)
