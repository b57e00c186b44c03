import type { CutPlan } from '../workshop/cut-plan.js';
import type { Section } from './plan-content.js';
import { narrowRows } from './plan-narrow.js';
import { joinWords, millimetres, type PlanWords } from './plan-words.js';

/** The places that break easily, before the saw runs. */
export function narrowSection(plan: CutPlan, { names }: PlanWords): Section[] {
  const rows = narrowRows(plan);
  if (rows.length === 0) return [];
  const joined = rows.some(({ count }) => count > 1);
  return [
    {
      id: 'narrow',
      title: 'Narrow places',
      blocks: [
        {
          kind: 'paragraph',
          text: 'These places are narrower than the material and the height ask for, so they break easily. Go slowly there, hold both sides down, and do not pull or twist the work. The steps at which they come to be say so.',
        },
        { kind: 'narrow' },
        {
          kind: 'table',
          head: [
            'No.',
            'When',
            'In',
            'At x, y',
            joined ? 'Narrowest' : 'Wide',
            'Wanted',
            ...(joined ? ['Places'] : []),
          ],
          numbers: [0, 4, 5, 6],
          rows: rows.map(({ bridge: { where, regions, at, width, needed }, count }, i) => [
            String(i + 1),
            whenNarrow(plan, names.piece, where),
            joinWords(regions.map(names.region)),
            `${at[0].toFixed(1)}, ${at[1].toFixed(1)}`,
            millimetres(width),
            millimetres(needed),
            ...(joined ? [String(count)] : []),
          ]),
        },
      ],
    },
  ];
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
