import { describe, expect, it } from 'vitest';
import { PairQuery } from '../../../src/clearance/query.ts';
import { valueAt } from '../../../src/design/path.ts';
import { identity } from '../../../src/math/rigid.ts';
import { clockedSource, mountedSource, mountingsOf } from '../../../src/studies/clocking/apply.ts';
import { leastAt } from '../../../src/studies/clocking/candidates.ts';
import { caliperFigures } from '../../../src/studies/clocking/figures.ts';
import { marginsAt, studyClocking } from '../../../src/studies/clocking/study.ts';
import { MAX_MARGIN_MM } from '../../../src/studies/clocking/studyPairs.ts';
import { type Setup, setUp } from '../../../src/sweep/setUp.ts';
import { type CornerInput, minimalCorner } from '../../design/fixtures.ts';
import { readDesign } from '../../design/readDesign.ts';

const FEW = ['wheel', 'hub', 'rotor', 'caliper', 'upright'];
const SETTINGS = { travelSteps: 3, steerSteps: 3, limitMm: 60, chordToleranceMm: 0.4 };

/** The bench corner with a bleed screw, and with bolts at both mounts. */
function boltedCorner(): CornerInput {
  const corner = minimalCorner();
  for (const part of corner.parts)
    if (part.kind === 'caliper')
      part.bleedScrew = { along: '1 1/2 in', radius: 160, depth: 30, directionDeg: 10 };
  corner.parts.push(
    { id: 'hubBolts', kind: 'bolts', joins: 'hubMount', size: 'M12', headSide: 'outboard', nut: true },
    { id: 'caliperBolts', kind: 'bolts', joins: 'caliperMount', size: 'M12' },
  );
  return corner;
}

/** Margin of each pair from the sweep engine at ride height, by the ids of the two. */
function ordinaryMargins({ pairs, bodies, solids }: Setup) {
  return new Map<string, { marginMm: number; errorMm: number }>(
    pairs.map((pair, k) => {
      const query = new PairQuery(bodies[k].a, bodies[k].b, { depthToleranceMm: 0.02 });
      query.run(identity(), 200);
      const marginMm = query.distanceMm - pair.targetMm - pair.allowanceMm;
      return [`${solids[pair.a].id} ${solids[pair.b].id}`, { marginMm, errorMm: query.errorMm }] as const;
    }),
  );
}

describe('the clocking study of a bolted corner', async () => {
  const design = readDesign(boltedCorner());
  const setup = await setUp(design, SETTINGS);
  const study = await studyClocking(setup);

  it('sorts pairs by the angle that they depend on', () => {
    const aboutOf = new Map(study.pairs.map(({ ids, about }) => [ids.toSorted().join(' '), about]));
    expect(aboutOf.get('caliper wheel')).toBe('none');
    expect(aboutOf.get('caliper hub.housing')).toBe('none');
    expect(aboutOf.get('caliper caliperBolts')).toBe('none');
    expect(aboutOf.get('caliper upright')).toBe('caliper');
    expect(aboutOf.get('caliper lowerArm')).toBe('caliper');
    expect(aboutOf.get('caliperBolts upright')).toBe('caliper');
    expect(aboutOf.get('hubBolts upright')).toBe('hub');
    expect(aboutOf.get('hub.housing hubBolts')).toBe('none');
    expect(aboutOf.get('caliper hubBolts')).toBe('between');
    expect(aboutOf.get('caliperBolts hubBolts')).toBe('between');
    expect(aboutOf.get('rotor upright')).toBe('none');
    expect(aboutOf.has('lowerArm tieRod')).toBe(false);
  });

  it('has candidates with the same margins in the sweep engine', async () => {
    expect(study.candidates.length).toBeGreaterThan(0);
    const drawn = { ...study.drawn };
    const others = [
      { caliperDeg: -37, hubDeg: 11 },
      { caliperDeg: 164, hubDeg: 71.5 },
    ];
    for (const clockings of [drawn, ...study.candidates.slice(0, 2), ...others]) {
      const built = await setUp(readDesign(clockedSource(design.source, study.drawn, clockings)), SETTINGS);
      const ordinary = ordinaryMargins(built);
      const margins = marginsAt(study, clockings);
      let measured = 0;
      study.pairs.forEach(({ ids, stage }, k) => {
        if (stage !== undefined) return;
        const found = ordinary.get(ids.join(' '));
        if (found === undefined) throw new Error(`${ids} is no pair`);
        if (margins[k].kind === 'beyond') expect(found.marginMm).toBeGreaterThan(MAX_MARGIN_MM - 1e-6);
        else {
          expect(Math.abs(found.marginMm - margins[k].marginMm)).toBeLessThanOrEqual(
            found.errorMm + margins[k].errorMm,
          );
          measured += 1;
        }
      });
      expect(measured).toBeGreaterThan(10);
    }
  });

  it('reports the smallest margin of a clocking and the limiting pair', () => {
    for (const [caliperDeg, hubDeg] of [
      [-180, -180],
      [95, 0],
      [12, -77],
      [179, 179],
    ]) {
      const { marginMm, limitedBy } = leastAt(study.axes, { caliperDeg, hubDeg });
      const margins = marginsAt(study, { caliperDeg, hubDeg }).map((one) => one.marginMm);
      const least = Math.min(...margins.filter((_, k) => study.pairs[k].about !== 'none'));
      expect(marginMm).toBeCloseTo(least, 6);
      if (limitedBy >= 0) expect(margins[limitedBy]).toBeCloseTo(least, 6);
    }
  });

  it('keeps to the allowed ranges and the required margin', async () => {
    const fewer = boltedCorner();
    // Fewer parts make the two studies shorter.
    fewer.parts = fewer.parts.filter(({ kind }) => FEW.includes(kind));
    const { corner } = readDesign(fewer);
    const fewerSetUp = await setUp(readDesign(fewer), SETTINGS);
    const free = await studyClocking(fewerSetUp);
    const restricted = await studyClocking(fewerSetUp, {
      wants: { bleedWithinDeg: 25, hubRange: { fromDeg: 5, toDeg: 20 }, leastMarginMm: 1 },
    });
    for (const { caliperDeg, hubDeg, least } of restricted.candidates) {
      expect(least.marginMm).toBeGreaterThanOrEqual(1);
      const { bleedScrewDeg } = caliperFigures(corner, caliperDeg);
      expect(Math.abs(bleedScrewDeg ?? 180)).toBeLessThanOrEqual(25);
      expect(hubDeg).toBeGreaterThanOrEqual(5);
      expect(hubDeg).toBeLessThanOrEqual(20);
    }
    expect(restricted.candidates.length + restricted.unmet.length).toBeGreaterThan(0);
    // The reported margins do not depend on the requirements.
    expect(restricted.asDrawn.marginMm).toBeCloseTo(free.asDrawn.marginMm, 6);
  });

  it('rejects when cancelled', async () => {
    const cancel = new AbortController();
    const going = studyClocking(setup, {
      signal: cancel.signal,
      onProgress: () => cancel.abort(new Error('enough')),
    });
    await expect(going).rejects.toThrow('enough');
  });
});

