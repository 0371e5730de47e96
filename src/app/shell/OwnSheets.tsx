import { type ComponentType, lazy } from 'react';
import type { OpenCorner } from '../state/engine.ts';
import type { OwnSheet } from '../state/viewStore.ts';

interface SheetProps {
  corner: OpenCorner;
  onClose(): void;
}

export const loadFitSheet = () => import('../sheets/fit/FitSheet.tsx');

/** Each sheet is loaded when it is opened. */
const SHEETS: Readonly<Record<OwnSheet, ComponentType<SheetProps>>> = {
  corner: lazy(() =>
    import('../sheets/parts/CornerSheet.tsx').then((made) => ({ default: made.CornerSheet })),
  ),
  suspension: lazy(() =>
    import('../sheets/parts/SuspensionSheet.tsx').then((made) => ({ default: made.SuspensionSheet })),
  ),
  fit: lazy(loadFitSheet),
  vary: lazy(() => import('../sheets/vary/VarySheet.tsx')),
  limits: lazy(() => import('../sheets/limits/LimitsSheet.tsx')),
  space: lazy(() => import('../sheets/space/SpaceSheet.tsx')),
  templates: lazy(() => import('../sheets/templates/TemplatesSheet.tsx')),
  remedy: lazy(() => import('../sheets/remedy/RemedySheet.tsx')),
  measuringError: lazy(() => import('../sheets/measuringError/MeasuringErrorSheet.tsx')),
  mockup: lazy(() => import('../sheets/mockup/MockupSheet.tsx')),
  assumed: lazy(() =>
    import('../sheets/parts/AssumedSheet.tsx').then((made) => ({ default: made.AssumedSheet })),
  ),
};

/** The open sheet, apart from that of a part. */
export default function OwnSheets({ name, ...props }: SheetProps & { name: OwnSheet }) {
  const Sheet = SHEETS[name];
  return <Sheet {...props} />;
}
