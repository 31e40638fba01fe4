"""Examples for servers: every header in them, what may be kept is named by its content, the policy as on the pages."""

import importlib.util
import re

from lpv.command.main import COMMANDS
from lpv_site.build.hosting import A_YEAR, KINDS, headers, nginx
from lpv_site.department.files import PAGES_ENDINGS
from support import ROOT


def test_configuration_complete():
    text = re.sub(r'"[^"]*"|#[^\n]*', "", nginx())
    assert "@" not in text
    assert text.count("{") == text.count("}")
    for line in filter(None, map(str.strip, text.splitlines())):
        assert line.endswith((";", "{", "}")) or line.startswith("gzip_types"), line


def test_every_header_sent_with_every_answer():
    sent = re.findall(r'^    add_header ([\w-]+) (".*"|\$\w+) always;$', nginx(), re.M)
    assert dict(sent) == {name: f'"{value}"' for name, value in headers().items()} | {
        "Cache-Control": "$handbook_keep"}
    assert len(sent) == len(headers()) + 1
    assert not re.search(r"location[^{]*\{[^}]*add_header", nginx()), "it would hide those of the server"


def test_values_safe_in_configuration():
    for name, value in headers().items():
        assert re.fullmatch(r"[\w-]+", name)
        assert value.isascii()
        assert not set('"\n\\$') & set(value)


KEPT = ("/assets/javascripts/bundle.a5f9d56c.min.js", "/crew/assets/handbook.css?v=0a1b2c3d",
        "/assets/lpv.set-up.0a1b2c3d.json", "/approaches/zzak-27/set-up.json?v=0a1b2c3d")
ASKED_ANEW = ("/", "/tasks/", "/sw.js", "/assets/handbook.css", "/search/search_index.json", "/verify/?v=1",
              "/verify/?v=0a1b2c3d", "/approaches/zzak-27/?v=0a1b2c3d", "/assets/handbook.css?v=1",
              "/verify/?/assets/a.0a1b2c3d.js", "/assets/javascripts/bundle.min.js")


def test_only_content_named_success_cached():
    rules = re.findall(r'^    "~(.*)"\s+"(.*)";$', nginx(), re.M)
    assert {keep for _, keep in rules} == {A_YEAR}
    for status in (200, 206, 301, 403, 404, 500):
        for address in KEPT + ASKED_ANEW:
            kept = any(re.search(rule, f"{status} {address}") for rule, _ in rules)
            assert kept == (status == 200 and address in KEPT), (status, address)
    assert [what for what, _, keep in KINDS if keep == A_YEAR] == [
        "assets/javascripts/*, assets/stylesheets/*", "assets/*.<8 signs>.json, *.wasm"]


def test_header_forbids_framing():
    assert headers()["Content-Security-Policy"].endswith("; frame-ancestors 'none'")


def test_every_department_file_type_known():
    types = dict(line.split()[::-1] for line in re.findall(r"^        (\S+ +\w+);$", nginx(), re.M))
    told = " ".join(what for what, _, _ in KINDS)
    for ending in (each for each in PAGES_ENDINGS if each != ".md"):
        assert types[ending[1:]] in " ".join(kind for _, kind, _ in KINDS)
        assert f"*{ending}" in told


CONTAINER = ROOT / "snippets" / "lpv_site" / "build" / "Containerfile"


def test_container_file_names_only_existing_files(capsys):
    """It cannot be run here: every path, target and command in it is looked up, and the port and folder compared."""
    text = CONTAINER.read_text("utf-8")
    steps = [line.split() for line in text.splitlines() if line and not line.startswith("#")]
    images = dict(word.partition("=")[::2] for kind, word in (step for step in steps if step[0] == "ARG"))
    assert all(re.search(r":\d+\.\d+\.\d+-|@sha256:", image) for image in images.values()), "versions are pinned"
    assert {step[1].strip("${}") for step in steps if step[0] == "FROM"} == set(images)
    assert str(CONTAINER.relative_to(ROOT)) in re.search(r"--file (\S+)", text)[1]
    commands = [" ".join(step[1:]) for step in steps if step[0] == "RUN"]
    [target, folder] = re.search(r"make (\w+) DATA=(\S+)", "\n".join(commands)).groups()
    makefile = (ROOT / "Makefile").read_text("utf-8")
    assert re.search(rf"^{target}: ", makefile, re.M)
    assert ["COPY", "--from=data", ".", folder] in steps
    [module, arguments, written] = re.search(r"python -m (\S+) (.*) > (\S+)$", "\n".join(commands), re.M).groups()
    assert importlib.import_module(module).main(arguments.split()) == 0
    served = capsys.readouterr().out
    assert f"listen {re.search(r'--publish [0-9]+:([0-9]+) ', text)[1]};" in served
    copied = {step[2]: step[3] for step in steps if step[:2] == ["COPY", "--from=build"]}
    home = next(step[1] for step in steps if step[0] == "WORKDIR")
    assert f"root {copied[f'{home}/site']};" in served
    assert copied[f"{home}/{written}"].startswith("/etc/nginx/conf.d/")
    ignored = (ROOT / ".dockerignore").read_text("utf-8").splitlines()
    assert {".venv", ".cache", "site"} <= set(ignored)
    assert ".git" not in ignored, "the edition's time is that of the commit"


def test_publisher_page_commands_exist():
    for page in ("publish.md", "publish-where.md", "publish-editions.md", "hosting.md", "offline.md"):
        text = (ROOT / "docs" / "reference" / page).read_text("utf-8")
        makefile = (ROOT / "Makefile").read_text("utf-8")
        for target in re.findall(r"\bmake ([a-z]+)\b(?= DATA| TIME|`)", text):
            assert re.search(rf"^{target}:", makefile, re.M), (page, target)
        for module in re.findall(r"python -m (lpv_site[\w.]+)", text):
            assert importlib.util.find_spec(module), (page, module)
        for command in re.findall(r"`lpv ([a-z-]+)", text):
            assert command in COMMANDS, (page, command)