describe('another mounting', () => {
  const design = readDesign(boltedCorner());
  const asDrawn = { caliperMirrored: false, headsTurned: false };

  it('mirrors the caliper and turns the heads, and keeps all other values as typed', () => {
    expect(mountingsOf(design)).toEqual([
      asDrawn,
      { caliperMirrored: false, headsTurned: true },
      { caliperMirrored: true, headsTurned: false },
      { caliperMirrored: true, headsTurned: true },
    ]);
    const caliper = design.corner.parts.findIndex(({ kind }) => kind === 'caliper');
    const turned = mountedSource(design, { caliperMirrored: true, headsTurned: true });
    expect(valueAt(turned, ['parts', caliper, 'bleedScrew', 'along'])).toBe('-1 1/2 in');
    expect(valueAt(turned, ['parts', caliper, 'bleedScrew', 'directionDeg'])).toBe(-10);
    const back = mountedSource(readDesign(turned), { caliperMirrored: true, headsTurned: true });
    expect(valueAt(back, ['parts', caliper, 'bleedScrew', 'along'])).toBe('1 1/2 in');
    expect(readDesign(back).hash).toBe(design.hash);
    expect(mountedSource(design, asDrawn)).toEqual(design.source);
  });

  it('mirrors the angle of the bleed screw too', () => {
    const { bleedScrewDeg } = caliperFigures(design.corner, 70);
    const mirrored = readDesign(mountedSource(design, { caliperMirrored: true, headsTurned: false }));
    expect(caliperFigures(mirrored.corner, -70).bleedScrewDeg).toBeCloseTo(-(bleedScrewDeg ?? 0), 9);
  });
});

describe('the position of the caliper', () => {
  const { corner } = readDesign(boltedCorner());

  it('is behind the axis at a clocking of 90, ahead of it at -90', () => {
    const caliper = corner.parts.find((part) => part.kind === 'caliper');
    const radius = ((caliper?.body.innerRadius ?? 0) + (caliper?.body.outerRadius ?? 0)) / 2;
    expect(caliperFigures(corner, 90).aheadMm).toBeCloseTo(-radius, 9);
    expect(caliperFigures(corner, -90).aheadMm).toBeCloseTo(radius, 9);
    expect(caliperFigures(corner, 0).aheadMm).toBeCloseTo(0, 9);
  });

  it('has its bleed screw straight up when the line from its middle to the screw is', () => {
    const caliper = corner.parts.find((part) => part.kind === 'caliper');
    if (caliper?.bleedScrew === undefined) throw new Error('no bleed screw');
    const { along, radius } = caliper.bleedScrew;
    const middle = (caliper.body.innerRadius + caliper.body.outerRadius) / 2;
    // Position of the screw from the middle, in the frame of the clocking: along toward larger clocking, up outward.
    const angle = (Math.atan2(along, Math.sqrt(radius ** 2 - along ** 2) - middle) * 180) / Math.PI;
    expect(caliperFigures(corner, -angle).bleedScrewDeg).toBeCloseTo(0, 9);
    expect(caliperFigures(corner, -angle + 30).bleedScrewDeg).toBeCloseTo(30, 9);
  });
});
