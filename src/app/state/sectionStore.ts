import { create } from 'zustand';
import type { Rigid } from '../../math/rigid.ts';
import { frameOfGap } from '../../solids/gapFrame.ts';
import { wheelAxisAt } from '../../solids/wheelFrame.ts';
import { pairId } from '../../sweep/pair.ts';
import { pairLabel } from '../kit/words.ts';
import type { OpenCorner } from './engine.ts';
import { measuredPair } from './measuredPair.ts';
import { measuredNow, usePose } from './poseStore.ts';
import {
  inCarrier,
  type SectionGap,
  type SectionKind,
  type SectionPlace,
  vehicleFromSection,
} from './sectionPlane.ts';
import { useView } from './viewStore.ts';

interface SectionState extends Omit<SectionPlace, 'kind'> {
  /** Undefined without a section. */
  kind: SectionKind | undefined;
  /** Message shown when the cut has failed. */
  failure: string | undefined;
}

const UNADJUSTED = { offsetMm: 0, aboutDeg: 0, tiltDeg: 0, flipped: false, failure: undefined };

/** The current section. View state, not part of a file. */
export const useSection = create<SectionState>(() => ({ kind: undefined, gap: undefined, ...UNADJUSTED }));

/** `vehicleFromPlane` of the current section at the drawn pose; undefined without a section. */
export function sectionPlaneNow(corner: OpenCorner): Rigid | undefined {
  const { kind, ...place } = useSection.getState();
  const { drawn } = usePose.getState();
  if (kind === undefined || drawn === undefined) return undefined;
  return vehicleFromSection({ ...place, kind }, corner.design.corner, drawn);
}

/** Gap of the selected pair at the current pose; undefined until it is measured, and if the pair has no gap to show. */
export function selectedGap(corner: OpenCorner): SectionGap | undefined {
  const pose = usePose.getState();
  const { travelMm, steer, drawn, view } = pose;
  const measured = measuredNow(pose);
  const { pair } = useView.getState();
  if (measured === undefined || pair === undefined || drawn === undefined) return undefined;
  if (view?.pose.kind !== 'solved') return undefined;
  const found = measuredPair(corner, measured, pair);
  if (found === undefined || ![...found.pointA, ...found.pointB].every(Number.isFinite)) return undefined;
  const axis = wheelAxisAt(corner.design.corner, drawn);
  const { a, moves } = corner.pairs[pair];
  const carrier = moves ? 'chassis' : corner.solids[a].carrier;
  const carrierFromPlane = inCarrier(drawn, carrier, frameOfGap(found.pointA, found.pointB, axis));
  const label = pairLabel(corner.solids, corner.pairs[pair]);
  return {
    key: pairId(corner.solids, corner.pairs[pair]),
    label,
    designHash: corner.design.hash,
    travelMm,
    steer,
    carrier,
    carrierFromPlane,
  };
}

/** Places the section at a preset and views it square-on. Does nothing if the gap is not measured. */
export function placeSection(corner: OpenCorner, kind: SectionKind): void {
  const gap = kind === 'gap' ? selectedGap(corner) : undefined;
  if (kind === 'gap' && gap === undefined) return;
  useSection.setState({ kind, gap, ...UNADJUSTED });
  useView.getState().requestView('section');
}

/** Removes the section. */
export const endSection = (): void => useSection.setState({ kind: undefined, gap: undefined, ...UNADJUSTED });
