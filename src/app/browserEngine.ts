import { version } from '../../package.json';
import { DesignProblems } from '../design/problem.ts';
import { crewOfWorkers } from '../executors/browserWorkers.ts';
import type { Crew } from '../executors/crew.ts';
import { PoseProbe } from '../executors/poseProbe.ts';
import { contactsOf } from '../findings/contactsOf.ts';
import { findingsOf } from '../findings/findingsOf.ts';
import { limitFindings } from '../findings/limitFindings.ts';
import { alignmentAt } from '../mechanism/alignment.ts';
import { solvePose } from '../mechanism/mechanism.ts';
import type { ReportInput } from '../report/reportInput.ts';
import type { MeasuredLimit } from '../sweep/limit.ts';
import { limitsOf } from '../sweep/limits.ts';
import { DEFAULT_SETTINGS, type SweepSettings } from '../sweep/result.ts';
import type { Built } from '../sweep/setUp.ts';
import type { Engine, OpenCorner, PoseView } from './engine.ts';
import { pause } from './pause.ts';
import { firstPicture, shadersMade } from './viewer/moments.ts';

/** The engine in workers of this page, sweeping with the given fineness. The workers stay from one corner to the next. */
export function browserEngine(settings: SweepSettings = DEFAULT_SETTINGS): Engine {
  let crew: Crew | undefined;
  /** What the crew holds: the corner that was opened last. */
  let held: Built | undefined;
  const crewAtWork = (): Crew => {
    if (crew?.alive !== true) {
      crew?.end();
      crew = crewOfWorkers();
    }
    return crew;
  };
  return {
    async open(text) {
      const working = crewAtWork();
      try {
        const built = await working.open(text, settings, firstPicture.come);
        held = built;
        // To take it in is a task, to show it another: a press of a key can come between.
        await pause(0);
        // Made while the panels are drawn, they would come late, and whoever draws with one wait for it.
        await shadersMade.come();
        return { kind: 'open', corner: openCorner(text, built, working, crewAtWork, () => held === built) };
      } catch (error) {
        if (error instanceof DesignProblems) return { kind: 'bad', problems: error.problems };
        throw error;
      }
    },
  };
}

function openCorner(
  text: string,
  built: Built,
  firstCrew: Crew,
  crewAtWork: () => Crew,
  isHeld: () => boolean,
): OpenCorner {
  const { design, mechanism, solids, pairs, unchecked, travelMm, steer, tyre, settings } = built;
  let crew = Promise.resolve(firstCrew);
  /** The crew, or a new one that has built the corner again in place of one of which a worker died. */
  const working = async (): Promise<Crew> => {
    const before = crew;
    if ((await before).alive || crew !== before) return crew;
    const next = crewAtWork();
    crew = next.open(text, settings).then(() => next);
    return crew;
  };
  /** An answer of the crew, which would be about another corner by now if it holds one. */
  const ofThis = async <T>(answer: Promise<T>): Promise<T> => {
    const answered = await answer;
    if (!isHeld()) throw new Error('another corner has been opened');
    return answered;
  };
  let limits: readonly MeasuredLimit[] | undefined;
  const poseAt = (travel: number, lock: number): PoseView => {
    const pose = solvePose(mechanism, travel, lock);
    return {
      pose,
      alignment: pose.kind === 'solved' ? alignmentAt(mechanism, pose, tyre) : undefined,
    };
  };
  return {
    design,
    solids,
    pairs,
    unchecked,
    settings,
    travelMm,
    steer,
    poseAt,
    sweep: async (callbacks) => {
      const atWork = await working();
      const result = await atWork.sweep(callbacks);
      // After the rows, which a person watches come in.
      limits ??= await atWork.limits();
      callbacks.signal.throwIfAborted();
      return result;
    },
    prove: async (result, callbacks) => (await working()).prove(result, callbacks),
    between: async (...asked) => ofThis((await working()).between(...asked)),
    limitsAt: (travel, lock) =>
      limitFindings(limitsOf(design.corner, mechanism, Float64Array.of(travel), Float64Array.of(lock))),
    findings: (result, proof) => findingsOf(result, limits, proof),
    probe: async (onRow, onFailure) =>
      new PoseProbe((await working()).prober, (...answer) => isHeld() && onRow(...answer), onFailure),
    share: async (port) => void (await (await working()).prober.ask({ kind: 'share', port }, [port])),
    async report(result, findings, unit) {
      const { alignment } = poseAt(0, 0);
      if (alignment === undefined) throw new Error('the corner cannot stand at ride height, straight ahead');
      // Only when one is wanted: the first picture need not wait for it.
      const [{ buildContent }, { htmlOf, sweepMapOf }] = await Promise.all([
        import('../report/buildContent.ts'),
        import('../report/html.ts'),
      ]);
      const input: ReportInput = {
        design,
        solids,
        result,
        findings,
        contacts: await contactsOf(findings, async (pair, { travelMm: travel, steer: lock }) =>
          ofThis((await working()).contact(pair, travel, lock)),
        ),
        alignmentAtRideHeight: alignment,
        whyUnreachable(travel, lock) {
          const { pose } = poseAt(travel, lock);
          return pose.kind === 'unreachable' ? pose.reason : undefined;
        },
        unit,
        version,
        date: new Date().toISOString(),
      };
      // A task each, so that a press of a key can come between.
      await pause(0);
      const content = buildContent(input);
      await pause(0);
      const map = sweepMapOf(input);
      await pause(0);
      return htmlOf(content, map);
    },
  };
}
