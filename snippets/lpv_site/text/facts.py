"""A fact in prose: its value as a link to the list of facts, with its status where nobody published it."""

from lpv.core.text import fact_text
from lpv.facts import FACTS
from lpv_site.department.department import overridden
from lpv_site.text.links import relative
from lpv_site.text.text import escape, fact_id

PAGE = "reference/facts.md"


def in_prose(page: str, key: str) -> str:
    """Markdown of a fact on a page; KeyError if there is none of that key."""
    if key not in FACTS:
        raise KeyError(f"no fact {key!r} in the registry")
    fact = FACTS[key]
    text = f"[{fact_text(fact)}]({relative(f'{PAGE}#{fact_id(key)}', page)})"
    remarks = [fact.status] if not fact.status.startswith("published") else []
    remarks += [escape(whose)] if (whose := overridden(fact)) else []
    return f"{text} ({', '.join(remarks)})" if remarks else text
