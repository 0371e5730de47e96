import type { Block, Section } from '../content.ts';
import type { ReportInput } from '../reportInput.ts';
import { indented, type TextLine } from '../textLine.ts';

/** Section on the bolts: sets, order of assembly, reach and holes. Empty if they were not checked or there are none. */
export function boltsSections({ bolts }: Pick<ReportInput, 'bolts'>): Section[] {
  if (bolts === undefined || bolts.sets.length + bolts.holes.length === 0) return [];
  const list = (title: string, lines: readonly TextLine[]): Block[] =>
    lines.length === 0
      ? []
      : [
          { kind: 'text', text: title },
          { kind: 'list', items: indented(lines).map((line) => line.trim()) },
        ];
  return [
    {
      title: 'Bolts and the order of assembly',
      blocks: [
        ...list('Bolts:', bolts.sets),
        ...list('Steps of assembly:', bolts.steps),
        ...list('Access, at ride height:', bolts.reach),
        ...list('Holes:', bolts.holes),
        { kind: 'text', text: 'Geometry only: try every bolt and its tool by hand before metal is cut.' },
      ],
    },
  ];
}
