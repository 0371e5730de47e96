import { expect, it } from 'vitest';
import { shownPoint } from '../../../src/design/side.ts';
import { applyPoint, compose, rotationAbout, translation } from '../../../src/math/rigid.ts';
import { screenAxes } from '../../../src/math/screenAxes.ts';
import { dot, normalize, type Vec3 } from '../../../src/math/vec.ts';
import { linesPath, loopsPath, ontoScreen } from '../../../src/report/drawings/ontoScreen.ts';
import { between, mulberry32 } from '../../oracles/random.ts';

it.each(['left', 'right'] as const)('projects a point of a %s corner to where it is shown', (side) => {
  const random = mulberry32(11);
  const vec = (reach: number): Vec3 => [
    between(random, -reach, reach),
    between(random, -reach, reach),
    between(random, -reach, reach),
  ];
  for (let k = 0; k < 50; k++) {
    const posed = compose(translation(vec(900)), rotationAbout(vec(500), normalize(vec(1)), random()));
    const [eye, a, b] = [normalize(vec(1)), vec(400), vec(400)];
    const path = linesPath(ontoScreen(posed, eye, side), [...a, ...b]);
    const drawn = path.match(/-?[\d.]+/g)?.map(Number) ?? [];
    const { right, up } = screenAxes(eye);
    const wanted = [a, b].flatMap((p) => {
      const shown = shownPoint(side, applyPoint(posed, p));
      return [dot(shown, right), -dot(shown, up)];
    });
    expect(drawn).toHaveLength(4);
    // Paths are rounded to 0.01 mm.
    for (const [i, value] of wanted.entries()) expect(Math.abs(drawn[i] - value)).toBeLessThan(0.0051);
  }
});

it('closes each outline', () => {
  const seen = ontoScreen(translation([0, 0, 0]), [-1, 0, 0], 'left');
  const loop = (y: number) => {
    const corners: Vec3[] = [
      [0, y, 0],
      [0, y - 10, 0],
      [0, y, 10],
    ];
    return corners.flatMap((corner, i) => [...corner, ...corners[(i + 1) % 3]]);
  };
  const path = loopsPath(seen, [...loop(0), ...loop(50)]);
  expect(path.match(/[MLZ]/g)?.join('')).toBe('MLLZMLLZ');
});
