import { type BuildResult, build } from 'esbuild';

/** The library as one script that sets the global `plystep`, and esbuild's account of what went in; `root` is the package's folder. */
export async function bundleForBrowser(
  root: string,
): Promise<{ code: string; inputs: string[]; imports: string[] }> {
  const result: BuildResult<{ write: false; metafile: true }> = await build({
    absWorkingDir: root,
    entryPoints: ['src/index.ts'],
    bundle: true,
    platform: 'browser',
    format: 'iife',
    globalName: 'plystep',
    target: 'es2022',
    minify: true,
    write: false,
    metafile: true,
    logLevel: 'silent',
  });
  const inputs = Object.keys(result.metafile.inputs);
  const imports = Object.values(result.metafile.inputs).flatMap((input) =>
    input.imports.map((each) => each.path),
  );
  return { code: result.outputFiles[0].text, inputs, imports };
}

/**
 * The whole line on one drawing, as a script that can run wherever the bundle runs: `text` is the SVG, `stack`
 * a stack in one line. Its value is JSON.
 */
export const WHOLE_LINE = `
(() => {
  const drawing = plystep.readDrawing(text);
  const map = plystep.mapRegions(drawing);
  const relief = plystep.buildRelief(map, { stack: plystep.parseStack(stack) });
  const plan = plystep.planCuts(relief);
  const findings = plystep.checkRelief(relief, plan);
  const sheets = plystep.writeSheets(plan);
  const overview = plystep.writeOverview(plan);
  return JSON.stringify({
    regions: map.regions.map((region) => [region.id, region.area]),
    totals: plan.totals,
    rules: findings.map((finding) => finding.rule),
    sheets: sheets.map((sheet) => sheet.svg),
    overview,
  });
})()`;
