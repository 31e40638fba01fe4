"""What the reader's browser computes with: the Python that it runs, and the files of `lpv` it runs.

The files are served without their comments, all that a form needs in one, so that a phone asks once and never mixes two
editions of them.  The names hold part of the content's hash: what was fetched once is kept, and works without network.
"""

import ast
import hashlib
import json
import re
from functools import cache, partial
from importlib import import_module
from pathlib import Path

from lpv_site.build import reach, store
from lpv_site.build.definitions import modules as all_modules
from lpv_site.build.digests import NAME_DIGITS
from lpv_site.department.data import hash_of
from lpv_site.department.department import fact_rows, facts_module
from lpv_site.forms.lean import lean
from lpv_site.forms.plain import plain
from lpv_site.forms.plain_modules import plain_modules

SNIPPETS = Path(__file__).resolve().parents[2]
RUNTIME = SNIPPETS.parent / "docs" / "assets" / "micropython"
# Kind of form -> the module that its page calls; a module imports the others that it needs.
ENTRIES = {
    "calculators": "lpv.calculators.run", "figures": "lpv.figures.run",
    "set-up": "lpv.setup.form", "recording": "lpv.track.form",
}
SAID_ANEW = {"approach": "lpv.compose.form"}  # whose modules were not written for a phone: see `plain_modules`
FORMS = (*ENTRIES, *SAID_ANEW)
OWN_FACTS = "lpv.facts.own"  # empty in the repository: a department's own figures act on the phone too
ALLOWED = {"hashlib", "json", "math"}
CODE = re.compile(r'(?<= )data-code="assets/lpv\.([a-z-]+)\.json"')


@cache
def modules(form: str) -> dict[str, str]:
    """Every file that a kind of form runs, by address below snippets/: its entry and all that this imports.

    Raises ValueError for a module that imports anything but ALLOWED and its siblings.
    """
    texts: dict[str, str] = {}
    waiting = [ENTRIES[form], *named_modules(form)]
    while waiting:
        name = waiting.pop()
        path = source(name)
        address = path.relative_to(SNIPPETS).as_posix()
        if address not in texts:
            has_own_facts = name == OWN_FACTS and fact_rows()
            texts[address] = facts_module() if has_own_facts else path.read_text("utf-8")
            waiting += [*imported(name), *([name.rpartition(".")[0]] if "." in name else [])]
    return dict(sorted(texts.items()))


@cache
def modules_anew(form: str) -> dict[str, str]:
    """The same of a form whose modules are said anew for the phone."""
    texts = plain_modules(SAID_ANEW[form])
    if fact_rows():
        texts["/".join(OWN_FACTS.split(".")) + ".py"] = plain(facts_module())
    return texts


def named_modules(form: str) -> list[str]:
    """The modules that declare calculators or figures: imported by name only once a page asks."""
    if form not in ("calculators", "figures"):
        return []
    room = ENTRIES[form].rpartition(".")[0]
    return [f"{room}.{name}" for name, _ in import_module(room).TASKS]


def source(name: str) -> Path:
    """The file of a module of `lpv`."""
    path = SNIPPETS.joinpath(*name.split("."))
    return path / "__init__.py" if path.is_dir() else path.with_suffix(".py")


@cache
def imported(name: str) -> list[str]:
    """The siblings that a module imports at its top; ValueError if it imports anything else than ALLOWED."""
    names: list[str] = []
    for node in ast.parse(source(name).read_text("utf-8")).body:
        if isinstance(node, ast.Import):
            names += [alias.name for alias in node.names]
        elif isinstance(node, ast.ImportFrom):
            within = [f"{node.module}.{alias.name}" for alias in node.names]
            names.append(str(node.module))
            names += [full for full in within if full.startswith("lpv.") and source(full).is_file()]
    foreign = [module for module in names if module.partition(".")[0] != "lpv" and module not in ALLOWED]
    if foreign:
        raise ValueError(f"{name} runs on the phone, which has no {', '.join(foreign)}")
    return [module for module in names if module not in ALLOWED]


@cache
def code(form: str) -> tuple[str, str]:
    """(address, content) of the one file that holds the modules of a kind of form: a JSON object, address to text."""
    kept = store.kept(key(form), partial(make, form))
    return kept["address"], kept["text"]


@cache
def key(form: str) -> str:
    """Under which the file of a form is kept: every module that it may reach, and how it is made."""
    files = hash_of(sorted(files_of(form)), SNIPPETS)  # each is sent whole
    return store.key_of(f"{reach.version(frozenset([__name__]))} {files}", "phone", form)


def files_of(form: str) -> set[Path]:
    """The files of snippets/ that a form may run."""
    entries = [SAID_ANEW.get(form) or ENTRIES[form], *named_modules(form)]
    names = reach.imported([*entries, *(name for name in all_modules() if name.startswith("phone"))])
    return {all_modules()[name] for name in names}


def make(form: str) -> dict[str, str]:
    """The address and the text of the file of a form, made anew."""
    texts = modules_anew(form) if form in SAID_ANEW else modules(form)
    files = {name: lean(content) if name.endswith(".py") else content for name, content in texts.items()}
    text = json.dumps(files, ensure_ascii=False, separators=(",", ":"))
    name = hashlib.sha256(text.encode()).hexdigest()[:NAME_DIGITS]
    return {"address": f"assets/lpv.{form}.{name}.json", "text": text}


def runtime(suffix: str) -> str:
    """Address of the runtime's file with this suffix, "js" or "wasm"."""
    files = sorted(RUNTIME.glob(f"micropython.*.{suffix}"))
    if len(files) != 1:
        raise FileNotFoundError(f"docs/assets/micropython: {len(files)} files *.{suffix}; there must be one")
    return f"assets/micropython/{files[0].name}"


def attributes(form: str) -> str:
    """Attributes that tell a form where to find all of it, addresses from the site's root."""
    return f'data-runtime="{runtime("js")}" data-wasm="{runtime("wasm")}" data-code="assets/lpv.{form}.json"'


def with_code_names(html: str) -> str:
    """A finished page whose forms name what they run by its content: a page need not be made again for it."""
    return CODE.sub(lambda match: f'data-code="{code(match[1])[0]}"', html)
