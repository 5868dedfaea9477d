# ruff: noqa: E501 - pairs of lines stand side by side
"""Whatever the parser can say, the needle hears: each field of each node changes the fabric or what is found.

For every field there are two works that read the same but for that field, and knit differently; or the reason why the
field is for the document and the knitter's hands, and changes no stitch.
"""

from __future__ import annotations

import dataclasses
from collections.abc import Iterator
from typing import get_args

import pytest
from tests.knitting.plans import lines, plan_of

from castoff.knitting.knit import knit
from castoff.knitting.plan import StitchPattern
from castoff.notation import syntax
from castoff.notation.syntax import Form

FLAT = "Cast on 20 sts.\n{}\nBind off all sts."
TWENTY_HELD = "Cast on 40 sts.\nRow 1 (RS): K20, place next 20 sts on {}, turn.\n"
WRAPPED = "Row 1 (RS): K10, w&t.\nRow 2: P10.\n"
TWICE = WRAPPED + "Row 3: K9, w&t.\nRow 4: P9.\n"
HAND = "for the knitter's hand: "
PRINT = "for the document: "
DIVIDED = "Row 1 (RS): K8, join a second ball of yarn and bind off 4 sts, k to end.\nWork both sides at once.\n"
CROWN = "round|Rnd 1: *K3, k2tog; rep from * to end.\n"
GROUND = "the ground below decides, "

