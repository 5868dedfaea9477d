# ruff: noqa: E501 - lines are quoted whole, as they stand in print
"""Lines as designers write them, by subject: all of them must be read.

Sizes are S (M, L, XL); yarns A, B, MC, CC, CC1, CC2; needles larger, smaller, dpns; stitch patterns ripple lace and chart A; own
stitches mb2 and "big bobble"; pieces Back, Front, Sleeve, Cap. Where a line comes from the forms of old books, the
book's wording was put into today's shorthand.
"""

from __future__ import annotations

LABELS = """
Row 1 (RS): K2, *p2, k2; rep from * to end.
Row 1 (right side): Knit.
Rnd 3 (dec): *K to 2 sts before m, k2tog, sm; rep from * around — 64 (72, 80, 88) sts.
Rows 2–8: Knit.
Rows 2-8: Work in St st.
Rows 1 and 3: K to end.
Rnds 1, 3 and 5: Knit.
Rows 1, 3, 5, 7 (RS): K1, yo, k to end.
Row 2 and all WS rows: Purl.
Row 2 and every following WS row: P to end.
Row 2 (WS) and all following WS rows: K2, p to last 2 sts, k2.
Row 1 and every foll RS row: Knit.
Rnd 2 and all even-numbered rnds: Knit.
Rnd 2 and every alt rnd: Knit.
Row 1 (RS) and all odd rows: Knit.
All WS rows: Purl.
Every alternate row: Purl.
Even rnds: Knit.
1st row: K2, p2.
1st row (RS): K1, *p1, k1; rep from * to end.
2nd and 4th rows: Purl.
3rd row: As 1st row.
2nd row and every foll alt row: Purl.
1st to 4th rows: Knit.
First row: Knit.
Next row (RS): Knit.
Next row (WS): BO 3 sts, p to end. 38 (44, 47, 53) sts.
Next rnd: Purl.
Next row: Purl.
Next row (dec): K1, ssk, k to last 3 sts, k2tog, k1.
Next row (RS, dec row): K1, ssk, k to last 3 sts, k2tog, k1. 2 sts dec'd.
Next RS row: K5, BO 10 sts, k to end.
Next dec row: K1, k2tog, k to end.
Next 3 rows: Knit.
Dec row (RS): K to last 3 sts, k2tog, k1. 1 st dec’d.
Inc rnd: *K8, m1; rep from * to end of round. (72 sts)
Set-up row (WS): P2, pm, p to last 2 sts, pm, p2.
Set-up rnd: K20 (22, 24, 26), pm, m1, pm, knit to end. 41 (45, 49, 53) sts.
Foundation row: Knit.
Eyelet row: K1, *yo, k2tog; rep from * to end.
Buttonhole row (RS): K3, yo, k2tog, k to end.
Gusset rnd 2: K to m, sm, m1l, k to next m, m1r, sm, k to end. (2 sts inc’d)
Rib round: [K2, p2] to end.
Row 5: As row 1.
Rows 5–8: Rep rows 1–4.
Rows 9–16: Rep Rows 1–8.
Row 6: Work as row 2.
Rows 5–8: Rep rows 3 and 4 twice.
Row 7: Same as row 3.
"""

PLAIN = """
Knit.
Purl.
Knit across.
Row 4: Purl.
Row 2: P.
Rnd 3: Knit to end.
Rnd 3: Knit around.
Row 3: Knit all sts.
Next row: Purl back.
Knit 5 rows.
Purl 1 row.
Knit 2 (2, 3, 3) rounds.
Knit every rnd until cap measures 4 cm from cast-on edge.
Knit 1 row.
Purl 2 rows, ending with a WS row.
K 4 rows.
"""

STITCHES = """
Row 1: K2, p2, k2tog, ssk, yo, k to end.
Row 1: k 2, p 2, k to end.
Row 1: K2 tog, k to end.
Row 1: Knit 2 together, k to end.
Row 1: P2tog tbl, p to last 2 sts, p2tog.
Row 1: K1 tbl, p1, k1 tbl, p1.
Row 1: *K1tbl, p1; rep from * to end.
Row 1: Sl 1, k1, psso, k to last 2 sts, k2tog.
Row 1: Sl 1, k2tog, psso, k5.
Row 1: Slip 1, knit two together, pass slipped stitch over, knit 5.
Row 1: Sl 2 knitwise, k1, pass 2 slipped sts over, k5.
Row 1: Sl 1 purlwise, k to end.
Row 1: Sl 1 wyif, p to end.
Row 1: Sl 1 purlwise wyib, k1, sl 1 pwise with yarn in front, k1.
Row 1: Slip 1 knitwise, k to end.
Row 1: Yfwd, k2tog, yrn, p2tog, yon, k1.
Row 1: K3, yo twice, k2tog, k to end.
Row 1: K3, yo2, k2tog, k to end.
Row 1: M1, k5, m1l, k5, m1r, k5, m1p, p to end.
Row 1: Make 1, k to last st, make 1, k1.
Row 1: Kfb, k to last 2 sts, kfb, k1.
Row 1: K into front and back of next st, k to end.
Row 1: C4F, k4, c4b, T3F, 2/2 LC, 2/2 RPC, k to end.
Row 1: RT, k2, LT, k to end.
Row 1: K1, mb2, k3, big bobble, k to end.
Row 1: Sl 3 to cn and hold at back, k3, k3 from cn, p2.
Row 1: Slip next 2 sts onto cn and hold in front, p1, k2 from cn.
Row 1: S2kp, k3, cdd, k3, sk2p, k to end.
Row 1: K3tog, k1, sssk, k to end.
Row 1: K5 sts, p next 3 sts, k to end.
Row 1: Ssk twice, k to end.
Row 1: K2tog 3 times, k to end.
Row 3: Inc in first st, k to last 2 sts, inc in next st, k1.
Row 3: Inc 1, k to end.
Row 1: K1b, p1, k to end.
Row 1: Brk1, sl1yo, brk1.
"""

MARKED = """
With RS facing, pick up and k 46 sts down left side of neck, 1 st from centre of V (mark this st), 46 sts up right side of neck.
Pick up and knit 46 sts down left front neck, 1 st from centre of V and mark this st, 46 sts up right front neck.
Mark the centre st.
Mark centre stitch with a removable marker.
Place a locking marker in the centre st.
CO 61 sts, placing a marker after the 31st st.
CO 61 (65, 69, 73) sts, placing a marker in the 31st (33rd, 35th, 37th) st.
CO 61 sts and mark the 31st st.
Row 1: K30, pm in next st, k1, k30.
Row 1: K30, k1 and mark this st, k30.
Row 1: *K1, p1; rep from * to within 2 sts of marked st, p2tog, p1, p2tog tbl, *p1, k1; rep from * to end.
Row 2: Rib to within 2 sts of marked st, k2tog tbl, k1, k2tog, rib to end.
Rnd 1: K to 1 st before centre st, s2kp, k to end.
Rnd 1: K to 1 st before marked st, cdd, k to end.
Row 1: K to 2 sts before marked st, k2tog, k marked st, ssk, k to end.
Row 1: K to 1 st past marked st, k to end.
Next row: K to center 20 sts, bind off center 20 sts, k to end.
Row 1: Work to the middle 21 sts, join a second ball of yarn, BO 21 sts, work to end.
Row 1: K2, yo, k to centre st, yo, k1 (centre st), yo, k to last 2 sts, yo, k2.
Row 1: K to 1 st before m, s2kp (removing and replacing m), k to end.
Row 1: K to 1 st before m, cdd, removing marker and replacing it, k to end.
Increase evenly across the row to 80 sts.
Dec to 80 (84, 88, 92) sts evenly around the rnd.
Next row: Rib, dec 1 st at each side of marked st.
Dec 1 st at each side of marked st on next 4 rows.
Dec 1 st at each end of next row, then dec 1 st at each end of every foll alt row 5 times.
Cast off in rib, dec 1 st at each side of marked st as before.
Bind off in rib, decreasing 1 st on each side of marked st.
"""

