import { fileURLToPath } from 'node:url';
import { defineConfig } from 'vitest/config';

export default defineConfig({
  root: fileURLToPath(new URL('..', import.meta.url)),
  resolve: { tsconfigPaths: true },
  test: {
    include: ['libs/**/*.test.ts', 'apps/**/*.test.ts', 'tests/**/*.test.ts'],
    setupFiles: ['tests/support/setup.ts'],
    testTimeout: 60_000,
    hookTimeout: 120_000,
  },
});
