"""Bodies of resources: JSON objects, read strictly."""

from __future__ import annotations

import json
from typing import Any, NoReturn, TypeAlias

from baywright.problems import Problems, problem

Resource: TypeAlias = dict[str, Any]
"""A resource as JSON: what it holds is read with the functions of ``values``."""

MOST_LEVELS = 40
"""Objects and lists inside each other; resources of the standard have fewer than ten."""


def read_body(data: bytes, path: str) -> Resource:
    """Read the body of a resource.

    Args:
        data: JSON in UTF-8.
        path: path of the resource, for problems.

    Raises:
        Problems: kind ``not-a-resource``.
    """
    try:
        body = json.loads(
            data.decode("utf-8-sig"), object_pairs_hook=_object, parse_constant=_refuse
        )
    except UnicodeDecodeError as error:
        raise _not_a_resource(path, "it is not UTF-8") from error
    except json.JSONDecodeError as error:
        why = f"it is not JSON at line {error.lineno}, column {error.colno}"
        raise _not_a_resource(path, why) from error
    except (ValueError, RecursionError) as error:
        why = "it is nested too deep" if isinstance(error, RecursionError) else str(error)
        raise _not_a_resource(path, why) from error
    if not isinstance(body, dict):
        raise _not_a_resource(path, "it is no JSON object")
    if _levels_exceed(body):
        raise _not_a_resource(path, "it is nested too deep")
    return body


def _object(pairs: list[tuple[str, Any]]) -> Resource:
    found = dict(pairs)
    if len(found) < len(pairs):
        raise ValueError("it has a key twice")
    return found


def _refuse(word: str) -> NoReturn:
    raise ValueError(f"it has {word} for a number")


def _levels_exceed(body: Resource) -> bool:
    level: list[Any] = [body]
    for _ in range(MOST_LEVELS):
        level = [inner for each in level for inner in _inner(each)]
    return bool(level)


def _inner(value: object) -> list[Any]:
    held = value.values() if isinstance(value, dict) else value if isinstance(value, list) else ()
    return [each for each in held if isinstance(each, dict | list)]


def _not_a_resource(path: str, why: str) -> Problems:
    message = f"{path} is no Redfish resource: {why}."
    return problem("not-a-resource", message, None, "Check that the address or folder is right.")
