import { boltDimensions } from '../../design/boltDimensions.ts';
import { type BoltTool, TOOL_ORIGINS } from '../../design/boltTool.ts';
import { WIDER_BY_DIN_MM } from '../../design/fastenerSizes.ts';
import type { Corner, Entry } from '../../design/schema.ts';
import { bodyOverCaliperBolts } from '../../solids/fastenerSeats.ts';
import { fastenerStack } from '../../solids/fastenerStack.ts';
import { endTool, turnedEnds } from '../../solids/fastenerTool.ts';
import { entries } from '../../solids/wheelFrame.ts';
import { angle, type Figures } from '../figures.ts';

const TOOL_FIELDS = {
  socket: ['toolDiameter', 'toolLength', 'driveDiameter', 'driveLength'],
  boxWrench: ['toolDiameter', 'toolLength', 'toolThickness', 'handleWidth', 'swingDeg'],
  openWrench: ['toolDiameter', 'toolLength', 'toolThickness', 'handleWidth', 'swingDeg'],
} as const;

/**
 * Each set of bolts of a corner in three lines or four: what it is and how long; how high its heads, nuts and washers stand, and by
 * which standard at most where that is not given; and with what it is turned, with where the tool's sizes come from where
 * some are not given; at last what is not known of a caliper's.
 */
export const setLines = (corner: Corner, figures: Figures): string[] =>
  entries(corner, 'bolts').flatMap((bolts) => [
    `${bolts.label ?? bolts.id}: ${boltsInWords(corner, bolts, figures)}`,
    `  ${heightsInWords(bolts, figures)}`,
    `  ${toolInWords(corner, bolts, figures)}`,
    ...underBodyLines(corner, bolts, figures),
  ]);

function boltsInWords(corner: Corner, bolts: Entry<'bolts'>, { place, unit }: Figures): string {
  const { places, lengthMm, reachMm = 0, ends, outboard, inboard } = fastenerStack(corner, bolts);
  const { size } = boltDimensions(bolts);
  const mm = (value: number) => `${place(value)} ${unit}`;
  if (lengthMm === undefined) return `${places.length} nuts ${size.name} on the hub's studs`;
  const form = bolts.head === 'hex' ? 'hex heads' : 'socket heads';
  const nuts = ends.length > 1 ? ' with nuts' : '';
  return (
    `${places.length} × ${size.name}${nuts}, ${form} ${bolts.headSide}, ${mm(lengthMm)} under the head, ` +
    `${mm(Math.min(outboard - inboard, reachMm))} of it through what they hold`
  );
}

/** Says of a caliper's bolts that its body covers them as measured, which leaves open what room it gives them. */
function underBodyLines(corner: Corner, bolts: Entry<'bolts'>, { given, unit }: Figures): string[] {
  if (bodyOverCaliperBolts(corner, bolts, fastenerStack(corner, bolts)) === undefined) return [];
  const [{ mount, body }] = entries(corner, 'caliper');
  return [
    `  unknown: whether the caliper leaves its own bolts room. Its body as measured covers them (body.length ${given(body.length)} ${unit}, ` +
      `mount.boltSpacing ${given(mount.boltSpacing)} ${unit}, body.inboardDepth ${given(body.inboardDepth)} ${unit}, mount.earFace ${given(mount.earFace)} ${unit}), ` +
      'and is not checked against them along their axes: try them on the caliper itself',
  ];
}

function heightsInWords(bolts: Entry<'bolts'>, { place, unit }: Figures): string {
  const { size, head, nut, washer } = boltDimensions(bolts);
  const pieces = [
    ['heads', 'high', head],
    ['nuts', 'high', nut],
    ['washers', 'thick', washer],
  ] as const;
  const words = pieces.flatMap(([name, high, piece]) => {
    if (piece === undefined) return [];
    const origin = piece.heightBy === undefined ? 'as given' : `at most by ${piece.heightBy}`;
    return [`${name} ${place(piece.heightMm)} ${unit} ${high}, ${origin}`];
  });
  const wider = WIDER_BY_DIN_MM[size.name];
  const asIso = [
    ['headAcross', head],
    ['nutAcross', nut],
  ] as const;
  const fields = asIso.flatMap(([field, piece]) => (piece?.hex && bolts[field] === undefined ? [field] : []));
  if (wider !== undefined && fields.length > 0)
    words.push(
      `by older DIN standards ${place(wider)} ${unit} across flats: give ${fields.join(' and ')} for those`,
    );
  if (nut?.heightBy !== undefined) words.push('self-locking and wheel nuts are higher: give nutHeight');
  return words.join('; ');
}

function toolInWords(corner: Corner, bolts: Entry<'bolts'>, figures: Figures): string {
  const tools = turnedEnds(bolts, fastenerStack(corner, bolts)).map((end) => endTool(bolts, end));
  const words = [...new Set(tools.map((tool) => sizesInWords(tool, figures)))].join(', and ');
  const assumed = TOOL_FIELDS[bolts.tool].some((field) => bolts[field] === undefined);
  return `turned with ${words}${assumed ? `; what is not given of it is assumed: ${TOOL_ORIGINS[bolts.tool]}` : ''}`;
}

function sizesInWords(tool: BoltTool, { place, unit }: Figures): string {
  const mm = (value: number) => `${place(value)} ${unit}`;
  if (tool.kind === 'socket')
    return (
      `a socket ${mm(tool.diameterMm)} across and ${mm(tool.lengthMm)} long on a drive of ` +
      `${mm(tool.driveDiameterMm)}, ${mm(tool.driveLengthMm)} long`
    );
  const kind = tool.kind === 'boxWrench' ? 'a box wrench' : 'an open wrench';
  return (
    `${kind} ${mm(tool.diameterMm)} across its head and ${mm(tool.thicknessMm)} thick, its handle ${mm(tool.handleWidthMm)} wide, ` +
    `${mm(tool.lengthMm)} from the bolt to its end, swung ${angle(tool.swingDeg)} about ${angle(tool.handleDeg)}`
  );
}
