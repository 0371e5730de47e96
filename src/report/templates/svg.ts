import type { Loop } from '../../solids/flatPlates/flatPlate.ts';
import { arcOf } from '../../solids/flatPlates/loops.ts';
import type { Point2 } from '../../solids/simplePolygon.ts';
import { escapeHtml } from '../escape.ts';
import type { Drawing } from './drawing.ts';
import type { Entity, Layer } from './entity.ts';
import type { Sheet } from './sheet.ts';

/** Looks of a layer: colour, width of its lines in mm, and dashes in mm. */
const LAYER_LOOKS: Record<Layer, { colour: string; widthMm: number; dash: readonly number[] }> = {
  CUT: { colour: '#000000', widthMm: 0.35, dash: [] },
  MARK: { colour: '#1f5fa8', widthMm: 0.18, dash: [4, 1, 1, 1] },
  BEND: { colour: '#b3261e', widthMm: 0.25, dash: [3, 1.5] },
  TEXT: { colour: '#000000', widthMm: 0.18, dash: [] },
  CHECK: { colour: '#000000', widthMm: 0.25, dash: [] },
};

/** A coordinate with 4 decimals: 0.1 µm. */
export const figure = (value: number): string => `${Number(value.toFixed(4)) + 0}`;

/** A sheet as SVG in real units: one unit of the view box is one millimetre. `title`: name of the file, for readers. */
export function templateSvg({ entities, box: { min, max } }: Sheet, title: string): string {
  const [width, height] = [max[0] - min[0], max[1] - min[1]];
  return [
    '<?xml version="1.0" encoding="UTF-8"?>',
    `<svg xmlns="http://www.w3.org/2000/svg" width="${figure(width)}mm" height="${figure(height)}mm" viewBox="0 0 ${figure(width)} ${figure(height)}">`,
    `<title>${escapeHtml(title)}</title>`,
    `<rect width="${figure(width)}" height="${figure(height)}" fill="#ffffff"/>`,
    ...entitiesSvg(entities, ([x, y]) => [x - min[0], max[1] - y]),
    '</svg>',
    '',
  ].join('\n');
}

/** Space around a plate in a preview, mm. */
const EDGE_MM = 4;

/** The plate alone, without the texts below it, for a preview. */
export function shapeSvg({ shape, shapeBox: { min, max }, heading }: Drawing): string {
  const box = {
    min: [min[0] - EDGE_MM, min[1] - EDGE_MM] as const,
    max: [max[0] + EDGE_MM, max[1] + EDGE_MM] as const,
  };
  return templateSvg({ entities: shape, box }, heading);
}

/** The entities as SVG elements, one group for each layer. `map`: from the drawing to the image, with y down at true scale. */
export function entitiesSvg(entities: readonly Entity[], map: (at: Point2) => Point2): string[] {
  return (Object.keys(LAYER_LOOKS) as Layer[]).flatMap((layer) => {
    const own = entities.filter((entity) => entity.layer === layer);
    if (own.length === 0) return [];
    const { colour, widthMm, dash } = LAYER_LOOKS[layer];
    const dashes = dash.length === 0 ? '' : ` stroke-dasharray="${dash.join(' ')}"`;
    return [
      `<g id="${layer}" fill="none" stroke="${colour}" stroke-width="${widthMm}"${dashes}>`,
      ...own.map((entity) => entitySvg(entity, map, colour)),
      '</g>',
    ];
  });
}

function entitySvg(entity: Entity, map: (at: Point2) => Point2, colour: string): string {
  if (entity.kind === 'line') {
    const [[x1, y1], [x2, y2]] = [map(entity.from), map(entity.to)];
    return `<line x1="${figure(x1)}" y1="${figure(y1)}" x2="${figure(x2)}" y2="${figure(y2)}"/>`;
  }
  if (entity.kind === 'text') {
    const [x, y] = map(entity.at);
    return `<text x="${figure(x)}" y="${figure(y)}" font-family="Helvetica, Arial, sans-serif" font-size="${figure(entity.heightMm * CAP_TO_SIZE)}" fill="${colour}" stroke="none"${entity.anchor === undefined ? '' : ` text-anchor="${entity.anchor}"`}>${escapeHtml(entity.text)}</text>`;
  }
  return loopSvg(entity.loop, map);
}

/** Size of a font whose capitals are one unit high. */
export const CAP_TO_SIZE = 1.39;

function loopSvg(loop: Loop, map: (at: Point2) => Point2): string {
  if (loop.kind === 'circle') {
    const [x, y] = map(loop.centre);
    return `<circle cx="${figure(x)}" cy="${figure(y)}" r="${figure(loop.radiusMm)}"/>`;
  }
  const { corners } = loop;
  const text = ([x, y]: Point2) => `${figure(x)} ${figure(y)}`;
  const segments = corners.map(({ at, bulge }, i) => {
    const to = corners[(i + 1) % corners.length].at;
    if (bulge === 0) return `L${text(map(to))}`;
    const { radiusMm, sweepRad } = arcOf(at, to, bulge);
    const large = Math.abs(sweepRad) > Math.PI ? 1 : 0;
    // y is down in the image: anticlockwise in the drawing is the negative direction of an SVG arc.
    return `A${figure(radiusMm)} ${figure(radiusMm)} 0 ${large} ${bulge > 0 ? 0 : 1} ${text(map(to))}`;
  });
  return `<path d="M${text(map(corners[0].at))}${segments.join('')}Z"/>`;
}
