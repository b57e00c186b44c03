import { readDrawing } from '../../src/drawing/read-drawing.js';
import { writePlanHtml } from '../../src/output/plan-html.js';
import { mapRegions } from '../../src/plane/map-regions.js';
import { buildRelief } from '../../src/relief/build-relief.js';
import { planCuts } from '../../src/workshop/plan-cuts.js';
import { boardOfCells } from './planning.js';

/** Size of the printable page of a seeded picture of about so many regions. */
export interface PageRow {
  readonly regions: number;
  readonly steps: number;
  readonly kilobytes: number;
  /** Bytes of the page for each step. */
  readonly perStep: number;
  /** CPU milliseconds of writing the page, the plan made already. */
  readonly write: number;
}

export function measurePages(wanted: number): PageRow & { readonly html: string } {
  const { svg, numbers } = boardOfCells(wanted);
  const map = mapRegions(readDrawing(svg));
  const stack = {
    sheets: [6, 3, 3, 3].map((thickness, j) => ({ id: `s${j + 1}`, thickness, material: 'poplar' })),
  };
  const plan = planCuts(buildRelief(map, { stack, numbers }));
  const steps = plan.passes.reduce((sum, pass) => sum + pass.steps.length, 0);
  const before = process.cpuUsage();
  const html = writePlanHtml(plan);
  const { user, system } = process.cpuUsage(before);
  const bytes = Buffer.byteLength(html);
  return {
    regions: map.regions.length,
    steps,
    kilobytes: Math.round(bytes / 1024),
    perStep: Math.round(bytes / steps),
    write: Math.round((user + system) / 1000),
    html,
  };
}
