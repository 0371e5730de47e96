import { describe, expect, it } from 'vitest';
import { prepareBody } from '../../src/clearance/body.ts';
import { contactOf } from '../../src/clearance/contact.ts';
import { sweepInProcess } from '../../src/executors/inProcess.ts';
import { contactsOf } from '../../src/findings/contactsOf.ts';
import { findingsOf } from '../../src/findings/findingsOf.ts';
import { identity } from '../../src/math/rigid.ts';
import { findingsJson } from '../../src/report/findingsJson.ts';
import { carrierAt, wheelPlace } from '../../src/report/placeInWords.ts';
import { pairContact } from '../../src/sweep/pairContact.ts';
import { DEFAULT_SETTINGS } from '../../src/sweep/result.ts';
import { setUp } from '../../src/sweep/setUp.ts';
import { degToRad } from '../../src/units/angle.ts';
import { readDesign } from '../design/readDesign.ts';
import { moved } from '../oracles/shapes.ts';
import { cornerSource } from '../report/cornerSource.ts';

const SETTINGS = { ...DEFAULT_SETTINGS, travelSteps: 3, steerSteps: 3 };

/** A swept corner with only these parts; its wheel is upright and straight ahead at ride height. */
async function swept(parts: Record<string, unknown>[], side: 'left' | 'right' = 'left') {
  const { suspension } = cornerSource();
  const source = cornerSource({ parts, side, suspension: { ...suspension, camberDeg: 0, toeDeg: 0 } });
  const setup = await setUp(readDesign(source), SETTINGS);
  const result = await sweepInProcess(setup);
  const findings = findingsOf(result, []);
  const checked = { design: setup.design, solids: setup.solids, result, findings };
  return {
    setup,
    checked,
    contacts: await contactsOf(findings, (pair, worst) => pairContact(setup, pair, worst)),
  };
}

const bar = {
  kind: 'tube',
  id: 'bar',
  carrier: 'upright',
  from: [-200, 640, 400],
  to: [200, 640, 400],
  diameter: 20,
};
const block = { kind: 'box', id: 'block', carrier: 'upright', centre: [30, 640, 400], size: [40, 60, 50] };

describe('contact of parts that do not move relative to each other', () => {
  // Wheel centre (0, 720, 330), hub face 20 mm inboard of it: the bar of radius 10 mm is 60 mm inboard of the face,
  // 70 mm up.
  it.each(['left', 'right'] as const)(
    'consists of two circles for a bar through a block of a %s corner',
    async (side) => {
      const { checked, contacts } = await swept([bar, block], side);
      const found = contacts.get(0);
      const errorMm = SETTINGS.chordToleranceMm;
      expect([...contacts.keys()]).toEqual([0]);
      [
        [10, 50],
        [-70, -50],
        [60, 80],
      ].forEach(([low, high], k) => {
        const place = `axis ${k}`;
        expect(found?.reach.low[k], place).toBeLessThanOrEqual(low);
        expect(found?.reach.low[k], place).toBeGreaterThan(low - 3 * errorMm);
        expect(found?.reach.high[k], place).toBeGreaterThanOrEqual(high);
        expect(found?.reach.high[k], place).toBeLessThan(high + 3 * errorMm);
      });
      expect(Math.abs((found?.lengthMm ?? 0) - 2 * Math.PI * 20)).toBeLessThan(2 * Math.PI * 2 * errorMm);
      // The bar runs through 40 mm of the block. It has 64 or more sides, so its volume is slightly less than pi r^2 h.
      const volume = found?.sharedVolumeMm3 ?? 0;
      expect(volume).toBeLessThan(Math.PI * 100 * 40);
      expect(volume).toBeGreaterThan(Math.PI * (10 - errorMm) ** 2 * 40 - 1);
      const { contact } = JSON.parse(findingsJson({ ...checked, contacts }, '1.2.3')).pairs[0].worst;
      expect(contact.lengthMm).toBeCloseTo(found?.lengthMm ?? 0, 6);
      expect(contact.sharedVolumeMm3).toBeCloseTo(volume, 6);
      expect(contact.depthMm).toEqual(
        [found?.reach.low[1], found?.reach.high[1]].map((x) => Math.round(1e6 * (x ?? 0)) / 1e6),
      );
    },
  );
  it('is absent if one part is inside the other', async () => {
    const { checked, contacts } = await swept([block, { ...block, id: 'core', size: [10, 10, 10] }]);
    expect(checked.findings.verdict).toBe('touches');
    expect(contacts.size).toBe(0);
  });
  it('is absent if the parts are apart', async () => {
    const { checked, contacts } = await swept([block, { ...block, id: 'other', centre: [30, 640, 460] }]);
    expect(checked.findings.pairs[0].worst?.clearanceMm).toBeCloseTo(10, 4);
    expect(contacts.size).toBe(0);
  });
});

it("computes the contact box at the worst pose around the contact curve in the vehicle's axes", async () => {
  const { setup, checked, contacts } = await swept([
    { ...bar, carrier: 'chassis', to: [200, 600, 430] },
    block,
  ]);
  const { findings } = checked;
  const { worst } = findings.pairs[0];
  if (worst === undefined) throw new Error('no worst pose');
  expect([worst.travelMm, worst.steer]).not.toEqual([0, 0]);
  const [onA, onB] = [setup.pairs[0].a, setup.pairs[0].b].map((part) => {
    const { mesh, carrier } = setup.solids[part];
    return prepareBody(moved(mesh, carrierAt(setup.design.corner, worst, 0, carrier)), { chordErrorMm: 0 })
      .surface;
  });
  const { lines, lengthMm } = contactOf(onA, onB, identity());
  const found = contacts.get(0);
  expect(found?.lengthMm).toBeCloseTo(lengthMm, 6);
  const upright = carrierAt(setup.design.corner, worst, 0, 'upright');
  const places = lines.flat().map((point) => {
    const { clockDeg, radiusMm, depthMm } = wheelPlace(setup.design.corner, upright, point);
    return [-radiusMm * Math.sin(degToRad(clockDeg)), depthMm, radiusMm * Math.cos(degToRad(clockDeg))];
  });
  expect(places.length).toBeGreaterThan(20);
  for (const k of [0, 1, 2]) {
    const [low, high] = [Math.min(...places.map((p) => p[k])), Math.max(...places.map((p) => p[k]))];
    expect(found?.reach.low[k]).toBeLessThan(low);
    expect(found?.reach.low[k]).toBeGreaterThan(low - 0.2);
    expect(found?.reach.high[k]).toBeGreaterThan(high);
    expect(found?.reach.high[k]).toBeLessThan(high + 0.2);
  }
});
