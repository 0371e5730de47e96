/** A pose on the map. Travel and steer as fractions of their ranges: -1 full droop or lock, +1 full bump or lock. */
interface PadPlace {
  travel: number;
  steer: number;
}

/** The cycle: full travel straight ahead, then at each lock, then back to the start. */
const CYCLE: readonly PadPlace[] = [
  { travel: 0, steer: 0 },
  { travel: 1, steer: 0 },
  { travel: -1, steer: 0 },
  { travel: 0, steer: 0 },
  { travel: 0, steer: 1 },
  { travel: 1, steer: 1 },
  { travel: -1, steer: 1 },
  { travel: -1, steer: -1 },
  { travel: 1, steer: -1 },
  { travel: 0, steer: -1 },
  { travel: 0, steer: 0 },
];
/** Time for half of a range: ride height to full bump, or straight ahead to lock. */
const HALF_RANGE_S = 1.4;

const distance = (a: PadPlace, b: PadPlace) =>
  Math.max(Math.abs(a.travel - b.travel), Math.abs(a.steer - b.steer));
const smooth = (t: number) => t * t * (3 - 2 * t);

/**
 * Pose of the cycle `seconds` after it started at `start`; it goes to ride height, straight ahead, first.
 * `eased`: each leg accelerates and decelerates smoothly.
 */
export function cyclePlace(start: PadPlace, seconds: number, eased: boolean): PadPlace {
  const lead = distance(start, CYCLE[0]) * HALF_RANGE_S;
  const [places, time] =
    seconds < lead
      ? [[start, CYCLE[0]], seconds]
      : [CYCLE, (seconds - lead) % (cycleLength() * HALF_RANGE_S)];
  let left = time;
  for (let i = 0; i + 1 < places.length; i++) {
    const [from, to] = [places[i], places[i + 1]];
    const leg = distance(from, to) * HALF_RANGE_S;
    if (left < leg) {
      const t = eased ? smooth(left / leg) : left / leg;
      return {
        travel: from.travel + t * (to.travel - from.travel),
        steer: from.steer + t * (to.steer - from.steer),
      };
    }
    left -= leg;
  }
  return places[places.length - 1];
}

const cycleLength = () => CYCLE.slice(1).reduce((sum, place, i) => sum + distance(CYCLE[i], place), 0);
