import type { Corner, PartEntry } from '../design/schema.ts';
import { type AxialStack, axialStack, entries } from '../solids/wheelFrame.ts';
import { caliperFigures } from '../studies/clocking/figures.ts';
import { lowerArmDistance } from '../studies/clocking/lowerArm.ts';
import { aheadInWords, bleedAndArmLines } from './clocking/clockingWords.ts';
import type { Block, Section } from './content.ts';
import { type Figures, signedAngle } from './figures.ts';
import type { ReportInput } from './reportInput.ts';

/** Section on how the parts are fitted at the wheel: clockings, and the faces along the wheel axis. */
export function fitSection(
  { design, solids }: Pick<ReportInput, 'design' | 'solids'>,
  figures: Figures,
): Section {
  const { corner } = design;
  const [hub] = entries(corner, 'hub');
  const [caliper] = entries(corner, 'caliper');
  const lines: string[] = [];
  if (caliper !== undefined) {
    const { clockingDeg } = caliper;
    const place = caliperFigures(corner, clockingDeg);
    const toArm = lowerArmDistance({ design, solids })(clockingDeg);
    const facts = bleedAndArmLines(place, toArm, figures).map((line) => `; ${line}`);
    lines.push(
      `${nameOf(caliper)}: clocking ${signedAngle(clockingDeg)}, its middle ${aheadInWords(place, figures)}${facts.join('')}.`,
    );
  }
  if (hub !== undefined) lines.push(`${nameOf(hub)}: clocking ${signedAngle(hub.clockingDeg)}.`);
  const clockings: Block[] =
    lines.length === 0
      ? []
      : [
          {
            kind: 'text',
            text: 'Clockings, about the wheel axis from straight above toward the rear, at ride height:',
          },
          { kind: 'list', items: lines },
        ];
  return {
    title: 'Fit arrangement',
    blocks: [
      ...clockings,
      {
        kind: 'table',
        columns: [
          { title: 'Face on the wheel axis, from outboard to inboard' },
          { title: `Depth, ${figures.unit}`, figure: true },
        ],
        rows: facesOf(corner, axialStack(corner))
          .toSorted((one, other) => other.depthMm - one.depthMm)
          .map(({ name, depthMm }) => ({ cells: [name, figures.signedPlace(depthMm)] })),
      },
      {
        kind: 'text',
        text: "Depths are outboard of the hub's wheel-mounting face; negative inboard of it.",
      },
    ],
  };
}

interface Face {
  name: string;
  depthMm: number;
}

const nameOf = ({ label, id }: PartEntry): string => label ?? id;

/** The faces that decide where wheel, brake and upright are along the wheel axis, in the order of the file. */
function facesOf(corner: Corner, depths: AxialStack): Face[] {
  return [
    { name: "Wheel's mounting face", depthMm: depths.wheelFaceDepth },
    ...entries(corner, 'wheel').map((wheel) => ({
      name: `${nameOf(wheel)}: rim's centre plane`,
      depthMm: depths.rimCentreY(wheel) - depths.hubFaceY,
    })),
    ...entries(corner, 'spacer').flatMap((spacer) => {
      const { inboard, outboard } = depths.spacerFaces(spacer);
      return [
        { name: `${nameOf(spacer)}: outboard face`, depthMm: outboard },
        { name: `${nameOf(spacer)}: inboard face`, depthMm: inboard },
      ];
    }),
    ...entries(corner, 'rotor').flatMap((rotor) => {
      const { inboard, outboard } = depths.rotorFaces(rotor);
      return [
        { name: `${nameOf(rotor)}: outboard friction face`, depthMm: outboard },
        { name: `${nameOf(rotor)}: inboard friction face`, depthMm: inboard },
      ];
    }),
    ...entries(corner, 'hub').flatMap((hub) => [
      { name: `${nameOf(hub)}: wheel-mounting face`, depthMm: 0 },
      { name: `${nameOf(hub)}: bearing housing's mounting face`, depthMm: depths.housingFaceDepth },
    ]),
    ...entries(corner, 'upright').map((upright) => ({
      name: `${nameOf(upright)}: hub pad`,
      depthMm: depths.uprightFaceDepth,
    })),
  ];
}
