import type { Corner } from '../design/schema.ts';
import { shownSteer } from '../design/side.ts';
import { type Figures, signedAngle } from './figures.ts';
import { shownInput, steeringFigures } from './steering.ts';

/** Road-wheel steer angle as shown, degrees: positive = front edge toward the vehicle's left. */
export const shownWheelAngleDeg = (corner: Corner, roadWheelAngleDeg: number): number =>
  shownSteer(corner.side, roadWheelAngleDeg);

export function travelInWords(travelMm: number, figures: Figures): string {
  if (travelMm === 0) return 'ride height';
  const amount = `${figures.signedPlace(travelMm)} ${figures.unit}`;
  return travelMm > 0 ? `bump ${amount}` : `droop ${amount}`;
}

export function steerInWords(corner: Corner, steer: number, figures: Figures): string {
  if (steer === 0) return 'straight ahead';
  const { noun, signed, addUnit } = steeringFigures(corner, figures);
  return `${noun} ${addUnit(signed(shownInput(corner, steer)))} (front edge ${steer > 0 ? 'outboard' : 'inboard'})`;
}

/** "droop −70.0 mm, rack +60.0 mm (front edge outboard), wheel angle +31.4°". */
export function poseInWords(
  corner: Corner,
  pose: { travelMm: number; steer: number; roadWheelAngleDeg: number },
  figures: Figures,
): string {
  return [
    travelInWords(pose.travelMm, figures),
    steerInWords(corner, pose.steer, figures),
    `wheel angle ${signedAngle(shownWheelAngleDeg(corner, pose.roadWheelAngleDeg))}`,
  ].join(', ');
}
