"""Two calm themes of our own: evening (dark) and daylight (light)."""

from __future__ import annotations

from textual.theme import Theme

EVENING = Theme(
    name="evening",
    dark=True,
    background="#1b1f21",
    surface="#22282a",
    panel="#2c3437",
    foreground="#ddd9d0",
    primary="#8fb4a8",
    secondary="#c2a878",
    accent="#d29b7a",
    success="#93bf8c",
    warning="#d9b35f",
    error="#de8a7e",
    variables={
        "block-cursor-background": "#4a6a62",
        "block-cursor-foreground": "#f4f1ea",
        "block-cursor-blurred-background": "#333f3d",
        "block-cursor-blurred-foreground": "#ddd9d0",
        "border": "#8fb4a8",
        "input-selection-background": "#4a6a62",
    },
)

DAYLIGHT = Theme(
    name="daylight",
    dark=False,
    background="#f6f3ed",
    surface="#eeeae1",
    panel="#e1dccf",
    foreground="#2a2e30",
    primary="#3a6a5e",
    secondary="#6f5830",
    accent="#8f4b2a",
    success="#33703a",
    warning="#805a08",
    error="#9c352c",
    variables={
        "block-cursor-background": "#b9d3ca",
        "block-cursor-foreground": "#1c2223",
        "block-cursor-blurred-background": "#dcdfd3",
        "block-cursor-blurred-foreground": "#2a2e30",
        "border": "#3a6a5e",
        "input-selection-background": "#b9d3ca",
    },
)
