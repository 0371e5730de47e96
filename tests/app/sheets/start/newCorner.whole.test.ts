import { describe, expect, it } from 'vitest';
import { type Answers, noAnswers, type SomeAnswers } from '../../../../src/app/sheets/start/answers.ts';
import { fileNameOf, newCorner } from '../../../../src/app/sheets/start/newCorner.ts';
import { QUESTIONS } from '../../../../src/app/sheets/start/questions.ts';
import { CLEARANCE_KINDS } from '../../../../src/clearance/clearance.ts';
import { isListedAssumed } from '../../../../src/design/assumed.ts';
import { withValue } from '../../../../src/design/edit.ts';
import { valueAt } from '../../../../src/design/path.ts';
import type { Corner } from '../../../../src/design/schema.ts';
import { sweepInProcess } from '../../../../src/executors/inProcess.ts';
import { limitFindings } from '../../../../src/findings/limitFindings.ts';
import { cross, distance, length, normalize, sub, type Vec3 } from '../../../../src/math/vec.ts';
import { solvePose } from '../../../../src/mechanism/mechanism.ts';
import { limitsOf } from '../../../../src/proof/limits.ts';
import { SolidMaker } from '../../../../src/solids/catalogue.ts';
import { HUB_FACE } from '../../../../src/solids/heldHub.ts';
import type { Solid } from '../../../../src/solids/solid.ts';
import { axialStack, entries } from '../../../../src/solids/wheelFrame.ts';
import { holdsJointOf } from '../../../../src/sweep/ownBolt.ts';
import { buildCorner, mechanismOf, withBodies } from '../../../../src/sweep/setUp.ts';
import { readDesign } from '../../../design/readDesign.ts';
import { between, cases, mulberry32 } from '../../../oracles/random.ts';

const read = (source: unknown): Corner => readDesign(source).corner;
const answered = (given: SomeAnswers, unit: 'mm' | 'in' = 'in'): Answers => ({
  ...noAnswers(unit),
  ...given,
});
const offLine = (p: Vec3, a: Vec3, b: Vec3) => length(cross(normalize(sub(b, a)), sub(p, a)));

/** Measurements of a two-seater in mixed units. */
const MEASURED: SomeAnswers = {
  name: 'Shed two-seater, front right',
  side: 'right',
  diameterCode: '15',
  width: '7 in',
  offset: '20 mm',
  designation: '205/50R15',
  flangeDiameter: '5 1/4 ±1/64',
  boltCircle: '100 mm',
  studCount: '4',
  pilotDiameter: '56 mm ±0.1',
  rotorDiameter: '262 mm',
  rotorThickness: '22 mm',
  caliperLength: '5 in ±1/32',
  caliperRadius: '163 mm',
  caliperOutboard: '1',
  caliperInboard: '1 1/2',
  kingpin: '9 3/8 ±1/32',
  lowerArm: '348 mm ±1',
  upperArm: '11 5/16',
  bump: '55 mm',
  droop: '2 3/8',
  rack: '40 mm',
};