REPEATS = """
Row 1: *K2, p2; rep from * to end.
Row 1: *K2, p2, repeat from * to end of row.
Row 1: *K2, p2. Rep from * to end.
Row 1: * K2, p2, rep from * to last 2 sts, k2.
Row 1: *K2, p2; rep. from * to end.
Row 1: *K2, p2* to end.
Row 1: *K2, p2*, rep from * to * to end.
Row 1: *K2, p2*; rep between *s to last 2 sts, k2.
Row 1: *K8, k2tog; rep from * 5 more times, k8, k2tog.
Row 1: *K8, k2tog; rep from * 5 times more.
Row 1: *K8, k2tog; rep from * 5 times.
Row 1: *K8, k2tog; rep from * twice more, k to end.
Row 1: *K8, k2tog; rep from * once more, k to end.
Row 1: *K8, k2tog; rep from * around.
Row 1: *K8, k2tog; rep from * across.
Row 1: *K8, k2tog; rep from * 6 times in all.
Row 1: *K8, k2tog* 6 times, k to end.
Row 1: [K2, p2] 5 (6, 7, 8) times, k2.
Row 1: (K1, p1) twice, k to last 4 sts, (p1, k1) twice.
Row 1: [K2tog, yo] x 6, k1.
Row 1: [k2tog, yo] × 6, k1.
Row 1: [K1, p1] to last st, k1.
Row 1: (K1, p1) rep to end.
Row 1: K1, *[k1, p1] 3 times, k2tog; rep from * to last st, k1.
Row 1: *K1, **yo, k2tog; rep from ** 3 more times, k1; rep from * to end.
Row 1: *K2, [p1, k1] twice, (yo, k2tog) 3 times; rep from * to last 2 sts, k2.
Row 1: (K1, yo, k1) in next st, k to end.
Row 1: (K1, p1, k1) into same st, k to end.
Row 1: K4, (k1, yo, k1) all in next st, k4.
Row 1: K2, *yo, k2tog; rep from * to last st, k1.
Row 1: K5, *p2, k8; rep from *.
Rnd 1: *K1, p1; rep from * to m, sm, k to end.
Row 1: *K1 A, k1 B; rep from * to end.
Row 1: *K3 in A, k1 in B; rep from * to last 3 sts, k3 in A.
Row 1: With A, k3, with B, k5, with A, k to end.
"""

TARGETS = """
Row 1: K to last 3 sts, k2tog, k1.
Row 1: K to last st, m1, k1.
Row 1: K to 2 sts before m, k2tog, sm, ssk, k to end.
Row 1: K to 1 st before marker, kfb, slip marker, kfb, k to end.
Row 1: K to m, remove marker, k to end.
Row 1: K to marker A, m1l, sm, k to side marker, k to end.
Row 1: K to first marker, sm, k to second marker, sm, k to end.
Row 1: K to 3 sts past m, k2tog, k to end.
Row 1: K to 1 st before gap, k2tog, k1, turn.
Row 1: K to wrapped st, k1, w&t.
Row 1: P to 2 sts before last turn, w&t.
Row 1: K to end of needle 1, k to last 3 sts on needle 2, k2tog, k1.
Rnd 2: Needle 1: K to last 3 sts, k2tog, k1; needle 2: knit; needle 3: k1, skp, k to end. 78 sts.
Row 1: *K to last 2 sts on needle, k2tog; rep from * twice more.
Row 1: Rib to last 3 sts, k2tog, k1.
Row 1: Work in patt to last 2 sts, k2.
Row 1: Patt to end.
Row 1: Work in patt to end.
Row 1: Patt 12 (13, 14, 15) sts, k2tog, patt to end.
Row 1: Work 12 sts in patt, k2tog, work to end.
Row 1: Work to last 3 sts, k2tog, k1.
Row 1: Work in seed stitch over next 7 sts, k to end.
Row 1: K5, work row 3 of chart A over next 12 sts, k5.
Row 1: Rib 5, k to last 5 sts, rib 5.
Row 1: K the knit sts and p the purl sts.
Row 1: Knit the knits and purl the purls as they face you.
Row 1: K until 5 sts rem, k2tog, k3.
Row 1: P until there are 12 sts on RH needle, turn.
Row 1: Knit to end, removing markers.
Row 1: Knit to end of rnd, slipping markers as you come to them.
Row 1: K5, pm, k10, pm for side, k to end.
Row 1: Ssk, k to 2 sts before end, k2tog.
"""

ACTS = """
Next row: BO 6 sts, k to end.
Next row: K12, bind off next 8 sts, k to end.
Next row: K12, BO 8 sts, turn.
Next row: Cast off 6 (7, 8, 9) sts, patt to end.
Next row: K20, CO 4 sts over gap, k to end.
Next row: K to gap, cast on 6 sts using backward loop method, k to end.
Next row: K10, turn, cast on 4 sts, turn, k to end.
Next row: K14, place these 14 sts on holder, k to end.
Next row: K41, place next 20 sts on a holder for front neck, place rem 41 sts on a second holder for right side, turn.
Next row: K to m, slip next 13 (15, 15, 17) sts onto waste yarn, k to end.
Next row: K28 from back neck holder, k to end.
Next row: K8, knit across 14 sts from holder, k8.
Next row: K6, w&t.
Next row: P6, wrap and turn.
Next row: K to end, picking up wraps.
Next row: Knit, inc 8 sts evenly across. 92 sts.
Next row: Purl, decreasing 4 (6, 6, 8) sts evenly across row.
Next row: K to end, increasing 8 sts evenly.
Next row: K4, m1, k to last 4 sts, dec 6 sts evenly across.
Next row: K1, yo, k to end, dropping extra wraps.
Next rnd: K to m, sm, join B, k to end.
Next row: Pick up and knit 12 sts along edge, k to end.
"""

SEVERAL_ROWS = """
Rep rows 1–4 5 more times.
Rep Rows 1 and 2 eight more times. 18 rows worked; rib measures 6 cm / 2¼ in.
Rep last 2 rnds 5 (6, 7, 8) more times — 24 sts.
Rep last 2 rows twice more.
Rep the last 16 rounds 11 times more. (200 rounds)
Rep last 2 rnds until 16 sts rem.
Rep rnds 1 and 2 until 8 sts rem.
Rep row 1 until cap measures 4 cm.
Rep rnd 1 until brim measures 1½ in / 4 cm from cast-on edge.
Rep these 4 rows until piece measures 30 cm from cast-on edge, ending with row 4.
Rep these 2 rows for rib.
Rep Rnd 3 once more — 16 sts.
Rep rows 1–4.
Repeat row 2 a further 22 times.
Rep Rows 1–2 another 9 (10, 11, 12) times, for 20 (22, 24, 26) rows in all.
Rep Inc row every 6th row 15 (12, 12, 6) times, then every 4th row 3 (9, 9, 18) times, then every other row 0 (0, 0, 1) times.
Rep dec row every 4th row 3 more times.
Rep inc rnd every 6th rnd twice more, then every 8th rnd 3 times.
Rep dec row on every foll 6th (6th, 4th, 4th) row 5 times.
Rep dec row every RS row 5 more times.
Work Round 1 five times altogether.
Work these two rounds 6 (7, 7, 8) times in total.
Work rows 1–8 of ripple lace 20 times.
Work in St st until piece measures 36 (36, 37, 38) cm from cast-on edge, ending with a WS row.
Beg with a knit row, work in St st until Back measures 36 (36, 37, 37) cm / 14¼ (14¼, 14½, 14½) in from CO edge, ending with a WS row.
Work in k2, p2 rib for 6 cm.
Work in K1, P1 rib for 12 rows.
Work 6 rows in St st.
Work 4 rows, beg with a RS row.
Work 54 (58, 62, 66) rows in St st, ending with a WS row.
Work even until armhole measures 20 cm.
Work straight for 4 rows.
Work 4 rows even, ending with a WS row.
Work even in patt until sleeve measures 45 (46, 46, 47) cm, ending after a WS row.
Cont in patt as set until work measures 30 cm from beg, ending with RS facing for next row.
Cont in rib as set until piece measures 5½ (6, 6¼, 6½) in / 14 (15, 16, 16.5) cm from cast-on edge.
Cont without shaping until sleeve measures same as Back to armhole.
Cont in St st until foot measures 18 cm or 4 cm less than desired length.
Knit until body measures 30 cm from cast-on edge, or until 5 cm short of desired length.
Knit until body measures 12½" from underarm (or 2" less than your desired length).
Knit until body measures 30 cm from cast-on edge, or desired length.
Work in seed stitch for 5 cm.
Work in garter st for 10 rows.
Work 5 more rounds in rib.
Work in rev St st for 4 rows.
Work in 2x2 rib for 10 rnds.
Work in twisted rib for 10 rnds.
Starting with a purl row, work 5 rows in stocking stitch.
Work in St st, beg with a WS row, for 5 rows.
Knit every row until work measures 10 cm.
Cont as set until 5 buttonholes have been worked.
Rib 6 rows.
Work in stripes of 4 rows A, 2 rows B.
This row forms moss st. Cont in moss st until loop measures 20 cm, ending with a WS row.
These 2 rows form the rib. Cont in rib until work measures 5 cm.
Work even for another 2 in.
Work 3 rows.
Knit 13 rows on these 28 sts.
Rep rnd 1 another – (45, 65, –) times. – (70, 86, –) sts.
Cont in St st.
"""

