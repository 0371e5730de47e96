import { dirname, posix, resolve } from 'node:path';
import { build, normalizePath, type Plugin, type Rolldown, type UserConfig } from 'vite';

/** Code that starts a worker, and the address of one in it. */
const STARTS_WORKER = /new Worker\(/;
const WORKER_URL = /new URL\(\s*'(\.[^']+)',\s*import\.meta\.url\s*\)/g;

/** Replaces the address of each worker in the code of a module by an expression. `worker`: the path of its file. */
const withUrls = (code: string, id: string, expressionFor: (worker: string) => string): string =>
  code.replaceAll(WORKER_URL, (_, path: string) => expressionFor(normalizePath(resolve(dirname(id), path))));

/** Stands for the file name of a worker that is not built yet. */
const placeholder = (worker: string): string => `__WORKER__(${JSON.stringify(worker)})`;
const PLACEHOLDER = /__WORKER__\(["'`]([^"'`]+)["'`]\)/g;

/** Workers start workers of the same graph. */
const workersAsChunks: Plugin = {
  name: 'workers-as-chunks',
  enforce: 'pre',
  transform: {
    filter: { code: STARTS_WORKER },
    handler(code, id) {
      return withUrls(
        code,
        id,
        (worker) => `import.meta.ROLLUP_FILE_URL_${this.emitFile({ type: 'chunk', id: worker })}`,
      );
    },
  },
};

/** Imports a module without the preloads of Vite, which need a document. */
const importsAlone: Plugin = {
  name: 'imports-alone',
  enforce: 'pre',
  load: {
    filter: { id: /vite\/preload-helper/ },
    handler: () => 'export const __vitePreload = (load) => load();',
  },
};

/** Builds workers that share chunks. Their plugins and options are those in `worker` of the configuration. */
async function buildWorkers(config: UserConfig, input: string[]): Promise<Rolldown.RolldownOutput['output']> {
  const { plugins, rolldownOptions } = config.worker ?? {};
  const built = await build({
    ...config,
    configFile: false,
    logLevel: 'warn',
    plugins: [plugins?.(), workersAsChunks, importsAlone],
    build: {
      ...config.build,
      write: false,
      modulePreload: false,
      rolldownOptions: { ...rolldownOptions, input },
    },
  });
  return (built as Rolldown.RolldownOutput).output;
}

/**
 * Builds all workers of a page together, so that they share chunks: Vite alone builds the engine again for each. The page
 * has a build of its own, because in chunks shared with workers it would load what they alone use.
 */
export function workersInOneGraph(): Plugin {
  let config: UserConfig;
  const workers = new Set<string>();
  let files: Rolldown.RolldownOutput['output'];
  const fileOf = (worker: string): string => {
    const built = files.find((file) => file.type === 'chunk' && file.facadeModuleId === worker);
    if (built === undefined) throw new Error(`the worker ${worker} has not been built`);
    return built.fileName;
  };
  return {
    name: 'workers-in-one-graph',
    apply: 'build',
    enforce: 'pre',
    config(given) {
      config = given;
    },
    transform: {
      filter: { code: STARTS_WORKER },
      handler: (code, id) =>
        withUrls(code, id, (worker) => {
          workers.add(worker);
          return `new URL(${placeholder(worker)}, import.meta.url)`;
        }),
    },
    // Every module of the page is known now.
    async renderStart() {
      files = await buildWorkers(config, [...workers].toSorted());
    },
    renderChunk: (code, { fileName }) =>
      code.replaceAll(PLACEHOLDER, (_, worker) =>
        JSON.stringify(posix.relative(posix.dirname(fileName), fileOf(worker))),
      ),
    generateBundle(_, bundle) {
      for (const file of files) {
        const { fileName } = file;
        const source = file.type === 'chunk' ? file.code : file.source;
        if (!(fileName in bundle)) this.emitFile({ type: 'asset', fileName, source });
      }
    },
  };
}
