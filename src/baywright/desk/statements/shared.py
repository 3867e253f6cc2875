"""What the statements of one book share: the book at each site, builds, the compiled diagram."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from functools import cached_property
from pathlib import Path

from baywright.desk.fact_table import FactRow, fact_rows
from baywright.desk.judging import setting_of
from baywright.desk.opening import Opened, open_book
from baywright.desk.parts_list import PartsList, list_of
from baywright.desk.size.sized import case_of
from baywright.desk.statements.narrowing import Narrower
from baywright.desk.statements.query import Query
from baywright.desk.statements.shelf import Shelf
from baywright.engines.diagram.engine import Diagram
from baywright.facts.book import facts_of
from baywright.facts.build import Build
from baywright.facts.citation import Citation
from baywright.facts.fact import Fact
from baywright.facts.site import Site
from baywright.files.books import beside, read_build, site_from
from baywright.files.values import values_of
from baywright.problems import problem, suggestion
from baywright.sizing.case import Case
from baywright.sizing.figure import Listing, Sheet
from baywright.sizing.subject import Subject

BUILDS = "builds"
"""The folder of a book with its build files."""


@dataclass
class Shared:
    """An open book with what is kept from one statement to the next.

    Args:
        opened: the book, with day and site.
    """

    opened: Opened
    diagram: Diagram = field(default_factory=Diagram)
    narrower: Narrower = field(default_factory=Narrower)
    shelf: Shelf = field(default_factory=Shelf)
    _others: dict[str, Shared] = field(default_factory=dict)
    _places: dict[tuple[str, str, str], Opened] = field(default_factory=dict)
    _cases: dict[tuple[str, str, str], Case] = field(default_factory=dict)
    _sheets: dict[tuple[str, str, str, str], Sheet] = field(default_factory=dict)
    _lists: dict[tuple[str, str, str], PartsList] = field(default_factory=dict)
    _listings: dict[tuple[str, str, str, str], tuple[Listing, ...]] = field(default_factory=dict)

    def of(self, query: Query) -> Shared:
        """Return what statements share about the book that a query is about.

        Raises:
            Problems: when there is no such book, or something is wrong with it.
        """
        name = query.book
        if name in ("", self.opened.book.book.id):
            return self
        if name not in self._others:
            folder = beside(self.opened.folder, name)
            held = self.opened.setting
            self._others[name] = Shared(open_book(folder, held, self.opened.panel))
        return self._others[name]

    def at(self, query: Query) -> Opened:
        """Return the book opened for the day and the site of a query.

        Raises:
            Problems: for a day or a site that makes no sense.
        """
        if not (query.site or query.as_of or query.build):
            return self.opened
        key = (query.build, query.site, query.as_of)
        if key not in self._places:
            held = self.opened.setting
            asked = replace(held, as_of=query.day or held.as_of)
            setting = setting_of(self.build(query), asked) if query.build else asked
            site = site_from(query.site_texts) if query.site else Site()
            if site.altitude is not None:
                setting = replace(setting, altitude=site.altitude.known)
            if site.inlet is not None:
                setting = replace(setting, inlet=site.inlet.known)
            self._places[key] = self.opened.at(setting)
        return self._places[key]

    def build(self, query: Query) -> Build:
        """Return the build of a query at its site.

        Raises:
            Problems: kind ``no-build``, and what is wrong with the build or the site.
        """
        build = self._written(query.build)
        if not query.site:
            return build
        said = site_from(query.site_texts)
        own = {name: getattr(said, name) for name in said.model_fields_set}
        return build.model_copy(update={"site": build.site.model_copy(update=own)})

    def _written(self, name: str) -> Build:
        model = self.opened.book.models.get(name)
        if model is not None:
            about = self.opened.book.book.id
            title = Fact(str(model.name), str(model.name))
            return Build(book=about, name=title, places=model.places, settings=model.settings)
        files = self.build_files
        if name.endswith(".yaml") and Path(name).is_file():
            return read_build(Path(name))
        if name not in files:
            known = (*self.opened.book.models, *files)
            hint = suggestion(name, known)
            raise problem("no-build", f"The book has no build {name!r}.", None, hint)
        return read_build(files[name])

    @cached_property
    def build_files(self) -> Mapping[str, Path]:
        """The build files of the book, by name."""
        folder = self.opened.folder / BUILDS
        return {path.stem: path for path in sorted(folder.glob("*.yaml"))}

    def parts(self, query: Query) -> PartsList:
        """Return the parts list of the build of a query."""
        key = (query.build, query.site, query.as_of)
        if key not in self._lists:
            self._lists[key] = list_of(self.at(query), self.build(query))
        return self._lists[key]

    def case(self, query: Query) -> Case:
        """Return the build of a query as sizing reads it."""
        key = (query.build, query.site, query.as_of)
        if key not in self._cases:
            self._cases[key] = case_of(self.at(query).machine, self.build(query))
        return self._cases[key]

    def sheet(self, query: Query, subject: Subject) -> Sheet:
        """Return the figures and limits of one subject for the build of a query."""
        key = (query.build, query.site, query.as_of, subject.name)
        if key not in self._sheets:
            self._sheets[key] = subject.sheet(self.case(query))
        return self._sheets[key]

    def listings(self, query: Query, subject: Subject) -> tuple[Listing, ...]:
        """Return the tables of one subject for the build of a query."""
        key = (query.build, query.site, query.as_of, subject.name)
        if key not in self._listings:
            self._listings[key] = tuple(subject.listings(self.case(query)))
        return self._listings[key]

    @cached_property
    def facts(self) -> Mapping[str, FactRow]:
        """The facts of the book by path."""
        return {row.path: row for row in fact_rows(self.opened)}

    @cached_property
    def citations(self) -> Mapping[str, Citation]:
        """The facts of the book as they are quoted, by path."""
        book = self.opened.book
        return {fact.path: book.cite(fact)[0] for fact in facts_of(book)}

    @cached_property
    def written(self) -> Mapping[str, list[str]]:
        """The facts as their files have them, by path; read past the models of the book."""
        return values_of(self.opened.folder)
