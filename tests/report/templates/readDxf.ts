import { Helper } from 'dxf';
import DxfParser from 'dxf-parser';

/** What two independent readers find in a DXF file, in the units of the file. */
export interface ReadDxf {
  header: Record<string, unknown>;
  layers: string[];
  /** Areas enclosed by the closed polylines and circles of a layer. */
  areasOn(layer: string): number[];
  circlesOn(layer: string): { x: number; y: number; r: number }[];
  /** Lengths to 1e-6. */
  linesOn(layer: string): { length: number; upright: boolean }[];
  texts: string[];
  count: number;
}

interface Vertex {
  x: number;
  y: number;
  bulge?: number;
}

interface ParsedEntity {
  type: string;
  layer: string;
  vertices?: Vertex[];
  center?: { x: number; y: number };
  radius?: number;
  text?: string;
}

/** Area of a closed polyline: its polygon, and a circular segment of each bulge. */
function area(vertices: readonly Vertex[]): number {
  const signed = vertices.reduce((sum, a, i) => {
    const b = vertices[(i + 1) % vertices.length];
    const angle = 4 * Math.atan(a.bulge ?? 0);
    const half = Math.hypot(b.x - a.x, b.y - a.y) / 2;
    const radius = angle === 0 ? 0 : half / Math.sin(Math.abs(angle) / 2);
    return sum + (a.x * b.y - b.x * a.y) / 2 + (radius ** 2 * (angle - Math.sin(angle))) / 2;
  }, 0);
  return Math.abs(signed);
}

/** Reads with dxf-parser. */
export function readDxf(text: string): ReadDxf {
  const parsed = new DxfParser().parseSync(text);
  if (parsed === null) throw new Error('dxf-parser reads nothing');
  const entities = parsed.entities as unknown as ParsedEntity[];
  const on = (layer: string, ...types: string[]) =>
    entities.filter((one) => one.layer === layer && types.includes(one.type));
  const circlesOn = (layer: string) =>
    on(layer, 'CIRCLE').map(({ center, radius }) => ({
      x: center?.x ?? Number.NaN,
      y: center?.y ?? Number.NaN,
      r: radius ?? Number.NaN,
    }));
  return {
    header: parsed.header,
    layers: Object.keys(parsed.tables.layer.layers),
    circlesOn,
    areasOn: (layer) => [
      ...on(layer, 'LWPOLYLINE', 'POLYLINE').map(({ vertices = [] }) => area(vertices)),
      ...circlesOn(layer).map(({ r }) => Math.PI * r ** 2),
    ],
    linesOn: (layer) =>
      on(layer, 'LINE').map(({ vertices: [a, b] = [] }) => ({
        length: Math.round(Math.hypot(b.x - a.x, b.y - a.y) * 1e6) / 1e6,
        upright: Math.abs(b.y - a.y) > Math.abs(b.x - a.x),
      })),
    texts: entities.flatMap(({ text: words }) => (words === undefined ? [] : [words])),
    count: entities.length,
  };
}

/** Entities of a layer as the package "dxf" reads them: types, and circles. */
export function readDxfAgain(text: string) {
  const { parsed } = new Helper(text);
  const entities = parsed.entities as { type: string; layer: string; x: number; y: number; r: number }[];
  return {
    header: parsed.header as Record<string, unknown>,
    circlesOn: (layer: string) =>
      entities
        .filter((one) => one.type === 'CIRCLE' && one.layer === layer)
        .map(({ x, y, r }) => ({ x, y, r })),
    count: entities.length,
  };
}