SHAPING = """
Dec 1 st at each end of next row.
Dec 1 st each end of next and every foll 6th row 5 times.
Dec 1 st at each end of next and every foll 6th row 5 times, then every 4th row twice.
Inc 1 st at each end of 3rd and every foll 8th row until there are 84 (92, 100, 108) sts.
Inc 1 st at each end of next and every foll 6th row to 84 (92, 100, 108) sts.
Dec 1 st at neck edge on next 4 rows.
Dec 1 st at neck edge of next 4 rows, then on foll 3 alt rows.
Dec 1 st at each end of every RS row 6 times.
Dec 1 st at armhole edge every other row 5 times.
Inc 1 st at beg of next 2 rows.
BO 5 sts at beg of next 2 rows. 62 (66, 70, 74) sts.
Cast off 4 (5, 6, 7) sts at beg of next 4 rows; 40 (42, 44, 46) sts rem.
Cast on 4 sts at end of next 2 rows.
BO 5 sts at the beginning of the next row, and knit to end. BO 5 sts at the beginning of the following row, and purl to end.
CO 10 sts at beg of next row and work to end. CO 10 sts at beg of foll row. Purl to end. 80 (82, 84, 86) sts.
Cast off 4 sts at beg of next RS row, k to last 3 sts, k2tog, k1.
At beg of next row (WS), cast off 6 sts, then rib to end.
Dec 1 st at beg of next row, k to end.
Cast off 4 sts at beg of next 2 rows, work in patt to end.
"""

SETUP = """
With smaller needles and A, cast on 84 (92, 100, 108) sts. Place marker and join to work in the round, being careful not to twist.
With smaller needles, CO 102 (114, 122, 134) sts.
Cast on 39 stitches.
Using larger needles and the long-tail method, cast on 40 sts.
CO 40 (44, 48, 52) sts using the long-tail method.
Using larger needles and yarn A, cast on 64 sts. Join to work in the round, being careful not to twist, and place marker for start of round.
With dpns, CO 40 (44, 48, 52) sts loosely. Join to work in the rnd without twisting; pm to mark start of rnd.
Using a provisional cast-on, CO 30 sts.
Join to work in the round. Pm for beg of rnd.
Pm and join for working in the round.
Arrange sts on 3 needles: 24 sts on needle 1, 24 sts on needle 2, 20 sts on needle 3.
Slip the first 32 sts on to one needle and the rem 32 sts on to another. Graft the two sets of sts together.
Distribute evenly over 3 needles, pm for beginning of round and join, taking care not to twist sts.
Change to larger needles.
Change to larger needles and St st.
Change to A.
Change to larger needles and B.
Change to 4 mm needles.
Join B.
Join in B.
Break A.
Break off A and join B.
Cut A. Join B.
Cut yarn, leaving a 20 cm tail. Thread tail through rem 8 sts, pull tight and fasten off.
Break yarn, draw through rem sts and fasten off.
Break yarn and thread through rem 8 sts; pull tight and secure.
With A, knit 8 rounds.
With B, k 2 rows.
Cont in A only.
Turn.
With WS facing, knit 1 row.
Place marker.
Place marker for beg of rnd.
Place a removable marker at each end of last row to mark armholes.
Remove marker.
Rnd now begins at center of heel; pm.
Work back and forth in rows.
Work back and forth in rows on these 32 sts.
Next rnd: Rib 18 sts to face opening, turn.
Row 3: *K1 and p1 into double yo, k2; rep from * to end.
Row 3: P2, k1 and p1 into double yo, p to end.
Row 3: P2, k1, p1 and k1 all into next st, p to end.
Knit 13 rows on the last 28 sts for left shoulder.
Rejoin yarn to rem 28 sts at neck edge for right shoulder.
With WS facing, rejoin yarn to remaining 28 sts at neck edge for right shoulder.
Row 1: Join A, knit.
Next rnd: K first 8 heel sts, turn.
Rnd 2: *K2, p2; rep from *, ending last rep k1.
Row 1: *K2, p1; rep from * to end, ending last rep k1.
Cont in this manner until piece measures 20 cm.
Continue in this manner.
Next row: K3, cast on 2 sts over each buttonhole, k to end.
Next row: Knit, casting on 2 sts over each buttonhole.
Row 5: K to wrapped st, knit wrapped st together with its wrap, k to end.
With smaller needles and using a provisional cast-on, CO 48 sts.
Beginning with a right side row, work in St st for 4 rows.
Beginning with a right-side row, rep rows 1 and 2 twice.
Row 1: K1, *yo, sl 1, k2tog, pass slipped stitch over, yo, k3; rep from * to last st, k1.
Row 1: K1, slip 1, knit 2 together, pass slipped stitch over, k to end.
Beg with a WS row, work in garter st for 6 rows.
Cont in this way until 20 sts rem.
Work back and forth in rows on the last 20 sts.
Rnd 5: *K1, ssk, k to last 3 sts, k2tog, k1; rep from * on each needle.
Rnd 5: K to last 2 sts on each needle, k2tog.
Row 6: P to wrapped st, purl wrapped st together with its wrap, turn.
Row 8: K to last wrapped st, knit the next 2 sts together with their wraps.
Place last 14 sts on a holder.
Place remaining 14 (15, 16, 17) sts on waste yarn.
Place these 56 sts on hold for the body.
Next row: Bind off 4 sts (1 st on right needle), k to end.
Next row: K10, bind off 4 sts (11 sts on right needle), k to end.
The heel is worked back and forth over the first 20 (22, 24, 26) sts of the rnd.
Using 3.5 mm needles, work 4 rows in garter stitch.
Change to 3.5 mm (US 4) needles.
With 4 mm / US 6 needles, CO 20 sts.
Switch to US #4 circular needle.
Knit 3 rows with larger needles.
"""

