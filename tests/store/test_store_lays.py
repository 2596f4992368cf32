"""Laid results are kept, replaced and forgotten."""

from __future__ import annotations

from typing import TYPE_CHECKING

from stash.store import lays

if TYPE_CHECKING:
    from stash.store.store import Store

pytest_plugins = ["store_fixtures"]


def test_kept_replaced_and_forgotten(store: Store) -> None:
    with store.write("lay") as session:
        assert lays.get_lay_text(session, "a") is None
        lays.put_lay_text(session, "a", "1", "first")
        lays.put_lay_text(session, "b", "1", "other")
    with store.write("lay again") as session:
        lays.put_lay_text(session, "a", "2", "second")
    with store.read() as session:
        assert lays.get_lay_text(session, "a") == "second"
        assert lays.get_lay_text(session, "b") == "other"
    with store.write("forget") as session:
        lays.clear_lays(session)
    with store.read() as session:
        assert lays.get_lay_text(session, "a") is None
