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
from render import briefings, department_files, shards
from render.build import part
from render.shards import files_of, make_part
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
    assert len(content(tmp_path / "whole")) == 12


def test_a_build_finds_the_parts_and_makes_nothing_again(docs, tmp_path, monkeypatch):
    for number in (1, 2, 3):
        make_part(number, OF, docs, tmp_path / "parts")
    monkeypatch.setattr(briefings, "make", lambda path: pytest.fail(f"{path} was made again"))
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
        [sys.executable, "-m", "render.build", *arguments], cwd=project, capture_output=True, text=True,
        env={
            **os.environ, "PYTHONPATH": str(project / "snippets"), "SOURCE_DATE_EPOCH": "0",
            "HANDBOOK_STORE": str(store),
        },
    )
    assert done.returncode == 0, done.stdout + done.stderr
    return done.stdout


def test_a_site_put_together_from_parts_is_the_site_built_whole(tmp_path):
    project = copy_of_project(tmp_path / "project")
    shutil.rmtree(project / "docs" / "approaches" / "previous")
    write_approaches(project / "docs" / "approaches", 12, seed=4)
    run(project, tmp_path / "whole", "--site-dir", str(tmp_path / "site-whole"))
    for number in range(1, OF + 1):
        said = run(project, tmp_path / f"part-{number}", "--shard", f"{number}/{OF}")
        assert f"part {number} of {OF}: " in said
        shutil.copytree(tmp_path / f"part-{number}", tmp_path / "together", dirs_exist_ok=True)
    kept = content(tmp_path / "together" / "briefings")
    assert kept == content(tmp_path / "whole" / "briefings")
    run(project, tmp_path / "together", "--site-dir", str(tmp_path / "site-together"))
    assert content(tmp_path / "site-together") == content(tmp_path / "site-whole")


def test_faults_of_a_part_stop_it(docs, tmp_path, capsys, monkeypatch):
    shutil.copytree(docs, tmp_path / "docs")
    (tmp_path / "docs" / "approaches" / "zz-zz-faulty.toml").write_text("x = 1", "utf-8")
    monkeypatch.setattr(department_files, "put_together", lambda: tmp_path / "docs")
    assert shards.main(["13/13"]) == 1
    assert "zz-zz-faulty.toml: identity" in capsys.readouterr().err
    assert shards.main(["1/13"]) == 0
    assert capsys.readouterr().out == "part 1 of 13: 1 briefings\n"
