import { frontSheetsOf } from '../workshop/bridge-where.js';
import type { Bridge, CutPlan } from '../workshop/cut-plan.js';
import type { Section } from './plan-content.js';
import { narrowBySteps, narrowRows } from './plan-narrow.js';
import { joinWords, millimetres, type PlanWords } from './plan-words.js';

/** The places that break easily, before the saw runs. */
export function narrowSection(plan: CutPlan, { names }: PlanWords): Section[] {
  const rows = narrowRows(plan);
  if (rows.length === 0) return [];
  const stepOf = new Map(
    [...narrowBySteps(plan)].flatMap(([step, list]) => list.map((b) => [b, step] as const)),
  );
  const placeOf = (places: readonly Bridge[]): [settings: string, steps: string] => {
    const steps = places.map((bridge) => stepOf.get(bridge)).filter((step) => step !== undefined);
    return [few(steps.map((step) => settingOfStep(plan, step))), few(steps)];
  };
  // A piece by its own name; a cutout has none but that of its region.
  const { relief } = plan;
  const pieceAt = new Map(
    relief.joint === 'pieces' ? relief.bodies.map(({ id, region }) => [region, id]) : [],
  );
  const nameIn = (region: number): string => {
    const piece = pieceAt.get(region);
    return piece === undefined ? names.region(region) : names.piece(piece);
  };
  const joined = rows.some(({ places }) => places.length > 1);
  return [
    {
      id: 'narrow',
      title: 'Narrow places',
      blocks: [
        {
          kind: 'paragraph',
          text:
            'These places are narrower than the material and the height ask for, so they break easily. Go slowly there, hold both sides down, and do not pull or twist the work. The steps at which they come to be say so.' +
            lookedAt(plan),
        },
        { kind: 'narrow' },
        {
          kind: 'table',
          head: [
            'No.',
            'When',
            'In',
            'Setting',
            'Step',
            joined ? 'Narrowest' : 'Wide',
            'Wanted',
            ...(joined ? ['Places'] : []),
          ],
          numbers: [0, 3, 4, 5, 6, 7],
          rows: rows.map(({ bridge, places }, i) => [
            String(i + 1),
            whenNarrow(plan, names.piece, bridge.where),
            joinWords(bridge.regions.map(nameIn)),
            ...placeOf(places),
            millimetres(bridge.width),
            millimetres(bridge.needed),
            ...(joined ? [String(places.length)] : []),
          ]),
        },
      ],
    },
  ];
}

/** What is looked at, where recesses leave less of a sheet than the piece is wide. */
export function lookedAt({ relief }: CutPlan): string {
  if (relief.joint !== 'pieces' || !relief.regions.some(({ role }) => role === 'recess')) return '';
  return ' Looked at are pieces at their whole height, their sheets in front of the floors of recesses, which are narrower than the piece until they are glued on, stock that stands between settings, and sheets with recesses before the outlines are sawn; not what is narrow for a few steps only.';
}

/** So many numbers in a cell; of more the first and the last. */
const MOST_NUMBERS = 4;

/** Numbers in order, each once. */
function few(numbers: readonly number[]): string {
  const all = [...new Set(numbers)].sort((a, b) => a - b);
  return all.length <= MOST_NUMBERS ? all.join(', ') : `${all[0]} … ${all[all.length - 1]}`;
}

/** The setting, counted from 1, that a step belongs to. */
function settingOfStep({ passes }: CutPlan, step: number): number {
  let last = 0;
  return (
    1 +
    passes.findIndex(({ steps }) => {
      last += steps.length;
      return step <= last;
    })
  );
}

/** When a bridge is narrow: always, in a finished piece or sheet, or for a while. */
function whenNarrow(plan: CutPlan, nameOf: (id: string) => string, where: string): string {
  const { passes, relief } = plan;
  if (where.startsWith('pass ')) {
    const number = Number(where.slice(5));
    const place = passes.findLastIndex((pass) => pass.phase === 'pass' && pass.number === number);
    return `after setting ${place + 1}, in what is left`;
  }
  const front = frontSheetsOf(where);
  if (front !== null) {
    const { sheets } = front;
    return `in ${joinWords([...sheets])}, until ${sheets.length > 1 ? 'they are' : 'it is'} glued on`;
  }
  const ids = where.split('+');
  if (ids.every((id) => relief.stack.sheets.some((sheet) => sheet.id === id))) {
    return relief.joint === 'continuous' ? `sheet ${where}` : `${joinWords(ids)} alone, after the recesses`;
  }
  return `piece ${nameOf(where)}`;
}
