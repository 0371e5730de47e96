import { join } from 'node:path';
import type { Corner } from '../design/schema.ts';
import { figuresIn } from '../report/figures.ts';
import { stlBinary } from '../report/stl.ts';
import { sectionDxf } from '../report/sweptSpace/sectionDxf.ts';
import { sidedMesh } from '../report/sweptSpace/sidedMesh.ts';
import { planeSentence, spaceSentences } from '../report/sweptSpace/spaceLines.ts';
import { threeMf } from '../report/sweptSpace/threeMf.ts';
import { sidedPlane } from '../studies/sweptSpace/planeCrossing.ts';
import { readPlane } from '../studies/sweptSpace/readPlane.ts';
import { readSteerRange, readTravelRange } from '../studies/sweptSpace/readRanges.ts';
import {
  SpaceError,
  type SpaceRequest,
  type SweptSpace,
  sweptSpace,
  WITHIN_MM,
  wholeRange,
} from '../studies/sweptSpace/sweptSpace.ts';
import { visible } from '../units/plainText.ts';
import type { Command } from './command.ts';
import { EXIT, Failure } from './exit.ts';
import { threadsOf } from './measure.ts';
import { lengthMm, required, type Typed, unitOf } from './options.ts';
import { progressOn } from './progress.ts';
import { namingFile, readCorner } from './readCorner.ts';
import { spaceThreads } from './spaceThreads.ts';
import { GEOMETRY_ONLY } from './words.ts';
import { checkFolder, type OutputFile, writeFiles } from './writeFiles.ts';

const FORMATS = ['stl', '3mf', 'glb'] as const;
type Format = (typeof FORMATS)[number];

/** Steps of the progress. */
const STEPS = 1000;

export const space: Command = {
  name: 'space',
  operands: 'FILE --out DIR',
  summary: 'write the space that tyre and wheel sweep, to stay out of',
  details: [
    'One closed solid around tyre and wheel at every pose of a range of travel and steer, proved between steps too. No point of',
    'it is further outside the true swept space than the bound that is printed. Vehicle coordinates: X forward, Y left, Z up,',
    'in mm; GLB in metres with Y up. Each plane gives its section as DXF in mm, and is reported as crossed or not.',
    'Tyre growth and flex are covered only as far as growth and margin are given.',
  ],
  options: [
    'out',
    'travel',
    'steer',
    'growth',
    'keep-free',
    'accuracy',
    'planes',
    'format',
    'threads',
    'unit',
    'progress',
  ],
  async run(typed, context) {
    const file = required('the corner file', typed.file);
    const folder = required('--out DIR', typed.values.get('out'));
    unitOf(typed);
    const formats = formatsOf(typed);
    await checkFolder(folder);
    const { corner } = await readCorner(file);
    const request = requestOf(typed, corner);
    const figures = figuresIn(unitOf(typed, corner.unit));
    const progress = progressOn(context, 'Computing the space, thousandths', typed.values.has('progress'));
    const pool = spaceThreads(threadsOf(typed));
    const found = await namingFile(file, () =>
      sweptSpace(corner, request, {
        measure: pool.measure,
        signal: context.signal,
        onProgress: (share) => progress.update(Math.floor(STEPS * share), STEPS),
      }),
    )
      .catch((error) => {
        throw error instanceof SpaceError ? new Failure(EXIT.usage, `${file}: ${error.message}`) : error;
      })
      .finally(() => {
        progress.end();
        pool.end();
      });
    context.signal.throwIfAborted();
    const files = await filesOf(found, corner, formats);
    await writeFiles(folder, files, context.signal);
    context.print(
      [
        visible(`${corner.name}, front ${corner.side} corner`),
        ...spaceSentences(found, figures),
        ...found.planes.map((crossing) => visible(planeSentence(crossing, figures))),
        ...files.map(({ name }) => `Written: ${join(folder, name)}`),
        GEOMETRY_ONLY,
      ].join('\n'),
    );
    return EXIT.clear;
  },
};

/** The files of a space: the solid in each format, and the section of each plane that meets it. */
async function filesOf(
  { solid, planes }: SweptSpace,
  { side }: Corner,
  formats: readonly Format[],
): Promise<OutputFile[]> {
  const sided = sidedMesh(solid.mesh, side);
  const files: OutputFile[] = [];
  if (formats.includes('stl')) files.push({ name: 'space.stl', data: stlBinary(sided) });
  if (formats.includes('3mf')) files.push({ name: 'space.3mf', data: threeMf(sided) });
  if (formats.includes('glb')) {
    const { glbOf } = await import('../report/sweptSpace/glb.ts');
    files.push({ name: 'space.glb', data: await glbOf(sided) });
  }
  planes.forEach(({ plane }, i) => {
    const data = sectionDxf(sided, sidedPlane(plane, side));
    if (data !== undefined) files.push({ name: `section-${i + 1}.dxf`, data });
  });
  return files;
}

function formatsOf({ values }: Typed): Format[] {
  const typed = values.get('format');
  if (typed === undefined) return [...FORMATS];
  return typed.split(',').map((name) => {
    const format = FORMATS.find((one) => one === name.trim());
    if (format !== undefined) return format;
    throw new Failure(EXIT.usage, `--format: "${name}" is not a format. Give ${FORMATS.join(', ')}.`);
  });
}

/** The request typed, the file's whole range by default. Throws a usage Failure that names option, value and remedy. */
function requestOf(typed: Typed, corner: Corner): SpaceRequest {
  const whole = wholeRange(corner);
  const { values } = typed;
  /** A typed value, read by a function that throws a RangeError. */
  const read = <T>(option: 'travel' | 'steer' | 'planes', of: (text: string) => T, text: string): T => {
    try {
      return of(text);
    } catch (error) {
      if (!(error instanceof RangeError)) throw error;
      throw new Failure(EXIT.usage, `--${option}: ${error.message}`);
    }
  };
  const [travel, steer] = [values.get('travel'), values.get('steer')];
  return {
    travelMm:
      travel === undefined
        ? whole.travelMm
        : read('travel', (text) => readTravelRange(text, corner.unit), travel),
    steer: steer === undefined ? whole.steer : read('steer', readSteerRange, steer),
    growthMm: lengthMm(typed, 'growth', 0, 200, 0),
    marginMm: lengthMm(typed, 'keep-free', 0, 200, 0),
    withinMm: lengthMm(typed, 'accuracy', 2, 100, WITHIN_MM),
    planes: (values.get('planes') ?? '')
      .split(';')
      .filter((text) => text.trim() !== '')
      .map((text) => read('planes', (one) => readPlane(one.trim(), corner.unit), text)),
  };
}
