import type { Solid } from '../solids/solid.ts';

type Joined = Pick<Solid, 'carrier'> & Partial<Pick<Solid, 'attachments'>>;

/** Whether a solid holds the joint of `bolt`: it moves with the joint's housing and has an attachment to that joint. */
export const holdsJointOf = (solid: Joined, bolt: Pick<Solid, 'kind' | 'carrier' | 'attachments'>): boolean =>
  bolt.kind === 'jointBolt' &&
  solid.carrier !== bolt.carrier &&
  (solid.attachments ?? []).some(({ name }) => name === bolt.attachments[0]?.name);
