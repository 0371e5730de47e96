import {
  accessSync,
  constants,
  existsSync,
  mkdirSync,
  mkdtempSync,
  renameSync,
  rmSync,
  writeFileSync,
} from 'node:fs';
import { createRequire } from 'node:module';
import { delimiter, dirname, join, resolve } from 'node:path';
import { type Browser, type BrowserServer, chromium, type LaunchOptions } from 'playwright-core';

/** Environment variable that names a browser. */
export const BROWSER_VARIABLE = 'DAYLIGHT_BROWSER';

const INSTALLED = ['google-chrome-stable', 'google-chrome', 'chromium', 'chromium-browser'];
const INSTALLED_PLACES = [
  '/Applications/Google Chrome.app/Contents/MacOS/Google Chrome',
  '/Applications/Chromium.app/Contents/MacOS/Chromium',
  'C:\\Program Files\\Google\\Chrome\\Application\\chrome.exe',
];

const ARGS = [
  '--no-sandbox',
  '--use-angle=swiftshader',
  '--enable-unsafe-swiftshader',
  '--ignore-gpu-blocklist',
  '--disable-background-networking',
  '--disable-component-update',
  '--disable-quic',
  '--disable-sync',
  '--no-first-run',
  '--force-color-profile=srgb',
];

function runs(path: string): boolean {
  try {
    accessSync(path, constants.X_OK);
    return true;
  } catch {
    return false;
  }
}

function installedBrowser(): string | undefined {
  const named = (process.env.PATH ?? '')
    .split(delimiter)
    .flatMap((folder) => INSTALLED.map((name) => join(folder, name)));
  return [...named, ...INSTALLED_PLACES].find(runs);
}

/** Value of AWS_EXECUTION_ENV with which the package unpacks its libraries. */
const WITH_LIBRARIES = 'AWS_Lambda_nodejs20.x';

/** The packaged configuration names folders of another machine; this one names the packaged fonts. */
const fontsConfiguration = (folder: string) =>
  `<?xml version="1.0"?>
<fontconfig><dir>${folder}</dir><dir>/usr/share/fonts</dir><cachedir>${folder}-cache</cachedir></fontconfig>
`;

interface Launch {
  executablePath: string;
  env: Record<string, string>;
}

/**
 * Unpacks the browser that the dev dependency @sparticuz/chromium carries, with the libraries and fonts it needs,
 * into node_modules/.cache, once. The package unpacks into the temporary folder and reuses what is there, so it gets its own
 * folder, which is renamed when complete.
 */
async function packagedBrowser(): Promise<Launch> {
  const packed = dirname(dirname(dirname(createRequire(import.meta.url).resolve('@sparticuz/chromium'))));
  const cache = resolve(packed, '../../.cache/daylight-chromium');
  if (!existsSync(cache)) {
    mkdirSync(dirname(cache), { recursive: true });
    const partial = mkdtempSync(`${cache}-`);
    const changed = ['TMPDIR', 'AWS_EXECUTION_ENV', 'LD_LIBRARY_PATH', 'FONTCONFIG_PATH', 'HOME'];
    const before = changed.map((name) => [name, process.env[name]] as const);
    Object.assign(process.env, { TMPDIR: partial, AWS_EXECUTION_ENV: WITH_LIBRARIES });
    try {
      const { default: pack } = await import('@sparticuz/chromium');
      await pack.executablePath(join(packed, 'bin'));
    } finally {
      for (const [name, value] of before) {
        if (value === undefined) delete process.env[name];
        else process.env[name] = value;
      }
    }
    writeFileSync(join(partial, 'fonts.conf'), fontsConfiguration(join(cache, 'fonts')));
    if (existsSync(cache)) rmSync(partial, { recursive: true });
    else renameSync(partial, cache);
  }
  return {
    executablePath: join(cache, 'chromium'),
    env: {
      LD_LIBRARY_PATH: [join(cache, 'al2023', 'lib'), process.env.LD_LIBRARY_PATH]
        .filter(Boolean)
        .join(delimiter),
      FONTCONFIG_FILE: join(cache, 'fonts.conf'),
    },
  };
}

async function findBrowser(): Promise<Launch> {
  const named = process.env[BROWSER_VARIABLE];
  if (named !== undefined && named !== '') {
    if (!runs(named))
      throw new Error(`${BROWSER_VARIABLE} names ${named}, which is not a program that can be run`);
    return { executablePath: named, env: {} };
  }
  const installed = installedBrowser();
  if (installed !== undefined) return { executablePath: installed, env: {} };
  return packagedBrowser();
}

async function launchOptions(more: readonly string[]): Promise<LaunchOptions> {
  const { executablePath, env } = await findBrowser();
  return {
    executablePath,
    headless: true,
    args: [...ARGS, ...more],
    env: { ...(process.env as Record<string, string>), ...env },
  };
}

/**
 * A headless Chromium that draws WebGL 2 in software: named by variable, installed, or the packaged one. `more` are further
 * arguments of its command line.
 */
export const launchChromium = async (more: readonly string[] = []): Promise<Browser> =>
  chromium.launch(await launchOptions(more));

/**
 * Less work for a machine without a graphics card. The processor paints and composes the pages, instead of drawing them in
 * software. Scripts and WebAssembly are compiled to fast code, not a second time to the fastest: most pages end too soon for
 * that to pay. Threads of the pages compile and collect garbage themselves: helpers would wait for the cores that tests use.
 */
const FOR_TESTS = [
  '--disable-gpu-rasterization',
  '--disable-gpu-compositing',
  '--js-flags=--liftoff-only --wasm-lazy-compilation --no-turbofan --single-threaded',
];

/** The same as a server, for several processes, with less work for the processor. */
export const launchChromiumServer = async (): Promise<BrowserServer> =>
  chromium.launchServer(await launchOptions(FOR_TESTS));
