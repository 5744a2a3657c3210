"""Contrast of every word and number of a page, measured in the browser."""

from typing import Final

ENOUGH: Final = 7.0
"""The contrast that every text must have: bench light is bad light."""
LOW_CONTRAST: Final = """
(enough) => {
  const channel = (c) => { c /= 255; return c <= 0.04045 ? c / 12.92 : ((c + 0.055) / 1.055) ** 2.4; };
  const luminance = ([r, g, b]) => 0.2126 * channel(r) + 0.7152 * channel(g) + 0.0722 * channel(b);
  const numbers = (colour) => colour.match(/[\\d.]+/g).map(Number);
  const behind = (each) => {
    for (let at = each; at; at = at.parentElement) {
      const colour = numbers(getComputedStyle(at).backgroundColor);
      if (colour.length === 3 || colour[3] > 0.99) return colour;
    }
    return [255, 255, 255];
  };
  const found = [];
  const texts = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
  for (let node = texts.nextNode(); node; node = texts.nextNode()) {
    const each = node.parentElement;
    if (!node.data.replace(/[_\\s]/g, "") || !each.getClientRects().length) continue;
    if (each.closest(".unseen, .skip, title")) continue;
    const style = getComputedStyle(each);
    const front = numbers(each.closest("svg") ? style.fill : style.color);
    const [a, b] = [luminance(front), luminance(behind(each))].sort((x, y) => y - x);
    const ratio = (a + 0.05) / (b + 0.05);
    if (ratio < enough) found.push(`${ratio.toFixed(2)}: ${node.data.trim().slice(0, 40)}`);
  }
  return [...new Set(found)];
}
"""
"""Texts with less (lines to write on are none): relative luminance and contrast as WCAG 2.2 defines them,
against the nearest painted ground."""
