import { cross, distance, length, sub, type Vec3 } from '../../math/vec.ts';
import { kindOf } from '../../parts/kindOf.ts';
import { type Path, valueAt } from '../path.ts';
import type { Entry } from '../schema.ts';
import { assumedNote, type Check } from './report.ts';

export const dimensionOrder: Check = ({ parts, source, lengthText }, report) => {
  parts.forEach(({ entry }, index) => {
    if (entry === undefined) return;
    for (const [smaller, relation, larger] of kindOf(entry.kind).order) {
      const [a, b] = [smaller, larger].map((field) => valueAt(entry, field.split('.')));
      if (typeof a !== 'number' || typeof b !== 'number' || a < b || (a === b && relation === '<=')) continue;
      const here: Path = ['parts', index];
      const pathOf = (field: string): Path => [...here, ...field.split('.')];
      const assumed = (field: string) => assumedNote(source, pathOf(field));
      const must = relation === '<' ? 'must be less than' : 'must not be more than';
      report(
        pathOf(smaller),
        `is ${lengthText(a)}${assumed(smaller)}, and ${must} ${larger} (${lengthText(b)}${assumed(larger)})`,
        { against: pathOf(larger) },
      );
    }
  });
};

/** Checks that a wheel has either offset or backspacing, and that the stations of its inside run outboard. */
export const wheelPlaced: Check = ({ parts, source, lengthText }, report) => {
  parts.forEach(({ kind, entry }, index) => {
    if (kind !== 'wheel') return;
    const here: Path = ['parts', index];
    const [offset, backspacing] = ['offset', 'backspacing'].map((field) => valueAt(source, [...here, field]));
    if (offset === undefined && backspacing === undefined) {
      report([...here, 'offset'], 'is missing; give the wheel its offset or its backspacing');
    }
    if (offset !== undefined && backspacing !== undefined) {
      report([...here, 'backspacing'], 'is given as well as offset; remove one of the two');
    }
    if (entry?.kind !== 'wheel') return;
    entry.innerBarrel?.forEach(({ depth }, station, stations) => {
      if (station > 0 && !(depth > stations[station - 1].depth)) {
        const path = [...here, 'innerBarrel', station, 'depth'];
        report(
          path,
          `must be more than the depth of the station before it (${lengthText(stations[station - 1].depth)})`,
        );
      }
    });
  });
};

/** Checks that the bearing housing's flange is behind the hub's own flange. */
export const hubFlangesApart: Check = ({ parts, lengthText }, report) => {
  parts.forEach(({ entry }, index) => {
    if (entry?.kind !== 'hub') return;
    const least = entry.flangeThickness + entry.mountFlangeThickness;
    if (entry.mountDepth >= least) return;
    const message = `must be at least flangeThickness + mountFlangeThickness (${lengthText(least, 'up')}): both flanges lie within it`;
    report(['parts', index, 'mountDepth'], message);
  });
};

/** Checks that the caliper reaches over the edge of the first rotor, from which it is placed. */
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
      const message = `must be less than the rotor's radius (${lengthText(radius, 'down')}): else the pads miss the rotor`;
      report(['parts', index, 'body', 'innerRadius'], message);
    }
    if (body.outerRadius <= radius + body.rotorGap) {
      const message = `must be more than the rotor's radius and rotorGap (${lengthText(radius + body.rotorGap, 'up')}): else no bridge is left over the rotor`;
      report(['parts', index, 'body', 'outerRadius'], message);
    }
  });
};

/** Checks that only rod ends have a shank, with both dimensions. */
export const rodEndShank: Check = ({ parts }, report) => {
  parts.forEach(({ entry }, index) => {
    if (entry?.kind !== 'joint') return;
    for (const [field, other] of [
      ['shankDiameter', 'shankLength'],
      ['shankLength', 'shankDiameter'],
    ] as const) {
      const path = ['parts', index, field];
      if (entry[field] !== undefined && entry.form !== 'rodEnd') {
        report(path, `applies to joints of form "rodEnd" only, and this one is "${entry.form}"; remove it`);
      } else if (entry[field] === undefined && entry[other] !== undefined) {
        report(path, `is missing; a shank needs it as well as ${other}`);
      }
    }
  });
};

export const shapesHaveSize: Check = ({ parts }, report) => {
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
