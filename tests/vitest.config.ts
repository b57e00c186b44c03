import { defineConfig } from 'vitest/config';

export default defineConfig({
  root: new URL('..', import.meta.url).pathname,
  test: {
    include: ['tests/**/*.test.ts'],
    testTimeout: 30_000,
    // Nothing here keeps state in a module, so test files may share one: the compiler's work is done once.
    isolate: false,
    pool: 'threads',
    setupFiles: ['tests/fixed-seed.ts'],
  },
});
