import type { Corner } from '../design/schema.ts';
import type { Findings } from '../findings/findings.ts';
import type { LockedOut } from '../sweep/prove.ts';
import { counted, type Figures } from './figures.ts';
import { shownRackMm } from './pose.ts';
import type { Checked } from './reportInput.ts';

/** What a proof leaves open as the mechanism locks out; empty where nothing is, or without a proof. */
export function lockOutInWords({ lockedOut }: Findings): string {
  const count = lockedOut?.length ?? 0;
  return count === 0
    ? ''
    : `Nothing is proven in ${counted(count, 'part')} of the travel and steering, as the suspension locks out there or close by.`;
}

/** Most parts that are told one by one. */
const MOST_TOLD = 12;

type Range = readonly [number, number];
const joinedRange = (ranges: readonly Range[]): Range => [
  Math.min(...ranges.map(([low]) => low)),
  Math.max(...ranges.map(([, high]) => high)),
];

/** Rack displacement over a part as shown, least and greatest, mm. */
export function shownRackRange(corner: Corner, { steer }: LockedOut): [number, number] {
  const racks = steer.map((one) => shownRackMm(corner, one));
  return [Math.min(...racks), Math.max(...racks)];
}

/** Each part of travel and steering in which nothing is proved: where, and why; those of one reason together when many. */
export function lockedOutParts({ design, findings }: Checked, figures: Figures): string[] {
  const parts = (findings.lockedOut ?? []).map((part) => {
    const { travelMm, whole, reason } = part;
    return {
      travel: travelMm,
      rack: shownRackRange(design.corner, part),
      why: `${whole ? 'not reached at any step' : 'reached in part at most'}${reason === undefined ? '' : `. ${reason}`}`,
    };
  });
  const words = (travel: Range, rack: Range) =>
    `travel ${figures.span(...travel)}, rack ${figures.span(...rack)} ${figures.unit}`;
  if (parts.length <= MOST_TOLD)
    return parts.map(({ travel, rack, why }) => `${words(travel, rack)}: ${why}`);
  return [...new Set(parts.map(({ why }) => why))].map((why) => {
    const same = parts.filter((part) => part.why === why);
    const travel = joinedRange(same.map((part) => part.travel));
    const rack = joinedRange(same.map((part) => part.rack));
    return `${counted(same.length, 'part')} within ${words(travel, rack)}: ${why}`;
  });
}
