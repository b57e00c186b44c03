// Runs the whole line in a worker of headless Chromium and compares the result with Node's. Used by .ci/run.
import { execFileSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { build } from 'esbuild';

const ROOT = new URL('../..', import.meta.url);
const folder = mkdtempSync(join(tmpdir(), 'plystep-chromium-'));
const bundled = async (entry) => {
  const result = await build({
    absWorkingDir: ROOT.pathname,
    entryPoints: [entry],
    bundle: true,
    platform: 'node',
    format: 'esm',
    write: false,
    packages: 'external',
  });
  const file = new URL(`node_modules/.plystep-${process.pid}.mjs`, ROOT);
  writeFileSync(file, result.outputFiles[0].text);
  const module = await import(file.href);
  rmSync(file);
  return module;
};

try {
  const { bundleForBrowser, WHOLE_LINE } = await bundled('tests/browser/bundle.ts');
  const { code } = await bundleForBrowser(ROOT.pathname);
  const text = readFileSync(new URL('docs/examples/pond.svg', ROOT), 'utf8');
  const given = `const text = ${JSON.stringify(text)}, stack = '6 mm walnut, 3x 3 mm birch';`;
  const here = new Function(`${code}\n${given}\nreturn ${WHOLE_LINE.trim()}`)();
  const worker = `${code}\n${given}\npostMessage(${WHOLE_LINE.trim()});`;
  const page = `<!doctype html><meta charset="utf-8"><pre id="result">waiting</pre><script>
    const show = (value) => { document.getElementById('result').textContent = encodeURIComponent(value); };
    const source = new Blob([decodeURIComponent('${encodeURIComponent(worker).replaceAll("'", '%27')}')]);
    const worker = new Worker(URL.createObjectURL(source));
    worker.onmessage = (event) => show(event.data);
    worker.onerror = (event) => show('fault: ' + event.message);
  </script>`;
  const file = join(folder, 'page.html');
  writeFileSync(file, page);
  const dom = execFileSync(
    process.env.CHROMIUM ?? 'chromium',
    [
      '--headless',
      '--no-sandbox',
      '--disable-gpu',
      `--user-data-dir=${folder}/profile`,
      '--virtual-time-budget=20000',
      '--dump-dom',
      pathToFileURL(file).href,
    ],
    { encoding: 'utf8', maxBuffer: 1 << 28, stdio: ['ignore', 'pipe', 'ignore'], timeout: 120_000 },
  );
  const there = decodeURIComponent(/<pre id="result">([^<]*)</.exec(dom)?.[1] ?? '');
  if (there !== here) {
    console.error(`Chromium gives another result than Node: ${there.slice(0, 300)}`);
    process.exitCode = 1;
  } else {
    console.log(`Chromium, in a worker: same result as Node (${here.length} characters)`);
  }
} finally {
  rmSync(folder, { recursive: true, force: true });
}
