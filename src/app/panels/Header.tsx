import { useRef } from 'react';
import type { Corner } from '../../design/schema.ts';
import { useSession } from '../session.ts';
import { useCorner } from '../stores/cornerStore.ts';
import { useView } from '../stores/viewStore.ts';
import { DemoMenu } from './DemoMenu.tsx';
import { ReportButton } from './ReportButton.tsx';
import { SweepStatus } from './SweepStatus.tsx';
import { ThemeSwitch } from './ThemeSwitch.tsx';
import { UnitSwitch } from './UnitSwitch.tsx';

/** Name and verdict of the corner in hand, and what can be done with it as a whole. */
export function Header() {
  const session = useSession();
  const corner = useCorner((state) => state.corner);
  const file = useRef<HTMLInputElement>(null);
  const design = corner?.design.corner;
  return (
    <header className="header">
      <h1 title={design?.note}>{design === undefined ? 'Daylight' : titleOf(design)}</h1>
      <SweepStatus />
      <div className="header-tools">
        <button type="button" className="quiet" onClick={() => useView.setState({ cautionsOpen: true })}>
          Cautions
        </button>
        <ThemeSwitch />
        <UnitSwitch />
        <DemoMenu />
        <button type="button" onClick={() => file.current?.click()}>
          Open
        </button>
        <input
          ref={file}
          type="file"
          hidden
          accept=".json,application/json"
          aria-label="Corner file"
          onChange={(event) => {
            const chosen = event.target.files?.[0];
            // The same file may be chosen again after it was changed.
            event.target.value = '';
            if (chosen) void session.openFile(chosen);
          }}
        />
        <ReportButton />
      </div>
    </header>
  );
}

/** The name, and which side it is where the name does not say so. */
const titleOf = ({ name, side }: Corner): string =>
  name.toLowerCase().includes(side) ? name : `${name}, ${side} side`;
