"""The addresses of every page, for tests that look at all of them: demo, empty build, bolts, empty shop."""

from __future__ import annotations

import re

CODE = "corrie-five"
THOU = "brackengill-eleven"
READING = "836e4bfdb11752a082428d58055fdc4b"
"""A reading of main housing 4 in the shipped record."""

DEMO = {
    "builds": "/",
    "new build": "/builds/new",
    "engine": f"/builds/{CODE}",
    "engine across, hot, inverted": f"/builds/{CODE}?view=across&temperature=hot&attitude=stand",
    "stations": f"/builds/{CODE}/measure",
    "measure": f"/builds/{CODE}/measure/mains",
    "measure by blades": f"/builds/{CODE}/measure/lash?at=valve.1.inlet.a.cam_gap|whole",
    "measure in thou": f"/builds/{THOU}/measure",
    "fits": f"/builds/{CODE}/fits?state=as-received",
    "fits in thou": f"/builds/{THOU}/fits",
    "fits, both states": f"/builds/{CODE}/fits?state=both",
    "fits, none": f"/builds/{CODE}/fits?only=outside",
    "fit": f"/builds/{CODE}/fits/main.4.running_clearance",
    "fits, searched": f"/builds/{CODE}/fits?q=rod+bearing&critical=1&sort=in-hand&hot=full_load",
    "fit, a reading opened": f"/builds/{CODE}/fits/main.4.running_clearance?reading={READING}",
    "fit, history": f"/builds/{CODE}/fits/main.4.running_clearance/history",
    "fit by blades": f"/builds/{CODE}/fits/valve.1.inlet.a.lash",
    "centring": f"/builds/{CODE}/fits/pump.housing_offset?state=as-received",
    "oil": f"/builds/{CODE}/oil",
    "oil, what if, against another": f"/builds/{CODE}/oil?at=pull-4000&w.mains=0.02&w.shim=0.5&a.mains=0.01",
    "oil in psi": f"/builds/{THOU}/oil",
    "oil, the card": f"/builds/{CODE}/oil/card",
    "oil, films over the cycle": f"/builds/{CODE}/oil/cycle?at=pull-4000",
    "oil, films over the cycle in millionths": f"/builds/{THOU}/oil/cycle",
    "assembly": f"/builds/{CODE}/assembly",
    "assembly, a form": f"/builds/{CODE}/assembly?do=heat",
    "step": f"/builds/{CODE}/assembly/steps/bottom_end.looked_at",
    "step, a consumable": f"/builds/{CODE}/assembly/steps/pump.closed?do=used",
    "tightening group": f"/builds/{CODE}/assembly/groups/head_nuts?at=head.stud.3",
    "tightening group by stretch": f"/builds/{CODE}/assembly/groups/rod_bolts?at=rod.1.bolt.a&pass=2",
    "tightening group in pound feet": f"/builds/{THOU}/assembly/groups/big_end_bolts?do=loosen",
    "order of work on paper": f"/builds/{CODE}/assembly/paper?stage=Bottom+end",
    "tightening group on paper": f"/builds/{CODE}/assembly/groups/head_nuts/paper",
    "put right": f"/builds/{CODE}/put-right",
    "put right, a concession": f"/builds/{CODE}/put-right?do=grant&subject=main.4.running_clearance",
    "put right, an order": f"/builds/{CODE}/put-right?do=order&part=crank-4471",
    "put right in thou": f"/builds/{THOU}/put-right?do=permit",
    "dossier": f"/builds/{CODE}/dossier",
    "dossier, to sign": f"/builds/{CODE}/dossier?do=sign",
    "dossier, to hand over": f"/builds/{CODE}/dossier?do=hand-over",
    "verify": "/verify",
    "parts": f"/builds/{CODE}/parts",
    "parts, said": f"/builds/{CODE}/parts?list=said",
    "parts, swap": f"/builds/{CODE}/parts?do=swap&one=main.3.shell_upper&other=main.4.shell_upper",
    "parts, rework": f"/builds/{CODE}/parts?do=rework&part=block-c5-0117",
    "parts, choose": f"/builds/{CODE}/parts?do=choose&dimension=main.4.fitted_bore",
    "parts of a station": f"/builds/{CODE}/parts?do=parts&station=mains",
    "part": f"/builds/{CODE}/parts/one?position=main.4.shell_upper",
    "sheet": f"/builds/{CODE}/sheet",
    "forms": f"/builds/{CODE}/forms",
    "form": f"/builds/{CODE}/forms/mains",
    "labels": f"/builds/{CODE}/labels",
    "from paper": f"/builds/{CODE}/paper/mains",
    "record": f"/builds/{CODE}/record",
    "shop": "/shop",
    "people": "/shop/people",
    "person": "/shop/people/builder",
    "instruments": "/shop/instruments",
    "settings": "/shop/settings",
    "blade sets": "/shop/blades",
    "sources": "/shop/sources",
    "studies": "/shop/studies",
    "rules": "/shop/rules",
    "new instrument": "/shop/instruments?kind=bore+gauge",
    "instrument": "/shop/instruments/B1",
    "setting": "/shop/settings/S-013",
    "blade set": "/shop/blades/F1?blade=0.05",
    "new study": "/shop/studies?gauge=M3",
    "entry of the shop": "/shop/entries/4",
    "sums": "/sums",
    "sum": "/sums/blades",
    "help": "/help",
    "help on measure": "/help/measure",
    "problem": "/nowhere",
}
"""Pages of the demo shop by name."""

BEGUN = {
    name: address.replace(CODE, "first").replace("/measure/mains", "/measure")
    for name, address in DEMO.items()
    if CODE in address
    and "?" not in address
    and "mains" not in address
    and not any(part in address for part in ("/fits/", "/steps/", "/groups/"))
}
"""The pages of a build of which nothing is measured."""

EMPTY = {
    name: address
    for name, address in DEMO.items()
    if address == "/builds/new" or not re.match(r"/builds/|/shop/\w+/", address)
}
"""The pages of a shop without anything."""

BOLTS = {
    "tightening group, a new set": "/builds/small/assembly/groups/caps?do=new-set",
}
"""Pages of a build whose fasteners are positions of its sheet; those of the demo are none."""
