// Models of the room that were computed, and those that are being computed; they stay when other views are shown.

import { batch, computed, signal } from '@preact/signals';
import { changedText, compared, type JobFiles, k_job, made, moodsOf, Refused, roomOf } from '../engine/commands';
import { Stopped } from '../engine/engine';
import { k_own_layout, type Layout, type Moods } from '../engine/results';
import { before, k_befores, textBefore } from '../job/earlier';
import { firstText, jobFiles, jobText, jobNow, patientEngine } from '../job/job_desk';
import { layoutChanges } from '../job/layout_changes';
import { BrokenModel, modelOf, type RoomModel } from './see_model';

/** A job and what it looks like. */
export interface Seen {
  readonly job: JobFiles;
  readonly model: RoomModel;
}

/** Another job that the present one is compared with. */
export interface Alternative extends Seen {
  readonly label: string;
  readonly about: string;
}

/** What is compared: alternatives to the job as it was then. */
interface Alternatives {
  readonly to: JobFiles;
  readonly of: readonly Alternative[];
}

const k_exposed_px = '320'; // the picture from which the exposure is found
const k_picture_px = '960';

/** The last one, and the first text of the job that it is of. */
const lastSeen = signal<{ readonly opened: string; readonly seen: Seen } | null>(null);
/** The job that is open as it looks now, or looked before its last changes. */
export const seen = computed(() => (lastSeen.value?.opened === firstText.value ? lastSeen.value.seen : null));
/** Settings of moods that have wishes, and how far these are met; null: not known yet. */
const moods = signal<{ readonly job: JobFiles; readonly moods: Moods['moods'] } | null>(null);
const comparison = signal<Alternatives | null>(null);

/** What runs now, in words; empty: nothing does. */
export const running = signal('');
export const problem = signal('');
/** For a device that cannot draw a model. */
export const picture = signal<Blob | null>(null);
const pictureBegun = signal<JobFiles | null>(null);
/** The job whose model was last begun, so that one that failed or was stopped is not begun again of itself. */
const begun = signal<JobFiles | null>(null);

const isNow = (job: JobFiles | null | undefined): boolean =>
  job?.text === jobText.value && job.files === jobFiles.value;

/** What is shown is of the job as it was. */
export const isStale = computed(() => seen.value !== null && !isNow(seen.value.job));
const isIdle = computed(() => running.value === '' && jobText.value !== '');
export const isToBeBegun = computed(() => isIdle.value && !isNow(begun.value));
export const isPictureToBeBegun = computed(() => isIdle.value && !isNow(pictureBegun.value));
/** Of the job as it is now; null: not known yet. */
export const moodsNow = computed(() => (moods.value && isNow(moods.value.job) ? moods.value.moods : null));
/** What the present job is compared with. */
export const alternatives = computed(() => (isNow(comparison.value?.to) ? (comparison.value?.of ?? []) : []));

export const stop = (): void => patientEngine.stop();

async function run(words: string, work: (job: JobFiles) => Promise<void>): Promise<void> {
  if (running.value) return;
  batch(() => {
    running.value = words;
    problem.value = '';
  });
  try {
    await work(jobNow());
  } catch (why) {
    if (why instanceof Refused || why instanceof BrokenModel) problem.value = why.message;
    else if (!(why instanceof Stopped)) throw why;
  } finally {
    running.value = '';
  }
}

async function modelled(job: JobFiles, words: string): Promise<RoomModel> {
  const say = (text: string): void => void (running.value = `${words}: ${text}`);
  running.value = words;
  const command = ['view', k_job, '--model', 'room.glb', '--width', k_exposed_px];
  return modelOf(await made(patientEngine, job, command, 'room.glb', say));
}

/** The job as it is now. */
export const renew = (): Promise<void> =>
  run('Looking at the room', async (job) => {
    begun.value = job;
    const opened = firstText.value;
    const model = await modelled(job, 'Computing the light of the room');
    lastSeen.value = { opened, seen: { job, model } };
    running.value = 'Looking at the moods';
    moods.value = { job, moods: model.moods.size === 0 ? [] : (await moodsOf(patientEngine, job)).moods };
  });

/** The engine's own picture, from the first view. */
export const renewPicture = (): Promise<void> =>
  run('Drawing the room', async (job) => {
    pictureBegun.value = job;
    const command = ['view', k_job, '--picture', 'room.png', '--width', k_picture_px];
    const bytes = await made(patientEngine, job, command, 'room.png');
    picture.value = new Blob([Uint8Array.from(bytes)], { type: 'image/png' });
  });

export const compareWithBefore = (): Promise<void> =>
  run('Looking at the job as it was', async (job) => {
    const about = `${k_befores[before.value]}.`;
    const jobBefore = { ...job, text: textBefore.value };
    const model = await modelled(jobBefore, 'Computing the room as it was');
    comparison.value = { to: job, of: [{ job: jobBefore, model, label: 'Before', about }] };
  });

/** Whether a layout of as many cans is to be shown rather: for what it gives, then for its darkest point. */
const isBetter = (a: Layout, b: Layout): boolean =>
  a.gives_all_wanted === b.gives_all_wanted ? a.minimum_lx > b.minimum_lx : a.gives_all_wanted;

function bestOf(layouts: readonly Layout[], count: number): Layout | undefined {
  const fitting = layouts.filter(({ cans, misfits }) => cans === count && (misfits ?? 0) === 0);
  return fitting.reduce<Layout | undefined>((best, each) => (best && !isBetter(each, best) ? best : each), undefined);
}

/** The best usual layout of each count, one after another, so that they come in one by one. */
export const compareCounts = (counts: readonly number[]): Promise<void> =>
  run('Looking for layouts', async (job) => {
    const of: Alternative[] = [];
    comparison.value = { to: job, of };
    const room = await roomOf(patientEngine, job);
    const { layouts } = await compared(patientEngine, job, counts, (text) => void (running.value = text));
    const own = layouts.find(({ name }) => name === k_own_layout);
    if (!own) return;
    const missing: number[] = [];
    for (const count of counts) {
      const best = bestOf(layouts, count);
      if (!best) {
        missing.push(count);
        continue;
      }
      const changes = best === own ? [] : layoutChanges(room, own, best);
      const text = changes.length === 0 ? job.text : await changedText(patientEngine, job, changes);
      const changed = { ...job, text };
      const model = await modelled(changed, `Computing the room with ${count} cans`);
      of.push({ job: changed, model, label: `${count} cans`, about: `Layout: ${best.name}.` });
      comparison.value = { to: job, of: [...of] };
    }
    if (missing.length > 0) problem.value = `No usual layout of ${missing.join(' or ')} cans fits in this ceiling.`;
  });
