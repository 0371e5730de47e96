import type { Rigid } from '../../../math/rigid.ts';
import type { OpenCorner } from '../../state/engine.ts';
import { usePose } from '../../state/poseStore.ts';
import { sectionPlaneNow, useSection } from '../../state/sectionStore.ts';
import { Cutter } from '../../workers/section/Cutter.ts';
import { cutBody, type PartCut } from '../../workers/section/cut.ts';

export interface SectionFollower {
  /** The new plane of the section; undefined if there is no section. Its cuts follow. */
  onPlane(plane: Rigid | undefined): void;
  onCuts(cuts: readonly PartCut[], vehicleFromPlane: Rigid): void;
  /** The last cuts are of another plane or pose. The section store holds the reason of the failure. */
  onFailure(): void;
}

/** Cuts a corner with the current section at every new pose and plane. Returns the function that ends it. */
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
      // A failed cut is tried again at the next pose or plane only.
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
