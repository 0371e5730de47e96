import { boltDimensions, type TurnedPiece } from '../boltDimensions.ts';
import { OF_BOLT, OF_NUT, OF_SOCKET, OF_WASHER, OF_WRENCH } from '../boltsSchema.ts';
import { readFastenerSize, wrenchOpeningMm } from '../fastenerSizes.ts';
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

/** A bolt's size is one of the tables', its head has dimensions there or here, its tool turns that, and nothing is said of what it lacks. */
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
    const socket = entry.tool === 'socket';
    const onStuds = entry.joins === 'wheel';
    const noNut = !onStuds && !entry.nut;
    const lacking: [boolean, readonly (keyof typeof entry)[], string][] = [
      [socket, OF_WRENCH, 'belongs to a wrench; the tool here is "socket"'],
      [!socket, OF_SOCKET, `belongs to a socket; the tool here is "${entry.tool}"`],
      [onStuds, OF_BOLT, "belongs to bolts; those of the wheel are nuts on the hub's studs"],
      [noNut, OF_NUT, 'belongs to nuts; with "nut": true there are some'],
      [!entry.washers, OF_WASHER, 'belongs to washers; "washers" is false'],
    ];
    for (const [lacks, fields, why] of lacking)
      for (const field of fields) if (lacks && entry[field] !== undefined) report([...here, field], why);
    const turnsHeads = !onStuds && (noNut || entry.toolOn !== 'nut');
    if (!socket && turnsHeads && entry.head === 'socketHead')
      report(
        [...here, 'tool'],
        `is "${entry.tool}", which does not turn a socket head; a key is "socket"${noNut ? '' : ', or with "toolOn": "nut" it turns the nuts alone'}`,
      );
    if (noNut && entry.toolOn === 'nut')
      report([...here, 'toolOn'], 'is "nut", and there are none; with "nut": true there are some');
  });
};

/** A tool goes round what it turns: a socket about its corners, a wrench about the opening for its flats. */
export const toolsGoRound: Check = ({ parts, lengthText }, report) => {
  parts.forEach(({ entry }, index) => {
    if (entry?.kind !== 'bolts' || entry.toolDiameter === undefined) return;
    const { tool, toolDiameter, toolOn } = entry;
    const leastMm = ({ acrossMm, roundMm }: TurnedPiece) =>
      tool === 'socket' ? roundMm : wrenchOpeningMm(acrossMm).least;
    const widest = turnedPieces(entry)
      .filter(({ hex }) => hex)
      .reduce((most, piece) => Math.max(most, leastMm(piece)), 0);
    if (toolDiameter <= widest)
      report(
        ['parts', index, 'toolDiameter'],
        `is ${lengthText(toolDiameter)}, and does not go round the ${toolOn === 'nut' ? 'nut' : 'head or nut'}: it must be more than ${lengthText(widest, 'up')}`,
      );
  });
};

/** What a tool turns of a set of bolts; nothing of one whose size or head is told of as wrong. */
function turnedPieces(bolts: Entry<'bolts'>): TurnedPiece[] {
  try {
    const { head, nut } = boltDimensions(bolts);
    const [onHead, onNut] = [
      bolts.toolOn !== 'nut' || nut === undefined,
      bolts.toolOn !== 'head' || head === undefined,
    ];
    return [...(head !== undefined && onHead ? [head] : []), ...(nut !== undefined && onNut ? [nut] : [])];
  } catch {
    return [];
  }
}
