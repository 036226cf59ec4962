// Which files a job names that are not with it, and which of some files they are.

export type Incoming = Readonly<Record<string, Uint8Array>>;

export const baseName = (path: string): string => path.slice(path.lastIndexOf('/') + 1);

/** The paths of the files that a job names and that are not there, by what the engine says of the job. */
export const missingFiles = (problemText: string): readonly string[] =>
  [...problemText.matchAll(/^\S.*?: "(.*)" cannot be read: /gm)].flatMap(([, path]) => path ?? []);

/** Those of the files that are missing, by their paths from the job; files are known by their base names. */
export const found = (missing: readonly string[], among: Incoming): Incoming =>
  Object.fromEntries(
    missing.flatMap((path) => {
      const bytes = among[baseName(path)];
      return bytes ? [[path, bytes]] : [];
    }),
  );

/** The files that were not taken for missing ones. */
export function rest(files: Incoming, taken: Incoming): Incoming {
  const names = new Set(Object.keys(taken).map(baseName));
  return Object.fromEntries(Object.entries(files).filter(([name]) => !names.has(name)));
}
