"""Placeholders in pages and the finished blocks that take their place."""

from __future__ import annotations

import pytest

from threeview.errors import BuildError
from threeview.site.blocks import fill_blocks


def test_blocks_replace_their_paragraphs() -> None:
    """The paragraph goes with its placeholder; a block may stand on several pages."""
    html = {"a.html": "<h1>A</h1>\n<p>tv-block:x.y</p>\n<p>b</p>", "b.html": "<p>tv-block:x.y</p>"}
    filled = fill_blocks(html, {"x.y": "<aside>\\1 $& kept</aside>"})
    assert filled == {
        "a.html": "<h1>A</h1>\n<aside>\\1 $& kept</aside>\n<p>b</p>",
        "b.html": "<aside>\\1 $& kept</aside>",
    }


def test_every_misfit_is_named() -> None:
    """A missing block, an unused block and a placeholder inside a sentence are all told."""
    html = {"a.html": "<p>tv-block:gone</p>", "b.html": "<p>See tv-block:here.</p>"}
    with pytest.raises(BuildError) as caught:
        fill_blocks(html, {"unused": "", "here": ""})
    told = str(caught.value)
    assert "a.html: no block is called gone" in told
    assert "b.html: the placeholder tv-block:here. must stand alone" in told
    assert "block unused was made, but no page shows it" in told


def test_a_block_may_hold_the_word_tv_block() -> None:
    """What a block itself says is not searched for placeholders."""
    filled = fill_blocks({"a.html": "<p>tv-block:a</p>"}, {"a": "<p>tv-block:b</p>"})
    assert filled == {"a.html": "<p>tv-block:b</p>"}
