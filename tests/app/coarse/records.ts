import { packed, unpacked } from './packed.ts';

/** A value that the server has recorded at an address; undefined if it has none. */
export async function recordAt<T>(address: string): Promise<T | undefined> {
  const bytes = await (await fetch(address)).arrayBuffer();
  return bytes.byteLength === 0 ? undefined : (unpacked(bytes) as T);
}

export async function record(address: string, value: unknown): Promise<void> {
  await fetch(address, { method: 'PUT', body: packed(value) });
}

/** The address of what is recorded for a key. */
export async function addressFor(key: string): Promise<string> {
  const hash = await crypto.subtle.digest('SHA-256', new TextEncoder().encode(key));
  const hex = [...new Uint8Array(hash)].map((byte) => byte.toString(16).padStart(2, '0')).join('');
  return `/recorded/${hex}`;
}
