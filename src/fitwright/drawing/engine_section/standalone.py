"""The same drawing as a file of its own, with its style inside; black on white suffices to read it."""

from __future__ import annotations

_STYLE = (
    "svg{background:#f7f4ec;color:#1d1d1b;font-family:'IBM Plex Sans','DejaVu Sans',sans-serif}"
    "path,line,circle{stroke-linejoin:round;stroke-linecap:round}"
    ".es-ground{fill:#f7f4ec}.es-hatch{fill:none;stroke:#4f4b43;stroke-width:.7}"
    ".es-edge{fill:none;stroke:#1d1d1b;stroke-width:2.4}"
    ".es-cut{stroke:#1d1d1b;stroke-width:1.2}.es-part{fill:#f7f4ec;stroke:#1d1d1b;stroke-width:1}"
    ".es-void{fill:#f7f4ec;stroke:#1d1d1b;stroke-width:1.1}.es-bare{stroke:none}"
    ".es-solid{fill:#1d1d1b;stroke:#1d1d1b;stroke-width:.5}"
    ".es-fine,.es-thin,.es-wire,.es-fin,.es-wall{fill:none;stroke:#1d1d1b;stroke-width:.7}"
    ".es-thin{stroke-width:1.6}.es-wire{stroke-width:1.3}.es-fin{stroke-width:1.8}.es-wall{stroke-width:2.2}"
    ".es-hidden,.es-phantom{fill:none;stroke:#1d1d1b;stroke-width:.8;stroke-dasharray:4 3}"
    ".es-phantom{stroke-dasharray:12 3 3 3 3 3}"
    ".es-centre{fill:none;stroke:#4f4b43;stroke-width:.7;stroke-dasharray:14 3 2.5 3}"
    ".es-chain{fill:#f7f4ec;stroke:#1d1d1b;stroke-dasharray:5 2}"
    ".es-level{fill:none;stroke:#4f4b43;stroke-width:.8;stroke-dasharray:9 5}"
    ".es-mesh{fill:none;stroke:#1d1d1b;stroke-width:2.4;stroke-dasharray:2 2}"
    ".es-pipe{fill:none;stroke:#1d1d1b;stroke-width:9}.es-pipe-bore{fill:none;stroke:#f7f4ec;stroke-width:7}"
    ".es-measure,.es-extension{fill:none;stroke:#4f4b43;stroke-width:.8}.es-extension{stroke-width:.5}"
    ".es-arrow{fill:#4f4b43;stroke:none}"
    ".es-number{font:12px 'IBM Plex Mono','DejaVu Sans Mono',monospace}"
    ".es-number,.es-direction{fill:#1d1d1b;paint-order:stroke;stroke:#f7f4ec;stroke-width:4px}"
    ".es-direction{font-size:12px;font-style:italic}"
    ".es-heading{font-size:16px;font-weight:600;fill:#1d1d1b}.es-small{font-size:12px;fill:#4f4b43}"
    ".es-rule{stroke:#8a867c}.es-scale{fill:#f7f4ec;stroke:#1d1d1b}.es-scale-dark{fill:#1d1d1b;stroke:#1d1d1b}"
    ".es-leader{stroke:#1f4e8c;stroke-width:1}.es-dot{fill:#f7f4ec;stroke:#1f4e8c;stroke-width:1.6}"
    ".es-touch{fill:#fffdf7;stroke:#1f4e8c;stroke-width:1.5}.es-touch-outside{stroke:#962a10;stroke-width:2.6}"
    ".es-touch-unproven{stroke-dasharray:6 4}.es-touch-not-measured,.es-touch-none{stroke-width:.8}"
    ".es-touch-hot{fill:#d8d2c4}"
    ".es-title{font-size:12px;font-weight:600;fill:#1d1d1b}a .es-title{fill:#1f4e8c}"
    ".es-words{font-size:12px;fill:#1d1d1b}"
    ".mark{fill:none;stroke:#1d1d1b;stroke-width:3}.mark-outside{stroke:#962a10}"
    ".mark-question{fill:#1d1d1b;font-size:26px;font-weight:600}"
    "@media print{svg,.es-ground,.es-part,.es-void,.es-touch{background:#fff}"
    ".es-ground,.es-part,.es-void,.es-chain,.es-touch,.es-dot,.es-scale{fill:#fff}"
    ".es-pipe-bore,.es-number,.es-direction{stroke:#fff}}"
)


def with_style(svg: str) -> str:
    """A drawing with its style inside, as the text of a file."""
    head, _, rest = svg.partition(">")
    return f'<?xml version="1.0" encoding="UTF-8"?>\n{head}><style>{_STYLE}</style>{rest}\n'
