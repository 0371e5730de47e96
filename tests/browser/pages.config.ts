import { dirname, resolve } from 'node:path';
import { mergeConfig, type Plugin } from 'vite';
import config, { offline } from '../../vite.config.ts';
import { testRegistryFor } from '../layouts/withTestRegistry.ts';

const page = (path: string) => resolve(import.meta.dirname, '../..', path);

/** Stores the proofs of pages, for the other pages of the run. */
const recordedProofs: Plugin = {
  name: 'recorded-proofs',
  configurePreviewServer({ middlewares }) {
    const proofs = new Map<string, Buffer>();
    middlewares.use('/recorded-proofs', async (request, response) => {
      const { url = '' } = request;
      if (request.method === 'PUT') proofs.set(url, Buffer.concat(await request.toArray()));
      response.end(request.method === 'PUT' ? '' : (proofs.get(url) ?? ''));
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

/** The shipped workbench, and the pages for tests. */
export default mergeConfig(
  { ...config, plugins },
  {
    plugins: [recordedProofs, registryOfTests],
    worker: { plugins: () => [registryOfTests] },
    build: {
      rolldownOptions: {
        input: [
          page('index.html'),
          page('tests/app/coarse/index.html'),
          page('tests/browser/bytes/index.html'),
        ],
      },
    },
  },
);
