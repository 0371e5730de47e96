import { describe, expect, it } from 'vitest';
import {
  cellAt,
  clockingAt,
  type FitAxis,
  type FitPicture,
  fractionAt,
} from '../../../src/app/fit/fitPicture.ts';
import { ANGLES, angleIndex } from '../../../src/studies/clocking/profile.ts';
import { between, mulberry32 } from '../../oracles/random.ts';

const SEED = 41;
const all = (value: number) => new Uint8Array(ANGLES.length).fill(value);

function axis(random: () => number, pair: number): FitAxis {
  const marginMm = Float64Array.from(ANGLES, () => between(random, -10, 30));
  return {
    marginMm,
    limitedBy: new Int32Array(ANGLES.length).fill(pair),
    clears: Uint8Array.from(marginMm, (mm) => Number(mm >= 0)),
  };
}

describe(`a map of two clockings, seed ${SEED}`, () => {
  const random = mulberry32(SEED);
  const picture: FitPicture = {
    caliper: axis(random, 0),
    hub: axis(random, 1),
    between: axis(random, 2),
    caliperWanted: all(1),
    hubWanted: all(1),
  };

  it('shows the least of what follows the caliper, the hub, and the one less the other', () => {
    for (let trial = 0; trial < 500; trial++) {
      const [caliper, hub] = [between(random, -180, 179), between(random, -180, 179)].map(Math.round);
      const less = ((((caliper - hub + 180) % 360) + 360) % 360) - 180;
      const margins = [
        picture.caliper.marginMm[caliper + 180],
        picture.hub.marginMm[hub + 180],
        picture.between.marginMm[less + 180],
      ];
      const cell = cellAt(picture, caliper, hub);
      expect(cell.marginMm, `${caliper} ${hub}`).toBe(Math.min(...margins));
      expect(cell.limitedBy, `${caliper} ${hub}`).toBe(margins.indexOf(Math.min(...margins)));
      expect(cell.clears, `${caliper} ${hub}`).toBe(margins.every((mm) => mm >= 0));
    }
  });

  it('cannot tell of all what it cannot tell of one', () => {
    const unknown = { ...picture.hub, marginMm: picture.hub.marginMm.slice() };
    unknown.marginMm[angleIndex(20)] = Number.NaN;
    for (const caliper of ANGLES) {
      const cell = cellAt({ ...picture, hub: unknown }, caliper, 20);
      expect(cell.marginMm).toBeNaN();
      expect(cell.limitedBy).toBe(1);
    }
  });

  it('knows what is not wanted', () => {
    const caliperWanted = all(1);
    caliperWanted[angleIndex(-90)] = 0;
    expect(cellAt({ ...picture, caliperWanted }, -90, 3).isWanted).toBe(false);
    expect(cellAt({ ...picture, caliperWanted }, -89, 3).isWanted).toBe(true);
  });
});

it('stands at the degree that is pressed, from one edge of the map to the other', () => {
  expect(clockingAt(0)).toBe(-180);
  expect(clockingAt(1)).toBe(179);
  for (const deg of ANGLES) expect(clockingAt(fractionAt(deg))).toBe(deg);
  expect(fractionAt(270)).toBe(fractionAt(-90));
});
