"""A design file by question and answer, for people who would rather not edit one.

`interview` knows what to ask and never touches a terminal: it yields questions, is sent answers
and returns the text of a file. `ask_for_design` carries them to and fro.
"""

from __future__ import annotations

from collections.abc import Callable, Generator
from dataclasses import dataclass, field, replace

from pydantic_core import PydanticCustomError

from turnercalc import drives, turners
from turnercalc.design.common import FILE_VERSION, Head
from turnercalc.design.complaints import WIDTH, answer_complaint, wrapped
from turnercalc.design.evaluating import Evaluation, phrase_info, read_cell, said
from turnercalc.design.filing import setting_cell
from turnercalc.design.prereader import preread
from turnercalc.design.reader import judge
from turnercalc.design.schema import Schema, fitting_drives, schema_for
from turnercalc.design.values import ValueProblem
from turnercalc.design.why import why_asked
from turnercalc.design.wording import assignment
from turnercalc.drives.base import DriveKind
from turnercalc.errors import UnknownNameError
from turnercalc.fields import Section, is_blank
from turnercalc.turners.base import TurnerKind

_YES = frozenset({"y", "yes", "ja", "oui", "si", "true", "1"})
_NO = frozenset({"n", "no", "nein", "non", "false", "0"})
_COMMENT_COLUMN = 44


@dataclass(frozen=True)
class Question:
    """One thing that is asked.

    Attributes
    ----------
    path : str
        Field path; empty for a question about the interview itself.
    text : str
        What is asked.
    why : str
        Why it is asked and not guessed; may be empty.
    example : str
        An answer that would do.
    choices : tuple of str
        All answers that would do, where there are only so many.
    required : bool
        Whether it has to be answered.
    otherwise : str
        What happens without an answer, where it need not be answered.
    complaint : str
        What was wrong with the last answer; empty when it is asked for the first time.
    """

    path: str
    text: str
    why: str = ""
    example: str = ""
    choices: tuple[str, ...] = ()
    required: bool = True
    otherwise: str = ""
    complaint: str = ""


Interview = Generator[Question, str, str]
Asking = Generator[Question, str, None]


def ask_for_design(ask: Callable[[str], str], tell: Callable[[str], None], turner: str = "") -> str:
    """Ask a builder everything a design needs.

    Parameters
    ----------
    ask : callable
        Shows a short prompt and returns the line that is typed.
    tell : callable
        Shows a text to the builder.
    turner : str, optional
        The word after ``turnercalc start``, so that the turner is not asked for.

    Returns
    -------
    str
        The text of a design file, which `read_design` reads without complaint.

    Raises
    ------
    UnknownNameError
        No turner goes by that word.
    """
    talk = interview(turner)
    question = next(talk)
    while True:
        tell(question_text(question))
        try:
            question = talk.send(ask(f"{question.path or 'yes or no'}> "))
        except StopIteration as finished:
            return str(finished.value)


def question_text(question: Question) -> str:
    """Return a question as it is shown, `WIDTH` columns wide."""
    if question.complaint:
        return question.complaint + "\n"
    lines = [wrapped(question.text, 0)]
    if question.why:
        lines += [wrapped(line, 2) for line in question.why.splitlines()]
    if question.choices:
        lines.append(wrapped("One of: " + "; ".join(question.choices), 2))
    elif question.example:
        lines.append(wrapped(f"For example: {question.example}", 2))
    if not question.required:
        lines.append(wrapped(f"Without an answer: {question.otherwise}", 2))
    return "\n" + "\n".join(lines)


def interview(turner: str = "") -> Interview:
    """Yield what has to be asked, take the answers, and return the text of a design file.

    What must be known comes first; then one question decides whether the rest is asked too.
    A bad answer brings the same question back with what was wrong.
    """
    book = _Book()
    yield from _ask_head(book, turner)
    for name in book.schema.sections:
        if name in book.schema.required:
            yield from _ask_section(book, name)
    for name in book.schema.sections:
        if name not in book.schema.required:
            yield from _ask_extra_section(book, name)
    yield from _ask_the_rest(book)
    yield from _mend(book, "")
    return book.text()


# --- what has been answered -------------------------------------------------------------------


