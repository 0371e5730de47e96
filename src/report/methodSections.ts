import { inWords } from '../units/plainText.ts';
import { assetRows } from './assetRows.ts';
import { PROOF_IN_WORDS, spacingInWords } from './betweenSteps.ts';
import type { Section } from './content.ts';
import type { Figures } from './figures.ts';
import { NOT_MODELLED } from './notModelled.ts';
import { largest } from './proven.ts';
import type { Checked, ReportInput } from './reportInput.ts';
import { steeringTitle } from './steering.ts';

/** Section on the method: how the figures are computed and what their error bounds include. */
export function methodSection(checked: Checked, figures: Figures): Section {
  const { result, solids, findings } = checked;
  const { settings } = result;
  return {
    title: 'Method',
    blocks: [
      { kind: 'text', text: spacingInWords(checked, figures) },
      {
        kind: 'list',
        items: [
          `Parts are closed triangle meshes. The triangles of a curved surface stay within ${figures.boundWithUnit(settings.chordToleranceMm)} of it; the table below lists the error of each part. The clearance of two parts is the shortest distance between their meshes.`,
          ...(findings.lockedOut === undefined ? [] : [PROOF_IN_WORDS]),
          'Each part that turns with the wheel is checked as the body that it sweeps in a full turn.',
          `Clearances up to ${figures.givenWithUnit(settings.limitMm)} are measured. A pair that stays further apart at every step is listed as far, or as joined if its parts meet in a zone.`,
          `The ± after a clearance is a bound, not a standard deviation. It is the sum of the chord errors of both meshes, the residual of the solved pose (at most ${figures.boundWithUnit(largest(result.residualMm))} here) and the error of the distance search. Clearances and margins are rounded down, bounds are rounded up.`,
          'A depth that is not known to within 0.2 mm or 5 % has no ±. "At least 3.20 deep" is proven, with all errors subtracted; the true depth may be larger by any amount.',
          'The ± does not include the tolerances typed with dimensions, play in joints, flex, or tyre growth beyond the value entered. Put these into the allowances of the parts.',
          'A pair touches if the error bound does not exclude contact. Its clearance is then negative (the depth of the deepest point of one part inside the other), zero, or smaller than its ±. A pair is tight if its margin less the error is below zero.',
          'If two parts are joined or bolted together, contact is intended in zones, which are listed under Treatment of each pair. Both parts are checked everywhere outside the zones.',
        ],
      },
      {
        kind: 'folded',
        title: 'Mesh of each part',
        blocks: [
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
                inWords(solid.kind),
                inWords(solid.carrier),
                figures.bound(solid.chordErrorMm),
                String(solid.mesh.triangles.length / 3),
                (solid.volumeMm3 / 1000).toFixed(1),
              ],
            })),
          },
        ],
      },
    ],
  };
}

/** Section on what the solids and the mechanism leave out. */
export const notModelledSection = (): Section => ({
  title: 'Not modelled',
  blocks: [
    { kind: 'text', text: 'Check these by hand:' },
    { kind: 'list', items: [...NOT_MODELLED] },
  ],
});

/** Section on axes, signs, program version, design hashes and assets. */
export function aboutSection(input: ReportInput): Section {
  const { design } = input;
  return {
    title: 'Axes, signs and origin of this report',
    blocks: [
      {
        kind: 'list',
        items: [
          'X is forward from the front axle line, Y to the left from the centre line, Z up from the ground at ride height (ISO 8855). The chassis is fixed and the wheel moves.',
          'Travel is the rise of the wheel centre from ride height: bump positive, droop negative.',
          `${steeringTitle(design.corner)} displacement and wheel angle are positive where this wheel's front edge turns toward the vehicle's left.`,
          'Places about the wheel axis turn with the upright: degrees from the top at ride height, distance from the axis, and distance along the axis from the wheel-mounting face of the hub.',
          ...(design.corner.side === 'right'
            ? [
                `This is a right corner. Y, ${steeringTitle(design.corner).toLowerCase()} displacement and wheel angle are for the right side, mirrored from the left-hand dimensions in the file.`,
              ]
            : []),
        ],
      },
      {
        kind: 'table',
        columns: [{ title: 'Item' }, { title: 'Value' }],
        rows: [
          { cells: ['Program', `Daylight ${input.version}`] },
          { cells: ['Date', input.date] },
          { cells: ['Design hash (SHA-256)', design.hash] },
          { cells: ['Design hash of the sweep', input.result.designHash] },
          ...assetRows(design).map((cells) => ({ cells })),
        ],
      },
    ],
  };
}
