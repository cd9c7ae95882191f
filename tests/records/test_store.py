"""The index for lists: derived, deletable, rebuilt when damaged, never on the way of a scan."""

from __future__ import annotations

from pathlib import Path

import pytest

from teardown_app.records.store import Store

JOBS = {
    "J1": {"order": "A-77", "model": "bench rinser-dryer", "serial": "RD-1004"},
    "J2": {"order": "A-78", "model": "dispense pump", "serial": "P-9"},
}


def filled(home: Path) -> Store:
    store = Store(home)
    store.rebuild("jobs", JOBS)
    store.put("tags", "P7K3M0001X", {"job": "J1", "part": "J1:t7~0:3:1", "says": "Rotor, 25-wafer"})
    store.caught_up({"t7~0/j1": 800, "t7~0/_shop": 300})
    store.flush()
    return store


def lists_file(home: Path) -> Path:
    return home / "index" / "lists.json"


def test_rows_are_found_again_after_a_restart(tmp_path: Path) -> None:
    filled(tmp_path)
    store = Store(tmp_path)
    assert store.trouble is None
    assert [row["key"] for row in store.rows("jobs")] == ["J1", "J2"]
    assert store.tag("P7K3M0001X") == {
        "job": "J1",
        "part": "J1:t7~0:3:1",
        "says": "Rotor, 25-wafer",
        "key": "P7K3M0001X",
    }
    assert store.tag("P0000000") is None


def test_search_finds_all_words_in_any_field_of_any_job(tmp_path: Path) -> None:
    store = filled(tmp_path)
    assert [(row["table"], row["key"]) for row in store.search("RINSER a-77")] == [("jobs", "J1")]
    assert [(row["table"], row["key"]) for row in store.search("rotor")] == [("tags", "P7K3M0001X")]
    assert store.search("rinser A-78") == []


def test_a_changed_row_shows_at_once_and_reaches_the_disk_only_when_asked(tmp_path: Path) -> None:
    """Nothing on the way of a scan waits for the disk."""
    store = filled(tmp_path)
    before = lists_file(tmp_path).read_bytes()
    store.put("jobs", "J2", {"order": "A-99"})
    store.drop("jobs", "J1")
    assert store.row("jobs", "J2") == {"order": "A-99", "key": "J2"} and store.row("jobs", "J1") is None
    assert [row["key"] for row in store.search("a-99")] == ["J2"]
    assert lists_file(tmp_path).read_bytes() == before
    store.flush()
    assert [row["key"] for row in Store(tmp_path).rows("jobs")] == ["J2"]


def test_rebuilding_leaves_nothing_of_what_was_there(tmp_path: Path) -> None:
    store = filled(tmp_path)
    store.rebuild("jobs", {"J3": {"order": "B"}})
    assert [row["key"] for row in store.rows("jobs")] == ["J3"]


def test_files_that_have_grown_since_are_told(tmp_path: Path) -> None:
    store = filled(tmp_path)
    assert store.behind({"t7~0/j1": 800, "t7~0/_shop": 300}) == set()
    assert store.behind({"t7~0/j1": 950, "t7~0/j2": 10}) == {"t7~0/j1", "t7~0/j2", "t7~0/_shop"}


def test_a_deleted_index_is_simply_empty(tmp_path: Path) -> None:
    filled(tmp_path)
    lists_file(tmp_path).unlink()
    store = Store(tmp_path)
    assert store.trouble is None and store.rows("jobs") == [] and store.behind({"t7~0/j1": 800}) == {"t7~0/j1"}


GARBLED = [
    b"",
    b"{",
    b"\x00" * 200,
    b"[1,2]",
    b'{"jobs": 3}',
    b'{"jobs": {"x": {}}}',
    b'{"jobs": {"1": {"a": 1}}}',
    b"\xff\xfe",
    b'{"jobs": {"1": {"key": "J1"}}}\n' + b"0" * 32 + b"\n",
]


@pytest.mark.parametrize("garbled", GARBLED)
def test_a_damaged_index_is_moved_aside_said_and_built_anew(tmp_path: Path, garbled: bytes) -> None:
    for n in (1, 2):
        filled(tmp_path)
        lists_file(tmp_path).write_bytes(garbled)
        store = Store(tmp_path)
        assert store.trouble and "nothing is lost" in store.trouble.what_to_do
        assert lists_file(tmp_path).with_name(f"lists.json.garbled-{n}").read_bytes() == garbled
        assert store.rows("jobs") == []


def test_cut_anywhere_the_index_is_whole_or_said_to_be_damaged(tmp_path: Path) -> None:
    filled(tmp_path)
    whole = lists_file(tmp_path).read_bytes()
    for at in range(len(whole)):
        lists_file(tmp_path).write_bytes(whole[:at])
        assert Store(tmp_path).trouble


def spoiled(home: Path, how: str) -> Path:
    """Something that is no index stands where the index, or its folder, should be."""
    if how == "folder is a file":
        (home / "index").write_bytes(b"not ours")
        return home / "index"
    lists_file(home).mkdir(parents=True)
    (lists_file(home) / "not ours").touch()
    return lists_file(home)


@pytest.mark.parametrize("how", ["file is a folder", "folder is a file"])
def test_what_stands_in_the_place_of_the_index_is_put_aside_and_said(tmp_path: Path, how: str) -> None:
    found = spoiled(tmp_path, how)
    store = Store(tmp_path)
    assert store.trouble and found.with_name(f"{found.name}.garbled-1").name in store.trouble.what_to_do
    assert found.with_name(f"{found.name}.garbled-1").exists()
    filled(tmp_path)
    assert [row["key"] for row in Store(tmp_path).rows("jobs")] == ["J1", "J2"]


def test_every_changed_byte_of_the_index_is_noticed(tmp_path: Path) -> None:
    """Rows that another hand changed are not believed: the check value is over all of them."""
    filled(tmp_path)
    whole = lists_file(tmp_path).read_bytes()
    for at in range(len(whole)):
        lists_file(tmp_path).write_bytes(whole[:at] + bytes([whole[at] ^ 1]) + whole[at + 1 :])
        assert Store(tmp_path).trouble, f"byte {at}"


def test_an_index_that_cannot_be_kept_is_said_and_nothing_is_raised(tmp_path: Path) -> None:
    """The temporary file's name is taken by a folder: every write of the index fails."""
    lists_file(tmp_path).with_name("lists.json.tmp").mkdir(parents=True)
    store = filled(tmp_path)
    assert store.trouble and "recorded is safe" in store.trouble.what_to_do
    assert [row["key"] for row in store.rows("jobs")] == ["J1", "J2"]
