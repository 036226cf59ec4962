// The job that is being worked on: its text, what the engine says of it, and every change to it.

import { batch, computed, signal } from '@preact/signals';
import { type Change, changedText, type JobFiles, type Lit, lit, moved, Refused, roomOf, roughlyLit } from '../engine/commands';
import type { Files } from '../engine/messages';
import { Engine, programInPage, Stopped } from '../engine/engine';
import type { PlacedCan, Point, Room } from '../engine/results';
import type { EmbeddedJob } from './embedded';
import { forgetAll, keep, type KeptJob, keptJob } from './kept';
import { begun, canRedo, canUndo, followedBy, present, redone, undone, type UndoList } from './undo_list';

const program = programInPage();

/** Answers within a frame or a few: edits, light. */
export const engine = new Engine(program);

/** Takes its time: comparisons, searches, pictures, sheets. May be stopped. */
export const patientEngine = new Engine(program);

const list = signal<UndoList>(begun(''));
export const jobName = signal('');
export const jobFiles = signal<Files>({});

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

/** The job that was open before this one. */
export const jobBefore = signal<KeptJob | null>(null);

export const jobText = computed(() => present(list.value));
/** The text as it was when the job was opened, or the oldest that undo comes to. */
export const firstText = computed(() => list.value.texts[0] ?? '');
export const mayUndo = computed(() => canUndo(list.value));
export const mayRedo = computed(() => canRedo(list.value));

/** The job as commands take it. */
export const jobNow = (): JobFiles => ({ text: jobText.value, files: jobFiles.value });

let pageKey = '';
let turn = 0;

const keyOfBefore = (): string => `before ${pageKey}`;
const allOfJob = (): KeptJob => ({ name: jobName.value, list: list.value, files: jobFiles.value });

async function keepNow(): Promise<void> {
  try {
    await keep(pageKey, allOfJob());
    if (jobBefore.value) await keep(keyOfBefore(), jobBefore.value);
    keepingProblem.value = '';
  } catch {
    keepingProblem.value = 'This browser keeps nothing: save the job as a file before you leave.';
  }
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
  void keepNow();
  return show(jobNow());
}

/** The first job of a visit: what is kept under a key or, where nothing is, another. */
export async function begin(key: string, otherwise: EmbeddedJob | undefined): Promise<void> {
  pageKey = key;
  const kept = await keptJob(key).catch(() => undefined);
  jobBefore.value = (await keptJob(keyOfBefore()).catch(() => undefined)) ?? null;
  if (kept) await open(kept);
  else if (otherwise) await openEmbedded(otherwise);
}

/** Opens a job in place of the present one. */
export function open(job: KeptJob): Promise<void> {
  batch(() => {
    if (jobText.value !== '') jobBefore.value = allOfJob();
    jobName.value = job.name;
    jobFiles.value = job.files;
    room.value = null;
    light.value = null;
  });
  return take(job.list);
}

export const openEmbedded = (job: EmbeddedJob): Promise<void> =>
  open({ name: job.name, list: begun(job.text), files: job.files });

export function rename(name: string): void {
  jobName.value = name;
  void keepNow();
}

/** Forgets all that is kept on this device; the job stays open, and the next change keeps it again. */
export async function forget(): Promise<void> {
  jobBefore.value = null;
  await forgetAll();
}

/** Puts files beside the job that it may name. */
export function addFiles(files: Files): Promise<void> {
  jobFiles.value = { ...jobFiles.value, ...files };
  void keepNow();
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
  await showFound(jobNow(), true, async () => (await found).lit);
  return (await found).placed;
}
