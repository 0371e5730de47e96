import { version } from '../../package.json';
import type { Design } from '../design/design.ts';
import { parseDesign } from '../design/parse.ts';
import { DesignProblems } from '../design/problem.ts';
import { PoseProbe, sweepInWorkers } from '../executors/browserWorkers.ts';
import { contactsOf } from '../findings/contactsOf.ts';
import { findingsOf } from '../findings/findingsOf.ts';
import { alignmentAt } from '../mechanism/alignment.ts';
import { solvePose } from '../mechanism/mechanism.ts';
import { reportHtml } from '../report/html.ts';
import { DEFAULT_SETTINGS, type SweepSettings } from '../sweep/result.ts';
import { type Setup, setUp } from '../sweep/setUp.ts';
import type { Engine, OpenCorner, PoseView } from './engine.ts';

/** The engine on this page and its workers, sweeping with the given fineness. */
export const browserEngine = (settings: SweepSettings = DEFAULT_SETTINGS): Engine => ({
  async open(text) {
    const parsed = parseDesign(text);
    if (parsed.kind === 'bad') return parsed;
    try {
      return { kind: 'open', corner: openCorner(parsed.design, await setUp(parsed.design, settings)) };
    } catch (error) {
      if (error instanceof DesignProblems) return { kind: 'bad', problems: error.problems };
      throw error;
    }
  },
});

function openCorner(design: Design, setup: Setup): OpenCorner {
  const { mechanism, solids, pairs, unchecked, travelMm, steer, tyreRadiusMm, settings } = setup;
  const poseAt = (travel: number, lock: number): PoseView => {
    const pose = solvePose(mechanism, travel, lock);
    return {
      pose,
      alignment: pose.kind === 'solved' ? alignmentAt(mechanism, pose, tyreRadiusMm) : undefined,
    };
  };
  return {
    design,
    solids,
    pairs,
    unchecked,
    travelMm,
    steer,
    poseAt,
    sweep: (callbacks) => sweepInWorkers(setup, callbacks),
    findings: findingsOf,
    probe: (onRow, onFailure) => new PoseProbe(JSON.stringify(design.source), settings, onRow, onFailure),
    report(result, findings, unit) {
      const { alignment } = poseAt(0, 0);
      if (alignment === undefined) throw new Error('the corner cannot stand at ride height, straight ahead');
      return reportHtml({
        design,
        solids,
        result,
        findings,
        contacts: contactsOf(setup, findings),
        alignmentAtRideHeight: alignment,
        whyUnreachable(travel, lock) {
          const { pose } = poseAt(travel, lock);
          return pose.kind === 'unreachable' ? pose.reason : undefined;
        },
        unit,
        version,
        date: new Date().toISOString(),
      });
    },
  };
}
