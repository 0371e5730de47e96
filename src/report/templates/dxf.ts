import type { Loop } from '../../solids/flatPlates/flatPlate.ts';
import type { Point2 } from '../../solids/simplePolygon.ts';
import { type Entity, LAYERS, type Layer } from './entity.ts';
import type { Sheet } from './sheet.ts';

/*
 * The DXF library that was tried, @tarikjabiri/dxf 2.9.0, writes AC1021 alone. Shops need AC1015 or the older AC1009, which
 * every reader has; both are few enough lines to write here.
 */

/** Version of a file: R2000, or R12 for old readers. */
export type DxfVersion = 'AC1015' | 'AC1009';

/** Colour (of the index that DXF fixes) and line type of each layer. */
const LAYER_LOOKS: Record<Layer, { colour: number; lineType: LineType }> = {
  CUT: { colour: 7, lineType: 'CONTINUOUS' },
  MARK: { colour: 5, lineType: 'CENTER' },
  BEND: { colour: 1, lineType: 'DASHED' },
  TEXT: { colour: 8, lineType: 'CONTINUOUS' },
  CHECK: { colour: 3, lineType: 'CONTINUOUS' },
};

/** Dashes of the line types, mm: drawn, then negative for a gap. */
const LINE_TYPES = { CONTINUOUS: [], DASHED: [3, -1.5], CENTER: [6, -1.5, 1.5, -1.5] } as const;
type LineType = keyof typeof LINE_TYPES;

type Pair = readonly [code: number, value: string | number];

/**
 * A sheet as a DXF file in millimetres, declared as such. Round edges are circles and true arcs (bulges). The file is
 * ASCII; other characters are written as \U+XXXX.
 */
export function templateDxf(sheet: Sheet, version: DxfVersion): string {
  const body = version === 'AC1015' ? r2000(sheet) : r12(sheet);
  return `${body.map(([code, value]) => `${String(code).padStart(3)}\n${valueText(value)}`).join('\n')}\n`;
}

const valueText = (value: string | number): string =>
  typeof value === 'string' || Number.isInteger(value) ? `${value}` : real(value);

/** A number with 6 decimals at most: 1e-6 mm. */
const real = (value: number): string => {
  const text = (value + 0).toFixed(6).replace(/0+$/, '').replace(/\.$/, '.0');
  return text === '-0.0' ? '0.0' : text;
};

/**
 * A text that no reader takes for a control code: one line, ASCII, with the percent sign, the caret and the backslash, which
 * start codes in DXF texts, in the code of the character.
 */
const dxfText = (text: string): string =>
  Array.from(text.replace(/\s/g, ' '), (character) => {
    const code = character.codePointAt(0) as number;
    if (code >= 0x20 && code < 0x7f && !'%^\\'.includes(character)) return character;
    // Characters beyond the basic plane have no code.
    return code > 0xffff || code < 0x20 ? '?' : `\\U+${code.toString(16).toUpperCase().padStart(4, '0')}`;
  }).join('');

const section = (name: string, pairs: readonly Pair[]): Pair[] => [
  [0, 'SECTION'],
  [2, name],
  ...pairs,
  [0, 'ENDSEC'],
];

const header = (version: DxfVersion, { box: { min, max } }: Sheet, more: readonly Pair[]): Pair[] =>
  section('HEADER', [
    [9, '$ACADVER'],
    [1, version],
    ...more,
    // Millimetres.
    [9, '$INSUNITS'],
    [70, 4],
    [9, '$MEASUREMENT'],
    [70, 1],
    [9, '$EXTMIN'],
    ...point(10, min),
    [9, '$EXTMAX'],
    ...point(10, max),
  ]);

const point = (code: number, [x, y]: Point2): Pair[] => [
  [code, real(x)],
  [code + 10, real(y)],
  [code + 20, '0.0'],
];

// R12

function r12(sheet: Sheet): Pair[] {
  const table = (name: string, rows: readonly Pair[][]): Pair[] => [
    [0, 'TABLE'],
    [2, name],
    [70, rows.length],
    ...rows.flat(),
    [0, 'ENDTAB'],
  ];
  const lineTypes = (Object.keys(LINE_TYPES) as LineType[]).map((name): Pair[] => [
    [0, 'LTYPE'],
    [2, name],
    [70, 0],
    ...dashes(name, false),
  ]);
  const layers = LAYERS.map((name): Pair[] => [
    [0, 'LAYER'],
    [2, name],
    [70, 0],
    [62, LAYER_LOOKS[name].colour],
    [6, LAYER_LOOKS[name].lineType],
  ]);
  const style: Pair[] = [[0, 'STYLE'], [2, 'STANDARD'], ...styleBody];
  return [
    ...header('AC1009', sheet, []),
    ...section('TABLES', [
      ...table('LTYPE', lineTypes),
      ...table('LAYER', layers),
      ...table('STYLE', [style]),
    ]),
    ...section('ENTITIES', sheet.entities.flatMap(entityR12)),
    [0, 'EOF'],
  ];
}

