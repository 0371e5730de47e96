import { boltDimensions } from '../../design/boltDimensions.ts';
import { type BoltTool, boltTool, TOOL_ORIGINS } from '../../design/boltTool.ts';
import type { Corner, Entry } from '../../design/schema.ts';
import { fastenerStack } from '../../solids/fastenerStack.ts';
import { entries } from '../../solids/wheelFrame.ts';
import { angle, type Figures } from '../figures.ts';

const TOOL_FIELDS = {
  socket: ['toolDiameter', 'toolLength', 'driveDiameter', 'driveLength'],
  boxWrench: ['toolDiameter', 'toolLength', 'toolThickness', 'handleWidth', 'swingDeg'],
  openWrench: ['toolDiameter', 'toolLength', 'toolThickness', 'handleWidth', 'swingDeg'],
} as const;

/**
 * Each set of bolts of a corner in two lines: what it is and how long, and with what it is turned, with where the tool's
 * sizes come from where some are not given.
 */
export const setLines = (corner: Corner, figures: Figures): string[] =>
  entries(corner, 'bolts').flatMap((bolts) => [
    `${bolts.label ?? bolts.id}: ${boltsInWords(corner, bolts, figures)}`,
    `  ${toolInWords(bolts, figures)}`,
  ]);

function boltsInWords(corner: Corner, bolts: Entry<'bolts'>, { place, unit }: Figures): string {
  const { places, lengthMm, ends, outboard, inboard } = fastenerStack(corner, bolts);
  const { size, washer } = boltDimensions(bolts);
  const mm = (value: number) => `${place(value)} ${unit}`;
  const washers = washer === undefined ? '' : `, on washers of ${mm(washer.heightMm)}`;
  const [first] = ends;
  if (lengthMm === undefined)
    return `${places.length} nuts ${size.name} on the hub's studs, ${mm(first.piece.heightMm)} high${washers}`;
  const form = bolts.head === 'hex' ? 'hex heads' : 'socket heads';
  const nuts = ends.length > 1 ? ' with nuts' : '';
  return (
    `${places.length} × ${size.name}${nuts}, ${form} ${bolts.headSide}, ${mm(lengthMm)} under the head, ` +
    `${mm(outboard - inboard)} of it through what they hold${washers}`
  );
}

function toolInWords(bolts: Entry<'bolts'>, figures: Figures): string {
  const { head, nut } = boltDimensions(bolts);
  const pieces = [head, nut].filter((piece) => piece !== undefined);
  const [tool, other] = pieces.map((piece) => boltTool(bolts, piece));
  const both =
    other === undefined
      ? [tool]
      : bolts.toolOn === 'head'
        ? [tool]
        : bolts.toolOn === 'nut'
          ? [other]
          : [tool, other];
  const words = [...new Set(both.map((one) => sizesInWords(one, figures)))].join(', and ');
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