describe('a new corner', () => {
  it.each([
    ['mm', { offset: '20' }],
    ['in', MEASURED],
  ] as const)(
    'lists the hub face, so that another offset moves the wheel and not the hub (%s)',
    (unit, given) => {
      const { source } = newCorner(answered(given, unit));
      expect(isListedAssumed(source, HUB_FACE)).toBe(true);
      const wheel = read(source).parts.findIndex(({ kind }) => kind === 'wheel');
      const places = (corner: Corner) => {
        const stack = axialStack(corner);
        return { hub: stack.hubFaceY, rim: stack.rimCentreY(entries(corner, 'wheel')[0]) };
      };
      const before = places(read(source));
      expect(before.rim).toBeCloseTo(0, 5);
      const after = places(read(withValue(source, ['parts', wheel, 'offset'], '15 mm')));
      expect(after).toEqual({ hub: before.hub, rim: expect.closeTo(before.rim + 5, 5) });
    },
  );

  it.each(['mm', 'in'] as const)('is valid and fully assumed if nothing is measured (%s)', (unit) => {
    const { source, wrong, others } = newCorner(noAnswers(unit));
    expect({ wrong, others }).toEqual({ wrong: {}, others: [] });
    const design = readDesign(source);
    const given = design.inputs.filter(({ assumed }) => !assumed).map(({ path }) => path);
    expect(given.filter((path) => !/^parts\[\d+\]\.(id|kind|label|arm|at)$/.test(path))).toEqual([
      'format',
      'version',
      'name',
      'side',
      'unit',
      'suspension.layout',
    ]);
  });

  it('keeps every answer as typed in its field, not assumed', () => {
    const { source, wrong, others } = newCorner(answered(MEASURED));
    expect({ wrong, others }).toEqual({ wrong: {}, others: [] });
    for (const { key, path } of QUESTIONS) {
      const typed = MEASURED[key];
      if (path === undefined || typed === undefined) continue;
      const steps = path
        .split(/[.[\]]+/)
        .filter(Boolean)
        .map((step) => (/^\d+$/.test(step) ? Number(step) : step));
      expect(String(valueAt(source, steps)), path).toBe(typed);
      expect(isListedAssumed(source, steps), path).toBe(false);
    }
    expect(source).toMatchObject({ name: MEASURED.name, side: 'right', unit: 'in' });
    expect(source.note).toContain('kingpin length 9 3/8 ±1/32; lower arm 348 mm ±1; upper arm 11 5/16');
    // The offset places the wheel.
    expect(valueAt(source, ['parts', 0])).not.toHaveProperty('backspacing');
  });

  it('places its points by the measured kingpin and arms', () => {
    const { hardpoints: points } = read(newCorner(answered(MEASURED)).source).suspension;
    // Coordinates are written to 0.001 in: 0.013 mm each.
    expect(Math.abs(distance(points.lowerJoint, points.upperJoint) - 9.375 * 25.4)).toBeLessThan(0.05);
    expect(
      Math.abs(offLine(points.lowerJoint, points.lowerArmFront, points.lowerArmRear) - 348),
    ).toBeLessThan(0.05);
    expect(
      Math.abs(offLine(points.upperJoint, points.upperArmFront, points.upperArmRear) - (11 + 5 / 16) * 25.4),
    ).toBeLessThan(0.05);
  });

  it('assigns a problem to its answer and to no other', () => {
    const wrongWith = (given: SomeAnswers) => {
      const { wrong, others } = newCorner(answered({ ...MEASURED, ...given }));
      expect(others).toEqual([]);
      return Object.entries(wrong).map(([key, message]) => `${key} ${message}`);
    };
    expect(wrongWith({ width: 'twelve furlongs' })).toEqual([
      expect.stringMatching(/^width .*is not a length/),
    ]);
    expect(wrongWith({ offset: 'out' })).toEqual([expect.stringMatching(/^offset .*is not a length/)]);
    expect(wrongWith({ kingpin: '9 38' })).toEqual([expect.stringMatching(/^kingpin .*is not a length/)]);
    expect(wrongWith({ kingpin: '2' })).toEqual(['kingpin must be at least 3.9371 in, and is 2 in']);
    expect(wrongWith({ backspacing: '5' })).toEqual([
      expect.stringMatching(/^backspacing is given as well as offset/),
    ]);
    expect(wrongWith({ designation: '205/50R16' })).toEqual([
      expect.stringMatching(/^designation is for a 16-inch/),
    ]);
    expect(wrongWith({ boltCircle: '5 1/2' })).toEqual([
      expect.stringMatching(/^boltCircle is 5\.5 in, and must be less than flangeDiameter/),
    ]);
    expect(wrongWith({ caliperRadius: '130 mm' })).toEqual([
      expect.stringMatching(/^caliperRadius must be more/),
    ]);
    expect(wrongWith({ width: '1 1/2' })).toEqual([
      'width conflicts with drop width, which is 2.3622 in, as assumed, and must be less than width (1.5 in)',
    ]);
    expect(wrongWith({ pilotDiameter: '4 1/2' })).toEqual([
      expect.stringMatching(/^pilotDiameter is 4\.5 in, and must be less than boltCircle/),
    ]);
    expect(wrongWith({ flangeDiameter: '9 in', rotorDiameter: '262 mm' })).toEqual([
      expect.stringMatching(/^flangeDiameter is 9 in, and must be less than .* inside the hat/),
    ]);
    expect(wrongWith({ studCount: 'four' })).toEqual([
      expect.stringMatching(/^studCount is not allowed here/),
    ]);
  });

  it('has a file name made from its name', () => {
    expect(fileNameOf('Shed two-seater, front right')).toBe('shed-two-seater-front-right.corner.json');
    expect(fileNameOf('Süd 3½')).toBe('sud-31-2.corner.json');
    expect(fileNameOf('—')).toBe('new.corner.json');
  });
});