const styleBody: Pair[] = [
  [70, 0],
  [40, '0.0'],
  [41, '1.0'],
  [50, '0.0'],
  [71, 0],
  [42, '2.5'],
  [3, 'txt'],
  [4, ''],
];

function dashes(name: LineType, withTypes: boolean): Pair[] {
  const lengths: readonly number[] = LINE_TYPES[name];
  return [
    [3, name],
    [72, 65],
    [73, lengths.length],
    [40, real(lengths.reduce((sum, length) => sum + Math.abs(length), 0))],
    ...lengths.flatMap((length): Pair[] => [[49, real(length)], ...(withTypes ? [[74, 0] as const] : [])]),
  ];
}

function entityR12(entity: Entity): Pair[] {
  const on: Pair = [8, entity.layer];
  if (entity.kind === 'line') return [[0, 'LINE'], on, ...point(10, entity.from), ...point(11, entity.to)];
  if (entity.kind === 'text') return [[0, 'TEXT'], on, ...textBody(entity)];
  const { loop } = entity;
  if (loop.kind === 'circle') return [[0, 'CIRCLE'], on, ...circleBody(loop)];
  return [
    [0, 'POLYLINE'],
    on,
    [66, 1],
    ...point(10, [0, 0]),
    [70, 1],
    ...loop.corners.flatMap(({ at, bulge }): Pair[] => [
      [0, 'VERTEX'],
      on,
      ...point(10, at),
      ...bulgeOf(bulge),
    ]),
    [0, 'SEQEND'],
    on,
  ];
}

const circleBody = ({ centre, radiusMm }: Extract<Loop, { kind: 'circle' }>): Pair[] => [
  ...point(10, centre),
  [40, real(radiusMm)],
];
const textBody = ({ at, heightMm, text, anchor }: Extract<Entity, { kind: 'text' }>): Pair[] => [
  ...point(10, at),
  [40, real(heightMm)],
  [1, dxfText(text)],
  // With an alignment, the second point is the one that counts.
  ...(anchor === undefined ? [] : [[72, anchor === 'middle' ? 1 : 2] as const, ...point(11, at)]),
];
/** Bulges have 12 decimals: at a large radius a small change of one moves the arc. */
const bulgeOf = (bulge: number): Pair[] => (bulge === 0 ? [] : [[42, bulge.toFixed(12)]]);

// R2000

/** Handles of the objects that others refer to. */
const HANDLE = {
  modelRecord: '1E',
  paperRecord: '1D',
  rootDictionary: 'C',
  groups: 'D',
} as const;
/** First handle that is given in order. */
const FIRST_FREE = 0x30;

