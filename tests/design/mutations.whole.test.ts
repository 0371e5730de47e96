import { describe, expect, it } from 'vitest';
import { parseDesign } from '../../src/design/parse.ts';
import { type Path, pathText, valueAt } from '../../src/design/path.ts';
import type { Problem } from '../../src/design/problem.ts';
import { cornerSchema } from '../../src/design/schema.ts';
import { schemaAt } from '../../src/design/schemaWalk.ts';
import { minimalCorner } from './fixtures.ts';

type Container = Record<string | number, unknown>;

const schema = cornerSchema(Number);

/** Paths of all fields and items of the sound corner. */
function places(value: unknown, path: Path = []): Path[] {
  if (typeof value !== 'object' || value === null) return [];
  return Object.keys(value).flatMap((key) => {
    const here = [...path, Array.isArray(value) ? Number(key) : key];
    return [here, ...places((value as Container)[key], here)];
  });
}

/** A field that may be left out: the schema fills it in, or does without. */
const mayBeMissing = (path: Path): boolean =>
  schemaAt(schema, minimalCorner(), path)?._zod.optin !== undefined;

function mutated(path: Path, mutate: (holder: Container, key: string | number) => void): Problem[] {
  const corner = minimalCorner();
  const key = path[path.length - 1];
  mutate(valueAt(corner, path.slice(0, -1)) as Container, key);
  const result = parseDesign(JSON.stringify(corner));
  return result.kind === 'bad' ? result.problems : [];
}

/** Whether one of the problems is at the path, or at a field of the value there. */
const pointsAt = (problems: readonly Problem[], path: Path): boolean => {
  const text = pathText(path);
  return problems.some((problem) => problem.path === text || problem.path.startsWith(`${text}.`));
};

const all = places(minimalCorner());
const fields = all.filter((path) => typeof path[path.length - 1] === 'string');

describe('one mistake in a sound corner is found where it is', () => {
  it('has places to try', () => {
    expect(all.length).toBeGreaterThan(150);
    expect(fields.filter((path) => !mayBeMissing(path)).length).toBeGreaterThan(100);
  });

  it('a field left out', () => {
    for (const path of fields) {
      const problems = mutated(path, (holder, key) => delete holder[key]);
      if (mayBeMissing(path)) continue;
      expect(pointsAt(problems, path), pathText(path)).toBe(true);
    }
  });

  it('a value of another type', () => {
    for (const path of all) {
      for (const wrong of [true, null, { x: 1 }, []]) {
        const problems = mutated(path, (holder, key) => {
          holder[key] = wrong;
        });
        // No pair rules is a sound list of them.
        if (pathText(path) === 'pairs' && Array.isArray(wrong)) continue;
        expect(pointsAt(problems, path), `${pathText(path)} = ${JSON.stringify(wrong)}`).toBe(true);
      }
    }
  });

  it('a field misspelt, with the right name suggested', () => {
    for (const path of fields) {
      const key = String(path[path.length - 1]);
      for (const misspelt of [`${key}${key.at(-1)}`, key.slice(0, -1), key.toUpperCase()]) {
        const problems = mutated(path, (holder) => {
          holder[misspelt] = holder[key];
          delete holder[key];
        });
        const there = pathText([...path.slice(0, -1), misspelt]);
        // A part without its kind, and a file without its format, cannot be looked at further.
        const found = pointsAt(problems, path) && ['kind', 'format', 'version'].includes(key);
        const named = problems.some(
          (problem) => problem.path === there && problem.message.includes(`Did you mean "${key}"?`),
        );
        expect(found || named, `${there}: ${JSON.stringify(problems)}`).toBe(true);
      }
    }
  });
});
