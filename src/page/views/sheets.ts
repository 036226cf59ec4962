// The sheets that the engine makes of a job, and the one that is shown.

import { signal } from '@preact/signals';
import { k_job, made, Refused } from '../engine/commands';
import { Stopped } from '../engine/engine';
import { jobName, jobNow, patientEngine } from '../job/job_desk';

interface Kind {
  readonly label: string;
  readonly about: string;
  /** A command, without the job; the last word is the file that it writes. */
  readonly words: readonly string[];
  readonly type: 'text/html' | 'text/csv' | 'image/png' | 'image/svg+xml';
  /** Said with sheets that do not say it themselves. */
  readonly caution: string;
  /** It is of the cables, from the switches on. */
  readonly isOfWiring: boolean;
}

const k_before_work =
  'Before cutting or wiring: measure again, prove the circuit dead, stand safely. Licensed practice and the local code come first.';

export const k_sheets = {
  setout: {
    label: 'Set-out sheet',
    about: 'for the ladder: where to mark and cut, by tape',
    words: ['setout', '--html', 'set-out.html'],
    type: 'text/html',
    caution: '',
    isOfWiring: false,
  },
  handout: {
    label: 'Handout',
    about: 'for who lives in the room: the plan of light',
    words: ['handout', '--html', 'handout.html'],
    type: 'text/html',
    caution: '',
    isOfWiring: false,
  },
  list: {
    label: 'Shopping list',
    about: 'cans, cable, boxes and small parts to buy',
    words: ['wiring', '--csv', 'shopping-list.csv'],
    type: 'text/csv',
    caution: k_before_work,
    isOfWiring: true,
  },
  wiring: {
    label: 'Wiring plan',
    about: 'cables from box to box',
    words: ['wiring', '--sheet', 'wiring.svg'],
    type: 'image/svg+xml',
    caution: k_before_work,
    isOfWiring: true,
  },
  map: {
    label: 'Map of light',
    about: 'the plan in false colours, a picture (PNG)',
    words: ['light', '--map', 'map.png'],
    type: 'image/png',
    caution: '',
    isOfWiring: false,
  },
  picture: {
    label: 'The room as it will look',
    about: 'from the first view, a picture (PNG)',
    words: ['view', '--picture', 'room.png'],
    type: 'image/png',
    caution: '',
    isOfWiring: false,
  },
} as const satisfies Record<string, Kind>;

export type SheetName = keyof typeof k_sheets;

export const kindOf = (name: SheetName): Kind => k_sheets[name];

export interface Sheet {
  readonly name: SheetName;
  /** The job's text that it was made of. */
  readonly text: string;
  readonly bytes: Uint8Array;
}

export const shownSheet = signal<Sheet | null>(null);
/** The one that was shown last, to which who uses a keyboard comes back. */
export const lastSheet = signal<SheetName | null>(null);
export const making = signal<{ readonly name: SheetName; readonly progress: string } | null>(null);
export const sheetProblem = signal<{ readonly name: SheetName; readonly text: string } | null>(null);

const k_file = /^(.*?)(?:\.toml)?$/is;

/** The name of a job without the ending of its file. */
export const withoutEnding = (name: string): string => k_file.exec(name)?.[1] || 'job';

/** What files that come of the job begin with. */
export const baseOfJob = (): string => withoutEnding(jobName.value);

export const fileNameOf = (name: SheetName): string => `${baseOfJob()}-${kindOf(name).words.at(-1) ?? ''}`;

export async function make(name: SheetName): Promise<void> {
  const job = jobNow();
  const [command = '', ...options] = kindOf(name).words;
  const file = options.at(-1) ?? '';
  sheetProblem.value = null;
  making.value = { name, progress: '' };
  try {
    const bytes = await made(patientEngine, job, [command, k_job, ...options], file, (progress) => {
      making.value = { name, progress };
    });
    lastSheet.value = name;
    shownSheet.value = { name, text: job.text, bytes };
  } catch (why) {
    if (why instanceof Refused) sheetProblem.value = { name, text: why.message };
    else if (!(why instanceof Stopped)) throw why;
  } finally {
    making.value = null;
  }
}

export const stopMaking = (): void => patientEngine.stop();
