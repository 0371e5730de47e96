import { describe, expect, it } from 'vitest';
import { parseDesign } from '../../src/design/parse.ts';
import { type Path, pathText, valueAt } from '../../src/design/path.ts';
import { cornerSchema } from '../../src/design/schema.ts';
import { schemaAt } from '../../src/design/schemaWalk.ts';
import type { Problem } from '../../src/units/problem.ts';
import { minimalCorner } from './fixtures.ts';

type Container = Record<string | number, unknown>;

const schema = cornerSchema(Number);

/** Paths of all fields and items of the valid corner. */
function places(value: unknown, path: Path = []): Path[] {
  if (typeof value !== 'object' || value === null) return [];
  return Object.keys(value).flatMap((key) => {
    const here = [...path, Array.isArray(value) ? Number(key) : key];
    return [here, ...places((value as Container)[key], here)];
  });
}

/** Whether a field may be left out: it has a default or is optional. */
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

describe('one mistake in a valid corner is reported at its path', () => {
  it('has enough places to change', () => {
    expect(all.length).toBeGreaterThan(150);
    expect(fields.filter((path) => !mayBeMissing(path)).length).toBeGreaterThan(100);
  });

  it('if a field is left out', () => {
    for (const path of fields) {
      const problems = mutated(path, (holder, key) => delete holder[key]);
      if (mayBeMissing(path)) continue;
      expect(pointsAt(problems, path), pathText(path)).toBe(true);
    }
  });

  it('if a value has another type', () => {
    for (const path of all) {
      for (const wrong of [true, null, { x: 1 }, []]) {
        const problems = mutated(path, (holder, key) => {
          holder[key] = wrong;
        });
        // An empty list of pair rules is valid.
        if (pathText(path) === 'pairs' && Array.isArray(wrong)) continue;
        expect(pointsAt(problems, path), `${pathText(path)} = ${JSON.stringify(wrong)}`).toBe(true);
      }
    }
  });

  it('if a field is misspelt, with the right name suggested', () => {
    for (const path of fields) {
      const key = String(path[path.length - 1]);
      for (const misspelt of [`${key}${key.at(-1)}`, key.slice(0, -1), key.toUpperCase()]) {
        const problems = mutated(path, (holder) => {
          holder[misspelt] = holder[key];
          delete holder[key];
        });
        const there = pathText([...path.slice(0, -1), misspelt]);
        // A file without format or version is not checked further.
        const found = pointsAt(problems, path) && ['format', 'version'].includes(key);
        const named = problems.some(
          (problem) => problem.path === there && problem.message.includes(`Did you mean "${key}"?`),
        );
        expect(found || named, `${there}: ${JSON.stringify(problems)}`).toBe(true);
      }
    }
  });
});
