"""Ghosts: an option is drawn before it is fitted, and small drawings show one place."""

from __future__ import annotations

from baywright.desk.bench.bench import Bench
from baywright.desk.bench.ghosts import look
from baywright.desk.bench.picture import picture_of, small_picture
from baywright.desk.bench.standing import stand
from baywright.desk.bench.steps import read_step, read_steps
from baywright.drawing.reading import shown


def test_a_ghost_shows_its_place_and_leaves_the_others(bench: Bench) -> None:
    standing = stand(bench, read_steps(bench.machine, ("A:S8", "O2:net-25", "P2:cpu-16")))
    found = look(bench, standing, read_step(bench.machine, "O2:;C:N8h"))
    assert found is not None
    plain = shown(picture_of(bench, standing, "front", 1000.0, "C"))
    svg = picture_of(bench, standing, "front", 1000.0, "C", ghost=found.ghost)
    ghosted = shown(svg)
    assert {name for name in plain if plain[name] != ghosted.get(name)} == {"C"}
    assert 'class="ghost"' in svg
    assert "shown: cage for eight fast drives" in svg
    assert (bench.count(found.standing.chosen) or 0) < (bench.count(without_o2(bench)) or 0)


def without_o2(bench: Bench) -> dict[str, int]:
    steps = read_steps(bench.machine, ("A:S8", "P2:cpu-16"))
    return dict(stand(bench, steps).chosen)


def test_an_option_that_does_not_fit_has_no_ghost(bench: Bench) -> None:
    standing = stand(bench, read_steps(bench.machine, ("O2:net-25",)))
    assert look(bench, standing, read_step(bench.machine, "C:N8h")) is None


def test_small_drawings_of_a_zone_show_what_goes_in(bench: Bench) -> None:
    labels = [option.label for option in bench.machine.frame.options("A drives")]
    svg = small_picture(bench, "A drives", labels.index("3 x sas-2400"))
    assert svg is not None
    parts = [part for each in shown(svg).values() for part in each.parts]
    assert parts == ["S8", "sas-2400", "sas-2400", "sas-2400"]
    sizes = {
        _size(small_picture(bench, "A", value) or "")
        for value in range(len(bench.machine.frame.options("A")))
    }
    assert len(sizes) == 1


def _size(svg: str) -> str:
    return svg[svg.index("viewBox") : svg.index("role")]


def test_what_looks_the_same_has_no_small_drawing(bench: Bench) -> None:
    assert small_picture(bench, "P1", 0) is None
    assert small_picture(bench, "A controller", 0) is None
    assert small_picture(bench, "variant", 0) is None
