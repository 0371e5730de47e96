import { expect, it } from 'vitest';
import type { Sheet } from '../../../src/report/drawings/sheet.ts';
import { ARM_MM, BUMP_MM, box, boxCorner, PIVOT, parallelArms } from '../../studies/vary/boxCorner.ts';
import { readSheet, sheetsOf } from './readSheet.ts';

const wheelParts = [
  { id: 'wheel', kind: 'wheel', diameterCode: 16, width: 200, backspacing: 130, lip: 12 },
  { id: 'tyre', kind: 'tyre', designation: '205/55R16', overallDiameter: 640, sectionWidth: 220 },
  {
    id: 'rotor',
    kind: 'rotor',
    diameter: 300,
    thickness: 20,
    hatDiameter: 150,
    hatThickness: 8,
    height: 50,
  },
];
const arms = box('block', 'upright', [0, 600, 330], [40, 60, 80]);
/** The corner of parallel arms with a block on its upright, wheel, tyre and rotor. */
const corner = boxCorner([arms, ...wheelParts]);

/**
 * Values of `corner` by hand, mm; names as in ISO 8855:2011 (from memory), rim diameter as in ISO 4000-2 (from memory). Wheel: overall width 224, so that the mounting face is 130 from its inboard edge and 18
 * outboard of its middle. The hub face is 10 outboard of the wheel centre, the rotor's hat 8 thick: the wheel's middle is
 * at 10 + 8 - 18 = 0. Rotor: from 8 - 50 = -42 to -22 of the hub face.
 */
const BY_HAND: Partial<Record<Sheet['key'], Record<string, { words: string; mm: number }>>> = {
  front: {
    halfTrack: { words: 'Half track 720', mm: 720 },
    scrubRadius: { words: 'Scrub radius 60', mm: 720 - PIVOT.y - ARM_MM },
    hubHeight: { words: 'Hub height 330', mm: 330 },
    bump: { words: 'Bump 60', mm: BUMP_MM },
    droop: { words: 'Droop 50', mm: 50 },
    lowerArm: { words: 'Lower arm 360', mm: ARM_MM },
    upperArm: { words: 'Upper arm 360', mm: ARM_MM },
  },
  side: {
    trail: { words: 'Trail 0', mm: 0 },
    tyreDiameter: { words: 'Tyre Ø 640', mm: 640 },
    jointSpacing: { words: 'Joint spacing 250', mm: 250 },
  },
  top: {
    lowerArmFront: { words: 'Lower arm front 390', mm: Math.hypot(360, 150) },
    lowerArmRear: { words: 'Lower arm rear 390', mm: 390 },
    upperArmFront: { words: 'Upper arm front 390', mm: 390 },
    upperArmRear: { words: 'Upper arm rear 390', mm: 390 },
    tieRod: { words: 'Tie rod 360', mm: 360 },
  },
  section: {
    rimDiameter: { words: 'Rim at bead seat Ø 405.6', mm: 16 * 25.4 - 0.8 },
    rimWidth: { words: 'Rim width 200', mm: 200 },
    backspacing: { words: 'Backspacing 130', mm: 130 },
    tyreWidth: { words: 'Tyre width 220', mm: 220 },
    hubFace: { words: 'Wheel centre to hub face 10', mm: 10 },
    'rotorPlane-3': { words: 'Hub face to rotor plane 32', mm: 32 },
    'rotorDiameter-3': { words: 'Rotor Ø 300', mm: 300 },
  },
};

it('draws each dimension as long as its value at the scale', async () => {
  const sheets = await sheetsOf(corner);
  for (const [key, wanted] of Object.entries(BY_HAND)) {
    const { ratio, svg } = sheets[key as Sheet['key']];
    const { lines, texts } = readSheet({ svg });
    expect([...lines.keys()].sort()).toEqual(Object.keys(wanted).sort());
    for (const [id, { words, mm }] of Object.entries(wanted)) {
      expect(texts).toContain(words);
      expect(Math.abs((lines.get(id) ?? Number.NaN) - mm / ratio), id).toBeLessThan(0.01);
    }
  }
  expect(readSheet(sheets.front).texts).toContain('Kingpin inclination 0°');
  expect(readSheet(sheets.side).texts).toContain('Caster 0°');
});

