// The job that is being worked on: its text, what the engine says of it, and every change to it.

import { batch, computed, signal } from '@preact/signals';
import { type Change, changedText, type JobFiles, type Lit, lit, moved, Refused, roomOf, roughlyLit } from '../engine/commands';
import type { Files } from '../engine/messages';
import { Engine, programInPage, Stopped } from '../engine/engine';
import type { PlacedCan, Point, Room } from '../engine/results';
import { demoJobs, type EmbeddedJob, jobOfPage } from './embedded';
import { byWorth, type Earlier, forgetAll, forgetJob, keep, type KeptJob, keptJobs, newId, openHere, rememberOpen } from './kept';
import { begun, canRedo, canUndo, followedBy, present, redone, undone, type UndoList } from './undo_list';

const program = programInPage();

/** Answers within a frame or a few: edits, light. */
export const engine = new Engine(program);

const k_rest_ms = 2000;

/** Takes its time, and much memory: comparisons, searches, pictures, sheets. May be stopped. */
export const patientEngine = new Engine(program, k_rest_ms);

const list = signal<UndoList>(begun(''));
export const jobName = signal('');
export const jobFiles = signal<Files>({});
/** Texts that the job had and that were noted, to be compared with. */
export const earlier = signal<Earlier>({});

/** What the engine made of the text that is shown; the room may be known where the light is not. */
export const room = signal<Room | null>(null);
export const light = signal<Lit | null>(null);
/** The light is a rough one, for something is being moved. */
export const isRough = signal(false);
export const isBusy = signal(false);
/** What the engine says is wrong with the job. */
export const problem = signal('');
/** Why nothing can be kept on this device. */
export const keepingProblem = signal('');

/** What the user should know of how the job is kept; stays until it is put away. */
export const keepingRemark = signal('');

/** The jobs that this device keeps beside the one that is open, the newest first. */
export const otherJobs = signal<readonly KeptJob[]>([]);

export const jobText = computed(() => present(list.value));
/** The text as it was when the job was opened, or the oldest that undo comes to. */
export const firstText = computed(() => list.value.texts[0] ?? '');
export const mayUndo = computed(() => canUndo(list.value));
export const mayRedo = computed(() => canRedo(list.value));

/** The job as commands take it. */
export const jobNow = (): JobFiles => ({ text: jobText.value, files: jobFiles.value });

let pageKey = '';
let turn = 0;
/** As what the open job is kept; every job that is opened gets its own, which what is being kept brings up to date. */
let keptAs = { id: newId(), revision: 0 };
/** The last of what is being kept: one after another, for each needs the revision of the one before it. */
let keeping: Promise<void> = Promise.resolve();

const isSpare = ({ texts }: UndoList): boolean => {
  const own = jobOfPage();
  return texts.length === 1 && [...(own ? [own] : []), ...demoJobs()].some(({ text }) => text === texts[0]);
};

const allOfJob = (): KeptJob => ({
  ...keptAs,
  name: jobName.value,
  list: list.value,
  files: jobFiles.value,
  earlier: earlier.value,
  page: pageKey,
  at_ms: Date.now(),
  isSpare: isSpare(list.value),
});

const beside = (jobs: readonly KeptJob[]): readonly KeptJob[] =>
  byWorth(jobs).filter((job) => !job.isSpare && job.id !== keptAs.id);

/** Finds out what is kept: other pages keep jobs, too. */
export async function lookForOthers(): Promise<void> {
  otherJobs.value = beside(await keptJobs().catch(() => otherJobs.value));
}

async function keepAs(as: typeof keptAs, job: KeptJob): Promise<void> {
  try {
    const { id, revision } = await keep({ ...job, ...as });
    if (id !== as.id) {
      keepingRemark.value =
        'This job was changed in another window too. What you do here is kept as a job of its own; the other one is under “Job”.';
    }
    Object.assign(as, { id, revision });
    rememberOpen(pageKey, keptAs.id);
    keepingProblem.value = '';
    await lookForOthers();
  } catch {
    keepingProblem.value = 'This browser keeps nothing: save the job as a file before you leave.';
  }
}

function keepNow(): void {
  const [as, job] = [keptAs, allOfJob()];
  keeping = keeping.then(() => keepAs(as, job));
}

/**
 * Shows the light that is found; what a newer call finds wins.
 *
 * @param find null: nothing else is to be shown
 */
async function showFound(job: JobFiles, isQuick: boolean, find: () => Promise<Lit | null>): Promise<void> {
  const mine = ++turn;
  isBusy.value = true;
  try {
    const found = await find();
    if (mine !== turn || !found) return;
    batch(() => {
      room.value = found.room;
      light.value = found;
      isRough.value = isQuick;
      problem.value = '';
    });
  } catch (why) {
    if (mine === turn) await showProblem(job, why);
  } finally {
    if (mine === turn) isBusy.value = false;
  }
}

/** Shows the light of a job. */
const show = (job: JobFiles): Promise<void> => showFound(job, false, () => lit(engine, job));

