import { Fragment, useDeferredValue } from 'react';
import { Charts } from './charts/Charts.tsx';
import { type Demo, DemosContext } from './demos.ts';
import type { OpenCorner } from './engine.ts';
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
  const shown = useInTurns(corner);

  if (tokens === undefined) return null;
  return (
    <SessionContext value={session}>
      <DemosContext value={demos}>
        <TokensContext value={tokens}>
          <div className="workbench">
            <Header />
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
 * that is not in hand any more: its panels would show another corner's results.
 */
function useInTurns(corner: OpenCorner | undefined): OpenCorner | undefined {
  const deferred = useDeferredValue(corner);
  return deferred === corner ? deferred : undefined;
}
