"""The template around briefings: what it gives is what the theme gives for each page by itself."""

from types import SimpleNamespace

import pytest
from jinja2 import DictLoader, Environment
from mkdocs.structure.toc import get_toc

from lpv_site.build import shell

BASE = """{{ base_url }}|{{ page.meta.title }}|{{ page.meta.title | forceescape }}|{{ page.meta.description }}|
{% for item in page.toc %}{{ item.id }}{% for part in item.children %}<a href="{{ part.url }}">{{ part.title }}</a>
{% endfor %}{% endfor %}{% if page.canonical_url %}{{ page.canonical_url }}{% endif %}{{ page.content }}"""


def page(name, title, *headings, address=None, **more):
    children = [{"level": 2, "id": name, "name": name.title(), "children": []} for name in headings]
    return SimpleNamespace(
        url=f"approaches/{name}/", title=title, meta={"title": title, "description": f"About {title}", **more},
        content=f"<h1>{title}</h1><p>{name}</p>", canonical_url=address,
        toc=get_toc([{"level": 1, "id": "top", "name": title, "children": children}]),
    )


def environment(text=BASE):
    return Environment(loader=DictLoader({"main.html": text}))


def render(env, one, listed=()):
    nav = SimpleNamespace(pages=list(listed))
    return env.get_template("main.html").render({"page": one, "nav": nav, "base_url": "../.."})


PAGES = [
    page("zz-one", "RNAV (GPS) RWY 09, ZZAK", "fixes", "minima"),
    page("zz-two", "A & B <i>\"x\"</i> <hb title>", "fixes", "minima"),
    page("zz-three", "RNAV", "fixes"),
    page("zz-four", "RNAV", "fixes", address="https://handbook.example/approaches/zz-four/"),
    page("zz-five", "With more", "fixes", hide=["toc"]),
]


def test_every_page_is_what_the_template_alone_makes_of_it():
    plain, shared = environment(), environment()
    shell.shared(shared, lambda one: True)
    for one in [*PAGES, *PAGES]:
        assert render(shared, one) == render(plain, one)


def test_the_template_runs_once_for_pages_with_one_table_of_contents():
    calls = []
    env = environment("{{ count(page.meta.title) }}" + BASE)
    env.globals["count"] = lambda title: calls.append(title) or ""
    shell.shared(env, lambda one: True)
    for one in PAGES[:2] * 3:
        render(env, one)
    assert len(calls) == 1
    render(env, PAGES[2])
    assert len(calls) == 2


def test_other_pages_and_pages_of_the_list_are_left_to_the_theme():
    calls = []
    env = environment("{{ count(page.meta.title) }}")
    env.globals["count"] = lambda title: calls.append(title) or ""
    shell.shared(env, lambda one: one is PAGES[0])
    render(env, PAGES[1])
    render(env, PAGES[0], listed=[PAGES[0]])
    assert calls == [PAGES[1].meta["title"], PAGES[0].meta["title"]]


@pytest.mark.parametrize("more", ["{{ page.url }}", "{{ (page.toc | first).title }}"])
def test_a_theme_that_writes_more_of_a_page_stops_the_build(more):
    env = environment(BASE + more)
    shell.shared(env, lambda one: True)
    with pytest.raises(ValueError, match="zz-one/: the theme writes something of a page"):
        render(env, PAGES[0])
