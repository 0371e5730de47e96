import { describe, expect, it } from 'vitest';
import { measure } from '../../src/clearance/query.ts';
import { parseDesign } from '../../src/design/parse.ts';
import { applyPoint, identity } from '../../src/math/rigid.ts';
import { axialStack, vehicleFromWheelAxis } from '../../src/solids/wheelFrame.ts';
import { setUp } from '../../src/sweep/setUp.ts';
import { type CornerInput, type EntryInput, entryOf, minimalCorner } from '../design/fixtures.ts';

const SETTINGS = { travelSteps: 3, steerSteps: 3, limitMm: 60, chordToleranceMm: 0.05 };

/** Clearance of the bolts to each solid of their carrier, by its id. */
async function clearances(source: CornerInput): Promise<(id: string) => number> {
  const parsed = parseDesign(JSON.stringify(source));
  if (parsed.kind === 'bad') throw new Error(JSON.stringify(parsed.problems));
  const { solids, pairs, bodies } = await setUp(parsed.design, SETTINGS);
  const found = new Map<string, number>();
  pairs.forEach(({ a, b, moves }, index) => {
    if (moves || (solids[a].kind !== 'bolts' && solids[b].kind !== 'bolts')) return;
    const other = solids[a].kind === 'bolts' ? b : a;
    const clearance = measure(bodies[index].a, bodies[index].b, identity(), { limitMm: 60 });
    if (clearance.kind === 'unknown') throw new Error(clearance.reason);
    found.set(solids[other].id, clearance.kind === 'beyond' ? 60 : clearance.distanceMm);
  });
  return (id) => {
    const distance = found.get(id);
    if (distance === undefined) throw new Error(`the bolts are not checked against ${id}`);
    return distance;
  };
}

/** Why the bolts are not checked against a solid of that id; undefined where they are. */
async function uncheckedWith(source: CornerInput): Promise<(id: string) => string | undefined> {
  const parsed = parseDesign(JSON.stringify(source));
  if (parsed.kind === 'bad') throw new Error(JSON.stringify(parsed.problems));
  const { solids, unchecked } = await setUp(parsed.design, SETTINGS);
  return (id) =>
    unchecked.find(({ a, b }) => {
      const ids = [solids[a].id, solids[b].id];
      return ids.includes('bolts') && ids.includes(id);
    })?.why;
}

function withBolts(given: Partial<EntryInput<'bolts'>> & { joins: 'hubMount' | 'caliperMount' | 'wheel' }) {
  const source = minimalCorner();
  source.parts.push({ id: 'bolts', kind: 'bolts', size: 'M12', ...given });
  return source;
}