it('shows the same values in inches', async () => {
  const { front, section } = await sheetsOf(corner, { unit: 'in' });
  const texts = [...readSheet(front).texts, ...readSheet(section).texts];
  // 360 / 25.4 = 14.1732, 200 / 25.4 = 7.8740.
  for (const words of ['Lower arm 14.173', 'Rim width 7.874', 'inches']) expect(texts).toContain(words);
});

const extent = (points: readonly (readonly number[])[], axis: 0 | 1) => [
  Math.min(...points.map((p) => p[axis])),
  Math.max(...points.map((p) => p[axis])),
];

it('draws a box as its rectangle in each view, mirrored on a right corner', async () => {
  const only = [box('block', 'chassis', [30, 600, 330], [40, 60, 80])];
  for (const side of ['left', 'right'] as const) {
    const sense = side === 'left' ? 1 : -1;
    const mirrored = (low: number, high: number) => (sense > 0 ? [low, high] : [-high, -low]);
    const { front, side: fromSide, top } = await sheetsOf(boxCorner(only, { side }));
    const rectangle = (sheet: Sheet) => {
      const [{ points }, ...others] = readSheet(sheet).outlines;
      expect(others).toEqual([]);
      return [extent(points, 0), extent(points, 1)];
    };
    expect(rectangle(front)).toEqual([mirrored(570, 630), [-370, -290]]);
    // Seen from outboard: forward is to the left on a left corner.
    expect(rectangle(fromSide)).toEqual([mirrored(-50, -10), [-370, -290]]);
    // Seen from above, with the front below.
    expect(rectangle(top)).toEqual([mirrored(570, 630), [10, 50]]);
    expect(readSheet(front).texts).toContain(`Front ${side}`);
  }
});

it('cuts a box at the plane through the wheel axis', async () => {
  for (const side of ['left', 'right'] as const) {
    const { section } = await sheetsOf(boxCorner([arms], { side }));
    const [{ points }] = readSheet(section).outlines;
    // From the wheel centre, 720 from the centre line and 330 above the ground.
    expect(extent(points, 0)).toEqual(side === 'left' ? [-150, -90] : [90, 150]);
    expect(extent(points, 1)).toEqual([-40, 40]);
  }
});

it('draws nearer parts over further ones', async () => {
  const parts = [
    box('near', 'chassis', [200, 600, 330], [40, 60, 80]),
    box('far', 'chassis', [-200, 600, 330], [40, 120, 160]),
  ];
  const width = (points: number[][]) => extent(points, 0)[1] - extent(points, 0)[0];
  for (const order of [parts, [...parts].reverse()]) {
    const { front } = await sheetsOf(boxCorner(order));
    expect(readSheet(front).outlines.map(({ points }) => width(points))).toEqual([120, 60]);
    expect(readSheet(front).outlines.every(({ fill }) => fill === '#fff')).toBe(true);
  }
});

it('draws wheel and tyre behind all other parts, however near they are', async () => {
  for (const sheet of Object.values(await sheetsOf(corner)).filter(({ key }) => key !== 'section')) {
    const fills = readSheet(sheet).outlines.map(({ fill }) => fill);
    expect(fills).toEqual(['#f3f3f0', '#f3f3f0', '#fff', '#fff']);
  }
});

it('leaves out what the corner does not have', async () => {
  const sheets = await sheetsOf(boxCorner([box('post', 'chassis', [500, 100, 330], [40, 60, 80])]));
  expect(Object.keys(sheets)).toEqual(['front', 'side', 'top']);
  expect(readSheet(sheets.side).lines.has('tyreDiameter')).toBe(false);
  expect(readSheet(sheets.side).texts).toContain('2 of 3');
});

