import { describe, expect, it } from 'vitest';
import { measure } from '../../src/clearance/query.ts';
import { applyPoint, identity } from '../../src/math/rigid.ts';
import { axialStack, vehicleFromWheelAxis } from '../../src/solids/wheelFrame.ts';
import { buildCorner, withBodies } from '../../src/sweep/setUp.ts';
import { type CornerInput, type EntryInput, entryOf, minimalCorner } from '../design/fixtures.ts';
import { readDesign } from '../design/readDesign.ts';

const SETTINGS = { travelSteps: 3, steerSteps: 3, limitMm: 60, chordToleranceMm: 0.05 };

/** Clearance between the bolts and each solid that does not move relative to them, by the solid's id. */
async function clearances(source: CornerInput): Promise<(id: string) => number> {
  const design = readDesign(source);
  const built = await buildCorner(design, SETTINGS);
  const { solids } = built;
  const pairs = built.pairs.filter(
    ({ a, b, moves }) => !moves && [a, b].some((solid) => solids[solid].kind === 'bolts'),
  );
  const { bodies } = withBodies({ ...built, pairs });
  const found = new Map<string, number>();
  pairs.forEach(({ a, b }, index) => {
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

/** The reason why the bolts are not checked against a solid, by its id; undefined if they are checked. */
async function uncheckedWith(source: CornerInput): Promise<(id: string) => string | undefined> {
  const design = readDesign(source);
  const { solids, unchecked } = await buildCorner(design, SETTINGS);
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
  it('measures a bolt head that spins with the wheel as a round body against a part that spins with it', async () => {
    const source = minimalCorner();
    Object.assign(entryOf(source, 'rotor'), {
      hatDiameter: 190,
      hatBolts: { count: 4, circle: 150, clockingDeg: 0 },
    });
    Object.assign(entryOf(source, 'hub'), { flangeDiameter: 170 });
    source.parts.push({ id: 'bolts', kind: 'bolts', size: 'M12', joins: 'rotor', washers: false });
    const design = readDesign(source);
    const { corner } = design;
    // Next to the head of the topmost bolt, which is behind the 12 mm flange: 9.8 mm from the bolt's axis. That is
    // more than half of its flats, 9 mm, and less than half of its corners, 10.39 mm.
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

  it("reports a protruding hat bolt head in contact with the wheel's pad and with a spacer", async () => {
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
    // A washer of 1.8 mm and a head of 5.54 mm under a spacer of 20 mm.
    expect(under('wheel')).toBeCloseTo(20 - 1.8 - 5.54, 1);
  });

  it('measures a hat bolt head as clear of the wheel in a deep counterbore and as touching in a shallow one', async () => {
    const source = minimalCorner();
    Object.assign(entryOf(source, 'rotor'), { hatBolts: { count: 5, circle: 90, clockingDeg: 0 } });
    const bolts = { id: 'bolts', kind: 'bolts', size: 'M8', joins: 'rotor', washers: false } as const;
    const under = async (counterboreDepth: number) => {
      const sunk = { counterboreDiameter: 30, counterboreDepth };
      return clearances({
        ...source,
        parts: [...source.parts, { ...bolts, headSide: 'outboard', ...sunk }],
      });
    };
    // ISO 4014: an M8 head is at most 5.54 mm high.
    const flush = await under(6);
    expect(flush('wheel')).toBeCloseTo(6 - 5.54, 2);
    expect(() => flush('rotor')).toThrow('the bolts are not checked against rotor');
    expect((await under(5))('wheel')).toBeLessThanOrEqual(0);
  });

  it("reports a hat bolt head in contact with the hat's wall when the hat is behind the flange", async () => {
    const source = minimalCorner();
    // The wall's inside diameter is 151 mm: an M8 head, 15.01 mm across its corners, reaches 136 / 2 + 7.5 mm from
    // the axis.
    const circle = 2 * (151 / 2 - 15.01 / 2 + 0.5);
    const rotor = entryOf(source, 'rotor');
    Object.assign(rotor, { mount: 'behindFlange', hatBolts: { count: 5, circle } });
    Object.assign(entryOf(source, 'hub'), { flangeDiameter: 160 });
    source.parts.push({ id: 'bolts', kind: 'bolts', size: 'M8', joins: 'rotor', washers: false });
    expect((await clearances(source))('rotor')).toBeLessThanOrEqual(0);
    rotor.hatBolts = { count: 5, circle: circle - 4 };
    expect((await clearances(source))('rotor')).toBeCloseTo(1.5, 1);
  });

  it("reports a head that touches the housing's barrel, but not its seat on the flange", async () => {
    // Barrel 90 mm, bolt circle 110 mm: 55 - 45 = 10 mm from a bolt's axis to the barrel; a head with 18 mm flats
    // needs 10.39 mm.
    const onBarrel = (headSide: 'inboard' | 'outboard') => {
      const source = withBolts({ joins: 'hubMount', headSide, washers: false });
      entryOf(source, 'hub').housingDiameter = 90;
      return clearances(source);
    };
    expect((await onBarrel('outboard'))('hub.housing')).toBeLessThanOrEqual(0);
    // The other side of the flange has no barrel, only the face that the bolts end in.
    const clear = await onBarrel('inboard');
    expect(clear('hub.housing')).toBeGreaterThan(5);
    expect(clear('upright')).toBeGreaterThan(5);
  });

  it('measures the gap between head and slimmer barrel as 55 - 40 - 10.39 mm', async () => {
    const source = withBolts({ joins: 'hubMount', headSide: 'outboard', washers: false });
    entryOf(source, 'hub').housingDiameter = 80;
    const clear = await clearances(source);
    expect(clear('hub.housing')).toBeCloseTo(15 - 18 / Math.sqrt(3), 1);
  });

  it('seats hub bolts on spacers between housing and upright', async () => {
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

  it('seats caliper bolts on the ears and wheel nuts on the pad', async () => {
    const source = withBolts({ joins: 'caliperMount' });
    // The ears are 65 mm to each side, beyond the ends of a 90 mm body.
    entryOf(source, 'caliper').body.length = 90;
    expect((await clearances(source))('caliper')).toBeGreaterThan(5);
    // The heads have a radius of 12 mm and reach 3 mm over the ends of a 112 mm body, 56 mm from its middle; their
    // shanks do not.
    entryOf(source, 'caliper').body.length = 112;
    expect((await clearances(source))('caliper')).toBeLessThanOrEqual(0);
    // A 190 mm body covers the bolts completely. Its room for them is unknown, so the pair is not checked.
    entryOf(source, 'caliper').body.length = 190;
    expect((await uncheckedWith(source))('caliper')).toMatch(/the room that it leaves for them is unknown/);
    entryOf(source, 'caliper').body.length = 112;
    expect((await uncheckedWith(source))('caliper')).toBeUndefined();
    const nuts = await clearances(withBolts({ joins: 'wheel' }));
    expect(nuts('wheel')).toBeGreaterThan(5);
    expect(nuts('hub')).toBeGreaterThan(5);
  });

  it('measures the protruding end of a long bolt against the part behind it', async () => {
    const source = withBolts({ joins: 'hubMount', headSide: 'inboard', length: 60 });
    // The grip is 26.3 mm (12 + 12 and a washer of 2.3 mm, the thinnest): the bolt protrudes 33.7 mm from the flange,
    // toward the hub's own flange 51 mm away.
    const clear = await clearances(source);
    expect(clear('hub')).toBeCloseTo(75 - 12 - 12 - (60 - 2.3 - 24), 1);
  });
});
