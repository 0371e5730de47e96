/**
 * A copy of plain data (objects, lists, numbers, words, typed arrays) whose typed arrays stand in shared memory, so that
 * threads are handed it without a copy each; none may write to it. An object that is met twice is copied once. `known`:
 * copies of typed arrays from earlier calls, to which new ones are added.
 */
export function inSharedMemory<T>(data: T, known = new WeakMap<object, object>()): T {
  const copies = new Map<object, object>();
  const copy = (value: unknown): unknown => {
    if (typeof value !== 'object' || value === null) return value;
    const before = known.get(value) ?? copies.get(value);
    if (before !== undefined) return before;
    if (ArrayBuffer.isView(value)) {
      const shared = shareArray(value as TypedArray);
      known.set(value, shared);
      return shared;
    }
    const made: object = Array.isArray(value) ? [] : {};
    copies.set(value, made);
    for (const [key, one] of Object.entries(value)) (made as Record<string, unknown>)[key] = copy(one);
    return made;
  };
  return copy(data) as T;
}

type TypedArray = Float64Array | Float32Array | Uint32Array | Int32Array | Uint16Array | Uint8Array;

function shareArray(array: TypedArray): TypedArray {
  const Kind = array.constructor as new (memory: SharedArrayBuffer) => TypedArray;
  const shared = new Kind(new SharedArrayBuffer(array.byteLength));
  shared.set(array);
  return shared;
}