PARTS = """
BO all sts.
BO all sts loosely in rib.
BO in pattern.
Bind off.
Cast off in rib.
Cast off rem 11 (13, 14, 16) sts.
BO rem 40 sts.
Bind off all 39 stitches loosely knitwise.
BO loosely in rib.
Bind off all sts using the three-needle method.
Place rem 40 (40, 42, 42) sts on a holder for back neck. Cut yarn.
Place 28 sts on waste yarn.
Leave these 28 sts on a holder.
Slip rem sts onto holder.
Place the other 20 sts on hold for the instep.
Place next 13 sts on scrap yarn for left thumb.
Place next 13 sts on a spare needle for front.
Place rem 5 sts on a safety pin.
Work on these sts only.
Working on these 20 (22, 24, 26) sts only, dec 1 st at neck edge on next 4 rows.
Work on this set of sts only for first side of neck.
Cont on these sts only. Purl 1 row.
Return to rem sts. With RS facing, slip next 20 sts onto a holder, rejoin yarn to rem sts and k to end.
Next rnd: K20, slip next st onto a safety pin, k to end.
Next rnd: K20, place centre stitch on to a safety pin, cast on 7 sts, k to end.
Next row (RS): K20, slip next 10 sts on to a thread, k to end.
Place first 10 sts on a length of yarn.
Return 41 (47, 50, 56) held right side sts to needle. With RS facing, rejoin yarn at neck edge.
Slip the 13 (15, 15, 17) held thumb sts back onto smaller needles.
Return held sts to larger needles.
Place 28 sts from back neck holder onto needle.
With RS facing and smaller needles, pick up and knit 12 (14, 16, 18) sts along left front edge.
With RS facing and smaller needles, beg at left shoulder seam, pick up and knit 22 sts down left front neck, k20 held front neck sts, pick up and knit 22 sts up right front neck, k40 held back neck sts. 104 sts.
With RS facing, join yarn and pick up and knit 3 sts in the gap above the thumb, then knit the 13 thumb sts. 16 sts.
With RS facing, A and smaller needles, pick up and knit 3 sts for every 4 rows along front edge.
Pick up and knit 14 sts along side of heel flap.
With RS facing and smaller needles, pick up and knit 40 sts up right front edge, 12 sts along neck and 40 sts down left front edge. 92 sts.
Sew shoulder seams.
Sew side and sleeve seams.
Join shoulder seams.
Sew bound-off edge of each sleeve to body between armhole markers, matching center of sleeve to shoulder seam.
Graft toe sts.
Graft the 12 sts of sole to instep sts.
Graft toe closed using Kitchener stitch.
Weave in ends.
Weave in all ends, using the tail at the thumb to close any holes.
Block to measurements.
Block lightly, taking care not to flatten the rib.
Sew on buttons.
Sew button to top of cap.
Steam gently on WS.
Work as for Back to armhole shaping.
Work as for Back to **.
Work as given for Back until piece measures 20 cm.
Complete as for Back.
Finish as given for Front from **.
Complete the toe as for first sock.
Rnd 4: Knit with MC.
Rnd 4: Knit in B.
Row 2 (WS): Purl using CC.
Row 5: K5, p2, k to end, with B.
Complete as for Sleeve from *** to end.
Work as for Back to thumb placement rnd.
Make a second mitt the same.
Work second sock to match first.
**
On trust: crochet a picot edging round the neck. 84 (92, 100, 108) sts.
On trust: work a crochet edging (84 sts).
On trust: embroider the eyes.
Sizes S and M only: Knit 2 rows.
Sizes - (-, L, XL) only: Knit 2 rows.
Sizes S (M, -, -) only: Knit 2 rows.
Sizes M (L, XL): Knit 2 rows.
Next row (RS): K38 for the left front, place next 50 sts on waste yarn for sleeve, k to end.
Next row (RS): K66 for front, place remaining 66 sts on a holder for back.
Next row: K20, slip 42 sleeve sts to scrap yarn, k to end.
Next rnd: K40, BO 8 sts, removing marker, k until there are 72 sts on right needle after bound-off sts, BO 8 sts, k to end.
Size L: BO 3 sts at beg of next 2 rows.
All sizes: Knit 1 row.
"""

HEADINGS = """
Shape armholes: BO 5 sts at beg of next 2 rows.
Shape neck.
Heel flap: Work back and forth on 30 sts as follows:
Turn heel as follows:
Work short rows as follows:
Divide for body and sleeves: K40, place next 30 sts on waste yarn for sleeve, CO 8 sts for underarm, k to end.
Using larger needles, cont in St st until work measures 30 cm, ending with a WS row.
Work on these 20 sts only.
"""

STATES = """
You have 84 (92, 100, 108) sts, RS facing; 28 sts on a holder.
You have 84 (92, 100, 108) sts, RS facing; 28 (30, 32, 34) instep sts are on a holder.
You have 84 (92, 100, 108) sts, WS facing; 28 sts are held.
Rnd 1: K14, pm, k28 (30, 32, 34), pm, k to end. 28 (30, 32, 34) instep sts between markers and 28 sole sts.
You have 16 sts, RS facing.
You have 60 sts, WS facing, 12 sts between markers and 28 instep sts on hold.
You have 40 sts; 20 sts on waste yarn for thumb.
Dec 1 st at each end of 5th and foll 10th row.
Dec 1 st at each end of 5th and foll 10th (10th, 12th, 12th) row.
Dec 1 st at each end of 9th (9th, 7th, 7th) row.
Dec 1 st at each end of next and foll 4th row, then every foll alt row 3 times.
Dec 1 st at each end of next and foll alt row until 50 sts rem.
Inc 1 st at each end of 3rd row and every foll 6th row 5 times, until sleeve measures 40 cm.
Dec 1 st at each end of every RS row 6 times; at the same time, when armhole measures 4 cm, dec 1 st at neck edge every row 5 times.
AT THE SAME TIME, after 3 armhole decs have been worked, dec 1 st at neck edge on next 4 rows.
At the same time, when piece measures 20 cm, work in garter st for 10 rows.
"""

TOTALS = """
Knit 1 row. 84 (92, 100, 108) sts.
Knit 1 row — 84 (92, 100, 108) sts.
Knit 1 row – 84 sts.
Knit 1 row (84 sts).
Knit 1 row. (84 sts)
Knit 1 row [84 sts].
Knit 1 row; 84 sts rem.
Knit 1 row = 84 sts.
Knit 1 row: 84 sts.
Knit 1 row, 84 sts.
Knit 1 row. 84 sts on needle.
Knit 1 row. 84 sts remain.
Knit 1 row (6 sts dec'd).
Knit 1 row (4 sts decreased; 80 sts rem).
Knit 1 row. 4 sts increased — 88 sts.
Knit 1 row. 29 instep sts and 27 sole sts.
Knit 1 row. 12 sts between markers.
Knit 1 row. 76 sts each for Back and Front.
Knit 1 row. 53 sts: 13 sts between markers and 40 for the hand.
There are 84 sts on the needle.
You should have 84 (92, 100, 108) sts.
Knit 1 row. 18 rows worked; rib measures 6 cm.
Knit 1 row. Piece measures 20 cm from cast-on edge.
Knit 1 row. 80 sts in total.
Knit 1 row. 20 sts on each needle.
"""

COMPUTED = """
With smaller needles and A, cast on {cast_on} sts. Place marker and join to work in the round, being careful not to twist.
Rep rnd 1 until cap measures {brim}.
Knit every rnd until cap measures {brim} from cast-on edge.
Rnd 1: *K{wedge - 2}, k2tog, pm; rep from * 6 more times, k{wedge - 2}, k2tog. {cast_on - 8} sts.
Rep inc row every {wedge}th row {wedge} times.
"""

BOOKS = """
Row 2: K4, yo, k3, *sk2p, k3, yo, k1, yo, k3; rep from * to last 10 sts, sk2p, k3, yo, k4.
Row 2: K4, yo, k3, *sk2p, k3, yo, k1, yo, k3; rep from * to end.
Next row: K2, *yo3, k2tog, k1; rep from * to last st, k1.
Next row: Purl, dropping 2 of each 3 yos.
Rnd 20: K1, yo, k1, yo, k5, skp, k1, k2tog, k5, yo, k1, yo, k1.
Rnd 26: K1, yo, k1, [yo, skp] x 3, yo, k2, skp, k1, k2tog, k2, [yo, k2tog] x 3, yo, k1, yo, k1.
Rnd 36: K1, yo, k1, [yo, skp] x 7, yo, k4tog, [yo, k2tog] x 7, yo, k1, yo, k1.
Row 1: Sl 1, k2, yo, k2tog, k2, yo2, k2.
Row 4: BO 2 sts, k5, yo, k2tog, sl 1.
Rnd 6: *P2, skp, [yo, k1] x 5, yo, k2tog, p2, 3/3 RC; rep from * to end.
Row 7: Yo, k2 in A, k3 in B, k2 in A.
Row 12: Yo, k2 in A, p7 in B, k3 in A.
Row 19: Sl 1, k2tog, k1 in A, k11 in B, k4 in A.
Row 21: Sl 1, k2tog, k to end.
Row 1: K4, k2tog, *yo, k2tog, yo, k2tog, yo, k1, yo, k2, skp, k4, k2tog, k2; rep from * to last 8 sts, yo, k2tog, yo, k2tog, yo, k4.
Row 1: Sl 1, k15, k2tog, k1, turn.
Row 15: Sl 1, k14, k2tog.
Rnd 1: K1 in A, *k6 in B, k2 in A; rep from * to last 7 sts, k6 in B, k1 in A.
Crown rnd 1: *K2tog, k11, k2tog, k1; rep from * to end.
Row 3: Yo, k1, k1, p1, k2, yo, k2tog, yo, k2tog.
"""

