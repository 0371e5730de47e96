import { parseLength } from '../units/parseLength.ts';
import { visible } from '../units/plainText.ts';
import type { Problem } from '../units/problem.ts';
import { type Assets, assetProblems, NO_ASSETS, namedAssets } from './assets.ts';
import { crossChecks } from './crossChecks.ts';
import type { Design, InputRecord } from './design.ts';
import { cornerHash } from './hash.ts';
import { inputsOf, plusMinusProblems } from './inputs.ts';
import { problemsOf } from './issues.ts';
import { readJson } from './jsonText.ts';
import { type DeclaredUnit, originHeightMm } from './origin.ts';
import { snippet, valueAt } from './path.ts';
import { readable, readValues } from './readable.ts';
import { type Corner, cornerSchema, FORMAT, VERSION } from './schema.ts';

export type ParseResult = { kind: 'ok'; design: Design } | { kind: 'bad'; problems: Problem[] };

/**
 * Reads the text of a corner file. Never throws: returns every problem, each with its path. `assets`: the files beside it;
 * those that it does not list are left out. `isMeasured`: whether each size must be larger than its ±, as a measured one must.
 */
export function parseDesign(text: string, assets: Assets = NO_ASSETS, isMeasured = true): ParseResult {
  const read = readJson(text);
  if (read.kind === 'unreadable') return bad(read.problems);
  const source = read.value;
  const unreadable = formatProblem(source);
  if (unreadable !== undefined) return bad([...read.problems, unreadable]);

  const declared = valueAt(source, ['unit']);
  const unit = declared === 'mm' || declared === 'in' ? declared : undefined;
  const schema = schemaFor(unit, originHeightMm(source, unit));
  const result = schema.safeParse(source);
  const pieces = readable(schema, source, result.data);
  const values = result.data ?? readValues(pieces, unit);
  const inputs = once(() => inputsOf(schema, source, values));
  const problems = [
    ...read.problems,
    ...problemsOf(schema, source, result.error?.issues ?? []),
    ...assetProblems(source, assets),
    ...(isMeasured ? plusMinusProblems(schema, values, inputs()) : []),
    ...crossChecks(pieces),
  ];
  if (problems.length > 0 || !result.success) return bad(problems);
  return { kind: 'ok', design: designOf(result.data, source, assets, inputs) };
}

/**
 * Reads a changed file of a design, with the design's assets, as `parseDesign` reads its text; sizes need not be larger than
 * their ±. Pieces of the design's file that `source` holds unchanged, as the same objects, are not read again.
 */
export function parseChanged({ corner, source: before, assets }: Design, source: unknown): ParseResult {
  const readAll = () => parseDesign(JSON.stringify(source), assets, false);
  const keys = Object.keys(source as object);
  if (valueAt(source, ['unit']) !== corner.unit) return readAll();
  const schema = schemaFor(corner.unit, originHeightMm(source, corner.unit));
  const { shape } = schema;
  if (keys.some((key) => !(key in shape))) return readAll();
  const changed: Record<string, unknown> = { ...corner };
  for (const key of Object.keys(shape) as (keyof typeof shape)[]) {
    const [typed, old] = [valueAt(source, [key]), valueAt(before, [key])];
    if (typed === old) continue;
    // Z of every point depends on it.
    if (key === 'originHeight' || key === 'assets') return readAll();
    const read =
      key === 'parts' ? partsBeside(shape.parts, corner.parts, old, typed) : shape[key].safeParse(typed);
    if (read?.success !== true) return readAll();
    if (read.data === undefined) delete changed[key];
    else changed[key] = read.data;
  }
  const result = changed as Corner;
  if (crossChecks(readable(schema, source, result)).length > 0) return readAll();
  const inputs = once(() => inputsOf(schema, source, result));
  return { kind: 'ok', design: designOf(result, source, assets, inputs) };
}

/** The parts of a changed file; those that are the same objects as before are not read again. */
function partsBeside(
  schema: Schema['shape']['parts'],
  known: Corner['parts'],
  before: unknown,
  typed: unknown,
): { success: boolean; data?: unknown } {
  if (!Array.isArray(before) || !Array.isArray(typed) || typed.length !== before.length)
    return schema.safeParse(typed);
  const read = typed.map((part, p) =>
    part === before[p] ? { success: true, data: known[p] } : schema.element.safeParse(part),
  );
  return { success: read.every(({ success }) => success), data: read.map(({ data }) => data) };
}

function designOf(
  corner: Corner,
  source: unknown,
  assets: Assets,
  inputs: () => readonly InputRecord[],
): Design {
  const named = namedAssets(corner.assets ?? [], assets);
  const hash = once(() => cornerHash(corner, named));
  return {
    corner,
    source,
    // Studies read thousands of corners without these two, which take half of the time.
    get inputs() {
      return inputs();
    },
    assets: named,
    get hash() {
      return hash();
    },
  };
}

/** A function that computes a value at its first call and returns it at each. */
function once<T>(compute: () => T): () => T {
  let computed: { value: T } | undefined;
  return () => {
    computed ??= { value: compute() };
    return computed.value;
  };
}

/** Problems quote the file, so their texts are put on one line, with characters that do not print escaped. */
const bad = (problems: readonly Problem[]): ParseResult => ({
  kind: 'bad',
  problems: problems.map(({ path, found, message, ...more }) => ({
    ...more,
    path: visible(path),
    found: visible(found),
    message: visible(message),
  })),
});

type Schema = ReturnType<typeof cornerSchema>;

/** The last schema of each declared unit: building one takes several times as long as reading a file with it. */
const schemas = new Map<DeclaredUnit, { heightMm: number; schema: Schema }>();

function schemaFor(unit: DeclaredUnit, heightMm: number): Schema {
  const known = schemas.get(unit);
  if (known?.heightMm === heightMm) return known.schema;
  const schema = cornerSchema((typed) => parseLength(typed, { unit }).mm, heightMm);
  schemas.set(unit, { heightMm, schema });
  return schema;
}

/** The problem with a file of another format or version; undefined if Daylight can read it. Nothing else is checked then. */
function formatProblem(source: unknown): Problem | undefined {
  const reads = `Daylight reads "format": "${FORMAT}", "version": ${VERSION}`;
  if (typeof source !== 'object' || source === null || Array.isArray(source)) {
    return {
      path: '',
      found: snippet(source),
      message: `is not a corner file, which is an object { }; ${reads}`,
    };
  }
  const [format, version] = [valueAt(source, ['format']), valueAt(source, ['version'])];
  if (format !== FORMAT) {
    const what = format === undefined ? 'is missing' : 'is not the format of a corner file';
    return { path: 'format', found: snippet(format), message: `${what}; ${reads}` };
  }
  if (version === VERSION) return undefined;
  const newer = typeof version === 'number' && version > VERSION;
  const what = newer
    ? 'this file needs a newer Daylight; update Daylight to open it'
    : version === undefined
      ? 'is missing'
      : 'is not a version of a corner file';
  return { path: 'version', found: snippet(version), message: `${what}; ${reads}` };
}
