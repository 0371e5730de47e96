import { describe, expect, it } from 'vitest';
import { EXIT, Failure } from '../../src/cli/exit.ts';
import { settingsOf, threadsOf } from '../../src/cli/measure.ts';
import { readTyped, unitOf } from '../../src/cli/options.ts';
import { report } from '../../src/cli/report.ts';
import { sweep } from '../../src/cli/sweep.ts';
import { DEFAULT_SETTINGS } from '../../src/sweep/result.ts';

/** Reads arguments of the sweep as the command does. */
function read(args: string[]) {
  const typed = readTyped('sweep', args, [...sweep.options, 'help']);
  return { file: typed.file, settings: settingsOf(typed), threads: threadsOf(typed), unit: unitOf(typed) };
}

describe('options', () => {
  it('default if nothing is typed', () => {
    expect(read(['a.json'])).toEqual({
      file: 'a.json',
      settings: DEFAULT_SETTINGS,
      threads: undefined,
      unit: 'mm',
    });
  });

  it('are accepted before or after the file, with = or a blank', () => {
    const settings = { travelSteps: 5, steerSteps: 7, limitMm: 25.4, chordToleranceMm: 0.1 };
    const first = ['--travel-steps', '5', '--steer-steps=7', '--limit', '1 in', '--chord=0,1', '--unit=in'];
    expect(read([...first, '--threads', '2', 'a.json'])).toEqual({
      file: 'a.json',
      settings,
      threads: 2,
      unit: 'in',
    });
    expect(read(['a.json', ...first]).settings).toEqual(settings);
    expect(read(['--', '-odd name.json']).file).toBe('-odd name.json');
  });

  it.each([
    [
      ['--travel-step', '5'],
      '--travel-step is not an option of "daylight sweep". Did you mean "--travel-steps"?',
    ],
    [['--stl', 'x'], '--stl is not an option of "daylight sweep".'],
    [['-x'], '-x is not an option of "daylight sweep".'],
    [['--no-json'], '--no-json is not an option of "daylight sweep".'],
    [['--travel-steps', '2'], '--travel-steps: "2" is not allowed. Give a whole number from 3 to 2001.'],
    [['--travel-steps', '2002'], '--travel-steps: "2002" is not allowed'],
    [['--travel-steps', '5.5'], '--travel-steps: "5.5" is not allowed'],
    [['--travel-steps', ''], '--travel-steps needs a value: --travel-steps N'],
    [['--steer-steps', '1e2'], '--steer-steps: "1e2" is not allowed'],
    [['--steer-steps=-5'], '--steer-steps: "-5" is not allowed'],
    [['--steer-steps', '-5'], '--steer-steps: "-5" is not allowed'],
    [['--travel-steps', '2001', '--steer-steps', '2001'], 'gives 4004001 poses. Give at most 100000.'],
    [['--threads', '0'], '--threads: "0" is not allowed. Give a whole number from 1 to 64.'],
    [['--limit', 'far'], '--limit: "far" is not a length'],
    [['--limit', '-5'], '--limit: "-5" is not allowed. Give a length from 1 to 1000 mm.'],
    [['--limit', '100 in'], '--limit: "100 in" is not allowed'],
    [['--chord', '0'], '--chord: "0" is not allowed. Give a length from 0.005 to 2 mm.'],
    [['--unit', 'furlong'], '--unit: "furlong" is not allowed. Give mm or in.'],
    [['--json', '--json'], '--json is given twice'],
    [['--json=yes'], '--json takes no value, but "yes" is given'],
    [['--out'], '--out needs a value: --out DIR'],
    [['--out', '--json'], '--out needs a value: --out DIR'],
    [['a.json', 'b.json'], '"daylight sweep" takes one file, not 2: a.json, b.json'],
  ])('rejects %j and names what is allowed', (args, message) => {
    const failure = (): Failure => {
      try {
        read(args);
      } catch (error) {
        if (error instanceof Failure) return error;
        throw error;
      }
      throw new Error('it was accepted');
    };
    expect(failure().message).toContain(message);
    expect(failure().code).toBe(EXIT.usage);
  });

  it('are rejected by a command that does not have them', () => {
    expect(() => readTyped('report', ['--json'], report.options)).toThrow(
      '--json is not an option of "daylight report"',
    );
  });
});
