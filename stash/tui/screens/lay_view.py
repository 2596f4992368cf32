"""What every screen with a drawn lay can do: look closer, and look about."""

from __future__ import annotations

from textual.screen import Screen

from stash.tui.widgets.lay_canvas import LayCanvas


class LayView(Screen[None]):
    """A screen with one `LayCanvas`."""

    def action_larger(self) -> None:
        """Draw it larger."""
        self.query_one(LayCanvas).larger(1)
        self.refresh_bindings()

    def action_smaller(self) -> None:
        """Draw it smaller again."""
        self.query_one(LayCanvas).larger(-1)
        self.refresh_bindings()

    def action_fit(self) -> None:
        """Fit the whole lay to the screen."""
        self.query_one(LayCanvas).fit()
        self.refresh_bindings()

    def action_pan(self, along: int, across: int) -> None:
        """Show what lies beside, in halves of what is seen."""
        self.query_one(LayCanvas).pan(along, across)
