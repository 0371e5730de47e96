import react from '@vitejs/plugin-react';
import type { Plugin } from 'vite';
import { VitePWA } from 'vite-plugin-pwa';
import { defineConfig, type TestUserConfig } from 'vitest/config';
import { workersInOneGraph } from './src/bundle/workersInOneGraph.ts';
import { guidePages } from './src/guide/guidePages.ts';

/** Tests that run whole commands, sweeps and corners: a few seconds each. */
const WHOLE = 'tests/**/*.whole.test.ts';

/** Tests that replace modules of the program, which only Vite's own loader can. */
const REPLACING = 'tests/**/*.replacing.test.ts';

/** Node loads the modules itself: through Vite's loader each call of another module costs a look-up, 2 to 5 times the time. */
const loadedByNode = {
  experimental: { viteModuleRunner: false, nodeLoader: false },
  pool: 'forks' as const,
  execArgv: ['--import', 'tsx'],
} satisfies TestUserConfig;

/**
 * What the built page may do: run its own scripts, workers and WebAssembly, show its own pictures, ask its own address
 * for its own files. Nothing leaves the machine.
 */
const POLICY = [
  "default-src 'none'",
  "script-src 'self' 'wasm-unsafe-eval'",
  "worker-src 'self'",
  "connect-src 'self'",
  "style-src 'self' 'unsafe-inline'",
  "img-src 'self' data: blob:",
  "font-src 'self'",
  "manifest-src 'self'",
  "base-uri 'none'",
  "form-action 'none'",
].join('; ');

const contentSecurityPolicy: Plugin = {
  name: 'content-security-policy',
  apply: 'build',
  transformIndexHtml: () => [
    {
      tag: 'meta',
      attrs: { 'http-equiv': 'Content-Security-Policy', content: POLICY },
      injectTo: 'head-prepend',
    },
  ],
};

/** The built page works without a network once it was loaded, and can be installed. */
export const offline = VitePWA({
  // A new version comes into use when the last tab of the old one is closed: its parts are never mixed.
  registerType: 'prompt',
  // The page does it itself, once it has time.
  injectRegister: null,
  workbox: {
    // The guide is read in the shop, without a network: its pictures belong to it.
    globPatterns: ['**/*.{js,css,html,svg,wasm}', 'tour/*.jpg', 'corner.schema.json'],
    maximumFileSizeToCacheInBytes: 4_000_000,
  },
  manifest: {
    name: 'Daylight',
    short_name: 'Daylight',
    description: "Clearances of a vehicle's front corner through bump, droop and steering lock.",
    start_url: '.',
    display: 'standalone',
    background_color: '#f4f2ec',
    theme_color: '#f4f2ec',
    icons: [{ src: 'icon.svg', sizes: 'any', type: 'image/svg+xml', purpose: 'any' }],
  },
});

/** Apart from the files of the page, which do not load them. */
const WORKER_FILES = 'assets/workers/[name]-[hash].js';

export default defineConfig({
  plugins: [react(), workersInOneGraph(), contentSecurityPolicy, guidePages(), offline],
  worker: {
    format: 'es',
    rolldownOptions: { output: { entryFileNames: WORKER_FILES, chunkFileNames: WORKER_FILES } },
  },
  // The solid modeller finds its WebAssembly beside its own module, so it must not be moved by pre-bundling.
  optimizeDeps: {
    exclude: ['manifold-3d'],
    // What workers alone import is not found ahead: found late, it would have the page load a second React with what is lazy.
    include: [
      '@noble/hashes/sha2.js',
      '@noble/hashes/utils.js',
      '@stdlib/math-base-special-cos',
      '@stdlib/math-base-special-sin',
      'fastest-levenshtein',
      'fflate',
      'pdfmake/build/pdfmake.js',
      'pdfmake/build/vfs_fonts.js',
      'proxy-compare',
      'three-mesh-bvh',
      'three/src/extras/Earcut.js',
      'zod',
    ],
  },
  build: { target: 'es2022', chunkSizeWarningLimit: 1500 },
  server: { host: 'localhost', port: 5173 },
  test: {
    reporters: ['default', './tests/closingLine.ts'],
    maxWorkers: '100%',
    // Files share what they import: loading the program again for each takes longer than most tests.
    isolate: false,
    hookTimeout: 120_000,
    projects: [
      {
        extends: true,
        test: {
          ...loadedByNode,
          name: 'unit',
          include: ['tests/**/*.test.ts'],
          exclude: ['tests/browser/**', WHOLE, REPLACING],
          testTimeout: 60_000,
        },
      },
      {
        extends: true,
        test: { name: 'replacing', pool: 'threads', include: [REPLACING], testTimeout: 60_000 },
      },
      {
        extends: true,
        test: { ...loadedByNode, name: 'whole', include: [WHOLE], testTimeout: 180_000 },
      },
      {
        extends: true,
        test: {
          name: 'browser',
          include: ['tests/browser/**/*.test.ts'],
          globalSetup: './tests/browser/pages.ts',
          setupFiles: './tests/browser/whenBuilt.ts',
          testTimeout: 180_000,
          // A busy machine draws late.
          expect: { poll: { timeout: 20_000 } },
          // After the others, so that the pages have the processor.
          sequence: { groupOrder: 1 },
        },
      },
    ],
  },
});
