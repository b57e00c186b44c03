/** The signals that ask a program to end: Ctrl-C, and what systems send. */
const ENDING = ['SIGINT', 'SIGTERM', 'SIGHUP'] as const;

/**
 * Does work that must not be left half-done: a signal to end aborts the `AbortSignal` instead, and takes its usual
 * effect when the work has come to its end, one way or the other. Before and after, signals act as ever, at once.
 */
export async function holdSignals<T>(work: (signal: AbortSignal) => Promise<T>): Promise<T> {
  const controller = new AbortController();
  let got: NodeJS.Signals | null = null;
  const hold = (name: NodeJS.Signals): void => {
    got ??= name;
    controller.abort();
  };
  for (const name of ENDING) process.on(name, hold);
  try {
    return await work(controller.signal);
  } finally {
    for (const name of ENDING) process.off(name, hold);
    if (got !== null) process.kill(process.pid, got);
  }
}
