import type { CutPlan } from '../workshop/cut-plan.js';
import type { Block, Section } from './plan-content.js';
import { glueBlocks } from './plan-content-glue.js';
import { joinWords, millimetres, type PlanWords, plural } from './plan-words.js';

/** What a person needs once the saw stands still: narrow places, glue-up, pieces, offcuts, the drawing. */
export function afterSawing(plan: CutPlan, words: PlanWords, pictures: boolean): Section[] {
  const drawing: Block[] = pictures && plan.relief.map.regions.length > 0 ? [{ kind: 'drawing' }] : [];
  const sections: Section[] = [
    { id: 'narrow', title: 'Narrow places', blocks: narrowBlocks(plan) },
    { id: 'glue', title: 'Put it together', blocks: glueBlocks(plan, words) },
    { id: 'pieces', title: 'Pieces', blocks: pieceBlocks(plan) },
    { id: 'offcuts', title: 'Sheets and offcuts', blocks: offcutBlocks(plan) },
    { id: 'notes', title: 'Notes', blocks: noteBlocks(plan) },
    { id: 'drawing', title: 'The drawing at true size', blocks: drawing },
  ];
  return sections.filter((section) => section.blocks.length > 0);
}

function narrowBlocks(plan: CutPlan): Block[] {
  const { bridges, relief } = plan;
  if (bridges.length === 0) return [];
  return [
    {
      kind: 'paragraph',
      text: 'These places are narrower than the material and the height ask for. Go slowly, hold both sides down, and do not pull the work back there. If one breaks, glue it in place and go on when it is dry.',
    },
    { kind: 'narrow' },
    {
      kind: 'table',
      head: ['No.', 'When', 'Where', 'At x, y', 'Width', 'Needed'],
      numbers: [0, 4, 5],
      rows: bridges.map(({ where, regions, at, width, needed }, i) => [
        String(i + 1),
        whenNarrow(plan, where),
        joinWords(regions.map((r) => relief.map.regions[r].id)),
        `${at[0].toFixed(1)}, ${at[1].toFixed(1)}`,
        millimetres(width, 2),
        millimetres(needed, 2),
      ]),
    },
  ];
}

/** When a bridge is narrow: always, in a finished piece or sheet, or for a while. */
function whenNarrow(plan: CutPlan, where: string): string {
  if (where.startsWith('pass')) return `after ${where}, in what is left`;
  const { sheets } = plan.relief.stack;
  const ids = where.split('+');
  if (ids.every((id) => sheets.some((sheet) => sheet.id === id))) {
    return plan.relief.joint === 'continuous'
      ? `sheet ${where}`
      : `${joinWords(ids)} alone, after the recesses`;
  }
  const name = plan.pieces.find((piece) => piece.id === where)?.name ?? null;
  return `piece ${name === null ? where : `${where} ${name}`}`;
}

function pieceBlocks({ pieces }: CutPlan): Block[] {
  if (pieces.length === 0) return [];
  return [
    {
      kind: 'table',
      head: ['Piece', 'Name', 'Sheets from the face', 'Thick', 'Size', 'Area', 'Weight', 'Finish'],
      numbers: [3, 4, 5, 6],
      rows: pieces.map((piece) => [
        piece.id,
        piece.name ?? '',
        piece.sheets.join(' '),
        millimetres(piece.thickness),
        `${piece.size[0].toFixed(0)} × ${piece.size[1].toFixed(0)} mm`,
        `${(piece.area / 100).toFixed(1)} cm²`,
        piece.grams === null
          ? '?'
          : `${piece.grams < 10 ? piece.grams.toFixed(1) : piece.grams.toFixed(0)} g`,
        piece.finish,
      ]),
    },
  ];
}

function offcutBlocks({ offcuts, relief }: CutPlan): Block[] {
  if (offcuts.length === 0) return [];
  const whole = relief.map.regions.reduce((sum, region) => sum + (region.addOn ? 0 : region.area), 0);
  const spare = offcuts.some(({ spareParts, spareShapes }) => spareParts.length + spareShapes.length > 0);
  const columns = [
    'Sheet',
    'Comes off after',
    'Parts for',
    'Left over',
    ...(spare ? ['Spare parts made', 'Spares still in it'] : []),
  ];
  return [
    { kind: 'offcuts' },
    {
      kind: 'table',
      head: columns,
      numbers: [2, 3],
      rows: offcuts.map(({ sheet, afterPass, area, pieces, spareParts, spareShapes }) => [
        sheet,
        relief.joint === 'pieces' ? `pass ${afterPass}` : `level ${afterPass}`,
        plural(pieces.length, 'piece'),
        `${(area / 100).toFixed(0)} cm² (${whole > 0 ? Math.round((100 * area) / whole) : 0} %)`,
        ...(spare ? [idList(spareParts), idList(spareShapes)] : []),
      ]),
    },
    ...(spare
      ? [
          {
            kind: 'paragraph',
            text: 'Spare parts made came out behind a piece without being needed. Spares still in a sheet: the shape of the piece is whole in what is left, and the wood is that of one of its sheets. If a part breaks, stick its drawing on and saw it again.',
          } as const,
        ]
      : []),
  ];
}

/** More ids than this are counted. */
const MOST_SPARES = 12;

const idList = (ids: readonly string[]): string =>
  ids.length > MOST_SPARES ? plural(ids.length, 'piece') : ids.join(' ');

function noteBlocks({ findings }: CutPlan): Block[] {
  const notes = findings.filter((finding) => finding.level === 'note');
  const texts = new Set(notes.map(({ message, fix }) => (fix === undefined ? message : `${message} ${fix}`)));
  return texts.size === 0 ? [] : [{ kind: 'list', items: [...texts] }];
}