OTHER_HANDS = """
Work in rib until piece measures 3 cm. Bind off loosely in pattern.
Rep rnd 1 until cuff measures 1¼ in / 3 cm. BO all sts.
Cast off 7 sts at beg of next 2 rows, 7 sts at beg of foll 2 rows, then 6 sts at beg of next 2 rows.
Cast off 7 sts at beg of next row and 6 sts at beg of foll alt row. Work 1 row. Cast off rem 27.
Cast off 7 sts at beg of next and foll alt row.
Cast on 4 sts at end of next 2 rows, then 5 sts at end of foll 2 rows.
Dec 1 st at each end of next and foll 5 alt rows.
Dec 1 st at each end of next row and foll 9 alt rows.
Dec 1 st at each end of next row and 5 foll alt rows.
Dec 1 st at each end of 5th and foll 3 alt rows.
Inc 1 st at each end of next and 3 foll 4th rows.
Beg with a k row and working in St st, dec 1 st at each end of 3rd row and foll 2 6th rows.
Work in St st, shaping sides by inc 1 st at each end of next and every foll 4th row until there are 70 sts, taking all extra sts into rib.
Inc 1 st at each end of 3rd row and every foll 4th row until there are 70 sts, working inc sts in garter st.
Dec 1 st at neck edge of next row and foll 9 alt rows, then at neck edge of every foll 4th row until 20 sts rem.
Dec 1 st at each end of next row, then at each end of every foll alt row 5 times.
Dec 1 st at beg of next row and at same edge on foll 5 alt rows.
Knit 2 rounds in A.
Knit 2 rows in A, then 4 rows in B.
Work 64 rows in St st (23 cm / 9 in).
Work even for 12 rows (approx 4 cm).
Rep rows 1 and 2 5 more times (10 cm).
Do not join; you'll be working back and forth.
Bind off in pattern on the RS.
BO all sts on WS.
Join B and work chart A as follows, stranding the yarn not in use loosely across the back:
Join B and work the colour pattern as follows:
Change to dpns when there are too few sts to go round the circular needle.
Divide evenly over dpns, place marker (pm) and join in the rnd.
Place 13 held thumb sts on dpns.
Place 20 held sts on dpns.
Slide the 34 sleeve sts from waste yarn onto dpns.
Arrange sts with 8 on each of 2 needles and graft tog with Kitchener st.
Place 20 sts on each of two needles.
Divide sts evenly over 2 needles and graft.
Graft first 8 sts to last 8 sts.
Rep Rows 1-8 fifteen times more, or until piece is desired length, ending with Row 8.
Rep Rows 1-8 15 times more, or until piece measures 10 cm.
Row 1: K to first wrapped st, k wrapped st tog with its wrap, w&t.
Row 1: K to double-wrapped st, k st tog with both wraps, w&t.
Row 1: K to wrapped st, pick up wrap and k tog with st, turn.
Row 1: P to end, picking up wraps and purling them tog with sts.
Row 1: K to end, picking up the last wraps.
Cont on next 28 sts only.
Work heel back and forth over next 28 sts.
Row 1: K to last 3 sts, wrap next st and turn.
Row 2 (WS): P18, turn, make DS.
Row 2 (WS): MDS, p to 3 sts before last DS, turn.
Row 1: K10, turn, sl 1 wyif, pull yarn over needle.
Row 3: K to DS, k DS, k1, turn and make DS.
Row 3: K10, turn, yo.
Row 4: P to yo, p yo tog with next st, p2, turn, yo.
Row 5: K to end, working each yo tog with next st.
Row 3: K to next wrapped st, work wrap with st, k2, w&t.
Row 3: P to double-wrapped st, p it tog with both wraps, turn.
Row 3: K to 2 sts past last DS, turn, MDS.
Row 3: Knit across all sts, working wraps as you come to them.
Row 3: P to end, working all DS as single sts.
Work wraps tog with sts as you come to them.
Rep rows 3 and 4 4 (5, 6, 7) more times. 8 unwrapped sts rem in centre, 6 (7, 8, 9) wrapped sts each side.
Rep rows 3 and 4 5 more times. 9 DS on each side, 10 sts between DS.
Rep rows 3 and 4 5 more times. 9 wrapped sts on each side of 10 unwrapped sts.
Rep rows 3 and 4 until 10 unwrapped sts rem.
Rep rows 5 and 6 until all wraps have been picked up.
Work heel back and forth over next 28 sts.
Heel is worked back and forth over the 28 (32, 36, 36) sts on N2 only.
Cont on next 28 sts only.
K28 (instep).
Row 1: K15, turn and work on these sts only.
Resume knitting in the round.
Resume working in the rnd.
With RS facing, pick up and knit 62 sts down the left front edge (about 3 sts for every 4 rows).
Row 5 (WS): Work in rib as set, working each yo as a st.
Next row: Inc evenly to 80 (90, 95, 99) sts.
Next row (RS): Knit, decreasing evenly to 64 (70, 76, 80) sts.
Next rnd: Knit, inc to 64 (70, 76, 80) sts evenly spaced.
Work 5 cm in k1, p1 rib.
Work another 2 cm in St st.
Row 3: K20, k across sts of second leg.
Work 2 in / 5 cm in k1, p1 rib, ending with a WS row.
Switch to smaller needles and work 5 cm in 2x2 rib.
Knit 4 rows (garter st).
Knit 4 rows (2 garter ridges).
Work 5 ridges of garter stitch.
Knit 3 garter ridges (6 rows).
At the beginning of the next 2 rows, bind off 5 sts.
At the end of the next 2 rows, cast on 5 (6, 7, 8) sts.
Repeat this decrease row every 6th row 8 (9, 10, 11) more times.
Rnd 1: K2, *p2, k2; rep from *, end p2.
Row 1: *K3, p1; rep from * across, ending k3.
Row 3: K2, *yo, ssk, k4; rep from *, ending with yo, ssk, k1.
Knit 1 rnd even.
Separate sleeves and body: K30, place next 40 sts on waste yarn, CO 8 sts, k60, place next 40 sts on waste yarn, CO 8 sts, k30.
Next rnd: K30, using the backward-loop method cast on 8 sts for underarm, k to end.
Neck shaping: Next row (RS): K20, turn.
Change to larger needle(s).
Alternate 2 rows A and 2 rows B throughout.
Rnd 2: *2A, 2B; rep from * around.
Rnd 3: *K1 A, 3 B; rep from * around.
Carry yarn up the side.
Carry yarn not in use loosely up the side of the work.
Next row: K3, *yo, sl1-k2tog-psso, yo, k5; rep from * to last 3 sts, k3.
Slip the first st of every row.
Sew side seams. Set in sleeves.
Repeat for second mitten.
Complete second side to match first, reversing shaping.
Work in k1, p1 rib until piece measures 5 cm, ending with a WS row and increasing 8 sts evenly across last row. 88 (96, 104, 112) sts.
Work in k1, p1 rib for 5 cm, inc 8 sts evenly on last row.
Rep last 2 rows 5 times more, inc 1 st at end of last row.
Knit 4 rows, dec 1 st in centre of last row.
Knit 4 rounds, and on last round decrease 4 sts evenly.
Work until sleeve measures 46 cm, ending last round 5 (6, 7, 8) sts before marker.
Cont in st st, beg k row, until back measures 38 cm from beg, ending after a p row.
Work in St st, keeping first and last 4 sts in garter st, until piece measures 30 cm from beg.
Keeping 4 sts at each end in garter st, work in St st for 10 rows.
Keeping first and last 5 sts in seed stitch and rem sts in St st, work until piece measures 30 cm.
Cont in patt, keeping first and last 3 sts in garter st.
Work in St st with 3 sts in garter st at each side for 6 rows.
Keeping pattern correct, dec 1 st at each end of every RS row 5 times.
Inc 1 st at both ends of next and every following 4th row to 72 sts, working extra sts into pattern.
Next row: Inc 1 st at each end of row.
Inc 1 st at each end of 3rd row.
Inc 1 st at each end of 5th and every foll 6th row until there are 70 sts, then at each end of every foll 4th row until there are 94 sts.
Cont in st-st until front is 22 rows shorter than back to start of shoulder shaping.
Knit straight until sleeve measures 18 cm.
Purl 1 WS row.
Purl the next row.
Work as set for 19 more rounds.
On next RS row, BO 10 sts, k to end.
With RS facing, pick up and knit 67 stitches along right front, place marker, 30 sts along back neck, place marker, and 67 stitches along left front.
Place marker for beginning of round (left side seam).
Next rnd: K41 (half of back), place next 58 sts on waste yarn (right sleeve), k to end (rest of back).
Work in st st (knit every round) until piece measures 10 cm.
Next rnd: Cast off 10 sts (removing marker), knit until there are 100 sts on right needle after cast-off.
Work in garter st in the rnd (p 1 rnd, k 1 rnd) for 5 rnds.
K 1 rnd, p 1 rnd for 3 cm.
P 1 row, k 1 row until piece measures 3 cm.
Purl 1 rnd (turning rnd).
Row 1 (WS): P1 (edge st), *k2, p2; rep from * to last 3 sts, k2, p1 (edge st).
Using the knitted cast on, CO 26 sts at the beginning of the next row.
Work until yoke measures 8" from CO edge, measured at center front.
Cap sleeves: Inc 1 st at each end of next row.
Next row: K until there are 22 sts on the right-hand needle, slip these onto a holder.
Cut yarn, leaving 30 cm tail. Thread tail on tapestry needle, draw through rem 8 sts and fasten securely on WS.
Break yarn and pull tail through last st.
Leave sts on needle. Do not break yarn.
Work second sleeve the same as first.
With A, cast on 48 (56, 64, 66) sts using the long-tail method.
Change to st st and work in rounds until the sock measures 12 (16, 18, 20) cm from the cast-on edge.
The heel is worked back and forth over the first 24 (28, 32, 34) sts only, using German short rows.
Now work the second half of the heel:
Round 1: [K1, ssk, k to 3 sts before end of needle, k2tog, k1] on each needle. 44 (52, 60, 62) sts.
RS rows:
Note: Change to dpns when sts no longer fit comfortably on circular needle.
Break yarn and thread tail through rem sts. Pull tight to gather sts and fasten off on WS.
Thumb placement rnd: With MC, k2, knit the next 8 (10, 12, 14) sts with scrap yarn, slip these 8 (10, 12, 14) sts back to the LH needle, knit them again with MC, knit to end of rnd.
Next rnd: K2, with waste yarn k7, return these 7 sts to left needle and k them again with MC, k to end.
Knit with waste yarn across next 7 sts, slide them back to left needle and knit them again with main yarn.
Carefully remove scrap yarn and place the 8 (10, 12, 14) sts below and 8 (10, 12, 14) sts above the opening on larger needles.
Remove waste yarn and place resulting 16 sts on dpns.
Knit every round until leg measures 6 (6½, 7, 9) in from cast-on edge, or desired length to top of heel.
2nd and every alt row: Knit.
Work 10 (12, 14, 16) rows in garter st (every row K).
Change to B, do not break A; carry yarn not in use up the side of work.
Next round: K21 (23, 25, 27), slip next 14 (16, 16, 18) sts onto a length of yarn and leave for thumb, turn, cast on 2 sts, turn, K to end. 44 (48, 52, 54) sts.
Next round: K5 (5, 6, 8), slip next 34 (38, 40, 42) sts onto a length of yarn, cast on 2 sts, K last 5 (5, 6, 8) sts. 12 (12, 14, 16) sts.
Slip the 34 (38, 40, 42) sts back onto needles. With RS facing, join yarn, pick up and K2 sts from base of little finger, K34 (38, 40, 42). 36 (40, 42, 44) sts.
M size only: Work 41 more rows.
Both sizes: Knit 6 rows.
Rep the last 2 rows once more, then work a WS row.
Work 7 rows even, keeping 3-st garter borders as set.
Work 7 rows even in St st, keeping the first and last 3 sts in garter st.
Repeat Rows 3 and 4 until all sts on Needle 2 have been worked. 30 (34, 38, 40) heel sts remain.
Dec rnd (B): *K2tog, k5; rep from * around.
Rnd 3 (A): Knit.
Row 1 (RS, MC): Knit.
"""

