import { describe, expect, it } from 'vitest';
import { assumedValues, countAssumed } from '../../../src/app/sheets/parts/assumedValues.ts';
import {
  absentText,
  assumedText,
  confirmedValue,
  isAbsent,
  shownText,
} from '../../../src/app/state/fieldText.ts';
import { historyKey } from '../../../src/app/state/historyKey.ts';
import { withTyped } from '../../../src/app/state/partEdits.ts';
import { type Field, fieldsAt, type ListField, type ValueField } from '../../../src/design/fields.ts';
import { type Path, valueAt } from '../../../src/design/path.ts';
import { parseLength } from '../../../src/units/parseLength.ts';
import { minimalCorner } from '../../design/fixtures.ts';
import { readDesign } from '../../design/readDesign.ts';

const fieldAt = (source: unknown, path: Path): Field => {
  const found = fieldsAt(source, path.slice(0, -1)).find(({ key }) => key === path[path.length - 1]);
  if (found === undefined) throw new Error(`no field at ${path.join('.')}`);
  return found;
};

describe('the text of a field', () => {
  it('is the typed text; a plain number gets its unit', () => {
    expect(shownText({ kind: 'length', typed: '5 1/2 in ±1/32' })).toBe('5 1/2 in ±1/32');
    expect(shownText({ kind: 'length', typed: 310 })).toBe('310 mm');
    expect(shownText({ kind: 'angle', typed: -1.5 })).toBe('−1.5°');
    expect(shownText({ kind: 'count', typed: 5 })).toBe('5');
    expect(shownText({ kind: 'length', typed: undefined })).toBe('');
  });

  it('shows an assumed value in the selected unit', () => {
    expect(assumedText({ kind: 'length', fallback: 12.7 }, 'mm')).toBe('12.7 mm');
    expect(assumedText({ kind: 'length', fallback: 12.7 }, 'in')).toBe('0.5 in');
    expect(assumedText({ kind: 'choice', fallback: 'overStuds' }, 'in')).toBe('over studs');
    expect(assumedText({ kind: 'length', fallback: undefined }, 'in')).toBe('');
  });
});

describe('a confirmed value', () => {
  it('is exactly the assumed value, in either unit', () => {
    const source = minimalCorner();
    for (const unit of ['mm', 'in'] as const) {
      for (const { fields } of assumedValues(source)) {
        for (const field of fields) {
          if (field.kind !== 'length') continue;
          const text = confirmedValue(field, unit);
          expect(parseLength(String(text)).mm, String(field.key)).toBeCloseTo(Number(field.fallback), 9);
        }
      }
    }
    expect(confirmedValue({ kind: 'length', fallback: 12.7 }, 'in')).toBe('0.5 in');
    expect(confirmedValue({ kind: 'length', fallback: 17.5 }, 'in')).toBe('17.5 mm');
    expect(confirmedValue({ kind: 'yesNo', fallback: true }, 'in')).toBe(true);
  });
});

describe('the list of assumed values', () => {
  it('has as many entries as the parser assumed, with a direction as one', () => {
    const design = readDesign(minimalCorner());
    const read = design.inputs.filter(
      ({ assumed, path }) => assumed && /^(parts|suspension)/.test(path) && !/\[[12]\]$/.test(path),
    );
    expect(countAssumed(assumedValues(minimalCorner()))).toBe(read.length);
    expect(read.length).toBeGreaterThan(40);
  });
});

describe('a field that the file leaves out', () => {
  const source = minimalCorner();
  const joint = source.parts.findIndex(({ kind }) => kind === 'joint');
  const absent = (key: string) => isAbsent(fieldAt(source, ['parts', joint, key]));

  it('is absent without a default, and assumed with one', () => {
    expect(['boltHead', 'spacers', 'housingDirection'].map(absent)).toEqual([true, true, true]);
    expect(absent('boltDirection')).toBe(false);
    const given = withTyped(source, fieldAt(source, ['parts', joint, 'ballWidth']) as ValueField, '20 mm');
    expect(countAssumed(assumedValues(given))).toBe(countAssumed(assumedValues(source)));
  });

  it('is shown with its meaning', () => {
    expect(absentText('spacers')).toBe('none');
    expect(absentText('housingDirection')).toBe('along the bolt');
    expect(absentText('boltHead')).toBe('the usual size for the bolt, if there is room');
  });
});

describe('typing into a list', () => {
  const source = minimalCorner();
  const hinge = ['suspension', 'hardpoints', 'upperJoint'];
  it('empties a coordinate and keeps the others at their indices', () => {
    const list = fieldAt(source, hinge) as ListField;
    const changed = withTyped(source, list.items[1] as ValueField, undefined, list);
    expect(valueAt(changed, hinge)).toEqual([-20, '', 520]);
  });

  it('writes all values of an assumed direction', () => {
    const path = ['suspension', 'steering', 'rackDirection'];
    const list = fieldAt(source, path) as ListField;
    const changed = withTyped(source, list.items[2] as ValueField, 0.1, list);
    expect(valueAt(changed, path)).toEqual([0, 1, 0.1]);
  });
});

it('undoes with Ctrl or Cmd and Z, and redoes with Shift and Z or with Y', () => {
  const key = (name: string, more = {}) =>
    historyKey({ key: name, ctrlKey: true, metaKey: false, shiftKey: false, altKey: false, ...more });
  expect(key('z')).toBe('undo');
  expect(key('Z', { shiftKey: true })).toBe('redo');
  expect(key('y')).toBe('redo');
  expect(key('z', { ctrlKey: false, metaKey: true })).toBe('undo');
  expect(key('z', { ctrlKey: false })).toBeUndefined();
  expect(key('z', { altKey: true })).toBeUndefined();
});
