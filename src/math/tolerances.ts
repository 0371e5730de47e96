/**
 * Every small number the kinematics lean on, each with its reason. Coordinates of a corner are below a few thousand
 * millimetres, where neighbouring Float64 values lie about 2e-13 mm apart.
 */

/** Travel is met to within this: a thousand rounding steps, a ten-millionth of what any tape shows. */
export const TRAVEL_TOLERANCE_MM = 1e-10;

/** A member shorter than this has no direction worth the name: it is less than the width of a scribed line. */
export const LEAST_LENGTH_MM = 1;

/**
 * Sine of the least angle (about 0.06 degrees) between two members at ride height whose line-up would end the
 * mechanism's range. Nearer than this the side on which it is assembled cannot be told from measured hardpoints.
 */
export const LEAST_SINE = 1e-3;

/** Longest stride of the lower arm along a branch. Strides are checked after they are made, so it only saves work. */
export const LONGEST_STRIDE_RAD = 0.1;

/** Longest stride of the rack along a branch, as a share of the steering arm's length; checked in the same way. */
export const LONGEST_STRIDE_OF_STEERING_ARM = 0.2;

/**
 * A branch ends where strides below this fail. What is left out of the range is less than its square root (3e-7) of a
 * radian of upright turn, because near an end the upright turns with the root of what is left.
 */
export const LEAST_STRIDE_RAD = 1e-13;

/** As LEAST_STRIDE_RAD, for the rack. */
export const LEAST_STRIDE_MM = 1e-11;

/** Cosine this near to 1 at the end of a branch: the two members stand in line there, which is why it ends. */
export const IN_LINE_COSINE_GAP = 1e-5;
