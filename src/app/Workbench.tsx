import { Fragment, useDeferredValue } from 'react';
import { Charts } from './charts/Charts.tsx';
import { type Demo, DemosContext } from './demos.ts';
import type { OpenCorner } from './engine.ts';
import { KeepingNotice } from './keep/KeepingNotice.tsx';
import { MapPanel } from './pad/MapPanel.tsx';
import { PlayButton } from './pad/PlayButton.tsx';
import { SteerRule, TravelRule } from './pad/PoseRules.tsx';
import { CautionsDialog } from './panels/CautionsDialog.tsx';
import { DropZone } from './panels/DropZone.tsx';
import { Header } from './panels/Header.tsx';
import { PairList } from './panels/PairList.tsx';
import { PartsPanel } from './panels/PartsPanel.tsx';
import { PoseReadout } from './panels/PoseReadout.tsx';
import { ProblemsDialog } from './panels/ProblemsDialog.tsx';
import { type Session, SessionContext } from './session.ts';
import { useCorner } from './stores/cornerStore.ts';
import { TokensContext, useTheme } from './tokens.ts';
import { Viewer } from './viewer/Viewer.tsx';

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
  const shown = useInTurns(corner, opened);

  if (tokens === undefined) return null;
  return (
    <SessionContext value={session}>
      <DemosContext value={demos}>
        <TokensContext value={tokens}>
          <div className="workbench">
            <Header />
            <KeepingNotice />
            <main className="bench-grid">
              <Viewer corner={corner} />
              {corner === undefined && !waiting && (
                <p className="empty">Open a corner file, or drop one here.</p>
              )}
              {shown !== undefined && (
                <Fragment key={opened}>
                  <PartsPanel corner={shown} />
                  <TravelRule corner={shown} />
                  <SteerRule corner={shown} />
                  <PlayButton corner={shown} />
                  <aside className="right-panel" aria-label="Clearances">
                    <MapPanel corner={shown} />
                    <PairList corner={shown} />
                  </aside>
                  <div className="strip">
                    <Charts corner={shown} />
                    <PoseReadout corner={shown} />
                  </div>
                </Fragment>
              )}
            </main>
          </div>
          <ProblemsDialog />
          <CautionsDialog />
          <DropZone />
        </TokensContext>
      </DemosContext>
    </SessionContext>
  );
}

/**
 * The corner for the panels, which are made after the bench has it and in pieces, so that no task is long. Never a corner
 * of another file: its panels would show another corner's results. A corner that was changed keeps its panels, so that
 * whoever types in one goes on typing.
 */
function useInTurns(corner: OpenCorner | undefined, opened: number): OpenCorner | undefined {
  const deferred = useDeferredValue(opened);
  return deferred === opened ? corner : undefined;
}
