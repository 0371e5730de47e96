import { spacingInWords } from './betweenSteps.ts';
import { CAUTIONS } from './cautions.ts';
import type { Block, Section } from './content.ts';
import { counted, type Figures, inBothUnits } from './figures.ts';
import { stopsBriefly } from './limits/limitsSections.ts';
import { lockOutInWords } from './lockedOut.ts';
import { pairErrorOf, worstCaseInWords } from './measuringError/measuringErrorInWords.ts';
import type { NumberedRow } from './pairRow.ts';
import type { ReportPictures } from './pictures.ts';
import { poseInWords } from './pose.ts';
import type { ReportInput } from './reportInput.ts';
import { spotId } from './spotSections.ts';
import { countsInWords, treatmentCounts } from './treatment.ts';

/** Pairs listed on page one. */
const LISTED = 3;

/** The corner and its tightest pairs, the part of travel and lock that can be used, and the cautions. */
export function pageOneSections(
  input: ReportInput,
  rows: readonly NumberedRow[],
  pictures: ReportPictures,
  figures: Figures,
): Section[] {
  const { design, solids, findings } = input;
  const { corner } = design;
  const lockOut = lockOutInWords(findings);
  const worst = pictures.spots
    .slice(0, LISTED)
    .flatMap(({ pair }) => rows.filter(({ row }) => row.finding.pair === pair));
  const stops = stopsBriefly(input, figures);
  // Without a ± in the file every measuring error would read 0.
  const study = input.measuringError?.hasPlusMinus === true ? input.measuringError : undefined;
  const table: Block = {
    kind: 'table',
    columns: [
      { title: 'No.' },
      { title: 'State' },
      { title: 'Pair' },
      { title: 'Clearance ± mesh error' },
      ...(study === undefined ? [] : [{ title: 'Measuring error' }]),
      { title: 'Target and its origin' },
      { title: 'Pose' },
      { title: 'Place' },
    ],
    rows: worst.map(({ row, number }) => {
      const { worst: spot, pair } = row.finding;
      const ids = [row.pair.a, row.pair.b].map((solid) => solids[solid].id);
      const error = pairErrorOf(study, ids[0], ids[1]);
      return {
        state: row.finding.state,
        to: spotId(pair),
        cells: [
          number,
          row.state,
          row.name,
          spot === undefined ? '' : inBothUnits(spot.clearanceMm, spot.errorMm, figures),
          ...(study === undefined
            ? []
            : [error === undefined ? 'not studied' : worstCaseInWords(error, figures)]),
          `${figures.givenWithUnit(row.pair.targetMm)}: ${row.pair.targetOrigin}`,
          spot !== undefined && row.pair.moves ? poseInWords(corner, spot, figures) : 'every pose',
          shortPlace(row.placeA),
        ],
      };
    }),
  };
  const facts: Block[] = [
    ...(pictures.corner === '' ? [] : [{ kind: 'drawing' as const, svg: pictures.corner, isAside: true }]),
    { kind: 'list', items: [...stops, checkedInWords(input)] },
  ];
  return [
    { title: stops.length === 0 ? 'What was checked' : 'Travel and lock that can be used', blocks: facts },
    ...(worst.length === 0 ? [] : [{ title: 'The tightest pairs', blocks: [table] }]),
    {
      title: 'Cautions',
      blocks: [
        {
          kind: 'caution',
          items: [
            ...CAUTIONS,
            ...(findings.lockedOut === undefined ? [spacingInWords(input, figures)] : []),
            ...(lockOut === '' ? [] : [`${lockOut} See Poses out of reach.`]),
          ],
        },
      ],
    },
  ];
}

/** Number of pairs and poses, and whether the poses between the steps are proven. */
function checkedInWords({ result, findings }: ReportInput): string {
  const counts = countsInWords(treatmentCounts(result.pairs, findings.unchecked));
  const between = findings.lockedOut === undefined ? 'nothing is proven between them' : 'proven between them';
  return `${counts}. ${counted(findings.solvedSteps, 'pose')} measured, ${between}.`;
}

/** The place about the wheel axis, or the coordinates if there is none. */
const shortPlace = (place: string): string => place.split('; ').at(-1) ?? '';