GOING_ON = """
Continue to decrease 8 sts in this way on every alternate round until 48 sts remain, then on every round until 8 sts remain.
Cont in this manner, working 1 st fewer between decs, until 8 sts rem.
Cont in this manner, having 1 st fewer between decs on each dec rnd, until 8 sts rem.
Rep rnds 3 and 4, working 1 st fewer before each dec, until 8 sts rem.
Rep last 2 rnds, working one less st between decreases each time, until 8 sts rem.
Rep last 2 rnds 5 more times, working 1 st fewer between decs each time.
Rep rnds 1 and 2, working k7 instead of k8, i.e. one stitch less between decreases each time, until 8 sts rem.
Cont to dec 4 sts every other rnd until 8 (8, 10, 10) sts rem.
Cont to inc 8 sts every other rnd as set until there are 264 sts.
Continue decreasing as set until 8 sts rem.
Continue decreasing as established on every rnd until 8 sts rem.
Cont raglan decs as set on every RS row until 40 sts rem.
Cont to dec in this way on every 2nd rnd until 40 sts rem, then every rnd 4 times.
Continue in this way, decreasing 8 sts every alternate round, until 8 sts rem.
Continue in this way until 8 sts rem, working 1 st fewer between decs each time.
Continue in this way, working 1 st fewer on each side of the centred double decrease on every RS row, until 3 sts remain.
"""

NEEDLES = """
CO 24 (28, 32, 36) sts: 12 (14, 16, 18) sts each on N1 and N2.
CO 24 sts (12 sts on needle 1 and 12 sts on needle 2).
Rearrange sts as follows: N1: 28 sts, N2: 14 sts, N3: 14 sts.
56 sts: N1: 28 sts; N2: 28 sts.
Rnd 1: N1: K1, m1r, k to last st, m1l, k1; N2: Knit.
Rnd 2: *K1, m1r, k to last st on needle, m1l, k1; rep from * on N2.
Rnd 1: *K1, ssk, k to last 3 sts on needle, k2tog, k1; rep from * on second needle.
Rnd 1: K1, m1r, k to last st of N1, m1l, k1, knit across N2.
Heel is worked back and forth over the 28 sts on N2 only.
Work on N2 only.
Cont on the 28 sts of needle 2 only.
Work back and forth over next 28 sts only.
Slip last 2 sts of N1 onto N2.
Slip 7 sts from N1 to N2.
Arrange the sts for magic loop with 24 (28, 32, 36) sts on each needle.
Arrange sts for magic loop, half on each needle.
Divide sts with 14 (16, 18, 20) sts on each needle.
Divide sts over 3 needles as follows: N1: 14 (16, 18, 20) sts; N2: 28 (32, 36, 40) sts; N3: 14 (16, 18, 20) sts.
Divide sts over 4 needles so that there are 14 sts each on N1, N2, N3 and N4.
The beginning of the round is at the center back, between N3 and N1.
Rnd begins between needle 3 and needle 1.
You now have 56 (64, 72, 80) sts, 28 (32, 36, 40) on each needle.
Knit 1 rnd. [56 (64, 72, 80) sts; 28 (32, 36, 40) on each needle]
74 (84, 94, 104) sts: 23 (26, 29, 32) sts each on N1 and N3, 28 (32, 36, 40) sts on N2.
8 (8, 10, 10) sts on each of 2 needles.
Knit across N1, turn work. Sl 1, purl across rem sts of N1, then purl across sts on N3 with the same needle.
28 (32, 36, 40) heel sts on one needle.
Leave the 28 (32, 36, 40) instep sts on hold on N2.
Leave 28 sts on needle 2 unworked.
Work back and forth on heel sts as follows:
Work back and forth in rows over the heel sts only.
Knit across Needle 1. You'll now be working back and forth in rows over Needle 2 only; let the instep sts rest on the cable.
Knit every round until the sock measures 4½ (5, 5½, 6)" from the tip of the toe, or about 3¾ (4, 4½, 5)" less than your total foot length.
Cont in this way, inc 2 sts as before on every foll 3rd round until there are 56 (62, 66, 70) sts.
Slip first 6 (6, 7, 7) and last 6 (6, 7, 7) sts from length of yarn onto needles.
Return the first 5 and last 7 held sts to larger needles.
Cont in st st until work measures 4 (4.5, 5, 5.5) cm from cast-on sts at thumb.
Pick-up rnd: With RS facing, knit across 16 (18, 20, 22) heel sts; with same needle (N1), pick up and knit 14 (16, 18, 20) sts along side of heel flap and 1 st in the corner; with N2, knit across 28 (32, 36, 40) instep sts; with N3, pick up and knit 1 st in the corner and 14 (16, 18, 20) sts along other side of heel flap, then knit the first 8 (9, 10, 11) sts from N1 onto N3. 74 (84, 94, 104) sts.
Knit across N1 with N3. 8 (8, 10, 10) sts on each of 2 needles.
Next rnd: K14, k first 3 sts from N2 onto N1, k to end.
Row 3: Sl 1, knit to 1 st before gap, ssk (1 st from each side of gap), k1, turn.
Row 4: Sl 1, p to 1 st before gap, p2tog (1 st before and 1 st after gap), p1, turn.
Work Rows 1–4 a total of 7 (8, 9, 10) times. There will be 14 (16, 18, 20) slipped sts along each edge of the flap.
14 (16, 18, 20) chain sts along each side.
Join MC. Knit across 8 (10, 10, 12) sts, pick up and knit 1 st in gap, knit across 8 (10, 10, 12) sts, pick up and knit 1 st in gap.
With RS facing and A, pick up and knit 30 sts along top edge of Back, then turn and cast on 31 sts using the cable method. [61 sts]
Repeat Cuff 9 (11, 11, 13) times more or until piece is desired length.
Row 1 (RS): K16, turn, place pin on working yarn.
Row 3: Sl 1, k10, turn and attach a pin to the yarn.
Row 5: Sl 1, k to gap, close gap, turn, place pin on yarn.
Row 6: Sl 1, p to gap, pull up loop and p it tog with next st, turn.
Row 7: K to gap, pull up loop at pin and k tog with next st, k to end.
Next row (RS): K across all sts. There is no need to pick up wraps in garter stitch. 32 (40, 44, 48) sts.
"""

