import { demoText } from '../app/coarse/setUpCoarse.ts';

const KINDS = ['wheel', 'hub', 'rotor', 'caliper', 'upright'];

/**
 * The trials special with the parts of a clocking study alone, and those with these ids: a study of the whole demo takes half
 * a minute. Its caliper has two mountings.
 */
export function turnedCorner(...more: readonly string[]): object {
  const corner: { parts: { id: string; kind: string }[] } = JSON.parse(demoText('stoneyholt'));
  return {
    ...corner,
    parts: corner.parts.filter(({ id, kind }) => KINDS.includes(kind) || more.includes(id)),
  };
}
