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
  const placeOf = (bridge: Bridge): [setting: string, step: string] => {
    const step = stepOf.get(bridge);
    return step === undefined ? ['', ''] : [String(settingOfStep(plan, step)), String(step)];
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
  const joined = rows.some(({ count }) => count > 1);
  return [
    {
      id: 'narrow',
      title: 'Narrow places',
      blocks: [
        {
          kind: 'paragraph',
          text:
            'These places are narrower than the material and the height ask for, so they break easily. Go slowly there, hold both sides down, and do not pull or twist the work. The steps at which they come to be say so.' +
            notListed(plan),
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
          rows: rows.map(({ bridge, count }, i) => [
            String(i + 1),
            whenNarrow(plan, names.piece, bridge.where),
            joinWords(bridge.regions.map(nameIn)),
            ...placeOf(bridge),
            millimetres(bridge.width),
            millimetres(bridge.needed),
            ...(joined ? [String(count)] : []),
          ]),
        },
      ],
    },
  ];
}

/** What is not looked at, where recesses leave less of a sheet than the piece is wide. */
export function notListed({ relief }: CutPlan): string {
  if (relief.joint !== 'pieces' || !relief.regions.some(({ role }) => role === 'recess')) return '';
  return ' Looked at are pieces at their whole height, stock that stands between settings, and sheets with recesses before the outlines are sawn; not what a single sheet of a piece has left between a recess and the outline, so look there yourself before you part the sheets.';
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
  const ids = where.split('+');
  if (ids.every((id) => relief.stack.sheets.some((sheet) => sheet.id === id))) {
    return relief.joint === 'continuous' ? `sheet ${where}` : `${joinWords(ids)} alone, after the recesses`;
  }
  return `piece ${nameOf(where)}`;
}
