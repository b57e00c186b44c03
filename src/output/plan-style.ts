import { FONT_FAMILY } from './text-width.js';

/** The look of a plan to print: A4 or letter, readable in grey, one colour of alarm for what is sawn now. */
export const PLAN_STYLE = `
@page { size: A4; margin: 13mm 12mm 14mm; }
:root { --ink: #15181c; --soft: #59616b; --rule: #c9ccd1; --now: #c2340b; --keep: #f3dc92; --block: #cfe0ee; --waste: #f4c9bb; }
* { box-sizing: border-box; }
body { margin: 0 auto; max-width: 200mm; padding: 8mm; color: var(--ink); font: 10pt/1.38 ${FONT_FAMILY}; }
h1 { font-size: 21pt; line-height: 1.1; margin: 0 0 3mm; letter-spacing: -0.01em; }
h2 { font-size: 13.5pt; margin: 7mm 0 2mm; padding-bottom: 1mm; border-bottom: 0.6mm solid var(--ink); break-after: avoid; }
h3 { font-size: 8.8pt; line-height: 1.2; margin: 0 0 0.8mm; }
h3 b { display: inline-block; min-width: 7mm; margin-right: 1mm; padding: 0.2mm 1.2mm; text-align: center; color: #fff; background: var(--ink); border-radius: 1mm; }
p { margin: 0 0 1.6mm; }
ul { margin: 0 0 2mm; padding-left: 5mm; }
li { margin: 0 0 0.8mm; }
header { border-bottom: 0.3mm solid var(--rule); padding-bottom: 2mm; }
.outlines { position: absolute; width: 0; height: 0; }
.head { break-inside: avoid; }
.scene { display: flex; gap: 5mm; align-items: flex-start; margin: 2mm 0 4mm; break-inside: avoid; }
.scene .map { flex: 1 1 0; width: 0; max-height: 118mm; border: 0.2mm solid var(--rule); }
.stack { flex: 0 0 34mm; margin: 0; }
.stack svg { width: 34mm; }
.stack text { font-size: 3.6px; fill: var(--soft); }
.stack .in { stroke: var(--ink); stroke-width: 0.35; }
.stack .off { stroke: var(--soft); stroke-width: 0.25; stroke-dasharray: 1 0.8; }
.stack figcaption { font-weight: 700; font-size: 9pt; margin-top: 1mm; }
.steps { list-style: none; margin: 0 0 2mm; padding: 0 0.4mm; display: grid; grid-template-columns: 1fr 1fr 1fr; gap: 3.5mm 3.5mm; }
.step { display: flex; flex-direction: column; margin: 0; break-inside: avoid; border: 0.2mm solid var(--rule); border-radius: 1.2mm; overflow: hidden; }
.look { position: relative; }
.look .near { display: block; width: 100%; aspect-ratio: 4 / 3; background: #fff; border-bottom: 0.2mm solid var(--rule); }
.look .far { position: absolute; width: 13mm; max-height: 13mm; background: rgba(255, 255, 255, 0.92); border: 0.2mm solid var(--rule); }
.low-right { right: 1mm; bottom: 1mm; }
.low-left { left: 1mm; bottom: 1mm; }
.top-right { right: 1mm; top: 1mm; }
.top-left { left: 1mm; top: 1mm; }
.say { padding: 1.4mm 1.8mm 1mm; font-size: 8pt; line-height: 1.27; }
.say p { margin: 0 0 0.8mm; }
.say p:last-child { color: var(--soft); }
svg text { font-family: ${FONT_FAMILY}; }
use { stroke: #4a5058; stroke-width: 0.22px; }
.stays { fill: #efe9db; }
.open { fill: url(#gone); }
.partly { fill: url(#part); }
.piece { fill: var(--keep); }
.block { fill: var(--block); }
.waste { fill: var(--waste); }
path.now, .whole path { fill: none; stroke: var(--now); stroke-linejoin: round; stroke-linecap: round; }
.whole path { stroke-width: 0.55px; }
path.lead { fill: none; stroke: var(--now); stroke-dasharray: 1.6 1.2; }
path.way { fill: var(--now); stroke: #fff; stroke-width: 0.15px; }
.numbers text, text.id { text-anchor: middle; font-weight: 700; fill: var(--ink); stroke: #fff; stroke-width: 0.12em; paint-order: stroke; stroke-linejoin: round; }
.hole { fill: #fff; stroke: #0b57a4; stroke-width: 0.35px; }
.cross { fill: none; stroke: #0b57a4; }
.begin { fill: #fff; stroke: #0b57a4; stroke-width: 0.5px; }
rect.begin { fill: #0b57a4; }
.far .page { fill: #fff; stroke: var(--soft); stroke-width: 2px; vector-effect: non-scaling-stroke; stroke-width: 0.6px; }
.far .here { fill: var(--now); fill-opacity: 0.35; stroke: var(--now); stroke-width: 1px; vector-effect: non-scaling-stroke; }
#glue ul, #notes ul { columns: 2; column-gap: 8mm; }
#glue li { break-inside: avoid; }
.ids .map { width: 100%; max-height: 150mm; border: 0.2mm solid var(--rule); }
.ids { break-inside: avoid; margin: 0 0 3mm; }
table { width: 100%; border-collapse: collapse; font-size: 8.4pt; margin: 1mm 0 3mm; }
th { text-align: left; border-bottom: 0.4mm solid var(--ink); padding: 0.6mm 1.4mm; }
td { border-bottom: 0.15mm solid var(--rule); padding: 0.6mm 1.4mm; vertical-align: top; }
tr { break-inside: avoid; }
.number { text-align: right; white-space: nowrap; }
.legend { list-style: none; padding: 0; margin: 2mm 0 0; display: grid; grid-template-columns: 1fr 1fr; gap: 0.6mm 6mm; font-size: 8.4pt; }
.legend li { display: flex; align-items: center; gap: 2mm; margin: 0; }
.legend i { flex: 0 0 8mm; height: 4mm; border: 0.2mm solid #4a5058; }
.legend .now { height: 0; border: 0; border-top: 0.8mm solid var(--now); }
.legend .piece { background: var(--keep); }
.legend .waste { background: var(--waste); }
.legend .block { background: var(--block); }
.legend .stays { background: #efe9db; }
.legend .open { background: repeating-linear-gradient(45deg, #b9bcc0 0 0.35mm, #f4f4f2 0.35mm 1.4mm); }
.legend .partly { background: repeating-linear-gradient(-45deg, #d9cba8 0 0.3mm, #fbf6ea 0.3mm 1.4mm); }
.legend .drill, .legend .ring { flex-basis: 4mm; margin-left: 2mm; margin-right: 2mm; border: 0.5mm solid #0b57a4; border-radius: 50%; }
.legend .drill { background: linear-gradient(#0b57a4, #0b57a4) center / 100% 0.3mm no-repeat, linear-gradient(#0b57a4, #0b57a4) center / 0.3mm 100% no-repeat; }
.legend .edge { flex-basis: 4mm; margin-left: 2mm; margin-right: 2mm; background: #0b57a4; border-color: #0b57a4; }
@media print { body { padding: 0; max-width: none; } * { print-color-adjust: exact; -webkit-print-color-adjust: exact; } }
@media screen and (max-width: 620px) { .steps { grid-template-columns: 1fr; } .scene { flex-direction: column; } }
`;
