import { strToU8, zipSync } from 'fflate';
import type { Mesh } from '../../solids/solid.ts';

const TYPES = `<?xml version="1.0" encoding="UTF-8"?>
<Types xmlns="http://schemas.openxmlformats.org/package/2006/content-types"><Default Extension="rels" ContentType="application/vnd.openxmlformats-package.relationships+xml"/><Default Extension="model" ContentType="application/vnd.ms-package.3dmanufacturing-3dmodel+xml"/></Types>`;
const RELATIONSHIPS = `<?xml version="1.0" encoding="UTF-8"?>
<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships"><Relationship Target="/3D/3dmodel.model" Id="rel0" Type="http://schemas.microsoft.com/3dmanufacturing/2013/01/3dmodel"/></Relationships>`;

/** Vertices or triangles joined at a time: one string of all would need too many arguments. */
const BATCH = 10_000;

/**
 * A mesh as a 3MF file (3MF Core Specification 1.3): one object, in millimetres. Coordinates have five decimals, which keeps
 * those of Float32 within 0.00001 mm.
 */
export function threeMf({ positions, triangles }: Mesh): Uint8Array<ArrayBuffer> {
  const lines = (count: number, line: (i: number) => string): string => {
    const batches: string[] = [];
    for (let from = 0; from < count; from += BATCH)
      batches.push(Array.from({ length: Math.min(BATCH, count - from) }, (_, k) => line(from + k)).join(''));
    return batches.join('');
  };
  const model = `<?xml version="1.0" encoding="UTF-8"?>
<model unit="millimeter" xml:lang="en" xmlns="http://schemas.microsoft.com/3dmanufacturing/core/2015/02"><resources><object id="1" type="model"><mesh><vertices>${lines(
    positions.length / 3,
    (v) =>
      `<vertex x="${positions[3 * v].toFixed(5)}" y="${positions[3 * v + 1].toFixed(5)}" z="${positions[3 * v + 2].toFixed(5)}"/>`,
  )}</vertices><triangles>${lines(
    triangles.length / 3,
    (t) => `<triangle v1="${triangles[3 * t]}" v2="${triangles[3 * t + 1]}" v3="${triangles[3 * t + 2]}"/>`,
  )}</triangles></mesh></object></resources><build><item objectid="1"/></build></model>`;
  return zipSync({
    '[Content_Types].xml': strToU8(TYPES),
    '_rels/.rels': strToU8(RELATIONSHIPS),
    '3D/3dmodel.model': strToU8(model),
  });
}
