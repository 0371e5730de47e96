import { readFileSync } from 'node:fs';
import { expect, it } from 'vitest';
import { withValue } from '../../src/design/edit.ts';
import type { Path } from '../../src/design/path.ts';
import { alignmentAt } from '../../src/mechanism/alignment.ts';
import { mechanismOf, tyreCircle } from '../../src/sweep/setUp.ts';
import { readDesign } from '../design/readDesign.ts';
import { solved } from '../mechanism/solved.ts';

const SOURCE = JSON.parse(
  readFileSync(new URL('../../demo-data/gravelbeck.corner.json', import.meta.url), 'utf8'),
);
const WHEEL = SOURCE.parts.findIndex(({ kind }: { kind: string }) => kind === 'wheel');

/** Scrub radius of the demo with one value changed, mm. */
function scrubMm(path: Path, value: unknown): number {
  const design = readDesign(withValue(SOURCE, path, value));
  const { corner } = design;
  const mechanism = mechanismOf(corner);
  return alignmentAt(mechanism, solved(mechanism, 0, 0), tyreCircle(corner)).scrubRadiusMm;
}

it('the scrub radius follows backspacing and spacers under the wheel', () => {
  const asDrawn = scrubMm(['parts', WHEEL, 'backspacing'], '5 1/4');
  const { camberDeg } = SOURCE.suspension;
  // A backspacing smaller by 3/4 in moves the wheel's centre 3/4 in outboard along its axis, which is tilted by
  // static camber.
  const outboard = 19.05 * Math.cos((camberDeg * Math.PI) / 180);
  expect(Math.abs(scrubMm(['parts', WHEEL, 'backspacing'], '4 1/2') - asDrawn - outboard)).toBeLessThan(0.1);
  const spacer = {
    kind: 'spacer',
    id: 'wheelSpacer',
    place: 'wheel',
    thickness: '3/4',
    innerDiameter: '4 1/4',
    outerDiameter: '6 1/2',
  };
  expect(scrubMm(['parts', SOURCE.parts.length], spacer)).toBeCloseTo(
    scrubMm(['parts', WHEEL, 'backspacing'], '4 1/2'),
    9,
  );
});
