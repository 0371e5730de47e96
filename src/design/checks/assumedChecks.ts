import { NOT_MEASURED } from '../assumed.ts';
import { type Path, pathFrom, valueAt } from '../path.ts';
import { suggest } from '../suggest.ts';
import type { Check } from './report.ts';

/** Checks that each path in an `assumed` list is that of a value given by the same part or the suspension. */
export const assumedExist: Check = ({ parts, source }, report) => {
  const owners: Path[] = [['suspension'], ...parts.map((_, index) => ['parts', index])];
  for (const owner of owners) {
    const texts = valueAt(source, [...owner, 'assumed']);
    if (!Array.isArray(texts)) continue;
    texts.forEach((text, index) => {
      if (typeof text !== 'string') return;
      const path = pathFrom(text);
      const measurable = path !== undefined && !NOT_MEASURED.has(path[0]);
      if (measurable && valueAt(source, [...owner, ...path]) !== undefined) return;
      const held = valueAt(source, owner);
      const names = Object.keys(held as object).filter((key) => !NOT_MEASURED.has(key));
      report(
        [...owner, 'assumed', index],
        `is not the path of a value that the file gives here. Remove it: a value that is left out counts as assumed anyway.${suggest(text, names)}`,
      );
    });
  }
};
