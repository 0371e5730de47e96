import { BOLT_JOINS } from '../../design/fasteners/boltFields.ts';
import type { Corner } from '../../design/schema.ts';
import { firstOf, type WorkbenchKind } from '../workbenchKind.ts';

export const bolts: WorkbenchKind<'bolts'> = {
  start: (corner) => ({ joins: freeJoin(corner), size: 'M12' }),
  groups: {},
  solids: { bolts: { tone: '#8489b1', key: [['size', '', '']] } },
};

/** First possible bolt connection that has no bolts yet; the first of all if there is none. */
function freeJoin(corner: Corner): (typeof BOLT_JOINS)[number] {
  const taken = corner.parts.flatMap((part) => (part.kind === 'bolts' ? [part.joins] : []));
  const possible = {
    hubMount: true,
    caliperMount: firstOf(corner, 'caliper') !== undefined,
    rotor: corner.parts.some((part) => part.kind === 'rotor' && part.hatBolts !== undefined),
    wheel: true,
  };
  return BOLT_JOINS.find((join) => possible[join] && !taken.includes(join)) ?? BOLT_JOINS[0];
}
