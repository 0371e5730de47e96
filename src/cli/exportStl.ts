import { join } from 'node:path';
import { stlBinary } from '../report/stl.ts';
import { uniqueNames } from '../report/uniqueNames.ts';
import { buildSolids } from '../solids/catalogue.ts';
import type { Solid } from '../solids/solid.ts';
import type { Command } from './command.ts';
import { EXIT } from './exit.ts';
import { settingsOf } from './measure.ts';
import { required } from './options.ts';
import { namingFile, readCorner } from './readCorner.ts';
import { checkFolder, writeFiles } from './writeFiles.ts';

export const exportStl: Command = {
  name: 'export',
  operands: 'FILE --stl DIR',
  summary: 'write each part as a binary STL file',
  details: [
    'Millimetres, at ride height in vehicle coordinates: X forward, Y left, Z up (ISO 8855).',
    'Parts are written as the view shows them. A right corner is written mirrored, as a right one.',
  ],
  options: ['stl', 'chord'],
  async run(typed, context) {
    const file = required('the corner file', typed.file);
    const folder = required('--stl DIR', typed.values.get('stl'));
    const { chordToleranceMm } = settingsOf(typed);
    await checkFolder(folder);
    const { corner } = await readCorner(file);
    const solids = await namingFile(file, () => buildSolids(corner, chordToleranceMm));
    const names = fileNames(solids);
    const files = solids.map(({ shown, mesh }, i) => ({
      name: names[i],
      data: stlBinary(shown ?? mesh, corner.side),
    }));
    await writeFiles(folder, files, context.signal);
    context.print(files.map(({ name }) => `Written: ${join(folder, name)}`).join('\n'));
    return EXIT.clear;
  },
};

/** A file name for each solid. */
export const fileNames = (solids: readonly Pick<Solid, 'id'>[]): string[] =>
  uniqueNames(solids.map(({ id }) => id)).map((name) => `${name}.stl`);
