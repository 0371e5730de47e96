import { OF_SOCKET, OF_WRENCH } from '../boltsSchema.ts';
import { readFastenerSize } from '../fastenerSizes.ts';
import type { Entry, PartEntry } from '../schema.ts';
import type { Check } from './report.ts';

type Kind = PartEntry['kind'];

/** The parts that each set of bolts holds or takes its holes from. */
const HELD: Readonly<Record<Entry<'bolts'>['joins'], readonly Kind[]>> = {
  hubMount: ['hub', 'upright'],
  caliperMount: ['caliper', 'upright'],
  rotor: ['hub', 'rotor'],
  wheel: ['hub', 'wheel'],
};

/** Bolts hold parts that are there. */
export const boltsHold: Check = ({ parts }, report) => {
  const kinds = new Set(parts.map((part) => part.kind));
  parts.forEach(({ entry }, index) => {
    if (entry?.kind !== 'bolts' || kinds.has(undefined)) return;
    for (const needed of HELD[entry.joins])
      if (!kinds.has(needed))
        report(['parts', index, 'joins'], `needs a part of kind "${needed}": the bolts hold it`);
    const rotors = parts.flatMap((part) => (part.entry?.kind === 'rotor' ? [part.entry] : []));
    if (entry.joins === 'rotor' && rotors.length > 0 && rotors.every((rotor) => rotor.hatBolts === undefined))
      report(['parts', index, 'joins'], 'needs the holes of a rotor: write them as its hatBolts');
  });
};

/** A bolt's size is one of the tables', its head has dimensions there or here, and its tool those of such a tool. */
export const boltsKnown: Check = ({ parts }, report) => {
  parts.forEach(({ entry }, index) => {
    if (entry?.kind !== 'bolts') return;
    const here = ['parts', index];
    try {
      const { name, socketHead } = readFastenerSize(entry.size);
      const measured = entry.headAcross !== undefined && entry.headHeight !== undefined;
      if (entry.head === 'socketHead' && socketHead === undefined && !measured)
        report(
          [...here, 'head'],
          `no table has a socket head of ${name}; give headAcross and headHeight, or another head`,
        );
    } catch (error) {
      report([...here, 'size'], (error as Error).message);
    }
    const foreign = entry.tool === 'socket' ? OF_WRENCH : OF_SOCKET;
    for (const field of foreign)
      if (entry[field] !== undefined)
        report(
          [...here, field],
          `belongs to ${entry.tool === 'socket' ? 'a wrench' : 'a socket'}; the tool here is "${entry.tool}"`,
        );
  });
};
