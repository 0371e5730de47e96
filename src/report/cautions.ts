/** What stands at the head of every report. */
export const CAUTIONS: readonly string[] = [
  'This report is about shapes and distances only. It says nothing of strength, stiffness, fatigue, weld quality, brake performance or steering safety.',
  'A wheel, brake, steering or suspension part that fails can kill those in the vehicle and those near it.',
  'Before the vehicle moves, mock up the real assembly and take it by hand through all of its travel and steering, with the springs out, and look at every gap named here.',
  'Some things are not modelled, such as hoses, drive shafts and weld beads. The section Not modelled lists them: check each by hand.',
  'The vehicle code where you live and the rules of your scrutineers come before anything written here.',
  'Where the law or the stakes ask for it, have a licensed engineer or certifier approve the design and a qualified welder do the welding.',
];
