"""The two pages of the desk: that on which one works, and that which strangers see.     (desk/web/pages.py)"""

from __future__ import annotations

import html
from importlib.resources import files

_MARK = "<head>"


def index_page(nonce: str) -> str:
    """Return the page, with the word that its one style of its own bears.

    Args:
        nonce: of this start.
    """
    text = (files("takeup.desk") / "static" / "index.html").read_text(encoding="utf-8")
    assert _MARK in text, "the bundle has a head"
    return text.replace(_MARK, f'{_MARK}\n    <meta name="style-nonce" content="{nonce}" />', 1)


def stranger_page(nonce: str, *, asks: bool = False, said: str = "") -> str:
    """Return what a browser sees that does not bear the token.

    Args:
        nonce: of this start.
        asks: whether a password opens the desk: it is shared on a network.
        said: why the last one did not.
    """
    told = f"<p role='alert'>{html.escape(said)}</p>" if said else ""
    form = (
        "<form method='post' action='/sign-in'><label>Password <input type='password' name='password' "
        "autocomplete='current-password' required autofocus></label> <button>Open the desk</button></form>"
    )
    words = (
        "<p>This desk is shared on the network. Whoever knows its password can read and change the line.</p>" + form
        if asks
        else "<p>Open the address that <code>takeup open</code> printed on the terminal: it bears the word that lets "
        "this browser in. A new start of the desk has a new one.</p>"
    )
    return (
        "<!doctype html><html lang='en'><head><meta charset='utf-8'><title>Takeup desk</title>"
        "<meta name='viewport' content='width=device-width, initial-scale=1'>"
        f"<style nonce='{nonce}'>:root{{color-scheme:light dark}}body{{font:1.1rem/1.5 Inter,system-ui,sans-serif;"
        "max-width:38rem;margin:18vh auto;padding:0 1.5rem}}h1{{font-size:1.4rem}}input,button{{font:inherit;"
        "padding:.3rem .6rem}}</style></head>"
        f"<body><main><h1>The desk is open, but not for this browser</h1>{told}{words}</main></body></html>"
    )


__all__ = ["index_page", "stranger_page"]
