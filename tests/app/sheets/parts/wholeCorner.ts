import type { Corner } from '../../../../src/design/schema.ts';
import { type CornerInput, entryOf, minimalCorner } from '../../../design/fixtures.ts';
import { readDesign } from '../../../design/readDesign.ts';

export const read = (source: CornerInput): Corner => readDesign(source).corner;

/** A corner with one part of each kind and every option. */
export const withAll = (): CornerInput => {
  const source = minimalCorner();
  source.parts.push(
    {
      id: 'spacer',
      kind: 'spacer',
      place: 'wheel',
      thickness: '1/4 in',
      outerDiameter: 150,
      innerDiameter: 70,
    },
    {
      id: 'battery',
      kind: 'box',
      centre: [100, 200, 300],
      size: [120, 60, '4 in'],
      rollDeg: 20,
      pitchDeg: -35,
      yawDeg: 50,
    },
    {
      id: 'tab',
      kind: 'plate',
      thickness: 6,
      outline: [
        [0, 300, 300],
        [80, 300, 300],
        [80, 330, 380],
        [0, 330, 380],
      ],
    },
    {
      id: 'hubBolts',
      kind: 'bolts',
      joins: 'hubMount',
      size: '1/2-20',
      length: '2 3/4 in',
      nut: true,
      headAcross: '3/4 in',
      headHeight: 8,
      counterboreDiameter: 30,
      counterboreDepth: '1/8 in',
      nutAcross: 19,
      nutHeight: '7/16 in',
      washerDiameter: 25,
      washerThickness: 2.5,
      toolOn: 'nut',
      toolDiameter: 27,
      toolLength: 80,
      driveDiameter: 20,
      driveLength: 100,
      fitted: 2,
    },
    {
      id: 'wheelNuts',
      kind: 'bolts',
      joins: 'wheel',
      size: 'M12x1.5',
      washers: false,
      nutAcross: 19,
      tool: 'boxWrench',
      toolDiameter: 30,
      toolThickness: 14,
      toolLength: 200,
      handleWidth: 16,
      handleDeg: -40,
      swingDeg: 30,
    },
  );
  const arm = entryOf(source, 'controlArm');
  arm.gusset = { thickness: 5, length: 80 };
  Object.assign(entryOf(source, 'wheel'), {
    spokes: 5,
    spokeWidth: '1 1/2 in',
    innerBarrel: [
      { depth: -120, radius: 190 },
      { depth: '-2 in', radius: 192 },
    ],
  });
  Object.assign(entryOf(source, 'hub'), { clockingDeg: -25 });
  // Keeps bolts and bleed screw outside the body.
  const caliper = entryOf(source, 'caliper');
  Object.assign(caliper.bracket ?? {}, { inset: 2.5 });
  Object.assign(caliper.bleedScrew ?? {}, { length: 30 });
  Object.assign(caliper.mount, { boltLength: '55 mm' });
  Object.assign(entryOf(source, 'tyre'), { overallDiameter: 745, sectionWidth: 240, treadWidth: 200 });
  Object.assign(entryOf(source, 'upright'), { boxDepth: 30, boxWall: 3 });
  Object.assign(source.parts.find(({ id }) => id === 'tieRodEnd') ?? {}, {
    ballWidth: 18,
    spacers: { diameter: '15 mm', length: 10 },
    boltHead: { diameter: 20.8, height: 8 },
    housingDirection: [0.1, 0, 1],
    allowedTiltDeg: 22,
  });
  Object.assign(entryOf(source, 'damper'), { closedLength: 390, openLength: '505 mm' });
  return source;
};
/** The same with its wheel placed by backspacing. */
export const byBackspacing = (): CornerInput => {
  const source = withAll();
  const wheel = entryOf(source, 'wheel');
  wheel.offset = undefined;
  wheel.backspacing = '5 1/2 in ±1/32';
  wheel.dropPlace = '-3/4 in';
  Object.assign(entryOf(source, 'rotor'), { hatBolts: { count: 6, circle: '5 in', clockingDeg: 20 } });
  Object.assign(entryOf(source, 'hub'), { mountRectangle: { width: '3 1/2 in', height: 70 } });
  return source;
};
