import type { Command } from './command.ts';
import { OPTIONS, type OptionName, type OptionSpec } from './options.ts';

const columns = (rows: [string, string][]): string[] => {
  const width = Math.max(...rows.map(([left]) => left.length));
  return rows.map(([left, right]) => `  ${left.padEnd(width)}  ${right}`);
};

export const generalHelp = (commands: readonly Command[]): string =>
  [
    'Daylight checks the clearances of a front corner over all travel and steering lock.',
    '',
    'Usage: daylight COMMAND FILE [options]',
    '',
    'Commands:',
    ...columns([
      ...commands.map(({ name, operands, summary }): [string, string] => [`${name} ${operands}`, summary]),
      ['help [COMMAND]', 'show this help, or the help of a command'],
      ['--version', 'show the version'],
    ]),
    '',
    'FILE is a corner file, NAME.corner.json.',
    '',
    'Exit codes:',
    ...columns([
      ['0', 'all clear'],
      [
        '1',
        'something touches, binds or is tight; with --strict also: a clear pair is within the measuring error',
      ],
      ['2', 'a result is unknown, or a pose cannot be reached'],
      ['64', 'the command line has an error'],
      ['65', 'the corner file or a list has an error, or a file beside the corner is missing'],
      ['66', 'the corner file, a file beside it or a list cannot be opened'],
      ['70', 'internal error of Daylight'],
      ['73', 'the output cannot be written'],
      ['130', 'cancelled; no partial file is left'],
    ]),
    '',
    'Daylight checks geometry only: not strength, fatigue, welds, brakes or steering safety.',
  ].join('\n');

export const commandHelp = ({ name, operands, summary, details, options, defaults = {} }: Command): string =>
  [
    `Usage: daylight ${name} ${operands} [options]`,
    '',
    `${summary[0].toUpperCase()}${summary.slice(1)}.`,
    ...details,
    '',
    'Options:',
    ...columns(
      ([...options, 'help'] satisfies OptionName[] as OptionName[]).map((option) => {
        const { value, help, defaultText }: OptionSpec = OPTIONS[option];
        const byDefault = defaults[option] ?? defaultText;
        return [
          `--${option}${value === undefined ? '' : ` ${value}`}`,
          byDefault === undefined ? help : `${help} (default: ${byDefault})`,
        ];
      }),
    ),
    '',
    'A LENGTH without a unit is in millimetres: 2, "1/2 in".',
  ].join('\n');