/** Where the colours end that are shown: they keep their meaning while something is moved. */
const shownTop_lx = (): number | null => light.value?.light.scale.at(-1)?.lx ?? null;

async function showProblem(job: JobFiles, why: unknown): Promise<void> {
  if (why instanceof Stopped) {
    problem.value = 'The computation broke down; the job is as it was.';
    return;
  }
  if (!(why instanceof Refused)) throw why;
  const known = await roomOf(engine, job).catch(() => null);
  batch(() => {
    if (known) room.value = known;
    light.value = null;
    problem.value = why.message;
  });
}

function take(next: UndoList): Promise<void> {
  list.value = next;
  keepNow();
  return show(jobNow());
}

/** The first job of a visit: the one that was open here or, where none was, another. */
export async function begin(key: string, otherwise: EmbeddedJob | undefined): Promise<void> {
  pageKey = key;
  const jobs = await keptJobs().catch((): readonly KeptJob[] => []);
  const ofPage = jobs.filter(({ page }) => page === key).sort((a, b) => b.at_ms - a.at_ms);
  const kept = jobs.find(({ id }) => id === openHere(key)) ?? ofPage[0];
  if (kept) await reopen(kept);
  else if (otherwise) await openEmbedded(otherwise);
}

/** Opens a job in place of the present one, which stays kept. */
function open(job: Omit<KeptJob, 'page' | 'at_ms' | 'isSpare'>): Promise<void> {
  const { id, revision, name, list: texts, files } = job;
  const left = jobText.value === '' ? [] : [allOfJob()];
  batch(() => {
    keptAs = { id, revision };
    jobName.value = name;
    jobFiles.value = files;
    earlier.value = job.earlier;
    list.value = texts;
    room.value = null;
    light.value = null;
    otherJobs.value = beside([...left, ...otherJobs.value]);
  });
  return show(jobNow());
}

/** Opens a job that this device does not keep yet. */
export function openEmbedded({ name, text, files }: EmbeddedJob): Promise<void> {
  const opened = open({ id: newId(), revision: 0, name, list: begun(text), files, earlier: {} });
  keepNow();
  return opened;
}

/** Opens a job that is kept, as whoever kept it last left it. */
export async function reopen(job: KeptJob): Promise<void> {
  await keeping; // what is being kept may be this one
  const jobs = await keptJobs().catch((): readonly KeptJob[] => []);
  const opened = open(jobs.find(({ id }) => id === job.id) ?? job);
  rememberOpen(pageKey, keptAs.id);
  await Promise.all([opened, lookForOthers()]);
}

/** Gives up a job that is kept and not open here. */
export async function removeKept({ id }: KeptJob): Promise<void> {
  otherJobs.value = otherJobs.value.filter((job) => job.id !== id);
  await forgetJob(id).catch(() => undefined);
}

export function rename(name: string): void {
  jobName.value = name;
  keepNow();
}

/** Notes texts of the job, to be compared with later. */
export function markEarlier(texts: Earlier): void {
  earlier.value = { ...earlier.value, ...texts };
  keepNow();
}

/** Forgets all that is kept on this device; the job stays open, and the next change keeps it again. */
export async function forget(): Promise<void> {
  await keeping;
  await forgetAll();
  otherJobs.value = [];
}

/** Puts files beside the job that it may name. */
export function addFiles(files: Files): Promise<void> {
  jobFiles.value = { ...jobFiles.value, ...files };
  keepNow();
  return show(jobNow());
}

export const undo = (): Promise<void> => take(undone(list.value));
export const redo = (): Promise<void> => take(redone(list.value));

/**
 * Changes the job's text.
 *
 * @param from what is changed: the present text, or an earlier one from which the present one came
 * @returns what is wrong with the change, in which case nothing is changed; empty when it is done
 */
export async function change(changes: readonly Change[], from = jobText.value): Promise<string> {
  try {
    const text = await changedText(engine, { ...jobNow(), text: from }, changes);
    await take(followedBy(list.value, text));
    return '';
  } catch (why) {
    if (why instanceof Refused) return why.message;
    throw why;
  }
}

/** Shows the light of the job with changes that are not made yet, as while something is dragged. */
export async function preview(changes: readonly Change[]): Promise<void> {
  try {
    const job = { ...jobNow(), text: await changedText(engine, jobNow(), changes) };
    await showFound(job, true, () => roughlyLit(engine, job, shownTop_lx()));
  } catch (why) {
    if (!(why instanceof Refused)) throw why;
  }
}

/** Shows the job as it is again. */
export const endPreview = (): Promise<void> => show(jobNow());

/**
 * Shows the light with a can where it may go near a place.
 *
 * @throws Refused when the job is wrong
 */
export async function previewCan(can: number, wished: Point): Promise<PlacedCan> {
  const found = moved(engine, jobNow(), can, wished, shownTop_lx());
  await showFound(jobNow(), true, async () => (await found).lit());
  return (await found).placed;
}
