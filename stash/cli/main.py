"""The command line: `stash COMMAND …`. Without a command it opens the app."""

from __future__ import annotations

import errno
from typing import Any

import click

from stash.cli import ctrl_c
from stash.cli.given import negative
from stash.cli.lazy import LazyGroup
from stash.cli.trouble import say_error, say_fault
from stash.errors import Exit, StashError

PLACES: dict[str, tuple[str, str]] = {
    "plan": ("stash.cli.commands.plan:plan", "Plan the season: every make against the shelf."),
    "bench": ("stash.cli.commands.bench:bench", "Say what can be sewn next, and what stops it."),
    "lay": ("stash.cli.commands.lay:lay", "Lay a make or a pattern out and draw the lay."),
    "pair": ("stash.cli.commands.pair:pair", "Set a make against every cloth, best first."),
    "fit-in": (
        "stash.cli.commands.fit_in:fit_in",
        "Find ways to make it fit a cloth that is too short.",
    ),
    "become": (
        "stash.cli.commands.become:become",
        "Say what a cloth could become, best first.",
    ),
    "muslin": ("stash.cli.commands.muslin:muslin", "Find the cloth to risk on a test of the fit."),
    "health": (
        "stash.cli.commands.health:health",
        "Say which cloths lie idle, and which nearly fit.",
    ),
    "buy": ("stash.cli.commands.buy:buy", "List what has to be bought."),
    "promise": ("stash.cli.commands.promise:promise", "Hold some of a cloth for a make."),
    "release": ("stash.cli.commands.promise:release", "Let go of the cloth a make holds."),
    "cut": ("stash.cli.commands.promise:cut", "Say that a make has been cut."),
    "cloth": ("stash.cli.commands.cloth:cloth", "Add, list, show, edit and remove cloths."),
    "pattern": ("stash.cli.commands.pattern:pattern", "Add, list, show, edit, remove patterns."),
    "make": ("stash.cli.commands.make:make", "Add, list, show, edit and remove makes."),
    "person": ("stash.cli.commands.person:person", "Add, list, show, edit and remove people."),
    "diary": ("stash.cli.commands.diary:diary", "Read the diary, or write a line into it."),
    "undo": (
        "stash.cli.commands.history:undo",
        "Undo your last change, or one entry of the history.",
    ),
    "redo": (
        "stash.cli.commands.history:redo",
        "Do again what you undid last, unless you changed something since.",
    ),
    "history": (
        "stash.cli.commands.history:history",
        "Say what was changed, when and by whom, the latest first.",
    ),
    "settings": ("stash.cli.commands.settings:settings", "Show the settings, or change one."),
    "import": (
        "stash.cli.commands.bring:import_",
        "Read a table people already keep: .csv, .xlsx, .ods.",
    ),
    "export": (
        "stash.cli.commands.export:export",
        "Write a table for other programs: .csv or .xlsx.",
    ),
    "backup": ("stash.cli.commands.backup:backup", "Keep a copy of the stash, or list the copies."),
    "restore": (
        "stash.cli.commands.backup:restore",
        "Put a copy in the place of the stash; what it replaces is kept.",
    ),
    "check": (
        "stash.cli.commands.check:check",
        "Look the whole stash over and say what is wrong.",
    ),
    "move": (
        "stash.cli.commands.move:move",
        "Copy the whole stash into an empty database, of either kind.",
    ),
    "demo": ("stash.cli.commands.app:demo", "Open the app on a throw-away sample."),
}
"""Every command; its short help is the first line of its own."""


class Root(LazyGroup):
    """The outermost group: the one place where errors become words and exit codes."""

    def invoke(self, ctx: click.Context) -> Any:
        """Run the command; nothing but click's own errors leaves it."""
        typed = list(ctx.args)  # click empties it
        try:
            return super().invoke(ctx)
        except click.NoSuchOption as error:
            if (refusal := negative(error.option_name, typed)) is None:
                raise
            say_error(refusal)
            ctx.exit(refusal.exit_code)
        except (click.exceptions.Exit, click.Abort, click.ClickException):
            raise
        except StashError as error:
            say_error(error)
            ctx.exit(error.exit_code)
        except KeyboardInterrupt:
            ctrl_c.ignore()
            click.echo("stash: Stopped.", err=True)
            ctx.exit(Exit.STOPPED)
        except OSError as error:
            if error.errno == errno.EPIPE:
                raise
            say_fault()
            ctx.exit(Exit.BUG)
        except Exception:
            say_fault()
            ctx.exit(Exit.BUG)


@click.group(
    cls=Root,
    places=PLACES,
    invoke_without_command=True,
    context_settings={"help_option_names": ["-h", "--help"], "max_content_width": 100},
)
@click.version_option(package_name="fabric-stash", prog_name="stash")
@click.option("--sample", is_flag=True, help="Use a throw-away copy of the sample stash.")
@click.pass_context
def cli(ctx: click.Context, sample: bool) -> None:
    """Know your cloth before the scissors do.

    Keeps the shelf, lays every planned make out on it, and says what fits, what suits and
    what has to be bought. Without a command it opens the app.

    Lengths are typed as people write them: 2.4 m, 140cm, "2 5/8 yd", 58/60", "5 ft 3 in".
    A cloth, pattern, make or person is named by its number, its name or a part of it; so no
    name is only digits.

    Exit codes: 0 done, 1 a fault of the program, 2 wrong usage, 3 input not understood,
    4 not found, 5 refused, 6 the stash cannot be opened
    or is not sound, 130 stopped.
    """
    ctx.obj = sample
    if ctx.invoked_subcommand is None:
        from stash.cli.commands.app import open_app

        open_app(sample)


def main() -> None:
    """The `stash` script."""
    ctrl_c.heed()
    try:
        cli(prog_name="stash")
    finally:
        ctrl_c.ignore()
