import type { CutPlan } from '../workshop/cut-plan.js';
import { chainEdges } from './edge-chains.js';
import { foldMarks } from './fold-marks.js';
import { chainPath } from './map-paths.js';
import { INK } from './palette.js';
import { drawingBox, markText, registrationMarks } from './sheet-marks.js';
import { element, group, svgDocument, svgNumber, textElement } from './svg-markup.js';
import { FONT_FAMILY } from './text-width.js';

/** File name of the drawing beside the sheets. */
export const DRAWING_FILE = 'drawing.svg';

/** Width of a line to saw, and of the cross of a hole, mm. */
const LINE_WIDTH = 0.15;

/** Room around the drawing, mm, and in it the registration crosses. */
const MARGIN = 12;
const REGISTRATION_AT = 5;

/** Type of the numbers of steps, and of the title, mm. */
const STEP_SIZE = 1.7;
const TITLE_SIZE = 3;

/**
 * The drawing to stick on the front sheet, as one SVG at true size (mm): every line that is sawn in any sheet, add-ons
 * dashed, each hole with the number of its step, each piece with the id that it has in the plan and that of its region
 * (`p6 r8`), and the crosses of the written sheets. The sheets by themselves have not all lines: a recess takes away
 * what is sawn within it.
 */
export function writeDrawing(plan: CutPlan, title = ''): string {
  const { relief, pieces } = plan;
  const { map } = relief;
  const box = drawingBox(map);
  const onTop = (face: number): boolean => face >= 0 && map.regions[face].addOn;
  const isAddOn = (e: number): boolean => onTop(map.edges[e].left) || onTop(map.edges[e].right);
  const all = map.edges.map((_, e) => e);
  const addOns = all.filter(isAddOn);
  const lines = all.filter((e) => !isAddOn(e));
  const label = relief.joint === 'pieces' ? pieces : [];
  const ids = [...label, ...relief.addOns].map(({ id, region }) => {
    const { id: name, labelPoint, labelRoom } = map.regions[region];
    return markText(`${id} ${name}`, labelPoint, labelRoom);
  });
  const words = [title, 'drawing to stick on the front'].filter((part) => part !== '').join(' \u2013 ');
  const page = {
    x: box.x - MARGIN,
    y: box.y - MARGIN,
    width: box.width + 2 * MARGIN,
    height: box.height + 2 * MARGIN,
  };
  return svgDocument(page, words, `.mark{font-family:${FONT_FAMILY}}`, [
    lineGroup(plan, 'lines', lines, {}),
    lineGroup(plan, 'add-ons', addOns, { 'stroke-dasharray': '1 0.7' }),
    foldMarks(map, LINE_WIDTH, () => true),
    holeMarks(plan),
    group({ id: 'marks', class: 'mark', fill: INK.soft, 'text-anchor': 'middle' }, ids),
    registrationMarks(box, REGISTRATION_AT),
    textElement(box.x + box.width / 2, box.y + box.height + MARGIN / 2 + 1, words, {
      id: 'title',
      class: 'mark',
      'font-size': TITLE_SIZE,
      'text-anchor': 'middle',
      fill: INK.soft,
    }),
  ]);
}

function lineGroup(
  { relief: { map } }: CutPlan,
  id: string,
  edges: readonly number[],
  more: Readonly<Record<string, string>>,
): string {
  if (edges.length === 0) return '';
  const paths = chainEdges(map, edges).map((chain) => element('path', { d: chainPath(map, chain.steps) }));
  return group({ id, fill: 'none', stroke: INK.line, 'stroke-width': LINE_WIDTH, ...more }, paths);
}

/** A circle of the size of each hole with a cross, and the number of its step. */
function holeMarks({ passes }: CutPlan): string {
  let number = 0;
  const marks = passes.flatMap(({ steps, phase }) =>
    steps.flatMap(({ start }) => {
      number++;
      if (start.kind !== 'drill' || phase === 'add-ons') return [];
      const [x, y] = start.at;
      const radius = (start.diameter ?? 1) / 2;
      const arm = radius + 0.4;
      const cross = `M${svgNumber(x - arm)} ${svgNumber(y)}h${svgNumber(2 * arm)}M${svgNumber(x)} ${svgNumber(y - arm)}v${svgNumber(2 * arm)}`;
      const aside = radius + 0.5;
      return [
        element('circle', { cx: x, cy: y, r: radius }) +
          element('path', { d: cross }) +
          textElement(x + aside, y - aside, String(number), {
            class: 'mark',
            'font-size': STEP_SIZE,
            fill: INK.drill,
            stroke: 'none',
          }),
      ];
    }),
  );
  return group({ id: 'holes', fill: 'none', stroke: INK.drill, 'stroke-width': LINE_WIDTH }, marks);
}