PAIRS: dict[str, tuple[str, str] | str] = {
    # acts
    "Stitch.name": ("Row 1: K2tog, k18.", "Row 1: Yo, k20."),
    "Stitch.count": ("Row 1: K20.", "Row 1: K19."),
    "Stitch.yarn_held": HAND + "where the yarn lies while a stitch is slipped",
    "Stitch.manner": HAND + "how the needle goes in",
    "Stitch.of": HAND + "a name for the stitches that are counted out beside it",
    "StitchTo.name": ("Row 1 (RS): K to end.", "Row 1 (RS): P to end."),
    "StitchTo.target": ("Row 1: K to last 2 sts, k2tog.", "Row 1: K to last 3 sts, k2tog."),
    "StitchTo.yarn_held": HAND + "where the yarn lies while stitches are slipped",
    "WorkFabric.fabric": ("Row 1 (RS): K2, garter st to end.", "Row 1 (RS): K2, rev st st to end."),
    "WorkFabric.over": ("Row 1: Seed st over next 5 sts, k15.", "Row 1: Seed st over next 6 sts, k15."),
    "WorkFabric.way": PRINT + "where so many stitches lead",
    "Repeat.body": ("Row 1: *K1, p1; rep from * to end.", "Row 1: *P1, k1; rep from * to end."),
    "Repeat.times": ("Row 1: [K1, p1] 10 times.", "Row 1: [K1, p1] 9 times."),
    "Repeat.last": ("Row 1: *K2, p1; rep from * to end, ending last rep k1.", "Row 1: *K2, p1; rep from * to end, ending last rep k3."),
    "Repeat.mark": PRINT + "which mark opens a repeat",
    "IntoOne.body": ("Row 1: (K1, yo, k1) in next st, k19.", "Row 1: (K1, p1) in next st, k19."),
    "IntoOne.takes": ("Row 1: (K1, yo, k1) in next 2 sts, k18.", "Row 1: (K1, yo, k1) in next 3 sts, k18."),
    "Cable.held": ("Row 1: Sl 2 to cn and hold in front, k2, k2 from cn, k16.",
                   "Row 1: Sl 1 to cn and hold in front, k2, k2 from cn, k16."),
    "Cable.hold": ("Row 1: Sl 2 to cn and hold in front, k2, k2 from cn, k16.",
                   "Row 1: Sl 2 to cn and hold in back, k2, k2 from cn, k16."),
    "Cable.over": ("Row 1: Sl 2 to cn and hold in front, k2, k2 from cn, k16.",
                   "Row 1: Sl 2 to cn and hold in front, p1, k2 from cn, k16."),
    "Cable.back": ("Row 1: Sl 2 to cn and hold in front, k2, k2 from cn, k16.",
                   "Row 1: Sl 2 to cn and hold in front, k2, p2 from cn, k16."),
    "MarkerAct.act": ("Row 1: K10, pm, k10.\nRow 2: P10, sm, p10.", "Row 1: K10, pm, k10.\nRow 2: P10, rm, p10."),
    "MarkerAct.name": ("Row 1: K5, pm for side, k5, pm for back, k10.\nRow 2: P10, slip back marker, p to end.",
                       "Row 1: K5, pm for side, k5, pm for back, k10.\nRow 2: P10, slip side marker, p to end."),
    "MarkerAct.every": ("Row 1: K9, pm, k1, pm, k10.\nRow 2: Purl, removing markers.\nRow 3: K to marker, k to end.",
                        "Row 1: K9, pm, k1, pm, k10.\nRow 2: P10, remove marker, p10.\nRow 3: K to marker, k to end."),
    "MarkStitch.which": ("Row 1: K9, k1, mark this st, k10.\nRow 2: P to marked st, p10.", "Row 1: K9, k1, mark the next st, k10.\nRow 2: P to marked st, p10."),
    "MarkStitch.at": ("Mark the 9th st.\nRow 1: K to marked st, k9.", "Mark the 10th st.\nRow 1: K to marked st, k9."),
    "MarkStitch.behind": ("Place a marker after the 9th st.\nRow 1: K to m, k9.", "Place a marker in the 9th st.\nRow 1: K to m, k9."),
    "UseYarn.yarns": ("Row 1: With B, k20.", "Row 1: With A, k20."),
    "UseYarn.body": ("Row 1: K19, k1 in B.", "Row 1: K18, k2 in B."),
    "UseYarn.joins": ("Break B.\nRow 1: K10, join B, k10.", "Break B.\nRow 1: K10, with B, k10."),
    "BindOffAct.count": ("Row 1: Bind off 3 sts, k to end.", "Row 1: Bind off 4 sts, k to end."),
    "BindOffAct.target": ("Row 1: K2, bind off to last 2 sts, k1.", "Row 1: K2, bind off to last 3 sts, k1."),
    "BindOffAct.manner": HAND + "loosely, in pattern",
    "BindOffAct.on_right": ("Row 1: K4, bind off 4 sts (5 sts on right needle), k11.",
                            "Row 1: K4, bind off 4 sts (6 sts on right needle), k11."),
    "CastOnAct.count": ("Row 1: K20, cast on 3 sts.", "Row 1: K20, cast on 4 sts."),
    "CastOnAct.where": ("Row 1: K8, bind off 4 sts, k to end.\nRow 2: P7, cast on 4 sts over gap, p to end.",
                        "Row 1: K8, bind off 4 sts, k to end.\nRow 2: P7, cast on 4 sts, p to end."),
    "CastOnAct.method": HAND + "how the loops are made",
    "PickUp.count": ("Row 1: K20, pick up and knit 4 sts along edge.", "Row 1: K20, pick up and knit 5 sts along edge."),
    "PickUp.edge": ("Row 1: K20, pick up and knit 4 sts along left edge.",
                    "Row 1: K20, pick up and knit 4 sts along right edge."),
    "PickUp.ratio": ("With RS facing, pick up and knit 3 sts for every 4 rows along edge.",
                     "With RS facing, pick up and knit 3 sts along edge."),
    "PickUp.knit": HAND + "whether the yarn is drawn through as they are picked up or in the next row",
    "PickUp.purl": ("Row 1 (RS): K20, pick up and knit 4 sts along edge.",
                    "Row 1 (RS): K20, pick up and purl 4 sts along edge."),
    "HoldAct.count": ("Row 1: K10, place next 5 sts on holder, k5.", "Row 1: K10, place next 4 sts on holder, k5."),
    "HoldAct.holder": ("Row 1: K10, place next 10 sts on waste yarn.", "Row 1: K10, place next 10 sts on holder."),
    "HoldAct.target": ("Row 1: K5, pm for A, k5, pm for B, k10.\nRow 2: P8, place sts to marker A on holder, p5.",
                       "Row 1: K5, pm for A, k5, pm for B, k10.\nRow 2: P8, place sts to marker B on holder, p5."),
    "HoldAct.worked": ("Row 1: K10, place next 4 sts on holder, k to end.", "Row 1: K10, place last 4 sts on holder, k to end."),
    "HoldAct.on": PRINT + "which notions the rows need",
    "HoldAct.told": ("Row 1: K10, place rem 9 sts on holder, turn.", "Row 1: K10, place next 9 sts on holder, turn."),
    "HoldAct.behind": ("round|Rnd 1: K7, place these 7 sts just worked and last 6 sts of previous rnd on thread, k to end.",
                       "round|Rnd 1: K7, place these 7 sts just worked and last 5 sts of previous rnd on thread, k to end."),
    "HoldAct.total": ("round|Rnd 1: K7, place these 7 sts just worked and last 6 sts of previous rnd on thread (13 sts), k to end.",
                      "round|Rnd 1: K7, place these 7 sts just worked and last 6 sts of previous rnd on thread (14 sts), k to end."),
    "SlipHeld.count": (
        TWENTY_HELD.format("holder") + "Bind off.\nWith RS facing, sl first 5 sts from holder onto right needle, k rem 15 sts, pick up and k 2 sts along edge, k 5 sts from holder.",
        TWENTY_HELD.format("holder") + "Bind off.\nWith RS facing, sl first 6 sts from holder onto right needle, k rem 15 sts, pick up and k 2 sts along edge, k 5 sts from holder."),
    "SlipHeld.holder": (
        TWENTY_HELD.format("holder for left") + "Bind off.\nWith RS facing, sl first 5 sts from left holder onto right needle, k rem 15 sts, pick up and k 2 sts along edge, k 5 sts from left holder.",
        TWENTY_HELD.format("holder for left") + "Bind off.\nWith RS facing, sl first 5 sts from right holder onto right needle, k rem 15 sts, pick up and k 2 sts along edge, k 5 sts from left holder."),
    "WorkHeld.holder": (
        TWENTY_HELD.format("holder for left") + "Row 2: P20.\nRow 3: K20, k20 from left holder.",
        TWENTY_HELD.format("holder for left") + "Row 2: P20.\nRow 3: K20, k20 from right holder."),
    "WorkHeld.count": (
        TWENTY_HELD.format("holder") + "Row 2: P20.\nRow 3: K20, k20 from holder.",
        TWENTY_HELD.format("holder") + "Row 2: P20.\nRow 3: K20, k19 from holder."),
    "WorkHeld.body": (
        TWENTY_HELD.format("holder") + "Row 2: P20.\nRow 3: K20, k20 from holder.",
        TWENTY_HELD.format("holder") + "Row 2: P20.\nRow 3: K20, p20 from holder."),
    "WorkHeld.which": (
        TWENTY_HELD.format("holder") + "Row 2: P20.\nRow 3: K20, k the first 10 sts from holder.",
        TWENTY_HELD.format("holder") + "Row 2: P20.\nRow 3: K20, k the remaining 10 sts from holder."),
    "Turn.method": ("Row 1: K10, turn.\nRow 2: P10.", "Row 1: K10, w&t.\nRow 2: P10."),
    "PickUpWrap.stitch": (WRAPPED + "Row 3 (RS): K to wrapped st, k it tog with its wrap, k9.",
                          WRAPPED + "Row 3 (RS): K to wrapped st, p it tog with its wrap, k9."),
    "PickUpWrap.count": (TWICE + "Row 5: K9, k next 2 wrapped sts tog with their wraps, k9.",
                         TWICE + "Row 5: K9, k next 3 wrapped sts tog with their wraps, k8."),
    "PickUpWrap.come": (TWICE + "Row 5: K to end, picking up wraps.",
                        TWICE + "Row 5: K9, work wrapped st tog with its wrap, k10."),
    "PickUpWrap.both": (WRAPPED + "Row 3: K10, k wrapped st tog with its wrap, k9.",
                        WRAPPED + "Row 3: K10, k wrapped st tog with both wraps, k9."),
    "PickUpWrap.what": (WRAPPED + "Row 3: K10, k wrapped st tog with its wrap, k9.", WRAPPED + "Row 3: K10, k ds, k9."),
    "Drop.count": ("Row 1: *K1, yo, yo, yo; rep from * to end.\nRow 2: Purl, dropping 2 of each 3 yos.",
                   "Row 1: *K1, yo, yo, yo; rep from * to end.\nRow 2: Purl, dropping 1 of each 3 yos."),
    "Drop.of": ("Row 1: *K1, yo, yo, yo; rep from * to end.\nRow 2: Purl, dropping 2 of each 3 yos.",
                "Row 1: *K1, yo, yo, yo; rep from * to end.\nRow 2: Purl, dropping 2 of each 4 yos."),
    "Join.other": (
        TWENTY_HELD.format("holder for second leg") + "Row 2: P20.\nRow 3: K20, k across sts of second leg.\nRow 4: P40.",
        TWENTY_HELD.format("holder for second leg") + "Row 2: P20.\nRow 3: K20, k across sts of first sleeve.\nRow 4: P40."),
    "Join.stitch": (
        TWENTY_HELD.format("holder for second leg") + "Row 2: P20.\nRow 3: K20, k across sts of second leg.\nRow 4: P40.",
        TWENTY_HELD.format("holder for second leg") + "Row 2: P20.\nRow 3: K20, p across sts of second leg.\nRow 4: P40."),
    "Evenly.change": ("Row 1: Knit, inc 4 sts evenly.", "Row 1: Knit, inc 5 sts evenly."),
    "Evenly.decrease": ("Row 1: Knit, inc 4 sts evenly.", "Row 1: Knit, dec 4 sts evenly."),
    "Evenly.made": ("Row 1: Knit, inc evenly to 24 sts.", "Row 1: Knit, inc evenly to 25 sts."),
    "Fabric.border": ("Work in St st, keeping first and last 3 sts in garter st, for 4 rows.",
                      "Work in St st, keeping first and last 4 sts in garter st, for 4 rows."),
    "Border.stitches": ("Work in St st, keeping first and last 3 sts in garter st, for 4 rows.",
                        "Work in St st, keeping first and last 4 sts in garter st, for 4 rows."),
    "Border.fabric": ("Work in St st, keeping first and last 3 sts in garter st, for 4 rows.",
                      "Work in St st, keeping first and last 3 sts in seed st, for 4 rows."),
    "OnLastRow.act": ("Knit 4 rows, inc 4 sts evenly on last row.", "Knit 4 rows, inc 5 sts evenly on last row."),
    "UntilMatch.short_of": "held by test_pieces.py: it takes two pieces",
    "OpeningAct.count": ("Row 1: K2, k4 with waste yarn, sl these 4 sts back to lh needle and k them again, k to end.",
                         "Row 1: K2, k5 with waste yarn, sl these 5 sts back to lh needle and k them again, k to end."),
    "Label.yarn": ("Row 1 (A): Knit.", "Row 1 (B): Knit."),
    "Evenly.stitch": ("Row 1: Knit, inc 4 sts evenly using m1l.", "Row 1: Knit, inc 4 sts evenly using m1r."),
    "Evenly.fabric": ("Row 1 (RS): Knit, inc 4 sts evenly.", "Row 1 (RS): Purl, inc 4 sts evenly."),
    "Evenly.target": ("Row 1: Inc 4 sts evenly to last 2 sts, k2.", "Row 1: Inc 4 sts evenly to last 3 sts, k2."),
    "EndShaping.stitches": ("Row 1: Dec 1 st at each end.", "Row 1: Dec 2 sts at each end."),
    "EndShaping.decrease": ("Row 1: Dec 1 st at each end.", "Row 1: Inc 1 st at each end."),
    "EndShaping.ends": ("Row 1: Dec 1 st at each end.", "Row 1: Dec 1 st at neck edge."),
    "EndShaping.fabric": ("Row 1 (RS): Knit, dec 1 st at each end.", "Row 1 (RS): Purl, dec 1 st at each end."),
    "Remark.words": HAND + "listed set phrases",
    # steps
    "RowStep.label": ("Row 1 (RS): Knit.\nRow 2: Purl.", "Row 1 (RS): Knit.\nRow 3: Purl."),
    "RowStep.work": ("Row 1 (RS): Knit.", "Row 1 (RS): Purl."),
    "RowsAs.label": ("Row 1: Knit.\nRow 2: As row 1.", "Row 1: Knit.\nRow 3: As row 1."),
    "RowsAs.rows": ("Row 1 (RS): Knit.\nRow 2: Knit.\nRow 3: As row 1.", "Row 1 (RS): Knit.\nRow 2: Knit.\nRow 3: As row 5."),
    "RowsAs.times": ("Row 1 (RS): Knit.\nRow 2: Purl.\nRows 3–6: Rep rows 1 and 2 twice.",
                     "Row 1 (RS): Knit.\nRow 2: Purl.\nRows 3–6: Rep rows 1 and 2 three times."),
    "RepeatRows.rows": ("Row 1 (RS): Knit.\nRow 2: Purl.\nRep rows 1 and 2 twice more.",
                        "Row 1 (RS): Knit.\nRow 2: Purl.\nRep row 2 twice more."),
    "RepeatRows.times": ("Row 1 (RS): Knit.\nRep row 1 twice more.", "Row 1 (RS): Knit.\nRep row 1 3 more times."),
    "RepeatRows.extent": ("Row 1 (RS): Knit.\nRep row 1 until piece measures 4 cm.",
                          "Row 1 (RS): Knit.\nRep row 1 until piece measures 6 cm."),
    "RepeatRows.every": ("Dec row (RS): K2tog, k to end.\nRep dec row every 2nd row 3 more times.",
                         "Dec row (RS): K2tog, k to end.\nRep dec row every 4th row 3 more times."),
    "RepeatRows.every_side": ("Dec row (RS): K2tog, k to end.\nRep dec row every RS row 3 more times.",
                              "Dec row (RS): K2tog, k to end.\nRep dec row every WS row 3 more times."),
    "RepeatRows.then": ("Dec row (RS): K2tog, k to end.\nRep dec row every 2nd row 2 more times, then every 4th row twice.",
                        "Dec row (RS): K2tog, k to end.\nRep dec row every 2nd row 2 more times, then every 6th row twice."),
    "RepeatRows.start": ("Row 1 (RS): Knit.\nRow 2: Purl.\nBeg with a RS row, rep rows 1 and 2 twice.",
                         "Row 1 (RS): Knit.\nRow 2: Purl.\nBeg with a WS row, rep rows 1 and 2 twice."),
    "WorkRows.fabric": ("Work in St st for 4 rows.", "Work in garter st for 4 rows."),
    "WorkRows.extent": ("Work in St st for 4 rows.", "Work in St st for 5 rows."),
    "WorkRows.over": ("Knit 4 rows on these 20 sts.", "Knit 4 rows on these 21 sts."),
    "WorkRows.which": ("Row 1: K10, pm, k10.\nKnit 3 rows on the last 10 sts.\nBind off 10 sts.", "Row 1: K10, pm, k10.\nKnit 3 rows on these 10 sts.\nBind off 10 sts."),
    "WorkRows.part": PRINT + "what the rows are for",
    "SetFabric.fabric": ("Cont in garter st.\nDec 1 st at each end of next and every foll 4th row twice.",
                         "Cont in St st.\nDec 1 st at each end of next and every foll 4th row twice."),
    "ShapeRows.act": ("Dec 1 st at each end of next and every foll 4th row twice.",
                      "Inc 1 st at each end of next and every foll 4th row twice."),
    "ShapeRows.rates": ("Dec 1 st at each end of next and every foll 4th row twice.",
                        "Dec 1 st at each end of next and every foll 6th row twice."),
    "ShapeRows.until": ("Dec 1 st at each end of every RS row until 12 sts rem.",
                        "Dec 1 st at each end of every RS row until 10 sts rem."),
    "ShapeRows.fabric": PRINT + "the parser leaves it open; the fabric in work stands between the shaping rows",
    "ShapeRows.new": ("Work 2 rows in garter st.\nInc 1 st at each end of next row and foll 2 alt rows, working new sts in St st.\nWork 2 rows even.",
                      "Work 2 rows in garter st.\nInc 1 st at each end of next row and foll 2 alt rows.\nWork 2 rows even."),
    "BindOffAtEdges.groups": (DIVIDED + "At each neck edge, bind off 3 sts once.\nBind off all sts.",
                              DIVIDED + "At each neck edge, bind off 2 sts once.\nBind off all sts."),
    "GoOnShaping.rows": ("round|Rnd 1: *K3, k2tog; rep from * to end.\nRnd 2: Knit.\nRnd 3: Knit.\nRep rnds 1 and 2, working 1 st fewer between decs, twice.",
                         "round|Rnd 1: *K3, k2tog; rep from * to end.\nRnd 2: Knit.\nRnd 3: Knit.\nRep rnds 1–3, working 1 st fewer between decs, twice."),
    "GoOnShaping.change": (CROWN + "Cont to dec 4 sts in this way every rnd until 8 sts rem.",
                           CROWN + "Cont to dec 5 sts in this way every rnd until 8 sts rem."),
    "GoOnShaping.decrease": (CROWN + "Cont to dec 4 sts in this way every rnd until 8 sts rem.",
                             CROWN + "Cont to inc 4 sts in this way every rnd until 8 sts rem."),
    "GoOnShaping.fewer": (CROWN + "Rep last rnd, working 1 st fewer between decs, twice.",
                          CROWN + "Rep last rnd, working 2 sts fewer between decs, twice."),
    "GoOnShaping.more": (CROWN + "Rep last rnd, working 1 st fewer between decs, twice.",
                         CROWN + "Rep last rnd, working 1 st more between decs, twice."),
    "GoOnShaping.where": ("Row 1 (RS): K9, k2tog, k9.\nRow 2: Purl.\nCont in this way, working 1 st fewer on each side of the dec, until 17 sts rem.",
                          "Row 1 (RS): K9, k2tog, k9.\nRow 2: Purl.\nCont in this way, working 1 st fewer before each dec, until 17 sts rem."),
    "GoOnShaping.instead": (CROWN + "Rep last rnd, working k2 instead of k3, twice.",
                            CROWN + "Rep last rnd, working k1 instead of k3, twice."),
    "GoOnShaping.legs": (CROWN + "Cont to dec in this way every rnd until 8 sts rem.",
                         CROWN + "Cont to dec in this way every other rnd until 8 sts rem."),
    "AtBeginning.act": ("Bind off 2 sts at beg of next 2 rows.", "Bind off 3 sts at beg of next 2 rows."),
    "AtBeginning.rows": ("Bind off 2 sts at beg of next 2 rows.", "Bind off 2 sts at beg of next 4 rows."),
    "AtBeginning.at_end": ("Row 1: K10, pm, k10.\nCast on 2 sts at beg of next 2 rows.\nRow 1: K to m, k2.",
                           "Row 1: K10, pm, k10.\nCast on 2 sts at end of next 2 rows.\nRow 1: K to m, k2."),
    "AtBeginning.fabric": PRINT + "the parser leaves it open; the rest of the row goes on as it stands",
    "AtBeginning.rest": ("Bind off 2 sts at beg of next row, k to end.", "Bind off 2 sts at beg of next row, k to last 2 sts, k2tog."),
    "AtBeginning.side": ("Bind off 2 sts at beg of next RS row, k to end.", "Bind off 2 sts at beg of next WS row, k to end."),
    "CastOn.count": ("Cast on 20 sts.\nRow 1: K20.", "Cast on 21 sts.\nRow 1: K20."),
    "CastOn.method": ("Cast on 20 sts using the long-tail method.\nKnit 1 row.",
                      "Cast on 20 sts using the cable method.\nKnit 1 row."),
    "CastOn.yarns": ("With A, cast on 20 sts.\nKnit 1 row.", "With B, cast on 20 sts.\nKnit 1 row."),
    "CastOn.needles": ("With larger needles, cast on 20 sts.\nKnit 1 row.", "With smaller needles, cast on 20 sts.\nKnit 1 row."),
    "CastOn.provisional": HAND + "the waste yarn is found by the document",
    "JoinRound.form": ("Join to work in the round.\nNext rnd: Purl.\nPurl 3 rows.", "Work back and forth in rows.\nNext row: Purl.\nPurl 3 rows."),
    "JoinRound.over": ("Row 1: Knit.\nWork back and forth in rows on the first 12 sts.\nNext row: P12.",
                       "Row 1: Knit.\nWork back and forth in rows on the first 10 sts.\nNext row: P12."),
    "JoinRound.what": PRINT + "a name for the part",
    "JoinRound.which": ("Row 1: K10, pm, k10.\nWork back and forth in rows on the first 12 sts.\nNext row: P2, sm, p10.",
                        "Row 1: K10, pm, k10.\nWork back and forth in rows on the last 12 sts.\nNext row: P2, sm, p10."),
    "Arrange.groups": ("Arrange sts over 2 needles: 10 sts on needle 1, 10 sts on needle 2.\nKnit 1 row.",
                       "Arrange sts over 2 needles: 10 sts on needle 1, 11 sts on needle 2.\nKnit 1 row."),
    "Arrange.told": ("12 sts on needle 1, 8 sts on needle 2.\n10 sts on needle 1, 10 sts on needle 2.\nKnit 1 row.",
                     "12 sts on needle 1, 8 sts on needle 2.\nArrange sts as follows: 10 sts on needle 1, 10 sts on needle 2.\nKnit 1 row."),
    "ShiftStitches.count": ("10 sts on needle 1, 10 sts on needle 2.\nSlip 2 sts from needle 1 to needle 2.\n8 sts on needle 1, 12 sts on needle 2.",
                            "10 sts on needle 1, 10 sts on needle 2.\nSlip 3 sts from needle 1 to needle 2.\n8 sts on needle 1, 12 sts on needle 2."),
    "ShiftStitches.source": ("6 sts on N1, 8 sts on N2, 6 sts on N3.\nSlip 2 sts from N1 to N2.\n4 sts on N1, 10 sts on N2, 6 sts on N3.",
                             "6 sts on N1, 8 sts on N2, 6 sts on N3.\nSlip 2 sts from N3 to N2.\n4 sts on N1, 10 sts on N2, 6 sts on N3."),
    "ShiftStitches.to": ("6 sts on N1, 8 sts on N2, 6 sts on N3.\nSlip 2 sts from N2 to N1.\n8 sts on N1, 6 sts on N2, 6 sts on N3.",
                         "6 sts on N1, 8 sts on N2, 6 sts on N3.\nSlip 2 sts from N2 to N3.\n8 sts on N1, 6 sts on N2, 6 sts on N3."),
    "Arrange.needles": ("Arrange sts over 2 needles: 10 sts on needle 1, 10 sts on needle 2.\nKnit 1 row.",
                        "Arrange sts over 3 needles: 10 sts on needle 1, 10 sts on needle 2.\nKnit 1 row."),
    "RoundStart.between": ("round|Arrange sts over 2 needles.\nRnd begins between needle 2 and needle 1.\nKnit 1 rnd.",
                           "round|Arrange sts over 2 needles.\nRnd begins between needle 1 and needle 2.\nKnit 1 rnd."),
    "RoundStart.where": PRINT + "the place is that of the yarn; told against picked-up heels (see the worked examples)",
    "RowsForm.rows": ("Row 1: *K1, p1; rep from * to end.\nThis row forms seed stitch.", "Row 1: Knit.\nLast 2 rows form seed stitch."),
    "RowsForm.fabric": ("Row 1: *K1, p1; rep from * to end.\nRow 2: Knit.\nThese 2 rows form st st.",
                        "Row 1: *K1, p1; rep from * to end.\nRow 2: Knit.\nThese 2 rows form seed stitch."),
    "ChangeYarn.act": ("Break B.\nJoin B.\nKnit 1 row.", "Break B.\nChange to B.\nKnit 1 row."),
    "ChangeYarn.yarns": ("Change to A.\nKnit 1 row.", "Change to B.\nKnit 1 row."),
    "ChangeYarn.tail": PRINT + "what is left hanging",
    "ChangeYarn.note": PRINT + "where it hangs",
    "ChangeNeedles.needles": ("Change to larger needles.\nKnit 1 row.", "Change to smaller needles.\nKnit 1 row."),
    "BindOff.count": ("Knit 1 row.\nBind off 20 sts.", "Knit 1 row.\nBind off 19 sts."),
    "BindOff.beside": ("Mark the 9th st.\nKnit 1 row.\nBind off in rib, dec 1 st at each side of marked st.",
                       "Mark the 9th st.\nKnit 1 row.\nBind off in rib, dec 2 sts at each side of marked st."),
    "BindOff.as_before": ("Mark the 9th st.\nKnit 1 row.\nBind off in rib, dec 1 st at each side of marked st.",
                          "Mark the 9th st.\nKnit 1 row.\nBind off in rib, dec 1 st at each side of marked st as before."),
    "BindOff.manner": ("Knit 1 row.\nBind off all sts loosely.", "Knit 1 row.\nBind off all sts firmly."),
    "DrawThrough.count": ("Knit 1 row.\nDraw yarn through rem 20 sts.", "Knit 1 row.\nDraw yarn through rem 19 sts."),
    "Hold.act": ("Knit 1 row.\nPlace these 20 sts on a holder.", "Knit 1 row.\nPlace these 19 sts on a holder."),
    "Hold.leave": HAND + "whether they stay on the needle or go on a holder",
    "Hold.only": ("Row 1: K10, turn. Place these 10 sts on a holder.", "Row 1: K10, turn. Work on these 10 sts only."),
    "Hold.part": PRINT + "what the stitches are for",
    "Resume.parts": ("Knit 1 row.\nPlace these 20 sts on a holder.\nReturn 20 held sts to needle.",
                     "Knit 1 row.\nPlace these 20 sts on a holder.\nReturn 18 held sts to needle."),
    "Resume.needles": ("Knit 1 row.\nPlace these 20 sts on a holder.\nReturn held sts to larger needles.",
                       "Knit 1 row.\nPlace these 20 sts on a holder.\nReturn held sts to smaller needles."),
    "Resume.side": ("Knit 1 row.\nPlace these 20 sts on a holder.\nWith RS facing, rejoin yarn to held sts.\nRow 1 (RS): Knit.",
                    "Knit 1 row.\nPlace these 20 sts on a holder.\nWith WS facing, rejoin yarn to held sts.\nRow 1 (RS): Knit."),
    "Resume.rejoin": ("Knit 1 row.\nPlace these 20 sts on a holder.\nRejoin yarn to held sts.\nKnit 1 row.",
                      "Knit 1 row.\nPlace these 20 sts on a holder.\nReturn held sts to needle.\nKnit 1 row."),
    "Resume.first": ("Knit 1 row.\nPlace these 20 sts on a holder.\nReturn first 18 held sts to needle.",
                     "Knit 1 row.\nPlace these 20 sts on a holder.\nReturn 18 held sts to needle."),
    "Resume.note": PRINT + "at which edge the yarn is joined",
    "PickUpRow.parts": ("Bind off all sts.\nWith RS facing, pick up and knit 12 sts along edge.",
                        "Bind off all sts.\nWith RS facing, pick up and knit 13 sts along edge."),
    "PickUpRow.side": ("Bind off all sts.\nWith RS facing, pick up and knit 12 sts along edge.\nRow 1 (WS): Knit.",
                       "Bind off all sts.\nWith WS facing, pick up and knit 12 sts along edge.\nRow 1 (WS): Knit."),
    "PickUpRow.yarns": ("Bind off all sts.\nWith A, pick up and knit 12 sts along edge.",
                        "Bind off all sts.\nWith B, pick up and knit 12 sts along edge."),
    "PickUpRow.needles": ("Bind off all sts.\nWith larger needles, pick up and knit 12 sts along edge.",
                          "Bind off all sts.\nWith smaller needles, pick up and knit 12 sts along edge."),
    "PickUpRow.begin": PRINT + "where the row begins",
    "Place.act": ("Row 1: K10, pm, k10.\nRow 2: Purl.\nRemove all markers.\nRow 3: K to marker, k to end.",
                  "Row 1: K10, pm, k10.\nRow 2: Purl.\nPlace a marker.\nRow 3: K to marker, k to end."),
    "Place.where": ("Knit 4 rows.\nPlace a marker at each end of last row.\nWork in St st until armhole measures 5 cm.",
                    "Knit 4 rows.\nPlace a marker.\nWork in St st until armhole measures 5 cm."),
    "Place.count": PRINT + "how many markers the notions list",
    "Seam.manner": ("Bind off all sts.\nSew side seams.", "Bind off all sts.\nWhipstitch side seams."),
    "Seam.edges": ("Bind off all sts.\nSew side seams.", "Bind off all sts.\nSew shoulder seams."),
    "JoinShoulders.count": ("Join shoulders using three-needle bind-off, working 4 sts from front and back each side and leaving 4 sts on a holder for neck.",
                            "Join shoulders using three-needle bind-off, working 5 sts from front and back each side and leaving 4 sts on a holder for neck."),
    "JoinShoulders.rest": ("Join shoulders using three-needle bind-off, working 4 sts from front and back each side and leaving 4 sts on a holder for neck.",
                           "Join shoulders using three-needle bind-off, working 4 sts from front and back each side."),
    "Graft.parts": HAND + "which stitches lie against each other",
    "Graft.counts": ("Knit 1 row.\nGraft the 10 heel sts to the 10 toe sts.", "Knit 1 row.\nGraft the 10 heel sts to the 9 toe sts."),
    "Graft.manner": ("Knit 1 row.\nGraft toe sts.", "Knit 1 row.\nGraft toe sts using mattress stitch."),
    "Finish.act": ("Bind off all sts.\nBlock to measurements.", "Bind off all sts.\nSteam to measurements."),
    "Finish.words": PRINT + "the sentence as typed",
    "WorkAs.of": ("Knit 1 row.\n**\nKnit 1 row.\nWork as for Piece to **.", "Knit 1 row.\n**\nKnit 1 row.\nWork as for Sleeve to **."),
    "WorkAs.to": ("Knit 1 row.\n**\nKnit 1 row.\nWork as for Piece to **.", "Knit 1 row.\n**\nKnit 1 row.\nWork as for Piece to shoulders."),
    "WorkAs.start": ("Knit 1 row.\n*\nKnit 1 row.\n**\nKnit 1 row.\nWork as for Piece from * to **.",
                     "Knit 1 row.\n*\nKnit 1 row.\n**\nKnit 1 row.\nWork as for Piece from hem to **."),
    "WorkAs.reversed": "refused by the rule reversed-shaping",
    "WorkAs.rest": ("Knit 1 row.\nPurl 1 row.\n**\nKnit 3 rows.\nComplete as for Piece.",
                    "Knit 1 row.\nPurl 1 row.\n**\nKnit 3 rows.\nWork as for Piece to **."),
    "WorkAs.part": PRINT + "what is completed",
    "WorkAs.extent": ("Knit 1 row.\nWork as for Piece until piece measures 10 cm.", "Knit 1 row.\nWork as for Piece."),
    "Mark.mark": ("Knit 1 row.\n**\nKnit 1 row.\nWork as for Piece to **.", "Knit 1 row.\n***\nKnit 1 row.\nWork as for Piece to **."),
    "Total.stated": ("Row 1: Knit. 20 sts.", "Row 1: Knit. 21 sts."),
    "ToldRows.rows": ("Knit 4 rows.\n4 rows worked.", "Knit 4 rows.\n5 rows worked."),
    "ToldRows.unit": ("Knit 4 rows.\n4 rows worked.", "Knit 4 rows.\n4 ridges worked."),
    "ToldRows.where": PRINT + "the number is held against every stretch of rows that may be meant",
    "ToldRows.kind": PRINT + "what the rows are called",
    "ToldRepeat.chart": ("Work in patchwork for 2 rows.\nPatchwork rows rep every 4 rows.", "Work in St st for 2 rows.\nChart rows rep every 4 rows."),
    "ToldRepeat.rows": ("Work in patchwork for 2 rows.\nPatchwork rows rep every 4 rows.",
                        "Work in patchwork for 2 rows.\nPatchwork rows rep every 2 rows."),
    "ToldRepeat.stitches": ("Work in patchwork for 2 rows.\nPatchwork is a 2-st and 2-row rep.",
                            "Work in patchwork for 2 rows.\nPatchwork is a 3-st and 2-row rep."),
    "ToldRepeat.times": ("Work in patchwork for 2 rows, working the 2-st rep of patchwork 10 times.",
                         "Work in patchwork for 2 rows, working the 2-st rep of patchwork 11 times."),
    "ToldLength.length": "held by the rule stated-length-off",
    "ToldLength.what": "held by the rule stated-length-off",
    "ToldLength.origin": "held by the rule stated-length-off",
    "Meanwhile.steps": ("Dec 1 st at each end of every RS row twice; at the same time, dec 1 st at neck edge on next 4 rows.",
                        "Dec 1 st at each end of every RS row twice; at the same time, dec 2 sts at neck edge on next 4 rows."),
    "Meanwhile.trigger": ("Dec 1 st at each end of every RS row 3 times; at the same time, when piece measures 1 cm, "
                          "dec 1 st at neck edge on next 2 rows.",
                          "Dec 1 st at each end of every RS row 3 times; at the same time, when piece measures 2 cm, "
                          "dec 1 st at neck edge on next 2 rows."),
    "OnTrust.words": ("On trust: crochet an edge. 18 sts.", "On trust: crochet a picot. 18 sts."),
    "OnTrust.leaves": ("On trust: crochet an edge. 18 sts.", "On trust: crochet an edge. 16 sts."),
    "TurnWork.facing": ("Knit 1 row.\nWith WS facing, knit 1 row.", "Knit 1 row.\nWith RS facing, knit 1 row."),
    "Stripes.bands": ("Work in stripes of 2 rows A, 2 rows B.\nKnit 4 rows.", "Work in stripes of 1 row A, 1 row B.\nKnit 4 rows."),
    "Opening.stitches": ("You have 20 sts, RS facing.\nRow 1: K20.", "You have 21 sts, RS facing.\nRow 1: K20."),
    "Opening.side": ("You have 20 sts, RS facing.\nRow 1 (RS): K20.", "You have 20 sts, WS facing.\nRow 1 (RS): K20."),
    "Opening.held": ("You have 20 sts, RS facing; 5 sts on a holder.\nKnit 1 row.\nReturn 5 held sts to needle.",
                     "You have 20 sts, RS facing; 6 sts on a holder.\nKnit 1 row.\nReturn 5 held sts to needle."),
    "Opening.parts": ("You have 20 sts, RS facing, 9 sts before marker and 11 sts after marker.\nRow 1: K9, sm, k11.",
                      "You have 20 sts, RS facing, 10 sts before marker and 10 sts after marker.\nRow 1: K9, sm, k11."),
    "Note.words": HAND + "listed set phrases and headings",
    # how far
    "ForRows.rows": ("Knit 4 rows.", "Knit 5 rows."),
    "UntilLength.length": ("Work in St st until piece measures 5 cm.", "Work in St st until piece measures 6 cm."),
    "UntilLength.what": ("Knit 10 rows.\nPlace a marker at each end of last row.\nWork in St st until piece measures 8 cm.",
                         "Knit 10 rows.\nPlace a marker at each end of last row.\nWork in St st until armhole measures 8 cm."),
    "UntilLength.origin": ("Knit 10 rows.\nPlace a marker at each end of last row.\nWork in St st until piece measures 8 cm.",
                           "Knit 10 rows.\nPlace a marker at each end of last row.\nWork in St st until piece measures 8 cm from markers."),
    "UntilLength.short_of": HAND + "how a knitter who measures her own finds the same place",
    "ForLength.length": ("Work in St st for 5 cm.", "Work in St st for 6 cm."),
    "ForLength.more": PRINT + "`for 5 cm` and `for 5 cm more` are the same from here",
    "UntilStitches.stitches": ("Row 1 (RS): K2tog, k to end.\nRep row 1 until 15 sts rem.",
                               "Row 1 (RS): K2tog, k to end.\nRep row 1 until 14 sts rem."),
    "UntilStitches.where": ("Arrange sts over 2 needles: 10 sts on needle 1, 10 sts on needle 2.\nRow 1: K to end.\n"
                            "Rep row 1 until there are 10 sts on needle 1.",
                            "Arrange sts over 2 needles: 10 sts on needle 1, 10 sts on needle 2.\nRow 1: K to end.\n"
                            "Rep row 1 until there are 10 sts on needle."),
    "UntilMatch.piece": ("Knit 1 row.\nWork in St st until piece measures same as Piece.",
                         "Knit 1 row.\nWork in St st until piece measures same as Sleeve."),
    "UntilMatch.to": "held by the catalogue's jumper and cardigan: a point of a piece that has been worked",
    "UntilMatch.what": PRINT + "what is laid against the other piece",
    "UntilTimes.what": ("Row 1: Knit.\nKnit 2 rows.\nWork in St st until 3 decs have been worked.",
                        "Row 1: Knit.\nKnit 2 rows.\nWork in St st until 3 buttonholes have been worked."),
    "UntilTimes.count": ("Row 1: Knit.\nRow 2: K2tog, k to end.\nRep rows 1 and 2 until 3 decs have been worked.",
                         "Row 1: Knit.\nRow 2: K2tog, k to end.\nRep rows 1 and 2 until 4 decs have been worked."),
    "UntilWorked.part": PRINT + "a name for the stitches beyond the turns",
    # where
    "ToEnd.around": PRINT + "how the end is called",
    "ToLast.stitches": ("Row 1: K to last 2 sts, k2tog.", "Row 1: K to last 3 sts, k2tog."),
    "ToMarker.marker": ("Row 1: K5, pm for A, k5, pm for B, k10.\nRow 2: P to marker B, sm, p5, sm, p5.",
                        "Row 1: K5, pm for A, k5, pm for B, k10.\nRow 2: P to marker A, sm, p5, sm, p5."),
    "ToMarker.before": ("Row 1: K10, pm, k10.\nRow 2: P to 2 sts before marker, p2tog, p to end.",
                        "Row 1: K10, pm, k10.\nRow 2: P to 1 st before marker, p2tog, p to end."),
    "ToMarker.after": ("Row 1: K10, pm, k10.\nRow 2: P to 2 sts past marker, turn.",
                       "Row 1: K10, pm, k10.\nRow 2: P to 3 sts past marker, turn."),
    "ToTurn.to": (WRAPPED + "Row 3: K to wrapped st, k1, p9.", WRAPPED + "Row 3: K to ds, k1, p9."),
    "ToTurn.before": ("Row 1: K10, w&t.\nRow 2: P10.\nRow 3: K to 1 st before gap, ssk, k9.",
                      "Row 1: K10, w&t.\nRow 2: P10.\nRow 3: K to 2 sts before gap, ssk, k9."),
    "ToTurn.after": ("Row 1: K10, w&t.\nRow 2: P10.\nRow 3: K to 1 st past gap, k9.",
                     "Row 1: K10, w&t.\nRow 2: P10.\nRow 3: K to 2 sts past gap, k9."),
    "ToWorked.behind": ("Row 1: K4, bind off 2 sts, k until there are 9 sts on right needle, k to end.",
                        "Row 1: K4, bind off 2 sts, k until there are 9 sts on right needle after bind-off, k6."),
    "ToWorked.stitches": ("Row 1: K until there are 8 sts on right needle, turn.",
                          "Row 1: K until there are 9 sts on right needle, turn."),
    "ToDivision.name": ("Arrange sts over 2 needles.\nRow 1: K to end of needle 1, k10.",
                        "Arrange sts over 2 needles.\nRow 1: K to end of needle 2, k10."),
    "ToDivision.before": ("Arrange sts over 2 needles.\nRow 1: K to last 2 sts on needle 1, k2tog, k10.",
                          "Arrange sts over 2 needles.\nRow 1: K to last 3 sts on needle 1, k2tog, k10."),
    # parts of steps
    "CastOn.onto": ("Knit 2 rows.\nCO 5 sts onto left needle.\nKnit 2 rows.", "Knit 2 rows.\nCO 5 sts.\nKnit 2 rows."),
    "Release.count": ("Using a provisional cast-on, CO 20 sts.\nKnit 2 rows.\nBO all sts.\nUndo provisional cast-on and place 20 sts on needle.",
                      "Using a provisional cast-on, CO 20 sts.\nKnit 2 rows.\nBO all sts.\nUndo provisional cast-on and place 18 sts on needle."),
    "Release.needles": ("Using a provisional cast-on, CO 20 sts.\nKnit 2 rows.\nBO all sts.\nUndo provisional cast-on and place 20 sts on smaller needles.",
                        "Using a provisional cast-on, CO 20 sts.\nKnit 2 rows.\nBO all sts.\nUndo provisional cast-on and place 20 sts on larger needles."),
    "Release.aside": ("Using a provisional cast-on, CO 20 sts.\nKnit 2 rows.\nBO all sts.\nUndo provisional cast-on and place 20 sts on needle.\nKnit 2 rows.",
                      "Using a provisional cast-on, CO 20 sts.\nKnit 2 rows.\nBO all sts.\nUndo provisional cast-on and place 20 sts on spare needle.\nKnit 2 rows."),
    "BindOff.picot": ("Picot bind-off: *CO 2 sts, BO 4 sts, sl st back to left needle; rep from * to end.",
                      "Picot bind-off: *CO 2 sts, BO 5 sts, sl st back to left needle; rep from * to end."),
    "BindOff.leaves": ("CO 20 sts.\nKnit 2 rows.\nBO all but last st.", "CO 20 sts.\nKnit 2 rows.\nBO all but last 2 sts."),
    "PickUp.each": ("CO 3 sts. Knit 6 rows. Pick up and knit 2 sts along side (1 in each ridge), then 3 sts from cast-on edge.",
                    "CO 3 sts. Knit 6 rows. Pick up and knit 2 sts along side, then 3 sts from cast-on edge."),
    "UntilRow.chart": ("Work in patchwork for 1 row.\nCont as set through row 2 of patchwork.", "Work in patchwork for 1 row.\nCont as set through row 2 of patches."),
    "UntilRow.row": ("Work in patchwork for 1 row.\nCont as set through row 2 of patchwork.",
                     "Work in patchwork for 1 row.\nCont as set through row 3 of patchwork."),
    "UntilRow.all": ("Work in patchwork for 2 rows.\nCont as set through row 1 of patchwork.",
                     "Work in patchwork for 2 rows.\nCont as set until all 1 rows of patchwork have been worked."),
    "Extent.ending_chart": ("Work in patchwork for 1 row.\nCont as set until piece measures 5 cm, ending with row 2 of patchwork.",
                            "Work in patchwork for 1 row.\nCont as set until piece measures 5 cm, ending with row 2 of patches."),
    "Extent.until": ("Work in St st for 4 rows.", "Work in St st for 5 rows."),
    "Extent.ending": ("Work in St st for 4 rows, ending with a WS row.", "Work in St st for 4 rows, ending with a RS row."),
    "Extent.ending_row": ("Row 1 (RS): Knit.\nRow 2: Purl.\nRep rows 1 and 2 until piece measures 5 cm, ending with row 2.",
                          "Row 1 (RS): Knit.\nRow 2: Purl.\nRep rows 1 and 2 until piece measures 5 cm, ending with row 1."),
    "Rate.every": ("Dec 1 st at each end of next and every foll 4th row twice.",
                   "Dec 1 st at each end of next and every foll 6th row twice."),
    "Rate.times": ("Dec 1 st at each end of next and every foll 4th row twice.",
                   "Dec 1 st at each end of next and every foll 4th row 3 times."),
    "Rate.first": ("Dec 1 st at each end of next and every foll 4th row twice.", "Dec 1 st at each end of every foll 4th row twice."),
    "Rate.then": ("Dec 1 st at each end of next and every foll 4th row twice, then every alt row twice.",
                  "Dec 1 st at each end of next and every foll 4th row twice, every alt row twice."),
    "Rate.unit": PRINT + "rows and rounds are what the work is in",
    "Rate.every_side": ("Knit 2 rows.\nDec 1 st at each end of every RS row twice.",
                        "Knit 2 rows.\nDec 1 st at each end of every WS row twice."),
    "Times.kind": ("Row 1: *K1, p1; rep from * 9 more times.", "Row 1: *K1, p1; rep from * 9 times in all."),
    "Times.count": ("Row 1: [K1, p1] 10 times.", "Row 1: [K1, p1] 9 times."),
    "Times.target": ("Row 1: *K1, p1; rep from * to end.", "Row 1: *K1, p1; rep from * to last 2 sts."),
    "Fabric.kind": ("Row 1: Knit, inc 2 sts evenly.", "Row 1: Purl, inc 2 sts evenly."),
    "Fabric.name": ("Work in St st for 4 rows.", "Work in garter st for 4 rows."),
    "Fabric.rib": ("Work in k2, p2 rib for 4 rows.", "Work in k1, p1 rib for 4 rows."),
    "Fabric.twisted": HAND + "stitches of a twisted rib are worked through their back loops",
    "Fabric.start": ("Beg with a knit row, work in St st for 4 rows.\nBeg with a knit row, work in St st for 4 rows.",
                     "Beg with a knit row, work in St st for 4 rows.\nBeg with a purl row, work in St st for 4 rows."),
    "Fabric.repeat": ("Row 1 (RS): Work 2-st rep of patchwork across.", "Row 1 (RS): Work 3-st rep of patchwork across."),
    "Fabric.row": ("Row 1 (RS): K2, work row 1 of patchwork to last 2 sts, k2.",
                   "Row 1 (RS): K2, work row 2 of patchwork to last 2 sts, k2."),
    "Label.unit": ("round|Join to work in the round.\nRnd 1: Knit.\nRnd 2 (RS): Purl.",
                   "round|Join to work in the round.\nRnd 1: Knit.\nRow 2 (RS): Purl."),
    "ToCentre.stitches": ("Row 1: K to center 6 sts, p6, k to end.", "Row 1: K to center 8 sts, p6, k to end."),
    "ToStitch.name": ("Cast on 21 sts.\nRow 1: K to centre st, k11.", "Cast on 21 sts.\nRow 1: K to marked st, k11."),
    "ToStitch.before": ("Mark the 15th st.\nRow 1: K to 2 sts before marked st, k2tog, k to end.",
                        "Mark the 15th st.\nRow 1: K to 3 sts before marked st, k3tog, k to end."),
    "ToStitch.after": ("Mark the 15th st.\nRow 1: K to 2 sts past marked st, k2tog, k to end.",
                       "Mark the 15th st.\nRow 1: K to 3 sts past marked st, k3tog, k to end."),
    "Label.which": ("Row 1 (RS): Knit.\nNext row: Purl.\nRep row 1.", "Row 1 (RS): Knit.\nRow 1: Purl.\nRep row 1."),
    "Label.ranges": ("Rows 1–4: Knit.", "Rows 1–5: Knit."),
    "Label.side": ("Row 1 (RS): Knit.\nRow 2 (WS): Knit.", "Row 1 (RS): Knit.\nRow 2 (RS): Knit."),
    "Label.name": ("Dec row: K2tog, k to end.\nRep dec row twice.", "Inc row: K2tog, k to end.\nRep dec row twice."),
    "Label.every_side": ("Row 1 (RS): Knit.\nRow 2 and every WS row: Purl.\nRow 3: Knit.\nRow 5: Knit.",
                         "Row 1 (RS): Knit.\nRow 2: Purl.\nRow 3: Knit.\nRow 5: Knit."),
    "Label.every_step": ("Row 1 (RS): Knit.\nRow 2 and every alt row: Purl.\nRow 3: Knit.\nRow 5: Knit.",
                         "Row 1 (RS): Knit.\nRow 2 and every 3rd row: Purl.\nRow 3: Knit.\nRow 5: Knit."),
    "RowRef.kind": ("Row 1 (RS): Knit.\nRow 2: Purl.\nRow 3: Knit.\nRow 4: Knit.\nRep last 2 rows once.",
                    "Row 1 (RS): Knit.\nRow 2: Purl.\nRow 3: Knit.\nRow 4: Knit.\nRep rows 1 and 2 once."),
    "RowRef.ranges": ("Row 1 (RS): Knit.\nRow 2: Purl.\nRep rows 1 and 2 once.", "Row 1 (RS): Knit.\nRow 2: Purl.\nRep row 1 once."),
    "RowRef.count": ("Row 1 (RS): Knit.\nRow 2: Purl.\nRep last 2 rows once.", "Row 1 (RS): Knit.\nRow 2: Purl.\nRep last row once."),
    "RowRef.name": ("Rep rows 1 and 2 of patchwork twice.", "Row 1: Knit.\nRow 2: Knit.\nRep rows 1 and 2 twice."),
    "Stated.stitches": ("Row 1: Knit. 20 sts.", "Row 1: Knit. 21 sts."),
    "Stated.part": ("Row 1: K5, pm, k15. 5 sts between markers.", "Row 1: K5, pm, k15. 5 sts."),
    "Stated.each": ("Row 1: K5, pm, k15. 8 sts each side.", "Row 1: K5, pm, k15. 8 sts."),
    "Stated.change": ("Row 1: K2tog, k to end. 1 st dec'd.", "Row 1: K2tog, k to end. 1 st."),
    "Stated.edges": ("Row 1 (WS): K3, p to last 3 sts, k3. 14 sts, not counting the edge sts.", "Row 1 (WS): K3, p to last 3 sts, k3. 14 sts."),
    "Stated.edge": ("Row 1 (WS): K3, p to last 3 sts, k3. 14 sts, not counting the 3 edge sts.",
                    "Row 1 (WS): K3, p to last 3 sts, k3. 14 sts, not counting the 4 edge sts."),
    "Landmark.kind": ("Knit 10 rows.\nPlace a marker at each end of last row.\nWork in St st until piece measures 8 cm from cast-on edge.",
                      "Knit 10 rows.\nPlace a marker at each end of last row.\nWork in St st until piece measures 8 cm from markers."),
}  # fmt: skip

