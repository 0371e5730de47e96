import { dirname, isAbsolute, relative, resolve } from 'node:path';
import { mergeConfig, type Plugin } from 'vite';
import config, { offline } from '../../vite.config.ts';
import { testRegistryFor } from '../layouts/withTestRegistry.ts';
import { SHIPPED_SOURCES } from './cachedBuild.ts';

const ROOT = resolve(import.meta.dirname, '../..');
const page = (path: string) => resolve(ROOT, path);

/** What the pages are built from. */
export const PAGES_SOURCES = [
  ...SHIPPED_SOURCES,
  'tests/app/coarse',
  'tests/browser/bytes',
  'tests/design/readDesign.ts',
  'tests/layouts',
];

/** Fails if the pages import something that is not listed: a change of it would not build them again. */
const onlyListedSources: Plugin = {
  name: 'only-listed-sources',
  generateBundle() {
    for (const id of this.getModuleIds()) {
      const path = relative(ROOT, id).replaceAll('\\', '/');
      const isOfRepository = isAbsolute(id) && !/^(\.\.|node_modules)\//.test(path);
      if (isOfRepository && !PAGES_SOURCES.some((source) => `${path}/`.startsWith(`${source}/`)))
        this.error(`${path} is missing in PAGES_SOURCES`);
    }
  },
};

/** Stores the built corners, sweeps and proofs of pages, for the other pages of the run. */
const recordedResults: Plugin = {
  name: 'recorded-results',
  configurePreviewServer({ middlewares }) {
    const results = new Map<string, Buffer>();
    middlewares.use('/recorded', async (request, response) => {
      const { url = '' } = request;
      if (request.method === 'PUT') results.set(url, Buffer.concat(await request.toArray()));
      response.end(request.method === 'PUT' ? '' : (results.get(url) ?? ''));
    });
  },
};

/** Compressing the pages takes longer than sending them to a browser on this machine. */
const uncompressed: Plugin = {
  name: 'uncompressed',
  configurePreviewServer({ middlewares }) {
    middlewares.use((request, _, next) => {
      delete request.headers['accept-encoding'];
      next();
    });
  },
};

/** Gives the pages the layouts of the tests too. */
const registryOfTests: Plugin = {
  name: 'registry-of-tests',
  enforce: 'pre',
  resolveId: (path, importer) =>
    importer === undefined ? undefined : testRegistryFor(resolve(dirname(importer), path)),
};

/** No page of these is used offline, and preparing that takes seconds; `built.test.ts` tests the build as shipped. */
const plugins = config.plugins?.filter((plugin) => plugin !== offline);

/** One chunk in place of two hundred: each page and each of its workers would request them all. */
const codeSplitting = {
  groups: [{ name: 'engine', test: /[\\/]src[\\/](?!app|cli|executors[\\/]browserWorker\.ts)/ }],
};

/** The shipped workbench, and the pages for tests. */
export default mergeConfig(
  { ...config, plugins },
  {
    plugins: [uncompressed, recordedResults, registryOfTests, onlyListedSources],
    worker: {
      plugins: () => [registryOfTests, onlyListedSources],
      rolldownOptions: { output: { codeSplitting } },
    },
    build: {
      rolldownOptions: {
        output: { codeSplitting },
        input: [
          page('index.html'),
          page('tests/app/coarse/index.html'),
          page('tests/browser/bytes/index.html'),
        ],
      },
    },
  },
);
