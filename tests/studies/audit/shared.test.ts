import { describe, expect, it } from 'vitest';
import { compose, identity, rotationAbout, translation } from '../../../src/math/rigid.ts';
import { loadModeller } from '../../../src/solids/modeller.ts';
import type { Region } from '../../../src/studies/audit/region.ts';
import { sharedAt } from '../../../src/studies/audit/shared.ts';
import { box, meshOf } from '../../oracles/shapes.ts';

const whole = (mesh: ReturnType<typeof box>, chordErrorMm = 0) => ({ mesh, chordErrorMm });
const still = { vehicleFromA: identity(), vehicleFromRegion: [] };
/** A clamped plane perpendicular to the x axis. */
const planeAt = (x: number, radiusMm = 100): Region => ({
  shape: 'round',
  centre: [x, 0, 0],
  axis: [1, 0, 0],
  halfLengthMm: 0,
  radiusMm,
});

describe('the volume that two whole solids share', () => {
  it('is their intersection at each placement, with its position', async () => {
    const modeller = await loadModeller();
    const [apart, flush, deep] = sharedAt(
      modeller,
      whole(box(20, 20, 20)),
      whole(box(10, 4, 6)),
      [],
      [
        { ...still, vehicleFromB: translation([30, 0, 0]) },
        { ...still, vehicleFromB: translation([15, 0, 0]) },
        { ...still, vehicleFromB: translation([12, 1, 2]) },
      ],
    );
    expect([apart.volumeMm3, apart.unexplainedMm3]).toEqual([0, 0]);
    expect(flush.unexplainedMm3).toBeCloseTo(0, 3);
    expect(deep.volumeMm3).toBeCloseTo(3 * 4 * 6, 3);
    expect(deep.unexplainedMm3).toBeCloseTo(3 * 4 * 6, 3);
    expect(deep.middle.map((x) => Number(x.toFixed(3)))).toEqual([8.5, 1, 2]);
    expect(deep.extentMm.map((x) => Number(x.toFixed(3)))).toEqual([3, 4, 6]);
  });

  it('is given in vehicle axes even if the first solid moves', async () => {
    const modeller = await loadModeller();
    const turned = compose(translation([100, 50, 0]), rotationAbout([0, 0, 0], [0, 0, 1], Math.PI / 2));
    const [{ volumeMm3, middle, extentMm }] = sharedAt(
      modeller,
      whole(box(20, 10, 10)),
      whole(box(6, 6, 6)),
      [],
      [{ vehicleFromA: turned, vehicleFromB: translation([100, 60, 0]), vehicleFromRegion: [] }],
    );
    expect(volumeMm3).toBeCloseTo(6 * 3 * 6, 3);
    expect(middle.map((x) => Number(x.toFixed(3)))).toEqual([100, 58.5, 0]);
    expect(extentMm.map((x) => Number(x.toFixed(3)))).toEqual([6, 3, 6]);
  });

  it('is explained by the regions, enlarged by both chord errors, and counted once', async () => {
    const modeller = await loadModeller();
    const [{ volumeMm3, explainedMm3, unexplainedMm3, errorMm3 }] = sharedAt(
      modeller,
      whole(box(20, 20, 20), 0.1),
      whole(box(10, 4, 6), 0.15),
      [planeAt(10), planeAt(10)],
      [
        {
          ...still,
          vehicleFromB: translation([12, 0, 0]),
          vehicleFromRegion: [identity(), identity()],
        },
      ],
    );
    expect(volumeMm3).toBeCloseTo(72, 3);
    // Of the plane's region, only 0.25 mm on its inner side is within the first box.
    expect(explainedMm3[0]).toBeCloseTo(0.25 * 4 * 6, 2);
    expect(explainedMm3[1]).toBeCloseTo(0, 6);
    expect(unexplainedMm3).toBeCloseTo(72 - 6, 2);
    const surface = 2 * (2.75 * 4 + 2.75 * 6 + 4 * 6);
    expect(errorMm3).toBeCloseTo(surface * 0.25, 1);
  });

  it('is explained by a region at the position to which it has moved', async () => {
    const modeller = await loadModeller();
    const at = (x: number) => ({
      ...still,
      vehicleFromB: translation([12, 0, 0]),
      vehicleFromRegion: [translation([x, 0, 0])],
    });
    const bodies = [whole(box(20, 20, 20), 0.5), whole(box(10, 4, 6), 0.5)] as const;
    const [here, away] = sharedAt(modeller, ...bodies, [planeAt(8.5)], [at(0), at(-20)]);
    expect(here.unexplainedMm3).toBeCloseTo(72 - 2 * 24, 1);
    expect(away.unexplainedMm3).toBeCloseTo(72, 3);
  });

  it('is fully explained by a region of everything', async () => {
    const modeller = await loadModeller();
    const [{ explainedMm3, unexplainedMm3 }] = sharedAt(
      modeller,
      whole(box(20, 20, 20)),
      whole(box(10, 4, 6)),
      [{ shape: 'all' }],
      [{ ...still, vehicleFromB: translation([12, 0, 0]), vehicleFromRegion: [identity()] }],
    );
    expect(explainedMm3[0]).toBeCloseTo(72, 3);
    expect(unexplainedMm3).toBe(0);
  });

  it('is rejected for a mesh that is not closed', async () => {
    const modeller = await loadModeller();
    const open = meshOf(
      [
        [0, 0, 0],
        [1, 0, 0],
        [0, 1, 0],
      ],
      [[0, 1, 2]],
    );
    expect(() =>
      sharedAt(modeller, whole(open), whole(box(1, 1, 1)), [], [{ ...still, vehicleFromB: identity() }]),
    ).toThrow(/not manifold/i);
  });
});