PATCHWORK = {
    "patchwork": StitchPattern(1, 0, "flat", lines("Row 1 (RS): Knit.\nRow 2: Purl.\nRow 3: Purl.\nRow 4: Knit.")),
    "patches": StitchPattern(2, 0, "flat", lines("Row 1 (RS): Knit.\nRow 2: Knit.")),
}
NODES = tuple(
    dict.fromkeys(
        (
            *(node for union in (syntax.Action, syntax.Step, syntax.Until, syntax.Target) for node in get_args(union)),
            syntax.Extent,
            syntax.Rate,
            syntax.Times,
            syntax.Fabric,
            syntax.Label,
            syntax.RowRef,
            syntax.Stated,
            syntax.Landmark,
            syntax.Border,
        )
    )
)
BEGIN_THEMSELVES = (
    "Cast on",
    "With A, cast",
    "With B, cast",
    "With larger needles, cast",
    "With smaller needles, cast",
    "You have",
)


def fields_of(node: type) -> list[str]:
    return [each.name for each in dataclasses.fields(node) if each.compare]


def whole(work: str) -> tuple[str, Form]:
    form: Form = "round" if work.startswith("round|") else "flat"
    work = work.removeprefix("round|")
    return (work if work.startswith(BEGIN_THEMSELVES) else f"Cast on 20 sts.\n{work}"), form


