import { BUMP_MM, box } from '../vary/boxCorner.ts';

const [LOW, HIGH] = [350 - 50, 350 + BUMP_MM];
const inner = (z: number) => `${z} mm ±100`;

/** A block that rises in a slot, whose edges cross if both are off by their ± towards the block. */
export const CROSSING_SLOT = [
  box('rising', 'upright', [5, 690, 350], [4, 30, 20]),
  {
    id: 'slot',
    kind: 'plate',
    carrier: 'chassis',
    thickness: 10,
    outline: [
      [0, 600, LOW - 60],
      [0, 720, LOW - 60],
      [0, 720, inner(LOW - 40)],
      [0, 620, inner(LOW - 40)],
      [0, 620, inner(HIGH + 40)],
      [0, 720, inner(HIGH + 40)],
      [0, 720, HIGH + 60],
      [0, 600, HIGH + 60],
    ],
  },
];
