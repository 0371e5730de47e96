import { PROOF_IN_WORDS, spacingInWords } from './betweenSteps.ts';
import type { Section } from './content.ts';
import type { Figures } from './figures.ts';
import { NOT_MODELLED } from './notModelled.ts';
import { largest } from './proven.ts';
import type { Checked, ReportInput } from './reportInput.ts';

/** `bearingHousing` as people write it: bearing housing. */
const spaced = (name: string): string => name.replace(/[A-Z]/g, (letter) => ` ${letter.toLowerCase()}`);

/** How the figures came about and what their error bars hold. */
export function methodSection(checked: Checked, figures: Figures): Section {
  const { result, solids, findings } = checked;
  const { settings } = result;
  return {
    title: 'How this was checked',
    blocks: [
      { kind: 'text', text: spacingInWords(checked, figures) },
      {
        kind: 'list',
        items: [
          `Parts are closed triangle meshes; a curved surface is cut into flats that stay within ${figures.boundWithUnit(settings.chordToleranceMm)} of it, and each part's own figure is in the table below. The clearance of two parts is the shortest distance between their meshes.`,
          ...(findings.lockedOut === undefined ? [] : [PROOF_IN_WORDS]),
          `Whatever turns with the wheel is checked as the body it sweeps in a full turn.`,
          `Clearances up to ${figures.givenWithUnit(settings.limitMm)} are measured; pairs that stay further apart at every step are listed as far, or as joined where they meet in a zone.`,
          `The ± after a clearance is a bound, not a likelihood: it adds the chord errors of both meshes, the error left in the solved pose (at most ${figures.boundWithUnit(largest(result.residualMm))} here), and that of the distance search. Clearances and margins are rounded down, bounds up.`,
          'A depth that could not be found to 0.2 mm or 5 % has no ±: "at least 3.20 deep" is proven, all errors taken off, and the true depth may be larger by any amount.',
          'The ± does not hold what you typed as ± with a dimension, play in joints, flex, or tyre growth beyond what was entered. Those belong in the allowances of the parts.',
          'A pair touches where the error bound cannot exclude contact; its clearance is then zero, negative (how deep the deepest point of one part lies inside the other) or smaller than its ±. A pair is tight where the margin less the error is below zero.',
          'Where two parts are joined or bolted together, contact is intended in zones, which are listed under How each pair is treated; all of both parts outside the zones is checked.',
        ],
      },
      {
        kind: 'table',
        columns: [
          { title: 'Part' },
          { title: 'Kind' },
          { title: 'Rides on' },
          { title: `Mesh error, ${figures.unit}`, figure: true },
          { title: 'Triangles', figure: true },
          { title: 'Volume, cm³', figure: true },
        ],
        rows: solids.map((solid) => ({
          cells: [
            solid.label,
            spaced(solid.kind),
            spaced(solid.carrier),
            figures.bound(solid.chordErrorMm),
            String(solid.mesh.triangles.length / 3),
            (solid.volumeMm3 / 1000).toFixed(1),
          ],
        })),
      },
    ],
  };
}

/** What is left out of the solids and the mechanism. */
export const notModelledSection = (): Section => ({
  title: 'Not modelled',
  blocks: [
    { kind: 'text', text: 'Look at these by hand:' },
    { kind: 'list', items: [...NOT_MODELLED] },
  ],
});

/** Axes and signs of the figures, then what made them. */
export function aboutSection(input: ReportInput): Section {
  const { design } = input;
  return {
    title: 'Axes, signs and origin of this report',
    blocks: [
      {
        kind: 'list',
        items: [
          'X forward from the front axle line, Y to the left from the centre line, Z up from the ground at ride height (ISO 8855); the chassis stands still and the wheel moves.',
          'Travel is the rise of the wheel centre from ride height: bump positive, droop negative.',
          "Rack displacement and wheel angle are positive where this wheel's front edge turns toward the vehicle's left.",
          'Places about the wheel axis turn with the upright: degrees from the top at ride height, distance from the axis, and distance along the axis from the face of the hub that the wheel side bolts to.',
          ...(design.corner.side === 'right'
            ? [
                'This is a right corner: Y, rack displacement and wheel angle are those of the right side, mirrored from the left-hand dimensions in the file.',
              ]
            : []),
        ],
      },
      {
        kind: 'table',
        columns: [{ title: 'Item' }, { title: 'Value' }],
        rows: [
          { cells: ['Made by', `Daylight ${input.version}`] },
          { cells: ['Made on', input.date] },
          { cells: ['Design hash (SHA-256)', design.hash] },
          { cells: ['Swept design', input.result.designHash] },
        ],
      },
    ],
  };
}
