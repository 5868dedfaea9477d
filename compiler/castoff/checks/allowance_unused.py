"""An accepted finding does not occur.

An entry under `allow` takes one rule's findings off the list, with a reason. When nothing is left for it to accept, the
fault was mended or the rule's name is wrong, and the entry would one day accept a new fault unseen.

Fires:
    allow: [{rule: conversion-off, because: Rounded by hand.}]

Silent:
    measurements:
      chest: {label: Chest, is: 44 in / 102 cm}
    allow: [{rule: conversion-off, because: Kept as the publisher has it.}]
"""

from __future__ import annotations

from castoff.diagnostic import Rule

RULE = Rule("allowance-unused", "warning", __doc__ or "")
