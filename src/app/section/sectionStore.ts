import { create } from 'zustand';
import type { Rigid } from '../../math/rigid.ts';
import { wheelAxisAt } from '../../solids/wheelFrame.ts';
import { pairId } from '../../sweep/pair.ts';
import type { OpenCorner } from '../engine.ts';
import { measuredPair } from '../stores/measuredPair.ts';
import { measuredNow, usePose } from '../stores/poseStore.ts';
import { useView } from '../stores/viewStore.ts';
import { pairLabel } from '../words.ts';
import {
  frameOfGap,
  type LaidGap,
  ridingOn,
  type SectionKind,
  type SectionPlace,
  vehicleFromSection,
} from './sectionPlane.ts';

interface SectionState extends Omit<SectionPlace, 'kind'> {
  /** Undefined while nothing is cut. */
  kind: SectionKind | undefined;
  /** The words of a cut that failed. */
  failure: string | undefined;
}

const STRAIGHT = { offsetMm: 0, aboutDeg: 0, tiltDeg: 0, flipped: false, failure: undefined };

/** The section in hand: how things are shown, and never part of a file. */
export const useSection = create<SectionState>(() => ({ kind: undefined, gap: undefined, ...STRAIGHT }));

/** The plane of the section in hand as the corner stands: `vehicleFromPlane`; undefined where nothing is cut. */
export function sectionPlaneNow(corner: OpenCorner): Rigid | undefined {
  const { kind, ...place } = useSection.getState();
  const { drawn } = usePose.getState();
  if (kind === undefined || drawn === undefined) return undefined;
  return vehicleFromSection({ ...place, kind }, corner.design.corner, drawn);
}

/** The gap of the pair in hand where the corner stands; undefined until it is measured, and where it has no gap to show. */
export function gapInHand(corner: OpenCorner): LaidGap | undefined {
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
  const carrierFromPlane = ridingOn(drawn, carrier, frameOfGap(found.pointA, found.pointB, axis));
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

/** Lays the section by a preset, straight, and looks square at it. A gap that is not measured leaves all as it is. */
export function laySection(corner: OpenCorner, kind: SectionKind): void {
  const gap = kind === 'gap' ? gapInHand(corner) : undefined;
  if (kind === 'gap' && gap === undefined) return;
  useSection.setState({ kind, gap, ...STRAIGHT });
  useView.getState().lookFrom('section');
}

/** Shows everything whole again. */
export const endSection = (): void => useSection.setState({ kind: undefined, gap: undefined, ...STRAIGHT });
