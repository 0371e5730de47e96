import { type BoltDimensions, boltDimensions, type TurnedPiece } from '../fasteners/boltDimensions.ts';
import {
  BOLT_FIELDS,
  NUT_FIELDS,
  SOCKET_FIELDS,
  WASHER_FIELDS,
  WRENCH_FIELDS,
} from '../fasteners/boltFields.ts';
import { boltTool } from '../fasteners/boltTool.ts';
import { readFastenerSize, wrenchOpeningMm } from '../fasteners/fastenerSizes.ts';
import type { Entry, PartEntry } from '../schema.ts';
import { ROUNDING_MM } from './clampedStack.ts';
import type { Check } from './report.ts';

type Kind = PartEntry['kind'];

/** Kinds of parts that each set of bolts holds or takes its holes from. */
const HELD: Readonly<Record<Entry<'bolts'>['joins'], readonly Kind[]>> = {
  hubMount: ['hub', 'upright'],
  caliperMount: ['caliper', 'upright'],
  rotor: ['hub', 'rotor'],
  wheel: ['hub', 'wheel'],
};

/** Checks that the parts which the bolts hold are in the file. */
export const boltedPartsExist: Check = ({ parts }, report) => {
  const kinds = new Set(parts.map((part) => part.kind));
  parts.forEach(({ entry }, index) => {
    if (entry?.kind !== 'bolts' || kinds.has(undefined)) return;
    for (const needed of HELD[entry.joins])
      if (!kinds.has(needed))
        report(['parts', index, 'joins'], `needs a part of kind "${needed}": the bolts hold it`);
    const rotors = parts.flatMap((part) => (part.entry?.kind === 'rotor' ? [part.entry] : []));
    if (entry.joins === 'rotor' && rotors.length > 0 && rotors.every((rotor) => rotor.hatBolts === undefined))
      report(
        ['parts', index, 'joins'],
        'needs a rotor with holes for the bolts: give the rotor its hatBolts',
      );
  });
};

/**
 * Checks that the bolt size is in the tables, the head has dimensions in the tables or the file, the tool can turn the head,
 * and no dimension is given of a piece that the bolts do not have.
 */
export const boltFieldsApply: Check = ({ parts }, report) => {
  parts.forEach(({ entry }, index) => {
    if (entry?.kind !== 'bolts') return;
    const here = ['parts', index];
    try {
      const { name, socketHead } = readFastenerSize(entry.size);
      const measured = entry.headAcross !== undefined && entry.headHeight !== undefined;
      if (entry.head === 'socketHead' && socketHead === undefined && !measured)
        report(
          [...here, 'head'],
          `no table has a socket head of ${name}; give headAcross and headHeight, or write "hex"`,
        );
    } catch (error) {
      report([...here, 'size'], (error as Error).message);
    }
    const socket = entry.tool === 'socket';
    const onStuds = entry.joins === 'wheel';
    const noNut = !onStuds && !entry.nut;
    const lacking: [boolean, readonly (keyof typeof entry)[], string][] = [
      [socket, WRENCH_FIELDS, 'applies to wrenches only, and tool is "socket"; remove it'],
      [!socket, SOCKET_FIELDS, `applies to sockets only, and tool is "${entry.tool}"; remove it`],
      [onStuds, BOLT_FIELDS, "applies to bolts only, and the wheel has nuts on the hub's studs; remove it"],
      [noNut, NUT_FIELDS, 'applies to nuts only; remove it, or write "nut": true'],
      [!entry.washers, WASHER_FIELDS, 'applies to washers only, and washers is false; remove it'],
    ];
    for (const [lacks, fields, why] of lacking)
      for (const field of fields) if (lacks && entry[field] !== undefined) report([...here, field], why);
    const turnsHeads = !onStuds && (noNut || entry.toolOn !== 'nut');
    if (!socket && turnsHeads && entry.head === 'socketHead')
      report(
        [...here, 'tool'],
        `is "${entry.tool}", which cannot turn a socket head; write "socket" for a key${noNut ? '' : ', or "toolOn": "nut" to turn the nuts only'}`,
      );
    if (noNut && entry.toolOn === 'nut')
      report([...here, 'toolOn'], 'is "nut", but the bolts have no nuts; write "head", or "nut": true');
  });
};

/** Checks that the tool is wider than what it turns: a socket than the corners, a wrench than its opening for the flats. */
export const toolsFitOver: Check = ({ parts, lengthText }, report) => {
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
        `is ${lengthText(toolDiameter)}, and does not fit over the ${toolOn === 'nut' ? 'nut' : 'head or nut'}: it must be more than ${lengthText(widest, 'up')}`,
      );
  });
};

/** Checks that heads, their washers and the tool on them fit into the counterbores. */
export const headsInCounterbores: Check = ({ parts, lengthText }, report) => {
  parts.forEach(({ entry }, index) => {
    if (entry?.kind !== 'bolts' || entry.joins === 'wheel') return;
    const { counterboreDiameter, counterboreDepth, tool, toolOn } = entry;
    if (counterboreDiameter === undefined && counterboreDepth === undefined) return;
    const here = ['parts', index];
    for (const field of ['counterboreDiameter', 'counterboreDepth'] as const)
      if (entry[field] === undefined)
        report([...here, field], 'is missing: a counterbore needs its diameter and its depth');
    const dimensions = knownDimensions(entry);
    if (counterboreDiameter === undefined || counterboreDepth === undefined || dimensions?.head === undefined)
      return;
    const { head, nut, washer } = dimensions;
    const isTurned = nut === undefined || toolOn !== 'nut';
    if (isTurned && tool !== 'socket')
      report([...here, 'tool'], `is "${tool}", which cannot reach a head in a counterbore; write "socket"`);
    // A socket ends at the washer, a key at the head.
    const toolFootMm = (washer?.heightMm ?? 0) + (head.hex ? 0 : head.heightMm);
    const isToolInside = isTurned && tool === 'socket' && toolFootMm < counterboreDepth;
    const fits: readonly [what: string, mm: number][] = [
      ['head', head.roundMm],
      ['washer', washer?.acrossMm ?? 0],
      ['socket', isToolInside ? boltTool(entry, head).diameterMm : 0],
    ];
    const [what, leastMm] = fits.reduce((most, one) => (one[1] > most[1] ? one : most));
    if (counterboreDiameter < leastMm - ROUNDING_MM)
      report(
        [...here, 'counterboreDiameter'],
        `is ${lengthText(counterboreDiameter)}, and must be at least ${lengthText(leastMm, 'up')}: the ${what} goes into it`,
      );
  });
};

/** Heads and nuts that the tool turns; none if another check reports the size or head. */
function turnedPieces(bolts: Entry<'bolts'>): TurnedPiece[] {
  const dimensions = knownDimensions(bolts);
  if (dimensions === undefined) return [];
  const { head, nut } = dimensions;
  const [onHead, onNut] = [
    bolts.toolOn !== 'nut' || nut === undefined,
    bolts.toolOn !== 'head' || head === undefined,
  ];
  return [...(head !== undefined && onHead ? [head] : []), ...(nut !== undefined && onNut ? [nut] : [])];
}

/** Dimensions of a set of bolts; undefined if its size or head is in no table, which another check reports. */
function knownDimensions(bolts: Entry<'bolts'>): BoltDimensions | undefined {
  try {
    return boltDimensions(bolts);
  } catch {
    return undefined;
  }
}
