"""Parts of a build: together they are the whole, byte for byte, and each file belongs to one part."""

import os
import shutil
import subprocess
import sys
from argparse import ArgumentTypeError

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from generate_approaches import write_approaches
from lpv_site.briefing import briefings
from lpv_site.build import shards
from lpv_site.build.build import part
from lpv_site.build.shards import files_of, make_part
from lpv_site.department import files as department_files
from support import copy_of_project

OF = 3


@pytest.fixture(scope="module")
def docs(tmp_path_factory):
    """Twelve approaches."""
    folder = tmp_path_factory.mktemp("docs")
    (folder / "approaches").mkdir()
    write_approaches(folder / "approaches", 12, seed=4)
    return folder


def content(folder):
    return {path.relative_to(folder).as_posix(): path.read_bytes() for path in folder.rglob("*") if path.is_file()}


def test_parts_keep_together_what_the_whole_keeps(docs, tmp_path):
    assert [make_part(number, OF, docs, tmp_path / "parts") for number in (1, 2, 3)] == [4, 4, 4]
    assert make_part(1, 1, docs, tmp_path / "whole") == 12
    assert content(tmp_path / "parts") == content(tmp_path / "whole")
    assert len([name for name in content(tmp_path / "whole") if not name.endswith(briefings.PARTS)]) == 12


def test_a_build_finds_the_parts_and_makes_nothing_again(docs, tmp_path, monkeypatch):
    for number in (1, 2, 3):
        make_part(number, OF, docs, tmp_path / "parts")
    monkeypatch.setattr(briefings, "make", lambda path, *more: pytest.fail(f"{path} was made again"))
    assert len(briefings.briefings(docs / "approaches", tmp_path / "parts")) == 12


@settings(max_examples=30)
@given(st.integers(1, 40), st.integers(0, 60))
def test_every_file_belongs_to_one_part(tmp_path_factory, of, count):
    folder = tmp_path_factory.mktemp("parts")
    (folder / "approaches").mkdir()
    for number in range(count):
        (folder / "approaches" / f"{number:02}.toml").touch()
    parts = [files_of(number, of, folder) for number in range(1, of + 1)]
    assert sorted(path for one in parts for path in one) == sorted((folder / "approaches").glob("*.toml"))
    assert max(map(len, parts)) - min(map(len, parts)) <= 1


@pytest.mark.parametrize("text", ["1/1", "2/3", "12/12"])
def test_parts_that_are_taken(text):
    assert "/".join(map(str, part(text))) == text


@pytest.mark.parametrize("text", ["0/3", "4/3", "1", "1/0", "a/b", "-1/3", "1/3/5", ""])
def test_parts_that_are_refused(text):
    with pytest.raises(ArgumentTypeError, match="such as 1/3"):
        part(text)


def run(project, store, *arguments):
    done = subprocess.run(
        [sys.executable, "-m", "lpv_site.build", *arguments], cwd=project, capture_output=True, text=True,
        env={
            **os.environ, "PYTHONPATH": str(project / "snippets"), "SOURCE_DATE_EPOCH": "0",
            "HANDBOOK_STORE": str(store),
        },
    )
    assert done.returncode == 0, done.stdout + done.stderr
    return done.stdout


@pytest.fixture(scope="module")
def whole(tmp_path_factory):
    """A project with an address of its own and twelve more approaches, what its build kept, and its site."""
    folder = tmp_path_factory.mktemp("whole")
    project = copy_of_project(folder / "project")
    shutil.rmtree(project / "docs" / "approaches" / "previous")
    write_approaches(project / "docs" / "approaches", 12, seed=4)
    with (project / "mkdocs.yml").open("a", encoding="utf-8") as config:
        config.write("\nsite_url: https://handbook.example/crew\n")
    run(project, folder / "store", "--site-dir", str(folder / "site"))
    return project, folder / "store", folder / "site"


def test_a_site_put_together_from_parts_is_the_site_built_whole(whole, tmp_path):
    project, store, site = whole
    for number in range(1, OF + 1):
        said = run(project, tmp_path / f"part-{number}", "--shard", f"{number}/{OF}")
        assert f"part {number} of {OF}: " in said
        shutil.copytree(tmp_path / f"part-{number}", tmp_path / "together", dirs_exist_ok=True)
    assert content(tmp_path / "together" / "briefings") == content(store / "briefings")
    shutil.copytree(store, tmp_path / "together", ignore=shutil.ignore_patterns("briefings"), dirs_exist_ok=True)
    run(project, tmp_path / "together", "--site-dir", str(tmp_path / "site"))
    assert content(tmp_path / "site") == content(site)


def test_briefings_are_what_mkdocs_and_the_theme_would_make_of_their_markdown(whole, tmp_path):
    project, store, site = whole
    shutil.copytree(project, tmp_path / "project")
    snippets, config = tmp_path / "project" / "snippets", tmp_path / "project" / "mkdocs.yml"
    text = (snippets / "hooks.py").read_text("utf-8")
    for shortcut in ("MadePage(file, config, made)", 'make_ahead(docs, config.site_url or "")'):
        assert text.count(f" {shortcut}\n") == 1
        text = text.replace(f" {shortcut}\n", " assert True\n")
    (snippets / "plain_hooks.py").write_text(text, "utf-8")  # another file: what is kept is of the code as it was
    named = config.read_text("utf-8")
    assert named.count("snippets/hooks.py") == 1
    config.write_text(named.replace("snippets/hooks.py", "snippets/plain_hooks.py"), "utf-8")
    shutil.copytree(store, tmp_path / "store", ignore=shutil.ignore_patterns("briefings"))
    run(tmp_path / "project", tmp_path / "store", "--site-dir", str(tmp_path / "site"))
    written = content(tmp_path / "site")
    assert written == content(site)
    assert content(tmp_path / "store" / "briefings") == content(store / "briefings")
    page = written["approaches/zz-scale-00003/index.html"].decode()
    assert '<link rel="canonical" href="https://handbook.example/crew/approaches/zz-scale-00003/">' in page
    assert 'aria-label="Code for: https://handbook.example/crew/approaches/zz-scale-00003/#card"' in page
    assert "zz-scale-00003" in written["search/search_index.json"].decode()


def test_faults_of_a_part_stop_it(docs, tmp_path, capsys, monkeypatch):
    shutil.copytree(docs, tmp_path / "docs")
    (tmp_path / "docs" / "approaches" / "zz-zz-faulty.toml").write_text("x = 1", "utf-8")
    monkeypatch.setattr(department_files, "put_together", lambda: tmp_path / "docs")
    assert shards.main(["13/13"]) == 1
    assert "zz-zz-faulty.toml: identity" in capsys.readouterr().err
    assert shards.main(["1/13"]) == 0
    assert capsys.readouterr().out == "part 1 of 13: 1 briefings\n"
