import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { cornerFile, daylight, newFolder, spawnDaylight, textFile } from './run.ts';

const { version } = JSON.parse(readFileSync(new URL('../../package.json', import.meta.url), 'utf8'));

describe('help', () => {
  it('lists the commands and exit codes', async () => {
    for (const args of [['help'], ['--help'], ['-h']]) {
      const { code, stdout, stderr } = await daylight(args);
      expect([code, stderr]).toEqual([0, '']);
      for (const command of [
        'check FILE',
        'sweep FILE',
        'vary FILE --field',
        'bolts FILE',
        'audit FILE',
        'report FILE --out DIR',
        'export FILE --stl DIR',
      ])
        expect(stdout).toContain(command);
      expect(stdout).toMatch(/130 +cancelled/);
      expect(stdout).toContain('geometry only');
    }
  });

  it('of a command lists its options, with help COMMAND and with --help', async () => {
    const shown = await Promise.all([daylight(['help', 'sweep']), daylight(['sweep', '--help'])]);
    expect(shown.map(({ code }) => code)).toEqual([0, 0]);
    expect(shown[0].stdout).toBe(shown[1].stdout);
    for (const option of [
      '--travel-steps N',
      '--steer-steps N',
      '--limit LENGTH',
      '--chord LENGTH',
      '--out DIR',
      '--json',
    ])
      expect(shown[0].stdout).toContain(option);
  });

  it('of a command shows its own defaults', async () => {
    const [sweep, audit] = await Promise.all([daylight(['help', 'sweep']), daylight(['help', 'audit'])]);
    expect(sweep.stdout).toMatch(/--travel-steps N .*\(default: 41\)$/m);
    expect(audit.stdout).toMatch(/--travel-steps N .*\(default: 5\)$/m);
  });

  it('prints the version', async () => {
    expect(await spawnDaylight(['--version'])).toEqual({ code: 0, stdout: `${version}\n`, stderr: '' });
  });
});

describe('a command line with an error', () => {
  it.each([
    [[], /a command is missing/],
    [['swep', 'x.corner.json'], /"swep" is not a command.* Did you mean "sweep"\?/],
    [['sweep', 'x.corner.json', '--travel-step', '5'], /Did you mean "--travel-steps"\?/],
    [
      ['sweep', 'x.corner.json', '--travel-steps', '2'],
      /"2" is not allowed\. Give a whole number from 3 to 2001\./,
    ],
    [['report', 'x.corner.json'], /--out DIR is missing/],
  ])('%j ends with 64', async (args, message) => {
    const { code, stdout, stderr } = await daylight(args);
    expect([code, stdout]).toEqual([64, '']);
    expect(stderr).toMatch(message);
    expect(stderr).toMatch(/^daylight: /);
    expect(stderr).not.toMatch(/\n\s+at /);
  });
});

describe('a file that cannot be used', () => {
  it('that does not exist ends with 66', async () => {
    const { code, stderr } = await spawnDaylight(['check', '/no/such/place.corner.json']);
    expect([code, stderr]).toEqual([
      66,
      'daylight: /no/such/place.corner.json: cannot be opened: there is no such file or folder\n',
    ]);
  });

  it('that is a folder ends with 66', async () => {
    const { code, stderr } = await daylight(['sweep', newFolder()]);
    expect(code).toBe(66);
    expect(stderr).toContain('it is a folder');
  });

  it('that is not JSON ends with 65', async () => {
    const file = textFile('{ "format": ');
    const { code, stdout, stderr } = await daylight(['check', file]);
    expect([code, stdout]).toEqual([65, '']);
    expect(stderr).toContain(`${file}: 1 problem`);
  });

  it('that is not text ends with 65', async () => {
    const { code, stderr } = await daylight(['check', textFile(Uint8Array.of(0xff, 0xfe, 0x00, 0x80))]);
    expect(code).toBe(65);
    expect(stderr).toContain('not UTF-8');
  });

  it('with bad fields ends with 65 and names each path, the value found and what is allowed', async () => {
    const file = cornerFile({
      parts: [
        { kind: 'tieRod', id: 'tieRod', tubeDiameter: '7/8 furlong' },
        { kind: 'box', id: 'box', centre: [0, 0, 0], size: [1, 2, -3], rollDegg: 5 },
      ],
    });
    for (const args of [
      ['check', file],
      ['sweep', file],
      ['export', file, '--stl', newFolder()],
    ]) {
      const { code, stdout, stderr } = await daylight(args);
      expect([code, stdout]).toEqual([65, '']);
      expect(stderr).toContain(`${file}: 3 problems`);
      expect(stderr).toMatch(/parts\[0\]\.tubeDiameter: .*7\/8 furlong/);
      expect(stderr).toMatch(/parts\[1\]\.size\[2\]: must be more than 0.*-3/);
      expect(stderr).toMatch(/parts\[1\]\.rollDegg: .*rollDeg/);
    }
  });

  it('with impossible hardpoints ends with 65', async () => {
    const source = JSON.parse(readFileSync(cornerFile(), 'utf8'));
    source.suspension.hardpoints.lowerJoint = source.suspension.hardpoints.upperJoint;
    const { code, stderr } = await daylight(['sweep', textFile(JSON.stringify(source))]);
    expect(code).toBe(65);
    expect(stderr).toMatch(/suspension\.hardpoints/);
  });

  it('is printed without terminal control characters', async () => {
    const file = cornerFile({
      name: '\u001b[31mred',
      parts: [{ kind: 'tieRod', id: '\u001b[2J', tubeDiameter: 5 }],
    });
    const { stderr } = await daylight(['check', file]);
    expect(stderr).not.toContain('\u001b');
  });

  it('is printed on one line if its name contains line breaks', async () => {
    const file = join(newFolder(), 'x.json\nclear Forged A ↔ Forged B 50.00\u202e.corner.json');
    const missing = await daylight(['check', file]);
    writeFileSync(file, '{}');
    const unsound = await daylight(['check', file]);
    for (const { stdout, stderr } of [missing, unsound]) {
      expect(stdout).toBe('');
      expect(stderr).toContain('x.json\\nclear Forged');
      expect(stderr).not.toMatch(/^clear|\u202e/m);
    }
  });
});

describe('output that cannot be written', () => {
  it('ends with 73 before anything is measured', async () => {
    const file = cornerFile();
    for (const args of [
      ['sweep', file, '--out', file],
      ['report', file, '--out', `${file}/inside`],
      ['export', file, '--stl', file],
    ]) {
      const { code, stdout, stderr } = await daylight(args);
      expect([code, stdout]).toEqual([73, '']);
      expect(stderr).toContain('there is a file in place of the folder');
    }
  });
});
