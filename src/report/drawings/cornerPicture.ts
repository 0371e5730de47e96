import type { Corner } from '../../design/schema.ts';
import { normalize, type Vec3 } from '../../math/vec.ts';
import type { Carriers } from '../../mechanism/pose.ts';
import type { Solid } from '../../solids/solid.ts';
import { type CornerView, cornerView } from './cornerView.ts';
import { FIRST, INK, PALE, SECOND, SOFT } from './ink.ts';
import type { Point } from './ontoScreen.ts';
import { type Box, plain } from './path.ts';

/** Toward the eye: from inboard and the rear, above a left corner. */
const EYE: Vec3 = normalize([-0.82, -0.42, 0.38]);

/** Less than a pixel of a picture as wide as a page. */
const TOLERANCE_MM = 0.8;

/** A view of the whole corner in a frame of a drawing. */
export interface CornerPicture {
  svg: string;
  /** Where a point of the vehicle is in the drawing, px. */
  place(vehiclePoint: Vec3): Point;
}

/**
 * The whole corner at a pose, seen from inboard and the rear, within a box of a drawing (px). Parts hide those behind them.
 * Wheel and tyre are drawn first and as lines, so that they hide nothing. `chosen`: indices of a first and a second solid to
 * fill in their colours.
 */
export function cornerPicture(
  solids: readonly Solid[],
  carriers: Carriers,
  corner: Pick<Corner, 'side'>,
  frame: Box,
  chosen: readonly number[] = [],
): CornerPicture {
  const [x, y, z] = EYE;
  const view = cornerView(solids, carriers, corner, [x, corner.side === 'left' ? y : -y, z], TOLERANCE_MM);
  const pxPerMm = Math.min(frame.width / view.box.width, frame.height / view.box.height);
  const offset = [
    frame.left + (frame.width - pxPerMm * view.box.width) / 2 - pxPerMm * view.box.left,
    frame.top + (frame.height - pxPerMm * view.box.height) / 2 - pxPerMm * view.box.top,
  ];
  return {
    svg: `<g transform="translate(${plain(offset[0])} ${plain(offset[1])}) scale(${pxPerMm.toFixed(5)})" stroke-linejoin="round">${partsSvg(view, solids, pxPerMm, chosen)}</g>`,
    place(point) {
      const [right, down] = view.project(point);
      return [offset[0] + pxPerMm * right, offset[1] + pxPerMm * down];
    },
  };
}

const isGlass = ({ kind }: Solid): boolean => kind === 'wheel' || kind === 'tyre';

function partsSvg(
  { parts }: CornerView,
  solids: readonly Solid[],
  pxPerMm: number,
  chosen: readonly number[],
): string {
  const lines = (px: number, colour: string) => `stroke="${colour}" stroke-width="${plain(px / pxPerMm)}"`;
  const glass = parts.filter(({ solid }) => isGlass(solids[solid]));
  const others = parts.filter(({ solid }) => !isGlass(solids[solid]));
  const fillOf = (solid: number) => [FIRST, SECOND][chosen.indexOf(solid)];
  return [
    ...glass.map(({ solid, covers }) => {
      const fill = fillOf(solid);
      const paint = fill === undefined ? 'fill="none"' : `fill="${fill}" fill-opacity="0.3"`;
      return `<path d="${covers}" ${paint} ${lines(0.7, SOFT)}/>`;
    }),
    ...others.map(
      ({ solid, covers, folds }) =>
        `<path d="${covers}" fill="${fillOf(solid) ?? PALE}" ${lines(0.8, INK)}/><path d="${folds}" fill="none" ${lines(0.35, SOFT)}/>`,
    ),
  ].join('');
}
