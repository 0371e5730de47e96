import { assetRecords } from '../design/assets.ts';
import type { Design } from '../design/design.ts';
import { counted } from './figures.ts';

/** Each asset of a design: its name, then its size and SHA-256. */
export const assetRows = ({ assets }: Pick<Design, 'assets'>): [name: string, content: string][] =>
  assetRecords(assets).map(({ name, bytes, sha256 }) => [
    `Asset ${name}`,
    `${counted(bytes, 'byte')}, SHA-256 ${sha256}`,
  ]);
