import { useMemo } from 'react';
import { figuresIn } from '../../../report/figures.ts';
import { keyTarget } from '../../kit/keyTarget.ts';
import { KEY_STEPS_MM } from '../../kit/ticks.ts';
import { ValueInput } from '../../kit/ValueInput.tsx';
import { poseBrief, trimmed } from '../../kit/words.ts';
import type { OpenCorner } from '../../state/engine.ts';
import type { SectionKind } from '../../state/sectionPlane.ts';
import { placeSection, selectedGap, useSection } from '../../state/sectionStore.ts';
import { useThrottledPose } from '../../state/useThrottledPose.ts';
import { useView } from '../../state/viewStore.ts';
import { useGapFollowed } from './useGapFollowed.ts';

const KINDS: readonly (readonly [SectionKind, string, string])[] = [
  ['gap', 'Gap', 'Plane through both points of the gap of the pair in hand'],
  ['upright', 'Axis, vertical', 'Vertical plane through the wheel axis'],
  ['level', 'Axis, level', 'Level plane through the wheel axis'],
  ['across', 'Across', "Plane square to the wheel axis, at a depth from the hub's wheel-mounting face"],
];

/** Names of the two rotations: about the line of the preset, and about the line in the plane square to it. */
const TURNS: Record<SectionKind, readonly [about: string, tilt: string]> = {
  gap: ['About the gap', 'Tilt'],
  upright: ['About the axis', 'Tilt'],
  level: ['About the axis', 'Tilt'],
  across: ['Tilt', 'Turn'],
};

const ROUND_UP_MM = 50;

/** Controls of the current section: its preset, offset and rotations. */
export function SectionBar({ corner }: { corner: OpenCorner }) {
  const { kind, offsetMm, aboutDeg, tiltDeg, flipped, failure } = useSection();
  const unit = useView((view) => view.unit);
  const pair = useView((view) => view.pair);
  const requestView = useView((view) => view.requestView);
  // Renders again as the pose changes: a pair may have no gap at some poses.
  useThrottledPose();
  useGapFollowed(corner);
  const laid = kind !== undefined;
  const reachMm = useMemo(() => (laid ? reachOf(corner) : 0), [corner, laid]);
  if (kind === undefined) return null;
  const figures = figuresIn(unit);
  const noGap =
    pair === undefined
      ? 'Choose a pair first'
      : selectedGap(corner)
        ? undefined
        : 'No gap is measured at this pose';
  const slide = kind === 'across' ? 'Depth' : 'Offset';
  const slideTo = (mm: number) =>
    useSection.setState({ offsetMm: Math.max(-reachMm, Math.min(reachMm, mm)) || 0 });
  const [about, tilt] = TURNS[kind];
  const step = KEY_STEPS_MM[unit];
  return (
    <section className="tool-strip" aria-label="Section">
      <fieldset className="switch">
        <legend className="unseen">Section plane</legend>
        {KINDS.map(([name, label, title]) => (
          <button
            key={name}
            type="button"
            title={name === 'gap' && noGap ? noGap : title}
            aria-pressed={kind === name}
            disabled={name === 'gap' && noGap !== undefined}
            onClick={() => placeSection(corner, name)}
          >
            {label}
          </button>
        ))}
      </fieldset>
      <button
        type="button"
        aria-pressed={flipped}
        title="Cut away the other side of the plane and view from there"
        onClick={() => {
          useSection.setState({ flipped: !flipped });
          requestView('section');
        }}
      >
        Flip
      </button>
      <button type="button" title="View the section square on" onClick={() => requestView('section')}>
        View square on
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
        <MovesWith corner={corner} figures={figures} /> Dashed: envelope of a full turn.
        {failure !== undefined && (
          <strong className="warning"> The section cannot be drawn: {failure}.</strong>
        )}
      </p>
    </section>
  );
}

/** States what the plane moves with. */
function MovesWith({ corner, figures }: { corner: OpenCorner; figures: ReturnType<typeof figuresIn> }) {
  const { kind, gap } = useSection();
  if (kind !== 'gap' || gap === undefined) return 'Moves with the hub.';
  const at = poseBrief(corner.design.corner, gap.travelMm, gap.steer, figures);
  const when = gap.designHash === corner.design.hash ? '' : ', before the last change';
  return gap.carrier === 'chassis'
    ? `${gap.label} at ${at}${when}: fixed in the vehicle.`
    : `${gap.label}${when}: moves with both parts.`;
}

/** Largest offset of a section, mm: distance from the wheel centre to the furthest point that moves, rounded up. */
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
