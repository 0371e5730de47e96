/** A value in JSON: itself, or an index into the objects, the typed arrays or `RARE`. */
type Cell = string | number | boolean | null | { object: number } | { array: number } | { rare: number };

interface Contents {
  value: Cell;
  objects: (Cell[] | Record<string, Cell>)[];
  /** The bytes of the arrays follow in this order. */
  arrays: { type: keyof typeof ARRAYS; bytes: number }[];
}

const ARRAYS = { Uint8Array, Uint32Array, Float64Array };
type TypedArray = InstanceType<(typeof ARRAYS)[keyof typeof ARRAYS]>;

/** Values that JSON cannot represent. */
const RARE = [undefined, Number.NaN, Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY, -0];

/**
 * Bytes of plain data with typed arrays, for `unpacked`. Numbers keep every bit, and an object that occurs twice is one
 * object again. Throws an Error for any other object.
 */
export function packed(value: unknown): Blob {
  const objects: Contents['objects'] = [];
  const arrays: TypedArray[] = [];
  const cells = new Map<object, Cell>();
  const cellOf = (held: unknown): Cell => {
    const rare = RARE.findIndex((one) => Object.is(one, held));
    if (rare >= 0) return { rare };
    if (typeof held !== 'object' || held === null) return held as Cell;
    const known = cells.get(held);
    if (known !== undefined) return known;
    if (isTypedArray(held)) {
      const cell = { array: arrays.push(held) - 1 };
      cells.set(held, cell);
      return cell;
    }
    const object = objects.push([]) - 1;
    cells.set(held, { object });
    objects[object] = cellsOf(held);
    return { object };
  };
  const cellsOf = (held: object): Contents['objects'][number] => {
    if (Array.isArray(held)) return held.map(cellOf);
    if (held.constructor !== Object) throw new Error(`a ${held.constructor.name} cannot be packed`);
    return Object.fromEntries(Object.entries(held).map(([key, one]) => [key, cellOf(one)]));
  };
  const contents: Contents = {
    value: cellOf(value),
    objects,
    arrays: arrays.map(({ constructor: { name }, byteLength: bytes }) => ({
      type: name as keyof typeof ARRAYS,
      bytes,
    })),
  };
  const json = new TextEncoder().encode(JSON.stringify(contents));
  return new Blob([Uint32Array.of(json.length), json, ...(arrays as Uint8Array<ArrayBuffer>[])]);
}

/** The value that `packed` was given. Each typed array has a buffer of its own. */
export function unpacked(bytes: ArrayBuffer): unknown {
  const [length] = new Uint32Array(bytes, 0, 1);
  const json = new Uint8Array(bytes, Uint32Array.BYTES_PER_ELEMENT, length);
  const contents: Contents = JSON.parse(new TextDecoder().decode(json));
  let start = json.byteOffset + length;
  const arrays = contents.arrays.map(({ type, bytes: size }) => {
    start += size;
    return new ARRAYS[type](bytes.slice(start - size, start));
  });
  const objects = contents.objects.map((cells): object => (Array.isArray(cells) ? [] : {}));
  const valueIn = (cell: Cell): unknown => {
    if (typeof cell !== 'object' || cell === null) return cell;
    if ('array' in cell) return arrays[cell.array];
    return 'object' in cell ? objects[cell.object] : RARE[cell.rare];
  };
  contents.objects.forEach((cells, at) => {
    for (const [key, cell] of Object.entries(cells)) Object.assign(objects[at], { [key]: valueIn(cell) });
  });
  return valueIn(contents.value);
}

const isTypedArray = (held: object): held is TypedArray =>
  Object.values(ARRAYS).some((type) => held instanceof type);
