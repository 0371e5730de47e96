import { useEffect, useMemo } from 'react';
import { Charts } from './charts/Charts.tsx';
import { type Demo, DemosContext } from './demos.ts';
import type { Engine } from './engine.ts';
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
import { Session, SessionContext } from './session.ts';
import { useCorner } from './stores/cornerStore.ts';
import { TokensContext, useTheme } from './tokens.ts';
import { Viewer } from './viewer/Viewer.tsx';

interface WorkbenchProps {
  engine: Engine;
  demos: readonly Demo[];
}

/** The whole screen. Begins with the first of the demos. */
export function Workbench({ engine, demos }: WorkbenchProps) {
  const tokens = useTheme();
  const session = useMemo(() => new Session(engine), [engine]);
  const corner = useCorner((state) => state.corner);

  useEffect(() => {
    const first = demos[0];
    if (first !== undefined) void session.open(first.fileName, first.text);
    return () => session.close();
  }, [session, demos]);

  if (tokens === undefined) return null;
  return (
    <SessionContext value={session}>
      <DemosContext value={demos}>
        <TokensContext value={tokens}>
          <div className="workbench">
            <Header />
            {corner === undefined ? (
              <p className="empty">Open a corner file, or drop one here.</p>
            ) : (
              <main className="bench-grid" key={corner.design.hash}>
                <PartsPanel corner={corner} />
                <Viewer corner={corner} />
                <TravelRule corner={corner} />
                <SteerRule corner={corner} />
                <PlayButton corner={corner} />
                <aside className="right-panel" aria-label="Clearances">
                  <MapPanel corner={corner} />
                  <PairList corner={corner} />
                </aside>
                <div className="strip">
                  <Charts corner={corner} />
                  <PoseReadout corner={corner} />
                </div>
              </main>
            )}
          </div>
          <ProblemsDialog />
          <CautionsDialog />
          <DropZone />
        </TokensContext>
      </DemosContext>
    </SessionContext>
  );
}
