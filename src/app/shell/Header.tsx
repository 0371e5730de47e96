import { valueAt } from '../../design/path.ts';
import type { Corner } from '../../design/schema.ts';
import { HistoryTools } from '../sheets/parts/HistoryTools.tsx';
import { useCorner } from '../state/cornerStore.ts';
import { currentSource, useDocument } from '../state/documentStore.ts';
import { useView } from '../state/viewStore.ts';
import { DemoMenu } from './DemoMenu.tsx';
import { FileTools } from './FileTools.tsx';
import { ReportButton } from './ReportButton.tsx';
import { SweepStatus } from './SweepStatus.tsx';
import { ThemeSwitch } from './ThemeSwitch.tsx';
import { UnitSwitch } from './UnitSwitch.tsx';

const GUIDE = `${import.meta.env.BASE_URL}guide/index.html`;

/** Name and counts of the corner, and the tools for the whole corner. */
export function Header() {
  const corner = useCorner((state) => state.corner);
  const design = corner?.design.corner;
  const inRepair = useDocument((state) => valueAt(currentSource(state), ['name'])?.toString());
  return (
    <header className="header">
      <title>{design === undefined ? 'Daylight' : `${design.name} – Daylight`}</title>
      <h1 title={design?.note}>{design === undefined ? (inRepair ?? 'Daylight') : titleOf(design)}</h1>
      <SweepStatus />
      <div className="header-tools">
        <HistoryTools />
        <a className="quiet" href={GUIDE} target="_blank" rel="noreferrer" title="Opens in a new tab">
          Guide
        </a>
        <button type="button" className="quiet" onClick={() => useView.setState({ cautionsOpen: true })}>
          Cautions
        </button>
        <ThemeSwitch />
        <UnitSwitch />
        <DemoMenu />
        <FileTools />
        <ReportButton />
      </div>
    </header>
  );
}

/** The name, with the side unless the name contains it. */
const titleOf = ({ name, side }: Corner): string =>
  name.toLowerCase().includes(side) ? name : `${name}, ${side} side`;
