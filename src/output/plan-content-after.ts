import type { CutPlan } from '../workshop/cut-plan.js';
import type { Block, Section } from './plan-content.js';
import { joinWords, millimetres, plural } from './plan-words.js';

/** What a person needs once the saw stands still: glue-up, pieces, offcuts, narrow places. */
export function afterSawing(plan: CutPlan): Section[] {
  const sections: Section[] = [
    { id: 'narrow', title: 'Narrow places', blocks: narrowBlocks(plan) },
    { id: 'glue', title: 'Glue-up', blocks: glueBlocks(plan) },
    { id: 'pieces', title: 'Pieces', blocks: pieceBlocks(plan) },
    { id: 'offcuts', title: 'Sheets and offcuts', blocks: offcutBlocks(plan) },
    { id: 'notes', title: 'Notes', blocks: noteBlocks(plan) },
  ];
  return sections.filter((section) => section.blocks.length > 0);
}

function narrowBlocks(plan: CutPlan): Block[] {
  const { bridges, relief } = plan;
  if (bridges.length === 0) return [];
  return [
    {
      kind: 'paragraph',
      text: 'These places are narrower than the material and the height ask for. Go slowly, hold both sides down, and do not pull the work back there.',
    },
    {
      kind: 'table',
      head: ['When', 'Where', 'At x, y', 'Width', 'Needed'],
      numbers: [3, 4],
      rows: bridges.map(({ where, regions, at, width, needed }) => [
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
  return `piece ${pieceLabel(plan, where)}`;
}

function glueBlocks(plan: CutPlan): Block[] {
  const { relief, glueUp } = plan;
  if (relief.joint === 'continuous') {
    const order = [...relief.stack.sheets].reverse().map((sheet) => sheet.id);
    return [
      {
        kind: 'paragraph',
        text: `Lay the sheets on one another from the back to the front: ${joinWords(order)}. Line their edges up, glue sparingly so that nothing squeezes out into the holes, and press them flat until dry.`,
      },
      ...addOnBlocks(plan),
    ];
  }
  if (glueUp === null) return [];
  if (glueUp.steps.length < 2) return addOnBlocks(plan);
  const blocks: Block[] = [
    {
      kind: 'paragraph',
      text: 'Sand and finish the pieces first, apart from the sides that meet. Work on a flat board with waxed paper, all backs down, so that they come out flush. Glue the sides that meet; take a piece only when the ones before it hold.',
    },
  ];
  blocks.push({ kind: 'pieces' });
  const assemblies = [...new Set(glueUp.steps.map((step) => step.assembly))];
  for (const assembly of assemblies) {
    const steps = glueUp.steps.filter((step) => step.assembly === assembly);
    blocks.push({ kind: 'paragraph', text: `${assembly[0].toUpperCase()}${assembly.slice(1)}:` });
    blocks.push({
      kind: 'list',
      items: steps.map(({ item, kind, to }) => {
        const name = kind === 'piece' ? pieceLabel(plan, item) : `the finished ${item.replace(/,.*/, '')}`;
        return to.length === 0 ? `Lay down ${name}.` : `Add ${name} to ${joinWords(to)}.`;
      }),
    });
  }
  if (glueUp.backing !== null) {
    blocks.push({
      kind: 'paragraph',
      text: `Glue the picture on a thin backing board: ${joinWords(glueUp.backing.pieces)} ${glueUp.backing.pieces.length === 1 ? 'has' : 'have'} less than ${glueUp.backing.needed} mm² of contact and would not hold by the sides alone.`,
    });
  }
  return [...blocks, ...addOnBlocks(plan)];
}

function addOnBlocks({ relief }: CutPlan): Block[] {
  if (relief.addOns.length === 0) return [];
  return [
    { kind: 'paragraph', text: 'At the very end the add-ons, on the places marked in the pictures:' },
    {
      kind: 'list',
      items: relief.addOns.map(({ id, seats, region }) => {
        const name = relief.regions[region].name;
        const on = seats.map((r) => relief.map.regions[r].id);
        return `${id}${name === null ? '' : ` ${name}`} on ${on.length === 0 ? 'its outline' : joinWords(on)}.`;
      }),
    },
  ];
}

function pieceBlocks({ pieces }: CutPlan): Block[] {
  if (pieces.length === 0) return [];
  const swapped = pieces.filter((piece) => piece.sawnOrder !== null);
  const table: Block = {
    kind: 'table',
    head: ['Piece', 'Name', 'Sheets from the face', 'Thick', 'Size', 'Weight', 'Finish', 'Glued to'],
    numbers: [3, 4, 5],
    rows: pieces.map((piece) => [
      piece.id,
      piece.name ?? '',
      piece.sheets.join(' '),
      millimetres(piece.thickness),
      `${piece.size[0].toFixed(0)} × ${piece.size[1].toFixed(0)}`,
      piece.grams === null ? '?' : `${piece.grams < 10 ? piece.grams.toFixed(1) : piece.grams.toFixed(0)} g`,
      piece.finish,
      piece.gluedTo.map((contact) => contact.piece).join(' '),
    ]),
  };
  if (swapped.length === 0) return [table];
  return [
    {
      kind: 'paragraph',
      text: 'Before the glue-up, change the order of the sheets of these pieces:',
    },
    {
      kind: 'list',
      items: swapped.map(({ id, name, sheets, sawnOrder }) => {
        const from = sawnOrder!.join(' ');
        return `${name === null ? id : `${id} ${name}`}: from ${from} to ${sheets.join(' ')}, the first one showing.`;
      }),
    },
    table,
  ];
}

function offcutBlocks({ offcuts, relief }: CutPlan): Block[] {
  if (offcuts.length === 0) return [];
  const whole = relief.map.regions.reduce((sum, region) => sum + (region.addOn ? 0 : region.area), 0);
  return [
    {
      kind: 'table',
      head: [
        'Sheet',
        'Comes off after',
        'Parts for',
        'Left within the drawing',
        'Spare parts made',
        'Spares still in it',
      ],
      numbers: [2, 3],
      rows: offcuts.map(({ sheet, afterPass, area, pieces, spareParts, spareShapes }) => [
        sheet,
        relief.joint === 'pieces' ? `pass ${afterPass}` : `level ${afterPass}`,
        plural(pieces.length, 'piece'),
        `${(area / 100).toFixed(0)} cm² (${whole > 0 ? Math.round((100 * area) / whole) : 0} %)`,
        spareParts.join(' '),
        spareShapes.length > MOST_SPARES ? plural(spareShapes.length, 'piece') : spareShapes.join(' '),
      ]),
    },
    {
      kind: 'paragraph',
      text: 'A spare still in an offcut is a piece of a lower number whose shape is whole there: if a part breaks, stick its drawing on the offcut and saw it again.',
    },
  ];
}

/** More ids than this are counted. */
const MOST_SPARES = 12;

function noteBlocks({ findings }: CutPlan): Block[] {
  const notes = findings.filter((finding) => finding.level === 'note');
  if (notes.length === 0) return [];
  return [
    {
      kind: 'list',
      items: notes.map(({ message, fix }) => (fix === undefined ? message : `${message} ${fix}`)),
    },
  ];
}

function pieceLabel({ pieces }: CutPlan, id: string): string {
  const name = pieces.find((piece) => piece.id === id)?.name ?? null;
  return name === null ? id : `${id} ${name}`;
}
