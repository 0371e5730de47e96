import { layoutOf } from '../../layouts/layoutOf.ts';
import type { Check } from './report.ts';

/** Checks that the parts use members and joints that the layout of the suspension has. */
export const layoutChecks: Check = ({ suspension, parts }, report) => {
  if (suspension === undefined) return;
  const layout = layoutOf(suspension);
  const needName = (names: object, name: string, path: (string | number)[]) => {
    if (Object.hasOwn(names, name)) return;
    const known = Object.keys(names).map((one) => `"${one}"`);
    const instead = known.length === 0 ? 'it has none' : `it has ${known.join(', ')}`;
    report(path, `is not one of the suspension layout "${layout.name}": ${instead}`);
  };
  parts.forEach(({ entry }, index) => {
    if (entry === undefined) return;
    const path = ['parts', index];
    if ('carrier' in entry) needName(layout.carriers, entry.carrier, [...path, 'carrier']);
    if (entry.kind === 'joint') needName(layout.joints, entry.at, [...path, 'at']);
    if (entry.kind === 'controlArm') needName(layout.arms, entry.arm, [...path, 'arm']);
    if ((entry.kind === 'tieRod' || entry.kind === 'upright') && layout[entry.kind] === undefined)
      report([...path, 'kind'], `the suspension layout "${layout.name}" has no part of this kind`);
  });
};
