import type { Matrix4 } from 'three';
import { type Rigid, toMatrix4 } from '../../math/rigid.ts';

/** Sets a matrix to a rigid transform, and returns it. */
export const setMatrix = (matrix: Matrix4, transform: Rigid): Matrix4 =>
  matrix.set(...(toMatrix4(transform) as Parameters<Matrix4['set']>));
