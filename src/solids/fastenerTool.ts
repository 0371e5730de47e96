import { type BoltTool, boltTool } from '../design/boltTool.ts';
import type { Entry } from '../design/schema.ts';
import type { FastenerEnd, FastenerStack } from './fastenerStack.ts';

/** The ends of a set of bolts that a tool is put on. */
export const turnedEnds = ({ toolOn }: Entry<'bolts'>, { ends }: FastenerStack): FastenerEnd[] =>
  ends.filter(({ kind }) => ends.length === 1 || toolOn === 'both' || toolOn === kind);

/** What is put on one end of a set of bolts. */
export const endTool = (bolts: Entry<'bolts'>, { kind, piece, wayMm }: FastenerEnd): BoltTool =>
  boltTool(bolts, piece, kind === 'nut' ? wayMm : 0);
