"""The command `lpv`: one name for all commands of the handbook, each with its own --help."""

import importlib
import sys

import click

from lpv.command import runner

# Name -> (module with main(argv), what it does).
COMMANDS = {
    "aircraft": ("lpv.aircraft.command", "Check aircraft files and their mode rules."),
    "crosscheck": ("lpv.crosscheck.check", "Check approaches: chart against database."),
    "cycle": ("lpv.crosscheck.cycle", "Compare one data cycle with the next."),
    "import": ("lpv.arinc.importer", "Write approach files from coded (ARINC 424) records."),
    "new": ("lpv.command.new", "Make a blank data file with a comment above every key."),
    "merge": ("lpv.fill.merge", "Put filled tables back into the approach files."),
    "path-point": ("lpv.fas.path_point", "List the path points of a coded (ARINC 424) file."),
    "plan": ("lpv.plan.sheet", "Plan flights: minima, alternate, cold, notices."),
    "round": ("lpv.fill.rounds", "Work through a new data cycle, step by step."),
    "schema": ("lpv.command.json_schema", "Print the JSON Schema of a kind of data file, for editors."),
    "setup": ("lpv.setup.file", "Check what both sides of a cockpit have set."),
    "track": ("lpv.track.command", "Debrief a recorded flight against its approach."),
    "worklist": ("lpv.fill.worklist", "List what is to be filled from charts."),
}
# Arguments go to the command as they are, its --help included.
PASSED_ON = {"ignore_unknown_options": True, "help_option_names": []}


def run(name: str, argv: list[str]) -> int:
    """Run one command by its name; the exit code (see `lpv.command.runner`).  KeyError for an unknown name."""
    module = COMMANDS[name][0]

    def call(arguments: list[str]) -> int:
        return int(importlib.import_module(module).main(arguments))

    return runner.run(call, argv)


def _command(name: str, help_text: str) -> click.Command:
    def call(arguments: tuple[str, ...]) -> None:
        sys.exit(run(name, list(arguments)))

    arguments = click.Argument(["arguments"], nargs=-1, type=click.UNPROCESSED)
    return click.Command(name, params=[arguments], callback=call, help=help_text, context_settings=PASSED_ON)


@click.group(
    context_settings={"help_option_names": ["-h", "--help"]},
    epilog="Exit code: 0 nothing to stop; 1 a finding asks for attention; 2 wrong call or faulty file; 3 internal "
    "error.  Training and reference only: never primary navigation, and no substitute for the current chart, "
    "database and flight manual.",
)
@click.version_option(package_name="lpv-handbook", prog_name="lpv")
def lpv() -> None:
    """Check SBAS (LPV) approaches, plans, cockpit set-ups and recorded flights.

    `lpv COMMAND --help` says what a command takes.
    """


for _name, (_, _help) in COMMANDS.items():
    lpv.add_command(_command(_name, _help))


def main() -> None:
    """The entry point `lpv`, and `python -m lpv`."""
    runner.prepare(sys.stdout, sys.stderr)
    lpv(prog_name="lpv")
