/** Steps from the root of a file to a value. */
export type Path = readonly (string | number)[];

/** Text of a path: `parts[3].body.length`. A field name that is no plain word is put in brackets and quotes. */
export function pathText(path: Path): string {
  return path.reduce<string>((text, step) => {
    if (typeof step === 'number') return `${text}[${step}]`;
    if (!/^[$\w]+$/.test(step)) return `${text}[${JSON.stringify(step)}]`;
    return text === '' ? step : `${text}.${step}`;
  }, '');
}

const PATH_STEP = /^\.?([$\w]+)|^\[(\d+)\]|^\[("(?:[^"\\]|\\.)*")\]/;

/** The path for a text of `pathText`; undefined if the text is no path. */
export function pathFrom(text: string): Path | undefined {
  const path: (string | number)[] = [];
  for (let rest = text; rest !== ''; ) {
    const [step, word, index, quoted] = PATH_STEP.exec(rest) ?? [];
    if (step === undefined || (word !== undefined && step.startsWith('.') === (path.length === 0)))
      return undefined;
    path.push(word ?? (index === undefined ? (JSON.parse(quoted) as string) : Number(index)));
    rest = rest.slice(step.length);
  }
  return path.length === 0 ? undefined : path;
}

/** The value at a path of a JSON value; undefined if there is none. Reads own fields only. */
export function valueAt(root: unknown, path: Path): unknown {
  let value = root;
  for (const step of path) {
    if (typeof value !== 'object' || value === null || !Object.hasOwn(value, step)) return undefined;
    value = (value as Record<string | number, unknown>)[step];
  }
  return value;
}

/** A JSON value on one line, shortened; empty for undefined. */
export function snippet(value: unknown, longest = 60): string {
  const text = value === undefined ? '' : JSON.stringify(value);
  return text.length > longest ? `${text.slice(0, longest - 3)}...` : text;
}
