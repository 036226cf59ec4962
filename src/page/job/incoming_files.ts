// Files that come from the device: a job, the photometric files that it names, others that it may take.

import { signal } from '@preact/signals';
import { type JobFiles, photometryOf, Refused, roomOf } from '../engine/commands';
import type { Photometry } from '../engine/results';
import { addFiles, change, engine, jobFiles, openEmbedded, problem, room } from './job_desk';
import { found, type Incoming, missingFiles, rest } from './missing_files';

/** A photometric file that is not part of the job yet. */
export interface Offer {
  readonly name: string;
  readonly bytes: Uint8Array;
  /** What the engine reads in it; else why it cannot. */
  readonly found: Photometry | null;
  readonly refusal: string;
}

export const offers = signal<readonly Offer[]>([]);
/** Why files were not taken. */
export const incomingProblem = signal('');

export const k_photometric = '.ies,.ldt';
export const k_acceptable = `.toml,${k_photometric}`;

const k_most_bytes = 64 * 1024 * 1024; // the program reads no larger files

/** What the engine says against a job; empty when it can be worked on. */
async function refusal(job: JobFiles): Promise<string> {
  try {
    await roomOf(engine, job);
    return '';
  } catch (why) {
    if (why instanceof Refused) return why.message;
    throw why;
  }
}

async function offered([name, bytes]: [string, Uint8Array]): Promise<Offer> {
  try {
    return { name, bytes, found: await photometryOf(engine, name, bytes), refusal: '' };
  } catch (why) {
    if (why instanceof Refused) return { name, bytes, found: null, refusal: why.message };
    throw why;
  }
}

async function offer(files: Incoming): Promise<void> {
  const all = await Promise.all(Object.entries(files).map(offered));
  offers.value = [...offers.value.filter(({ name }) => !files[name]), ...all];
}

export const dismiss = (gone: Offer): void => {
  offers.value = offers.value.filter((each) => each !== gone);
};

async function openJob(name: string, bytes: Uint8Array, others: Incoming): Promise<void> {
  let text: string;
  try {
    text = new TextDecoder('utf-8', { fatal: true, ignoreBOM: true }).decode(bytes);
  } catch {
    incomingProblem.value = `${name} is no text in UTF-8: save it so.`;
    return;
  }
  const files = found(missingFiles(await refusal({ text, files: {} })), others);
  const wrong = await refusal({ text, files });
  if (wrong && missingFiles(wrong).length === 0) {
    incomingProblem.value = `${name} is not opened; the job that was open still is.\n${wrong}`;
    return;
  }
  await openEmbedded({ name, text, files });
  await offer(rest(others, files));
}

/** Opens the job among the files, gives the job what it misses, and offers the rest as types of can. */
export async function takeFiles(files: readonly File[]): Promise<void> {
  incomingProblem.value = '';
  const tooLarge = files.find(({ size }) => size > k_most_bytes);
  const jobs = files.filter(({ name }) => /\.toml$/i.test(name));
  if (tooLarge) incomingProblem.value = `${tooLarge.name} is larger than 64 MiB: choose the right file.`;
  else if (jobs.length > 1) incomingProblem.value = 'These are several jobs: open one of them.';
  if (incomingProblem.value) return;

  const read = async (file: File) => [file.name, new Uint8Array(await file.arrayBuffer())] as const;
  const [job] = jobs;
  const others = Object.fromEntries(await Promise.all(files.filter((file) => file !== job).map(read)));
  if (job) {
    await openJob(job.name, (await read(job))[1], others);
    return;
  }
  const missed = found(missingFiles(problem.value), others);
  if (Object.keys(missed).length > 0) await addFiles(missed);
  await offer(rest(others, missed));
}

/** Gives the job the file that it names by this path, whatever it is called on the device. */
export async function takeMissing(path: string, file: File): Promise<void> {
  await addFiles({ [path]: new Uint8Array(await file.arrayBuffer()) });
}

export const isBeside = (name: string): boolean => Object.hasOwn(jobFiles.value, name);
export const hasType = (name: string): boolean => room.value?.can_types.some((type) => type.name === name) ?? false;

/**
 * Makes an offered file a type of can of the job, or the file of a type that is there.
 *
 * @returns what is wrong; empty when it is done
 */
export async function takeAsType(taken: Offer, type: string): Promise<string> {
  await addFiles({ [taken.name]: taken.bytes });
  const wrong = await change([
    hasType(type)
      ? { set: ['can_types', type, 'file'], value: taken.name }
      : { set: ['can_types', type], value: { file: taken.name } },
  ]);
  if (!wrong) dismiss(taken);
  return wrong;
}
