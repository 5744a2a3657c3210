"""The dossier of a large build: as a document, as pages, with photos, and verified."""

from __future__ import annotations

import io
from collections.abc import Iterator
from dataclasses import replace

import numpy as np
from PIL import Image

from benchmarks.figure import Figure, quantile, timed
from benchmarks.large_build import CODE, READINGS
from fitwright.dossier.asked import Asked
from fitwright.dossier.making import make_dossier
from fitwright.records.kinds import Note, Photo
from fitwright.wiring import Shop
from fitwright.wiring.dossiers import material_of, verified_dossier

PHOTOS = 30
COMPLETE = Asked(CODE, "complete")


def figures(shop: Shop) -> Iterator[Figure]:
    """Measure them; verdicts and prediction are there before, as pages that were looked at leave them."""
    how = f"{READINGS} readings, complete, "
    shop.assessment(CODE)
    shop.oil(CODE)
    material_of(shop, CODE).known.prediction  # noqa: B018 - what the page Oil has worked out already
    made(shop)
    plain = timed(lambda: made(shop), 3, warm_up=0)
    yield Figure("dossier as PDF, no photos", quantile(plain, 0.5), "s", f"{how}median of 3", most=3.0)
    owner = timed(lambda: made(shop, Asked(CODE)), 3, warm_up=0)
    yield Figure("dossier as PDF, the owner's", quantile(owner, 0.5), "s", "median of 3", most=3.0)
    _photographed(shop)
    with_photos = timed(lambda: made(shop), 1, warm_up=0)
    yield Figure(f"dossier as PDF, {PHOTOS} photos", with_photos[0], "s", f"{how}of 12 megapixels", most=10.0)
    found = make_dossier(material_of(shop, CODE), COMPLETE)
    yield Figure("size of that file", len(found.pdf) / 1e6, "MB", f"{found.pages} pages")
    verified = timed(lambda: verified_dossier(found.pdf, name="large.pdf"), 1, warm_up=0)
    yield Figure("verifying it, no shop at hand", verified[0], "s", "the oil system solved anew")


def made(shop: Shop, asked: Asked = COMPLETE) -> None:
    """Everything, from the entries on, after one more of them: no page of it was printed before."""
    shop.write([shop.entry(Note(text="Looked at."), build=CODE)])
    make_dossier(material_of(shop, CODE), asked)


def _photographed(shop: Shop) -> None:
    """Photos as telephones take them: large, no two alike."""
    chance = np.random.default_rng(5)
    entries = []
    for number in range(PHOTOS):
        coarse = chance.integers(0, 255, (30, 40, 3), dtype=np.uint8)
        picture = Image.fromarray(coarse).resize((4000, 3000), Image.Resampling.BICUBIC)
        out = io.BytesIO()
        picture.save(out, "JPEG", quality=90)
        digest = shop.keep_photo(out.getvalue(), "image/jpeg")
        body = Photo(digest=digest, media_type="image/jpeg", caption=f"Photo {number}")
        entries.append(replace(shop.entry(body, build=CODE), person="builder"))
    shop.write(entries)
