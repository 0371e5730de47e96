import { execFileSync } from 'node:child_process';
import {
  appendFileSync,
  cpSync,
  mkdirSync,
  readdirSync,
  readFileSync,
  statSync,
  symlinkSync,
  utimesSync,
} from 'node:fs';
import { join, resolve } from 'node:path';
import { expect, it } from 'vitest';
import { newFolder } from './run.ts';

const ROOT = resolve(import.meta.dirname, '../..');

/** A checkout after `npm ci`, without a build. */
function freshCheckout(): string {
  const root = newFolder();
  for (const name of ['src', 'package.json']) cpSync(join(ROOT, name), join(root, name), { recursive: true });
  symlinkSync(join(ROOT, 'node_modules'), join(root, 'node_modules'));
  return root;
}

const version = (program: string): string =>
  execFileSync(process.execPath, [program, '--version'], { encoding: 'utf8' });

it('builds the program on the first run, and again only after a source has changed', () => {
  const root = freshCheckout();
  const program = join(root, 'src/cli/daylight.js');
  const builds = () => readdirSync(join(root, 'built')).filter((name) => name !== 'current.json');
  const current = () => statSync(join(root, 'built/current.json')).mtimeMs;
  const expected = `${JSON.parse(readFileSync(join(root, 'package.json'), 'utf8')).version}\n`;

  expect(version(program)).toBe(expected);
  expect(builds()).toHaveLength(1);
  const first = current();

  // New modification time, same content: as after a checkout.
  const source = join(root, 'src/cli/dispatch.ts');
  utimesSync(source, new Date(), new Date());
  expect(version(program)).toBe(expected);
  expect(current()).toBe(first);

  appendFileSync(source, "\nprocess.stderr.write('');\n");
  expect(version(program)).toBe(expected);
  expect(builds()).toHaveLength(2);
  expect(current()).toBeGreaterThan(first);
}, 120_000);

it('runs through the symbolic link that npm creates for the command', () => {
  const root = freshCheckout();
  mkdirSync(join(root, 'bin'));
  const { bin } = JSON.parse(readFileSync(join(root, 'package.json'), 'utf8'));
  symlinkSync(join(root, bin.daylight), join(root, 'bin/daylight'));
  const stl = join(root, 'stl');
  const args = ['export', join(ROOT, 'demo-data/larkrise.corner.json'), '--stl', stl];
  execFileSync(process.execPath, [join(root, 'bin/daylight'), ...args]);
  expect(readdirSync(stl)).toContain('wheel.stl');
}, 120_000);
