import { STOP_KINDS } from '../../studies/limits/stops.ts';
import type { Block, Section } from '../content.ts';
import type { Figures } from '../figures.ts';
import type { ReportInput } from '../reportInput.ts';
import { alignmentTables, unknownFigures, unreachedReasons } from './alignmentTables.ts';
import {
  boundInWords,
  edgeSentences,
  lockOutSentences,
  missingInWords,
  regionSentence,
  stopSentences,
  stopTitle,
} from './stopText.ts';

const paragraph = (text: string): Block => ({ kind: 'text', text });
const list = (items: string[]): Block[] => (items.length === 0 ? [] : [{ kind: 'list', items }]);

/** Section on the part of travel and lock that can be used, and on the stops. None if they are not computed. */
export function stopSections({ limits }: Pick<ReportInput, 'limits'>, figures: Figures): Section[] {
  const { stops: study, lockOuts } = limits ?? {};
  if (study === undefined) return [];
  const always = study.always.map((bound) => boundInWords(study, bound));
  const stops = STOP_KINDS.flatMap((kind): Block[] => {
    const stop = study.stops[kind];
    if (stop === undefined) return [paragraph(missingInWords(study, kind))];
    return [paragraph(`${stopTitle(study, stop)}.`), ...list(stopSentences(study, stop, figures))];
  });
  return [
    {
      title: 'Travel, lock and stops',
      id: 'stops',
      blocks: [
        paragraph(regionSentence(study)),
        ...list(edgeSentences(study, figures)),
        ...(always.length === 0
          ? []
          : [paragraph('Fails at ride height, straight ahead; no stop clears it:'), ...list(always)]),
        ...(study.failing.length === 0 ? [] : stops),
        paragraph('Distance to lock-out:'),
        ...list(lockOutSentences(study, lockOuts ?? [], figures)),
      ],
    },
  ];
}

/** The usable part and the stops in a few lines; none if they are not computed. */
export function stopsBriefly({ limits }: Pick<ReportInput, 'limits'>, figures: Figures): string[] {
  const study = limits?.stops;
  if (study === undefined) return [];
  const stops = study.failing.length === 0 ? [] : STOP_KINDS.flatMap((kind) => study.stops[kind] ?? []);
  return [
    regionSentence(study).replace(/ It ends at:$/, ''),
    ...edgeSentences(study, figures).map((sentence) => `Ends at ${sentence}`),
    ...stops.map((stop) => `${stopTitle(study, stop)}. ${stopSentences(study, stop, figures)[1]}`),
  ];
}

/** Section on the alignment over travel and steering. None if it is not computed. */
export function alignmentOverSections(
  { design, limits }: Pick<ReportInput, 'design' | 'limits'>,
  figures: Figures,
): Section[] {
  if (limits === undefined) return [];
  const { corner } = design;
  const tables = alignmentTables(corner, limits.alignment, figures).flatMap(
    ({ title, signs, titles, rows }): Block[] => [
      paragraph(`${title}:`),
      {
        kind: 'table',
        columns: titles.map((heading) => ({ title: heading, figure: true })),
        rows: rows.map((cells) => ({ cells })),
      },
      ...list([...signs]),
    ],
  );
  const notes = [...unknownFigures(corner), ...unreachedReasons(limits.alignment)];
  return [
    {
      title: 'Alignment over travel and steering',
      blocks: [{ kind: 'folded', title: 'Tables', blocks: tables }, ...list(notes)],
    },
  ];
}
