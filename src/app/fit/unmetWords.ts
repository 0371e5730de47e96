import type { Figures } from '../../report/figures.ts';
import type { Unmet } from '../../studies/clocking/unmet.ts';
import type { WantName } from '../../studies/clocking/wants.ts';

const WORDS: Record<WantName, string> = {
  bleedWithinDeg: 'the bleed screw so near the top',
  caliperPlace: 'the caliper on that side of the axle',
  caliperRange: 'the caliper in its range',
  hubRange: 'the hub in its range',
};

/** Why something that is wanted cannot be had: what forbids it, and how much is missing where least is. */
export function unmetWords(
  { wants, contradiction, best }: Unmet,
  nameOf: (pair: number) => string,
  figures: Figures,
): string {
  const what = wants.map((want) => WORDS[want]).join(' and ');
  if (contradiction || best === undefined) return `No clocking has ${what}: the wants contradict each other.`;
  const none = what === '' ? 'No clocking clears' : `No clocking that clears has ${what}`;
  const { least, clockings } = best;
  const at = `at caliper ${clockings.caliperDeg.toFixed(0)}°, hub ${clockings.hubDeg.toFixed(0)}°`.replaceAll(
    '-',
    '−',
  );
  if (Number.isNaN(least.marginMm)) return `${none}: ${nameOf(least.limitedBy)} cannot be told ${at}.`;
  return `${none}: ${nameOf(least.limitedBy)} forbids it; least is missing ${at}, ${figures.bound(Math.max(0, -least.marginMm))} ${figures.unit}.`;
}
