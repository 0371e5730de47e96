import { valueAt } from '../../design/path.ts';
import type { Corner } from '../../design/schema.ts';
import { HistoryTools } from '../bench/HistoryTools.tsx';
import { FileTools } from '../keep/FileTools.tsx';
import { useCorner } from '../stores/cornerStore.ts';
import { sourceInHand, useDocument } from '../stores/documentStore.ts';
import { useView } from '../stores/viewStore.ts';
import { DemoMenu } from './DemoMenu.tsx';
import { ReportButton } from './ReportButton.tsx';
import { SweepStatus } from './SweepStatus.tsx';
import { ThemeSwitch } from './ThemeSwitch.tsx';
import { UnitSwitch } from './UnitSwitch.tsx';

/** Name and verdict of the corner in hand, and what can be done with it as a whole. */
export function Header() {
  const corner = useCorner((state) => state.corner);
  const design = corner?.design.corner;
  const inRepair = useDocument((state) => valueAt(sourceInHand(state), ['name'])?.toString());
  return (
    <header className="header">
      <title>{design === undefined ? 'Daylight' : `${design.name} – Daylight`}</title>
      <h1 title={design?.note}>{design === undefined ? (inRepair ?? 'Daylight') : titleOf(design)}</h1>
      <SweepStatus />
      <div className="header-tools">
        <HistoryTools />
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

/** The name, and which side it is where the name does not say so. */
const titleOf = ({ name, side }: Corner): string =>
  name.toLowerCase().includes(side) ? name : `${name}, ${side} side`;
