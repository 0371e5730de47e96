/**
 * Every small number the kinematics lean on, each with its reason. Coordinates of a corner are below a few thousand
 * millimetres, where neighbouring Float64 values lie about 2e-13 mm apart.
 */

/** Travel is met to within this: a thousand rounding steps, a ten-millionth of what any tape shows. */
export const TRAVEL_TOLERANCE_MM = 1e-10;

/**
 * Travel further off than this is not reached. Between the two lie corners of great size, whose coordinates are rounded
 * more coarsely, and the last hair before an end of the range, where neighbouring angles of the lower arm already lie
 * further apart in travel than the tolerance.
 */
export const TRAVEL_LIMIT_MM = 5e-10;

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
 * A branch ends where strides below this fail. Near an end joints move with the root of what is left, so that less than
 * a millionth of a radian of their range is left out.
 */
export const LEAST_STRIDE_RAD = 1e-13;

/** As LEAST_STRIDE_RAD, for the rack: rack travel this close to its end is not told from the end. */
export const LEAST_STRIDE_MM = 1e-7;

/** The most steer that is reached is told to this much rack, on the near side: finer than a steering stop is set. */
export const RACK_LIMIT_MM = 1e-4;

/** Cosine this near to 1 at the end of a branch: the two members stand in line there, which is why it ends. */
export const IN_LINE_COSINE_GAP = 1e-5;
