/** Cautions at the head of every report. */
export const CAUTIONS: readonly string[] = [
  'This report covers shapes and distances only. It does not cover strength, stiffness, fatigue, weld quality, brake performance or steering safety.',
  'A wheel, brake, steering or suspension part that fails can kill those in the vehicle and those near it.',
  'Before the vehicle moves, mock up the real assembly without springs. Move it by hand through all of its travel and steering, and check every gap listed here.',
  'Some things are not modelled, such as hoses, drive shafts and weld beads. The section Not modelled lists them. Check each one by hand.',
  'Your local vehicle code and the rules of your scrutineers take precedence over this report.',
  'If the law or the risk requires it, have a licensed engineer or certifier approve the design and a qualified welder do the welding.',
];