function r2000(sheet: Sheet): Pair[] {
  let next = FIRST_FREE;
  const handle = () => (next++).toString(16).toUpperCase();
  const record = (
    type: string,
    subclass: string,
    own: string,
    owner: string,
    body: readonly Pair[],
  ): Pair[] => [
    [0, type],
    [type === 'DIMSTYLE' ? 105 : 5, own],
    [330, owner],
    [100, 'AcDbSymbolTableRecord'],
    [100, subclass],
    ...body,
  ];
  const table = (
    name: string,
    subclass: string,
    rows: readonly { own?: string; body: readonly Pair[] }[],
  ): Pair[] => {
    const owner = handle();
    return [
      [0, 'TABLE'],
      [2, name],
      [5, owner],
      [330, '0'],
      [100, 'AcDbSymbolTable'],
      [70, rows.length],
      ...(name === 'DIMSTYLE' ? [[100, 'AcDbDimStyleTable'] as const] : []),
      ...rows.flatMap(({ own, body }) => record(name, subclass, own ?? handle(), owner, body)),
      [0, 'ENDTAB'],
    ];
  };
  const named = (name: string, body: readonly Pair[]) => ({ body: [[2, name], [70, 0], ...body] as Pair[] });
  const lineType = (name: string, type: LineType) => named(name, dashes(type, true));
  const tables = [
    ...table('VPORT', 'AcDbViewportTableRecord', []),
    ...table('LTYPE', 'AcDbLinetypeTableRecord', [
      lineType('ByBlock', 'CONTINUOUS'),
      lineType('ByLayer', 'CONTINUOUS'),
      lineType('Continuous', 'CONTINUOUS'),
      lineType('DASHED', 'DASHED'),
      lineType('CENTER', 'CENTER'),
    ]),
    ...table('LAYER', 'AcDbLayerTableRecord', [
      named('0', [
        [62, 7],
        [6, 'Continuous'],
      ]),
      ...LAYERS.map((layer) =>
        named(layer, [
          [62, LAYER_LOOKS[layer].colour],
          [6, LAYER_LOOKS[layer].lineType === 'CONTINUOUS' ? 'Continuous' : LAYER_LOOKS[layer].lineType],
        ]),
      ),
    ]),
    ...table('STYLE', 'AcDbTextStyleTableRecord', [{ body: [[2, 'Standard'], ...styleBody] }]),
    ...table('VIEW', 'AcDbViewTableRecord', []),
    ...table('UCS', 'AcDbUCSTableRecord', []),
    ...table('APPID', 'AcDbRegAppTableRecord', [named('ACAD', [])]),
    ...table('DIMSTYLE', 'AcDbDimStyleTableRecord', [named('Standard', [])]),
    ...table('BLOCK_RECORD', 'AcDbBlockTableRecord', [
      { own: HANDLE.modelRecord, body: [[2, '*Model_Space']] },
      { own: HANDLE.paperRecord, body: [[2, '*Paper_Space']] },
    ]),
  ];
  const block = (name: string, owner: string): Pair[] => [
    [0, 'BLOCK'],
    [5, handle()],
    [330, owner],
    [100, 'AcDbEntity'],
    [8, '0'],
    [100, 'AcDbBlockBegin'],
    [2, name],
    [70, 0],
    ...point(10, [0, 0]),
    [3, name],
    [1, ''],
    [0, 'ENDBLK'],
    [5, handle()],
    [330, owner],
    [100, 'AcDbEntity'],
    [8, '0'],
    [100, 'AcDbBlockEnd'],
  ];
  const blocks = [...block('*Model_Space', HANDLE.modelRecord), ...block('*Paper_Space', HANDLE.paperRecord)];
  const entities = sheet.entities.flatMap((entity): Pair[] => {
    const { type, body } = entityR2000(entity);
    return [
      [0, type],
      [5, handle()],
      [330, HANDLE.modelRecord],
      [100, 'AcDbEntity'],
      [8, entity.layer],
      ...body,
    ];
  });
  const objects: Pair[] = [
    [0, 'DICTIONARY'],
    [5, HANDLE.rootDictionary],
    [330, '0'],
    [100, 'AcDbDictionary'],
    [281, 1],
    [3, 'ACAD_GROUP'],
    [350, HANDLE.groups],
    [0, 'DICTIONARY'],
    [5, HANDLE.groups],
    [330, HANDLE.rootDictionary],
    [100, 'AcDbDictionary'],
    [281, 1],
  ];
  return [
    ...header('AC1015', sheet, [
      [9, '$HANDSEED'],
      [5, handle()],
    ]),
    ...section('CLASSES', []),
    ...section('TABLES', tables),
    ...section('BLOCKS', blocks),
    ...section('ENTITIES', entities),
    ...section('OBJECTS', objects),
    [0, 'EOF'],
  ];
}

function entityR2000(entity: Entity): { type: string; body: Pair[] } {
  if (entity.kind === 'line')
    return { type: 'LINE', body: [[100, 'AcDbLine'], ...point(10, entity.from), ...point(11, entity.to)] };
  if (entity.kind === 'text')
    return { type: 'TEXT', body: [[100, 'AcDbText'], ...textBody(entity), [100, 'AcDbText']] };
  const { loop } = entity;
  if (loop.kind === 'circle') return { type: 'CIRCLE', body: [[100, 'AcDbCircle'], ...circleBody(loop)] };
  return {
    type: 'LWPOLYLINE',
    body: [
      [100, 'AcDbPolyline'],
      [90, loop.corners.length],
      [70, 1],
      ...loop.corners.flatMap(({ at: [x, y], bulge }): Pair[] => [
        [10, real(x)],
        [20, real(y)],
        ...bulgeOf(bulge),
      ]),
    ],
  };
}
