import { describe, expect, it } from 'vitest';
import type { Entity } from '../../../src/report/templates/entity.ts';
import { labelBox, withFreeLabels } from '../../../src/report/templates/labels.ts';
import { mulberry32 } from '../../oracles/random.ts';

type Label = Extract<Entity, { kind: 'text' }>;
const label = (x: number, y: number, text = 'bore'): Label => ({
  kind: 'text',
  layer: 'TEXT',
  at: [x, y],
  heightMm: 3,
  text,
});
const line = (from: [number, number], to: [number, number]): Entity => ({
  kind: 'line',
  layer: 'MARK',
  from,
  to,
});
const labelsOf = (shape: readonly Entity[]): Label[] =>
  withFreeLabels(shape).filter((entity): entity is Label => entity.kind === 'text');
const isIn = ([x, y]: readonly [number, number], one: Label) => {
  const { left, top, width, height } = labelBox(one);
  return x > left && x < left + width && y > top && y < top + height;
};

describe('labels of a template', () => {
  it('stay where they are if they cover nothing', () => {
    const shape = [line([0, 10], [30, 10]), label(0, 3)];
    expect(withFreeLabels(shape)).toEqual(shape);
  });

  it('cover no line, no circle and no other label, and stay near their place', () => {
    const seed = 20261202;
    const next = mulberry32(seed);
    for (let k = 0; k < 40; k++) {
      const at = () => 60 * next();
      const circle = { centre: [at(), at()] as const, radiusMm: 10 };
      const lines = Array.from({ length: 2 }, () => ({
        from: [at(), at()] as const,
        to: [at(), at()] as const,
      }));
      const before = [label(at(), at()), label(at(), at())];
      const after = labelsOf([
        ...lines.map(({ from, to }) => line([...from], [...to])),
        { kind: 'loop', layer: 'CUT', loop: { kind: 'circle', ...circle } },
        ...before,
      ]);
      const about = `seed ${seed}, case ${k}`;
      for (let s = 0; s <= 1000; s++) {
        const turn = (2 * Math.PI * s) / 1000;
        const points = [
          ...lines.map(({ from, to }) => [0, 1].map((i) => from[i] + (s / 1000) * (to[i] - from[i]))),
          [circle.centre[0] + 10 * Math.cos(turn), circle.centre[1] + 10 * Math.sin(turn)],
        ];
        for (const [x, y] of points)
          for (const one of after) if (isIn([x, y], one)) expect.fail(`${about}: a line is covered`);
      }
      const [one, other] = after.map(labelBox);
      expect(
        Math.abs(one.left - other.left) >= one.width || Math.abs(one.top - other.top) >= one.height,
        about,
      ).toBe(true);
      after.forEach(({ at: [x, y] }, i) => {
        expect(Math.hypot(x - before[i].at[0], y - before[i].at[1]), about).toBeLessThanOrEqual(18);
      });
    }
  });
});