it('marks what depends on an assumed value, and no other', async () => {
  const assumed = ['hardpoints.tieRodOuter', 'travel.bump'];
  const { front, top } = await sheetsOf(boxCorner([arms], { suspension: { ...parallelArms, assumed } }));
  const [frontTexts, topTexts] = [readSheet(front).texts, readSheet(top).texts];
  expect(topTexts).toContain('Tie rod 360*');
  expect(topTexts).toContain('Lower arm front 390');
  expect(frontTexts).toContain('Bump 60*');
  expect(frontTexts).toContain('Droop 50');
  const note = /^\* Assumed, or depends on a value that is assumed/;
  expect(frontTexts.some((words) => note.test(words))).toBe(true);
  const plain = await sheetsOf(boxCorner([arms]));
  expect(readSheet(plain.front).texts.some((words) => words.includes('*'))).toBe(false);
});

it('marks what depends on a default of the wheel', async () => {
  // The width between the flanges and both lips put the wheel's middle from its backspacing.
  const [{ lip: _, ...wheel }, ...others] = wheelParts;
  const { front, side } = await sheetsOf(boxCorner([arms, wheel, ...others]));
  const starred = readSheet(front).texts.filter((words) => words.endsWith('*'));
  expect(starred.map((words) => words.replace(/ [\d.]+\*$/, ''))).toEqual(['Half track', 'Scrub radius']);
  expect(readSheet(side).texts).toContain('Trail 0*');
});

it('marks a length that is not parallel to the sheet', async () => {
  const { lowerJoint, ...points } = parallelArms.hardpoints;
  const raised = [lowerJoint[0], lowerJoint[1], lowerJoint[2] + 120];
  const { top } = await sheetsOf(
    boxCorner([arms], { suspension: { ...parallelArms, hardpoints: { ...points, lowerJoint: raised } } }),
  );
  const { texts, lines } = readSheet(top);
  // The leg goes 150 along, 360 across and 120 up.
  expect(texts).toContain(`Lower arm front ${Math.round(Math.hypot(150, 360, 120) * 100) / 100}†`);
  expect(lines.get('lowerArmFront')).toBeCloseTo(390 / top.ratio, 2);
  expect(texts).toContain('Upper arm front 390');
  expect(texts.some((words) => words.startsWith('† True length'))).toBe(true);
});

it.each([
  ['A4', [210, 297]],
  ['Letter', [215.9, 279.4]],
] as const)('makes sheets of exactly %s', async (paper, [short, long]) => {
  for (const sheet of Object.values(await sheetsOf(corner, { paper }))) {
    const { widthMm, heightMm, svg } = sheet;
    expect([widthMm, heightMm].sort((a, b) => a - b)).toEqual([short, long]);
    expect(readSheet({ svg }).size).toEqual([`${widthMm}mm`, `${heightMm}mm`, `0 0 ${widthMm} ${heightMm}`]);
    expect(readSheet({ svg }).count(`1:${sheet.ratio}`)).toBe(1);
  }
});

it('gives the same bytes for the same design', async () => {
  const once = Object.values(await sheetsOf(corner)).map(({ svg }) => svg);
  const again = Object.values(await sheetsOf(corner)).map(({ svg }) => svg);
  expect(again).toEqual(once);
});

it('does not take names for markup', async () => {
  const name = '</text></svg><script>alert(1)</script><img src=x onerror=alert(1)> & "q" \'s\'';
  const sheets = await sheetsOf({
    ...corner,
    name,
    parts: [{ ...arms, label: '<b onclick="x">&amp;]]>' }, ...wheelParts],
  });
  for (const sheet of Object.values(sheets)) {
    const { tags, attributes, texts } = readSheet(sheet);
    expect([...tags].sort()).toEqual(['circle', 'g', 'path', 'svg', 'text']);
    expect([...attributes].filter((one) => one.startsWith('on') || one === 'src')).toEqual([]);
    expect(texts.some((words) => words.startsWith('</text></svg><script>'))).toBe(true);
  }
  expect(readSheet(sheets.front).texts).toContain('<b onclick="x">&amp;]]>');
});
