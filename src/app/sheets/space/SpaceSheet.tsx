import { useEffect, useState } from 'react';
import type { SpacePlane } from '../../../studies/sweptSpace/planeCrossing.ts';
import { readPlane } from '../../../studies/sweptSpace/readPlane.ts';
import { readSteerRange, readTravelRange } from '../../../studies/sweptSpace/readRanges.ts';
import { WITHIN_MM, wholeRange } from '../../../studies/sweptSpace/sweptSpace.ts';
import { download } from '../../kit/download.ts';
import { readLength } from '../../kit/readTyped.ts';
import { SheetFrame } from '../../kit/SheetFrame.tsx';
import { StudyButtons } from '../../kit/StudyButtons.tsx';
import { CancelledStudy, StudyProgress } from '../../kit/StudyProgress.tsx';
import { TypedRow } from '../../kit/TypedField.tsx';
import type { OpenCorner } from '../../state/engine.ts';
import { problemSentence } from '../../state/fieldText.ts';
import { useSaveState } from '../../state/keep/saveState.ts';
import { useSpace } from '../../state/spaceStore.ts';
import { useFileUnit } from '../../state/useFileUnit.ts';
import { useView } from '../../state/viewStore.ts';
import type { SpaceFile } from '../../workers/space/spaceWorker.ts';
import { cancelSpace, findSpace, spaceFiles, useSpaceRun } from './spaceRun.ts';

/** Label, help, and least and greatest length, mm. */
const LENGTHS = {
  growth: ['Tyre growth', 'How much the tyre grows at speed, beyond what the file gives it.', 0, 200],
  margin: ['Keep free', 'What is to stay free around tyre and wheel.', 0, 200],
  within: [
    'Accuracy',
    'How far the solid may be outside the true swept space. A smaller length takes longer.',
    2,
    100,
  ],
} as const;
type LengthName = keyof typeof LENGTHS;

const FILES: readonly (readonly [SpaceFile, string])[] = [
  ['stl', 'Save as STL'],
  ['3mf', 'Save as 3MF'],
  ['glb', 'Save as GLB'],
];

/** The space that tyre and wheel sweep: typed ranges, growth, free room and planes; the result, and its files. */
export default function SpaceSheet({ corner, onClose }: { corner: OpenCorner; onClose(): void }) {
  const fileUnit = useFileUnit();
  const unit = useView((view) => view.unit);
  const { state } = useSpaceRun();
  const [texts, setTexts] = useState<Record<LengthName, string>>({
    growth: '',
    margin: '',
    within: `${WITHIN_MM} mm`,
  });
  const [travel, setTravel] = useState('');
  const [steer, setSteer] = useState('');
  const [planes, setPlanes] = useState('');
  const isStale = state.kind !== 'none' && state.designHash !== corner.design.hash;
  const isRunning = state.kind === 'running';
  useEffect(() => {
    if (isRunning && isStale) cancelSpace();
  }, [isRunning, isStale]);

  const names = Object.keys(LENGTHS) as LengthName[];
  const lengths = names.map((name) => readLength(texts[name], fileUnit, LENGTHS[name][2], LENGTHS[name][3]));
  const whole = wholeRange(corner.design.corner);
  const travelRange = readOr(travel, whole.travelMm, (text) => readTravelRange(text, fileUnit));
  const steerRange = readOr(steer, whole.steer, readSteerRange);
  const readPlanes = readOr<SpacePlane[]>(planes, [], (text) => planesIn(text, fileUnit));
  const isWrong =
    [travelRange, steerRange, readPlanes].some(({ problem }) => problem !== undefined) ||
    lengths.some(({ problem }) => problem !== undefined);
  const find = () => {
    if (isWrong) return;
    const [growthMm = 0, marginMm = 0, withinMm = WITHIN_MM] = lengths.map(({ value }) => value);
    findSpace(
      corner,
      {
        travelMm: travelRange.value,
        steer: steerRange.value,
        growthMm,
        marginMm,
        withinMm,
        planes: readPlanes.value,
      },
      unit,
    );
  };
  return (
    <SheetFrame title="Space of tyre and wheel" onClose={onClose}>
      <p className="bench-kind">
        Computes the space that tyre and wheel sweep over a range of travel and steering, proved between the
        steps too: fenders, rails and hoses stay out of it. Tyre growth and flex are covered only as far as
        they are typed.
      </p>
      <TypedRow
        label="Travel"
        title="Range of travel, bump positive: -100mm..100mm. If empty, the whole travel of the file."
        text={travel}
        placeholder="all"
        problem={travelRange.problem && problemSentence('Travel', travelRange.problem)}
        onType={setTravel}
      />
      <TypedRow
        label="Steer"
        title="Range of steer from -1 to 1, left positive: -0.5..1. If empty, from lock to lock."
        text={steer}
        placeholder="all"
        problem={steerRange.problem && problemSentence('Steer', steerRange.problem)}
        onType={setSteer}
      />
      {names.map((name, k) => {
        const [label, title] = LENGTHS[name];
        const { problem } = lengths[k];
        return (
          <TypedRow
            key={name}
            label={label}
            title={title}
            kind="length"
            text={texts[name]}
            unit={fileUnit}
            problem={problem && problemSentence(label, problem)}
            onType={(text) => setTexts({ ...texts, [name]: text })}
          />
        );
      })}
      <TypedRow
        label="Planes"
        title="Planes of fenders or rails, with semicolons between: z=35 in is a fender above that height, -y=20 in a rail inboard of it."
        text={planes}
        problem={readPlanes.problem && problemSentence('Planes', readPlanes.problem)}
        onType={setPlanes}
      />
      <StudyButtons isRunning={isRunning} onCancel={cancelSpace}>
        <button type="button" disabled={isWrong} onClick={find}>
          Compute space
        </button>
      </StudyButtons>
      {isStale ? (
        <p className="bench-kind" role="status">
          The corner has changed since the space was computed.
        </p>
      ) : (
        <Result corner={corner} />
      )}
    </SheetFrame>
  );
}

