import { describe, expect, it } from 'vitest';
import {
  cellAt,
  clockingAt,
  type FitAxis,
  type FitPicture,
  fractionAt,
} from '../../../../src/app/workers/fit/fitPicture.ts';
import { ANGLES, angleIndex } from '../../../../src/studies/clocking/profile.ts';
import { between, mulberry32 } from '../../../oracles/random.ts';

const SEED = 41;
const all = ANGLES.map(() => true);

/** A margin that is known to keep or to miss its target by its sign alone. */
function axis(random: () => number, pair: number): FitAxis {
  const least = ANGLES.map(() => ({ marginMm: between(random, -10, 30), errorMm: 0, limitedBy: pair }));
  return { least, states: least.map(({ marginMm }) => (marginMm >= 0 ? 'clears' : 'fails')) };
}

describe(`a map of two clockings, seed ${SEED}`, () => {
  const random = mulberry32(SEED);
  const picture: FitPicture = {
    caliper: axis(random, 0),
    hub: axis(random, 1),
    between: axis(random, 2),
    caliperAllowed: all,
    hubAllowed: all,
    isProved: true,
  };

  it('shows the least of what follows the caliper, the hub, and the one less the other', () => {
    for (let trial = 0; trial < 500; trial++) {
      const [caliper, hub] = [between(random, -180, 179), between(random, -180, 179)].map(Math.round);
      const less = ((((caliper - hub + 180) % 360) + 360) % 360) - 180;
      const margins = [
        picture.caliper.least[caliper + 180].marginMm,
        picture.hub.least[hub + 180].marginMm,
        picture.between.least[less + 180].marginMm,
      ];
      const cell = cellAt(picture, { caliperDeg: caliper, hubDeg: hub });
      expect(cell.least.marginMm, `${caliper} ${hub}`).toBe(Math.min(...margins));
      expect(cell.least.limitedBy, `${caliper} ${hub}`).toBe(margins.indexOf(Math.min(...margins)));
      expect(cell.state, `${caliper} ${hub}`).toBe(margins.every((mm) => mm >= 0) ? 'clears' : 'fails');
    }
  });

  it('cannot tell of all what it cannot tell of one', () => {
    const least = [...picture.hub.least];
    const states = [...picture.hub.states];
    least[angleIndex(20)] = { marginMm: Number.NaN, errorMm: Number.NaN, limitedBy: 1 };
    states[angleIndex(20)] = 'unsettled';
    for (const caliperDeg of ANGLES) {
      const cell = cellAt({ ...picture, hub: { least, states } }, { caliperDeg, hubDeg: 20 });
      expect(cell.least.marginMm).toBeNaN();
      expect(cell.least.limitedBy).toBe(1);
      expect(cell.state).not.toBe('clears');
    }
  });

  it('knows what is not wanted', () => {
    const caliperAllowed = [...all];
    caliperAllowed[angleIndex(-90)] = false;
    expect(cellAt({ ...picture, caliperAllowed }, { caliperDeg: -90, hubDeg: 3 }).isWanted).toBe(false);
    expect(cellAt({ ...picture, caliperAllowed }, { caliperDeg: -89, hubDeg: 3 }).isWanted).toBe(true);
  });
});

it('stands at the degree that is pressed, from one edge of the map to the other', () => {
  expect(clockingAt(0)).toBe(-180);
  expect(clockingAt(1)).toBe(179);
  for (const deg of ANGLES) expect(clockingAt(fractionAt(deg))).toBe(deg);
  expect(fractionAt(270)).toBe(fractionAt(-90));
});
