import type { CutPlan } from '../workshop/cut-plan.js';
import type { Block } from './plan-content.js';
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
    ...wholeBlocks(plan, words),
    ...finishBlocks(plan, words),
    ...assemblyBlocks(plan, words),
    ...addOnBlocks(plan, words),
  ];
}

const paragraph = (text: string): Block => ({ kind: 'paragraph', text });

/** Every piece: its own sheets together for good, swapped where they have to be. */
function wholeBlocks({ pieces }: CutPlan, { names }: PlanWords): Block[] {
  const blocks: Block[] = [];
  if (pieces.some((piece) => piece.sheets.length > 1)) {
    blocks.push(
      paragraph(
        'First make each piece whole. Take its sheets apart one by one, peel the tape and the drawing off, write on the back of each, and glue them together again with wood glue, edges flush, pressed until dry.',
      ),
    );
  } else blocks.push(paragraph('First peel off all tape and the drawing.'));
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
        `${names.piece(id)}: ${sheets.join(' ')} (sawn as ${sawnOrder!.join(' ')}).`,
    ),
  });
  return blocks;
}

/** What is finished in one go, and where a sheet behind shows in a recess. */
function finishBlocks({ pieces, relief }: CutPlan, { names }: PlanWords): Block[] {
  const groups = new Map<string, string[]>();
  for (const { finish, id } of pieces) groups.set(finish, [...(groups.get(finish) ?? []), id]);
  const largest = Math.max(...[...groups.values()].map((ids) => ids.length));
  const items = [...groups].map(([finish, ids]) =>
    groups.size > 1 && ids.length === largest
      ? `${finish}: the other ${plural(ids.length, 'piece')}.`
      : `${finish}: ${groups.size === 1 ? `all ${plural(ids.length, 'piece')}` : joinWords(ids)}.`,
  );
  const floors = new Map<string, Set<string>>();
  relief.regions.forEach(({ role, body, down }) => {
    if (role !== 'recess' || body === null) return;
    const { id, order } = relief.bodies[body];
    const sheet = relief.stack.sheets.find((s) => s.id === order[down]);
    if (sheet === undefined) return;
    const name = `${sheet.id} (${sheet.face ?? sheet.material})`;
    floors.set(name, (floors.get(name) ?? new Set()).add(id));
  });
  for (const [sheet, ids] of floors) {
    items.push(
      `The floor of the recesses in ${joinWords([...ids].map(names.piece))} is ${sheet}: it is finished before the sheets of the piece are glued together.`,
    );
  }
  return [
    paragraph(
      'Then sand and finish the faces, not the sides that meet: they are glued. By what the face shows:',
    ),
    { kind: 'list', items },
  ];
}

function assemblyBlocks(plan: CutPlan, { names }: PlanWords): Block[] {
  const { glueUp } = plan;
  if (glueUp === null || glueUp.steps.length < 2) return [];
  const blocks: Block[] = [
    paragraph(
      'Then put the pieces together on a flat board with waxed paper, all backs down, so that they come out flush. Glue the sides that meet; the kerf leaves a little room, so push them up close, and try them dry where they have to fit into a hole. Several pieces may be set before the glue takes; go on when they hold.',
    ),
    { kind: 'glue' },
  ];
  let number = 0;
  const assemblies = [...new Set(glueUp.steps.map((step) => step.assembly))];
  for (const assembly of assemblies) {
    blocks.push(paragraph(`${assembly[0].toUpperCase()}${assembly.slice(1)}:`));
    const steps = glueUp.steps.filter((step) => step.assembly === assembly);
    blocks.push({
      kind: 'list',
      items: steps.map(({ item, kind, to }) => {
        number++;
        const name = kind === 'piece' ? names.piece(item) : `the finished ${item.replace(/,.*/, '')}`;
        return `${number}: ${to.length === 0 ? `lay down ${name}.` : `${name} to ${joinWords(to)}.`}`;
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
