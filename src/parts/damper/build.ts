import type { Entry } from '../../design/schema.ts';
import { translation } from '../../math/rigid.ts';
import { normalize, scale, sub, type Vec3 } from '../../math/vec.ts';
import type { BuildContext, Builder, BuiltSolid } from '../../solids/build.ts';
import { damperRangeMm } from '../../solids/damperRange.ts';
import { type Manifold, rod } from '../../solids/modeller.ts';
import { placed, worstChordMm } from '../../solids/place.ts';

/** Length of rod inside the body at the damper's longest, mm, so that no gap shows. No source. */
const ENGAGED_MM = 10;

/**
 * A damper as two solids that slide into each other: `ID.body` on the mount that `bodyEnd` names, `ID.rod` on the other,
 * at ride height. Eyes are solid discs; body, rod and spring begin halfway between the centre and the edge of their eye.
 * The rod reaches into the body at the damper's longest, and does not pass through the body's far end at its shortest.
 *
 * The spring is a cylinder around its outside, from its seat on the body to the rod's mount, in two pieces that slide over
 * each other: one on the rod, as long as the spring at the damper's shortest, and one on the body, which covers the stroke.
 * Together they fill the spring's length at every pose. Only if the spring is compressed to less than half does the rod's
 * piece reach past the seat at full bump. The damper is never shorter than its body: if travel would compress it further,
 * it has bottomed out.
 */
export const buildDamper: Builder<Entry<'damper'>> = (entry, context) => {
  const range = damperRangeMm(context.corner.suspension);
  checkDamper(entry, range.ride);
  const shortest = Math.max(range.shortest, entry.bodyLength);
  const stroke = range.longest - shortest;
  const rodSpare = shortest - (range.longest - entry.bodyLength);
  if (rodSpare <= 0) {
    throw new Error(
      `bodyLength ${entry.bodyLength} mm is too short: over the suspension's travel the mounts move from ` +
        `${shortest.toFixed(1)} to ${range.longest.toFixed(1)} mm apart, and a rod for that stroke ` +
        `does not fit inside the body; it must be more than ${stroke.toFixed(1)} mm`,
    );
  }
  const rodLength = range.longest - entry.bodyLength + Math.min(ENGAGED_MM, rodSpare);
  const body: Piece[] = [{ from: 0, to: entry.bodyLength, diameter: entry.bodyDiameter }];
  const slide: Piece[] = [{ from: 0, to: rodLength, diameter: entry.rodDiameter }];
  if (entry.spring !== undefined) {
    const { seat, outerDiameter } = entry.spring;
    const compressed = shortest - seat;
    // A little more than the stroke, since the range is known at grid poses only.
    const onBody = Math.min(compressed, 1.05 * stroke + 1);
    const onRod = Math.max(compressed, range.longest - seat - onBody);
    if (onBody > 0) body.push({ from: seat, to: seat + onBody, diameter: outerDiameter });
    slide.push({ from: 0, to: onRod, diameter: outerDiameter });
  }

  const { chassisMount, armMount } = context.corner.suspension.damper!;
  const chassis = { name: 'damperChassis', at: chassisMount, far: armMount };
  const arm = { name: 'damperArm', at: armMount, far: chassisMount };
  const [bodyMount, rodMount] = entry.bodyEnd === 'chassis' ? [chassis, arm] : [arm, chassis];
  return [
    {
      id: `${entry.id}.body`,
      kind: 'damperBody',
      carrier: 'damperBody',
      ...halfDamper(body, bodyMount, entry, context),
    },
    {
      id: `${entry.id}.rod`,
      kind: 'damperRod',
      carrier: 'damperRod',
      ...halfDamper(slide, rodMount, entry, context),
    },
  ];
};

/** Throws if the entry's lengths do not fit a damper that is `rideMm` long at ride height. */
function checkDamper(entry: Entry<'damper'>, rideMm: number): void {
  const { bodyLength, eyeDiameter, bodyDiameter, rodDiameter, spring } = entry;
  if (bodyLength >= rideMm) {
    throw new Error(
      `bodyLength ${bodyLength} mm is longer than the damper: its mounts are ${rideMm.toFixed(1)} mm apart at ` +
        'ride height',
    );
  }
  if (bodyLength <= eyeDiameter / 2) {
    throw new Error(
      `bodyLength ${bodyLength} mm, from the centre of the mount, ends inside an eye of eyeDiameter ` +
        `${eyeDiameter} mm: it must be more than half of that`,
    );
  }
  if (rodDiameter >= bodyDiameter) {
    throw new Error(
      `rodDiameter ${rodDiameter} mm does not slide in a body of bodyDiameter ${bodyDiameter} mm: it must be less`,
    );
  }
  if (spring !== undefined && spring.seat > bodyLength) {
    throw new Error(
      `spring.seat ${spring.seat} mm is beyond the body, which ends ${bodyLength} mm from its mount`,
    );
  }
}

/** A cylinder along the damper: distances from the centre of its mount, mm. */
interface Piece {
  from: number;
  to: number;
  diameter: number;
}

/** The eye at a mount and the pieces on that mount, along the line to the far mount. */
function halfDamper(
  pieces: readonly Piece[],
  mount: { name: string; at: Vec3; far: Vec3 },
  entry: Entry<'damper'>,
  { modeller, chordToleranceMm }: BuildContext,
): Omit<BuiltSolid, 'id' | 'kind' | 'carrier'> {
  const along = normalize(sub(mount.far, mount.at));
  const eye = scale(normalize(entry.eyeDirection), entry.eyeWidth / 2);
  const round = (from: Vec3, to: Vec3, diameter: number): Manifold =>
    rod(modeller, from, to, diameter / 2, chordToleranceMm);
  const start = entry.eyeDiameter / 4;
  const solids = pieces
    .filter((piece) => piece.to > start)
    .map(({ from, to, diameter }) => round(scale(along, Math.max(from, start)), scale(along, to), diameter));
  const radii = [entry.eyeDiameter / 2, ...pieces.map(({ diameter }) => diameter / 2)];
  return {
    attachments: [{ name: mount.name, at: mount.at }],
    ...placed(
      modeller.Manifold.union([round(scale(eye, -1), eye, entry.eyeDiameter), ...solids]),
      translation(mount.at),
      worstChordMm(radii, chordToleranceMm),
    ),
  };
}
