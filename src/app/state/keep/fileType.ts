/** File types by extension, in lower case. */
const BY_EXTENSION: Readonly<Record<string, string>> = {
  stl: 'a mesh (STL)',
  obj: 'a mesh (OBJ)',
  '3mf': 'a mesh (3MF)',
  ply: 'a mesh (PLY)',
  step: 'a CAD model (STEP)',
  stp: 'a CAD model (STEP)',
  igs: 'a CAD model (IGES)',
  iges: 'a CAD model (IGES)',
  dxf: 'a drawing (DXF)',
  dwg: 'a drawing (DWG)',
  svg: 'a drawing (SVG)',
  pdf: 'a document (PDF)',
  jpg: 'a photo (JPEG)',
  jpeg: 'a photo (JPEG)',
  heic: 'a photo (HEIC)',
  png: 'a picture (PNG)',
  webp: 'a picture (WebP)',
  gif: 'a picture (GIF)',
  mov: 'a video',
  mp4: 'a video',
  zip: 'an archive (ZIP)',
  csv: 'a table (CSV)',
  xlsx: 'a table (XLSX)',
};

/** File types by signature: the first bytes, as Latin-1 text. */
const BY_SIGNATURE: readonly (readonly [string, string])[] = [
  ['\x89PNG', BY_EXTENSION.png],
  ['\xff\xd8\xff', BY_EXTENSION.jpg],
  ['%PDF-', BY_EXTENSION.pdf],
  ['PK\x03\x04', BY_EXTENSION.zip],
  ['ISO-10303-21', BY_EXTENSION.step],
  ['solid ', BY_EXTENSION.stl],
];

/** Bytes to read; at least the length of the longest signature. */
const SIGNATURE_BYTES = 16;

/** Size limit, far above any corner file, so that a mesh or a video is not read as text. */
const MAX_BYTES = 5_000_000;

/** Type of a file that is not a corner file, by signature, else by extension; undefined if neither is known. */
export function fileType(name: string, firstBytes: Uint8Array): string | undefined {
  const beginning = String.fromCharCode(...firstBytes.subarray(0, SIGNATURE_BYTES));
  const known = BY_SIGNATURE.find(([signature]) => beginning.startsWith(signature));
  if (known !== undefined) return known[1];
  const extension = /\.([a-z0-9]+)$/.exec(name.toLowerCase())?.[1];
  return extension === undefined ? undefined : BY_EXTENSION[extension];
}

/** Why a file cannot be a corner file, with what to do; undefined if it may be one. */
export async function notCornerFileReason(file: File): Promise<string | undefined> {
  const type = fileType(file.name, new Uint8Array(await file.slice(0, SIGNATURE_BYTES).arrayBuffer()));
  if (type !== undefined) return `this is ${type}; choose a corner file, whose name ends in .corner.json`;
  if (file.size <= MAX_BYTES) return undefined;
  return `the file holds ${file.size} bytes; a corner file is a few thousand: choose a .corner.json`;
}
