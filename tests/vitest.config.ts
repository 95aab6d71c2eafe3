import { fileURLToPath } from 'node:url';
import { defineConfig } from 'vitest/config';

export default defineConfig({
  test: {
    root: fileURLToPath(new URL('..', import.meta.url)),
    include: ['tests/**/*.test.ts'],
    setupFiles: ['tests/support/fixed-seed.ts'],
    // most tests are work of the processor: every core takes a share
    maxWorkers: '100%',
    testTimeout: 120_000,
    hookTimeout: 120_000,
  },
});
