import { describe, expect, it } from 'vitest';
import type { Design } from '../../src/design/design.ts';
import { withValue } from '../../src/design/edit.ts';
import { parseDesign } from '../../src/design/parse.ts';
import { withHubKept } from '../../src/solids/heldHub.ts';
import { axialStack, entries } from '../../src/solids/wheelFrame.ts';
import { minimalCorner } from '../design/fixtures.ts';
import { readDesign } from '../design/readDesign.ts';

const suspensionWith = (given: object) => {
  const corner = minimalCorner();
  const { hubFace: _, ...suspension } = corner.suspension as Record<string, unknown>;
  return { ...corner, suspension: { ...suspension, ...given } };
};
const WHEEL = minimalCorner().parts.findIndex(({ kind }) => kind === 'wheel');

const OFFSET_MM = 25;

/** Places of hub face and rim along the wheel axis before and after another offset of the wheel is typed, mm. */
function offsetTyped(given: object, offset: unknown) {
  const source = withValue(suspensionWith(given), ['parts', WHEEL, 'offset'], OFFSET_MM);
  const before = readDesign(source);
  const after = readDesign(withHubKept(before, withValue(source, ['parts', WHEEL, 'offset'], offset)));
  const places = ({ corner }: Design) => {
    const stack = axialStack(corner);
    return { hub: stack.hubFaceY, rim: stack.rimCentreY(entries(corner, 'wheel')[0]) };
  };
  return { before: places(before), after: places(after), typed: after.source };
}

describe('another offset of the wheel', () => {
  it('moves the wheel and keeps the hub if the file gives no place for the hub', () => {
    const { before, after } = offsetTyped({}, 12);
    expect(before.rim).toBe(0);
    expect(after.hub).toBeCloseTo(before.hub, 6);
    // Less offset puts the wheel outboard by the difference.
    expect(after.rim).toBeCloseTo(OFFSET_MM - 12, 6);
  });

  it('moves the hub if hubFollowsWheel is true', () => {
    const { before, after } = offsetTyped({ hubFollowsWheel: true }, 12);
    expect(after.rim).toBe(0);
    expect(after.hub).not.toBeCloseTo(before.hub, 1);
  });

  it('keeps a given hubFace as typed', () => {
    const { after, typed } = offsetTyped({ hubFace: '3/4 in' }, 12);
    expect(after.hub).toBeCloseTo(19.05, 9);
    expect((typed as { suspension: { hubFace: unknown } }).suspension.hubFace).toBe('3/4 in');
  });
});

it('a file with errors is not changed', () => {
  const source = suspensionWith({});
  const wrong = withValue(source, ['parts', WHEEL, 'offset'], 'abc');
  expect(withHubKept(readDesign(source), wrong)).toBe(wrong);
});

it('a file with both hubFace and hubFollowsWheel is rejected', () => {
  const read = parseDesign(JSON.stringify(suspensionWith({ hubFace: 10, hubFollowsWheel: true })));
  expect(read).toMatchObject({ kind: 'bad', problems: [{ path: 'suspension.hubFace' }] });
});
