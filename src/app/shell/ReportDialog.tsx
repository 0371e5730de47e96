import { useEffect, useRef, useState } from 'react';
import { spotIds } from '../../report/pictures.ts';
import { Dialog } from '../kit/Dialog.tsx';
import { StudyProgress } from '../kit/StudyProgress.tsx';
import { cancelStops, findStops, useLimits } from '../sheets/limits/limitsStore.ts';
import { isStudied, useMeasuringError } from '../sheets/measuringError/measuringErrorStore.ts';
import { cancelMeasuringError, startMeasuringError } from '../sheets/measuringError/runMeasuringError.ts';
import { useCorner } from '../state/cornerStore.ts';
import { useSession } from '../state/session.ts';
import type { StudyState } from '../workers/studyRun.ts';
import { type DrawingsForm, isDrawings, type ReportForm, saveDrawings, saveReport } from './saveReport.ts';

/** A study that goes into the report. */
interface Study {
  title: string;
  /** What its progress counts, if the worker does not name it. */
  counted: string;
  isDone(): boolean;
  start(): void;
  cancel(): void;
  store: {
    getState(): { state: StudyState<unknown> };
    subscribe(listener: () => void): () => void;
  };
}

/** The studies of the corner on screen. */
function studiesOf(): Study[] {
  const { corner, swept } = useCorner.getState();
  if (corner === undefined || swept === undefined) return [];
  const { hash } = corner.design;
  const among = spotIds({ findings: swept.findings, solids: corner.solids, result: swept.result });
  return [
    {
      title: 'What moves the tightest clearances',
      counted: 'values changed',
      isDone: () => isStudied(useMeasuringError.getState().state, hash, among),
      start: () => startMeasuringError(corner, among, 'The group of the tightest pairs'),
      cancel: cancelMeasuringError,
      store: useMeasuringError,
    },
    {
      title: 'Usable part of travel and lock, and the stops',
      counted: 'sweeps done',
      isDone() {
        const { state } = useLimits.getState();
        return state.kind === 'done' && state.designHash === hash;
      },
      start: () => findStops(corner),
      cancel: cancelStops,
      store: useLimits,
    },
  ];
}

/** Resolves when a study has ended. */
const ended = ({ store }: Study): Promise<void> =>
  new Promise((resolve) => {
    const leave = store.subscribe(() => check());
    const check = () => {
      if (store.getState().state.kind === 'running') return;
      leave();
      resolve();
    };
    check();
  });

interface ReportDialogProps {
  form: ReportForm | DrawingsForm;
  /** Called once the file is saved, or its making is cancelled. */
  onClose(): void;
}

/** Runs the studies that the report needs and that are not done yet, then saves it. Shows progress meanwhile. */
export default function ReportDialog({ form, onClose }: ReportDialogProps) {
  const session = useSession();
  const [running, setRunning] = useState<Study>();
  /** Whether the studies that are left go on. */
  const goesOn = useRef(true);
  const isCancelled = useRef(false);
  const stop = () => {
    goesOn.current = false;
    running?.cancel();
  };
  useEffect(() => {
    const make = async () => {
      if (isDrawings(form)) return saveDrawings(form).finally(onClose);
      for (const study of studiesOf()) {
        // A study of other pairs, or of an earlier state, that still runs is superseded.
        if (study.isDone() || !goesOn.current) continue;
        setRunning(study);
        study.start();
        await ended(study);
      }
      if (!isCancelled.current) await saveReport(session, form);
      onClose();
    };
    void make();
  }, [session, form, onClose]);
  if (running === undefined) return null;
  return (
    <Dialog
      title="Clearance report"
      closeLabel="Cancel"
      onClose={() => {
        isCancelled.current = true;
        stop();
      }}
      actions={
        <button type="button" onClick={stop}>
          Save without it
        </button>
      }
    >
      <p>The report also shows this. It is computed now, and the report is saved after it.</p>
      <Progress study={running} />
    </Dialog>
  );
}

function Progress({ study }: { study: Study }) {
  const [state, setState] = useState(study.store.getState().state);
  useEffect(() => study.store.subscribe(() => setState(study.store.getState().state)), [study]);
  if (state.kind !== 'running') return null;
  return (
    <>
      <h3>{study.title}</h3>
      <StudyProgress done={state.done} total={state.total} what={state.what ?? study.counted} />
    </>
  );
}
