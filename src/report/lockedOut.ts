import type { Corner } from '../design/schema.ts';
import type { Findings } from '../findings/findings.ts';
import type { LockedOut } from '../proof/prove.ts';
import { counted, type Figures } from './figures.ts';
import type { Checked } from './reportInput.ts';
import { shownInput, steeringFigures } from './steering.ts';

/** Number of parts of the range that are not proven because the mechanism locks out; empty if none, or without a proof. */
export function lockOutInWords({ lockedOut }: Findings): string {
  const count = lockedOut?.length ?? 0;
  return count === 0
    ? ''
    : `Nothing is proven in ${counted(count, 'part')} of the travel and steering, because the suspension locks out there or nearby.`;
}

/** More parts than this are grouped by reason. */
const MOST_LISTED = 12;

type Range = readonly [number, number];
const joinedRange = (ranges: readonly Range[]): Range => [
  Math.min(...ranges.map(([low]) => low)),
  Math.max(...ranges.map(([, high]) => high)),
];

/** Least and greatest steering input in a part, as shown, mm or degrees. */
export function shownInputRange(corner: Corner, { steer }: LockedOut): [number, number] {
  const inputs = steer.map((one) => shownInput(corner, one));
  return [Math.min(...inputs), Math.max(...inputs)];
}

/** Range and reason of each part of travel and steering in which nothing is proven; many parts are grouped by reason. */
export function lockedOutParts({ design, findings }: Checked, figures: Figures): string[] {
  const parts = (findings.lockedOut ?? []).map((part) => {
    const { travelMm, whole, reason } = part;
    return {
      travel: travelMm,
      steer: shownInputRange(design.corner, part),
      why: `${whole ? 'not reached at any step' : 'reached at most in part'}${reason === undefined ? '' : `. ${reason}`}`,
    };
  });
  const { noun, span } = steeringFigures(design.corner, figures);
  const words = (travel: Range, steer: Range) =>
    `travel ${figures.span(...travel)}, ${noun} ${span(...steer)}`;
  if (parts.length <= MOST_LISTED)
    return parts.map(({ travel, steer, why }) => `${words(travel, steer)}: ${why}`);
  return [...new Set(parts.map(({ why }) => why))].map((why) => {
    const same = parts.filter((part) => part.why === why);
    const travel = joinedRange(same.map((part) => part.travel));
    const steer = joinedRange(same.map((part) => part.steer));
    return `${counted(same.length, 'part')} within ${words(travel, steer)}: ${why}`;
  });
}