describe('bolts against what they hold', () => {
  it('a head that turns with the wheel beside what turns with it is round, however it comes to stand', async () => {
    const source = minimalCorner();
    Object.assign(entryOf(source, 'rotor'), {
      hatDiameter: 190,
      hatBolts: { count: 4, circle: 150, clockingDeg: 0 },
    });
    Object.assign(entryOf(source, 'hub'), { flangeDiameter: 170 });
    source.parts.push({ id: 'bolts', kind: 'bolts', size: 'M12', joins: 'rotor', washers: false });
    const parsed = parseDesign(JSON.stringify(source));
    if (parsed.kind === 'bad') throw new Error(JSON.stringify(parsed.problems));
    const { corner } = parsed.design;
    // Before the head of the bolt straight above, which stands behind the flange, 12 mm thick: 9.8 mm from its axis, more
    // than half of its flats, 9 mm, and less than half of its corners, 10.39 mm.
    const at = [9.8 + 5, axialStack(corner).hubFaceY - 12 - 4, 75] as const;
    source.parts.push({
      id: 'weight',
      kind: 'box',
      carrier: 'wheel',
      centre: [...applyPoint(vehicleFromWheelAxis(corner.suspension), at)],
      size: [10, 4, 10],
    });
    const touching = await clearances(source);
    expect(touching('weight')).toBeLessThanOrEqual(0);
  });

  it('finds the head of a hat bolt that stands out of the hat in the pad of the wheel, and in a spacer', async () => {
    const source = minimalCorner();
    Object.assign(entryOf(source, 'rotor'), { hatBolts: { count: 5, circle: 90, clockingDeg: 0 } });
    const bolts: EntryInput<'bolts'> = { id: 'bolts', kind: 'bolts', size: 'M8', joins: 'rotor' };
    source.parts.push({ ...bolts, headSide: 'outboard' });
    expect((await clearances(source))('wheel')).toBeLessThanOrEqual(0);
    source.parts.push({
      id: 'ring',
      kind: 'spacer',
      place: 'wheel',
      thickness: 20,
      outerDiameter: 150,
      innerDiameter: 68,
    });
    const under = await clearances(source);
    expect(under('ring')).toBeLessThanOrEqual(0);
    // Washer 1.8 mm and head 5.54 mm under a spacer of 20 mm.
    expect(under('wheel')).toBeCloseTo(20 - 1.8 - 5.54, 1);
  });

  it('finds the head of a hat bolt behind a hat that is behind the flange in its wall', async () => {
    const source = minimalCorner();
    // Wall 151 mm inside: a head of M8, 15.01 mm across its corners, reaches 136 / 2 + 7.5 mm from the axis.
    const circle = 2 * (151 / 2 - 15.01 / 2 + 0.5);
    const rotor = entryOf(source, 'rotor');
    Object.assign(rotor, { mount: 'behindFlange', hatBolts: { count: 5, circle } });
    Object.assign(entryOf(source, 'hub'), { flangeDiameter: 160 });
    source.parts.push({ id: 'bolts', kind: 'bolts', size: 'M8', joins: 'rotor', washers: false });
    expect((await clearances(source))('rotor')).toBeLessThanOrEqual(0);
    rotor.hatBolts = { count: 5, circle: circle - 4 };
    expect((await clearances(source))('rotor')).toBeCloseTo(1.5, 1);
  });

  it('a head that is set against the flange beside the barrel of the housing is found touching it, its seat is not', async () => {
    // Barrel 90 mm, circle 110 mm: 55 - 45 = 10 mm from the axis of a bolt to the barrel; a head of 18 mm flats needs 10.39.
    const onBarrel = (headSide: 'inboard' | 'outboard') => {
      const source = withBolts({ joins: 'hubMount', headSide, washers: false });
      entryOf(source, 'hub').housingDiameter = 90;
      return clearances(source);
    };
    expect((await onBarrel('outboard'))('hub.housing')).toBeLessThanOrEqual(0);
    // The other side of the flange has no barrel: only its face, in which the bolts end.
    const clear = await onBarrel('inboard');
    expect(clear('hub.housing')).toBeGreaterThan(5);
    expect(clear('upright')).toBeGreaterThan(5);
  });

  it('beside a slimmer barrel the gap is what is left: 55 - 40 - 10.39 mm', async () => {
    const source = withBolts({ joins: 'hubMount', headSide: 'outboard', washers: false });
    entryOf(source, 'hub').housingDiameter = 80;
    const clear = await clearances(source);
    expect(clear('hub.housing')).toBeCloseTo(15 - 18 / Math.sqrt(3), 1);
  });

  it('spacers between housing and upright are held too', async () => {
    const source = withBolts({ joins: 'hubMount' });
    source.parts.push({
      id: 'shim',
      kind: 'spacer',
      place: 'upright',
      thickness: 12,
      outerDiameter: 145,
      innerDiameter: 80,
    });
    const clear = await clearances(source);
    for (const id of ['shim', 'upright', 'hub.housing']) expect(clear(id), id).toBeGreaterThan(5);
  });

  it('those of a caliper bear on ears and bracket, those of the wheel on its pad', async () => {
    const source = withBolts({ joins: 'caliperMount' });
    // The ears stand 65 mm to each side, beyond the ends of a body of 90 mm.
    entryOf(source, 'caliper').body.length = 90;
    expect((await clearances(source))('caliper')).toBeGreaterThan(5);
    // The heads, 12 mm about their axes, reach over the ends of a body of 112 mm, 56 mm off, by 3 mm; their shanks do not.
    entryOf(source, 'caliper').body.length = 112;
    expect((await clearances(source))('caliper')).toBeLessThanOrEqual(0);
    // Of one of 190 mm, which covers them wholly, it is not known what room it leaves them: that pair is not checked.
    entryOf(source, 'caliper').body.length = 190;
    expect((await uncheckedWith(source))('caliper')).toMatch(/what room it leaves them is not known/);
    entryOf(source, 'caliper').body.length = 112;
    expect((await uncheckedWith(source))('caliper')).toBeUndefined();
    const nuts = await clearances(withBolts({ joins: 'wheel' }));
    expect(nuts('wheel')).toBeGreaterThan(5);
    expect(nuts('hub')).toBeGreaterThan(5);
  });

  it('a bolt that is too long runs into what lies behind, outside its seat', async () => {
    const source = withBolts({ joins: 'hubMount', headSide: 'inboard', length: 60 });
    // 26.3 mm are held (12 + 12 and a washer of 2.3 mm, the thinnest): 33.7 mm stand out of the flange, toward the hub's own flange 51 mm away.
    const clear = await clearances(source);
    expect(clear('hub')).toBeCloseTo(75 - 12 - 12 - (60 - 2.3 - 24), 1);
  });
});
