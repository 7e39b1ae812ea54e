"""What stops a run or a value, each with its cure."""


class BuilderError(Exception):
    """A run can't go on: what is wrong, and what to do about it."""

    def __init__(self, message: str, cure: str) -> None:
        super().__init__(f"{message}; {cure}")
        self.message = message
        self.cure = cure

    def __reduce__(self) -> tuple[type["BuilderError"], tuple[str, str]]:
        """Keep message and cure apart on the way out of a worker process."""
        return (type(self), (self.message, self.cure))


class FetchRefusedError(BuilderError):
    """A page that is to be printed asks for what the tool didn't put there itself."""


class InvalidValueError(ValueError):
    """A text can't become a value: the fact about it, and the cure."""

    def __init__(self, fact: str, cure: str) -> None:
        super().__init__(f"{fact}; {cure}")
        self.fact = fact
        self.cure = cure
