/** Writes public/corner.schema.json, the JSON Schema that editors use for corner files: `npm run schema`. */
import { writeFileSync } from 'node:fs';
import { cornerJsonSchema } from '../design/jsonSchema.ts';

const target = new URL('../../public/corner.schema.json', import.meta.url);
writeFileSync(target, `${JSON.stringify(cornerJsonSchema(), undefined, 1)}\n`);
