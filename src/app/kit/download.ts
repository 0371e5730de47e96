/** Downloads a file under a name. */
export function download(name: string, data: Blob): void {
  const link = document.createElement('a');
  link.href = URL.createObjectURL(data);
  link.download = name;
  link.click();
  // The download starts before the next task runs.
  setTimeout(() => URL.revokeObjectURL(link.href), 0);
}

/** The name of a corner as that of a file, without an ending. */
export const fileNameOf = (name: string): string =>
  name.replace(/[^\p{L}\p{N}]+/gu, '-').replace(/^-|-$/g, '') || 'corner';
