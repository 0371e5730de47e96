import type { Command } from './command.ts';
import { OPTIONS, type OptionName } from './options.ts';

const columns = (rows: [string, string][]): string[] => {
  const width = Math.max(...rows.map(([left]) => left.length));
  return rows.map(([left, right]) => `  ${left.padEnd(width)}  ${right}`);
};

export const generalHelp = (commands: readonly Command[]): string =>
  [
    'Daylight: does everything on a front corner clear, at every mix of bump, droop and lock?',
    '',
    'Usage: daylight COMMAND FILE [options]',
    '',
    'Commands:',
    ...columns(commands.map(({ name, operands, summary }) => [`${name} ${operands}`, summary])),
    ...columns([
      ['help [COMMAND]', 'this help, or that of a command'],
      ['--version', 'the version'],
    ]),
    '',
    'FILE is a corner file, NAME.corner.json.',
    '',
    'Exit codes:',
    ...columns([
      ['0', 'all clear'],
      ['1', 'something touches, binds or is tight'],
      ['2', 'something could not be told, or a pose cannot be reached'],
      ['64', 'the command line was not understood'],
      ['65', 'the corner file, or a list, is not sound'],
      ['66', 'the corner file, or a list, cannot be opened'],
      ['70', 'a fault of Daylight itself'],
      ['73', 'the output cannot be written'],
      ['130', 'cancelled; no partial file is left'],
    ]),
    '',
    'Daylight checks geometry only: not strength, fatigue, welds, brakes or steering safety.',
  ].join('\n');

export const commandHelp = ({ name, operands, summary, details, options }: Command): string =>
  [
    `Usage: daylight ${name} ${operands} [options]`,
    '',
    `${summary[0].toUpperCase()}${summary.slice(1)}.`,
    ...details,
    '',
    'Options:',
    ...columns(
      ([...options, 'help'] satisfies OptionName[] as OptionName[]).map((option) => {
        const spec: { value?: string; help: string } = OPTIONS[option];
        return [`--${option}${spec.value === undefined ? '' : ` ${spec.value}`}`, spec.help];
      }),
    ),
    '',
    'A LENGTH is in millimetres, or as typed with its unit: 2, "1/2 in".',
  ].join('\n');
