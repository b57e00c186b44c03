import type { CutPlan } from '../workshop/cut-plan.js';
import type { Block } from './plan-content.js';
import { narrowInPieces, narrowRows, partingWords } from './plan-narrow.js';
import { joinWords, type PlanWords, plural } from './plan-words.js';

/** How the pieces become the picture: each made whole, finished, put together. */
export function glueBlocks(plan: CutPlan, words: PlanWords): Block[] {
  const { relief } = plan;
  if (relief.joint === 'continuous') {
    const order = [...relief.stack.sheets].reverse().map((sheet) => sheet.id);
    const text = `Lay the sheets on one another from the back to the front: ${joinWords(order)}. Line their edges up, glue sparingly so that nothing squeezes out into the holes, and press them flat until dry.`;
    return [paragraph(text), ...addOnBlocks(plan, words)];
  }
  if (plan.pieces.length === 0) return addOnBlocks(plan, words);
  return [
    ...apartBlocks(plan),
    ...floorBlocks(plan, words),
    ...wholeBlocks(plan, words),
    ...finishBlocks(plan),
    ...assemblyBlocks(plan, words),
    ...addOnBlocks(plan, words),
  ];
}

const paragraph = (text: string): Block => ({ kind: 'paragraph', text });

/** Every piece: its sheets apart, and what is left out. */
function apartBlocks(plan: CutPlan): Block[] {
  const { pieces } = plan;
  const several = pieces.some((piece) => piece.sheets.length > 1 || piece.spare !== undefined);
  if (!several) return [paragraph('First peel off all tape and the drawing.')];
  const blocks = [
    paragraph(
      'First take each piece apart into its sheets, one by one. Peel the tape and the drawing off, and write id and sheet on the back of each.',
    ),
  ];
  const narrow = narrowInPieces(plan);
  if (narrow.length > 0)
    blocks.push(
      paragraph(partingWords('Mind the narrow places when you part these pieces:', narrowRows(plan), narrow)),
    );
  const spare = pieces.flatMap((piece) =>
    piece.spare === undefined ? [] : [`${piece.id} ${piece.spare.join(' ')}`],
  );
  if (spare.length > 0) {
    blocks.push(
      paragraph(
        `Leave out: ${spare.join('; ')}. These sheets came off with the piece and do not belong to it; keep them as spares. All other sheets belong to their pieces.`,
      ),
    );
  }
  return blocks;
}

/** Where a sheet behind shows in a recess: finished before the sheets are glued. */
function floorBlocks({ relief }: CutPlan, { names }: PlanWords): Block[] {
  const floors = new Map<string, Set<string>>();
  relief.regions.forEach(({ role, body, down }) => {
    if (role !== 'recess' || body === null) return;
    const { id, order } = relief.bodies[body];
    const sheet = relief.stack.sheets.find((s) => s.id === order[down]);
    if (sheet === undefined) return;
    const name =
      sheet.face === undefined
        ? `${sheet.id} (${sheet.material})`
        : `${sheet.id} (${sheet.material}), with the finish that you choose for “${sheet.face}”`;
    floors.set(name, (floors.get(name) ?? new Set()).add(id));
  });
  if (floors.size === 0) return [];
  const items = [...floors].map(([sheet, ids]) => `${sheet}: in ${joinWords([...ids].map(names.piece))}.`);
  return [
    paragraph(
      'Then, before anything is glued, finish the floors of the recesses. The floor is the part of the sheet behind that shows through the recess: lay the sheet in front of it on, edges flush, and pencil round the recess from inside. Finish only within that line; all the rest of the face stays bare, since it is glued. These sheets show as floors:',
    ),
    { kind: 'list', items },
  ];
}

/** Every piece: its own sheets together for good, swapped where they have to be. */
function wholeBlocks({ pieces }: CutPlan, { names }: PlanWords): Block[] {
  const blocks: Block[] = [];
  if (pieces.some((piece) => piece.sheets.length > 1)) {
    blocks.push(
      paragraph(
        'Then make each piece whole: glue its own sheets together again with wood glue, edges flush, pressed until dry.',
      ),
    );
  }
  const swapped = pieces.filter((piece) => piece.sawnOrder !== null);
  if (swapped.length === 0) return blocks;
  blocks.push(
    paragraph(
      'These pieces get their sheets in another order than they were sawn in, the first one showing:',
    ),
  );
  blocks.push({
    kind: 'list',
    items: swapped.map(
      ({ id, sheets, sawnOrder }) =>
        `${names.piece(id)}: glue as ${sheets.join(' ')} (sawn as ${sawnOrder!.join(' ')}).`,
    ),
  });
  return blocks;
}

/** What is finished in one go. */
function finishBlocks({ pieces, relief }: CutPlan): Block[] {
  const groups = new Map<string, string[]>();
  for (const { finish, id } of pieces) groups.set(finish, [...(groups.get(finish) ?? []), id]);
  const largest = Math.max(...[...groups.values()].map((ids) => ids.length));
  const items = [...groups].map(([finish, ids]) => {
    const which =
      groups.size > 1 && ids.length === largest
        ? `the other ${plural(ids.length, 'piece')}`
        : groups.size === 1
          ? `all ${plural(ids.length, 'piece')}`
          : joinWords(ids);
    return `Those that take the finish you chose for “${finish}”: ${which}.`;
  });
  return [
    paragraph(
      'Then sand the faces and give them their finish, not the sides that meet and not the backs: they are glued. Each name in quotes says how the face is to look: oiled, stained, a colour, or just as the material; choose one finish for each (oil, stain, paint, or none) and try it on an offcut of that sheet:',
    ),
    { kind: 'list', items },
    ...(pieces.some(({ thickness }) => thickness !== pieces[0].thickness)
      ? [
          paragraph(
            'Where a piece stands out above its neighbour, the upper strip of its side shows, as wide as the two differ in Thick (see Pieces). Lay the pieces together dry, backs down, and pencil along the lower face; above the pencil line sand and finish the side like the face, below it the side stays bare.',
          ),
        ]
      : []),
    ...(relief.addOns.length === 0
      ? []
      : [
          paragraph(
            `Add-ons are sanded and finished in the same way, face and sides; their backs stay bare. ${addOnLooks(relief)} Their seats stay bare too, since glue holds on bare wood alone: lay each add-on on its seat, pencil round it, and keep the finish off inside that line with a bit of masking tape.`,
          ),
        ]),
  ];
}

