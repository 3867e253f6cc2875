"""What can go wrong with a store, told so that a person knows what became of the work."""

from __future__ import annotations

from baywright.problems import Problem, Problems


class StoreUnavailable(Problems):
    """Raised when the store cannot do its work now; says whether the last change was kept.

    Args:
        found: what is wrong and what to do next.
        uncertain: whether the change may have been kept all the same. It may when the
            connection is lost between asking for a change and hearing that it is kept;
            otherwise nothing of the change was kept.
    """

    def __init__(self, found: Problem, *, uncertain: bool = False) -> None:
        super().__init__([found])
        self.uncertain = uncertain

    @property
    def sentence(self) -> str:
        """What is wrong, one or two sentences without the kind of problem."""
        found = self.problems[0]
        return f"{found.message} {found.hint}".strip()


class Conflict(Problems):
    """Raised when a build has changed since it was read; nothing was written.

    Args:
        kept_by: who made the change that is kept, or an empty text where nobody signed in.
        text: the text that is kept.
        version: its version, the one to start from.
    """

    def __init__(self, kept_by: str, text: str, version: int) -> None:
        who = f" by {kept_by}" if kept_by else ""
        message = f"The build was changed{who} in the meantime; it is now at version {version}."
        hint = "Nothing was written. Look at what is kept, then make your change to that."
        super().__init__([Problem("changed-meanwhile", message, None, hint)])
        self.kept_by, self.text, self.version = kept_by, text, version
