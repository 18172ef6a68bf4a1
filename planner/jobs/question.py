"""What a question on a terminal is, whoever asks it, and answers that several questions check alike."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from pydantic import TypeAdapter, ValidationError

from planner.files.complaints import describe
from planner.files.suggest import did_you_mean
from planner.files.values import iso_date

# Gives the answer back as it is to be written, or refuses it (ValueError), after which it is asked again.
Check = Callable[[str], str]
Ask = Callable[[str, str, Check], str]  # its words, the answer that Enter gives, and what checks an answer


def refusal(message: str, hint: str | None) -> ValueError:
    return ValueError(f"{message}; {hint}" if hint else message)


def one_of(words: Sequence[str]) -> Check:
    def check(answer: str) -> str:
        if answer not in words:
            raise ValueError(did_you_mean(answer, words, most_listed=len(words)))
        return answer

    return check


def a_day(answer: str) -> str:
    if iso_date(answer) is None:
        raise ValueError("write year-month-day, such as 2001-05-17")
    return answer


def require_fit(kind: TypeAdapter[object], value: object) -> None:
    """Refuses a value that is not of the kind, as a finding on a file would."""
    try:
        kind.validate_python(value)
    except ValidationError as error:
        complaint = describe(dict(error.errors()[0]), None, "")
        raise refusal(complaint.message, complaint.hint) from None
