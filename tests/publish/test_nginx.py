"""The configuration that the handbook prints, run by a real nginx on this machine."""

import gzip
import http.client
import os
import shutil
import socket
import subprocess
import time
from contextlib import contextmanager

import pytest

from lpv_site.build import hosting
from small_site import build, seconds

AROUND = """
daemon off;
pid {folder}/nginx.pid;
error_log stderr warn;
{user}
events {{ }}
http {{
    access_log off;
    client_body_temp_path {folder}/body;
    proxy_temp_path {folder}/proxy;
    fastcgi_temp_path {folder}/fastcgi;
    uwsgi_temp_path {folder}/uwsgi;
    scgi_temp_path {folder}/scgi;
    {server}
}}
"""
PAGE, FOREVER, ANEW = "/verify/identity/", hosting.A_YEAR, "no-cache"


def nginx():
    """The server's program; the tests are passed over where there is none."""
    path = shutil.which("nginx", path=f"{os.environ['PATH']}:/usr/sbin:/usr/local/sbin")
    if not path and os.environ.get("CI") == "true":
        pytest.fail("CI needs nginx: install it in .ci/run")
    return path or pytest.skip("no nginx on this machine (Debian: apt install nginx-light)")


def free_port():
    with socket.socket() as probe:
        probe.bind(("127.0.0.1", 0))
        return probe.getsockname()[1]


@contextmanager
def running(folder, root):
    """nginx with the printed configuration, without https, serving a folder; gives the port."""
    port = free_port()
    server = hosting.nginx_plain(port, str(root)).replace(f"listen {port};", f"listen 127.0.0.1:{port};")
    user = "user root;" if os.geteuid() == 0 else ""  # pytest's folders are for one user
    (folder / "nginx.conf").write_text(AROUND.format(folder=folder, user=user, server=server), "utf-8")
    command = [nginx(), "-p", str(folder), "-c", str(folder / "nginx.conf")]
    checked = subprocess.run([*command, "-t"], capture_output=True, text=True)
    assert checked.returncode == 0, checked.stderr
    assert "warn" not in checked.stderr, checked.stderr
    process = subprocess.Popen(command, stderr=subprocess.PIPE, text=True)
    try:
        for _ in range(200):
            with socket.socket() as probe:
                if probe.connect_ex(("127.0.0.1", port)) == 0:
                    break
            assert process.poll() is None, process.stderr.read()
            time.sleep(0.05)
        yield port
    finally:
        process.terminate()
        process.communicate(timeout=10)


@pytest.fixture(scope="module")
def port(site, tmp_path_factory):
    """The built site, served."""
    with running(tmp_path_factory.mktemp("nginx"), site) as number:
        yield number


def get(port, address, **headers):
    """Status, headers with names in lower case, and body of an answer; redirects are not followed."""
    connection = http.client.HTTPConnection("127.0.0.1", port, timeout=10)
    connection.request("GET", address, headers=headers)
    answer = connection.getresponse()
    result = answer.status, {name.lower(): value for name, value in answer.getheaders()}, answer.read()
    connection.close()
    return result


@pytest.mark.parametrize("address", ["/", PAGE, "/sw.js", "/no/such/page/", "/search/search_index.json"])
def test_every_answer_has_headers_of_build(port, address):
    _, headers, _ = get(port, address)
    for name, value in hosting.headers().items():
        assert headers[name.lower()] == value, name


def test_pages_and_not_found_page(port, site):
    status, headers, body = get(port, PAGE)
    assert (status, headers["content-type"]) == (200, "text/html; charset=utf-8")
    assert body == (site / PAGE.strip("/") / "index.html").read_bytes()
    status, headers, body = get(port, "/no/such/page/")
    assert (status, headers["content-type"]) == (404, "text/html; charset=utf-8")
    assert body == (site / "404.html").read_bytes()
    assert "nginx/" not in headers["server"], "no version of the server for everybody to read"


def test_folder_without_slash_redirected(port):
    status, headers, _ = get(port, PAGE.rstrip("/"))
    assert status == 301
    assert headers["location"].endswith(PAGE)


def first(site, pattern):
    """Address of the first file that matches."""
    return "/" + sorted(site.glob(pattern))[0].relative_to(site).as_posix()


@pytest.mark.parametrize(("pattern", "kind"), [
    ("sw.js", "text/javascript"), ("manifest.webmanifest", "application/manifest+json"),
    ("assets/micropython/*.wasm", "application/wasm"), ("assets/handbook.css", "text/css"),
    ("assets/lpv.*.json", "application/json"), ("assets/icon.svg", "image/svg+xml"),
    ("assets/icon-192.png", "image/png"), ("sitemap.xml", "application/xml"), ("build-record.json", "application/json"),
])
def test_file_types(port, site, pattern, kind):
    status, headers, _ = get(port, first(site, pattern))
    assert status == 200
    assert headers["content-type"].partition(";")[0] == kind


