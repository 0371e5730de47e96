import type { ClearanceKind } from '../../clearance/clearance.ts';
import type { Corner } from '../../design/schema.ts';
import { shownPoint } from '../../design/side.ts';
import type { Solid } from '../../solids/solid.ts';
import {
  type Audit,
  type AuditedPair,
  LEAST_CONTACT_MM3,
  type Placement,
  type Unexplained,
} from '../../studies/audit/audit.ts';
import { pairLabel } from '../../sweep/pair.ts';
import { visible } from '../../units/plainText.ts';
import { counted, decimal, type Figures, signedAngle } from '../figures.ts';
import { steerInWords, travelInWords } from '../pose.ts';

/** An audited corner. */
export interface AuditReport {
  corner: Corner;
  solids: readonly Solid[];
  audit: Audit;
}

/** Volumes are in mm³ in either unit, as the bound that they are compared with. */
const volume = (mm3: number): string => decimal(mm3, 1);

/** A smaller volume may be the rounding of coplanar faces. */
const LEAST_SHOWN_MM3 = 0.1;

/** The audit as lines for a terminal: a table of the pairs that share volume, hidden contact first, and the verdict. */
export function auditLines(report: AuditReport, figures: Figures): string[] {
  const { corner, solids, audit } = report;
  const { pairs, poses, unreachable, clockings } = audit;
  const sharing = pairs
    .filter(({ sharedMm3 }) => sharedMm3 >= LEAST_SHOWN_MM3)
    .toSorted((a, b) => rank(b) - rank(a));
  const rows = sharing.map((pair) => ({
    pair,
    cells: [
      visible(pairLabel(solids, pair)),
      volume(pair.sharedMm3),
      pair.unexplained === undefined ? 'none' : volume(pair.unexplained.volumeMm3),
      pair.unexplained === undefined ? '' : placementInWords(pair.unexplained.at, corner, figures),
    ],
  }));
  const titles = ['Pair', 'Shared', 'Unexplained', 'At'];
  const widths = titles.map((title, k) =>
    Math.max(title.length, ...rows.map(({ cells }) => cells[k].length)),
  );
  const line = (cells: readonly string[]) =>
    cells
      .map((cell, k) => (k === 1 || k === 2 ? cell.padStart(widths[k]) : cell.padEnd(widths[k])))
      .join('  ')
      .trimEnd();
  const apart = pairs.length - sharing.length;
  return [
    `${counted(pairs.length, 'pair')} with zones of intended contact or not checked, audited at ${counted(poses, 'pose')} and ${counted(clockings, 'further clocking')}.`,
    ...(unreachable === 0 ? [] : [`${counted(unreachable, 'pose')} of the grid cannot be reached.`]),
    '',
    'Shared volumes in mm³:',
    line(titles),
    ...rows.flatMap(({ pair, cells }) => [
      line(cells),
      ...detailLines(pair, corner, figures).map((text) => `    ${visible(text)}`),
    ]),
    ...(apart === 0
      ? []
      : [`${counted(apart, 'pair shares', 'pairs share')} less than ${LEAST_SHOWN_MM3} mm³.`]),
    '',
    ...boundLines(pairs, figures),
    '',
    verdictOf(pairs),
  ];
}

/** Sorts hidden contact first, then contact that a sweep reports, then explained volume; each by volume. */
const rank = ({ unexplained, sharedMm3 }: AuditedPair): number => {
  if (unexplained === undefined) return sharedMm3;
  return (unexplained.hidden ? 2e12 : 1e12) + unexplained.volumeMm3;
};

function detailLines(pair: AuditedPair, corner: Corner, figures: Figures): string[] {
  const { treatment, explained, unexplained } = pair;
  const treated =
    treatment.kind === 'outsideZones'
      ? `measured outside ${counted(treatment.zones, 'zone')}`
      : `not checked: ${treatment.why}`;
  const by = explained.map(({ what, volumeMm3 }) => `${what} ${volume(volumeMm3)}`).join(', ');
  const lines = [treated, by === '' ? 'explained: nothing' : `explained: ${by}`];
  if (unexplained !== undefined) lines.push(...whereInWords(unexplained, corner, figures));
  return lines;
}

const ENGINE_WORDS: Readonly<Record<ClearanceKind, string>> = {
  overlapping: 'touching',
  touching: 'touching',
  separated: 'within its error of touching',
  beyond: 'clear',
  unknown: 'unknown',
};

function whereInWords(
  { hidden, engine, errorMm3, middle, extentMm }: Unexplained,
  { side }: Corner,
  figures: Figures,
): string[] {
  const reported =
    engine === undefined
      ? 'hidden: the pair is not checked'
      : hidden
        ? 'hidden: the sweep measures the pair and finds it clear there'
        : `not hidden: the sweep measures the pair and finds it ${ENGINE_WORDS[engine]} there`;
  const [x, y, z] = shownPoint(side, middle).map(figures.place);
  return [
    `${reported}; volume within ${volume(errorMm3)} mm³ of the true one`,
    `largest piece: ${extentMm.map(figures.place).join(' × ')} ${figures.unit} about x ${x}, y ${y}, z ${z}, vehicle axes`,
  ];
}

function placementInWords(at: Placement, corner: Corner, figures: Figures): string {
  switch (at.kind) {
    case 'fit':
      return 'any pose';
    case 'pose':
      return `${travelInWords(at.travelMm, figures)}, ${steerInWords(corner, at.steer, figures)}`;
    case 'clocking':
      return `caliper ${signedAngle(at.caliperDeg)}, hub ${signedAngle(at.hubDeg)}`;
  }
}

function boundLines(pairs: readonly AuditedPair[], figures: Figures): string[] {
  const enlarged = pairs.map(({ enlargedByMm }) => enlargedByMm);
  if (enlarged.length === 0) return [];
  const [least, most] = [Math.min(...enlarged), Math.max(...enlarged)].map(figures.bound);
  const by = least === most ? most : `${least} to ${most}`;
  return [
    `Regions of intended contact are enlarged by both chord errors, ${by} ${figures.unit}. The audit does not find contact up to`,
    `twice that deep beside such a region, contact below ${LEAST_CONTACT_MM3} mm³, or contact between these poses and clockings.`,
  ];
}

function verdictOf(pairs: readonly AuditedPair[]): string {
  const unexplained = pairs.flatMap((pair) => pair.unexplained ?? []);
  const hidden = unexplained.filter((one) => one.hidden);
  if (unexplained.length === 0) return 'Intended contact explains all shared volume.';
  const reported = unexplained.length - hidden.length;
  return [
    hidden.length === 0 ? 'No contact is hidden.' : `${counted(hidden.length, 'pair')} with hidden contact.`,
    ...(reported === 0 ? [] : [`${counted(reported, 'pair')} with contact that a sweep reports as well.`]),
  ].join(' ');
}
