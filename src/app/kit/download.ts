/** Downloads a file under a name. */
export function download(name: string, data: Blob): void {
  const link = document.createElement('a');
  link.href = URL.createObjectURL(data);
  link.download = name;
  link.click();
  // The download starts before the next task runs.
  setTimeout(() => URL.revokeObjectURL(link.href), 0);
}