def test_no_file_type_guessed(port, site):
    for suffix in sorted({path.suffix for path in site.rglob("*") if path.is_file()} - {".gz"}):
        _, headers, _ = get(port, first(site, f"**/*{suffix}"))
        assert headers["content-type"] not in ("text/plain", "application/octet-stream"), suffix


@pytest.mark.parametrize(("pattern", "query", "kept"), [
    ("index.html", "", ANEW), ("sw.js", "", ANEW), ("search/search_index.json", "", ANEW),
    ("manifest.webmanifest", "", ANEW), ("assets/handbook.css", "", ANEW), ("offline/handbook.json", "", ANEW),
    ("assets/handbook.css", "?v=0123abcd", FOREVER), ("assets/stylesheets/main.*.min.css", "", FOREVER),
    ("assets/javascripts/bundle.*.min.js", "", FOREVER), ("assets/micropython/*.wasm", "", FOREVER),
    ("assets/lpv.set-up.*.json", "", FOREVER), ("approaches/*/set-up.json", "?v=0123abcd", FOREVER),
    ("approaches/*/set-up.json", "", ANEW), ("assets/set-up.json", "", ANEW),
])
def test_cache_lifetimes(port, site, pattern, query, kept):
    _, headers, _ = get(port, first(site, pattern) + query)
    assert headers["cache-control"] == kept


def test_unchanged_revalidation_is_free(port):
    _, headers, _ = get(port, PAGE)
    status, _, body = get(port, PAGE, **{"If-None-Match": headers["etag"]})
    assert (status, body) == (304, b"")


@pytest.mark.parametrize(("status", "address"), [
    (404, "/assets/javascripts/bundle.0123abcd.min.js"), (404, "/assets/none.css?v=0123abcd"),
    (404, "/assets/micropython/micropython.0123abcd.wasm"), (404, "/approaches/none/set-up.json?v=0123abcd"),
    (403, "/assets/stylesheets/?v=0123abcd"), (200, f"{PAGE}?v=1"), (200, f"{PAGE}?v=0123abcd"),
])
def test_failures_and_unnamed_files_revalidated(port, status, address):
    answered, headers, _ = get(port, address)
    assert (answered, headers["cache-control"]) == (status, ANEW)
    for name, value in hosting.headers().items():
        assert headers[name.lower()] == value


def test_redirect_names_no_host_and_is_revalidated(port):
    status, headers, _ = get(port, PAGE.rstrip("/"))
    assert (status, headers["location"], headers["cache-control"]) == (301, PAGE, ANEW)


@pytest.mark.parametrize("pattern", [
    "index.html", "assets/handbook.css", "search/search_index.json", "assets/micropython/*.wasm", "sw.js",
])
def test_compressible_files_compressed(port, site, pattern):
    address = first(site, pattern)
    _, headers, body = get(port, address, **{"Accept-Encoding": "gzip"})
    assert headers["content-encoding"] == "gzip"
    assert gzip.decompress(body) == (site / address.strip("/")).read_bytes()
    assert len(body) < (site / address.strip("/")).stat().st_size * 0.6


def edition(folder, words, day):
    """A small site whose files are of its day; nginx tells files of one length apart by their dates."""
    for path in build(folder, words, day).rglob("*"):
        os.utime(path, (seconds(day), seconds(day)))
    return folder


@pytest.mark.browser
def test_browser_accepts_everything_and_takes_new_edition(browser, port, tmp_path):
    first_edition, second = (edition(tmp_path / name, f"edition {name}", day) for name, day in (("A", 1), ("B", 2)))
    served = tmp_path / "current"
    served.symlink_to(first_edition)
    (tmp_path / "conf").mkdir()
    with running(tmp_path / "conf", served) as editions:
        page = browser.new_page()
        refused = []
        page.on("console", lambda message: refused.append(message.text) if message.type == "error" else None)
        for address in ("", "verify/identity/", "approaches/", "final/rate/", "reference/offline/"):
            page.goto(f"http://localhost:{port}/{address}", wait_until="networkidle")
        assert not refused, "the headers and the pages' own policy refuse something"

        page.goto(f"http://localhost:{editions}/", wait_until="networkidle")
        assert page.locator("#words").inner_text() == "This is edition A."
        page.evaluate("navigator.serviceWorker.ready.then(() => true)")
        (tmp_path / "next").symlink_to(second)
        (tmp_path / "next").replace(served)
        page.reload(wait_until="networkidle")
        assert page.locator("#words").inner_text() == "This is edition B."
        asked = page.evaluate("fetch('sw.js', {cache: 'no-store'}).then((answer) => answer.text())")
        assert asked == (second / "sw.js").read_text("utf-8")
        page.close()
