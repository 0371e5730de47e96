import { cross, distance, length, sub, type Vec3 } from '../../math/vec.ts';
import { type Path, valueAt } from '../path.ts';
import type { Entry, PartEntry } from '../schema.ts';
import { assumedNote, type Check } from './report.ts';

type Kind = PartEntry['kind'];
type Rule = readonly [smaller: string, relation: '<' | '<=', larger: string];

/** Dimensions of one part that contradict each other unless the first is the smaller. Fields inside fields by a dot. */
export const ORDER_RULES: Readonly<Partial<Record<Kind, readonly Rule[]>>> = {
  wheel: [
    ['centreBore', '<', 'boltCircle'],
    ['boltCircle', '<', 'padDiameter'],
    ['dropWidth', '<', 'width'],
  ],
  hub: [
    ['pilotDiameter', '<', 'boltCircle'],
    ['boltCircle', '<', 'flangeDiameter'],
    ['housingDiameter', '<=', 'mountFlangeDiameter'],
    ['mountBoltCircle', '<', 'mountFlangeDiameter'],
    ['mountRectangle.width', '<', 'mountFlangeDiameter'],
    ['mountRectangle.height', '<', 'mountFlangeDiameter'],
    ['spigotDiameter', '<', 'mountFlangeDiameter'],
  ],
  spacer: [['innerDiameter', '<', 'outerDiameter']],
  rotor: [
    ['hatDiameter', '<', 'diameter'],
    ['innerDiameter', '<', 'diameter'],
    ['centreBore', '<', 'hatDiameter'],
    ['thickness', '<=', 'height'],
    ['hatThickness', '<=', 'height'],
    ['hatBolts.circle', '<', 'hatDiameter'],
  ],
  caliper: [
    ['body.innerRadius', '<', 'body.outerRadius'],
    ['mount.boltDiameter', '<', 'mount.earDiameter'],
  ],
  upright: [['hubMount.bore', '<', 'hubMount.diameter']],
  joint: [
    ['ballDiameter', '<', 'housingDiameter'],
    ['boltDiameter', '<', 'ballDiameter'],
    ['housingWidth', '<', 'ballDiameter'],
    ['ballWidth', '<', 'ballDiameter'],
    ['boltDiameter', '<', 'boltHead.diameter'],
    ['boltDiameter', '<=', 'spacers.diameter'],
    ['spacers.diameter', '<', 'ballDiameter'],
  ],
  damper: [
    ['rodDiameter', '<', 'bodyDiameter'],
    ['bodyDiameter', '<', 'spring.outerDiameter'],
    ['spring.seat', '<=', 'bodyLength'],
    ['bodyLength', '<', 'closedLength'],
    ['closedLength', '<', 'openLength'],
  ],
};

export const dimensionOrder: Check = ({ parts, source, lengthText }, report) => {
  parts.forEach(({ entry }, index) => {
    if (entry === undefined) return;
    for (const [smaller, relation, larger] of ORDER_RULES[entry.kind] ?? []) {
      const [a, b] = [smaller, larger].map((field) => valueAt(entry, field.split('.')));
      if (typeof a !== 'number' || typeof b !== 'number' || a < b || (a === b && relation === '<=')) continue;
      const here: Path = ['parts', index];
      const assumed = (field: string) => assumedNote(source, [...here, ...field.split('.')]);
      const must = relation === '<' ? 'must be less than' : 'must not be more than';
      report(
        [...here, ...smaller.split('.')],
        `is ${lengthText(a)}${assumed(smaller)}, and ${must} ${larger} (${lengthText(b)}${assumed(larger)})`,
      );
    }
  });
};

