import { resolve } from 'node:path';
import { createServer, type ViteDevServer } from 'vite';

export interface Served {
  url: string;
  close(): Promise<void>;
}

/** The workbench as `npm start` serves it, on a free port. */
export async function serveWorkbench(): Promise<Served> {
  const server: ViteDevServer = await createServer({
    configFile: resolve(import.meta.dirname, '../../vite.config.ts'),
    root: resolve(import.meta.dirname, '../..'),
    logLevel: 'error',
    server: { port: 0, open: false, hmr: false },
  });
  await server.listen();
  const url = server.resolvedUrls?.local[0];
  if (url === undefined) throw new Error('the development server has no address');
  return { url, close: () => server.close() };
}
