import { boltDimensions } from '../../design/fasteners/boltDimensions.ts';
import { type BoltTool, TOOL_ORIGINS } from '../../design/fasteners/boltTool.ts';
import { WIDER_BY_DIN_MM } from '../../design/fasteners/fastenerSizes.ts';
import type { Corner, Entry } from '../../design/schema.ts';
import { bodyOverCaliperBolts } from '../../solids/fasteners/fastenerSeats.ts';
import { fastenerStack } from '../../solids/fasteners/fastenerStack.ts';
import { endTool, turnedEnds } from '../../solids/fasteners/fastenerTool.ts';
import { entries } from '../../solids/wheelFrame.ts';
import { angle, type Figures } from '../figures.ts';
import { type TextLine, textLine } from '../textLine.ts';

const TOOL_FIELDS = {
  socket: ['toolDiameter', 'toolLength', 'driveDiameter', 'driveLength'],
  boxWrench: ['toolDiameter', 'toolLength', 'toolThickness', 'handleWidth', 'swingDeg'],
  openWrench: ['toolDiameter', 'toolLength', 'toolThickness', 'handleWidth', 'swingDeg'],
} as const;

/**
 * Three or four lines for each set of bolts of a corner: size and length; height of heads, nuts and washers, with the
 * standard that sets an assumed one; the tool, with the origin of assumed sizes; and what is unknown of a caliper's bolts.
 */
export const setLines = (corner: Corner, figures: Figures): TextLine[] =>
  entries(corner, 'bolts').flatMap((bolts) => [
    textLine(`${bolts.label ?? bolts.id}: ${boltsInWords(corner, bolts, figures)}`),
    textLine(heightsInWords(bolts, figures), 1),
    textLine(toolInWords(corner, bolts, figures), 1),
    ...underBodyLines(corner, bolts, figures),
  ]);

function boltsInWords(corner: Corner, bolts: Entry<'bolts'>, { place, unit }: Figures): string {
  const { places, lengthMm, reachMm = 0, ends, gripMm } = fastenerStack(corner, bolts);
  const { size } = boltDimensions(bolts);
  const mm = (value: number) => `${place(value)} ${unit}`;
  if (lengthMm === undefined) return `${places.length} nuts ${size.name} on the hub's studs`;
  const form = bolts.head === 'hex' ? 'hex heads' : 'socket heads';
  const nuts = ends.length > 1 ? ' with nuts' : '';
  const { counterboreDiameter: across, counterboreDepth: depth } = bolts;
  const sunk =
    across === undefined || depth === undefined
      ? ''
      : ` in counterbores ${mm(across)} wide and ${mm(depth)} deep`;
  return (
    `${places.length} × ${size.name}${nuts}, ${form} ${bolts.headSide}${sunk}, ${mm(lengthMm)} under the head, ` +
    `${mm(Math.min(gripMm, reachMm))} of it in the clamped parts`
  );
}

/** Lines for caliper bolts that the body covers as entered: whether they have room is unknown. Empty for others. */
function underBodyLines(corner: Corner, bolts: Entry<'bolts'>, { given, unit }: Figures): TextLine[] {
  if (bodyOverCaliperBolts(corner, bolts, fastenerStack(corner, bolts)) === undefined) return [];
  const [{ mount, body }] = entries(corner, 'caliper');
  return [
    textLine(
      `unknown: whether the caliper leaves room for its own bolts. Its body, as entered, covers them (body.length ${given(body.length)} ${unit}, ` +
        `mount.boltSpacing ${given(mount.boltSpacing)} ${unit}, body.inboardDepth ${given(body.inboardDepth)} ${unit}, mount.earFace ${given(mount.earFace)} ${unit}), ` +
        'so their way out and their tools are not checked against it. Check them on the caliper itself',
      1,
    ),
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
    const origin =
      piece.heightStandard === undefined ? 'as entered' : `the largest in ${piece.heightStandard}`;
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
      `fasteners to older DIN standards have ${place(wider)} ${unit} across flats: for those, give ${fields.join(' and ')}`,
    );
  if (nut?.heightStandard !== undefined)
    words.push('self-locking nuts and wheel nuts are higher: give nutHeight');
  return words.join('; ');
}

function toolInWords(corner: Corner, bolts: Entry<'bolts'>, figures: Figures): string {
  const tools = turnedEnds(bolts, fastenerStack(corner, bolts)).map((end) => endTool(bolts, end));
  const words = [...new Set(tools.map((tool) => sizesInWords(tool, figures)))].join(', and ');
  const assumed = TOOL_FIELDS[bolts.tool].some((field) => bolts[field] === undefined);
  return `turned with ${words}${assumed ? `; sizes not entered are assumed: ${TOOL_ORIGINS[bolts.tool]}` : ''}`;
}

function sizesInWords(tool: BoltTool, { place, unit }: Figures): string {
  const mm = (value: number) => `${place(value)} ${unit}`;
  if (tool.kind === 'socket')
    return (
      `a socket ${mm(tool.diameterMm)} in diameter and ${mm(tool.lengthMm)} long on a drive ` +
      `${mm(tool.driveDiameterMm)} in diameter and ${mm(tool.driveLengthMm)} long`
    );
  const kind = tool.kind === 'boxWrench' ? 'a box wrench' : 'an open wrench';
  return (
    `${kind} ${mm(tool.diameterMm)} across its head and ${mm(tool.thicknessMm)} thick, its handle ${mm(tool.handleWidthMm)} wide, ` +
    `${mm(tool.lengthMm)} from the bolt to its end, swung ${angle(tool.swingDeg)} about ${angle(tool.handleDeg)}`
  );
}
