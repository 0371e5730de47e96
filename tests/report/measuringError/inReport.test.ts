import { describe, expect, it } from 'vitest';
import { buildContent } from '../../../src/report/buildContent.ts';
import type { Block } from '../../../src/report/content.ts';
import type {
  MeasuringErrorInWords,
  PairErrorInWords,
} from '../../../src/report/measuringError/measuringErrorInWords.ts';
import { picturesOf } from '../../../src/report/pictures.ts';
import { reportInput } from '../fixture.ts';
import { inventedStudy } from './inventedStudy.ts';

/** The sections of a report whose tightest pairs have these measuring errors. */
function sectionsWith(
  changes: readonly Partial<PairErrorInWords>[],
  study: Partial<MeasuringErrorInWords> = {},
) {
  const measuringError = inventedStudy(changes, study);
  const input = reportInput({ measuringError });
  return buildContent(input, picturesOf(input)).sections;
}

const tableOf = (blocks: readonly Block[] | undefined) => blocks?.find((block) => block.kind === 'table');

/** Cells of a column of page one, by its title. */
function pageOneCells(sections: ReturnType<typeof sectionsWith>, title: string): string[] | undefined {
  const table = tableOf(sections.find((section) => section.title === 'The tightest pairs')?.blocks);
  const column = table?.columns.findIndex((one) => one.title === title) ?? -1;
  return column < 0 ? undefined : table?.rows.map(({ cells }) => cells[column]);
}

describe('measuring errors on page one', () => {
  it('show the worst case, and what it leaves out', () => {
    const sections = sectionsWith([{}, { exactCount: 2 }, { hasPlusMinus: false, exactCount: 3 }]);
    expect(pageOneCells(sections, 'Measuring error')).toEqual([
      '± 0.70 mm',
      '± 0.70 mm, without the ± of 2 values',
      'unknown: the ± of 3 values is not given',
    ]);
  });

  it('are left out if no value of the file has a ±', () => {
    const sections = sectionsWith([{ hasPlusMinus: false, worstCase: '0.00' }], { hasPlusMinus: false });
    expect(pageOneCells(sections, 'Measuring error')).toBeUndefined();
    expect(sections.find(({ title }) => title.startsWith('Measuring error'))?.blocks).toMatchObject([
      { kind: 'text', text: expect.stringMatching(/^Unknown\. No measured value of this file has a ±/) },
    ]);
  });
});

describe('the block of a tight pair', () => {
  it('lists what moves it most, or says that this is unknown', () => {
    const sections = sectionsWith([{}, { effects: [] }]);
    const [first, second, third] = sections.filter(({ id }) => id?.startsWith('pair-'));
    expect(tableOf(first.blocks)?.rows).toEqual([
      { cells: ['wheel.width', '8 in', '+1.00 ± 0.10 mm per mm'] },
    ]);
    const lastText = ({ blocks }: typeof first) => blocks.findLast((block) => block.kind === 'text')?.text;
    expect(lastText(second)).toBe('No value of the file moves this clearance by more than the error.');
    expect(lastText(third)).toMatch(/^What moves this clearance most is unknown/);
  });
});

it('a report says whether all pairs were studied', () => {
  const titles = (study: Partial<MeasuringErrorInWords>) =>
    sectionsWith([{}], study).map(({ title }) => title);
  expect(titles({})).toContain('Measuring error of the studied pairs');
  expect(titles({ among: undefined })).toContain('Measuring error');
});