def nodes(value: object, kind: type) -> Iterator[object]:
    if isinstance(value, tuple):
        for each in value:
            yield from nodes(each, kind)
    elif dataclasses.is_dataclass(value) and not isinstance(value, type):
        if isinstance(value, kind):
            yield value
        for each in dataclasses.fields(value):
            if each.name not in ("span", "text", "tokens"):
                yield from nodes(getattr(value, each.name), kind)


def said_of(work: str, kind: type, field: str) -> list[object]:
    text, _ = whole(work)
    return [getattr(node, field) for node in nodes(lines(text, patterns=("patchwork", "patches")), kind)]


def outcome(work: str) -> tuple[object, list[tuple[str, str]]]:
    text, form = whole(work)
    checked = knit(plan_of(text, form=form, patterns=PATCHWORK))
    return checked.value, [(each.rule.name, each.message) for each in checked.findings]


def test_every_field_that_the_parser_can_say_is_in_the_table() -> None:
    wanted = [f"{node.__name__}.{field}" for node in NODES for field in fields_of(node)]
    assert sorted(PAIRS) == sorted(wanted)


@pytest.mark.parametrize("name", [name for name, pair in PAIRS.items() if isinstance(pair, tuple)])
def test_a_field_that_says_something_else_is_knitted_otherwise_or_refused(name: str) -> None:
    pair = PAIRS[name]
    assert isinstance(pair, tuple)
    one, two = pair
    kind, field = name.split(".")
    node = next(each for each in NODES if each.__name__ == kind)
    assert said_of(one, node, field) != said_of(two, node, field), "the two works do not differ in the field"
    assert outcome(one) != outcome(two)
