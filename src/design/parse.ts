import { parseLength } from '../units/parseLength.ts';
import { visible } from '../units/plainText.ts';
import type { Problem } from '../units/problem.ts';
import { type Assets, assetProblems, NO_ASSETS, namedAssets } from './assets.ts';
import { crossChecks } from './crossChecks.ts';
import type { Design } from './design.ts';
import { cornerHash } from './hash.ts';
import { inputsOf, plusMinusProblems } from './inputs.ts';
import { problemsOf } from './issues.ts';
import { readJson } from './jsonText.ts';
import { type DeclaredUnit, originHeightMm } from './origin.ts';
import { snippet, valueAt } from './path.ts';
import { readable, readValues } from './readable.ts';
import { cornerSchema, FORMAT, VERSION } from './schema.ts';

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
  const corner = result.data;
  const named = namedAssets(corner.assets ?? [], assets);
  const hash = once(() => cornerHash(corner, named));
  return {
    kind: 'ok',
    design: {
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

/** Cached by declared unit: building a schema takes several times as long as reading a file with it. */
const schemas = new Map<DeclaredUnit, ReturnType<typeof cornerSchema>>();

function schemaFor(unit: DeclaredUnit, heightMm: number): ReturnType<typeof cornerSchema> {
  if (heightMm !== 0) return cornerSchema((typed) => parseLength(typed, { unit }).mm, heightMm);
  const schema = schemas.get(unit) ?? cornerSchema((typed) => parseLength(typed, { unit }).mm);
  schemas.set(unit, schema);
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
