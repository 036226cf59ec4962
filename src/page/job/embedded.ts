// The jobs that the page was made with.

/** A job file and the files that it names, by their paths from it. */
export interface EmbeddedJob {
  readonly name: string;
  readonly text: string;
  readonly files: Readonly<Record<string, string>>;
}

const read = <T>(id: string): T => JSON.parse(document.getElementById(id)?.textContent || 'null') as T;

/** The job that `evenlit page` made this page for; null in the blank page. */
export const jobOfPage = (): EmbeddedJob | null => read<EmbeddedJob | null>('job');

/** The demo jobs. */
export const demoJobs = (): readonly EmbeddedJob[] => read<readonly EmbeddedJob[] | null>('demos') ?? [];
