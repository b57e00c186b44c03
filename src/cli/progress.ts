/** Tells what long work is at, on the error stream. */
export interface Progress {
  /** @param share of the work done, 0 to 1, where it is known */
  readonly say: (doing: string, share?: number) => void;
  /** Takes the line of a terminal away, so that other text can be written. */
  readonly clear: () => void;
}

/** Where progress is shown. */
export interface ProgressPlace {
  readonly write: (text: string) => void;
  /** A terminal gets one line that changes; anything else a new line now and then. */
  readonly isTerminal: boolean;
  /** ms, from any start. */
  readonly now: () => number;
}

/** How long nothing is told from the start, and then between two times, ms. */
const PACE = {
  terminal: { first: 500, next: 100 },
  lines: { first: 3_000, next: 10_000 },
} as const;

/** Progress of one command line, which starts now. Short work says nothing. */
export function createProgress({ write, isTerminal, now }: ProgressPlace): Progress {
  const { first, next } = isTerminal ? PACE.terminal : PACE.lines;
  const begun = now();
  let last = Number.NEGATIVE_INFINITY;
  let before = '';
  /** Characters on the line of the terminal. */
  let shown = 0;
  return {
    say: (doing, share) => {
      const time = now();
      if (time - begun < first) return;
      if (time - last < next && (doing === before || !isTerminal)) return;
      last = time;
      before = doing;
      const text = share === undefined ? `${doing} …` : `${doing}: ${Math.floor(100 * share)} %`;
      if (!isTerminal) {
        write(`${text}\n`);
        return;
      }
      write(`\r${text.padEnd(shown)}`);
      shown = Math.max(shown, text.length);
    },
    clear: () => {
      if (shown > 0) write(`\r${' '.repeat(shown)}\r`);
      shown = 0;
    },
  };
}
