import { create } from 'zustand';
import type { Carrier, Corner } from '../../design/schema.ts';
import type { LimitFinding } from '../../findings/limitFindings.ts';
import type { Vec3 } from '../../math/vec.ts';
import type { LengthUnit } from '../../report/figures.ts';
import { limitOwner } from '../../sweep/limit.ts';
import type { InchDenominator } from '../../units/formatLength.ts';
import type { Theme } from '../kit/tokens.ts';

/** Key of a limit of a part that stays the same over edits. */
export const limitKey = (corner: Corner, limit: LimitFinding): string =>
  `${limit.kind} ${limitOwner(corner, limit)}`;

export type Standpoint = 'threeQuarter' | 'outboard' | 'rear' | 'top' | 'axis';

/** View of the camera, in the vehicle as shown. */
export interface CameraView {
  target: Vec3;
  /** Unit vector toward the eye. */
  eye: Vec3;
  pxPerMm: number;
}

/** Request for a view; `kept` is the view in which the camera was left. `count` distinguishes requests for the same view. */
export interface ViewRequest {
  from: Standpoint | 'pair' | 'section' | 'kept';
  count: number;
}

/** The selected dimension on a part's sheet, placed in the vehicle at ride height. */
interface LitDimension {
  carrier: Carrier;
  /** Points from end to end, in the vehicle at ride height. */
  places: readonly Vec3[];
  /** Value as typed or assumed. */
  text: string;
}

/** Sheets of the whole corner. */
export type OwnSheet =
  | 'corner'
  | 'suspension'
  | 'fit'
  | 'vary'
  | 'limits'
  | 'space'
  | 'templates'
  | 'remedy'
  | 'measuringError'
  | 'mockup'
  | 'assumed';

interface ViewState {
  unit: LengthUnit;
  /** Fraction of an inch shown beside decimals; undefined for none. */
  fraction: InchDenominator | undefined;
  theme: Theme;
  /** Index into the corner's pairs. */
  pair: number | undefined;
  /** Key of the joint or damper chosen; see `limitKey`. */
  limit: string | undefined;
  /** Pairs that stay on the charts when another pair is selected. */
  charted: readonly number[];
  /** Indices of the solids that hide the gap of the selected pair from every direction square to it. */
  hiding: readonly number[];
  /** Index into `corner.parts`. */
  part: number | undefined;
  /** The open sheet of the whole corner; the sheet of a selected part covers it. */
  sheet: OwnSheet | undefined;
  lit: LitDimension | undefined;
  /** Whether the suspension's points are shown for moving. */
  pointsShown: boolean;
  /** Path of the selected point in the file. */
  point: string | undefined;
  /** Ids of the hidden solids. */
  hidden: ReadonlySet<string>;
  /** Whether wheel and tyre are drawn as glass. */
  seeThrough: boolean;
  /** Whether the tape measure is active: pressing a feature measures from it. */
  tape: boolean;
  /** Whether surfaces are tinted by the distance to the nearest other part. */
  gapTint: boolean;
  /** Whether the zones of intended contact of the selected pair are outlined. */
  zonesShown: boolean;
  /** False while outlines replace the picture. */
  pictured: boolean;
  viewRequest: ViewRequest;
  /** View after the last camera movement. */
  camera: CameraView | undefined;
  cautionsOpen: boolean;
  /** Width of the left column, px; undefined for the default. */
  leftPx: number | undefined;
  /** The side panel shown if there is no room for both. */
  side: 'parts' | 'pairs';
  requestView(from: ViewRequest['from']): void;
  toggleHidden(ids: readonly string[]): void;
}

/** View state; it does not affect any computed number. */
export const useView = create<ViewState>((set) => ({
  unit: 'mm',
  theme: 'auto',
  pair: undefined,
  limit: undefined,
  fraction: undefined,
  charted: [],
  hiding: [],
  part: undefined,
  sheet: undefined,
  lit: undefined,
  pointsShown: false,
  point: undefined,
  hidden: new Set(),
  seeThrough: true,
  tape: false,
  gapTint: false,
  zonesShown: false,
  pictured: true,
  viewRequest: { from: 'threeQuarter', count: 0 },
  camera: undefined,
  cautionsOpen: false,
  leftPx: undefined,
  side: 'pairs',
  requestView: (from) => set(({ viewRequest }) => ({ viewRequest: { from, count: viewRequest.count + 1 } })),
  /** Hides all of `ids`; if all are hidden already, shows them. */
  toggleHidden: (ids) =>
    set(({ hidden }) => {
      const next = new Set(hidden);
      const hide = !ids.every((id) => hidden.has(id));
      for (const id of ids) hide ? next.add(id) : next.delete(id);
      return { hidden: next };
    }),
}));
