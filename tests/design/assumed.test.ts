import { describe, expect, it } from 'vitest';
import { assumedValues, countAssumed } from '../../src/app/sheets/parts/assumedValues.ts';
import { isListedAssumed, withAssumed, withGiven, withoutAssumed } from '../../src/design/assumed.ts';
import { withCopy, withId, withoutPart, withPart } from '../../src/design/edit.ts';
import { parseDesign } from '../../src/design/parse.ts';
import { type Path, pathFrom, pathText, valueAt } from '../../src/design/path.ts';
import { minimalCorner } from './fixtures.ts';
import { readDesign } from './readDesign.ts';

const box = { id: 'box', kind: 'box', centre: [0, 300, 300], size: [100, 50, 50] } as const;
const at = minimalCorner().parts.length;
const source = withAssumed(withPart(minimalCorner(), box), ['parts', at]);
const listed = (held: unknown, part = at) => valueAt(held, ['parts', part, 'assumed']);
const of = (field: string, ...rest: Path): Path => ['parts', at, field, ...rest];

const problemsOf = (held: unknown) => {
  const parsed = parseDesign(JSON.stringify(held));
  return parsed.kind === 'bad' ? parsed.problems.map(({ path, message }) => `${path} ${message}`) : [];
};

describe('assumed values of a part', () => {
  it('are listed by the part, without names, until a value is typed', () => {
    expect(listed(source)).toEqual(['centre', 'size']);
    expect(problemsOf(source)).toEqual([]);
    expect(isListedAssumed(source, of('size'))).toBe(true);
    expect(isListedAssumed(source, of('size', 1))).toBe(true);
    expect(isListedAssumed(source, of('kind'))).toBe(false);
    expect(isListedAssumed(source, ['parts', 0, 'width'])).toBe(false);
    const typed = withGiven(source, of('size', 1), '2 in');
    expect(listed(typed)).toEqual(['centre', 'size[0]', 'size[2]']);
    expect(isListedAssumed(typed, of('size'))).toBe(true);
    expect(isListedAssumed(typed, of('size', 1))).toBe(false);
    expect(problemsOf(typed)).toEqual([]);
  });

  it('leave the list once confirmed; the list is removed with its last entry', () => {
    const left = withoutAssumed(withoutAssumed(source, of('size')), of('centre'));
    expect(valueAt(left, ['parts', at])).toEqual(box);
    expect(withoutAssumed(left, of('size'))).toBe(left);
  });

  it('stay with their part when it is moved, renamed or copied', () => {
    expect(isListedAssumed(withoutPart(source, 0), ['parts', at - 1, 'size'])).toBe(true);
    expect(listed(withId(source, at, 'battery'))).toEqual(['centre', 'size']);
    expect(listed(withCopy(source, at), at + 1)).toEqual(['centre', 'size']);
  });

  it('count as assumed inputs, a point as one, and do not affect the hash of the corner', () => {
    const plain = withPart(minimalCorner(), box);
    expect(countAssumed(assumedValues(source))).toBe(countAssumed(assumedValues(plain)) + 2);
    expect(readDesign(source).hash).toBe(readDesign(plain).hash);
    const marked = (held: unknown) => readDesign(held).inputs.filter(({ assumed }) => assumed).length;
    expect(marked(source)).toBe(marked(plain) + 6);
  });

  it('of a group are listed as one, and separately once one of them is given or removed', () => {
    const caliper = minimalCorner().parts.findIndex(({ kind }) => kind === 'caliper');
    const mount = ['parts', caliper, 'mount'];
    const whole = withAssumed(withAssumed(minimalCorner(), [...mount, 'earFace']), mount);
    expect(listed(whole, caliper)).toEqual(['mount']);
    const given = withGiven(whole, [...mount, 'boltRadius'], 120);
    expect(listed(given, caliper)).toEqual(['mount.boltSpacing', 'mount.earFace']);
    const out = withGiven(whole, mount, undefined);
    expect(listed(out, caliper)).toBeUndefined();
  });

  it('of a list stay listed when an item before them is removed', () => {
    const outline = [
      [0, 0, 0],
      [9, 0, 0],
      [9, 0, 9],
      [5, 0, 12],
    ];
    const plated = withPart(minimalCorner(), { id: 'tab', kind: 'plate', outline, thickness: 6 });
    const marked = withAssumed(plated, of('outline', 3));
    expect(listed(withGiven(marked, of('outline', 1), undefined))).toEqual(['outline[2]']);
    expect(listed(withGiven(marked, of('outline', 3), undefined))).toBeUndefined();
  });

  it('of the suspension are listed by the suspension', () => {
    const joint = ['suspension', 'hardpoints', 'lowerJoint'];
    const marked = withAssumed(minimalCorner(), joint);
    expect(valueAt(marked, ['suspension', 'assumed'])).toEqual(['hardpoints.lowerJoint']);
    expect(problemsOf(marked)).toEqual([]);
    expect(
      readDesign(marked)
        .inputs.filter(({ path }) => path.includes('lowerJoint['))
        .map((i) => i.assumed),
    ).toEqual([true, true, true]);
    expect(withAssumed(minimalCorner(), ['name'])).toEqual(minimalCorner());
  });

  it('are rejected if the file does not give them, with a suggestion', () => {
    const wrong = minimalCorner();
    Object.assign(wrong.parts[0], { assumed: ['witdh', 'lip', 'kind', 'width..'] });
    expect(problemsOf(wrong)).toEqual([
      expect.stringMatching(/^parts\[0\]\.assumed\[0\] is not the path.*Did you mean "width"\?$/),
      expect.stringMatching(/^parts\[0\]\.assumed\[1\] is not the path/),
      expect.stringMatching(/^parts\[0\]\.assumed\[2\] is not the path/),
      expect.stringMatching(/^parts\[0\]\.assumed\[3\] is not the path/),
    ]);
  });
});

it('reads a path back from its text', () => {
  const paths: Path[] = [
    ['a'],
    ['outline', 3, 1],
    ['mount', 'boltRadius'],
    [3, 'x'],
    ['odd name', 'a"b', 2, 'c'],
  ];
  for (const path of paths) expect(pathFrom(pathText(path))).toEqual(path);
  for (const text of ['', '.a', 'a.', 'a..b', 'a[', 'a[-1]', 'a b', '[0]b'])
    expect(pathFrom(text), text).toBeUndefined();
});
