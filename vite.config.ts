import react from '@vitejs/plugin-react';
import { defineConfig } from 'vitest/config';

/** Tests that run whole commands, sweeps and corners: a few seconds each. */
const WHOLE = 'tests/**/*.whole.test.ts';

export default defineConfig({
  plugins: [react()],
  worker: { format: 'es' },
  // The solid modeller finds its WebAssembly beside its own module, so it must not be moved by pre-bundling.
  optimizeDeps: { exclude: ['manifold-3d'] },
  build: { target: 'es2022', chunkSizeWarningLimit: 1500 },
  server: { host: 'localhost', port: 5173 },
  test: {
    reporters: ['default', './tests/closingLine.ts'],
    maxWorkers: '100%',
    projects: [
      {
        extends: true,
        test: {
          name: 'unit',
          include: ['tests/**/*.test.ts'],
          exclude: ['tests/browser/**', WHOLE],
          testTimeout: 60_000,
        },
      },
      {
        extends: true,
        test: { name: 'whole', include: [WHOLE], testTimeout: 180_000 },
      },
      {
        extends: true,
        test: {
          name: 'browser',
          include: ['tests/browser/**/*.test.ts'],
          testTimeout: 180_000,
          hookTimeout: 120_000,
          fileParallelism: false,
        },
      },
    ],
  },
});
