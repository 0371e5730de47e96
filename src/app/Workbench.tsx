import { Fragment, lazy, Suspense, startTransition, useEffect, useState } from 'react';
import { RepairPanel } from './bench/RepairPanel.tsx';
import { Charts } from './charts/Charts.tsx';
import { type Demo, DemosContext } from './demos.ts';
import { KeepingNotice } from './keep/KeepingNotice.tsx';
import { MapPanel } from './pad/MapPanel.tsx';
import { PlayButton } from './pad/PlayButton.tsx';
import { SteerRule, TravelRule } from './pad/PoseRules.tsx';
import { CautionsDialog } from './panels/CautionsDialog.tsx';
import { DropZone } from './panels/DropZone.tsx';
import { Header } from './panels/Header.tsx';
import { LimitList } from './panels/LimitList.tsx';
import { PairList } from './panels/PairList.tsx';
import { PartsPanel } from './panels/PartsPanel.tsx';
import { PoseReadout } from './panels/PoseReadout.tsx';
import { ProblemsDialog } from './panels/ProblemsDialog.tsx';
import { SideSwitch } from './panels/SideSwitch.tsx';
import { SkipKeys } from './panels/SkipKeys.tsx';
import { StaleNote } from './panels/StaleNote.tsx';
import { type Session, SessionContext } from './session.ts';
import { useStart } from './start/startStore.ts';
import { useCorner } from './stores/cornerStore.ts';
import { standingOf, useDocument } from './stores/documentStore.ts';
import { useView } from './stores/viewStore.ts';
import { TokensContext, useTheme } from './tokens.ts';
import { panelsMade } from './viewer/moments.ts';
import { Viewer } from './viewer/Viewer.tsx';

const StartSheet = lazy(() =>
  import('./start/StartSheet.tsx').then((made) => ({ default: made.StartSheet })),
);

interface WorkbenchProps {
  session: Session;
  demos: readonly Demo[];
}

/** The whole screen. The bench stands before there is a corner on it: its drawing context takes long to come. */
export function Workbench({ session, demos }: WorkbenchProps) {
  const tokens = useTheme();
  const corner = useCorner((state) => state.corner);
  const opened = useCorner((state) => state.opened);
  const waiting = useCorner((state) => state.opening !== undefined);
  const starting = useStart((state) => state.open);
  const inRepair = useDocument((state) => state.changes.length > 0);
  const side = useView((view) => view.side);
  const leftPx = useView((view) => view.leftPx);
  const turns = useTurns(corner === undefined ? 0 : opened);

  if (tokens === undefined) return null;
  return (
    <SessionContext value={session}>
      <DemosContext value={demos}>
        <TokensContext value={tokens}>
          <div className="workbench" ref={markStanding}>
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
              {corner === undefined && inRepair && <RepairPanel key={opened} />}
              {corner !== undefined && turns > 0 && (
                <Fragment key={opened}>
                  <SideSwitch />
                  {turns > 2 && <PartsPanel corner={corner} />}
                  {turns > 1 && (
                    <>
                      <TravelRule corner={corner} />
                      <SteerRule corner={corner} />
                      <PlayButton corner={corner} />
                    </>
                  )}
                  <aside className="right-panel" aria-label="Clearances">
                    <MapPanel corner={corner} />
                    {turns > 1 && <LimitList corner={corner} />}
                    {turns > 1 && <PairList corner={corner} />}
                  </aside>
                  <section className="strip" aria-label="Charts and figures">
                    <StaleNote />
                    {turns > 3 && <Charts corner={corner} />}
                    {turns > 1 && <PoseReadout corner={corner} />}
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

/** Marks the workbench with how its figures stand to the file, for the style sheet. A render of it all would take long. */
function markStanding(workbench: HTMLElement | null): (() => void) | undefined {
  if (workbench === null) return undefined;
  const mark = () => {
    workbench.dataset.standing = standingOf(useDocument.getState());
  };
  mark();
  return useDocument.subscribe(mark);
}

/** The width that a person gave the left column, for the style sheet. */
const leftStyle = (px: number | undefined) =>
  px === undefined ? undefined : { ['--left' as string]: `${px}px` };

const LAST_TURN = 4;

/**
 * How many turns of the panels of the file opened are made: after the bench has it and one by one, so that no task is long.
 * A corner of the same file that was changed keeps its panels, so that whoever types in one goes on typing.
 */
function useTurns(opened: number): number {
  const [made, setMade] = useState({ opened, turns: 0 });
  const turns = made.opened === opened ? made.turns : 0;
  useEffect(() => {
    if (turns === LAST_TURN) return panelsMade.tell();
    if (opened === 0) return;
    const timer = setTimeout(() => startTransition(() => setMade({ opened, turns: turns + 1 })));
    return () => clearTimeout(timer);
  }, [opened, turns]);
  return turns;
}