/** `Their finish: “natural” for a1, a2 and a3.` */
function addOnLooks({ addOns, stack }: CutPlan['relief']): string {
  const looks = new Map<string, string[]>();
  for (const { id, order } of addOns) {
    const sheet = stack.sheets.find((s) => s.id === order[0]);
    const look = sheet?.face ?? sheet?.material ?? '';
    looks.set(look, [...(looks.get(look) ?? []), id]);
  }
  const told = [...looks].map(([look, ids]) => `“${look}” for ${joinWords(ids)}`);
  return `Their finish: ${told.join('; ')}.`;
}

function assemblyBlocks(plan: CutPlan, { names }: PlanWords): Block[] {
  const { glueUp } = plan;
  if (glueUp === null || glueUp.steps.length < 2) return [];
  const blocks: Block[] = [
    paragraph(
      `Then put the pieces together on a flat board with waxed paper, all backs down, so that they come out flush. Glue the sides that meet; the kerf leaves a little room, so push them up close, and try them dry where they have to fit into a hole.${formHint(glueUp.steps)} Several pieces may be set before the glue takes; go on when they hold.`,
    ),
    { kind: 'glue' },
  ];
  let number = 0;
  const begun = new Set<string>();
  for (const steps of runsOf(glueUp.steps)) {
    const { assembly } = steps[0];
    const host = hostOf(assembly);
    const on = begun.has(assembly) ? ', the rest' : '';
    const form = host === null ? '' : `, with ${host} round it as a form`;
    blocks.push(paragraph(`${assembly[0].toUpperCase()}${assembly.slice(1)}${on}${form}:`));
    begun.add(assembly);
    blocks.push({
      kind: 'list',
      items: steps.map(({ item, kind, to }) => {
        number++;
        if (kind === 'assembly') {
          const name = item.replace(/,.*/, '');
          return `${number}: glue the finished ${name} into ${joinWords(to)}: lift it out, take the paper out, put it back with glue on its sides.`;
        }
        const form = glueUp.steps.some((step) => step.kind === 'assembly' && step.to.includes(item));
        if (to.length > 0) return `${number}: ${names.piece(item)} to ${joinWords(to)}.`;
        return `${number}: lay down ${names.piece(item)}${form ? ': its hole is the form' : ''}.`;
      }),
    });
  }
  if (glueUp.backing !== null) {
    const { pieces, needed } = glueUp.backing;
    blocks.push(
      paragraph(
        `Glue the picture on a thin backing board: ${joinWords(pieces)} ${pieces.length === 1 ? 'has' : 'have'} less than ${needed} mm² of contact and would not hold by the sides alone.`,
      ),
    );
  }
  return blocks;
}

/** Steps of one assembly that follow each other. */
function runsOf(steps: NonNullable<CutPlan['glueUp']>['steps']): (typeof steps)[number][][] {
  const runs: (typeof steps)[number][][] = [];
  for (const step of steps) {
    const run = runs[runs.length - 1];
    if (run !== undefined && run[0].assembly === step.assembly) run.push(step);
    else runs.push([step]);
  }
  return runs;
}

/** The piece in whose hole an assembly goes, by its name: `p1 frame`; null: none. */
const hostOf = (assembly: string): string | null => /hole in (.*)$/.exec(assembly)?.[1] ?? null;

/** What sits in a hole of another piece is built up in it, so that the gaps of the kerfs do not add up. */
function formHint(steps: NonNullable<CutPlan['glueUp']>['steps']): string {
  const holes = steps.filter(({ kind }) => kind === 'assembly').map(({ item }) => hostOf(item) ?? item);
  if (holes.length === 0) return '';
  return ` What goes into the hole of ${joinWords([...new Set(holes)])} is built up inside that hole as a form, which lies on the board before the first piece in it, with a strip of waxed paper round it so that it does not stick: lay all pieces out in it dry first, share the play of the kerfs out evenly, and only then glue them to one another; then the gaps do not add up and it fits. Take the paper out when it is glued in.`;
}

function addOnBlocks({ relief }: CutPlan, { names, pictures }: PlanWords): Block[] {
  if (relief.addOns.length === 0) return [];
  return [
    paragraph(
      `At the very end the add-ons, on their seats${pictures ? ', which are dashed in the picture of the pieces' : ''}:`,
    ),
    {
      kind: 'list',
      items: relief.addOns.map(({ id, seats, region }) => {
        const { name } = relief.regions[region];
        const on = names.owners(seats);
        const [x0, y0, x1, y1] = relief.map.regions[region].bounds;
        const size = ` (${(x1 - x0).toFixed(0)} × ${(y1 - y0).toFixed(0)} mm)`;
        return `${id}${name === null ? '' : ` ${name}`}${size} on ${on.length === 0 ? 'its outline' : joinWords(on)}.`;
      }),
    },
  ];
}
