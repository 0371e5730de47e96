import { useMemo } from 'react';
import { figuresIn } from '../../report/figures.ts';
import type { OpenCorner } from '../engine.ts';
import { keyTarget } from '../pad/keyTarget.ts';
import { KEY_STEPS_MM } from '../pad/ticks.ts';
import { usePoseSlowly } from '../stores/usePoseSlowly.ts';
import { useView } from '../stores/viewStore.ts';
import { poseBrief, trimmed } from '../words.ts';
import type { SectionKind } from './sectionPlane.ts';
import { gapInHand, laySection, useSection } from './sectionStore.ts';
import { useGapFollowed } from './useGapFollowed.ts';
import { ValueInput } from './ValueInput.tsx';

const KINDS: readonly (readonly [SectionKind, string, string])[] = [
  ['gap', 'Gap', 'Holds both points of the gap of the pair in hand'],
  ['upright', 'Axis, upright', 'Holds the wheel axis, upright'],
  ['level', 'Axis, level', 'Holds the wheel axis, level'],
  ['across', 'Across', "Square to the wheel axis, at a depth from the hub's wheel-mounting face"],
];

/** What the plane turns about: the line that the preset holds, and the one in the plane square to it. */
const TURNS: Record<SectionKind, readonly [about: string, tilt: string]> = {
  gap: ['About the gap', 'Tilt'],
  upright: ['About the axis', 'Tilt'],
  level: ['About the axis', 'Tilt'],
  across: ['Tilt', 'Turn'],
};

const ROUND_UP_MM = 50;

/** The section in hand: where it is laid, and all by which it is moved. */
export function SectionBar({ corner }: { corner: OpenCorner }) {
  const { kind, offsetMm, aboutDeg, tiltDeg, flipped, failure } = useSection();
  const unit = useView((view) => view.unit);
  const pair = useView((view) => view.pair);
  const lookFrom = useView((view) => view.lookFrom);
  // Whether there is a gap changes with the pose.
  usePoseSlowly();
  useGapFollowed(corner);
  const laid = kind !== undefined;
  const reachMm = useMemo(() => (laid ? reachOf(corner) : 0), [corner, laid]);
  if (kind === undefined) return null;
  const figures = figuresIn(unit);
  const noGap =
    pair === undefined ? 'Choose a pair first' : gapInHand(corner) ? undefined : 'No gap is measured here';
  const slide = kind === 'across' ? 'Depth' : 'Slide';
  const slideTo = (mm: number) =>
    useSection.setState({ offsetMm: Math.max(-reachMm, Math.min(reachMm, mm)) || 0 });
  const [about, tilt] = TURNS[kind];
  const step = KEY_STEPS_MM[unit];
  return (
    <section className="tool-strip" aria-label="Section">
      <fieldset className="switch">
        <legend className="unseen">Where to cut</legend>
        {KINDS.map(([name, label, title]) => (
          <button
            key={name}
            type="button"
            title={name === 'gap' && noGap ? noGap : title}
            aria-pressed={kind === name}
            disabled={name === 'gap' && noGap !== undefined}
            onClick={() => laySection(corner, name)}
          >
            {label}
          </button>
        ))}
      </fieldset>
      <button
        type="button"
        aria-pressed={flipped}
        title="Cut away the other side of the plane, and look from there"
        onClick={() => {
          useSection.setState({ flipped: !flipped });
          lookFrom('section');
        }}
      >
        Other side
      </button>
      <button type="button" title="Look straight at the cut" onClick={() => lookFrom('section')}>
        Square on
      </button>
      <span className="slide">
        <input
          type="range"
          aria-label={`${slide} of the section`}
          min={-reachMm}
          max={reachMm}
          step="any"
          value={offsetMm}
          aria-valuetext={`${trimmed(offsetMm, unit, unit === 'mm' ? 1 : 3)} ${unit}`}
          onChange={(event) => slideTo(Number(event.target.value))}
          onKeyDown={(event) => {
            const target = keyTarget(event, { fromMm: -reachMm, toMm: reachMm }, offsetMm, step);
            if (target === undefined) return;
            event.preventDefault();
            slideTo(target);
          }}
        />
        <ValueInput name={slide} kind="length" value={offsetMm} unit={unit} onChange={slideTo} />
      </span>
      <ValueInput
        name={about}
        kind="angle"
        value={aboutDeg}
        unit={unit}
        onChange={(degrees) => useSection.setState({ aboutDeg: degrees })}
      />
      <ValueInput
        name={tilt}
        kind="angle"
        value={tiltDeg}
        unit={unit}
        onChange={(degrees) => useSection.setState({ tiltDeg: degrees })}
      />
      <p className="strip-note">
        <RidesOn corner={corner} figures={figures} /> Dashed: swept in a full turn.
        {failure !== undefined && (
          <strong className="warning"> The cut could not be filled: {failure}.</strong>
        )}
      </p>
    </section>
  );
}

/** What becomes of the plane while the corner moves. */
function RidesOn({ corner, figures }: { corner: OpenCorner; figures: ReturnType<typeof figuresIn> }) {
  const { kind, gap } = useSection();
  if (kind !== 'gap' || gap === undefined) return 'Rides with the hub.';
  const at = poseBrief(corner.design.corner, gap.travelMm, gap.steer, figures);
  const when = gap.designHash === corner.design.hash ? '' : ', before the last change';
  return gap.carrier === 'chassis'
    ? `${gap.label} at ${at}${when}: stands fixed in the vehicle.`
    : `${gap.label}${when}: rides with both.`;
}

/** How far a section can be slid: to the furthest point that moves, from the wheel centre. */
function reachOf({ design, solids }: OpenCorner): number {
  const [x, y, z] = design.corner.suspension.hardpoints.wheelCentre;
  let furthestSq = 0;
  for (const { carrier, mesh } of solids) {
    if (carrier === 'chassis') continue;
    const p = mesh.positions;
    for (let i = 0; i < p.length; i += 3)
      furthestSq = Math.max(furthestSq, (p[i] - x) ** 2 + (p[i + 1] - y) ** 2 + (p[i + 2] - z) ** 2);
  }
  return ROUND_UP_MM * Math.ceil(Math.sqrt(furthestSq) / ROUND_UP_MM);
}
