"""Scripts by which shells complete the words of the command line: bash, zsh and fish, each in its own language."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from stacklint.command.shapes import Command, Kind, Option, Value
from stacklint.command.usage import Shell

_ALWAYS = ("--help", "--version")


def script(shell: Shell, commands: Sequence[Command]) -> str:
    """The script for a shell."""
    lines = {Shell.BASH: _bash, Shell.ZSH: _zsh, Shell.FISH: _fish}[shell](commands)
    return "\n".join(lines) + "\n"


def _bash(commands: Sequence[Command]) -> Iterator[str]:
    """Files are left to the shell's own completion, which sees to quoting; runs in bash 3.2 and later."""
    yield from (
        "# Completes the words of stacklint in bash; made by: stacklint completion bash",
        "_stacklint() {",
        "    local word=${COMP_WORDS[COMP_CWORD]} before=${COMP_WORDS[COMP_CWORD-1]} words=",
        "    COMPREPLY=()",
        "    # A = parts --as=json into three words.",
        '    if [ "$word" = "=" ]; then word=; elif [ "$before" = "=" ]; then before=${COMP_WORDS[COMP_CWORD-2]}; fi',
        '    if [ "$COMP_CWORD" -eq 1 ]; then',
        f'        words="{" ".join([*(command.name for command in commands), *_ALWAYS])}"',
        "    else",
        '        case "${COMP_WORDS[1]} $before" in',
    )
    cases: dict[str, list[str]] = {}
    for command in commands:
        for option in command.options:
            if option.value is not None:
                cases.setdefault(_bash_value(option.value), []).extend(
                    f'"{command.name} {name}"' for name in option.names
                )
    yield from (f"            {' | '.join(places)}) {does} ;;" for does, places in cases.items())
    yield from ("            *)", '                case "${COMP_WORDS[1]}" in')
    for command in commands:
        names = " ".join(name for option in command.options for name in option.names)
        yield f"                    {command.name})"
        yield f'                        if [[ $word == -* ]]; then words="{names}"'
        yield f"                        else {_bash_value(command.operand)}; fi ;;"
    yield from (
        "                    *) return ;;",
        "                esac ;;",
        "        esac",
        "    fi",
        '    COMPREPLY=($(compgen -W "$words" -- "$word"))',
        "    # Where words are known, files are none of them.",
        "    compopt +o default +o bashdefault 2>/dev/null",
        "    return 0",
        "}",
        "complete -o bashdefault -o default -F _stacklint stacklint",
    )


def _bash_value(value: Value | None) -> str:
    if value is None or value.kind is Kind.ANYTHING:
        return "words="
    return f'words="{" ".join(value.words)}"' if value.kind is Kind.WORDS else "return"


def _zsh(commands: Sequence[Command]) -> Iterator[str]:
    """The file _stacklint of the function path; it may also be sourced once ``compinit`` has run."""
    yield from (
        "#compdef stacklint",
        "# Completes the words of stacklint in zsh; made by: stacklint completion zsh",
        "_stacklint() {",
        "    local -a commands",
        "    if (( CURRENT == 2 )); then",
        "        commands=(",
    )
    yield from (f"            {_quoted(f'{command.name}:{command.does}')}" for command in commands)
    yield from (
        "        )",
        "        _describe command commands",
        f"        compadd -- {' '.join(_ALWAYS)}",
        "        return",
        "    fi",
        "    local command=$words[2]",
        "    shift words",
        "    (( CURRENT-- ))",
        "    case $command in",
    )
    for command in commands:
        yield f"        {command.name})"
        yield "            _arguments \\"
        for option in command.options:
            for name in option.names:
                yield f"                {_quoted(_zsh_option(name, option))} \\"
        yield f"                {_quoted(f'*:{_zsh_value(command.operand)}')} ;;"
    yield from (
        "    esac",
        "}",
        'if [[ $funcstack[1] == _stacklint ]]; then _stacklint "$@"; else compdef _stacklint stacklint; fi',
    )


def _zsh_option(name: str, option: Option) -> str:
    does = option.does.replace("[", "(").replace("]", ")").replace(":", " ")
    if option.value is None:
        return f"{name}[{does}]"
    return f"{name}=[{does}]:{_zsh_value(option.value)}"


def _zsh_value(value: Value | None) -> str:
    if value is None:
        return "nothing more: "
    actions = {
        Kind.FILES: "file:_files",
        Kind.FOLDERS: "folder:_files -/",
        Kind.WORDS: f"word:({' '.join(value.words)})",
        Kind.ANYTHING: "value: ",
    }
    return actions[value.kind]


def _fish(commands: Sequence[Command]) -> Iterator[str]:
    yield "# Completes the words of stacklint in fish; made by: stacklint completion fish"
    yield "complete -c stacklint -f"
    first = "-n __fish_use_subcommand"
    for command in commands:
        yield f"complete -c stacklint {first} -a {command.name} -d {_fish_quoted(command.does)}"
    yield from (f"complete -c stacklint {first} -l {name.lstrip('-')}" for name in _ALWAYS)
    for command in commands:
        within = f"-n '__fish_seen_subcommand_from {command.name}'"
        for option in command.options:
            names = " ".join(f"-{'l' if name.startswith('--') else 's'} {name.lstrip('-')}" for name in option.names)
            value = "" if option.value is None else f" -r{_fish_value(option.value)}"
            yield f"complete -c stacklint {within} {names}{value} -d {_fish_quoted(option.does)}"
        if command.operand is not None:
            yield f"complete -c stacklint {within}{_fish_value(command.operand)}"


def _fish_value(value: Value) -> str:
    if value.kind is Kind.FILES:
        return " -F"
    if value.kind is Kind.FOLDERS:
        return " -f -a '(__fish_complete_directories)'"
    return f" -f -a '{' '.join(value.words)}'" if value.kind is Kind.WORDS else " -f"


def _quoted(text: str) -> str:
    """As one word of a POSIX shell (POSIX.1-2017, 2.2.2)."""
    escaped = text.replace("'", "'\\''")
    return f"'{escaped}'"


def _fish_quoted(text: str) -> str:
    escaped = text.replace("\\", "\\\\").replace("'", "\\'")
    return f"'{escaped}'"
