import { FONT_FAMILY } from './text-width.js';

/** The look of a plan to print: A4 or letter, readable in grey, one colour of alarm for what is sawn now. */
export const PLAN_STYLE = `
@page { size: A4; margin: 10mm 12mm 11mm; @bottom-right { content: counter(page); font: 8pt sans-serif; color: #59616b; } }
:root { --ink: #15181c; --soft: #59616b; --rule: #c9ccd1; --now: #c2340b; --start: #0b57a4; }
* { box-sizing: border-box; }
body { margin: 0 auto; max-width: 200mm; padding: 8mm; color: var(--ink); font: 10pt/1.36 ${FONT_FAMILY}; }
h1 { font-size: 21pt; line-height: 1.1; margin: 0 0 2mm; letter-spacing: -0.01em; }
h2 { font-size: 13.5pt; margin: 6mm 0 2mm; padding-bottom: 1mm; border-bottom: 0.6mm solid var(--ink); break-after: avoid; }
h3 { font-size: 8.8pt; line-height: 1.2; margin: 0 0 0.8mm; }
h3 b { display: inline-block; min-width: 7mm; margin-right: 1mm; padding: 0.2mm 1.2mm; text-align: center; color: #fff; background: var(--ink); border-radius: 1mm; }
p { margin: 0 0 1.6mm; }
p.lead { break-after: avoid; }
ul, ol { margin: 0 0 2mm; padding-left: 5.5mm; }
li { margin: 0 0 0.8mm; }
figure { margin: 0; }
header { border-bottom: 0.3mm solid var(--rule); padding-bottom: 2mm; }
.outlines { position: absolute; width: 0; height: 0; }
.scene { clear: both; margin: 1mm 0 3mm; break-inside: avoid; position: relative; }
.intro { break-inside: avoid; display: flow-root; }
.intro .scene { margin-bottom: 2mm; }
.beside { display: grid; grid-template-columns: 1fr auto; column-gap: 4mm; }
.beside h2 { grid-column: span 2; }
.beside .stack { margin-left: 2mm; }
.beside .stack svg { width: 30mm; }
.beside .map { width: auto; height: 104mm; }
.beside .map.small { height: 84mm; }
.steps { clear: both; }
.steps + p { break-before: avoid; }
.map { display: block; width: calc(100% - 0.3mm); max-height: 118mm; border: 0.2mm solid var(--rule); }
.map.small { max-height: 84mm; }
.map.glue { max-height: 112mm; }
.map.middle { max-height: 100mm; }
.stack { float: right; margin: 0 0 1.5mm 4mm; }
.stack svg { display: block; width: 38mm; max-height: 26mm; }
.stack text { font-size: 4.6px; fill: var(--soft); }
.stack .in { stroke: var(--ink); stroke-width: 0.35; }
.stack .off { stroke: var(--soft); stroke-width: 0.25; stroke-dasharray: 1 0.8; }
.stack figcaption { font-weight: 700; max-width: 38mm; }
.whole { break-inside: avoid; margin: 1mm 0 3mm; }
.tile figcaption { line-height: 1.6; }
figcaption { font-size: 8.4pt; color: var(--soft); margin-top: 0.6mm; }
.steps { list-style: none; margin: 0 0 2mm; padding: 0 0.4mm; display: grid; grid-template-columns: 1fr 1fr 1fr; gap: 2.6mm; }
.step { display: flex; flex-direction: column; margin: 0; break-inside: avoid; border: 0.2mm solid var(--rule); border-radius: 1.2mm; overflow: hidden; }
.step .near { display: block; width: 100%; aspect-ratio: 1.6; background: #fff; border-bottom: 0.2mm solid var(--rule); }
.step.large { grid-column: span 2; }
.step.full { grid-column: span 3; }
.far { float: right; width: 11mm; height: 11mm; margin: 0 0 0.6mm 1.4mm; }
.say { padding: 1.3mm 1.7mm 0.9mm; font-size: 8pt; line-height: 1.25; }
.say p { margin: 0 0 0.7mm; }
.say p:last-child { color: var(--soft); }
text { font-family: ${FONT_FAMILY}; text-anchor: middle; fill: var(--ink); stroke: none; }
.stack text { text-anchor: start; }
.steps-at text { fill: var(--start); font-weight: 700; }
.aside { fill: var(--soft); stroke: var(--soft); stroke-width: 0.14px; stroke-dasharray: 0.6px 0.35px; }

use { stroke: #4a5058; stroke-width: 0.22px; }
.stays { fill: #efe9db; }
.tint-0 { fill: #efe9db; }
.tint-1 { fill: #cfe0d2; }
.tint-2 { fill: #dcd3ea; }
.tint-3 { fill: #f3dcc4; }
.open { fill: url(#gone); }
.partly { fill: url(#part); }
.piece { fill: #f3d671; }
.kept { fill: url(#kept); }
.block { fill: #bcd6ee; }
.waste { fill: url(#scrap); }
.paper { fill: #fff; }
path.off { fill-rule: evenodd; stroke: #4a5058; stroke-width: 0.22px; }
path.now { fill: none; stroke: var(--now); stroke-linejoin: round; stroke-linecap: round; }
path.lead { fill: none; stroke: #fff; stroke-dasharray: 1.4 1.1; }
path.back { fill: none; stroke: #15181c; stroke-linecap: round; }
path.on { fill: none; stroke: var(--now); stroke-dasharray: 1.2 0.8; }
path.way { fill: #7a1c02; stroke: #fff; stroke-linejoin: round; }
.labels text, text.id { font-weight: 700; stroke: #fff; stroke-width: 0.14em; paint-order: stroke; stroke-linejoin: round; }
.faint text { font-weight: 400; fill: var(--soft); }
.leader { fill: none; stroke: var(--ink); }
.near .leader { stroke: var(--soft); stroke-dasharray: 0.5 0.4; }
.leader-dot { fill: var(--soft); }
circle.end { fill: #7a1c02; stroke: #fff; stroke-width: 0.1px; }
path.way-in { fill: none; stroke: var(--start); stroke-dasharray: 0.9 0.7; }
path.way-open { fill: none; stroke: #8296ad; }
path.true-way { stroke-width: 0.35px; }
.board { fill: none; stroke: var(--ink); stroke-width: 0.4px; }
.board-edge { fill: none; stroke: #4a5058; stroke-width: 0.2px; stroke-dasharray: 4 1.2; }
.detail { fill: none; stroke: #4a5058; stroke-width: 0.22px; }
.plate { fill: #fff; stroke: var(--ink); }
.key-word { font-weight: 700; fill: var(--start); }
circle.letter { fill: var(--start); }
text.letter { fill: #fff; font-weight: 700; }
circle.part { fill: #fff; stroke: var(--now); stroke-width: 0.12px; }
text.part { font-weight: 700; fill: var(--now); }
circle.to-part { fill: #fff; stroke: #15181c; stroke-width: 0.12px; }
text.to-part { font-weight: 700; fill: #15181c; }
.hole { fill: #fff; stroke: var(--start); }
.cross { fill: none; stroke: var(--start); }
.begin { fill: #fff; stroke: var(--start); }
path.eye { stroke-linejoin: round; }
rect.begin { fill: var(--start); stroke: #fff; }
.weak { fill: none; stroke: var(--now); stroke-width: 0.5px; }
.far .page { fill: #fff; stroke: var(--soft); stroke-width: 0.6px; vector-effect: non-scaling-stroke; }
.far .here { fill: var(--now); fill-opacity: 0.35; stroke: var(--now); stroke-width: 1px; vector-effect: non-scaling-stroke; }
use.seat { fill: none; stroke: var(--ink); stroke-width: 0.35px; stroke-dasharray: 1 0.7; }
use.line, path.line { fill: none; stroke: #000; stroke-width: 0.2px; }
.offcuts { display: flex; flex-wrap: wrap; gap: 4mm; margin: 1mm 0 2mm; }
.offcuts .left { width: 42mm; max-height: 42mm; }
.offcuts .edge { fill: none; stroke: var(--soft); stroke-width: 0.3px; stroke-dasharray: 2 1.4; }
.tile { break-before: page; break-inside: avoid; }
#drawing h2 + .outlines + .tile { break-before: auto; }
.true { display: block; overflow: hidden; }
.pin, .joint { fill: none; stroke: var(--start); stroke-width: 0.25px; }
.bar { display: block; width: 100mm; height: 2mm; margin: 1mm 0; border: 0.3mm solid #000; border-top: 0; }
ul.long { columns: 2; column-gap: 8mm; }
ul.long li { break-inside: avoid; }
div.two { columns: 2; column-gap: 6mm; }
table { width: 100%; border-collapse: collapse; font-size: 8.2pt; margin: 1mm 0 3mm; }
th { text-align: left; border-bottom: 0.4mm solid var(--ink); padding: 0.5mm 1.2mm; }
td { border-bottom: 0.15mm solid var(--rule); padding: 0.4mm 1.2mm; vertical-align: top; }
tr { break-inside: avoid; }
.number { text-align: right; }
.number, .ids { white-space: nowrap; }
.legend { list-style: none; padding: 0; margin: 1mm 0 0; display: grid; grid-template-columns: 1fr 1fr; gap: 0.5mm 6mm; font-size: 8.4pt; }
.legend li { display: flex; align-items: center; gap: 2mm; margin: 0; }
.key { flex: 0 0 8mm; width: 8mm; height: 4mm; }
.key-height { display: inline-block; width: 4mm; height: 2.4mm; margin: 0 1mm 0 3mm; border: 0.2mm solid #4a5058; }
.key-area { stroke: #4a5058; stroke-width: 0.4px; }
@media print { body { padding: 0; max-width: none; } * { print-color-adjust: exact; -webkit-print-color-adjust: exact; } }
@media screen and (max-width: 620px) { .beside { display: block; } .steps { grid-template-columns: 1fr; } .step.large, .step.full { grid-column: auto; } }
`;
