/** Gives a file to the browser, which saves it where it saves downloads. */
export function saveFile(name: string, content: Uint8Array | string, type: string): void {
  const address = URL.createObjectURL(new Blob([content as BlobPart], { type }));
  const link = document.createElement('a');
  link.href = address;
  link.download = name;
  link.click();
  setTimeout(() => URL.revokeObjectURL(address), 60_000); // some browsers read it only after the click is over
}