CHARTS = """
Row 1 (RS): K4, work chart A over next 17 sts, row 1, k4.
Row 2: P4, work chart A over next 17 sts (row 2), p4.
Row 3: K4, sm, work Chart A (next row), sm, k4.
Rnd 3: K4, sm, continue chart, sm, k to end.
Row 5: K4, work row 3 of chart to last 4 sts, k4.
Row 4: P4, sm, continue chart A to marker, sm, p4.
Row 6 (WS): Work next row of chart A.
Row 7: K4, work 17 sts of chart A, k4.
Row 7: K4, work 17 sts in chart A, k4.
Row 9: K4, work 17 sts of row 5 of chart A, k4.
Row 9: K4, chart A row 5 over 17 sts, k4.
Row 3: Chart A, row 3.
Cont chart as set through row 24.
Cont as established through row 4 of chart A.
Cont as established until chart A is complete.
Work as set until row 24 of chart A is complete.
Cont as set until all 24 rows of chart A have been worked.
Work in patt to end of chart A.
Cont in patt as set until piece measures 10 cm, ending with row 4 of chart A.
Work rows 1–24 of chart A once, then rows 1–12 again.
Work rows 1–4 of chart A, then rep rows 3 and 4 twice more.
Work rnds 1-6 of chart A.
Rep rows 1–8 of chart A 3 times.
Beg with row 5 of chart A, work in chart A for 6 rows.
Rnd 1: Work 8-st rep of chart A around.
Rnd 1: Work 8-st rep of chart A 6 times around.
Chart A rows rep every 4 rows, ripple lace every 6.
Chart A is an 8-st and 24-row rep.
Work rows 1–4 of chart A, working the 8-st rep twice.
Work Chart A twice.
Rep chart A 3 more times.
Work 4 rows of chart A.
Work the next 2 rows of chart.
Follow chart A for 4 rows.
Work through row 4 of chart A.
Row 5: Work row 1 of chart A.
"""
OPENINGS = """
Return first 10 (12, 14, 16) held sts to needle.
Return held 43 sts to needle.
Next row: BO 5 sts, k until there are 15 sts on right needle after bind-off, turn.
Next row: Cast off 5 sts, k until there are 15 sts on right needle (after cast-off), turn and leave rem sts on a holder.
Next row: Cast off 5 sts, k15 (including st used in casting off), turn.
Buttonhole row (RS): K3, [bind off 2 sts, k until there are 12 sts on right needle after bind-off] 4 times, k to end.
Next row: K to bound-off sts, cast on 2 sts over bound-off sts, k to end.
Next row: Knit, casting on 2 sts over each bound-off section.
Next row: K10, k across 20 pocket lining sts, k to end.
Next row: K10, sl next 20 sts onto a holder, k across 20 sts of pocket lining in place of these sts, k to end.
Work each side separately.
"""

BOTH_SIDES = """
Work both sides at the same time with separate balls of yarn.
With separate balls of yarn, work both sides at once.
Working both sides at the same time, dec 1 st at each neck edge every RS row 4 times.
At each neck edge, bind off 3 sts once, then 2 sts twice, then dec 1 st every RS row 4 times.
BO at each neck edge 3 sts once, then 2 sts twice, then dec 1 st at each neck edge every RS row 7 (8, 8, 9) times. 35 sts rem each side.
Both sides are worked at the same time with separate balls; at each neck edge bind off 3 sts once, dec 1 st every RS row 4 times.
Bind off rem 26 sts on each side.
"""

CORDS = """
Work i-cord for 10 cm.
Work in i-cord until piece measures 30 cm.
Work a 4-st i-cord for 20 rows.
*K4, do not turn, slide sts to other end of needle; rep from * until cord measures 10 cm.
Work an i-cord bind-off over all sts.
BO all sts using a 3-st i-cord bind-off.
Work applied i-cord along 20 sts.
Work applied i-cord around all four edges.
Work i-cord edging along bound-off edge.
Work a tubular bind-off.
Work a crochet edging along the bind-off edge.
Picot bind-off: *CO 2 sts, BO 4 sts, sl st from right needle to left needle; rep from * to end.
Join sts using a three-needle bind-off.
Work an i-cord cast-on over 20 sts.
Unzip provisional cast-on and place 20 sts on spare needle.
Undo the provisional cast-on and place the resulting 20 sts on smaller needles.
Carefully remove waste yarn from provisional cast-on and place 19 live sts on needle.
Remove provisional cast-on, placing sts on a second needle.
Close toe using Kitchener stitch.
Use Kitchener stitch to graft rem 20 sts.
Kitchener toe closed.
Using a closed-toe cast-on, cast on 12 sts on each of two needles.
Using the knitted cast-on, CO 5 sts onto left needle.
With waste yarn and a provisional cast-on, CO 20 sts.
Using a circular cast-on, CO 8 sts.
Do not turn; rotate 90°, pick up and knit 3 sts along the side (one in each garter ridge), then 3 sts from cast-on edge.
Rotate work 90 degrees clockwise and pick up and knit 3 sts along left edge, then 3 sts from cast-on edge.
Turn work inside out.
Knit an i-cord 70 cm long.
Break yarn and thread through sts to fasten off.
With WS tog, graft ends using Kitchener st.
Unzip provisional cast-on and place 26 sts on spare needle. With right sides together, graft ends using Kitchener st.
Cast on 48 sts using the long-tail method. Arrange the sts for magic loop with 24 sts on each needle.
CO 3 sts. Knit 6 rows. Do not turn at end of last row; rotate work 90 degrees clockwise and pick up and knit 3 sts along the side edge (one in each garter ridge), then rotate again and pick up and knit 3 sts from the cast-on edge. 9 sts.
At the end of the last row, don't turn – pick up and knit 3 sts along the side of the tab, then 3 sts along the cast-on edge.
CO 84 sts using a two-color Italian cast-on or other stretchy method. Join to knit in the rnd.
Using a figure-eight cast-on (or your favorite closed toe cast-on), cast on 24 sts – 12 sts on each needle.
BO loosely, using a needle 2 sizes larger if you tend to bind off tightly.
Set-up rnd 1 (B): *K1, sl1yo; rep from * to end. Do not turn; drop B to front.
Rep Rows 3 and 4 eighteen more times. 89 sts: 41 sts each side of center st, not counting the edge sts.
Bind off very loosely as follows: K2, *slip the 2 sts back to left needle, k2tog tbl, k1; rep from * until all sts are bound off.
Bind off all sts as follows: K1, *k1, pass first st over second; rep from * to end.
BO very loosely using a needle two sizes larger.
BO all sts loosely with larger needles.
Rotate work and pick up and knit 3 sts along the side, then 3 sts from the cast-on edge. 9 sts.
Remove waste yarn and place the 20 live sts from provisional cast-on on larger needles.
Cont in charted pattern, beg with Rnd 1, until Rnds 1–4 have been worked 2 more times.
Bind off all sts as follows: *brk1, p1; rep from * to end, binding off in pattern.
Work Rows 1–4 of this section a total of 6 times. 54 sts.
Rep Rows 1-8 twice more, working one more rep of the diamond in each half each time. 153 sts.
Rep rows 1 and 2 five more times, working 2 more repeats each time.
Dec rnd: *BrLsl dec, sl1yo, [brk1, sl1yo] 5 times; rep from * around. 84 sts.
Next rnd (B): *br4st inc, sl1yo, (brk1, sl1yo) 3 times, brRsl dec, sl1yo; rep from * around.
I-cord bind-off: CO 3 sts, *k2, k2tog tbl, slip 3 sts back to left needle; rep from * until 3 sts rem.
Stretchy bind-off: K2tog tbl, *slip st back to left needle, k2tog tbl; rep from * to end.
Knit 2 rows. 40 sts, excluding the 3 border sts at each end.
"""

