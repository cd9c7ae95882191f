"""Every command is documented, has a working example, and answers as the others do."""

from __future__ import annotations

import shlex

import pytest

from teardown_app.cli.command import Command
from teardown_app.cli.main import parser
from teardown_app.cli.table import COMMANDS, TOPICS
from tests.state.commands_page import PAGE, page

NAMES = [" ".join(command.words) for command in COMMANDS]


def test_the_page_of_commands_is_written_from_them() -> None:
    assert PAGE.read_text(encoding="utf-8") == page(), "write it anew: python -m tests.state.commands_page"


def test_no_two_commands_have_one_name() -> None:
    assert len(set(NAMES)) == len(NAMES)


def test_every_topic_has_commands_and_every_command_its_topic() -> None:
    assert {command.words[0] for command in COMMANDS if len(command.words) > 1} == set(TOPICS)


@pytest.mark.parametrize("command", COMMANDS, ids=NAMES)
def test_the_example_of_a_command_is_one_that_it_takes(command: Command) -> None:
    words = shlex.split(command.example)
    assert words[0] == "teardown-app"
    args = parser().parse_args(words[1:])
    assert args.command is command


@pytest.mark.parametrize("command", COMMANDS, ids=NAMES)
def test_every_command_takes_home_and_json_behind_its_words(command: Command) -> None:
    words = shlex.split(command.example)[1:]
    args = parser().parse_args([*words, "--home", "somewhere", "--json"])
    assert (args.home, args.json) == ("somewhere", True)


@pytest.mark.parametrize("command", COMMANDS, ids=NAMES)
def test_a_command_that_records_takes_the_person(command: Command) -> None:
    words = shlex.split(command.example)[1:]
    assert ("--by" in words) == command.by, "the example names the person, or none is needed"
