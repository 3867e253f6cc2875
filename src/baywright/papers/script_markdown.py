"""A script in Markdown: what is spoken as text, and directions as code, which nobody reads out."""

from __future__ import annotations

from collections.abc import Iterator

from baywright.papers.script import Part, Script, clock, paragraphs


def script_markdown(script: Script) -> str:
    """Return what is spoken, with directions for each station."""
    head = "\n".join(f"{name}: {said}" for name, said in script.head)
    title = f"# {script.machine}"
    parts = (line for part in script.parts for line in (*_part(part), ""))
    closing = " ".join(each.text for each in script.closing)
    return "\n".join(["---", head, "---", "", title, "", *parts, closing, ""])


def _part(part: Part) -> Iterator[str]:
    yield f"## {part.title[0].upper()}{part.title[1:]}"
    yield ""
    yield "```"
    off = f"off: {', '.join(part.covers)}" if part.covers else "nothing off"
    when = f"{clock(part.start)} to {clock(part.end)}"
    yield f"{when}, {_side(part.side)}, {off}, shots/{part.name}.svg"
    for each in part.callouts:
        yield f"{each.number:>3}  {each.name}{f', {each.where}' if each.where else ''}"
    yield "```"
    for kind, held in paragraphs(part):
        yield ""
        text = " ".join(each.text for each in held)
        yield {"caution": f"> {text}", "act": f"**{text}**"}.get(kind, text)


def _side(side: str) -> str:
    return {"front": "at the front", "rear": "at the rear", "inside": "looking in"}[side]


def notes_markdown(script: Script) -> str:
    """Return what a presenter has at hand: kit, shots, numbers as spoken, questions, proofs."""
    lines = [f"# {script.machine}: notes to the walkthrough", "", script.standing, ""]
    lines += [script.planning_aid, "", "## Kit", ""]
    lines += [f"- {what}: {why}" for what, why in script.kit]
    lines += ["", "## Shots", "", "```"]
    for part in script.parts:
        off = ", ".join(part.covers) or "nothing"
        lines.append(f"{clock(part.start)} to {clock(part.end)}  {part.number}. {part.title}")
        lines.append(f"    {part.side}, off: {off}, drawing shots/{part.name}.svg")
    lines.append("```")
    lines += ["", "## Numbers as they are spoken", "", "```"]
    lines += [f"{written:>12}  {aloud}" for written, aloud in script.numbers]
    lines.append("```")
    lines += ["", "## The likeliest questions", ""]
    for number, each in enumerate(script.questions, 1):
        asked = f"{each.why}; asked as `{each.stands_on}`"
        lines.append(f"{number}. **{each.question}** {each.answer} ({asked})")
    lines += ["", "## What each sentence stands on", "", "```"]
    for said in script.spoken:
        if said.stands_on:
            lines += [f"{clock(said.start)} {said.text}", f"     {said.stands_on}"]
    return "\n".join([*lines, "```", ""])