@dataclass
class _Book:
    """The answers so far, in the order they will stand in the file."""

    turner: TurnerKind | None = None
    drive: DriveKind | None = None
    answers: dict[str, str] = field(default_factory=dict)
    sections: list[str] = field(default_factory=list)

    @property
    def schema(self) -> Schema:
        return schema_for(self.turner, self.drive)

    def model(self, path: str) -> type[Section]:
        if "." not in path:
            return Head
        return self.schema.sections[path.partition(".")[0]]

    def text(self) -> str:
        """Return the file as it stands."""
        lines = ["# Written from answers; change what stands between the quote marks."]
        lines += [self._line(path) for path in self.answers if "." not in path]
        order = list(self.schema.sections)
        for key in sorted(self.sections, key=lambda key: order.index(key.partition(".")[0])):
            name, dot, _ = key.partition(".")
            paths = [f"{key}.{field_name}" for field_name in self.model(f"{key}.").model_fields]
            inside = [self._line(path) for path in paths if path in self.answers]
            if inside or name not in self.schema.required:
                lines += ["", f"[[{name}]]" if dot else f"[{name}]", *inside]
        return "\n".join(lines) + "\n"

    def _line(self, path: str) -> str:
        name = path.rpartition(".")[2]
        line = assignment(self.model(path), name, self.answers[path])
        what = _what(self.model(path), name)
        whole = f"{line:<{_COMMENT_COLUMN - 1}} # {what}"
        return whole if what and len(whole) <= 100 else line

    def judged(self) -> Evaluation:
        """Work out what has been answered so far."""
        return judge(preread(self.text()))[1]


# --- asking -----------------------------------------------------------------------------------


def _ask_head(book: _Book, turner: str) -> Asking:
    book.answers["turnercalc"] = str(FILE_VERSION)
    yield from _ask_field(
        book, "name", replace(_question(Head, "name"), required=True, otherwise="")
    )
    kinds = turners.kinds()
    if turner:
        by_starter = {kind.starter: kind for kind in kinds.values()}
        book.turner = by_starter.get(turner) or turners.find(turner)
        book.answers["turner"] = book.turner.words[0]
    else:
        words = {kind.words[0]: kind.says for kind in kinds.values()}
        yield from _ask_kind(book, "turner", words)
        book.turner = turners.find(book.answers["turner"])
    fitting = fitting_drives(book.turner)
    yield from _ask_kind(book, "drive", {kind.words[0]: kind.says for kind in fitting})
    book.drive = drives.find(book.answers["drive"])
    yield from _ask_field(book, "drawn_from")


def _ask_kind(book: _Book, path: str, words: dict[str, str]) -> Asking:
    """Ask which turner or drive; where there is only one, it is taken and said."""
    if len(words) == 1:
        book.answers[path] = next(iter(words))
        return
    question = replace(_question(Head, path), choices=tuple(words))
    question = replace(question, why="\n".join(f"{word}: {says}" for word, says in words.items()))
    registry = turners if path == "turner" else drives
    complaint = ""
    while True:
        answer = (yield replace(question, complaint=complaint)).strip()
        try:
            kind = registry.find(answer)
        except UnknownNameError as error:
            complaint = answer_complaint(str(error), tuple(words))
            continue
        if kind.words[0] in words:
            book.answers[path] = kind.words[0]
            return
        complaint = answer_complaint("This does not go with the turner.", tuple(words))


def _ask_section(book: _Book, key: str) -> Asking:
    """Ask what a section must say, then what does not fit together in it."""
    if key not in book.sections:
        book.sections.append(key)
    model = book.model(f"{key}.")
    for name, info in model.model_fields.items():
        if info.is_required():
            yield from _ask_field(book, f"{key}.{name}")
    yield from _mend(book, key)


def _ask_extra_section(book: _Book, name: str) -> Asking:
    """Ask whether there is a section that need not be; one that may repeat, until it is enough."""
    number = 1
    while True:
        about = (book.schema.sections[name].__doc__ or name).splitlines()[0].rstrip(".")
        text = f"{about}. Is there {'another' if number > 1 else 'one'}?"
        question = Question("", text, choices=("yes", "no"), required=False, otherwise="no")
        wanted = yield from _yes_or_no(question)
        if not wanted:
            return
        repeated = name in book.schema.repeated
        yield from _ask_section(book, f"{name}.{number}" if repeated else name)
        if not repeated:
            return
        number += 1


