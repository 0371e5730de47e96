import { layoutOf } from '../layouts/layoutOf.ts';
import { type Section, stateInWords } from './content.ts';
import type { Figures } from './figures.ts';
import { hoseSentences, limitHeading, limitRows, limitTitle } from './limitRows.ts';
import type { Checked } from './reportInput.ts';
import { steeringHeading } from './steering.ts';

/** Section on joints and dampers: used and allowed tilt or length. Empty if the corner has neither. */
export function limitSections(checked: Checked, figures: Figures): Section[] {
  const rows = limitRows(checked, figures);
  if (rows.length === 0) return [];
  const numbered = rows.map((row, index) => ({ row, number: `${index + 1}` }));
  const proven = checked.findings.lockedOut !== undefined;
  const advised = numbered.filter(({ row }) => row.advice !== '');
  const figure = (title: string) => ({ title, figure: true });
  const { corner } = checked.design;
  return [
    {
      title: limitTitle(corner),
      blocks: [
        {
          kind: 'text',
          text: `Tilt is the angle between a joint's bolt and the axis of its housing. The length of a damper is the distance between its mounts. Each is given at the worst pose found.${proven ? ' Proven: no pose goes beyond this value, at a step or between steps.' : ''} ${layoutOf(corner.suspension).tiltNote}`.trim(),
        },
        {
          kind: 'table',
          columns: [
            figure('No.'),
            { title: 'State' },
            { title: limitHeading(corner) },
            figure('Used'),
            ...(proven ? [figure('Proven')] : []),
            figure('Allowed'),
            figure('Left'),
            figure(`Travel, ${figures.unit}`),
            figure(steeringHeading(corner, figures)),
            figure('Wheel angle'),
          ],
          rows: numbered.map(({ row, number }) => ({
            state: row.finding.state,
            cells: [
              number,
              stateInWords(row.finding.state),
              row.name,
              row.used,
              ...(proven ? [row.proven] : []),
              row.allowed,
              row.left,
              row.travel,
              row.steer,
              row.wheelAngle,
            ],
          })),
        },
        {
          kind: 'table',
          columns: [figure('No.'), { title: limitHeading(corner) }, { title: 'Origin of the allowed value' }],
          rows: numbered.map(({ row, number }) => ({ cells: [number, row.name, row.from] })),
        },
        ...hoseSentences(checked, figures).map((text) => ({ kind: 'text' as const, text })),
        ...(advised.length === 0
          ? []
          : [
              {
                kind: 'table' as const,
                columns: [
                  figure('No.'),
                  { title: 'Joint' },
                  {
                    title:
                      'Direction of the housing, as typed in the file: vehicle axes of the left corner at ride height',
                  },
                ],
                rows: advised.map(({ row, number }) => ({ cells: [number, row.name, row.advice] })),
              },
            ]),
      ],
    },
  ];
}
