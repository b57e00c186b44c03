import { cpSync, mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { runCommandLine } from '../../src/cli/run.js';
import { ROOT } from '../structure/source-files.js';

/** What a command line left behind. */
export interface Outcome {
  readonly code: number;
  readonly out: string;
  readonly err: string;
}

/** A folder of its own with the pond drawing and its sidecar in it. */
export class Bench {
  readonly folder = mkdtempSync(join(tmpdir(), 'plystep-cli-'));

  constructor() {
    this.copy('docs/examples/pond.svg');
    this.copy('docs/examples/pond.plystep.json');
  }

  /** Copies a file of the package into the folder. */
  copy(path: string): void {
    cpSync(join(ROOT, path), join(this.folder, path.split('/').at(-1)!));
  }

  path(name: string): string {
    return join(this.folder, name);
  }

  text(name: string): string {
    return readFileSync(this.path(name), 'utf8');
  }

  /** Runs a command line in the folder. */
  async run(args: readonly string[], stdin: string | Uint8Array = ''): Promise<Outcome> {
    let out = '';
    let err = '';
    const code = await runCommandLine(args, {
      cwd: this.folder,
      readStdin: async () => (typeof stdin === 'string' ? new TextEncoder().encode(stdin) : stdin),
      stdout: (text) => {
        out += text;
      },
      stderr: (text) => {
        err += text;
      },
    });
    return { code, out, err };
  }

  clear(): void {
    rmSync(this.folder, { recursive: true, force: true });
  }
}
