// Prints the plan of the owl with headless Chromium and looks at the paper: pages, their size, nothing cut off.
// Used by .ci/run; CHROMIUM names another browser than `chromium`.
import { execFileSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { importTypeScript } from '../support/import-typescript.mjs';

const folder = mkdtempSync(join(tmpdir(), 'plystep-print-'));
const chromium = (...args) =>
  execFileSync(
    process.env.CHROMIUM ?? 'chromium',
    [
      '--headless',
      '--no-sandbox',
      '--disable-gpu',
      '--disable-quic',
      '--no-first-run',
      '--disable-background-networking',
      '--disable-component-update',
      '--disable-sync',
      `--user-data-dir=${mkdtempSync(join(folder, 'profile-'))}`,
      ...args,
    ],
    { encoding: 'utf8', maxBuffer: 1 << 28, stdio: ['ignore', 'pipe', 'ignore'], timeout: 120_000 },
  );
const faults = [];
const demand = (fine, fault) => {
  if (!fine) faults.push(fault);
};

try {
  const { plansToPrint } = await importTypeScript(new URL('print-plan.ts', import.meta.url));
  for (const { name, html, steps } of plansToPrint(new URL('../../', import.meta.url))) {
    const page = join(folder, `${name}.html`);
    writeFileSync(page, html);
    const pdf = join(folder, `${name}.pdf`);
    chromium('--no-pdf-header-footer', `--print-to-pdf=${pdf}`, pathToFileURL(page).href);
    const text = readFileSync(pdf, 'latin1');
    const boxes = [...text.matchAll(/\/MediaBox\s*\[\s*0 0 ([\d.]+) ([\d.]+)\s*\]/g)];
    const pages = [...text.matchAll(/\/Type\s*\/Page\b/g)].length;
    demand(text.startsWith('%PDF-'), `${name}: no PDF came out`);
    // A4 is 595.28 × 841.89 points.
    demand(
      boxes.length > 0 && boxes.every(([, w, h]) => Math.abs(w - 595.28) < 1 && Math.abs(h - 841.89) < 1),
      `${name}: not on A4`,
    );
    // Nine steps fill a page; with the pages before and after them a plan stays well under one page for three.
    demand(pages >= 2 + steps / 9 && pages <= 8 + steps / 3, `${name}: ${pages} pages for ${steps} steps`);
    // The same page with a probe in it that tells what sticks out sideways; the probe needs its policy off.
    const probe = `<pre id="probe"></pre><script>
      const room = document.documentElement.clientWidth + 1;
      const out = [...document.querySelectorAll('body *')].filter((e) => !e.closest('.outlines') && !e.closest('svg') && e.getBoundingClientRect().right > room);
      const empty = [...document.querySelectorAll('svg.near, svg.map')].filter((e) => e.getBoundingClientRect().height < 20);
      document.getElementById('probe').textContent = out.length + ' out, ' + empty.length + ' empty, ' + document.querySelectorAll('.step').length + ' steps';
    </script></body>`;
    writeFileSync(page, html.replace(/<meta http-equiv[^>]*>/, '').replace('</body>', probe));
    const dom = chromium('--window-size=800,1100', '--dump-dom', pathToFileURL(page).href);
    const found = /<pre id="probe">([^<]*)</.exec(dom)?.[1];
    demand(found === `0 out, 0 empty, ${steps} steps`, `${name}: laid out with ${found}`);
    console.log(`Chromium prints the plan of ${name}: ${pages} pages for ${steps} steps; ${found}`);
  }
} finally {
  rmSync(folder, { recursive: true, force: true });
}
for (const fault of faults) console.error(fault);
if (faults.length > 0) process.exitCode = 1;
