// The jobs that the page was made with.

import type { Files } from '../engine/messages';

/** A job file and the files that it names, by their paths from it. */
export interface EmbeddedJob {
  readonly name: string;
  readonly text: string;
  readonly files: Files;
}

/** The same as the page holds it, its files in base64: they need not be UTF-8. */
interface WrittenJob {
  readonly name: string;
  readonly text: string;
  readonly files: Readonly<Record<string, string>>;
}

const bytesOf = (base64: string): Uint8Array => Uint8Array.from(atob(base64), (letter) => letter.charCodeAt(0));

const jobOf = ({ name, text, files }: WrittenJob): EmbeddedJob => ({
  name,
  text,
  files: Object.fromEntries(Object.entries(files).map(([path, base64]) => [path, bytesOf(base64)])),
});

const read = <T>(id: string): T | null => JSON.parse(document.getElementById(id)?.textContent || 'null') as T | null;

/** The job that `evenlit page` made this page for; null in the blank page. */
export function jobOfPage(): EmbeddedJob | null {
  const written = read<WrittenJob>('job');
  return written && jobOf(written);
}

/** The demo jobs. */
export const demoJobs = (): readonly EmbeddedJob[] => (read<readonly WrittenJob[]>('demos') ?? []).map(jobOf);