function Result({ corner }: { corner: OpenCorner }) {
  const { state } = useSpaceRun();
  const shown = useSpace(({ space }) => space !== undefined);
  if (state.kind === 'none') return null;
  if (state.kind === 'failed')
    return (
      <p className="bench-problem" role="alert">
        The space could not be computed: {state.why}
      </p>
    );
  if (state.kind === 'cancelled') return <CancelledStudy />;
  if (state.kind === 'running') return <StudyProgress done={state.done} total={state.total} what="% done" />;
  const { found, designHash } = state;
  const save = async (format: SpaceFile) => {
    try {
      for (const [name, data] of Object.entries(await spaceFiles(corner, found, format)))
        download(name, new Blob([new Uint8Array(data)]));
    } catch (error) {
      useSaveState.setState({ notSaved: `the space could not be written: ${(error as Error).message}.` });
    }
  };
  const toggle = () => useSpace.setState({ space: shown ? undefined : { designHash, mesh: found.mesh } });
  return (
    <section data-testid="space" aria-label="Space">
      <ul className="bench-kind sentences">
        {[...found.sentences, ...found.planes].map((text) => (
          <li key={text}>{text}</li>
        ))}
      </ul>
      <div className="vary-buttons">
        <button type="button" aria-pressed={shown} onClick={toggle}>
          Show in the view
        </button>
        {FILES.map(([format, words]) => (
          <button key={format} type="button" onClick={() => void save(format)}>
            {words}
          </button>
        ))}
        {found.request.planes.length > 0 && (
          <button type="button" onClick={() => void save('dxf')}>
            Save sections as DXF
          </button>
        )}
      </div>
    </section>
  );
}

/** The value of a typed text, `otherwise` if it is empty, and what is wrong with it. `read` throws a RangeError. */
function readOr<T>(text: string, otherwise: T, read: (text: string) => T) {
  try {
    return { value: text.trim() === '' ? otherwise : read(text.trim()), problem: undefined };
  } catch (error) {
    if (error instanceof RangeError) return { value: otherwise, problem: error.message };
    throw error;
  }
}

/** The typed planes. Throws a RangeError with what is wrong with one. */
const planesIn = (text: string, unit: 'mm' | 'in' | undefined): SpacePlane[] =>
  text
    .split(';')
    .filter((one) => one.trim() !== '')
    .map((one) => readPlane(one.trim(), unit));
