import { EXIT, Failure } from './exit.ts';

/** Ids of the two bodies of `A:B`; undefined if the option is not given. Throws a usage Failure. */
export function pairTyped(text: string | undefined): [string, string] | undefined {
  if (text === undefined) return undefined;
  const [one, other, ...more] = text.split(':');
  if (!one || !other || more.length > 0)
    throw new Failure(
      EXIT.usage,
      `--pair: "${text}" is not allowed. Give the ids of two parts, such as wheel:tieRodEnd.`,
    );
  return [one, other];
}
