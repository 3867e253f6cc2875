"""Filling templates that people write: in a sandbox, with nothing but what they are given."""

from __future__ import annotations

from collections.abc import Mapping

from jinja2 import StrictUndefined, TemplateError, TemplateSyntaxError
from jinja2.sandbox import SandboxedEnvironment

from baywright.problems import Mark, problem


def fill(text: str, file: str, names: Mapping[str, object], hint: str) -> str:
    """Return a template in Markdown with its names filled in.

    Args:
        text: the template.
        file: its name in problems.
        names: what it may name.
        hint: what to do when it names something else.

    Raises:
        Problems: kind ``template``, with file and line; and whatever a call of it raises.
    """
    sandbox = SandboxedEnvironment(
        undefined=StrictUndefined, trim_blocks=True, lstrip_blocks=True, autoescape=False
    )
    try:
        return sandbox.from_string(text).render(names)
    except TemplateSyntaxError as error:
        mark = Mark(file, error.lineno, 1)
        raise problem("template", f"{error.message}.", mark, hint) from error
    except TemplateError as error:
        raise problem("template", f"{error}.", Mark(file, 1, 1), hint) from error
