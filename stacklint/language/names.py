"""Looks up the names that a plan uses: woods, places, sites, kilns, labels of boards."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from stacklint.faults import Fault, FaultKind
from stacklint.language.line import Log
from stacklint.language.nearest import listed, nearest
from stacklint.plan.node import Name
from stacklint.plan.stack import Stack
from stacklint.plan.yard import Kiln, Plan, Site, WoodStatement


def unknown(kind: str, name: str, known: Iterable[str]) -> tuple[str, str]:
    """The message for a name that nothing bears, and the nearest ones that something does."""
    names = list(dict.fromkeys(known))
    close = nearest(name, {other.lower(): other for other in names}, 3)
    spelled = {other.lower(): other for other in names}
    ways = [spelled[word] for word in close] or names[:5]
    instead = f"Write {listed(repr_name(way) for way in ways)}." if ways else f"Write the {kind} as a block of its own."
    return f"There is no {kind} {repr_name(name)}.", instead


def repr_name(name: str) -> str:
    return f'"{name}"'


class Lookup:
    """The names that a plan may use, and the look-ups that were made already."""

    def __init__(
        self, sites: tuple[Site, ...], kilns: tuple[Kiln, ...], woods: tuple[WoodStatement, ...], log: Log
    ) -> None:
        self.sites = {site.name.text.casefold(): site.name.text for site in sites}
        self.kilns = {kiln.name.text.casefold(): kiln.name.text for kiln in kilns}
        self.woods = {folded(wood.name.text) for wood in woods}
        self.log = log
        self._known: dict[str, bool] = {}

    def check_yard(self, plan: Plan) -> Plan:
        """Reports the unknown names in the blocks of one text; ``faulty`` then names the statements."""
        sites = tuple(self._site(site) for site in plan.sites)
        woods = tuple(self._wood_block(wood) for wood in plan.woods)
        stacks = tuple(self._stack(stack) for stack in plan.stacks)
        return plan.model_copy(update={"sites": sites, "woods": woods, "stacks": stacks})

    def _site(self, site: Site) -> Site:
        if site.near is None:
            return site
        from stacklint.tables import places

        if self.log.full or places.find(site.near.text) is not None:
            return site
        close = places.nearest(site.near.text)
        instead = "Write month statements with the mean temperature and humidity of each month"
        instead += f", or near {listed(repr_name(place) for place in close)}." if close else "."
        message = f"{repr_name(site.near.text)} is not in the table of climates."
        self.log.add(Fault(FaultKind.UNKNOWN_PLACE, site.near.where, message, instead))
        return site.model_copy(update={"faulty": site.faulty | {"near"}})

    def _wood_block(self, wood: WoodStatement) -> WoodStatement:
        if wood.like is None or self._knows(wood.like, None):
            return wood
        return wood.model_copy(update={"faulty": wood.faulty | {"like"}})

    def _stack(self, stack: Stack) -> Stack:
        faulty = set(self._unknown_in(stack))
        if faulty <= stack.faulty:
            return stack
        return stack.model_copy(update={"faulty": stack.faulty | faulty})

    def _unknown_in(self, stack: Stack) -> Iterator[str]:
        """The keywords of the statements of a stack that use a name that is not known."""
        name = stack.name.text
        for boards in stack.boards:
            if not self._knows(boards.wood, name):
                yield "boards"
        # Stickers and bearers of an unknown wood still stand where they are said to.
        for part in (stack.stickers, stack.bearers):
            if part is not None and part.wood is not None:
                self._knows(part.wood, name)
        if stack.place is not None and stack.place.site is not None:
            site = stack.place.site
            if site.text.casefold() not in self.sites:
                self._fault(FaultKind.UNKNOWN_PLACE, site, "site", sorted(self.sites.values()), name)
                yield "place"
        if stack.kiln is not None and stack.kiln.text.casefold() not in self.kilns:
            self._fault(FaultKind.UNKNOWN_KILN, stack.kiln, "kiln", sorted(self.kilns.values()), name)
            yield "kiln"

    def _fault(self, kind: FaultKind, name: Name, what: str, known: Iterable[str], stack: str | None) -> None:
        if not self.log.full:
            self.log.add(Fault(kind, name.where, *unknown(what, name.text, known), stack))

    def _knows(self, wood: Name, stack: str | None) -> bool:
        from stacklint.tables import woods

        key = folded(wood.text)
        known = self._known.get(key)
        if known is None:
            known = key in self.woods or woods.find(wood.text) is not None
            self._known[key] = known
        if not known and not self.log.full:
            close = woods.nearest(wood.text, 3)
            instead = f"Write {listed(close)}, or describe it in a wood block." if close else "Describe it in a block."
            message = f"{wood.text[:60]} is not a wood that the table knows."
            self.log.add(Fault(FaultKind.UNKNOWN_SPECIES, wood.where, message, instead, stack))
        return known


def folded(name: str) -> str:
    """A wood's name as it is compared: letter case and hyphens apart."""
    return " ".join(name.lower().replace("-", " ").split())


def check_labels(stack: Stack, log: Log) -> Stack:
    """Reports labels that two groups bear, and courses, readings and sizes wanted of groups that there are not."""
    faulty: set[str] = set()
    labels: dict[str, Name] = {}
    for boards in stack.boards:
        label = boards.label
        if label.text in labels and boards.where.path == stack.where.path:
            message = f"Two groups of boards are called {label.text}."
            log.add(Fault(FaultKind.PLAN_TEXT, label.where, message, "Give each its own label.", stack.name.text))
            faulty.add("boards")
        labels.setdefault(label.text, label)
    if "boards" in stack.faulty or "from pile" in stack.faulty:
        return _marked(stack, faulty)  # the label may be that of a statement that could not be read
    used = [("course", label) for course in stack.courses for row in course.rows for label in row.labels]
    used += [("wanted", wish.label) for wish in stack.wanted if wish.label is not None]
    used += [("reading", reading.label) for reading in stack.readings if reading.label is not None]
    missed: set[str] = set()
    for keyword, label in used:
        if label.text not in labels and label.text not in missed:
            missed.add(label.text)
            close = nearest(label.text, labels) or tuple(labels)
            instead = f"Write {listed(close)}." if labels else "Write a boards statement for it."
            message = f"No boards statement has the label {label.text}."
            log.add(Fault(FaultKind.PLAN_TEXT, label.where, message, instead, stack.name.text))
            faulty.add(keyword)
    return _marked(stack, faulty)


def _marked(stack: Stack, faulty: set[str]) -> Stack:
    return stack.model_copy(update={"faulty": stack.faulty | faulty}) if faulty else stack


def check_twice(kind: str, names: Iterable[Name], log: Log) -> None:
    """Reports the second of two blocks of one name."""
    seen: set[str] = set()
    for name in names:
        if name.text.casefold() in seen:
            message = f"Two {kind}s are called {repr_name(name.text)}."
            log.add(Fault(FaultKind.NAME_USED_TWICE, name.where, message, "Give each its own name."))
        seen.add(name.text.casefold())
