import type { CutPlan } from '../workshop/cut-plan.js';
import type { Block, Section } from './plan-content.js';
import { cutoutBlocks } from './plan-content-cutouts.js';
import { glueBlocks } from './plan-content-glue.js';
import { millimetres, type PlanWords, plural } from './plan-words.js';

/** What a person needs once the saw stands still: glue-up, pieces, offcuts, the drawing. */
export function afterSawing(plan: CutPlan, words: PlanWords, pictures: boolean): Section[] {
  const drawing: Block[] = pictures && plan.relief.map.regions.length > 0 ? [{ kind: 'drawing' }] : [];
  const sections: Section[] = [
    { id: 'glue', title: 'Put it together', blocks: glueBlocks(plan, words) },
    { id: 'pieces', title: 'Pieces', blocks: [...pieceBlocks(plan), ...cutoutBlocks(plan)] },
    { id: 'offcuts', title: 'Sheets and offcuts', blocks: offcutBlocks(plan) },
    { id: 'notes', title: 'Notes', blocks: noteBlocks(plan) },
    { id: 'drawing', title: 'The drawing at true size', blocks: drawing },
  ];
  return sections.filter((section) => section.blocks.length > 0);
}

function pieceBlocks({ pieces, relief: { map } }: CutPlan): Block[] {
  if (pieces.length === 0) return [];
  return [
    {
      kind: 'table',
      head: [
        'Piece',
        'Region',
        'Name',
        'Sheets, face first',
        'Thick',
        'Size',
        'Area',
        'Weight',
        'Finish',
        'Glued to',
      ],
      numbers: [4, 5, 6, 7],
      rows: pieces.map((piece) => [
        piece.id,
        map.regions[piece.region].id,
        piece.name ?? '',
        piece.sheets.join(' '),
        millimetres(piece.thickness),
        `${piece.size[0].toFixed(0)} × ${piece.size[1].toFixed(0)} mm`,
        `${(piece.area / 100).toFixed(1)} cm²`,
        piece.grams === null
          ? '?'
          : `${piece.grams < 10 ? piece.grams.toFixed(1) : piece.grams.toFixed(0)} g`,
        piece.finish,
        shortIds(piece.gluedTo.map((contact) => contact.piece)),
      ]),
    },
  ];
}

/** Ids in order, runs of three and more as `p4–p9`: short enough for a column. */
export function shortIds(ids: readonly string[]): string {
  const numbers = [...new Set(ids)].map((id) => Number(id.slice(1))).sort((a, b) => a - b);
  const runs: number[][] = [];
  for (const number of numbers) {
    const run = runs[runs.length - 1];
    if (run !== undefined && run[run.length - 1] === number - 1) run.push(number);
    else runs.push([number]);
  }
  return runs
    .flatMap((run) =>
      run.length < 3 ? run.map((n) => `p${n}`) : [`p${run[0]}\u2013p${run[run.length - 1]}`],
    )
    .join(' ');
}

function offcutBlocks(plan: CutPlan): Block[] {
  const { offcuts, relief } = plan;
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
        settingOf(plan, sheet, afterPass),
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

/** The setting after which a sheet comes off, in words. */
function settingOf({ passes, relief: { joint } }: CutPlan, sheet: string, number: number): string {
  const place = passes.findLastIndex(
    (pass) => pass.phase === 'pass' && pass.number === number && pass.sheets.includes(sheet),
  );
  const last = passes.findLastIndex(({ phase }) => phase === 'pass');
  return joint === 'pieces' && place === last ? 'stays to the end' : `setting ${place + 1}`;
}

/** More ids than this are told in runs. */
const MOST_SPARES = 12;

const idList = (ids: readonly string[]): string => (ids.length > MOST_SPARES ? shortIds(ids) : ids.join(' '));

function noteBlocks({ findings }: CutPlan): Block[] {
  const notes = findings.filter((finding) => finding.level === 'note');
  const texts = new Set(notes.map(({ message, fix }) => (fix === undefined ? message : `${message} ${fix}`)));
  return texts.size === 0 ? [] : [{ kind: 'list', items: [...texts] }];
}
