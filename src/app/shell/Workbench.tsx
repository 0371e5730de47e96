import { Fragment, lazy, Suspense, startTransition, useEffect, useState } from 'react';
import { Charts } from '../charts/Charts.tsx';
import { panelsShown } from '../kit/startupSignals.ts';
import { TokensContext, useTheme } from '../kit/tokens.ts';
import { MapPanel } from '../map/MapPanel.tsx';
import { PlayButton } from '../map/PlayButton.tsx';
import { SteerRule, TravelRule } from '../map/PoseRules.tsx';
import { StaleNote } from '../map/StaleNote.tsx';
import { useStart } from '../sheets/start/startStore.ts';
import { useCorner } from '../state/cornerStore.ts';
import { type Demo, DemosContext } from '../state/demos.ts';
import { statusOf, useDocument } from '../state/documentStore.ts';
import { type Session, SessionContext } from '../state/session.ts';
import { useView } from '../state/viewStore.ts';
import { CautionsDialog } from './CautionsDialog.tsx';
import { DropZone } from './DropZone.tsx';
import { Header } from './Header.tsx';
import { KeepingNotice } from './KeepingNotice.tsx';
import { LimitList } from './LimitList.tsx';
import { PairList } from './PairList.tsx';
import { PartsPanel } from './PartsPanel.tsx';
import { PoseReadout } from './PoseReadout.tsx';
import { ProblemsDialog } from './ProblemsDialog.tsx';
import { SideSwitch } from './SideSwitch.tsx';
import { SkipKeys } from './SkipKeys.tsx';
import { Viewer } from './view/Viewer.tsx';

const RepairPanel = lazy(() =>
  import('../sheets/parts/RepairPanel.tsx').then((made) => ({ default: made.RepairPanel })),
);
const StartSheet = lazy(() =>
  import('../sheets/start/StartSheet.tsx').then((made) => ({ default: made.StartSheet })),
);

interface WorkbenchProps {
  session: Session;
  demos: readonly Demo[];
}

/** The whole screen. The viewer is mounted before there is a corner, because its drawing context takes long to create. */
export function Workbench({ session, demos }: WorkbenchProps) {
  const tokens = useTheme(useView((view) => view.theme));
  const corner = useCorner((state) => state.corner);
  const opened = useCorner((state) => state.opened);
  const waiting = useCorner((state) => state.opening !== undefined);
  const starting = useStart((state) => state.open);
  const inRepair = useDocument((state) => state.changes.length > 0);
  const side = useView((view) => view.side);
  const leftPx = useView((view) => view.leftPx);
  const stages = useStages(corner === undefined ? 0 : opened);

  if (tokens === undefined) return null;
  return (
    <SessionContext value={session}>
      <DemosContext value={demos}>
        <TokensContext value={tokens}>
          <div className="workbench" ref={markStatus}>
            <SkipKeys />
            <Header />
            <KeepingNotice />
            <main className="bench-grid" data-side={side} style={leftStyle(leftPx)}>
              <Viewer corner={corner} />
              {corner === undefined && !waiting && (
                <p className="empty">
                  {inRepair
                    ? 'Nothing can be drawn until the wrong values are corrected.'
                    : 'Open a corner file, or drop one here.'}
                </p>
              )}
              {corner === undefined && inRepair && (
                <Suspense>
                  <RepairPanel key={opened} />
                </Suspense>
              )}
              {corner !== undefined && stages > 0 && (
                <Fragment key={opened}>
                  <SideSwitch />
                  {stages > 2 && <PartsPanel corner={corner} />}
                  {stages > 1 && (
                    <>
                      <TravelRule corner={corner} />
                      <SteerRule corner={corner} />
                      <PlayButton corner={corner} />
                    </>
                  )}
                  <aside className="right-panel" aria-label="Clearances">
                    <MapPanel corner={corner} />
                    {stages > 1 && <LimitList corner={corner} />}
                    {stages > 1 && <PairList corner={corner} />}
                  </aside>
                  <section className="strip" aria-label="Charts and figures">
                    <StaleNote />
                    {stages > 3 && <Charts corner={corner} />}
                    {stages > 1 && <PoseReadout corner={corner} />}
                  </section>
                </Fragment>
              )}
            </main>
          </div>
          <ProblemsDialog />
          <CautionsDialog />
          {starting && (
            <Suspense fallback={null}>
              <StartSheet />
            </Suspense>
          )}
          <DropZone />
        </TokensContext>
      </DemosContext>
    </SessionContext>
  );
}

/** Sets the status of the figures on the workbench for the style sheet, without a render. */
function markStatus(workbench: HTMLElement | null): (() => void) | undefined {
  if (workbench === null) return undefined;
  const mark = () => {
    workbench.dataset.standing = statusOf(useDocument.getState());
  };
  mark();
  return useDocument.subscribe(mark);
}

/** The width that the user gave the left column, for the style sheet. */
const leftStyle = (px: number | undefined) =>
  px === undefined ? undefined : { ['--left' as string]: `min(${px}px, 60vw)` };

const LAST_STAGE = 4;

/**
 * Number of panel stages mounted for the opened file. They are mounted one by one after the viewer, so that no task is long. A
 * change of the same file keeps its panels, and with them the focus.
 */
function useStages(opened: number): number {
  const [mounted, setMounted] = useState({ opened, stages: 0 });
  const stages = mounted.opened === opened ? mounted.stages : 0;
  useEffect(() => {
    if (stages === LAST_STAGE) return panelsShown.notify();
    if (opened === 0) return;
    const timer = setTimeout(() => startTransition(() => setMounted({ opened, stages: stages + 1 })));
    return () => clearTimeout(timer);
  }, [opened, stages]);
  return stages;
}