def _ask_the_rest(book: _Book) -> Asking:
    """Offer to ask what would otherwise be taken for granted or stay unknown."""
    left = _left(book)
    if not left:
        return
    text = f"{len(left)} more things can be said. Shall I ask them too?"
    otherwise = "no; they are taken for granted or stay unknown, and the answer says so"
    wanted = yield from _yes_or_no(
        Question("", text, choices=("yes", "no"), required=False, otherwise=otherwise)
    )
    for question in left if wanted else ():
        yield from _ask_field(book, question.path, question)


def _left(book: _Book) -> list[Question]:
    """Return every question that has not been asked, with what happens without an answer."""
    evaluation = book.judged()
    taken = {one.field: f"{one.text} is taken ({one.source})" for one in evaluation.assumed}
    otherwise = evaluation.unknown | taken
    questions = []
    for key in book.sections:
        model = book.model(f"{key}.")
        idle = getattr(model, "idle", None)
        skipped = set(idle(evaluation.values.get(key, {}))) if idle else set()
        for name in model.model_fields:
            path = f"{key}.{name}"
            if path in book.answers or name in skipped:
                continue
            without = otherwise.get(path, "it is left out")
            questions.append(replace(_question(model, path), otherwise=without))
    return questions


def _ask_field(book: _Book, path: str, question: Question | None = None) -> Asking:
    """Ask for one field until the answer can be read; an optional one may stay open."""
    model = book.model(path)
    question = question or _question(model, path)
    while True:
        answer = (yield question).strip()
        if is_blank(answer):
            if not question.required:
                book.answers.pop(path, None)
                return
            message = question.why or "This has to be known."
            complaint = answer_complaint(f"{message}\nIt cannot be left open.", _likely(question))
            question = replace(question, complaint=complaint)
            continue
        complaint = _complaint(model, path, answer)
        if not complaint:
            book.answers[path] = answer
            return
        question = replace(question, complaint=complaint)


def _complaint(model: type[Section], path: str, answer: str) -> str:
    try:
        read_cell(model, setting_cell(path, answer))
    except ValueProblem as problem:
        return answer_complaint(problem.message, problem.accepted)
    except PydanticCustomError as error:
        return answer_complaint(*said(error))
    return ""


def _mend(book: _Book, key: str) -> Asking:
    """Ask again for what does not fit together: in one section, or anywhere for an empty key."""
    while True:
        wrong = [c for c in book.judged().complaints if _is_about(book, c.field, key)]
        if not wrong:
            return
        path = wrong[0].field
        question = _question(book.model(path), path)
        complaint = answer_complaint(wrong[0].message, wrong[0].accepted)
        yield from _ask_field(book, path, replace(question, required=True, complaint=complaint))


def _is_about(book: _Book, path: str, key: str) -> bool:
    """Tell whether a complaint is about a field of a section that has been asked for."""
    section, _, name = path.rpartition(".")
    return (
        section in book.sections
        and (not key or section == key)
        and name in book.model(path).model_fields
    )


def _yes_or_no(question: Question) -> Generator[Question, str, bool]:
    while True:
        answer = (yield question).strip().lower()
        if answer in _YES:
            return True
        if answer in _NO or is_blank(answer):
            return False
        complaint = answer_complaint("Yes or no?", ("yes", "no"))
        question = replace(question, complaint=complaint)


def _question(model: type[Section], path: str) -> Question:
    name = path.rpartition(".")[2]
    info = phrase_info(model, name)
    found = model.model_fields[name]
    plain = ".".join(part for part in path.split(".") if not part.isdigit())
    return Question(
        path=path,
        text=_named(plain.rpartition(".")[0], name, _what(model, name)),
        why=why_asked(plain),
        example=info.example if info else str((found.examples or ("",))[0]),
        choices=info.choices if info else (),
        required=found.is_required(),
    )


def _named(section: str, name: str, what: str) -> str:
    """Return the question of a field: ``Link, length: hole to hole?``."""
    if section == "loads":
        section = "load case"
    if not section:
        return f"{what}?"
    words = f"{section.replace('_', ' ').capitalize()}, {name.replace('_', ' ')}"
    return f"{words}: {what[:1].lower()}{what[1:]}?"


def _what(model: type[Section], name: str) -> str:
    info = phrase_info(model, name)
    return (info.help if info else model.model_fields[name].description or name).rstrip(".?")


def _likely(question: Question) -> tuple[str, ...]:
    return question.choices or ((question.example,) if question.example else ())


__all__ = ["WIDTH", "Question", "ask_for_design", "interview", "question_text"]