GARMENTS = """
Work back and forth on the back sts from here.
Work back and forth in rows on the front sts only.
Short row 3 (RS): MDS, k to m, sm, k to DS from previous row, k DS as one st, k4, turn.
Work a decrease round every 4 (4, 5, 5)th round 8 (10, 10, 12) more times. 32 (32, 36, 36) sts left.
Work an inc row every RS row 4 more times.
Place centre of cast-off edge of sleeves to shoulder seams, then sew sleeves to back and front.
Machine stitch or crochet along each side of the centre st of each steek, and cut open.
Turn in steek edges and catch down on WS.
Cut steek open.
Work ribbing as for Front until piece measures 2 in, ending with a WS row.
Work 20 rows in rib as given for Back.
Work in rib as given for Back for 6 cm, ending with RS facing for next row.
Work exactly as for Front until you have changed to larger needles.
Work as given for Front until rib is complete.
Work same as for Back until armhole measures 7 (8, 8, 9) cm from markers, ending after a WS row.
Inc 1 st at each end of next and every foll alt row 5 times in total, working new sts in St st.
Inc 1 st at each end of every 4th row 3 times, taking the inc sts into garter st.
Beg with a K row, work in st-st, inc 1 st at each end of 5th and every foll 6th row until there are 70 sts, then at each end of every foll 4th row until there are 94 sts.
Starting with a WS row, cont in garter st.
Bind off 12 sts at beg of next 4 rows, then 11 sts at beg of foll 2 rows, keeping patt correct.
Joining round: With larger needle and RS facing, rejoin yarn to sts of front, knit across 100 front sts, pm, knit across 70 sts of right sleeve, pm, knit across 100 back sts, pm, knit across 70 sts of left sleeve, pm for beginning of round. 340 sts.
Joining Rnd: With RS facing and the yarn attached to the body, k across 48 held sts of first sleeve, pm, k76 front sts, pm, k across 48 held sts of second sleeve, pm, k76 back sts, pm for BOR. 248 sts.
Joining Row (RS): Knit across all right front sts, then knit across 66 held back sts. 132 sts.
Rep Inc Row and Next Row 5 times more.
Work Eyelet Row and Row 2 once more.
Rep rows 1 and 2, 5 times more, then Row 1 once more.
Rep rows 1 and 2 until you have worked 17 increase rows in all.
Knit every round until sock measures 9 cm less than total foot length.
Knit 22 ridges, ending with a WS row.
Divide for armholes: Cast off 10 sts (removing marker), knit until there are 100 sts on right needle after cast-off, cast off 10 sts (removing marker), knit to end.
With RS facing and starting in the middle of the centre front sts, knit the last 6 sts from the front holder, pick up and knit 14 sts up the right side of the neck, knit the remaining 6 sts from the front holder. 26 sts.
Next row: Knit to marker, then fold the hood in half with right sides together and join the top with a three-needle cast off.
Fold piece in half and join using 3-needle bind-off.
Place first set of 43 sts on a holder or scrap yarn and continue on the 43 left front sts only.
Leave 6 sts on a holder and cont on rem 20 sts only.
Next rnd: K7, slip these 7 sts just worked and last 6 sts of previous rnd on to a thread (left underarm, 13 sts), cast on 7 steek sts, pm, k53, pm, slip next st on to a safety pin (centre front), cast on 7 steek sts, k to end, pm for new start of rnd.
Next rnd: Cast off 7 steek sts, k25, cast off 7 steek sts, k to end. 25 sts for each front shoulder and 91 sts for back.
Join right and left shoulders by three-needle cast-off, working 25 sts from front and back together each side and leaving centre 41 sts on a holder for back neck.
With RS facing and A, pick up and knit 63 sts down left front neck, k centre front st from safety pin and mark it, pick up and knit 63 sts up right front neck. 127 sts.
With RS facing and A, slip first 7 sts from underarm thread on to right needle, rejoin yarn, k rem 6 sts, pick up and knit 113 sts around armhole, k 7 sts from underarm. 126 sts.
Next row: K10, k rem 6 sts.
Work in chart A, stranding colour not in use loosely across back of work, until piece measures 13 in from cast-on edge, ending with rnd 4 of pattern.
"""

FIRST_CONTACT = """
Round 1: *K2 MC, k1 CC1; repeat from * around.
Round 2: *With MC k3, with CC2 k2, with MC k3; repeat from * around.
Rnd 3: *K3CC1, k1MC; rep from * to end.
Cut CC1. With CC2, knit 2 rounds.
Setup Rnd: K84, pm, k to end.
Setup Row (RS): Knit.
Row 2 (and all WS rows): Purl.
Row 2 (WS) (and all foll WS rows): Purl.
Rnd 2 (and every foll alt rnd): Knit.
Rep rows 1 and 2 eleven (thirteen, fifteen, fifteen) more times.
Rep rows 1 and 2 twenty-six (thirty-six, forty, forty) times.
Rep rows 1 and 2 once (twice, twice, twice) more.
Work last 2 rows twenty-six times.
Rows 3 and 4: With CC2, as rows 1 and 2.
Row 3: As row 1 but using B.
Row 3 (RS): As row 1, with B.
Rows 3–4: Rep rows 1–2 with B.
Rows 3 and 4: Using B, rep rows 1 and 2.
With RS facing, BO all sts but the last; do not cut yarn. 1 st.
BO all but last st.
Bind off all sts except the last 2 sts loosely.
BO until 1 st rem.
Cast off in rib until 1 st remains on needle.
BO until 1 st rem (first st of next log).
BO as follows: *CO 2 sts using the knitted cast-on, BO 4 sts, slip st from right needle back to left needle; repeat from * until 1 st remains. Fasten off.
Picot BO: *CO 2 sts, BO 4 sts, return st to LH needle; rep from * to end.
**Next row (RS):** Knit.
**Row 1**: K2, p2; knit to end.
**Rnd 3.** Knit.
**Turn Heel**
HEEL TURN
**Log 1:** Knit 4 rows.
Center: Knit 4 rows.
Thumb opening: Knit 4 rows.
Next rnd: Knit, working double sts as a single stitch and removing all markers except BOR as you come to them.
Next rnd: K to end, removing all markers except the BOR marker.
Place marker and join to work in the round, taking care not to twist your stitches, and place a BOR marker.
Row 5: Work sts as they appear.
Next row (WS): Work each st as it faces.
Row 6: Work sts as they appear (knit the knits and purl the purls).
Change to larger circ.
Using smaller circ and A, CO 84 sts.
Break yarn, leaving a long tail for the seam.
Break yarn, leaving a 6-inch tail.
Break yarn, leaving about 30 cm.
Break yarn, draw through rem sts twice.
Cast off in rib, not too tightly!
Cast off in rib, dec 1 st either side of marked st as before.
Carry unused colors loosely up the side.
Do not turn at the end of the last row.
Complete to match Back, reversing all shapings.
"""

GROUPS = {
    "labels": LABELS,
    "plain rows": PLAIN,
    "stitches": STITCHES,
    "repeats": REPEATS,
    "targets": TARGETS,
    "acts": ACTS,
    "several rows": SEVERAL_ROWS,
    "shaping": SHAPING,
    "setting up": SETUP,
    "parts": PARTS,
    "headings": HEADINGS,
    "states": STATES,
    "totals": TOTALS,
    "computed": COMPUTED,
    "old books": BOOKS,
    "other hands": OTHER_HANDS,
    "marked stitches": MARKED,
    "going on": GOING_ON,
    "needles of a set": NEEDLES,
    "charts": CHARTS,
    "openings": OPENINGS,
    "both sides": BOTH_SIDES,
    "cords and beginnings": CORDS,
    "garments": GARMENTS,
    "first contact": FIRST_CONTACT,
}
LINES = tuple(line for group in GROUPS.values() for line in group.strip().splitlines())
