import { create } from 'zustand';
import type { Carrier, Corner } from '../../design/schema.ts';
import type { LimitFinding } from '../../findings/limitFindings.ts';
import type { Vec3 } from '../../math/vec.ts';
import type { LengthUnit } from '../../report/figures.ts';

/** Names a limit of a part, the same from one state of a corner to the next. */
export const limitKey = ({ parts }: Corner, { kind, partIndex }: LimitFinding): string =>
  `${kind} ${parts[partIndex].id}`;

export type Theme = 'auto' | 'light' | 'dark';

export const STANDPOINTS = ['threeQuarter', 'outboard', 'rear', 'top', 'axis'] as const;
export type Standpoint = (typeof STANDPOINTS)[number];

/** Where the camera stands: what it looks at, from which direction (unit vector), how large; as shown. */
export interface CameraView {
  target: Vec3;
  eye: Vec3;
  pxPerMm: number;
}

/** Where the viewer is asked to look from; `kept` is where the camera was left. `count` tells one request from the next for the same place. */
export interface LookRequest {
  from: Standpoint | 'pair' | 'section' | 'kept';
  count: number;
}

/** The dimension of a part that is in hand on its sheet, where it is in the vehicle at ride height. */
export interface LitDimension {
  carrier: Carrier;
  /** From end to end, in the vehicle at ride height. */
  places: readonly Vec3[];
  /** Its value as typed or assumed. */
  text: string;
}

/** Sheets of the whole corner. */
export type OwnSheet = 'corner' | 'suspension' | 'fit' | 'vary' | 'assumed';

interface ViewState {
  unit: LengthUnit;
  theme: Theme;
  /** Index into the corner's pairs. */
  pair: number | undefined;
  /** Key of the joint or damper chosen; see `limitKey`. */
  limit: string | undefined;
  /** Pairs that stay on the charts, whichever is in hand. */
  charted: readonly number[];
  /** Indices of the solids that hide the gap of the pair in hand from every side square to it. */
  hiding: readonly number[];
  /** Index into `corner.parts`. */
  part: number | undefined;
  /** The sheet of the whole corner that is open; a part in hand lies over it. */
  sheet: OwnSheet | undefined;
  lit: LitDimension | undefined;
  /** The suspension's points are shown, to be moved. */
  pointsShown: boolean;
  /** Which of them is in hand: its path in the file. */
  point: string | undefined;
  /** Ids of solids that are not drawn. */
  hidden: ReadonlySet<string>;
  /** Wheel and tyre are drawn as glass. */
  seeThrough: boolean;
  /** The tape is out: what is pressed is measured from. */
  tape: boolean;
  /** Surfaces are tinted by how near the nearest other part is. */
  gapTint: boolean;
  /** The zones of intended contact of the pair in hand are outlined. */
  zonesShown: boolean;
  /** False while outlines stand in place of the picture. */
  pictured: boolean;
  look: LookRequest;
  /** Where the camera came to rest. */
  camera: CameraView | undefined;
  cautionsOpen: boolean;
  /** Width of the left column, px; undefined as it comes. */
  leftPx: number | undefined;
  /** Which side panel is shown where there is no room for both. */
  side: 'parts' | 'pairs';
  lookFrom(from: LookRequest['from']): void;
  toggleHidden(ids: readonly string[]): void;
}

/** How things are shown; nothing here changes a number. */
export const useView = create<ViewState>((set) => ({
  unit: 'mm',
  theme: 'auto',
  pair: undefined,
  limit: undefined,
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
  look: { from: 'threeQuarter', count: 0 },
  camera: undefined,
  cautionsOpen: false,
  leftPx: undefined,
  side: 'pairs',
  lookFrom: (from) => set(({ look }) => ({ look: { from, count: look.count + 1 } })),
  /** Hides all of `ids`; shows them when all are hidden already. */
  toggleHidden: (ids) =>
    set(({ hidden }) => {
      const next = new Set(hidden);
      const hide = !ids.every((id) => hidden.has(id));
      for (const id of ids) hide ? next.add(id) : next.delete(id);
      return { hidden: next };
    }),
}));
