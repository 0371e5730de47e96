/**
 * Copies plain data (objects, arrays, numbers, strings, typed arrays) with its typed arrays in shared memory, so that
 * all threads can read one copy; no thread may write to it. A map is kept as it is: it holds assets, whose bytes threads
 * share anyway. Arrays already in shared memory are not copied, and an
 * object that occurs twice is copied once. `known`: typed arrays copied in earlier calls; new copies are added to it.
 */
export function inSharedMemory<T>(data: T, known = new WeakMap<object, object>()): T {
  const copies = new Map<object, object>();
  const copy = (value: unknown): unknown => {
    if (typeof value !== 'object' || value === null || value instanceof Map) return value;
    const before = known.get(value) ?? copies.get(value);
    if (before !== undefined) return before;
    if (ArrayBuffer.isView(value)) {
      if (value.buffer instanceof SharedArrayBuffer) return value;
      const shared = shareArray(value as TypedArray);
      known.set(value, shared);
      return shared;
    }
    const copied: object = Array.isArray(value) ? [] : {};
    copies.set(value, copied);
    for (const [key, one] of Object.entries(value)) (copied as Record<string, unknown>)[key] = copy(one);
    return copied;
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
