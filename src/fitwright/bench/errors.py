"""What can be wrong with what somebody types at the bench."""

from __future__ import annotations

from collections.abc import Sequence


class BenchError(Exception):
    """The base of all errors of taking readings."""


class UnknownNameError(BenchError):
    """Something was named that is not there."""

    def __init__(self, what: str, name: str, known: Sequence[str]) -> None:
        """Say what is missing, and what comes near or can be named."""
        self.what, self.name, self.known = what, name, tuple(known)
        hint = f"; name one of: {', '.join(known[:8])}" if known else ""
        said = f' "{name}"' if name else ""
        super().__init__(f"No {what}{said}{hint}.")


class WhichInstrumentError(BenchError):
    """Several gauges could have taken a reading, or none is on the shelf, and none is named."""

    def __init__(self, wanted: str, dimension: str, known: Sequence[str]) -> None:
        """Say what kind of gauge is asked for, and which there are."""
        self.wanted, self.dimension, self.known = wanted, dimension, tuple(known)
        if known:
            text = f"Which {wanted} reads {dimension}? Name one of: {', '.join(known[:8])}."
        else:
            text = f"No {wanted} for {dimension} on the shelf; enter it with `fitwright shop instrument`."
        super().__init__(text)


class WrongKindError(BenchError):
    """A gauge or a blade of a kind that the sheet does not name for a dimension."""

    def __init__(self, what: str, dimension: str, kinds: Sequence[str]) -> None:
        """Say what does not suit, what the dimension is read with, and where that is changed."""
        self.what, self.dimension, self.kinds = what, dimension, tuple(kinds)
        super().__init__(
            f"{what} does not read {dimension}, which the sheet reads with {' or '.join(kinds)}; "
            "use one of these, or name the other kind in the sheet."
        )


class WrongSettingError(BenchError):
    """A setting named for a gauge that another gauge was set with."""

    def __init__(self, setting: str, of: str, named_for: str) -> None:
        """Say whose it is, and for which it was named."""
        self.setting, self.of, self.named_for = setting, of, named_for
        super().__init__(
            f"Setting {setting} is of {of}, not of {named_for}; name the last setting of {named_for}."
        )


class TemperatureUnitError(BenchError):
    """A temperature without a unit that nobody would measure at in the unit of the build."""

    def __init__(self, typed: str, unit: str) -> None:
        """Say what it would be, and how to write either unit."""
        self.typed, self.unit = typed, unit
        super().__init__(
            f'"{typed}" would be {typed} {unit}, where hardly anybody measures; '
            f'say its unit: "{typed} degC" or "{typed} degF".'
        )


class EmptyPositionError(BenchError):
    """A reading through a set of parts of which one is not in place."""

    def __init__(self, title: str) -> None:
        """Say which dimension, and what to do."""
        super().__init__(
            f"{title} cannot be read now: one of its parts is taken out. Enter the fitting first."
        )


class UnknownBladeError(BenchError):
    """A blade that no set on the shelf has."""

    def __init__(self, name: str, near_names: Sequence[str]) -> None:
        """Say which blade, and which come near."""
        hint = f" Nearest: {', '.join(near_names)}." if near_names else ""
        super().__init__(f'No blade "{name}" on the shelf; name it as SET:MARKING, several with "+".{hint}')


class NothingToWithdrawError(BenchError):
    """An undo where nothing was entered."""

    def __init__(self) -> None:
        """Say what can be done instead."""
        super().__init__(
            "Nothing was entered here that could be undone; take an older entry back by its number "
            "with `fitwright shop withdraw`."
        )


class NoSuchMoveError(BenchError):
    """Readings that cannot be moved as asked."""

    def __init__(self, what: str, mend: str) -> None:
        """Say why not, and what can be done."""
        super().__init__(f"{what}; {mend}.")


class UnknownPersonError(BenchError):
    """A person who is not in the shop's book, or several and none named."""

    def __init__(self, name: str | None, known: Sequence[str]) -> None:
        """Say who is known, and how somebody is entered."""
        self.name, self.known = name, tuple(known)
        there = f"name one of: {', '.join(known[:8])}" if known else "enter one first"
        who = f'Nobody is called "{name}"' if name is not None else "Nobody is named"
        super().__init__(f'{who}; {there}, or enter somebody with `fitwright shop person CODE "NAME"`.')


class NoWordsError(BenchError):
    """Something that is only worth entering with words, and has none."""

    def __init__(self, what: str, wanted: str) -> None:
        """Say what needs which words."""
        self.what, self.wanted = what, wanted
        super().__init__(f"{what} needs {wanted}: say it in a few words.")


class PositionEmptyError(BenchError):
    """A position in which no part sits."""

    def __init__(self, position: str) -> None:
        """Say which, and what can be done."""
        self.position = position
        super().__init__(f"Nothing sits in {position}: it was taken out already; fit a part there.")


class PartThereError(BenchError):
    """A part put where it is."""

    def __init__(self, part: str, position: str) -> None:
        """Say which part, and what can be done."""
        self.part, self.position = part, position
        super().__init__(f"{part} sits in {position} already; enter a taking out if it was out.")


class SamePositionError(BenchError):
    """Two positions named to be swapped, which are one."""

    def __init__(self, position: str) -> None:
        """Say which."""
        self.position = position
        super().__init__(f"Both are {position}: name two positions to swap.")


class NoBoundsError(BenchError):
    """A limit adopted from a source that states none, and none stated anew."""

    def __init__(self, subject: str, source: str) -> None:
        """Say what is missing."""
        self.subject, self.source = subject, source
        super().__init__(f"{source} states no limit of {subject} in the sheet: state a bound anew.")


class NoPhotoError(BenchError):
    """A file whose first bytes are those of no picture that is kept."""

    def __init__(self, name: str) -> None:
        """Say which file, and what can be kept."""
        self.name = name
        super().__init__(f"{name} is no photo that can be kept: send a JPEG, PNG or WebP picture.")


class CannotEnterError(BenchError):
    """Something for the shop's book that cannot stand as it was typed."""

    def __init__(self, wrong: str, mend: str) -> None:
        """Say what is wrong, and what to do."""
        self.wrong, self.mend = wrong, mend
        super().__init__(f"{wrong}: {mend}.")


class NoPaperTimeError(BenchError):
    """A paper without a date, or with one that is none."""

    def __init__(self, text: str) -> None:
        """Say what was given, and what is wanted."""
        self.text = text
        given = f'"{text}" is no date' if text else "When it was written is missing"
        super().__init__(f"{given}: give the date on the paper as 2031-05-04, and the time if it is there.")


class PaperTimeAheadError(BenchError):
    """A paper that was written in the future."""

    def __init__(self, text: str) -> None:
        """Say when."""
        self.text = text
        super().__init__(f"{text} lies ahead: give the date on the paper.")