/** Generates random answers, of which some are missing. */
function answersFrom(seed: number): () => Answers {
  const next = mulberry32(seed);
  const pick = <T>(choices: readonly T[]): T => choices[Math.floor(next() * choices.length)];
  const mm = (least: number, most: number) => `${between(next, least, most).toFixed(1)} mm`;
  const RIMS = [13, 14, 15, 16, 17, 18, 20];
  return (): Answers => {
    const code = pick(RIMS);
    const barrel = code * 12.7 - 21;
    const circle = pick([98, 100, 108, 112, 114.3, 120, 127, 139.7]);
    const largestRotor = 2 * (barrel - 25);
    // The hat fits over the flange, and the friction ring is outside the hat.
    const flange = circle + between(next, 20, Math.min(40, largestRotor - 62 - circle));
    const rotor = between(next, Math.max(200, flange + 60), largestRotor);
    const all: SomeAnswers = {
      diameterCode: String(code),
      width: `${pick([5.5, 6, 7, 8, 9, 10])} in`,
      ...(next() < 0.5 ? { offset: mm(-30, 45) } : { backspacing: mm(115, 160) }),
      designation: `225/60R${code}`,
      flangeDiameter: `${flange.toFixed(1)} mm`,
      boltCircle: `${circle} mm`,
      studCount: pick(['4', '5', '6']),
      pilotDiameter: mm(45, circle - 30),
      rotorDiameter: `${rotor.toFixed(1)} mm`,
      rotorThickness: mm(8, 36),
      caliperRadius: `${(rotor / 2 + between(next, 10, 30)).toFixed(1)} mm`,
      caliperLength: mm(80, 180),
      caliperOutboard: mm(20, 50),
      caliperInboard: mm(25, 75),
      kingpin: mm(170, 480),
      lowerArm: mm(240, 700),
      upperArm: mm(200, 560),
    };
    const travel = { bump: mm(30, 90), droop: mm(30, 90), rack: mm(25, 75) };
    const kept = Object.entries({ ...all, ...travel }).filter(() => next() < 0.7);
    const given = Object.fromEntries(kept);
    // A tyre needs its rim, and a flange its studs.
    if (given.diameterCode === undefined) delete given.designation;
    if (given.boltCircle === undefined || given.flangeDiameter === undefined) {
      delete given.flangeDiameter;
      delete given.boltCircle;
      delete given.pilotDiameter;
    }
    if (given.rotorDiameter === undefined || given.diameterCode === undefined) {
      delete given.rotorDiameter;
      delete given.caliperRadius;
    }
    return answered(given, pick(['mm', 'in']));
  };
}

describe('a new corner from any subset of measurements', () => {
  const SEED = 7;
  it('can be built and posed to the ends of its travel', { timeout: 120_000 }, async () => {
    const maker = new SolidMaker();
    const some = answersFrom(SEED);
    for (let n = 0; n < cases(24, 60); n++) {
      const answers = some();
      const label = `seed ${SEED}, corner ${n}: ${JSON.stringify(answers)}`;
      const { source, wrong, others } = newCorner(answers);
      expect({ wrong, others }, label).toEqual({ wrong: {}, others: [] });
      const corner = read(source);
      const solids = await maker.make(corner, 0.5).catch((error: Error) => error.message);
      expect(Array.isArray(solids), `${label}: ${solids}`).toBe(true);
      const { bump, droop } = corner.suspension.travel;
      const mechanism = mechanismOf(corner);
      for (const [travelMm, steer] of [
        [0, 0],
        [bump, 0],
        [-droop, 0],
        [0, 1],
        [0, -1],
      ] as const)
        expect(solvePose(mechanism, travelMm, steer).kind, `${label} at ${travelMm}, ${steer}`).toBe(
          'solved',
        );
    }
  });

  it('binds at no pose, and keeps joints, bolts and arms out of the upright', {
    timeout: 300_000,
  }, async () => {
    const some = answersFrom(SEED);
    for (let n = 0; n < cases(8, 24); n++) {
      const answers = some();
      const label = `seed ${SEED}, corner ${n}: ${JSON.stringify(answers)}`;
      const parsed = readDesign(newCorner(answers).source);
      const settings = { travelSteps: 3, steerSteps: 3, limitMm: 30, chordToleranceMm: 0.2 };
      const built = await buildCorner(parsed, settings);
      const { design, mechanism, travelMm, steer, solids } = built;
      const limits = limitFindings(limitsOf(design.corner, mechanism, travelMm, steer));
      expect(
        limits.map(({ kind, label, state }) => `${kind} of ${label}: ${state}`),
        label,
      ).toEqual([
        ...['Lower joint', 'Upper joint', 'Tie-rod end', 'Inner tie-rod end'].map(
          (label) => `jointTilt of ${label}: clear`,
        ),
        'damperClosed of Damper: clear',
        'damperOpen of Damper: clear',
      ]);
      const links = ['joint', 'jointBolt', 'controlArm', 'tieRod'];
      const isAtJoint = (one: Solid, other: Solid) =>
        (one.kind === 'upright' && links.includes(other.kind)) || holdsJointOf(one, other);
      const pairs = built.pairs.filter(
        ({ a, b }) => isAtJoint(solids[a], solids[b]) || isAtJoint(solids[b], solids[a]),
      );
      expect(pairs.length).toBeGreaterThan(15);
      const { clearanceMm, errorMm, state } = await sweepInProcess(withBodies({ ...built, pairs }));
      const steps = travelMm.length * steer.length;
      for (const [p, { a, b, targetMm }] of pairs.entries()) {
        const kinds = [solids[a].kind, solids[b].kind];
        const requiredMm = kinds.includes('joint') && kinds.includes('upright') ? targetMm : 0;
        for (let step = p * steps; step < (p + 1) * steps; step++) {
          const where = `${label}: ${solids[a].id} and ${solids[b].id} at step ${step - p * steps}`;
          expect(CLEARANCE_KINDS[state[step]], where).toMatch(/^(separated|beyond)$/);
          if (CLEARANCE_KINDS[state[step]] === 'separated')
            expect(clearanceMm[step] - errorMm[step], where).toBeGreaterThan(requiredMm);
        }
      }
    }
  });
});
