import type { Rigid } from '../../math/rigid.ts';
import type { OpenCorner } from '../engine.ts';
import { usePose } from '../stores/poseStore.ts';
import { Cutter } from './Cutter.ts';
import { cutBody, type PartCut } from './cut.ts';
import { sectionPlaneNow, useSection } from './sectionStore.ts';

export interface SectionFollower {
  /** Where the section in hand lies from now on; undefined for nothing cut. Its cuts come later. */
  onPlane(plane: Rigid | undefined): void;
  onCuts(cuts: readonly PartCut[], vehicleFromPlane: Rigid): void;
  /** What was cut before is of another plane or pose. Why it failed stands in the section's store. */
  onFailure(): void;
}

/** Cuts a corner with the section in hand, at every pose and plane; returns what ends it. */
export function followSection(corner: OpenCorner, follower: SectionFollower): () => void {
  const cutter = new Cutter(
    corner.solids.map(cutBody),
    (cuts, vehicleFromPlane) => {
      if (useSection.getState().failure !== undefined) useSection.setState({ failure: undefined });
      if (useSection.getState().kind !== undefined) follower.onCuts(cuts, vehicleFromPlane);
    },
    (failure) => {
      follower.onFailure();
      if (useSection.getState().failure !== failure) useSection.setState({ failure });
    },
  );
  const follow = () => {
    const plane = sectionPlaneNow(corner);
    follower.onPlane(plane);
    const { drawn } = usePose.getState();
    if (plane !== undefined && drawn !== undefined) cutter.cut(drawn, plane);
  };
  follow();
  const stops = [
    useSection.subscribe((now, before) => {
      // What has failed is tried again when something else is asked, not by itself.
      if (now.failure === undefined || now.failure === before.failure) follow();
    }),
    usePose.subscribe((now, before) => {
      if (now.drawn !== before.drawn) follow();
    }),
  ];
  return () => {
    for (const stop of stops) stop();
    cutter.end();
  };
}
