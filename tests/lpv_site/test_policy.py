"""The policy of a page: the theme's scripts by their hashes, everything else refused in words."""

import pytest

from lpv_site.build.policy import OWN_THEME, hashed, header, page_scripts, policy, secured

BASE = page_scripts()[page_scripts().index("<script>") + 8 : page_scripts().index("</script>")]
PAGE = '<!doctype html><html><head><meta charset="utf-8">{}</head><body>{}</body></html>'


def with_base(up):
    return BASE.replace("{{ config.extra.scope | d(base_url) }}", up)


@pytest.mark.parametrize("up", [".", "..", "../..", "/", "/crew/handbook/"])
def test_theme_script_allowed_by_hash(up):
    script = with_base(up)
    assert script != BASE
    page = secured(PAGE.format(f"<script>{script}</script>", ""), "a.md")
    assert f"'{hashed(script)}'" in page
    assert page.index("Content-Security-Policy") < page.index("<script>")


def test_hash_matches_browsers():
    # the hash of the empty text, from FIPS 180-4's own test vector e3b0c442..., in base64
    assert hashed("") == "sha256-47DEQpj8HBSa+/TImW+5JCeuQeRkm5NMpJWZG3hSuFU="


@pytest.mark.parametrize(
    "foreign",
    [
        "<script>alert(1)</script>",
        "<SCRIPT>alert(1)</SCRIPT>",
        "<script type=module>alert(1)</script>",
        "<script>" + with_base('"+alert(1)+"') + "</script>",
        '<p style="color: red">x</p>',
        "<style>p { color: red }</style>",
        '<img src="x" onerror="alert(1)">',
        '<img src="x"\n\tonerror="alert(1)">',
        '<p\nstyle="color: red">x</p>',
    ],
)
def test_blocked_content_stops_build(foreign):
    with pytest.raises(ValueError, match=r"^a\.md: .*written into the page"):
        secured(PAGE.format("", foreign), "a.md")


@pytest.mark.parametrize(
    "harmless",
    [
        '<script src="a.js"></script>',
        '<script id="__config" type="application/json">{"on": "style=\\"x\\""}</script>',
        '<p title="a on b=&quot;c&quot;">style="x" onload="y"</p>',
        "<p>&lt;script&gt;alert(1)&lt;/script&gt;</p>",
    ],
)
def test_allowed_content_unchanged(harmless):
    assert harmless in secured(PAGE.format("", harmless), "a.md")


def test_scripts_styles_and_requests_same_origin():
    rules = dict(rule.split(" ", 1) for rule in policy([]).split("; "))
    assert rules["script-src"] == "'self' 'wasm-unsafe-eval'"
    assert rules["style-src"] == rules["default-src"] == rules["connect-src"] == "'self'"
    assert rules["object-src"] == rules["base-uri"] == rules["form-action"] == "'none'"
    assert "unsafe-inline" not in header(3)
    assert "http" not in header(3)


def test_site_opened_from_folder_may_read_files():
    assert "style-src 'self' file:;" in secured(PAGE.format("", ""), "a.md", "file:")


def test_header_knows_page_at_any_depth():
    sent = header(2, "/crew/")
    for up in (".", "..", "../..", "/crew/"):
        assert hashed(with_base(up)) in sent
    assert hashed(with_base("../../..")) not in sent
    assert sent.endswith("frame-ancestors 'none'")


def test_templates_contain_no_page_specific_script():
    for template in OWN_THEME.glob("*.html"):
        for script in template.read_text("utf-8").split("<script>")[1:]:
            assert "{{" not in script.partition("</script>")[0], template