/** A wheel is placed by its offset or by its backspacing, and its measured inside runs outboard. */
export const wheelPlaced: Check = ({ parts, source, lengthText }, report) => {
  parts.forEach(({ kind, entry }, index) => {
    if (kind !== 'wheel') return;
    const here: Path = ['parts', index];
    const [offset, backspacing] = ['offset', 'backspacing'].map((field) => valueAt(source, [...here, field]));
    if (offset === undefined && backspacing === undefined) {
      report([...here, 'offset'], 'is missing; give the wheel its offset or its backspacing');
    }
    if (offset !== undefined && backspacing !== undefined) {
      report(
        [...here, 'backspacing'],
        'stands beside offset; give one of the two, the other follows from it',
      );
    }
    if (entry?.kind !== 'wheel') return;
    entry.innerBarrel?.forEach(({ depth }, station, stations) => {
      if (station > 0 && !(depth > stations[station - 1].depth)) {
        const path = [...here, 'innerBarrel', station, 'depth'];
        report(
          path,
          `must be more than that of the station before it (${lengthText(stations[station - 1].depth)})`,
        );
      }
    });
  });
};

/** The bearing housing's flange lies behind the hub's own. */
export const hubFlangesApart: Check = ({ parts, lengthText }, report) => {
  parts.forEach(({ entry }, index) => {
    if (entry?.kind !== 'hub') return;
    const least = entry.flangeThickness + entry.mountFlangeThickness;
    if (entry.mountDepth >= least) return;
    const message = `must be at least flangeThickness + mountFlangeThickness (${lengthText(least, 'up')}): both flanges lie within it`;
    report(['parts', index, 'mountDepth'], message);
  });
};

/** A caliper reaches over the edge of the first rotor, which is the one it is placed from. */
export const caliperSpansRotor: Check = ({ parts, lengthText }, report) => {
  const rotor = parts.find(({ kind }) => kind === 'rotor')?.entry;
  parts.forEach(({ entry: caliper }, index) => {
    if (caliper?.kind !== 'caliper') return;
    const { boltRadius, boltSpacing } = caliper.mount;
    if (boltSpacing >= 2 * boltRadius) {
      const message = `must be less than twice boltRadius (${lengthText(2 * boltRadius, 'down')})`;
      report(['parts', index, 'mount', 'boltSpacing'], message);
    }
    if (rotor?.kind !== 'rotor') return;
    const [radius, body] = [rotor.diameter / 2, caliper.body];
    if (body.innerRadius >= radius) {
      const message = `must be less than the rotor's radius (${lengthText(radius, 'down')}), or the pads miss it`;
      report(['parts', index, 'body', 'innerRadius'], message);
    }
    if (body.outerRadius <= radius + body.rotorGap) {
      const message = `must be more than the rotor's radius and rotorGap (${lengthText(radius + body.rotorGap, 'up')}), or no bridge is left`;
      report(['parts', index, 'body', 'outerRadius'], message);
    }
  });
};

/** Only a rod end has a shank, with both of its dimensions. */
export const rodEndShank: Check = ({ parts }, report) => {
  parts.forEach(({ entry }, index) => {
    if (entry?.kind !== 'joint') return;
    for (const [field, other] of [
      ['shankDiameter', 'shankLength'],
      ['shankLength', 'shankDiameter'],
    ] as const) {
      const path = ['parts', index, field];
      if (entry[field] !== undefined && entry.form !== 'rodEnd') {
        report(path, `belongs to a joint of form "rodEnd"; this one is "${entry.form}"`);
      } else if (entry[field] === undefined && entry[other] !== undefined) {
        report(path, `is missing beside ${other}; a shank needs both`);
      }
    }
  });
};

export const shapesWithSize: Check = ({ parts }, report) => {
  parts.forEach(({ entry }, index) => {
    if (entry?.kind === 'tube' && distance(entry.from, entry.to) === 0) {
      report(['parts', index, 'to'], 'is the same point as from; a tube needs a length');
    }
    if (entry?.kind === 'plate' && outlineArea(entry) < 1) {
      report(['parts', index, 'outline'], 'encloses no area; give its corners in order around the plate');
    }
  });
};

/** Area of a plane polygon, mm²: half the length of the summed cross products (Newell). */
function outlineArea({ outline }: Entry<'plate'>): number {
  const sum = outline.reduce<Vec3>(
    (total, point, i) => {
      const next = outline[(i + 1) % outline.length];
      const c = cross(sub(point, outline[0]), sub(next, outline[0]));
      return [total[0] + c[0], total[1] + c[1], total[2] + c[2]];
    },
    [0, 0, 0],
  );
  return length(sum) / 2;
}
