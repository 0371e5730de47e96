import { type BoltTool, boltTool } from '../../design/fasteners/boltTool.ts';
import type { Entry } from '../../design/schema.ts';
import type { FastenerEnd, FastenerStack } from './fastenerStack.ts';

/** Ends of a set of bolts that the tool turns or holds. */
export const turnedEnds = ({ toolOn }: Entry<'bolts'>, { ends }: FastenerStack): FastenerEnd[] =>
  ends.filter(({ kind }) => ends.length === 1 || toolOn === 'both' || toolOn === kind);

/** The tool on one end of a set of bolts. */
export const endTool = (bolts: Entry<'bolts'>, { kind, piece, wayMm }: FastenerEnd): BoltTool =>
  boltTool(bolts, piece, kind === 'nut' ? wayMm : 0);
