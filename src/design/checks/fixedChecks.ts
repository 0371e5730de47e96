import { NOT_MEASURED } from '../assumed.ts';
import { type Field, fieldsAt } from '../fields.ts';
import { type Path, pathFrom, valueAt } from '../path.ts';
import { suggest } from '../suggest.ts';
import type { Check } from './report.ts';

/** Checks that each path in a `fixed` list is that of a field of the same part or the suspension. */
export const fixedExist: Check = ({ parts, source }, report) => {
  const owners: Path[] = [['suspension'], ...parts.map((_, index) => ['parts', index])];
  for (const owner of owners) {
    const texts = valueAt(source, [...owner, 'fixed']);
    if (!Array.isArray(texts)) continue;
    const fields = fieldsAt(source, owner).filter(({ key }) => !NOT_MEASURED.has(key));
    texts.forEach((text, index) => {
      if (typeof text !== 'string' || isField(fields, pathFrom(text))) return;
      const names = fields.map(({ key }) => String(key));
      report([...owner, 'fixed', index], `is not the path of a value here.${suggest(text, names)}`);
    });
  }
};

function isField(fields: readonly Field[], path: Path | undefined): boolean {
  if (path === undefined) return false;
  const [step, ...rest] = path;
  const found = fields.find(({ key }) => key === step);
  if (found === undefined || rest.length === 0) return found !== undefined;
  return isField(found.kind === 'group' ? found.fields : found.kind === 'list' ? found.items : [], rest);
}
